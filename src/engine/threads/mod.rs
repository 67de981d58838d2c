//! Threads: what they are called, how large they are, the hole they want, and how they are
//! recognised and measured.
//!
//! A [`Thread`] is a series, a size, a pitch and a hand. Everything else about it follows from the
//! form of its series: [`limits`] has the limits of its class, [`percent`] the share of thread that
//! a hole leaves, [`tap_hole`] the drill for it among those a person owns, [`tap`] the tap,
//! [`form_tap`] the hole for a tap that forms, [`search`] finds a thread by what is typed,
//! [`identify`] by what is measured; [`wires`] and [`gauge`] measure it.

pub mod form_tap;
pub mod gauge;
pub mod identify;
pub mod limits;
pub mod percent;
pub mod pipe;
pub mod search;
mod standard;
pub mod tap;
pub mod tap_hole;
pub mod tap_set;
pub mod wires;

pub use search::{find, named};
pub use standard::{Standard, all};

use crate::engine::quantity::{Angle, Length, System};

/// Source of the basic profile of metric and Unified threads.
pub const SOURCE: &str = "ISO_68 BS_84 BS_93 B1_20_1";

/// A series of threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Series {
    /// Unified coarse.
    Unc,
    /// Unified fine.
    Unf,
    /// ISO metric coarse.
    Metric,
    /// ISO metric fine.
    MetricFine,
    /// Unified extra fine.
    Unef,
    /// Unified, one pitch for many diameters.
    Un,
    /// Unified, special.
    Uns,
    /// American taper pipe.
    Npt,
    /// British parallel pipe, BSPP.
    G,
    /// British taper pipe, BSPT.
    R,
    /// British Standard Whitworth.
    Bsw,
    /// British Standard fine.
    Bsf,
    /// British Association.
    Ba,
    /// Model engineer, 32 and 40 threads in an inch.
    Me,
    /// Brass, 26 threads in an inch.
    Bsb,
}

impl Series {
    /// All series, in the order of a list.
    pub const ALL: [Self; 15] = [
        Self::Unc,
        Self::Unf,
        Self::Metric,
        Self::MetricFine,
        Self::Unef,
        Self::Un,
        Self::Uns,
        Self::Npt,
        Self::G,
        Self::R,
        Self::Bsw,
        Self::Bsf,
        Self::Ba,
        Self::Me,
        Self::Bsb,
    ];

    /// The letters of a designation.
    #[must_use]
    pub fn letters(self) -> &'static str {
        match self {
            Self::Unc => "UNC",
            Self::Unf => "UNF",
            Self::Metric | Self::MetricFine => "M",
            Self::Unef => "UNEF",
            Self::Un => "UN",
            Self::Uns => "UNS",
            Self::Npt => "NPT",
            Self::G => "G",
            Self::R => "R",
            Self::Bsw => "BSW",
            Self::Bsf => "BSF",
            Self::Ba => "BA",
            Self::Me => "ME",
            Self::Bsb => "BSB",
        }
    }

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Unc => "Unified coarse",
            Self::Unf => "Unified fine",
            Self::Metric => "Metric coarse",
            Self::MetricFine => "Metric fine",
            Self::Unef => "Unified extra fine",
            Self::Un => "Unified constant pitch",
            Self::Uns => "Unified special",
            Self::Npt => "American taper pipe",
            Self::G => "British parallel pipe",
            Self::R => "British taper pipe",
            Self::Bsw => "British Standard Whitworth",
            Self::Bsf => "British Standard fine",
            Self::Ba => "British Association",
            Self::Me => "Model engineer",
            Self::Bsb => "Brass, 26 to the inch",
        }
    }

    /// Whether it is one of the Unified series.
    #[must_use]
    pub fn is_unified(self) -> bool {
        matches!(self, Self::Unc | Self::Unf | Self::Unef | Self::Un | Self::Uns)
    }
    /// Whether it is ISO metric.
    #[must_use]
    pub fn is_metric(self) -> bool {
        matches!(self, Self::Metric | Self::MetricFine)
    }
    /// Whether its diameter grows along the thread, 1 in 16.
    #[must_use]
    pub fn is_taper(self) -> bool {
        matches!(self, Self::Npt | Self::R)
    }

    /// The form of its ridge.
    #[must_use]
    pub fn form(self) -> Form {
        match self {
            Self::Npt => Form::Npt,
            Self::Ba => Form::Ba,
            Self::G | Self::R | Self::Bsw | Self::Bsf | Self::Me | Self::Bsb => Form::Whitworth,
            _ => Form::Iso,
        }
    }
}

/// The form of a thread: the angle between its flanks, and its depths as shares of the pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// 60°, ISO 68-1 and ASME B1.1.
    Iso,
    /// 60° with truncated crests on a taper, ASME B1.20.1.
    Npt,
    /// 55°, rounded, BS 84.
    Whitworth,
    /// 47.5°, rounded, BS 93.
    Ba,
}

impl Form {
    /// Angle between the flanks.
    #[must_use]
    pub fn flank_angle(self) -> Angle {
        Angle::degree(match self {
            Self::Iso | Self::Npt => 60.0,
            Self::Whitworth => 55.0,
            Self::Ba => 47.5,
        })
    }
    /// Basic major less basic minor diameter of the internal thread, in pitches.
    #[must_use]
    pub fn full_depth(self) -> f64 {
        match self {
            Self::Iso => 1.082_531_755,
            Self::Npt => 1.6,
            Self::Whitworth => 1.280_654,
            Self::Ba => 1.2,
        }
    }
    /// Basic major less basic pitch diameter, in pitches.
    #[must_use]
    pub fn pitch_depth(self) -> f64 {
        match self {
            Self::Iso => 0.649_519_053,
            Self::Npt => 0.8,
            Self::Whitworth => 0.640_327,
            Self::Ba => 0.6,
        }
    }
}

/// Which way a thread turns in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Hand {
    /// Clockwise.
    #[default]
    Right,
    /// Counter-clockwise.
    Left,
}

/// How a thread's diameter is named, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Size {
    /// A numbered screw, 0.060 in + 0.013 in for each number.
    Number(u8),
    /// 64ths of an inch; of a pipe its nominal bore.
    SixtyFourths(u16),
    /// Hundredths of a millimetre.
    HundredthsMm(u16),
    /// The number of a British Association thread.
    Ba(u8),
}

/// How a thread's pitch is named, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Pitch {
    /// Twice the threads in an inch.
    HalfTpi(u16),
    /// Micrometres.
    Um(u16),
}

/// A thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Thread {
    series: Series,
    size: Size,
    pitch: Pitch,
    hand: Hand,
}

impl Thread {
    /// A Unified thread of any diameter in 64ths of an inch and any half number of threads in an
    /// inch, whether a standard lists it or not; nothing where no such thread can be.
    #[must_use]
    pub fn unified(series: Series, diameter: Length, tpi: f64) -> Option<Self> {
        let inch = diameter.to_inch();
        let number = libm::round((inch - 0.060) / 0.013);
        let sixty_fourths = libm::round(inch * 64.0);
        let size = if (0.0..=12.0).contains(&number) && (inch - 0.060 - 0.013 * number).abs() < 1e-6
        {
            Size::Number(number as u8)
        } else if (inch * 64.0 - sixty_fourths).abs() < 1e-4
            && (1.0..=384.0).contains(&sixty_fourths)
        {
            Size::SixtyFourths(sixty_fourths as u16)
        } else {
            return None;
        };
        let halves = libm::round(tpi * 2.0);
        let pitch = ((tpi * 2.0 - halves).abs() < 1e-6 && (2.0..=200.0).contains(&halves))
            .then_some(Pitch::HalfTpi(halves as u16))?;
        let thread = Self { series, size, pitch, hand: Hand::Right };
        (series.is_unified() && thread.basic_minor() > thread.pitch() * 0.5).then_some(thread)
    }

    /// A metric thread of any diameter in hundredths of a millimetre to 300 mm and any pitch in
    /// micrometres; nothing where no such thread can be.
    #[must_use]
    pub fn metric(diameter: Length, pitch: Length) -> Option<Self> {
        let hundredths = libm::round(diameter.to_mm() * 100.0);
        let um = libm::round(pitch.to_um());
        let exact = (diameter.to_mm() * 100.0 - hundredths).abs() < 1e-6
            && (pitch.to_um() - um).abs() < 1e-6
            && (50.0..=30_000.0).contains(&hundredths)
            && (100.0..=10_000.0).contains(&um);
        let size = exact.then_some(Size::HundredthsMm(hundredths as u16))?;
        let with = |series| Self { series, size, pitch: Pitch::Um(um as u16), hand: Hand::Right };
        let coarse = with(Series::Metric);
        if coarse.standard().is_some() {
            return Some(coarse);
        }
        let fine = with(Series::MetricFine);
        (fine.basic_minor() > fine.pitch() * 0.5).then_some(fine)
    }

    /// A British Association thread by its number.
    #[must_use]
    pub fn ba(number: u8) -> Option<Self> {
        let size = Size::Ba(number);
        let made = usize::from(number) < pipe::ba_count();
        made.then_some(Self { series: Series::Ba, size, pitch: Pitch::Um(0), hand: Hand::Right })
    }

    /// A thread of Whitworth form in one of the British series, of any diameter in 64ths.
    #[must_use]
    pub fn whitworth(series: Series, diameter: Length, tpi: f64) -> Option<Self> {
        let (sixty_fourths, halves) = (diameter.to_inch() * 64.0, tpi * 2.0);
        let whole = |x: f64| (x - libm::round(x)).abs() < 1e-4 && (1.0..=400.0).contains(&x);
        let british = matches!(series, Series::Bsw | Series::Bsf | Series::Bsb | Series::Me);
        let thread = (british && whole(sixty_fourths) && whole(halves)).then(|| Self {
            series,
            size: Size::SixtyFourths(libm::round(sixty_fourths) as u16),
            pitch: Pitch::HalfTpi(libm::round(halves) as u16),
            hand: Hand::Right,
        });
        thread.filter(|t| t.basic_minor() > t.pitch() * 0.5)
    }

    /// The same thread, turning in that way.
    #[must_use]
    pub fn with_hand(self, hand: Hand) -> Self {
        Self { hand, ..self }
    }

    /// The same Unified thread, counted to another Unified series: a series decides how long an
    /// engagement its tolerances are for.
    #[must_use]
    pub fn in_series(self, series: Series) -> Self {
        let both = self.series.is_unified() && series.is_unified();
        Self { series: if both { series } else { self.series }, ..self }
    }

    /// The series it belongs to.
    #[must_use]
    pub fn series(self) -> Series {
        self.series
    }
    /// The form of its ridge.
    #[must_use]
    pub fn form(self) -> Form {
        self.series.form()
    }
    /// Which way it turns in.
    #[must_use]
    pub fn hand(self) -> Hand {
        self.hand
    }
    /// The unit system of its name.
    #[must_use]
    pub fn system(self) -> System {
        match self.size {
            Size::HundredthsMm(_) | Size::Ba(_) => System::Metric,
            Size::Number(_) | Size::SixtyFourths(_) => System::Inch,
        }
    }

    /// Basic major diameter; of a taper pipe thread NPT the outside of the pipe, of R the diameter
    /// at the gauge plane.
    #[must_use]
    pub fn major(self) -> Length {
        match self.size {
            Size::Number(n) => Length::inch((60.0 + 13.0 * f64::from(n)) / 1000.0),
            Size::HundredthsMm(n) => Length::mm(f64::from(n) / 100.0),
            Size::Ba(n) => Length::um(f64::from(pipe::ba(n).0)),
            Size::SixtyFourths(n) => {
                pipe::outside(self.series, n).unwrap_or_else(|| Length::inch(f64::from(n) / 64.0))
            }
        }
    }

    /// Pitch, from one ridge to the next.
    #[must_use]
    pub fn pitch(self) -> Length {
        match (self.pitch, self.size) {
            (_, Size::Ba(n)) => Length::um(f64::from(pipe::ba(n).1)),
            (Pitch::HalfTpi(n), _) => Length::inch(2.0 / f64::from(n)),
            (Pitch::Um(n), _) => Length::um(f64::from(n)),
        }
    }

    /// Threads in an inch.
    #[must_use]
    pub fn tpi(self) -> f64 {
        match self.pitch {
            Pitch::HalfTpi(n) => f64::from(n) / 2.0,
            Pitch::Um(_) => Length::inch(1.0) / self.pitch(),
        }
    }

    /// True when its pitch is named in threads to the inch.
    #[must_use]
    pub fn is_named_by_tpi(self) -> bool {
        matches!(self.pitch, Pitch::HalfTpi(_))
    }

    /// Basic pitch diameter; of NPT the one at the small end, E0.
    #[must_use]
    pub fn basic_pitch_diameter(self) -> Length {
        match (self.series, self.size) {
            (Series::Npt, Size::SixtyFourths(n)) => pipe::npt_e0(n, self.pitch()),
            (_, Size::Ba(n)) => self.major() - Length::um(f64::from(pipe::ba(n).2)),
            _ => self.major() - self.pitch() * self.form().pitch_depth(),
        }
    }

    /// Basic minor diameter of the internal thread, not rounded; of NPT the one at the small end,
    /// K0. A hole smaller than this binds the tap.
    #[must_use]
    pub fn basic_minor(self) -> Length {
        match (self.series, self.size) {
            (Series::Npt, _) => self.basic_pitch_diameter() - self.pitch() * 0.8,
            (_, Size::Ba(n)) => self.major() - Length::um(2.0 * f64::from(pipe::ba(n).2)),
            _ => self.major() - self.pitch() * self.form().full_depth(),
        }
    }

    /// The name without the series: "1/4-20", "M6x1", "2 BA", "1/8 NPT".
    #[must_use]
    pub fn short_name(self) -> String {
        let hand = if self.hand == Hand::Left { " LH" } else { "" };
        let name = match (self.series, self.size, self.pitch) {
            (_, Size::Ba(n), _) => format!("{n} BA"),
            (Series::G | Series::R, Size::SixtyFourths(n), _) => {
                format!("{} {}", self.series.letters(), fraction(n))
            }
            (Series::Npt, Size::SixtyFourths(n), _) => format!("{} NPT", fraction(n)),
            (_, Size::HundredthsMm(d), Pitch::Um(p)) => {
                format!("M{}x{}", f64::from(d) / 100.0, f64::from(p) / 1000.0)
            }
            (_, Size::Number(n), _) => format!("{n}-{}", self.tpi()),
            // Whole inches that would be read as a screw's number keep their sign.
            (series, Size::SixtyFourths(n), _)
                if series.is_unified()
                    && n.is_multiple_of(64)
                    && search::is_number(f64::from(n / 64), self.tpi()) =>
            {
                format!("{}\"-{}", fraction(n), self.tpi())
            }
            (_, Size::SixtyFourths(n), _) => format!("{}-{}", fraction(n), self.tpi()),
            (_, Size::HundredthsMm(d), Pitch::HalfTpi(_)) => format!("M{}", f64::from(d) / 100.0),
        };
        name + hand
    }

    /// The name in full: "1/4-20 UNC", "M6x1", "2 BA", "1/8 NPT", "G 1/4", "1/4-20 UNC LH".
    #[must_use]
    pub fn designation(self) -> String {
        let bare = self.with_hand(Hand::Right).short_name();
        let named = match self.series {
            Series::Metric
            | Series::MetricFine
            | Series::Npt
            | Series::G
            | Series::R
            | Series::Ba => bare,
            _ => format!("{bare} {}", self.series.letters()),
        };
        if self.hand == Hand::Left { named + " LH" } else { named }
    }
}

/// So many 64ths of an inch as a person writes them: "1/4", "1 1/8", "2".
fn fraction(sixty_fourths: u16) -> String {
    let (whole, rest) = (sixty_fourths / 64, sixty_fourths % 64);
    if rest == 0 {
        return whole.to_string();
    }
    let common = 1 << rest.trailing_zeros();
    let part = format!("{}/{}", rest / common, 64 / common);
    if whole == 0 { part } else { format!("{whole} {part}") }
}
