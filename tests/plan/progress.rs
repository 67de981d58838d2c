//! A run as it is ticked off.

use handwheel::engine::{
    plan::{
        order::{operation_by_operation, two_mills},
        progress::{Progress, Step, Tick, steps},
        timetable::Doing,
    },
    quantity::Duration,
};

use crate::blanks;

fn ticks(at: &[(usize, i64)]) -> Vec<Tick> {
    at.iter().map(|(step, at)| Tick { step: *step, at: *at }).collect()
}

fn planned(steps: &[Step]) -> Duration {
    steps.iter().fold(Duration::ZERO, |sum, step| sum + step.walk + step.guess)
}

#[test]
fn the_steps_of_an_order_take_its_time() {
    let mut batch = blanks();
    batch.check = Duration::minute(3.0);
    let order = two_mills(&batch).unwrap();
    let steps = steps(&batch, &order);
    // Two set-ups, eight times two pieces, one check.
    assert_eq!(steps.len(), 2 + 16 + 1);
    assert!((planned(&steps).to_minute() - 59.33 - 3.0).abs() < 0.01);
    assert_eq!(steps[0].doing, Doing::SetUp);
    let check = steps.iter().position(|step| step.doing == Doing::Check);
    assert_eq!(check, Some(4), "set up, cut, set up, cut, check");
    // Nothing falls out that takes no time.
    batch.operations.iter_mut().for_each(|operation| operation.set_up = Duration::ZERO);
    batch.check = Duration::ZERO;
    assert_eq!(steps_of(&batch).len(), 19);
}

fn steps_of(batch: &handwheel::engine::plan::Batch) -> Vec<Step> {
    steps(batch, &two_mills(batch).unwrap())
}

#[test]
fn before_anything_is_ticked_all_of_it_is_left() {
    let batch = blanks();
    let steps = steps(&batch, &operation_by_operation(&batch));
    let now = Progress::of(&steps, 2, 1000, &[], 1000);
    assert_eq!(now.next, Some(0));
    assert!((now.left - planned(&steps)).abs() < Duration::second(1e-6));
    // A minute later a minute less is left.
    let later = Progress::of(&steps, 2, 1000, &[], 1060);
    assert!((now.left - later.left - Duration::second(60.0)).abs() < Duration::second(1e-6));
    assert_eq!(later.gone, Duration::second(60.0));
}

#[test]
fn measured_times_take_the_place_of_guesses() {
    let batch = blanks();
    let steps = steps(&batch, &operation_by_operation(&batch));
    // The set-up as guessed, then two pieces in 100 s each in place of 130 s.
    let done = ticks(&[(0, 720), (1, 820), (2, 920)]);
    let now = Progress::of(&steps, 2, 0, &done, 920);
    assert_eq!(now.next, Some(3));
    assert_eq!(now.measured[0], Some(Duration::second(100.0)));
    assert_eq!(now.counted, [2, 0]);
    let left = 6.0 * 100.0 + 8.0 * 60.0 + 8.0 * 150.0;
    assert!((now.left.to_second() - left).abs() < 1e-6, "{}", now.left.to_second());
}

#[test]
fn a_rest_does_not_count_as_a_piece() {
    let batch = blanks();
    let steps = steps(&batch, &operation_by_operation(&batch));
    let done = ticks(&[(0, 720), (1, 820), (2, 2720), (3, 2830)]);
    let now = Progress::of(&steps, 2, 0, &done, 2830);
    assert_eq!(now.measured[0], Some(Duration::second(110.0)));
}

#[test]
fn a_walk_is_no_part_of_a_piece() {
    let batch = blanks();
    let steps = steps_of(&batch);
    // The walk leads to the second set-up, and from the second piece on to its second operation.
    let done = ticks(&[(0, 720), (1, 850), (2, 1345), (3, 1495), (4, 1495), (5, 1625), (6, 1790)]);
    let now = Progress::of(&steps, 2, 0, &done, 1790);
    assert_eq!(now.measured[1], Some(Duration::second(150.0)));
    assert_eq!(now.counted[1], 2);
}

#[test]
fn a_tick_out_of_turn_measures_nothing() {
    let batch = blanks();
    let steps = steps(&batch, &operation_by_operation(&batch));
    let done = ticks(&[(0, 720), (3, 740)]);
    let now = Progress::of(&steps, 2, 0, &done, 740);
    assert_eq!(now.next, Some(1));
    assert_eq!(now.measured, [None, None]);
}

#[test]
fn a_finished_run_has_nothing_left_whatever_the_clock_says() {
    let batch = blanks();
    let steps = steps(&batch, &operation_by_operation(&batch));
    let done: Vec<Tick> =
        (0..steps.len()).map(|step| Tick { step, at: 100 * (step as i64 + 1) }).collect();
    let now = Progress::of(&steps, 2, 0, &done, 1_000_000);
    assert_eq!(now.next, None);
    assert_eq!(now.left, Duration::ZERO);
    assert_eq!(now.gone, Duration::second(100.0 * steps.len() as f64));
    // A clock that was set back harms nothing.
    let back = Progress::of(&steps, 2, 500, &done[..3], -20);
    assert!(back.left.is_finite() && back.gone >= Duration::ZERO);
}
