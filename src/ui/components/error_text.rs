//! What is wrong, and what to do.

use leptos::prelude::*;

use super::state_mark::shape;
use crate::engine::{
    answer::State,
    quantity::entry::EntryError,
    question::{Field, InputError},
};

/// A sentence and a hint, as the engine gives them for what cannot be worked with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Complaint {
    /// What is wrong, a full sentence.
    pub problem: String,
    /// What to do, a full sentence.
    pub hint: String,
}

impl From<EntryError> for Complaint {
    fn from(error: EntryError) -> Self {
        Self { problem: error.problem, hint: error.hint }
    }
}

impl From<&InputError> for Complaint {
    fn from(error: &InputError) -> Self {
        Self { problem: error.problem.clone(), hint: error.hint.clone() }
    }
}

/// What the engine holds against one field, out of everything it found.
#[must_use]
pub fn complaint_at(errors: &[InputError], field: Field) -> Option<Complaint> {
    errors.iter().find(|error| error.field == field).map(Complaint::from)
}

/// A complaint at its field. The field names it with `aria-describedby`.
#[component]
pub fn ErrorText(
    /// The name the field refers to.
    #[prop(into)]
    id: String,
    /// What is wrong; nothing shows without it.
    #[prop(into)]
    complaint: Signal<Option<Complaint>>,
) -> impl IntoView {
    move || {
        complaint.get().map(|Complaint { problem, hint }| {
            view! {
                <div class="error" id=id.clone() data-status="over">
                    {shape(State::Over)}
                    <span>
                        <strong>{problem}</strong>
                        " "
                        {hint}
                    </span>
                </div>
            }
        })
    }
}
