//! Composing the answer: what was found, told with its working.

use core::f64::consts::PI;

use super::{
    Offers, advice,
    case::{Case, Divided, Mark, Marks, ROW_OVERLAP, Threshold},
    search::{Found, aim, range},
    threshold::{self as t, Band},
};
use crate::engine::{
    answer::{
        Answer, Assumed, Because, Caution, Concession, Feed, Limit, Passes, Reading, Rows, Speed,
        State, Step, Verdict,
    },
    cutters::Kind,
    machine::{Machine, Speeds},
    quantity::{
        Angle, Duration, FeedRate, Force, HandRate, Length, Power, SpindleSpeed, Stress,
        SurfaceSpeed, value::Value,
    },
    question::{Feeding, Operation},
    stock::{Edge, Flag},
};

/// Clear air before and after a cut, so that the cutter starts and ends outside.
const CLEARANCE_IN: f64 = 0.1;
/// A change under half a per cent is not one.
const SAME: f64 = 0.005;

/// The answer to a prepared question.
pub fn answer(case: &Case, found: &Found, offers: &Offers) -> Answer {
    let (point, depth) = (found.point, &found.depth);
    let marks = case.read(depth, point.n, point.f);
    let speed = speed(case, found);
    let feed = case.asks_feed().then(|| feed(case, found));
    let passes = case.asks_depth().then(|| passes(case, found));
    let rows = rows(case);
    let travel = travel(case, found);
    let time = feed.as_ref().and_then(|feed| {
        let passes = if case.divided == Divided::Pecks { 1.0 } else { f64::from(point.k) };
        let count = rows.as_ref().map_or(1.0, |r| r.centres.len() as f64) * passes;
        let per_pass = travel?.to_mm() / feed.rate.to_mm_per_min();
        Some(Duration::minute(per_pass * count))
    });
    let mut limits: Vec<Reading> = marks.iter().map(|m| reading(case, found, m)).collect();
    limits.sort_by(|a, b| b.state.cmp(&a.state).then(b.utilisation.total_cmp(&a.utilisation)));
    let trouble = found.blocked.map(|b| advice::trouble(case, found, b, offers));
    let relief = if limits.first().is_some_and(|l| l.state > State::Within) {
        advice::relief(case, found)
    } else {
        Vec::new()
    };
    let cautions = cautions(case, found, &marks, &speed, feed.as_ref());
    let blocking = marks.iter().any(|m| m.state == State::Over && blocks(case, m.limit));
    let verdict = if found.blocked.is_some() || blocking {
        Verdict::DoNotCut
    } else if marks.iter().any(|m| m.state > State::Within) {
        Verdict::Care
    } else {
        Verdict::Go
    };
    let given_up = given_up(case, found, &speed);
    let working = working(case, found, &speed, feed.as_ref(), travel);
    let assumed = assumed(case, &speed);
    Answer {
        verdict,
        speed,
        feed,
        passes,
        rows,
        time,
        travel,
        limits,
        given_up,
        relief,
        trouble,
        cautions,
        assumed,
        working,
    }
}

/// Over stops the cut; runout of a cutter over 1/8 in is a strong caution only.
fn blocks(case: &Case, limit: Limit) -> bool {
    limit != Limit::Runout || case.is_small()
}

impl Case<'_> {
    /// More than the speed is asked.
    fn asks_feed(&self) -> bool {
        self.cut.operation != Operation::FindEdge
    }
    fn asks_depth(&self) -> bool {
        !matches!(self.cut.operation, Operation::FindEdge | Operation::Tap)
    }
    /// Fed down by the quill, not across by the table.
    fn by_quill(&self) -> bool {
        !self.asked.wheel
    }
}

fn speed(case: &Case, found: &Found) -> Speed {
    let machine = case.mill.machine;
    let set = SpindleSpeed::rpm(found.point.n);
    let wanted_rpm = case.rpm_for(&found.depth, case.v_want);
    let wanted = SpindleSpeed::rpm(wanted_rpm);
    let place = machine.range_of(set).unwrap_or(0);
    let range = machine.ranges.get(place);
    Speed {
        set,
        range: (place, range.map(|r| r.name.clone()).unwrap_or_default()),
        switch: range.and_then(|r| r.clockwise_label.clone()),
        wanted,
        neighbours: machine.neighbours(wanted),
        surface: case.surface(&found.depth, found.point.n),
        surface_wanted: case.surface(&found.depth, wanted_rpm),
        too_fast_at_lowest: machine.lowest().is_some_and(|low| low > wanted * 1.05),
        yours: case.cut.own.spindle_speed.is_some(),
    }
}

fn feed(case: &Case, found: &Found) -> Feed {
    let point = found.point;
    let rate = FeedRate::mm_per_min(case.rate(point.n, point.f));
    let per_minute = |length: Length| Duration::minute(length.to_mm() / rate.to_mm_per_min());
    let lead = if case.by_quill() {
        case.mill.machine.quill_wheel.map(|axis| axis.lead)
    } else {
        Some(case.mill.machine.table.lead)
    };
    let range = range(case, &found.depth);
    let per_tooth = Length::mm(point.f);
    let mark = Length::inch(0.010);
    Feed {
        per_tooth,
        per_turn: per_tooth * case.z_feed,
        rate,
        wheel: lead.map(|l| HandRate::turns_per_min(rate.to_mm_per_min() / l.to_mm())),
        turn_time: lead.map(per_minute),
        mark,
        mark_time: per_minute(mark),
        eighth_time: per_minute(Length::inch(0.125)),
        range: (Length::mm(range.low), Length::mm(range.high)),
        thin_chip: range.thin,
        yours: case.fixed_feed.is_some() && case.asked.chip,
    }
}

fn passes(case: &Case, found: &Found) -> Passes {
    let k = found.point.k;
    let each = case.whole / f64::from(k);
    let point = |angle: Angle| Length::mm(found.depth.d_cut / (2.0 * (angle / 2.0).tan()));
    let depth = case.cut.depth;
    let tip = match (case.cut.operation, case.mill.cutter.kind) {
        (Operation::Drill { through, .. }, Kind::Drill { point_angle }) => {
            let out = if through { Length::inch(0.030) } else { Length::ZERO };
            Some(depth + point(point_angle) + out)
        }
        _ => None,
    };
    Passes {
        depth: Length::mm(each),
        // The last target is the depth itself, so that no rounding adds up.
        targets: (1..=k)
            .map(|i| Length::mm(if i == k { case.whole } else { each * f64::from(i) }))
            .collect(),
        tip,
        pecks: case.divided == Divided::Pecks,
        yours: case.cut.own.passes.is_some(),
    }
}

/// Rows of a face wider than the cutter, symmetric about its middle.
fn rows(case: &Case) -> Option<Rows> {
    let Operation::Face { width } = case.cut.operation else { return None };
    let (width, d) = (width.to_mm(), case.d);
    if width <= d * (1.0 + 1e-9) {
        return None;
    }
    let gaps = ((width - d) / (d * (1.0 - ROW_OVERLAP)) - 1e-9).ceil().max(1.0);
    let spread = width - d;
    let count = gaps as usize + 1;
    let centres = (0..count).map(|i| Length::mm(spread * (i as f64 / gaps - 0.5))).collect();
    Some(Rows { centres, overlap: ROW_OVERLAP })
}

/// Travel under feed for one pass.
fn travel(case: &Case, found: &Found) -> Option<Length> {
    let air = Length::inch(CLEARANCE_IN);
    let d = Length::mm(case.d);
    match case.cut.operation {
        Operation::FindEdge => None,
        Operation::Slot => case.cut.length,
        Operation::Side { .. } => {
            let share = found.depth.ae / case.d;
            let approach = d * (share * (1.0 - share)).max(0.0).sqrt();
            // A finishing cut runs on until the trailing edge is clear too.
            let leave = if case.cut.finish { approach } else { Length::ZERO };
            Some(case.cut.length? + approach + leave + air * 2.0)
        }
        Operation::Face { .. } => Some(case.cut.length? + d + air * 2.0),
        Operation::Saw => {
            let share = found.depth.ae / case.d;
            Some(case.cut.length? + d * (share * (1.0 - share)).max(0.0).sqrt() + air * 2.0)
        }
        Operation::Drill { .. } => {
            Some(passes(case, found).tip.unwrap_or(case.cut.depth) + Length::inch(0.05))
        }
        _ => Some(case.cut.depth + Length::inch(0.05)),
    }
}

/// What differs from the wanted point, in the order it was given up.
fn given_up(case: &Case, found: &Found, speed: &Speed) -> Vec<Concession> {
    let point = found.point;
    let mut list = Vec::new();
    let range = range(case, &found.depth);
    if point.k > 1 && !matches!(case.divided, Divided::Whole) {
        let because = if case.cut.own.passes.is_some() {
            Because::Yours
        } else {
            // One pass fewer: what would not have been comfortable?
            let fewer = case.depth(point.k - 1);
            let marks = case.read(&fewer, point.n, point.f);
            Because::Limit(worst_of(&marks).unwrap_or(Limit::Depth))
        };
        list.push(Concession::Passes { whole: Length::mm(case.whole), passes: point.k, because });
    }
    if (speed.set / speed.wanted - 1.0).abs() > SAME {
        let fastest = case.speeds(speed.wanted.to_rpm(), range.low).first().copied();
        let because = if case.cut.own.spindle_speed.is_some() {
            Because::Yours
        } else if fastest.is_some_and(|n| point.n < n * (1.0 - SAME)) {
            let n = fastest.unwrap_or(point.n);
            let marks = case.read(&found.depth, n, range.low.max(point.f));
            Because::Limit(worst_of(&marks).unwrap_or(Limit::Wheel))
        } else {
            Because::Machine
        };
        list.push(Concession::Speed { wanted: speed.wanted, set: speed.set, because });
    }
    let target = range.low + 0.4 * (range.high - range.low);
    if case.asked.chip && case.fixed_feed.is_none() && point.f < target * (1.0 - SAME) {
        let eased = aim(case, range, point.n);
        let because = if eased < target * (1.0 - SAME) && point.f >= eased * (1.0 - SAME) {
            Because::Limit(Limit::Wheel)
        } else {
            let at = if point.f < range.low { Threshold::Over } else { Threshold::Near };
            let holds = FEED_LIMITS
                .into_iter()
                .filter_map(|l| Some((l, case.greatest_feed(&found.depth, l, point.n, at)?)))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            holds.map_or(Because::Gentle, |(limit, _)| Because::Limit(limit))
        };
        list.push(Concession::Feed {
            wanted: Length::mm(target),
            set: Length::mm(point.f),
            because,
        });
    }
    list
}

const FEED_LIMITS: [Limit; 8] = [
    Limit::ChipLoad,
    Limit::Wheel,
    Limit::Power,
    Limit::Bending,
    Limit::Breakage,
    Limit::Climb,
    Limit::Runout,
    Limit::Thrust,
];

fn worst_of(marks: &Marks) -> Option<Limit> {
    marks
        .iter()
        .filter(|m| m.limit != Limit::Runout)
        .max_by(|a, b| a.u.total_cmp(&b.u))
        .map(|m| m.limit)
}

fn assumed(case: &Case, speed: &Speed) -> Vec<Assumed> {
    let machine: &Machine = case.mill.machine;
    let mut list = Vec::new();
    if case.asked.power && machine.power.is_none() {
        list.push(Assumed::Power(Value::Power(machine.power_or_assumed())));
    }
    if case.asked.power
        && let Some(Speeds::Continuous { highest, base: None, .. }) =
            machine.ranges.get(speed.range.0).map(|r| &r.speeds)
    {
        list.push(Assumed::BaseSpeed(Value::SpindleSpeed(*highest)));
    }
    if case.asked.bend && machine.stiffness.is_none() {
        list.push(Assumed::Stiffness(Value::Stiffness(machine.class.stiffness())));
    }
    if case.asked.breakage && case.mill.runout.is_none() {
        list.push(Assumed::Runout(Value::Length(case.mill.holder.assumed_runout())));
    }
    if matches!(case.cut.operation, Operation::Side { feeding: Feeding::Climb, .. }) {
        if machine.table.backlash.is_none() {
            list.push(Assumed::Backlash(Value::Length(machine.class.assumed_backlash())));
        }
        if machine.table_drag.is_none() {
            list.push(Assumed::TableDrag(Value::Force(machine.class.table_drag())));
        }
    }
    list
}

fn cautions(
    case: &Case,
    found: &Found,
    marks: &Marks,
    speed: &Speed,
    feed: Option<&Feed>,
) -> Vec<Caution> {
    let (stock, point) = (case.stock, found.point);
    let mut list = Vec::new();
    let near = |limit: Limit| marks.get(limit).is_some_and(|m| m.state > State::Within);
    if stock.is(Flag::Magnesium) || stock.is(Flag::Titanium) {
        list.push(Caution::ChipFire);
    }
    if speed.switch.is_none() {
        list.push(Caution::SwitchUnknown);
    }
    if speed.too_fast_at_lowest {
        list.push(Caution::LowestTooFast);
    }
    if let Some(runout) = marks.get(Limit::Runout) {
        let wish = advice::wished_runout(case, found.depth.q * point.f);
        if runout.state == State::Over {
            list.push(Caution::BetterHolder(wish));
        } else if runout.state == State::Near {
            list.push(Caution::OneTooth(wish));
        }
    }
    if case.asked.breakage && case.mill.holder == crate::engine::question::Holder::DrillChuck {
        list.push(Caution::DrillChuckMilling);
    }
    let edge = case.mill.cutter.material.edge();
    if edge == Edge::Carbide
        && speed.surface.to_m_per_min() < 0.5 * case.v_range.0
        && case.asked.chip
    {
        list.push(Caution::SlowCarbide);
    }
    if edge == Edge::Hss && !stock.hss_usable {
        list.push(Caution::HssDulls);
    }
    if case.asked.wheel
        && let Some(rate) = feed.and_then(|f| f.wheel)
        && rate < HandRate::turns_per_min(t::SLOW_WHEEL)
    {
        list.push(Caution::CountMarks);
    }
    if let Some(high) = feed_above_table(case) {
        list.push(Caution::FeedAboveTable(high));
    }
    if near(Limit::Rubbing) {
        list.push(Caution::SharpEdge);
    }
    if case.asked.pack && near(Limit::Depth) {
        list.push(Caution::ClearChips);
    }
    if case.asked.pack {
        let begin = begin_depth(case);
        if found.depth.ap > begin * (1.0 + SAME) {
            list.push(Caution::BeginAt(Length::mm(begin)));
        }
    }
    if matches!(case.cut.operation, Operation::Side { feeding: Feeding::Climb, .. }) {
        list.push(Caution::ClimbBacklash);
    }
    if case.cut.finish && near(Limit::Bending) {
        list.push(Caution::SpringPass);
    }
    match case.cut.operation {
        Operation::Drill { through, .. } => {
            if point.k > 1 {
                list.push(Caution::Peck);
            }
            if through {
                list.push(Caution::BreakThrough);
            }
        }
        Operation::Ream => list.push(Caution::NeverReverse),
        Operation::Tap => list.push(Caution::PowerTap),
        _ => {}
    }
    if case.mill.cutter.kind == Kind::FlyCutter && edge == Edge::Carbide {
        list.push(Caution::InterruptedCut);
    }
    if stock.is(Flag::WorkHardening) && case.asks_depth() {
        list.push(Caution::NeverDwell);
    }
    if case.asks_depth() {
        list.extend(stock.hazards.iter().copied().map(Caution::Hazard));
        if !stock.coolant.is_empty() {
            list.push(Caution::Lubricant(stock.coolant));
        }
    }
    list
}

/// The table's high end, where the person's own feed lies more than half above it.
fn feed_above_table(case: &Case) -> Option<Length> {
    let own = case.cut.own.feed?;
    (own > case.table.high * 1.5).then_some(case.table.high)
}

/// Depth at which this class of machine begins, mm.
fn begin_depth(case: &Case) -> f64 {
    let share = (case.d / (0.5 * 25.4)).clamp(0.25, 0.5);
    case.mill.machine.class.rigidity() * share * case.d
}

const FORCE_SOURCE: &str = "KIENZLE";

/// One limit, with its values and its working.
fn reading(case: &Case, found: &Found, mark: &Mark) -> Reading {
    let (depth, n, f) = (&found.depth, found.point.n, found.point.f);
    let row = t::row(mark.limit);
    let band = mark.band;
    // A quantity scaled so that the thresholds of its band come out in its own unit.
    let scaled = |of: f64, make: &dyn Fn(f64) -> Value| {
        (make(mark.x * of), make(band.within * of), make(band.near * of))
    };
    let reciprocal = |make: &dyn Fn(f64) -> Value| {
        (make(1.0 / mark.x), make(1.0 / band.within), make(1.0 / band.near))
    };
    let mm = |x: f64| Value::Length(Length::mm(x));
    let chip = |x: f64| Value::Chip(Length::mm(x));
    let newton = |x: f64| Value::Force(Force::newton(x));
    let step = |what, formula, inputs, result, sources| Step {
        what,
        formula,
        inputs,
        result,
        sources,
        yours: false,
    };
    let kc = Value::Stress(Stress::newton_per_mm2(case.kc(depth.m * f)));
    let mut force_step = step(
        "Specific cutting force at the mean chip, held at 0.02 mm",
        "kc = kc1.1 h^−mc",
        vec![
            ("kc1.1", Value::Stress(Stress::newton_per_mm2(case.kc1))),
            ("mc", Value::Ratio(case.mc)),
            ("h", chip(depth.m * f)),
        ],
        kc,
        FORCE_SOURCE,
    );
    force_step.yours = case.own_force;
    let ((value, near_at, over_at), working) = match mark.limit {
        Limit::Speed => {
            let speed = |v: f64| Value::SurfaceSpeed(SurfaceSpeed::m_per_min(v));
            (
                scaled(case.v_high, &speed),
                vec![step(
                    "Surface speed",
                    "v = π D n",
                    vec![("D", mm(depth.d_cut)), ("n", Value::SpindleSpeed(SpindleSpeed::rpm(n)))],
                    speed(mark.x * case.v_high),
                    "F_GEOMETRY",
                )],
            )
        }
        Limit::BodyCap => {
            let factor = n / mark.x;
            (scaled(factor, &|x| Value::SpindleSpeed(SpindleSpeed::rpm(x))), Vec::new())
        }
        Limit::Rubbing => {
            let values = reciprocal(&chip);
            (
                values,
                vec![step(
                    "Chip at the steady feed",
                    "h = q fz",
                    vec![("q", Value::Ratio(case.chip_factors(depth).0)), ("fz", chip(f))],
                    values.0,
                    "F_GEOMETRY",
                )],
            )
        }
        Limit::ChipLoad => (
            scaled(case.judge_high, &chip),
            vec![step(
                "Chip against the high end of the table",
                "h = q fz",
                vec![("q", Value::Ratio(case.chip_factors(depth).1)), ("fz", chip(f))],
                chip(mark.x * case.judge_high),
                "F_GEOMETRY",
            )],
        ),
        Limit::Wheel => {
            let rate = |x: f64| Value::HandRate(HandRate::turns_per_min(x));
            (
                scaled(1.0, &rate),
                vec![step(
                    "Turns of the handwheel per minute",
                    "vf / travel per turn",
                    vec![
                        ("vf", Value::FeedRate(FeedRate::mm_per_min(case.rate(n, f)))),
                        ("travel per turn", mm(case.lead)),
                    ],
                    rate(mark.x),
                    "F_GEOMETRY",
                )],
            )
        }
        Limit::Power => {
            let available = case.power_at(n);
            let watt = |x: f64| Value::Power(Power::watt(x));
            let taken = case.power_taken(depth, n, f);
            let mut working = Vec::new();
            if case.divided == Divided::Pecks && !case.own_force {
                working.push(step(
                    "Power of the drill",
                    "P = 2π n M, M = Kd f^0.8 D^1.8 A",
                    vec![
                        ("Kd", Value::Ratio(case.stock.drill_factors().torque)),
                        ("f", chip(f)),
                        ("D", mm(depth.d_cut)),
                        ("A", Value::Ratio(1.085)),
                    ],
                    watt(taken),
                    "SHAW_OXFORD",
                ));
            } else {
                working.push(force_step);
                working.push(step(
                    "Power at the cutter",
                    "P = kc ap ae vf",
                    vec![
                        ("kc", kc),
                        ("ap", mm(depth.ap)),
                        ("ae", mm(depth.ae)),
                        ("vf", Value::FeedRate(FeedRate::mm_per_min(case.rate(n, f)))),
                    ],
                    watt(taken),
                    "KIENZLE",
                ));
            }
            working.push(step(
                "Power the spindle has at this speed",
                "P (steps); P n / n base (electric drive)",
                vec![("P", watt(case.power())), ("n", Value::SpindleSpeed(SpindleSpeed::rpm(n)))],
                watt(available),
                "MH_POWER",
            ));
            (scaled(available, &watt), working)
        }
        Limit::Bending => {
            let peak = newton(case.peak_force(depth, f));
            (
                scaled(1.0, &mm),
                vec![
                    force_step,
                    step(
                        "Peak force of the teeth in the cut",
                        "Ft = kc Σ fz g(helix)",
                        vec![("kc", kc), ("fz", chip(f)), ("ap", mm(depth.ap))],
                        peak,
                        "F_GEOMETRY",
                    ),
                    step(
                        "Bend of cutter and shank, and of the machine",
                        "δ = 1.077 Ft (Σ x³/3EI + 1/k)",
                        vec![
                            ("Ft", peak),
                            ("stick-out", mm(case.stickout)),
                            ("per newton", mm(depth.beam)),
                            ("machine, per newton", mm(case.machine_give)),
                        ],
                        mm(mark.x),
                        "KOPS_VO KALPAKJIAN",
                    ),
                ],
            )
        }
        Limit::Breakage => {
            let force = newton(case.worst_force(depth, f));
            (
                reciprocal(&Value::Ratio),
                vec![
                    step(
                        "Force on the worst tooth, the hand uneven by 1.4",
                        "F = kc Σ f g, f worst = min(1.4 fz + TIR sin(π/z), 1.4 z fz)",
                        vec![
                            ("fz", chip(f)),
                            ("TIR", mm(case.tir)),
                            ("z", Value::Count(case.teeth)),
                        ],
                        force,
                        "F_GEOMETRY",
                    ),
                    step(
                        "Margin against breaking",
                        "TRS / (1.5 √(σ² + 3 τ²))",
                        vec![
                            ("F", force),
                            ("σ per newton", Value::Stress(Stress::newton_per_mm2(depth.stress.0))),
                            ("τ per newton", Value::Stress(Stress::newton_per_mm2(depth.stress.1))),
                        ],
                        Value::Ratio(1.0 / mark.x),
                        "KALPAKJIAN KOPS_VO",
                    ),
                ],
            )
        }
        Limit::Runout => {
            let (near, over) = runout_thresholds(case, depth.q * f);
            let h = depth.q * f;
            let share = libm::sin(PI / f64::from(case.teeth));
            let worst = (h + case.tir * share).min(f64::from(case.teeth) * h);
            (
                (mm(case.tir), mm(near), mm(over)),
                vec![step(
                    "Chip of the worst tooth",
                    "min(h + TIR sin(π/z), z h)",
                    vec![("h", chip(h)), ("TIR", mm(case.tir)), ("z", Value::Count(case.teeth))],
                    chip(worst),
                    "F_GEOMETRY",
                )],
            )
        }
        Limit::Climb => {
            if band == t::CLIMB_WIDTH {
                (scaled(case.climb_width, &mm), Vec::new())
            } else {
                let pull = newton(mark.x * case.drag);
                (
                    scaled(case.drag, &newton),
                    vec![step(
                        "Pull of the cutter on the table",
                        "pull = kc Σ f p(helix)",
                        vec![("kc", kc), ("fz", chip(f)), ("drag", newton(case.drag))],
                        pull,
                        "F_GEOMETRY",
                    )],
                )
            }
        }
        Limit::Depth => {
            let own = if case.asked.pack { depth.ap } else { case.whole / f64::from(depth.k) };
            (scaled(own / mark.x, &mm), Vec::new())
        }
        Limit::Thrust => (
            scaled(1.0, &newton),
            vec![step(
                "Thrust of a sharp drill",
                "T = 2 Kd f^0.8 D^0.8 B + Kd D² J",
                vec![
                    ("Kd", Value::Ratio(case.stock.drill_factors().thrust)),
                    ("f", chip(f)),
                    ("D", mm(depth.d_cut)),
                    ("pilot", mm(case.pilot)),
                ],
                newton(mark.x),
                "SHAW_OXFORD",
            )],
        ),
    };
    Reading {
        limit: mark.limit,
        utilisation: mark.u,
        state: mark.state,
        value,
        near_at,
        over_at,
        working,
        sources: row.sources,
    }
}

/// Total indicator readings at which runout turns near and over for a chip, mm.
fn runout_thresholds(case: &Case, h: f64) -> (f64, f64) {
    let share = libm::sin(PI / f64::from(case.teeth.max(1)));
    let soft = if case.stock.is_soft() { t::RUNOUT_TOOTH_SOFT } else { 1.0 };
    let tooth = t::RUNOUT_TOOTH.times(soft * case.judge_high);
    let by_tooth = |most: f64| {
        if f64::from(case.teeth) * h <= most { f64::INFINITY } else { (most - h).max(0.0) / share }
    };
    let Band { within, near } = t::RUNOUT_SHARE.times(case.d);
    let note = t::RUNOUT_RATIO_WITHIN * h / share;
    (note.min(by_tooth(tooth.within)).min(within), by_tooth(tooth.near).min(near))
}

/// The working from the question to the speed, the feed and the passes.
fn working(
    case: &Case,
    found: &Found,
    speed: &Speed,
    feed: Option<&Feed>,
    travel: Option<Length>,
) -> Vec<Step> {
    let depth = &found.depth;
    let mut steps = Vec::new();
    let work = if case.cut.operation.is_hole_by_drill() {
        crate::engine::stock::Work::Drilling
    } else {
        crate::engine::stock::Work::Milling
    };
    let v = |v: f64| Value::SurfaceSpeed(SurfaceSpeed::m_per_min(v));
    if let Some(range) = case.stock.speed(case.mill.cutter.material.edge(), work) {
        let yours = case.cut.own.surface_speed.is_some();
        steps.push(Step {
            what: "Surface speed wanted",
            formula: "gentle: low end of the range (knee mill: its middle); brisk: high end",
            inputs: vec![("low", v(case.v_range.0)), ("high", v(case.v_range.1))],
            result: Value::SurfaceSpeed(speed.surface_wanted),
            sources: if yours { "" } else { range.source },
            yours,
        });
    }
    if case.v_high.is_finite() {
        steps.push(Step {
            what: "Spindle speed wanted",
            formula: "n = v / (π D)",
            inputs: vec![
                ("v", Value::SurfaceSpeed(speed.surface_wanted)),
                ("D", Value::Length(Length::mm(depth.d_cut))),
            ],
            result: Value::SpindleSpeed(speed.wanted),
            sources: "F_GEOMETRY",
            yours: false,
        });
    }
    let mut neighbours = vec![("wanted", Value::SpindleSpeed(speed.wanted))];
    if let Some(below) = speed.neighbours.0 {
        neighbours.push(("at or below", Value::SpindleSpeed(below)));
    }
    if let Some(above) = speed.neighbours.1 {
        neighbours.push(("above", Value::SpindleSpeed(above)));
    }
    steps.push(Step {
        what: "Speed this machine has",
        formula: "the highest not more than 5 % over the wanted one that every limit allows",
        inputs: neighbours,
        result: Value::SpindleSpeed(speed.set),
        sources: "STEP_RULE",
        yours: speed.yours,
    });
    let Some(feed) = feed else { return steps };
    let per = if case.table.per_turn { "Feed per turn" } else { "Feed per tooth" };
    let mut inputs =
        vec![("low", Value::Chip(case.table.low)), ("high", Value::Chip(case.table.high))];
    if feed.thin_chip > 1.0 {
        inputs.push(("thin-chip factor", Value::Ratio(feed.thin_chip)));
    }
    steps.push(Step {
        what: per,
        formula: "from the table's range; under half the diameter wide × D / (2 √(ae (D − ae))), at most 2",
        inputs,
        result: Value::Chip(feed.per_tooth),
        sources: if feed.yours { "" } else { case.table.source },
        yours: feed.yours || case.cut.own.chip.is_some(),
    });
    steps.push(Step {
        what: "Feed",
        formula: "vf = fz z n",
        inputs: vec![
            ("fz", Value::Chip(feed.per_tooth)),
            ("z", Value::Ratio(case.z_feed)),
            ("n", Value::SpindleSpeed(speed.set)),
        ],
        result: Value::FeedRate(feed.rate),
        sources: "F_GEOMETRY",
        yours: false,
    });
    if let Some(rate) = feed.wheel {
        let lead = Length::mm(feed.rate.to_mm_per_min() / rate.to_turns_per_min());
        steps.push(Step {
            what: "Turns of the handwheel",
            formula: "vf / travel per turn",
            inputs: vec![
                ("vf", Value::FeedRate(feed.rate)),
                ("travel per turn", Value::Length(lead)),
            ],
            result: Value::HandRate(rate),
            sources: "F_GEOMETRY",
            yours: false,
        });
    }
    if case.divided != Divided::Whole && case.asks_depth() {
        steps.push(Step {
            what: if case.divided == Divided::Pecks { "Pecks" } else { "Depth of a pass" },
            formula: "whole depth / fewest passes that keep the limits comfortable",
            inputs: vec![
                ("whole", Value::Length(Length::mm(case.whole))),
                ("passes", Value::Count(found.point.k)),
            ],
            result: Value::Length(Length::mm(case.whole / f64::from(found.point.k))),
            sources: "LIMITS_CP",
            yours: case.cut.own.passes.is_some(),
        });
    }
    if let Some(travel) = travel {
        steps.push(Step {
            what: "Time of one pass",
            formula: "travel with approach and overrun / vf",
            inputs: vec![("travel", Value::Length(travel)), ("vf", Value::FeedRate(feed.rate))],
            result: Value::Duration(Duration::minute(travel.to_mm() / feed.rate.to_mm_per_min())),
            sources: "GROOVER",
            yours: false,
        });
    }
    steps
}
