//! Turns the tables beside the code into statics, and refuses a table that is wrong.

use std::{collections::HashMap, env, fmt::Write as _, fs, path::Path};

const SOURCES: &str = "src/engine/sources.csv";
const MATERIALS: &str = "src/engine/stock/materials.csv";
const HAZARDS: &str = "src/engine/stock/hazards.csv";
const REFUSED: &str = "src/engine/stock/refused.csv";
const DRILL_FACTORS: &str = "src/engine/stock/drill_work_factors.csv";
const DRILLS: &str = "src/engine/drills/drills.csv";
const CHIP_LOAD: &str = "src/engine/cutters/chip_load.csv";
const CLEARANCE: &str = "src/engine/holes/clearance.csv";
const COUNTERBORE: &str = "src/engine/holes/counterbore.csv";
const COUNTERSINK: &str = "src/engine/holes/countersink.csv";
const HARDNESS: &str = "src/engine/convert/hardness.csv";
const THREADS: &str = "src/engine/threads/threads.csv";
const BA: &str = "src/engine/threads/ba.csv";
const BSP: &str = "src/engine/threads/bsp.csv";
const NPT: &str = "src/engine/threads/npt.csv";
const ISO_965: &str = "src/engine/threads/iso965.csv";
const UN_PRINTED: &str = "src/engine/threads/un_printed.csv";
const LOOK_ALIKES: &str = "src/engine/threads/look_alikes.csv";
const OVERSIZE: &str = "src/engine/threads/oversize.csv";
const RULES: &str = "src/engine/safety/rules.csv";
const ENGAGEMENT: &str = "src/engine/holes/engagement.csv";

/// Stock under this specific cutting force, N/mm2, is soft and may share one row of drill factors.
const SOFT_BELOW_N_MM2: f64 = 600.0;

const SURENESS: &[(&str, &str)] = &[
    ("published", "Published"),
    ("computed_from_standard", "ComputedFromStandard"),
    ("common_practice", "CommonPractice"),
    ("from_memory", "FromMemory"),
    ("closed_form", "ClosedForm"),
];
const FAMILIES: &[(&str, &str)] = &[
    ("steel", "Steel"),
    ("stainless", "Stainless"),
    ("cast_iron", "CastIron"),
    ("aluminium", "Aluminium"),
    ("copper_alloy", "CopperAlloy"),
    ("other_metal", "OtherMetal"),
    ("plastic", "Plastic"),
    ("laminate", "Laminate"),
    ("wood_wax_graphite", "WoodWaxGraphite"),
];
const ISO_GROUPS: &[(&str, &str)] = &[("P", "P"), ("M", "M"), ("K", "K"), ("N", "N"), ("S", "S")];
const FLAGS: &[(&str, &str)] = &[
    ("work_hardening", "WorkHardening"),
    ("magnesium", "Magnesium"),
    ("titanium", "Titanium"),
    ("leaded", "Leaded"),
    ("glass", "Glass"),
    ("carbon", "Carbon"),
    ("brittle", "Brittle"),
    ("nickel", "Nickel"),
    ("phenolic", "Phenolic"),
    ("wood", "Wood"),
    ("ptfe", "Ptfe"),
    ("pvc", "Pvc"),
    ("acetal", "Acetal"),
    ("resin_board", "ResinBoard"),
];
const FLUIDS: &[(&str, &str)] = &[("water", "Water"), ("oil", "Oil"), ("air", "Air")];
const WEIGHTS: &[(&str, &str)] = &[("stop", "true"), ("caution", "false")];
const PHASES: &[(&str, &str)] = &[
    ("before_power", "BeforePower"),
    ("before_start", "BeforeStart"),
    ("first_cut", "FirstCut"),
    ("chips", "Chips"),
    ("after", "After"),
];
const SEVERITIES: &[(&str, &str)] =
    &[("stop", "Stop"), ("caution", "Caution"), ("reminder", "Reminder")];
const RULE_GROUPS: &[(&str, &str)] = &[
    ("body", "Body"),
    ("place", "Place"),
    ("tool", "Tool"),
    ("holding", "Holding"),
    ("stock", "Stock"),
    ("fluid", "Fluid"),
    ("direction", "Direction"),
    ("last_look", "LastLook"),
    ("cut", "Cut"),
    ("attention", "Attention"),
    ("chips", "Chips"),
    ("leaving", "Leaving"),
];
/// What a condition of a rule may ask, each a variant of `safety::Fact` of the same name.
const FACTS: &[&str] = &[
    "bench_machine",
    "belt_drive",
    "drawbar",
    "screw_on_chuck",
    "key_chuck",
    "restarts_itself",
    "chip_shield",
    "backlash",
    "reversing_range",
    "confirmed",
    "reverses",
    "too_fast",
    "lowest_too_fast",
    "speed_change",
    "tool_change",
    "new_set_up",
    "tool_stays",
    "next_elsewhere",
    "two_machines",
    "batch",
    "end_of_day",
    "late",
    "tired",
    "long_hair",
    "prescription",
    "bystanders",
    "phone_on_table",
    "floor_wet",
    "alone",
    "stale_fluid",
    "heavy",
    "grinding_nearby",
    "drilling",
    "milling",
    "interrupted",
    "fly_cutter",
    "boring_head",
    "saw",
    "edge_finder",
    "indicating",
    "hand_tapping",
    "power_tapping",
    "by_hand",
    "plunging",
    "quill_idle",
    "through_hole",
    "blind_hole",
    "deep_hole",
    "climb",
    "slow_wheel",
    "end_mill",
    "collet",
    "drill_chuck",
    "large_tool",
    "long_stickout",
    "small_cutter",
    "carbide",
    "left_hand",
    "vise",
    "straps",
    "tape",
    "loose",
    "studs",
    "clamps",
    "one_clamp",
    "shallow_grip",
    "overhang",
    "thin",
    "parallels",
    "near_parallels",
    "dry",
    "wetted",
    "water",
    "water_mix",
    "mist",
    "spirit",
    "air",
    "stock_unknown",
    "magnesium",
    "titanium",
    "beryllium",
    "leaded",
    "glass",
    "carbon",
    "silica",
    "wood",
    "ptfe",
    "pvc",
    "acetal",
    "phenolic",
    "resin_board",
    "brittle",
    "work_hardening",
    "fine_dust",
    "aluminium",
    "hot_chips",
];
const OPERATIONS: &[(&str, &str)] = &[
    ("end_mill", "EndMill"),
    ("face_mill", "FaceMill"),
    ("side_mill", "SideMill"),
    ("fly_cutter", "FlyCutter"),
    ("slitting_saw", "SlittingSaw"),
    ("drill", "Drill"),
    ("reamer", "Reamer"),
    ("countersink", "Countersink"),
    ("boring_head", "BoringHead"),
];
/// Series of threads as the table writes them, in the order of a list.
const SERIES: &[(&str, &str)] = &[
    ("UNC", "Unc"),
    ("UNF", "Unf"),
    ("M", "Metric"),
    ("MF", "MetricFine"),
    ("UNEF", "Unef"),
    ("UN", "Un"),
    ("UNS", "Uns"),
    ("NPT", "Npt"),
    ("G", "G"),
    ("R", "R"),
    ("BSW", "Bsw"),
    ("BSF", "Bsf"),
    ("BA", "Ba"),
    ("ME", "Me"),
    ("BSB", "Bsb"),
];
const EDGES: &[(&str, &str)] = &[("hss", "Hss"), ("carbide", "Carbide")];
const YES_NO: &[(&str, &str)] = &[("yes", "true"), ("no", "false")];
const HARDNESS_SCALES: &[(&str, &str)] = &[("HRC", "Hrc"), ("HRB", "Hrb")];
const PRINTED_IN: &[(&str, &str)] = &[("in", "Inch"), ("mm", "Mm")];
const CLEARANCE_STANDARDS: &[(&str, &str)] =
    &[("asme_b18.2.8", "AsmeB18_2_8"), ("iso_273", "Iso273"), ("trade", "Trade")];
const FITS: &[(&str, &str)] = &[
    ("close", "Close"),
    ("normal", "Normal"),
    ("loose", "Loose"),
    ("fine", "Close"),
    ("medium", "Normal"),
    ("coarse", "Loose"),
    ("free", "Loose"),
];
const COUNTERBORE_STANDARDS: &[(&str, &str)] =
    &[("asme_b18.3", "AsmeB18_3"), ("asme_b18.3.1m", "AsmeB18_3_1M"), ("iso_4762", "Iso4762")];
const COUNTERSINK_STANDARDS: &[(&str, &str)] = &[
    ("asme_b18.3", "AsmeB18_3"),
    ("asme_b18.6.3", "AsmeB18_6_3"),
    ("iso_10642", "Iso10642"),
    ("iso_15065", "Iso15065"),
];
const PER: &[(&str, &str)] = &[("turn", "true"), ("tooth", "false")];

type Result<T> = std::result::Result<T, String>;

/// A table, read whole.
struct Table {
    path: &'static str,
    columns: HashMap<String, usize>,
    records: Vec<csv::StringRecord>,
}

impl Table {
    fn read(path: &'static str) -> Result<Self> {
        println!("cargo::rerun-if-changed={path}");
        let cannot = |e| format!("{path}: {e}");
        let mut reader = csv::Reader::from_path(path).map_err(cannot)?;
        let columns = reader.headers().map_err(cannot)?;
        let columns = columns.iter().enumerate().map(|(i, name)| (name.to_owned(), i)).collect();
        let records = reader.records().collect::<csv::Result<_>>().map_err(cannot)?;
        Ok(Self { path, columns, records })
    }

    fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.records.iter().map(|record| Row { table: self, record })
    }
}

/// A row of a table: every reader checks what it reads and names the place of a fault.
#[derive(Clone, Copy)]
struct Row<'a> {
    table: &'a Table,
    record: &'a csv::StringRecord,
}

impl<'a> Row<'a> {
    fn fault(self, what: impl std::fmt::Display) -> String {
        let line = self.record.position().map_or(0, csv::Position::line);
        let name = self.record.get(0).unwrap_or_default();
        format!("{}, line {line} ({name}): {what}", self.table.path)
    }

    fn text(self, column: &str) -> Result<&'a str> {
        let index = self.table.columns.get(column);
        index
            .and_then(|&i| self.record.get(i))
            .map(str::trim)
            .ok_or_else(|| self.fault(format_args!("there is no column {column}")))
    }

    fn filled(self, column: &str) -> Result<&'a str> {
        match self.text(column)? {
            "" => Err(self.fault(format_args!("{column} is empty"))),
            text => Ok(text),
        }
    }

    /// A figure greater than zero.
    fn number(self, column: &str) -> Result<f64> {
        let text = self.filled(column)?;
        match text.parse::<f64>() {
            Ok(x) if x > 0.0 && x.is_finite() => Ok(x),
            _ => Err(self.fault(format_args!("{column} is {text}, not a number above zero"))),
        }
    }

    fn range(self, low: &str, high: &str) -> Result<(f64, f64)> {
        let (a, b) = (self.number(low)?, self.number(high)?);
        if a > b {
            return Err(self.fault(format_args!("{low} {a} is above {high} {b}")));
        }
        Ok((a, b))
    }

    fn word(
        self,
        word: &str,
        column: &str,
        words: &[(&str, &'static str)],
    ) -> Result<&'static str> {
        let found = words.iter().find(|(w, _)| *w == word);
        found.map(|(_, rust)| *rust).ok_or_else(|| {
            let known: Vec<_> = words.iter().map(|(w, _)| *w).collect();
            self.fault(format_args!("{column} is {word:?}; it may be {}", known.join(", ")))
        })
    }

    fn choice(self, column: &str, words: &[(&str, &'static str)]) -> Result<&'static str> {
        self.word(self.text(column)?, column, words)
    }

    fn list(self, column: &str) -> Result<impl Iterator<Item = &'a str>> {
        Ok(self.text(column)?.split([' ', ',']).filter(|w| !w.is_empty()))
    }

    /// Tags of sources, each of them in the list, written with one blank between.
    fn tags(self, column: &str, sources: &Sources) -> Result<String> {
        let tags: Vec<_> = self.list(column)?.collect();
        if tags.is_empty() {
            return Err(self.fault(format_args!("{column} is empty: every figure has a source")));
        }
        match tags.iter().find(|t| !sources.contains(t)) {
            Some(tag) => Err(self.fault(format_args!("{column} names {tag}, not in {SOURCES}"))),
            None => Ok(tags.join(" ")),
        }
    }
}

/// The tags of the list of sources, in order.
struct Sources(Vec<String>);

impl Sources {
    fn contains(&self, tag: &str) -> bool {
        self.0.iter().any(|t| t == tag)
    }
}

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let is_wasm = env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|arch| arch == "wasm32");
    if is_wasm && env::var_os("CARGO_FEATURE_PIECES").is_some() {
        // What the program is taken apart by.
        println!("cargo::rustc-link-arg-bin=handwheel=--emit-relocs");
    }
    if let Err(fault) = write_tables() {
        println!("cargo::error={fault}");
    }
}

fn write_tables() -> Result<()> {
    let out = env::var("OUT_DIR").map_err(|e| e.to_string())?;
    let write = |name: &str, code: String| {
        fs::write(Path::new(&out).join(name), code).map_err(|e| format!("{name}: {e}"))
    };
    let (sources, code) = sources()?;
    write("sources.rs", code)?;
    let (feed_groups, code) = materials(&sources)?;
    write("materials.rs", code)?;
    write("chip_load.rs", chip_load(&sources, &feed_groups)?)?;
    write("drills.rs", drills(&sources)?)?;
    write("clearance.rs", clearance(&sources)?)?;
    write("counterbore.rs", counterbores(&sources)?)?;
    write("countersink.rs", countersinks(&sources)?)?;
    write("hardness.rs", hardness(&sources)?)?;
    write("engagement.rs", engagement(&sources, &feed_groups)?)?;
    write("threads.rs", threads(&sources)?)?;
    write("pipe_and_ba.rs", pipe_and_ba(&sources)?)?;
    write("thread_limits.rs", thread_limits(&sources)?)?;
    write("oversize.rs", oversize(&sources)?)?;
    write("look_alikes.rs", look_alikes(&sources)?)?;
    write("rules.rs", rules(&sources)?)
}

/// The rules of the checklist, in the order of the table.
fn rules(sources: &Sources) -> Result<String> {
    let table = Table::read(RULES)?;
    let mut ids: Vec<&str> = Vec::new();
    for row in table.rows() {
        let id = row.filled("id")?;
        if ids.contains(&id) {
            return Err(row.fault("this rule stands in the table twice"));
        }
        ids.push(id);
    }
    let named = |row: Row<'_>, column: &str| match row.text(column)? {
        "" => Ok("None".to_owned()),
        id if ids.contains(&id) => Ok(format!("Some({id:?})")),
        id => Err(row.fault(format_args!("{column} names {id}, which is no rule"))),
    };
    let mut code =
        format!("/// All rules.\npub static RULES: [Rule; {}] = [\n", table.records.len());
    for row in table.rows() {
        let text = |column: &str, most: usize| {
            let text = row.text(column)?;
            match text.chars().count() {
                length if length > most => {
                    Err(row.fault(format_args!("{column} has {length} letters, not {most}")))
                }
                _ => Ok(text),
            }
        };
        row.filled("item")?;
        row.filled("why")?;
        let _ = writeln!(
            code,
            "Rule {{ id: {:?}, phase: Phase::{}, group: Group::{}, condition: &[{}], item: {:?}, \
             item_open: {:?}, why: {:?}, severity: Severity::{}, sources: {:?}, covered_by: {}, \
             kept: {}, overrules: {} }},",
            row.filled("id")?,
            row.choice("phase", PHASES)?,
            row.choice("group", RULE_GROUPS)?,
            condition(row)?,
            text("item", 70)?,
            text("item_open", 70)?,
            text("why", 140)?,
            row.choice("severity", SEVERITIES)?,
            row.tags("source", sources)?,
            named(row, "covered_by")?,
            row.choice("kept", YES_NO)?,
            named(row, "overrules")?,
        );
    }
    code.push_str("];\n");
    Ok(code)
}

/// A condition: facts or their opposites joined by `&`, such lists joined by `|`.
fn condition(row: Row<'_>) -> Result<String> {
    let text = row.filled("condition")?;
    if text == "always" {
        return Ok("&[]".to_owned());
    }
    let mut code = String::new();
    for all in text.split('|') {
        code.push_str("&[");
        for term in all.split('&').map(str::trim) {
            let (fact, is) = term.strip_prefix('!').map_or((term, true), |fact| (fact, false));
            if !FACTS.contains(&fact) {
                return Err(row.fault(format_args!("condition names {fact:?}, which is no fact")));
            }
            let variant: String = fact
                .split('_')
                .map(|word| {
                    let (first, rest) = word.split_at(1);
                    first.to_uppercase() + rest
                })
                .collect();
            let _ = write!(code, "Term {{ fact: Fact::{variant}, is: {is} }}, ");
        }
        code.push_str("], ");
    }
    Ok(code)
}

fn sources() -> Result<(Sources, String)> {
    let table = Table::read(SOURCES)?;
    let mut rows = Vec::new();
    for row in table.rows() {
        let sureness = row.choice("sureness", SURENESS)?;
        rows.push((row.filled("tag")?.to_owned(), sureness, row.filled("text")?));
    }
    rows.sort();
    if let Some(pair) = rows.windows(2).find(|pair| pair[0].0 == pair[1].0) {
        return Err(format!("{SOURCES}: {} stands in it twice", pair[0].0));
    }
    let mut code =
        "/// All sources, sorted by tag.\npub static SOURCES: &[Source] = &[\n".to_owned();
    for (tag, sureness, text) in &rows {
        let _ = writeln!(
            code,
            "Source {{ tag: {tag:?}, text: {text:?}, sureness: Sureness::{sureness} }},"
        );
    }
    code.push_str("];\n");
    Ok((Sources(rows.into_iter().map(|row| row.0).collect()), code))
}

/// The number and letter drills in ten-thousandths of an inch, in the order of their names.
fn drills(sources: &Sources) -> Result<String> {
    let table = Table::read(DRILLS)?;
    let (mut numbers, mut letters) = (Vec::new(), Vec::new());
    for row in table.rows() {
        row.tags("source", sources)?;
        let (name, inch) = (row.filled("drill")?, row.number("inch")?);
        let ten_thousandths = (inch * 10_000.0).round();
        if (inch * 10_000.0 - ten_thousandths).abs() > 1e-6 {
            return Err(row.fault("a size is whole ten-thousandths of an inch"));
        }
        match name.parse::<usize>() {
            Ok(number) if number == numbers.len() + 1 => numbers.push(ten_thousandths as u16),
            Err(_) if name.bytes().eq([b'A' + letters.len() as u8]) => {
                letters.push(ten_thousandths as u16);
            }
            _ => return Err(row.fault("numbers rise by one, then letters do")),
        }
    }
    let table = |name: &str, sizes: &[u16]| {
        format!(
            "/// Diameters in ten-thousandths of an inch.\npub(in crate::engine::drills) static {name}: [u16; {}] = {sizes:?};\n",
            sizes.len()
        )
    };
    Ok(table("NUMBERS", &numbers) + &table("LETTERS", &letters))
}

/// The materials, and the feed groups they belong to.
fn materials(sources: &Sources) -> Result<(Vec<String>, String)> {
    let hazards = Table::read(HAZARDS)?;
    let mut hazard_words = HashMap::new();
    for row in hazards.rows() {
        hazard_words.insert(row.filled("code")?, row.filled("words")?);
    }
    let factors = Table::read(DRILL_FACTORS)?;
    let mut drill_factors = HashMap::new();
    for row in factors.rows() {
        let code = format!(
            "DrillFactors {{ torque: {:?}, thrust: {:?}, source: {:?} }}",
            row.number("torque")?,
            row.number("thrust")?,
            row.tags("source", sources)?
        );
        drill_factors.insert(row.filled("material")?, (row, code));
    }
    let (_, soft_factors) = drill_factors
        .remove("(soft)")
        .ok_or_else(|| format!("{DRILL_FACTORS}: the row (soft) is missing"))?;

    let refused = Table::read(REFUSED)?;
    let mut refusals = Vec::new();
    for row in refused.rows() {
        let code = format!(
            "Refused {{ fluid: Fluid::{}, stops: {}, why: {:?}, source: {:?} }}, ",
            row.choice("fluid", FLUIDS)?,
            row.choice("weight", WEIGHTS)?,
            row.filled("why")?,
            row.tags("source", sources)?,
        );
        refusals.push((row, row.filled("stock")?, code, false));
    }

    let table = Table::read(MATERIALS)?;
    let mut groups: Vec<String> = Vec::new();
    let mut ids = Vec::new();
    let mut code =
        "/// All materials, family by family.\npub static MATERIALS: &[Material] = &[\n".to_owned();
    for row in table.rows() {
        let id = row.filled("id")?;
        if ids.contains(&id) {
            return Err(row.fault("this material stands in the table twice"));
        }
        ids.push(id);
        let group = row.filled("feed_group")?;
        if !groups.iter().any(|g| g == group) {
            groups.push(group.to_owned());
        }
        let mut flags = String::new();
        for word in row.list("flags")? {
            let _ = write!(flags, "Flag::{}, ", row.word(word, "flags", FLAGS)?);
        }
        let mut refused = String::new();
        for (_, stock, code, used) in &mut refusals {
            if *stock == id || row.list("flags")?.any(|flag| flag == *stock) {
                refused.push_str(code);
                *used = true;
            }
        }
        let mut dangers = Vec::new();
        for hazard in row.list("hazards")? {
            let words = hazard_words.get(hazard);
            dangers.push(*words.ok_or_else(|| {
                row.fault(format_args!("hazards names {hazard}, not in {HAZARDS}"))
            })?);
        }
        let kc1_1 = row.number("kc1_1_n_mm2")?;
        let drilling = match drill_factors.remove(id) {
            Some((_, own)) => own,
            None if kc1_1 < SOFT_BELOW_N_MM2 => soft_factors.clone(),
            None => return Err(row.fault(format_args!("it has no row in {DRILL_FACTORS}"))),
        };
        let (soft, hard) = row.range("hardness_low", "hardness_high")?;
        let hss_usable = row.choice("hss_usable", YES_NO)?;
        let speed = |kind: &str, usable| speed_range(row, kind, usable, sources);
        let _ = writeln!(
            code,
            "Material {{ id: {id:?}, name: {:?}, family: Family::{}, iso_group: IsoGroup::{}, \
             feed_group: {group:?}, flags: &[{flags}], refused: &[{refused}], \
             hardness: Hardness {{ low: {soft:?}, high: {hard:?}, scale: {:?}, source: {:?} }}, \
             hss_usable: {hss_usable}, speeds: [[{}, {}], [{}, {}]], \
             unit_power_hp_in3_min: {:?}, source_power: {:?}, kc1_1_n_mm2: {kc1_1:?}, mc: {:?}, \
             source_force: {:?}, drill_factors: {drilling}, coolant: {:?}, \
             hazards: &{dangers:?}, note: {:?} }},",
            row.filled("name")?,
            row.choice("family", FAMILIES)?,
            row.choice("iso_group", ISO_GROUPS)?,
            row.filled("hardness_scale")?,
            row.tags("hardness_source", sources)?,
            speed("hss_mill", hss_usable)?,
            speed("carbide_mill", "true")?,
            speed("hss_drill", hss_usable)?,
            speed("carbide_drill", "true")?,
            row.number("unit_power_hp_in3_min")?,
            row.tags("unit_power_source", sources)?,
            row.number("mc")?,
            row.tags("kc_source", sources)?,
            row.filled("coolant")?,
            row.text("note")?,
        );
    }
    code.push_str("];\n");
    if let Some((row, ..)) = refusals.iter().find(|refusal| !refusal.3) {
        return Err(row.fault(format_args!("{MATERIALS} has no such material and no such flag")));
    }
    if let Some((row, _)) = drill_factors.values().next() {
        return Err(row.fault(format_args!("{MATERIALS} has no such material")));
    }
    Ok((groups, code))
}

/// A speed range; only an edge that dulls at once may be without one.
fn speed_range(row: Row<'_>, kind: &str, usable: &str, sources: &Sources) -> Result<String> {
    let column = |end: &str| format!("{kind}_{end}");
    let (low, high, source) = (column("low_ft_min"), column("high_ft_min"), column("source"));
    if usable == "false" && row.text(&low)?.is_empty() && row.text(&high)?.is_empty() {
        return Ok("None".to_owned());
    }
    let (a, b) = row.range(&low, &high)?;
    let tags = row.tags(&source, sources)?;
    Ok(format!("Some(SpeedRange {{ low_ft_min: {a:?}, high_ft_min: {b:?}, source: {tags:?} }})"))
}

/// A length in the unit of its row, as a table of a standard prints it.
fn printed(row: Row<'_>, column: &str) -> Result<String> {
    Ok(format!("Printed::{}({:?})", row.choice("unit", PRINTED_IN)?, row.number(column)?))
}

/// A [`printed`] length that a row may be without.
fn printed_or_none(row: Row<'_>, column: &str) -> Result<String> {
    match row.text(column)? {
        "" => Ok("None".to_owned()),
        _ => Ok(format!("Some({})", printed(row, column)?)),
    }
}

/// A table whose rows are written one by one.
fn statics<'a>(
    table: &'a Table,
    head: &str,
    of: impl Fn(Row<'a>) -> Result<String>,
) -> Result<String> {
    let mut code = format!("{head} = &[\n");
    for row in table.rows() {
        let _ = writeln!(code, "{},", of(row)?);
    }
    code.push_str("];\n");
    Ok(code)
}

fn clearance(sources: &Sources) -> Result<String> {
    let head = "/// All clearance holes, by standard, screw and fit.\n\
        pub static CLEARANCE_HOLES: &[ClearanceHole]";
    statics(&Table::read(CLEARANCE)?, head, |row| {
        Ok(format!(
            "ClearanceHole {{ standard: Standard::{}, screw: {:?}, fit: Fit::{}, drill: {:?}, \
             hole: {}, source: {:?} }}",
            row.choice("standard", CLEARANCE_STANDARDS)?,
            row.filled("screw")?,
            row.choice("fit", FITS)?,
            row.filled("drill")?,
            printed(row, "hole")?,
            row.tags("source", sources)?
        ))
    })
}

fn counterbores(sources: &Sources) -> Result<String> {
    let head = "/// All counterbores, by standard and screw.\n\
        #[allow(clippy::approx_constant, reason = \"a head may measure near a constant\")]\n\
        pub static COUNTERBORES: &[Counterbore]";
    statics(&Table::read(COUNTERBORE)?, head, |row| {
        Ok(format!(
            "Counterbore {{ standard: Standard::{}, screw: {:?}, head_diameter: {}, \
             head_height: {}, diameter: {}, depth: {}, edge_break: {}, source: {:?} }}",
            row.choice("standard", COUNTERBORE_STANDARDS)?,
            row.filled("screw")?,
            printed(row, "head_diameter")?,
            printed(row, "head_height")?,
            printed(row, "diameter")?,
            printed(row, "depth")?,
            printed_or_none(row, "edge_break")?,
            row.tags("source", sources)?
        ))
    })
}

fn countersinks(sources: &Sources) -> Result<String> {
    let head = "/// All countersinks, by standard and screw.\n\
        pub static COUNTERSINKS: &[Countersink]";
    statics(&Table::read(COUNTERSINK)?, head, |row| {
        Ok(format!(
            "Countersink {{ standard: Standard::{}, screw: {:?}, angle_deg: {:?}, diameter: {}, \
             diameter_max: {}, head_height: {}, source: {:?} }}",
            row.choice("standard", COUNTERSINK_STANDARDS)?,
            row.filled("screw")?,
            row.number("angle_deg")?,
            printed(row, "diameter")?,
            printed_or_none(row, "diameter_max")?,
            printed_or_none(row, "head_height")?,
            row.tags("source", sources)?
        ))
    })
}

/// Rows of the hardness tables, the hardest first.
fn hardness(sources: &Sources) -> Result<String> {
    let number_or_none = |row: Row<'_>, column: &str| match row.text(column)? {
        "" => Ok("None".to_owned()),
        _ => Ok::<_, String>(format!("Some({:?})", row.number(column)?)),
    };
    let head = "/// All rows, by scale, the hardest first.\npub static HARDNESS: &[Row]";
    statics(&Table::read(HARDNESS)?, head, |row| {
        Ok(format!(
            "Row {{ scale: Scale::{}, number: {:?}, hv: {:?}, hb: {}, hra: {}, source: {:?} }}",
            row.choice("scale", HARDNESS_SCALES)?,
            row.number("number")?,
            row.number("hv")?,
            number_or_none(row, "hb")?,
            number_or_none(row, "hra")?,
            row.tags("source", sources)?
        ))
    })
}

/// Engagements, one for every group of stock.
fn engagement(sources: &Sources, feed_groups: &[String]) -> Result<String> {
    let table = Table::read(ENGAGEMENT)?;
    for group in feed_groups {
        if !table.rows().any(|row| row.text("group") == Ok(group)) {
            return Err(format!("{ENGAGEMENT}: the row of {group} is missing"));
        }
    }
    let head = "/// All engagements.\npub static ENGAGEMENTS: &[Engagement]";
    statics(&table, head, |row| {
        let group = row.filled("group")?;
        if !feed_groups.iter().any(|g| g == group) {
            return Err(row.fault(format_args!("no material belongs to the group {group}")));
        }
        let (low, high) = row.range("low", "high")?;
        Ok(format!(
            "Engagement {{ group: {group:?}, low: {low:?}, high: {high:?}, remark: {:?}, \
             source: {:?} }}",
            row.text("remark")?,
            row.tags("source", sources)?
        ))
    })
}

/// One series of feed points, as the rows come.
struct Series<'a> {
    first: Row<'a>,
    key: [&'a str; 3],
    per: &'a str,
    note: &'a str,
    bands: Vec<Band>,
}

/// A row of a series: the diameters it is for, and its code.
struct Band {
    from: f64,
    to: f64,
    feed: String,
}

fn chip_load(sources: &Sources, feed_groups: &[String]) -> Result<String> {
    let table = Table::read(CHIP_LOAD)?;
    let mut all: Vec<Series> = Vec::new();
    for row in table.rows() {
        let key = [row.filled("operation")?, row.filled("edge")?, row.filled("group")?];
        let (per, note) = (row.filled("per")?, row.text("note")?);
        if !feed_groups.iter().any(|g| g == key[2]) {
            return Err(row.fault(format_args!("no material belongs to the group {}", key[2])));
        }
        let (from, to) = row.range("diameter_low_in", "diameter_high_in")?;
        let (low, high) = row.range("feed_low_in", "feed_high_in")?;
        let feed = format!(
            "low_in: {low:?}, high_in: {high:?}, source: {:?}",
            row.tags("source", sources)?
        );
        let at = all.iter().position(|s| s.key == key).unwrap_or_else(|| {
            all.push(Series { first: row, key, per, note, bands: Vec::new() });
            all.len() - 1
        });
        let series = &mut all[at];
        if (series.per, series.note) != (per, note) {
            return Err(row.fault("per and note are the same in all rows of a series"));
        }
        if series.bands.last().is_some_and(|b| b.to > from || b.from == from) {
            return Err(row.fault("the diameters of a series rise, and its bands do not overlap"));
        }
        series.bands.push(Band { from, to, feed });
    }
    let mut code = "/// All series.\n\
        #[allow(clippy::approx_constant, reason = \"the middle of a band may be near a constant\")]\n\
        pub static FEED_SERIES: &[FeedSeries] = &[\n".to_owned();
    for Series { first, key, per, note, bands } in &all {
        let _ = writeln!(
            code,
            "FeedSeries {{ table: Table::{}, edge: Edge::{}, group: {:?}, per_turn: {}, \
             note: {note:?}, points: &[",
            first.word(key[0], "operation", OPERATIONS)?,
            first.word(key[1], "edge", EDGES)?,
            key[2],
            first.word(per, "per", PER)?,
        );
        for (diameter, feed) in points(bands) {
            let _ = writeln!(code, "FeedPoint {{ diameter_in: {diameter:?}, {feed} }},");
        }
        code.push_str("] },\n");
    }
    code.push_str("];\n");
    Ok(code)
}

/// A whole number of some part of a unit, so that a table can keep it in few bytes.
fn parts(row: Row<'_>, column: &str, number: f64, per_unit: f64) -> Result<u16> {
    let parts = (number * per_unit).round();
    if (number * per_unit - parts).abs() > 1e-6 || !(1.0..=65_535.0).contains(&parts) {
        return Err(row.fault(format_args!("{column} is {number}, finer than it is kept")));
    }
    Ok(parts as u16)
}

/// `1/4`, `1 1/8` or `2` in inches.
fn inches(row: Row<'_>, column: &str) -> Result<f64> {
    let text = row.filled(column)?;
    let bad = || row.fault(format_args!("{column} is {text}, not a fraction of an inch"));
    text.split(' ').try_fold(0.0, |sum, part| {
        let (over, under) = part.split_once('/').unwrap_or((part, "1"));
        let number = |text: &str| text.parse::<u16>().ok().filter(|n| *n > 0).ok_or_else(bad);
        Ok(sum + f64::from(number(over)?) / f64::from(number(under)?))
    })
}

/// A drill's name in one number: nothing 0, hundredths of a millimetre from 1, 64ths of an inch
/// from 10 000, letters from 20 000.
fn drill_code(row: Row<'_>, column: &str) -> Result<u16> {
    let text = row.text(column)?;
    if text.is_empty() {
        return Ok(0);
    }
    if let Some(mm) = text.strip_suffix(" mm") {
        let mm = mm.parse().map_err(|_| row.fault(format_args!("{column} is {text}")))?;
        return parts(row, column, mm, 100.0);
    }
    if let [letter @ b'A'..=b'Z'] = text.as_bytes() {
        return Ok(20_000 + u16::from(letter - b'A'));
    }
    Ok(10_000 + parts(row, column, inches(row, column)?, 64.0)?)
}

/// The threads of all series, in the order of a list.
fn threads(sources: &Sources) -> Result<String> {
    let table = Table::read(THREADS)?;
    let mut tags: Vec<String> = Vec::new();
    let mut tag = |row: Row<'_>, column: &str| -> Result<usize> {
        let tag = row.tags(column, sources)?;
        Ok(tags.iter().position(|t| *t == tag).unwrap_or_else(|| {
            tags.push(tag);
            tags.len() - 1
        }))
    };
    let mut code =
        "/// All threads, series by series.\nstatic STANDARDS: &[Standard] = &[\n".to_owned();
    for row in table.rows() {
        let name = row.filled("series")?;
        let series = row.word(name, "series", SERIES)?;
        let size = match name {
            "M" | "MF" => {
                format!("HundredthsMm({})", parts(row, "size", row.number("size")?, 100.0)?)
            }
            "BA" => format!("Ba({})", row.filled("size")?),
            _ => {
                let text = row.filled("size")?;
                let unified = name.starts_with("UN");
                match text.parse::<u8>() {
                    Ok(n) if unified && (n > 2 || n == 0 || row.number("pitch")? >= 48.0) => {
                        format!("Number({n})")
                    }
                    _ => {
                        format!("SixtyFourths({})", parts(row, "size", inches(row, "size")?, 64.0)?)
                    }
                }
            }
        };
        let pitch = match name {
            "M" | "MF" => format!("Um({})", parts(row, "pitch", row.number("pitch")?, 1000.0)?),
            // Its pitch stands in its own table.
            "BA" => "Um(0)".to_owned(),
            _ => format!("HalfTpi({})", parts(row, "pitch", row.number("pitch")?, 2.0)?),
        };
        let drill = drill_code(row, "tap_drill")?;
        let drill_source = if drill == 0 { 0 } else { tag(row, "tap_drill_source")? };
        let _ = writeln!(
            code,
            "Standard {{ thread: Thread {{ series: Series::{series}, size: Size::{size}, \
             pitch: Pitch::{pitch}, hand: Hand::Right }}, drill: {drill}, other_drill: {}, \
             source: {}, drill_source: {drill_source} }},",
            drill_code(row, "other_tap_drill")?,
            tag(row, "source")?,
        );
    }
    let _ = writeln!(code, "];\nconst TAGS: &[&str] = &{tags:?};");
    Ok(code)
}

/// British Association and pipe threads by their tables.
fn pipe_and_ba(sources: &Sources) -> Result<String> {
    let (ba, bsp, npt) = (Table::read(BA)?, Table::read(BSP)?, Table::read(NPT)?);
    let mut code = "/// Diameter, pitch and depth of 0 BA, 1 BA and so on, in micrometres.\n\
        const BA: &[(u16, u16, u16)] = &["
        .to_owned();
    for (number, row) in ba.rows().enumerate() {
        row.tags("source", sources)?;
        if row.filled("number")? != number.to_string() {
            return Err(row.fault("the numbers follow each other from 0"));
        }
        let um = |column| parts(row, column, row.number(column)?, 1000.0);
        let _ = write!(code, "({}, {}, {}),", um("major_mm")?, um("pitch_mm")?, um("depth_mm")?);
    }
    code.push_str("];\n/// British pipe threads.\nconst BSP: &[Bsp] = &[\n");
    for row in bsp.rows() {
        row.tags("source", sources)?;
        let gauge = if row.text("gauge_length_mm")?.is_empty() {
            "None".to_owned()
        } else {
            row.tags("gauge_length_source", sources)?;
            format!("Some({:?})", row.number("gauge_length_mm")?)
        };
        let _ = writeln!(
            code,
            "Bsp {{ size: {}, major_mm: {:?}, minor_tolerance_mm: {:?}, gauge_length_mm: {gauge} }},",
            parts(row, "size", inches(row, "size")?, 64.0)?,
            row.number("major_mm")?,
            row.number("minor_tolerance_mm")?,
        );
    }
    code.push_str("];\n/// American taper pipe threads.\nconst NPT: &[Npt] = &[\n");
    for row in npt.rows() {
        row.tags("source", sources)?;
        let _ = writeln!(
            code,
            "Npt {{ size: {}, outside_in: {:?}, l1_in: {:?} }},",
            parts(row, "size", inches(row, "size")?, 64.0)?,
            row.number("outside_in")?,
            row.number("l1_in")?,
        );
    }
    code.push_str("];\n");
    Ok(code)
}

/// What the formulas of limits need besides: tables of ISO 965-1, printed values of ASME B1.1.
fn thread_limits(sources: &Sources) -> Result<String> {
    let (iso, un) = (Table::read(ISO_965)?, Table::read(UN_PRINTED)?);
    let mut minor: Vec<String> = Vec::new();
    let mut pitch: Vec<String> = Vec::new();
    let (mut deviation, mut major) = (Vec::new(), Vec::new());
    for row in iso.rows() {
        row.tags("source", sources)?;
        let um = parts(row, "pitch_mm", row.number("pitch_mm")?, 1000.0)?;
        let value = parts(row, "value_um", row.number("value_um")?, 1.0)?;
        match row.filled("table")? {
            "TD1" => minor.push(format!("({um}, {}, {value})", row.filled("grade")?)),
            "TD2" => {
                let to = parts(row, "diameter_to_mm", row.number("diameter_to_mm")?, 100.0)?;
                pitch.push(format!("({to}, {um}, {}, {value})", row.filled("grade")?));
            }
            "es" => deviation.push((um, value)),
            "Td" => major.push((um, value)),
            other => return Err(row.fault(format_args!("there is no table {other}"))),
        }
    }
    let mut printed = String::new();
    for row in un.rows() {
        row.tags("source", sources)?;
        let tenths = |column| parts(row, column, row.number(column)?, 10_000.0);
        let _ = write!(
            printed,
            "({}, {}, {}, {}),",
            tenths("major_in")?,
            parts(row, "tpi", row.number("tpi")?, 1.0)?,
            tenths("allowance_in")?,
            tenths("pitch_tolerance_in")?
        );
    }
    Ok(format!(
        "/// Pitch, grade, tolerance of the internal minor diameter, micrometres.\n\
         const TD1: &[(u16, u8, u16)] = &[{}];\n\
         /// Diameter to, in hundredths of a millimetre; pitch, grade, tolerance of the internal\n\
         /// pitch diameter, micrometres.\n\
         const TD2: &[(u16, u16, u8, u16)] = &[{}];\n\
         /// Pitch and how far position g lies below basic, micrometres.\n\
         const ES: &[(u16, u16)] = &{deviation:?};\n\
         /// Pitch and tolerance of the external major diameter, micrometres.\n\
         const TD: &[(u16, u16)] = &{major:?};\n\
         /// Diameter in ten-thousandths of an inch, threads in an inch, allowance and tolerance of\n\
         /// the pitch diameter in ten-thousandths.\n\
         const PRINTED: &[(u16, u16, u16, u16)] = &[{printed}];\n",
        minor.join(", "),
        pitch.join(", "),
    ))
}

/// Threads that are taken for each other.
fn look_alikes(sources: &Sources) -> Result<String> {
    let table = Table::read(LOOK_ALIKES)?;
    let mut code = "const LOOK_ALIKES: &[LookAlike] = &[\n".to_owned();
    for row in table.rows() {
        let _ = writeln!(
            code,
            "LookAlike {{ one: {:?}, other: {:?}, by: {:?}, source: {:?} }},",
            row.filled("one")?,
            row.filled("other")?,
            row.filled("by")?,
            row.tags("source", sources)?,
        );
    }
    code.push_str("];\n");
    Ok(code)
}

/// How much larger than itself a drill cuts.
fn oversize(sources: &Sources) -> Result<String> {
    let table = Table::read(OVERSIZE)?;
    let mut code = "/// How much larger than itself a drill cuts, by its diameter.\n\
        const OVERSIZE: &[Oversize] = &[\n"
        .to_owned();
    for row in table.rows() {
        row.tags("source", sources)?;
        let _ = writeln!(
            code,
            "Oversize {{ drill_in: {:?}, most_in: {:?}, mean_in: {:?}, least_in: {:?} }},",
            row.number("drill_in")?,
            row.number("most_in")?,
            row.number("mean_in")?,
            row.number("least_in")?,
        );
    }
    code.push_str("];\n");
    Ok(code)
}

/// A band alone in its series holds from end to end; bands side by side stand for their geometric
/// middles, so that the feed does not jump where they meet.
fn points(bands: &[Band]) -> Vec<(f64, &str)> {
    match bands {
        [one] if one.from < one.to => vec![(one.from, &one.feed), (one.to, &one.feed)],
        many => many.iter().map(|b| ((b.from * b.to).sqrt(), b.feed.as_str())).collect(),
    }
}
