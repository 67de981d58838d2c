//! The marks a cut leaves.
//!
//! These are what a perfect cutter would leave. Built-up edge, wobble and chatter come on top:
//! 1.1 to 2.5 times as much in ductile metal.

use super::error::{CuttingError, positive};
use crate::engine::quantity::Length;

/// Source of the ridge between passes: geometry.
pub const SOURCE: &str = "F_GEOMETRY";
/// Source of the feed marks: Groover, Fundamentals of Modern Manufacturing.
pub const SOURCE_ROUGHNESS: &str = "GROOVER";

/// Height of the ridge between two passes of a ball or corner radius: r - √(r² - s²/4).
pub fn scallop_height(radius: Length, stepover: Length) -> Result<Length, CuttingError> {
    positive("radius", radius)?;
    positive("stepover", stepover)?;
    if stepover > radius * 2.0 {
        return Err(CuttingError::OverRadius("stepover"));
    }
    let (r, half) = (radius.0, stepover.0 / 2.0);
    // The same as r - √(r² - s²/4), in the form that keeps its digits for small steps.
    Ok(Length(half * half / (r + (r * r - half * half).sqrt())))
}

/// The stepover that leaves a ridge of this height: 2 √(2 r h - h²), inverse of
/// [`scallop_height`].
pub fn stepover_for_scallop(radius: Length, height: Length) -> Result<Length, CuttingError> {
    positive("radius", radius)?;
    positive("height", height)?;
    if height > radius {
        return Err(CuttingError::OverRadius("height"));
    }
    Ok(Length(2.0 * (height.0 * (2.0 * radius.0 - height.0)).sqrt()))
}

/// A measure of roughness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Roughness {
    /// Mean distance from the mean line.
    Ra,
    /// From the deepest to the highest point.
    Rt,
}

/// Feed marks of a rounded nose: Rt = f²/8r, Ra = f²/32r. The feed is that of a turn, because one
/// tooth always stands proud.
pub fn ideal_roughness(
    nose_radius: Length,
    per_turn: Length,
    measure: Roughness,
) -> Result<Length, CuttingError> {
    positive("nose radius", nose_radius)?;
    positive("feed per turn", per_turn)?;
    if per_turn > nose_radius * 2.0 {
        return Err(CuttingError::OverRadius("feed per turn"));
    }
    let rt = per_turn * (per_turn / nose_radius) / 8.0;
    Ok(match measure {
        Roughness::Rt => rt,
        Roughness::Ra => rt / 4.0,
    })
}

/// Height of the marks on a wall milled with the side of a cutter: f²/4D.
pub fn peripheral_cusp(diameter: Length, per_turn: Length) -> Result<Length, CuttingError> {
    positive("diameter", diameter)?;
    positive("feed per turn", per_turn)?;
    if per_turn > diameter {
        return Err(CuttingError::OverDiameter("feed per turn"));
    }
    Ok(per_turn * (per_turn / diameter) / 4.0)
}
