//! What was given up on the way from the wanted point to the answer.

use super::{
    case::{Case, Divided},
    curve::{HOLD_DOWN, Threshold},
    marks::Marks,
    search::Found,
};
use crate::engine::answer::{Because, Concession, Limit, Speed};

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
    let because = if case.cut.own.passes.is_some() {
        Because::Yours
    } else {
        // One pass fewer: what would not have been comfortable?
        let marks = case.pass(point.count - 1).read(point.n, point.f);
        Because::Limit(worst_of(&marks).unwrap_or(Limit::Depth))
    };
    Some(Concession::Passes { whole: case.whole, passes: point.count, because })
}

fn spindle(case: &Case, found: &Found, speed: &Speed) -> Option<Concession> {
    let (point, range) = (found.point, found.pass.range());
    if (speed.set / speed.wanted - 1.0).abs() <= SAME {
        return None;
    }
    let fastest = case.speeds(speed.wanted, range.low).first().copied();
    let because = if case.cut.own.spindle_speed.is_some() {
        Because::Yours
    } else if let Some(n) = fastest.filter(|n| point.n < *n * (1.0 - SAME)) {
        let marks = found.pass.read(n, range.low.max(point.f));
        Because::Limit(worst_of(&marks).unwrap_or(Limit::Wheel))
    } else {
        Because::Machine
    };
    Some(Concession::Speed { wanted: speed.wanted, set: speed.set, because })
}

fn feed(case: &Case, found: &Found) -> Option<Concession> {
    let (point, pass, range) = (found.point, &found.pass, found.pass.range());
    let target = range.target();
    let asked = case.asked.chip && case.feeds.kept.is_none();
    if !asked || point.f >= target * (1.0 - SAME) {
        return None;
    }
    let eased = pass.aim(range, point.n);
    let because = if eased < target * (1.0 - SAME) && point.f >= eased * (1.0 - SAME) {
        Because::Limit(Limit::Wheel)
    } else {
        let at = if point.f < range.low { Threshold::Over } else { Threshold::Near };
        HOLD_DOWN
            .into_iter()
            .filter_map(|limit| Some((limit, pass.greatest_feed(limit, point.n, at)?)))
            .min_by(|a, b| a.1.to_mm().total_cmp(&b.1.to_mm()))
            .map_or(Because::Gentle, |(limit, _)| Because::Limit(limit))
    };
    Some(Concession::Feed { wanted: target, set: point.f, because })
}

fn worst_of(marks: &Marks) -> Option<Limit> {
    marks
        .iter()
        .filter(|m| m.limit != Limit::Runout)
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
        .map(|m| m.limit)
}
