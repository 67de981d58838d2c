//! What stands in the way where nothing can be proposed.

use super::{
    aim::{Point, Range},
    case::Case,
    pass::Pass,
    threshold::TABLE,
};
use crate::engine::{
    answer::Limit,
    quantity::{Length, SpindleSpeed},
};

/// Why nothing can be proposed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Blocked {
    /// Over at every speed and depth.
    Alone(Limit),
    /// Feed wanted at least, feed allowed at most.
    Between { at_least: (Limit, Length), at_most: (Limit, Length) },
}

/// What stood in the way, over all speeds and depths.
#[derive(Default)]
pub struct Blocks {
    /// Constant limits that were over every time so far.
    always: Option<LimitSet>,
    first: Option<Limit>,
    pair: Option<Pinch>,
}

/// A point where the feed wanted at least is above the feed allowed at most.
pub struct Pinch {
    pub count: u32,
    pub n: SpindleSpeed,
    pub at_least: (Limit, Length),
    pub at_most: (Limit, Length),
}

impl Pinch {
    /// How many times the feed wanted is the one allowed.
    pub fn ratio(&self) -> f64 {
        let most = self.at_most.1;
        if most > Length::ZERO { self.at_least.1 / most } else { f64::INFINITY }
    }

    /// Where neither limit is far over.
    pub fn middle(&self) -> Length {
        if self.at_most.1 > Length::ZERO {
            self.at_least.1 * (1.0 / self.ratio().sqrt())
        } else {
            self.at_least.1
        }
    }
}

impl Blocks {
    /// These are over at a point whatever the feed.
    pub fn constant(&mut self, over: LimitSet) {
        self.first = self.first.or(over.first());
        self.always = Some(self.always.map_or(over, |always| always.both(over)));
    }

    /// No feed is left at a point.
    pub fn between(
        &mut self,
        pass: &Pass,
        n: SpindleSpeed,
        at_least: (Limit, Length),
        at_most: (Limit, Length),
    ) {
        let pinch = Pinch { count: pass.count, n, at_least, at_most };
        if self.pair.as_ref().is_none_or(|pair| pinch.ratio() < pair.ratio()) {
            self.pair = Some(pinch);
        }
    }

    /// The least bad point, and the limit or the pair that leaves nothing better.
    pub fn named(&self, case: &Case) -> (Point, Blocked) {
        let Some(pinch) = &self.pair else {
            let always = self.always.and_then(LimitSet::first);
            let limit = always.or(self.first).unwrap_or(Limit::Speed);
            return (least_bad(case), Blocked::Alone(limit));
        };
        let &Pinch { at_least, at_most, .. } = pinch;
        // A feed that is kept has no other limit to leave room for.
        let alone = at_most.1 <= Length::ZERO || at_most.0 == at_least.0;
        let blocked =
            if alone { Blocked::Alone(at_most.0) } else { Blocked::Between { at_least, at_most } };
        let f = case.feeds.kept.unwrap_or_else(|| pinch.middle());
        (Point { count: pinch.count, n: pinch.n, f, tier: 3, comfort: 1 }, blocked)
    }
}

/// The point whose worst limit is least bad where some are over whatever the feed, to show under
/// "Do not cut like this".
fn least_bad(case: &Case) -> Point {
    let f = |range: Range| case.feeds.kept.unwrap_or(range.low);
    let first = case.pass(*case.counts().start());
    let none = Point { count: 1, n: first.wanted(), f: f(first.range()), tier: 3, comfort: 1 };
    let mut best = (none, f64::INFINITY);
    for count in case.counts() {
        let pass = case.pass(count);
        let range = pass.range();
        for n in case.speeds(pass.wanted(), range.low) {
            let point = Point { count, n, f: f(range), ..none };
            let worst = pass.read(n, point.f).worst();
            if worst < best.1 * (1.0 - 1e-9) {
                best = (point, worst);
            }
        }
    }
    best.0
}

/// A set of limits.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LimitSet(u16);

impl LimitSet {
    pub fn from(limits: impl Iterator<Item = Limit>) -> Self {
        Self(limits.fold(0, |set, limit| set | 1 << limit as u16))
    }
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }
    fn both(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
    /// The first in the order of the table.
    fn first(self) -> Option<Limit> {
        TABLE.iter().map(|row| row.limit).find(|l| self.0 & 1 << *l as u16 != 0)
    }
}
