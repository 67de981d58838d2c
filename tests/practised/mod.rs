//! The table of practised cuts: each row as a question, with the state of every limit as stated.
#![allow(dead_code, reason = "each test takes what it needs")]

use std::{collections::BTreeMap, path::PathBuf};

use handwheel::engine::{
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    machine::{Axis, Class, Machine, Range, Speeds},
    quantity::{Angle, HandRate, Length, Power, SpindleSpeed},
    question::{Coolant, Cut, Feeding, Holder, OnTheMill, Operation, Own, Style},
    stock::{Material, material},
};

/// One practised cut.
pub struct Practised {
    cells: BTreeMap<String, String>,
    pub machine: Machine,
    pub stock: &'static Material,
    pub cutter: Cutter,
    pub runout: Length,
    /// The cut as it was made: speed, feed and one pass typed.
    pub cut: Cut,
}

/// Every row of the table, or what is wrong with it.
///
/// `CUTS_FILE` names another table of the same columns; a relative path counts from the package.
pub fn rows() -> Result<Vec<Practised>, String> {
    let name = std::env::var_os("CUTS_FILE").unwrap_or_else(|| "tests/cuts.csv".into());
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(name);
    let table = std::fs::read_to_string(&path)
        .map_err(|error| format!("cannot read {}: {error}", path.display()))?;
    let mut lines = table.lines().filter(|l| !l.trim().is_empty());
    let header = cells(lines.next().unwrap_or_default());
    lines
        .map(|line| {
            let cells: BTreeMap<_, _> = header.iter().cloned().zip(cells(line)).collect();
            let id = cells.get("id").cloned().unwrap_or_default();
            Practised::new(cells).map_err(|error| format!("{id}: {error}"))
        })
        .collect()
}

impl Practised {
    fn new(cells: BTreeMap<String, String>) -> Result<Self, String> {
        let id = text(&cells, "material")?;
        let stock = material(id).ok_or_else(|| format!("material {id:?}"))?;
        Ok(Self {
            machine: machine(&cells)?,
            stock,
            cutter: cutter(&cells)?,
            runout: inch(&cells, "tir")?,
            cut: cut(&cells)?,
            cells,
        })
    }

    /// What stands in a column, empty where there is none.
    pub fn text(&self, column: &str) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }

    pub fn is_good(&self) -> bool {
        self.text("verdict") == "good"
    }

    pub fn mill(&self) -> OnTheMill<'_> {
        OnTheMill {
            machine: &self.machine,
            stock: self.stock,
            cutter: self.cutter,
            runout: Some(self.runout),
            holder: Holder::Collet,
            worn: false,
        }
    }

    /// The cut as somebody would ask for it: speed, feed and passes are what is wanted.
    pub fn question(&self, style: Style) -> Cut {
        Cut { own: Own::default(), style, ..self.cut }
    }
}

type Cells = BTreeMap<String, String>;

fn text<'a>(cells: &'a Cells, key: &str) -> Result<&'a str, String> {
    cells.get(key).map(String::as_str).ok_or_else(|| format!("no column {key}"))
}

fn number(cells: &Cells, key: &str) -> Result<f64, String> {
    let text = text(cells, key)?;
    text.parse().map_err(|_| format!("{key}: {text:?} is no number"))
}

fn inch(cells: &Cells, key: &str) -> Result<Length, String> {
    number(cells, key).map(Length::inch)
}

fn flag(cells: &Cells, key: &str) -> Result<bool, String> {
    Ok(text(cells, key)? == "1")
}

fn machine(cells: &Cells) -> Result<Machine, String> {
    let speeds = text(cells, "speeds")?;
    let speeds = match text(cells, "drive")? {
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
                base: Some(SpindleSpeed::rpm(number(cells, "n_base")?)),
            }
        }
        other => return Err(format!("drive {other:?}")),
    };
    Ok(Machine {
        name: text(cells, "machine")?.to_owned(),
        class: match text(cells, "class")? {
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
        power: Some(Power::watt(number(cells, "P")?)),
        table: Axis {
            lead: inch(cells, "lead")?,
            divisions: None,
            backlash: Some(inch(cells, "lash")?),
        },
        quill_wheel: None,
        stiffness: None,
        table_drag: None,
        comfortable_rate: HandRate::turns_per_min(40.0),
        highest_rate: HandRate::turns_per_min(60.0),
    })
}

fn kind(cells: &Cells) -> Result<Kind, String> {
    let point_angle = Angle::degree(118.0);
    Ok(match text(cells, "table")? {
        "end_mill" => Kind::EndMill { tip: Tip::Square, center_cutting: true },
        "face_mill" => Kind::FaceMill { entering_angle: Angle::degree(90.0) },
        "fly_cutter" => Kind::FlyCutter,
        "boring_head" => Kind::BoringHead,
        "slitting_saw" => Kind::SlittingSaw { thickness: inch(cells, "ap")? },
        "drill" => Kind::Drill { point_angle },
        "reamer" => Kind::Reamer,
        other => return Err(format!("table {other:?}")),
    })
}

fn cutter(cells: &Cells) -> Result<Cutter, String> {
    Ok(Cutter {
        kind: kind(cells)?,
        diameter: inch(cells, "D")?,
        teeth: number(cells, "z")? as u32,
        material: match text(cells, "tool")? {
            "HSS" => ToolMaterial::Hss,
            "carbide" => ToolMaterial::Carbide,
            other => return Err(format!("tool {other:?}")),
        },
        coated: false,
        flute_length: inch(cells, "Lf")?,
        shank: inch(cells, "shank")?,
        stickout: inch(cells, "L")?,
        helix: Angle::degree(number(cells, "helix")?),
    })
}

fn operation(cells: &Cells) -> Result<Operation, String> {
    let width = inch(cells, "ae")?;
    let pilot = inch(cells, "pilot")?;
    Ok(match text(cells, "op")? {
        "slot" => Operation::Slot,
        "side" => Operation::Side {
            width,
            feeding: if flag(cells, "climb")? { Feeding::Climb } else { Feeding::Conventional },
        },
        "face" => Operation::Face { width },
        "saw" => Operation::Saw,
        "drill" => Operation::Drill { pilot: pilot.is_positive().then_some(pilot), through: false },
        "ream" => Operation::Ream,
        other => return Err(format!("op {other:?}")),
    })
}

fn cut(cells: &Cells) -> Result<Cut, String> {
    let operation = operation(cells)?;
    // A saw's depth stands in the column of the width; its thickness in that of the depth.
    let depth = if operation == Operation::Saw { "ae" } else { "ap" };
    Ok(Cut {
        operation,
        depth: inch(cells, depth)?,
        length: None,
        finish: flag(cells, "finish")?,
        coolant: match text(cells, "coolant")? {
            "flood" => Coolant::Flood,
            "brush" => Coolant::Brush,
            "dry" => Coolant::Dry,
            other => return Err(format!("coolant {other:?}")),
        },
        style: Style::Gentle,
        own: Own {
            spindle_speed: Some(SpindleSpeed::rpm(number(cells, "n")?)),
            feed_as_set: Some(inch(cells, "fz")?),
            passes: Some(1),
            ..Own::default()
        },
    })
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
