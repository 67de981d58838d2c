//! Cautions, and what was taken on the safe side. Neither ever blocks.

use super::{case::Case, concession::SAME, marks::Marks, search::Found, threshold as t};
use crate::engine::{
    answer::{Assumed, Caution, Feed, Limit, Speed, State},
    cutters::Kind,
    cutting::runout,
    machine::Speeds,
    quantity::{Length, value::Value},
    question::{Feeding, Holder, Operation},
    stock::{Edge, Flag},
};

/// What was taken on the safe side because it is not known.
pub fn assumed(case: &Case, speed: &Speed) -> Vec<Assumed> {
    let machine = case.mill.machine;
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

/// Everything worth saying of this stock, this cutter and this cut.
pub fn cautions(
    case: &Case,
    found: &Found,
    marks: &Marks,
    speed: &Speed,
    feed: Option<&Feed>,
) -> Vec<Caution> {
    let mut list = Vec::new();
    let cuts = case.asks_feed();
    if cuts && (case.stock.is(Flag::Magnesium) || case.stock.is(Flag::Titanium)) {
        list.push(Caution::ChipFire);
    }
    if speed.switch.is_none() {
        list.push(Caution::SwitchUnknown);
    }
    if speed.too_fast_at_lowest {
        list.push(Caution::LowestTooFast);
    }
    if cuts {
        about_the_cutter(case, found, marks, speed, &mut list);
        about_the_feed(case, marks, feed, &mut list);
        about_the_depth(case, found, marks, &mut list);
        about_the_operation(case, found, marks, &mut list);
        about_the_stock(case, &mut list);
    }
    list
}

fn is_near(marks: &Marks, limit: Limit) -> bool {
    marks.get(limit).is_some_and(|m| m.state > State::Within)
}

fn about_the_cutter(
    case: &Case,
    found: &Found,
    marks: &Marks,
    speed: &Speed,
    list: &mut Vec<Caution>,
) {
    let edge = case.mill.cutter.material.edge();
    list.extend(wobble(case, found, marks));
    if case.asked.breakage && case.mill.holder == Holder::DrillChuck {
        list.push(Caution::DrillChuckMilling);
    }
    if edge == Edge::Carbide && case.asked.chip && speed.surface < case.surface.range.0 * 0.5 {
        list.push(Caution::SlowCarbide);
    }
    if edge == Edge::Hss && !case.stock.hss_usable {
        list.push(Caution::HssDulls);
    }
    if edge == Edge::Carbide && case.mill.cutter.kind == Kind::FlyCutter {
        list.push(Caution::InterruptedCut);
    }
}

/// What a truer holder would do, where it would do anything.
fn wobble(case: &Case, found: &Found, marks: &Marks) -> Option<Caution> {
    let runout = marks.get(Limit::Runout)?;
    let share = case.diameter * t::RUNOUT_SHARE.within;
    let wish = if case.teeth > 1 {
        let chip = found.point.f * found.pass.largest;
        share.min(runout::runout_limit_of(chip, case.teeth, t::RUNOUT_WISH))
    } else {
        share
    };
    match runout.state {
        _ if wish >= case.runout => None,
        State::Within => None,
        State::Near => Some(Caution::OneTooth(wish)),
        State::Over => Some(Caution::BetterHolder(wish)),
    }
}

fn about_the_feed(case: &Case, marks: &Marks, feed: Option<&Feed>, list: &mut Vec<Caution>) {
    let rate = feed.and_then(|f| f.wheel);
    if case.asked.wheel && rate.is_some_and(|rate| rate < t::slow_wheel()) {
        list.push(Caution::CountMarks);
    }
    list.extend(feed_above_table(case).map(Caution::FeedAboveTable));
    if case.asked.chip && case.feeds.kept.is_none() && case.cut.own.chip.is_none() {
        list.extend(case.feeds.table.borrowed_from.map(Caution::FeedBorrowed));
        if case.feeds.table.outside {
            list.push(Caution::OutsideTable);
        }
    }
    if is_near(marks, Limit::Rubbing) {
        list.push(Caution::SharpEdge);
    }
}

fn about_the_depth(case: &Case, found: &Found, marks: &Marks, list: &mut Vec<Caution>) {
    if !case.asked.pack {
        return;
    }
    if is_near(marks, Limit::Depth) {
        list.push(Caution::ClearChips);
    }
    let Some((depth, band)) = found.pass.packing else { return };
    let begin = band.within * case.mill.machine.class.rigidity();
    // A finishing pass makes its size at the whole depth or not at all.
    if !case.cut.finish && found.blocked.is_none() && depth > begin * (1.0 + SAME) {
        list.push(Caution::BeginAt(begin));
    }
}

fn about_the_operation(case: &Case, found: &Found, marks: &Marks, list: &mut Vec<Caution>) {
    if matches!(case.cut.operation, Operation::Side { feeding: Feeding::Climb, .. }) {
        list.push(Caution::ClimbBacklash);
    }
    if case.cut.finish && is_near(marks, Limit::Bending) {
        list.push(Caution::SpringPass);
    }
    match case.cut.operation {
        Operation::Drill { through, .. } => {
            if found.point.count > 1 || is_near(marks, Limit::Depth) {
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
}

fn about_the_stock(case: &Case, list: &mut Vec<Caution>) {
    if !case.asks_depth() {
        return;
    }
    if case.stock.is(Flag::WorkHardening) {
        list.push(Caution::NeverDwell);
    }
    // One that can hurt has been refused before.
    list.extend(case.cut.coolant.refusals(case.stock).next().map(Caution::Refused));
    list.extend(case.stock.hazards.iter().copied().map(Caution::Hazard));
    if !case.stock.coolant.is_empty() {
        list.push(Caution::Lubricant(case.stock.coolant));
    }
}

/// The table's high end, where the person's own feed lies more than half above it.
fn feed_above_table(case: &Case) -> Option<Length> {
    let own = case.cut.own.feed?;
    (own > case.feeds.table.high * 1.5).then_some(case.feeds.table.high)
}
