//! The batch and its orders side by side.

use std::sync::Arc;

use leptos::prelude::*;

use super::picture::bars;
use crate::{
    browser::clock,
    engine::{
        answer::State,
        plan::{
            Batch, Fault, MOST_PIECES,
            compare::{Comparison, Entry, Preference},
            order::Order,
        },
        quantity::{Duration, rounding::Shown},
        question::{Field, InputError},
    },
    shop::{
        document::Document,
        jobs::{Job, Step},
        plan::{OperationForm, RunSheet},
        typed::Typed,
        word::Word,
    },
    ui::{
        components::{
            AskTwice, BigNumber, Button, Choice, Choices, Complaint, ErrorText, Fold, GoTo,
            LateFold, NumberField, Pad, Page, Rank, SecondNumber, Split, StateMark, Stepper,
            TextField, Tile, Toggle, complaint_at,
        },
        pages::jobs::told::told as says,
        sketch::Sketch,
        state::App,
        words::{self, plan as told},
    },
};

/// The most set-ups on one table that are offered.
const MOST_STANDS: u32 = 4;

/// What the batch comes to.
type Outcome = Result<Arc<(Batch, Comparison)>, Vec<Fault>>;

/// The page.
#[component]
pub fn Orders() -> impl IntoView {
    let app = App::get();
    let asked = app.part(|document| (document.plans.form.clone(), document.machines.clone()));
    let outcome: Memo<Outcome> = Memo::new(move |_| {
        // Read, and not only followed: what is never read is never worked out again.
        let _asked = asked.read();
        let document = app.document.read_untracked();
        document.plans.form.compare(&document).map(Arc::new)
    });
    let rested = expect_context::<Pad>().rested(outcome);
    let mills = app.part(names);
    let go = app.way();
    let begin = Callback::new(move |order: Order| {
        app.change(|document| {
            let run = RunSheet::begin(&document.plans.form, document, &order, clock::seconds());
            document.plans.run = Some(run);
        });
        go("plan?run");
    });
    let is_running = app.part(|document| document.plans.run.is_some());
    let bar = move || {
        move || match (&*outcome.read(), is_running.get()) {
            (_, true) => view! {
                <GoTo to="plan?run" class=Rank::Primary.class() {..} data-touch="c">
                    "To the run sheet"
                </GoTo>
            }
            .into_any(),
            (Ok(made), false) => {
                let order = made.1.recommended().order.clone();
                view! { <Button on_press=move |()| begin.run(order.clone())>"Begin this run"</Button> }
                    .into_any()
            }
            (Err(_), false) => ().into_any(),
        }
    };
    view! {
        <Page title="Batch" bar=bar>
            <Split
                names=("Orders", "The batch")
                answer=move || {
                    move || match rested.get() {
                        Ok(made) => answer(&made, &mills.read(), app, begin),
                        Err(faults) => no_answer(&faults),
                    }
                }
            >
                {operations(app, outcome)}
                {inputs(app, outcome)}
            </Split>
        </Page>
    }
}

fn names(document: &Document) -> Vec<String> {
    document.machines.iter().map(|own| own.form.name.clone()).collect()
}

/// What is in the way of an answer.
fn no_answer(faults: &[Fault]) -> AnyView {
    let list = faults
        .iter()
        .map(|fault| {
            let complaint = Complaint::from(&fault.error);
            view! { <p><b>{complaint.problem}</b> " " {complaint.hint}</p> }
        })
        .collect_view();
    view! {
        <section class="stack" aria-live="polite" data-testid="no-plan">
            <h2>"No order yet"</h2>
            {list}
        </section>
    }
    .into_any()
}

fn answer(
    made: &(Batch, Comparison),
    mills: &[String],
    app: App,
    begin: Callback<Order>,
) -> AnyView {
    let (batch, comparison) = made;
    let preference = app.document.read_untracked().plans.form.preference;
    let best = comparison.recommended();
    let why =
        format!("{}. {}", words::plan::way(best.way), told::recommended(comparison, preference));
    let second = comparison.second().map(|(entry, price)| told::second(entry, &price));
    let others = comparison.entries[1..]
        .iter()
        .map(|entry| other(batch, entry, mills, begin))
        .collect_view();
    let blocked = comparison
        .blocked
        .iter()
        .map(|(way, why, figures)| {
            let hint = figures.map(|figures| {
                let (total, first) = (told::span(figures.total), told::span(figures.first));
                format!(" On one that could: {total}, the first piece after {first}.")
            });
            view! { <p>{told::blocked(*way, *why, mills.len())} {hint}</p> }
        })
        .collect_view();
    view! {
        <section class="answer stay" aria-label="The order to take" data-testid="recommended">
            <BigNumber label="In all" shown=told::minutes(best.figures().total) why />
        </section>
        <div class="stack">
            {bars(&best.timetable, mills)}
            <p class="muted">
                "Hollow: setting up. Solid: cutting, or the check. Half: loading. Line: walking. One thing at a time, one spindle."
            </p>
            {steps(batch, best, mills)}
            {second.map(|second| view! { <p data-testid="second"><b>{second}</b></p> })}
            {cells(best)}
            <p class="muted">{told::searched(comparison)}</p>
            <h2>"The other orders"</h2>
            {others}
            {blocked}
        </div>
    }
    .into_any()
}

/// The figures of an order beside its total.
fn cells(entry: &Entry) -> AnyView {
    let figures = entry.figures();
    let count = |number: u32| Shown { digits: number.to_string(), unit: "" };
    let lost = figures.spoiled.filter(|spoiled| *spoiled > 0.0).map(|spoiled| {
        let many = crate::engine::quantity::rounding::significant(spoiled, 2);
        format!("on average {many} spoiled")
    });
    let parts = [
        ("setting up", figures.setting_up),
        ("walking", figures.walking),
        ("loading and tools", figures.handling),
        ("cutting", figures.cutting),
        ("the check", figures.checking),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(_, time)| *time > Duration::ZERO)
        .map(|(what, time)| format!("{what} {}", told::span(time)))
        .collect();
    view! {
        <div class="cells">
            <SecondNumber
                label="First piece"
                shown=told::minutes(figures.first)
                note="finished, before its check"
            />
            <SecondNumber
                label="At risk"
                shown=count(figures.at_risk)
                note=lost.unwrap_or_else(|| "begun before one is checked".to_owned())
            />
            <SecondNumber label="Set-ups" shown=count(figures.set_ups) />
            <SecondNumber
                label="Changes of work"
                shown=count(figures.switches)
                note="another operation to think of"
            />
        </div>
        <p class="muted">"Of it: " {parts.join(", ")} "."</p>
    }
    .into_any()
}

fn steps(batch: &Batch, entry: &Entry, mills: &[String]) -> AnyView {
    let lines = told::told(batch, entry, mills);
    let lines = lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
    view! { <ul class="points">{lines}</ul> }.into_any()
}

/// Another order, its bars in sight and the rest one tap away.
fn other(batch: &Batch, entry: &Entry, mills: &[String], begin: Callback<Order>) -> AnyView {
    let figures = *entry.figures();
    let (name, order) = (words::plan::way(entry.way), entry.order.clone());
    let line = format!(
        "{}, first piece after {}, {} at risk, {} set-ups",
        told::span(figures.total),
        told::span(figures.first),
        figures.at_risk,
        figures.set_ups
    );
    let breaks = (!entry.keeps_rule).then(|| {
        view! {
            <StateMark
                state=State::Near
                word="A second piece is begun before the first is checked".to_owned()
            />
        }
    });
    let (drawn, more) =
        (bars(&entry.timetable, mills), (batch.clone(), entry.clone(), mills.to_vec()));
    view! {
        <section class="panel stack plan-other" aria-label=name>
            <h3>{name}</h3>
            <p>{line}</p>
            {breaks}
            {drawn}
            <LateFold title="Its steps and figures".to_owned()>
                {steps(&more.0, &more.1, &more.2)} {cells(&more.1)}
                <Button
                    rank=Rank::Secondary
                    on_press={
                        let order = order.clone();
                        move |()| begin.run(order.clone())
                    }
                >
                    "Begin the run so"
                </Button>
            </LateFold>
        </section>
    }
    .into_any()
}

/// The operations as cards.
fn operations(app: App, outcome: Memo<Outcome>) -> AnyView {
    let all = app.part(|document| {
        let card = |(place, form): (usize, &OperationForm)| {
            (form.id, form.title(place), detail(form, document))
        };
        document.plans.form.operations.iter().enumerate().map(card).collect::<Vec<_>>()
    });
    let card = |(id, title, detail): (u32, String, String)| {
        view! {
            <Tile
                to=format!("plan?operation={id}")
                name=title
                detail
                sketch=Sketch::Handwheel
                across=true
            />
        }
    };
    let go = app.way();
    let add = move |()| {
        let mut id = 0;
        app.change(|document| id = document.plans.form.add());
        go(&format!("plan?operation={id}"));
    };
    view! {
        <section class="stack" aria-label="Operations">
            <h2>"Operations"</h2>
            {move || all.get().into_iter().map(card).collect_view()}
            <Button rank=Rank::Secondary on_press=add>
                "Add an operation"
            </Button>
            {from_a_job(app)}
            <ErrorText id="plan-operations" complaint=at_batch(outcome, Field::PlanOperation) />
        </section>
    }
    .into_any()
}

/// The steps of a job card as operations, with the times that their screens come to.
fn from_a_job(app: App) -> AnyView {
    let jobs = app.part(|document| {
        let card = |job: &Job| (job.id.clone(), job.title().to_owned());
        document.jobs.iter().filter(|job| !job.steps.is_empty()).map(card).collect::<Vec<_>>()
    });
    let take = move |id: &str| {
        app.change(|document| {
            let Some(job) = document.job(id) else { return };
            let step = |step: &Step| {
                let said = says(&step.to, document).unwrap_or_default();
                (step.title.clone(), said.mill, said.time)
            };
            let (part, steps) =
                (job.title().to_owned(), job.steps.iter().map(step).collect::<Vec<_>>());
            document.plans.form.take_steps(&part, steps);
        });
    };
    let has_jobs = Memo::new(move |_| !jobs.read().is_empty());
    view! {
        <Show when=move || has_jobs.get()>
            <LateFold title="Add the steps of a job card">
                {move || {
                    jobs.get()
                        .into_iter()
                        .map(|(id, title)| {
                            view! {
                                <Button rank=Rank::Secondary on_press=move |()| take(&id)>
                                    {title}
                                </Button>
                            }
                        })
                        .collect_view()
                }}
            </LateFold>
        </Show>
    }
    .into_any()
}

/// What a card says of its operation.
fn detail(form: &OperationForm, document: &Document) -> String {
    let mill = match document.machine_called(&form.mill) {
        Some(own) => own.form.name.clone(),
        None if form.mill.is_empty() => "either mill".to_owned(),
        None => "its mill is gone".to_owned(),
    };
    let time =
        |typed: &Typed, unit: &str| typed.given().map(|t| format!("{} {unit}", t.text.trim()));
    let mut parts = vec![mill];
    parts.extend(time(&form.set_up, "min to set up"));
    parts.extend(time(&form.cut, "s in the cut"));
    parts.join(", ")
}

/// What stands against an entry of the batch.
fn at_batch(outcome: Memo<Outcome>, field: Field) -> Signal<Option<Complaint>> {
    Signal::derive(move || match &*outcome.read() {
        Ok(_) => None,
        Err(faults) => {
            let of_batch = faults.iter().filter(|fault| fault.operation.is_none());
            let errors: Vec<InputError> = of_batch.map(|fault| fault.error.clone()).collect();
            complaint_at(&errors, field)
        }
    })
}

type Place = fn(&mut Document) -> &mut Typed;

/// A number of the batch.
fn number(
    app: App,
    outcome: Memo<Outcome>,
    field: Field,
    read: fn(&Document) -> &Typed,
    place: Place,
) -> AnyView {
    let label = if field == Field::BatchPieces { "Or type how many" } else { words::field(field) };
    view! {
        <NumberField
            field
            label=label.to_owned()
            value=app.part(move |document| read(document).clone())
            on_change=move |typed: Typed| app.change(|document| *place(document) = typed)
            placeholder="0".to_owned()
            complaint=at_batch(outcome, field)
        />
    }
    .into_any()
}

fn inputs(app: App, outcome: Memo<Outcome>) -> AnyView {
    let pieces = app.part(|document| document.plans.form.pieces.text.clone());
    let count = Signal::derive(move || pieces.read().trim().parse::<u32>().unwrap_or(0));
    let preferences = Preference::ALL
        .iter()
        .map(|one| {
            let (name, detail) = told::preference(*one);
            Choice::new(*one, name).detail(detail)
        })
        .collect::<Vec<_>>();
    let check_first = app.part(|document| document.plans.form.check_first);
    view! {
        <section class="stack" aria-label="How many and how">
            <TextField
                label="What you make"
                value=app.part(|document| document.plans.form.name.clone())
                on_change=move |name: String| app.change(|d| d.plans.form.name = name)
            />
            <Stepper
                label="Pieces"
                value=pieces
                on_step=move |step: i32| app.change(|d| d.plans.form.step_pieces(step))
                less=Signal::derive(move || count.get() > 1)
                more=Signal::derive(move || count.get() < MOST_PIECES)
            />
            {number(
                app,
                outcome,
                Field::BatchPieces,
                |d| &d.plans.form.pieces,
                |d| &mut d.plans.form.pieces,
            )}
            <Toggle
                label="First piece checked before the rest"
                on=check_first
                on_change=move |on: bool| app.change(|d| d.plans.form.check_first = on)
            />
            <Show when=move || check_first.get()>
                {number(
                    app,
                    outcome,
                    Field::CheckTime,
                    |d| &d.plans.form.check,
                    |d| &mut d.plans.form.check,
                )}
            </Show>
            <Choices
                name="What counts most"
                of=preferences
                chosen=app.part(|document| Some(document.plans.form.preference))
                on_choose=move |one: Preference| app.change(|d| d.plans.form.preference = one)
            />
            {number(app, outcome, Field::Walk, |d| &d.plans.form.walk, |d| &mut d.plans.form.walk)}
            <Fold title="Set-ups that stay on a table">{stands(app)}</Fold>
            <AskTwice
                ask="Begin a new plan"
                sentence="The operations and their times will be gone."
                act="Clear the plan"
                on_act=move |()| {
                    app.remove(
                        "The plan".to_owned(),
                        |document| Some(core::mem::take(&mut document.plans.form)),
                        |document, form| document.plans.form = form,
                    );
                }
            />
        </section>
    }
    .into_any()
}

/// How many set-ups each mill has room for.
fn stands(app: App) -> AnyView {
    let mills = app.part(|document| {
        let own = document.machines.iter();
        own.map(|own| (own.id.clone(), own.form.name.clone())).collect::<Vec<_>>()
    });
    let stepper = move |(id, name): (String, String)| {
        let id = StoredValue::new(id);
        let now = app.part(move |document| document.plans.form.stands_of(&id.read_value()));
        view! {
            <Stepper
                label=name
                value=Signal::derive(move || now.get().to_string())
                on_step=move |step: i32| {
                    let next = now.get_untracked().saturating_add_signed(step);
                    let next = next.clamp(1, MOST_STANDS);
                    app.change(|document| document.plans.form.set_stands(&id.read_value(), next));
                }
                less=Signal::derive(move || now.get() > 1)
                more=Signal::derive(move || now.get() < MOST_STANDS)
            />
        }
    };
    view! {
        <p>"Two vises side by side, or a vise beside a plate, keep two."</p>
        {move || mills.get().into_iter().map(stepper).collect_view()}
    }
    .into_any()
}
