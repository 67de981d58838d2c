//! A pattern moved as a whole: another datum, turned, mirrored, or laid on a part that stands
//! askew on the table.
//!
//! Every move starts from the drawing's places, never from moved ones, so that no rounding adds up.

use super::{LayoutError, Place, direction, finite};
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// A part that stands further off than this was measured wrongly.
const MOST_ASKEW: f64 = 45.0;

/// The line that a pattern is mirrored at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mirror {
    /// Left becomes right, about a line along Y.
    LeftRight,
    /// Front becomes back, about a line along X.
    FrontBack,
}

impl Place {
    /// The same place counted from another datum.
    #[must_use]
    pub fn from_datum(self, datum: Self) -> Self {
        Self { x: self.x - datum.x, y: self.y - datum.y }
    }

    /// Turned about a place, counter-clockwise seen from above. A quarter of a turn is exact.
    #[must_use]
    pub fn turned(self, about: Self, angle: Angle) -> Self {
        let (cos, sin) = direction(angle.to_degree());
        let from = self.from_datum(about);
        Self {
            x: about.x + (from.x * cos - from.y * sin),
            y: about.y + (from.x * sin + from.y * cos),
        }
    }

    /// Mirrored at a line through a place.
    #[must_use]
    pub fn mirrored(self, at: Self, mirror: Mirror) -> Self {
        match mirror {
            Mirror::LeftRight => Self { x: at.x - (self.x - at.x), y: self.y },
            Mirror::FrontBack => Self { x: self.x, y: at.y - (self.y - at.y) },
        }
    }
}

/// Every place and its copies, turned about a centre at equal steps all the way round.
pub fn copies(places: &[Place], about: Place, times: u32) -> Result<Vec<Place>, LayoutError> {
    if times == 0 {
        return Err(LayoutError::NoHoles);
    }
    if (times as usize).saturating_mul(places.len()) > super::MOST as usize {
        return Err(LayoutError::TooManyHoles);
    }
    let turn = |n: u32| Angle::degree(360.0 * f64::from(n) / f64::from(times));
    Ok((0..times).flat_map(|n| places.iter().map(move |p| p.turned(about, turn(n)))).collect())
}

/// How far a part is turned on the table, from two touches along an edge that the drawing has along
/// X: the way between them in X, and how much further back the second one is.
///
/// The pattern is then turned about the datum in place of the part.
pub fn askew(along: Length, off: Length) -> Result<Angle, LayoutError> {
    finite("way between the touches", along.to_mm())?;
    finite("difference of the touches", off.to_mm())?;
    if along.to_mm() == 0.0 {
        return Err(LayoutError::NotPositive("way between the touches"));
    }
    // From the right to the left the second touch is off by as much the other way.
    let angle = libm::atan(off / along).to_degrees();
    if libm::fabs(angle) > MOST_ASKEW {
        return Err(LayoutError::TooAskew);
    }
    Ok(Angle::degree(angle))
}
