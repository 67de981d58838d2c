//! Checks before a cut: what the form makes of a set-up, what is kept, and what is forgotten.

use handwheel::{
    engine::{
        machine::Turning,
        quantity::System,
        safety::{
            context::{Chuck, Drive, Holding, PutOn},
            list::checklist,
        },
    },
    shop::{
        answers::Answers,
        check_form::{Ask, CheckForm, CheckReading, Doing, Now, OtherStock, Step, Trouble},
        checks::{Checks, Fitting, Habit, RECORDS, Record},
        cuts::{CutForm, CutterForm, CutterKind, OperationKind},
        document::Document,
        restore::restore,
        sample::sample,
        typed::Typed,
    },
};

/// A clock on which a date is the number of minutes it lies back.
fn minutes(iso: &str) -> Option<f64> {
    iso.parse().ok()
}

fn read(form: &CheckForm, document: &Document) -> CheckReading {
    form.read(document, Now { hour: 10, minutes_since: &minutes })
}

fn shown(form: &CheckForm, document: &Document) -> Vec<(&'static str, String)> {
    let reading = read(form, document);
    let list = checklist(&reading.context, reading.earlier.as_ref(), System::Inch);
    list.shown().map(|item| (item.rule.id, item.text.clone())).collect()
}

#[track_caller]
fn said(form: &CheckForm, document: &Document, id: &str) -> String {
    let shown = shown(form, document);
    shown.iter().find(|(shown, _)| *shown == id).unwrap_or_else(|| panic!("no {id}")).1.clone()
}

fn does_show(form: &CheckForm, document: &Document, id: &str) -> bool {
    shown(form, document).iter().any(|(shown, _)| *shown == id)
}

/// The slot of the sample shop.
fn slot() -> (CheckForm, Document) {
    let shop = sample();
    (CheckForm::of(shop.last_cut.clone().expect("a cut")), shop)
}

/// The cast-iron face of the knee mill, in its low range.
fn face() -> (CheckForm, Document) {
    let mut shop = sample();
    let fly = shop.cutters.iter().find(|own| own.cutter.kind == CutterKind::FlyCutter);
    let id = fly.expect("a fly cutter").id.clone();
    shop.choose_cutter(&id);
    shop.mill.machine = "knee_mill".to_owned();
    shop.mill.stock = "ci_grey".to_owned();
    let cut = CutForm {
        mill: shop.mill.clone(),
        operation: OperationKind::Face,
        width: Typed::inch("4"),
        depth: Typed::inch("0.015"),
        own: handwheel::shop::cuts::OwnForm {
            surface_speed: Typed::inch("60"),
            feed: Typed::inch("0.008"),
            ..Default::default()
        },
        ..CutForm::default()
    };
    (CheckForm::of(cut), shop)
}

fn record(form: &CheckForm, document: &Document, when: &str, ticked: &[&str]) -> Record {
    let ticked = ticked.iter().map(|id| (*id).to_owned()).collect();
    form.record(&read(form, document), when.to_owned(), ticked, Vec::new())
}

#[test]
fn a_link_says_all_of_a_check() {
    let (mut form, _) = slot();
    assert_eq!(CheckForm::from_query(&form.to_query()), form);
    form.step = Step::Start;
    form.doing = Doing::HandTap;
    form.left_hand = true;
    form.other_stock = Some(OtherStock::Silica);
    form.put_on = Some(PutOn::Mist);
    form.holding = Some(Holding::SoftJaws);
    form.range = Some(1);
    form.answers = Answers::default().with(Ask::Air, false).with(Ask::Thin, true);
    assert_eq!(CheckForm::from_query(&form.to_query()), form);
    let unknown =
        CheckForm::from_query("held=magic&is_air=perhaps&range=0&step=elsewhere&is_x=yes");
    assert_eq!(unknown, CheckForm::default(), "what is not understood stays open");
}

#[test]
fn the_counterweight_is_faced_with_the_switch_at_rev() {
    let (form, shop) = face();
    assert_eq!(said(&form, &shop, "S01"), "Switch to REV: spindle must turn clockwise from above");
    assert_eq!(
        said(&form, &shop, "S12"),
        "Fly cutter: 70 rpm at most, balance checked, bit screws tight"
    );
    for id in ["S02", "S03", "P24", "F12", "P62", "P11"] {
        assert!(does_show(&form, &shop, id), "{id}");
    }
}

#[test]
fn the_slot_has_the_checks_of_a_small_cutter() {
    let (form, shop) = slot();
    for id in ["P28", "F06", "F01", "F07", "P25"] {
        assert!(does_show(&form, &shop, id), "{id}");
    }
    for id in ["P27", "S18", "P50", "P58", "P11", "P12", "P13"] {
        assert!(!does_show(&form, &shop, id), "{id}");
    }
    let mut open = form;
    open.cut.mill.holding.stickout = Typed::default();
    assert!(does_show(&open, &shop, "P27"), "the usual stick-out is no measured one");
}

#[test]
fn a_tap_by_hand_wants_the_power_off_and_no_switch() {
    let (mut form, shop) = face();
    form.doing = Doing::HandTap;
    assert!(does_show(&form, &shop, "S15") && !does_show(&form, &shop, "S03"));
    assert!(does_show(&form, &shop, "C06"), "nobody said that the hole goes through");
    form.doing = Doing::Indicate;
    assert!(does_show(&form, &shop, "S14"));
    assert_eq!(read(&form, &shop).trouble, None);
}

#[test]
fn stock_of_no_table_and_unknown_stock_have_their_stops() {
    let (mut form, shop) = slot();
    form.other_stock = Some(OtherStock::BerylliumCopper);
    assert!(does_show(&form, &shop, "P54"));
    form.other_stock = Some(OtherStock::Unknown);
    assert!(does_show(&form, &shop, "P63"));
    form.other_stock = None;
    form.cut.mill.stock = "unobtainium".to_owned();
    assert!(does_show(&form, &shop, "P63"));
}

#[test]
fn without_a_machine_the_rest_is_checked() {
    let (form, _) = slot();
    let nothing = Document::default();
    let reading = read(&form, &nothing);
    assert_eq!(reading.trouble, Some(Trouble::NoMachine));
    let said = said(&form, &nothing, "S01");
    assert!(said.contains("clockwise") && !said.contains("FWD"), "{said}");
    assert!(does_show(&form, &nothing, "S03") && does_show(&form, &nothing, "P01"));
}

#[test]
fn a_cut_that_cannot_be_worked_out_is_checked_without_its_figures() {
    let (mut form, shop) = slot();
    form.cut.mill.cutter = CutterForm { diameter: Typed::inch("abc"), ..CutterForm::default() };
    assert!(matches!(read(&form, &shop).trouble, Some(Trouble::Cut(_))));
    assert!(does_show(&form, &shop, "P28"), "an unknown cutter may be a small one");
}

#[test]
fn what_nobody_answered_shows_its_rule_and_an_answer_takes_it_away() {
    let (form, mut shop) = slot();
    assert!(does_show(&form, &shop, "P04"));
    shop.checks.habits.set(Habit::LongHair, Some(false));
    assert!(!does_show(&form, &shop, "P04"));
    shop.checks.habits.set(Habit::LongHair, None);
    assert!(does_show(&form, &shop, "P04"));
}

#[test]
fn fittings_of_a_machine_are_read_for_the_rules() {
    let known = Answers::default().with(Fitting::ScrewOnChuck, false).with(Fitting::KeyChuck, true);
    assert_eq!(known.chuck(), Some(Chuck::Key));
    assert_eq!(Answers::default().with(Fitting::KeyChuck, true).chuck(), None);
    let screwed = Answers::default().with(Fitting::ScrewOnChuck, true);
    assert_eq!(screwed.chuck(), Some(Chuck::ScrewOn));
    assert_eq!(Answers::default().with(Fitting::BeltDrive, true).drive(), Some(Drive::Belt));
    assert_eq!(Answers::<Fitting>::default().drive(), None);
}

#[test]
fn a_jog_test_fills_the_table_and_a_changed_range_forgets_that_it_was_seen() {
    let (mut form, mut shop) = face();
    let low = &mut shop.machines[1].form.ranges[0];
    low.clockwise_label.clear();
    low.counter_clockwise_label.clear();
    assert!(!said(&form, &shop, "S01").contains("REV"), "it is not guessed");

    // The other way first: that is stored too, and nothing is confirmed.
    form.note_turning(&mut shop, 0, "FWD", Turning::CounterClockwise, "0".to_owned());
    assert_eq!(shop.machines[1].form.ranges[0].counter_clockwise_label, "FWD");
    assert_eq!(shop.checks.seen, None);
    assert!(does_show(&form, &shop, "S03"));

    form.note_turning(&mut shop, 0, " REV ", Turning::Clockwise, "5".to_owned());
    assert_eq!(said(&form, &shop, "S01"), "Switch to REV: spindle must turn clockwise from above");
    assert!(!does_show(&form, &shop, "S03"), "somebody has seen it");
    assert!(read(&form, &shop).context.spindle.confirmed);

    form.range = Some(1);
    assert!(does_show(&form, &shop, "S03"), "another range was never looked at");
    shop.checks.turn_to("knee_mill", 1);
    form.range = None;
    assert!(does_show(&form, &shop, "S03"), "and going back does not bring it back");

    form.note_seen(&mut shop, 0, "121".to_owned());
    assert!(does_show(&form, &shop, "S03"), "two hours later nobody knows");
    form.note_seen(&mut shop, 0, "1".to_owned());
    form.cut.mill.machine = "bench_mill".to_owned();
    assert!(does_show(&form, &shop, "S03"), "nor on another machine");
}

#[test]
fn one_label_stands_for_one_way() {
    let mut machine = sample().machines[1].form.clone();
    machine.note_turning(0, "REV", Turning::CounterClockwise);
    assert_eq!(machine.ranges[0].counter_clockwise_label, "REV");
    assert_eq!(machine.ranges[0].clockwise_label, "", "what was stored before is not true");
    machine.note_turning(7, "REV", Turning::Clockwise);
}

#[test]
fn the_same_set_up_again_rests_and_another_one_does_not() {
    let (form, mut shop) = slot();
    form.note_seen(&mut shop, 0, "1".to_owned());
    let all: Vec<&str> = handwheel::engine::safety::RULES.iter().map(|rule| rule.id).collect();
    shop.checks.close(record(&form, &shop, "30", &all));
    let open = |form: &CheckForm, shop: &Document| {
        let reading = read(form, shop);
        let list = checklist(&reading.context, reading.earlier.as_ref(), System::Inch);
        list.items().map(|item| item.rule.id).collect::<Vec<_>>()
    };
    // Two machines are owned, and nobody said that only one is in use.
    assert_eq!(open(&form, &shop), ["P01", "F15"]);
    let mut other = form.clone();
    other.cut.mill.stock = "magnesium".to_owned();
    assert!(open(&other, &shop).len() > 20);
    shop.checks.records[0].when = "121".to_owned();
    assert!(open(&form, &shop).len() > 20);
}

#[test]
fn a_change_since_the_last_check_wants_its_rules() {
    let (form, mut shop) = slot();
    assert!(does_show(&form, &shop, "P20"), "nobody knows what was in before");
    shop.checks.close(record(&form, &shop, "10", &[]));
    for id in ["P20", "P21", "P43", "S06", "S07", "A07"] {
        assert!(!does_show(&form, &shop, id), "{id}");
    }
    let mut other = form.clone();
    other.cut.mill.cutter.name = "another end mill".to_owned();
    assert!(does_show(&other, &shop, "P20"));
    let mut slower = form;
    slower.cut.own.spindle_speed = Typed::inch("1000");
    assert!(does_show(&slower, &shop, "S06") && !does_show(&slower, &shop, "P20"));
}

#[test]
fn the_list_of_checks_is_bounded_and_ticks_belong_to_a_set_up() {
    let (form, mut shop) = slot();
    for n in 0..RECORDS + 5 {
        let record = record(&form, &shop, &n.to_string(), &["P01"]);
        shop.checks.close(record);
    }
    assert_eq!(shop.checks.records.len(), RECORDS);
    assert_eq!(shop.checks.records[0].when, (RECORDS + 4).to_string());

    let set_up = form.set_up();
    shop.checks.tick(&set_up, Some(0), &["P01", "P02"], true);
    shop.checks.tick(&set_up, Some(0), &["P01"], false);
    assert_eq!(shop.checks.ticked(&set_up), ["P02"]);
    assert!(shop.checks.ticked("another").is_empty());
    shop.checks.tick("another", None, &["P05"], true);
    assert!(shop.checks.ticked(&set_up).is_empty());
}

#[test]
fn another_range_takes_the_ticks_about_the_direction_away() {
    let (form, mut shop) = face();
    let set_up = form.set_up();
    shop.checks.tick(&set_up, Some(0), &["P01", "S01", "S02", "S03"], true);
    shop.checks.turn_to("knee_mill", 0);
    assert_eq!(shop.checks.ticked(&set_up).len(), 4);
    shop.checks.turn_to("knee_mill", 1);
    assert_eq!(shop.checks.ticked(&set_up), ["P01"]);
}

#[test]
fn checks_are_saved_and_restored_as_they_are() {
    let (form, mut shop) = slot();
    shop.checks.habits = Answers::default().with(Habit::LongHair, true).with(Habit::Alone, false);
    shop.checks.asked = true;
    shop.checks.call = "(0123) 45-67 ext".to_owned();
    shop.checks.close(record(&form, &shop, "3", &["P01"]));
    shop.checks.tick(&form.set_up(), Some(0), &["P02"], true);
    form.note_seen(&mut shop, 0, "1".to_owned());
    assert_eq!(restore(&shop.to_text()).as_ref(), Ok(&shop));
    assert_eq!(shop.checks.number(), "01234567");
    assert_eq!(Checks::default().number(), "");

    let strange = shop.to_text().replace("\"long_hair\"", "\"long_tail\"");
    let shop = restore(&strange).expect("an answer to no question of ours harms no other");
    assert_eq!(shop.checks.habits.get(Habit::LongHair), None);
    assert_eq!(shop.checks.habits.get(Habit::Alone), Some(false));
    assert!(shop.to_text().contains("\"long_tail\":true"), "it is kept as it is");
}
