//! Whatever is typed, reading it gives a finite quantity or a sentence, and what a screen shows
//! reads back as what it stands for.
#![cfg(not(target_arch = "wasm32"))]

use handwheel::engine::{
    convert::{
        self,
        form::{self, Form},
        fraction, readout, tolerance, units,
    },
    quantity::{
        Length, SpindleSpeed, SurfaceSpeed, System,
        entry::{self, EntryError, Exact, LARGEST, Measure},
        ratio::Ratio,
        rounding,
        unit::{ANGLE, LENGTH, Unit},
        value::Value,
    },
};
use proptest::prelude::*;

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
    for measure in Measure::ALL {
        match convert::read(measure, text, system) {
            Ok(line) => assert!(line.exact.base.to_f64().is_finite(), "{text:?}"),
            Err(error) => check_sentence(text, &error),
        }
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
        text in "[0-9.,/ \\-\"'°µ²a-z–+*x()#±]{0,24}",
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

    #[test]
    fn what_is_printed_reads_back_as_exactly_the_same(
        steps in -1_000_000_i64..1_000_000,
        place in 0_usize..8,
        system in system(),
    ) {
        let (form, step) = length_form(place);
        let length = Ratio::whole(steps).times(step).unwrap();
        if let Some(text) = form::print(length, form) {
            let read = convert::read(Measure::Length, &text, system);
            prop_assert_eq!(read.map(|line| line.exact.base), Ok(length), "{}", text);
        }
    }

    #[test]
    fn a_printed_angle_reads_back_as_exactly_the_same(seconds in -1_000_000_i64..1_000_000) {
        let angle = Ratio::new(seconds.into(), 3600).unwrap();
        let forms = [Form::DegreesMinutes, Form::Decimal(&ANGLE[1]), Form::Decimal(&ANGLE[2])];
        for form in forms {
            let Some(text) = form::print(angle, form) else { continue };
            let read = convert::read(Measure::Angle, &text, System::Inch);
            prop_assert_eq!(read.map(|line| line.exact.base), Ok(angle), "{}", text);
        }
    }

    #[test]
    fn every_reading_reads_back_to_half_its_last_digit(
        number in -100_000_i64..100_000,
        decimals in 0_u32..5,
        measure in 0..Measure::ALL.len(),
        unit in 0_usize..8,
    ) {
        let measure = Measure::ALL[measure];
        let Some(unit) = measure.units().get(unit) else { return Ok(()) };
        let number = Ratio::new(number.into(), 10_i128.pow(decimals)).unwrap();
        let Some(base) = unit.to_base(number) else { return Ok(()) };
        let exact = Exact { base, unit: Some(unit), named: true };
        for reading in units::readings(measure, exact) {
            let text = format!("{} {}", reading.digits, reading.unit.name());
            if reading.digits == "–" || number.abs().to_f64() > LARGEST { continue }
            // What is larger than a shop's numbers in another unit is refused there.
            let Ok(line) = convert::read(measure, &text, System::Inch) else { continue };
            if reading.exact {
                prop_assert_eq!(line.exact.base, base, "{}", text);
            }
            let (back, value) = (line.exact.to(reading.unit), exact.to(reading.unit));
            let places = reading.digits.split_once('.').map_or(0, |(_, part)| part.len());
            let half = 0.5 * 10_f64.powi(-(places as i32));
            let slack = value.abs() * 1e-9 + 1e-9;
            prop_assert!((back - value).abs() <= half + slack, "{} for {}", text, value);
        }
    }

    #[test]
    fn inches_survive_millimetres_and_millimetres_inches(
        tenths in -300_000_i64..300_000,
        um in -9_000_000_i64..9_000_000,
    ) {
        let (inch, mm) = (&LENGTH[0], &LENGTH[1]);
        let there_and_back = |number: Ratio, from: &'static Unit, to: &'static Unit| {
            let exact = Exact { base: from.to_base(number).unwrap(), unit: Some(from), named: true };
            let there = units::reading(exact, to).digits;
            let decimals = units::decimals(exact, from);
            let text = format!("{there} {}", to.name());
            let back = convert::read(Measure::Length, &text, System::Inch).unwrap().exact;
            from.from_base(back.base).unwrap().fixed(decimals)
        };
        let inches = Ratio::new(tenths.into(), 10_000).unwrap();
        prop_assert_eq!(there_and_back(inches, inch, mm), inches.fixed(4));
        let mms = Ratio::new(um.into(), 1000).unwrap();
        prop_assert_eq!(there_and_back(mms, mm, inch), mms.fixed(3));
    }

    #[test]
    fn the_nearest_fraction_is_beaten_by_no_other(
        num in -1_000_000_i64..1_000_000,
        den in 1_i64..100_000,
        finest in 0_usize..5,
    ) {
        let inches = Ratio::new(num.into(), den.into()).unwrap();
        let denominator = fraction::DENOMINATORS[finest];
        let near = fraction::nearest(inches, denominator).unwrap();
        prop_assert_eq!(near.inches.minus(inches), Some(near.over));
        prop_assert!(denominator as i128 % near.inches.denominator() == 0);
        let least = inches.to_f64();
        for below in 1..=denominator {
            if denominator % below != 0 { continue }
            let above = (least * below as f64).floor() as i128;
            for above in above - 1..=above + 2 {
                let other = Ratio::new(above, below.into()).unwrap();
                prop_assert!(near.over.abs() <= other.minus(inches).unwrap().abs());
            }
        }
        let [low, high] = fraction::around(inches, denominator).unwrap();
        prop_assert!(low.inches <= inches && inches <= high.inches);
        prop_assert!(near == low || near == high);
    }

    #[test]
    fn limits_rounded_inward_stay_inside(
        low in -1_000_000_i64..1_000_000,
        wide in 0_i64..100_000,
        den in 1_i64..10_000,
        unit in 0_usize..6,
        decimals in 0_u32..6,
    ) {
        let at = |num: i64| Ratio::new(num.into(), den.into()).unwrap();
        let limits = tolerance::Limits { low: at(low), high: at(low + wide) };
        let unit = &LENGTH[unit];
        if let Some(inward) = tolerance::inward(limits, unit, decimals) {
            let (low, high) = (unit.to_base(inward.low).unwrap(), unit.to_base(inward.high).unwrap());
            prop_assert!(limits.low <= low && low <= high && high <= limits.high);
            prop_assert!(inward.decimals >= decimals);
            let shown = [inward.low, inward.high].map(|limit| limit.as_decimal(inward.decimals));
            prop_assert!(shown.iter().all(Option::is_some), "the digits shown are the limits");
        }
    }

    #[test]
    fn a_readout_is_never_further_than_half_a_step(
        num in -1_000_000_i64..1_000_000,
        den in 1_i64..10_000,
        step in 0..readout::STEPS.len(),
    ) {
        let size = Ratio::new(num.into(), den.into()).unwrap();
        let (_, step) = readout::STEPS[step];
        let shown = readout::shown(size, step).unwrap();
        prop_assert!(shown.says.over(step).unwrap().is_whole());
        prop_assert!(shown.over.abs().times(Ratio::whole(2)).unwrap() <= step);
    }
}

/// A form of a length and the step of the sizes that it can say.
fn length_form(place: usize) -> (Form, Ratio) {
    let inch = Ratio::new(254, 10).unwrap();
    let of = |num, den| Ratio::new(num, den).unwrap().times(inch).unwrap();
    [
        (Form::Decimal(&LENGTH[0]), of(1, 100_000)),
        (Form::Decimal(&LENGTH[1]), Ratio::new(1, 10_000).unwrap()),
        (Form::Decimal(&LENGTH[2]), of(1, 10_000)),
        (Form::Decimal(&LENGTH[3]), of(1, 100_000)),
        (Form::Decimal(&LENGTH[4]), Ratio::new(1, 1000).unwrap()),
        (Form::Mixed, of(1, 128)),
        (Form::FeetInches, of(1, 64)),
        (Form::FeetInches, of(1, 10_000)),
    ][place]
}
