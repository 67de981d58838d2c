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

/// Where the axis may stand between two walls, the smaller number first; with an allowance it keeps
/// away from both by that much more.
pub fn between(
    centre: Length,
    width: Length,
    diameter: Length,
    allowance: Length,
) -> Result<(Length, Length), LayoutError> {
    positive("cutter's diameter", diameter)?;
    positive("width between the walls", width)?;
    finite("place of the middle", centre.to_mm())?;
    finite("allowance", allowance.to_mm())?;
    let room = (width - diameter) / 2.0 - allowance;
    // A cutter of the slot's own width fits, whatever the last digit.
    if room < Length::mm(-1e-9) {
        return Err(LayoutError::NoRoom);
    }
    let room = room.max(Length::ZERO);
    Ok((centre - room, centre + room))
}

/// A cutter that is to leave a corner of a radius has to be no larger than the corner.
pub fn fits_corner(diameter: Length, corner: Length) -> Result<(), LayoutError> {
    positive("cutter's diameter", diameter)?;
    positive("radius of the corner", corner)?;
    if diameter / 2.0 > corner + Length::mm(1e-9) {
        return Err(LayoutError::CutterTooLarge);
    }
    Ok(())
}
