//! Twist drills by their exact sizes: numbers, letters, fractions of an inch and millimetres.
//!
//! [`name`] reads a size as a person writes it and asks where it can mean two drills; [`Index`] is
//! a row of drills, such as those a person owns; [`Set`] is a box as it is sold.

mod index;
mod name;
mod set;

pub use index::{Index, Neighbours};
pub use name::NameError;
pub use set::Set;

use crate::engine::quantity::Length;

/// The source of the number and letter sizes.
pub const SOURCE: &str = "B94_11M";

/// Largest fraction that counts as a drill, in 64ths of an inch: 3 in. A 2 in pipe tap wants one
/// beyond 2 in.
const LARGEST_64THS: u16 = 192;
/// Largest metric drill, in hundredths of a millimetre.
const LARGEST_METRIC: u16 = 8000;

include!(concat!(env!("OUT_DIR"), "/drills.rs"));

/// How a drill is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Family {
    /// No. 1 to No. 97; a higher number is a thinner drill.
    Number,
    /// A to Z.
    Letter,
    /// 64ths of an inch.
    Fraction,
    /// Millimetres.
    Metric,
}

impl Family {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Number, Self::Letter, Self::Fraction, Self::Metric];
}

/// A drill of an exact size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Drill(Size);

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Size {
    /// 1 to 97.
    Number(u8),
    /// 0 is A.
    Letter(u8),
    /// 64ths of an inch.
    Fraction(u16),
    /// Hundredths of a millimetre.
    Metric(u16),
}

impl Drill {
    /// The drill of a number, 1 to 97.
    #[must_use]
    pub fn number(number: u8) -> Option<Self> {
        (1..=NUMBERS.len()).contains(&usize::from(number)).then_some(Self(Size::Number(number)))
    }

    /// The drill of a letter, A to Z, large or small.
    #[must_use]
    pub fn letter(letter: char) -> Option<Self> {
        let letter = letter.to_ascii_uppercase();
        letter.is_ascii_uppercase().then(|| Self(Size::Letter(letter as u8 - b'A')))
    }

    /// The drill of so many 64ths of an inch, 1 to 192.
    #[must_use]
    pub fn sixty_fourths(count: u16) -> Option<Self> {
        (1..=LARGEST_64THS).contains(&count).then_some(Self(Size::Fraction(count)))
    }

    /// The drill of so many hundredths of a millimetre: every one to 1 mm, every fifth to 80 mm.
    #[must_use]
    pub fn hundredths_of_mm(count: u16) -> Option<Self> {
        let is_made = match count {
            0..5 => false,
            5..=100 => true,
            _ => count <= LARGEST_METRIC && count.is_multiple_of(5),
        };
        is_made.then_some(Self(Size::Metric(count)))
    }

    /// How it is named.
    #[must_use]
    pub fn family(self) -> Family {
        match self.0 {
            Size::Number(_) => Family::Number,
            Size::Letter(_) => Family::Letter,
            Size::Fraction(_) => Family::Fraction,
            Size::Metric(_) => Family::Metric,
        }
    }

    /// Its diameter. Exact: number and letter sizes are defined in ten-thousandths of an inch.
    #[must_use]
    pub fn diameter(self) -> Length {
        match self.0 {
            Size::Number(number) => {
                Length::inch(f64::from(NUMBERS[usize::from(number) - 1]) / 10_000.0)
            }
            Size::Letter(letter) => {
                Length::inch(f64::from(LETTERS[usize::from(letter)]) / 10_000.0)
            }
            Size::Fraction(count) => Length::inch(f64::from(count) / 64.0),
            Size::Metric(count) => Length::mm(f64::from(count) / 100.0),
        }
    }

    /// Its short name, which [`Self::named`] reads back: `#7`, `F`, `1 1/16`, `3.3 mm`.
    #[must_use]
    pub fn short_name(self) -> String {
        match self.0 {
            Size::Number(number) => format!("#{number}"),
            Size::Letter(letter) => char::from(b'A' + letter).to_string(),
            Size::Fraction(_) | Size::Metric(_) => self.name(),
        }
    }

    /// Its name in words: `No. 7`, `letter F`, `1 1/16 in`, `3.3 mm`.
    #[must_use]
    pub fn name(self) -> String {
        match self.0 {
            Size::Number(number) => format!("No. {number}"),
            Size::Letter(letter) => format!("letter {}", char::from(b'A' + letter)),
            Size::Fraction(count) => fraction(count),
            Size::Metric(count) => format!("{} mm", decimal(count)),
        }
    }
}

/// So many 64ths of an inch as a person writes them: `13/64`, `1 1/16`, `1`.
fn fraction(count: u16) -> String {
    let (whole, rest) = (count / 64, count % 64);
    if rest == 0 {
        return format!("{whole} in");
    }
    let common = 1 << rest.trailing_zeros();
    let part = format!("{}/{}", rest / common, 64 / common);
    if whole == 0 { part } else { format!("{whole} {part}") }
}

/// So many hundredths as a decimal without idle zeros.
fn decimal(count: u16) -> String {
    let text = format!("{}.{:02}", count / 100, count % 100);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
