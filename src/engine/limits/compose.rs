//! Composing the answer: what was found, in the terms of a machine and a hand.

use super::{
    Offers, advice, asked::Divided, case::Case, caution, concession, marks::Marks, search::Found,
    working,
};
use crate::engine::{
    answer::{Answer, Feed, Passes, Rows, Speed, State, Verdict},
    cutters::Kind,
    cutting::{drilling, handwheel, time},
    quantity::{Duration, Length},
    question::Operation,
};

/// Share of the cutter by which rows of a face overlap at least.
const ROW_OVERLAP: f64 = 0.30;

/// The answer to a prepared question.
pub fn answer(case: &Case, found: &Found, offers: &Offers) -> Answer {
    let point = found.point;
    let marks = found.pass.read(point.n, point.f);
    let speed = speed(case, found);
    let feed = case.asks_feed().then(|| feed(case, found));
    let rows = rows(case);
    let travel = travel(case, found);
    let time = feed.and_then(|feed| time_of_all(case, found, rows.as_ref(), travel?, &feed));
    let mut limits = working::readings(found, &marks);
    limits.sort_by(|a, b| b.state.cmp(&a.state).then(b.utilisation.total_cmp(&a.utilisation)));
    let relief = if limits.first().is_some_and(|l| l.state > State::Within) {
        advice::relief(case, found)
    } else {
        Vec::new()
    };
    Answer {
        verdict: verdict(case, found, &marks),
        passes: case.asks_depth().then(|| passes(case, found)),
        rows,
        time,
        travel,
        limits,
        given_up: concession::given_up(case, found, &speed),
        relief,
        trouble: found.blocked.map(|blocked| advice::trouble(case, found, blocked, offers)),
        cautions: caution::cautions(case, found, &marks, &speed, feed.as_ref()),
        assumed: caution::assumed(case, &speed),
        working: working::steps(case, found, &speed, feed.as_ref(), travel),
        speed,
        feed,
    }
}

fn verdict(case: &Case, found: &Found, marks: &Marks) -> Verdict {
    if found.blocked.is_some() || marks.stopping(case).is_some() {
        Verdict::DoNotCut
    } else if marks.iter().any(|m| m.state > State::Within) {
        Verdict::Care
    } else {
        Verdict::Go
    }
}

impl Case<'_> {
    /// More than the speed is asked.
    pub fn asks_feed(&self) -> bool {
        self.cut.operation != Operation::FindEdge
    }
    /// The depth is divided, or at least told.
    pub fn asks_depth(&self) -> bool {
        !matches!(self.cut.operation, Operation::FindEdge | Operation::Tap)
    }
}

fn speed(case: &Case, found: &Found) -> Speed {
    let machine = case.mill.machine;
    let (set, wanted) = (found.point.n, found.pass.wanted());
    let place = machine.range_of(set).unwrap_or(0);
    let range = machine.ranges.get(place);
    Speed {
        set,
        range: (place, range.map(|r| r.name.clone()).unwrap_or_default()),
        switch: range.and_then(|r| r.clockwise_label.clone()),
        wanted,
        neighbours: machine.neighbours(wanted),
        surface: found.pass.surface(set),
        surface_wanted: found.pass.surface(wanted),
        too_fast_at_lowest: case.surface.most.is_some_and(|most| {
            let slowest = machine.lowest().map(|low| found.pass.surface(low));
            slowest.is_some_and(|v| most.state(v) > State::Within)
        }),
        yours: case.cut.own.spindle_speed.is_some(),
    }
}

fn feed(case: &Case, found: &Found) -> Feed {
    let point = found.point;
    let rate = case.rate(point.n, point.f);
    let lead = if case.asked.wheel {
        Some(case.lead)
    } else {
        // Faster than a wheel is turned the quill is fed by its lever.
        let quill = case.mill.machine.quill_wheel.map(|axis| axis.lead);
        quill.filter(|lead| handwheel::hand_rate_of(rate, *lead) <= case.hand.near)
    };
    let range = found.pass.range();
    let mark = Length::inch(0.010);
    Feed {
        per_tooth: point.f,
        per_turn: point.f * case.feeds.teeth,
        rate,
        wheel: lead.map(|lead| handwheel::hand_rate_of(rate, lead)),
        turn_time: lead.map(|lead| handwheel::travel_time_of(lead, rate)),
        mark,
        mark_time: handwheel::travel_time_of(mark, rate),
        eighth_time: handwheel::travel_time_of(Length::inch(0.125), rate),
        range: (range.low, range.high),
        thin_chip: range.thin,
        yours: case.feeds.kept.is_some() && case.asked.chip,
    }
}

fn passes(case: &Case, found: &Found) -> Passes {
    let (count, each) = (found.point.count, found.pass.each);
    let tip = match (case.cut.operation, case.mill.cutter.kind) {
        (Operation::Drill { through, .. }, Kind::Drill { point_angle }) => {
            let out = if through { Length::inch(0.030) } else { Length::ZERO };
            let point = drilling::point_length_of(found.pass.diameter, point_angle);
            Some(case.cut.depth + point + out)
        }
        _ => None,
    };
    Passes {
        depth: each,
        // The last target is the depth itself, so that no rounding adds up.
        targets: (1..=count)
            .map(|i| if i == count { case.whole } else { each * f64::from(i) })
            .collect(),
        tip,
        pecks: case.divided == Divided::Pecks,
        yours: case.own_passes().is_some(),
    }
}

/// Rows of a face wider than the cutter, symmetric about its middle.
fn rows(case: &Case) -> Option<Rows> {
    let Operation::Face { width } = case.cut.operation else { return None };
    let spread = width - case.diameter;
    if spread <= case.diameter * 1e-9 {
        return None;
    }
    let gaps = (spread / (case.diameter * (1.0 - ROW_OVERLAP)) - 1e-9).ceil().max(1.0);
    let centres = (0..=gaps as usize).map(|i| spread * (i as f64 / gaps - 0.5)).collect();
    Some(Rows { centres, overlap: ROW_OVERLAP })
}

/// Travel under feed for one pass.
fn travel(case: &Case, found: &Found) -> Option<Length> {
    // Clear air before and after a cut, so that the cutter starts and ends outside.
    let air = Length::inch(0.1) * 2.0;
    let start = Length::inch(0.05);
    let approach = || time::approach_slab_of(case.diameter, found.pass.width);
    match case.cut.operation {
        Operation::FindEdge => None,
        Operation::Slot => case.cut.length,
        Operation::Side { .. } => {
            // A finishing cut runs on until the trailing edge is clear too.
            let ends = if case.cut.finish { 2.0 } else { 1.0 };
            Some(case.cut.length? + approach() * ends + air)
        }
        Operation::Face { .. } => Some(case.cut.length? + case.diameter + air),
        Operation::Saw => Some(case.cut.length? + approach() + air),
        Operation::Drill { .. } => Some(passes(case, found).tip.unwrap_or(case.cut.depth) + start),
        _ => Some(case.cut.depth + start),
    }
}

/// Time under feed of all rows and passes. Pecks go over no depth twice.
fn time_of_all(
    case: &Case,
    found: &Found,
    rows: Option<&Rows>,
    travel: Length,
    feed: &Feed,
) -> Option<Duration> {
    let passes = if case.divided == Divided::Pecks { 1 } else { found.point.count };
    let rows = rows.map_or(1, |r| r.centres.len());
    Some(handwheel::travel_time_of(travel, feed.rate) * (f64::from(passes) * rows as f64))
}
