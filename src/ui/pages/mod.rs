//! The pages, a route each.

pub mod about;
pub mod check;
pub mod choosing;
pub mod convert;
pub mod cut;
pub mod cutter;
pub mod drills;
pub mod emergency;
pub mod favorites;
pub mod home;
pub mod jobs;
pub mod layout;
pub mod machine;
pub mod not_found;
pub mod notes;
pub mod pace;
pub mod plan;
pub mod settings;
pub mod setup;
pub mod shop;
pub mod take;
pub mod taps;
pub mod threads;
pub mod welcome;
pub mod which;
pub mod wires;
