//! The figures of an answer as a screen shows them.

use crate::{
    engine::{
        answer::{Answer, Because, Concession, Limit},
        machine::Machine,
        quantity::{
            System,
            rounding::{self, Shown},
        },
    },
    ui::words,
};

/// A figure beside the one to set.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it is.
    pub label: String,
    /// Digits and unit.
    pub shown: Shown,
    /// A few words under it.
    pub note: String,
}

impl Figure {
    /// A figure.
    pub fn new(label: impl Into<String>, shown: Shown, note: impl Into<String>) -> Self {
        Self { label: label.into(), shown, note: note.into() }
    }
}

/// Why the speed to set is this one.
pub fn why(answer: &Answer, machine: &Machine, system: System) -> String {
    let speed = &answer.speed;
    let wanted = rounding::spindle_speed(speed.wanted).digits;
    let surface = rounding::surface_speed(speed.surface, system);
    let reason = answer.given_up.iter().find_map(|given| match given {
        Concession::Speed { because, .. } => Some(*because),
        _ => None,
    });
    match reason {
        None => format!("As wanted: {surface} at the edge."),
        Some(Because::Yours) => format!("Your number; {wanted} wanted. {surface} at the edge."),
        Some(Because::Machine) if Some(speed.set) == machine.highest() => {
            format!("The fastest this mill has; {wanted} wanted. {surface} at the edge.")
        }
        Some(Because::Machine) if speed.too_fast_at_lowest => {
            format!("The slowest this mill has; {wanted} wanted. {surface} at the edge.")
        }
        Some(Because::Machine) => {
            let above = speed.neighbours.1.map(|above| {
                let over = rounding::percent_off(above / speed.wanted);
                format!("; {} is {over}", rounding::spindle_speed(above).digits)
            });
            format!(
                "{wanted} wanted: this step is {}{}. {surface} at the edge.",
                rounding::percent_off(speed.set / speed.wanted),
                above.unwrap_or_default(),
            )
        }
        Some(because) => format!(
            "{wanted} wanted; slower, because {}. {surface} at the edge.",
            words::because(because)
        ),
    }
}

/// The range and the switch, when there is something to say.
pub fn gear(answer: &Answer) -> String {
    let range = answer.speed.range.1.trim();
    let switch = answer.speed.switch.as_deref().map(str::trim).filter(|s| !s.is_empty());
    match (range.is_empty(), switch) {
        (true, None) => String::new(),
        (true, Some(switch)) => format!("Switch to {switch}: clockwise from above"),
        (false, None) => format!("Range {range}"),
        (false, Some(switch)) => format!("Range {range}, switch to {switch}: clockwise from above"),
    }
}

/// Fed down by the quill, not across by the table.
fn by_quill(answer: &Answer) -> bool {
    !answer.limits.iter().any(|reading| reading.limit == Limit::Wheel)
}

/// The wheel and the passes in one line, to keep in view.
pub fn line(answer: &Answer, system: System) -> String {
    let mut parts = Vec::new();
    if let Some(feed) = &answer.feed {
        parts.push(match feed.turn_time {
            Some(turn) => format!("{} a turn", rounding::seconds(turn)),
            None => format!("{} each 1/8 in", rounding::seconds(feed.eighth_time)),
        });
    }
    if let Some(passes) = &answer.passes {
        let count = passes.targets.len();
        let depth = rounding::length(passes.depth, system);
        parts.push(if count == 1 { depth.to_string() } else { format!("{count} × {depth}") });
    }
    parts.join(", ")
}

/// The pace of the wheel, or of the quill.
pub fn pace(answer: &Answer, system: System) -> Option<Figure> {
    let feed = answer.feed.as_ref()?;
    let mark = rounding::length(feed.mark, system);
    Some(match (feed.wheel, feed.turn_time) {
        (Some(rate), Some(turn)) => {
            let wheel = rounding::hand_rate(rate);
            let each = match system {
                System::Inch => {
                    format!("{wheel}; 0.010 in each {}", rounding::seconds(feed.mark_time))
                }
                System::Metric => {
                    format!("{wheel}; {mark} each {}", rounding::seconds(feed.mark_time))
                }
            };
            let wheel = if by_quill(answer) {
                "One turn of the fine feed"
            } else {
                "One turn of the wheel"
            };
            Figure::new(wheel, rounding::seconds(turn), each)
        }
        _ => Figure::new(
            "1/8 in (3 mm) of the quill",
            rounding::seconds(feed.eighth_time),
            "steady on the lever",
        ),
    })
}

/// The wheel or the quill, the passes, the feed, the time.
pub fn cells(answer: &Answer, system: System) -> Vec<Figure> {
    let mut cells = Vec::new();
    cells.extend(pace(answer, system));
    if let Some(passes) = &answer.passes {
        let count = passes.targets.len();
        let depth = rounding::length(passes.depth, system);
        let last = passes.targets.last().map(|t| rounding::length(*t, system).to_string());
        let (one, many) = if passes.pecks { ("peck", "pecks") } else { ("pass", "passes") };
        let (label, note) = match (count, passes.pecks) {
            (1, true) => ("Depth of the hole".to_owned(), "no peck needed".to_owned()),
            (1, false) => ("Depth".to_owned(), "in one pass".to_owned()),
            _ => {
                let last = last.unwrap_or_default();
                (format!("Depth of a {one}"), format!("{count} {many}, to {last}"))
            }
        };
        let note = if passes.yours { format!("{note}; your number") } else { note };
        cells.push(Figure::new(label, depth, note));
        if let Some(tip) = passes.tip {
            cells.push(Figure::new(
                "Depth at the tip",
                rounding::length(tip, system),
                "point and breakthrough included",
            ));
        }
    }
    if let Some(feed) = &answer.feed {
        let per = if feed.per_turn == feed.per_tooth { "a turn" } else { "a tooth" };
        cells.push(Figure::new(
            "Feed",
            rounding::feed_rate(feed.rate, system),
            format!("{} {per}", rounding::chip(feed.per_tooth, system)),
        ));
    }
    if let Some(time) = answer.time {
        let rows = answer.rows.as_ref().map(|rows| rows.centres.len());
        let travel = answer.travel.map(|t| rounding::length(t, system).to_string());
        let note = match (rows, travel) {
            (Some(rows), Some(travel)) => format!("{rows} rows of {travel}"),
            (None, Some(travel)) => format!("travel {travel}"),
            _ => String::new(),
        };
        cells.push(Figure::new("Time in the cut", rounding::duration(time), note));
    }
    cells
}
