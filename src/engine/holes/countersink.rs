//! Countersinks for flat heads, to the theoretical sharp diameter: cut to the head's measured rim,
//! it would stand proud.

use super::screw::{Printed, not_listed};
use crate::engine::{
    quantity::{Angle, Length},
    question::InputError,
};

/// Whose table a countersink is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standard {
    /// ASME B18.3, inch flat socket head.
    AsmeB18_3,
    /// ASME B18.6.3, inch flat machine screw.
    AsmeB18_6_3,
    /// ISO 10642, metric flat socket head.
    Iso10642,
    /// ISO 15065, metric heads to ISO 7721.
    Iso15065,
}

impl Standard {
    /// All of them, in the order of a picker.
    pub const ALL: [Self; 4] = [Self::AsmeB18_3, Self::AsmeB18_6_3, Self::Iso10642, Self::Iso15065];

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::AsmeB18_3 => "ASME B18.3",
            Self::AsmeB18_6_3 => "ASME B18.6.3",
            Self::Iso10642 => "ISO 10642",
            Self::Iso15065 => "ISO 15065",
        }
    }
}

/// One row of the table of countersinks.
#[derive(Debug, PartialEq)]
pub struct Countersink {
    /// Whose.
    pub standard: Standard,
    /// Name of the screw.
    pub screw: &'static str,
    angle_deg: f64,
    diameter: Printed,
    diameter_max: Option<Printed>,
    head_height: Option<Printed>,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/countersink.rs"));

impl Countersink {
    /// Included angle.
    #[must_use]
    pub fn angle(&self) -> Angle {
        Angle::degree(self.angle_deg)
    }
    /// Diameter at the surface: the theoretical sharp diameter of the head.
    #[must_use]
    pub fn diameter(&self) -> Length {
        self.diameter.length()
    }
    /// The largest diameter the standard allows, where it gives one.
    #[must_use]
    pub fn diameter_max(&self) -> Option<Length> {
        self.diameter_max.map(Printed::length)
    }
    /// Largest height of the head, where the standard gives one.
    #[must_use]
    pub fn head_height(&self) -> Option<Length> {
        self.head_height.map(Printed::length)
    }
}

/// The countersink of a screw.
///
/// # Errors
/// A sentence for a screw that the table does not hold.
pub fn countersink(standard: Standard, screw: &str) -> Result<&'static Countersink, InputError> {
    of(standard)
        .find(|row| row.screw == screw)
        .ok_or_else(|| not_listed(screw, standard.words(), screws(standard)))
}

/// The screws that a table holds, smallest first.
pub fn screws(standard: Standard) -> impl Iterator<Item = &'static str> {
    of(standard).map(|row| row.screw)
}

fn of(standard: Standard) -> impl Iterator<Item = &'static Countersink> {
    COUNTERSINKS.iter().filter(move |row| row.standard == standard)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{holes::screw, source::sources_of};

    #[test]
    fn inch_heads_have_82_degrees_and_metric_ones_90() {
        for row in COUNTERSINKS {
            let inch = !row.screw.starts_with('M');
            assert_eq!(row.angle().to_degree().round(), if inch { 82.0 } else { 90.0 }, "{row:?}");
        }
    }

    #[test]
    fn a_countersink_is_wider_than_its_screw_and_grows_with_it() {
        for standard in Standard::ALL {
            let rows: Vec<_> = of(standard).collect();
            assert!(rows.len() >= 10, "{standard:?}");
            for pair in rows.windows(2) {
                assert!(pair[0].diameter() < pair[1].diameter(), "{:?}", pair[1]);
            }
            for row in rows {
                let body = screw::diameter(row.screw).expect(row.screw);
                assert!(row.diameter() > body * 1.5, "{row:?}");
                assert!(row.diameter_max().is_none_or(|most| most > row.diameter()), "{row:?}");
                assert!(!sources_of(row.source).is_empty());
            }
        }
    }

    #[test]
    fn a_socket_head_to_iso_10642_is_cut_to_its_theoretical_diameter() {
        for (name, mm) in [("M3", 6.72), ("M4", 8.96), ("M5", 11.20), ("M6", 13.44)] {
            let row = countersink(Standard::Iso10642, name).expect(name);
            assert!((row.diameter().to_mm() - mm).abs() < 1e-9, "{name}");
        }
    }
}
