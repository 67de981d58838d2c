//! Reading a number as a shop writes it: decimals, fractions, sums and products, units, and the
//! names of sizes.
//!
//! Everything is kept as a ratio of whole numbers until the last step: `1 3/8` is eleven eighths
//! and not a sum of two roundings, and `25.4mm-.5in` is half an inch. What can be read in two ways
//! is not guessed: the error says both and how to write them.

mod grammar;

use core::ops::Range;

use crate::engine::quantity::{
    Angle, Force, HandRate, Length, Power, SpindleSpeed, Stiffness, Stress, SurfaceSpeed, System,
    Torque,
    ratio::Ratio,
    unit::{self, Unit},
    value::Value,
};

/// The largest number that is read: nothing in a home shop is larger, a slip of the finger is.
pub const LARGEST: f64 = 1e6;

/// Longer texts are no number, and are not looked at.
pub const LONGEST: usize = 120;

/// Why a text could not be read, and where in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EntryError {
    /// Bytes of the text that are at fault.
    pub span: Range<usize>,
    /// What is wrong, a full sentence.
    pub problem: String,
    /// What to do, a full sentence.
    pub hint: String,
}

impl core::fmt::Display for EntryError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} {}", self.problem, self.hint)
    }
}

impl core::error::Error for EntryError {}

fn fault<T>(
    span: Range<usize>,
    problem: impl Into<String>,
    hint: impl Into<String>,
) -> Result<T, EntryError> {
    Err(EntryError { span, problem: problem.into(), hint: hint.into() })
}

/// What a text is to be read as. A form field has one of these.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Measure {
    /// A length: in, mm, thou, tenths, µm, ft, m.
    Length,
    /// A chip or a feed per tooth or turn: the units of a length, shown finer.
    Chip,
    /// A spindle speed: rpm.
    SpindleSpeed,
    /// How fast a handwheel is turned: turns/min.
    HandRate,
    /// A surface speed: ft/min, m/min.
    SurfaceSpeed,
    /// A feed rate: in/min, mm/min.
    FeedRate,
    /// An angle: degrees, minutes and seconds, slopes.
    Angle,
    /// A force: lbf, N.
    Force,
    /// A torque: lbf in, lbf ft, N m.
    Torque,
    /// A power: hp, W, kW.
    Power,
    /// A specific cutting force, a stress or a pressure: psi, N/mm², bar.
    Stress,
    /// Power per removal rate: hp/(in³/min), J/mm³.
    UnitPower,
    /// A stiffness: N/µm.
    Stiffness,
    /// A removal rate: in³/min, cm³/min.
    RemovalRate,
    /// A flow of coolant or air: gal/min, L/min.
    Flow,
    /// A volume: in³, cm³, L.
    Volume,
    /// A mass: lb, kg.
    Mass,
    /// A temperature: °F, °C.
    Temperature,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
}

impl Measure {
    /// All of them.
    pub const ALL: [Self; 20] = [
        Self::Length,
        Self::Chip,
        Self::SpindleSpeed,
        Self::HandRate,
        Self::SurfaceSpeed,
        Self::FeedRate,
        Self::Angle,
        Self::Force,
        Self::Torque,
        Self::Power,
        Self::Stress,
        Self::UnitPower,
        Self::Stiffness,
        Self::RemovalRate,
        Self::Flow,
        Self::Volume,
        Self::Mass,
        Self::Temperature,
        Self::Number,
        Self::Count,
    ];

    /// The units it may be written in; none for a plain number.
    #[must_use]
    pub fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => unit::LENGTH,
            Self::Chip => unit::CHIP,
            Self::SpindleSpeed => unit::SPINDLE_SPEED,
            Self::HandRate => unit::HAND_RATE,
            Self::SurfaceSpeed => unit::SURFACE_SPEED,
            Self::FeedRate => unit::FEED_RATE,
            Self::Angle => unit::ANGLE,
            Self::Force => unit::FORCE,
            Self::Torque => unit::TORQUE,
            Self::Power => unit::POWER,
            Self::Stress => unit::STRESS,
            Self::UnitPower => unit::UNIT_POWER,
            Self::Stiffness => unit::STIFFNESS,
            Self::RemovalRate => unit::REMOVAL_RATE,
            Self::Flow => unit::FLOW,
            Self::Volume => unit::VOLUME,
            Self::Mass => unit::MASS,
            Self::Temperature => unit::TEMPERATURE,
            Self::Number | Self::Count => &[],
        }
    }

    /// The unit of a number written without one; none for a plain number.
    #[must_use]
    pub fn bare_unit(self, system: System) -> Option<&'static Unit> {
        let place = match (self, system) {
            (_, System::Inch)
            | (Self::SpindleSpeed | Self::HandRate | Self::Angle | Self::Stiffness, _) => 0,
            (Self::Torque, System::Metric) => 2,
            (_, System::Metric) => 1,
        };
        self.units().get(place)
    }

    /// The unit of a number written without one, as the trade writes it; empty for a plain number.
    #[must_use]
    pub fn unit(self, system: System) -> &'static str {
        self.bare_unit(system).map_or("", Unit::name)
    }

    /// True when inch and metric shops write it in different units.
    #[must_use]
    pub fn has_systems(self) -> bool {
        self.unit(System::Inch) != self.unit(System::Metric)
    }

    /// What a number of it is called, with its article.
    #[must_use]
    pub fn called(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Chip => "a feed per tooth or turn",
            Self::SpindleSpeed => "a spindle speed",
            Self::HandRate => "a hand rate",
            Self::SurfaceSpeed => "a surface speed",
            Self::FeedRate => "a feed rate",
            Self::Angle => "an angle",
            Self::Force => "a force",
            Self::Torque => "a torque",
            Self::Power => "a power",
            Self::Stress => "a pressure or stress",
            Self::UnitPower => "a unit power",
            Self::Stiffness => "a stiffness",
            Self::RemovalRate => "a removal rate",
            Self::Flow => "a flow",
            Self::Volume => "a volume",
            Self::Mass => "a mass",
            Self::Temperature => "a temperature",
            Self::Number | Self::Count => "a plain number",
        }
    }
}

/// A size that the trade calls by a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeName {
    /// `#7`, `No. 7`.
    Number(u32),
    /// `F`, `letter F`; upper case.
    Letter(char),
}

/// The sizes that may be called by a name.
#[derive(Clone, Copy, Debug)]
pub struct NamedSizes {
    /// The size in inches, if there is one of this name.
    pub find: fn(SizeName) -> Option<Ratio>,
    /// Which there are, a full sentence.
    pub known: &'static str,
}

/// How a text is read.
#[derive(Clone, Copy, Debug)]
pub struct Rules {
    /// What it is to be.
    pub measure: Measure,
    /// The unit system of a number without a unit.
    pub system: System,
    /// Sizes that may be called by a name, where it is a length.
    pub names: Option<NamedSizes>,
    /// True where it may be less than nothing.
    pub signed: bool,
}

impl Rules {
    /// For a form field: no names, nothing less than nothing.
    #[must_use]
    pub fn field(measure: Measure, system: System) -> Self {
        Self { measure, system, names: None, signed: false }
    }
}

/// What a text says, exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exact {
    /// In the first unit of its kind that is a base: mm, degrees, newtons (see [`unit`]); a plain
    /// number as it is.
    pub base: Ratio,
    /// The unit it was written in; the first one where there are several. None for a plain number.
    pub unit: Option<&'static Unit>,
    /// True where the text names a unit or a size, so that the system at hand does not matter.
    pub named: bool,
}

impl Exact {
    /// In a unit of its kind, as a float.
    #[must_use]
    pub fn to(self, unit: &Unit) -> f64 {
        unit.from_base(self.base)
            .map_or_else(|| unit.float_from_base(self.base.to_f64()), Ratio::to_f64)
    }
}

/// Reads a text by some rules and keeps it exactly.
///
/// # Errors
/// A sentence and a hint, at its place, for anything that is not a sum of its measure or can be
/// read in two ways.
pub fn exact(text: &str, rules: Rules) -> Result<Exact, EntryError> {
    grammar::read(text, rules)
}

/// Reads a text as a measure; a text without a unit is in the unit of `system`.
///
/// # Errors
/// As [`exact`], and for a number below zero.
pub fn read(measure: Measure, text: &str, system: System) -> Result<Value, EntryError> {
    read_by(text, Rules::field(measure, system))
}

/// Reads a text by some rules.
///
/// # Errors
/// As [`exact`].
pub fn read_by(text: &str, rules: Rules) -> Result<Value, EntryError> {
    let exact = exact(text, rules)?;
    match (rules.measure, exact.unit) {
        (Measure::Count, _) if exact.base.is_whole() => {
            Ok(Value::Count(exact.base.numerator() as u32))
        }
        (Measure::Count, _) => {
            fault(whole_of(text), "This is counted in whole ones.", "Type a whole number.")
        }
        (_, Some(unit)) => Ok((unit.of)(exact.to(unit))),
        (_, None) => Ok(Value::Ratio(exact.base.to_f64())),
    }
}

/// True when a readable text names its unit, so that the system at hand does not matter to it.
#[must_use]
pub fn names_unit(measure: Measure, text: &str) -> bool {
    exact(text, Rules::field(measure, System::Inch)).is_ok_and(|exact| exact.named)
}

/// A text without the blanks around it.
fn whole_of(text: &str) -> Range<usize> {
    let start = text.len() - text.trim_start().len();
    start..start + text.trim().len()
}

macro_rules! reader {
    ($(#[$doc:meta])* $name:ident($($system:ident)?) -> $type:ty, $measure:ident, $variant:ident) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// As [`read`].
        pub fn $name(text: &str $(, $system: System)?) -> Result<$type, EntryError> {
            #[allow(unused_variables, reason = "some measures have one system only")]
            let of = System::Inch;
            $(let of = $system;)?
            match read(Measure::$measure, text, of)? {
                Value::$variant(quantity) => Ok(quantity),
                other => unreachable!("a {:?} was read as {other:?}", Measure::$measure),
            }
        }
    };
}

reader! {
    /// Reads a length: `1.375`, `1 3/8`, `3/8`, `.25 in`, `3 mm`. A text without a unit is in
    /// inches or millimetres by `system`.
    length(system) -> Length, Length, Length
}
reader! {
    /// Reads a spindle speed: `2800`, `2800 rpm`.
    spindle_speed() -> SpindleSpeed, SpindleSpeed, SpindleSpeed
}
reader! {
    /// Reads a hand rate: `60`, `60 turns/min`.
    hand_rate() -> HandRate, HandRate, HandRate
}
reader! {
    /// Reads a surface speed: `300 ft/min`, `300 sfm`, `90 m/min`. A text without a unit is in
    /// feet or metres per minute by `system`.
    surface_speed(system) -> SurfaceSpeed, SurfaceSpeed, SurfaceSpeed
}
reader! {
    /// Reads an angle in degrees: `118`, `118°`, `30 deg`.
    angle() -> Angle, Angle, Angle
}
reader! {
    /// Reads a force: `20 lbf`, `90 N`. A text without a unit is in pounds-force or newtons by
    /// `system`.
    force(system) -> Force, Force, Force
}
reader! {
    /// Reads a torque: `20 lbf ft`, `27 N m`. A text without a unit is in pound-force inches or
    /// newton metres by `system`.
    torque(system) -> Torque, Torque, Torque
}
reader! {
    /// Reads a power: `1/2 hp`, `350 W`, `1.1 kW`. A text without a unit is in horsepower or
    /// watts by `system`.
    power(system) -> Power, Power, Power
}
reader! {
    /// Reads a specific cutting force: `1700 N/mm²`, `250000 psi`. A text without a unit is in
    /// pounds-force per square inch or newtons per square millimetre by `system`.
    stress(system) -> Stress, Stress, Stress
}
reader! {
    /// Reads a unit power: `0.3 hp` for horsepower per cubic inch a minute, `1.1 J/mm³`. A text
    /// without a unit is in the unit of `system`.
    unit_power(system) -> Stress, UnitPower, UnitPower
}
reader! {
    /// Reads a stiffness in newtons per micrometre: `5`, `5 N/µm`.
    stiffness() -> Stiffness, Stiffness, Stiffness
}
reader! {
    /// Reads a plain number: `2`, `0.5`, `1 1/2`.
    number() -> f64, Number, Ratio
}
reader! {
    /// Reads a whole number: `4`.
    count() -> u32, Count, Count
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(text: &str) -> f64 {
        length(text, System::Inch).expect(text).to_inch()
    }

    #[test]
    fn a_shop_writes_the_same_length_in_many_ways() {
        for text in
            ["1.375", "1 3/8", "1-3/8", "1–3/8", "11/8", " 1  3 / 8 ", "1.375 in", "1 3/8\""]
        {
            assert_eq!(inches(text), 1.375, "{text}");
        }
        for text in [".5", "0.5", "0,5", ",5", "1/2", "500 thou", "12.7mm", "12,7 MM", "12700 µm"]
        {
            assert!((inches(text) - 0.5).abs() < 1e-15, "{text}");
        }
        assert_eq!(inches("1."), 1.0);
        assert_eq!(inches("0"), 0.0);
    }

    #[test]
    fn a_bare_number_is_in_the_system_at_hand() {
        assert_eq!(length("3", System::Metric).unwrap(), Length::mm(3.0));
        assert_eq!(length("3", System::Inch).unwrap(), Length::inch(3.0));
        assert_eq!(length("3 in", System::Metric).unwrap(), Length::inch(3.0));
    }

    #[test]
    fn a_comma_is_a_point_only_where_it_cannot_be_a_thousand() {
        assert_eq!(inches("1,25"), 1.25);
        assert_eq!(inches("1,2505"), 1.2505);
        assert_eq!(inches("0,250"), 0.25);
        assert_eq!(inches("1250,125"), 1250.125);
        for text in ["1,250", "12,500", "125,000"] {
            let error = length(text, System::Inch).unwrap_err();
            assert!(error.hint.contains(&text.replace(',', ".")), "{error}");
            assert!(error.hint.contains(&text.replace(',', "")), "{error}");
        }
    }

    #[test]
    fn a_text_may_name_its_unit() {
        for (text, names) in
            [("3/8", false), ("0.0", false), ("1-3/8", false), ("3 mm", true), ("1\"", true)]
        {
            assert_eq!(names_unit(Measure::Length, text), names, "{text}");
        }
        assert!(!names_unit(Measure::Length, "3 furlong"));
    }

    #[test]
    fn each_measure_reads_its_own_units() {
        assert_eq!(spindle_speed("2800 rpm").unwrap(), SpindleSpeed::rpm(2800.0));
        assert_eq!(hand_rate("60").unwrap(), HandRate::turns_per_min(60.0));
        for text in ["300", "300 ft/min", "300 sfm"] {
            let speed = surface_speed(text, System::Inch).unwrap();
            assert_eq!(speed, SurfaceSpeed::ft_per_min(300.0), "{text}");
        }
        let metric = surface_speed("90", System::Metric).unwrap();
        assert_eq!(metric, surface_speed("90 m/min", System::Inch).unwrap());
        assert_eq!(angle("118°").unwrap(), Angle::degree(118.0));
        assert_eq!(force("90 N", System::Inch).unwrap(), Force::newton(90.0));
        assert_eq!(power("1/2", System::Inch).unwrap(), Power::horsepower(0.5));
        assert_eq!(power("1.1 kW", System::Inch).unwrap(), Power::watt(1100.0));
        assert_eq!(stress("1700 MPa", System::Inch).unwrap(), Stress::newton_per_mm2(1700.0));
        assert_eq!(unit_power("0.3", System::Inch).unwrap(), Stress::hp_per_inch3_min(0.3));
        assert_eq!(stiffness("5 N/um").unwrap(), Stiffness::newton_per_um(5.0));
        assert_eq!(number("1 1/2").unwrap(), 1.5);
        assert_eq!(count("4").unwrap(), 4);
        assert_eq!(
            read(Measure::Chip, "2 thou", System::Metric).unwrap(),
            Value::Chip(Length::thou(2.0))
        );
    }

    #[test]
    fn the_unit_shown_beside_a_bare_number_is_the_one_it_is_read_in() {
        for measure in Measure::ALL {
            for system in [System::Inch, System::Metric] {
                let bare = read(measure, "7", system).unwrap();
                let text = format!("7 {}", measure.unit(system));
                assert_eq!(read(measure, &text, system).unwrap(), bare, "{text}");
            }
        }
    }

    const DRILLS: NamedSizes = NamedSizes {
        find: |name| match name {
            SizeName::Number(25) => Ratio::new(1495, 10_000),
            SizeName::Number(7) => Ratio::new(201, 1000),
            SizeName::Letter('F') => Ratio::new(257, 1000),
            _ => None,
        },
        known: "Three drills are in this drawer.",
    };

    /// In millimetres, with names and signs.
    fn length_of(text: &str, system: System) -> Result<Ratio, EntryError> {
        let rules = Rules { measure: Measure::Length, system, names: Some(DRILLS), signed: true };
        exact(text, rules).map(|exact| exact.base)
    }

    #[test]
    fn a_sum_is_worked_out_exactly() {
        for (text, num, den) in [
            (".5+1/64", 33, 64),
            ("25.4mm-.5in", 1, 2),
            ("2*(3/16)+.030", 405, 1000),
            ("2 x .030", 6, 100),
            ("2×.030", 6, 100),
            ("60mm/2", 3000, 2540),
            ("60mm/(1+1)", 3000, 2540),
            ("1.5/2", 3, 4),
            ("100/2.54", 10_000, 254),
            ("5-3", 2, 1),
            ("2 - .5", 3, 2),
            ("1-(3/8)", 5, 8),
            ("1-3/8+.030", 1405, 1000),
            ("2-1-3/8", 5, 8),
            ("10 thou", 1, 100),
            ("2 tenths", 2, 10_000),
            ("5 µm", 50, 254_000),
            ("-1/4", -1, 4),
            ("1/4-3/8", -1, 8),
            ("(1 1/2) in", 3, 2),
            ("(60/2) mm", 3000, 2540),
            ("60mm/1in*2in", 12_000, 2540),
            ("5 ft 3 in", 63, 1),
            ("5' 3-1/2\"", 127, 2),
            ("5ft3in", 63, 1),
            ("2'", 24, 1),
            ("1 m - 1 in", 97_460, 2540),
            ("#25", 1495, 10_000),
            ("# 25", 1495, 10_000),
            ("No. 7", 201, 1000),
            ("no 7", 201, 1000),
            ("drill #7", 201, 1000),
            ("F", 257, 1000),
            ("f", 257, 1000),
            ("letter F", 257, 1000),
            ("#25 + 5 thou", 1545, 10_000),
            ("F+1/64 in", 272_625, 1_000_000),
            ("2*#25", 299, 1000),
        ] {
            let inches = length_of(text, System::Inch).unwrap_or_else(|e| panic!("{text}: {e}"));
            let wanted = Ratio::new(num * 254, den * 10).unwrap();
            assert_eq!(inches, wanted, "{text}");
        }
        assert_eq!(length_of("3 + .5mm", System::Metric), Ok(Ratio::new(7, 2).unwrap()));
    }

    #[test]
    fn an_angle_is_read_in_degrees_minutes_and_seconds_or_as_a_slope() {
        for (text, degrees) in [
            ("30° 15'", 30.25),
            ("30°15'36\"", 30.26),
            ("30 deg 15 arcmin", 30.25),
            ("1.5", 1.5),
            ("90/4", 22.5),
            ("12 in/ft", 45.0),
            ("1000 mm/m", 45.0),
            ("0.5 rad", 28.647_889_756_541_16),
        ] {
            let read = angle(text).unwrap_or_else(|e| panic!("{text}: {e}")).to_degree();
            assert!((read - degrees).abs() < 1e-11, "{text}: {read}");
        }
    }

    #[test]
    fn a_temperature_keeps_its_sign_and_its_zero() {
        let rules = |system| Rules { signed: true, ..Rules::field(Measure::Temperature, system) };
        for (text, num, den) in
            [("-40 °F", -40, 1), ("32", 0, 1), ("212 F", 100, 1), ("-10C", -10, 1)]
        {
            let read = exact(text, rules(System::Inch)).unwrap().base;
            assert_eq!(read, Ratio::new(num, den).unwrap(), "{text}");
        }
        assert_eq!(exact("-5", rules(System::Metric)).unwrap().base, Ratio::whole(-5));
        let error = exact("20 °C + 5 °C", rules(System::Inch)).unwrap_err();
        assert_eq!(error.problem, "These are not added up.");
    }

    #[test]
    fn what_can_be_read_in_two_ways_is_asked_about() {
        for (text, at, hint) in [
            ("1 - 3/8", 0..7, "Type 1 3/8, or 1-(3/8) to take away."),
            ("1 -3/8", 0..6, "Type 1 3/8, or 1-(3/8) to take away."),
            ("2+1-3/8", 2..7, "Type 1 3/8, or take away with brackets: 1-(3/8)."),
            ("1-3/8*2", 0..5, "Type 1 3/8, or take away with brackets: 1-(3/8)."),
            ("60mm+.5", 5..7, "Type .5 in or .5 mm."),
            (".5+10 thou", 0..2, "Type .5 in or .5 thou."),
            ("1,250", 0..5, "Type 1.250 or 1250."),
            ("5' 3", 3..4, "Type 3 in."),
            ("3 mil", 2..5, "Type thou or mm."),
            (
                "1/4-20",
                0..6,
                "Look a thread up under Threads, or type the subtraction with blanks.",
            ),
            ("10-32", 0..5, "Look a thread up under Threads, or type the subtraction with blanks."),
            ("2(3/16)", 0..2, "Type it: 2*(3/16)."),
        ] {
            let error = length_of(text, System::Inch).expect_err(text);
            assert_eq!((error.span.clone(), error.hint.as_str()), (at, hint), "{text}: {error}");
        }
        // With the millimetre at hand a number drill stands beside a number that it is not like.
        assert!(length_of("#25+1", System::Metric).is_err());
    }

    #[test]
    fn a_sum_that_cannot_be_worked_out_is_said_at_its_place() {
        let deep = format!("{}1{}", "(".repeat(9), ")".repeat(9));
        let long = "1+".repeat(61) + "1";
        for (text, at, problem) in [
            ("1+", 1..2, "After + a number is missing."),
            ("2*", 1..2, "After * a number is missing."),
            ("*2", 0..1, "Before * a number is missing."),
            ("(1+2", 0..1, "This bracket is not closed."),
            ("1)", 1..2, "This bracket closes nothing."),
            ("()", 0..1, "There is nothing in the bracket."),
            ("1/(2-2)", 2..7, "Nothing can be divided by zero."),
            ("1.5/0", 4..5, "Nothing can be divided by zero."),
            ("2in*3in", 0..7, "Two of them multiplied are not a length."),
            ("6in/2in", 0..7, "This comes to a plain number, and a length is wanted."),
            ("1 in + 30°", 9..11, "“°” is a unit of angle, not of length."),
            ("90 ft/min", 3..9, "“ft/min” is a unit of surface speed, not of length."),
            ("5 ft 13 in", 5..10, "12 in make one ft already."),
            ("5.5 ft 3 in", 0..6, "Before what follows this has to be whole ft."),
            ("#98", 0..3, "There is no drill #98."),
            ("letter AA", 0..9, "This does not begin with a number."),
            ("#", 0..1, "The number of the drill is missing."),
            ("#2.5", 0..2, "The number of the drill is missing."),
            ("1+x", 2..3, "There is no drill x."),
            ("600000*600000", 0..13, "This comes to a number that is too large."),
            ("1--2", 2..3, "Two signs stand side by side."),
            ("2*-1", 2..3, "Two signs stand side by side."),
            ("--1", 1..3, "Here a number is missing."),
            (&deep, 8..9, "There are too many brackets inside brackets."),
            (&long, 0..123, "This is too long to be a number."),
        ] {
            let error = length_of(text, System::Inch).expect_err(text);
            assert_eq!((error.problem.as_str(), error.span), (problem, at), "{text}");
            assert!(error.hint.ends_with('.'), "{text}: {}", error.hint);
        }
    }

    #[test]
    fn what_cannot_be_read_is_said_with_a_hint_at_its_place() {
        for (text, at, problem) in [
            ("", 0..0, "Nothing is entered."),
            ("  ", 0..2, "Nothing is entered."),
            ("1.2.3", 3..4, "A number has one point."),
            ("1..2", 2..3, "A number has one point."),
            (".", 0..1, "There is a point without digits."),
            ("3/0", 2..3, "Nothing can be divided by zero."),
            ("3/", 1..2, "Below the stroke of the fraction nothing stands."),
            ("/8", 0..1, "Above the stroke of the fraction nothing stands."),
            ("1/2/3", 3..4, "A fraction has one stroke."),
            ("1 1.5/2", 2..7, "A fraction is made of two whole numbers."),
            ("1.5 3/8", 0..7, "A decimal number cannot have a fraction after it."),
            ("1 9/8", 2..5, "After a whole number the fraction must be less than one."),
            ("1 2", 0..3, "There are two numbers."),
            ("1-", 1..2, "A dash stands alone."),
            ("-1", 0..1, "A sign has no place here."),
            ("3 furlong", 2..9, "“furlong” is not a unit of this."),
            ("1e5", 1..3, "“e5” is not a unit of this."),
            ("NaN", 0..3, "This does not begin with a number."),
            ("1000001", 0..7, "This number is too large."),
            ("1.0000000000000001", 0..18, "There are too many digits."),
        ] {
            let error = length(text, System::Inch).expect_err(text);
            assert_eq!((error.problem.as_str(), error.span.clone()), (problem, at), "{text}");
            assert!(error.hint.ends_with('.'), "{text}: {}", error.hint);
        }
        assert_eq!(count("2.5").unwrap_err().hint, "Type a whole number.");
        assert_eq!(number("3 mm").unwrap_err().hint, "Type the number alone.");
        assert_eq!(angle("3 mm").unwrap_err().hint, "Leave it away: the number is in °.");
        assert_eq!(force("3 mm", System::Inch).unwrap_err().hint, "Type lbf or N.");
        let hint = length("3 furlong", System::Inch).unwrap_err().hint;
        assert_eq!(hint, "Type in, mm, thou, tenths or µm.");
    }
}
