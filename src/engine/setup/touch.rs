//! Touching off: what to type into the readout, and what two touches measure.

use super::SetupError;
use crate::engine::{layout::edge::Side, quantity::Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// What the readout has to say while a finder touches a face from outside.
pub fn value_at_face(face: Length, tip: Length, side: Side) -> Result<Length, SetupError> {
    if !tip.is_positive() {
        return Err(SetupError::NotPositive("diameter of the tip"));
    }
    if !face.is_finite() {
        return Err(SetupError::NotPositive("place of the face"));
    }
    Ok(face + tip / 2.0 * side.sign())
}

/// How two opposite touches are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touch {
    /// In a bore or between two walls: the tip is added.
    Inside,
    /// Over a boss or a part: the tip is taken away.
    Outside,
}

/// What two opposite touches measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// From wall to wall.
    pub size: Length,
    /// The middle, from the first touch.
    pub centre: Length,
}

/// Size and middle from the travel between two opposite touches.
pub fn between(travel: Length, tip: Length, touch: Touch) -> Result<Between, SetupError> {
    if !travel.is_positive() {
        return Err(SetupError::NotPositive("travel from touch to touch"));
    }
    if !tip.is_positive() {
        return Err(SetupError::NotPositive("diameter of the tip"));
    }
    let size = match touch {
        Touch::Inside => travel + tip,
        Touch::Outside => travel - tip,
    };
    if !size.is_positive() {
        return Err(SetupError::TipOverTravel);
    }
    Ok(Between { size, centre: travel / 2.0 })
}

/// What the readout has to say at the second of two opposite touches, so that zero is in the
/// middle: half of the travel.
pub fn zero_in_the_middle(travel: Length) -> Result<Length, SetupError> {
    if !travel.is_finite() || travel.to_mm() == 0.0 {
        return Err(SetupError::NotPositive("travel from touch to touch"));
    }
    Ok(travel / 2.0)
}
