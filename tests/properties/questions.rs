//! Questions as they come: any machine, any stock, every operation with a cutter for it.

use handwheel::engine::{
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    experience::Experience,
    machine::{Axis, Class, Machine, Range, Speeds},
    quantity::{
        Angle, Force, HandRate, Length, Power, SpindleSpeed, Stiffness, Stress, SurfaceSpeed,
    },
    question::{Coolant, Cut, Feeding, Holder, OnTheMill, Operation, Own, Style},
    stock::{Edge, MATERIALS, Work},
};
use proptest::prelude::*;

/// A question that owns all it needs.
#[derive(Clone, Debug)]
pub struct Question {
    pub machine: Machine,
    pub stock: usize,
    pub cutter: Cutter,
    pub runout: Length,
    pub worn: bool,
    pub cut: Cut,
}

impl Question {
    pub fn mill(&self) -> OnTheMill<'_> {
        OnTheMill {
            machine: &self.machine,
            stock: &MATERIALS[self.stock],
            cutter: self.cutter,
            runout: Some(self.runout),
            holder: Holder::Collet,
            worn: self.worn,
        }
    }
}

fn rpm(steps: &[f64]) -> Vec<SpindleSpeed> {
    steps.iter().copied().map(SpindleSpeed::rpm).collect()
}

fn stepless(lowest: f64, highest: f64, base: Option<f64>) -> Speeds {
    let [lowest, highest] = [lowest, highest].map(SpindleSpeed::rpm);
    Speeds::Continuous { lowest, highest, base: base.map(SpindleSpeed::rpm) }
}

fn drives() -> impl Strategy<Value = Vec<Speeds>> {
    prop_oneof![
        Just(vec![
            Speeds::Steps(rpm(&[70.0, 115.0, 190.0, 310.0])),
            Speeds::Steps(rpm(&[560.0, 930.0, 1540.0, 2560.0])),
        ]),
        Just(vec![Speeds::Steps(rpm(&[250.0, 420.0, 700.0, 1150.0, 1900.0]))]),
        (300.0..2500.0).prop_map(|base| vec![stepless(100.0, 2800.0, Some(base))]),
        Just(vec![stepless(50.0, 1000.0, None), stepless(100.0, 2500.0, None)]),
    ]
}

pub fn machines() -> impl Strategy<Value = Machine> {
    let class =
        prop::sample::select(vec![Class::LightBench, Class::Bench, Class::HeavyBench, Class::Knee]);
    let lead = prop::sample::select(vec![0.0625, 0.07874, 0.1, 0.2]);
    (class, drives(), lead, prop::option::of(80.0..1500.0), prop::option::of(0.0..0.02)).prop_map(
        |(class, drives, lead, watts, backlash)| Machine {
            name: "a mill".into(),
            class,
            ranges: drives
                .into_iter()
                .map(|speeds| Range {
                    name: String::new(),
                    speeds,
                    clockwise_label: None,
                    counter_clockwise_label: None,
                })
                .collect(),
            power: watts.map(Power::watt),
            table: Axis {
                lead: Length::inch(lead),
                divisions: None,
                backlash: backlash.map(Length::inch),
            },
            quill_wheel: None,
            stiffness: None,
            table_drag: None,
            comfortable_rate: HandRate::turns_per_min(40.0),
            highest_rate: HandRate::turns_per_min(60.0),
        },
    )
}

/// An operation, the kind of cutter it takes, its teeth and its whole depth over the diameter.
type Job = (Operation, Kind, u32, f64);

/// Every operation on a cutter of a diameter, `wide` and `deep` between 0 and 1.
fn job(op: u8, d: Length, teeth: u32, wide: f64, deep: f64, flag: bool) -> Job {
    let end_mill =
        Kind::EndMill { tip: if flag { Tip::Square } else { Tip::Ball }, center_cutting: true };
    let square = Kind::EndMill { tip: Tip::Square, center_cutting: true };
    let angle = Angle::degree;
    let width = d * wide.max(0.01);
    let drill = Kind::Drill { point_angle: angle(118.0) };
    let side = |feeding| Operation::Side { width, feeding };
    match op {
        0 => (Operation::Slot, end_mill, teeth, 1.5 * deep),
        1 => (side(Feeding::Conventional), square, teeth, 1.5 * deep),
        2 => (side(Feeding::Climb), square, teeth, 1.5 * deep),
        3 => (Operation::Face { width: width * 2.5 }, Kind::FlyCutter, 1, 0.1 * deep),
        4 => {
            let kind = Kind::FaceMill { entering_angle: angle(if flag { 90.0 } else { 45.0 }) };
            (Operation::Face { width: width * 1.5 }, kind, teeth, 0.1 * deep)
        }
        5 => (Operation::Drill { pilot: None, through: flag }, drill, 2, 6.0 * deep),
        6 => (Operation::Drill { pilot: Some(width * 0.9), through: flag }, drill, 2, 6.0 * deep),
        7 => {
            let kind = Kind::SlittingSaw { thickness: d * 0.02 };
            (Operation::Saw, kind, 12 * teeth, 0.4 * deep)
        }
        8 => (Operation::Ream, Kind::Reamer, teeth + 2, 3.0 * deep),
        9 => (Operation::Bore { width: width * 0.1 }, Kind::BoringHead, 1, deep),
        10 => (Operation::Plunge, square, teeth, 2.0 * deep),
        11 => {
            let kind = Kind::Countersink { included_angle: angle(82.0) };
            (Operation::Countersink { hole: width * 0.8 }, kind, teeth, 0.1 * deep)
        }
        _ => (Operation::Spot, Kind::SpotDrill { point_angle: angle(90.0) }, 2, 0.4 * deep),
    }
}

/// Diameters: end mills and drills of a drawer, or the swing of what is made for facing.
fn diameter(op: u8) -> BoxedStrategy<f64> {
    match op {
        3 | 4 | 7 | 9 => (1.0..4.0).boxed(),
        _ => {
            prop_oneof![prop::sample::select(vec![1.0 / 32.0, 0.0625, 0.125, 0.25, 0.5]), 0.08..1.0]
                .boxed()
        }
    }
}

fn cuts() -> impl Strategy<Value = (Cutter, Cut)> {
    (0..13u8)
        .prop_flat_map(|op| {
            let shape = (diameter(op), 2..7u32, any::<bool>(), 0.0..3.0, any::<bool>());
            let wanted = (0.02..1.0, 0.05..1.0, any::<bool>(), 0..3usize, any::<bool>());
            (Just(op), shape, wanted)
        })
        .prop_map(|(op, shape, wanted)| {
            let (inch, teeth, carbide, out, flag) = shape;
            let (wide, deep, finish, coolant, brisk) = wanted;
            let d = Length::inch(inch);
            let (operation, kind, teeth, depth) = job(op, d, teeth, wide, deep, flag);
            let small = d.min(Length::inch(0.75));
            let cutter = Cutter {
                kind,
                diameter: d,
                teeth,
                material: if carbide { ToolMaterial::Carbide } else { ToolMaterial::Hss },
                coated: false,
                flute_length: small * 2.0,
                shank: small.max(Length::inch(0.125)),
                stickout: small * (2.0 + out),
                helix: Angle::degree(30.0),
            };
            let cut = Cut {
                operation,
                depth: d * depth,
                length: Some(Length::inch(3.0)),
                finish: finish && flag,
                coolant: [Coolant::Flood, Coolant::Brush, Coolant::Dry][coolant],
                style: if brisk { Style::Brisk } else { Style::Gentle },
                own: Own::default(),
            };
            (cutter, cut)
        })
}

/// Any question that has an answer.
pub fn questions() -> impl Strategy<Value = Question> {
    let noted = prop::option::weighted(0.2, (0.5..1.0, 0.5..1.2, 3..12_u32));
    (machines(), 0..MATERIALS.len(), cuts(), 0.0001..0.003, prop::bool::weighted(0.1), noted)
        .prop_map(|(machine, stock, (cutter, mut cut), runout, worn, noted)| {
            if let Some((speed, feed, cuts)) = noted {
                cut.own.experience = Experience { speed, feed, cuts };
            }
            Question { machine, stock, cutter, runout: Length::inch(runout), worn, cut }
        })
        .prop_filter("high-speed steel has no figures in this stock", |q| {
            q.mill().stock.speed(q.cutter.material.edge(), Work::Milling).is_some()
                || q.cutter.material.edge() == Edge::Carbide
        })
        .prop_filter("what would hurt with this stock has no answer", |q| {
            !q.cut.coolant.refusals(q.mill().stock).any(|refused| refused.stops)
        })
}

/// A number of any size that a slip of the finger makes, and some that are none.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => (-9.0..6.0f64).prop_map(|e| libm::pow(10.0, e)),
        1 => prop::sample::select(vec![0.0, -1.0, 1e-300, 1e300, f64::NAN, f64::INFINITY]),
    ]
}

/// Makes a question wild: some of its entries are anything at all.
pub fn wild_questions() -> impl Strategy<Value = Question> {
    let entries = prop::collection::vec((0..25u8, any_number(), 0..70u32), 1..4);
    (questions(), entries).prop_map(|(mut q, entries)| {
        for (place, x, count) in entries {
            enter(&mut q, place, x, count);
        }
        q
    })
}

fn enter(q: &mut Question, place: u8, x: f64, count: u32) {
    let (length, own) = (Length::inch(x), &mut q.cut.own);
    match place {
        0 => q.cutter.diameter = length,
        1 => q.cutter.flute_length = length,
        2 => q.cutter.shank = length,
        3 => q.cutter.stickout = length,
        4 => q.cutter.helix = Angle::degree(x),
        5 => q.cutter.teeth = count,
        6 => q.runout = length,
        7 => q.cut.depth = length,
        8 => q.cut.length = Some(length),
        9 => own.feed = Some(length),
        10 => own.feed_as_set = Some(length),
        11 => own.chip = Some(length),
        12 => own.spindle_speed = Some(SpindleSpeed::rpm(x)),
        13 => own.surface_speed = Some(SurfaceSpeed::ft_per_min(x)),
        14 => own.passes = Some(count),
        15 => own.cutting_force = Some(Stress::newton_per_mm2(x)),
        16 => own.unit_power = Some(Stress::hp_per_inch3_min(x)),
        17 => q.machine.power = Some(Power::watt(x)),
        18 => q.machine.table.lead = length,
        19 => q.machine.table.backlash = Some(length),
        20 => q.machine.stiffness = Some(Stiffness::newton_per_um(x)),
        21 => q.machine.table_drag = Some(Force::newton(x)),
        23 => own.experience = Experience { speed: x, feed: x, cuts: count },
        22 => q.machine.highest_rate = HandRate::turns_per_min(x),
        _ => q.machine.ranges[0].speeds = stepless(x, 1000.0, Some(x)),
    }
}
