//! The warnings of practised set-ups.

use crate::set_ups::{knee_ranges, listed, shown, text, with};
use handwheel::engine::{
    machine::Class,
    quantity::{HandRate, Length, SpindleSpeed},
    question::Holder,
    safety::{
        Context,
        context::{Chuck, Hand, Holding, PutOn, Task, ToolKind},
    },
};

fn on_the_bench(c: &mut Context) {
    c.machine.class = Some(Class::Bench);
    c.machine.ranges = vec![knee_ranges().remove(1)];
    c.spindle.range = Some(0);
}

fn slot_3mm(stickout_mm: f64) -> Context {
    with(|c| {
        on_the_bench(c);
        c.tool.diameter = Some(Length::mm(3.0));
        c.tool.stickout = Some(Length::mm(stickout_mm));
        c.cut.task = Some(Task::Slot);
        c.cut.plunges = Some(true);
    })
}

fn drill_m4() -> Context {
    with(|c| {
        c.tool.kind = Some(ToolKind::Drill);
        c.tool.diameter = Some(Length::mm(3.3));
        c.tool.holder = Some(Holder::DrillChuck);
        c.cut.task = Some(Task::Drill);
        c.part.holding = Some(Holding::Vise);
        c.part.parallels = Some(true);
        c.spindle.confirmed = false;
    })
}

fn hand_tap(stock: &str, through: bool) -> Context {
    with(|c| {
        c.cut.task = Some(Task::HandTap);
        c.tool.kind = Some(ToolKind::Tap);
        c.cut.through = Some(through);
        c.part.stock = listed(stock);
    })
}

fn fly_cutter() -> Context {
    with(|c| {
        c.spindle.range = Some(0);
        c.spindle.wanted = Some(SpindleSpeed::rpm(91.7));
        c.spindle.set = Some(SpindleSpeed::rpm(70.0));
        c.spindle.confirmed = false;
        c.tool.kind = Some(ToolKind::FlyCutter);
        c.tool.diameter = Some(Length::inch(2.5));
        c.tool.holder = Some(Holder::Arbor);
        c.cut.task = Some(Task::Face);
        c.cut.interrupted = Some(true);
        c.cut.wheel = Some(HandRate::turns_per_min(2.8));
        c.part.stock = listed("ci_grey");
    })
}

#[test]
fn practised_set_ups_warn_of_what_they_should() {
    let g10 = with(|c| {
        on_the_bench(c);
        c.tool.diameter = Some(Length::inch(0.125));
        c.tool.carbide = Some(true);
        c.part.stock = listed("g10_fr4");
    });
    let batch = with(|c| {
        c.plan.two_machines = Some(true);
        c.plan.next_elsewhere = Some(true);
        c.plan.batch = Some(8);
        c.part.stock = listed("brass_360");
    });
    let finder = with(|c| c.tool.kind = Some(ToolKind::EdgeFinder));
    let tram = with(|c| c.cut.task = Some(Task::Indicate));
    let blind = with(|c| {
        c.cut.task = Some(Task::Drill);
        c.tool.kind = Some(ToolKind::Drill);
        c.tool.diameter = Some(Length::inch(0.201));
        c.cut.depth = Some(Length::inch(0.81));
        c.cut.through = Some(false);
        c.part.holding = Some(Holding::Vise);
    });
    let parallels = with(|c| {
        c.part.holding = Some(Holding::Vise);
        c.part.grip = Some(Length::inch(0.250));
        c.part.height = Some(Length::inch(0.750));
        c.part.parallels = Some(true);
        c.cut.task = Some(Task::Drill);
        c.tool.kind = Some(ToolKind::Drill);
    });
    let dovetail = with(|c| {
        c.tool.diameter = Some(Length::inch(0.375));
        c.tool.stickout = Some(Length::inch(1.6));
        c.cut.task = Some(Task::Side);
        c.cut.climb = Some(true);
        c.machine.backlash = Some(Length::inch(0.010));
        c.part.stock = listed("steel_low_c");
    });
    let straps = with(|c| {
        c.part.holding = Some(Holding::Straps);
        c.part.clamps = Some(2);
        c.part.studs = Some(true);
        c.part.parallels = Some(true);
        c.cut.task = Some(Task::Drill);
        c.tool.kind = Some(ToolKind::Drill);
    });
    let table: [(&str, Context, &[&str], &[&str]); 14] = [
        ("S1", slot_3mm(12.0), &["P28", "F06", "F01", "F07"], &["P27", "S18", "P50", "P54", "P58"]),
        ("S1, longer", slot_3mm(12.1), &["P27"], &[]),
        ("S2", drill_m4(), &["S01", "P33", "F04", "S03"], &["S02", "C06"]),
        ("S2, tap", hand_tap("al_6061", true), &["S15"], &["C06", "S16"]),
        ("S3", hand_tap("ss_303", false), &["F13", "S15", "C06", "P01"], &["S16"]),
        ("S4", fly_cutter(), &["S12", "S02", "S03", "P08", "P24", "F12", "P62"], &["S04"]),
        ("S5", g10, &["P56", "C04", "S18", "P28"], &["F13", "P61", "P70"]),
        ("S6", batch, &["F15", "A06", "A08", "P55"], &["P54"]),
        ("S7", finder, &["S11"], &["S12"]),
        ("S8", tram, &["S14"], &["S03"]),
        ("S9", parallels, &["P33"], &["P31"]),
        ("S10", blind, &["C06", "F05"], &["F04"]),
        ("S11", dovetail, &["F02", "S01", "P27"], &["F03", "S02"]),
        ("S12", straps, &["P34", "P36", "P37", "P33"], &["P35", "P30"]),
    ];
    for (name, context, must, must_not) in table {
        let shown = shown(&context);
        for id in must {
            assert!(shown.contains(id), "{name} does not show {id}");
        }
        for id in must_not {
            assert!(!shown.contains(id), "{name} shows {id}");
        }
    }
}

#[test]
fn the_fly_cutter_turns_by_rev_at_its_own_speed() {
    assert_eq!(text(&fly_cutter(), "S01"), "Switch to REV: spindle must turn clockwise from above");
    assert_eq!(
        text(&fly_cutter(), "S12"),
        "Fly cutter: 70 rpm at most, balance checked, bit screws tight"
    );
}

#[test]
fn a_screw_on_chuck_matters_where_the_spindle_is_reversed() {
    let tap = |hand: Hand, task: Task| {
        with(|c| {
            c.machine.chuck = Some(Chuck::ScrewOn);
            c.tool.hand = Some(hand);
            c.cut.task = Some(task);
            c.cut.fluid = Some(PutOn::Oil);
        })
    };
    assert!(shown(&tap(Hand::Right, Task::PowerTap)).contains(&"S05"));
    assert!(shown(&tap(Hand::Left, Task::Drill)).contains(&"S05"));
    assert!(!shown(&tap(Hand::Right, Task::Drill)).contains(&"S05"));
}
