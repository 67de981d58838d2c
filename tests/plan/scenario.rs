//! Eight brass nut blanks on two mills.

use handwheel::engine::plan::{
    compare::{Comparison, Preference},
    order::{Blocked, Way},
    timetable::Figures,
};

use crate::blanks;

fn minutes(figures: &Figures) -> (f64, f64, u32) {
    (figures.total.to_minute(), figures.first.to_minute(), figures.at_risk)
}

fn of(comparison: &Comparison, way: Way) -> &Figures {
    let found = comparison.entries.iter().find(|entry| entry.way == way);
    found.unwrap_or_else(|| panic!("no {way:?}")).figures()
}

#[track_caller]
fn is(got: (f64, f64, u32), wanted: (f64, f64, u32)) {
    assert!((got.0 - wanted.0).abs() < 0.06, "total {} of {}", got.0, wanted.0);
    assert!((got.1 - wanted.1).abs() < 0.06, "first {} of {}", got.1, wanted.1);
    assert_eq!(got.2, wanted.2, "at risk");
}

#[test]
fn the_three_simple_orders_take_what_the_job_says() {
    let comparison = Comparison::of(&blanks(), Preference::LeastTotal).unwrap();
    is(minutes(of(&comparison, Way::PieceByPiece)), (197.3, 24.7, 1));
    is(minutes(of(&comparison, Way::OperationByOperation)), (57.3, 39.8, 8));
    is(minutes(of(&comparison, Way::TwoMills)), (59.3, 24.9, 1));
}

#[test]
fn a_first_batch_goes_over_both_mills_and_a_proven_one_operation_by_operation() {
    let mut batch = blanks();
    let first = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    let best = first.recommended();
    assert_eq!(best.figures().at_risk, 1);
    assert_eq!(best.figures().set_ups, 2, "both stay set up");
    let mills: Vec<_> = best.order.stands.iter().map(|stand| stand.mill).collect();
    assert_ne!(mills[0], mills[1]);
    assert!(best.figures().total <= of(&first, Way::TwoMills).total);
    assert_eq!(best.figures().first, of(&first, Way::TwoMills).first);
    // The order that would put all eight at risk comes last.
    assert_eq!(first.entries.last().map(|entry| entry.way), Some(Way::OperationByOperation));
    let (second, price) = first.second().unwrap();
    assert_eq!(second.way, Way::TwoMills);
    assert!((price.total.to_minute() - 1.5).abs() < 1e-9, "two walks in place of eight");

    batch.check_first = false;
    let proven = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    assert_eq!(proven.recommended().way, Way::OperationByOperation);
}

#[test]
fn what_is_wanted_most_decides() {
    let mut batch = blanks();
    batch.check_first = false;
    let best = |preference| {
        let comparison = Comparison::of(&batch, preference).unwrap();
        minutes(comparison.recommended().figures())
    };
    is(best(Preference::LeastTotal), (57.3, 39.8, 8));
    is(best(Preference::FewestSetUps), (57.3, 39.8, 8));
    // Fifteen seconds sooner on one mill are not worth setting up again.
    is(best(Preference::SoonestFirst), (57.83, 24.92, 1));
    is(best(Preference::LeastAtRisk), (57.83, 24.92, 1));
}

#[test]
fn operations_bound_to_their_mills_say_what_one_mill_would_take() {
    let mut batch = blanks();
    batch.operations[0].mills = vec![1];
    batch.operations[1].mills = vec![0];
    let comparison = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    let (way, why, figures) = comparison.blocked[0];
    assert_eq!((way, why), (Way::PieceByPiece, Blocked::NoOneMill));
    is(minutes(&figures.unwrap()), (197.3, 24.7, 1));
    is(minutes(of(&comparison, Way::TwoMills)), (59.3, 24.9, 1));
    let (total, ..) = minutes(of(&comparison, Way::OperationByOperation));
    assert!((total - 57.33 - 0.25).abs() < 0.01, "one walk with all eight: {total}");
}

#[test]
fn two_spindles_never_save_the_time_of_one() {
    // Twenty minutes of set-up and eight pieces of one operation would be forty.
    for preference in [Preference::LeastTotal, Preference::SoonestFirst] {
        let comparison = Comparison::of(&blanks(), preference).unwrap();
        for entry in &comparison.entries {
            assert!(entry.figures().total >= blanks().least(), "{:?}", entry.way);
        }
    }
}
