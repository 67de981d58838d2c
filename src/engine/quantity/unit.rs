//! The units that a shop writes, each with its exact size.
//!
//! Sizes are products of the exact definitions: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, standard
//! gravity 9.806 65 m/s2, 1 hp = 550 ft lbf/s, 1 PS = 75 kgf m/s, 1 US gallon = 231 in3. A turn of
//! 2 pi radians alone is no ratio; it is taken to twenty-two digits.

use super::{
    Angle, FeedRate, Force, HandRate, Length, Mass, Power, RemovalRate, SpindleSpeed, Stiffness,
    Stress, SurfaceSpeed, Temperature, Torque, Volume, ratio::Ratio, value::Value,
};

/// A unit as it may be written, and what a number of it is.
#[derive(Debug)]
pub struct Unit {
    /// How it is written; the first one is shown. The case does not matter. A blank stands for
    /// what may separate the parts of a product: `lbf in`, `lbf.in`, `lbf-in`.
    pub names: &'static [&'static str],
    /// How large it is.
    pub size: Size,
    /// Decimals that a converter shows of it.
    pub decimals: u32,
    /// The smaller unit that may follow it, and how many of that one make it: 5 ft 3 in.
    pub holds: Option<(&'static str, i64)>,
    /// True for a unit that a hint names.
    pub usual: bool,
    /// The quantity that a number of it is.
    pub of: fn(f64) -> Value,
}

/// How large a unit is, in the first unit's terms of its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// So many times the base.
    Times(Ratio),
    /// A temperature: `(number - zero) x step` is in degrees Celsius.
    From {
        /// What it reads at the freezing point of water.
        zero: Ratio,
        /// Degrees Celsius in one of its degrees.
        step: Ratio,
    },
    /// A slope: the tangent of the angle is so many times the number.
    Tangent(Ratio),
}

impl Unit {
    const fn new(names: &'static [&'static str], size: Ratio, of: fn(f64) -> Value) -> Self {
        Self { names, size: Size::Times(size), decimals: 3, holds: None, usual: false, of }
    }
    const fn usual(mut self) -> Self {
        self.usual = true;
        self
    }
    const fn to(mut self, decimals: u32) -> Self {
        self.decimals = decimals;
        self
    }
    const fn holding(mut self, smaller: &'static str, count: i64) -> Self {
        self.holds = Some((smaller, count));
        self
    }

    /// How it is shown.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.names[0]
    }

    /// True for one of its names.
    #[must_use]
    pub fn is_called(&self, name: &str) -> bool {
        self.names.iter().any(|own| length_of(own, name) == Some(name.len()))
    }

    /// How many bytes at the front of a text are a name of this unit.
    #[must_use]
    pub fn at_front_of(&self, text: &str) -> Option<usize> {
        self.names
            .iter()
            .filter_map(|name| {
                let length = length_of(name, text)?;
                let next = text[length..].chars().next();
                let in_a_word = name.ends_with(char::is_alphanumeric)
                    && next.is_some_and(|c| {
                        // 5ft3in is written without spaces; in3 is another unit.
                        c.is_alphanumeric() && !(c.is_ascii_digit() && self.holds.is_some())
                    });
                (!in_a_word).then_some(length)
            })
            .max()
    }

    /// What a number of this unit is in the base of its kind.
    #[must_use]
    pub fn to_base(&self, number: Ratio) -> Option<Ratio> {
        match self.size {
            Size::Times(size) => number.times(size),
            Size::From { zero, step } => number.minus(zero)?.times(step),
            Size::Tangent(run) => {
                let slope = number.times(run)?.to_f64();
                Ratio::rounded(Angle::radian(libm::atan(slope)).to_degree(), ANGLE_DECIMALS)
            }
        }
    }

    /// What a number in the base of its kind is in this unit; nothing where it is not exact.
    #[must_use]
    pub fn from_base(&self, base: Ratio) -> Option<Ratio> {
        match self.size {
            Size::Times(size) => base.over(size),
            Size::From { zero, step } => base.over(step)?.plus(zero),
            Size::Tangent(_) => None,
        }
    }

    /// What a number in the base of its kind is in this unit, as a float.
    #[must_use]
    pub fn float_from_base(&self, base: f64) -> f64 {
        match self.size {
            Size::Times(size) => base * size.denominator() as f64 / size.numerator() as f64,
            Size::From { zero, step } => base / step.to_f64() + zero.to_f64(),
            Size::Tangent(run) => Angle::degree(base).tan() / run.to_f64(),
        }
    }

    /// What a number of this unit is in the base of its kind, as a float.
    #[must_use]
    pub fn float_to_base(&self, number: f64) -> f64 {
        match self.size {
            Size::Times(size) => number * size.numerator() as f64 / size.denominator() as f64,
            Size::From { zero, step } => (number - zero.to_f64()) * step.to_f64(),
            Size::Tangent(run) => Angle::radian(libm::atan(number * run.to_f64())).to_degree(),
        }
    }
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.names == other.names && self.size == other.size
    }
}

/// Decimals of a degree that an angle given by its tangent keeps.
const ANGLE_DECIMALS: u32 = 12;

/// How many bytes at the front of a text are this name.
fn length_of(name: &str, text: &str) -> Option<usize> {
    let mut rest = text;
    for c in name.chars() {
        if c == ' ' {
            rest = rest.trim_start_matches([' ', '.', '·', '⋅', '-']);
            continue;
        }
        let next = rest.chars().next()?;
        if next != c && !next.to_lowercase().eq(c.to_lowercase()) {
            return None;
        }
        rest = &rest[next.len_utf8()..];
    }
    Some(text.len() - rest.len())
}

const fn whole(number: i128) -> Ratio {
    Ratio::constant(number, 1)
}
const ONE: Ratio = Ratio::ONE;
const SIXTY: Ratio = whole(60);

// Lengths in millimetres.
const INCH: Ratio = Ratio::constant(254, 10);
const FOOT: Ratio = INCH.by(whole(12));
const METRE: Ratio = whole(1000);
const UM: Ratio = Ratio::constant(1, 1000);
// Volumes in cubic millimetres.
const INCH3: Ratio = INCH.by(INCH).by(INCH);
const GALLON: Ratio = INCH3.by(whole(231));
const LITRE: Ratio = whole(1_000_000);
// Forces in newtons, powers in watts, torques in newton metres, pressures in newtons per mm2.
const GRAVITY: Ratio = Ratio::constant(980_665, 100_000);
const POUND: Ratio = Ratio::constant(45_359_237, 100_000_000);
const LBF: Ratio = POUND.by(GRAVITY);
const INCH_IN_METRES: Ratio = INCH.per(METRE);
const FOOT_IN_METRES: Ratio = FOOT.per(METRE);
const HORSEPOWER: Ratio = whole(550).by(FOOT_IN_METRES).by(LBF);
const PSI: Ratio = LBF.per(INCH.by(INCH));
/// Degrees in a radian.
const RADIAN: Ratio =
    Ratio::constant(57_295_779_513_082_320_876_798, 1_000_000_000_000_000_000_000);

pub(super) const INCH_NAMES: &[&str] = &["in", "inch", "inches", "\"", "”", "″"];
// Greek mu, the micro sign and the plain letter.
const UM_NAMES: &[&str] = &["µm", "μm", "um"];

macro_rules! units {
    ($($(#[$doc:meta])* $list:ident, $variant:ident, $type:ident::$base:ident {
        $($names:expr, $size:expr $(, $make:ident)? $(=> $with:ident($($arg:expr),*))*;)+
    })+) => {$(
        $(#[$doc])*
        pub const $list: &[Unit] = &[$(
            Unit::new($names, $size, units!(@of $variant $type $base $size $(, $make)?))
                $(.$with($($arg),*))*
        ),+];
    )+};
    (@of $variant:ident $type:ident $base:ident $size:expr, $make:ident) => {
        |v| Value::$variant($type::$make(v))
    };
    // A unit that only a converter knows goes by its size.
    (@of $variant:ident $type:ident $base:ident $size:expr) => {
        |v| Value::$variant($type::$base(v * const { $size }.to_f64()))
    };
}

units! {
    /// Lengths; the base is the millimetre.
    LENGTH, Length, Length::mm {
        INCH_NAMES, INCH, inch => usual() => to(4);
        &["mm", "millimetre", "millimetres", "millimeter", "millimeters"], ONE, mm => usual();
        &["thou"], INCH.per(METRE), thou => usual() => to(1);
        &["tenths", "tenth"], INCH.per(whole(10_000)), tenth => usual() => to(0);
        UM_NAMES, UM, um => usual() => to(0);
        &["ft", "foot", "feet", "'", "’", "′"], FOOT, foot => holding("in", 12) => to(4);
        &["cm"], whole(10) => to(2);
        &["m", "metre", "metres", "meter", "meters"], METRE, metre => to(4);
    }
    /// Chips and feeds per tooth or turn; the base is the millimetre.
    CHIP, Chip, Length::mm {
        INCH_NAMES, INCH, inch => usual() => to(5);
        &["mm"], ONE, mm => usual() => to(4);
        &["thou"], INCH.per(METRE), thou => usual() => to(2);
        &["tenths", "tenth"], INCH.per(whole(10_000)), tenth => usual() => to(1);
        UM_NAMES, UM, um => usual() => to(1);
    }
    /// Spindle speeds; the base is one turn a minute.
    SPINDLE_SPEED, SpindleSpeed, SpindleSpeed::rpm {
        &["rpm", "rev/min", "r/min"], ONE, rpm => usual() => to(0);
    }
    /// Hand rates; the base is one turn a minute.
    HAND_RATE, HandRate, HandRate::turns_per_min {
        &["turns/min", "turn/min", "tpm"], ONE, turns_per_min => usual() => to(1);
    }
    /// Surface speeds; the base is one millimetre a minute.
    SURFACE_SPEED, SurfaceSpeed, SurfaceSpeed::mm_per_min {
        &["ft/min", "sfm", "sfpm", "fpm"], FOOT, ft_per_min => usual() => to(1);
        &["m/min"], METRE, m_per_min => usual() => to(2);
        &["m/s"], METRE.by(SIXTY);
    }
    /// Feed rates; the base is one millimetre a minute.
    FEED_RATE, FeedRate, FeedRate::mm_per_min {
        &["in/min", "ipm", "inch/min"], INCH, inch_per_min => usual();
        &["mm/min"], ONE, mm_per_min => usual() => to(1);
        &["in/s"], INCH.by(SIXTY) => to(4);
        &["mm/s"], SIXTY;
        &["ft/min"], FOOT;
        &["m/min"], METRE => to(4);
    }
    /// Angles; the base is the degree.
    ANGLE, Angle, Angle::degree {
        &["°", "deg", "degree", "degrees"], ONE, degree => usual() => holding("'", 60) => to(4);
        &["'", "’", "′", "arcmin"], Ratio::constant(1, 60), arcminute => holding("\"", 60) => to(2);
        &["\"", "”", "″", "arcsec"], Ratio::constant(1, 3600) => to(0);
        &["in/ft"], ONE => tangent(12, |v| Value::Angle(Angle::radian(libm::atan(v / 12.0)))) => to(4);
        &["mm/m"], ONE => tangent(1000, |v| Value::Angle(Angle::radian(libm::atan(v / 1000.0))));
        &["rad"], RADIAN, radian => to(6);
    }
    /// Forces; the base is the newton.
    FORCE, Force, Force::newton {
        &["lbf", "lb", "lbs"], LBF, lbf => usual();
        &["N"], ONE, newton => usual();
        &["kN"], whole(1000) => to(5);
        &["kgf"], GRAVITY;
    }
    /// Torques; the base is the newton metre.
    TORQUE, Torque, Torque::newton_metre {
        &["lbf in", "lb in", "in lbf", "in lb"], LBF.by(INCH_IN_METRES), lbf_inch => usual() => to(2);
        &["lbf ft", "lb ft", "ft lbf", "ft lb"], LBF.by(FOOT_IN_METRES), lbf_foot => usual();
        &["N m", "newton metre"], ONE, newton_metre => usual();
        &["ozf in", "oz in", "in oz"], LBF.per(whole(16)).by(INCH_IN_METRES) => to(1);
    }
    /// Powers; the base is the watt.
    POWER, Power, Power::watt {
        &["hp"], HORSEPOWER, horsepower => usual();
        &["W", "watt", "watts"], ONE, watt => usual() => to(1);
        &["kW"], whole(1000), kilowatt => usual() => to(4);
        &["PS"], whole(75).by(GRAVITY);
    }
    /// Specific cutting forces, stresses and pressures; the base is one newton per mm2.
    STRESS, Stress, Stress::newton_per_mm2 {
        &["psi"], PSI, psi => usual() => to(1);
        &["N/mm²", "N/mm2", "MPa"], ONE, newton_per_mm2 => usual() => to(4);
        &["ksi"], PSI.by(whole(1000));
        &["bar"], Ratio::constant(1, 10);
        &["kPa"], Ratio::constant(1, 1000) => to(2);
        &["GPa"], whole(1000) => to(6);
    }
    /// Power for each removal rate; the base is one joule per mm3.
    UNIT_POWER, UnitPower, Stress::joule_per_mm3 {
        &["hp/(in³/min)", "hp/(in3/min)", "hp"],
            HORSEPOWER.by(SIXTY).per(INCH3), hp_per_inch3_min => usual();
        &["J/mm³", "J/mm3"], ONE, joule_per_mm3 => usual();
    }
    /// Stiffnesses; the base is one newton per micrometre.
    STIFFNESS, Stiffness, Stiffness::newton_per_um {
        &["N/µm", "N/μm", "N/um"], ONE, newton_per_um => usual();
    }
    /// Removal rates; the base is one cubic millimetre a minute.
    REMOVAL_RATE, RemovalRate, RemovalRate::mm3_per_min {
        &["in³/min", "in3/min"], INCH3, inch3_per_min => usual() => to(4);
        &["cm³/min", "cm3/min"], whole(1000), cm3_per_min => usual();
        &["mm³/min", "mm3/min"], ONE, mm3_per_min => to(0);
    }
    /// Flows of coolant or air; the base is one cubic millimetre a minute.
    FLOW, RemovalRate, RemovalRate::mm3_per_min {
        &["gal/min", "gpm"], GALLON => usual();
        &["L/min"], LITRE => usual();
        &["L/h"], LITRE.per(SIXTY) => to(1);
        &["ft³/min", "ft3/min", "cfm"], FOOT.by(FOOT).by(FOOT) => to(4);
        &["in³/min", "in3/min"], INCH3 => to(1);
    }
    /// Volumes; the base is the cubic millimetre.
    VOLUME, Volume, Volume::mm3 {
        &["in³", "in3"], INCH3 => usual() => to(4);
        &["cm³", "cm3", "cc", "ml"], whole(1000) => usual();
        &["mm³", "mm3"], ONE, mm3 => to(0);
        &["L", "litre", "litres", "liter", "liters"], LITRE => to(4);
        &["ft³", "ft3"], FOOT.by(FOOT).by(FOOT) => to(5);
        &["gal", "gallon", "gallons"], GALLON => to(4);
        &["fl oz"], GALLON.per(whole(128)) => to(2);
    }
    /// Masses; the base is the kilogram.
    MASS, Mass, Mass::kilogram {
        &["lb", "lbs", "pound", "pounds"], POUND => usual();
        &["kg"], ONE, kilogram => usual() => to(4);
        &["oz", "ounce", "ounces"], POUND.per(whole(16)) => to(2);
        &["g", "gram", "grams"], Ratio::constant(1, 1000) => to(1);
    }
    /// Temperatures; the base is the degree Celsius.
    TEMPERATURE, Temperature, Temperature::celsius {
        &["°F", "degF", "F"], ONE => usual()
            => to(1)
            => above(whole(32), Ratio::constant(5, 9),
                |v| Value::Temperature(Temperature::celsius((v - 32.0) * 5.0 / 9.0)));
        &["°C", "degC", "C"], ONE => usual() => to(1)
            => above(Ratio::ZERO, ONE, |v| Value::Temperature(Temperature::celsius(v)));
        &["K"], ONE
            => to(1)
            => above(Ratio::constant(27_315, 100), ONE,
                |v| Value::Temperature(Temperature::celsius(v - 273.15)));
    }
}

impl Unit {
    /// A slope over so many units of run.
    const fn tangent(mut self, run: i128, of: fn(f64) -> Value) -> Self {
        self.size = Size::Tangent(Ratio::constant(1, run));
        self.of = of;
        self
    }
    /// Reads so many at the freezing point, in steps of so many degrees Celsius.
    const fn above(mut self, zero: Ratio, step: Ratio, of: fn(f64) -> Value) -> Self {
        self.size = Size::From { zero, step };
        self.of = of;
        self
    }
}
