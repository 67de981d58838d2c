//! Drilling: the point, the time, the push and the twist.

use super::error::{CuttingError, angle, not_negative, positive};
use crate::engine::{
    quantity::{Angle, Duration, FeedRate, Force, Length, Torque},
    stock::DrillFactors,
};

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
    Ok(point_length_of(diameter, point_angle))
}

/// [`point_length`] of inputs known to be good.
#[must_use]
pub fn point_length_of(diameter: Length, point_angle: Angle) -> Length {
    let half = point_angle / 2.0;
    diameter * (half.cos() / (2.0 * half.sin()))
}

/// Diameter that a cone makes at a depth, inverse of [`point_length_of`]: 2 a tan(angle/2).
#[must_use]
pub fn cone_diameter_of(depth: Length, point_angle: Angle) -> Length {
    depth * (2.0 * (point_angle / 2.0).tan())
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

/// Exponent of the feed in thrust and torque.
const FEED_EXPONENT: f64 = 0.8;

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
        Ok(self.lip_thrust_of(thrust_factor) + self.edge_thrust_of(chisel_factor))
    }

    fn lip_thrust_of(&self, thrust_factor: f64) -> Force {
        let (d, f) = (self.diameter.to_inch(), self.feed.to_inch());
        Force::lbf(self.work() * 2.0 * libm::pow(f * d, FEED_EXPONENT) * thrust_factor)
    }

    fn edge_thrust_of(&self, chisel_factor: f64) -> Force {
        let d = self.diameter.to_inch();
        Force::lbf(self.work() * d * d * chisel_factor)
    }

    /// Twist: K f^0.8 D^1.8 A W in inches and pound-force inches.
    pub fn torque(&self, torque_factor: f64) -> Result<Torque, CuttingError> {
        self.check()?;
        positive("torque factor", torque_factor)?;
        Ok(self.torque_of(torque_factor))
    }

    fn torque_of(&self, torque_factor: f64) -> Torque {
        let (d, f) = (self.diameter.to_inch(), self.feed.to_inch());
        let section = libm::pow(f * d, FEED_EXPONENT) * d;
        Torque::lbf_inch(self.work() * section * torque_factor)
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

/// Width of a drill's web as a share of its diameter: a pilot hole that wide leaves the chisel edge
/// nothing to cut.
const WEB: f64 = 0.18;

/// A sharp standard twist drill in a stock, from solid or from a pilot hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwistDrill {
    /// Diameter that cuts.
    pub diameter: Length,
    /// Hole that is there already, nothing for none.
    pub pilot: Length,
    /// Work-material factors of the stock.
    pub work: DrillFactors,
}

impl TwistDrill {
    fn chisel(&self) -> Chisel {
        if self.pilot >= self.diameter * WEB { Chisel::PILOTED } else { Chisel::STANDARD }
    }

    fn load(&self, diameter: Length, feed: Length, work_factor: f64) -> DrillLoad {
        DrillLoad { diameter, feed, work_factor, wear_factor: 1.0 }
    }

    /// Share of the lips that a pilot hole leaves to cut, once the chisel edge is free.
    fn lips_left(&self) -> f64 {
        if self.pilot >= self.diameter * WEB { 1.0 - self.pilot / self.diameter } else { 1.0 }
    }

    /// Push along the axis at a feed per turn.
    #[must_use]
    pub fn thrust(&self, feed: Length) -> Force {
        let chisel = self.chisel();
        let load = self.load(self.diameter, feed, self.work.thrust);
        load.lip_thrust_of(chisel.thrust) * self.lips_left() + load.edge_thrust_of(chisel.edge)
    }

    /// The feed per turn at which the thrust is this; nothing where the chisel edge alone pushes
    /// as hard.
    #[must_use]
    pub fn feed_for_thrust(&self, thrust: Force) -> Length {
        let chisel = self.chisel();
        let load = self.load(self.diameter, self.diameter, self.work.thrust);
        let lips = load.lip_thrust_of(chisel.thrust) * self.lips_left();
        let left = (thrust - load.edge_thrust_of(chisel.edge)).max(Force::ZERO);
        self.diameter * libm::pow(left / lips, 1.0 / FEED_EXPONENT)
    }

    /// Twist at a feed per turn: that of the whole drill less that of the pilot hole.
    #[must_use]
    pub fn torque(&self, feed: Length) -> Torque {
        let factor = Chisel::STANDARD.torque;
        let of = |diameter| self.load(diameter, feed, self.work.torque).torque_of(factor);
        of(self.diameter) - of(self.pilot)
    }

    /// The feed per turn at which the twist is this.
    #[must_use]
    pub fn feed_for_torque(&self, torque: Torque) -> Length {
        self.diameter * libm::pow(torque / self.torque(self.diameter), 1.0 / FEED_EXPONENT)
    }
}

/// Shares of speed and feed that are left in a deep hole: from three diameters 0.90 and 0.90,
/// from four 0.80 and 0.90, from five 0.70 and 0.80, from six 0.60 and 0.80.
pub fn depth_derating(depth: Length, diameter: Length) -> Result<(f64, f64), CuttingError> {
    positive("depth", depth)?;
    positive("diameter", diameter)?;
    Ok(depth_derating_of(depth, diameter))
}

/// [`depth_derating`] of inputs known to be good.
#[must_use]
pub fn depth_derating_of(depth: Length, diameter: Length) -> (f64, f64) {
    match depth / diameter {
        deep if deep >= 6.0 => (0.60, 0.80),
        deep if deep >= 5.0 => (0.70, 0.80),
        deep if deep >= 4.0 => (0.80, 0.90),
        deep if deep >= 3.0 => (0.90, 0.90),
        _ => (1.0, 1.0),
    }
}
