//! What comes of an order: who is where, when, and the figures to choose by.

use super::{Batch, order::Order};
use crate::engine::quantity::Duration;

/// What the person does for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Doing {
    /// Sets an operation up.
    SetUp,
    /// Walks to another mill with work.
    Walk,
    /// Loads, unloads, changes tools.
    Handle,
    /// Cuts: the spindle turns.
    Cut,
    /// Checks the first finished piece.
    Check,
}

/// A stretch of the timetable. They follow one another without a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// What is done.
    pub doing: Doing,
    /// For which operation; for a check, the one that finished the piece.
    pub operation: usize,
    /// On which piece, counted from 0; the first of the lot for a set-up and a walk.
    pub piece: u32,
    /// At which mill; for a walk the one it leads to.
    pub mill: usize,
    /// Begins at.
    pub begin: Duration,
    /// Lasts.
    pub lasts: Duration,
}

/// The figures of an order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// From the beginning to the end.
    pub total: Duration,
    /// The first piece is finished after this.
    pub first: Duration,
    /// Pieces that had met an operation that can spoil them by then, before any was checked.
    pub at_risk: u32,
    /// Of those, how many are spoiled on average; `None` where a share is not known.
    pub spoiled: Option<f64>,
    /// How often something is set up.
    pub set_ups: u32,
    /// How often the person has to think of another operation.
    pub switches: u32,
    /// The part of the total that goes into setting up.
    pub setting_up: Duration,
    /// Into walking.
    pub walking: Duration,
    /// Into loading and tools.
    pub handling: Duration,
    /// Into cutting.
    pub cutting: Duration,
    /// Into the check.
    pub checking: Duration,
}

/// An order in time.
#[derive(Clone, Debug, PartialEq)]
pub struct Timetable {
    /// Its stretches, without those that take no time.
    pub spans: Vec<Span>,
    /// Its figures.
    pub figures: Figures,
}

/// Walks through an order.
struct Walker<'a> {
    batch: &'a Batch,
    spans: Vec<Span>,
    figures: Figures,
    /// What stands on each stand of each mill.
    standing: Vec<Vec<Option<usize>>>,
    /// Where each piece is.
    at: Vec<Option<usize>>,
    /// Operations done on each piece, one bit each.
    done: Vec<u32>,
    checked: bool,
}

impl Walker<'_> {
    fn spend(&mut self, doing: Doing, operation: usize, piece: u32, mill: usize, lasts: Duration) {
        let begin = self.figures.total;
        let part = match doing {
            Doing::SetUp => &mut self.figures.setting_up,
            Doing::Walk => &mut self.figures.walking,
            Doing::Handle => &mut self.figures.handling,
            Doing::Cut => &mut self.figures.cutting,
            Doing::Check => &mut self.figures.checking,
        };
        *part += lasts;
        self.figures.total += lasts;
        if lasts > Duration::ZERO {
            self.spans.push(Span { doing, operation, piece, mill, begin, lasts });
        }
    }

    /// The first piece is finished: what has been risked until now, and its check.
    fn first_finished(&mut self, operation: usize, piece: u32, mill: usize) {
        self.checked = true;
        self.figures.first = self.figures.total;
        let mut spoiled = Some(0.0);
        for done in &self.done {
            let met =
                self.batch.operations.iter().enumerate().filter(|(o, _)| done & (1 << o) != 0);
            let mut risky = false;
            let mut good = Some(1.0);
            for (_, operation) in met {
                risky |= operation.can_spoil();
                good = good.zip(operation.risk).map(|(good, risk)| good * (1.0 - risk));
            }
            self.figures.at_risk += u32::from(risky);
            spoiled = spoiled.zip(good).map(|(sum, good)| sum + 1.0 - good);
        }
        self.figures.spoiled = spoiled;
        self.spend(Doing::Check, operation, piece, mill, self.batch.check_time());
    }
}

impl Timetable {
    /// The order in time. The batch has been checked, and the order is one of it.
    #[must_use]
    pub fn of(batch: &Batch, order: &Order) -> Self {
        let count = batch.pieces as usize;
        let mut walker = Walker {
            batch,
            spans: Vec::new(),
            figures: Figures {
                total: Duration::ZERO,
                first: Duration::ZERO,
                at_risk: 0,
                spoiled: None,
                set_ups: 0,
                switches: 0,
                setting_up: Duration::ZERO,
                walking: Duration::ZERO,
                handling: Duration::ZERO,
                cutting: Duration::ZERO,
                checking: Duration::ZERO,
            },
            standing: batch.mills.iter().map(|mill| vec![None; mill.stands]).collect(),
            at: vec![batch.blanks_at; count],
            done: vec![0; count],
            checked: false,
        };
        let all = (1_u32 << batch.operations.len()) - 1;
        for (place, run) in order.runs.iter().enumerate() {
            let operation = &batch.operations[run.operation];
            let stand = order.stands[run.operation];
            let first = run.pieces.0;
            walker.figures.switches += u32::from(place > 0);
            let comes_from =
                |piece: u32| walker.at[piece as usize].is_some_and(|m| m != stand.mill);
            let is_carried = (run.pieces.0..run.pieces.1).any(comes_from);
            if is_carried {
                walker.spend(Doing::Walk, run.operation, first, stand.mill, batch.walk);
            }
            let stands_there = &mut walker.standing[stand.mill][stand.stand];
            if order.anew || *stands_there != Some(run.operation) {
                *stands_there = Some(run.operation);
                walker.figures.set_ups += 1;
                walker.spend(Doing::SetUp, run.operation, first, stand.mill, operation.set_up);
            }
            for piece in run.pieces.0..run.pieces.1 {
                let handling = operation.load + operation.tool_change;
                walker.spend(Doing::Handle, run.operation, piece, stand.mill, handling);
                walker.spend(Doing::Cut, run.operation, piece, stand.mill, operation.cut);
                walker.at[piece as usize] = Some(stand.mill);
                walker.done[piece as usize] |= 1 << run.operation;
                if walker.done[piece as usize] == all && !walker.checked {
                    walker.first_finished(run.operation, piece, stand.mill);
                }
            }
        }
        Self { spans: walker.spans, figures: walker.figures }
    }
}
