//! The form of a pace and its link.

use handwheel::{
    engine::pace::Beat,
    shop::{
        cuts::{CutForm, OperationKind},
        pace::{PaceForm, rest_range},
    },
};
use proptest::prelude::*;

fn any_form() -> impl Strategy<Value = PaceForm> {
    let beat = prop::option::of(prop::sample::select(&Beat::ALL[..]));
    let turns = prop::option::of((1_u32..5000).prop_map(|tenths| f64::from(tenths) / 10.0));
    (beat, turns, 1_u32..=10, 5_u32..=30, rest_range(), any::<bool>()).prop_map(
        |(beat, turns, each, delay, rest, sound)| {
            let mut cut = CutForm::default();
            // A count of turns is of no cut, and the time of a turn of no other thing.
            let each = if turns.is_some() { each } else { PaceForm::default().each };
            if turns.is_none() {
                cut.operation = OperationKind::Drill;
                cut.mill.stock = "al_6061".to_owned();
            }
            PaceForm { cut, turns, each, beat, delay, rest, sound }
        },
    )
}

#[test]
fn what_cannot_be_paced_is_said_with_what_can() {
    for (query, wanted) in [
        ("turns=abc", "turns of the tap"),
        ("turns=0", "turns of the tap"),
        ("turns=inf", "turns of the tap"),
        ("turns=NaN", "turns of the tap"),
        ("turns=501", "turns of the tap"),
        ("each=11", "time of a turn"),
        ("delay=4", "first beat"),
        ("delay=", "first beat"),
        ("rest=0", "way back"),
        ("rest=121", "way back"),
        ("beat=never", "never"),
        ("sound=loud", "loud"),
    ] {
        let (form, faults) = PaceForm::from_query(query);
        assert_eq!(faults.len(), 1, "{query}: {faults:?}");
        assert!(faults[0].problem.contains(wanted), "{query}: {}", faults[0].problem);
        assert!(!faults[0].hint.is_empty());
        // A tap stays one: it does not turn into a cut.
        let turns = query.starts_with("turns").then_some(0.0);
        assert_eq!(form, PaceForm { turns, ..PaceForm::default() }, "{query}");
    }
}

proptest! {
    #[test]
    fn a_link_brings_back_the_pace_it_was_made_of(form in any_form()) {
        let (back, faults) = PaceForm::from_query(&form.to_query());
        prop_assert!(faults.is_empty(), "{faults:?}");
        prop_assert_eq!(back, form);
    }

    #[test]
    fn no_text_at_all_breaks_a_pace(query in "\\PC*") {
        let _ = PaceForm::from_query(&query);
    }
}
