//! Where the one saved document lives between visits, and how two windows keep it together.
//!
//! A document is written into the slot that is not in use, then the pointer moves to it. Whatever
//! stops the program between the two, one whole document is left, and the good copy before it
//! stays in the other slot. Other apps may share the storage: every key carries our prefix and
//! nothing is ever cleared.
//!
//! Every save has a stamp of its own, under a key of its own. A window that finds another stamp
//! than it left there takes in what was saved meanwhile before it saves ([`crate::shop::merge`]).

use crate::shop::{
    document::Document,
    merge::{self, Trace},
    restore::restore,
};

const SLOTS: [&str; 2] = ["handwheel/document/a", "handwheel/document/b"];
/// Holds the key of the slot in use.
pub const CURRENT: &str = "handwheel/current";
/// Holds the stamp of the last save.
pub const STAMP: &str = "handwheel/stamp";
const DEVICE: &str = "handwheel/device";
const RESCUED: &str = "handwheel/rescued/";
const TOLD: &str = "handwheel/told/";

/// A shelf of texts, each under a key: the browser's storage, or one that a test fills up.
pub trait Shelf {
    /// The text under a key.
    fn text(&self, key: &str) -> Option<String>;
    /// Puts a text under a key.
    ///
    /// # Errors
    /// A sentence that says why it could not be kept.
    fn put(&self, key: &str, text: &str) -> Result<(), String>;
    /// Takes a key away.
    fn remove(&self, key: &str);
    /// Every key.
    fn keys(&self) -> Vec<String>;
}

/// What was found at the start.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The document, unless there is none yet.
    pub document: Option<Document>,
    /// What is there and could not be read, now or earlier.
    pub rescued: Vec<Rescued>,
}

/// A text that could not be read, kept for its owner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rescued {
    /// Key it is kept under; `None` if the storage is too full to keep it a second time.
    pub key: Option<String>,
    /// The text.
    pub raw: String,
    /// What is wrong with it; empty for what was rescued on an earlier day.
    pub problem: String,
}

/// Loads the document. What cannot be read moves aside under `handwheel/rescued/`, and the
/// document before it takes its place.
pub fn load(shelf: &impl Shelf, now: &str) -> Found {
    let mut found = Found { document: None, rescued: rescued_earlier(shelf) };
    for slot in slots_newest_first(shelf) {
        let Some(raw) = shelf.text(slot) else { continue };
        match restore(&raw) {
            Ok(document) => {
                found.document = Some(document);
                break;
            }
            Err(unreadable) => {
                let key = free_key(shelf, &format!("{RESCUED}{now}"));
                let kept = move_aside(shelf, slot, &key, &raw);
                found.rescued.push(Rescued {
                    key: kept.then_some(key),
                    raw,
                    problem: unreadable.problem,
                });
            }
        }
    }
    found
}

/// Saves the document.
///
/// # Errors
/// A sentence that says why it was not saved. The document saved before is still there.
pub fn save(shelf: &impl Shelf, document: &Document) -> Result<(), String> {
    let [_, spare] = slots_newest_first(shelf);
    shelf.put(spare, &document.to_text())?;
    // Before the pointer: a window that finds a stamp too many looks once in vain, one that misses
    // a stamp would overwrite.
    shelf.put(STAMP, &document.trace.at)?;
    shelf.put(CURRENT, spare)
}

/// What one window knows of what is saved.
#[derive(Clone, Debug)]
pub struct Keeper {
    device: String,
    window: String,
    /// What was saved or found last.
    saved: Document,
    /// What was found last, where this window has saved since.
    common: Option<Document>,
}

/// What came of a save, or of a look at what another window saved.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    /// There was nothing to do.
    AsBefore,
    /// The document is saved.
    Saved,
    /// Another window had saved: this is the document with its changes in it.
    Merged(Box<Document>),
}

impl Keeper {
    /// For a window that begins with a document. `random` is a number that no other window is
    /// likely to draw; that of the first one names the device.
    #[must_use]
    pub fn new(shelf: Option<&impl Shelf>, document: Document, random: u32) -> Self {
        let known = shelf.and_then(|shelf| shelf.text(DEVICE));
        let device = known.filter(|name| !name.is_empty()).unwrap_or_else(|| {
            let name = format!("{random:x}");
            if let Some(shelf) = shelf {
                // Another name next time is no harm.
                let _ = shelf.put(DEVICE, &name);
            }
            name
        });
        Self { device, window: format!("{random:x}"), saved: document, common: None }
    }

    /// Saves what has changed, with what another window saved meanwhile.
    ///
    /// # Errors
    /// A sentence that says why it was not saved. The document saved before is still there.
    pub fn save(
        &mut self,
        shelf: &impl Shelf,
        now: &str,
        document: &Document,
    ) -> Result<Kept, String> {
        if merge::changed(&self.saved, document).is_empty() {
            return Ok(Kept::AsBefore);
        }
        let stamp = shelf.text(STAMP).unwrap_or_default();
        if stamp != self.saved.trace.at
            && let (Kept::Merged(merged), _) = self.look(shelf, now, document)
        {
            self.write(shelf, &merged)?;
            return Ok(Kept::Merged(merged));
        }
        self.write(shelf, document)?;
        Ok(Kept::Saved)
    }

    fn write(&mut self, shelf: &impl Shelf, document: &Document) -> Result<(), String> {
        let changed = merge::changed(&self.saved, document);
        if changed.is_empty() {
            return Ok(());
        }
        let mut next = document.clone();
        next.marks = merge::marked(&self.saved.marks, &changed, &self.device);
        next.trace = Trace::after(&self.saved.trace, &self.window);
        save(shelf, &next)?;
        let before = core::mem::replace(&mut self.saved, next);
        self.common.get_or_insert(before);
        Ok(())
    }

    /// Looks at what another window has saved, and what could not be read of it.
    pub fn look(
        &mut self,
        shelf: &impl Shelf,
        now: &str,
        document: &Document,
    ) -> (Kept, Vec<Rescued>) {
        let found = load(shelf, now);
        let Some(theirs) = found.document else {
            // Nothing is there any more: what this window holds is saved again with the next change.
            self.saved = Document::default();
            self.common = None;
            return (Kept::AsBefore, found.rescued);
        };
        if theirs.trace == self.saved.trace && merge::changed(&self.saved, &theirs).is_empty() {
            return (Kept::AsBefore, found.rescued);
        }
        let mut mine = document.clone();
        let changed = merge::changed(&self.saved, document);
        mine.marks = merge::marked(&self.saved.marks, &changed, &self.device);
        // What they saved without knowing of this window's last save goes back to what both knew.
        let knew = [&theirs.trace.at, &theirs.trace.after].contains(&&self.saved.trace.at);
        let base = match &self.common {
            Some(common) if !knew => common,
            _ => &self.saved,
        };
        let merged = merge::merge(base, &mine, &theirs);
        self.saved = theirs;
        self.common = None;
        (Kept::Merged(Box::new(merged)), found.rescued)
    }
}

/// Takes a rescued text away, once its owner has it.
pub fn forget_rescued(shelf: &impl Shelf, rescued: &Rescued) {
    if let Some(key) = &rescued.key {
        shelf.remove(key);
    }
}

/// True the first time a thing is told on this device.
pub fn is_new_to_tell(shelf: &impl Shelf, thing: &str) -> bool {
    let key = format!("{TOLD}{thing}");
    let is_new = shelf.text(&key).is_none();
    if is_new {
        // Telling it twice is the worst that a full storage does here.
        let _ = shelf.put(&key, "yes");
    }
    is_new
}

fn slots_newest_first(shelf: &impl Shelf) -> [&'static str; 2] {
    let [a, b] = SLOTS;
    if shelf.text(CURRENT).as_deref() == Some(b) { [b, a] } else { [a, b] }
}

fn rescued_earlier(shelf: &impl Shelf) -> Vec<Rescued> {
    let mut keys: Vec<String> =
        shelf.keys().into_iter().filter(|key| key.starts_with(RESCUED)).collect();
    keys.sort();
    keys.into_iter()
        .filter_map(|key| {
            let raw = shelf.text(&key)?;
            Some(Rescued { key: Some(key), raw, problem: String::new() })
        })
        .collect()
}

/// A key that holds nothing yet: a clock that was set back gives the same time twice.
fn free_key(shelf: &impl Shelf, wanted: &str) -> String {
    let mut key = wanted.to_owned();
    let mut count = 2;
    while shelf.text(&key).is_some() {
        key = format!("{wanted}-{count}");
        count += 1;
    }
    key
}

/// Moves a text to another key; true when it is kept there. A full storage has no room for it
/// twice, so its old place is given up first and taken again if that does not help.
fn move_aside(shelf: &impl Shelf, from: &str, to: &str, raw: &str) -> bool {
    if shelf.put(to, raw).is_ok() {
        shelf.remove(from);
        return true;
    }
    shelf.remove(from);
    if shelf.put(to, raw).is_ok() {
        return true;
    }
    let _ = shelf.put(from, raw);
    false
}
