//! What cannot be planned with, each with a sentence and a hint at its place.

use handwheel::engine::{plan::Batch, quantity::Duration, question::Field};

use crate::{blanks, operation};

#[track_caller]
fn says(change: impl FnOnce(&mut Batch), at: Option<usize>, field: Field, words: &str) {
    let mut batch = blanks();
    change(&mut batch);
    let faults = batch.check().expect_err(words);
    assert_eq!(faults.len(), 1, "{faults:?}");
    let fault = &faults[0];
    assert_eq!((fault.operation, fault.error.field), (at, field));
    assert!(fault.error.problem.contains(words), "{}", fault.error.problem);
    for sentence in [&fault.error.problem, &fault.error.hint] {
        assert!(sentence.ends_with('.'), "{sentence}");
    }
}

#[test]
fn the_batch_as_it_is_has_no_fault() {
    assert_eq!(blanks().check(), Ok(()));
}

#[test]
fn a_batch_has_pieces_and_not_too_many() {
    says(|batch| batch.pieces = 0, None, Field::BatchPieces, "no pieces");
    says(|batch| batch.pieces = 10_000, None, Field::BatchPieces, "10000 pieces");
}

#[test]
fn a_part_has_operations_and_not_too_many() {
    says(|batch| batch.operations.clear(), None, Field::PlanOperation, "no operations");
    let many = |batch: &mut Batch| {
        batch.operations = (0..13).map(|place| operation(place, &[0], 1.0, 1.0)).collect();
    };
    says(many, None, Field::PlanOperation, "13 operations");
}

#[test]
fn no_time_is_below_nothing_or_over_a_day() {
    let less = Duration::second(-1.0);
    says(|b| b.walk = less, None, Field::Walk, "less than nothing");
    says(|b| b.check = less, None, Field::CheckTime, "less than nothing");
    says(|b| b.operations[1].set_up = less, Some(1), Field::SetUpTime, "less than nothing");
    says(|b| b.operations[0].cut = less, Some(0), Field::CycleTime, "less than nothing");
    says(|b| b.operations[0].load = less, Some(0), Field::LoadTime, "less than nothing");
    says(|b| b.operations[0].tool_change = less, Some(0), Field::ToolChangeTime, "less than");
    let never = Duration::second(f64::NAN);
    says(|b| b.operations[0].cut = never, Some(0), Field::CycleTime, "less than nothing");
    let long = Duration::minute(1500.0);
    says(|b| b.operations[0].set_up = long, Some(0), Field::SetUpTime, "longer than a day");
}

#[test]
fn an_operation_has_a_mill_that_is_there() {
    says(|b| b.operations[0].mills = vec![], Some(0), Field::Machine, "no mill that can do it");
    says(|b| b.operations[0].mills = vec![7], Some(0), Field::Machine, "no mill that can do it");
}

#[test]
fn operations_do_not_wait_for_each_other() {
    says(|b| b.operations[0].after = vec![0], Some(0), Field::After, "after itself");
    says(|b| b.operations[0].after = vec![1], Some(0), Field::After, "wait for each other");
    let far = |batch: &mut Batch| {
        batch.operations = (0..5).map(|place| operation(place, &[0], 1.0, 1.0)).collect();
        batch.operations[1].after = vec![3];
    };
    let mut batch = blanks();
    far(&mut batch);
    let faults = batch.check().unwrap_err();
    let problem = &faults[0].error.problem;
    for name in ["operation 2", "operation 3", "operation 4"] {
        assert!(problem.contains(name), "{problem}");
    }
    assert!(!problem.contains("operation 5"), "it waits, but is not in the circle: {problem}");
}

#[test]
fn a_share_lies_between_nothing_and_all() {
    for risk in [-0.1, 1.5, f64::NAN] {
        says(|b| b.operations[0].risk = Some(risk), Some(0), Field::ScrapRisk, "between 0 and 100");
    }
}
