//! What holds of every plan.

use std::collections::BTreeSet;

use handwheel::engine::{
    plan::{
        Batch, Mill,
        compare::{Comparison, Preference},
        order::Way,
        timetable::{Doing, Timetable},
    },
    quantity::Duration,
};
use proptest::prelude::*;

use crate::operation;

prop_compose! {
    fn batches()(
        pieces in 1..40_u32,
        operations in prop::collection::vec(
            (0.0..30.0_f64, 0.0..400.0_f64, 0.0..60.0_f64, 1..4_usize, any::<bool>(), 0..4_u8),
            1..9,
        ),
        stands in prop::collection::vec(1..4_usize, 2),
        walk in 0.0..120.0_f64,
        check in 0.0..20.0_f64,
        check_first in any::<bool>(),
    ) -> Batch {
        let operations = operations.into_iter().enumerate().map(|(place, given)| {
            let (set_up, cut, load, mills, follows, risk) = given;
            let mills: Vec<usize> = (0..2).filter(|mill| mills & (1 << mill) != 0).collect();
            let mut made = operation(place, &mills, set_up, cut);
            made.load = Duration::second(load);
            if !follows {
                made.after.clear();
            }
            made.risk = [None, Some(0.0), Some(0.02), Some(0.5)][usize::from(risk)];
            made
        });
        Batch {
            pieces,
            operations: operations.collect(),
            mills: stands.into_iter().map(|stands| Mill { stands }).collect(),
            walk: Duration::second(walk),
            check: Duration::minute(check),
            check_first,
            blanks_at: None,
        }
    }
}

const PREFERENCES: [Preference; 4] = [
    Preference::LeastTotal,
    Preference::SoonestFirst,
    Preference::FewestSetUps,
    Preference::LeastAtRisk,
];

/// One thing after the other, without a gap: so neither the person nor a spindle is ever needed
/// twice at once.
fn follows_on(timetable: &Timetable) -> Result<(), TestCaseError> {
    let mut end = Duration::ZERO;
    for span in &timetable.spans {
        prop_assert!((span.begin - end).abs() < Duration::second(1e-6));
        prop_assert!(span.lasts > Duration::ZERO);
        end = span.begin + span.lasts;
    }
    prop_assert!((end - timetable.figures.total).abs() < Duration::second(1e-6));
    Ok(())
}

fn total_is_the_sum_of_its_parts(timetable: &Timetable) -> Result<(), TestCaseError> {
    let figures = &timetable.figures;
    let parts = figures.setting_up
        + figures.walking
        + figures.handling
        + figures.cutting
        + figures.checking;
    prop_assert!((parts - figures.total).abs() < Duration::second(1e-6));
    let of = |doing: Doing| {
        let spans = timetable.spans.iter().filter(|span| span.doing == doing);
        spans.fold(Duration::ZERO, |sum, span| sum + span.lasts)
    };
    prop_assert!((of(Doing::Cut) - figures.cutting).abs() < Duration::second(1e-6));
    prop_assert!((of(Doing::SetUp) - figures.setting_up).abs() < Duration::second(1e-6));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_order_makes_every_piece_and_does_one_thing_at_a_time(batch in batches()) {
        for preference in PREFERENCES {
            let comparison = Comparison::of(&batch, preference).unwrap();
            for entry in &comparison.entries {
                follows_on(&entry.timetable)?;
                total_is_the_sum_of_its_parts(&entry.timetable)?;
                let mut done = BTreeSet::new();
                for run in &entry.order.runs {
                    let mill = entry.order.stands[run.operation].mill;
                    prop_assert!(batch.operations[run.operation].mills.contains(&mill));
                    for piece in run.pieces.0..run.pieces.1 {
                        for before in &batch.operations[run.operation].after {
                            prop_assert!(done.contains(&(piece, *before)));
                        }
                        prop_assert!(done.insert((piece, run.operation)));
                    }
                }
                prop_assert_eq!(done.len(), batch.pieces as usize * batch.operations.len());
                prop_assert!(entry.figures().first <= entry.figures().total);
                prop_assert!(entry.figures().at_risk <= batch.pieces);
            }
        }
    }

    #[test]
    fn the_recommended_order_is_worse_than_none_that_may_be_taken(batch in batches()) {
        for preference in PREFERENCES {
            let comparison = Comparison::of(&batch, preference).unwrap();
            let best = comparison.recommended();
            let some_keep = comparison.entries.iter().any(|entry| entry.keeps_rule);
            prop_assert_eq!(best.keeps_rule, some_keep);
            for other in comparison.entries.iter().filter(|e| e.keeps_rule) {
                let (best, other) = (best.figures(), other.figures());
                let spare = Duration::second(1e-3);
                let holds = match preference {
                    Preference::LeastTotal => best.total <= other.total + spare,
                    Preference::SoonestFirst => best.first <= other.first * 1.02 + spare,
                    Preference::FewestSetUps => best.set_ups <= other.set_ups,
                    Preference::LeastAtRisk => best.at_risk <= other.at_risk,
                };
                prop_assert!(holds, "{:?}", preference);
            }
            prop_assert!(best.figures().total >= comparison.bound - Duration::second(1e-3));
        }
    }

    #[test]
    fn the_rule_of_the_first_piece_lets_no_second_one_be_spoiled(mut batch in batches()) {
        batch.check_first = true;
        let comparison = Comparison::of(&batch, Preference::LeastTotal).unwrap();
        prop_assert!(comparison.recommended().figures().at_risk <= 1);
    }
}

#[test]
fn twelve_operations_without_any_order_still_get_a_good_one_and_a_bound() {
    let mut operations: Vec<_> =
        (0..12).map(|place| operation(place, &[0, 1], 3.0 + place as f64, 60.0)).collect();
    operations.iter_mut().for_each(|operation| operation.after.clear());
    let batch = Batch {
        pieces: 50,
        operations,
        mills: vec![Mill { stands: 1 }; 2],
        walk: Duration::second(20.0),
        check: Duration::minute(3.0),
        check_first: true,
        blanks_at: None,
    };
    let comparison = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    assert!(!comparison.exact);
    let best = comparison.recommended();
    assert!(comparison.bound <= best.figures().total);
    for entry in comparison.entries.iter().filter(|entry| entry.way != Way::Mixed) {
        assert!(!entry.keeps_rule || best.figures().total <= entry.figures().total);
    }
}

#[test]
fn an_operation_that_spoils_nothing_may_be_done_on_all_pieces_first() {
    let mut batch = crate::blanks();
    batch.mills.truncate(1);
    batch.operations.iter_mut().for_each(|operation| operation.mills = vec![0]);
    let risky = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    batch.operations[0].risk = Some(0.0);
    let sawn = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    let saved = risky.recommended().figures().total - sawn.recommended().figures().total;
    assert!((saved.to_minute() - 20.0).abs() < 1e-9, "both set-ups once: {}", saved.to_minute());
    assert_eq!(sawn.recommended().figures().at_risk, 1);
}

#[test]
fn the_pieces_spoiled_on_average_go_by_their_shares() {
    let mut batch = crate::blanks();
    batch.check_first = false;
    batch.operations[0].risk = Some(0.1);
    batch.operations[1].risk = Some(0.5);
    let comparison = Comparison::of(&batch, Preference::LeastTotal).unwrap();
    // Seven met the first operation, one both: 7 x 0.1 + 1 - 0.9 x 0.5.
    let spoiled = comparison.recommended().figures().spoiled.unwrap();
    assert!((spoiled - 1.25).abs() < 1e-9, "{spoiled}");
}
