//! Job cards: a part with its steps, ticked one by one.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

pub mod told;

use self::told::told;
use super::favorites::sketch_of;
use crate::{
    browser::{files, page},
    shop::{
        document::Document,
        jobs::{Job, Step},
        recent::is_ours,
    },
    ui::{
        components::{AskTwice, Button, Fold, Page, Rank, TextField, Tile, Toggle, fold::LateFold},
        sketch::Sketch,
        state::App,
        words,
    },
};

/// All cards, or the one that the address names.
#[component]
pub fn Jobs() -> impl IntoView {
    let app = App::get();
    let query = use_query_map();
    let id = Memo::new(move |_| query.read().get("job"));
    // A card that is gone, as in an old bookmark, leads to the list.
    let there = app.part(move |document| id.get().filter(|id| document.job(id).is_some()));
    move || match there.get() {
        Some(id) => view! { <Card app id /> }.into_any(),
        None => view! { <List app /> }.into_any(),
    }
}

#[component]
fn List(app: App) -> impl IntoView {
    let jobs = app.part(|document| {
        let row = |job: &Job| {
            let steps = job.steps.len();
            let detail = match steps {
                0 => "no steps yet".to_owned(),
                _ => format!("{} of {steps} steps done", job.done()),
            };
            (job.id.clone(), job.title().to_owned(), detail)
        };
        document.jobs.iter().map(row).collect::<Vec<_>>()
    });
    let go = app.way();
    let add = move |()| {
        let mut id = String::new();
        app.change(|document| id = document.add_job());
        go(&format!("jobs?job={id}"));
    };
    view! {
        <Page
            title="Job cards"
            back_to="favorites"
            bar=move || view! { <Button on_press=add.clone()>"Begin a card"</Button> }
        >
            <Show when=move || jobs.read().is_empty()>
                <p>"A card keeps a part with its steps, its datum and stops, and what to do better next time."</p>
            </Show>
            {move || {
                jobs.get()
                    .into_iter()
                    .map(|(id, name, detail)| {
                        view! {
                            <Tile
                                to=format!("jobs?job={id}")
                                name
                                detail
                                sketch=Sketch::Check
                                across=true
                            />
                        }
                    })
                    .collect_view()
            }}
        </Page>
    }
}

/// One card.
#[component]
fn Card(app: App, id: String) -> impl IntoView {
    let id = StoredValue::new(id);
    let job = app.part(move |document| document.job(&id.read_value()).cloned().unwrap_or_default());
    let title = Signal::derive(move || job.read().title().to_owned());
    let words =
        move |label: &'static str, placeholder: &'static str, part: fn(&mut Job) -> &mut String| {
            view! {
                <TextField
                    label
                    placeholder
                    value=Signal::derive(move || part(&mut job.get()).clone())
                    on_change=move |text: String| {
                        app.change(|document| {
                            document.change_job(&id.read_value(), |job| *part(job) = text);
                        });
                    }
                />
            }
        };
    let places = Memo::new(move |_| job.read().steps.len());
    let has_steps = Memo::new(move |_| places.get() > 0);
    let next_time = Memo::new(move |_| job.read().next_time.trim().to_owned());
    let go = app.way();
    let remove = move |()| {
        app.remove(
            title.get_untracked(),
            move |document| document.remove_job(&id.read_value()),
            |document, (place, job)| document.put_back_job(place, job),
        );
        go("jobs");
    };
    view! {
        <Page title back_to="jobs">
            {move || {
                let said = next_time.get();
                (!said.is_empty())
                    .then(|| view! { <p class="notice" data-testid="next-time">"Next time: " {said}</p> })
            }}
            {move || agreed(&job.read())}
            <ol class="lines">
                {move || {
                    (0..places.get())
                        .map(|place| view! { <StepRow app id job place /> })
                        .collect_view()
                }}
            </ol>
            <AddStep app id job />
            <Show when=move || has_steps.get()>
                <LateFold title="Change the steps">
                    {move || {
                        (0..places.get())
                            .map(|place| view! { <StepEdit app id job place /> })
                            .collect_view()
                    }}
                </LateFold>
            </Show>
            <Fold title="Name, datum, stops, next time" open=job.read_untracked().name.is_empty()>
                {words("What the part is called", "base plate", |job| &mut job.name)}
                {words("Datum", "top left corner, fixed jaw", |job| &mut job.datum)}
                {words("Stops and set-up", "left end on the stop", |job| &mut job.stops)}
                {words("Next time", "what to do better", |job| &mut job.next_time)}
            </Fold>
            {move || sources(&job.read(), &app.document.read())}
            <Ways app id job />
            <AskTwice
                ask="Remove this card"
                sentence=Signal::derive(move || format!("{} goes.", title.get()))
                act="Remove it"
                on_act=remove
            />
        </Page>
    }
}

/// Whose figures the card rests on.
fn sources(job: &Job, document: &Document) -> Option<AnyView> {
    let tags: BTreeSet<&'static str> = job
        .steps
        .iter()
        .filter_map(|step| told(&step.to, document))
        .flat_map(|told| told.sources)
        .collect();
    let tags: Vec<&str> = tags.into_iter().collect();
    (!tags.is_empty()).then(|| {
        let said = words::sources(&tags.join(" "));
        view! { <p class="muted on-paper" data-testid="sources">{said}</p> }.into_any()
    })
}

/// What was agreed about datum and stops.
fn agreed(job: &Job) -> Option<AnyView> {
    let row = |(what, said): (&'static str, &String)| {
        let said = said.trim().to_owned();
        (!said.is_empty()).then(|| view! { <p><b>{what} ": "</b>{said}</p> })
    };
    let rows: Vec<_> = [("Datum", &job.datum), ("Stops and set-up", &job.stops)]
        .into_iter()
        .filter_map(row)
        .collect();
    (!rows.is_empty()).then(|| rows.into_any())
}

#[component]
fn StepRow(app: App, id: StoredValue<String>, job: Signal<Job>, place: usize) -> impl IntoView {
    let step = Memo::new(move |_| job.read().steps.get(place).cloned().unwrap_or_default());
    let change = move |change: &dyn Fn(&mut Job)| {
        app.change(|document| document.change_job(&id.read_value(), |job| change(job)));
    };
    let said = Memo::new(move |_| told(&step.read().to, &app.document.read()));
    let opens = move || {
        let step = step.get();
        is_ours(&step.to).then(|| {
            let sketch = sketch_of(&step.to);
            let detail =
                Signal::derive(move || said.get().map(|said| said.line).unwrap_or_default());
            view! { <Tile to=step.to name="Open it" detail sketch across=true /> }
        })
    };
    view! {
        <li class="stack">
            <Toggle
                label=Signal::derive(move || format!("{}. {}", place + 1, step.read().title))
                on=Signal::derive(move || step.read().done)
                said=("done", "open")
                on_change=move |on| {
                    change(&|job| {
                        if let Some(step) = job.steps.get_mut(place) {
                            step.done = on;
                        }
                    });
                }
            />
            {opens}
        </li>
    }
}

/// A step to be worded, moved or taken out.
#[component]
fn StepEdit(app: App, id: StoredValue<String>, job: Signal<Job>, place: usize) -> impl IntoView {
    let step = Memo::new(move |_| job.read().steps.get(place).cloned().unwrap_or_default());
    let change = move |change: &dyn Fn(&mut Job)| {
        app.change(|document| document.change_job(&id.read_value(), |job| change(job)));
    };
    view! {
        <section class="stack" aria-label=format!("Step {}", place + 1)>
                <TextField
                    label=Signal::derive(move || format!("Step {}", place + 1))
                    value=Signal::derive(move || step.read().title.clone())
                    on_change=move |text: String| {
                        change(&|job| {
                            if let Some(step) = job.steps.get_mut(place) {
                                text.clone_into(&mut step.title);
                            }
                        });
                    }
                />
                <div class="doors">
                    <Button
                        rank=Rank::Secondary
                        on_press=move |()| change(&|job| job.move_step(place, -1))
                    >
                        "Earlier"
                    </Button>
                    <Button
                        rank=Rank::Secondary
                        on_press=move |()| change(&|job| job.move_step(place, 1))
                    >
                        "Later"
                    </Button>
                </div>
                <Button
                    rank=Rank::Danger
                    on_press=move |()| {
                        app.remove(
                            step.read_untracked().title.clone(),
                            move |document| {
                                let mut taken = None;
                                document.change_job(&id.read_value(), |job| {
                                    if place < job.steps.len() {
                                        taken = Some((place, job.steps.remove(place)));
                                    }
                                });
                                taken
                            },
                            move |document, (place, step)| {
                                document.change_job(&id.read_value(), |job| {
                                    job.steps.insert(place.min(job.steps.len()), step);
                                });
                            },
                        );
                    }
                >
                    "Take the step out"
                </Button>
        </section>
    }
}

/// A step more: in words, or a screen that was saved.
#[component]
fn AddStep(app: App, id: StoredValue<String>, job: Signal<Job>) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let add = move |step: Step| {
        app.change(|document| {
            document.change_job(&id.read_value(), |job| job.steps.push(step));
        });
    };
    let add_words = move |()| {
        let title = typed.get_untracked().trim().to_owned();
        if !title.is_empty() {
            add(Step { title, ..Step::default() });
            typed.set(String::new());
        }
    };
    let saved = app.part(|document| {
        let row =
            |favorite: &crate::shop::document::Favorite| (favorite.name.clone(), favorite.to());
        document.favorites_shown().map(row).collect::<Vec<_>>()
    });
    let is_empty = Memo::new(move |_| job.read().steps.is_empty());
    view! {
        <Fold title="Add a step" open=is_empty.get_untracked()>
            <TextField
                label="In words"
                placeholder="face the top"
                value=typed
                on_change=move |text| typed.set(text)
            />
            <Button rank=Rank::Secondary on_press=add_words>
                "Add it"
            </Button>
            <Show when=move || !saved.read().is_empty()>
                <h2>"Or what you saved"</h2>
                <div class="stack">
                    {move || {
                        saved
                            .get()
                            .into_iter()
                            .map(|(title, to)| {
                                let name = title.clone();
                                view! {
                                    <Button
                                        rank=Rank::Secondary
                                        on_press=move |()| {
                                            add(Step {
                                                title: title.clone(),
                                                to: to.clone(),
                                                done: false,
                                            });
                                        }
                                    >
                                        {name}
                                    </Button>
                                }
                            })
                            .collect_view()
                    }}
                </div>
            </Show>
        </Fold>
    }
}

/// On paper, as a text, and from the beginning.
#[component]
fn Ways(app: App, id: StoredValue<String>, job: Signal<Job>) -> impl IntoView {
    let share = move |()| {
        let document = app.document.read_untracked();
        let line = |step: &Step| told(&step.to, &document).map(|told| told.line);
        let text = job.read_untracked().text(line);
        drop(document);
        let name = format!("{}.txt", job.read_untracked().title());
        if let Err(why) = files::offer(&name, "text/plain", &text) {
            app.not_saved.set(Some(why));
        }
    };
    let any_done = Memo::new(move |_| job.read().done() > 0);
    view! {
        <div class="stack no-print">
            <Show when=move || any_done.get()>
                <Button
                    rank=Rank::Secondary
                    on_press=move |()| {
                        app.change(|document| {
                            document.change_job(&id.read_value(), Job::begin_again);
                        });
                    }
                >
                    "Every step open again"
                </Button>
            </Show>
            <Button rank=Rank::Secondary on_press=share>
                "As a text file"
            </Button>
            <Button rank=Rank::Secondary on_press=|()| page::print()>
                "Print it"
            </Button>
        </div>
    }
}
