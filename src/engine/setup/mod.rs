//! Setting up: passes and dials.

pub mod dials;
pub mod passes;

/// What cannot be set up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetupError {
    /// This has to be a number above zero.
    NotPositive(&'static str),
    /// This may be zero, but not less.
    Negative(&'static str),
    /// More is left for the finish than there is to take.
    FinishOverTotal,
    /// These come out as more than anyone would turn.
    TooMany(&'static str),
    /// There is no such pass.
    NoSuchPass(u32),
}

impl core::fmt::Display for SetupError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NotPositive(what) => {
                write!(f, "The {what} has to be a number above zero. Enter the {what}.")
            }
            Self::Negative(what) => {
                write!(f, "The {what} cannot be less than zero. Enter zero where there is none.")
            }
            Self::FinishOverTotal => {
                f.write_str("The finish pass is more than the whole depth. Leave less for it.")
            }
            Self::TooMany(what) => {
                write!(f, "The {what} come out beyond use. Check the entries for their units.")
            }
            Self::NoSuchPass(pass) => {
                write!(f, "There is no pass {pass} in this plan. Count from 1 to the last one.")
            }
        }
    }
}

impl core::error::Error for SetupError {}
