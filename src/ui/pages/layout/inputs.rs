//! What a layout is asked with: the pattern by its picture, a few numbers, and the rest folded.

use leptos::prelude::*;

use super::state::LayoutState;
use crate::{
    engine::{
        convert::readout::STEPS,
        layout::{Place, circle::Direction, moved::Mirror},
        question::Field,
    },
    shop::{
        layout::{LayoutForm, MOST_LISTED, Shape},
        typed::Typed,
        word::Word,
    },
    ui::{
        components::{
            Button, Choice, Choices, Fold, NumberField, Rank, TextField, Toggle, complaint_at,
        },
        words,
    },
};

/// All of it.
#[component]
pub fn Inputs() -> impl IntoView {
    let state = LayoutState::get();
    let shape = Memo::new(move |_| state.form.read().shape);
    let title = Signal::derive(move || format!("Pattern: {}", words::layout::shape(shape.get()).0));
    let is_new = *state.form.read_untracked() == LayoutForm::default();
    let shapes = Shape::ALL
        .iter()
        .map(|&shape| {
            let (name, detail) = words::layout::shape(shape);
            Choice::new(shape, name).detail(detail).sketch(shape.into())
        })
        .collect::<Vec<_>>();
    view! {
        <Fold title open=is_new>
            <Choices
                name="Pattern"
                of=shapes
                chosen=Signal::derive(move || Some(shape.get()))
                on_choose=move |shape| {
                    state
                        .change(
                            Field::Operation,
                            |form| {
                                form.shape = shape;
                                if shape.is_listed() && form.places.is_empty() {
                                    form.places.push(Default::default());
                                }
                            },
                        );
                }
            />
        </Fold>
        {move || entries(state, shape.get())}
        {folded(state)}
    }
}

fn entry(state: LayoutState, field: Field) -> AnyView {
    let zero = matches!(
        field,
        Field::CentreX
            | Field::CentreY
            | Field::StartAngle
            | Field::StepX
            | Field::StepY
            | Field::DatumX
            | Field::DatumY
            | Field::Turned
    );
    let placeholder = if zero { "0" } else { "" };
    view! {
        <NumberField
            field
            label=state.label(field)
            value=state.typed(field)
            on_change=move |typed| state.change(field, |form| form.entries.set(field, typed))
            complaint=state.complaint(field)
            placeholder=placeholder.to_owned()
        />
    }
    .into_any()
}

fn all(state: LayoutState, fields: &[Field]) -> Vec<AnyView> {
    fields.iter().map(|&field| entry(state, field)).collect()
}

fn toggle(
    state: LayoutState,
    label: &'static str,
    said: (&'static str, &'static str),
    place: fn(&mut LayoutForm) -> &mut bool,
) -> AnyView {
    let on = Signal::derive(move || *place(&mut state.form.get()));
    view! {
        <Toggle
            label
            on
            said
            on_change=move |on| state.change(Field::Operation, |form| *place(form) = on)
        />
    }
    .into_any()
}

/// What the chosen pattern is given by.
fn entries(state: LayoutState, shape: Shape) -> AnyView {
    let mut parts = Vec::new();
    if shape.is_listed() {
        parts.push(listed(state));
    }
    parts.extend(all(state, shape.fields()));
    if matches!(shape, Shape::Circle | Shape::Arc | Shape::Steps) {
        let of = [
            Choice::new(Direction::CounterClockwise, "Counter-clockwise"),
            Choice::new(Direction::Clockwise, "Clockwise"),
        ];
        let chosen = Signal::derive(move || Some(state.form.read().direction));
        parts.push(
            view! {
                <Choices
                    name="Which way, seen from above"
                    of=of.to_vec()
                    chosen
                    on_choose=move |way| {
                        state.change(Field::Operation, |form| form.direction = way);
                    }
                />
            }
            .into_any(),
        );
    }
    match shape {
        Shape::Arc => {
            let said = ("first to last", "hole to hole");
            parts.push(toggle(state, "The angle is from", said, |form| &mut form.by_span));
        }
        Shape::Steps => {
            let said = ("inside", "outside");
            parts.push(toggle(state, "The cutter runs", said, |form| &mut form.inside));
        }
        _ => {}
    }
    if matches!(shape, Shape::Circle | Shape::Arc) {
        let label = "A hole in the middle, too";
        parts.push(toggle(state, label, ("yes", "no"), |form| &mut form.centre_hole));
    }
    view! { <div class="stack">{parts}</div> }.into_any()
}

/// Holes that are typed one by one.
fn listed(state: LayoutState) -> AnyView {
    let count = Memo::new(move |_| state.form.read().places.len());
    let add = move |()| {
        state.change(Field::PlaceX, |form| {
            if form.places.len() < MOST_LISTED {
                form.places.push(Default::default());
            }
        });
    };
    let take = move |()| {
        state.change(Field::PlaceY, |form| {
            form.places.pop();
        });
    };
    view! {
        <For each=move || 0..count.get() key=|n| *n let:n>
            {row(state, n)}
        </For>
        <div class="row">
            <Button rank=Rank::Secondary on_press=add>
                "Add a hole"
            </Button>
            {move || {
                (count.get() > 1)
                    .then(|| {
                        view! {
                            <Button rank=Rank::Secondary on_press=take>
                                "Take the last away"
                            </Button>
                        }
                    })
            }}
        </div>
    }
    .into_any()
}

fn row(state: LayoutState, n: usize) -> AnyView {
    let (first, second) = state.form.read_untracked().place_fields();
    let cell = move |field: Field, place: fn(&mut (Typed, Typed)) -> &mut Typed| {
        let value = Signal::derive(move || {
            let mut found = state.form.read().places.get(n).cloned().unwrap_or_default();
            place(&mut found).begun_in(state.system.get())
        });
        let label = format!("{} {}", words::field(field), n + 1);
        let complaint = Signal::derive(move || {
            if value.read().is_empty() {
                return None;
            }
            let faults = state.form.read().listed(n, Place::ORIGIN).err()?;
            complaint_at(&faults, field)
        });
        view! {
            <NumberField
                field
                label
                value
                on_change=move |typed: Typed| {
                    state
                        .change(
                            field,
                            |form| {
                                if let Some(found) = form.places.get_mut(n) {
                                    *place(found) = typed;
                                }
                            },
                        );
                }
                complaint
            />
        }
    };
    view! {
        <div class="pair">
            {cell(first, |place| &mut place.0)} {cell(second, |place| &mut place.1)}
        </div>
    }
    .into_any()
}

/// What is asked for seldom.
fn folded(state: LayoutState) -> AnyView {
    let open = |fields: &[Field]| {
        let form = state.form.read_untracked();
        fields.iter().any(|&field| form.entries.given(field).is_some())
    };
    let moved = [Field::Turned, Field::Copies];
    let datum = [Field::DatumX, Field::DatumY];
    let skew = [Field::SkewAlong, Field::SkewOff];
    let part = [Field::PartX, Field::PartY, Field::TableX, Field::TableY];
    let mirrors = [None, Some(Mirror::LeftRight), Some(Mirror::FrontBack)]
        .map(|mirror| Choice::new(mirror, words::layout::mirror(mirror)));
    let mirror = Signal::derive(move || Some(state.form.read().mirror));
    let steps = core::iter::once(Choice::new("", "As on the drawing"))
        .chain(STEPS.iter().map(|(name, _)| Choice::new(*name, *name)))
        .collect::<Vec<_>>();
    let app = state.app;
    let step = app.part(|document| {
        let found = STEPS.iter().find(|(name, _)| *name == document.converter.readout);
        Some(found.map_or("", |(name, _)| *name))
    });
    let thread = Signal::derive(move || state.form.read().thread.clone());
    view! {
        <Fold title="The hole: thread, size, depth" open=open(&[Field::Hole, Field::Depth])>
            <TextField
                label="Thread"
                value=thread
                placeholder="M4x0.7, 10-32, none"
                on_change=move |text: String| {
                    state.change(Field::Thread, |form| form.thread = text);
                }
            />
            {all(state, &[Field::Hole, Field::Depth])}
        </Fold>
        <Fold title="Another datum" open=open(&datum)>
            <p class="muted">
                "The numbers count from here in place of the drawing's datum. A circle's own centre as datum: its X and Y here."
            </p>
            {all(state, &datum)}
        </Fold>
        <Fold title="The part stands askew" open=open(&skew)>
            <p class="muted">
                "Zero on the datum corner. Touch the edge that should run along X twice, with the spindle stopped, and type both differences: the pattern turns with the part."
            </p>
            {all(state, &skew)}
        </Fold>
        <Fold title="Order, backlash, readout">
            {toggle(state, "Order", ("short way", "as listed"), |form| &mut form.short)}
            {toggle(
                state,
                "Reach each hole from one side, for screws with play",
                ("yes", "no"),
                |form| &mut form.one_side,
            )}
            <Choices
                name="The readout counts in"
                of=steps
                chosen=step
                on_choose=move |name: &'static str| {
                    app.change(|document| document.converter.readout = name.to_owned());
                }
            />
        </Fold>
        <Fold title="Turn, mirror, copy" open=open(&moved)>
            {all(state, &moved)}
            <Choices
                name="Mirrored at the datum"
                of=mirrors.to_vec()
                chosen=mirror
                on_choose=move |mirror| {
                    state.change(Field::Operation, |form| form.mirror = mirror);
                }
            />
        </Fold>
        <Fold title="Size of part and table" open=open(&part)>
            <p class="muted">
                "The part's corner is at the datum of the drawing. With both sizes, holes outside of it are named."
            </p>
            {all(state, &part)}
        </Fold>
    }
    .into_any()
}
