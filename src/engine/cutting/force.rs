//! Torque on the spindle and force on the edge.

use super::error::{CuttingError, positive};
use crate::engine::quantity::{Force, Length, Power, SpindleSpeed, Stress, SurfaceSpeed, Torque};
use core::f64::consts::TAU;
use uom::si::f64 as si;

/// Source: mechanics; Machinery's Handbook prints it as 63 025 hp/n and 33 000 hp/V.
pub const SOURCE: &str = "F_GEOMETRY";

/// Force that pushes the edge off the work, as a share of the force along its path: between 0.3
/// of a sharp edge and 0.5 of a dull one. Kalpakjian and Schmid.
pub const RADIAL_SHARE: f64 = 0.4;

/// Torque of a power at a speed: M = P / (2π n).
pub fn spindle_torque(power: Power, spindle: SpindleSpeed) -> Result<Torque, CuttingError> {
    positive("power", power)?;
    positive("spindle speed", spindle)?;
    Ok(spindle_torque_of(power, spindle))
}

/// [`spindle_torque`] of inputs known to be good.
#[must_use]
pub fn spindle_torque_of(power: Power, spindle: SpindleSpeed) -> Torque {
    Torque((power.0 / (TAU * spindle.0)).into())
}

/// Force along the path of the edge from power and surface speed, the mean over all teeth:
/// F = P / v.
pub fn force_of_power(power: Power, surface: SurfaceSpeed) -> Result<Force, CuttingError> {
    positive("power", power)?;
    positive("surface speed", surface)?;
    Ok(Force(power.0 / surface.0))
}

/// Force at the rim of a cutter from the torque on it, the mean over all teeth: F = 2 M / D.
pub fn force_of_torque(torque: Torque, diameter: Length) -> Result<Force, CuttingError> {
    positive("torque", torque)?;
    positive("diameter", diameter)?;
    Ok(Force(2.0 * si::Energy::from(torque.0) / diameter.0))
}

/// Torque of a force at the rim of a cutter: M = F D / 2, inverse of [`force_of_torque`].
pub fn torque_of_force(force: Force, diameter: Length) -> Result<Torque, CuttingError> {
    positive("force", force)?;
    positive("diameter", diameter)?;
    Ok(torque_of_force_of(force, diameter))
}

/// [`torque_of_force`] of inputs known to be good.
#[must_use]
pub fn torque_of_force_of(force: Force, diameter: Length) -> Torque {
    Torque((force.0 * diameter.0 / 2.0).into())
}

/// Force along the path of one edge from the section of its chip: F = k_c b h.
pub fn force_of_chip(
    cutting_force: Stress,
    depth: Length,
    chip: Length,
) -> Result<Force, CuttingError> {
    positive("specific cutting force", cutting_force)?;
    positive("axial depth", depth)?;
    positive("chip thickness", chip)?;
    Ok(Force(cutting_force.0 * depth.0 * chip.0))
}

/// The whole sideways force from the force along the path, with the radial part at
/// [`RADIAL_SHARE`] of it: F √(1 + k²), 1.077 F.
#[must_use]
pub fn resultant(tangential: Force) -> Force {
    tangential * (1.0 + RADIAL_SHARE * RADIAL_SHARE).sqrt()
}
