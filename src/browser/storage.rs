//! The browser's storage, as the shelf of [`crate::shop::store`].

use gloo_storage::{LocalStorage, Storage as _};

use crate::{
    browser::{at_every, reason, window},
    shop::store::{CURRENT, STAMP, Shelf},
};

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

/// Calls back when another window of this app has saved.
pub fn at_save_elsewhere(reload: impl Fn() + 'static) {
    at_every("storage", move |event: web_sys::StorageEvent| {
        // A cleared storage names no key.
        if event.key().is_none_or(|key| [CURRENT, STAMP].contains(&key.as_str())) {
            reload();
        }
    });
}

/// A number that no other device is likely to draw.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part of it will do")]
pub fn random() -> u32 {
    (js_sys::Math::random() * f64::from(u32::MAX)) as u32
}
