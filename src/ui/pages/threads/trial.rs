//! A drill at hand, or a hole as it measures: what thread it would leave.

use leptos::prelude::*;

use super::{card::verdict, state::HoleState};
use crate::{
    engine::{
        quantity::rounding::{Shown, fixed},
        question::Field,
        threads::{
            Thread,
            percent::{self, Basis},
            tap_hole::{self, Verdict},
        },
    },
    shop::typed::Typed,
    ui::components::{Complaint, Fold, NumberField, SecondNumber, StateMark},
};

/// The fold; nothing for a taper thread, whose hole has no one percentage.
#[component]
pub fn Trial(thread: Thread) -> impl IntoView {
    if thread.series().is_taper() {
        return ().into_any();
    }
    let state = HoleState::get();
    let system = state.system();
    let basis = Basis::usual(thread.form());
    let typed = RwSignal::new(Typed::default());
    let tried = Memo::new(move |_| {
        let typed = typed.read();
        let hole = typed.given()?.length(Field::Hole);
        Some(hole.and_then(|hole| {
            let percent = percent::percent_of(thread, hole, basis)?;
            Ok((percent, tap_hole::verdict(thread, hole)))
        }))
    });
    let complaint = Signal::derive(move || match &*tried.read() {
        Some(Err(fault)) => Some(Complaint::from(fault)),
        _ => None,
    });
    let said = move || {
        let Some(Ok((percent, stands))) = tried.get() else { return None };
        let digits = if stands == Verdict::Binds {
            // What lies beyond the form is no percentage of it.
            format!("> {}", fixed(percent::most(thread, basis), 1))
        } else {
            fixed(percent, 1)
        };
        let (mark, word) = verdict(stands, thread);
        Some(view! {
            <div class="cells">
                <SecondNumber label="Of thread, for a cutting tap" shown=Shown { digits, unit: "%" } />
            </div>
            <p>
                <StateMark state=mark word />
            </p>
        })
    };
    view! {
        <Fold title="What would another drill leave?">
            <NumberField
                field=Field::Hole
                label="Drill, or the hole as it measures"
                value=Signal::derive(move || typed.get().begun_in(system.get()))
                on_change=move |now| typed.set(now)
                complaint
            />
            <div aria-live="polite" data-testid="trial">
                {said}
            </div>
        </Fold>
    }
    .into_any()
}
