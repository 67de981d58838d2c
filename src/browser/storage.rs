//! The browser's storage: where the one saved document lives between visits.
//!
//! A document is written into the slot that is not in use, then the pointer moves to it. Whatever
//! stops the program between the two, one whole document is left. Other apps may share the
//! storage: every key carries our prefix and nothing is ever cleared.

use gloo_storage::{LocalStorage, Storage as _};

use crate::{
    browser::{at_every, reason, window},
    shop::{document::Document, restore::restore},
};

const SLOTS: [&str; 2] = ["handwheel/document/a", "handwheel/document/b"];
/// Holds the key of the slot in use.
const CURRENT: &str = "handwheel/current";
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

impl Shelf for web_sys::Storage {
    fn text(&self, key: &str) -> Option<String> {
        self.get_item(key).ok().flatten()
    }
    fn put(&self, key: &str, text: &str) -> Result<(), String> {
        self.set_item(key, text).map_err(|error| {
            format!("The browser keeps nothing more for this app ({}).", reason(&error))
        })
    }
    fn remove(&self, key: &str) {
        // Taking away what is not there is no failure either.
        let _ = self.remove_item(key);
    }
    fn keys(&self) -> Vec<String> {
        let count = self.length().unwrap_or(0);
        (0..count).filter_map(|index| self.key(index).ok().flatten()).collect()
    }
}

/// The browser's own storage.
///
/// # Errors
/// A sentence, where it is switched off, as in some private windows.
pub fn shelf() -> Result<web_sys::Storage, String> {
    // Asked first: the door of the crate ends the program where there is no storage.
    match window().local_storage() {
        Ok(Some(_)) => Ok(LocalStorage::raw()),
        Ok(None) => Err("This browser lets the app keep nothing.".to_owned()),
        Err(error) => Err(format!("This browser lets the app keep nothing ({}).", reason(&error))),
    }
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
    for (order, slot) in slots_newest_first(shelf).into_iter().enumerate() {
        let Some(raw) = shelf.text(slot) else { continue };
        match restore(&raw) {
            Ok(document) => {
                found.document = Some(document);
                break;
            }
            Err(unreadable) => {
                let key = format!("{RESCUED}{now}{}", ["", "-b"][order]);
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
    shelf.put(CURRENT, spare)
}

/// Calls back when another window of this app has saved.
pub fn at_save_elsewhere(reload: impl Fn() + 'static) {
    at_every("storage", move |event: web_sys::StorageEvent| {
        // A cleared storage names no key.
        if event.key().is_none_or(|key| key == CURRENT) {
            reload();
        }
    });
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
