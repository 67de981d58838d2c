//! The browser: the only place that names it.
//!
//! Each file is one thing the browser can do for the app, in the app's own words. Nothing here
//! decides anything.

pub mod awake;
pub mod clipboard;
pub mod clock;
pub mod files;
pub mod install;
pub mod keeping;
pub mod page;
pub mod sound;
pub mod storage;
pub mod updates;

use wasm_bindgen::{JsCast, closure::Closure};

/// The window this app runs in.
fn window() -> web_sys::Window {
    web_sys::window().expect("the app runs in a window")
}

/// Calls `listen` at every event of a name on the window, for as long as the app runs.
fn at_every<E: JsCast>(name: &str, listen: impl Fn(E) + 'static) {
    let listener = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
        if let Ok(event) = event.dyn_into::<E>() {
            listen(event);
        }
    });
    // An event target only refuses a listener that is no function.
    let _ = window().add_event_listener_with_callback(name, listener.as_ref().unchecked_ref());
    listener.forget();
}

/// What a browser says of a failure, as one plain line.
fn reason(error: &wasm_bindgen::JsValue) -> String {
    error
        .dyn_ref::<js_sys::Error>()
        .map(|error| String::from(error.message()))
        .or_else(|| error.as_string())
        .unwrap_or_else(|| "the browser gives no reason".to_owned())
}
