//! Limits: one per cause, the search, and the operating window.

use crate::engine::{
    answer::{Answer, Window},
    question::{Cut, InputError, OnTheMill},
};

/// Answers a question: the search for speed, passes and feed, and every limit read off.
///
/// # Errors
/// Every entry that cannot be worked with, each at its field.
pub fn answer(mill: &OnTheMill, cut: &Cut) -> Result<Answer, Vec<InputError>> {
    let _ = (mill, cut);
    Err(Vec::new())
}

/// The operating window around an answer.
#[must_use]
pub fn window(mill: &OnTheMill, cut: &Cut, answer: &Answer) -> Option<Window> {
    let _ = (mill, cut, answer);
    None
}
