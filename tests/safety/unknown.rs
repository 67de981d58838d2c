//! What is not known counts against the set-up.

use crate::set_ups::{calm, shown};
use handwheel::engine::{
    quantity::System,
    safety::{Context, Fact, RULES, list::checklist},
};
use proptest::prelude::*;

/// Makes one thing after the other unknown.
const FORGET: [fn(&mut Context); 39] = [
    |c| c.machine.class = None,
    |c| c.machine.ranges.clear(),
    |c| c.machine.drive = None,
    |c| c.machine.drawbar = None,
    |c| c.machine.chuck = None,
    |c| c.machine.restart_protection = None,
    |c| c.machine.chip_shield = None,
    |c| c.machine.backlash = None,
    |c| c.spindle.range = None,
    |c| c.spindle.wanted = None,
    |c| c.spindle.set = None,
    |c| c.spindle.speed_changed = None,
    |c| c.spindle.tool_changed = None,
    |c| c.spindle.new_set_up = None,
    |c| c.tool.kind = None,
    |c| c.tool.hand = None,
    |c| c.tool.diameter = None,
    |c| c.tool.stickout = None,
    |c| c.tool.holder = None,
    |c| c.tool.carbide = None,
    |c| c.cut.task = None,
    |c| c.cut.climb = None,
    |c| c.cut.plunges = None,
    |c| c.cut.interrupted = None,
    |c| c.cut.depth = None,
    |c| c.cut.through = None,
    |c| c.cut.wheel = None,
    |c| c.cut.fluid = None,
    |c| c.cut.air = None,
    |c| c.part.holding = None,
    |c| c.part.overhangs = None,
    |c| c.part.thin = None,
    |c| c.part.parallels = None,
    |c| c.part.near_parallels = None,
    |c| c.part.clamps = None,
    |c| c.part.studs = None,
    |c| c.person.long_hair = None,
    |c| c.person.tired = None,
    |c| c.plan.two_machines = None,
];

#[test]
fn a_person_who_answered_nothing_is_told_everything_about_the_person() {
    let mut context = calm();
    context.person = Default::default();
    context.plan.hour = None;
    let shown = shown(&context);
    for id in ["P03", "P04", "P07", "P09", "P16", "P18", "P19", "P64"] {
        assert!(shown.contains(&id), "{id}");
    }
}

#[test]
fn with_nothing_known_only_a_covering_stop_leaves_a_rule_out() {
    let nothing = Context::default();
    let shown = shown(&nothing);
    for rule in &RULES {
        let is_shown = shown.contains(&rule.id);
        let stands_in = rule.covered_by.is_some_and(|by| shown.contains(&by));
        assert!(is_shown || stands_in, "{} is left out", rule.id);
    }
}

#[test]
fn every_fact_but_two_is_unknown_where_nothing_is_known() {
    let nothing = Context::default();
    for fact in Fact::ALL {
        let known = fact.of(&nothing);
        match fact {
            Fact::StockUnknown => assert_eq!(known, Some(true)),
            // Nobody has looked.
            Fact::Confirmed => assert_eq!(known, Some(false)),
            _ => assert_eq!(known, None, "{fact:?}"),
        }
    }
}

proptest! {
    /// To know less never takes a stop away, unless the stop that covers it comes.
    #[test]
    fn to_know_less_shows_no_less(some in proptest::collection::vec(0..FORGET.len(), 0..12), with in 0..6usize) {
        let mut context = calm();
        match with {
            0 => context.part.stock = crate::set_ups::listed("magnesium"),
            1 => context.part.stock = crate::set_ups::listed("g10_fr4"),
            2 => context.spindle.range = Some(0),
            3 => context.cut.task = Some(handwheel::engine::safety::context::Task::Drill),
            4 => context.cut.climb = Some(true),
            _ => {}
        }
        let before: Vec<_> = shown(&context);
        for place in some {
            FORGET[place](&mut context);
        }
        let after = checklist(&context, None, System::Metric);
        let after: Vec<_> = after.shown().map(|item| item.rule.id).collect();
        for id in before {
            let rule = handwheel::engine::safety::rule(id).expect("it was shown");
            let covered = rule.covered_by.is_some_and(|by| after.contains(&by));
            prop_assert!(after.contains(&id) || covered, "{id} is gone");
        }
    }
}
