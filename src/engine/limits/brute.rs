//! The search and the closed-form curves against brute force.

use proptest::prelude::*;

use super::{
    case::{Case, Depth, Mark, Threshold},
    search::{Point, aim, range, search, tier, time},
    threshold::{DEPTH_GRACE, RUNOUT_SHARE},
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
    let case = Case::new(&mill, &q.cut).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
    run(&case)
}

/// No limit that blocks is over.
fn holds(case: &Case, depth: &Depth, n: f64, f: f64) -> bool {
    case.read(depth, n, f)
        .iter()
        .all(|m| m.u <= 2.0 + 1e-9 || (m.limit == Limit::Runout && !case.is_small()))
}

/// Comfortable by the readings.
fn easy(case: &Case, depth: &Depth, n: f64, f: f64) -> bool {
    let marks = case.read(depth, n, f);
    [Limit::Power, Limit::Bending, Limit::Breakage, Limit::ChipLoad, Limit::Thrust]
        .iter()
        .all(|l| marks.get(*l).is_none_or(|m| m.u <= 1.0 + 1e-9))
        && marks
            .get(Limit::Depth)
            .is_none_or(|m| m.x <= m.band.within * (1.0 + DEPTH_GRACE) * (1.0 - 1e-9))
}

/// Every point of a fine grid that holds.
fn grid(case: &Case) -> Vec<Point> {
    let mut points = Vec::new();
    for k in 1..=case.most_passes().min(MOST_PASSES) {
        let depth = case.depth(k);
        let range = range(case, &depth);
        let n_want = case.rpm_for(&depth, case.v_want);
        let n_floor = case.rpm_for(&depth, case.v_floor);
        let speeds = case.speeds(n_want, range.low);
        let top = if case.cut.finish { case.high } else { 1.5 * range.high };
        let thinnest = if case.never_thin() { range.low } else { 0.4 * range.low };
        for &n in &speeds {
            for i in 0..=60 {
                let f = thinnest * libm::pow(top / thinnest, f64::from(i) / 60.0);
                for f in [f, range.low, aim(case, range, n)] {
                    if f < thinnest || f > top || !holds(case, &depth, n, f) {
                        continue;
                    }
                    let fair = n >= n_floor || n == speeds[0];
                    let tier = tier(f >= range.low * (1.0 - 1e-12), fair);
                    let comfort = u8::from(!easy(case, &depth, n, f));
                    points.push(Point { k, n, f, tier, comfort });
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
            let blocks = |m: &&Mark| m.state == State::Over
                && (m.limit != Limit::Runout || case.is_small());
            let marks = case.read(&found.depth, p.n, p.f);
            prop_assert!(marks.iter().find(blocks).is_none(), "{p:?}");
            if case.cut.style == Style::Brisk {
                let class = |p: &Point| p.tier > 0;
                let quickest = grid.iter().filter(|g| class(g) <= class(&p));
                for g in quickest {
                    prop_assert!(class(g) == class(&p), "{g:?} has a fuller chip than {p:?}");
                    prop_assert!(time(case, g) >= 0.98 * time(case, &p), "{g:?} is quicker than {p:?}");
                }
            } else {
                for g in &grid {
                    let key = |p: &Point| (p.tier, p.comfort, p.k);
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
            let n = if case.power_at(n) > 0.0 { n } else { case.mill.machine.lowest().unwrap().to_rpm() };
            let depth = case.depth(k);
            for limit in [
                Limit::ChipLoad, Limit::Wheel, Limit::Power, Limit::Bending,
                Limit::Breakage, Limit::Climb, Limit::Thrust,
            ] {
                for (threshold, u) in [(Threshold::Near, 1.0), (Threshold::Over, 2.0)] {
                    let Some(f) = case.greatest_feed(&depth, limit, n, threshold) else { continue };
                    if f <= 0.0 || !f.is_finite() { continue; }
                    let marks = case.read(&depth, n, f);
                    let mark = marks.get(limit).unwrap();
                    // A climb within its width, and its floor at near, are not on the curve.
                    if limit == Limit::Climb && (threshold == Threshold::Near || mark.u < 1.1) {
                        continue;
                    }
                    prop_assert!((mark.u - u).abs() < 1e-6, "{limit:?} at {f}: {} not {u}", mark.u);
                }
            }
            let f = case.least_feed(&depth, Threshold::Over);
            if f > 0.0 {
                let marks = case.read(&depth, n, f);
                prop_assert!((marks.get(Limit::Rubbing).unwrap().u - 2.0).abs() < 1e-9);
            }
            if case.asked.breakage {
                let f = case.greatest_feed(&depth, Limit::Runout, n, Threshold::Over).unwrap();
                if f > 0.0 && RUNOUT_SHARE.state(case.tir / case.d) == State::Within {
                    let marks = case.read(&depth, n, f);
                    prop_assert!((marks.get(Limit::Runout).unwrap().u - 2.0).abs() < 1e-6);
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_limit_but_rubbing_and_the_runout_note_rises_with_feed(q in questions(), n in 100.0..2500.0f64) {
        with_case(&q, |case| {
            let depth = case.depth(1);
            let f = case.low;
            let (slow, fast) = (case.read(&depth, n, f), case.read(&depth, n, 1.3 * f));
            for mark in slow.iter() {
                let after = fast.get(mark.limit).unwrap();
                match mark.limit {
                    Limit::Rubbing => prop_assert!(after.u < mark.u),
                    Limit::Runout => {}
                    _ => prop_assert!(after.u >= mark.u * (1.0 - 1e-9), "{:?}", mark.limit),
                }
            }
            Ok(())
        })?;
    }
}
