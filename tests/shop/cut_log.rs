//! Notes after cuts: when they count, how far they go, and for which cut.

use handwheel::{
    engine::{
        answer::Verdict,
        experience::{COUNTED, Experience, Felt, LEAST, Noted},
        limits::answer,
        quantity::System,
    },
    shop::{
        cut_log::{CutLog, KEPT},
        cuts::CutForm,
        document::Document,
        restore::restore,
        sample::sample,
        typed::Typed,
    },
};
use proptest::prelude::*;

fn slot(shop: &Document) -> CutForm {
    shop.last_cut.clone().expect("the sample has cut a slot")
}

fn noted(shop: &mut Document, form: &CutForm, felt: Felt, times: usize) {
    for _ in 0..times {
        let with = shop.log.experience(form);
        shop.log.note("2026-03-01T10:00:00Z".into(), form, felt, with);
    }
}

/// Speed and feed of a form's answer.
fn answered(shop: &Document, form: &CutForm) -> (f64, f64) {
    let machine = shop.machine_called(&form.mill.machine).unwrap().form.read().unwrap();
    let question = shop.ask(form, &machine).unwrap();
    let answer = answer(&question.mill, &question.cut).unwrap();
    assert_ne!(answer.verdict, Verdict::DoNotCut);
    (answer.speed.wanted.to_rpm(), answer.feed.unwrap().per_tooth.to_inch())
}

#[test]
fn two_notes_say_nothing_and_three_do() {
    let mut shop = sample();
    let form = slot(&shop);
    let plain = answered(&shop, &form);
    noted(&mut shop, &form, Felt::TooHot, LEAST - 1);
    assert_eq!(shop.log.experience(&form), Experience::NONE);
    assert_eq!(answered(&shop, &form), plain);
    noted(&mut shop, &form, Felt::TooHot, 1);
    let own = shop.log.experience(&form);
    assert!((own.speed - 0.75).abs() < 1e-9 && own.cuts == 3, "{own:?}");
    assert!((answered(&shop, &form).0 / plain.0 - 0.75).abs() < 1e-9);
}

#[test]
fn a_speed_that_was_lowered_until_it_was_fine_stays_there() {
    let mut shop = sample();
    let form = slot(&shop);
    noted(&mut shop, &form, Felt::TooHot, LEAST);
    let lowered = shop.log.experience(&form).speed;
    // Each is made with what the notes came to before it.
    noted(&mut shop, &form, Felt::Fine, COUNTED);
    let settled = shop.log.experience(&form).speed;
    assert!((settled - lowered).abs() < 0.011, "{lowered} {settled}");
}

#[test]
fn notes_count_for_the_same_mill_stock_and_cutter_only() {
    let mut shop = sample();
    let form = slot(&shop);
    noted(&mut shop, &form, Felt::Chatter, LEAST);
    assert!(!shop.log.experience(&form).is_none());
    let mut deeper = form.clone();
    deeper.depth = Typed::new("0.1", System::Inch);
    assert_eq!(shop.log.experience(&deeper), shop.log.experience(&form));
    for change in [
        |form: &mut CutForm| form.mill.machine = "knee_mill".into(),
        |form: &mut CutForm| form.mill.stock = "brass_360".into(),
        |form: &mut CutForm| form.mill.cutter.diameter = Typed::new("4", System::Metric),
        |form: &mut CutForm| form.mill.cutter.teeth = Typed::new("4", System::Inch),
    ] {
        let mut other = form.clone();
        change(&mut other);
        assert_eq!(shop.log.experience(&other), Experience::NONE);
    }
}

#[test]
fn a_form_that_does_not_heed_them_is_answered_by_the_tables() {
    let mut shop = sample();
    let mut form = slot(&shop);
    let plain = answered(&shop, &form);
    noted(&mut shop, &form, Felt::TooHot, LEAST);
    form.heeds_notes = false;
    assert_eq!(answered(&shop, &form), plain);
    let (back, faults) = CutForm::from_query(&form.to_query());
    assert!(faults.is_empty() && !back.heeds_notes);
}

#[test]
fn what_could_be_pushed_is_fed_more_inside_the_range_of_the_table() {
    let mut shop = sample();
    let form = slot(&shop);
    noted(&mut shop, &form, Felt::CouldPush, COUNTED);
    let own = shop.log.experience(&form);
    assert!((own.feed - 1.2).abs() < 0.05 && own.speed == 1.0, "{own:?}");
}

#[test]
fn notes_are_saved_and_the_oldest_go() {
    let mut shop = sample();
    let form = slot(&shop);
    noted(&mut shop, &form, Felt::Fine, KEPT + 5);
    assert_eq!(shop.log.notes().len(), KEPT);
    let back = restore(&shop.to_text()).unwrap();
    assert_eq!(back.log, shop.log);
    let (place, note) = shop.log.remove(3).unwrap();
    assert_eq!(shop.log.notes().len(), KEPT - 1);
    shop.log.put_back(place, note);
    assert_eq!(back.log, shop.log);
    assert_eq!(shop.log.remove(KEPT), None);
    assert_eq!(CutLog::default().experience(&form), Experience::NONE);
}

fn any_noted() -> impl Strategy<Value = Noted> {
    let felt = prop::sample::select(vec![Felt::TooHot, Felt::Chatter, Felt::Fine, Felt::CouldPush]);
    (felt, any::<f64>(), 0.0..2.0_f64).prop_map(|(felt, speed, feed)| Noted { felt, speed, feed })
}

proptest! {
    #[test]
    fn a_factor_stays_in_its_bounds(noted in prop::collection::vec(any_noted(), 0..40)) {
        let own = Experience::of(&noted);
        prop_assert!((0.5..=1.0).contains(&own.speed), "{:?}", own);
        prop_assert!((0.5..=1.2).contains(&own.feed), "{:?}", own);
        prop_assert!(own.cuts as usize <= COUNTED);
        prop_assert!(noted.len() >= LEAST || own == Experience::NONE);
    }

    #[test]
    fn one_more_hot_cut_never_raises_the_speed(
        noted in prop::collection::vec(any_noted(), LEAST..COUNTED),
    ) {
        let before = Experience::of(&noted);
        let mut more = noted;
        more.insert(0, Noted { felt: Felt::TooHot, speed: before.speed, feed: before.feed });
        prop_assert!(Experience::of(&more).speed <= before.speed + 1e-12);
    }
}
