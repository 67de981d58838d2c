//! The answer and all it is asked with, on one page.

use leptos::prelude::*;

use super::{
    answer::{
        AnswerCard, Assumptions, Cautions, HeldBack, OtherFaults, Picture, Targets, Working,
    },
    ask::{cutter_sketch, describe, operation_sketch},
    inputs::{Cooling, CutterFields, HoldingFields, Measures, OwnFigures, Pushing},
    state::{Ask, CutState, Open, Outcome},
};
use crate::{
    shop::cuts::{OperationKind, short_name},
    ui::{
        components::{Button, Fold, GoTo, Page, Rank, Split, Tile, UnitSwitch},
        sketch::Sketch,
    },
};

/// The page.
#[component]
pub fn Sheet() -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let title = Signal::derive(move || state.form.read().title());
    let right = move || {
        view! {
            <UnitSwitch
                system=state.system()
                on_change=move |system| app.set_system(system)
            />
        }
    };
    view! {
        <Page title right=right bar=|| view! { <Keep /> }>
            <Split answer=|| {
                view! {
                    <AnswerCard />
                    <OtherFaults />
                    <HeldBack />
                    <Picture />
                    <Targets />
                    <Cautions />
                    <Assumptions />
                    <Working />
                }
            }>
                <Chosen />
                <Measures />
                <Cooling />
                <Fold title="Cutter and holding">
                    <CutterFields />
                    <HoldingFields />
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
    let app = state.app;
    let to = move |ask: Ask| {
        Signal::derive(move || Open { ask, in_turn: false }.address(&state.form.read()))
    };
    let operation = Memo::new(move |_| state.form.read().operation);
    let stock = Signal::derive(move || {
        state
            .form
            .read()
            .mill
            .material()
            .map_or_else(|| "Choose the stock".to_owned(), |m| short_name(m).to_owned())
    });
    let cutter = Signal::derive(move || state.form.read().mill.cutter.title());
    let detail = Signal::derive(move || describe(&state.form.read().mill.cutter));
    let machine = Signal::derive(move || {
        let form = state.form.read();
        app.document
            .read()
            .machine_called(&form.mill.machine)
            .map_or_else(|| "Choose a mill".to_owned(), |own| own.form.name.clone())
    });
    let sketch = Memo::new(move |_| state.form.read().mill.cutter.kind);
    view! {
        <nav class="stack" aria-label="What is asked">
            {move || {
                view! {
                    <Tile
                        to=to(Ask::Operation)
                        name=operation.get().name()
                        sketch=operation_sketch(operation.get())
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
                        sketch=cutter_sketch(sketch.get())
                        across=true
                    />
                }
            }}
            <Machines name=machine />
        </nav>
    }
}

/// The machine, and the others one tap away.
#[component]
fn Machines(name: Signal<String>) -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let others = move || {
        let here = state.form.read().mill.machine.clone();
        app.document
            .read()
            .machines
            .iter()
            .filter(|own| own.id != here)
            .map(|own| (own.id.clone(), own.form.name.clone()))
            .collect::<Vec<_>>()
    };
    let switch = move || {
        others()
            .into_iter()
            .map(|(id, name)| {
                let to = Signal::derive(move || {
                    let mut form = state.form.get();
                    form.mill.machine.clone_from(&id);
                    super::state::address(&form)
                });
                view! {
                    <GoTo to class=Rank::Secondary.class() {..} data-touch="c">
                        "On the "
                        {name}
                        " instead"
                    </GoTo>
                }
            })
            .collect_view()
    };
    view! {
        <p class="on-mill">"On the " <b>{move || name.get()}</b></p>
        {switch}
    }
}

/// Keeps the cut by name.
#[component]
fn Keep() -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let kept = Signal::derive(move || {
        app.document.read().favorite_of(&state.form.read()).map(|f| f.name.clone())
    });
    let can_keep = move || matches!(*state.outcome.read(), Outcome::Done(_));
    let keep = move |()| {
        let form = state.form.get_untracked();
        let cutter = form.mill.cutter.title();
        let name = format!("{}, {cutter}", form.title());
        app.change(|document| {
            document.add_favorite(&name, &form);
        });
    };
    move || match kept.get() {
        Some(_) => view! {
            <GoTo to="favorites" class=Rank::Secondary.class() {..} data-touch="c">
                {Sketch::StarFilled.draw_small()}
                "Saved: see all"
            </GoTo>
        }
        .into_any(),
        None if can_keep() => {
            view! { <Button on_press=keep>"Save this cut"</Button> }.into_any()
        }
        None => ().into_any(),
    }
}
