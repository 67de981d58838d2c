//! The drawer of taps: sets, and what is missing from them.

use leptos::prelude::*;

use crate::{
    engine::threads::{Thread, tap_set::TapSet},
    ui::{
        components::{Button, Complaint, Page, Rank, TextField, Toggle, mark::Mark},
        state::App,
    },
};

/// Every set with its taps, and single ones.
#[component]
pub fn Taps() -> impl IntoView {
    view! {
        <Page title="Your taps" back_to="shop">
            <p>"A thick edge: the tap is here. A recipe says which one is missing."</p>
            {TapSet::ALL.map(|set| view! { <OneSet set /> }).into_iter().collect_view()}
            <Singles />
        </Page>
    }
}

#[component]
fn OneSet(set: TapSet) -> impl IntoView {
    let app = App::get();
    let marks = set.threads().into_iter().map(move |thread| {
        let here = app.part(move |document| document.taps.has(thread));
        let turn = move |()| {
            app.change(|document| {
                document.taps.own(thread, !document.taps.has(thread));
                document.count_change();
            });
        };
        view! { <Mark name=thread.short_name() on=here on_press=turn /> }
    });
    view! {
        <section class="stack">
            <Toggle
                label=set.words()
                on=app.part(move |document| document.taps.has_set(set))
                said=("all here", "not all")
                on_change=move |on| {
                    app.change(|document| {
                        document.taps.own_set(set, on);
                        document.count_change();
                    });
                }
            />
            <div class="marks">{marks.collect_view()}</div>
        </section>
    }
}

/// Taps of no set.
#[component]
fn Singles() -> impl IntoView {
    let app = App::get();
    let singles = app.part(|document| document.taps.singles());
    let name = RwSignal::new(String::new());
    let complaint = RwSignal::new(None);
    let add = move |()| {
        let mut added = Ok(());
        app.change(|document| added = document.taps.add(&name.read_untracked()));
        complaint.set(added.as_ref().err().map(Complaint::from));
        if added.is_ok() {
            name.set(String::new());
            app.change(|document| document.count_change());
        }
    };
    let take_out = move |thread: Thread| {
        app.remove(
            format!("The tap {}", thread.designation()),
            move |document| {
                document.taps.own(thread, false);
                document.count_change();
                Some(thread)
            },
            |document, thread| document.taps.own(thread, true),
        );
    };
    let row = move |thread: Thread| {
        view! {
            <Button rank=Rank::Secondary on_press=move |()| take_out(thread)>
                "Take out " {thread.designation()}
            </Button>
        }
    };
    view! {
        <section class="stack">
            <h2>"Single taps"</h2>
            {move || singles.get().into_iter().map(row).collect_view()}
            <TextField
                label="Another one, such as 5-40 or M7"
                value=name
                on_change=move |text| {
                    name.set(text);
                    complaint.set(None);
                }
                complaint
            />
            <Button rank=Rank::Secondary on_press=add>
                "Put it in the drawer"
            </Button>
        </section>
    }
}
