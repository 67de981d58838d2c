//! What the page holds: the form, the places that follow, and the step of the readout.

use std::sync::Arc;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    engine::{
        convert::readout::STEPS,
        layout::Place,
        quantity::{Length, System},
        question::{Field, InputError},
    },
    shop::{
        layout::{LayoutForm, laid::Laid},
        typed::Typed,
    },
    ui::{
        addressed::Addressed,
        components::{Complaint, complaint_at},
        state::App,
        words,
    },
};

/// What a form comes to.
#[derive(Clone, Debug, PartialEq)]
enum Outcome {
    Faults(Vec<InputError>),
    Done(Arc<Laid>),
}

/// The page's state, provided as a context.
#[derive(Clone, Copy)]
pub struct LayoutState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<LayoutForm>,
    /// What the address said that this version does not know.
    pub link_faults: RwSignal<Vec<InputError>>,
    /// The units at hand.
    pub system: Signal<System>,
    /// The step of the readout; none while none is chosen.
    pub step: Signal<Option<Length>>,
    /// What stands against the entries; empty while there are places.
    pub faults: Memo<Vec<InputError>>,
    outcome: Memo<Outcome>,
    addressed: Addressed<LayoutForm>,
    /// True once something was changed here: what has not been asked yet is not wrong.
    touched: Memo<bool>,
}

/// The address of a form.
#[must_use]
pub fn address(form: &LayoutForm) -> String {
    let query = form.to_query();
    if query.is_empty() { "layout".to_owned() } else { format!("layout?{query}") }
}

impl LayoutState {
    /// Reads the address.
    pub fn provide() -> Self {
        let app = App::get();
        let search = use_location().search;
        let (start, faults) = LayoutForm::from_query(&search.get_untracked());
        let addressed = Addressed::new(start.clone());
        let form = addressed.form;
        let link_faults = RwSignal::new(faults);
        // The hole that is at hand changes no place.
        let pattern = Memo::new(move |_| LayoutForm { at: None, ..form.get() });
        let outcome = Memo::new(move |_| match pattern.read().read() {
            Ok(laid) => Outcome::Done(Arc::new(laid)),
            Err(faults) => Outcome::Faults(faults),
        });
        let faults = Memo::new(move |_| match &*outcome.read() {
            Outcome::Faults(faults) => faults.clone(),
            Outcome::Done(_) => Vec::new(),
        });
        let step = app.part(|document| {
            let name = &document.converter.readout;
            let step = STEPS.iter().find(|(step, _)| step == name);
            step.map(|(_, step)| Length::mm(step.to_f64()))
        });
        let touched = Memo::new(move |before: Option<&bool>| {
            before.copied().unwrap_or_default() || *form.read() != start
        });
        let system = app.system();
        let state =
            Self { app, form, link_faults, system, step, faults, outcome, addressed, touched };
        let read = move |query: &str| {
            let (said, faults) = LayoutForm::from_query(query);
            link_faults.set(faults);
            said
        };
        addressed.keep(app, read, address, || {});
        provide_context(state);
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// Changes the form at a field.
    pub fn change(self, field: Field, change: impl FnOnce(&mut LayoutForm)) {
        self.addressed.change(field, change);
    }

    /// The places, while there are some.
    pub fn laid(self) -> Option<Arc<Laid>> {
        match &*self.outcome.read() {
            Outcome::Done(laid) => Some(laid.clone()),
            Outcome::Faults(_) => None,
        }
    }

    /// What stands at a field.
    pub fn typed(self, field: Field) -> Signal<Typed> {
        Signal::derive(move || self.form.read().entries.at(field).begun_in(self.system.get()))
    }

    /// What a field is called.
    pub fn label(self, field: Field) -> Signal<String> {
        Signal::derive(move || words::layout::field(&self.form.read(), field).to_owned())
    }

    /// What stands against a field of numbers.
    pub fn complaint(self, field: Field) -> Signal<Option<Complaint>> {
        Signal::derive(move || {
            let is_empty = self.form.read().entries.given(field).is_none();
            if is_empty && !self.touched.get() {
                return None;
            }
            complaint_at(&self.faults.read(), field)
        })
    }

    /// A place as it is set: at the nearest step of the readout.
    pub fn set_to(self, place: Place) -> Place {
        let step = self.step.get();
        step.and_then(|step| place.at_steps(step).ok()).unwrap_or(place)
    }

    /// The holes that are done, as they are listed, counted from 0.
    pub fn done(self) -> Signal<Vec<u32>> {
        let pattern = Memo::new(move |_| self.form.read().pattern());
        Signal::derive(move || self.app.document.read().layouts.done(&pattern.read()).to_vec())
    }

    /// Marks a hole as done, or not.
    pub fn mark(self, hole: usize, done: bool) {
        let (pattern, link) = {
            let form = self.form.read_untracked();
            (form.pattern(), LayoutForm { at: None, ..form.clone() }.to_query())
        };
        self.app.change(|document| {
            document.layouts.mark(&pattern, &link, hole as u32, done);
        });
    }

    /// The address of the list.
    pub fn list(self) -> String {
        address(&LayoutForm { at: None, ..self.form.get() })
    }

    /// The address of a hole, counted from 1 along the way.
    pub fn hole(self, at: u32) -> String {
        address(&LayoutForm { at: Some(at), ..self.form.get() })
    }
}
