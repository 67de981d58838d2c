//! A depth in passes: equal roughing passes, then a finish.

use super::SetupError;
use crate::engine::quantity::Length;

/// Source: arithmetic.
pub const SOURCE: &str = "F_GEOMETRY";

/// The most passes a plan may have.
const MOST: u32 = 10_000;

/// Equal roughing passes and a finish pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassPlan {
    /// Number of roughing passes.
    pub rough_passes: u32,
    /// Depth of each of them.
    pub rough_depth: Length,
    /// Left for the last pass.
    pub finish: Length,
    total: Length,
}

impl PassPlan {
    /// Divides a depth: n = ⌈(total - finish)/largest⌉ roughing passes, each as deep as the others.
    pub fn new(total: Length, largest: Length, finish: Length) -> Result<Self, SetupError> {
        if !total.is_positive() {
            return Err(SetupError::NotPositive("whole depth"));
        }
        if !largest.is_positive() {
            return Err(SetupError::NotPositive("largest pass"));
        }
        if !(finish.is_finite() && finish >= Length::ZERO) {
            return Err(SetupError::Negative("finish pass"));
        }
        // The whole depth typed in the other unit equals it only to rounding.
        if finish > total * (1.0 + 4.0 * f64::EPSILON) {
            return Err(SetupError::FinishOverTotal);
        }
        let rough = (total - finish).max(Length::ZERO);
        // Four passes of 0.043 in are four, whatever the last digit of their sum.
        let passes = libm::ceil(rough / largest - 1e-9);
        if passes > f64::from(MOST) {
            return Err(SetupError::TooMany("passes"));
        }
        let rough_depth = if passes > 0.0 { rough / passes } else { Length::ZERO };
        Ok(Self { rough_passes: passes as u32, rough_depth, finish, total })
    }

    /// Number of passes, the finish pass included.
    #[must_use]
    pub fn passes(&self) -> u32 {
        self.rough_passes + u32::from(self.finish > Length::ZERO)
    }

    /// What the readout shows at the end of a pass, counted from 1.
    pub fn target(&self, pass: u32) -> Result<Length, SetupError> {
        if pass == 0 || pass > self.passes() {
            return Err(SetupError::NoSuchPass(pass));
        }
        Ok(if pass == self.passes() { self.total } else { self.rough_depth * f64::from(pass) })
    }

    /// What the readout shows at the end of each pass.
    pub fn targets(&self) -> impl Iterator<Item = Length> {
        (1..=self.passes()).filter_map(|pass| self.target(pass).ok())
    }
}
