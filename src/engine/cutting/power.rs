//! Chip volume, the force and energy it takes, and power.
//!
//! Energy per chip volume, specific cutting force and unit power are one quantity in different
//! units: 1 J/mm³ is 1000 N/mm² and 0.366 hp/(in³/min). All are a [`Stress`] here.

use super::error::{CuttingError, not_negative, positive, share};
use crate::engine::quantity::{
    EdgeLoad, FeedRate, Force, Length, Power, RemovalRate, SpindleSpeed, Stress, SurfaceSpeed,
    Torque,
};
use core::f64::consts::{FRAC_PI_4, TAU};
use uom::si::f64 as si;

/// Source of the specific cutting force: O. Kienzle's law with the constants of the VDI 3323
/// groups.
pub const SOURCE_KIENZLE: &str = "KIENZLE";
/// Source of unit power and its factors: Machinery's Handbook, Estimating Machining Power.
pub const SOURCE_UNIT_POWER: &str = "MH_POWER";
/// Source of removal rate and of power as force times speed: geometry and mechanics.
pub const SOURCE: &str = "F_GEOMETRY";

/// The thinnest chip that Kienzle's law is trusted for: a thinner one is taken as this.
///
/// Under 0.02 mm the power law runs off to infinity while a real edge begins to plough.
#[must_use]
pub fn chip_floor() -> Length {
    Length::mm(0.02)
}

/// Chip volume per time of a milling cut: Q = a_p a_e v_f.
pub fn removal_rate_milling(
    depth: Length,
    width: Length,
    feed: FeedRate,
) -> Result<RemovalRate, CuttingError> {
    positive("axial depth", depth)?;
    positive("radial width", width)?;
    positive("table feed", feed)?;
    Ok(removal_rate_milling_of(depth, width, feed))
}

/// [`removal_rate_milling`] of inputs known to be good.
#[must_use]
pub fn removal_rate_milling_of(depth: Length, width: Length, feed: FeedRate) -> RemovalRate {
    RemovalRate(depth.0 * width.0 * feed.0)
}

/// Chip volume per time of drilling from a pilot hole, or from solid with a pilot of nothing:
/// Q = π/4 (D² - D₀²) v_f.
pub fn removal_rate_drilling(
    diameter: Length,
    pilot: Length,
    feed: FeedRate,
) -> Result<RemovalRate, CuttingError> {
    positive("diameter", diameter)?;
    not_negative("pilot diameter", pilot)?;
    positive("feed", feed)?;
    if pilot >= diameter {
        return Err(CuttingError::OverDiameter("pilot hole"));
    }
    Ok(removal_rate_drilling_of(diameter, pilot, feed))
}

/// [`removal_rate_drilling`] of inputs known to be good.
#[must_use]
pub fn removal_rate_drilling_of(diameter: Length, pilot: Length, feed: FeedRate) -> RemovalRate {
    let ring = diameter.0 * diameter.0 - pilot.0 * pilot.0;
    RemovalRate(FRAC_PI_4 * ring * feed.0)
}

/// Kienzle's law for one stock: how much force a chip takes per area of its section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kienzle {
    kc1_1: Stress,
    mc: f64,
}

impl Kienzle {
    /// From the force per area of a chip 1 mm thick and the exponent, at least 0 and under 1.
    pub fn new(kc1_1: Stress, mc: f64) -> Result<Self, CuttingError> {
        positive("specific cutting force", kc1_1)?;
        not_negative("exponent of the cutting force", mc)?;
        if mc >= 1.0 {
            return Err(CuttingError::OverOne("exponent of the cutting force"));
        }
        Ok(Self::of(kc1_1, mc))
    }

    /// [`Self::new`] of inputs known to be good.
    #[must_use]
    pub fn of(kc1_1: Stress, mc: f64) -> Self {
        Self { kc1_1, mc }
    }

    /// The force per area of a chip 1 mm thick.
    #[must_use]
    pub fn kc1_1(&self) -> Stress {
        self.kc1_1
    }

    /// Force per area for a chip: k_c = kc1.1 h^-mc with h in mm, not taken below the floor.
    ///
    /// The larger of chip and floor has to be above nothing: [`specific_cutting_force`] checks it.
    #[must_use]
    pub fn at(&self, chip: Length, floor: Length) -> Stress {
        self.kc1_1 * libm::pow(chip.max(floor).to_mm(), -self.mc)
    }

    /// The exponent.
    #[must_use]
    pub fn exponent(&self) -> f64 {
        self.mc
    }

    /// Force per length of edge at a feed per tooth, its chip being a share of it: k_c f.
    #[must_use]
    pub fn edge_load(&self, feed: Length, share: f64, floor: Length) -> EdgeLoad {
        EdgeLoad((self.at(feed * share, floor).0 * feed.0).into())
    }

    /// The feed per tooth that loads an edge so: inverse of [`Self::edge_load`].
    #[must_use]
    pub fn feed_for(&self, load: EdgeLoad, share: f64, floor: Length) -> Length {
        // With the force of a 1 mm chip the load is that of this feed.
        let f = Length(load.0 / self.kc1_1.0);
        let f = libm::pow(f.to_mm() * libm::pow(share, self.mc), 1.0 / (1.0 - self.mc));
        if Length::mm(share * f) > floor {
            Length::mm(f)
        } else {
            Length(load.0 / self.at(floor, floor).0)
        }
    }
}

/// Specific cutting force of a chip, which is held at a floor that the caller chooses: k_c =
/// kc1.1 h^-mc. Trusted for chips of 0.02 to 1 mm.
pub fn specific_cutting_force(
    law: Kienzle,
    chip: Length,
    floor: Length,
) -> Result<Stress, CuttingError> {
    positive("chip thickness", chip)?;
    not_negative("least chip", floor)?;
    Ok(law.at(chip, floor))
}

/// What makes real cutting cost more than unit power says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// For the size of the chip; [`feed_factor`]. 1 with Kienzle's law, which has it already.
    pub feed: f64,
    /// For the state of the edge; [`Wear::factor`].
    pub wear: f64,
}

impl Default for Factors {
    fn default() -> Self {
        Self { feed: 1.0, wear: 1.0 }
    }
}

impl Factors {
    fn product(self) -> Result<f64, CuttingError> {
        positive("feed factor", self.feed)?;
        positive("wear factor", self.wear)?;
        Ok(self.feed * self.wear)
    }
}

/// Feed factors C of unit power by feed per tooth in inches. Machinery's Handbook.
const FEED_FACTORS: [(f64, f64); 12] = [
    (0.001, 1.60),
    (0.002, 1.40),
    (0.003, 1.30),
    (0.004, 1.25),
    (0.005, 1.19),
    (0.006, 1.15),
    (0.007, 1.11),
    (0.008, 1.08),
    (0.010, 1.04),
    (0.012, 1.00),
    (0.015, 0.95),
    (0.020, 0.90),
];

/// Factor C on unit power for the feed per tooth, linear between the printed feeds and held at
/// their ends, 0.001 and 0.020 in.
#[must_use]
pub fn feed_factor(per_tooth: Length) -> f64 {
    super::between(&FEED_FACTORS, per_tooth.to_inch())
}

/// The state of the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wear {
    /// Sharp.
    Sharp,
    /// Slab and end milling, as it commonly is.
    EndMilling,
    /// Light and medium face milling, the upper end of 1.10 to 1.25.
    FaceMilling,
    /// Drilling, as it commonly is.
    Drilling,
    /// A very dull drill.
    DullDrill,
}

impl Wear {
    /// Factor W on unit power. Machinery's Handbook.
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Self::Sharp => 1.00,
            Self::EndMilling => 1.10,
            Self::FaceMilling => 1.25,
            Self::Drilling => 1.30,
            Self::DullDrill => 1.50,
        }
    }
}

/// Power at the cutter from chip volume and energy: P = Q u C W.
pub fn cutting_power(
    rate: RemovalRate,
    energy: Stress,
    factors: Factors,
) -> Result<Power, CuttingError> {
    positive("removal rate", rate)?;
    positive("energy per chip volume", energy)?;
    Ok(cutting_power_of(rate, energy) * factors.product()?)
}

/// [`cutting_power`] of inputs known to be good, without factors.
#[must_use]
pub fn cutting_power_of(rate: RemovalRate, energy: Stress) -> Power {
    Power(rate.0 * energy.0)
}

/// Power of a force along the path of the edge: P = F v.
pub fn power_of_force(force: Force, surface: SurfaceSpeed) -> Result<Power, CuttingError> {
    positive("force", force)?;
    positive("surface speed", surface)?;
    Ok(Power(force.0 * surface.0))
}

/// Power of a torque on the spindle: P = 2π n M.
pub fn power_of_torque(torque: Torque, spindle: SpindleSpeed) -> Result<Power, CuttingError> {
    positive("torque", torque)?;
    positive("spindle speed", spindle)?;
    Ok(power_of_torque_of(torque, spindle))
}

/// [`power_of_torque`] of inputs known to be good.
#[must_use]
pub fn power_of_torque_of(torque: Torque, spindle: SpindleSpeed) -> Power {
    Power(TAU * spindle.0 * si::Energy::from(torque.0))
}

/// Power the motor has to give for a power at the cutter: P / E.
pub fn motor_power(power: Power, efficiency: f64) -> Result<Power, CuttingError> {
    positive("power", power)?;
    share("efficiency", efficiency)?;
    Ok(power / efficiency)
}

/// The table feed at which all of a motor's power is used: v_f = P E / (u C W a_p a_e).
pub fn power_limited_feed(
    power: Power,
    efficiency: f64,
    energy: Stress,
    factors: Factors,
    depth: Length,
    width: Length,
) -> Result<FeedRate, CuttingError> {
    positive("power", power)?;
    share("efficiency", efficiency)?;
    positive("energy per chip volume", energy)?;
    positive("axial depth", depth)?;
    positive("radial width", width)?;
    let at_cutter = power.0 * efficiency;
    Ok(FeedRate(at_cutter / (energy.0 * factors.product()?) / (depth.0 * width.0)))
}
