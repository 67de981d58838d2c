//! The speed to set on a machine for a speed that is wanted.

use super::Speeds;
use crate::engine::quantity::SpindleSpeed;

/// Source of [`attainable`].
pub const SOURCE: &str = "STEP_RULE";

/// A step may be this much above the wanted speed: 5 % costs a third of a high-speed steel edge's
/// life, the next step down often half the output.
pub const STEP_ABOVE: f64 = 1.05;

/// Why no speed can be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpeedsError {
    /// The wanted speed is not a number above zero.
    Wanted,
    /// There is no step, or one is not a number above zero.
    Steps,
    /// The lowest is not above zero, or above the highest.
    Range,
}

impl core::fmt::Display for SpeedsError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Wanted => "The wanted speed has to be a number above zero. Enter a speed in rpm.",
            Self::Steps => {
                "The speeds of the machine have to be numbers above zero, at least one. \
                 Enter them from the plate on the head."
            }
            Self::Range => {
                "The lowest speed has to be above zero and not above the \
                 highest. Enter the two ends of the range."
            }
        })
    }
}

impl core::error::Error for SpeedsError {}

/// The speed to set: the highest step not more than 5 % above the wanted speed, else the lowest
/// step; on a stepless drive the wanted speed held inside its range. Common practice.
pub fn attainable(speeds: &Speeds, wanted: SpindleSpeed) -> Result<SpindleSpeed, SpeedsError> {
    if !wanted.is_positive() {
        return Err(SpeedsError::Wanted);
    }
    match speeds {
        Speeds::Steps(steps) => {
            if steps.is_empty() || !steps.iter().all(|s| s.is_positive()) {
                return Err(SpeedsError::Steps);
            }
            // A step exactly 5 % above must not fall to the last digit of the product.
            let most = wanted * (STEP_ABOVE * (1.0 + 1e-12));
            let lowest = steps.iter().copied().fold(steps[0], SpindleSpeed::min);
            Ok(steps.iter().copied().filter(|&s| s <= most).fold(lowest, SpindleSpeed::max))
        }
        &Speeds::Continuous { lowest, highest, .. } => {
            if !lowest.is_positive() || !highest.is_finite() || lowest > highest {
                return Err(SpeedsError::Range);
            }
            Ok(wanted.max(lowest).min(highest))
        }
    }
}
