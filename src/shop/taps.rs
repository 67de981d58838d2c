//! The owner's taps, by the threads they cut.

use serde::{Deserialize, Serialize};

use crate::engine::{
    question::InputError,
    threads::{Thread, named, tap_set::TapSet},
};

/// The drawer of taps. A tap is kept by the designation of its thread, which never changes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct TapDrawer(Vec<String>);

impl TapDrawer {
    /// True until the owner has said anything about taps.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// True when there is one for a thread.
    #[must_use]
    pub fn has(&self, thread: Thread) -> bool {
        self.0.contains(&thread.designation())
    }

    /// Puts one in, or takes it out.
    pub fn own(&mut self, thread: Thread, owned: bool) {
        let name = thread.designation();
        self.0.retain(|one| *one != name);
        if owned {
            self.0.push(name);
        }
    }

    /// True when every tap of a set is there.
    #[must_use]
    pub fn has_set(&self, set: TapSet) -> bool {
        set.threads().into_iter().all(|thread| self.has(thread))
    }

    /// Puts a whole set in, or takes it out.
    pub fn own_set(&mut self, set: TapSet, owned: bool) {
        for thread in set.threads() {
            self.own(thread, owned);
        }
    }

    /// Adds a tap by the name of its thread.
    ///
    /// # Errors
    /// As [`named`].
    pub fn add(&mut self, name: &str) -> Result<(), InputError> {
        self.own(named(name)?, true);
        Ok(())
    }

    /// The threads there are taps for, the smallest first. A name that nothing is called by any
    /// more is passed over; it stays in the drawer.
    #[must_use]
    pub fn threads(&self) -> Vec<Thread> {
        let mut threads: Vec<Thread> = self.0.iter().filter_map(|name| named(name).ok()).collect();
        threads.sort_by(|a, b| a.major().to_mm().total_cmp(&b.major().to_mm()));
        threads
    }

    /// Those that belong to no set.
    #[must_use]
    pub fn singles(&self) -> Vec<Thread> {
        let in_a_set =
            |thread: &Thread| TapSet::ALL.into_iter().any(|set| set.threads().contains(thread));
        self.threads().into_iter().filter(|thread| !in_a_set(thread)).collect()
    }
}
