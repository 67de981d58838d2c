//! Order, grouping, and what is never dropped.

use crate::set_ups::{calm, list, listed, with};
use handwheel::engine::{
    machine::Class,
    safety::{
        Context, Phase, RULES, Severity,
        context::{Drive, Holding, PutOn, Task, ToolKind},
        list::MOST_ROWS,
    },
    source::{Sureness, sources_of},
    stock::MATERIALS,
};

fn contexts() -> Vec<Context> {
    let mut all = vec![Context::default(), calm()];
    for material in MATERIALS {
        all.push(with(|c| {
            c.part.stock = listed(material.id);
            c.person = Default::default();
            c.part.holding = None;
        }));
    }
    all
}

#[test]
fn no_phase_has_more_rows_than_are_read() {
    for context in contexts() {
        for part in list(&context).parts {
            assert!(part.rows.len() <= MOST_ROWS, "{:?}: {}", part.phase, part.rows.len());
            assert!(part.rows.iter().all(|row| !row.items.is_empty()));
        }
    }
}

#[test]
fn the_gravest_stand_first_in_a_phase_and_in_a_row() {
    for context in contexts() {
        for part in list(&context).parts {
            assert!(part.rows.is_sorted_by_key(|row| row.severity()));
            for row in &part.rows {
                assert!(row.items.is_sorted_by_key(|item| item.rule.severity));
                assert_eq!(row.group.is_some(), row.items.len() > 1);
            }
        }
    }
}

#[test]
fn grouping_drops_nothing() {
    for context in contexts() {
        let list = list(&context);
        let mut listed: Vec<&str> = list.shown().map(|item| item.rule.id).collect();
        listed.sort_unstable();
        let mut wanted: Vec<&str> = RULES
            .iter()
            .filter(|rule| match rule.holds(&context) {
                Some(holds) => holds,
                None => !rule.covered_by.is_some_and(|by| {
                    handwheel::engine::safety::rule(by).expect("a rule").holds(&context)
                        != Some(false)
                }),
            })
            .map(|rule| rule.id)
            .collect();
        wanted.sort_unstable();
        assert_eq!(listed, wanted);
    }
}

#[test]
fn a_rule_about_the_stock_stands_alone_as_long_as_it_can() {
    let magnesium = with(|c| {
        c.part.stock = listed("magnesium");
        c.person = Default::default();
        c.spindle.tool_changed = Some(true);
        c.part.holding = Some(Holding::Vise);
    });
    let list = list(&magnesium);
    let part = &list.parts[0];
    assert_eq!(part.phase, Phase::BeforePower);
    let alone = part.rows.iter().any(|row| row.group.is_none() && row.items[0].rule.id == "P50");
    assert!(alone, "the extinguisher is not buried in a group");
}

/// An everyday slot and a hazardous face: how many rows a person taps.
#[test]
fn an_everyday_slot_is_shorter_than_a_hazardous_face() {
    let slot = with(|c| {
        c.machine.class = Some(Class::Bench);
        c.machine.drive = Some(Drive::Variable);
        c.machine.drawbar = Some(true);
        c.cut.task = Some(Task::Slot);
        c.part.holding = Some(Holding::Vise);
    });
    let face = with(|c| {
        c.machine.class = Some(Class::Bench);
        c.machine.drawbar = Some(true);
        c.cut.task = Some(Task::Face);
        c.tool.kind = Some(ToolKind::FlyCutter);
        c.cut.fluid = Some(PutOn::WaterMix);
        c.part.stock = listed("magnesium");
        c.part.holding = Some(Holding::Vise);
    });
    let rows = |context: &Context| list(context).parts.iter().map(|p| p.rows.len()).sum::<usize>();
    let items = |context: &Context| list(context).items().count();
    assert!(items(&slot) <= 26, "{} items", items(&slot));
    assert!(items(&face) <= 40, "{} items", items(&face));
    assert!(rows(&slot) < rows(&face) && items(&slot) < items(&face));
}

#[test]
fn half_the_rules_name_a_source_and_the_others_say_common_practice() {
    let named = RULES
        .iter()
        .filter(|rule| {
            sources_of(rule.sources).iter().any(|s| s.sureness != Sureness::CommonPractice)
        })
        .count();
    assert_eq!(named, 54);
    let stops = RULES.iter().filter(|rule| rule.severity == Severity::Stop).count();
    let cautions = RULES.iter().filter(|rule| rule.severity == Severity::Caution).count();
    assert_eq!((stops, cautions, RULES.len()), (65, 40, 116));
}
