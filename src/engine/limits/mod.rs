//! Limits: one for each cause, the search among them, and the operating window.
//!
//! [`threshold`] holds the one table of limits. A question is prepared as a `case`; a `pass` of it
//! says what a depth asks of cutter and machine, `marks` reads every limit off, `curve` turns each
//! round to the feed at which it is over. `search` walks passes and speeds; `compose` tells what it
//! found as an [`Answer`], with its `working`, its cautions and concessions, and `advice` for what
//! would relieve it.

mod advice;
mod aim;
mod asked;
mod blocked;
#[cfg(test)]
mod brute;
mod case;
mod caution;
mod check;
mod compose;
mod concession;
mod curve;
mod marks;
mod pass;
mod search;
mod speeds;
mod teeth;
pub mod threshold;
mod wanted;
mod window;
mod working;

use crate::engine::{
    answer::{Answer, Window},
    cutters::Cutter,
    machine::Machine,
    question::{Cut, InputError, OnTheMill},
};

/// What else the shop has, for the case that this set-up cannot do it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Offers<'a> {
    /// Other cutters in the drawer.
    pub cutters: &'a [Cutter],
    /// Other machines.
    pub machines: &'a [Machine],
}

/// Answers a question: the search for speed, passes and feed, and every limit read off.
///
/// # Errors
/// Every entry that cannot be worked with, each at its field.
pub fn answer(mill: &OnTheMill, cut: &Cut) -> Result<Answer, Vec<InputError>> {
    answer_with(mill, cut, &Offers::default())
}

/// Answers a question, and where nothing is feasible looks among what else the shop has.
///
/// # Errors
/// Every entry that cannot be worked with, each at its field.
pub fn answer_with(
    mill: &OnTheMill,
    cut: &Cut,
    offers: &Offers,
) -> Result<Answer, Vec<InputError>> {
    let case = case::Case::new(mill, cut)?;
    let found = search::search(&case);
    Ok(compose::answer(&case, &found, offers))
}

/// The operating window around an answer: speed across, feed up, each limit a curve.
///
/// `None` where only the speed is asked, or where the question itself cannot be worked with.
#[must_use]
pub fn window(mill: &OnTheMill, cut: &Cut, answer: &Answer) -> Option<Window> {
    let case = case::Case::new(mill, cut).ok()?;
    window::draw(&case, answer)
}
