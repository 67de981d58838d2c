//! Every rule once where it shows and once where it does not, from set-ups and not from the rule.

use crate::set_ups::{calm, listed, rpm, shown, with};
use handwheel::engine::{
    machine::Class,
    quantity::{HandRate, Length, SpindleSpeed},
    question::Holder,
    safety::{
        Context, RULES,
        context::{Chuck, Drive, Hand, Holding, PutOn, Stock, Task, ToolKind},
    },
};

type Change = fn(&mut Context);

/// Rules that every set-up shows.
const ALWAYS: [&str; 20] = [
    "P01", "P02", "P05", "P06", "P10", "P15", "P17", "S01", "S08", "S09", "S21", "S22", "F01",
    "F09", "F10", "F11", "C01", "C02", "A01", "A02",
];

fn drill(c: &mut Context) {
    c.cut.task = Some(Task::Drill);
    c.tool.kind = Some(ToolKind::Drill);
    c.part.holding = Some(Holding::Straps);
    c.part.clamps = Some(2);
}

/// For every other rule a change that shows it, and one close by that does not.
const CASES: [(&str, Change, Change); 96] = [
    ("P03", |c| c.person.prescription = Some(true), |c| c.person.long_hair = Some(true)),
    ("P04", |c| c.person.long_hair = Some(true), |c| c.person.prescription = Some(true)),
    ("P07", |c| c.plan.hour = Some(22), |c| c.plan.hour = Some(21)),
    ("P08", |c| c.machine.chip_shield = Some(false), |c| c.machine.drawbar = Some(true)),
    ("P09", |c| c.person.bystanders = Some(true), |c| c.person.alone = Some(true)),
    ("P11", |c| c.machine.drive = Some(Drive::Belt), |c| c.machine.drive = Some(Drive::Variable)),
    (
        "P12",
        |c| {
            c.machine.drive = Some(Drive::Belt);
            c.spindle.speed_changed = Some(true);
        },
        |c| c.machine.drive = Some(Drive::Belt),
    ),
    (
        "P13",
        |c| c.machine.restart_protection = Some(false),
        |c| c.machine.chip_shield = Some(false),
    ),
    ("P14", |c| c.machine.class = Some(Class::HeavyBench), |c| c.machine.drawbar = Some(true)),
    ("P16", |c| c.person.phone_on_table = Some(true), |c| c.person.alone = Some(true)),
    ("P18", |c| c.person.floor_wet = Some(true), |c| c.person.alone = Some(true)),
    ("P19", |c| c.person.alone = Some(true), |c| c.person.bystanders = Some(true)),
    ("P20", |c| c.spindle.tool_changed = Some(true), |c| c.spindle.speed_changed = Some(true)),
    ("P21", |c| c.spindle.tool_changed = Some(true), |c| c.spindle.new_set_up = Some(true)),
    ("P22", |c| c.machine.drawbar = Some(true), |c| c.machine.chip_shield = Some(false)),
    (
        "P23",
        |c| {
            c.tool.holder = Some(Holder::DrillChuck);
            c.machine.chuck = Some(Chuck::Key);
        },
        |c| c.tool.holder = Some(Holder::DrillChuck),
    ),
    (
        "P24",
        |c| c.tool.kind = Some(ToolKind::FaceMill),
        |c| c.tool.kind = Some(ToolKind::SlittingSaw),
    ),
    (
        "P25",
        |c| c.tool.holder = Some(Holder::Collet),
        |c| {
            c.tool.holder = Some(Holder::Collet);
            c.tool.kind = Some(ToolKind::Drill);
        },
    ),
    (
        "P26",
        |c| c.tool.holder = Some(Holder::DrillChuck),
        |c| {
            c.tool.holder = Some(Holder::DrillChuck);
            c.tool.kind = Some(ToolKind::Drill);
        },
    ),
    (
        "P27",
        |c| c.tool.stickout = Some(Length::inch(2.001)),
        |c| c.tool.stickout = Some(Length::inch(2.0)),
    ),
    (
        "P28",
        |c| c.tool.diameter = Some(Length::inch(0.125)),
        |c| c.tool.diameter = Some(Length::inch(0.126)),
    ),
    (
        "P29",
        |c| c.tool.kind = Some(ToolKind::SlittingSaw),
        |c| c.tool.kind = Some(ToolKind::FaceMill),
    ),
    (
        "P30",
        |c| c.part.holding = Some(Holding::SoftJaws),
        |c| c.part.holding = Some(Holding::Straps),
    ),
    (
        "P31",
        |c| {
            c.part.holding = Some(Holding::Vise);
            c.part.grip = Some(Length::inch(0.249));
        },
        // A third of the height is enough.
        |c| {
            c.part.holding = Some(Holding::Vise);
            c.part.grip = Some(Length::inch(0.25));
        },
    ),
    ("P32", |c| c.part.holding = Some(Holding::Vise), |c| c.part.holding = Some(Holding::Tape)),
    (
        "P33",
        |c| {
            drill(c);
            c.part.parallels = Some(true);
        },
        |c| {
            drill(c);
            c.part.parallels = Some(true);
            c.cut.through = Some(false);
        },
    ),
    ("P34", |c| c.part.holding = Some(Holding::Straps), |c| c.part.holding = Some(Holding::Vise)),
    (
        "P35",
        |c| {
            c.part.holding = Some(Holding::Straps);
            c.part.clamps = Some(1);
        },
        |c| {
            c.part.holding = Some(Holding::Straps);
            c.part.clamps = Some(2);
        },
    ),
    (
        "P36",
        |c| {
            c.part.holding = Some(Holding::Straps);
            c.part.studs = Some(true);
        },
        |c| c.part.holding = Some(Holding::Straps),
    ),
    ("P37", |c| c.part.holding = Some(Holding::Straps), |c| c.part.holding = Some(Holding::Vise)),
    (
        "P38",
        |c| {
            drill(c);
            c.part.holding = Some(Holding::Nothing);
        },
        drill,
    ),
    (
        "P39",
        |c| {
            c.part.holding = Some(Holding::Vise);
            c.part.overhangs = Some(true);
        },
        |c| c.part.holding = Some(Holding::Vise),
    ),
    ("P40", |c| c.part.thin = Some(true), |c| c.part.overhangs = Some(true)),
    ("P41", |c| c.part.holding = Some(Holding::Tape), |c| c.part.holding = Some(Holding::Vise)),
    ("P42", |c| c.part.heavy = Some(true), |c| c.part.thin = Some(true)),
    ("P43", |c| c.spindle.tool_changed = Some(true), |c| c.machine.drawbar = Some(true)),
    ("P50", |c| c.part.stock = listed("magnesium"), |c| c.part.stock = listed("ti_cp")),
    (
        "P51",
        |c| {
            c.part.stock = listed("magnesium");
            c.cut.fluid = Some(PutOn::Mist);
        },
        |c| {
            c.part.stock = listed("magnesium");
            c.cut.fluid = Some(PutOn::Oil);
        },
    ),
    ("P52", |c| c.part.stock = listed("ti_6al4v"), |c| c.part.stock = listed("ss_304")),
    ("P53", |c| c.part.stock = listed("ti_cp"), |c| c.part.stock = listed("magnesium")),
    (
        "P54",
        |c| c.part.stock = Some(Stock::BerylliumCopper),
        |c| c.part.stock = listed("bronze_al"),
    ),
    ("P55", |c| c.part.stock = listed("brass_360"), |c| c.part.stock = listed("brass_naval")),
    ("P56", |c| c.part.stock = listed("phenolic_linen"), |c| c.part.stock = listed("cfrp")),
    ("P57", |c| c.part.stock = listed("cfrp"), |c| c.part.stock = listed("g10_fr4")),
    ("P58", |c| c.part.stock = Some(Stock::Silica), |c| c.part.stock = listed("g10_fr4")),
    ("P59", |c| c.part.stock = listed("hardwood"), |c| c.part.stock = listed("wax")),
    ("P60", |c| c.part.stock = listed("ptfe"), |c| c.part.stock = listed("pvc")),
    ("P61", |c| c.part.stock = listed("pom"), |c| c.part.stock = listed("nylon")),
    (
        "P62",
        |c| c.part.stock = listed("ci_grey"),
        |c| {
            c.part.stock = listed("ci_grey");
            c.cut.fluid = Some(PutOn::Oil);
        },
    ),
    ("P63", |c| c.part.stock = None, |c| c.part.stock = listed("magnesium")),
    (
        "P64",
        |c| c.person.grinding_nearby = Some(true),
        |c| {
            c.person.grinding_nearby = Some(true);
            c.part.stock = listed("steel_low_c");
        },
    ),
    ("P70", |c| c.cut.fluid = Some(PutOn::Oil), |c| c.cut.air = Some(true)),
    (
        "P71",
        |c| {
            c.cut.fluid = Some(PutOn::WaterMix);
            c.person.stale_fluid = Some(true);
        },
        |c| {
            c.cut.fluid = Some(PutOn::Oil);
            c.person.stale_fluid = Some(true);
        },
    ),
    ("P72", |c| c.cut.fluid = Some(PutOn::Mist), |c| c.cut.fluid = Some(PutOn::WaterMix)),
    ("P73", |c| c.cut.fluid = Some(PutOn::Spirit), |c| c.cut.fluid = Some(PutOn::Oil)),
    ("S02", |c| c.spindle.range = Some(0), |c| c.spindle.range_changed = Some(true)),
    ("S03", |c| c.spindle.confirmed = false, |c| c.spindle.range_changed = Some(true)),
    ("S04", |c| c.tool.hand = Some(Hand::Left), |c| c.tool.kind = Some(ToolKind::Tap)),
    (
        "S05",
        |c| {
            c.machine.chuck = Some(Chuck::ScrewOn);
            c.tool.hand = Some(Hand::Left);
        },
        |c| c.machine.chuck = Some(Chuck::ScrewOn),
    ),
    ("S06", |c| c.spindle.speed_changed = Some(true), |c| c.spindle.tool_changed = Some(true)),
    ("S07", |c| c.spindle.new_set_up = Some(true), |c| c.spindle.speed_changed = Some(true)),
    ("S10", |c| c.cut.task = Some(Task::Side), drill),
    (
        "S11",
        |c| c.tool.kind = Some(ToolKind::EdgeFinder),
        |c| c.tool.kind = Some(ToolKind::Indicator),
    ),
    (
        "S12",
        |c| c.tool.kind = Some(ToolKind::FlyCutter),
        |c| c.tool.kind = Some(ToolKind::FaceMill),
    ),
    (
        "S13",
        |c| c.tool.kind = Some(ToolKind::BoringHead),
        |c| c.tool.kind = Some(ToolKind::FlyCutter),
    ),
    ("S14", |c| c.cut.task = Some(Task::Indicate), |c| c.cut.task = Some(Task::HandTap)),
    ("S15", |c| c.cut.task = Some(Task::HandTap), |c| c.cut.task = Some(Task::PowerTap)),
    ("S16", |c| c.cut.task = Some(Task::PowerTap), |c| c.cut.task = Some(Task::HandTap)),
    (
        "S17",
        |c| {
            c.cut.task = Some(Task::PowerTap);
            c.tool.hand = Some(Hand::Left);
        },
        |c| c.cut.task = Some(Task::PowerTap),
    ),
    ("S18", |c| c.tool.carbide = Some(true), |c| c.cut.climb = Some(true)),
    (
        "S19",
        |c| c.spindle.set = Some(SpindleSpeed::rpm(998.0)),
        |c| c.spindle.set = Some(SpindleSpeed::rpm(997.0)),
    ),
    (
        "S20",
        |c| c.spindle.wanted = Some(SpindleSpeed::rpm(66.0)),
        |c| c.spindle.wanted = Some(SpindleSpeed::rpm(67.0)),
    ),
    (
        "F02",
        |c| {
            c.cut.task = Some(Task::Side);
            c.cut.climb = Some(true);
            c.machine.backlash = Some(Length::inch(0.010));
        },
        |c| {
            c.cut.task = Some(Task::Side);
            c.cut.climb = Some(true);
        },
    ),
    (
        "F03",
        |c| {
            c.cut.task = Some(Task::Side);
            c.cut.climb = Some(true);
        },
        |c| c.cut.task = Some(Task::Side),
    ),
    ("F04", drill, |c| {
        drill(c);
        c.cut.through = Some(false);
    }),
    (
        "F05",
        |c| {
            drill(c);
            c.cut.depth = Some(Length::inch(1.51));
        },
        |c| {
            drill(c);
            c.cut.depth = Some(Length::inch(1.5));
        },
    ),
    (
        "F06",
        |c| c.tool.diameter = Some(Length::mm(3.0)),
        |c| c.tool.diameter = Some(Length::mm(4.0)),
    ),
    (
        "F07",
        |c| {
            c.cut.task = Some(Task::Slot);
            c.cut.plunges = Some(true);
        },
        |c| c.cut.task = Some(Task::Slot),
    ),
    ("F08", |c| c.tool.kind = Some(ToolKind::SlittingSaw), drill),
    (
        "F12",
        |c| c.cut.wheel = Some(HandRate::turns_per_min(2.8)),
        |c| c.cut.wheel = Some(HandRate::turns_per_min(8.0)),
    ),
    ("F13", |c| c.part.stock = listed("ss_303"), |c| c.part.stock = listed("steel_low_c")),
    ("F14", |c| c.part.stock = listed("magnesium"), |c| c.part.stock = listed("zinc")),
    ("F15", |c| c.plan.two_machines = Some(true), |c| c.plan.next_elsewhere = Some(true)),
    ("C03", |c| c.cut.air = Some(true), |c| c.cut.fluid = Some(PutOn::Mist)),
    ("C04", |c| c.part.stock = listed("g10_fr4"), |c| c.part.stock = listed("nylon")),
    ("C05", |c| c.cut.air = Some(true), |c| c.part.stock = listed("g10_fr4")),
    (
        "C06",
        |c| {
            c.cut.task = Some(Task::HandTap);
            c.cut.through = Some(false);
        },
        |c| c.cut.task = Some(Task::HandTap),
    ),
    ("C07", |c| c.part.stock = listed("steel_low_c"), |c| c.part.stock = listed("wax")),
    ("C08", |c| c.part.stock = listed("ti_cp"), |c| c.part.stock = listed("al_cast")),
    ("A03", |c| c.tool.stays = Some(true), |c| c.spindle.tool_changed = Some(true)),
    ("A04", |c| c.part.stock = listed("cfrp"), |c| c.part.stock = listed("hardwood")),
    ("A05", |c| c.cut.fluid = Some(PutOn::Oil), |c| c.cut.air = Some(true)),
    ("A06", |c| c.plan.next_elsewhere = Some(true), |c| c.plan.two_machines = Some(true)),
    ("A07", |c| c.spindle.speed_changed = Some(true), |c| c.spindle.tool_changed = Some(true)),
    ("A08", |c| c.plan.batch = Some(2), |c| c.plan.batch = Some(1)),
    ("A09", |c| c.plan.end_of_day = Some(true), |c| c.plan.hour = Some(21)),
];

/// Other ways to the same rule.
const MORE: [(&str, Change); 18] = [
    ("P07", |c| c.person.tired = Some(true)),
    ("P07", |c| c.plan.hour = Some(4)),
    ("P08", |c| c.tool.kind = Some(ToolKind::FlyCutter)),
    ("P08", |c| c.cut.interrupted = Some(true)),
    ("P08", |c| c.part.stock = listed("ci_grey")),
    ("P31", |c| {
        c.part.holding = Some(Holding::Vise);
        c.part.grip = Some(Length::inch(0.19));
        c.part.height = Some(Length::inch(0.4));
    }),
    ("P33", |c| c.part.near_parallels = Some(true)),
    ("P37", |c| c.part.clamps = Some(1)),
    ("P56", |c| c.part.stock = listed("g10_fr4")),
    ("P56", |c| c.part.stock = listed("tooling_board")),
    ("P61", |c| c.part.stock = listed("pvc")),
    ("P62", |c| c.part.stock = listed("graphite")),
    ("S05", |c| {
        c.machine.chuck = Some(Chuck::ScrewOn);
        c.cut.task = Some(Task::PowerTap);
    }),
    ("S20", |c| c.machine.ranges.iter_mut().for_each(|r| r.speeds = rpm(&[1100.0]))),
    ("F07", |c| c.cut.task = Some(Task::Plunge)),
    ("F13", |c| c.part.stock = listed("ti_cp")),
    ("C04", |c| c.part.stock = Some(Stock::BerylliumCopper)),
    ("A04", |c| c.part.stock = listed("brass_360")),
];

#[test]
fn every_rule_has_its_cases() {
    let mut ids: Vec<&str> = ALWAYS.into_iter().chain(CASES.iter().map(|case| case.0)).collect();
    ids.sort_unstable();
    let mut table: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    table.sort_unstable();
    assert_eq!(ids, table);
    assert_eq!(table.len(), 116);
}

#[test]
fn a_calm_set_up_shows_what_every_set_up_shows_and_nothing_else() {
    let mut shown = shown(&calm());
    shown.sort_unstable();
    let mut always = ALWAYS;
    always.sort_unstable();
    assert_eq!(shown, always);
}

#[test]
fn every_rule_shows_where_it_should_and_not_where_it_should_not() {
    for (id, shows, hides) in CASES {
        assert!(shown(&with(shows)).contains(&id), "{id} does not show");
        assert!(!shown(&with(hides)).contains(&id), "{id} shows close by");
    }
    for (id, shows) in MORE {
        assert!(shown(&with(shows)).contains(&id), "{id} does not show the other way");
    }
}

#[test]
fn rules_without_a_condition_show_in_every_set_up() {
    for (id, change, _) in CASES {
        let shown = shown(&with(change));
        for always in ALWAYS {
            assert!(shown.contains(&always), "{always} is missing where {id} shows");
        }
    }
}
