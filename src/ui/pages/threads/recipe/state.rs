//! What the page of a recipe holds: the form of the hole, and the recipe that follows.

use std::sync::Arc;

use leptos::prelude::*;

use super::super::state::HoleState;
use crate::{
    engine::{
        cutting::drilling,
        holes::{
            finish::Finish,
            recipe::{Recipe, Work},
        },
        question::{Field, InputError},
    },
    shop::holes::making::{Made, make},
    ui::{
        components::{
            Complaint, complaint_at,
            hole_picture::{Seat, Section, Threading},
        },
        state::after_the_frame,
    },
};

/// A recipe with what the screen draws beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The recipe.
    pub recipe: Recipe,
    /// Goes through.
    pub through: bool,
    /// The hole in section.
    pub section: Option<Section>,
}

/// What a form comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Entries that cannot be worked with, each at its field.
    Faults(Vec<InputError>),
    /// A recipe.
    Done(Arc<Laid>),
}

/// The page's state, provided as a context.
#[derive(Clone, Copy)]
pub struct RecipeState {
    /// The form.
    pub hole: HoleState,
    /// What stands against the entries; empty while there is a recipe.
    pub faults: Memo<Vec<InputError>>,
    outcome: Memo<Outcome>,
    /// The outcome, once the frame with the new numbers is on the screen.
    shown: RwSignal<Outcome>,
    /// True once something was changed here: what has not been asked yet is not wrong.
    touched: Memo<bool>,
}

impl RecipeState {
    /// Follows the form of the hole.
    pub fn provide() -> Self {
        let hole = HoleState::get();
        let (form, document) = (hole.form, hole.app.document);
        let outcome = Memo::new(move |_| match make(&form.read(), &document.read()) {
            Ok(made) => Outcome::Done(Arc::new(laid(made))),
            Err(faults) => Outcome::Faults(faults),
        });
        let faults = Memo::new(move |_| match &*outcome.read() {
            Outcome::Faults(faults) => faults.clone(),
            Outcome::Done(_) => Vec::new(),
        });
        let shown = RwSignal::new(outcome.get_untracked());
        Effect::new(move |before: Option<()>| {
            let now = outcome.get();
            if before.is_some() {
                after_the_frame(move || {
                    // The page may be gone by then.
                    let _ = shown.try_set(now);
                });
            }
        });
        let start = form.get_untracked();
        let touched = Memo::new(move |before: Option<&bool>| {
            before.copied().unwrap_or_default() || *form.read() != start
        });
        let state = Self { hole, faults, outcome, shown, touched };
        provide_context(state);
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// The recipe, while there is one.
    pub fn done(self) -> Option<Arc<Laid>> {
        match &*self.outcome.read() {
            Outcome::Done(laid) => Some(laid.clone()),
            Outcome::Faults(_) => None,
        }
    }

    /// The recipe for what is read after the numbers; it follows them by a frame.
    pub fn shown_now(self) -> Option<Arc<Laid>> {
        match &*self.shown.read() {
            Outcome::Done(laid) => Some(laid.clone()),
            Outcome::Faults(_) => None,
        }
    }

    /// True when something stands against one of these fields, as the page opens.
    pub fn has_fault(self, fields: &[Field]) -> bool {
        self.faults.read_untracked().iter().any(|fault| fields.contains(&fault.field))
    }

    /// What stands against a field of numbers.
    pub fn complaint(self, field: Field) -> Signal<Option<Complaint>> {
        Signal::derive(move || {
            let is_empty = self.hole.typed(field).read().is_empty();
            if is_empty && !self.touched.get() {
                return None;
            }
            complaint_at(&self.faults.read(), field)
        })
    }
}

fn laid(made: Made) -> Laid {
    Laid { section: section(&made), through: made.hole.is_through(), recipe: made.recipe }
}

/// The hole in section, as its steps make it.
fn section(made: &Made) -> Option<Section> {
    let steps = &made.recipe.steps;
    let step = |work| steps.iter().find(|step| step.work == work);
    let drill = step(Work::Drill)?;
    let thread = match (&made.hole.finish, made.recipe.chain) {
        (Finish::Tapped(tapped), Some(chain)) => Some(Threading {
            major: tapped.thread().major(),
            pitch: tapped.thread().pitch(),
            full: chain.full_thread,
            tap: chain.travel,
        }),
        _ => None,
    };
    let seat = match &made.hole.finish {
        Finish::Counterbored { diameter, depth, .. } => Some(Seat::Counterbore(*diameter, *depth)),
        Finish::Countersunk { diameter, .. } => {
            step(Work::Countersink).map(|step| Seat::Countersink(*diameter, step.full))
        }
        _ => None,
    };
    Some(Section {
        plate: made.hole.plate,
        through: made.hole.is_through(),
        drill: drill.makes,
        full: drill.full,
        tip: drill.tip,
        point: drilling::point_length_of(drill.makes, made.point_angle),
        reamed: step(Work::Ream).map(|step| (step.makes, step.full)),
        thread,
        seat,
    })
}
