//! Counterbores for socket head cap screws: the head sunk flush.

use super::screw::{Printed, not_listed};
use crate::engine::{quantity::Length, question::InputError};

/// Whose table a counterbore is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standard {
    /// ASME B18.3, inch.
    AsmeB18_3,
    /// ASME B18.3.1M, metric in American practice.
    AsmeB18_3_1M,
    /// ISO 4762, with the bore of DIN 974-1.
    Iso4762,
}

impl Standard {
    /// All of them, in the order of a picker.
    pub const ALL: [Self; 3] = [Self::AsmeB18_3, Self::AsmeB18_3_1M, Self::Iso4762];

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::AsmeB18_3 => "ASME B18.3",
            Self::AsmeB18_3_1M => "ASME B18.3.1M",
            Self::Iso4762 => "ISO 4762",
        }
    }
}

/// One row of the table of counterbores.
#[derive(Debug, PartialEq)]
pub struct Counterbore {
    /// Whose.
    pub standard: Standard,
    /// Name of the screw.
    pub screw: &'static str,
    head_diameter: Printed,
    head_height: Printed,
    diameter: Printed,
    depth: Printed,
    edge_break: Option<Printed>,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/counterbore.rs"));

impl Counterbore {
    /// Largest diameter of the head.
    #[must_use]
    pub fn head_diameter(&self) -> Length {
        self.head_diameter.length()
    }
    /// Largest height of the head.
    #[must_use]
    pub fn head_height(&self) -> Length {
        self.head_height.length()
    }
    /// Diameter of the counterbore.
    #[must_use]
    pub fn diameter(&self) -> Length {
        self.diameter.length()
    }
    /// Depth for a head that is flush.
    #[must_use]
    pub fn depth(&self) -> Length {
        self.depth.length()
    }
    /// Diameter to which the edge of the hole is broken, so that the fillet under the head does
    /// not ride on it; `None` where the standard gives none.
    #[must_use]
    pub fn edge_break(&self) -> Option<Length> {
        self.edge_break.map(Printed::length)
    }
}

/// The counterbore of a screw.
///
/// # Errors
/// A sentence for a screw that the table does not hold.
pub fn counterbore(standard: Standard, screw: &str) -> Result<&'static Counterbore, InputError> {
    of(standard)
        .find(|row| row.screw == screw)
        .ok_or_else(|| not_listed(screw, standard.words(), screws(standard)))
}

/// The screws that a table holds, smallest first.
pub fn screws(standard: Standard) -> impl Iterator<Item = &'static str> {
    of(standard).map(|row| row.screw)
}

fn of(standard: Standard) -> impl Iterator<Item = &'static Counterbore> {
    COUNTERBORES.iter().filter(move |row| row.standard == standard)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{holes::screw, source::sources_of};

    #[test]
    fn a_head_has_room_in_its_counterbore_and_is_not_proud() {
        for row in COUNTERBORES {
            let body = screw::diameter(row.screw).expect(row.screw);
            assert!(row.head_diameter() > body && row.diameter() > row.head_diameter(), "{row:?}");
            assert!(row.depth() >= row.head_height(), "{row:?}");
            if let Some(edge) = row.edge_break() {
                assert!(edge > body && edge < row.head_diameter(), "{row:?}");
            }
            assert!(!sources_of(row.source).is_empty());
        }
    }

    #[test]
    fn a_larger_screw_has_a_larger_counterbore() {
        for standard in Standard::ALL {
            let rows: Vec<_> = of(standard).collect();
            assert!(rows.len() > 10, "{standard:?}");
            for pair in rows.windows(2) {
                // Two inch sizes share one: 7/32 serves #3 and #4.
                assert!(pair[0].diameter() <= pair[1].diameter(), "{:?}", pair[1]);
                assert!(pair[0].depth() < pair[1].depth(), "{:?}", pair[1]);
            }
        }
    }

    #[test]
    fn american_and_iso_practice_differ_and_each_is_right_at_home() {
        let of = |standard| counterbore(standard, "M6").expect("M6").diameter().to_mm();
        assert!((of(Standard::AsmeB18_3_1M) - 11.25).abs() < 1e-9);
        assert!((of(Standard::Iso4762) - 11.0).abs() < 1e-9);
        let error = counterbore(Standard::AsmeB18_3, "#12").expect_err("it is not listed");
        assert!(error.problem.contains("#12"), "{error}");
    }
}
