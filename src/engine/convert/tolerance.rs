//! Limits of a size, and the same limits in another unit, rounded inward: a part that is inside
//! the rounded ones is inside the drawing's.

use crate::engine::quantity::{ratio::Ratio, unit::Unit};

/// The least and the most a size may be, in the base of its kind (millimetres for a length).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The least.
    pub low: Ratio,
    /// The most.
    pub high: Ratio,
}

/// Limits in a unit with so many decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Inward {
    /// The least, in the unit; never under the limit.
    pub low: Ratio,
    /// The most, in the unit; never over the limit.
    pub high: Ratio,
    /// Decimals that both are rounded to.
    pub decimals: u32,
}

impl Inward {
    /// The same limits as a size with what it may be over and under: `31.750 +0.000/-0.050`. The
    /// size is the nearest one to `nominal`, in the unit, that lies between them.
    #[must_use]
    pub fn around(self, nominal: Ratio) -> Option<String> {
        let step = Ratio::new(1, 10_i128.checked_pow(self.decimals)?)?;
        let nearest = Ratio::new(nominal.steps_of(step)?, 1)?.times(step)?;
        let size = nearest.clamp(self.low, self.high);
        let (over, under) = (self.high.minus(size)?, size.minus(self.low)?);
        let digits = |number: Ratio| number.fixed(self.decimals);
        Some(format!("{} +{}/-{}", digits(size), digits(over), digits(under)))
    }
}

/// The limits in a unit, the lower one rounded up and the upper one down, with as many decimals as
/// asked for or as many more as it takes for anything to lie between. Nothing for a unit without
/// exact numbers.
#[must_use]
pub fn inward(limits: Limits, unit: &Unit, decimals: u32) -> Option<Inward> {
    const MORE: u32 = 4;
    (decimals..=decimals + MORE).find_map(|decimals| {
        let step = Ratio::new(1, 10_i128.checked_pow(decimals)?)?;
        let steps = |limit: Ratio| unit.from_base(limit)?.over(step);
        let (low, high) = (steps(limits.low)?.ceil(), steps(limits.high)?.floor());
        let at = |count| Ratio::new(count, 1)?.times(step);
        (low <= high).then_some(Inward { low: at(low)?, high: at(high)?, decimals })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::unit::LENGTH;

    fn limits(low: i128, high: i128) -> Limits {
        let mm = |inches| Ratio::new(inches * 254, 100_000).unwrap();
        Limits { low: mm(low), high: mm(high) }
    }

    #[test]
    fn limits_are_rounded_inward() {
        // 1.250 +.000/-.002 in: 31.6992 to 31.7500 mm.
        let metric = inward(limits(12_480, 12_500), &LENGTH[1], 3).unwrap();
        assert_eq!((metric.low.fixed(3), metric.high.fixed(3)), ("31.700".into(), "31.750".into()));
        let nominal = Ratio::new(3175, 100).unwrap();
        assert_eq!(metric.around(nominal).as_deref(), Some("31.750 +0.000/-0.050"));
        let coarse = inward(limits(12_480, 12_500), &LENGTH[1], 2).unwrap();
        assert_eq!((coarse.low.fixed(2), coarse.high.fixed(2)), ("31.70".into(), "31.75".into()));
    }

    #[test]
    fn limits_too_close_for_the_decimals_take_more_of_them() {
        let one = inward(limits(12_501, 12_501), &LENGTH[1], 3).unwrap();
        assert_eq!((one.decimals, one.low), (5, one.high));
        let third = Ratio::new(1, 3).unwrap();
        assert_eq!(inward(Limits { low: third, high: third }, &LENGTH[0], 4), None);
    }
}
