//! Runout: a cutter that wobbles gives one tooth more than its share.

use super::error::{CuttingError, not_negative, positive, toothed};
use crate::engine::quantity::Length;
use core::f64::consts::PI;

/// Source: geometry of an eccentric cutter; the idea is W. A. Kline and R. E. DeVor's (1983).
pub const SOURCE: &str = "F_GEOMETRY";

/// How far one tooth can stand out over the next: TIR sin(π/z).
pub fn runout_step(runout: Length, teeth: u32) -> Result<Length, CuttingError> {
    not_negative("runout", runout)?;
    toothed(teeth)?;
    Ok(runout_step_of(runout, teeth))
}

/// [`runout_step`] of inputs known to be good.
#[must_use]
pub fn runout_step_of(runout: Length, teeth: u32) -> Length {
    // Exactly nothing for one tooth, where the sine of π leaves a remainder.
    if teeth == 1 { Length::ZERO } else { runout * libm::sin(PI / f64::from(teeth)) }
}

/// Feed that the worst tooth takes: f_z + TIR sin(π/z), but never more than the feed of a turn.
///
/// Exact while the step is at most twice the feed. Beyond, where teeth idle, it is never too low:
/// up to 3 % high for four teeth, 15 % for six.
pub fn worst_tooth_chip(
    per_tooth: Length,
    teeth: u32,
    runout: Length,
) -> Result<Length, CuttingError> {
    positive("feed per tooth", per_tooth)?;
    Ok(worst_tooth_of(per_tooth, teeth, runout_step(runout, teeth)?))
}

/// [`worst_tooth_chip`] of a chip or feed and a [`runout_step`] known to be good.
#[must_use]
pub fn worst_tooth_of(chip: Length, teeth: u32, step: Length) -> Length {
    (chip + step).min(chip * f64::from(teeth))
}

/// Feed that is left for the least tooth: f_z - TIR sin(π/z), or nothing.
pub fn least_tooth_chip(
    per_tooth: Length,
    teeth: u32,
    runout: Length,
) -> Result<Length, CuttingError> {
    positive("feed per tooth", per_tooth)?;
    Ok((per_tooth - runout_step(runout, teeth)?).max(Length::ZERO))
}

/// Runout (total indicator reading) that changes the chip by a fraction of itself:
/// fraction h / sin(π/z), from two teeth up.
pub fn runout_limit(chip: Length, teeth: u32, fraction: f64) -> Result<Length, CuttingError> {
    positive("chip thickness", chip)?;
    positive("fraction", fraction)?;
    toothed(teeth)?;
    if teeth == 1 {
        return Err(CuttingError::LoneTooth);
    }
    Ok(runout_limit_of(chip, teeth, fraction))
}

/// [`runout_limit`] of inputs known to be good.
#[must_use]
pub fn runout_limit_of(chip: Length, teeth: u32, fraction: f64) -> Length {
    chip * fraction / libm::sin(PI / f64::from(teeth))
}
