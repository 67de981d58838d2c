//! Whatever is typed, reading it gives a finite quantity or a sentence, and what a screen shows
//! reads back as what it stands for.
#![cfg(not(target_arch = "wasm32"))]

use handwheel::engine::quantity::{
    Length, SpindleSpeed, SurfaceSpeed, System,
    entry::{self, EntryError, LARGEST, Measure},
    rounding,
    value::Value,
};
use proptest::prelude::*;

const MEASURES: [Measure; 13] = [
    Measure::Length,
    Measure::Chip,
    Measure::SpindleSpeed,
    Measure::HandRate,
    Measure::SurfaceSpeed,
    Measure::Angle,
    Measure::Force,
    Measure::Power,
    Measure::Stress,
    Measure::UnitPower,
    Measure::Stiffness,
    Measure::Number,
    Measure::Count,
];

fn system() -> impl Strategy<Value = System> {
    prop_oneof![Just(System::Inch), Just(System::Metric)]
}

fn check_sentence(text: &str, error: &EntryError) {
    assert!(text.get(error.span.clone()).is_some(), "{text:?}: {:?}", error.span);
    for sentence in [&error.problem, &error.hint] {
        assert!(sentence.ends_with('.') && !sentence.is_empty(), "{text:?}: {sentence}");
    }
}

fn check_any(text: &str, system: System) {
    for measure in MEASURES {
        match entry::read(measure, text, system) {
            Ok(Value::Ratio(number)) => assert!((0.0..=LARGEST).contains(&number), "{text:?}"),
            Ok(Value::Length(length)) => {
                assert!(length.is_finite() && length >= Length::ZERO, "{text:?}");
            }
            Ok(_) => {}
            Err(error) => check_sentence(text, &error),
        }
    }
}

proptest! {
    #[test]
    fn no_text_can_break_the_reader(text in any::<String>(), system in system()) {
        check_any(&text, system);
    }

    #[test]
    fn no_text_of_shop_characters_can_break_it(
        text in "[0-9.,/ \\-\"°µ²a-z–]{0,24}",
        system in system(),
    ) {
        check_any(&text, system);
    }

    #[test]
    fn a_shown_length_reads_back_to_half_its_last_digit(mm in 0.0..20_000.0, system in system()) {
        let length = Length::mm(mm);
        let shown = rounding::length(length, system).to_string();
        let half = match system {
            System::Inch => Length::inch(0.000_05),
            System::Metric => Length::mm(0.000_5),
        };
        let read = entry::length(&shown, system.other()).unwrap();
        prop_assert!((read - length).abs() <= half * (1.0 + 1e-6), "{shown}");
    }

    #[test]
    fn shown_speeds_read_back(rpm in 1.0..30_000.0, system in system()) {
        let shown = rounding::spindle_speed(SpindleSpeed::rpm(rpm)).to_string();
        let read = entry::spindle_speed(&shown).unwrap();
        prop_assert!((read.to_rpm() - rpm).abs() <= 0.5 + 1e-9, "{shown}");

        let surface = SurfaceSpeed::ft_per_min(rpm);
        let shown = rounding::surface_speed(surface, system).to_string();
        let read = entry::surface_speed(&shown, system.other()).unwrap();
        prop_assert!((read / surface - 1.0).abs() <= 0.005 + 1e-9, "{shown}");
    }

    #[test]
    fn decimals_read_as_the_nearest_float(number in 0.0..100_000.0, decimals in 0_usize..6) {
        let text = format!("{number:.decimals$}");
        prop_assert_eq!(entry::number(&text).unwrap(), text.parse::<f64>().unwrap());
        prop_assert_eq!(entry::number(&format!("{text} ")).unwrap(), entry::number(&text).unwrap());
    }

    #[test]
    fn a_mixed_fraction_is_exact(whole in 0_u32..1000, exponent in 1_u32..8, part in 0_u32..128) {
        let below = 1 << exponent;
        let above = part % below;
        let exact = f64::from(whole) + f64::from(above) / f64::from(below);
        for text in [format!("{whole} {above}/{below}"), format!("{whole}-{above}/{below}")] {
            prop_assert_eq!(entry::number(&text).unwrap(), exact, "{}", text);
        }
    }

    #[test]
    fn a_decimal_comma_reads_as_a_point_or_asks(number in 0.0..10_000.0, decimals in 1_usize..6) {
        let point = format!("{number:.decimals$}");
        let comma = point.replace('.', ",");
        match entry::number(&comma) {
            Ok(read) => prop_assert_eq!(read, entry::number(&point).unwrap()),
            Err(error) => {
                check_sentence(&comma, &error);
                prop_assert!(decimals == 3 && number >= 0.999, "{}: {}", comma, error);
            }
        }
    }
}
