//! What was given up on the way from the wanted point to the answer.

use super::{
    asked::Divided,
    case::Case,
    curve::{HOLD_DOWN, Threshold},
    marks::{Mark, Marks},
    search::Found,
};
use crate::engine::{
    answer::{Because, Concession, Limit, Speed},
    quantity::Length,
};

/// A change under half a per cent is not one.
pub const SAME: f64 = 0.005;

/// What differs from the wanted point, in the order it was given up.
pub fn given_up(case: &Case, found: &Found, speed: &Speed) -> Vec<Concession> {
    [passes(case, found), spindle(case, found, speed), feed(case, found)]
        .into_iter()
        .flatten()
        .collect()
}

fn passes(case: &Case, found: &Found) -> Option<Concession> {
    let point = found.point;
    if point.count == 1 || case.divided == Divided::Whole {
        return None;
    }
    let because = if case.own_passes().is_some() {
        Because::Yours
    } else {
        let now = found.pass.read(point.n, point.f);
        let fewer = case.pass(point.count - 1).read(point.n, point.f);
        Because::Limit(rising(&now, &fewer).map_or(Limit::Depth, |mark| mark.limit))
    };
    Some(Concession::Passes { whole: case.whole, passes: point.count, because })
}

fn spindle(case: &Case, found: &Found, speed: &Speed) -> Option<Concession> {
    let (point, pass) = (found.point, &found.pass);
    if (speed.set / speed.wanted - 1.0).abs() <= SAME {
        return None;
    }
    let range = pass.range();
    let fastest = case.speeds(speed.wanted, range.low).first().copied();
    let because = if case.cut.own.spindle_speed.is_some() {
        Because::Yours
    } else if let Some(n) = fastest.filter(|n| point.n < *n * (1.0 - SAME)) {
        // With the chip kept full, what would a faster spindle have brought near?
        let f = range.low.max(point.f);
        let lever = pass.greatest_by_lever(n, Threshold::Over).map_or(0.0, |most| 2.0 * (f / most));
        let highest = rising(&pass.read(point.n, f), &pass.read(n, f));
        let limit = highest.filter(|mark| mark.utilisation >= lever).map(|mark| mark.limit);
        Because::Limit(limit.unwrap_or(Limit::Wheel))
    } else {
        Because::Machine
    };
    Some(Concession::Speed { wanted: speed.wanted, set: speed.set, because })
}

/// Of the limits that are higher in the second reading, the one that is highest there.
fn rising(now: &Marks, then: &Marks) -> Option<Mark> {
    then.iter()
        .filter(|mark| {
            let before = now.get(mark.limit).map_or(0.0, |m| m.utilisation);
            mark.utilisation > before * (1.0 + 1e-9)
        })
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
        .copied()
}

fn feed(case: &Case, found: &Found) -> Option<Concession> {
    let (point, target) = (found.point, found.pass.range().target());
    let asked = case.asked.chip && case.feeds.kept.is_none();
    (asked && point.f < target * (1.0 - SAME)).then(|| Concession::Feed {
        wanted: target,
        set: point.f,
        because: holds_down(found).map_or(Because::Gentle, Because::Limit),
    })
}

/// The limit whose threshold the feed stands at; else the first that turns near above it.
fn holds_down(found: &Found) -> Option<Limit> {
    let (point, pass) = (found.point, &found.pass);
    let feeds = |at: Threshold| {
        let by_limit = HOLD_DOWN.into_iter().map(move |l| (l, pass.greatest_feed(l, point.n, at)));
        let by_lever = (Limit::Wheel, pass.greatest_by_lever(point.n, at));
        by_limit.chain([by_lever]).filter_map(|(limit, feed)| Some((limit, feed?)))
    };
    let off = |f: Length| (point.f / f - 1.0).abs();
    feeds(Threshold::Over)
        .chain(feeds(Threshold::Near))
        .filter(|(_, f)| off(*f) < 2.0 * SAME)
        .min_by(|a, b| off(a.1).total_cmp(&off(b.1)))
        .or_else(|| feeds(Threshold::Near).min_by(|a, b| a.1.to_mm().total_cmp(&b.1.to_mm())))
        .map(|(limit, _)| limit)
}
