//! A distance on a handwheel: turns and marks.

use super::SetupError;
use crate::engine::quantity::Length;

/// Source: arithmetic.
pub const SOURCE: &str = "F_GEOMETRY";

/// More turns than any screw has.
const MOST: f64 = 1e6;

/// A distance as turns of a wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DialTurns {
    /// All of it in turns.
    pub turns: f64,
    /// Whole turns.
    pub whole: f64,
    /// What is left after the whole turns.
    pub remainder: Length,
    lead: Length,
}

impl DialTurns {
    /// Splits a distance, the lead being the travel of one turn.
    pub fn new(distance: Length, lead: Length) -> Result<Self, SetupError> {
        if !(distance.is_finite() && distance >= Length::ZERO) {
            return Err(SetupError::Negative("distance"));
        }
        if !lead.is_positive() {
            return Err(SetupError::NotPositive("travel per turn of the wheel"));
        }
        let turns = distance / lead;
        if turns > MOST {
            return Err(SetupError::TooMany("turns"));
        }
        // Three turns of 0.1 in are three, whatever the last digit of their quotient.
        let whole = libm::floor(turns + 1e-9);
        let remainder = (distance - lead * whole).max(Length::ZERO);
        Ok(Self { turns, whole, remainder, lead })
    }

    /// Marks of the dial in the remainder.
    pub fn divisions(&self, per_turn: f64) -> Result<f64, SetupError> {
        if !(per_turn.is_finite() && per_turn > 0.0) {
            return Err(SetupError::NotPositive("marks per turn"));
        }
        Ok(self.remainder / self.lead * per_turn)
    }
}
