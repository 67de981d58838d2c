//! The tables against the practised cuts that were worked out from them, and the code against the
//! list of sources.

use std::{fs, path::Path};

use handwheel::engine::{
    cutters::feed::{Table, feed_range},
    quantity::Length,
    source::SOURCES,
    stock::{Edge, material},
};

/// Fields of a row by the names of the header.
struct Cut(csv::StringRecord, csv::StringRecord);

impl Cut {
    fn text(&self, name: &str) -> &str {
        let at = self.0.iter().position(|n| n == name);
        at.and_then(|i| self.1.get(i)).unwrap_or_else(|| panic!("no column {name}"))
    }
    fn number(&self, name: &str) -> f64 {
        self.text(name).parse().unwrap_or_else(|e| panic!("{} {name}: {e}", self.text("id")))
    }
}

fn table(name: &str) -> Table {
    match name {
        "end_mill" => Table::EndMill,
        "face_mill" => Table::FaceMill,
        "side_mill" => Table::SideMill,
        "fly_cutter" => Table::FlyCutter,
        "slitting_saw" => Table::SlittingSaw,
        "drill" => Table::Drill,
        "reamer" => Table::Reamer,
        "countersink" => Table::Countersink,
        "boring_head" => Table::BoringHead,
        other => panic!("no table {other}"),
    }
}

/// Chip over feed at a width of cut: less than one where the cutter leaves before its full chip.
fn thinning(cut: &Cut) -> f64 {
    let share = cut.number("ae") / cut.number("D");
    let whole_chip = matches!(cut.text("table"), "drill" | "reamer" | "boring_head");
    if whole_chip || share >= 0.5 { 1.0 } else { 2.0 * (share * (1.0 - share)).sqrt() }
}

/// Within to the top of the range, near to `over` times it.
fn utilisation(share: f64, over: f64) -> f64 {
    if share <= 1.0 {
        share
    } else if share <= over {
        1.0 + (share - 1.0) / (over - 1.0)
    } else {
        2.0 * share / over
    }
}

#[test]
fn the_chip_load_of_every_practised_cut_is_met() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cuts.csv");
    let mut reader = csv::Reader::from_path(path).expect("the practised cuts");
    let head = reader.headers().expect("a header").clone();
    let mut rows = 0;
    for record in reader.records() {
        let cut = Cut(head.clone(), record.expect("a row"));
        let id = cut.text("id");
        let stock = material(cut.text("material")).expect("a material of the table");
        let edge = if cut.text("tool") == "HSS" { Edge::Hss } else { Edge::Carbide };
        let diameter = Length::inch(cut.number("D"));
        let range = feed_range(table(cut.text("table")), edge, stock.feed_group, diameter);
        let range = range.expect("every cut has a feed range");

        let chip = Length::inch(cut.number("fz") * thinning(&cut));
        let got = utilisation(chip / range.high, if stock.is_soft() { 2.25 } else { 1.5 });
        let stated = cut.number("u_chip");
        let half_a_digit = 0.000_501;
        assert!(
            (got - stated).abs() <= (0.002 * stated).max(half_a_digit),
            "{id}: {got:.4}, stated {stated}"
        );
        rows += 1;
    }
    assert_eq!(rows, 104);
}

/// Calls `see` with the path and text of every Rust file below a folder.
fn visit(folder: &Path, see: &mut impl FnMut(&Path, &str)) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            visit(&path, see);
        } else if path.extension().is_some_and(|e| e == "rs") {
            see(&path, &fs::read_to_string(&path).expect("a text"));
        }
    }
}

#[test]
fn every_tag_written_in_the_code_is_in_the_list_of_sources() {
    visit(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut |path, text| {
        for after in ["source: \"", "sources: \""].iter().flat_map(|m| text.split(m).skip(1)) {
            let list = after.split('"').next().unwrap_or_default();
            for tag in list.split([' ', ',']).filter(|t| !t.is_empty()) {
                assert!(SOURCES.iter().any(|s| s.tag == tag), "{}: {tag}", path.display());
            }
        }
    });
}
