//! The two mills of the scenario, and cutters for them.
#![allow(dead_code, reason = "each test takes what it needs")]

use handwheel::engine::{
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    machine::{Axis, Class, Machine, Range, Speeds},
    quantity::{Angle, HandRate, Length, Power, SpindleSpeed},
    question::{Coolant, Cut, Holder, OnTheMill, Operation, Own, Style},
    stock::material,
};

fn range(name: &str, speeds: Speeds, clockwise: &str) -> Range {
    let other = if clockwise == "FWD" { "REV" } else { "FWD" };
    Range {
        name: name.to_owned(),
        speeds,
        clockwise_label: Some(clockwise.to_owned()),
        counter_clockwise_label: Some(other.to_owned()),
    }
}

fn steps(list: &[f64]) -> Speeds {
    Speeds::Steps(list.iter().copied().map(SpindleSpeed::rpm).collect())
}

pub fn bench_mill() -> Machine {
    Machine {
        name: "Bench mill".into(),
        class: Class::Bench,
        ranges: vec![range(
            "",
            Speeds::Continuous {
                lowest: SpindleSpeed::rpm(100.0),
                highest: SpindleSpeed::rpm(2800.0),
                base: Some(SpindleSpeed::rpm(1100.0)),
            },
            "FWD",
        )],
        power: Some(Power::watt(350.0)),
        table: Axis {
            lead: Length::inch(0.0625),
            divisions: Some(62.5),
            backlash: Some(Length::inch(0.010)),
        },
        quill_wheel: Some(Axis { lead: Length::inch(0.050), divisions: None, backlash: None }),
        stiffness: None,
        table_drag: None,
        comfortable_rate: HandRate::turns_per_min(40.0),
        highest_rate: HandRate::turns_per_min(60.0),
    }
}

pub fn knee_mill() -> Machine {
    Machine {
        name: "Knee mill".into(),
        class: Class::Knee,
        ranges: vec![
            range("low", steps(&[70.0, 115.0, 190.0, 310.0]), "REV"),
            range("high", steps(&[560.0, 930.0, 1540.0, 2560.0]), "FWD"),
        ],
        power: Some(Power::watt(1100.0)),
        table: Axis {
            lead: Length::inch(0.200),
            divisions: Some(200.0),
            backlash: Some(Length::inch(0.010)),
        },
        quill_wheel: None,
        stiffness: None,
        table_drag: None,
        comfortable_rate: HandRate::turns_per_min(40.0),
        highest_rate: HandRate::turns_per_min(60.0),
    }
}

pub fn end_mill(diameter: Length, teeth: u32, material: ToolMaterial) -> Cutter {
    Cutter {
        kind: Kind::EndMill { tip: Tip::Square, center_cutting: true },
        diameter,
        teeth,
        material,
        coated: false,
        flute_length: diameter * 2.0,
        shank: diameter.max(Length::inch(0.125)),
        stickout: diameter * 2.0 + Length::inch(0.25),
        helix: Angle::degree(30.0),
    }
}

pub fn on<'a>(machine: &'a Machine, stock: &str, cutter: Cutter) -> OnTheMill<'a> {
    OnTheMill {
        machine,
        stock: material(stock).expect("it is in the table"),
        cutter,
        runout: Some(Length::inch(0.0005)),
        holder: Holder::Collet,
        worn: false,
    }
}

pub fn cut(operation: Operation, depth: Length) -> Cut {
    Cut {
        operation,
        depth,
        length: None,
        finish: false,
        coolant: Coolant::Brush,
        style: Style::Gentle,
        own: Own::default(),
    }
}
