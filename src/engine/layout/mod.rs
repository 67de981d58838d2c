//! Where to cut: places of holes and of the cutter's axis, as a readout shows them.
//!
//! X to the right, Y away from the person, angles counter-clockwise from X seen from above.

pub mod arc;
pub mod circle;
pub mod edge;
pub mod moved;
pub mod points;
pub mod readout;
pub mod rows;
pub mod travel;

use crate::engine::quantity::Length;

/// The most holes of a pattern.
const MOST: u32 = 1000;

/// A place of the spindle's axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// To the right of the datum.
    pub x: Length,
    /// Behind the datum.
    pub y: Length,
}

impl Place {
    /// The datum itself.
    pub const ORIGIN: Self = Self { x: Length::ZERO, y: Length::ZERO };

    /// How far another place is.
    #[must_use]
    pub fn distance(self, other: Self) -> Length {
        let (x, y) = ((other.x - self.x).to_mm(), (other.y - self.y).to_mm());
        Length::mm(libm::hypot(x, y))
    }
}

/// A place at an angle, in degrees, on a circle. A quarter of a turn lands on the axis exactly.
fn on_circle(centre: Place, radius: Length, degrees: f64) -> Place {
    let (cos, sin) = direction(degrees);
    Place { x: centre.x + radius * cos, y: centre.y + radius * sin }
}

/// Cosine and sine of an angle in degrees; those of quarters of a turn are exact.
fn direction(degrees: f64) -> (f64, f64) {
    let turned = degrees.rem_euclid(360.0);
    match turned {
        0.0 => (1.0, 0.0),
        90.0 => (0.0, 1.0),
        180.0 => (-1.0, 0.0),
        270.0 => (0.0, -1.0),
        _ => (libm::cos(turned.to_radians()), libm::sin(turned.to_radians())),
    }
}

/// What cannot be laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayoutError {
    /// This has to be a number above zero.
    NotPositive(&'static str),
    /// This has to be a number.
    NotANumber(&'static str),
    /// A pattern has at least one hole.
    NoHoles,
    /// More holes than anyone drills.
    TooManyHoles,
    /// There is no such hole.
    NoSuchHole(u32),
    /// The cutter is larger than what it should cut.
    CutterTooLarge,
    /// Holes at the same place.
    NoStep,
    /// A rectangle has a hole at each corner.
    TwoCorners,
    /// The part stands too far off for a slip.
    TooAskew,
    /// No cut is left beside the allowance.
    NoRoom,
}

impl core::fmt::Display for LayoutError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NotPositive(what) => {
                write!(f, "The {what} has to be a number above zero. Enter the {what}.")
            }
            Self::NotANumber(what) => write!(f, "The {what} is not a number. Enter it again."),
            Self::NoHoles => f.write_str("A pattern has at least one hole. Enter how many."),
            Self::TooManyHoles => {
                f.write_str("That is more holes than anyone drills. Enter 1000 at the most.")
            }
            Self::NoSuchHole(hole) => {
                write!(f, "There is no hole {hole} in this pattern. Count from 1 to the last one.")
            }
            Self::CutterTooLarge => {
                f.write_str("The cutter does not fit into this corner. Take a smaller one.")
            }
            Self::NoStep => f.write_str("Every hole would be at the same place. Enter a step."),
            Self::TwoCorners => {
                f.write_str("A rectangle has a hole at each corner. Enter 2 or more each way.")
            }
            Self::TooAskew => f.write_str(
                "The part would stand more than 45° off. Check the two touches and their units.",
            ),
            Self::NoRoom => {
                f.write_str("The cutter does not fit between these walls. Take a smaller one.")
            }
        }
    }
}

impl core::error::Error for LayoutError {}

fn positive(what: &'static str, value: Length) -> Result<(), LayoutError> {
    if value.is_positive() { Ok(()) } else { Err(LayoutError::NotPositive(what)) }
}

fn finite(what: &'static str, value: f64) -> Result<(), LayoutError> {
    if value.is_finite() { Ok(()) } else { Err(LayoutError::NotANumber(what)) }
}
