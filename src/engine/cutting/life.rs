//! Tool life by Taylor's law, V Tⁿ = C.
//!
//! Only the ratio is worth showing: the constants are of turning tests, and below about half the
//! recommended speed the law does not hold.

use super::error::{CuttingError, positive};
use crate::engine::{
    cutters::ToolMaterial,
    quantity::{Duration, SurfaceSpeed},
};

/// Source: F. W. Taylor's law as Groover has it.
pub const SOURCE: &str = "TAYLOR";

/// Exponent n: 0.125 for high-speed steel (0.08 to 0.20), 0.25 for cemented carbide (0.20 to
/// 0.50).
#[must_use]
pub fn exponent(material: ToolMaterial) -> f64 {
    match material {
        ToolMaterial::Hss | ToolMaterial::Cobalt => 0.125,
        ToolMaterial::Carbide => 0.25,
    }
}

/// Life at a changed speed over life before: (1 / speed ratio)^(1/n).
pub fn life_ratio(exponent: f64, speed_ratio: f64) -> Result<f64, CuttingError> {
    positive("exponent of tool life", exponent)?;
    positive("ratio of speeds", speed_ratio)?;
    let ratio = libm::pow(speed_ratio, -1.0 / exponent);
    positive("tool life", ratio).map_err(|_| CuttingError::Beyond("tool life"))?;
    Ok(ratio)
}

/// Exponent n from two tests, each a speed and the life at it: n = ln(V₁/V₂) / ln(T₂/T₁).
pub fn exponent_from_tests(
    first: (SurfaceSpeed, Duration),
    second: (SurfaceSpeed, Duration),
) -> Result<f64, CuttingError> {
    for (surface, life) in [first, second] {
        positive("surface speed", surface)?;
        positive("tool life", life)?;
    }
    exponent_from_ratios(second.0 / first.0, second.1 / first.1)
}

/// Exponent n from speed and life of a second test over those of the first:
/// n = -ln(speed ratio) / ln(life ratio).
pub fn exponent_from_ratios(speed_ratio: f64, life_ratio: f64) -> Result<f64, CuttingError> {
    positive("ratio of speeds", speed_ratio)?;
    positive("ratio of lives", life_ratio)?;
    let n = -libm::log(speed_ratio) / libm::log(life_ratio);
    positive("exponent of tool life", n).map_err(|_| CuttingError::TestsDisagree)?;
    Ok(n)
}

/// Life at a speed, with C the speed for a life of one minute: T = (C/V)^(1/n) minutes.
pub fn taylor_life(
    exponent: f64,
    one_minute_speed: SurfaceSpeed,
    surface: SurfaceSpeed,
) -> Result<Duration, CuttingError> {
    positive("speed for one minute", one_minute_speed)?;
    positive("surface speed", surface)?;
    Ok(Duration::minute(life_ratio(exponent, surface / one_minute_speed)?))
}
