//! The screens.

pub mod addressed;
pub mod app;
pub mod components;
pub mod keep;
pub mod pages;
pub mod pieces;
pub mod sketch;
pub mod state;
pub mod words;

pub use app::Handwheel;
