//! Drilling: the point, the time, the push and the twist.

use super::error::{CuttingError, angle, not_negative, positive};
use crate::engine::quantity::{Angle, Duration, FeedRate, Force, Length, Torque};

/// Source of point and depth: geometry.
pub const SOURCE: &str = "F_GEOMETRY";
/// Source of thrust and torque: M. C. Shaw and C. J. Oxford (1957), as Machinery's Handbook has
/// it.
pub const SOURCE_LOAD: &str = "SHAW_OXFORD";
/// Source of [`depth_derating`]: a printed drill chart.
pub const SOURCE_DERATING: &str = "CP";

/// Length of the cone of a drill, spot drill or countersink: D / (2 tan(angle/2)). An angle of
/// 180° is a flat end.
pub fn point_length(diameter: Length, point_angle: Angle) -> Result<Length, CuttingError> {
    positive("diameter", diameter)?;
    angle("point angle", point_angle, 180)?;
    let half = point_angle / 2.0;
    Ok(diameter * (half.cos() / (2.0 * half.sin())))
}

/// How far the tip goes below the surface: full depth or thickness, plus the point, plus what it
/// comes out by.
pub fn tip_depth(
    full_depth: Length,
    point_length: Length,
    breakthrough: Length,
) -> Result<Length, CuttingError> {
    not_negative("depth", full_depth)?;
    not_negative("point length", point_length)?;
    not_negative("breakthrough", breakthrough)?;
    Ok(full_depth + point_length + breakthrough)
}

/// Time under feed of a hole: (depth + point + clearance) / v_f. Pecks are not in it.
pub fn drill_time(
    depth: Length,
    point_length: Length,
    clearance: Length,
    feed: FeedRate,
) -> Result<Duration, CuttingError> {
    positive("depth", depth)?;
    not_negative("point length", point_length)?;
    not_negative("clearance", clearance)?;
    positive("feed", feed)?;
    Ok(Duration((depth + point_length + clearance).0 / feed.0))
}

/// Factors of the drill formulas for a chisel edge, by its length over the diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chisel {
    /// A, on the torque.
    pub torque: f64,
    /// B, on the thrust of the lips.
    pub thrust: f64,
    /// J, the thrust of the chisel edge itself.
    pub edge: f64,
}

impl Chisel {
    /// A drill as it comes: chisel edge 0.18 of the diameter.
    pub const STANDARD: Self = Self { torque: 1.085, thrust: 1.355, edge: 0.030 };
    /// A split point: chisel edge 0.03 of the diameter.
    pub const SPLIT_POINT: Self = Self { torque: 1.000, thrust: 1.100, edge: 0.001 };
    /// A pilot hole at least as wide as the web: the chisel edge cuts air.
    pub const PILOTED: Self = Self { torque: 1.000, thrust: 1.000, edge: 0.000 };
}

/// What a twist drill is asked to do, for thrust and torque.
///
/// Holds for sharp 118° drills of 1/16 to 3 in, less than three diameters deep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrillLoad {
    /// Diameter.
    pub diameter: Length,
    /// Feed per turn.
    pub feed: Length,
    /// Work-material factor K of the handbook, inch form.
    pub work_factor: f64,
    /// Wear factor W: 1 sharp, 1.3 as drills commonly are.
    pub wear_factor: f64,
}

impl DrillLoad {
    /// Push along the axis: 2 K f^0.8 D^0.8 B W + K D² J W in inches and pounds-force.
    pub fn thrust(&self, thrust_factor: f64, chisel_factor: f64) -> Result<Force, CuttingError> {
        self.check()?;
        positive("thrust factor", thrust_factor)?;
        not_negative("chisel factor", chisel_factor)?;
        let (d, f) = (self.diameter.to_inch(), self.feed.to_inch());
        let lips = 2.0 * libm::pow(f * d, 0.8) * thrust_factor;
        Ok(Force::lbf(self.work() * (lips + d * d * chisel_factor)))
    }

    /// Twist: K f^0.8 D^1.8 A W in inches and pound-force inches.
    pub fn torque(&self, torque_factor: f64) -> Result<Torque, CuttingError> {
        self.check()?;
        positive("torque factor", torque_factor)?;
        let (d, f) = (self.diameter.to_inch(), self.feed.to_inch());
        let section = libm::pow(f * d, 0.8) * d;
        Ok(Torque::lbf_inch(self.work() * section * torque_factor))
    }

    fn work(&self) -> f64 {
        self.work_factor * self.wear_factor
    }

    fn check(&self) -> Result<(), CuttingError> {
        positive("diameter", self.diameter)?;
        positive("feed per turn", self.feed)?;
        positive("work factor", self.work_factor)?;
        positive("wear factor", self.wear_factor)
    }
}

/// Shares of speed and feed that are left in a deep hole: from three diameters 0.90 and 0.90,
/// from four 0.80 and 0.90, from five 0.70 and 0.80, from six 0.60 and 0.80.
pub fn depth_derating(depth: Length, diameter: Length) -> Result<(f64, f64), CuttingError> {
    positive("depth", depth)?;
    positive("diameter", diameter)?;
    Ok(match depth / diameter {
        deep if deep >= 6.0 => (0.60, 0.80),
        deep if deep >= 5.0 => (0.70, 0.80),
        deep if deep >= 4.0 => (0.80, 0.90),
        deep if deep >= 3.0 => (0.90, 0.90),
        _ => (1.0, 1.0),
    })
}
