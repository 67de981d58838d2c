//! A round outline cut in straight steps, the cutter's axis going from place to place.

use super::{LayoutError, Place, finite, on_circle, positive};
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// On which side of the outline the cutter runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Around a boss or a rounded corner.
    Outside,
    /// Within a round pocket.
    Inside,
}

/// An outline of a radius, and the circle the cutter's axis runs on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteppedArc {
    path: Length,
    centre: Place,
}

impl SteppedArc {
    /// The axis runs half a cutter outside of the outline, or inside of it.
    pub fn new(
        radius: Length,
        cutter: Length,
        side: Side,
        centre: Place,
    ) -> Result<Self, LayoutError> {
        positive("radius", radius)?;
        positive("cutter's diameter", cutter)?;
        finite("place of the centre", centre.x.to_mm() + centre.y.to_mm())?;
        let path = match side {
            Side::Outside => radius + cutter / 2.0,
            Side::Inside => radius - cutter / 2.0,
        };
        if path < Length::ZERO {
            return Err(LayoutError::CutterTooLarge);
        }
        Ok(Self { path, centre })
    }

    /// Where the axis stands at an angle.
    pub fn at(&self, angle: Angle) -> Result<Place, LayoutError> {
        finite("angle", angle.to_degree())?;
        Ok(on_circle(self.centre, self.path, angle.to_degree()))
    }

    /// How far a straight step leaves the circle of the axis, and so the outline, in its middle:
    /// R (1 - cos(step/2)).
    pub fn flat_height(&self, step: Angle) -> Result<Length, LayoutError> {
        let degrees = step.to_degree();
        if !(degrees > 0.0 && degrees <= 180.0) {
            return Err(LayoutError::NotPositive("step"));
        }
        Ok(self.path * (1.0 - libm::cos((degrees / 2.0).to_radians())))
    }
}
