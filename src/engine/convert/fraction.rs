//! The nearest fraction of an inch.

use crate::engine::quantity::ratio::Ratio;

/// The fractions that rules and drills are made in, coarsest first.
pub const DENOMINATORS: [i64; 5] = [8, 16, 32, 64, 128];

/// A fraction near a size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Near {
    /// The fraction, in inches.
    pub inches: Ratio,
    /// How much it is over the size, in inches; below zero where it is under.
    pub over: Ratio,
}

/// The nearest fraction with this denominator, reduced; of two that are as near the one further
/// from nothing. Nothing where the size is too long to be worked out exactly.
#[must_use]
pub fn nearest(inches: Ratio, denominator: i64) -> Option<Near> {
    let step = Ratio::new(1, i128::from(denominator))?;
    at(inches, inches.steps_of(step)?, step)
}

/// The fractions with this denominator on both sides of a size, the lower one first; the same one
/// twice where the size is one of them.
#[must_use]
pub fn around(inches: Ratio, denominator: i64) -> Option<[Near; 2]> {
    let step = Ratio::new(1, i128::from(denominator))?;
    let steps = inches.over(step)?;
    Some([at(inches, steps.floor(), step)?, at(inches, steps.ceil(), step)?])
}

fn at(inches: Ratio, count: i128, step: Ratio) -> Option<Near> {
    let fraction = Ratio::new(count, 1)?.times(step)?;
    Some(Near { inches: fraction, over: fraction.minus(inches)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_fraction_is_reduced_and_says_how_far_it_is() {
        for (num, den, denominator, text, over) in [
            (4062, 10_000, 64, "13/32", Ratio::new(1, 20_000)),
            (13_437, 10_000, 32, "1 11/32", Ratio::new(1, 20_000)),
            (15, 100, 16, "1/8", Ratio::new(-1, 40)),
            (998, 1000, 64, "1", Ratio::new(1, 500)),
            (1, 128, 64, "1/64", Ratio::new(1, 128)),
            (-1, 128, 64, "-1/64", Ratio::new(-1, 128)),
            (0, 1, 8, "0", Some(Ratio::ZERO)),
        ] {
            let near = nearest(Ratio::new(num, den).unwrap(), denominator).unwrap();
            assert_eq!(near.inches.as_mixed(), text);
            assert_eq!(Some(near.over), over, "{text}");
        }
    }
}
