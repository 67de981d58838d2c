//! A run as it is ticked off: what is done, what is next, and when it will end.
//!
//! Measured times take over from the guesses. The caller says what time it is.

use super::{
    Batch,
    order::Order,
    timetable::{Doing, Timetable},
};
use crate::engine::quantity::Duration;

/// One thing to tick off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// A set-up, the check, or a piece ([`Doing::Cut`]).
    pub doing: Doing,
    /// Of which operation.
    pub operation: usize,
    /// Which piece, counted from 0; the first of the lot for a set-up.
    pub piece: u32,
    /// At which mill.
    pub mill: usize,
    /// The walk that leads to it.
    pub walk: Duration,
    /// How long it is guessed to take, without the walk.
    pub guess: Duration,
}

/// The steps of an order.
#[must_use]
pub fn steps(batch: &Batch, order: &Order) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    let mut walk = Duration::ZERO;
    for span in &Timetable::of(&with_every_step(batch), order).spans {
        let operation = &batch.operations[span.operation];
        let guess = match span.doing {
            Doing::Walk => {
                walk += batch.walk;
                continue;
            }
            Doing::Handle => continue,
            Doing::SetUp => operation.set_up,
            Doing::Cut => operation.each(),
            Doing::Check => batch.check,
        };
        let (doing, operation, piece, mill) = (span.doing, span.operation, span.piece, span.mill);
        steps.push(Step { doing, operation, piece, mill, walk, guess });
        walk = Duration::ZERO;
    }
    steps
}

/// The same batch with a time for everything, so that nothing falls out of its timetable.
fn with_every_step(batch: &Batch) -> Batch {
    let mut batch = batch.clone();
    let some = |time: Duration| time.max(Duration::second(1.0));
    for operation in &mut batch.operations {
        operation.set_up = some(operation.set_up);
        operation.cut = some(operation.cut);
    }
    batch.check = some(batch.check);
    batch
}

/// A step that is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tick {
    /// Place of the step.
    pub step: usize,
    /// When, in seconds on the clock the run began by.
    pub at: i64,
}

/// Where a run stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Progress {
    /// The step that comes next; `None` at the end.
    pub next: Option<usize>,
    /// For each operation what a piece has really taken; `None` where none was measured.
    pub measured: Vec<Option<Duration>>,
    /// Pieces measured for each.
    pub counted: Vec<u32>,
    /// From now to the end.
    pub left: Duration,
    /// From the beginning to now, or to the last tick of a finished run.
    pub gone: Duration,
}

impl Progress {
    /// Where a run stands that began at a time of a clock, by what has been ticked and that clock.
    ///
    /// A step counts as measured where the one before it was ticked just before; a walk in between
    /// is taken off. The middle of several counts, so that a rest does not.
    #[must_use]
    pub fn of(steps: &[Step], operations: usize, began: i64, ticks: &[Tick], now: i64) -> Self {
        let mut in_time: Vec<Tick> =
            ticks.iter().copied().filter(|tick| tick.step < steps.len()).collect();
        in_time.sort_by_key(|tick| (tick.at, tick.step));
        let mut times: Vec<Vec<f64>> = vec![Vec::new(); operations];
        for (place, tick) in in_time.iter().enumerate() {
            let step = &steps[tick.step];
            let before = place.checked_sub(1).map(|before| in_time[before]);
            let follows = match before {
                None => tick.step == 0,
                Some(before) => before.step + 1 == tick.step,
            };
            let since = before.map_or(began, |before| before.at);
            let taken = (tick.at - since) as f64 - step.walk.to_second();
            if step.doing == Doing::Cut && follows && taken > 0.0 {
                times[step.operation].push(taken);
            }
        }
        let measured: Vec<Option<Duration>> = times
            .iter_mut()
            .map(|times| {
                times.sort_by(f64::total_cmp);
                times.get(times.len() / 2).map(|middle| Duration::second(*middle))
            })
            .collect();
        let counted = times.iter().map(|times| times.len() as u32).collect();
        let is_done = |place: usize| ticks.iter().any(|tick| tick.step == place);
        let expected = |step: &Step| {
            let own = measured.get(step.operation).copied().flatten();
            match step.doing {
                Doing::Cut => own.unwrap_or(step.guess),
                _ => step.guess,
            }
        };
        let next = (0..steps.len()).find(|place| !is_done(*place));
        let last = in_time.last().map_or(began, |tick| tick.at);
        let mut left = Duration::ZERO;
        for (place, step) in steps.iter().enumerate().filter(|(place, _)| !is_done(*place)) {
            let mut lasts = step.walk + expected(step);
            if Some(place) == next {
                // What has gone by of the step under way is behind; a step that takes longer than
                // expected is taken to end now.
                let gone = Duration::second((now - last).max(0) as f64);
                lasts = (lasts - gone).max(Duration::ZERO);
            }
            left += lasts;
        }
        let until = if next.is_none() { last } else { now.max(last) };
        let gone = Duration::second((until - began).max(0) as f64);
        Self { next, measured, counted, left, gone }
    }
}
