//! Holes on a circle, all the way round or along a part of it.

use super::{LayoutError, MOST, Place, finite, on_circle, positive};
use crate::engine::quantity::{Angle, Length};

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// Which way the holes follow each other, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Direction {
    /// Against the hands of a clock.
    #[default]
    CounterClockwise,
    /// With them.
    Clockwise,
}

/// Holes at equal steps on a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltCircle {
    holes: u32,
    radius: Length,
    centre: Place,
    start: f64,
    /// From one hole to the next, in degrees, signed.
    step: f64,
    whole: bool,
}

impl BoltCircle {
    /// Holes all the way round, the first at an angle from X.
    pub fn new(
        holes: u32,
        diameter: Length,
        centre: Place,
        start: Angle,
        direction: Direction,
    ) -> Result<Self, LayoutError> {
        if holes == 0 {
            return Err(LayoutError::NoHoles);
        }
        let spacing = Angle::degree(360.0 / f64::from(holes));
        let circle = Self::part(holes, diameter, centre, start, spacing, direction)?;
        Ok(Self { whole: true, ..circle })
    }

    /// Holes at a spacing of one's own, along a part of the circle.
    pub fn part(
        holes: u32,
        diameter: Length,
        centre: Place,
        start: Angle,
        spacing: Angle,
        direction: Direction,
    ) -> Result<Self, LayoutError> {
        if holes == 0 {
            return Err(LayoutError::NoHoles);
        }
        if holes > MOST {
            return Err(LayoutError::TooManyHoles);
        }
        positive("diameter of the circle", diameter)?;
        finite("start angle", start.to_degree())?;
        finite("spacing", spacing.to_degree())?;
        finite("place of the centre", centre.x.to_mm() + centre.y.to_mm())?;
        let step = match direction {
            Direction::CounterClockwise => spacing.to_degree(),
            Direction::Clockwise => -spacing.to_degree(),
        };
        let (radius, start) = (diameter / 2.0, start.to_degree());
        Ok(Self { holes, radius, centre, start, step, whole: false })
    }

    /// How many holes there are.
    #[must_use]
    pub fn holes(&self) -> u32 {
        self.holes
    }

    /// The place of a hole, counted from 1.
    pub fn hole(&self, hole: u32) -> Result<Place, LayoutError> {
        if hole == 0 || hole > self.holes {
            return Err(LayoutError::NoSuchHole(hole));
        }
        let before = f64::from(hole - 1);
        // A twelfth of a turn is 30 degrees, whatever the last digit of 360/12 times its place.
        let turned = if self.whole {
            (360.0 * before / f64::from(self.holes)).copysign(self.step)
        } else {
            self.step * before
        };
        Ok(on_circle(self.centre, self.radius, self.start + turned))
    }

    /// Every place, the first hole first.
    #[must_use]
    pub fn places(&self) -> Vec<Place> {
        (1..=self.holes).filter_map(|hole| self.hole(hole).ok()).collect()
    }

    /// From one hole to the next, straight: D sin(spacing/2).
    #[must_use]
    pub fn chord(&self) -> Length {
        let half = (self.step.abs() / 2.0).to_radians();
        self.radius * (2.0 * libm::fabs(libm::sin(half)))
    }
}
