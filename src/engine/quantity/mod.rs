//! Typed quantities: constructors and readers are named after their unit.
//!
//! Underneath every type is a [`uom`] quantity, so that a product or quotient of two of them has
//! the dimension it should have. Inside, nothing is rounded; [`rounding`] alone decides what a
//! screen shows. Factors are written as products of the exact definitions (1 in = 25.4 mm,
//! 1 lbf = 4.448 221 615 260 5 N, 1 hp = 550 ft lbf/s), because the tables of `uom` round some.

pub mod entry;
pub mod ratio;
pub mod rounding;
pub mod unit;
pub mod value;

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub};
use serde::{Deserialize, Serialize};
use uom::si::f64 as si;

/// Metres in an inch, exact.
pub const INCH: f64 = 0.0254;
const MM: f64 = 0.001;
const FOOT: f64 = 12.0 * INCH;
const MINUTE: f64 = 60.0;
/// Newtons in a pound-force, exact: 0.453 592 37 kg x 9.806 65 m/s2.
const POUND_FORCE: f64 = 0.453_592_37 * 9.806_65;
const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident over $si:ident, $base:path;
     $($(#[$udoc:meta])* $make:ident / $read:ident = $factor:expr;)+) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(pub(crate) si::$si);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(si::$si {
                dimension: core::marker::PhantomData,
                units: core::marker::PhantomData,
                value: 0.0,
            });

            $($(#[$udoc])*
            #[must_use]
            #[inline]
            pub fn $make(value: f64) -> Self {
                Self(si::$si::new::<$base>(value * ($factor)))
            }
            #[doc = concat!("The value in the unit of [`Self::", stringify!($make), "`].")]
            #[must_use]
            #[inline]
            pub fn $read(self) -> f64 {
                self.0.get::<$base>() / ($factor)
            })+

            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                if other < self { other } else { self }
            }
            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                if other > self { other } else { self }
            }
            /// Without its sign.
            #[must_use]
            pub fn abs(self) -> Self {
                if self < Self::ZERO { -self } else { self }
            }
            /// True for a number that can be worked with: neither infinite nor "not a number".
            #[must_use]
            pub fn is_finite(self) -> bool {
                self.0.value.is_finite()
            }
            /// True when it is a finite number above nothing.
            #[must_use]
            pub fn is_positive(self) -> bool {
                self.is_finite() && self > Self::ZERO
            }
        }
        impl Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl AddAssign for $name { fn add_assign(&mut self, o: Self) { self.0 += o.0; } }
        impl Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self(self.0 * k) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self(self.0 / k) } }
        impl Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { $name(q.0 * self) } }
        /// The plain ratio of two like quantities.
        impl Div<$name> for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0.value / o.0.value } }
    };
}

quantity! {
    /// A length: a diameter, a depth, a feed per tooth or per turn.
    Length over Length, uom::si::length::meter;
    /// Inches.
    inch / to_inch = INCH;
    /// Millimetres.
    mm / to_mm = MM;
    /// Thousandths of an inch.
    thou / to_thou = INCH / 1000.0;
    /// Ten-thousandths of an inch, which a shop calls tenths.
    tenth / to_tenth = INCH / 10_000.0;
    /// Micrometres.
    um / to_um = 1e-6;
    /// Feet.
    foot / to_foot = FOOT;
    /// Metres.
    metre / to_metre = 1.0;
    /// Millionths of an inch, the unit of a surface finish.
    microinch / to_microinch = INCH / 1e6;
}
quantity! {
    /// How fast the spindle turns.
    SpindleSpeed over Frequency, uom::si::frequency::hertz;
    /// Turns per minute.
    rpm / to_rpm = 1.0 / MINUTE;
}
quantity! {
    /// How fast a handwheel is turned.
    HandRate over Frequency, uom::si::frequency::hertz;
    /// Turns of the wheel per minute.
    turns_per_min / to_turns_per_min = 1.0 / MINUTE;
}
quantity! {
    /// How fast the cutting edge slides through the metal.
    SurfaceSpeed over Velocity, uom::si::velocity::meter_per_second;
    /// Feet per minute.
    ft_per_min / to_ft_per_min = FOOT / MINUTE;
    /// Metres per minute.
    m_per_min / to_m_per_min = 1.0 / MINUTE;
    /// Millimetres per minute.
    mm_per_min / to_mm_per_min = MM / MINUTE;
}
quantity! {
    /// How fast the table or the quill travels.
    FeedRate over Velocity, uom::si::velocity::meter_per_second;
    /// Inches per minute.
    inch_per_min / to_inch_per_min = INCH / MINUTE;
    /// Millimetres per minute.
    mm_per_min / to_mm_per_min = MM / MINUTE;
}
quantity! {
    /// A force.
    Force over Force, uom::si::force::newton;
    /// Newtons.
    newton / to_newton = 1.0;
    /// Pounds-force.
    lbf / to_lbf = POUND_FORCE;
}
quantity! {
    /// A torque.
    Torque over Torque, uom::si::torque::newton_meter;
    /// Newton metres.
    newton_metre / to_newton_metre = 1.0;
    /// Pound-force inches.
    lbf_inch / to_lbf_inch = POUND_FORCE * INCH;
    /// Pound-force feet.
    lbf_foot / to_lbf_foot = POUND_FORCE * FOOT;
}
quantity! {
    /// A power.
    Power over Power, uom::si::power::watt;
    /// Watts.
    watt / to_watt = 1.0;
    /// Kilowatts.
    kilowatt / to_kilowatt = 1000.0;
    /// Horsepower of 550 foot pounds-force a second.
    horsepower / to_horsepower = HORSEPOWER;
}
quantity! {
    /// A stress, a modulus, or a specific cutting force.
    Stress over Pressure, uom::si::pressure::pascal;
    /// Newtons per square millimetre (megapascals).
    newton_per_mm2 / to_newton_per_mm2 = 1e6;
    /// Pounds-force per square inch.
    psi / to_psi = POUND_FORCE / (INCH * INCH);
    /// Joules per cubic millimetre: the same dimension read as energy per chip volume.
    joule_per_mm3 / to_joule_per_mm3 = 1e9;
    /// Horsepower per cubic inch a minute: unit power.
    hp_per_inch3_min / to_hp_per_inch3_min = HORSEPOWER * MINUTE / (INCH * INCH * INCH);
}
quantity! {
    /// A plane angle.
    Angle over Angle, uom::si::angle::radian;
    /// Degrees.
    degree / to_degree = core::f64::consts::PI / 180.0;
    /// Minutes of arc.
    arcminute / to_arcminute = core::f64::consts::PI / (180.0 * 60.0);
    /// Radians.
    radian / to_radian = 1.0;
}
quantity! {
    /// A span of time.
    Duration over Time, uom::si::time::second;
    /// Seconds.
    second / to_second = 1.0;
    /// Minutes.
    minute / to_minute = MINUTE;
}
quantity! {
    /// Chip volume cut away per time.
    RemovalRate over VolumeRate, uom::si::volume_rate::cubic_meter_per_second;
    /// Cubic inches per minute.
    inch3_per_min / to_inch3_per_min = INCH * INCH * INCH / MINUTE;
    /// Cubic centimetres per minute.
    cm3_per_min / to_cm3_per_min = 1e-6 / MINUTE;
    /// Cubic millimetres per minute.
    mm3_per_min / to_mm3_per_min = 1e-9 / MINUTE;
}
quantity! {
    /// A mass.
    Mass over Mass, uom::si::mass::kilogram;
    /// Kilograms.
    kilogram / to_kilogram = 1.0;
}
quantity! {
    /// A volume.
    Volume over Volume, uom::si::volume::cubic_meter;
    /// Cubic millimetres.
    mm3 / to_mm3 = 1e-9;
}
quantity! {
    /// A temperature, as what it is above the freezing point of water.
    Temperature over TemperatureInterval, uom::si::temperature_interval::kelvin;
    /// Degrees Celsius.
    celsius / to_celsius = 1.0;
}
quantity! {
    /// Force on a cutting edge for each length of it.
    EdgeLoad over SurfaceTension, uom::si::surface_tension::newton_per_meter;
    /// Newtons per millimetre.
    newton_per_mm / to_newton_per_mm = 1.0 / MM;
}
quantity! {
    /// How hard a thing is to bend: force per travel.
    Stiffness over SurfaceTension, uom::si::surface_tension::newton_per_meter;
    /// Newtons per micrometre.
    newton_per_um / to_newton_per_um = 1e6;
}

impl Angle {
    /// Sine, the same on every platform.
    #[must_use]
    pub fn sin(self) -> f64 {
        libm::sin(self.to_radian())
    }
    /// Cosine, the same on every platform.
    #[must_use]
    pub fn cos(self) -> f64 {
        libm::cos(self.to_radian())
    }
    /// Tangent, the same on every platform.
    #[must_use]
    pub fn tan(self) -> f64 {
        libm::tan(self.to_radian())
    }
}

/// The unit system an answer is read in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum System {
    /// Inches, feet per minute, pounds-force.
    #[default]
    Inch,
    /// Millimetres, metres per minute, newtons.
    Metric,
}

impl System {
    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Inch => Self::Metric,
            Self::Metric => Self::Inch,
        }
    }
}
