//! How long a thread has to be for the screw to break before it strips.

use crate::engine::{quantity::Length, stock::Material};

/// Length of thread for the full strength of a steel screw, in diameters of the screw.
#[derive(Debug, PartialEq)]
pub struct Engagement {
    /// The group of stock the thread is cut in.
    pub group: &'static str,
    /// At least.
    pub low: f64,
    /// No more than this helps.
    pub high: f64,
    /// What the row says besides.
    pub remark: &'static str,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/engagement.rs"));

impl Engagement {
    /// Least and most length for a screw of this diameter.
    #[must_use]
    pub fn lengths(&self, screw: Length) -> (Length, Length) {
        (screw * self.low, screw * self.high)
    }
}

/// The engagement of a steel screw in a stock.
///
/// # Panics
/// Never: the build refuses a table without a row for every group of stock.
#[must_use]
pub fn engagement(stock: &Material) -> &'static Engagement {
    let row = ENGAGEMENTS.iter().find(|row| row.group == stock.feed_group);
    row.unwrap_or_else(|| panic!("no engagement for {}", stock.feed_group))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::stock::{MATERIALS, material};

    #[test]
    fn every_stock_has_its_engagement_and_none_less_than_one_diameter() {
        for stock in MATERIALS {
            let row = engagement(stock);
            assert!(row.low >= 1.0 && row.high >= row.low, "{}", stock.id);
        }
    }

    #[test]
    fn a_quarter_inch_screw_needs_longer_threads_in_softer_stock() {
        let least = |id| {
            let row = engagement(material(id).expect(id));
            row.lengths(Length::inch(0.25)).0
        };
        let is = |got: Length, inch: f64| (got.to_inch() - inch).abs() < 1e-9;
        assert!(is(least("steel_low_c"), 0.25));
        assert!(is(least("ci_grey"), 0.375));
        assert!(is(least("pom"), 0.5));
        assert_eq!(engagement(material("al_6061").expect("it is there")).high, 2.0);
    }
}
