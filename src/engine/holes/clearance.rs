//! Clearance holes: the hole that a screw passes through.
//!
//! Three conventions that differ: a shop chart's "close" is tighter than the "close" of ASME
//! B18.2.8, so a hole always carries the name of its table.

use super::screw::{Printed, not_listed};
use crate::engine::{
    quantity::{Length, System},
    question::{Field, InputError},
};

/// Whose table a clearance hole is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standard {
    /// ASME B18.2.8: close, normal, loose.
    AsmeB18_2_8,
    /// ISO 273: fine, medium, coarse.
    Iso273,
    /// The shop chart of the inch trade: close and free, both tighter than ASME has them.
    Trade,
}

impl Standard {
    /// All of them, in the order of a picker.
    pub const ALL: [Self; 3] = [Self::AsmeB18_2_8, Self::Iso273, Self::Trade];

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::AsmeB18_2_8 => "ASME B18.2.8",
            Self::Iso273 => "ISO 273",
            Self::Trade => "Shop chart",
        }
    }
}

/// How much room the screw has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fit {
    /// The least.
    Close,
    /// The usual.
    Normal,
    /// The most.
    Loose,
}

impl Fit {
    /// All of them, closest first.
    pub const ALL: [Self; 3] = [Self::Close, Self::Normal, Self::Loose];

    /// What a standard calls it.
    #[must_use]
    pub fn words(self, standard: Standard) -> &'static str {
        match (standard, self) {
            (Standard::Iso273, Self::Close) => "fine",
            (Standard::Iso273, Self::Normal) => "medium",
            (Standard::Iso273, Self::Loose) => "coarse",
            (Standard::Trade, Self::Loose) => "free",
            (_, Self::Close) => "close",
            (_, Self::Normal) => "normal",
            (_, Self::Loose) => "loose",
        }
    }
}

/// One row of the table of clearance holes.
#[derive(Debug, PartialEq)]
pub struct ClearanceHole {
    /// Whose.
    pub standard: Standard,
    /// Name of the screw.
    pub screw: &'static str,
    /// How close.
    pub fit: Fit,
    /// Name of the drill that makes it.
    pub drill: &'static str,
    hole: Printed,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/clearance.rs"));

impl ClearanceHole {
    /// Diameter of the hole.
    #[must_use]
    pub fn hole(&self) -> Length {
        self.hole.length()
    }
    /// The unit system its standard is written in.
    #[must_use]
    pub fn system(&self) -> System {
        self.hole.system()
    }
}

/// The clearance hole of a screw.
///
/// # Errors
/// A sentence for a screw that the table does not hold, or not in this fit.
pub fn clearance_hole(
    standard: Standard,
    screw: &str,
    fit: Fit,
) -> Result<&'static ClearanceHole, InputError> {
    of_screw(standard, screw).find(|row| row.fit == fit).ok_or_else(|| {
        let fits: Vec<_> = of_screw(standard, screw).map(|row| row.fit.words(standard)).collect();
        if fits.is_empty() {
            return not_listed(screw, standard.words(), screws(standard));
        }
        InputError::new(
            Field::Fit,
            format!(
                "{} has no {} hole for {screw}.",
                standard.words(),
                // A fit that a table has no word for is asked in the common one.
                fit.words(standard)
            ),
            format!("It has {}.", fits.join(" and ")),
        )
    })
}

/// The screws that a table holds, smallest first.
pub fn screws(standard: Standard) -> impl Iterator<Item = &'static str> {
    let mut last = "";
    of(standard)
        .map(|row| row.screw)
        .filter(move |screw| core::mem::replace(&mut last, screw) != *screw)
}

/// The holes of a screw, closest first.
pub(super) fn of_screw(
    standard: Standard,
    screw: &str,
) -> impl Iterator<Item = &'static ClearanceHole> {
    of(standard).filter(move |row| row.screw == screw)
}

fn of(standard: Standard) -> impl Iterator<Item = &'static ClearanceHole> {
    CLEARANCE_HOLES.iter().filter(move |row| row.standard == standard)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{drills::Drill, holes::screw, source::sources_of};

    fn hole(standard: Standard, screw: &str, fit: Fit) -> f64 {
        clearance_hole(standard, screw, fit).expect(screw).hole().to_inch()
    }

    #[test]
    fn close_is_under_normal_is_under_loose_and_all_clear_the_screw() {
        for standard in Standard::ALL {
            let mut count = 0;
            for name in screws(standard) {
                let body = screw::diameter(name).expect(name);
                let holes: Vec<_> = of(standard).filter(|row| row.screw == name).collect();
                assert!(holes[0].hole() > body, "{name}");
                for pair in holes.windows(2) {
                    assert!(pair[0].fit < pair[1].fit && pair[0].hole() < pair[1].hole(), "{name}");
                }
                assert!(holes.iter().all(|row| !sources_of(row.source).is_empty()), "{name}");
                count += 1;
            }
            assert!(count > 15, "{standard:?} holds {count} screws");
        }
    }

    #[test]
    fn every_hole_is_as_wide_as_the_drill_of_its_name() {
        for row in CLEARANCE_HOLES {
            let drill = Drill::named(row.drill).expect(row.drill).diameter();
            assert!((drill - row.hole()).abs() < Length::inch(1e-9), "{row:?}");
        }
    }

    #[test]
    fn a_larger_screw_has_a_larger_hole() {
        for standard in Standard::ALL {
            for fit in Fit::ALL {
                let holes: Vec<_> = of(standard).filter(|row| row.fit == fit).collect();
                for pair in holes.windows(2) {
                    assert!(pair[0].hole() < pair[1].hole(), "{:?}", pair[1]);
                    let body = |row: &ClearanceHole| screw::diameter(row.screw).expect(row.screw);
                    assert!(body(pair[0]) < body(pair[1]), "{:?}", pair[1]);
                }
            }
        }
    }

    #[test]
    fn the_shop_chart_is_tighter_than_the_standard_of_the_same_word() {
        for name in ["#4", "#10", "1/4", "3/8", "1/2"] {
            assert!(
                hole(Standard::Trade, name, Fit::Close)
                    < hole(Standard::AsmeB18_2_8, name, Fit::Close),
                "{name}"
            );
        }
    }

    #[test]
    fn a_row_taken_from_another_convention_is_not_in_the_standard() {
        for name in ["#12", "9/16", "1 3/4"] {
            assert!(clearance_hole(Standard::AsmeB18_2_8, name, Fit::Normal).is_err(), "{name}");
        }
        assert!((hole(Standard::Iso273, "M14", Fit::Normal) - 15.5 / 25.4).abs() < 1e-9);
    }

    #[test]
    fn what_a_table_does_not_hold_is_named_with_what_it_does() {
        let error = clearance_hole(Standard::AsmeB18_2_8, "M5", Fit::Normal).expect_err("metric");
        assert_eq!(error.field, Field::Screw);
        assert!(error.hint.contains("#0") && error.hint.contains("1 1/2"), "{error}");
        let error = clearance_hole(Standard::Trade, "1/4", Fit::Normal).expect_err("no normal");
        assert_eq!(error.field, Field::Fit);
        assert!(error.hint.contains("close and free"), "{error}");
    }
}
