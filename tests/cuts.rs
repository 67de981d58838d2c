//! Judges every practised cut of a table by the limits: good ones must not be refused, bad ones
//! must be over on a limit a machinist would name.

mod practised;

use std::process::ExitCode;

use handwheel::engine::{
    answer::{Answer, Limit, State},
    limits,
};
use practised::Practised;

/// A utilisation this near a threshold may fall on either side.
const EITHER_SIDE: f64 = 0.03;

const LIMITS: [(&str, Limit); 12] = [
    ("speed", Limit::Speed),
    ("rub", Limit::Rubbing),
    ("chip", Limit::ChipLoad),
    ("wheel", Limit::Wheel),
    ("power", Limit::Power),
    ("bend", Limit::Bending),
    ("break", Limit::Breakage),
    ("runout", Limit::Runout),
    ("climb", Limit::Climb),
    ("depth", Limit::Depth),
    ("thrust", Limit::Thrust),
    ("cap", Limit::BodyCap),
];

/// Where the answer and the row disagree.
fn disagreements(row: &Practised, answer: &Answer) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut over = Vec::new();
    for (name, limit) in LIMITS {
        let stated = row.text(&format!("state_{name}"));
        let reading = answer.limits.iter().find(|r| r.limit == limit);
        let Some(reading) = reading else {
            if stated != "-" {
                wrong.push(format!("{name}: not asked, stated {stated}"));
            }
            continue;
        };
        let u = reading.utilisation;
        let word = match reading.state {
            State::Within => "within",
            State::Near => "near",
            State::Over => "over",
        };
        if reading.state == State::Over {
            over.push(name);
        }
        let near_threshold = [1.0, 2.0].iter().any(|t| (u / t - 1.0).abs() <= EITHER_SIDE);
        if stated == "-" {
            wrong.push(format!("{name}: {word} ({u:.3}), not asked in the table"));
        } else if stated != word && !near_threshold {
            let of = row.text(&format!("u_{name}"));
            wrong.push(format!("{name}: {word} ({u:.3}), stated {stated} ({of})"));
        }
    }
    if !row.is_good() {
        let expected = row.text("expect_over");
        if !expected.split_whitespace().any(|name| over.contains(&name)) {
            wrong.push(format!("over on {over:?}, expected one of {expected}"));
        }
    }
    wrong
}

fn judge(row: &Practised) -> Vec<String> {
    match limits::answer(&row.mill(), &row.cut) {
        Ok(answer) => disagreements(row, &answer),
        Err(errors) => errors.iter().map(ToString::to_string).collect(),
    }
}

fn main() -> ExitCode {
    let rows = match practised::rows() {
        Ok(rows) => rows,
        Err(error) => {
            println!("cuts: {error}");
            return ExitCode::FAILURE;
        }
    };
    let mut passed = 0;
    for row in &rows {
        let wrong = judge(row);
        if wrong.is_empty() {
            passed += 1;
        } else {
            println!("{}: {}", row.text("id"), wrong.join("; "));
        }
    }
    println!("cuts: {passed} of {} rows", rows.len());
    if passed == rows.len() && passed > 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
