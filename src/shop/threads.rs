//! The threads a person comes back to.

use serde::{Deserialize, Serialize};

/// So many threads are remembered.
const RECENT: usize = 8;

/// Threads by their designations, and how large the screen draws.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ThreadShelf {
    /// Those looked at last, the last one first.
    pub recent: Vec<String>,
    /// Those with a star, the last one first.
    pub starred: Vec<String>,
    /// Long edge of a bank card on this screen, in tenths of its units.
    pub card: Option<u32>,
}

impl ThreadShelf {
    /// Keeps a thread as the one looked at last.
    pub fn look_at(&mut self, designation: &str) {
        self.recent.retain(|one| one != designation);
        self.recent.insert(0, designation.to_owned());
        self.recent.truncate(RECENT);
    }

    /// True when it has a star.
    #[must_use]
    pub fn is_starred(&self, designation: &str) -> bool {
        self.starred.iter().any(|one| one == designation)
    }

    /// Gives a star, or takes it away.
    pub fn star(&mut self, designation: &str, starred: bool) {
        self.starred.retain(|one| one != designation);
        if starred {
            self.starred.insert(0, designation.to_owned());
        }
    }
}
