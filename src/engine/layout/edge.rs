//! The cutter beside a wall.

use super::{LayoutError, finite, positive};
use crate::engine::quantity::Length;

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// On which side of a wall the cutter, or a finder, stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left of it: X grows towards the wall.
    Left,
    /// Right of it.
    Right,
    /// In front of it: Y grows towards the wall.
    Front,
    /// Behind it.
    Back,
}

impl Side {
    /// Minus one where the axis stands at a smaller number than the wall.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::Left | Self::Front => -1.0,
            Self::Right | Self::Back => 1.0,
        }
    }
}

/// Where the axis stands when the cutter's edge is at a wall, an allowance away from it.
pub fn axis(
    wall: Length,
    diameter: Length,
    allowance: Length,
    side: Side,
) -> Result<Length, LayoutError> {
    positive("cutter's diameter", diameter)?;
    finite("place of the wall", wall.to_mm())?;
    finite("allowance", allowance.to_mm())?;
    Ok(wall + (diameter / 2.0 + allowance) * side.sign())
}
