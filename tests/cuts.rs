//! Judges every practised cut of a table by the limits: good ones must not be refused, bad ones
//! must be over on a limit a machinist would name.
//!
//! `CUTS_FILE` names another table of the same columns; a relative path counts from the package.

use std::{collections::BTreeMap, path::PathBuf, process::ExitCode};

use handwheel::engine::{
    answer::{Answer, Limit, State},
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    limits,
    machine::{Axis, Class, Machine, Range, Speeds},
    quantity::{Angle, HandRate, Length, Power, SpindleSpeed},
    question::{Coolant, Cut, Feeding, Holder, OnTheMill, Operation, Own, Style},
    stock::material,
};

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

type Row = BTreeMap<String, String>;

fn text<'a>(row: &'a Row, key: &str) -> Result<&'a str, String> {
    row.get(key).map(String::as_str).ok_or_else(|| format!("no column {key}"))
}

fn number(row: &Row, key: &str) -> Result<f64, String> {
    let text = text(row, key)?;
    text.parse().map_err(|_| format!("{key}: {text:?} is no number"))
}

fn inch(row: &Row, key: &str) -> Result<Length, String> {
    number(row, key).map(Length::inch)
}

fn flag(row: &Row, key: &str) -> Result<bool, String> {
    Ok(text(row, key)? == "1")
}

fn machine(row: &Row) -> Result<Machine, String> {
    let speeds = text(row, "speeds")?;
    let speeds = match text(row, "drive")? {
        "steps" => Speeds::Steps(
            speeds
                .split_whitespace()
                .map(|n| n.parse().map(SpindleSpeed::rpm).map_err(|_| format!("speed {n:?}")))
                .collect::<Result<_, _>>()?,
        ),
        "variable" => {
            let (low, high) = speeds.split_once('-').ok_or("speeds: low-high wanted")?;
            let rpm =
                |t: &str| t.parse().map(SpindleSpeed::rpm).map_err(|_| format!("speed {t:?}"));
            Speeds::Continuous {
                lowest: rpm(low)?,
                highest: rpm(high)?,
                base: Some(SpindleSpeed::rpm(number(row, "n_base")?)),
            }
        }
        other => return Err(format!("drive {other:?}")),
    };
    Ok(Machine {
        name: text(row, "machine")?.to_owned(),
        class: match text(row, "class")? {
            "light_bench" => Class::LightBench,
            "bench" => Class::Bench,
            "heavy_bench" => Class::HeavyBench,
            "knee" => Class::Knee,
            other => return Err(format!("class {other:?}")),
        },
        ranges: vec![Range {
            name: String::new(),
            speeds,
            clockwise_label: None,
            counter_clockwise_label: None,
        }],
        power: Some(Power::watt(number(row, "P")?)),
        table: Axis {
            lead: inch(row, "lead")?,
            divisions: None,
            backlash: Some(inch(row, "lash")?),
        },
        quill_wheel: None,
        stiffness: None,
        table_drag: None,
        comfortable_rate: HandRate::turns_per_min(40.0),
        highest_rate: HandRate::turns_per_min(60.0),
    })
}

fn kind(row: &Row) -> Result<Kind, String> {
    let point_angle = Angle::degree(118.0);
    Ok(match text(row, "table")? {
        "end_mill" => Kind::EndMill { tip: Tip::Square, center_cutting: true },
        "face_mill" => Kind::FaceMill { entering_angle: Angle::degree(90.0) },
        "fly_cutter" => Kind::FlyCutter,
        "boring_head" => Kind::BoringHead,
        "slitting_saw" => Kind::SlittingSaw { thickness: inch(row, "ap")? },
        "drill" => Kind::Drill { point_angle },
        "reamer" => Kind::Reamer,
        other => return Err(format!("table {other:?}")),
    })
}

fn judge(row: &Row) -> Result<Answer, String> {
    let machine = machine(row)?;
    let kind = kind(row)?;
    let width = inch(row, "ae")?;
    let id = text(row, "material")?;
    let pilot = inch(row, "pilot")?;
    let operation = match text(row, "op")? {
        "slot" => Operation::Slot,
        "side" => Operation::Side {
            width,
            feeding: if flag(row, "climb")? { Feeding::Climb } else { Feeding::Conventional },
        },
        "face" => Operation::Face { width },
        "saw" => Operation::Saw,
        "drill" => Operation::Drill { pilot: pilot.is_positive().then_some(pilot), through: false },
        "ream" => Operation::Ream,
        other => return Err(format!("op {other:?}")),
    };
    let mill = OnTheMill {
        machine: &machine,
        stock: material(id).ok_or_else(|| format!("material {id:?}"))?,
        cutter: Cutter {
            kind,
            diameter: inch(row, "D")?,
            teeth: number(row, "z")? as u32,
            material: match text(row, "tool")? {
                "HSS" => ToolMaterial::Hss,
                "carbide" => ToolMaterial::Carbide,
                other => return Err(format!("tool {other:?}")),
            },
            coated: false,
            flute_length: inch(row, "Lf")?,
            shank: inch(row, "shank")?,
            stickout: inch(row, "L")?,
            helix: Angle::degree(number(row, "helix")?),
        },
        runout: Some(inch(row, "tir")?),
        holder: Holder::Collet,
        worn: false,
    };
    let cut = Cut {
        operation,
        // A saw's depth stands in the column of the width; its thickness in that of the depth.
        depth: if operation == Operation::Saw { width } else { inch(row, "ap")? },
        length: None,
        finish: flag(row, "finish")?,
        coolant: match text(row, "coolant")? {
            "flood" => Coolant::Flood,
            "brush" => Coolant::Brush,
            "dry" => Coolant::Dry,
            other => return Err(format!("coolant {other:?}")),
        },
        style: Style::Gentle,
        own: Own {
            spindle_speed: Some(SpindleSpeed::rpm(number(row, "n")?)),
            feed_as_set: Some(inch(row, "fz")?),
            passes: Some(1),
            ..Own::default()
        },
    };
    limits::answer(&mill, &cut)
        .map_err(|errors| errors.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))
}

/// Where the answer and the row disagree.
fn disagreements(row: &Row, answer: &Answer) -> Result<Vec<String>, String> {
    let mut wrong = Vec::new();
    let mut over = Vec::new();
    for (name, limit) in LIMITS {
        let stated = text(row, &format!("state_{name}"))?;
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
            let of = row.get(&format!("u_{name}")).map_or("", String::as_str);
            wrong.push(format!("{name}: {word} ({u:.3}), stated {stated} ({of})"));
        }
    }
    if text(row, "verdict")? == "bad" {
        let expected = text(row, "expect_over")?;
        if !expected.split_whitespace().any(|name| over.contains(&name)) {
            wrong.push(format!("over on {over:?}, expected one of {expected}"));
        }
    }
    Ok(wrong)
}

/// Cells of a line of comma-separated values with double quotes.
fn cells(line: &str) -> Vec<String> {
    let (mut cells, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(std::mem::take(&mut cell)),
            _ => cell.push(c),
        }
    }
    cells.push(cell);
    cells
}

fn main() -> ExitCode {
    let name = std::env::var_os("CUTS_FILE").unwrap_or_else(|| "tests/cuts.csv".into());
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(name);
    let table = match std::fs::read_to_string(&path) {
        Ok(table) => table,
        Err(error) => {
            println!("cuts: cannot read {}: {error}", path.display());
            return ExitCode::FAILURE;
        }
    };
    let mut lines = table.lines().filter(|l| !l.trim().is_empty());
    let header = cells(lines.next().unwrap_or_default());
    let (mut passed, mut total) = (0, 0);
    for line in lines {
        total += 1;
        let row: Row = header.iter().cloned().zip(cells(line)).collect();
        let id = row.get("id").cloned().unwrap_or_default();
        match judge(&row).and_then(|answer| disagreements(&row, &answer)) {
            Ok(wrong) if wrong.is_empty() => passed += 1,
            Ok(wrong) => println!("{id}: {}", wrong.join("; ")),
            Err(error) => println!("{id}: {error}"),
        }
    }
    println!("cuts: {passed} of {total} rows");
    if passed == total && total > 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
