//! Setting up: passes and dials, touching off, parallels, straps, tram, a sine bar.

pub mod dials;
pub mod parallels;
pub mod passes;
pub mod sine;
pub mod strap;
pub mod touch;
pub mod tram;

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
    /// The tip is larger than the travel between two touches over a part.
    TipOverTravel,
    /// No height clears the cut and leaves enough in the jaws.
    NoParallel,
    /// The hole is not in the part.
    OutsideThePart,
    /// Too steep for a sine bar.
    TooSteep,
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
            Self::TipOverTravel => {
                f.write_str("The tip is larger than the travel. Choose inside, or measure again.")
            }
            Self::NoParallel => f.write_str(
                "No height keeps the cut off the jaws and leaves enough in them. Cut less deep, or hold it otherwise.",
            ),
            Self::OutsideThePart => f.write_str(
                "The hole does not lie within the part. Measure its centre from the fixed jaw.",
            ),
            Self::TooSteep => f.write_str(
                "A sine bar holds angles above 0° and up to 60°. Set a steeper one from the other side.",
            ),
        }
    }
}

impl core::error::Error for SetupError {}
