//! The saved document: restore, migration, backup, and what its owner does with it.

use handwheel::{
    engine::{
        drills::{Drill, Set},
        machine::{Speeds, Turning},
        quantity::{Length, Power, SpindleSpeed, System},
        question::{Field, Style},
        threads::{self, tap_hole::Question as TapQuestion},
    },
    shop::{
        cuts::{CutForm, CutterForm, CutterKind, Holding, OperationKind},
        document::{Document, Settings, Theme},
        machines::MachineForm,
        restore::restore,
        sample::sample,
        typed::Typed,
    },
};
use serde_json::Value;

const V1: &str = include_str!("../fixtures/document_v1.json");
const V2: &str = include_str!("../fixtures/document_v2.json");

#[test]
fn what_was_saved_restores_as_it_was() {
    for document in [Document::default(), sample()] {
        assert_eq!(restore(&document.to_text()).as_ref(), Ok(&document));
    }
}

#[test]
fn a_document_of_version_1_restores() {
    let shop = restore(V1).expect("version 1 restores for ever");
    let names: Vec<&str> = shop.machines.iter().map(|own| own.form.name.as_str()).collect();
    assert_eq!(names, ["Bench mill", "Knee mill"]);
    assert_eq!(shop.cutters.len(), 10);
    assert_eq!(shop.mill.cutter.diameter, Typed::mm("3"));
    assert_eq!(shop.last_cut.as_ref().map(CutForm::title).as_deref(), Some("Slot in 6061-T6"));
    assert_eq!(shop.favorites[0].name, "Focuser slot, 3 mm");
    assert_eq!(shop.settings, Settings::default());
    assert!(shop.sample);
    assert!(shop.drills.is_empty(), "version 1 knew no drills");
}

#[test]
fn a_document_of_version_2_restores() {
    let shop = restore(V2).expect("version 2 restores for ever");
    assert!(shop.drills.has_set(Set::Numbers));
    assert_eq!(shop.drills.index().len(), 29 + 60 + 26 + 91);
    assert_eq!(shop, sample());
}

#[test]
fn a_drill_missing_from_its_box_is_not_offered() {
    let mut shop = sample();
    let seven = Drill::number(7).expect("a drill");
    assert!(shop.drills.index().contains(seven));
    shop.drills.miss(seven, true);
    assert!(!shop.drills.index().contains(seven));
    assert_eq!(shop.drills.missing_of(Set::Numbers), 1);
    // A new box is complete.
    shop.drills.own_set(Set::Numbers, false);
    shop.drills.own_set(Set::Numbers, true);
    assert!(shop.drills.index().contains(seven));
    assert!(shop.drills.add("10").is_err(), "a bare number is asked");
    let large = shop.drills.add("11.5 mm").expect("a drill");
    assert!(shop.drills.index().contains(large));
    shop.drills.remove(large);
    assert!(!shop.drills.index().contains(large));
}

#[test]
fn the_last_eight_threads_are_remembered() {
    let mut shop = sample();
    for thread in [
        "M3x0.5",
        "M4x0.7",
        "M5x0.8",
        "M6x1",
        "M8x1.25",
        "M10x1.5",
        "M12x1.75",
        "1/4-20 UNC",
        "M3x0.5",
    ] {
        shop.threads.look_at(thread);
    }
    assert_eq!(shop.threads.recent[..2], ["M3x0.5", "1/4-20 UNC"]);
    assert_eq!(shop.threads.recent.len(), 8);
    shop.threads.star("M6x1", true);
    assert!(shop.threads.is_starred("M6x1"));
    shop.threads.star("M6x1", false);
    assert!(shop.threads.starred.is_empty());
}

#[test]
fn wires_are_kept_as_they_were_typed_and_those_that_can_be_none_are_refused() {
    let mut shop = sample();
    let refused = |shop: &mut Document, typed: Typed| {
        let fault = shop.threads.add_wire(&typed).expect_err("refused");
        assert_eq!(fault.field, Field::Wire, "{typed:?}");
    };
    for bad in ["", "0", "-0.02", "abc", "29", "0.00001"] {
        refused(&mut shop, Typed::inch(bad));
    }
    // 0.029 in once more, in other words.
    refused(&mut shop, Typed::mm("0.7366"));
    shop.threads.add_wire(&Typed::mm("0.620")).expect("a wire");
    let shop = restore(&shop.to_text()).expect("it was saved");
    let texts: Vec<String> =
        shop.threads.wires().into_iter().map(|(typed, _)| typed.text).collect();
    assert_eq!(texts, ["0.018", "0.024", "0.620", "0.029", "0.040"]);
    let groove = |name: &str| threads::named(name).expect("listed").groove().expect("parallel");
    let (wire, _) = shop.threads.wire_for(groove("M6")).expect("one fits");
    assert_eq!(wire, Typed::inch("0.024"));
    assert_eq!(shop.threads.wire_for(groove("1-8")), None, "none is thick enough");
    let mut shop = shop;
    shop.threads.remove_wire(&Typed::inch("0.024"));
    assert_eq!(shop.threads.wire_for(groove("M6")).map(|(wire, _)| wire), Some(Typed::mm("0.620")));
}

#[test]
fn a_reamer_of_the_drawer_finishes_a_hole_that_no_drill_makes() {
    let mut shop = Document::default();
    shop.drills.add("4 mm").expect("a drill");
    let m5 = TapQuestion::new(threads::named("M5x0.8").expect("listed"));
    let ask = |shop: &Document| m5.answer(&shop.drills.index(), &shop.reamers()).expect("a hole");
    assert_eq!(ask(&shop).reaming, None);
    for (kind, size) in [(CutterKind::Reamer, "4.2"), (CutterKind::Drill, "4.3")] {
        let cutter = CutterForm { kind, diameter: Typed::mm(size), ..CutterForm::default() };
        shop.add_cutter(cutter, Holding::default());
    }
    let unread = CutterForm { kind: CutterKind::Reamer, ..CutterForm::default() };
    shop.add_cutter(unread, Holding::default());
    assert_eq!(shop.reamers(), [Length::mm(4.2)]);
    let reaming = ask(&shop).reaming.expect("ream, then tap");
    assert_eq!((reaming.reamer, reaming.pilot.name()), (Length::mm(4.2), "4 mm".to_owned()));
}

#[test]
fn a_shop_saved_before_there_were_wires_has_none() {
    let mut value: Value = serde_json::from_str(V2).expect("JSON");
    value["threads"].as_object_mut().expect("a shelf").remove("wires");
    let shop = restore(&value.to_string()).expect("it restores");
    assert!(shop.threads.wires().is_empty());
}

/// A new shape needs a new version and a step to it.
#[test]
fn version_2_is_written_as_it_was_released() {
    let saved: Value = serde_json::from_str(&sample().to_text()).expect("JSON");
    let released: Value = serde_json::from_str(V2).expect("JSON");
    assert_eq!(shape(&saved), shape(&released));
}

/// Every path that a document has, without its values.
fn shape(value: &Value) -> Vec<String> {
    fn walk(value: &Value, path: &str, paths: &mut Vec<String>) {
        match value {
            Value::Object(map) => {
                for (key, value) in map {
                    walk(value, &format!("{path}.{key}"), paths);
                }
            }
            Value::Array(items) => {
                for item in items {
                    walk(item, &format!("{path}[]"), paths);
                }
            }
            _ => paths.push(path.to_owned()),
        }
    }
    let mut paths = Vec::new();
    walk(value, "", &mut paths);
    paths.sort();
    paths.dedup();
    paths
}

#[test]
fn what_is_no_document_is_kept_untouched() {
    let newer = V1.replacen("\"version\": 1", "\"version\": 999", 1);
    assert_ne!(newer, V1);
    for (raw, says) in [
        ("", "no saved shop"),
        ("not json {", "no saved shop"),
        ("[]", "names no version"),
        ("{}", "names no version"),
        (r#"{"version":"1"}"#, "names no version"),
        (r#"{"version":0}"#, "names no version"),
        (r#"{"version":-1}"#, "names no version"),
        (r#"{"version":1}"#, "damaged"),
        (r#"{"version":1,"machines":[1,2]}"#, "damaged"),
        (&V1[..V1.len() / 2], "no saved shop"),
        (newer.as_str(), "later version"),
    ] {
        let unreadable = restore(raw).expect_err(raw);
        assert_eq!(unreadable.raw, raw);
        assert!(unreadable.problem.contains(says), "{raw}: {}", unreadable.problem);
    }
}

#[test]
fn a_byte_order_mark_in_front_does_no_harm() {
    assert!(restore(&format!("\u{feff}{V1}")).is_ok());
}

#[test]
fn a_mill_without_its_machine_gets_the_first_one() {
    let raw = V1.replace("\"machine\": \"bench_mill\"", "\"machine\": \"sold\"");
    assert_eq!(restore(&raw).expect("mended").mill.machine, "bench_mill");
}

#[test]
fn a_new_shop_is_inch_dark_and_gentle() {
    let settings = Settings::default();
    assert_eq!(settings.system, System::Inch);
    assert_eq!(settings.theme, Theme::Dark);
    assert_eq!(settings.style, Style::Gentle);
    assert!(!settings.gloves);
    assert!(Document::default().is_new());
}

#[test]
fn the_sample_bench_mill_is_the_one_described() {
    let shop = sample();
    let bench = shop.machine_called("bench_mill").expect("bench").form.read().expect("readable");
    assert_eq!(
        bench.ranges[0].speeds,
        Speeds::Continuous {
            lowest: SpindleSpeed::rpm(100.0),
            highest: SpindleSpeed::rpm(2800.0),
            base: Some(SpindleSpeed::rpm(1100.0))
        }
    );
    assert_eq!(bench.table.lead, Length::inch(0.0625));
    assert_eq!(bench.quill_wheel.map(|axis| axis.lead), Some(Length::inch(0.050)));
    assert_eq!(bench.power, Some(Power::watt(350.0)));
    assert_eq!(bench.ranges[0].clockwise_label.as_deref(), Some("FWD"));
}

#[test]
fn the_back_gear_of_the_sample_knee_mill_turns_the_switch_over() {
    let shop = sample();
    let knee = shop.machine_called("knee_mill").expect("knee").form.read().expect("readable");
    let steps =
        |speeds: &[f64]| Speeds::Steps(speeds.iter().copied().map(SpindleSpeed::rpm).collect());
    let [low, high] = &knee.ranges[..] else { panic!("two ranges") };
    assert_eq!(low.speeds, steps(&[70.0, 115.0, 190.0, 310.0]));
    assert_eq!(high.speeds, steps(&[560.0, 930.0, 1540.0, 2560.0]));
    assert_eq!(knee.table.lead, Length::inch(0.200));
    assert_eq!(knee.power, Some(Power::watt(1100.0)));
    let switch = |range: &handwheel::engine::machine::Range, turning| match turning {
        Turning::Clockwise => range.clockwise_label.clone(),
        Turning::CounterClockwise => range.counter_clockwise_label.clone(),
    };
    assert_eq!(switch(low, Turning::Clockwise).as_deref(), Some("REV"));
    assert_eq!(switch(low, Turning::CounterClockwise).as_deref(), Some("FWD"));
    assert_eq!(switch(high, Turning::Clockwise).as_deref(), Some("FWD"));
    assert_eq!(switch(high, Turning::CounterClockwise).as_deref(), Some("REV"));
}

#[test]
fn every_cutter_of_the_sample_can_be_asked_a_cut() {
    let mut shop = sample();
    let machine = shop.machine().expect("a machine").form.read().expect("readable");
    let ids: Vec<String> = shop.cutters.iter().map(|own| own.id.clone()).collect();
    for id in ids {
        shop.choose_cutter(&id);
        let form = shop.next_cut();
        let question = form.read(&machine).unwrap_or_else(|errors| panic!("{id}: {errors:?}"));
        assert_eq!(question.mill.stock.id, "al_6061");
    }
}

#[test]
fn a_removed_machine_can_be_put_back_where_it_was() {
    let mut shop = sample();
    let before = shop.clone();
    let (place, machine) = shop.remove_machine("bench_mill").expect("there");
    assert_eq!(shop.mill.machine, "knee_mill", "another machine takes over");
    assert_eq!(shop.remove_machine("bench_mill"), None, "gone");
    shop.put_back_machine(place, machine);
    assert_eq!(shop.machines, before.machines);
}

#[test]
fn the_last_machine_may_go_and_come_back() {
    let mut shop = Document::default();
    let id = shop.add_machine(MachineForm { name: "Mill".into(), ..MachineForm::default() });
    let (place, machine) = shop.remove_machine(&id).expect("there");
    assert!(shop.is_new() && shop.machine().is_none());
    shop.put_back_machine(place, machine);
    assert_eq!(shop.machine().map(|own| own.id.as_str()), Some("mill"));
}

#[test]
fn machines_of_one_name_have_different_ids() {
    let mut shop = Document::default();
    let form = MachineForm { name: "Mill #1 – grün".into(), ..MachineForm::default() };
    assert_eq!(shop.add_machine(form.clone()), "mill_1_gr_n");
    assert_eq!(shop.add_machine(form), "mill_1_gr_n_2");
    assert_eq!(shop.add_machine(MachineForm::default()), "mill");
}

#[test]
fn a_cutter_changed_in_the_drawer_changes_in_the_spindle() {
    let mut shop = sample();
    let id = shop.cutter_on_the_mill().expect("from the drawer").id.clone();
    shop.change_cutter(&id, |own| own.cutter.teeth = Typed::inch("3"));
    assert_eq!(shop.mill.cutter.teeth, Typed::inch("3"));
    assert_eq!(shop.cutter_on_the_mill().map(|own| own.id.clone()), Some(id.clone()));

    shop.mill.cutter.teeth = Typed::inch("4");
    shop.change_cutter(&id, |own| own.cutter.teeth = Typed::inch("2"));
    assert_eq!(shop.mill.cutter.teeth, Typed::inch("4"), "another cutter is in the spindle");
}

#[test]
fn a_removed_cutter_stays_in_the_spindle() {
    let mut shop = sample();
    let before = shop.clone();
    let id = shop.cutters[0].id.clone();
    let (place, cutter) = shop.remove_cutter(&id).expect("there");
    assert_eq!(shop.mill, before.mill);
    assert!(shop.cutter_on_the_mill().is_none());
    shop.put_back_cutter(place, cutter);
    assert_eq!(shop.cutters, before.cutters);
}

#[test]
fn the_next_cut_begins_with_the_last_one_if_the_cutter_can_do_it() {
    let mut shop = sample();
    assert_eq!(shop.next_cut(), shop.last_cut.clone().expect("a last cut"));
    shop.mill.stock = "steel_low_c".into();
    assert_eq!(shop.next_cut().depth, Typed::inch("0.060"));
    assert_eq!(shop.next_cut().mill.stock, "steel_low_c");

    let drill = shop.cutters.iter().find(|own| own.cutter.kind == CutterKind::Drill).unwrap();
    shop.choose_cutter(&drill.id.clone());
    shop.settings.style = Style::Brisk;
    let next = shop.next_cut();
    assert_eq!((next.operation, next.style), (OperationKind::Drill, Style::Brisk));
    assert!(next.depth.is_empty());
}

#[test]
fn a_cut_that_was_answered_is_the_last_cut_and_on_the_mill() {
    let mut shop = sample();
    let mut form = shop.next_cut();
    form.mill.stock = "brass_360".into();
    shop.remember(&form);
    assert_eq!(shop.mill.stock, "brass_360");
    assert_eq!(shop.last_cut, Some(form));
}

#[test]
fn a_favorite_opens_the_cut_it_was_made_of() {
    let mut shop = sample();
    let mut form = shop.next_cut();
    form.depth = Typed::inch("3/32");
    let to = format!("cut?{}", form.to_query());
    assert_eq!(shop.favorite_at(&to), None);
    let id = shop.add_favorite("  Deep slot ", &to);
    assert_eq!(shop.favorites[0].name, "Deep slot");
    assert_eq!(CutForm::from_query(&shop.favorites[0].link), (form.clone(), Vec::new()));
    assert_eq!(shop.favorite_at(&to).map(|favorite| favorite.id.clone()), Some(id.clone()));

    let before = shop.favorites.clone();
    let (place, favorite) = shop.remove_favorite(&id).expect("there");
    assert_eq!(shop.favorite_at(&to), None);
    shop.put_back_favorite(place, favorite);
    assert_eq!(shop.favorites, before);
}

#[test]
fn changes_count_until_a_backup_is_made() {
    let mut shop = sample();
    assert_eq!(shop.backup.changes, 0, "the sample is nobody's work");
    let id = shop.cutters[0].id.clone();
    let (place, cutter) = shop.remove_cutter(&id).expect("there");
    shop.put_back_cutter(place, cutter);
    shop.add_favorite("Slot", "cut?op=slot");
    assert_eq!(shop.backup.changes, 3);
    shop.note_backup("2026-11-24T10:00:00Z".into());
    assert_eq!(shop.backup.changes, 0);
    assert_eq!(shop.backup.since.as_deref(), Some("2026-11-24T10:00:00Z"));
}
