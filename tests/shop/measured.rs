//! A thread that is measured, and the screen as a gauge: their links, and what is said of entries
//! that cannot be.

use handwheel::{
    engine::{quantity::System, question::Field, threads::gauge::rulings},
    shop::{
        gauge::GaugeForm,
        measured::{MeasuredForm, PitchWay, Side},
        typed::Typed,
        word::Word,
    },
};
use proptest::prelude::*;

fn form(query: &str) -> MeasuredForm {
    let (form, faults) = MeasuredForm::from_query(query);
    assert!(faults.is_empty(), "{faults:?}");
    form
}

#[track_caller]
fn refused(query: &str, fields: &[Field]) {
    let faults = form(query).candidates().expect_err("it cannot be");
    let at: Vec<Field> = faults.iter().map(|fault| fault.field).collect();
    assert_eq!(at, fields, "{query}: {faults:?}");
    for fault in faults {
        assert!(fault.problem.ends_with('.') && fault.hint.ends_with('.'), "{fault}");
    }
}

#[test]
fn a_quarter_twenty_is_found_by_tpi_by_pitch_and_by_count() {
    for query in [
        "measure&d_in=0.247&tpi=20",
        "measure&d_mm=6.27&by=pitch&pitch_mm=1.27",
        "measure&d_in=0.247&by=count&count=10&over_in=1/2",
    ] {
        let found = form(query).candidates().unwrap().expect("a diameter was given");
        assert_eq!(found[0].thread.designation(), "1/4-20 UNC", "{query}");
        assert!(found[0].fits && found[0].has_its_pitch(), "{query}");
        let off = found[0].off_over_ten_threads().expect("a pitch was given");
        assert!(off.abs().to_um() < 0.01, "{query}");
    }
}

#[test]
fn nothing_is_said_before_a_diameter_is_given() {
    assert_eq!(form("measure").candidates(), Ok(None));
    assert_eq!(form("measure&tpi=20").candidates(), Ok(None));
}

#[test]
fn an_entry_that_cannot_be_is_refused_at_its_field() {
    refused("measure&d_in=wide", &[Field::MeasuredDiameter]);
    refused("measure&d_in=0", &[Field::MeasuredDiameter]);
    refused("measure&d_in=900", &[Field::MeasuredDiameter]);
    refused("measure&d_in=1/4&tpi=0", &[Field::MeasuredPitch]);
    refused("measure&d_in=1/4&by=pitch&pitch_mm=-1", &[Field::Pitch]);
    refused("measure&d_in=1/4&by=count&count=0&over_in=1", &[Field::ThreadsCounted]);
    refused("measure&d_in=1/4&by=count&count=10&over_in=0", &[Field::CountedOver]);
    refused("measure&d_in=wide&tpi=y", &[Field::MeasuredDiameter, Field::MeasuredPitch]);
}

#[test]
fn a_word_that_is_no_choice_is_said() {
    let (form, faults) = MeasuredForm::from_query("measure&on=both&by=eye&unknown=1");
    assert_eq!(form, MeasuredForm::default());
    assert_eq!(faults.len(), 2);
}

#[test]
fn a_pitch_that_no_thread_has_is_said_and_the_other_kept() {
    let (form, faults) = GaugeForm::from_query("gauge=20+tpi&beside=21+tpi");
    assert_eq!((form.pitch.as_str(), form.beside.as_str()), ("20 tpi", ""));
    assert_eq!(faults.len(), 1);
    assert!(faults[0].problem.contains("21 tpi"), "{}", faults[0]);
}

fn any_typed() -> impl Strategy<Value = Typed> {
    let system = prop::sample::select(vec![System::Inch, System::Metric]);
    ("[0-9 ./#&=+%a-z]{0,12}", system).prop_map(|(text, system)| Typed::new(text.trim(), system))
}

fn is_same(a: &Typed, b: &Typed) -> bool {
    a.text == b.text
}

proptest! {
    #[test]
    fn a_measured_form_comes_back_from_its_link(
        side in prop::sample::select(Side::ALL),
        way in prop::sample::select(PitchWay::ALL),
        typed in prop::collection::vec(any_typed(), 5),
    ) {
        let mut form = MeasuredForm { side, way, ..MeasuredForm::default() };
        let fields = [
            Field::MeasuredDiameter,
            Field::MeasuredPitch,
            Field::Pitch,
            Field::ThreadsCounted,
            Field::CountedOver,
        ];
        for (field, typed) in fields.into_iter().zip(typed) {
            *form.typed_mut(field).unwrap() = typed;
        }
        let (back, faults) = MeasuredForm::from_query(&form.to_query());
        prop_assert!(faults.is_empty());
        prop_assert_eq!((back.side, back.way), (form.side, form.way));
        for field in fields {
            prop_assert!(is_same(back.typed(field).unwrap(), form.typed(field).unwrap()), "{field:?}");
        }
        // Whatever was typed, it is an answer or sentences.
        if let Err(faults) = form.candidates() {
            prop_assert!(!faults.is_empty());
        }
    }

    #[test]
    fn a_gauge_comes_back_from_its_link(one in any::<prop::sample::Index>(), two in any::<Option<prop::sample::Index>>()) {
        let rulings = rulings();
        let form = GaugeForm::of(one.get(&rulings), two.as_ref().map(|two| two.get(&rulings)));
        prop_assert_eq!(GaugeForm::from_query(&form.to_query()), (form, Vec::new()));
    }

    #[test]
    fn no_text_breaks_a_link(text in "\\PC{0,60}") {
        let (form, _) = MeasuredForm::from_query(&text);
        let _ = form.candidates();
        let _ = GaugeForm::from_query(&text);
    }
}
