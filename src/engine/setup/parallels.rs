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
