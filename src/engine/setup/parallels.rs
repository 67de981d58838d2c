//! Parallels under a part in a vise: high enough that the cut clears the jaws, low enough that the
//! jaws hold.

use super::SetupError;
use crate::engine::quantity::Length;

/// Source: arithmetic.
pub const SOURCE: &str = "F_GEOMETRY";

/// Heights between which a parallel fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The cut stays clear of the jaws from here on.
    pub lowest: Length,
    /// The jaws hold up to here.
    pub highest: Length,
}

/// The heights for a part of a height in jaws of a height, cut down its side, with air left under
/// the cut and so much held at least: J + c + air - H to J - grip.
pub fn range(
    jaw: Length,
    part: Length,
    side_cut: Length,
    air: Length,
    grip: Length,
) -> Result<Range, SetupError> {
    for (what, value) in [("height of the jaws", jaw), ("height of the part", part)] {
        if !value.is_positive() {
            return Err(SetupError::NotPositive(what));
        }
    }
    for (what, value) in [("depth of the cut", side_cut), ("air", air), ("grip", grip)] {
        if !(value.is_finite() && value >= Length::ZERO) {
            return Err(SetupError::Negative(what));
        }
    }
    let (lowest, highest) = (jaw + side_cut + air - part, jaw - grip);
    let (lowest, highest) = (lowest.max(Length::ZERO), highest.max(Length::ZERO));
    // Sums of the same numbers meet but for their last digit.
    if lowest > highest + Length::mm(1e-9) {
        return Err(SetupError::NoParallel);
    }
    Ok(Range { lowest, highest })
}

impl Range {
    /// The lowest of some parallels that fits: it leaves the most in the jaws.
    #[must_use]
    pub fn choice(&self, owned: &[Length]) -> Option<Length> {
        let slack = Length::mm(1e-9);
        let fits =
            |height: &&Length| **height >= self.lowest - slack && **height <= self.highest + slack;
        owned.iter().filter(fits).copied().reduce(Length::min)
    }
}

/// Air wanted between the cut and the jaws. Source: common practice.
#[must_use]
pub fn usual_air() -> Length {
    Length::inch(0.060)
}

/// The least a part should stand in the jaws: a third of its height, and 0.20 in. Source: common
/// practice.
#[must_use]
pub fn least_grip(part: Length) -> Length {
    (part / 3.0).max(Length::inch(0.20))
}

/// Source of [`usual_air`] and [`least_grip`].
pub const USUAL_SOURCE: &str = "CP";

/// A hole in a part on two parallels, one against each jaw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Under {
    /// The hole's near edge, from the fixed jaw.
    pub from: Length,
    /// Its far edge.
    pub to: Length,
    /// The parallel at the fixed jaw is under it.
    pub fixed: bool,
    /// The parallel at the moving jaw is.
    pub moving: bool,
}

impl Under {
    /// True when neither parallel is under it.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        !self.fixed && !self.moving
    }
}

/// Where a hole comes out of a part, and whether a parallel is there.
pub fn under(
    width: Length,
    thickness: Length,
    hole: Length,
    centre: Length,
) -> Result<Under, SetupError> {
    let wanted = [
        ("width between the jaws", width),
        ("thickness of the parallels", thickness),
        ("diameter of the hole", hole),
    ];
    for (what, value) in wanted {
        if !value.is_positive() {
            return Err(SetupError::NotPositive(what));
        }
    }
    let (from, to) = (centre - hole / 2.0, centre + hole / 2.0);
    if !centre.is_finite() || from < Length::ZERO || to > width {
        return Err(SetupError::OutsideThePart);
    }
    let slack = Length::mm(1e-9);
    let (fixed, moving) = (from < thickness - slack, to > width - thickness + slack);
    Ok(Under { from, to, fixed, moving })
}

/// What is left under a drill that comes out of a part on parallels of a height, its tip that far
/// below the part; negative when it goes into what is below.
pub fn left_under(parallel: Length, below: Length) -> Result<Length, SetupError> {
    if !parallel.is_positive() {
        return Err(SetupError::NotPositive("height of the parallels"));
    }
    if !(below.is_finite() && below >= Length::ZERO) {
        return Err(SetupError::Negative("way of the tip below the part"));
    }
    Ok(parallel - below)
}
