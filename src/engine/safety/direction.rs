//! Which way the spindle has to turn, and what the switch says for it. Neither is ever guessed.

use super::context::Hand;
use crate::engine::machine::{Range, Turning};

/// The way a tool of this hand of cut has to turn, seen from above. The hand of the spiral does not
/// matter.
#[must_use]
pub fn turning(hand: Hand) -> Turning {
    match hand {
        Hand::Right => Turning::Clockwise,
        Hand::Left => Turning::CounterClockwise,
    }
}

/// The other way.
#[must_use]
pub fn opposite(turning: Turning) -> Turning {
    match turning {
        Turning::Clockwise => Turning::CounterClockwise,
        Turning::CounterClockwise => Turning::Clockwise,
    }
}

/// What the switch says in a range, as its owner has seen it; `None` until then.
#[must_use]
pub fn switch(range: &Range, turning: Turning) -> Option<&str> {
    match turning {
        Turning::Clockwise => range.clockwise_label.as_deref(),
        Turning::CounterClockwise => range.counter_clockwise_label.as_deref(),
    }
}

/// The words a person reads.
#[must_use]
pub fn words(turning: Turning) -> &'static str {
    match turning {
        Turning::Clockwise => "clockwise",
        Turning::CounterClockwise => "counter-clockwise",
    }
}

/// Whether a range turns the spindle the other way than the fastest one does with the switch in
/// the same place; `None` until both have been seen.
#[must_use]
pub fn reverses(ranges: &[Range], place: usize) -> Option<bool> {
    let range = ranges.get(place)?;
    let fastest = ranges
        .iter()
        .enumerate()
        .filter_map(|(at, range)| Some((at, range.speeds.highest()?)))
        .max_by(|a, b| a.1.to_rpm().total_cmp(&b.1.to_rpm()))
        .map(|(at, _)| at)?;
    if fastest == place {
        return Some(false);
    }
    let fastest = &ranges[fastest];
    [Turning::Clockwise, Turning::CounterClockwise].into_iter().find_map(|way| {
        let (here, there) = (switch(range, way)?, switch(fastest, way)?);
        Some(here.trim() != there.trim())
    })
}
