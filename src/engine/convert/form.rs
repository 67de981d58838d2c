//! The forms a number is written in, each so that it reads back as exactly the same.

use crate::engine::quantity::{
    ratio::Ratio,
    unit::{ANGLE, LENGTH, Unit},
};

/// A way to write a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// As a decimal number of a unit: `1.375 in`, `2 tenths`.
    Decimal(&'static Unit),
    /// As a whole number and a fraction of an inch: `1 3/8 in`.
    Mixed,
    /// In feet and inches: `5 ft 3 1/2 in`.
    FeetInches,
    /// In degrees, minutes and seconds: `30° 15' 20"`.
    DegreesMinutes,
}

/// Decimals that are written at most.
const DECIMALS: u32 = 9;
/// A fraction with a larger number below is no form of a shop.
const FINEST: i128 = 1000;

/// A number, in the base of its kind, in a form; nothing where the form cannot say it exactly.
#[must_use]
pub fn print(base: Ratio, form: Form) -> Option<String> {
    let sign = if base.is_negative() { "-" } else { "" };
    match form {
        Form::Decimal(unit) => {
            Some(format!("{} {}", unit.from_base(base)?.as_decimal(DECIMALS)?, unit.name()))
        }
        Form::Mixed => {
            let inches = LENGTH[0].from_base(base)?;
            (inches.denominator() < FINEST).then(|| format!("{} in", inches.as_mixed()))
        }
        Form::FeetInches => {
            let inches = LENGTH[0].from_base(base.abs())?;
            let feet = inches.over(Ratio::whole(12))?.floor();
            let rest = inches.minus(Ratio::new(12 * feet, 1)?)?;
            let rest = if rest.denominator() < FINEST {
                rest.as_mixed()
            } else {
                rest.as_decimal(DECIMALS)?
            };
            Some(format!("{sign}{feet} ft {rest} in"))
        }
        Form::DegreesMinutes => {
            let (degrees, rest) = parted(ANGLE[0].from_base(base.abs())?)?;
            let (minutes, rest) = parted(rest.times(Ratio::whole(60))?)?;
            let seconds = rest.times(Ratio::whole(60))?.as_decimal(DECIMALS)?;
            Some(format!("{sign}{degrees}° {minutes}' {seconds}\""))
        }
    }
}

/// Degrees, minutes and seconds to so many decimals of a second, for an angle that need not be
/// exact.
#[must_use]
pub fn degrees_minutes(base: Ratio, decimals: u32) -> Option<String> {
    let scale = Ratio::new(3600 * 10_i128.checked_pow(decimals)?, 1)?;
    let rounded = Ratio::new(base.times(scale)?.round(), 1)?.over(scale)?;
    print(rounded, Form::DegreesMinutes)
}

/// The whole part and what is left.
fn parted(number: Ratio) -> Option<(i128, Ratio)> {
    let whole = number.floor();
    Some((whole, number.minus(Ratio::new(whole, 1)?)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_written_in_the_forms_that_can_say_it() {
        let of = |num, den| Ratio::new(num, den).unwrap();
        for (base, form, text) in [
            (of(34_925, 1000), Form::Decimal(&LENGTH[0]), Some("1.375 in")),
            (of(34_925, 1000), Form::Decimal(&LENGTH[3]), Some("13750 tenths")),
            (of(34_925, 1000), Form::Mixed, Some("1 3/8 in")),
            (of(-34_925, 1000), Form::Mixed, Some("-1 3/8 in")),
            (of(1, 1), Form::Mixed, Some("5/127 in")),
            (of(63 * 254, 10), Form::FeetInches, Some("5 ft 3 in")),
            (of(-127 * 127, 10), Form::FeetInches, Some("-5 ft 3 1/2 in")),
            (of(30_255, 1000), Form::DegreesMinutes, Some("30° 15' 18\"")),
            (of(1, 3), Form::Decimal(&LENGTH[1]), None),
            (of(1, 7), Form::DegreesMinutes, None),
        ] {
            assert_eq!(print(base, form).as_deref(), text, "{base:?}");
        }
        assert_eq!(degrees_minutes(of(1, 7), 0).as_deref(), Some("0° 8' 34\""));
        assert_eq!(degrees_minutes(of(59_999, 1000), 0).as_deref(), Some("59° 59' 56\""));
    }
}
