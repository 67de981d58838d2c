//! Boxes of drills as they are sold.

use super::{Drill, Index, NUMBERS};

/// A box of drills. The pieces in each are common practice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Set {
    /// 1/16 to 1/2 in by 64ths, 29 pieces.
    Fractions,
    /// 33/64 to 1 in by 64ths, with a reduced shank, 32 pieces.
    LargeFractions,
    /// No. 1 to No. 60.
    Numbers,
    /// No. 61 to No. 80.
    SmallNumbers,
    /// A to Z.
    Letters,
    /// 1 to 13 mm by 0.5, 25 pieces.
    MetricHalves,
    /// 1 to 10 mm by 0.1, 91 pieces.
    MetricTenths,
    /// 1 to 13 mm by 0.1, 121 pieces.
    MetricTenthsTo13,
    /// 0.5 to 1 mm by 0.05, 11 pieces.
    SmallMetric,
}

impl Set {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Fractions,
        Self::LargeFractions,
        Self::Numbers,
        Self::SmallNumbers,
        Self::Letters,
        Self::MetricHalves,
        Self::MetricTenths,
        Self::MetricTenthsTo13,
        Self::SmallMetric,
    ];

    /// What is in it, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Fractions => "Fractions, 1/16 to 1/2 in by 64ths",
            Self::LargeFractions => "Large fractions, 33/64 to 1 in by 64ths",
            Self::Numbers => "Numbers 1 to 60",
            Self::SmallNumbers => "Numbers 61 to 80",
            Self::Letters => "Letters A to Z",
            Self::MetricHalves => "Metric, 1 to 13 mm by 0.5",
            Self::MetricTenths => "Metric, 1 to 10 mm by 0.1",
            Self::MetricTenthsTo13 => "Metric, 1 to 13 mm by 0.1",
            Self::SmallMetric => "Small metric, 0.5 to 1 mm by 0.05",
        }
    }

    /// The drills in it, in the order of their names.
    #[must_use]
    pub fn drills(self) -> Vec<Drill> {
        match self {
            Self::Fractions => fractions(4, 32),
            Self::LargeFractions => fractions(33, 64),
            Self::Numbers => numbers(1, 60),
            Self::SmallNumbers => numbers(61, 80),
            Self::Letters => ('A'..='Z').filter_map(Drill::letter).collect(),
            Self::MetricHalves => metric(100, 1300, 50),
            Self::MetricTenths => metric(100, 1000, 10),
            Self::MetricTenthsTo13 => metric(100, 1300, 10),
            Self::SmallMetric => metric(50, 100, 5),
        }
    }
}

impl Index {
    /// Every inch drill: numbers, letters, 64ths to 1 in.
    #[must_use]
    pub fn every_inch() -> Self {
        let mut drills = numbers(1, NUMBERS.len() as u8);
        drills.extend(Set::Letters.drills());
        drills.extend(fractions(1, 64));
        Self::new(drills)
    }

    /// Metric drills from 0.5 to 25.4 mm by 0.1.
    #[must_use]
    pub fn every_metric() -> Self {
        Self::new(metric(50, 2540, 10))
    }

    /// [`Self::every_inch`] and [`Self::every_metric`].
    #[must_use]
    pub fn every() -> Self {
        Self::new([Self::every_inch(), Self::every_metric()].iter().flat_map(Self::iter))
    }
}

fn numbers(first: u8, last: u8) -> Vec<Drill> {
    (first..=last).filter_map(Drill::number).collect()
}

fn fractions(first: u16, last: u16) -> Vec<Drill> {
    (first..=last).filter_map(Drill::sixty_fourths).collect()
}

fn metric(first: u16, last: u16, step: usize) -> Vec<Drill> {
    (first..=last).step_by(step).filter_map(Drill::hundredths_of_mm).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_holds_as_many_pieces_as_it_is_sold_with() {
        let pieces = Set::ALL.map(|set| Index::new(set.drills()).len());
        assert_eq!(pieces, [29, 32, 60, 20, 26, 25, 91, 121, 11]);
        assert_eq!(Index::every_inch().len(), 97 + 26 + 64);
        assert_eq!(Index::every_metric().len(), 250);
    }
}
