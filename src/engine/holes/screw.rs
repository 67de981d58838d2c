//! Screws as the standards name them, and lengths as they print them.

use crate::engine::{
    quantity::{
        Length, System,
        entry::{self, EntryError},
    },
    question::{Field, InputError},
};

/// A length as a table prints it: the unit belongs to the figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Printed {
    Inch(f64),
    Mm(f64),
}

impl Printed {
    pub(super) fn length(self) -> Length {
        match self {
            Self::Inch(x) => Length::inch(x),
            Self::Mm(x) => Length::mm(x),
        }
    }

    pub(super) fn system(self) -> System {
        match self {
            Self::Inch(_) => System::Inch,
            Self::Mm(_) => System::Metric,
        }
    }
}

/// Nominal diameter of a screw by its name: `#10` is 0.060 + 0.013 x 10 in (ASME B1.1), `1/4` and
/// `1 1/8` are inches, `M5` is millimetres.
///
/// # Errors
/// A sentence for a name that is none of these.
pub fn diameter(screw: &str) -> Result<Length, InputError> {
    let unknown = || {
        InputError::new(
            Field::Screw,
            format!("There is no screw called {screw}."),
            "Name it as #10, 1/4 or M5.",
        )
    };
    let size = if let Some(number) = screw.strip_prefix('#') {
        let number: u32 = number.parse().map_err(|_| unknown())?;
        (number <= 12).then(|| Length::inch(0.060 + 0.013 * f64::from(number)))
    } else if let Some(metric) = screw.strip_prefix('M') {
        metric.parse().ok().map(Length::mm)
    } else {
        entry::length(screw, System::Inch).map_err(|_: EntryError| unknown()).map(Some)?
    };
    size.filter(|d| d.is_positive()).ok_or_else(unknown)
}

/// The error of a table that does not hold a screw, with those it does hold.
pub(super) fn not_listed<'a>(
    screw: &str,
    table: &str,
    listed: impl Iterator<Item = &'a str>,
) -> InputError {
    let names: Vec<_> = listed.collect();
    let hint = match (names.first(), names.last()) {
        (Some(first), Some(last)) => {
            format!("It has {} of them, from {first} to {last}: choose one.", names.len())
        }
        _ => "Choose another table.".to_owned(),
    };
    InputError::new(Field::Screw, format!("{table} has no {screw} of this kind."), hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_screw_is_a_number_a_fraction_or_metric() {
        let inch = |name| diameter(name).expect(name).to_inch();
        assert!((inch("#10") - 0.190).abs() < 1e-12);
        assert!((inch("#0") - 0.060).abs() < 1e-12);
        assert!((inch("1 1/8") - 1.125).abs() < 1e-12);
        assert!((diameter("M2.5").expect("M2.5").to_mm() - 2.5).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_screw_is_named_at_its_field() {
        for name in ["", "#", "#13", "#-1", "M", "M0", "M-5", "MM5", "Mnan", "x", "1/0"] {
            let error = diameter(name).expect_err(name);
            assert_eq!(error.field, Field::Screw, "{name}");
            assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
        }
    }
}
