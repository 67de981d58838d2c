//! Batches: published times, the numbers of a practised job, and the properties of every plan.
#![cfg(not(target_arch = "wasm32"))]

mod bad_input;
mod brute;
mod progress;
mod properties;
mod scenario;
mod which;

#[path = "../mills/mod.rs"]
mod mills;

use handwheel::engine::{
    plan::{Batch, Mill, Operation},
    quantity::Duration,
};

/// An operation after the one before it, on some mills: minutes to set up, seconds in the cut.
pub fn operation(place: usize, mills: &[usize], set_up: f64, cut: f64) -> Operation {
    Operation {
        name: format!("operation {}", place + 1),
        mills: mills.to_vec(),
        set_up: Duration::minute(set_up),
        cut: Duration::second(cut),
        load: Duration::ZERO,
        tool_change: Duration::ZERO,
        after: place.checked_sub(1).into_iter().collect(),
        risk: None,
    }
}

/// The eight brass blanks: two operations, two mills that can do both.
pub fn blanks() -> Batch {
    Batch {
        pieces: 8,
        operations: vec![operation(0, &[0, 1], 12.0, 130.0), operation(1, &[0, 1], 8.0, 150.0)],
        mills: vec![Mill { stands: 1 }; 2],
        walk: Duration::second(15.0),
        check: Duration::ZERO,
        check_first: true,
        blanks_at: None,
    }
}
