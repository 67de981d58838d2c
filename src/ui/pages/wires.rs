//! The wires that threads are measured over.

use leptos::prelude::*;

use crate::{
    engine::question::Field,
    shop::typed::Typed,
    ui::{
        components::{Button, Complaint, NumberField, Page, Rank},
        state::App,
    },
};

/// The wires owned, and another one.
#[component]
pub fn Wires() -> impl IntoView {
    let app = App::get();
    let own = app.part(|document| document.threads.wires());
    let typed = RwSignal::new(Typed::default());
    let complaint = RwSignal::new(None);
    let add = move |()| {
        let wire = typed.get_untracked().begun_in(app.system().get_untracked());
        let mut added = Ok(());
        app.change(|document| added = document.threads.add_wire(&wire));
        complaint.set(added.as_ref().err().map(Complaint::from));
        if added.is_ok() {
            typed.set(Typed::default());
            app.change(|document| document.count_change());
        }
    };
    let take_out = move |wire: Typed| {
        app.remove(
            format!("Wires of {}", wire.with_unit(Field::Wire)),
            move |document| {
                document.threads.remove_wire(&wire);
                document.count_change();
                Some(wire)
            },
            |document, wire| {
                // It was there before, so it can be there again.
                let _ = document.threads.add_wire(&wire);
            },
        );
    };
    let rows = move || {
        let row = |wire: Typed| {
            let name = wire.with_unit(Field::Wire);
            view! {
                <Button rank=Rank::Secondary on_press=move |()| take_out(wire.clone())>
                    "Take out " {name}
                </Button>
            }
        };
        own.get().into_iter().map(|(wire, _)| row(wire)).collect_view()
    };
    view! {
        <Page title="Your thread wires" back_to="shop">
            <p>"Three of each diameter. A thread is measured over those nearest to its best ones."</p>
            {rows}
            <NumberField
                field=Field::Wire
                label="Wires of another diameter"
                value=Signal::derive(move || typed.get().begun_in(app.system().get()))
                on_change=move |now| {
                    typed.set(now);
                    complaint.set(None);
                }
                complaint
            />
            <Button rank=Rank::Primary on_press=add>
                "Put them in the drawer"
            </Button>
        </Page>
    }
}
