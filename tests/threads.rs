//! The computed threads against tables, row by row.
//!
//! The tables of `tests/fixtures` were made apart from this code: limits after ASME B1.1-2003,
//! ISO 68-1 with ISO 965-1, BS 84, BS 93, ISO 228-1 and ASME B1.20.1, held against printed tables;
//! drills of trade charts, of ISO 2306 and BS 1157.
#![cfg(not(target_arch = "wasm32"))]

use handwheel::engine::{
    drills::{Drill, Index},
    quantity::Length,
    threads::{
        Series, Thread, all, form_tap, named,
        percent::{Basis, percent_of},
        tap_hole::{Question, Verdict, verdict},
    },
};

/// Fields of a row by the names of the header.
struct Row(csv::StringRecord, csv::StringRecord);

impl Row {
    fn text(&self, name: &str) -> &str {
        let at = self.0.iter().position(|n| n == name);
        at.and_then(|i| self.1.get(i)).unwrap_or_else(|| panic!("no column {name}"))
    }
    fn number(&self, name: &str) -> f64 {
        let text = self.text(name);
        text.parse().unwrap_or_else(|e| panic!("{:?} {name}: {e}", self.1))
    }
    /// A value of the table is met to half its last digit.
    fn meets(&self, name: &str, value: f64, half_a_digit: f64) {
        let stated = self.number(name);
        let off = (value - stated).abs();
        assert!(
            off <= half_a_digit + 1e-9,
            "{:?}: {name} is {value}, stated {stated}",
            self.1.get(0)
        );
    }
}

fn table(name: &str) -> Vec<Row> {
    let path = format!("{}/tests/fixtures/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(path).expect("the table");
    let head = reader.headers().expect("a header").clone();
    reader.records().map(|record| Row(head.clone(), record.expect("a row"))).collect()
}

fn unified(row: &Row) -> Thread {
    let name = format!("{} {}", row.text("designation"), row.text("series"));
    named(&name).expect(&name)
}

fn drill(text: &str) -> Drill {
    let text = if text.parse::<u16>().is_ok() { format!("{text} in") } else { text.to_owned() };
    Drill::named(&text).expect(&text)
}

/// Numbers, letters, and 64ths to 2 in: what the tables choose from.
fn inch_drills() -> Index {
    let large = (65..=128).filter_map(Drill::sixty_fourths);
    Index::new(Index::every_inch().iter().chain(large))
}

#[test]
fn every_limit_of_2a_and_2b_is_the_table_s() {
    let rows = table("threads_un");
    assert_eq!(rows.len(), 177);
    for row in &rows {
        let thread = unified(row);
        let (internal, external) = (thread.internal().expect("2B"), thread.external().expect("2A"));
        let pitch = internal.pitch.expect("2B limits it");
        let basic = thread.basic_minor().to_inch();
        row.meets("minor_basic_in", basic, 0.000_000_5);
        for (name, limit) in [
            ("minor_2B_min_in", internal.minor.least),
            ("minor_2B_max_in", internal.minor.most),
            ("pd_2B_min_in", pitch.least),
            ("pd_2B_max_in", pitch.most),
            ("major_2A_min_in", external.major.least),
            ("major_2A_max_in", external.major.most),
            ("pd_2A_min_in", external.pitch.least),
            ("pd_2A_max_in", external.pitch.most),
        ] {
            row.meets(name, limit.to_inch(), 0.000_01);
        }
    }
}

#[test]
fn every_limit_of_6h_and_6g_is_the_table_s() {
    let rows = table("threads_metric");
    assert_eq!(rows.len(), 161);
    for row in &rows {
        let thread = named(row.text("designation")).expect("a metric thread");
        let (internal, external) = (thread.internal().expect("6H"), thread.external().expect("6g"));
        let pitch = internal.pitch.expect("6H limits it");
        assert_eq!(internal.class, row.text("class"), "{}", thread.designation());
        for (name, limit) in [
            ("minor_min_mm", internal.minor.least),
            ("minor_max_mm", internal.minor.most),
            ("pd_min_mm", pitch.least),
            ("pd_max_mm", pitch.most),
            ("major_6g_min_mm", external.major.least),
            ("major_6g_max_mm", external.major.most),
        ] {
            row.meets(name, limit.to_mm(), 0.000_1);
        }
    }
}

#[test]
fn pitch_diameters_of_6g_that_are_known_by_heart_come_out() {
    for (thread, least, most) in [
        ("M3", 2.580, 2.655),
        ("M4", 3.433, 3.523),
        ("M5", 4.361, 4.456),
        ("M6", 5.212, 5.324),
        ("M8", 7.042, 7.160),
        ("M10", 8.862, 8.994),
    ] {
        let pitch = named(thread).expect(thread).external().expect("6g").pitch;
        assert!((pitch.least.to_mm() - least).abs() < 1e-6, "{thread}: {:?}", pitch.least.to_mm());
        assert!((pitch.most.to_mm() - most).abs() < 1e-6, "{thread}: {:?}", pitch.most.to_mm());
    }
}

#[test]
fn every_tap_drill_of_iso_2306_is_inside_its_class() {
    for row in &table("threads_metric") {
        let thread = named(row.text("designation")).expect("a metric thread");
        let (standard, _) = thread.standard().expect("listed").tap_drill().expect("a drill");
        row.meets("tap_drill_mm", standard.diameter().to_mm(), 1e-9);
        let percent = percent_of(thread, standard.diameter(), Basis::Chart).expect("a percentage");
        row.meets("tap_drill_pct_1299", percent, 0.0501);
        assert_eq!(
            verdict(thread, standard.diameter()),
            Verdict::Inside,
            "{}",
            thread.designation()
        );
    }
}

#[test]
fn british_threads_are_the_table_s() {
    let rows = table("threads_british");
    assert_eq!(rows.len(), 92);
    for row in &rows {
        let name = row.text("designation").replace(" (brass)", "");
        let name = name.replace("ME 40", "ME").replace("ME 32", "ME");
        let thread = named(&name).expect(&name);
        row.meets("major_in", thread.major().to_inch(), 0.000_05);
        row.meets("tpi", thread.tpi(), 0.0501);
        row.meets("pitch_dia_in", thread.basic_pitch_diameter().to_inch(), 0.000_05);
        row.meets("minor_min_in", thread.basic_minor().to_inch(), 0.000_05);
        if let Some(internal) = thread.internal() {
            row.meets("minor_max_in", internal.minor.most.to_inch(), 0.000_051);
        }
        let stated = row.text("tap_drill").replace("mm", " mm");
        let listed = thread.standard().expect(&name).tap_drill();
        assert_eq!(listed.map(|(d, _)| d), (!stated.is_empty()).then(|| drill(&stated)), "{name}");
        if let Some((drill, _)) = listed {
            let percent = percent_of(thread, drill.diameter(), Basis::Form).expect("a percentage");
            // The table takes the printed depth of a BA thread, rounded to 0.005 mm, for 0.6 P.
            let half_a_digit = if thread.series() == Series::Ba { 1.2 } else { 0.0501 };
            row.meets("tap_drill_pct_of_form_depth", percent, half_a_digit);
        }
    }
}

#[test]
fn pipe_threads_are_the_table_s() {
    let rows = table("threads_pipe");
    assert_eq!(rows.len(), 34);
    for row in &rows {
        let series = match row.text("series") {
            "NPT" => Series::Npt,
            text if text.starts_with("BSPP") => Series::G,
            _ => Series::R,
        };
        let name = format!("{} {}", row.text("size"), series.letters());
        let thread = named(&name).expect(&name);
        row.meets("tpi", thread.tpi(), 1e-9);
        row.meets("od_or_major_mm", thread.major().to_mm(), 0.000_51);
        if let Some(sizes) = thread.npt_sizes() {
            for (column, length) in [
                ("E0_in", sizes.e0),
                ("E1_in", sizes.e1),
                ("L1_in", sizes.l1),
                ("L2_in", sizes.l2),
                ("minor_small_end_K0_in", sizes.k0),
            ] {
                let half = if column.starts_with('E') { 0.000_005_1 } else { 0.000_051 };
                row.meets(column, length.to_inch(), half);
            }
        }
        if let Some(sizes) = thread.bsp_sizes() {
            row.meets("pitch_dia_mm", sizes.pitch_diameter.to_mm(), 1e-6);
            row.meets("minor_min_mm", sizes.minor.to_mm(), 1e-6);
            if series == Series::G {
                row.meets("minor_max_mm", sizes.minor_most.to_mm(), 1e-6);
            }
        }
        let standard = thread.standard().expect(&name);
        for (column, listed) in [
            ("tap_drill", standard.tap_drill()),
            ("tap_drill_older_table", standard.other_tap_drill()),
        ] {
            let stated = row.text(column);
            let stated = (!stated.is_empty()).then(|| stated.to_owned());
            assert_eq!(listed.map(|(d, _)| d), stated.map(|s| drill(&s)), "{name} {column}");
        }
    }
}

#[test]
fn the_drill_nearest_to_a_percentage_is_the_table_s() {
    let inch = inch_drills();
    for row in &table("threads_un") {
        let thread = unified(row);
        for (column, percent) in [("nearest75_inch_drill", 75.0), ("nearest60_inch_drill", 60.0)] {
            // The table names the nearest of all, and warns where it binds.
            let stated = drill(row.text(column));
            let question = Question { percent, to_class: false, ..Question::new(thread) };
            let hole = question.answer(&inch, &[]).expect("a hole");
            let near = [hole.nearest, hole.below].into_iter().flatten();
            assert!(near.clone().any(|c| c.drill == stated), "{}: {hole:?}", thread.designation());
            if verdict(thread, stated.diameter()) != Verdict::Binds {
                assert_eq!(hole.chosen.map(|c| c.drill), Some(stated), "{}", thread.designation());
            }
        }
    }
}

#[test]
fn the_drills_inside_2b_are_the_table_s() {
    let inch = inch_drills();
    for row in &table("threads_un") {
        let thread = unified(row);
        let inside = inch.iter().filter(|d| verdict(thread, d.diameter()) == Verdict::Inside);
        let mut inside: Vec<_> = inside.map(Drill::short_name).collect();
        let listed = row.text("inch_drills_inside_2B").split_whitespace();
        let mut stated: Vec<_> = listed.map(|d| drill(&d.replace('_', " ")).short_name()).collect();
        inside.sort();
        stated.sort();
        assert_eq!(inside, stated, "{}", thread.designation());
    }
}

#[test]
fn a_drill_that_the_table_warns_of_is_not_to_class() {
    let mut warned = 0;
    for row in &table("threads_un") {
        let expected = match row.text("nearest75_warning") {
            "" => continue,
            "above 2B max" => Verdict::OverMost,
            _ => Verdict::Binds,
        };
        let stated = drill(row.text("nearest75_inch_drill")).diameter();
        assert_eq!(verdict(unified(row), stated), expected, "{}", row.text("designation"));
        warned += 1;
    }
    assert_eq!(warned, 26);
}

#[test]
fn percentages_of_trade_charts_come_out() {
    let mut seen = 0;
    for row in &table("threads_un") {
        for (name, percent) in
            [("chart_75_drill", "chart_75_pct"), ("chart_50_drill", "chart_50_pct")]
        {
            if row.text(name).is_empty() {
                continue;
            }
            let hole = drill(row.text(name)).diameter();
            row.meets(percent, percent_of(unified(row), hole, Basis::Chart).expect("one"), 0.0501);
            seen += 1;
        }
    }
    assert!(seen > 70, "{seen}");
}

#[test]
fn holes_for_forming_taps_are_the_table_s() {
    let inch = Index::every_inch();
    for row in &table("form_tap") {
        let name = row.text("thread");
        let unified = if name.starts_with('M') { "" } else { " unified" };
        let thread = named(&format!("{name}{unified}")).expect(name);
        let hole = form_tap::choose(thread, row.number("target_pct"), None, &inch).expect(name);
        row.meets("hole_in", hole.ideal.to_inch(), 0.000_051);
        row.meets("hole_mm", hole.ideal.to_mm(), 0.000_51);
        if !row.text("nearest_inch_drill").is_empty() {
            let (nearest, percent) = hole.nearest.expect("a drill");
            assert_eq!(nearest, drill(row.text("nearest_inch_drill")), "{name}");
            row.meets("nearest_inch_pct", percent, 0.0501);
        }
    }
}

#[test]
fn figures_that_tables_in_circulation_get_wrong_do_not_appear() {
    let thread = |name: &str| named(name).expect(name);
    let near = |length: Length, inch: f64| (length.to_inch() - inch).abs() < 0.000_05;
    let minor = |name: &str| thread(name).internal().expect(name).minor;
    let pitch = |name: &str| thread(name).internal().expect(name).pitch.expect(name);
    // 1B printed as 2B, slips of a digit, a root of the external thread.
    assert!(near(pitch("1/4-20 UNC").most, 0.2223));
    assert!(near(minor("2-56 UNC").least, 0.0667));
    assert!(near(pitch("3-48 UNC").most, 0.0885));
    assert!(near(minor("1/2-13 UNC").least, 0.417));
    assert!(near(pitch("9/16-12 UNC").most, 0.5152));
    assert!(near(pitch("1 1/2-6 UNC").most, 1.4022));
    assert!(near(pitch("1-64 UNC").least, 0.0629));
    assert!(near(thread("9/16-14 UNS").external().expect("2A").major.most, 0.5610));
    assert!((thread("1/4-20").basic_minor().to_inch() - 0.195_87).abs() < 0.000_01);
    // An external thread has its allowance.
    let crests = thread("1/4-20").external().expect("2A");
    assert!(near(crests.major.most, 0.2489) && near(crests.pitch.most, 0.2164));
    assert!((thread("M33").external().expect("6g").major.most.to_mm() - 32.947).abs() < 1e-6);
    // Gauge lengths and diameters of pipe.
    let npt = |name: &str| thread(name).npt_sizes().expect(name);
    assert!(near(npt("3/8 NPT").l2, 0.4078) && near(npt("1 1/2 NPT").l1, 0.420));
    assert!((thread("G 1 3/4").major().to_mm() - 53.746).abs() < 1e-9);
    // British Association is 6 P^1.2, not 6 P.
    assert!((thread("2 BA").major().to_mm() - 4.7).abs() < 1e-9);
    // A hole for a forming tap is not a hundredth part too deep.
    assert!(near(form_tap::hole_for(thread("1/4-20"), 65.0).expect("a hole"), 0.2279));
    // Drills that bind the tap or leave the class.
    let is = |name: &str, drill: &str| {
        verdict(thread(name), Drill::named(drill).expect(drill).diameter())
    };
    for (name, drill, verdict) in [
        ("M22x2.5", "18.5 mm", Verdict::Binds),
        ("M22x2.5", "19 mm", Verdict::Binds),
        ("M22x2.5", "19.5 mm", Verdict::Inside),
        ("9/16-24", "33/64", Verdict::Binds),
        ("5/8-24", "37/64", Verdict::Binds),
        ("11/16-24", "41/64", Verdict::Binds),
        ("9/16-18", "33/64", Verdict::OverMost),
        ("5/8-18", "37/64", Verdict::OverMost),
        ("1-12", "15/16", Verdict::OverMost),
        ("1/4-20", "5.35 mm", Verdict::OverMost),
        ("1/2-13", "11.15 mm", Verdict::OverMost),
        ("M4.5", "3.7 mm", Verdict::Inside),
        ("M12", "10.2 mm", Verdict::Inside),
        ("M14", "12 mm", Verdict::Inside),
    ] {
        assert_eq!(is(name, drill), verdict, "{name} with {drill}");
    }
}

#[test]
fn no_standard_tap_drill_binds() {
    for thread in all().filter(|t| !t.series().is_taper()) {
        let Some((drill, _)) = thread.standard().expect("listed").tap_drill() else { continue };
        assert_ne!(verdict(thread, drill.diameter()), Verdict::Binds, "{}", thread.designation());
    }
}
