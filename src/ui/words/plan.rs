//! The words of a batch, of its orders, and of the choice of a mill.

use super::length;
use crate::{
    engine::{
        plan::{
            Batch,
            compare::{Comparison, Entry, Preference, Price},
            order::{Blocked, Way},
            which::{Loss, Turn},
        },
        quantity::{
            Duration, System,
            rounding::{self, Shown, fixed},
        },
    },
    ui::words,
};

/// A time of a plan: seconds under two minutes, then minutes, and hours from five on.
#[must_use]
pub fn span(time: Duration) -> String {
    let minutes = libm::round(time.to_minute());
    if minutes < 300.0 {
        return rounding::duration(time).to_string();
    }
    let hours = libm::floor(minutes / 60.0);
    format!("{} h {} min", fixed(hours, 0), fixed(minutes - hours * 60.0, 0))
}

/// Minutes, as the number to choose by.
#[must_use]
pub fn minutes(time: Duration) -> Shown {
    Shown { digits: fixed(time.to_minute(), 1), unit: "min" }
}

/// What is wanted most, and what that means.
#[must_use]
pub fn preference(preference: Preference) -> (&'static str, &'static str) {
    match preference {
        Preference::LeastTotal => ("Least time", "in all"),
        Preference::SoonestFirst => ("Soonest first", "piece in the hand"),
        Preference::FewestSetUps => ("Fewest set-ups", "then least time"),
        Preference::LeastAtRisk => ("Least at risk", "before one is checked"),
    }
}

/// What an order is called.
#[must_use]
pub fn way(way: Way) -> &'static str {
    match way {
        Way::PieceByPiece => "Piece by piece on one mill",
        Way::OperationByOperation => "Operation by operation",
        Way::TwoMills => "Piece by piece, second mill kept set up",
        Way::Mixed => "Piece 1 ahead, the rest in lots",
    }
}

/// An order in a few lines: what is done on which pieces, where.
#[must_use]
pub fn told(batch: &Batch, entry: &Entry, mills: &[String]) -> Vec<String> {
    let order = &entry.order;
    let step = |operation: usize| {
        let mill = mills.get(order.stands[operation].mill).map_or("", String::as_str);
        format!("{} ({mill})", batch.operations[operation].name)
    };
    let last = batch.pieces;
    if entry.way != Way::Mixed {
        let all: Vec<String> =
            order.runs.iter().take(batch.operations.len()).map(|run| step(run.operation)).collect();
        let each = if entry.way == Way::OperationByOperation { "All pieces" } else { "Each piece" };
        return vec![format!("{each}: {}.", all.join(", then "))];
    }
    let mut lines: Vec<((u32, u32), Vec<String>)> = Vec::new();
    for run in &order.runs {
        match lines.last_mut().filter(|(pieces, _)| *pieces == run.pieces) {
            Some((_, steps)) => steps.push(step(run.operation)),
            None => lines.push((run.pieces, vec![step(run.operation)])),
        }
    }
    let line = |((from, to), steps): ((u32, u32), Vec<String>)| {
        let pieces = match (from, to) {
            (0, to) if to == last => "All pieces".to_owned(),
            (0, 1) => "Piece 1".to_owned(),
            (from, to) => format!("Pieces {} to {to}", from + 1),
        };
        let check = if batch.check_first && (from, to) == (0, 1) { ", check it" } else { "" };
        format!("{pieces}: {}{check}.", steps.join(", then "))
    };
    lines.into_iter().map(line).collect()
}

/// Why the recommended order stands first.
#[must_use]
pub fn recommended(comparison: &Comparison, preference: Preference) -> String {
    let figures = comparison.recommended().figures();
    let wanted = match preference {
        Preference::LeastTotal => "It takes the least time in all",
        Preference::SoonestFirst => "No first piece comes sooner",
        Preference::FewestSetUps => "Nothing is set up more rarely",
        Preference::LeastAtRisk => "No order puts fewer pieces at risk",
    };
    let first = match figures.at_risk {
        0 => "No piece is at risk".to_owned(),
        1 => "An error shows on piece 1".to_owned(),
        many => format!("{many} pieces are begun before one is checked"),
    };
    format!("{wanted}. {first}.")
}

/// What the second best order costs.
#[must_use]
pub fn second(entry: &Entry, price: &Price) -> String {
    let mut parts: Vec<String> = Vec::new();
    let tick = Duration::second(0.5);
    if price.total.abs() > tick {
        let more = if price.total > Duration::ZERO { "more" } else { "less" };
        parts.push(format!("{} {more} in all", span(price.total.abs())));
    }
    if price.first.abs() > tick {
        let when = if price.first > Duration::ZERO { "later" } else { "sooner" };
        parts.push(format!("the first piece {} {when}", span(price.first.abs())));
    }
    for (count, one, many) in
        [(price.set_ups, "set-up", "set-ups"), (price.at_risk, "piece at risk", "pieces at risk")]
    {
        if count != 0 {
            let what = if count.abs() == 1 { one } else { many };
            let more = if count > 0 { "more" } else { "fewer" };
            parts.push(format!("{} {what} {more}", count.abs()));
        }
    }
    let name = way(entry.way);
    let costs = if parts.is_empty() { "the same".to_owned() } else { parts.join(", ") };
    let rule = if entry.keeps_rule { "" } else { ", and a second piece is begun unchecked" };
    format!("Second best: {}. It means {costs}{rule}.", name.to_lowercase())
}

/// Why a simple order is not among them.
#[must_use]
pub fn blocked(way: Way, why: Blocked, mills: usize) -> String {
    let why = match (why, mills) {
        (Blocked::NoOneMill, _) => "no mill can do every operation",
        (Blocked::NoTwoMills, 0 | 1) => "there is one mill only",
        (Blocked::NoTwoMills, _) => "no two mills can share the operations so",
    };
    format!("{}: {why}.", self::way(way))
}

/// How sure the search is.
#[must_use]
pub fn searched(comparison: &Comparison) -> String {
    if comparison.exact {
        return "Every order was looked at.".to_owned();
    }
    let bound = span(comparison.bound);
    format!("Too many orders to look at every one: none can take less than {bound}.")
}

/// What is wrong with a mill for a cut.
#[must_use]
pub fn loss(loss: &Loss, system: System) -> String {
    match loss {
        Loss::Cannot(error) => error.to_string(),
        Loss::Height(missing) => {
            format!("Height: {} is missing between table and holder.", length(*missing, system))
        }
        Loss::Busy => "It stands set up for something else.".to_owned(),
        Loss::Limit(reading) => format!(
            "{} is over: {}. {}",
            words::limit(reading.limit),
            words::figures(reading, system),
            words::beyond(reading.limit)
        ),
        Loss::TooSlow { able, wanted } => format!(
            "Speed: {} is the nearest it has to {}, {}.",
            rounding::spindle_speed(*able),
            rounding::spindle_speed(*wanted).digits,
            rounding::percent_off(*able / *wanted)
        ),
        Loss::TooFast { able, wanted } => format!(
            "Speed: its slowest, {}, is {} of {}.",
            rounding::spindle_speed(*able),
            rounding::percent_off(*able / *wanted),
            rounding::spindle_speed(*wanted).digits
        ),
        Loss::Wheel { rate, most, set } => format!(
            "Handwheel: the wanted speed asks {}, a hand turns {}. It has to slow to {}.",
            fixed(rate.to_turns_per_min(), 0) + " turns/min",
            fixed(most.to_turns_per_min(), 0),
            rounding::spindle_speed(*set)
        ),
        Loss::HeldBy(limit) => {
            let because = words::because(crate::engine::answer::Because::Limit(*limit));
            format!("{}: slower, because {because}.", words::limit(*limit))
        }
        Loss::Slower(times) => {
            format!("It takes {} times as long.", rounding::significant(*times, 2))
        }
    }
}

/// What would make a mill the one to take.
#[must_use]
pub fn turn(turn: Turn, system: System) -> String {
    match turn {
        Turn::Lead(lead) => {
            format!("if one turn of its wheel moved {}, by a feed drive say", length(lead, system))
        }
        Turn::Speed(speed) => format!("if it had {}", rounding::spindle_speed(speed)),
        Turn::Power(power) => format!("with {} at the cutter", rounding::power(power, system)),
        Turn::Lower(missing) => format!("with the work {} lower", length(missing, system)),
        Turn::TakeDown => "once its set-up is taken down".to_owned(),
        Turn::Teeth(teeth) => format!("with a cutter of {teeth} flutes"),
        Turn::Carbide => "with a carbide cutter".to_owned(),
    }
}
