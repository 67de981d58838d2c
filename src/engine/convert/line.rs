//! One line as it is typed: a number, or a size with its limits.

use core::ops::Range;

use super::{drill::NAMES, tolerance::Limits};
use crate::engine::quantity::{
    System,
    entry::{self, EntryError, Exact, LONGEST, Measure, Rules},
    ratio::Ratio,
};

/// What a line says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// The number; of a size with limits the one they are counted from.
    pub exact: Exact,
    /// The limits, where it has them.
    pub limits: Option<Limits>,
}

/// The smallest length that is taken for one, in millimetres: a twentieth of a microinch, far
/// under what any shop can measure.
const LEAST: Ratio = Ratio::constant(1, 1_000_000);
/// Absolute zero in degrees Celsius, by the definition of the kelvin.
const COLDEST: Ratio = Ratio::constant(-27_315, 100);

/// Reads a line: anything that [`entry`] reads, with its sign, and limits behind it: `1.250
/// +.000/-.002`, `25 ±0.05`.
///
/// # Errors
/// A sentence and a hint, at its place, as [`entry::exact`]; and for a length that is absurd or
/// limits that are upside down.
pub fn read(measure: Measure, text: &str, system: System) -> Result<Line, EntryError> {
    let rules = Rules { measure, system, names: Some(NAMES), signed: true };
    let line = match Signs::of(text) {
        Some(signs) => signs.read(text, rules)?,
        None => Line { exact: entry::exact(text, rules)?, limits: None },
    };
    let base = line.exact.base;
    if measure == Measure::Length && !base.is_zero() && base.abs() < LEAST {
        return fault(
            0..text.len(),
            "This is less than any shop can measure.",
            "Look for a point too many.",
        );
    }
    if measure == Measure::Temperature && base < COLDEST {
        return fault(
            0..text.len(),
            "Nothing is as cold as that.",
            "Type -459.67 °F (-273.15 °C) or more.",
        );
    }
    Ok(line)
}

/// Where the parts of a size with limits stand.
struct Signs {
    size: Range<usize>,
    up: Range<usize>,
    down: Range<usize>,
}

impl Signs {
    /// Finds `±`, `+/-`, `+A/-B` and `-B/+A`. A stroke before a sign is no division in a shop.
    fn of(text: &str) -> Option<Self> {
        if text.len() > LONGEST {
            return None;
        }
        for sign in ["±", "+/-", "+-", "+/−", "+/–"] {
            if let Some(at) = text.find(sign) {
                let tolerance = at + sign.len()..text.len();
                return Some(Self { size: 0..at, up: tolerance.clone(), down: tolerance });
            }
        }
        let is_dash = |c| matches!(c, '-' | '–' | '−');
        let stroke = text
            .match_indices('/')
            .map(|(at, _)| at)
            .find(|at| text[at + 1..].trim_start().starts_with(|c| c == '+' || is_dash(c)))?;
        let second = stroke + 1 + text[stroke + 1..].len() - text[stroke + 1..].trim_start().len();
        let second_is_down = text[second..].starts_with(is_dash);
        let first = if second_is_down {
            text[..stroke].rfind('+')?
        } else {
            text[..stroke].rfind(is_dash)?
        };
        let after = |at: usize| at + text[at..].chars().next().map_or(0, char::len_utf8);
        let (one, other) = (after(first)..stroke, after(second)..text.len());
        let (up, down) = if second_is_down { (one, other) } else { (other, one) };
        Some(Self { size: 0..first, up, down })
    }

    fn read(&self, text: &str, rules: Rules) -> Result<Line, EntryError> {
        let parts = [&self.size, &self.up, &self.down];
        let mut named = None;
        for part in parts {
            let exact = read_part(text, part, "", rules)?;
            named = named.or_else(|| exact.unit.filter(|_| exact.named));
        }
        // One unit, wherever it stands, is that of all of them.
        let beside = named.map_or("", |unit| unit.name());
        let of = |part: &Range<usize>| {
            let exact = read_part(text, part, "", rules)?;
            if exact.named { Ok(exact) } else { read_part(text, part, beside, rules) }
        };
        let (mut exact, up, down) = (of(&self.size)?, of(&self.up)?, of(&self.down)?);
        exact.named |= named.is_some();
        if up.base.is_negative() || down.base.is_negative() {
            return fault(
                self.up.start.min(self.down.start)..text.len(),
                "A limit has two signs.",
                "Type the limits like +.000/-.002.",
            );
        }
        match (exact.base.minus(down.base), exact.base.plus(up.base)) {
            (Some(low), Some(high)) => Ok(Line { exact, limits: Some(Limits { low, high }) }),
            _ => fault(
                0..text.len(),
                "This is too long to be worked out exactly.",
                "Use fewer digits.",
            ),
        }
    }
}

/// Reads a part of a text, with a unit behind it; an error stands at its place in the whole.
fn read_part(
    text: &str,
    part: &Range<usize>,
    unit: &str,
    rules: Rules,
) -> Result<Exact, EntryError> {
    let own = &text[part.clone()];
    let with_unit = format!("{own} {unit}");
    entry::exact(&with_unit, rules).map_err(|error| {
        let at = |place: usize| part.start + place.min(own.len());
        EntryError { span: at(error.span.start)..at(error.span.end), ..error }
    })
}

fn fault<T>(
    span: Range<usize>,
    problem: impl Into<String>,
    hint: impl Into<String>,
) -> Result<T, EntryError> {
    Err(EntryError { span, problem: problem.into(), hint: hint.into() })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits(text: &str, system: System) -> Result<[Ratio; 2], EntryError> {
        let line = read(Measure::Length, text, system)?;
        Ok(line.limits.map_or([line.exact.base; 2], |limits| [limits.low, limits.high]))
    }

    #[test]
    fn a_size_may_have_limits() {
        let inch = |num: i128| Ratio::new(num * 254, 100_000).unwrap();
        for (text, low, high) in [
            ("1.250 +.000/-.002", 12_480, 12_500),
            ("1.250 -.002/+.000", 12_480, 12_500),
            ("1.250+.001/-.002in", 12_480, 12_510),
            ("1 1/4 ±.002", 12_480, 12_520),
            ("1.250 +/- .002", 12_480, 12_520),
            ("1.250 in ± 2 thou", 12_480, 12_520),
            ("1.250 – .002 / + .001", 12_480, 12_510),
        ] {
            assert_eq!(limits(text, System::Inch), Ok([inch(low), inch(high)]), "{text}");
        }
        let mm = |num: i128| Ratio::new(num, 100).unwrap();
        let ten = [mm(990), mm(1010)];
        assert_eq!(limits("10 ±0.1 mm", System::Inch), Ok(ten));
        assert_eq!(limits("10 ±0.1", System::Metric), Ok(ten));
        assert_eq!(limits("10mm ±0.1", System::Inch), Ok(ten));
    }

    #[test]
    fn a_limit_that_cannot_be_read_is_marked_at_its_place() {
        for (text, at) in [
            ("1.250 ±", 8..8),
            ("1.250 ±.0x", 10..11),
            ("1.2.5 ±.01", 3..4),
            ("1.250 ±-.002", 8..13),
            ("1.250 +.001/-", 13..13),
            (" +.001/-.002", 0..1),
        ] {
            let error = limits(text, System::Inch).expect_err(text);
            assert_eq!(error.span, at, "{text}: {error}");
        }
    }

    #[test]
    fn an_absurd_length_is_refused() {
        assert!(limits("0.00000001", System::Inch).is_err());
        assert!(limits("10000000", System::Inch).is_err());
        assert!(limits("0", System::Inch).is_ok());
    }

    #[test]
    fn nothing_is_colder_than_absolute_zero() {
        let temperature = |text| read(Measure::Temperature, text, System::Inch);
        assert!(temperature("-459.67").is_ok());
        assert!(temperature("-273.15 °C").is_ok());
        assert!(temperature("-459.68").is_err());
        assert!(temperature("-1 K").is_err());
    }
}
