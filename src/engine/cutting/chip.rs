//! The chip: how long a tooth stays in the cut, and how thick a chip it takes there.
//!
//! The path of a tooth is taken as a circle; the error is under 1 % for a feed per tooth under a
//! fiftieth of the diameter.

use super::error::{CuttingError, angle, positive};
use crate::engine::quantity::{Angle, Length};
use core::f64::consts::{FRAC_PI_2, PI};

/// Source: geometry of the milling arc; Ghosh and Mallik, Manufacturing Science, ex. 4.15 to 4.16.
pub const SOURCE: &str = "F_GEOMETRY";

/// The arc over which a tooth cuts, measured from where the chip would be nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engagement {
    /// Where the tooth enters.
    pub enter: Angle,
    /// Where it leaves, beyond `enter` and at most half a turn.
    pub exit: Angle,
    largest: f64,
    mean: f64,
}

impl Engagement {
    /// Side milling: the width reaches in from one side, up to the whole diameter.
    pub fn side(diameter: Length, width: Length) -> Result<Self, CuttingError> {
        Ok(Self::side_of(share_of_diameter("width", width, diameter)?))
    }

    /// [`Self::side`] of a share of the diameter known to lie above 0 and up to 1.
    #[must_use]
    pub fn side_of(share: f64) -> Self {
        let exit = depth_angle(share);
        // Past half the diameter the tooth crosses the full feed on its way.
        let largest = if share < 0.5 { 2.0 * (share * (1.0 - share)).sqrt() } else { 1.0 };
        let mean = 2.0 * share / exit;
        Self { enter: Angle::ZERO, exit: Angle::radian(exit), largest, mean }
    }

    /// Face milling or fly cutting with the cutter centred on the width.
    pub fn centred(diameter: Length, width: Length) -> Result<Self, CuttingError> {
        Ok(Self::centred_of(share_of_diameter("width", width, diameter)?))
    }

    /// [`Self::centred`] of a share of the diameter known to lie above 0 and up to 1.
    #[must_use]
    pub fn centred_of(share: f64) -> Self {
        let half = libm::asin(share);
        Self {
            enter: Angle::radian(FRAC_PI_2 - half),
            exit: Angle::radian(FRAC_PI_2 + half),
            largest: 1.0,
            mean: share / half,
        }
    }

    /// A slot as wide as the cutter.
    #[must_use]
    pub fn slot() -> Self {
        Self {
            enter: Angle::ZERO,
            exit: Angle::radian(PI),
            largest: 1.0,
            mean: core::f64::consts::FRAC_2_PI,
        }
    }

    /// The same arc under edges at an entering angle (90° for a square shoulder), which spread the
    /// chip over a longer edge.
    pub fn entering_at(self, entering_angle: Angle) -> Result<Self, CuttingError> {
        angle("entering angle", entering_angle, 90)?;
        Ok(self.slanted(entering_angle.sin()))
    }

    /// The same arc under edges at a slant that makes the chip thinner by a factor: the sine of
    /// the entering angle, or the share of its diameter at which a ball cuts.
    #[must_use]
    pub fn slanted(self, factor: f64) -> Self {
        Self { largest: self.largest * factor, mean: self.mean * factor, ..self }
    }

    /// The angle a tooth stays in the cut.
    #[must_use]
    pub fn angle(&self) -> Angle {
        self.exit - self.enter
    }

    /// Largest chip thickness as a share of the feed per tooth: what loads, rubs and breaks a
    /// tooth.
    #[must_use]
    pub fn largest_chip(&self) -> f64 {
        self.largest
    }

    /// Mean chip thickness over the arc as a share of the feed per tooth: what power goes by.
    #[must_use]
    pub fn mean_chip(&self) -> f64 {
        self.mean
    }
}

/// Largest chip thickness h = f_z sin φ, or f_z where the arc passes the full feed.
pub fn chip_max(engagement: Engagement, per_tooth: Length) -> Result<Length, CuttingError> {
    positive("feed per tooth", per_tooth)?;
    Ok(per_tooth * engagement.largest)
}

/// Mean chip thickness h_m = f_z (cos φ₁ - cos φ₂)/(φ₂ - φ₁).
pub fn chip_mean(engagement: Engagement, per_tooth: Length) -> Result<Length, CuttingError> {
    positive("feed per tooth", per_tooth)?;
    Ok(per_tooth * engagement.mean)
}

/// The feed per tooth that gives a wanted largest chip: the thin-chip rule, inverse of
/// [`chip_max`].
pub fn feed_for_chip(engagement: Engagement, wanted: Length) -> Result<Length, CuttingError> {
    positive("wanted chip", wanted)?;
    Ok(wanted / engagement.largest)
}

/// Diameter at which a ball-nose cutter really cuts at a depth: 2 √(a (D - a)), tilted
/// D sin(β + acos(1 - 2a/D)), and D once the cut reaches the widest part of the ball.
pub fn ball_effective_diameter(
    diameter: Length,
    depth: Length,
    tilt: Angle,
) -> Result<Length, CuttingError> {
    positive("diameter", diameter)?;
    positive("depth", depth)?;
    if tilt != Angle::ZERO {
        angle("tilt", tilt, 90)?;
    }
    Ok(ball_effective_diameter_of(diameter, depth, tilt))
}

/// [`ball_effective_diameter`] of inputs known to be good.
#[must_use]
pub fn ball_effective_diameter_of(diameter: Length, depth: Length, tilt: Angle) -> Length {
    let share = (depth / diameter).min(0.5);
    let reach = (depth_angle(share) + tilt.to_radian()).min(FRAC_PI_2);
    diameter * libm::sin(reach)
}

/// The angle at the centre of a circle down to a share of its diameter, acos(1 - 2q), in the form
/// that keeps its digits for small shares.
fn depth_angle(share: f64) -> f64 {
    2.0 * libm::asin(share.sqrt())
}

fn share_of_diameter(
    what: &'static str,
    length: Length,
    diameter: Length,
) -> Result<f64, CuttingError> {
    positive("diameter", diameter)?;
    positive(what, length)?;
    let share = length / diameter;
    // A width typed in one unit equals a diameter typed in the other only to rounding.
    if share > 1.0 + 4.0 * f64::EPSILON {
        return Err(CuttingError::OverDiameter(what));
    }
    Ok(share.min(1.0))
}
