//! The working: every reading with the steps to it, and the way from the question to the speed,
//! the feed and the passes.

use super::{
    asked::Divided,
    case::Case,
    marks::{Mark, Marks},
    search::Found,
    threshold as t,
};
use crate::engine::{
    answer::{Feed, Limit, Reading, Speed, Step},
    cutting::{bending, drilling::Chisel, handwheel, power, runout},
    quantity::{Length, value::Value},
    question::Operation,
};

/// Tag of arithmetic and of the geometry of the cut.
const GEOMETRY: &str = "F_GEOMETRY";
/// Tags of the beam: its equivalent diameter, its modulus and strength.
const BEAM: &str = "KOPS_VO KALPAKJIAN";

fn step(
    what: &'static str,
    formula: &'static str,
    inputs: Vec<(&'static str, Value)>,
    result: Value,
    sources: &'static str,
) -> Step {
    Step { what, formula, inputs, result, sources, yours: false }
}

/// Every limit that applies, with its working.
pub fn readings(found: &Found, marks: &Marks) -> Vec<Reading> {
    marks
        .iter()
        .map(|mark| Reading {
            limit: mark.limit,
            utilisation: mark.utilisation,
            state: mark.state,
            value: mark.value,
            near_at: mark.thresholds.0,
            over_at: mark.thresholds.1,
            working: working(found, mark),
            sources: t::row(mark.limit).sources,
        })
        .collect()
}

fn working(found: &Found, mark: &Mark) -> Vec<Step> {
    match mark.limit {
        Limit::Speed => vec![surface_speed(found, mark)],
        Limit::Rubbing => {
            vec![chip("Chip at the steady feed", found.pass.rub_share(), found.point.f, mark.value)]
        }
        Limit::ChipLoad => vec![chip(
            "Chip against the high end of the table",
            found.pass.largest,
            found.point.f,
            mark.value,
        )],
        Limit::Wheel => vec![turns(found, mark)],
        Limit::Power => power_taken(found, mark),
        Limit::Bending => bend(found, mark),
        Limit::Breakage => breakage(found, mark),
        Limit::Runout => vec![worst_tooth(found)],
        Limit::Climb => pull(found, mark).into_iter().collect(),
        Limit::Thrust => vec![thrust(found, mark)],
        Limit::BodyCap | Limit::Depth => Vec::new(),
    }
}

fn surface_speed(found: &Found, mark: &Mark) -> Step {
    step(
        "Surface speed",
        "v = π D n",
        vec![("D", Value::Length(found.pass.diameter)), ("n", Value::SpindleSpeed(found.point.n))],
        mark.value,
        GEOMETRY,
    )
}

fn chip(what: &'static str, share: f64, f: Length, chip: Value) -> Step {
    let inputs = vec![("q", Value::Ratio(share)), ("fz", Value::Chip(f))];
    step(what, "h = q fz", inputs, chip, GEOMETRY)
}

fn turns(found: &Found, mark: &Mark) -> Step {
    let (case, point) = (found.pass.case, found.point);
    step(
        "Turns of the handwheel per minute",
        "vf / travel per turn",
        vec![
            ("vf", Value::FeedRate(case.rate(point.n, point.f))),
            ("travel per turn", Value::Length(case.lead)),
        ],
        mark.value,
        GEOMETRY,
    )
}

fn specific_force(found: &Found) -> Step {
    let (pass, f) = (&found.pass, found.point.f);
    let law = &pass.case.law;
    Step {
        what: "Specific cutting force at the mean chip, held at 0.02 mm",
        formula: "kc = kc1.1 h^−mc",
        inputs: vec![
            ("kc1.1", Value::Stress(law.kc1_1())),
            ("mc", Value::Ratio(law.exponent())),
            ("h", Value::Chip(f * pass.mean)),
        ],
        result: Value::Stress(pass.specific_force(f)),
        sources: power::SOURCE_KIENZLE,
        yours: pass.case.own_force,
    }
}

fn power_taken(found: &Found, mark: &Mark) -> Vec<Step> {
    let (pass, point) = (&found.pass, found.point);
    let case = pass.case;
    let mut steps = Vec::new();
    if let Some(drill) = pass.drill_by_torque() {
        steps.push(step(
            "Power of the drill",
            "P = 2π n M, M = Kd f^0.8 D^1.8 A",
            vec![
                ("Kd", Value::Ratio(drill.work.torque)),
                ("f", Value::Chip(point.f)),
                ("D", Value::Length(pass.diameter)),
                ("A", Value::Ratio(Chisel::STANDARD.torque)),
            ],
            mark.value,
            "SHAW_OXFORD",
        ));
    } else {
        steps.push(specific_force(found));
        steps.push(step(
            "Power at the cutter",
            "P = kc ap ae vf",
            vec![
                ("kc", Value::Stress(pass.specific_force(point.f))),
                ("ap", Value::Length(pass.depth)),
                ("ae", Value::Length(pass.width)),
                ("vf", Value::FeedRate(case.rate(point.n, point.f))),
            ],
            mark.value,
            power::SOURCE_KIENZLE,
        ));
    }
    steps.push(step(
        "Power the spindle has at this speed",
        "P (steps); P n / n base (electric drive)",
        vec![
            ("P", Value::Power(case.mill.machine.power_or_assumed())),
            ("n", Value::SpindleSpeed(point.n)),
        ],
        Value::Power(case.power_at(point.n)),
        "MH_POWER",
    ));
    steps
}

fn bend(found: &Found, mark: &Mark) -> Vec<Step> {
    let (pass, f) = (&found.pass, found.point.f);
    let peak = pass.peak_force(f);
    vec![
        specific_force(found),
        step(
            "Peak force of the teeth in the cut",
            "Ft = kc Σ fz g(helix)",
            vec![
                ("kc", Value::Stress(pass.specific_force(f))),
                ("fz", Value::Chip(f)),
                ("ap", Value::Length(pass.depth)),
            ],
            Value::Force(peak),
            GEOMETRY,
        ),
        step(
            "Bend of cutter and shank, and of the machine",
            "δ = 1.077 Ft (Σ x³/3EI + 1/k)",
            vec![
                ("Ft", Value::Force(peak)),
                ("stick-out", Value::Length(pass.case.mill.cutter.stickout)),
                ("cutter", Value::Length(pass.cutter_bend_under(peak))),
                ("machine", Value::Length(pass.machine_give_under(peak))),
            ],
            mark.value,
            BEAM,
        ),
    ]
}

fn breakage(found: &Found, mark: &Mark) -> Vec<Step> {
    let (pass, f) = (&found.pass, found.point.f);
    let case = pass.case;
    let force = pass.worst_force(f);
    let (bending, torsion) = pass.stresses_under(force);
    vec![
        step(
            "Force on the worst tooth, the hand uneven by 1.4",
            "F = kc Σ f g, f worst = min(1.4 fz + TIR sin(π/z), 1.4 z fz)",
            vec![
                ("fz", Value::Chip(f)),
                ("TIR", Value::Length(case.runout)),
                ("z", Value::Count(case.teeth)),
            ],
            Value::Force(force),
            GEOMETRY,
        ),
        step(
            "Margin against breaking",
            "TRS / (1.5 √(σ² + 3 τ²))",
            vec![
                ("F", Value::Force(force)),
                ("TRS", Value::Stress(bending::rupture_strength(case.mill.cutter.material))),
                ("σ", Value::Stress(bending)),
                ("τ", Value::Stress(torsion)),
            ],
            mark.value,
            BEAM,
        ),
    ]
}

fn worst_tooth(found: &Found) -> Step {
    let case = found.pass.case;
    let chip = found.point.f * found.pass.largest;
    step(
        "Chip of the worst tooth",
        "min(h + TIR sin(π/z), z h)",
        vec![
            ("h", Value::Chip(chip)),
            ("TIR", Value::Length(case.runout)),
            ("z", Value::Count(case.teeth)),
        ],
        Value::Chip(runout::worst_tooth_of(chip, case.teeth, case.step)),
        GEOMETRY,
    )
}

/// Only where the pull is what is compared.
fn pull(found: &Found, mark: &Mark) -> Option<Step> {
    let Value::Force(_) = mark.value else { return None };
    let (pass, f) = (&found.pass, found.point.f);
    Some(step(
        "Pull of the cutter on the table",
        "pull = kc Σ f p(helix)",
        vec![
            ("kc", Value::Stress(pass.specific_force(f))),
            ("fz", Value::Chip(f)),
            ("drag", Value::Force(pass.case.drag)),
        ],
        mark.value,
        GEOMETRY,
    ))
}

fn thrust(found: &Found, mark: &Mark) -> Step {
    let case = found.pass.case;
    step(
        "Thrust of a sharp drill",
        "T = 2 Kd f^0.8 D^0.8 B + Kd D² J",
        vec![
            ("Kd", Value::Ratio(case.stock.drill_factors().thrust)),
            ("f", Value::Chip(found.point.f)),
            ("D", Value::Length(found.pass.diameter)),
            ("pilot", Value::Length(case.pilot)),
        ],
        mark.value,
        "SHAW_OXFORD",
    )
}

/// The way from the question to the speed, the feed and the passes.
pub fn steps(
    case: &Case,
    found: &Found,
    speed: &Speed,
    feed: Option<&Feed>,
    travel: Option<Length>,
) -> Vec<Step> {
    let mut steps = Vec::new();
    steps.extend(experience(case));
    steps.extend(wanted_surface(case, speed));
    if case.surface.most.is_some() {
        steps.push(step(
            "Spindle speed wanted",
            "n = v / (π D)",
            vec![
                ("v", Value::SurfaceSpeed(speed.surface_wanted)),
                ("D", Value::Length(found.pass.diameter)),
            ],
            Value::SpindleSpeed(speed.wanted),
            GEOMETRY,
        ));
    }
    steps.push(set_speed(speed));
    let Some(feed) = feed else { return steps };
    steps.push(per_tooth(case, feed));
    steps.push(step(
        "Feed",
        "vf = fz z n",
        vec![
            ("fz", Value::Chip(feed.per_tooth)),
            ("z", Value::Ratio(case.feeds.teeth)),
            ("n", Value::SpindleSpeed(speed.set)),
        ],
        Value::FeedRate(feed.rate),
        GEOMETRY,
    ));
    if let (Some(rate), Some(turn)) = (feed.wheel, feed.turn_time) {
        let lead = Length(feed.rate.0 * turn.0);
        steps.push(step(
            "Turns of the handwheel",
            "vf / travel per turn",
            vec![("vf", Value::FeedRate(feed.rate)), ("travel per turn", Value::Length(lead))],
            Value::HandRate(rate),
            GEOMETRY,
        ));
    }
    if case.divided != Divided::Whole && case.asks_depth() {
        steps.push(divided(case, found));
    }
    if let Some(travel) = travel {
        steps.push(step(
            "Time of one pass",
            "travel with approach and overrun / vf",
            vec![("travel", Value::Length(travel)), ("vf", Value::FeedRate(feed.rate))],
            Value::Duration(handwheel::travel_time_of(travel, feed.rate)),
            "GROOVER",
        ));
    }
    steps
}

fn wanted_surface(case: &Case, speed: &Speed) -> Option<Step> {
    case.surface.most?;
    let yours = case.cut.own.surface_speed.is_some();
    let edge = case.mill.cutter.material.edge();
    let range = case.stock.speed(edge, case.cut.operation.work())?;
    let mut inputs = vec![
        ("low", Value::SurfaceSpeed(range.low())),
        ("high", Value::SurfaceSpeed(range.high())),
    ];
    let [coolant, operation, deep] = case.surface.factors;
    let factors =
        [("for the fluid", coolant), ("for the operation", operation), ("deep hole", deep)];
    let experience = case.cut.own.experience.bounded();
    let factors = factors.into_iter().chain([("your own factor", experience.speed)]);
    inputs.extend(factors.filter(|f| f.1 != 1.0).map(|(what, f)| (what, Value::Ratio(f))));
    Some(Step {
        what: "Surface speed wanted",
        formula: if case.cut.operation == Operation::Tap {
            "the low or the high end of the drilling range × factors, at most what 200 rpm gives"
        } else {
            "gentle: low end of the range (knee mill: its middle); brisk: high end; × factors"
        },
        inputs,
        result: Value::SurfaceSpeed(speed.surface_wanted),
        sources: if yours { "" } else { range.source },
        yours,
    })
}

/// What the person's own notes ask for, where they ask for anything.
fn experience(case: &Case) -> Option<Step> {
    let own = case.cut.own.experience.bounded();
    (!own.is_none()).then(|| Step {
        what: "Your own factor",
        formula: "mean of what your last cuts of this kind asked for: too hot, speed × 0.75; chatter, both × 0.85; could push, feed × 1.15",
        inputs: vec![
            ("cuts", Value::Count(own.cuts)),
            ("on the feed", Value::Ratio(own.feed)),
        ],
        result: Value::Ratio(own.speed),
        sources: crate::engine::experience::SOURCE,
        yours: true,
    })
}

fn set_speed(speed: &Speed) -> Step {
    let mut inputs = vec![("wanted", Value::SpindleSpeed(speed.wanted))];
    let (below, above) = speed.neighbours;
    inputs.extend(below.map(|n| ("at or below", Value::SpindleSpeed(n))));
    inputs.extend(above.map(|n| ("above", Value::SpindleSpeed(n))));
    Step {
        what: "Speed this machine has",
        formula: "the highest not more than 5 % over the wanted one that every limit allows",
        inputs,
        result: Value::SpindleSpeed(speed.set),
        sources: crate::engine::machine::speeds::SOURCE,
        yours: speed.yours,
    }
}

fn per_tooth(case: &Case, feed: &Feed) -> Step {
    let table = &case.feeds.table;
    let mut inputs = vec![("low", Value::Chip(table.low)), ("high", Value::Chip(table.high))];
    if feed.thin_chip > 1.0 {
        inputs.push(("thin-chip factor", Value::Ratio(feed.thin_chip)));
    }
    let experience = case.cut.own.experience.bounded();
    if experience.feed != 1.0 {
        inputs.push(("your own factor", Value::Ratio(experience.feed)));
    }
    Step {
        what: if table.per_turn { "Feed per turn" } else { "Feed per tooth" },
        formula: "from the table's range; under half the diameter wide × D / (2 √(ae (D − ae))), at most 2",
        inputs,
        result: Value::Chip(feed.per_tooth),
        sources: if feed.yours { "" } else { table.source },
        yours: feed.yours || case.cut.own.chip.is_some(),
    }
}

fn divided(case: &Case, found: &Found) -> Step {
    Step {
        what: if case.divided == Divided::Pecks { "Pecks" } else { "Depth of a pass" },
        formula: "whole depth / fewest passes that keep the limits comfortable",
        inputs: vec![
            ("whole", Value::Length(case.whole)),
            ("passes", Value::Count(found.point.count)),
        ],
        result: Value::Length(found.pass.each),
        sources: "LIMITS_CP",
        yours: case.own_passes().is_some(),
    }
}
