//! Set-ups with what they have to show and what they must not.

use crate::set_ups::{calm, knee_ranges, list, listed, shown, text, with};
use handwheel::engine::{
    machine::Class,
    quantity::{Length, SpindleSpeed},
    question::Holder,
    safety::{
        Context, Severity,
        context::{Chuck, Hand, Holding, PutOn, Stock, Task, ToolKind},
    },
};

fn knee_drill(range: usize) -> Context {
    with(|c| {
        c.machine.chuck = Some(Chuck::Key);
        c.machine.drawbar = Some(true);
        c.spindle.range = Some(range);
        c.spindle.set = Some(SpindleSpeed::rpm(if range == 0 { 310.0 } else { 560.0 }));
        c.tool.kind = Some(ToolKind::Drill);
        c.tool.holder = Some(Holder::DrillChuck);
        c.tool.diameter = Some(Length::inch(0.625));
        c.tool.stickout = Some(Length::inch(5.0));
        c.cut.task = Some(Task::Drill);
        c.part.stock = listed("ss_303");
    })
}

fn magnesium_on_the_bench() -> Context {
    with(|c| {
        c.machine.class = Some(Class::Bench);
        c.machine.ranges = vec![knee_ranges().remove(1)];
        c.spindle.range = Some(0);
        c.tool.holder = Some(Holder::Collet);
        c.cut.task = Some(Task::Side);
        c.cut.fluid = Some(PutOn::WaterMix);
        c.part.stock = listed("magnesium");
        c.part.holding = Some(Holding::Vise);
    })
}

#[test]
fn each_probe_shows_what_it_must_and_not_what_it_must_not() {
    let left = with(|c| c.tool.hand = Some(Hand::Left));
    let tap = |task: Task, range: usize| {
        with(|c| {
            c.cut.task = Some(task);
            c.tool.kind = Some(ToolKind::Tap);
            c.spindle.range = Some(range);
        })
    };
    let g10 = with(|c| {
        c.part.stock = listed("g10_fr4");
        c.cut.air = Some(true);
    });
    let finder = with(|c| {
        c.tool.kind = Some(ToolKind::EdgeFinder);
        c.spindle.before = Some(SpindleSpeed::rpm(1540.0));
    });
    let chucked = with(|c| c.tool.holder = Some(Holder::DrillChuck));
    let unseen = unseen();
    let unknown = with(|c| c.part.stock = None);
    let probes: [(&str, Context, &[&str], &[&str]); 11] = [
        (
            "K1",
            magnesium_on_the_bench(),
            &["P50", "P51", "P52", "F14", "C04", "C08"],
            &["P55", "P59"],
        ),
        ("K2", knee_drill(0), &["S02", "S01", "P38", "F13", "F04"], &["S04", "S17", "P24"]),
        ("K3", knee_drill(1), &["S01"], &["S02"]),
        ("K4", left, &["S04", "S01"], &[]),
        ("K5", tap(Task::HandTap, 1), &["S15", "P01"], &["S16"]),
        ("K6", tap(Task::PowerTap, 0), &["S16", "S02"], &["S17"]),
        ("K7", g10, &["P56", "C03", "C05", "C04"], &["P70", "P71"]),
        ("K8", finder, &["S11"], &["S12"]),
        ("K9", chucked, &["P26"], &["P25"]),
        ("K10", unseen, &["S03"], &["S02"]),
        ("K11", unknown, &["P63"], &[]),
    ];
    for (name, context, must, must_not) in probes {
        let shown = shown(&context);
        for id in must {
            assert!(shown.contains(id), "{name} does not show {id}");
        }
        for id in must_not {
            assert!(!shown.contains(id), "{name} shows {id}");
        }
    }
}

/// The knee mill in the low range, where nobody has looked yet.
fn unseen() -> Context {
    let mut context = knee_drill(0);
    context.machine.ranges[0].clockwise_label = None;
    context.machine.ranges[0].counter_clockwise_label = None;
    context
}

#[test]
fn a_drill_in_the_low_range_says_rev_and_in_the_high_range_fwd() {
    assert_eq!(
        text(&knee_drill(0), "S01"),
        "Switch to REV: spindle must turn clockwise from above"
    );
    assert!(text(&knee_drill(0), "S02").contains("REV"));
    assert_eq!(
        text(&knee_drill(1), "S01"),
        "Switch to FWD: spindle must turn clockwise from above"
    );
}

#[test]
fn a_left_hand_cutter_in_the_high_range_says_rev_and_counter_clockwise() {
    let left = with(|c| c.tool.hand = Some(Hand::Left));
    assert_eq!(text(&left, "S01"), "Switch to REV: spindle must turn counter-clockwise from above");
}

#[test]
fn a_left_hand_tap_in_the_low_range_goes_in_on_fwd_and_out_on_rev() {
    let tap = with(|c| {
        c.cut.task = Some(Task::PowerTap);
        c.tool.kind = Some(ToolKind::Tap);
        c.tool.hand = Some(Hand::Left);
        c.spindle.range = Some(0);
    });
    assert_eq!(text(&tap, "S17"), "Left-hand tap: IN is FWD, OUT is REV; test in air");
    let right = with(|c| {
        c.cut.task = Some(Task::PowerTap);
        c.spindle.range = Some(0);
    });
    assert!(text(&right, "S02").contains("REV"));
    let list = list(&right);
    let note = list.items().find(|item| item.rule.id == "S16").and_then(|item| item.note.clone());
    assert_eq!(note.as_deref(), Some("IN is REV, OUT is FWD."));
}

#[test]
fn a_switch_that_nobody_has_seen_is_never_named() {
    let unseen = unseen();
    let list = list(&unseen);
    let jog = list.items().find(|item| item.rule.id == "S03").expect("it demands a look");
    assert_eq!(jog.rule.severity, Severity::Stop);
    for item in list.shown() {
        let says = item.text.contains("FWD") || item.text.contains("REV");
        assert!(!says, "{}: {}", item.rule.id, item.text);
    }
    assert!(text(&unseen, "S01").contains("clockwise from above"));
    // That somebody once ticked it does not make it known.
    let mut ticked = unseen;
    ticked.spindle.confirmed = true;
    assert!(shown(&ticked).contains(&"S03"));
}

#[test]
fn an_unknown_hand_of_cut_names_no_way() {
    let unknown = with(|c| c.tool.hand = None);
    let said = text(&unknown, "S01");
    assert!(!said.contains("clockwise") && !said.contains("FWD"), "{said}");
}

#[test]
fn a_spindle_turned_by_hand_has_no_switch_to_set() {
    for task in [Task::HandTap, Task::Indicate] {
        let by_hand = with(|c| c.cut.task = Some(task));
        assert_eq!(text(&by_hand, "S01"), "By hand, power isolated: clockwise from above");
        assert!(!shown(&by_hand).contains(&"S03"));
    }
}

#[test]
fn an_edge_finder_after_a_fast_cut_is_told_the_speed_it_must_not_have() {
    let finder = with(|c| {
        c.tool.kind = Some(ToolKind::EdgeFinder);
        c.spindle.before = Some(SpindleSpeed::rpm(1540.0));
    });
    assert_eq!(text(&finder, "S11"), "Edge finder: 1000 rpm at most. Change speed back after");
    let list = list(&finder);
    let item = list.items().find(|item| item.rule.id == "S11").expect("it shows");
    assert_eq!(item.note.as_deref(), Some("1540 rpm is over that."));
}

#[test]
fn no_air_on_glass_overrules_how_to_blow() {
    let g10 = with(|c| {
        c.part.stock = listed("g10_fr4");
        c.cut.air = Some(true);
    });
    let list = list(&g10);
    let blow = list.shown().find(|item| item.rule.id == "C03").expect("it is shown");
    assert_eq!(blow.overruled_by, Some("C04"));
    assert!(!list.items().any(|item| item.rule.id == "C03"), "it cannot be ticked");
    assert!(list.items().any(|item| item.rule.id == "C05"));
}

#[test]
fn an_unknown_material_is_one_stop_and_never_harmless() {
    let unknown = with(|c| c.part.stock = None);
    let list = list(&unknown);
    let stop = list.items().find(|item| item.rule.id == "P63").expect("it shows");
    assert_eq!(stop.rule.severity, Severity::Stop);
    for item in list.shown() {
        assert!(!item.text.to_lowercase().contains("no special hazard"), "{}", item.text);
    }
    assert!(list.items().any(|item| item.rule.id == "C04"), "nor is it blown at");
}

#[test]
fn figures_of_the_set_up_stand_in_the_words() {
    let grip = with(|c| {
        c.part.holding = Some(Holding::Vise);
        c.part.grip = Some(Length::inch(0.15));
    });
    assert_eq!(text(&grip, "P31"), "The grip is only 0.1500 in: take lighter cuts or grip deeper");
    let long = with(|c| c.tool.stickout = Some(Length::inch(3.0)));
    assert_eq!(text(&long, "P27"), "Shorten the stick-out: 6.0 x diameter now");
    let fast = with(|c| c.spindle.set = Some(SpindleSpeed::rpm(1140.0)));
    assert_eq!(text(&fast, "S19"), "Speed is 20 % over the wanted one: choose the lower step");
    let batch = with(|c| c.plan.batch = Some(8));
    assert_eq!(text(&batch, "A08"), "First piece: measure it before the other 7 are cut");
    for context in [calm(), knee_drill(0), magnesium_on_the_bench(), Context::default()] {
        for item in list(&context).shown() {
            assert!(
                !item.text.contains(['{', '}', '?']) || item.text.contains("? "),
                "{}",
                item.text
            );
            assert!(item.text.chars().count() <= 80, "{}", item.text);
        }
    }
}

#[test]
fn stock_that_is_not_in_the_table_has_its_stops() {
    let beryllium = with(|c| c.part.stock = Some(Stock::BerylliumCopper));
    for id in ["P54", "C04", "A04"] {
        assert!(shown(&beryllium).contains(&id), "{id}");
    }
    let stone = with(|c| c.part.stock = Some(Stock::Silica));
    for id in ["P58", "C04", "P08"] {
        assert!(shown(&stone).contains(&id), "{id}");
    }
}
