//! A drill's name as a person writes it.

use super::{Drill, Index, LARGEST_64THS, LARGEST_METRIC, NUMBERS, decimal};
use crate::engine::quantity::Length;

/// Why a name is not that of one drill.
#[derive(Clone, Debug, PartialEq)]
pub enum NameError {
    /// It can mean any of these: `10` is No. 10 as well as 10 mm.
    Ambiguous {
        /// What was written.
        name: String,
        /// The drills it can mean.
        drills: Vec<Drill>,
    },
    /// There is no such drill.
    Unknown {
        /// What is wrong, a full sentence.
        problem: String,
        /// What to do, a full sentence.
        hint: String,
    },
}

impl core::fmt::Display for NameError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Ambiguous { name, drills } => {
                let names: Vec<String> = drills.iter().map(|drill| drill.name()).collect();
                write!(f, "{name} can mean {}.", names.join(" or "))?;
                if let Some(body) = screw_body(name) {
                    write!(
                        f,
                        " A screw of number {name} is {body:.3} in thick, which is no drill."
                    )?;
                }
                f.write_str(" Say which one.")
            }
            Self::Unknown { problem, hint } => write!(f, "{problem} {hint}"),
        }
    }
}

impl core::error::Error for NameError {}

/// Body diameter in inches of the numbered screw that a bare number calls too, ASME B1.1.
fn screw_body(name: &str) -> Option<f64> {
    let number = name.parse::<u8>().ok().filter(|number| *number <= 12)?;
    Some(0.060 + 0.013 * f64::from(number))
}

impl Drill {
    /// The drill of a name: `#7`, `No. 7`, `F`, `letter F`, `13/64`, `1 1/16`, `3.3 mm`, `10 mm`.
    ///
    /// # Errors
    /// [`NameError::Ambiguous`] for a bare number, which is never guessed; otherwise a sentence
    /// with a hint.
    pub fn named(name: &str) -> Result<Self, NameError> {
        let text = name.trim().to_lowercase();
        let text = text.strip_suffix(" drill").unwrap_or(&text).trim();
        if text.is_empty() {
            return unknown("No drill is named.", EXAMPLES);
        }
        if let Some(number) = after(text, &["number", "no.", "no", "#"]) {
            return by_number(number, name);
        }
        if let Some(number) = text.strip_suffix("mm") {
            return by_millimetres(number.trim(), name);
        }
        let letter = after(text, &["letter"]).unwrap_or(text);
        if letter.chars().count() == 1
            && let Some(drill) = letter.chars().next().and_then(Self::letter)
        {
            return Ok(drill);
        }
        let inches = ["inches", "inch", "in", "\"", "″", "”"];
        let inch = inches.iter().find_map(|unit| text.strip_suffix(unit));
        match inch {
            Some(inch) => by_inches(inch.trim(), name),
            None if text.contains('/') => by_inches(text, name),
            None => bare(text, name),
        }
    }
}

const EXAMPLES: &str = "Name one like #7, F, 13/64 or 3.3 mm.";

fn unknown<T>(problem: impl Into<String>, hint: impl Into<String>) -> Result<T, NameError> {
    Err(NameError::Unknown { problem: problem.into(), hint: hint.into() })
}

fn after<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    words.iter().find_map(|word| text.strip_prefix(word)).map(str::trim)
}

fn by_number(text: &str, name: &str) -> Result<Drill, NameError> {
    let last = NUMBERS.len();
    text.parse().ok().and_then(Drill::number).map_or_else(
        || {
            unknown(
                format!("There is no drill {}.", name.trim()),
                format!("They run from No. 1 to No. {last}."),
            )
        },
        Ok,
    )
}

fn by_millimetres(text: &str, name: &str) -> Result<Drill, NameError> {
    let Some(hundredths) = hundredths(text) else {
        return unknown(format!("{} is no size of a drill.", name.trim()), EXAMPLES);
    };
    let made = u16::try_from(hundredths).ok().and_then(Drill::hundredths_of_mm);
    made.map_or_else(|| none_of(hundredths), Ok)
}

/// A decimal as hundredths, if it has no more places than two.
fn hundredths(text: &str) -> Option<u32> {
    let text = text.replacen(',', ".", 1);
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    let part = part.trim_end_matches('0');
    if !digits(whole) || !digits(part) || part.len() > 2 || whole.len() + part.len() == 0 {
        return None;
    }
    let whole: u32 = if whole.is_empty() { 0 } else { whole.parse().ok()? };
    let part: u32 = format!("{part:0<2}").parse().ok()?;
    whole.checked_mul(100)?.checked_add(part)
}

fn none_of(hundredths: u32) -> Result<Drill, NameError> {
    let largest = u32::from(LARGEST_METRIC);
    if hundredths == 0 || hundredths > largest {
        let largest = LARGEST_METRIC / 100;
        return unknown(
            "There is no metric drill of that size.",
            format!("They run from 0.05 to {largest} mm."),
        );
    }
    // Between the sizes that are made lie at most four hundredths.
    let near = |step: u32| u16::try_from(hundredths / step * step).unwrap_or(LARGEST_METRIC);
    let (below, above) = (near(5), near(5) + 5);
    unknown(
        "There is no metric drill of that size.",
        format!("The nearest are {} and {} mm.", decimal(below), decimal(above)),
    )
}

fn by_inches(text: &str, name: &str) -> Result<Drill, NameError> {
    let bad = || unknown(format!("{} is no size of a drill.", name.trim()), EXAMPLES);
    let Some(inches) = inches(text) else { return bad() };
    let count = inches * 64.0;
    let exact = (count - count.round()).abs() < 1e-9;
    if exact && count >= 1.0 && count <= f64::from(LARGEST_64THS) {
        // In range and whole: the cast is exact.
        return Drill::sixty_fourths(count.round() as u16).map_or_else(bad, Ok);
    }
    if count > f64::from(LARGEST_64THS) {
        return unknown(
            "There is no drill of that size.",
            format!("The largest here is {} in.", LARGEST_64THS / 64),
        );
    }
    // A decimal of an inch may be a number or letter drill.
    let size = Length::inch(inches);
    let near = Index::every_inch().neighbours(size);
    if let Some(drill) = near.below.filter(|d| (d.diameter().to_inch() - inches).abs() < 5e-6) {
        return Ok(drill);
    }
    let names: Vec<String> =
        [near.below, near.above].into_iter().flatten().map(|d| d.name()).collect();
    unknown("There is no drill of that size.", format!("The nearest: {}.", names.join(" and ")))
}

/// `13/64`, `1 1/16`, `1-1/16`, `.25`.
fn inches(text: &str) -> Option<f64> {
    let Some((top, bottom)) = text.split_once('/') else {
        let digits = text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
        return digits.then(|| text.parse().ok()).flatten();
    };
    let (whole, top) = match top.trim().rsplit_once([' ', '-']) {
        Some((whole, top)) => (whole.trim().parse::<u16>().ok()?, top),
        None => (0, top.trim()),
    };
    let (top, bottom): (u16, u16) = (top.parse().ok()?, bottom.trim().parse().ok()?);
    let proper = bottom > 0 && (whole == 0 || top < bottom);
    proper.then(|| f64::from(whole) + f64::from(top) / f64::from(bottom))
}

/// A number alone can name a drill of either system: it is asked, not guessed.
fn bare(text: &str, name: &str) -> Result<Drill, NameError> {
    let mut drills = Vec::new();
    if let Ok(number) = text.parse() {
        drills.extend(Drill::number(number));
    }
    if let Some(hundredths) = hundredths(text).and_then(|h| u16::try_from(h).ok()) {
        drills.extend(Drill::hundredths_of_mm(hundredths));
    }
    if let Some(inch) = text
        .parse()
        .ok()
        .filter(|inch: &f64| *inch > 0.0 && *inch <= f64::from(LARGEST_64THS) / 64.0)
    {
        let near = Index::every_inch().neighbours(Length::inch(inch)).below;
        drills.extend(near.filter(|drill| (drill.diameter().to_inch() - inch).abs() < 5e-6));
    }
    match drills[..] {
        [] => unknown(format!("“{}” names no drill.", name.trim()), EXAMPLES),
        // An inch decimal such as .201 has no other reading.
        [one] if text.starts_with('.') || text.starts_with("0.") => Ok(one),
        _ => Err(NameError::Ambiguous { name: name.trim().to_owned(), drills }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(name: &str) -> f64 {
        Drill::named(name).expect(name).diameter().to_inch()
    }

    #[test]
    fn a_drill_is_read_as_it_is_written() {
        for (name, size) in [
            ("#7", 0.201),
            ("No. 7", 0.201),
            ("no 25", 0.1495),
            ("number 97", 0.0059),
            ("F", 0.257),
            ("letter z", 0.413),
            ("13/64", 0.203_125),
            ("1 1/16", 1.0625),
            ("1-1/16 in", 1.0625),
            ("1/4\"", 0.25),
            ("1 in", 1.0),
            ("3.3 mm", 3.3 / 25.4),
            ("3,3mm", 3.3 / 25.4),
            (".201", 0.201),
            ("0.257 in", 0.257),
        ] {
            assert!((inch(name) - size).abs() < 1e-12, "{name}");
        }
    }

    #[test]
    fn every_drill_is_found_by_both_its_names() {
        let all = Index::every();
        assert!(all.len() > 400);
        for drill in all.iter() {
            assert_eq!(Drill::named(&drill.short_name()), Ok(drill));
            assert_eq!(Drill::named(&drill.name()), Ok(drill));
        }
    }

    #[test]
    fn a_bare_number_is_asked() {
        let Err(NameError::Ambiguous { drills, .. }) = Drill::named("10") else {
            panic!("guessed")
        };
        let names: Vec<String> = drills.iter().map(|d| d.name()).collect();
        assert_eq!(names, ["No. 10", "10 mm"]);
        let says = Drill::named("10").expect_err("asked").to_string();
        assert!(says.contains("screw of number 10 is 0.190 in"), "{says}");
        assert!(!Drill::named("42").expect_err("asked").to_string().contains("screw"));
        let Err(NameError::Ambiguous { drills, .. }) = Drill::named("1") else { panic!("guessed") };
        assert_eq!(drills.len(), 3, "No. 1, 1 mm and 1 in");
        let Err(NameError::Ambiguous { drills, .. }) = Drill::named("4.2") else {
            panic!("guessed")
        };
        assert_eq!(drills.len(), 1, "one drill, but no unit was said");
    }

    #[test]
    fn what_is_no_drill_is_said_with_what_is() {
        let says = |name: &str| Drill::named(name).expect_err(name).to_string();
        assert_eq!(says("#98"), "There is no drill #98. They run from No. 1 to No. 97.");
        assert_eq!(says("#0"), "There is no drill #0. They run from No. 1 to No. 97.");
        assert_eq!(
            says("3.37 mm"),
            "There is no metric drill of that size. The nearest are 3.35 and 3.4 mm."
        );
        assert_eq!(says("1/0"), "1/0 is no size of a drill. Name one like #7, F, 13/64 or 3.3 mm.");
        assert!(says("9 in").contains("largest here is 3 in"));
        assert!(says("0.2 in").contains("The nearest: No. 8 and No. 7"), "{}", says("0.2 in"));
        for bad in ["", " ", "twist", "mm", "1/2/3", "-1 mm", "1e3 mm", "99999999999 mm", "#"] {
            assert!(Drill::named(bad).is_err(), "{bad}");
        }
    }
}
