//! Advice: what would relieve a limit, and what mends a set-up that cannot be.

use super::{
    Offers,
    aim::Point,
    asked::Divided,
    blocked::Blocked,
    case::Case,
    search::{Found, search},
};
use crate::engine::{
    answer::{Change, Limit, Relief, Trouble},
    cutters::{Cutter, ToolMaterial},
    cutting::handwheel,
    quantity::SpindleSpeed,
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
            let cutter = &mill.cutter;
            let gripped = cutter.kind.has_flutes() && l < cutter.flute_length;
            if gripped || l >= cutter.stickout || !l.is_positive() {
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
    if let Some(trouble) = yours(case, found, offers) {
        return trouble;
    }
    let limits: Vec<Limit> = match blocked {
        Blocked::Alone(limit) => vec![limit],
        Blocked::Between { at_least, at_most } => vec![at_most.0, at_least.0],
    };
    let mend = limits
        .iter()
        .flat_map(|limit| mends_of(case, *limit))
        .chain(mends_of_any(case))
        .chain(other_things(case, offers))
        .find(|&change| after(case.mill, case.cut, change, offers).is_some());
    match blocked {
        Blocked::Alone(limit) => Trouble::Alone { limit, mend },
        Blocked::Between { at_least, at_most } => Trouble::Between { at_least, at_most, mend },
    }
}

/// What mends one limit, the mildest first.
fn mends_of(case: &Case, limit: Limit) -> Vec<Change> {
    let d = case.diameter;
    let pilots = || [0.2, 0.25, 1.0 / 3.0, 0.5, 0.75].map(|share| Change::Pilot(d * share));
    match (limit, case.cut.operation) {
        (Limit::Climb, _) => vec![Change::Conventional],
        (Limit::Thrust | Limit::Power, Operation::Drill { .. }) => pilots().to_vec(),
        (Limit::Speed, _) => vec![Change::Carbide],
        (Limit::Runout | Limit::Breakage, _) => {
            [0.5, 0.25].map(|share| Change::Runout(case.runout * share)).to_vec()
        }
        // In so narrow a cut no feed gives a chip worth the name.
        (Limit::Rubbing, Operation::Side { width, .. }) => [2.0, 4.0]
            .map(|times| width * times)
            .into_iter()
            .filter(|w| *w <= d / 2.0)
            .map(Change::Width)
            .collect(),
        _ => Vec::new(),
    }
}

/// What helps against most limits, in the order it is given up.
fn mends_of_any(case: &Case) -> Vec<Change> {
    let mut tries = Vec::new();
    match case.cut.operation {
        Operation::Side { width, .. } => tries.push(Change::Width(width / 2.0)),
        Operation::Face { width } if width <= case.diameter => {
            tries.push(Change::Width(width / 2.0));
        }
        _ => {}
    }
    let cutter = &case.mill.cutter;
    if case.asked.bend {
        let least = if cutter.kind.has_flutes() { cutter.flute_length } else { case.diameter };
        tries.push(Change::Stickout((cutter.stickout - case.diameter).max(least)));
    }
    if case.teeth > 2 && case.asked.wheel {
        tries.push(Change::Teeth(case.teeth / 2));
    }
    tries
}

/// The other cutters and machines of the shop.
fn other_things(case: &Case, offers: &Offers) -> Vec<Change> {
    let mill = case.mill;
    // A hole wants its own size, a cut along an edge only its shape.
    let makes_it =
        |c: &Cutter| case.asked.wheel || (c.diameter / mill.cutter.diameter - 1.0).abs() < 0.01;
    let cutters = offers.cutters.iter().enumerate();
    let machines = offers.machines.iter().enumerate();
    cutters
        .filter(|(_, c)| **c != mill.cutter && makes_it(c))
        .map(|(i, _)| Change::OtherCutter(i))
        .chain(machines.filter(|(_, m)| *m != mill.machine).map(|(i, _)| Change::OtherMachine(i)))
        .collect()
}

/// A number of the person's own stands in the way when it works without it; several do when it
/// works without all of them.
fn yours(case: &Case, found: &Found, offers: &Offers) -> Option<Trouble> {
    let (mill, own) = (case.mill, &case.cut.own);
    let limit = found.pass.read(found.point.n, found.point.f).stopping(case)?;
    let typed = [
        own.spindle_speed.map(Change::Speed),
        own.feed.or(own.feed_as_set).map(Change::Feed),
        case.own_passes().map(|count| Change::Depth(case.whole / f64::from(count))),
    ];
    for change in typed.into_iter().flatten() {
        let Some(point) = after(mill, case.cut, change, offers) else { continue };
        let mend = match change {
            Change::Speed(_) => Change::Speed(point.n),
            Change::Feed(_) => Change::Feed(point.f),
            _ => Change::Depth(case.whole / f64::from(point.count)),
        };
        return Some(Trouble::Yours { limit, mend: Some(mend) });
    }
    let free = typed.into_iter().flatten().try_fold(*case.cut, |cut, change| {
        changed(mill, &cut, change, offers).map(|(_, cut)| cut)
    })?;
    let several = typed.iter().flatten().count() > 1 && works(mill, &free);
    several.then_some(Trouble::Yours { limit, mend: None })
}

fn works(mill: &OnTheMill, cut: &Cut) -> bool {
    Case::new(mill, cut).is_ok_and(|case| search(&case).blocked.is_none())
}

/// The one or two changes that lower the greatest utilisation most, all else kept.
pub fn relief(case: &Case, found: &Found) -> Vec<Relief> {
    let before = found.pass.read(found.point.n, found.point.f).worst();
    let mut reliefs: Vec<Relief> = reliefs_to_try(case, found)
        .into_iter()
        .filter_map(|change| {
            let utilisation = worst_after(case, found, change)?;
            (utilisation < before * WORTH).then_some(Relief { change, utilisation })
        })
        .collect();
    reliefs.sort_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    reliefs.truncate(2);
    reliefs
}

/// In the order of giving up, which decides between equals.
fn reliefs_to_try(case: &Case, found: &Found) -> Vec<Change> {
    let (point, cutter) = (found.point, &case.mill.cutter);
    let mut tries: Vec<Change> = Vec::new();
    if case.climb {
        tries.push(Change::Conventional);
    }
    if case.divided != Divided::Whole {
        tries.push(Change::Depth(found.pass.each / 2.0));
    }
    match case.cut.operation {
        Operation::Side { width, .. } => tries.push(Change::Width(width / 2.0)),
        Operation::Face { width } if width <= case.diameter => {
            tries.push(Change::Width(width / 2.0));
        }
        _ => {}
    }
    if case.asked.bend {
        tries.push(Change::Stickout(cutter.stickout - case.diameter * 0.5));
    }
    if let Operation::Drill { pilot: None, .. } = case.cut.operation {
        tries.push(Change::Pilot(case.diameter / 3.0));
    }
    let low = found.pass.range().low;
    if low < point.f * WORTH {
        tries.push(Change::Feed(low));
    }
    tries.extend(slower(case, found).map(Change::Speed));
    if case.asked.breakage {
        if case.teeth > 2 {
            tries.push(Change::Teeth(case.teeth / 2));
        }
        tries.push(Change::Runout(case.runout / 2.0));
    }
    tries
}

/// The next speed at which what binds is comfortable again, or the next one down.
fn slower(case: &Case, found: &Found) -> Option<SpindleSpeed> {
    let (point, pass) = (found.point, &found.pass);
    let easy = match pass.read(point.n, point.f).binding()? {
        Limit::Wheel => {
            let per_turn = point.f * case.feeds.teeth;
            handwheel::spindle_speed_for_of(case.hand.within, case.lead, per_turn)
        }
        Limit::Speed => case.spindle_speed(case.surface.most?.within, pass.diameter),
        Limit::BodyCap => case.cap_band().within,
        _ => point.n * 0.8,
    };
    let machine = case.mill.machine;
    let next = |n| machine.neighbours(n).0.filter(|n| *n < point.n * WORTH);
    next(easy).or_else(|| next(point.n * WORTH))
}

/// The greatest utilisation at the point found, after a change and nothing else.
fn worst_after(case: &Case, found: &Found, change: Change) -> Option<f64> {
    let (point, pass) = (found.point, &found.pass);
    Some(match change {
        Change::Depth(_) => case.pass(2 * point.count).read(point.n, point.f).worst(),
        Change::Feed(f) => pass.read(point.n, f).worst(),
        Change::Speed(n) => pass.read(n, point.f).worst(),
        _ => {
            let (mill, cut) = changed(case.mill, case.cut, change, &Offers::default())?;
            let case = Case::new(&mill, &cut).ok()?;
            case.pass(point.count).read(point.n, point.f).worst()
        }
    })
}
