//! An angle over a sine bar.

use super::SetupError;
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// Beyond this a bar slides off its blocks, and a small error of height is a large one of angle.
const STEEPEST: f64 = 60.0;

/// Height of the blocks under a bar: L sin(A).
pub fn height(length: Length, angle: Angle) -> Result<Length, SetupError> {
    if !length.is_positive() {
        return Err(SetupError::NotPositive("length of the sine bar"));
    }
    if !(angle.to_degree() > 0.0 && angle.to_degree() <= STEEPEST) {
        return Err(SetupError::TooSteep);
    }
    Ok(length * angle.sin())
}
