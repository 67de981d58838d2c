//! A batch as entered, its run, and what outlasts a restart.

use handwheel::{
    engine::{
        plan::{MOST_PIECES, compare::Preference},
        quantity::Duration,
        question::Field,
    },
    shop::{
        document::Document,
        plan::{PlanForm, RunSheet},
        restore::restore,
        sample::sample,
        typed::Typed,
        which::WhichForm,
    },
};

fn again(document: &Document) -> Document {
    restore(&document.to_text()).expect("what was saved")
}

#[test]
fn the_sample_batch_takes_what_its_job_says() {
    let shop = sample();
    let (batch, comparison) = shop.plans.form.compare(&shop).expect("orders");
    assert_eq!(batch.pieces, 8);
    let totals: Vec<f64> =
        comparison.entries.iter().map(|entry| entry.figures().total.to_minute()).collect();
    for wanted in [57.33, 59.33, 197.33] {
        assert!(totals.iter().any(|total| (total - wanted).abs() < 0.01), "{wanted}: {totals:?}");
    }
}

#[test]
fn the_steps_of_a_job_card_become_operations_one_after_the_other() {
    let mut form = PlanForm::default();
    let slot = ("Slot".to_owned(), "bench_mill".to_owned(), Some(Duration::second(48.4)));
    let burr = ("Break every edge".to_owned(), String::new(), None);
    form.take_steps("Base plate", [slot, burr]);
    assert_eq!(form.name, "Base plate");
    let [slot, burr] = &form.operations[..] else { panic!("{:?}", form.operations) };
    assert_eq!((slot.name.as_str(), slot.mill.as_str()), ("Slot", "bench_mill"));
    assert_eq!(slot.cut, Typed::inch("48"));
    assert!(slot.after.is_empty() && burr.after == [slot.id] && burr.cut.is_empty());
    // A part that has its name keeps it.
    form.take_steps("Another", []);
    assert_eq!((form.name.as_str(), form.operations.len()), ("Base plate", 2));
}

#[test]
fn a_document_without_plans_restores_with_an_empty_one() {
    let mut value: serde_json::Value = serde_json::from_str(&sample().to_text()).unwrap();
    value.as_object_mut().unwrap().remove("plans");
    let restored = restore(&value.to_string()).expect("an older document");
    assert_eq!(restored.plans.form, PlanForm::default());
    assert_eq!(restored.plans.run, None);
}

#[test]
fn a_run_outlasts_a_restart_and_the_mill_it_was_begun_on() {
    let mut shop = sample();
    let order = {
        let (_, comparison) = shop.plans.form.compare(&shop).unwrap();
        comparison.recommended().order.clone()
    };
    let mut run = RunSheet::begin(&shop.plans.form, &shop, &order, 1_000);
    run.tick(0, true, 1_700);
    run.tick(1, true, 1_830);
    let steps = run.follow().expect("its steps").steps;
    shop.plans.run = Some(run);
    shop.remove_machine("knee_mill");
    let restored = again(&shop);
    let run = restored.plans.run.as_ref().expect("the run");
    assert_eq!(run.follow().expect("its steps").steps, steps);
    assert!(run.is_ticked(1) && !run.is_ticked(2));
    assert_eq!(run.last_tick(), Some(1));
    let progress = run.progress(&steps, 1_830);
    assert_eq!(progress.next, Some(2));
    assert_eq!(progress.measured[0].map(|time| time.to_second()), Some(130.0));
}

#[test]
fn a_tick_can_be_taken_back() {
    let shop = sample();
    let (_, comparison) = shop.plans.form.compare(&shop).unwrap();
    let order = &comparison.recommended().order;
    let mut run = RunSheet::begin(&shop.plans.form, &shop, order, 0);
    run.tick(0, true, 5);
    run.tick(0, true, 9);
    run.tick(0, false, 10);
    assert!(!run.is_ticked(0));
    assert_eq!(run.last_tick(), None);
}

#[test]
fn a_damaged_run_is_none() {
    let shop = sample();
    let (_, comparison) = shop.plans.form.compare(&shop).unwrap();
    let order = &comparison.recommended().order;
    let run = RunSheet::begin(&shop.plans.form, &shop, order, 0);
    let text = serde_json::to_string(&run).unwrap();
    for (sound, broken) in [("\"on\":[", "\"on\":[9,"), ("\"runs\":[[0,", "\"runs\":[[7,")] {
        assert!(text.contains(sound), "{text}");
        let damaged: RunSheet = serde_json::from_str(&text.replace(sound, broken)).unwrap();
        assert_eq!(damaged.follow(), None, "{broken}");
    }
}

#[test]
fn every_fault_stands_at_its_operation_and_field() {
    let shop = sample();
    let faults = |change: fn(&mut PlanForm)| {
        let mut form = shop.plans.form.clone();
        change(&mut form);
        let faults = form.read(&shop).expect_err("a fault");
        assert_eq!(faults.len(), 1, "{faults:?}");
        let fault = faults[0].clone();
        assert!(fault.error.hint.ends_with('.'), "{}", fault.error.hint);
        (fault.operation, fault.error.field, fault.error.problem)
    };
    let at = |change| {
        let (operation, field, _) = faults(change);
        (operation, field)
    };
    assert_eq!(at(|f| f.pieces = Typed::inch("0")), (None, Field::BatchPieces));
    assert_eq!(at(|f| f.pieces = Typed::inch("10000")), (None, Field::BatchPieces));
    assert_eq!(at(|f| f.pieces = Typed::inch("")), (None, Field::BatchPieces));
    assert_eq!(at(|f| f.pieces = Typed::inch("2.5")), (None, Field::BatchPieces));
    assert_eq!(at(|f| f.walk = Typed::inch("-3")), (None, Field::Walk));
    assert_eq!(at(|f| f.check = Typed::inch("abc")), (None, Field::CheckTime));
    assert_eq!(at(|f| f.operations.clear()), (None, Field::PlanOperation));
    assert_eq!(at(|f| f.operations[1].cut = Typed::inch("-1")), (Some(1), Field::CycleTime));
    assert_eq!(at(|f| f.operations[0].risk = Typed::inch("150")), (Some(0), Field::ScrapRisk));
    assert_eq!(at(|f| f.operations[0].after = vec![2]), (Some(0), Field::After));
    let (_, field, problem) = faults(|f| f.operations[0].mill = "sold".to_owned());
    assert_eq!(field, Field::Machine);
    assert!(problem.contains("First side") && problem.contains("no longer"), "{problem}");
}

#[test]
fn an_operation_taken_away_leaves_the_others_in_their_order() {
    let mut form = PlanForm::default();
    let (first, second, third) = (form.add(), form.add(), form.add());
    assert_eq!(form.operations[2].after, [second]);
    form.remove(second);
    assert_eq!(form.operations.iter().map(|o| o.id).collect::<Vec<_>>(), [first, third]);
    assert_eq!(form.operations[1].after, [first]);
    assert_ne!(form.add(), second, "a number is not used again while others have it");
}

#[test]
fn pieces_step_within_their_bounds() {
    let mut form = PlanForm::default();
    form.step_pieces(-1);
    assert_eq!(form.pieces.text, "1");
    form.pieces = Typed::inch(MOST_PIECES.to_string());
    form.step_pieces(1);
    assert_eq!(form.pieces.text, MOST_PIECES.to_string());
    form.pieces = Typed::inch("abc");
    form.step_pieces(1);
    assert_eq!(form.pieces.text, "2");
}

#[test]
fn the_question_of_the_mill_is_a_link() {
    let shop = sample();
    let form = WhichForm {
        cut: shop.last_cut.clone().expect("a cut"),
        stack: Typed::mm("120"),
        busy: vec!["knee_mill".to_owned()],
    };
    let (back, faults) = WhichForm::from_query(&form.to_query());
    assert!(faults.is_empty());
    assert_eq!(back, form);
    let (choice, mills) = form.ask(&shop).expect("an answer");
    assert_eq!(mills[choice.standings[0].mill], "bench_mill");
    let empty = form.ask(&Document::default()).expect_err("no mill");
    assert_eq!(empty[0].field, Field::Machine);
}

#[test]
fn what_is_wanted_most_is_saved() {
    let mut shop = sample();
    shop.plans.form.preference = Preference::LeastAtRisk;
    assert_eq!(again(&shop).plans.form.preference, Preference::LeastAtRisk);
}
