//! A screw measured over three wires: the wires to take, what the micrometer is to read, and what
//! a reading says.

use leptos::prelude::*;

use super::card::{row, span};
use crate::{
    engine::{
        answer::State,
        quantity::{
            Length, System,
            rounding::{self, Shown},
        },
        question::{Field, InputError},
        threads::{
            Thread, wires,
            wires::{Groove, Reading, Stand},
        },
    },
    shop::typed::Typed,
    ui::{
        components::{Complaint, Fold, NumberField, SecondNumber, StateMark, Tile},
        sketch::Sketch,
        state::App,
        words,
    },
};

/// The fold; nothing for a taper thread.
#[component]
pub fn Wires(thread: Thread) -> impl IntoView {
    let Ok(groove) = thread.groove() else { return ().into_any() };
    let app = App::get();
    let system = app.system();
    let own = app.part(move |document| document.threads.wire_for(groove));
    // Without one of their own a person may still buy the best, or borrow them.
    let wire = move || own.read().as_ref().map_or(groove.best_wire(), |(_, size)| *size);
    let typed = RwSignal::new(Typed::default());
    let read = Memo::new(move |_| {
        let typed = typed.read();
        let reading = typed.given()?.length(Field::OverWires);
        Some(reading.and_then(|reading| thread.read_over_wires(reading, wire())))
    });
    let complaint = Signal::derive(move || match &*read.read() {
        Some(Err(fault)) => Some(Complaint::from(fault)),
        _ => None,
    });
    let label = Signal::derive(move || match &*own.read() {
        Some((typed, _)) => format!("Your reading over the {} wires", typed.with_unit(Field::Wire)),
        None => "Your reading over the best wires".to_owned(),
    });
    view! {
        <Fold title="Measuring over three wires">
            <dl class="sizes" data-testid="wires">
                {move || {
                    let own = own.get().map(|(typed, _)| typed);
                    rows(thread, groove, own, wire(), system.get())
                }}
            </dl>
            <NumberField
                field=Field::OverWires
                label
                value=Signal::derive(move || typed.get().begun_in(system.get()))
                on_change=move |now| typed.set(now)
                complaint
            />
            <div aria-live="polite" data-testid="over-wires">
                {move || said(read.read().as_ref(), thread, system.get())}
            </div>
            <Tile to="shop?wires" name="Your thread wires" sketch=Sketch::Drawers across=true />
            <p class="muted">{words::sources(wires::SOURCE)}</p>
        </Fold>
    }
    .into_any()
}

fn rows(
    thread: Thread,
    groove: Groove,
    own: Option<Typed>,
    wire: Length,
    system: System,
) -> Vec<AnyView> {
    let size = |length| rounding::length(length, system).to_string();
    let (least, most) = groove.usable_wires();
    let yours = own.map_or_else(|| "none fits".to_owned(), |own| own.with_unit(Field::Wire));
    let mut rows = vec![
        row("Best wires", size(groove.best_wire())).into_any(),
        row("Any wires from", span(least, most, system)).into_any(),
        row("Take, of yours", yours).into_any(),
    ];
    match (thread.external(), thread.over_wires(wire)) {
        (Some(class), Ok(Some(reading))) => {
            let name = format!("Micrometer reads, {}", class.class);
            rows.push(row(name, span(reading.least, reading.most, system)).into_any());
        }
        _ => {
            let basic = thread.basic_pitch_diameter();
            if let Ok(over) = groove.over_wires(basic, wire) {
                let over = over + groove.slant(basic, wire);
                rows.push(row("Micrometer reads, basic thread", size(over)).into_any());
            }
        }
    }
    rows
}

/// What a reading says, in words and shape.
fn said(
    read: Option<&Result<Reading, InputError>>,
    thread: Thread,
    system: System,
) -> Option<AnyView> {
    let Reading { pitch_diameter, stand } = *read?.as_ref().ok()?;
    let class = thread.external().map_or("", |limits| limits.class);
    let size = |length: Length| rounding::length(length, system);
    let (state, word) = match stand {
        Stand::Inside => (State::Within, format!("Inside {class}")),
        Stand::Over(by) => (State::Near, format!("{} over {class}: take more off", size(by))),
        Stand::Under(by) => (State::Over, format!("{} under {class}: too thin", size(by))),
        Stand::NoLimit(off) => {
            let way = if off.is_positive() { "over" } else { "under" };
            let word =
                format!("{} {way} the basic one; this series has no class here", size(off.abs()));
            (State::Near, word)
        }
    };
    let Shown { digits, unit } = size(pitch_diameter);
    Some(
        view! {
            <div class="cells">
                <SecondNumber label="Pitch diameter" shown=Shown { digits, unit } />
            </div>
            <p>
                <StateMark state word />
            </p>
        }
        .into_any(),
    )
}
