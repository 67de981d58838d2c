//! What a digital readout says: it counts in steps.

use crate::engine::quantity::ratio::Ratio;

/// Steps that scales of readouts are made in, by name and in millimetres, the usual one of an inch
/// shop first. Common practice.
pub const STEPS: [(&str, Ratio); 6] = [
    ("0.0005 in", Ratio::constant(127, 10_000)),
    ("0.0002 in", Ratio::constant(508, 100_000)),
    ("0.0001 in", Ratio::constant(254, 100_000)),
    ("0.01 mm", Ratio::constant(1, 100)),
    ("0.005 mm", Ratio::constant(5, 1000)),
    ("0.001 mm", Ratio::constant(1, 1000)),
];

/// What a display says of a size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// What it says, in the terms of the size.
    pub says: Ratio,
    /// How much that is over the size; below zero where it is under.
    pub over: Ratio,
}

/// What a readout that counts in these steps says where the table stands at a size; of two
/// readings that are as near the one further from nothing. Both are in the same unit.
#[must_use]
pub fn shown(size: Ratio, step: Ratio) -> Option<Shown> {
    let says = Ratio::new(size.steps_of(step)?, 1)?.times(step)?;
    Some(Shown { says, over: says.minus(size)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_display_counts_in_its_steps() {
        let of = |num, den| Ratio::new(num, den).unwrap();
        let half_thou = of(5, 10_000);
        for (size, says) in [
            (of(13_437, 10_000), of(13_435, 10_000)),
            (of(134_375, 100_000), of(1344, 1000)),
            (of(-13_438, 10_000), of(-13_440, 10_000)),
            (of(1, 4), of(1, 4)),
        ] {
            let shown = shown(size, half_thou).unwrap();
            assert_eq!(shown.says, says);
            assert_eq!(shown.over, says.minus(size).unwrap());
        }
    }
}
