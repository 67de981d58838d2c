//! What a formula cannot work with.

use crate::engine::quantity::{
    Angle, Duration, FeedRate, Force, HandRate, Length, Power, RemovalRate, SpindleSpeed, Stress,
    SurfaceSpeed, Torque,
};

/// An input outside the range of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CuttingError {
    /// This has to be above zero.
    NotPositive(&'static str),
    /// This may be zero, but not less.
    Negative(&'static str),
    /// This share of a whole is more than the whole.
    OverOne(&'static str),
    /// This is more than the diameter of the cutter.
    OverDiameter(&'static str),
    /// This is more than the radius gives.
    OverRadius(&'static str),
    /// This angle has to lie above zero and not beyond so many degrees.
    Angle(&'static str, u32),
    /// No tooth to cut with.
    NoTeeth,
    /// Runout is a difference between neighbours, and one tooth has none.
    LoneTooth,
    /// No pass to cut in.
    NoPass,
    /// Two tests of tool life that say that a faster edge lives longer, or say nothing.
    TestsDisagree,
    /// The result is beyond any number a shop could use.
    Beyond(&'static str),
}

impl core::fmt::Display for CuttingError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NotPositive(what) => {
                write!(f, "The {what} has to be a number above zero. Enter the {what}.")
            }
            Self::Negative(what) => {
                write!(f, "The {what} cannot be less than zero. Enter zero where there is none.")
            }
            Self::OverOne(what) => {
                write!(f, "The {what} is a share of a whole. Enter a number up to 1.")
            }
            Self::OverDiameter(what) => write!(
                f,
                "The {what} is more than the diameter of the cutter. Take less, or a larger cutter."
            ),
            Self::OverRadius(what) => write!(
                f,
                "The {what} is more than this radius can leave. Take less, or a larger radius."
            ),
            Self::Angle(what, most) => write!(
                f,
                "The {what} has to lie above 0° and not beyond {most}°. Enter the {what} in degrees."
            ),
            Self::NoTeeth => {
                f.write_str("A cutter has at least one tooth. Enter the number of its teeth.")
            }
            Self::LoneTooth => f.write_str(
                "One tooth alone has no neighbour that could cut less. Ask this from two teeth up.",
            ),
            Self::NoPass => f.write_str("A cut has at least one pass. Enter the number of passes."),
            Self::TestsDisagree => f.write_str(
                "In these two tests the faster edge does not live shorter. Enter tests that differ \
                 in speed, with the longer life at the lower speed.",
            ),
            Self::Beyond(what) => write!(
                f,
                "The {what} comes out beyond any useful number. Check the entries for their units."
            ),
        }
    }
}

impl core::error::Error for CuttingError {}

/// A number with or without a unit, read in the base units of its kind.
pub(super) trait Measured: Copy {
    fn base(self) -> f64;
}

impl Measured for f64 {
    fn base(self) -> f64 {
        self
    }
}

macro_rules! measured {
    ($($name:ident)+) => {$(
        impl Measured for $name {
            fn base(self) -> f64 {
                self.0.value
            }
        }
    )+};
}

measured! { Angle Duration FeedRate Force HandRate Length Power RemovalRate SpindleSpeed Stress
SurfaceSpeed Torque }

/// Nothing in a shop is this large in base units, and no formula here overflows below it.
const BEYOND: f64 = 1e30;

/// Refuses what is not a number above zero.
pub(super) fn positive(what: &'static str, value: impl Measured) -> Result<(), CuttingError> {
    if (1.0 / BEYOND..=BEYOND).contains(&value.base()) {
        return Ok(());
    }
    Err(CuttingError::NotPositive(what))
}

/// Refuses what is not a number from zero up.
pub(super) fn not_negative(what: &'static str, value: impl Measured) -> Result<(), CuttingError> {
    if (0.0..=BEYOND).contains(&value.base()) {
        return Ok(());
    }
    Err(CuttingError::Negative(what))
}

/// Refuses what is not above zero and at most one.
pub(super) fn share(what: &'static str, value: f64) -> Result<(), CuttingError> {
    positive(what, value)?;
    if value <= 1.0 {
        return Ok(());
    }
    Err(CuttingError::OverOne(what))
}

/// Refuses an angle that is not above zero and at most `most` degrees.
pub(super) fn angle(what: &'static str, value: Angle, most: u32) -> Result<(), CuttingError> {
    // The largest angle allowed must survive its own conversion to radians and back.
    if positive(what, value).is_ok()
        && value <= Angle::degree(f64::from(most)) * (1.0 + f64::EPSILON)
    {
        return Ok(());
    }
    Err(CuttingError::Angle(what, most))
}

/// Refuses a cutter without teeth.
pub(super) fn toothed(teeth: u32) -> Result<(), CuttingError> {
    if teeth == 0 { Err(CuttingError::NoTeeth) } else { Ok(()) }
}
