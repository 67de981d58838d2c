//! **Handwheel**, the pocket companion of a manual milling machine.
//!
//! Four layers, each using only those before it. [`engine`] answers: pure functions over typed
//! quantities, with no screen, storage or clock. [`shop`] is what a person owns and has chosen, as
//! data: machines, cutters, favorites, the one saved document. `browser` is the only place that
//! touches the browser, and `ui` shows it all; both exist only with the cargo feature `ui`.

pub mod engine;
pub mod shop;

#[cfg(feature = "ui")]
pub mod browser;
#[cfg(feature = "ui")]
pub mod ui;
