//! Orders side by side, the one to take first.

use super::{
    Batch, Fault,
    order::{self, Blocked, Order, Way},
    search::{Aim, search},
    timetable::{Figures, Timetable},
};
use crate::engine::quantity::Duration;

/// What a person wants most.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Preference {
    /// The least time in all.
    #[default]
    LeastTotal,
    /// The first finished piece as soon as possible.
    SoonestFirst,
    /// As few set-ups as possible.
    FewestSetUps,
    /// As few pieces as possible begun before one is checked.
    LeastAtRisk,
}

/// First pieces that come this share apart come at the same time: the times are guesses.
pub const SAME: f64 = 0.02;

/// An order among the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Which it is.
    pub way: Way,
    /// The order.
    pub order: Order,
    /// What comes of it.
    pub timetable: Timetable,
    /// Whether the first piece is checked before a second meets anything that can spoil it; true
    /// where that is not asked.
    pub keeps_rule: bool,
}

impl Entry {
    fn new(batch: &Batch, way: Way, order: Order) -> Self {
        let timetable = Timetable::of(batch, &order);
        let keeps_rule = !batch.check_first || timetable.figures.at_risk <= 1;
        Self { way, order, timetable, keeps_rule }
    }

    /// Its figures.
    #[must_use]
    pub fn figures(&self) -> &Figures {
        &self.timetable.figures
    }
}

/// What another order costs beside the recommended one; less than nothing where it is better.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Price {
    /// In all.
    pub total: Duration,
    /// To the first piece.
    pub first: Duration,
    /// Set-ups.
    pub set_ups: i64,
    /// Pieces at risk.
    pub at_risk: i64,
}

/// Orders side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The recommended one first; those that break the rule of the first piece come last.
    pub entries: Vec<Entry>,
    /// Simple orders that cannot be, with what they would come to if one mill could do it all.
    pub blocked: Vec<(Way, Blocked, Option<Figures>)>,
    /// Every order was looked at.
    pub exact: bool,
    /// No order takes less than this in all.
    pub bound: Duration,
}

impl Comparison {
    /// Compares the orders of a batch.
    ///
    /// # Errors
    /// Everything that cannot be planned with.
    pub fn of(batch: &Batch, preference: Preference) -> Result<Self, Vec<Fault>> {
        batch.check()?;
        let mut entries = vec![Entry::new(
            batch,
            Way::OperationByOperation,
            order::operation_by_operation(batch),
        )];
        let mut blocked = Vec::new();
        // With one operation the others are no other orders.
        if batch.operations.len() > 1 {
            match order::piece_by_piece(batch) {
                Ok(order) => entries.push(Entry::new(batch, Way::PieceByPiece, order)),
                Err(why) => {
                    blocked.push((Way::PieceByPiece, why, on_one_mill(batch)));
                }
            }
            match order::two_mills(batch) {
                Ok(order) => entries.push(Entry::new(batch, Way::TwoMills, order)),
                Err(why) => blocked.push((Way::TwoMills, why, None)),
            }
        }
        let mut exact = true;
        let mut bound = batch.least();
        let mut mixed: Vec<Entry> = Vec::new();
        let aim = match preference {
            Preference::LeastTotal | Preference::LeastAtRisk => Aim::Total,
            Preference::SoonestFirst => Aim::First,
            Preference::FewestSetUps => Aim::SetUps,
        };
        // The second is the best of those that put the fewest pieces at risk.
        for (aim, guarded) in [(aim, false), (Aim::Total, true)] {
            let found = search(batch, aim, guarded);
            exact &= found.exact;
            if (aim, batch.check_first) == (Aim::Total, guarded) {
                bound = found.bound;
            }
            mixed.push(Entry::new(batch, Way::Mixed, found.order));
        }
        sort(&mut mixed, preference);
        sort(&mut entries, preference);
        // The best of the search that is another one stands beside the simple ones.
        let is_new = |one: &Entry| !entries.iter().any(|e| is_alike(e.figures(), one.figures()));
        if let Some(best) = mixed.into_iter().find(is_new) {
            entries.push(best);
            sort(&mut entries, preference);
        }
        Ok(Self { entries, blocked, exact, bound })
    }

    /// The order to take.
    #[must_use]
    pub fn recommended(&self) -> &Entry {
        &self.entries[0]
    }

    /// The next best order, with what it costs beside the recommended one.
    #[must_use]
    pub fn second(&self) -> Option<(&Entry, Price)> {
        let best = self.recommended().figures();
        let entry = self.entries.get(1)?;
        let other = entry.figures();
        let count = |a: u32, b: u32| i64::from(a) - i64::from(b);
        let price = Price {
            total: other.total - best.total,
            first: other.first - best.first,
            set_ups: count(other.set_ups, best.set_ups),
            at_risk: count(other.at_risk, best.at_risk),
        };
        Some((entry, price))
    }
}

/// What piece by piece would come to if one mill could do every operation.
fn on_one_mill(batch: &Batch) -> Option<Figures> {
    let mut able = batch.clone();
    able.operations.iter_mut().for_each(|op| op.mills = vec![0]);
    let order = order::piece_by_piece(&able).ok()?;
    Some(Timetable::of(&able, &order).figures)
}

fn is_alike(a: &Figures, b: &Figures) -> bool {
    let near = |a: Duration, b: Duration| (a - b).abs() < Duration::second(1e-3);
    near(a.total, b.total)
        && near(a.first, b.first)
        && (a.set_ups, a.at_risk, a.switches) == (b.set_ups, b.at_risk, b.switches)
}

/// The best first. What is wanted most decides, then the total, then the first piece, then what is
/// left to think of.
fn sort(entries: &mut [Entry], preference: Preference) {
    let soonest = entries
        .iter()
        .filter(|entry| entry.keeps_rule)
        .map(|entry| entry.figures().first.to_second())
        .fold(f64::INFINITY, f64::min);
    let key = |entry: &Entry| {
        let figures = entry.figures();
        let first = figures.first.to_second();
        let wanted = match preference {
            Preference::LeastTotal => 0.0,
            Preference::SoonestFirst if first <= soonest * (1.0 + SAME) => 0.0,
            Preference::SoonestFirst => first,
            Preference::FewestSetUps => f64::from(figures.set_ups),
            Preference::LeastAtRisk => f64::from(figures.at_risk),
        };
        let rule = if entry.keeps_rule { 0.0 } else { 1.0 };
        let total = libm::round(figures.total.to_second() * 1e3);
        [rule, wanted, total, first, f64::from(figures.switches)]
    };
    entries.sort_by(|a, b| {
        let (a, b) = (key(a), key(b));
        let differs = a.iter().zip(&b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne());
        differs.unwrap_or(core::cmp::Ordering::Equal)
    });
}
