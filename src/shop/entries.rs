//! What is typed at many fields, of which a page asks a few at a time.

use crate::{
    engine::{
        quantity::{Angle, Length},
        question::{Field, InputError},
    },
    shop::typed::Typed,
};

/// Texts by their fields. An empty one is no entry.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Entries(Vec<(Field, Typed)>);

impl Entries {
    /// What stands at a field; empty where nothing does.
    #[must_use]
    pub fn at(&self, field: Field) -> Typed {
        self.given(field).cloned().unwrap_or_default()
    }

    /// What stands at a field, if something does.
    #[must_use]
    pub fn given(&self, field: Field) -> Option<&Typed> {
        self.0.iter().find(|(found, _)| *found == field).map(|(_, typed)| typed)
    }

    /// Puts a text at a field; an empty one takes away what stood there.
    pub fn set(&mut self, field: Field, typed: Typed) {
        self.0.retain(|(found, _)| *found != field);
        if !typed.is_empty() {
            let place = self.0.partition_point(|(found, _)| (*found as usize) < field as usize);
            self.0.insert(place, (field, typed));
        }
    }

    /// The same without some fields.
    #[must_use]
    pub fn without(&self, fields: &[Field]) -> Self {
        Self(self.0.iter().filter(|(field, _)| !fields.contains(field)).cloned().collect())
    }

    /// A length above nothing.
    pub(in crate::shop) fn length(&self, field: Field) -> Result<Length, InputError> {
        self.at(field).length(field)
    }

    /// A length above nothing, or another where nothing is typed.
    pub(in crate::shop) fn length_or(
        &self,
        field: Field,
        usual: Length,
    ) -> Result<Length, InputError> {
        self.given(field).map_or(Ok(usual), |typed| typed.length(field))
    }

    /// A length that may be nothing or less; nothing where nothing is typed.
    pub(in crate::shop) fn signed(&self, field: Field) -> Result<Length, InputError> {
        self.given(field).map_or(Ok(Length::ZERO), |typed| typed.length_or_nothing(field))
    }

    /// A length above nothing, if there is an entry.
    pub(in crate::shop) fn some_length(&self, field: Field) -> Result<Option<Length>, InputError> {
        self.given(field).map(|typed| typed.length(field)).transpose()
    }

    /// An angle that may be nothing or less; nothing where nothing is typed.
    pub(in crate::shop) fn signed_angle(&self, field: Field) -> Result<Angle, InputError> {
        self.given(field).map_or(Ok(Angle::ZERO), |typed| typed.angle_or_nothing(field))
    }
}

/// Keeps the errors of several readings apart from what could be read.
pub(in crate::shop) fn keep<T>(
    faults: &mut Vec<InputError>,
    read: Result<T, InputError>,
) -> Option<T> {
    read.map_err(|fault| faults.push(fault)).ok()
}

/// A sentence and its hint, as the engine gives them in one text, at a field.
pub(in crate::shop) fn at(field: Field, error: &dyn core::fmt::Display) -> InputError {
    let text = error.to_string();
    match text.split_once(". ") {
        Some((problem, hint)) => InputError::new(field, format!("{problem}."), hint),
        None => InputError::new(field, text, ""),
    }
}
