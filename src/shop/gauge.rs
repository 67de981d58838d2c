//! What the screen as a pitch gauge shows, as it is asked for.

use crate::{
    engine::{
        question::InputError,
        threads::gauge::{Ruling, ruling_called},
    },
    shop::query::{Query, pairs},
};

/// The pitches on the gauge, by their names; empty where nothing was chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GaugeForm {
    /// The one at the left.
    pub pitch: String,
    /// The one beside it; empty for the one most easily taken for it.
    pub beside: String,
}

impl GaugeForm {
    /// Two pitches side by side.
    #[must_use]
    pub fn of(one: &Ruling, other: Option<&Ruling>) -> Self {
        let beside = other.map(|other| other.name.clone()).unwrap_or_default();
        Self { pitch: one.name.clone(), beside }
    }

    /// The query of the address, without the question mark. It always names the gauge.
    #[must_use]
    pub fn to_query(&self) -> String {
        let mut query = Query::default();
        query.put("gauge", &self.pitch);
        query.put("beside", &self.beside);
        match query.text() {
            text if self.pitch.is_empty() && text.is_empty() => "gauge".to_owned(),
            text if self.pitch.is_empty() => format!("gauge&{text}"),
            text => text,
        }
    }

    /// The form of a query, and a sentence for every pitch that no thread has.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            let place = match name.as_str() {
                "gauge" => &mut form.pitch,
                "beside" => &mut form.beside,
                _ => continue,
            };
            if value.is_empty() {
                continue;
            }
            match ruling_called(&value) {
                Ok(ruling) => *place = ruling.name,
                Err(fault) => faults.push(fault),
            }
        }
        (form, faults)
    }
}
