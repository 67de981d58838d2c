//! Numbers as a shop writes them, and everything one of them means: other units, the nearest
//! fraction, the nearest drills, a stack of blocks, limits, what a readout will say.
//!
//! A line is kept exactly as a ratio; what is shown of it is rounded once, at the end.

pub mod blocks;
pub mod drill;
pub mod form;
pub mod fraction;
pub mod hardness;
pub mod line;
pub mod readout;
pub mod tolerance;
pub mod units;

pub use line::{Line, read};

use crate::engine::quantity::{
    Length, System,
    entry::{self, EntryError, Measure, Rules},
    value::Value,
};

/// Reads what is typed into a form field, where a length may be called by the name of a drill.
///
/// # Errors
/// As [`entry::read`].
pub fn field(measure: Measure, text: &str, system: System) -> Result<Value, EntryError> {
    entry::read_by(text, field_rules(measure, system))
}

/// Reads what is typed into a form field that may be less than nothing, such as a place.
///
/// # Errors
/// As [`entry::read`].
pub fn signed(measure: Measure, text: &str, system: System) -> Result<Value, EntryError> {
    entry::read_by(text, Rules { signed: true, ..field_rules(measure, system) })
}

/// Reads a length from a form field.
///
/// # Errors
/// As [`entry::read`].
pub fn length(text: &str, system: System) -> Result<Length, EntryError> {
    match field(Measure::Length, text, system)? {
        Value::Length(length) => Ok(length),
        other => unreachable!("a length was read as {other:?}"),
    }
}

/// True when what is typed into a form field can be read and names its unit or a drill.
#[must_use]
pub fn names_unit(measure: Measure, text: &str) -> bool {
    let rules = Rules { signed: true, ..field_rules(measure, System::Inch) };
    entry::exact(text, rules).is_ok_and(|exact| exact.named)
}

fn field_rules(measure: Measure, system: System) -> Rules {
    Rules { names: Some(drill::NAMES), ..Rules::field(measure, system) }
}
