//! Spindle speed and surface speed.

use super::error::{CuttingError, positive};
use crate::engine::quantity::{Length, SpindleSpeed, SurfaceSpeed};
use core::f64::consts::PI;

/// Source: geometry of a turning circle, as every handbook prints it (US Army TC 9-524, ch. 8).
pub const SOURCE: &str = "F_GEOMETRY";

/// The spindle speed that gives a surface speed at a diameter: n = v / (π D).
///
/// The diameter is the one that really cuts: swept by a fly cutter, the outside of a saw, the
/// widest ring of a countersink, [`super::chip::ball_effective_diameter`] of a ball.
pub fn spindle_speed(
    surface: SurfaceSpeed,
    diameter: Length,
) -> Result<SpindleSpeed, CuttingError> {
    positive("surface speed", surface)?;
    positive("diameter", diameter)?;
    Ok(spindle_speed_of(surface, diameter))
}

/// [`spindle_speed`] of inputs known to be good.
#[must_use]
pub fn spindle_speed_of(surface: SurfaceSpeed, diameter: Length) -> SpindleSpeed {
    SpindleSpeed(surface.0 / (PI * diameter.0))
}

/// How fast the edge slides through the metal: v = π D n.
pub fn surface_speed(
    spindle: SpindleSpeed,
    diameter: Length,
) -> Result<SurfaceSpeed, CuttingError> {
    positive("spindle speed", spindle)?;
    positive("diameter", diameter)?;
    Ok(surface_speed_of(spindle, diameter))
}

/// [`surface_speed`] of inputs known to be good.
#[must_use]
pub fn surface_speed_of(spindle: SpindleSpeed, diameter: Length) -> SurfaceSpeed {
    SurfaceSpeed(PI * diameter.0 * spindle.0)
}
