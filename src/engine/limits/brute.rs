//! The search and the closed-form curves against brute force.

use proptest::prelude::*;

use super::{
    aim::Point,
    case::Case,
    curve::{HOLD_DOWN, Threshold},
    pass::Pass,
    search::search,
    threshold::RUNOUT_SHARE,
};
use crate::engine::{
    answer::{Limit, State},
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    machine::{Axis, Class, Machine, Range, Speeds},
    quantity::{Angle, HandRate, Length, Power, SpindleSpeed},
    question::{Coolant, Cut, Feeding, Holder, OnTheMill, Operation, Own, Style},
    stock::{Edge, MATERIALS, Work},
};

const MOST_PASSES: u32 = 12;

fn machines() -> impl Strategy<Value = Machine> {
    let class = prop_oneof![
        Just(Class::LightBench),
        Just(Class::Bench),
        Just(Class::HeavyBench),
        Just(Class::Knee)
    ];
    let speeds = prop_oneof![
        Just(Speeds::Steps(
            [70.0, 115.0, 190.0, 310.0, 560.0, 930.0, 1540.0, 2560.0].map(SpindleSpeed::rpm).into()
        )),
        Just(Speeds::Steps([120.0, 350.0, 750.0, 2000.0].map(SpindleSpeed::rpm).into())),
        (400.0..2800.0f64).prop_map(|base| Speeds::Continuous {
            lowest: SpindleSpeed::rpm(100.0),
            highest: SpindleSpeed::rpm(2800.0),
            base: Some(SpindleSpeed::rpm(base)),
        }),
    ];
    let lead = prop_oneof![Just(0.0625), Just(0.1), Just(0.2), Just(0.07874)];
    (class, speeds, lead, 100.0..1500.0f64, 0.0..0.02f64).prop_map(
        |(class, speeds, lead, watts, lash)| Machine {
            name: "a mill".into(),
            class,
            ranges: vec![Range {
                name: String::new(),
                speeds,
                clockwise_label: None,
                counter_clockwise_label: None,
            }],
            power: Some(Power::watt(watts)),
            table: Axis {
                lead: Length::inch(lead),
                divisions: None,
                backlash: Some(Length::inch(lash)),
            },
            quill_wheel: None,
            stiffness: None,
            table_drag: None,
            comfortable_rate: HandRate::turns_per_min(40.0),
            highest_rate: HandRate::turns_per_min(60.0),
        },
    )
}

/// A cutter and a cut for it, whole depth up to a diameter and a half.
fn cuts() -> impl Strategy<Value = (Cutter, Cut, f64)> {
    let diameter =
        prop_oneof![Just(1.0 / 32.0), Just(0.0625), Just(0.125), Just(0.25), 0.1..1.0f64];
    let shape = (diameter, 2..=6u32, any::<bool>(), 0.0..3.0f64, 0..5u8);
    let wanted = (0.05..1.5f64, 0.02..1.0f64, any::<bool>(), any::<bool>(), 0..3u8, any::<bool>());
    (shape, wanted, 0.0001..0.003f64).prop_map(
        |((d, teeth, carbide, extra, op), (deep, wide, climb, finish, coolant, brisk), tir)| {
            let diameter = Length::inch(d);
            let width = diameter * wide;
            let feeding = if climb { Feeding::Climb } else { Feeding::Conventional };
            let (kind, operation) = match op {
                0 => (Kind::FlyCutter, Operation::Face { width }),
                1 => (
                    Kind::Drill { point_angle: Angle::degree(118.0) },
                    Operation::Drill {
                        pilot: climb.then_some(diameter * (0.5 * wide)),
                        through: finish,
                    },
                ),
                2 | 3 => (
                    Kind::EndMill { tip: Tip::Square, center_cutting: true },
                    Operation::Side { width, feeding },
                ),
                _ => (Kind::EndMill { tip: Tip::Square, center_cutting: true }, Operation::Slot),
            };
            let flute_length = diameter * 2.0;
            let cutter = Cutter {
                kind,
                diameter,
                teeth: if kind == Kind::FlyCutter { 1 } else { teeth },
                material: if carbide { ToolMaterial::Carbide } else { ToolMaterial::Hss },
                coated: false,
                flute_length,
                shank: diameter.max(Length::inch(0.125)),
                stickout: flute_length + diameter * extra,
                helix: Angle::degree(30.0),
            };
            let cut = Cut {
                operation,
                depth: diameter * deep,
                length: None,
                finish,
                coolant: [Coolant::Flood, Coolant::Brush, Coolant::Dry][usize::from(coolant)],
                style: if brisk { Style::Brisk } else { Style::Gentle },
                own: Own::default(),
            };
            (cutter, cut, tir)
        },
    )
}

struct Question {
    machine: Machine,
    cutter: Cutter,
    cut: Cut,
    tir: f64,
    stock: usize,
}

impl std::fmt::Debug for Question {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { machine, cutter, cut, tir, stock } = self;
        write!(f, "{} {machine:?} {cutter:?} {cut:?} {tir}", MATERIALS[*stock].id)
    }
}

fn questions() -> impl Strategy<Value = Question> {
    (machines(), cuts(), 0..MATERIALS.len()).prop_map(|(machine, (cutter, cut, tir), stock)| {
        Question { machine, cutter, cut, tir, stock }
    })
}

fn with_case(
    q: &Question,
    run: impl FnOnce(&Case) -> Result<(), TestCaseError>,
) -> Result<(), TestCaseError> {
    let mill = OnTheMill {
        machine: &q.machine,
        stock: &MATERIALS[q.stock],
        cutter: q.cutter,
        runout: Some(Length::inch(q.tir)),
        holder: Holder::Collet,
        worn: false,
    };
    let hss = q.cutter.material.edge() == Edge::Hss;
    prop_assume!(!hss || mill.stock.speed(Edge::Hss, Work::Milling).is_some());
    prop_assume!(!q.cut.coolant.refusals(mill.stock).any(|refused| refused.stops));
    let case = Case::new(&mill, &q.cut).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
    run(&case)
}

/// A speed the machine has: this one, or else its lowest.
fn attained(machine: &Machine, rpm: f64) -> SpindleSpeed {
    let n = SpindleSpeed::rpm(rpm);
    if machine.range_of(n).is_some() { n } else { machine.lowest().unwrap() }
}

/// No limit that blocks is over.
fn holds(pass: &Pass, n: SpindleSpeed, f: Length) -> bool {
    pass.read(n, f)
        .iter()
        .all(|m| m.utilisation <= 2.0 + 1e-9 || (m.limit == Limit::Runout && !pass.case.is_small()))
}

/// Hard on a limit that counts for comfort, by the readings.
fn hard(pass: &Pass, n: SpindleSpeed, f: Length) -> bool {
    let marks = pass.read(n, f);
    [Limit::Power, Limit::Bending, Limit::Breakage, Limit::ChipLoad, Limit::Thrust]
        .iter()
        .any(|l| marks.get(*l).is_some_and(|m| m.utilisation > 1.0 + 1e-9))
}

/// Every point of a fine grid that holds.
fn grid(case: &Case) -> Vec<Point> {
    let mut points = Vec::new();
    for count in 1..=case.most_passes().min(MOST_PASSES) {
        let pass = case.pass(count);
        let range = pass.range();
        let speeds = case.speeds(pass.wanted(), range.low);
        let (lowest, highest) = (pass.lowest(range), pass.highest(range));
        for &n in &speeds {
            for i in 0..=80 {
                let f = lowest * libm::pow(highest / lowest, f64::from(i) / 80.0);
                for f in [f, range.low, pass.aim(range, n)] {
                    let by_hand = pass.greatest_by_hand(n, Threshold::Over);
                    let paced = by_hand.is_none_or(|most| f <= most);
                    if f < lowest || f > highest || !paced || !holds(&pass, n, f) {
                        continue;
                    }
                    let fair = n >= pass.slowest() || n == speeds[0];
                    let tier = pass.tier(range, f, fair);
                    let comfort = pass.comfort(range, f, hard(&pass, n, f));
                    points.push(Point { count, n, f, tier, comfort });
                }
            }
        }
    }
    points
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 160,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn the_search_is_never_beaten_by_a_fine_grid(q in questions()) {
        with_case(&q, |case| {
            let found = search(case);
            let grid = grid(case);
            if found.blocked.is_some() {
                prop_assert!(grid.is_empty(), "nothing found, the grid has {:?}", grid.first());
                return Ok(());
            }
            let p = found.point;
            prop_assert_eq!(found.pass.read(p.n, p.f).stopping(case), None, "{:?}", p);
            if case.cut.style == Style::Brisk {
                for g in &grid {
                    let cheaper = case.price(g) < case.price(&p) * 0.98;
                    prop_assert!(!cheaper, "{g:?} beats {p:?}");
                }
            } else {
                for g in &grid {
                    let key = |p: &Point| (p.tier, p.comfort, p.count);
                    prop_assert!(key(g) >= key(&p), "{g:?} beats {p:?}");
                    prop_assert!(
                        key(g) > key(&p) || g.n <= p.n * (1.0 + 1e-9),
                        "{g:?} is faster than {p:?}"
                    );
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_curve_is_where_its_reading_crosses(q in questions(), n in 100.0..2500.0f64, k in 1..6u32) {
        with_case(&q, |case| {
            let (pass, n) = (case.pass(k), attained(&q.machine, n));
            for limit in HOLD_DOWN.into_iter().filter(|l| *l != Limit::Runout) {
                for (threshold, u) in [(Threshold::Near, 1.0), (Threshold::Over, 2.0)] {
                    let Some(f) = pass.greatest_feed(limit, n, threshold) else { continue };
                    if !f.is_positive() { continue; }
                    let marks = pass.read(n, f);
                    let mark = marks.get(limit).unwrap();
                    // A climb within its width, and its floor at near, are not on the curve.
                    if limit == Limit::Climb && (threshold == Threshold::Near || mark.utilisation < 1.1) {
                        continue;
                    }
                    let off = (mark.utilisation - u).abs();
                    prop_assert!(off < 1e-6, "{limit:?} at {f:?}: {} not {u}", mark.utilisation);
                }
            }
            let at = |f| pass.read(n, f);
            let f = pass.least_feed(Threshold::Over);
            if f.is_positive() {
                let u = at(f).get(Limit::Rubbing).unwrap().utilisation;
                prop_assert!((u - 2.0).abs() < 1e-9);
            }
            if case.asked.breakage {
                let f = pass.greatest_feed(Limit::Runout, n, Threshold::Over).unwrap();
                if f.is_positive() && RUNOUT_SHARE.state(case.runout / case.diameter) == State::Within {
                    let u = at(f).get(Limit::Runout).unwrap().utilisation;
                    prop_assert!((u - 2.0).abs() < 1e-6);
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_limit_but_rubbing_and_the_runout_note_rises_with_feed(q in questions(), n in 100.0..2500.0f64) {
        with_case(&q, |case| {
            let (pass, n, f) = (case.pass(1), attained(&q.machine, n), case.feeds.low);
            let (slow, fast) = (pass.read(n, f), pass.read(n, f * 1.3));
            for mark in slow.iter() {
                let after = fast.get(mark.limit).unwrap().utilisation;
                match mark.limit {
                    Limit::Rubbing => prop_assert!(after < mark.utilisation),
                    Limit::Runout => {}
                    _ => prop_assert!(after >= mark.utilisation * (1.0 - 1e-9), "{:?}", mark.limit),
                }
            }
            Ok(())
        })?;
    }
}
