//! One question a screen.

use leptos::prelude::*;

use super::{
    inputs::{Cooling, Measures, Pushing, desk, desk_afresh},
    state::{Ask, CutState, Open, Pace, address},
};
use crate::{
    engine::{
        cutters::ToolMaterial,
        stock::{Family, MATERIALS, Material},
    },
    shop::{
        cuts::{CutForm, CutterForm, Holding, OperationKind},
        document::OwnCutter,
    },
    ui::{
        components::{GoTo, Page, Rank, Tile, ranking::ranked},
        pages::cutter::{CutterFields, HoldingFields},
        sketch::Sketch,
        words,
    },
};

/// The open question.
#[component]
pub fn Question(open: Open) -> impl IntoView {
    let state = CutState::get();
    let title = match open.ask {
        Ask::Operation => "What will you do?",
        Ask::Stock => "In what stock?",
        Ask::Cutter => "With which cutter?",
        Ask::Measures => "How wide, how deep?",
        Ask::Holding => "Holding and coolant",
    };
    let onward = Signal::derive(move || open.onward(&state.form.read()));
    let skippable = matches!(open.ask, Ask::Measures | Ask::Holding) || open.pace == Pace::Alone;
    let asks_cutter =
        move || open.ask == Ask::Cutter && !state.form.read().mill.cutter.diameter.is_empty();
    let bar = move || {
        (skippable || asks_cutter()).then(|| {
            view! {
                <GoTo to=onward class=Rank::Primary.class() {..} data-touch="c">
                    {if open.is_last() { "Show the answer" } else { "Next" }}
                </GoTo>
            }
        })
    };
    let body = match open.ask {
        Ask::Operation => view! { <Operations open /> }.into_any(),
        Ask::Stock => view! { <Stocks open /> }.into_any(),
        Ask::Cutter => view! { <Cutters open /> }.into_any(),
        Ask::Measures => view! { <Measures /> }.into_any(),
        Ask::Holding => view! {
            <HoldingFields desk=desk(state) />
            <Cooling />
            <Pushing />
        }
        .into_any(),
    };
    let place = (open.pace != Pace::Alone).then(|| {
        view! { <p class="muted">{format!("{} of {}", open.ask.place(), open.count())}</p> }
    });
    let back_to = Signal::derive(move || open.back(&state.form.read()));
    view! {
        <Page title back_to bar=move || bar>
            {place}
            {body}
        </Page>
    }
}

/// What an operation is, for a person who meets its name.
fn operation_detail(operation: OperationKind) -> &'static str {
    match operation {
        OperationKind::Slot => "full width",
        OperationKind::Side => "along an edge",
        OperationKind::Face => "a flat top",
        OperationKind::Plunge => "end mill straight down",
        OperationKind::Drill => "a hole",
        OperationKind::Spot => "start a hole",
        OperationKind::Ream => "a hole to size",
        OperationKind::Countersink => "or chamfer a hole",
        OperationKind::Saw => "slitting saw",
        OperationKind::Bore => "boring head",
        OperationKind::FindEdge => "spindle speed only",
        OperationKind::Tap => "under power",
    }
}

#[component]
fn Operations(open: Open) -> impl IntoView {
    let state = CutState::get();
    let tile = move |operation: OperationKind| {
        let to = Signal::derive(move || {
            let mut form = state.form.get();
            form.choose(operation);
            // An edge finder touches; it is asked nothing else.
            if operation == OperationKind::FindEdge { address(&form) } else { open.onward(&form) }
        });
        view! {
            <Tile
                to
                name=operation.name()
                detail=operation_detail(operation)
                sketch=operation.into()
            />
        }
    };
    view! { <div class="doors">{OPERATIONS.into_iter().map(tile).collect_view()}</div> }
}

/// The operations in the order of a day at the mill.
const OPERATIONS: [OperationKind; 12] = [
    OperationKind::Slot,
    OperationKind::Side,
    OperationKind::Face,
    OperationKind::Drill,
    OperationKind::Spot,
    OperationKind::Ream,
    OperationKind::Countersink,
    OperationKind::Tap,
    OperationKind::Plunge,
    OperationKind::Bore,
    OperationKind::Saw,
    OperationKind::FindEdge,
];

#[component]
fn Stocks(open: Open) -> impl IntoView {
    let state = CutState::get();
    let query = RwSignal::new(String::new());
    let row = move |material: &'static Material| {
        let to = Signal::derive(move || {
            let mut form = state.form.get();
            material.id.clone_into(&mut form.mill.stock);
            open.onward(&form)
        });
        let chosen = move || state.form.read().mill.stock == material.id;
        view! {
            <li>
                <GoTo to class="line" {..} data-touch="b">
                    <span class="line-name">{material.name}</span>
                    {move || chosen().then(|| Sketch::Tick.draw_as("line-tick"))}
                </GoTo>
            </li>
        }
    };
    let list = move || {
        let query = query.get();
        if query.trim().is_empty() {
            return Family::ALL
                .into_iter()
                .map(|family| {
                    view! {
                        <h2>{family.words()}</h2>
                        <ul class="lines">{family.materials().map(row).collect_view()}</ul>
                    }
                })
                .collect_view()
                .into_any();
        }
        let found = ranked(&query, MATERIALS.iter().map(|m| m.name));
        if found.is_empty() {
            return view! {
                <p>"No stock of that name. Try its number, or a part of the word."</p>
            }
            .into_any();
        }
        let rows = found.into_iter().map(|i| row(&MATERIALS[i])).collect_view();
        view! { <ul class="lines">{rows}</ul> }.into_any()
    };
    view! {
        <div class="field">
            <label class="field-label" for="stock-search">
                "Search, such as 6061 or brass"
            </label>
            <input
                id="stock-search"
                class="text-input"
                type="text"
                autocomplete="off"
                autocapitalize="none"
                spellcheck="false"
                data-touch="b"
                prop:value=query
                on:input=move |event| query.set(event_target_value(&event))
            />
        </div>
        {list}
    }
}

#[component]
fn Cutters(open: Open) -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let rows = move || {
        let fits = state.form.read().operation.cutters();
        app.document
            .read()
            .cutters
            .iter()
            .filter(|own| fits.contains(&own.cutter.kind))
            .map(|own| owned(own.clone(), open, state))
            .collect::<Vec<_>>()
    };
    let drawer = move || {
        let rows = rows();
        (!rows.is_empty()).then(|| {
            view! {
                <h2>"From your drawer"</h2>
                <ul class="lines">{rows}</ul>
                <h2>"Another one"</h2>
            }
        })
    };
    // For a person who knows the questions a typed size is the whole answer to this one.
    let go = app.way();
    let sized = Callback::new(move |()| {
        if open.pace == Pace::Brief {
            state.flush();
            go(&open.onward(&state.form.read_untracked()));
        }
    });
    view! {
        {drawer}
        <CutterFields desk=desk_afresh(state).sized(sized) />
    }
}

/// A row of the drawer.
fn owned(own: OwnCutter, open: Open, state: CutState) -> impl IntoView {
    let title = own.cutter.title();
    let detail = describe(&own.cutter);
    let sketch = Sketch::from(own.cutter.kind);
    let chosen = {
        let cutter = own.cutter.clone();
        move || state.form.read().mill.cutter == cutter
    };
    let to = Signal::derive(move || {
        let mut form = state.form.get();
        put_in(&mut form, own.cutter.clone(), own.holding.clone());
        open.onward(&form)
    });
    view! {
        <li>
            <GoTo to class="line" {..} data-touch="b">
                {sketch.draw_small()}
                <span class="line-name">
                    {title} <span class="line-detail">{detail}</span>
                </span>
                {move || chosen().then(|| Sketch::Tick.draw_as("line-tick"))}
            </GoTo>
        </li>
    }
}

fn put_in(form: &mut CutForm, cutter: CutterForm, holding: Holding) {
    form.mill.cutter = cutter;
    form.mill.holding = holding;
}

/// Flutes and material of a cutter, as a person tells two apart.
pub fn describe(cutter: &CutterForm) -> String {
    let material = match cutter.material {
        ToolMaterial::Hss => "HSS",
        other => words::tool_material(other),
    };
    let teeth = cutter.teeth.text.trim();
    if teeth.is_empty() { material.to_owned() } else { format!("{teeth} flutes, {material}") }
}
