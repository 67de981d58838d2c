//! The answer and all it is asked with, on one page.

use leptos::prelude::*;

use super::{
    after::{Afterwards, Experienced},
    answer::{AnswerCard, Assumptions, Cautions, Faults, HeldBack, Picture, Targets, Working},
    ask::describe,
    inputs::{Cooling, Measures, OwnFigures, Pushing, desk},
    state::{Ask, CutState, Open, Outcome, Pace, address},
};
use crate::{
    engine::{answer::Verdict, quantity::System, question::Field},
    shop::{
        cuts::{OperationKind, short_name},
        document::OwnMachine,
        typed::Typed,
    },
    ui::{
        components::{
            Choice, Choices, CutterPicture, Fold, GoTo, Page, Rank, Split, Stepper, Tile,
            UnitSwitch,
        },
        keep::Keep,
        pages::cutter::{CutterFields, HoldingFields},
        sketch::Sketch,
    },
};

/// The page.
#[component]
pub fn Sheet() -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let title = Memo::new(move |_| state.form.read().title());
    let right = move || {
        view! {
            <UnitSwitch
                system=state.system()
                on_change=move |system| app.set_system(system)
            />
        }
    };
    view! {
        <Page title right=right bar=|| view! { <KeepCut /> }>
            <Split answer=|| {
                view! {
                    <AnswerCard />
                    <ToThePacer />
                    <Experienced />
                    <Faults />
                    <HeldBack />
                    <Picture />
                    <Targets />
                    <Cautions />
                    <Assumptions />
                    <Working />
                    <Afterwards />
                }
            }>
                <Chosen />
                <Measures />
                <Division />
                <Cooling />
                <Fold title="Cutter and holding">
                    <Standing />
                    <CutterFields desk=desk(CutState::get()) />
                    <HoldingFields desk=desk(CutState::get()) />
                </Fold>
                <Fold title="Your own figures">
                    <Pushing />
                    <OwnFigures />
                </Fold>
            </Split>
        </Page>
    }
}

/// What is chosen, each a way to choose again.
#[component]
fn Chosen() -> impl IntoView {
    let state = CutState::get();
    let to = move |ask: Ask| {
        Signal::derive(move || Open { ask, pace: Pace::Alone }.address(&state.settled.read()))
    };
    let operation = Memo::new(move |_| state.form.read().operation);
    let stock = Signal::derive(move || {
        state
            .settled
            .read()
            .mill
            .material()
            .map_or_else(|| "Choose the stock".to_owned(), |m| short_name(m).to_owned())
    });
    let cutter = Memo::new(move |_| state.form.read().mill.cutter.title());
    let detail = Memo::new(move |_| describe(&state.form.read().mill.cutter));
    let sketch = Memo::new(move |_| state.form.read().mill.cutter.kind);
    view! {
        <nav class="stack" aria-label="What is asked">
            {move || {
                view! {
                    <Tile
                        to=to(Ask::Operation)
                        name=operation.get().name()
                        sketch=operation.get().into()
                        across=true
                    />
                }
            }}
            {move || {
                (operation.get() != OperationKind::FindEdge)
                    .then(|| {
                        view! {
                            <Tile
                                to=to(Ask::Stock)
                                name=stock
                                sketch=Sketch::Stock
                                across=true
                            />
                        }
                    })
            }}
            {move || {
                view! {
                    <Tile
                        to=to(Ask::Cutter)
                        name=cutter
                        detail
                        sketch=sketch.get().into()
                        across=true
                    />
                }
            }}
        </nav>
        <Machines />
    }
}

/// The machine, one of the person's.
#[component]
fn Machines() -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let of = Signal::derive(move || {
        let choice = |own: &OwnMachine| Choice::new(own.id.clone(), own.form.name.clone());
        app.document.read().machines.iter().map(choice).collect::<Vec<_>>()
    });
    let which = Signal::derive(move || format!("which?{}", state.settled.read().to_query()));
    move || {
        (of.read().len() > 1).then(|| {
            view! {
                <Choices
                    name="On the"
                    of
                    chosen=Signal::derive(move || Some(state.form.read().mill.machine.clone()))
                    on_choose=move |id: String| {
                        state.change(Field::Machine, |form| form.mill.machine = id);
                    }
                />
                <GoTo to=which class=Rank::Secondary.class() {..} data-touch="c">
                    "Which mill?"
                </GoTo>
            }
        })
    }
}

/// One pass or peck fewer or more than the answer has.
#[component]
fn Division() -> impl IntoView {
    let state = CutState::get();
    let passes = Memo::new(move |before: Option<&Option<(usize, bool)>>| {
        if !can_be_divided(state.form.read().operation) {
            return None;
        }
        match &*state.outcome.read() {
            Outcome::Done(done) => {
                done.answer.passes.as_ref().map(|passes| (passes.targets.len(), passes.pecks))
            }
            // It keeps its place while a number is half typed.
            _ => before.copied().flatten(),
        }
    });
    let is_asked = Memo::new(move |_| passes.read().is_some());
    let pecks = Memo::new(move |_| passes.get().is_some_and(|(_, pecks)| pecks));
    let count = Signal::derive(move || passes.get().map_or(1, |(count, _)| count));
    let step = move |step: i32| {
        let count = i64::try_from(count.get_untracked()).unwrap_or(1) + i64::from(step);
        let typed = Typed::new(count.max(1).to_string(), System::Inch);
        state.change(Field::Passes, |form| form.own.passes = typed);
    };
    move || {
        is_asked.get().then(|| {
            view! {
                <Stepper
                    label=if pecks.get() { "Pecks" } else { "Passes" }
                    value=Signal::derive(move || count.get().to_string())
                    on_step=step
                    less=Signal::derive(move || count.get() > 1)
                />
            }
        })
    }
}

/// True where the depth may be taken in several goes.
fn can_be_divided(operation: OperationKind) -> bool {
    use OperationKind::{Bore, Drill, Face, Plunge, Saw, Side, Slot};
    matches!(operation, Slot | Side | Face | Drill | Plunge | Saw | Bore)
}

/// The cutter as it stands in its holder.
#[component]
fn Standing() -> impl IntoView {
    let state = CutState::get();
    let cutter = Memo::new(move |before: Option<&Option<_>>| match &*state.shown.read() {
        Outcome::Done(done) => Some(done.cutter),
        // It keeps its room while a number is half typed.
        _ => before.cloned().flatten(),
    });
    let is_waiting = move || !matches!(*state.shown.read(), Outcome::Done(_));
    let picture = move || {
        let cutter = cutter.get()?;
        let holder = Signal::derive(move || state.settled.read().mill.holder());
        Some(view! { <CutterPicture cutter holder system=state.system() /> })
    };
    view! {
        <div class="standing" class:waiting=is_waiting>
            {picture}
        </div>
    }
}

/// To the beat of this cut.
#[component]
fn ToThePacer() -> impl IntoView {
    let state = CutState::get();
    let can_pace = Memo::new(move |_| match &*state.shown.read() {
        Outcome::Done(done) => {
            done.answer.passes.is_some() && done.answer.verdict != Verdict::DoNotCut
        }
        _ => false,
    });
    let to = Signal::derive(move || format!("pace?{}", state.settled.read().to_query()));
    move || {
        can_pace.get().then(|| {
            view! {
                <GoTo to=to class=Rank::Secondary.class() {..} data-touch="c">
                    "Pace it"
                </GoTo>
            }
        })
    }
}

/// Keeps the cut by name.
#[component]
fn KeepCut() -> impl IntoView {
    let state = CutState::get();
    let name = Signal::derive(move || {
        let form = state.settled.read();
        format!("{}, {}", form.title(), form.mill.cutter.title())
    });
    let to = Signal::derive(move || address(&state.settled.read()));
    let can = Signal::derive(move || matches!(*state.shown.read(), Outcome::Done(_)));
    view! { <Keep name to can words="Save this cut" /> }
}
