//! The percentage of thread that a hole leaves, and the hole for a percentage.
//!
//! A percentage means nothing without its basis: the same hole is 77 % on a tap-drill chart and
//! 92 % of the basic thread. [`Basis`] is part of every question here.

use super::{Form, Thread};
use crate::engine::{
    quantity::{Length, rounding::fixed},
    question::{Field, InputError},
};

/// Source of the bases.
pub const SOURCE: &str = "PERCENT_BASES";

/// What a hundred per cent of thread is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Basis {
    /// 1.299038 P on the diameter: every tap-drill chart, inch or metric.
    #[default]
    Chart,
    /// 1.082532 P on the diameter: the hole at the basic minor diameter.
    Basic,
    /// The full depth of the thread's own form: 1.280654 P Whitworth, 1.2 P British Association.
    Form,
}

impl Basis {
    /// The one that charts of this form use.
    #[must_use]
    pub fn usual(form: Form) -> Self {
        match form {
            Form::Iso | Form::Npt => Self::Chart,
            Form::Whitworth | Form::Ba => Self::Form,
        }
    }

    /// Major diameter less hole at a hundred per cent, in pitches.
    #[must_use]
    pub fn depth(self, form: Form) -> f64 {
        match self {
            Self::Chart => 1.299_038_106,
            Self::Basic => 1.082_531_755,
            Self::Form => form.full_depth(),
        }
    }

    /// The words beside a percentage.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Chart => "of 1.299 × pitch, as on tap-drill charts",
            Self::Basic => "of the basic thread, 1.0825 × pitch",
            Self::Form => "of the full depth of the form",
        }
    }
}

/// The percentage that the basic minor diameter is: no hole may leave more. 83.3 % on a chart.
#[must_use]
pub fn most(thread: Thread, basis: Basis) -> f64 {
    of_hole(thread, thread.basic_minor(), basis)
}

/// Percentage of thread, however small or large the hole.
pub(super) fn of_hole(thread: Thread, hole: Length, basis: Basis) -> f64 {
    100.0 * ((thread.major() - hole) / (thread.pitch() * basis.depth(thread.form())))
}

/// Percentage of thread that a hole leaves: 100 (D - hole) / (k P).
///
/// # Errors
/// A hole that is no size, or that leaves no thread at all; a taper thread, which has as many
/// percentages as diameters.
pub fn percent_of(thread: Thread, hole: Length, basis: Basis) -> Result<f64, InputError> {
    parallel(thread)?;
    if !hole.is_positive() {
        return Err(InputError::new(
            Field::Hole,
            "The hole has to be more than 0.",
            "Enter its diameter, or choose a drill.",
        ));
    }
    if hole >= thread.major() {
        return Err(InputError::new(
            Field::Hole,
            format!("A hole of this size leaves no thread of {}.", thread.designation()),
            format!(
                "The thread is {} in ({} mm) over its crests: choose a smaller drill.",
                fixed(thread.major().to_inch(), 4),
                fixed(thread.major().to_mm(), 3)
            ),
        ));
    }
    Ok(of_hole(thread, hole, basis))
}

/// Hole for a percentage of thread: D - k P percent / 100.
///
/// # Errors
/// A percentage that is not above 0 and at most 100, or one that no hole is left for; a taper
/// thread.
pub fn hole_for(thread: Thread, percent: f64, basis: Basis) -> Result<Length, InputError> {
    parallel(thread)?;
    checked(percent)?;
    let hole = thread.major() - thread.pitch() * (basis.depth(thread.form()) * percent / 100.0);
    if hole.is_positive() {
        Ok(hole)
    } else {
        Err(InputError::new(
            Field::Percent,
            format!("{} % of this pitch leaves no hole.", fixed(percent, 1)),
            "Ask for a smaller percentage.",
        ))
    }
}

/// Refuses a percentage that is none.
pub(super) fn checked(percent: f64) -> Result<(), InputError> {
    if percent > 0.0 && percent <= 100.0 {
        return Ok(());
    }
    Err(InputError::new(
        Field::Percent,
        "A percentage of thread lies above 0 and is at most 100.",
        "60 to 75 is usual.",
    ))
}

/// Refuses a taper thread: its hole is that of its tap drill.
pub(super) fn parallel(thread: Thread) -> Result<(), InputError> {
    if !thread.series().is_taper() {
        return Ok(());
    }
    Err(InputError::new(
        Field::Thread,
        format!("{} is a taper thread: its percentage changes along it.", thread.designation()),
        "Use the tap drill of its table.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{drills::Drill, threads::named};

    fn percent(thread: &str, drill: &str, basis: Basis) -> f64 {
        let hole = Drill::named(drill).expect(drill).diameter();
        percent_of(named(thread).expect(thread), hole, basis).expect(thread)
    }

    #[test]
    fn one_hole_has_a_percentage_for_each_basis() {
        for (thread, drill, basis, is) in [
            ("M4", "3.3 mm", Basis::Chart, 76.98),
            ("M4", "3.3 mm", Basis::Basic, 92.38),
            ("1/4-20", "#7", Basis::Chart, 75.44),
            ("10-32", "4.2 mm", Basis::Chart, 60.7),
            ("1/8-40 BSW", "2.55 mm", Basis::Form, 76.9),
            ("2 BA", "4 mm", Basis::Form, 72.0),
        ] {
            let got = percent(thread, drill, basis);
            assert!((got - is).abs() < 0.06, "{thread} {drill}: {got}");
        }
    }

    #[test]
    fn five_sixths_of_a_chart_is_the_whole_basic_thread() {
        let thread = named("1/4-20").expect("listed");
        assert!((most(thread, Basis::Chart) - 83.333).abs() < 0.001);
        assert!((most(thread, Basis::Basic) - 100.0).abs() < 1e-9);
        assert!((most(named("1/4 BSW").expect("listed"), Basis::Form) - 100.0).abs() < 1e-9);
    }

    #[test]
    fn what_no_hole_or_percentage_can_be_is_said_at_its_field() {
        let thread = named("M6").expect("listed");
        let field =
            |hole: f64| percent_of(thread, Length::mm(hole), Basis::Chart).unwrap_err().field;
        for hole in [0.0, -1.0, f64::NAN, 6.0, 8.0, f64::INFINITY] {
            assert_eq!(field(hole), Field::Hole, "{hole}");
        }
        for percent in [0.0, -5.0, 100.5, f64::NAN, 1e9] {
            let error = hole_for(thread, percent, Basis::Chart).unwrap_err();
            assert_eq!(error.field, Field::Percent, "{percent}");
        }
        let taper = named("1/8 NPT").expect("listed");
        assert_eq!(hole_for(taper, 75.0, Basis::Chart).unwrap_err().field, Field::Thread);
    }
}
