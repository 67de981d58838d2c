//! What comes in from elsewhere: what is refused, what is kept, what is added to what is here.

use handwheel::engine::drills::{Drill, Set};
use handwheel::shop::{
    document::Document,
    drills::DrillDrawer,
    incoming::{self, join},
    machines::MachineForm,
    merge::changed,
    restore::restore,
    sample::sample,
    typed::Typed,
};
use proptest::prelude::*;
use serde_json::{Value, json};

const V1: &str = include_str!("../fixtures/document_v1.json");
const V2: &str = include_str!("../fixtures/document_v2.json");

fn own(mill: &str) -> Document {
    let mut shop = sample();
    shop.sample = false;
    shop.add_machine(MachineForm { name: mill.into(), ..MachineForm::default() });
    shop
}

/// Every text of a value.
fn texts(value: &Value, into: &mut Vec<String>) {
    match value {
        Value::String(text) => into.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| texts(item, into)),
        Value::Object(map) => map.values().for_each(|value| texts(value, into)),
        _ => {}
    }
}

fn is_sentence(text: &str) -> bool {
    text.starts_with(char::is_uppercase) && text.ends_with('.') && text.contains(' ')
}

#[test]
fn every_file_that_is_no_shop_is_a_sentence() {
    let whole = sample().to_text();
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    let deep_inside = whole.replacen("\"machines\"", &format!("\"new\":{deep},\"machines\""), 1);
    let mut crowd = serde_json::from_str::<Value>(&whole).expect("JSON");
    let mill = crowd["machines"][0].clone();
    crowd["machines"] = Value::Array(vec![mill; 6000]);
    let mut wordy = serde_json::from_str::<Value>(&whole).expect("JSON");
    wordy["machines"][0]["form"]["name"] = json!("x".repeat(30_000));
    for (file, says) in [
        (String::new(), "ends too early"),
        ("\u{1f980} not JSON".to_owned(), "no saved shop"),
        (whole[..whole.len() / 2].to_owned(), "ends too early"),
        (whole.replacen("\"version\":2", "\"version\":3", 1), "later version"),
        (" ".repeat(50_000_000), "it has 50 MB, and a shop has at most 8"),
        (deep, "nested deeper"),
        (deep_inside, "nested deeper"),
        (crowd.to_string(), "lists 6000 machines"),
        (wordy.to_string(), "30000 letters"),
        ("[]".to_owned(), "names no version"),
        ("null".to_owned(), "names no version"),
    ] {
        let problem = incoming::read(&file).expect_err(says);
        assert!(problem.contains(says), "{says}: {problem}");
        assert!(is_sentence(&problem), "{problem}");
    }
}

#[test]
fn ids_that_are_there_twice_or_can_stand_in_no_link_become_others() {
    let mut twice = serde_json::from_str::<Value>(V2).expect("JSON");
    for machine in twice["machines"].as_array_mut().expect("a list") {
        machine["id"] = json!("bench_mill");
    }
    twice["cutters"][0]["id"] = json!("<script>alert(1)</script>&settings");
    twice["cutters"][1]["id"] = json!("");
    let shop = incoming::read(&twice.to_string()).expect("nothing is lost of it");
    let ids: Vec<&str> = shop.machines.iter().map(|own| own.id.as_str()).collect();
    assert_eq!(ids, ["bench_mill", "bench_mill_2"]);
    let names: Vec<&str> = shop.machines.iter().map(|own| own.form.name.as_str()).collect();
    assert_eq!(names, ["Bench mill", "Knee mill"]);
    let is_word = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
    for own in &shop.cutters {
        assert!(!own.id.is_empty() && own.id.chars().all(is_word), "{}", own.id);
    }
    assert_eq!(shop.cutters.len(), sample().cutters.len());
}

#[test]
fn what_this_version_does_not_know_is_kept_where_it_stood() {
    let mut newer = serde_json::from_str::<Value>(V2).expect("JSON");
    newer["lathes"] = json!([{ "id": "small", "swing": 7 }]);
    newer["machines"][1]["form"]["ram"] = json!({ "travel": "12" });
    newer["machines"][1]["form"]["ranges"][0]["note"] = json!("belt");
    newer["settings"]["language"] = json!("de");
    newer["checks"]["habits"]["sings"] = json!(true);
    let mut shop = restore(&newer.to_string()).expect("it restores");
    assert_eq!(serde_json::from_str::<Value>(&shop.to_text()).expect("JSON"), newer);
    // And again, and after a change elsewhere, a removal and an undo.
    shop = restore(&shop.to_text()).expect("it restores");
    shop.add_machine(MachineForm::default());
    let (place, knee) = shop.remove_machine("knee_mill").expect("there");
    let without = serde_json::from_str::<Value>(&shop.to_text()).expect("JSON");
    assert_eq!(without["lathes"], newer["lathes"]);
    shop.put_back_machine(place, knee);
    let again = serde_json::from_str::<Value>(&shop.to_text()).expect("JSON");
    assert_eq!(again["machines"][1], newer["machines"][1]);
    // It takes part in a join, too.
    let joined = join(&own("Mine"), &shop).expect("one shop");
    let joined = serde_json::from_str::<Value>(&joined.document.to_text()).expect("JSON");
    assert_eq!(joined["lathes"], newer["lathes"]);
}

#[test]
fn markup_stays_a_text() {
    let mark = "<img src=x onerror=alert(1)>";
    let mut strange = serde_json::from_str::<Value>(V2).expect("JSON");
    strange["machines"][0]["form"]["name"] = json!(mark);
    let shop = incoming::read(&strange.to_string()).expect("a name like any other");
    assert_eq!(shop.machines[0].form.name, mark);
}

#[test]
fn a_file_adds_what_is_new_and_changes_nothing_that_is_here() {
    let here = own("Mine");
    let mut theirs = own("Theirs");
    theirs.machines[0].form.power = Typed::inch("2 hp");
    theirs.settings.gloves = true;
    theirs.checks.call = "112".into();
    theirs.drills.miss(Drill::number(7).expect("a drill"), true);
    theirs.drills.own_set(Set::SmallNumbers, true);
    theirs.drills.miss(Drill::number(70).expect("a drill"), true);
    let joined = join(&here, &theirs).expect("one shop");
    assert_eq!(joined.new, ["Theirs"]);
    assert_eq!(joined.both, ["Bench mill"]);
    let things = here.cutters.len() + here.favorites.len() + here.jobs.len();
    assert_eq!(joined.same, 1 + things);
    let shop = &joined.document;
    let names: Vec<&str> = shop.machines.iter().map(|own| own.form.name.as_str()).collect();
    assert_eq!(names, ["Bench mill", "Knee mill", "Mine", "Bench mill (from elsewhere)", "Theirs"]);
    for own in &here.machines {
        assert_eq!(shop.machine_called(&own.id), Some(own), "it is as it was");
    }
    assert_eq!(
        (&shop.settings, &shop.mill, &shop.checks),
        (&here.settings, &here.mill, &here.checks)
    );
    let drawer =
        |drills: &DrillDrawer, number| drills.is_missing(Drill::number(number).expect("a drill"));
    assert!(!drawer(&shop.drills, 7), "nobody elsewhere knows what is in a box here");
    assert!(shop.drills.has_set(Set::SmallNumbers) && drawer(&shop.drills, 70));
    assert_eq!(shop.backup.changes, here.backup.changes + 2);

    let again = join(shop, &theirs).expect("one shop");
    assert_eq!((again.new.len(), again.both.len()), (0, 0), "a second time nothing is new");
    assert!(changed(shop, &again.document).is_empty());
}

#[test]
fn the_sample_makes_room_for_what_comes_in() {
    let joined = join(&sample(), &own("Mine")).expect("one shop");
    assert!(!joined.document.sample);
    assert_eq!(joined.document.machines.len(), 3);
    assert_eq!(joined.document.mill.machine, "bench_mill");
}

/// A file with one thing in it turned into another.
fn mutated() -> impl Strategy<Value = Vec<u8>> {
    let file = prop_oneof![Just(V1.to_owned()), Just(V2.to_owned()), Just(sample().to_text())];
    let change = (any::<prop::sample::Index>(), 0..6u8, any::<u8>(), 0..80_usize);
    (file, prop::collection::vec(change, 1..4)).prop_map(|(file, changes)| {
        let mut bytes = file.into_bytes();
        for (place, kind, byte, length) in changes {
            let at = place.index(bytes.len());
            let end = (at + length).min(bytes.len());
            match kind {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, byte),
                2 => drop(bytes.drain(at..end)),
                3 => {
                    let part = bytes[at..end].to_vec();
                    bytes.splice(at..at, part);
                }
                4 => bytes.truncate(at.max(1)),
                _ => bytes[at] = b"0123456789{}[]\",:eE+-.truefalsn"[usize::from(byte) % 31],
            }
            if bytes.is_empty() {
                bytes.push(b'{');
            }
        }
        bytes
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]
    #[test]
    fn no_file_breaks_anything_or_loses_anything(bytes in mutated()) {
        let text = String::from_utf8_lossy(&bytes);
        match restore(&text) {
            Err(unreadable) => {
                prop_assert_eq!(&unreadable.raw, &*text);
                prop_assert!(is_sentence(&unreadable.problem), "{}", unreadable.problem);
            }
            Ok(shop) => {
                // What is saved of it is the same again, and holds every text of the file.
                let saved = shop.to_text();
                prop_assert_eq!(&restore(&saved).expect("its own text"), &shop);
                let (mut before, mut after) = (Vec::new(), Vec::new());
                texts(&serde_json::from_str(&text).expect("it was read"), &mut before);
                texts(&serde_json::from_str(&saved).expect("JSON"), &mut after);
                let lost = before.iter().find(|text| !after.contains(text));
                // An id that can stand in no link, or that is there twice, becomes another.
                let is_id = lost.is_none_or(|lost| text.contains(&format!("\"id\": \"{lost}\""))
                    || text.contains(&format!("\"id\":\"{lost}\"")) || text.contains(&format!("\"machine\": \"{lost}\""))
                    || text.contains(&format!("\"machine\":\"{lost}\"")));
                prop_assert!(is_id, "{:?} is gone", lost);
            }
        }
    }
}

/// One million of the kind, for `./dev bench`.
#[test]
#[ignore = "minutes; ./dev bench runs it"]
fn a_million_files_break_nothing() {
    use proptest::{strategy::ValueTree, test_runner::TestRunner};
    let mut runner = TestRunner::deterministic();
    let strategy = mutated();
    let (mut read, mut refused) = (0_u32, 0_u32);
    let began = std::time::Instant::now();
    for _ in 0..1_000_000 {
        let bytes = strategy.new_tree(&mut runner).expect("a file").current();
        let text = String::from_utf8_lossy(&bytes);
        match restore(&text) {
            Ok(shop) => {
                read += 1;
                assert_eq!(restore(&shop.to_text()).as_ref(), Ok(&shop));
            }
            Err(unreadable) => {
                refused += 1;
                assert_eq!(unreadable.raw, *text);
            }
        }
    }
    println!(
        "mutated documents: {read} read, {refused} kept as they were, in {:?}",
        began.elapsed()
    );
}
