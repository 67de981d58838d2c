//! Which mill: a cut, and how the mills stand, as asked for.

use crate::{
    engine::{
        plan::which::{Candidate, Choice, Wanted, which},
        question::{Field, InputError},
    },
    shop::{
        cuts::CutForm,
        document::{Document, OwnMachine},
        query::{Query, enter, pairs},
        typed::Typed,
    },
};

/// A cut asked of every mill.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WhichForm {
    /// The cut.
    pub cut: CutForm,
    /// From the table to the top of the work; may stay empty.
    pub stack: Typed,
    /// Ids of mills that stand set up for something else.
    pub busy: Vec<String>,
}

const KEYS: [(Field, &str); 1] = [(Field::Stack, "stack")];

impl WhichForm {
    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let mut query = Query::default();
        query.put_typed(&KEYS, |_| Some(&self.stack));
        query.put("busy", &self.busy.join(" "));
        let own = query.text();
        let cut = self.cut.to_query();
        if own.is_empty() { cut } else { format!("{own}&{cut}") }
    }

    /// The form of a query, and what in it could not be understood.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let (cut, faults) = CutForm::from_query(query);
        let mut form = Self { cut, ..Self::default() };
        for (key, value) in pairs(query) {
            if key == "busy" {
                form.busy = value.split_whitespace().map(str::to_owned).collect();
            } else {
                enter(&KEYS, &key, value, |_| Some(&mut form.stack));
            }
        }
        (form, faults)
    }

    /// The mills side by side, each with its place among the owner's.
    ///
    /// # Errors
    /// Everything in the cut that cannot be worked with, each at its field.
    pub fn ask(&self, document: &Document) -> Result<(Choice, Vec<String>), Vec<InputError>> {
        let read = |own: &OwnMachine| {
            let machine = own.form.read().ok()?;
            Some((own.id.clone(), machine, own.form.read_room().ok().flatten()))
        };
        let mills: Vec<_> = document.machines.iter().filter_map(read).collect();
        let Some((_, first, _)) = mills.first() else {
            return Err(vec![InputError::new(
                Field::Machine,
                "There is no mill yet whose speeds and wheel are known.",
                "Add one in the shop.",
            )]);
        };
        let question = self.cut.read(first)?;
        let stack = match self.stack.given() {
            None => None,
            Some(stack) => Some(stack.length(Field::Stack).map_err(|error| vec![error])?),
        };
        let wanted = Wanted { mill: question.mill, cut: question.cut, stack };
        let candidates: Vec<Candidate> = mills
            .iter()
            .map(|(id, machine, room)| Candidate {
                machine,
                room: *room,
                busy: self.busy.contains(id),
            })
            .collect();
        let choice = which(&wanted, &candidates);
        Ok((choice, mills.iter().map(|(id, ..)| id.clone()).collect()))
    }
}
