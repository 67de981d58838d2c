//! The sentence of a rule for one set-up: figures in place of braces, or the words for a figure
//! that is not known.

use super::{
    Rule,
    context::{Context, Stock},
    direction::{self, opposite},
};
use crate::engine::{
    limits::threshold,
    machine::Turning,
    quantity::{SpindleSpeed, System, rounding},
    stock::Flag,
};

/// What to do about it. `certain` is false where the condition itself is not known.
pub(super) fn text(rule: &Rule, c: &Context, certain: bool, system: System) -> String {
    if rule.id == "S01"
        && let Some(hand_turned) = by_hand(c)
    {
        return hand_turned;
    }
    if !certain && !rule.item_open.is_empty() {
        return fill(rule.item_open, c, system).unwrap_or_else(|| rule.item_open.to_owned());
    }
    fill(rule.item, c, system)
        .or_else(|| fill(rule.item_open, c, system).filter(|text| !text.is_empty()))
        .unwrap_or_else(|| without_figures(rule))
}

/// A spindle that is turned by hand has no switch to set.
fn by_hand(c: &Context) -> Option<String> {
    super::Fact::ByHand.of(c).filter(|is| *is)?;
    Some(match c.turning() {
        Some(way) => format!("By hand, power isolated: {} from above", direction::words(way)),
        None => "By hand, power isolated: look which way the tool cuts".to_owned(),
    })
}

/// A sentence whose figures are not known and that has no other words.
fn without_figures(rule: &Rule) -> String {
    match rule.id {
        "S01" => "Look which way the tool cuts; set the switch for that way".to_owned(),
        _ => {
            let mut text = String::new();
            let mut rest = rule.item;
            while let Some((before, after)) = rest.split_once('{') {
                text.push_str(before);
                text.push('?');
                rest = after.split_once('}').map_or("", |(_, after)| after);
            }
            text + rest
        }
    }
}

/// The sentence with its figures; `None` where one is not known.
fn fill(item: &str, c: &Context, system: System) -> Option<String> {
    let mut text = String::new();
    let mut rest = item;
    while let Some((before, after)) = rest.split_once('{') {
        let (name, after) = after.split_once('}')?;
        text.push_str(before);
        text.push_str(&figure(name, c, system)?);
        rest = after;
    }
    text.push_str(rest);
    Some(text)
}

fn figure(name: &str, c: &Context, system: System) -> Option<String> {
    let rpm = |speed: SpindleSpeed| rounding::spindle_speed(speed).digits;
    Some(match name {
        "switch" => c.switch()?.to_owned(),
        "switch_out" => c.switch_out()?.to_owned(),
        "direction" => direction::words(c.turning()?).to_owned(),
        "grip" => rounding::length(c.part.grip?, system).to_string(),
        "stickout_ratio" => rounding::fixed(c.tool.stickout? / c.tool.diameter?, 1),
        "ef_rpm" => rpm(threshold::edge_finder_cap().within),
        "swing_rpm" => {
            let cap = threshold::body_cap(c.tool.diameter?).near;
            rpm(c.spindle.set.map_or(cap, |set| set.min(cap)))
        }
        "pct" => rounding::fixed((c.spindle.set? / c.spindle.wanted? - 1.0) * 100.0, 0) + " %",
        "peck" => rounding::length(c.cut.peck?, system).to_string(),
        "n" => c.plan.batch.filter(|count| *count > 1)?.saturating_sub(1).to_string(),
        "clean" => clean(c).to_owned(),
        _ => return None,
    })
}

/// How its chips and dust are taken away: never with water where it burns, never with air.
fn clean(c: &Context) -> &'static str {
    match c.part.stock {
        None => "brush it up",
        Some(Stock::Listed(material)) => {
            if material.is(Flag::Magnesium) || material.is(Flag::Titanium) {
                "brush it up dry"
            } else if material.is(Flag::Wood) {
                "vacuum it"
            } else {
                "vacuum, or a damp wipe"
            }
        }
        Some(_) => "vacuum, or a damp wipe",
    }
}

/// A sentence more, where this set-up gives cause to one.
pub(super) fn note(rule: &Rule, c: &Context) -> Option<String> {
    match rule.id {
        "S11" => {
            let limit = threshold::edge_finder_cap().within;
            let speed = c.spindle.set.filter(|set| *set > limit).or(c.spindle.before)?;
            (speed > limit)
                .then(|| format!("{} rpm is over that.", rounding::spindle_speed(speed).digits))
        }
        "S16" => {
            let (into, out) = (c.switch()?, c.switch_out()?);
            Some(format!("IN is {into}, OUT is {out}."))
        }
        _ => None,
    }
}

impl Context {
    /// What the switch says for the way the spindle has to turn; `None` until it has been seen.
    #[must_use]
    pub fn switch(&self) -> Option<&str> {
        direction::switch(self.range()?, self.turning()?)
    }

    /// What the switch says for a tap to come out.
    #[must_use]
    pub fn switch_out(&self) -> Option<&str> {
        let out: Turning = opposite(self.turning()?);
        direction::switch(self.range()?, out)
    }
}
