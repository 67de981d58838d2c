//! The same set-up again: what rests, and what never does.

use crate::set_ups::{calm, listed, with};
use handwheel::engine::{
    quantity::System,
    safety::{
        Context, RULES, Severity,
        context::{Holding, PutOn},
        list::{Checklist, Earlier, checklist},
    },
};

fn all_ticked(minutes: f64, same: bool) -> Earlier {
    let ticked = RULES.iter().map(|rule| rule.id.to_owned()).collect();
    Earlier { minutes, same, ticked }
}

fn again(context: &Context, earlier: &Earlier) -> Checklist {
    checklist(context, Some(earlier), System::Inch)
}

fn open(list: &Checklist) -> Vec<&'static str> {
    list.items().map(|item| item.rule.id).collect()
}

#[test]
fn the_first_check_of_a_set_up_shows_all() {
    let first = checklist(&calm(), None, System::Inch);
    assert!(first.parts.iter().all(|part| part.rested.is_empty()));
}

#[test]
fn the_same_set_up_within_two_hours_rests_on_what_was_ticked() {
    let list = again(&calm(), &all_ticked(119.0, true));
    assert_eq!(open(&list), ["P01"]);
    assert_eq!(list.shown().count(), 20, "what rests is still shown");
}

#[test]
fn what_was_left_open_does_not_rest() {
    let mut earlier = all_ticked(10.0, true);
    earlier.ticked.retain(|id| id != "F09");
    assert_eq!(open(&again(&calm(), &earlier)), ["P01", "F09"]);
}

#[test]
fn two_hours_later_or_in_another_set_up_nothing_rests() {
    for earlier in [
        all_ticked(120.1, true),
        all_ticked(10.0, false),
        all_ticked(-5.0, true),
        all_ticked(f64::NAN, true),
    ] {
        assert_eq!(open(&again(&calm(), &earlier)).len(), 20, "{earlier:?}");
    }
}

#[test]
fn a_changed_range_wants_its_switch_looked_at_again() {
    for change in [
        (|c| c.spindle.range_changed = Some(true)) as fn(&mut Context),
        |c| c.spindle.range_changed = None,
        |c| c.spindle.confirmed = false,
    ] {
        assert!(open(&again(&with(change), &all_ticked(10.0, true))).contains(&"S01"));
    }
}

#[test]
fn gloves_tool_changes_second_spindles_and_stops_of_the_stock_never_rest() {
    let context = with(|c| {
        c.spindle.tool_changed = Some(true);
        c.plan.two_machines = Some(true);
        c.part.stock = listed("magnesium");
        c.part.holding = Some(Holding::Vise);
        c.cut.fluid = Some(PutOn::WaterMix);
    });
    let open = open(&again(&context, &all_ticked(5.0, true)));
    for id in ["P01", "P20", "F15", "P50", "P51", "P52", "F14", "C04", "C08"] {
        assert!(open.contains(&id), "{id} rests");
    }
    assert!(!open.contains(&"P30"));
}

#[test]
fn every_stop_that_is_about_the_stock_is_kept() {
    let hazardous =
        ["P50", "P51", "P52", "P53", "P54", "P56", "P57", "P58", "P63", "F14", "C04", "C08"];
    for rule in &RULES {
        let is_kept =
            hazardous.contains(&rule.id) || ["P01", "P20", "F15", "S03"].contains(&rule.id);
        assert_eq!(rule.kept, is_kept, "{}", rule.id);
        if hazardous.contains(&rule.id) {
            assert_eq!(rule.severity, Severity::Stop, "{}", rule.id);
        }
    }
}
