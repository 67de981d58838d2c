//! What a readout shows: the nearest of its steps, and the error that leaves.

use super::{LayoutError, Place, positive};
use crate::engine::quantity::Length;

/// Source: arithmetic.
pub const SOURCE: &str = "F_GEOMETRY";

/// The nearest step of a readout; a half goes away from zero.
pub fn nearest(value: Length, step: Length) -> Result<Length, LayoutError> {
    positive("step of the readout", step)?;
    let steps = value / step;
    // A half is a half, whatever the last digit of the quotient.
    let nudged = steps + libm::copysign(1e-9, steps);
    Ok(step * libm::round(nudged))
}

impl Place {
    /// The place at the nearest steps of a readout.
    pub fn at_steps(self, step: Length) -> Result<Self, LayoutError> {
        Ok(Self { x: nearest(self.x, step)?, y: nearest(self.y, step)? })
    }
}

/// The largest distance that rounding to the steps leaves between a place and its hole.
pub fn worst_error(places: &[Place], step: Length) -> Result<Length, LayoutError> {
    places
        .iter()
        .try_fold(Length::ZERO, |worst, place| Ok(worst.max(place.distance(place.at_steps(step)?))))
}
