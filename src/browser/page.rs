//! The page the app stands on: its address, its marks, and whether it may do all it can.

use crate::browser::{at_every, window};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlTemplateElement};

/// The folder the app is served from, as a path without the last slash: the base of its routes.
#[must_use]
pub fn folder() -> String {
    let address = window()
        .document()
        .and_then(|document| document.base_uri().ok().flatten())
        .and_then(|address| web_sys::Url::new(&address).ok());
    let path = address.map(|address| address.pathname()).unwrap_or_default();
    path.rsplit_once('/').map(|(folder, _)| folder.to_owned()).unwrap_or_default()
}

/// The folder the app is served from, as an address that another phone can open; ends with a stroke.
#[must_use]
pub fn root_address() -> String {
    window()
        .document()
        .and_then(|document| document.base_uri().ok().flatten())
        .and_then(|address| address.rsplit_once('/').map(|(folder, _)| format!("{folder}/")))
        .unwrap_or_default()
}

/// True when the browser grants this address what needs https or localhost: working without a
/// network, installing, staying awake.
#[must_use]
pub fn is_secure() -> bool {
    window().is_secure_context()
}

/// The build that runs, as `index.html` says it.
#[must_use]
pub fn build() -> String {
    root().and_then(|root| root.get_attribute("data-build")).unwrap_or_default()
}

/// True when the page carries a mark of this value: `data-offline="ready"`.
#[must_use]
pub fn has_mark(name: &str, value: &str) -> bool {
    root().and_then(|root| root.get_attribute(name)).is_some_and(|found| found == value)
}

/// Marks the page, for its style sheet and for `boot.js`; `None` takes the mark away.
pub fn mark(name: &str, value: Option<&str>) {
    let Some(root) = root() else { return };
    // Only a malformed name is refused, and ours are written in the program.
    let _ = match value {
        Some(value) => root.set_attribute(name, value),
        None => root.remove_attribute(name),
    };
}

/// Calls back whenever the page goes out of sight: the phone is locked, another app comes to the
/// front, the tab closes.
pub fn when_hidden(hidden: impl Fn() + Clone + 'static) {
    for event in ["visibilitychange", "pagehide"] {
        let hidden = hidden.clone();
        at_every(event, move |_: web_sys::Event| hidden());
    }
}

/// From now on what a finger is down on carries `data-pressed`, from the touch to the frame after
/// it. The browser's own mark of a pressed thing comes only with the tap, and has the whole page
/// painted between the finger and the answer.
pub fn show_presses() {
    at_every("pointerdown", |event: web_sys::Event| {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let pressed = target.and_then(|target| target.closest("[data-touch]").ok().flatten());
        if let Some(pressed) = pressed {
            let _ = pressed.set_attribute(PRESSED, "");
        }
    });
    for event in ["pointerup", "pointercancel"] {
        at_every(event, |_: web_sys::Event| after_a_frame(let_go));
    }
}

const PRESSED: &str = "data-pressed";

fn let_go() {
    let Some(document) = window().document() else { return };
    while let Ok(Some(pressed)) = document.query_selector("[data-pressed]") {
        if pressed.remove_attribute(PRESSED).is_err() {
            return;
        }
    }
}

fn after_a_frame(act: fn()) {
    let act = wasm_bindgen::closure::Closure::once_into_js(move || {
        let act = wasm_bindgen::closure::Closure::once_into_js(act);
        // A window refuses neither a frame nor a timer.
        let _ = window().set_timeout_with_callback(act.unchecked_ref());
    });
    let _ = window().request_animation_frame(act.unchecked_ref());
}

/// From now on a program that breaks says so on the page, with a way to begin again: what is
/// saved stays saved.
pub fn report_breaking() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        say_broken(&info.to_string());
    }));
}

/// Shows the note that `index.html` holds ready.
fn say_broken(cause: &str) -> Option<()> {
    let document = window().document()?;
    let note: HtmlTemplateElement = document.get_element_by_id("broken")?.dyn_into().ok()?;
    let note = note.content().clone_node_with_deep(true).ok()?;
    let note: web_sys::DocumentFragment = note.dyn_into().ok()?;
    note.query_selector("h1").ok()??.set_text_content(Some("Handwheel broke"));
    note.query_selector("pre").ok()??.set_text_content(Some(cause));
    document.body()?.prepend_with_node_1(&note).ok()
}

fn root() -> Option<Element> {
    window().document()?.document_element()
}

/// Points of the screen in a unit of the page.
#[must_use]
pub fn points() -> f64 {
    window().device_pixel_ratio()
}

/// Width and height of what is seen of the page, in its units.
#[must_use]
pub fn size() -> (f64, f64) {
    let number = |size: Option<wasm_bindgen::JsValue>| size.and_then(|s| s.as_f64());
    let (width, height) = (window().inner_width().ok(), window().inner_height().ok());
    (number(width).unwrap_or_default(), number(height).unwrap_or_default())
}

/// The address of the page as it stands, to be passed on.
#[must_use]
pub fn address() -> String {
    window().location().href().unwrap_or_default()
}

/// Opens the way to paper.
pub fn print() {
    // A browser that has none does nothing; there is no more to say than that nothing came.
    let _ = window().print();
}
