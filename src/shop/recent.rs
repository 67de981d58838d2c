//! What was looked at last, wherever it stands.

use serde::{Deserialize, Serialize};

/// So many are remembered.
const KEPT: usize = 12;

/// A screen that was looked at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Recent {
    /// What it was about.
    pub name: String,
    /// Where it stands, as `cut?op=slot`.
    pub to: String,
}

/// The last ones, the last one first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Recents(Vec<Recent>);

impl Recents {
    /// Notes a screen as the last one. One about the same thing gives way to it.
    pub fn note(&mut self, name: String, to: String) {
        let page = page_of(&to).to_owned();
        self.0.retain(|one| one.name != name || page_of(&one.to) != page);
        self.0.insert(0, Recent { name, to });
        self.0.truncate(KEPT);
    }

    /// True when this is the last one already.
    #[must_use]
    pub fn is_last(&self, name: &str, to: &str) -> bool {
        self.0.first().is_some_and(|last| last.name == name && last.to == to)
    }

    /// The last one first.
    #[must_use]
    pub fn list(&self) -> &[Recent] {
        &self.0
    }

    /// True when there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// The page of an address.
#[must_use]
pub fn page_of(to: &str) -> &str {
    to.split('?').next().unwrap_or_default()
}

/// True for an address of a page of this app: one segment of small letters and a query. A saved
/// document or a link may say anything.
#[must_use]
pub fn is_ours(to: &str) -> bool {
    let page = page_of(to);
    !page.is_empty() && page.chars().all(|c| c.is_ascii_lowercase())
}
