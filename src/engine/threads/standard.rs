//! The threads that standards list, and the drill each one names for its hole.

use super::{Hand, Pitch, Series, Size, Thread};
use crate::engine::drills::Drill;

include!(concat!(env!("OUT_DIR"), "/threads.rs"));

/// A thread that a standard or the trade lists.
#[derive(Debug, PartialEq, Eq)]
pub struct Standard {
    pub(super) thread: Thread,
    /// Drills in one number each: hundredths of a millimetre from 1, 64ths of an inch from 10 000,
    /// letters from 20 000.
    drill: u16,
    other_drill: u16,
    source: u8,
    drill_source: u8,
}

impl Standard {
    /// Tags of the sources of size and pitch.
    #[must_use]
    pub fn source(&self) -> &'static str {
        TAGS[usize::from(self.source)]
    }

    /// The drill that a standard or table names for the hole before tapping, with the tags of its
    /// sources.
    #[must_use]
    pub fn tap_drill(&self) -> Option<(Drill, &'static str)> {
        Some((drill(self.drill)?, TAGS[usize::from(self.drill_source)]))
    }

    /// The drill that an older table names, where there are two families of them.
    #[must_use]
    pub fn other_tap_drill(&self) -> Option<(Drill, &'static str)> {
        Some((drill(self.other_drill)?, TAGS[usize::from(self.drill_source)]))
    }
}

fn drill(code: u16) -> Option<Drill> {
    match code {
        0..10_000 => Drill::hundredths_of_mm(code),
        10_000..20_000 => Drill::sixty_fourths(code - 10_000),
        _ => Drill::letter(char::from(b'A' + (code - 20_000) as u8)),
    }
}

/// Every thread that is listed, series by series in the order of a list, by diameter within one.
pub fn all() -> impl Iterator<Item = Thread> + Clone {
    STANDARDS.iter().map(|row| row.thread)
}

impl Thread {
    /// Its row in the list, whichever way it turns in.
    #[must_use]
    pub fn standard(self) -> Option<&'static Standard> {
        let right = self.with_hand(Hand::Right);
        STANDARDS.iter().find(|row| row.thread == right)
    }
}
