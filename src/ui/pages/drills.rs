//! The drawer of drills: which boxes there are, and what is missing from them.

use leptos::prelude::*;

use crate::{
    engine::drills::{self, Drill, NameError},
    shop::word::Word,
    ui::{
        components::{Button, Complaint, Page, Rank, TextField, Tile, Toggle, mark::Mark},
        sketch::Sketch,
        state::App,
    },
};

/// What is in the drawer, in a few words.
#[must_use]
pub fn in_words(count: usize) -> String {
    match count {
        0 => "which ones do you own?".to_owned(),
        1 => "one drill".to_owned(),
        many => format!("{many} drills"),
    }
}

/// The boxes, or one of them with its drills.
#[component]
pub fn Drills(
    /// A box; all of them without.
    set: Option<drills::Set>,
) -> impl IntoView {
    let app = App::get();
    match set {
        Some(set) => view! { <Box app set /> }.into_any(),
        None => view! { <Boxes app /> }.into_any(),
    }
}

#[component]
fn Boxes(app: App) -> impl IntoView {
    view! {
        <Page title="Your drills" back_to="shop">
            <p>"Holes are answered with these first. A drill that is gone is marked in its box."</p>
            {drills::Set::ALL.map(|set| view! { <OneBox app set /> }).into_iter().collect_view()}
            <Singles app />
        </Page>
    }
}

#[component]
fn OneBox(app: App, set: drills::Set) -> impl IntoView {
    let owned = app.part(move |document| document.drills.has_set(set));
    let missing = app.part(move |document| document.drills.missing_of(set));
    let detail = Signal::derive(move || match missing.get() {
        0 => "none is missing".to_owned(),
        1 => "one is missing".to_owned(),
        many => format!("{many} are missing"),
    });
    view! {
        <section class="stack">
            <Toggle
                label=set.words()
                on=owned
                said=("here", "not here")
                on_change=move |on| app.change(|document| {
                    document.drills.own_set(set, on);
                    document.count_change();
                })
            />
            {move || {
                owned
                    .get()
                    .then(|| {
                        view! {
                            <Tile
                                to=format!("shop?drills={}", set.word())
                                name="Mark what is missing"
                                detail
                                sketch=Sketch::Drill
                                across=true
                            />
                        }
                    })
            }}
        </section>
    }
}

#[component]
fn Box(app: App, set: drills::Set) -> impl IntoView {
    let marks = set.drills().into_iter().map(move |drill| {
        let here = app.part(move |document| !document.drills.is_missing(drill));
        let miss = move |()| {
            app.change(|document| {
                document.drills.miss(drill, !document.drills.is_missing(drill));
                document.count_change();
            });
        };
        view! { <Mark name=drill.short_name() on=here on_press=miss /> }
    });
    view! {
        <Page title=set.words() back_to="shop?drills">
            <p>"A thick edge: the drill is here. Tap one that is gone."</p>
            <div class="marks">{marks.collect_view()}</div>
        </Page>
    }
}

/// Drills that belong to no box.
#[component]
fn Singles(app: App) -> impl IntoView {
    let singles = app.part(|document| document.drills.singles().collect::<Vec<_>>());
    let name = RwSignal::new(String::new());
    let complaint = RwSignal::new(None);
    let add = move |()| {
        let mut added = Ok(());
        app.change(|document| added = document.drills.add(&name.read_untracked()).map(|_| ()));
        match added {
            Ok(()) => {
                name.set(String::new());
                complaint.set(None);
                app.change(|document| document.count_change());
            }
            Err(why) => complaint.set(Some(complain(why))),
        }
    };
    let remove = move |drill: Drill| {
        app.remove(
            drill.name(),
            move |document| {
                document.drills.remove(drill);
                Some(drill)
            },
            |document, drill| {
                let _ = document.drills.add(&drill.short_name());
            },
        );
    };
    let rows = move || {
        let row = |drill: Drill| {
            view! {
                <Button rank=Rank::Secondary on_press=move |()| remove(drill)>
                    "Take out " {drill.name()}
                </Button>
            }
        };
        singles.get().into_iter().map(row).collect_view()
    };
    view! {
        <section class="stack">
            <h2>"Single drills"</h2>
            {rows}
            <TextField
                label="Another one, such as 11.5 mm"
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

fn complain(why: NameError) -> Complaint {
    match why {
        NameError::Unknown { problem, hint } => Complaint { problem, hint },
        ambiguous @ NameError::Ambiguous { .. } => Complaint {
            problem: ambiguous.to_string(),
            hint: "Write #10 for the number, 10 mm for the metric one.".to_owned(),
        },
    }
}
