//! The head or the vise out of square, from two readings of an indicator.

use super::SetupError;
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// How far something is out of square.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tram {
    left: Length,
    right: Length,
    sweep: Length,
}

/// Which way to turn what is out of square.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// With the hands of a clock.
    Clockwise,
    /// Against them.
    CounterClockwise,
}

impl Tram {
    /// From a reading at each end of a sweep.
    pub fn new(left: Length, right: Length, sweep: Length) -> Result<Self, SetupError> {
        if !sweep.is_positive() {
            return Err(SetupError::NotPositive("sweep"));
        }
        if !(left.is_finite() && right.is_finite()) || (right - left).abs() > sweep {
            return Err(SetupError::TooMany("readings"));
        }
        Ok(Self { left, right, sweep })
    }

    /// Difference of the readings over the sweep; positive where the right one is higher.
    #[must_use]
    pub fn slope(&self) -> f64 {
        (self.right - self.left) / self.sweep
    }

    /// The same as an angle, without its sign.
    #[must_use]
    pub fn angle(&self) -> Angle {
        Angle::degree(libm::atan(libm::fabs(self.slope())).to_degrees())
    }

    /// Which way to turn it, plungers pressed in counting up; `None` where both readings agree.
    ///
    /// A head is seen from the front, its indicator on the table: higher at the right, the sweep
    /// dips there and the head leans clockwise. A vise is seen from above, the indicator in front of
    /// its fixed jaw: higher at the right, the jaw comes nearer there.
    #[must_use]
    pub fn turn(&self) -> Option<Turn> {
        if self.right > self.left {
            Some(Turn::CounterClockwise)
        } else if self.right < self.left {
            Some(Turn::Clockwise)
        } else {
            None
        }
    }

    /// What both readings come to when it is square.
    #[must_use]
    pub fn target(&self) -> Length {
        (self.left + self.right) / 2.0
    }

    /// How far the readings are apart.
    #[must_use]
    pub fn apart(&self) -> Length {
        (self.right - self.left).abs()
    }

    /// The step between two rows of a face, side by side.
    pub fn row_step(&self, stepover: Length) -> Result<Length, SetupError> {
        if !stepover.is_positive() {
            return Err(SetupError::NotPositive("stepover"));
        }
        Ok(stepover * libm::fabs(self.slope()))
    }

    /// How hollow one row becomes, the cutter leaning along its feed: slope (R - √(R² - w²/4)).
    pub fn hollow(&self, diameter: Length, width: Length) -> Result<Length, SetupError> {
        for (what, value) in [("cutter's diameter", diameter), ("width of the cut", width)] {
            if !value.is_positive() {
                return Err(SetupError::NotPositive(what));
            }
        }
        if width > diameter {
            return Err(SetupError::TooMany("widths of the cut"));
        }
        let (radius, half) = (diameter.to_mm() / 2.0, width.to_mm() / 2.0);
        let rise = radius - (radius * radius - half * half).max(0.0).sqrt();
        Ok(Length::mm(rise) * libm::fabs(self.slope()))
    }

    /// How far to move at a bolt that far from the pivot.
    pub fn at_bolt(&self, from_pivot: Length) -> Result<Length, SetupError> {
        if !from_pivot.is_positive() {
            return Err(SetupError::NotPositive("way from the pivot"));
        }
        Ok(from_pivot * libm::fabs(self.slope()))
    }
}
