//! The clipboard.

use crate::browser::{reason, window};
use js_sys::futures::JsFuture;

/// Puts a text on the clipboard.
///
/// # Errors
/// A sentence, when the browser does not let it: on an address that is not https, for example.
pub async fn put(text: &str) -> Result<(), String> {
    if !window().is_secure_context() {
        return Err("This address is not https, so the browser copies nothing.".to_owned());
    }
    let done = JsFuture::from(window().navigator().clipboard().write_text(text)).await;
    done.map(|_| ()).map_err(|error| format!("The browser copied nothing ({}).", reason(&error)))
}
