//! What an answer is asked with: cutter, measures, holding, and figures of the person's own.

use leptos::prelude::*;

use super::state::{CutState, Outcome, Pace};
use crate::{
    engine::{
        quantity::{Length, System, rounding},
        question::{Coolant, Feeding, Field, Style},
    },
    shop::{
        cuts::{CutterForm, Holding, Mill, OperationKind},
        typed::{Typed, measure},
        usual,
    },
    ui::{
        components::{Chip, Choice, Choices, NumberField, Toggle, complaint_at},
        pages::cutter::Desk,
        sketch::Sketch,
        words,
    },
};

/// A field of the form, with its fault and the usual figure that stands for an empty one.
#[component]
fn Entry(
    field: Field,
    #[prop(optional, into)] label: Signal<String>,
    #[prop(optional, into)] placeholder: Signal<String>,
    #[prop(optional, into)] chips: Signal<Vec<Chip>>,
) -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    let usual = Signal::derive(move || {
        let own = placeholder.get();
        if !own.is_empty() {
            return own;
        }
        let Outcome::Done(done) = &*state.shown.read() else { return String::new() };
        done.taken
            .iter()
            .find(|taken| taken.field == field)
            .map(|taken| format!("usual: {}", taken.value.shown(system.get())))
            .unwrap_or_default()
    });
    // An empty field takes the units at hand; what was typed keeps its own.
    let value = Signal::derive(move || {
        let mut typed = state.typed(field).get();
        if typed.is_empty() {
            typed.system = system.get();
        }
        typed
    });
    view! {
        <NumberField
            field
            label
            value
            on_change=state.type_in(field)
            placeholder=usual
            complaint=Signal::derive(move || {
                // What has not been asked yet is not wrong.
                let in_turn = state.open.get().is_some_and(|open| open.pace != Pace::Alone);
                let is_open = in_turn && state.typed(field).read().is_empty();
                if is_open { None } else { complaint_at(&state.faults.read(), field) }
            })
            chips
        />
    }
}

/// The cutter of the form and how it is held, for the fields that describe them.
pub fn desk(state: CutState) -> Desk {
    desk_after(state, |_| ())
}

/// The same for another cutter than those of the drawer: of one of them nothing stands in the
/// fields, and none of it is left once something is typed.
pub fn desk_afresh(state: CutState) -> Desk {
    desk_after(state, move |mill| {
        let drawer = &state.app.document.read().cutters;
        if drawer.iter().any(|own| own.cutter == mill.cutter) {
            let CutterForm { kind, material, .. } = mill.cutter;
            mill.cutter = CutterForm { kind, material, ..CutterForm::default() };
            mill.holding = Holding::default();
        }
    })
}

fn desk_after(state: CutState, prepare: impl Fn(&mut Mill) + Copy + Send + Sync + 'static) -> Desk {
    let mill = Memo::new(move |_| {
        let mut mill = state.form.read().mill.clone();
        prepare(&mut mill);
        mill
    });
    let kinds = Memo::new(move |_| state.form.read().operation.cutters().to_vec());
    Desk::on(state.app, mill.into(), move |field, edit| {
        state.change(field, |form| {
            let before = form.mill.cutter.clone();
            prepare(&mut form.mill);
            edit(&mut form.mill.cutter, &mut form.mill.holding);
            // A cutter that was changed is no longer the one of that name.
            if form.mill.cutter != before {
                form.mill.cutter.name.clear();
            }
        });
    })
    .of_kinds(kinds.into())
    // What has not been asked yet is not wrong.
    .faulted(Signal::derive(move || {
        let is_asked = state.open.get().is_none_or(|open| open.pace == Pace::Alone);
        if is_asked { state.faults.get() } else { Vec::new() }
    }))
}

/// A length as a person would type it.
fn as_typed(value: Length, system: System) -> Typed {
    let text = match system {
        System::Inch => rounding::fixed(value.to_inch(), 3),
        System::Metric => rounding::fixed(value.to_mm(), 2),
    };
    Typed::new(text.trim_end_matches('0').trim_end_matches('.'), system)
}

/// Usual depths and widths of a cutter's diameter.
fn shares(state: CutState, field: Field) -> Vec<Chip> {
    let form = state.form.read();
    let Ok(diameter) = form.mill.cutter.diameter.length(Field::Diameter) else { return Vec::new() };
    let system = state.system().get();
    let shares: &[(f64, &str)] = match (form.operation, field) {
        (OperationKind::Side, Field::Width) => &[(0.1, "1/10 D"), (0.25, "1/4 D"), (0.5, "1/2 D")],
        (OperationKind::Slot, Field::Depth) => &[(0.25, "1/4 D"), (0.5, "1/2 D"), (1.0, "1 D")],
        (OperationKind::Side, Field::Depth) => &[(0.5, "1/2 D"), (1.0, "1 D"), (1.5, "1 1/2 D")],
        (OperationKind::Drill | OperationKind::Ream, Field::Depth) => {
            &[(1.0, "1 D"), (2.0, "2 D"), (4.0, "4 D")]
        }
        _ => return Vec::new(),
    };
    shares
        .iter()
        .map(|(share, name)| {
            Chip::new(measure(field), as_typed(diameter * *share, system)).called(*name)
        })
        .collect()
}

/// Width, depth, length, and what else the operation asks.
#[component]
pub fn Measures() -> impl IntoView {
    let state = CutState::get();
    let operation = Memo::new(move |_| state.form.read().operation);
    let label = move |field: Field| -> &'static str {
        match (operation.get(), field) {
            (OperationKind::Face, Field::Width) => "Width of the face",
            (OperationKind::Bore, Field::Width) => "Stock on the radius",
            (OperationKind::Face, Field::CutLength) => "Length of the face",
            (OperationKind::Drill | OperationKind::Ream, Field::Depth) => "Depth of the hole",
            (OperationKind::Spot | OperationKind::Countersink, Field::Depth) => {
                "Depth below the surface"
            }
            (OperationKind::Slot | OperationKind::Side, Field::Depth) => "Whole depth",
            (OperationKind::Slot, Field::CutLength) => "Travel along the slot",
            (OperationKind::Side | OperationKind::Saw, Field::CutLength) => "Length of the edge",
            _ => "",
        }
    };
    let empty = move |field: Field| match field {
        Field::CutLength => "for the time",
        Field::Pilot => "none",
        _ => "",
    };
    let entries = move || {
        operation
            .get()
            .measures()
            .iter()
            .map(|&field| {
                view! {
                    <Entry
                        field
                        label=Signal::derive(move || label(field).to_owned())
                        placeholder=empty(field)
                        chips=Signal::derive(move || shares(state, field))
                    />
                }
            })
            .collect_view()
    };
    let feeding = [Feeding::Conventional, Feeding::Climb].map(|feeding| {
        let (name, detail) = words::feeding(feeding);
        let sketch = match feeding {
            Feeding::Conventional => Sketch::Conventional,
            Feeding::Climb => Sketch::Climb,
        };
        Choice::new(feeding == Feeding::Climb, name).detail(detail).sketch(sketch)
    });
    let climbs = Signal::derive(move || Some(state.form.read().climb));
    let mills = move || {
        matches!(operation.get(), OperationKind::Slot | OperationKind::Side | OperationKind::Face)
    };
    view! {
        {entries}
        {move || {
            (operation.get() == OperationKind::Side)
                .then(|| {
                    view! {
                        <Choices
                            name="Feed"
                            of=feeding.to_vec()
                            chosen=climbs
                            on_choose=move |climb| {
                                state.change(Field::Feeding, |form| form.climb = climb);
                            }
                        />
                    }
                })
        }}
        {move || {
            (operation.get() == OperationKind::Drill)
                .then(|| {
                    view! {
                        <Toggle
                            label="The hole"
                            on=Signal::derive(move || state.form.read().through)
                            on_change=move |on| {
                                state.change(Field::Operation, |form| form.through = on);
                            }
                            said=("goes through", "is blind")
                        />
                    }
                })
        }}
        {move || {
            mills()
                .then(|| {
                    view! {
                        <Toggle
                            label="Cut for"
                            on=Signal::derive(move || state.form.read().finish)
                            on_change=move |on| {
                                state.change(Field::Depth, |form| form.finish = on);
                            }
                            said=("size and finish", "stock removal")
                        />
                    }
                })
        }}
    }
}

/// What is put on the cut.
#[component]
pub fn Cooling() -> impl IntoView {
    let state = CutState::get();
    let usual = move || state.form.read().mill.material().map(usual::coolant);
    let of = Signal::derive(move || {
        let usual = usual();
        [Coolant::Dry, Coolant::Brush, Coolant::Flood]
            .map(|c| {
                let detail = if Some(c) == usual { "usual here" } else { "" };
                Choice::new(c, words::coolant(c)).detail(detail)
            })
            .to_vec()
    });
    view! {
        <Choices
            name="On the cut"
            of
            chosen=Signal::derive(move || Some(state.form.read().coolant()))
            on_choose=move |coolant| {
                state.change(Field::Coolant, |form| form.coolant = Some(coolant));
            }
        />
    }
}

/// How hard to push.
#[component]
pub fn Pushing() -> impl IntoView {
    let state = CutState::get();
    let of = [Style::Gentle, Style::Brisk]
        .map(|style| {
            let (name, detail) = words::style(style);
            Choice::new(style, name).detail(detail)
        })
        .to_vec();
    view! {
        <Choices
            name="How hard to push"
            of
            chosen=Signal::derive(move || Some(state.form.read().style))
            on_choose=move |style| {
                state.change(Field::Style, |form| form.style = style);
            }
        />
    }
}

/// Figures of the person's own in place of the tables'.
#[component]
pub fn OwnFigures() -> impl IntoView {
    let state = CutState::get();
    const FIELDS: [Field; 6] = [
        Field::SurfaceSpeed,
        Field::Feed,
        Field::Chip,
        Field::Passes,
        Field::CuttingForce,
        Field::UnitPower,
    ];
    // A field that is made anew while a number is typed into it loses its number pad.
    let operation = Memo::new(move |_| state.form.read().operation);
    let shown = move |field: Field| match field {
        Field::Chip => operation.get() == OperationKind::Side,
        Field::Passes => operation.get() != OperationKind::Tap,
        _ => true,
    };
    let entries = move || {
        FIELDS
            .into_iter()
            .filter(|field| shown(*field))
            .map(|field| view! { <Entry field placeholder="from the tables" /> })
            .collect_view()
    };
    view! {
        <p>"A figure of yours stands in place of the table's, and the working says so."</p>
        {entries}
    }
}
