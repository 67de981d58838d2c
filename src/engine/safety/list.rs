//! The checklist: which rules are shown, in which order, and which are ticked together.

use super::{Context, Group, Phase, RULES, Rule, Severity, wording};
use crate::engine::quantity::System;

/// Rows of a phase; more than that nobody reads.
pub const MOST_ROWS: usize = 9;

/// Within this many minutes the same set-up rests on what was ticked before.
pub const REST_MINUTES: f64 = 120.0;

/// The check before this one.
#[derive(Clone, Debug, PartialEq)]
pub struct Earlier {
    /// Minutes since it was closed.
    pub minutes: f64,
    /// The same machine, material and operation.
    pub same: bool,
    /// Ids of the rules that were ticked.
    pub ticked: Vec<String>,
}

/// One rule for one set-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The rule.
    pub rule: &'static Rule,
    /// What to do.
    pub text: String,
    /// A sentence more.
    pub note: Option<String>,
    /// False where it is shown because something is not known.
    pub certain: bool,
    /// The rule that makes this one not count here.
    pub overruled_by: Option<&'static str>,
}

/// One row: a rule, or several of a kind that are ticked together.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is about, when there are several.
    pub group: Option<Group>,
    /// Its rules, at least one; the gravest first.
    pub items: Vec<Item>,
}

impl Row {
    /// As grave as its gravest rule.
    #[must_use]
    pub fn severity(&self) -> Severity {
        self.items.iter().map(|item| item.rule.severity).min().unwrap_or(Severity::Reminder)
    }
}

/// One phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Which.
    pub phase: Phase,
    /// What is to be ticked, the gravest first.
    pub rows: Vec<Row>,
    /// What was ticked for the same set-up not long ago, and rests.
    pub rested: Vec<Item>,
    /// What would apply and is overruled by another rule.
    pub overruled: Vec<Item>,
}

/// The whole list.
#[derive(Clone, Debug, PartialEq)]
pub struct Checklist {
    /// Every phase, in order.
    pub parts: Vec<Part>,
}

impl Checklist {
    /// Every rule that is to be ticked.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.parts.iter().flat_map(|part| part.rows.iter().flat_map(|row| &row.items))
    }
    /// Every rule that is shown, ticked or not.
    pub fn shown(&self) -> impl Iterator<Item = &Item> {
        self.parts.iter().flat_map(|part| {
            let rows = part.rows.iter().flat_map(|row| &row.items);
            rows.chain(&part.rested).chain(&part.overruled)
        })
    }
}

/// The rules for a set-up. Every condition that is not certainly unmet shows its rule, unless the
/// stop that covers it is shown.
#[must_use]
pub fn checklist(context: &Context, earlier: Option<&Earlier>, system: System) -> Checklist {
    let shown: Vec<(&'static Rule, bool)> = RULES
        .iter()
        .filter_map(|rule| match rule.holds(context) {
            Some(false) => None,
            Some(true) => Some((rule, true)),
            None => {
                let covered = rule
                    .covered_by
                    .and_then(super::rule)
                    .is_some_and(|by| by.holds(context) != Some(false));
                (!covered).then_some((rule, false))
            }
        })
        .collect();
    let overruled_by = |id: &str| {
        shown.iter().find(|(rule, certain)| *certain && rule.overrules == Some(id)).map(|s| s.0.id)
    };
    let item = |(rule, certain): &(&'static Rule, bool)| Item {
        rule,
        text: wording::text(rule, context, *certain, system),
        note: wording::note(rule, context),
        certain: *certain,
        overruled_by: overruled_by(rule.id),
    };
    let parts = Phase::ALL.map(|phase| {
        let of_phase = shown.iter().filter(|(rule, _)| rule.phase == phase).map(item);
        let (overruled, counting): (Vec<_>, Vec<_>) =
            of_phase.partition(|item| item.overruled_by.is_some());
        let (rested, open): (Vec<_>, Vec<_>) =
            counting.into_iter().partition(|item| rests(item, context, earlier));
        Part { phase, rows: rows(open), rested, overruled }
    });
    Checklist { parts: parts.into() }
}

/// Whether a rule rests on what was ticked for the same set-up before.
fn rests(item: &Item, context: &Context, earlier: Option<&Earlier>) -> bool {
    let Some(earlier) = earlier else { return false };
    let is_fresh = earlier.same && (0.0..=REST_MINUTES).contains(&earlier.minutes);
    let is_kept = item.rule.kept
        || item.rule.id == "S01"
            && (context.spindle.range_changed != Some(false) || !context.spindle.confirmed);
    is_fresh && !is_kept && earlier.ticked.iter().any(|id| id == item.rule.id)
}

/// Rows of a phase, the gravest first. Where there are too many, rules of a kind share one, those
/// about the person first and those about the stock last; none is left out.
fn rows(mut items: Vec<Item>) -> Vec<Row> {
    items.sort_by_key(|item| item.rule.severity);
    let mut rows: Vec<Row> =
        items.into_iter().map(|item| Row { group: None, items: vec![item] }).collect();
    let mut groups: Vec<Group> = rows.iter().map(|row| row.items[0].rule.group).collect();
    groups.sort_unstable();
    groups.dedup();
    for group in groups {
        if rows.len() <= MOST_ROWS {
            break;
        }
        let (of_it, others): (Vec<Row>, Vec<Row>) =
            rows.into_iter().partition(|row| row.items[0].rule.group == group);
        rows = others;
        let items: Vec<Item> = of_it.into_iter().flat_map(|row| row.items).collect();
        let group = (items.len() > 1).then_some(group);
        rows.push(Row { group, items });
    }
    rows.sort_by_key(Row::severity);
    rows
}
