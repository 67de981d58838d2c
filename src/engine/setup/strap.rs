//! Straps that hold a part to the table.

use super::SetupError;
use crate::engine::quantity::{Force, Length, Torque};

/// Source: torque over nut factor and diameter; the lever; friction.
pub const SOURCE: &str = "F_GEOMETRY";

/// Pull of a bolt from the torque on its nut: T/(K d).
pub fn bolt_force(torque: Torque, diameter: Length, nut_factor: f64) -> Result<Force, SetupError> {
    if !torque.is_positive() {
        return Err(SetupError::NotPositive("torque"));
    }
    if !diameter.is_positive() {
        return Err(SetupError::NotPositive("diameter of the bolt"));
    }
    factor("nut factor", nut_factor)?;
    Ok(Force::newton(torque.to_newton_metre() / (nut_factor * diameter.to_mm() / 1000.0)))
}

/// What of the bolt's pull arrives at the work: the bolt pulls between work and heel, F b/(a + b),
/// a being the way to the work and b that to the heel.
pub fn at_work(bolt: Force, to_work: Length, to_heel: Length) -> Result<Force, SetupError> {
    if !bolt.is_positive() {
        return Err(SetupError::NotPositive("pull of the bolt"));
    }
    for (what, value) in [("way from bolt to work", to_work), ("way from bolt to heel", to_heel)] {
        if !value.is_positive() {
            return Err(SetupError::NotPositive(what));
        }
    }
    Ok(bolt * (to_heel / (to_work + to_heel)))
}

/// The cutting force that some straps hold against by friction: n μ F/factor.
pub fn side_hold(
    work: Force,
    straps: u32,
    friction: f64,
    safety: f64,
) -> Result<Force, SetupError> {
    if straps == 0 {
        return Err(SetupError::NotPositive("number of straps"));
    }
    factor("friction", friction)?;
    factor("safety factor", safety)?;
    Ok(work * (f64::from(straps) * friction / safety))
}

/// How high the heel of a strap stands for a part of a height: level with it, or a hair higher.
/// Source: common practice.
#[must_use]
pub fn heel(part: Length) -> (Length, Length) {
    (part, part + Length::inch(0.060))
}

/// Source of [`heel`].
pub const HEEL_SOURCE: &str = "CP";

fn factor(what: &'static str, value: f64) -> Result<(), SetupError> {
    if value.is_finite() && value > 0.0 { Ok(()) } else { Err(SetupError::NotPositive(what)) }
}
