//! One number in all the units of its kind.

use crate::engine::quantity::{
    entry::{Exact, Measure},
    ratio::Ratio,
    rounding,
    unit::{Size, Unit},
};

/// A number in one of the units of its kind, as a screen shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The unit.
    pub unit: &'static Unit,
    /// The digits.
    pub digits: String,
    /// True where the digits are the number and not a rounding of it.
    pub exact: bool,
}

/// A slope above this is a wall.
const STEEPEST: f64 = 1e9;

/// Figures that a small number keeps.
const FIGURES: i32 = 4;

/// A number in a unit of its kind.
#[must_use]
pub fn reading(exact: Exact, unit: &'static Unit) -> Reading {
    let decimals = decimals(exact, unit);
    let number = unit.from_base(exact.base);
    let value = exact.to(unit);
    let few = value != 0.0 && value.abs() < least(decimals);
    let (digits, shown) = match number {
        Some(number) if !few || rounded(number, decimals) == Some(number) => {
            (number.fixed(decimals), rounded(number, decimals))
        }
        // What would show few figures shows as many as it is worth.
        number if few => {
            let digits = rounding::significant(value, FIGURES);
            let shown = parsed(&digits);
            if shown == number {
                (digits.trim_end_matches('0').to_owned(), shown)
            } else {
                (digits, shown)
            }
        }
        // The slope of a wall is no number.
        _ if value.abs() > STEEPEST => (rounding::fixed(f64::NAN, 0), None),
        _ => (rounding::fixed(value, decimals as usize), None),
    };
    Reading { unit, digits, exact: number.is_some() && number == shown }
}

/// A number in every unit of its measure, in the order of the table.
pub fn readings(measure: Measure, exact: Exact) -> impl Iterator<Item = Reading> {
    measure.units().iter().map(move |unit| reading(exact, unit))
}

/// Decimals that a unit shows of a number: an inch shows a fifth one for what was typed in
/// millimetres, because four do not carry three of them.
#[must_use]
pub fn decimals(exact: Exact, unit: &Unit) -> u32 {
    let fifth = unit.is_called("in") && unit.decimals == 4 && exact.unit.is_some_and(is_metric);
    unit.decimals + u32::from(fifth)
}

/// True for a unit of length that is not made of inches: those carry the 127 of 25.4.
#[must_use]
pub fn is_metric(unit: &Unit) -> bool {
    matches!(unit.size, Size::Times(size) if size.numerator() % 127 != 0)
}

/// A number under this shows too few figures with so many decimals.
fn least(decimals: u32) -> f64 {
    let places = decimals as i32 - FIGURES + 1;
    libm::pow(10.0, f64::from(-places.max(0)))
}

fn rounded(number: Ratio, decimals: u32) -> Option<Ratio> {
    let scale = 10_i128.checked_pow(decimals)?;
    Ratio::new(number.times(Ratio::new(scale, 1)?)?.round(), scale)
}

fn parsed(digits: &str) -> Option<Ratio> {
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let number: i128 = format!("{whole}{part}").parse().ok()?;
    Ratio::new(number, 10_i128.checked_pow(part.len() as u32)?)
}

/// A number of one unit in another one of the same kind; nothing where there is no such unit, or
/// they are of different kinds. Units are called as in [`Unit::names`].
#[must_use]
pub fn convert(value: f64, from: &str, to: &str) -> Option<f64> {
    let (from, to) = Measure::ALL.into_iter().find_map(|measure| {
        let called = |name| measure.units().iter().find(|unit| unit.is_called(name));
        Some((called(from)?, called(to)?))
    })?;
    Some(to.float_from_base(from.float_to_base(value)))
}
