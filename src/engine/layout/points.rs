//! Holes by radius and angle from a centre.

use super::{LayoutError, Place, finite, on_circle};
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// The place at a radius and an angle from X, counter-clockwise seen from above.
pub fn polar(centre: Place, radius: Length, angle: Angle) -> Result<Place, LayoutError> {
    finite("angle", angle.to_degree())?;
    if !(radius.is_finite() && radius >= Length::ZERO) {
        return Err(LayoutError::NotPositive("radius"));
    }
    Ok(on_circle(centre, radius, angle.to_degree()))
}
