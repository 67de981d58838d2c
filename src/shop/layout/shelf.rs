//! Patterns under way, in the saved document.

use serde::{Deserialize, Serialize};

/// So many patterns under way are remembered.
const UNDER_WAY: usize = 12;

/// The part of the saved document that hole layouts keep; what is missing in it is empty.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct LayoutShelf {
    /// Patterns of which holes are done, the last one first.
    pub under_way: Vec<UnderWay>,
}

/// A pattern with what is done of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct UnderWay {
    /// The pattern, as [`super::LayoutForm::pattern`] says it.
    pub pattern: String,
    /// The link of the whole form, to come back to.
    pub link: String,
    /// Holes that are done, as they are listed, counted from 0.
    pub done: Vec<u32>,
}

impl LayoutShelf {
    /// The holes of a pattern that are done.
    #[must_use]
    pub fn done(&self, pattern: &str) -> &[u32] {
        let found = self.under_way.iter().find(|one| one.pattern == pattern);
        found.map_or(&[], |one| one.done.as_slice())
    }

    /// Marks a hole of a pattern as done, or not.
    pub fn mark(&mut self, pattern: &str, link: &str, hole: u32, done: bool) {
        let place = self.under_way.iter().position(|one| one.pattern == pattern);
        let mut one = place.map(|place| self.under_way.remove(place)).unwrap_or_default();
        link.clone_into(&mut one.link);
        pattern.clone_into(&mut one.pattern);
        one.done.retain(|&found| found != hole);
        if done {
            one.done.push(hole);
        }
        if !one.done.is_empty() {
            self.under_way.insert(0, one);
            self.under_way.truncate(UNDER_WAY);
        }
    }

    /// Forgets what is done of a pattern.
    pub fn forget(&mut self, pattern: &str) {
        self.under_way.retain(|one| one.pattern != pattern);
    }
}
