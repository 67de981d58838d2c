//! A screen that stays on.

use crate::browser::{at_every, page, window};
use js_sys::{
    Function, Promise, Reflect,
    futures::{JsFuture, spawn_local},
};
use std::cell::{Cell, RefCell};
use wasm_bindgen::{JsCast, JsValue};

thread_local! {
    static WANTED: Cell<bool> = const { Cell::new(false) };
    static LISTENS: Cell<bool> = const { Cell::new(false) };
    static LOCK: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// Keeps the screen on from now until [`let_go`]; false where the browser does not. A browser
/// takes the lock away from a page that goes out of sight: it is asked again when it comes back.
pub async fn keep() -> bool {
    WANTED.set(true);
    if !LISTENS.replace(true) {
        at_every("visibilitychange", |_: web_sys::Event| {
            let is_seen = !window().document().is_none_or(|document| document.hidden());
            if WANTED.get() && is_seen {
                spawn_local(async {
                    take().await;
                });
            }
        });
    }
    take().await
}

/// Lets the screen go dark again.
pub fn let_go() {
    WANTED.set(false);
    if let Some(lock) = LOCK.take() {
        release(&lock);
    }
}

async fn take() -> bool {
    let Some(asked) = request() else { return false };
    match JsFuture::from(asked).await {
        // It may have been let go while the browser thought about it.
        Ok(lock) if !WANTED.get() => {
            release(&lock);
            false
        }
        Ok(lock) => {
            if let Some(before) = LOCK.replace(Some(lock)) {
                release(&before);
            }
            true
        }
        Err(_) => false,
    }
}

fn request() -> Option<Promise> {
    if !page::is_secure() {
        return None;
    }
    let locks = Reflect::get(&window().navigator(), &"wakeLock".into()).ok()?;
    call(&locks, "request", &"screen".into())?.dyn_into().ok()
}

fn release(lock: &JsValue) {
    // A lock that is gone already answers the same.
    let _ = call(lock, "release", &JsValue::UNDEFINED);
}

fn call(object: &JsValue, name: &str, with: &JsValue) -> Option<JsValue> {
    let function: Function = Reflect::get(object, &name.into()).ok()?.dyn_into().ok()?;
    function.call1(object, with).ok()
}
