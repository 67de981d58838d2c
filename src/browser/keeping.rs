//! Whether the browser keeps what the app saves, or may clear it when it needs the room.

use crate::browser::window;
use js_sys::futures::JsFuture;

/// Asks the browser to keep what the app saves for good; true when it does. To be called after a
/// tap.
pub async fn ask() -> bool {
    if !super::page::is_secure() {
        return false;
    }
    match window().navigator().storage().persist() {
        Ok(promise) => answer(promise).await,
        Err(_) => false,
    }
}

/// True when what the app saves is kept for good.
pub async fn is_granted() -> bool {
    if !super::page::is_secure() {
        return false;
    }
    match window().navigator().storage().persisted() {
        Ok(promise) => answer(promise).await,
        Err(_) => false,
    }
}

async fn answer(promise: js_sys::Promise) -> bool {
    JsFuture::from(promise).await.is_ok_and(|yes| yes.is_truthy())
}
