//! The shop: what a person owns and has chosen, as data. No screen, no browser.

pub mod answers;
pub mod check_form;
pub mod checks;
pub mod converter;
pub mod cut_log;
pub mod cuts;
pub mod document;
pub mod drills;
pub mod gauge;
pub mod holes;
pub mod jobs;
pub mod link;
pub mod machines;
pub mod measured;
pub mod pace;
mod query;
pub mod reading;
pub mod recent;
pub mod restore;
pub mod sample;
pub mod taps;
pub mod threads;
pub mod typed;
pub mod usual;
pub mod word;
