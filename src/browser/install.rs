//! Putting the app on the home screen.

use crate::browser::{at_every, window};
use core::cell::RefCell;
use js_sys::{Function, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Event;

thread_local! {
    /// The browser's offer, kept until the person takes it.
    static OFFER: RefCell<Option<Event>> = const { RefCell::new(None) };
}

/// Calls back when the browser offers to install the app, in place of its own banner.
pub fn when_offered(offered: impl Fn() + 'static) {
    at_every("beforeinstallprompt", move |event: Event| {
        event.prevent_default();
        OFFER.with_borrow_mut(|offer| *offer = Some(event));
        offered();
    });
}

/// Takes the browser's offer: it asks the person once more. To be called in a tap.
pub fn accept() {
    let Some(offer) = OFFER.take() else { return };
    let prompt = Reflect::get(&offer, &JsValue::from_str("prompt"));
    if let Some(prompt) = prompt.ok().and_then(|prompt| prompt.dyn_into::<Function>().ok()) {
        // The browser shows what comes of it.
        let _ = prompt.call0(&offer);
    }
}

/// True where the app runs in a tab of a browser that installs by its share menu only.
#[must_use]
pub fn is_by_share_menu() -> bool {
    // Only that browser has this property at all.
    let standalone = Reflect::get(&window().navigator(), &JsValue::from_str("standalone"));
    standalone.is_ok_and(|standalone| standalone == JsValue::FALSE)
}
