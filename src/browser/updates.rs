//! New versions, as `public/boot.js` announces them.

use crate::browser::{at_every, page, window};
use web_sys::Event;

/// Calls back once every file is stored on the device; at once if that was so before.
pub fn when_ready_offline(ready: impl Fn() + 'static) {
    if page::has_mark("data-offline", "ready") {
        ready();
    } else {
        at_every("handwheel:ready-offline", move |_: Event| ready());
    }
}

/// Calls back when a new version waits to be used; at once if one waits already.
pub fn when_update_waits(waits: impl Fn() + 'static) {
    if page::has_mark("data-update", "waiting") {
        waits();
    }
    at_every("handwheel:update-waiting", move |_: Event| waits());
}

/// Uses the new version now; the page reloads.
pub fn use_update() {
    if let Ok(event) = Event::new("handwheel:use-update") {
        // Nobody cancels it.
        let _ = window().dispatch_event(&event);
    }
}
