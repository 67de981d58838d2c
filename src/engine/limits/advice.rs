//! Advice: what would relieve a limit, and what mends a set-up that cannot be.

use super::search::Found;
use super::{
    Offers,
    case::{Case, Divided},
    search::{Blocked, Point, search},
};
use crate::engine::{
    answer::{Change, Limit, Relief, Trouble},
    cutters::{Cutter, ToolMaterial},
    machine::Machine,
    quantity::{Length, SpindleSpeed},
    question::{Cut, Feeding, OnTheMill, Operation},
    stock::Edge,
};

/// Shares under which a change is not worth naming.
const WORTH: f64 = 0.99;

/// A question with one change made; `None` where the change cannot be made.
fn changed<'a>(
    mill: &OnTheMill<'a>,
    cut: &Cut,
    change: Change,
    offers: &Offers<'a>,
) -> Option<(OnTheMill<'a>, Cut)> {
    let (mut mill, mut cut) = (mill.clone(), *cut);
    match change {
        Change::Width(w) => match &mut cut.operation {
            Operation::Side { width, .. } | Operation::Bore { width } => *width = w,
            Operation::Face { width } => *width = w,
            _ => return None,
        },
        Change::Stickout(l) => {
            if l < mill.cutter.flute_length || !l.is_positive() {
                return None;
            }
            mill.cutter.stickout = l;
        }
        Change::Teeth(z) => mill.cutter.teeth = z,
        Change::Runout(tir) => mill.runout = Some(tir),
        Change::Conventional => match &mut cut.operation {
            Operation::Side { feeding, .. } => *feeding = Feeding::Conventional,
            _ => return None,
        },
        Change::Pilot(d) => match &mut cut.operation {
            Operation::Drill { pilot, .. } if pilot.is_none_or(|p| p < d) => *pilot = Some(d),
            _ => return None,
        },
        Change::Carbide => {
            if mill.cutter.material.edge() == Edge::Carbide {
                return None;
            }
            mill.cutter.material = ToolMaterial::Carbide;
        }
        Change::OtherCutter(i) => mill.cutter = *offers.cutters.get(i)?,
        Change::OtherMachine(i) => mill.machine = offers.machines.get(i)?,
        Change::Depth(_) => cut.own.passes = None,
        Change::Feed(_) => {
            cut.own.feed = None;
            cut.own.feed_as_set = None;
        }
        Change::Speed(_) => cut.own.spindle_speed = None,
    }
    Some((mill, cut))
}

/// The point a search finds after a change, if that is feasible.
fn after<'a>(
    mill: &OnTheMill<'a>,
    cut: &Cut,
    change: Change,
    offers: &Offers<'a>,
) -> Option<Point> {
    let (mill, cut) = changed(mill, cut, change, offers)?;
    let case = Case::new(&mill, &cut).ok()?;
    let found = search(&case);
    found.blocked.is_none().then_some(found.point)
}

/// Why nothing can be proposed, with the first change that mends it.
pub fn trouble(case: &Case, found: &Found, blocked: Blocked, offers: &Offers) -> Trouble {
    let (mill, cut) = (case.mill, case.cut);
    if let Some(trouble) = yours(case, found, offers) {
        return trouble;
    }
    let d = mill.cutter.diameter;
    let mut tries: Vec<Change> = Vec::new();
    let limits: Vec<Limit> = match blocked {
        Blocked::Alone(limit) => vec![limit],
        Blocked::Between { at_least, at_most } => vec![at_most.0, at_least.0],
    };
    for limit in &limits {
        match limit {
            Limit::Climb => tries.push(Change::Conventional),
            Limit::Thrust => {
                tries.extend([0.2, 0.25, 1.0 / 3.0, 0.5].map(|share| Change::Pilot(d * share)));
            }
            Limit::Speed => tries.push(Change::Carbide),
            _ => {}
        }
    }
    match cut.operation {
        Operation::Side { width, .. } | Operation::Bore { width } => {
            tries.push(Change::Width(width / 2.0));
        }
        Operation::Face { width } if width <= d => tries.push(Change::Width(width / 2.0)),
        _ => {}
    }
    let longest = mill.cutter.flute_length;
    tries.push(Change::Stickout((mill.cutter.stickout - d).max(longest)));
    if limits.contains(&Limit::Runout) || limits.contains(&Limit::Breakage) {
        tries.extend([0.5, 0.25].map(|share| Change::Runout(case.runout * share)));
    }
    if case.teeth > 2 {
        tries.push(Change::Teeth(case.teeth / 2));
    }
    // A hole wants its own size, a cut along an edge only its shape.
    let makes_it = |c: &Cutter| case.asked.wheel || (c.diameter / d - 1.0).abs() < 0.01;
    let other = |c: &Cutter| *c != mill.cutter && makes_it(c);
    let cutters = offers.cutters.iter().enumerate().filter(|(_, c)| other(c));
    tries.extend(cutters.map(|(i, _)| Change::OtherCutter(i)));
    let here = |m: &Machine| m == mill.machine;
    let machines = offers.machines.iter().enumerate().filter(|(_, m)| !here(m));
    tries.extend(machines.map(|(i, _)| Change::OtherMachine(i)));

    let mend = tries.into_iter().find(|&change| after(mill, cut, change, offers).is_some());
    match blocked {
        Blocked::Alone(limit) => Trouble::Alone { limit, mend },
        Blocked::Between { at_least, at_most } => Trouble::Between { at_least, at_most, mend },
    }
}

/// A number of the person's own stands in the way when it works without it.
fn yours(case: &Case, found: &Found, offers: &Offers) -> Option<Trouble> {
    let (mill, cut) = (case.mill, case.cut);
    let own = &cut.own;
    let limit = found.pass.read(found.point.n, found.point.f).binding()?;
    let mut tries: Vec<Change> = Vec::new();
    if own.spindle_speed.is_some() {
        tries.push(Change::Speed(SpindleSpeed::ZERO));
    }
    if own.feed.is_some() || own.feed_as_set.is_some() {
        tries.push(Change::Feed(Length::ZERO));
    }
    if own.passes.is_some() {
        tries.push(Change::Depth(Length::ZERO));
    }
    for change in tries {
        if let Some(point) = after(mill, cut, change, offers) {
            let mend = Some(match change {
                Change::Speed(_) => Change::Speed(point.n),
                Change::Feed(_) => Change::Feed(point.f),
                _ => Change::Depth(case.whole / f64::from(point.count)),
            });
            return Some(Trouble::Yours { limit, mend });
        }
    }
    None
}

/// The one or two changes that lower the greatest utilisation most, all else kept.
pub fn relief(case: &Case, found: &Found) -> Vec<Relief> {
    let (mill, cut) = (case.mill, case.cut);
    let point = found.point;
    let before = found.pass.read(point.n, point.f).worst();
    let d = mill.cutter.diameter;
    let range = found.pass.range();
    let mut tries: Vec<Change> = Vec::new();
    if case.divided != Divided::Whole {
        tries.push(Change::Depth(found.pass.each / 2.0));
    }
    match cut.operation {
        Operation::Side { width, .. } => tries.push(Change::Width(width / 2.0)),
        Operation::Face { width } if width <= d => tries.push(Change::Width(width / 2.0)),
        _ => {}
    }
    if case.asked.bend {
        tries.push(Change::Stickout(mill.cutter.stickout - d * 0.5));
    }
    if range.low < point.f * WORTH {
        tries.push(Change::Feed(range.low));
    }
    let speeds = case.speeds(point.n, range.low);
    if let Some(slower) = speeds.into_iter().find(|n| *n < point.n * WORTH) {
        tries.push(Change::Speed(slower));
    }
    if case.asked.breakage && case.teeth > 2 {
        tries.push(Change::Teeth(case.teeth / 2));
    }
    if case.asked.breakage {
        tries.push(Change::Runout(case.runout / 2.0));
    }
    let mut reliefs: Vec<Relief> = tries
        .into_iter()
        .filter_map(|change| {
            let utilisation = match change {
                Change::Depth(_) => case.pass(2 * point.count).read(point.n, point.f).worst(),
                Change::Feed(f) => found.pass.read(point.n, f).worst(),
                Change::Speed(n) => found.pass.read(n, point.f).worst(),
                _ => {
                    let (mill, cut) = changed(mill, cut, change, &Offers::default())?;
                    let case = Case::new(&mill, &cut).ok()?;
                    case.pass(point.count).read(point.n, point.f).worst()
                }
            };
            (utilisation < before * WORTH).then_some(Relief { change, utilisation })
        })
        .collect();
    reliefs.sort_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    reliefs.truncate(2);
    reliefs
}
