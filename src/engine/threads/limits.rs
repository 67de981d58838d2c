//! The limits of a thread's class, computed as its standard computes them.
//!
//! Unified 2A and 2B follow ASME B1.1 with its rounding; the few values its printed tables round
//! otherwise are a table. Metric 6g and 6H (5H to M1.4, 4H and 5H for the finest pitches) are the
//! geometry of ISO 68-1 with the tables of ISO 965-1. British nuts follow BS 84 and BS 93, parallel
//! pipe ISO 228-1. Everything is worked in whole parts of a unit, so that no limit depends on the
//! last bit of a number.

use super::{Series, Size, Thread};
use crate::engine::quantity::Length;

include!(concat!(env!("OUT_DIR"), "/thread_limits.rs"));

/// From the least to the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Least.
    pub least: Length,
    /// Most.
    pub most: Length,
}

/// Limits of an internal thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Internal {
    /// The class: "2B", "6H", "nut".
    pub class: &'static str,
    /// Minor diameter: the hole.
    pub minor: Span,
    /// Pitch diameter, where the standard limits it.
    pub pitch: Option<Span>,
    /// Tags of the sources.
    pub source: &'static str,
}

/// Limits of an external thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct External {
    /// The class: "2A", "6g".
    pub class: &'static str,
    /// Major diameter, over the crests.
    pub major: Span,
    /// Pitch diameter.
    pub pitch: Span,
    /// Tags of the sources.
    pub source: &'static str,
}

impl Thread {
    /// Limits of its internal thread; nothing for series whose standard has none here: taper pipe,
    /// brass and model engineer threads.
    #[must_use]
    pub fn internal(self) -> Option<Internal> {
        match self.series() {
            s if s.is_unified() => Some(Unified::of(self).internal()),
            s if s.is_metric() => self.metric_internal(),
            Series::G => {
                let sizes = self.bsp_sizes()?;
                Some(Internal {
                    class: "ISO 228",
                    minor: Span { least: sizes.minor, most: sizes.minor_most },
                    pitch: None,
                    source: "ISO_228",
                })
            }
            Series::Bsw | Series::Bsf => Some(self.whitworth_nut()),
            Series::Ba => Some(self.ba_nut()),
            _ => None,
        }
    }

    /// Limits of its external thread, Unified and metric.
    #[must_use]
    pub fn external(self) -> Option<External> {
        match self.series() {
            s if s.is_unified() => Some(Unified::of(self).external()),
            s if s.is_metric() => self.metric_external(),
            _ => None,
        }
    }

    /// A nut of BS 84: minor diameter +(0.2 P + 0.004, 0.005 or 0.007 in), effective diameter of
    /// the medium class +(0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 P^(1/2)) in with L = D.
    fn whitworth_nut(self) -> Internal {
        let (diameter, pitch) = (self.major().to_inch(), self.pitch().to_inch());
        let tpi = self.tpi();
        let fixed = if tpi >= 25.5 {
            0.004
        } else if tpi >= 21.5 {
            0.005
        } else {
            0.007
        };
        let minor = self.basic_minor();
        let effective =
            0.002 * libm::cbrt(diameter) + 0.003 * diameter.sqrt() + 0.005 * pitch.sqrt();
        Internal {
            class: "nut, medium",
            minor: Span { least: minor, most: minor + Length::inch(0.2 * pitch + fixed) },
            pitch: Some(Span {
                least: self.basic_pitch_diameter(),
                most: self.basic_pitch_diameter() + Length::inch(effective),
            }),
            source: "BS_84 BS_84_NUT",
        }
    }

    /// A nut of BS 93: minor diameter +0.375 P, effective diameter +(0.12 P + 0.03 mm).
    fn ba_nut(self) -> Internal {
        let (minor, effective) = (self.basic_minor(), self.basic_pitch_diameter());
        Internal {
            class: "nut",
            minor: Span { least: minor, most: minor + self.pitch() * 0.375 },
            pitch: Some(Span {
                least: effective,
                most: effective + self.pitch() * 0.12 + Length::mm(0.03),
            }),
            source: "BS_93",
        }
    }

    /// Micrometres of diameter and pitch.
    fn metric_um(self) -> (f64, u16) {
        (libm::round(self.major().to_um()), libm::round(self.pitch().to_um()) as u16)
    }

    /// The grade of the internal thread: 6, and 5 or 4 where no grade 6 is made.
    fn grade(self) -> (u8, &'static str) {
        let (diameter, pitch) = self.metric_um();
        match pitch {
            200 => (4, "4H"),
            250 => (5, "5H"),
            _ if diameter <= 1400.0 => (5, "5H"),
            _ => (6, "6H"),
        }
    }

    fn metric_internal(self) -> Option<Internal> {
        let (grade, class) = self.grade();
        let (diameter, pitch) = self.metric_um();
        let (_, _, minor) = TD1.iter().find(|(p, g, _)| (*p, *g) == (pitch, grade))?;
        let effective = self.metric_pitch_tolerance()?;
        let span = |depth: f64, tolerance: u16| {
            let least = half_up(diameter - depth * f64::from(pitch), 1.0);
            Span { least: Length::um(least), most: Length::um(least + f64::from(tolerance)) }
        };
        Some(Internal {
            class,
            minor: span(self.form().full_depth(), *minor),
            pitch: Some(span(self.form().pitch_depth(), effective)),
            source: "ISO_68 ISO_965",
        })
    }

    /// Tolerance of the internal pitch diameter in micrometres: the table's, and where the table
    /// has none for this diameter the formula 1.32 x 90 P^0.4 d^0.1, rounded as the table is.
    fn metric_pitch_tolerance(self) -> Option<u16> {
        let (grade, _) = self.grade();
        let (diameter, pitch) = self.metric_um();
        let hundredths = diameter / 10.0;
        let printed = TD2
            .iter()
            .filter(|(to, p, g, _)| f64::from(*to) >= hundredths && (*p, *g) == (pitch, grade))
            .min_by_key(|(to, ..)| *to)
            .filter(|(to, ..)| step_of(f64::from(*to) / 100.0) == step_of(hundredths / 100.0));
        if let Some((.., value)) = printed {
            return Some(*value);
        }
        let (from, to) = step_of(hundredths / 100.0)?;
        let grade_factor = match grade {
            4 => 0.63,
            5 => 0.8,
            _ => 1.0,
        };
        let mean = (from * to).sqrt();
        let um = 1.32
            * 90.0
            * grade_factor
            * libm::pow(f64::from(pitch) / 1000.0, 0.4)
            * libm::pow(mean, 0.1);
        let nearest = R40.iter().min_by(|a, b| {
            (f64::from(**a) / um - 1.0).abs().total_cmp(&(f64::from(**b) / um - 1.0).abs())
        });
        nearest.copied()
    }

    fn metric_external(self) -> Option<External> {
        let (diameter, pitch) = self.metric_um();
        let (_, deviation) = ES.iter().find(|(p, _)| *p == pitch)?;
        let (_, tolerance) = TD.iter().find(|(p, _)| *p == pitch)?;
        let most = diameter - f64::from(*deviation);
        // The external tolerance of grade 6 stands in the same row of preferred numbers as the
        // internal one: 5 steps below grade 6, 1 below grade 5, 3 above grade 4.
        let steps = match self.grade().0 {
            4 => 3,
            5 => -1,
            _ => -5,
        };
        let internal = self.metric_pitch_tolerance()?;
        let at = R40.iter().position(|r| *r == internal)?;
        let effective = R40.get(at.checked_add_signed(steps)?)?;
        let basic = half_up(diameter - self.form().pitch_depth() * f64::from(pitch), 1.0);
        let span = |most: f64, tolerance: u16| Span {
            least: Length::um(most - f64::from(tolerance)),
            most: Length::um(most),
        };
        Some(External {
            class: "6g",
            major: span(most, *tolerance),
            pitch: span(basic - f64::from(*deviation), *effective),
            source: "ISO_68 ISO_965_MEM",
        })
    }
}

/// Preferred numbers by which ISO 965-1 rounds its tolerances, micrometres.
const R40: [u16; 54] = [
    22, 24, 25, 26, 28, 30, 32, 34, 36, 38, 40, 42, 45, 48, 50, 53, 56, 60, 63, 67, 71, 75, 80, 85,
    90, 95, 100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250,
    265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475,
];

/// The step of diameters of ISO 965-1 that a diameter in millimetres lies in, above and up to.
fn step_of(mm: f64) -> Option<(f64, f64)> {
    const STEPS: [f64; 10] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0];
    STEPS.windows(2).find(|s| s[0] < mm && mm <= s[1]).map(|s| (s[0], s[1]))
}

/// Rounds to a multiple of `unit`, halves up. What lies within a millionth of a half is a half.
fn half_up(value: f64, unit: f64) -> f64 {
    libm::floor(value / unit + 0.5 + 1e-6) * unit
}

/// A limit of ASME B1.1 in billionths of an inch, rounded as the standard says.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Nano(i64);

impl Nano {
    fn of(inch: f64) -> Self {
        Self(libm::round(inch * 1e9) as i64)
    }
    /// To so many decimals, halves to the even digit.
    fn half_even(self, decimals: u32) -> Self {
        let unit = 10_i64.pow(9 - decimals);
        let (low, rest) = (self.0.div_euclid(unit), self.0.rem_euclid(unit));
        let up = rest * 2 > unit || (rest * 2 == unit && low % 2 != 0);
        Self((low + i64::from(up)) * unit)
    }
    /// To so many decimals, halves up.
    fn half_up(self, decimals: u32) -> Self {
        let unit = 10_i64.pow(9 - decimals);
        Self((self.0 + unit / 2).div_euclid(unit) * unit)
    }
    fn length(self) -> Length {
        Length::inch(self.0 as f64 / 1e9)
    }
}

impl core::ops::Add for Nano {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self(self.0 + o.0)
    }
}
impl core::ops::Sub for Nano {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self(self.0 - o.0)
    }
}

/// A Unified thread, in inches.
struct Unified {
    diameter: f64,
    tpi: f64,
    pitch: f64,
    /// Numbered sizes below No. 6 keep four decimals of the minor diameter.
    is_small: bool,
    series: Series,
}

impl Unified {
    fn of(thread: Thread) -> Self {
        let diameter = thread.major().to_inch();
        Self {
            diameter,
            tpi: thread.tpi(),
            pitch: 1.0 / thread.tpi(),
            is_small: matches!(thread.size, Size::Number(n) if n < 6) || diameter < 0.1379,
            series: thread.series(),
        }
    }

    /// Length of engagement the tolerances are for: the diameter, or nine pitches for the series
    /// that have one pitch for many diameters.
    fn engagement(&self) -> f64 {
        match self.series {
            Series::Unc | Series::Unf => self.diameter,
            Series::Un if self.tpi <= 8.0 => self.diameter,
            _ => 9.0 * self.pitch,
        }
    }

    fn pitch_to_two_thirds(&self) -> f64 {
        let root = libm::cbrt(self.pitch);
        root * root
    }

    /// Td2 = 0.0015 D^(1/3) + 0.0015 Le^(1/2) + 0.015 P^(2/3): the tolerance of the external pitch
    /// diameter, class 2A.
    fn external_pitch_tolerance(&self) -> f64 {
        0.0015 * libm::cbrt(self.diameter)
            + 0.0015 * self.engagement().sqrt()
            + 0.015 * self.pitch_to_two_thirds()
    }

    /// Allowance and pitch tolerance of 2A; the printed values where they differ.
    fn allowance_and_tolerance(&self) -> (Nano, Nano) {
        let key = (libm::round(self.diameter * 1e4) as u16, self.tpi);
        let printed = PRINTED.iter().find(|(d, n, ..)| (*d, f64::from(*n)) == key);
        if let Some((_, _, allowance, tolerance)) = printed {
            let tenths = |t: u16| Nano(i64::from(t) * 100_000);
            return (tenths(*allowance), tenths(*tolerance));
        }
        let tolerance = Nano::of(self.external_pitch_tolerance()).half_even(6);
        let allowance = Nano::of(0.3 * tolerance.length().to_inch()).half_even(6);
        (allowance.half_even(4), tolerance.half_even(4))
    }

    fn basic_pitch(&self) -> Nano {
        Nano::of(self.diameter - 0.649_519_05 * self.pitch).half_up(4)
    }

    /// Tolerance of the minor diameter, 2B.
    fn minor_tolerance(&self) -> f64 {
        let (d, p) = (self.diameter, self.pitch);
        let usual = 0.25 * p - 0.40 * p * p;
        if d >= 0.25 {
            return if self.tpi >= 4.0 { usual } else { 0.15 * p };
        }
        let small = 0.05 * self.pitch_to_two_thirds() + 0.03 * p / d - 0.002;
        small.min(0.394 * p).max(usual)
    }

    fn internal(&self) -> Internal {
        let least = Nano::of(self.diameter - 1.082_531_75 * self.pitch).half_up(4);
        let most = least + Nano::of(self.minor_tolerance()).half_even(6).half_even(4);
        let printed = |limit: Nano| if self.is_small { limit } else { limit.half_up(3) }.length();
        let pitch = self.basic_pitch();
        let tolerance = Nano::of(1.3 * self.external_pitch_tolerance()).half_even(6).half_even(4);
        Internal {
            class: "2B",
            minor: Span { least: printed(least), most: printed(most) },
            pitch: Some(Span { least: pitch.length(), most: (pitch + tolerance).length() }),
            source: "B1_1",
        }
    }

    fn external(&self) -> External {
        let (allowance, tolerance) = self.allowance_and_tolerance();
        let major = Nano::of(self.diameter) - allowance;
        let height = Nano::of(0.060 * self.pitch_to_two_thirds()).half_even(6).half_even(4);
        let pitch = self.basic_pitch() - allowance;
        let span = |most: Nano, tolerance: Nano| Span {
            least: (most - tolerance).length(),
            most: most.length(),
        };
        External {
            class: "2A",
            major: span(major, height),
            pitch: span(pitch, tolerance),
            source: "B1_1 B1_1_PRINTED",
        }
    }
}
