//! Cautions, and what was taken on the safe side. Neither ever blocks.

use super::{case::Case, concession::SAME, marks::Marks, search::Found, threshold as t};
use crate::engine::{
    answer::{Assumed, Caution, Feed, Limit, Speed, State},
    cutters::Kind,
    cutting::runout,
    machine::{Machine, Speeds},
    quantity::{Length, value::Value},
    question::{Feeding, Holder, Operation},
    stock::{Edge, Flag},
};

pub fn assumed(case: &Case, speed: &Speed) -> Vec<Assumed> {
    let machine: &Machine = case.mill.machine;
    let mut list = Vec::new();
    if case.asked.power && machine.power.is_none() {
        list.push(Assumed::Power(Value::Power(machine.power_or_assumed())));
    }
    if case.asked.power
        && let Some(Speeds::Continuous { highest, base: None, .. }) =
            machine.ranges.get(speed.range.0).map(|r| &r.speeds)
    {
        list.push(Assumed::BaseSpeed(Value::SpindleSpeed(*highest)));
    }
    if case.asked.bend && machine.stiffness.is_none() {
        list.push(Assumed::Stiffness(Value::Stiffness(machine.class.stiffness())));
    }
    if case.asked.breakage && case.mill.runout.is_none() {
        list.push(Assumed::Runout(Value::Length(case.mill.holder.assumed_runout())));
    }
    if matches!(case.cut.operation, Operation::Side { feeding: Feeding::Climb, .. }) {
        if machine.table.backlash.is_none() {
            list.push(Assumed::Backlash(Value::Length(machine.class.assumed_backlash())));
        }
        if machine.table_drag.is_none() {
            list.push(Assumed::TableDrag(Value::Force(machine.class.table_drag())));
        }
    }
    list
}

pub fn cautions(
    case: &Case,
    found: &Found,
    marks: &Marks,
    speed: &Speed,
    feed: Option<&Feed>,
) -> Vec<Caution> {
    let (stock, point) = (case.stock, found.point);
    let mut list = Vec::new();
    let near = |limit: Limit| marks.get(limit).is_some_and(|m| m.state > State::Within);
    if stock.is(Flag::Magnesium) || stock.is(Flag::Titanium) {
        list.push(Caution::ChipFire);
    }
    if speed.switch.is_none() {
        list.push(Caution::SwitchUnknown);
    }
    if speed.too_fast_at_lowest {
        list.push(Caution::LowestTooFast);
    }
    if let Some(runout) = marks.get(Limit::Runout) {
        let wish = wished_runout(case, point.f * found.pass.largest);
        if runout.state == State::Over {
            list.push(Caution::BetterHolder(wish));
        } else if runout.state == State::Near {
            list.push(Caution::OneTooth(wish));
        }
    }
    if case.asked.breakage && case.mill.holder == Holder::DrillChuck {
        list.push(Caution::DrillChuckMilling);
    }
    let edge = case.mill.cutter.material.edge();
    if edge == Edge::Carbide && speed.surface < case.surface.range.0 * 0.5 && case.asked.chip {
        list.push(Caution::SlowCarbide);
    }
    if edge == Edge::Hss && !stock.hss_usable {
        list.push(Caution::HssDulls);
    }
    if case.asked.wheel
        && let Some(rate) = feed.and_then(|f| f.wheel)
        && rate < t::slow_wheel()
    {
        list.push(Caution::CountMarks);
    }
    if let Some(high) = feed_above_table(case) {
        list.push(Caution::FeedAboveTable(high));
    }
    if near(Limit::Rubbing) {
        list.push(Caution::SharpEdge);
    }
    if case.asked.pack && near(Limit::Depth) {
        list.push(Caution::ClearChips);
    }
    if case.asked.pack {
        let begin = t::begin_depth(case.diameter, case.mill.machine.class);
        if found.pass.depth > begin * (1.0 + SAME) {
            list.push(Caution::BeginAt(begin));
        }
    }
    if matches!(case.cut.operation, Operation::Side { feeding: Feeding::Climb, .. }) {
        list.push(Caution::ClimbBacklash);
    }
    if case.cut.finish && near(Limit::Bending) {
        list.push(Caution::SpringPass);
    }
    match case.cut.operation {
        Operation::Drill { through, .. } => {
            if point.count > 1 {
                list.push(Caution::Peck);
            }
            if through {
                list.push(Caution::BreakThrough);
            }
        }
        Operation::Ream => list.push(Caution::NeverReverse),
        Operation::Tap => list.push(Caution::PowerTap),
        _ => {}
    }
    if case.mill.cutter.kind == Kind::FlyCutter && edge == Edge::Carbide {
        list.push(Caution::InterruptedCut);
    }
    if stock.is(Flag::WorkHardening) && case.asks_depth() {
        list.push(Caution::NeverDwell);
    }
    if case.asks_depth() {
        list.extend(stock.hazards.iter().copied().map(Caution::Hazard));
        if !stock.coolant.is_empty() {
            list.push(Caution::Lubricant(stock.coolant));
        }
    }
    list
}

/// The table's high end, where the person's own feed lies more than half above it.
fn feed_above_table(case: &Case) -> Option<Length> {
    let own = case.cut.own.feed?;
    (own > case.feeds.table.high * 1.5).then_some(case.feeds.table.high)
}

/// Total indicator reading that would share the chip out evenly.
fn wished_runout(case: &Case, chip: Length) -> Length {
    runout::runout_limit_of(chip, case.teeth.max(1), t::RUNOUT_WISH)
}
