//! Reading a number as a shop writes it.
//!
//! The grammar, from the top:
//!
//! ```text
//! entry  = amount [unit]
//! amount = fraction | decimal | whole (space | dash) fraction
//! ```
//!
//! Each rule is a method of [`Reader`], so that sums and products can be put above `amount` when a
//! screen asks for them. Digits are kept as a ratio of whole numbers until the last step: `1 3/8`
//! is eleven eighths and not a sum of two roundings.

use core::ops::Range;

use crate::engine::quantity::{
    Angle, Force, HandRate, Length, Power, SpindleSpeed, Stiffness, Stress, SurfaceSpeed, System,
    value::Value,
};

/// The largest number that is read: nothing in a home shop is larger, a slip of the finger is.
pub const LARGEST: f64 = 1e6;

/// Digits that a 64-bit float holds exactly, whatever they are.
const DIGITS: usize = 15;

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
    /// A length: in, mm, thou, µm.
    Length,
    /// A chip or a feed per tooth or turn: the units of a length, shown finer.
    Chip,
    /// A spindle speed: rpm.
    SpindleSpeed,
    /// How fast a handwheel is turned: turns/min.
    HandRate,
    /// A surface speed: ft/min, m/min.
    SurfaceSpeed,
    /// An angle: degrees.
    Angle,
    /// A force: lbf, N.
    Force,
    /// A power: hp, W, kW.
    Power,
    /// A specific cutting force: psi, N/mm².
    Stress,
    /// Power per removal rate: hp/(in³/min), J/mm³.
    UnitPower,
    /// A stiffness: N/µm.
    Stiffness,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
}

/// A unit as it may be written, and the quantity that a number of it is.
struct Unit {
    /// Without spaces; the case does not matter. The first one is shown.
    names: &'static [&'static str],
    of: fn(f64) -> Value,
}

impl Unit {
    fn is_called(&self, lower_case: &str) -> bool {
        self.names.iter().any(|name| name.to_lowercase() == lower_case)
    }
}

const INCH_NAMES: &[&str] = &["in", "inch", "inches", "\"", "”", "″"];
const THOU_NAMES: &[&str] = &["thou"];
// Greek mu, the micro sign and the plain letter.
const UM_NAMES: &[&str] = &["µm", "μm", "um"];

const LENGTH: &[Unit] = &[
    Unit { names: INCH_NAMES, of: |v| Value::Length(Length::inch(v)) },
    Unit { names: &["mm"], of: |v| Value::Length(Length::mm(v)) },
    Unit { names: THOU_NAMES, of: |v| Value::Length(Length::thou(v)) },
    Unit { names: UM_NAMES, of: |v| Value::Length(Length::um(v)) },
];
const CHIP: &[Unit] = &[
    Unit { names: INCH_NAMES, of: |v| Value::Chip(Length::inch(v)) },
    Unit { names: &["mm"], of: |v| Value::Chip(Length::mm(v)) },
    Unit { names: THOU_NAMES, of: |v| Value::Chip(Length::thou(v)) },
    Unit { names: UM_NAMES, of: |v| Value::Chip(Length::um(v)) },
];
const SPINDLE_SPEED: &[Unit] = &[Unit {
    names: &["rpm", "rev/min", "r/min"],
    of: |v| Value::SpindleSpeed(SpindleSpeed::rpm(v)),
}];
const HAND_RATE: &[Unit] = &[Unit {
    names: &["turns/min", "turn/min", "tpm"],
    of: |v| Value::HandRate(HandRate::turns_per_min(v)),
}];
const SURFACE_SPEED: &[Unit] = &[
    Unit {
        names: &["ft/min", "sfm", "sfpm", "fpm"],
        of: |v| Value::SurfaceSpeed(SurfaceSpeed::ft_per_min(v)),
    },
    Unit { names: &["m/min"], of: |v| Value::SurfaceSpeed(SurfaceSpeed::m_per_min(v)) },
];
const ANGLE: &[Unit] =
    &[Unit { names: &["°", "deg", "degree", "degrees"], of: |v| Value::Angle(Angle::degree(v)) }];
const FORCE: &[Unit] = &[
    Unit { names: &["lbf", "lb", "lbs"], of: |v| Value::Force(Force::lbf(v)) },
    Unit { names: &["N"], of: |v| Value::Force(Force::newton(v)) },
];
const POWER: &[Unit] = &[
    Unit { names: &["hp"], of: |v| Value::Power(Power::horsepower(v)) },
    Unit { names: &["W", "watt", "watts"], of: |v| Value::Power(Power::watt(v)) },
    Unit { names: &["kW"], of: |v| Value::Power(Power::kilowatt(v)) },
];
const STRESS: &[Unit] = &[
    Unit { names: &["psi"], of: |v| Value::Stress(Stress::psi(v)) },
    Unit { names: &["N/mm²", "N/mm2", "MPa"], of: |v| Value::Stress(Stress::newton_per_mm2(v)) },
];
const UNIT_POWER: &[Unit] = &[
    Unit {
        names: &["hp/(in³/min)", "hp/(in3/min)", "hp"],
        of: |v| Value::UnitPower(Stress::hp_per_inch3_min(v)),
    },
    Unit { names: &["J/mm³", "J/mm3"], of: |v| Value::UnitPower(Stress::joule_per_mm3(v)) },
];
const STIFFNESS: &[Unit] = &[Unit {
    names: &["N/µm", "N/μm", "N/um"],
    of: |v| Value::Stiffness(Stiffness::newton_per_um(v)),
}];

impl Measure {
    /// The units it may be written in, and the place of the one a bare number is in.
    fn units(self, system: System) -> (&'static [Unit], usize) {
        let second = usize::from(system == System::Metric);
        match self {
            Self::Length => (LENGTH, second),
            Self::Chip => (CHIP, second),
            Self::SpindleSpeed => (SPINDLE_SPEED, 0),
            Self::HandRate => (HAND_RATE, 0),
            Self::SurfaceSpeed => (SURFACE_SPEED, second),
            Self::Angle => (ANGLE, 0),
            Self::Force => (FORCE, second),
            Self::Power => (POWER, second),
            Self::Stress => (STRESS, second),
            Self::UnitPower => (UNIT_POWER, second),
            Self::Stiffness => (STIFFNESS, 0),
            Self::Number | Self::Count => (&[], 0),
        }
    }

    /// The unit of a number written without one, as the trade writes it; empty for a plain number.
    #[must_use]
    pub fn unit(self, system: System) -> &'static str {
        match (self, system) {
            (Self::Number | Self::Count, _) => "",
            (Self::Length | Self::Chip, System::Inch) => "in",
            (Self::Length | Self::Chip, System::Metric) => "mm",
            (Self::SpindleSpeed, _) => "rpm",
            (Self::HandRate, _) => "turns/min",
            (Self::SurfaceSpeed, System::Inch) => "ft/min",
            (Self::SurfaceSpeed, System::Metric) => "m/min",
            (Self::Angle, _) => "°",
            (Self::Force, System::Inch) => "lbf",
            (Self::Force, System::Metric) => "N",
            (Self::Power, System::Inch) => "hp",
            (Self::Power, System::Metric) => "W",
            (Self::Stress, System::Inch) => "psi",
            (Self::Stress, System::Metric) => "N/mm²",
            (Self::UnitPower, System::Inch) => "hp/(in³/min)",
            (Self::UnitPower, System::Metric) => "J/mm³",
            (Self::Stiffness, _) => "N/µm",
        }
    }

    /// True when inch and metric shops write it in different units.
    #[must_use]
    pub fn has_systems(self) -> bool {
        self.unit(System::Inch) != self.unit(System::Metric)
    }
}

/// Reads a text as a measure; a text without a unit is in the unit of `system`.
///
/// # Errors
/// A sentence and a hint for anything that is not one plain, finite number of a known unit.
pub fn read(measure: Measure, text: &str, system: System) -> Result<Value, EntryError> {
    let mut reader = Reader { text, at: 0 };
    reader.skip_space();
    if reader.rest().is_empty() {
        return fault(0..text.len(), "Nothing is entered.", "Type a number.");
    }
    let start = reader.at;
    let amount = reader.amount()?;
    let number = amount.value();
    if number > LARGEST {
        return fault(
            start..reader.at,
            "This number is too large.",
            "Look for a missing point, or for two numbers run together.",
        );
    }
    let (units, bare) = measure.units(system);
    let unit = reader.unit(units, bare, measure.unit(system))?;
    match measure {
        Measure::Number => Ok(Value::Ratio(number)),
        Measure::Count if amount.den == 1 => Ok(Value::Count(number as u32)),
        Measure::Count => {
            fault(start..reader.at, "This is counted in whole ones.", "Type a whole number.")
        }
        _ => Ok(unit.map_or(Value::Ratio(number), |unit| (unit.of)(number))),
    }
}

/// True when a readable text names its unit, so that the system at hand does not matter to it.
#[must_use]
pub fn names_unit(measure: Measure, text: &str) -> bool {
    let is_number =
        |c: char| c.is_ascii_digit() || c.is_whitespace() || is_point(c) || is_dash(c) || c == '/';
    read(measure, text, System::Inch).is_ok() && !text.chars().all(is_number)
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

/// An amount as a ratio of whole numbers.
#[derive(Clone, Copy)]
struct Amount {
    num: u128,
    den: u128,
}

impl Amount {
    fn value(self) -> f64 {
        self.num as f64 / self.den as f64
    }
}

/// The digits of one number: how they were written decides what may stand beside them.
struct Digits {
    amount: Amount,
    whole: bool,
    span: Range<usize>,
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl Reader<'_> {
    fn rest(&self) -> &str {
        &self.text[self.at..]
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip_space(&mut self) {
        self.at = self.text.len() - self.rest().trim_start().len();
    }

    /// The place of the character at hand, for an error that points to it.
    fn here(&self) -> Range<usize> {
        self.at..self.at + self.peek().map_or(0, char::len_utf8)
    }

    /// `fraction | decimal | whole (space | dash) fraction`
    fn amount(&mut self) -> Result<Amount, EntryError> {
        let first = self.digits()?;
        let after_first = self.at;
        self.skip_space();
        let dash = self.peek().is_some_and(is_dash);
        if self.peek() == Some('/') {
            return self.fraction(&first);
        }
        if dash {
            self.at += self.here().len();
            self.skip_space();
        }
        if !dash && !self.peek().is_some_and(|c| c.is_ascii_digit() || is_point(c)) {
            self.at = after_first;
            return Ok(first.amount);
        }
        if dash && !self.peek().is_some_and(|c| c.is_ascii_digit()) {
            return fault(
                first.span.end..self.at,
                "A dash stands alone.",
                "A dash joins a whole number to its fraction: 1-3/8.",
            );
        }
        let second = self.digits()?;
        self.skip_space();
        if self.peek() != Some('/') {
            return fault(
                first.span.start..second.span.end,
                "There are two numbers.",
                "Type one, or a whole number with its fraction: 1 3/8.",
            );
        }
        let part = self.fraction(&second)?;
        if !first.whole {
            return fault(
                first.span.start..self.at,
                "A decimal number cannot have a fraction after it.",
                "Type 1 3/8 or 1.375.",
            );
        }
        if part.num >= part.den {
            return fault(
                second.span.start..self.at,
                "After a whole number the fraction must be less than one.",
                "Look at the digits again.",
            );
        }
        Ok(Amount { num: first.amount.num * part.den + part.num, den: part.den })
    }

    /// The stroke and what is below it; what is above has been read.
    fn fraction(&mut self, above: &Digits) -> Result<Amount, EntryError> {
        let stroke = self.here();
        self.at = stroke.end;
        self.skip_space();
        if !self.peek().is_some_and(|c| c.is_ascii_digit() || is_point(c)) {
            return fault(
                stroke,
                "Below the stroke of the fraction nothing stands.",
                "Type the lower number too: 3/8.",
            );
        }
        let below = self.digits()?;
        if !above.whole || !below.whole {
            return fault(
                above.span.start..below.span.end,
                "A fraction is made of two whole numbers.",
                "Type it like 3/8, or type a decimal number.",
            );
        }
        if below.amount.num == 0 {
            return fault(
                below.span,
                "Nothing can be divided by zero.",
                "Type a lower number such as 2, 4, 8, 16, 32 or 64.",
            );
        }
        let after = self.at;
        self.skip_space();
        if self.peek() == Some('/') {
            return fault(
                self.here(),
                "A fraction has one stroke.",
                "Type one fraction such as 3/8.",
            );
        }
        self.at = after;
        Ok(Amount { num: above.amount.num, den: below.amount.num })
    }

    /// `375`, `1.375`, `.5`, `1.`, `0,5`
    fn digits(&mut self) -> Result<Digits, EntryError> {
        let start = self.at;
        let run: &str = {
            let rest = self.rest();
            let length = rest.find(|c: char| !(c.is_ascii_digit() || is_point(c)));
            &rest[..length.unwrap_or(rest.len())]
        };
        let span = start..start + run.len();
        if run.is_empty() {
            return self.no_digits();
        }
        let mut points = run.char_indices().filter(|(_, c)| is_point(*c));
        let point = points.next();
        if let Some((second, c)) = points.next() {
            return fault(
                start + second..start + second + c.len_utf8(),
                "A number has one point.",
                "Take the second one away.",
            );
        }
        let (whole, decimals) = match point {
            Some((place, _)) => (&run[..place], &run[place + 1..]),
            None => (run, ""),
        };
        if whole.is_empty() && decimals.is_empty() {
            return fault(span, "There is a point without digits.", "Type a number such as 0.5.");
        }
        if matches!(point, Some((_, ','))) && could_be_thousands(whole, decimals) {
            return fault(
                span,
                format!("{run} can be read in two ways."),
                format!("Type {whole}.{decimals} or {whole}{decimals}."),
            );
        }
        let digits = [whole, decimals].concat();
        if digits.trim_start_matches('0').len() > DIGITS || decimals.len() > DIGITS {
            return fault(span, "There are too many digits.", "Six decimals are plenty.");
        }
        // At most fifteen digits and as many decimals: both fit, and neither can fail to parse.
        let num = digits.bytes().fold(0_u128, |n, digit| n * 10 + u128::from(digit - b'0'));
        let den = 10_u128.pow(decimals.len() as u32);
        self.at = span.end;
        Ok(Digits { amount: Amount { num, den }, whole: point.is_none(), span })
    }

    fn no_digits<T>(&self) -> Result<T, EntryError> {
        let here = self.here();
        match self.peek() {
            Some(c) if is_dash(c) || c == '+' => fault(
                here,
                "A sign has no place here.",
                "Type the size alone; what it is for decides the direction.",
            ),
            Some('/') => fault(
                here,
                "Above the stroke of the fraction nothing stands.",
                "Type the upper number too: 3/8.",
            ),
            _ => fault(
                self.at..self.text.len(),
                "This does not begin with a number.",
                "Type a number such as 1.375 or 1 3/8.",
            ),
        }
    }

    /// The unit after the amount, and nothing after that.
    fn unit(
        &mut self,
        units: &'static [Unit],
        bare: usize,
        shown: &str,
    ) -> Result<Option<&'static Unit>, EntryError> {
        self.skip_space();
        let rest = self.rest().trim_end();
        let span = self.at..self.at + rest.len();
        let written: String =
            rest.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect();
        if written.is_empty() {
            return Ok(units.get(bare));
        }
        if let Some(unit) = units.iter().find(|unit| unit.is_called(&written)) {
            return Ok(Some(unit));
        }
        if units.is_empty() {
            return fault(
                span,
                format!("This is a plain number, “{rest}” has no place in it."),
                "Type the number alone.",
            );
        }
        let known: Vec<&str> = units.iter().map(|unit| unit.names[0]).collect();
        let hint = match known.as_slice() {
            [_] => format!("Leave it away: the number is in {shown}."),
            [others @ .., last] => format!("Type {} or {last}.", others.join(", ")),
            [] => String::new(),
        };
        fault(span, format!("“{rest}” is not a unit of this."), hint)
    }
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–' | '−')
}

fn is_point(c: char) -> bool {
    matches!(c, '.' | ',')
}

/// `1,250` is one and a quarter to one shop and twelve hundred and fifty to another. `0,250`,
/// `1,25` and `1250,000` are not: no group of thousands looks like that.
fn could_be_thousands(whole: &str, decimals: &str) -> bool {
    decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0')
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
        let all = [
            Measure::Length,
            Measure::Chip,
            Measure::SpindleSpeed,
            Measure::HandRate,
            Measure::SurfaceSpeed,
            Measure::Angle,
            Measure::Force,
            Measure::Power,
            Measure::Stress,
            Measure::UnitPower,
            Measure::Stiffness,
            Measure::Number,
            Measure::Count,
        ];
        for measure in all {
            for system in [System::Inch, System::Metric] {
                let bare = read(measure, "7", system).unwrap();
                let text = format!("7 {}", measure.unit(system));
                assert_eq!(read(measure, &text, system).unwrap(), bare, "{text}");
            }
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
            ("1.5/2", 0..5, "A fraction is made of two whole numbers."),
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
        assert_eq!(length("3 m", System::Inch).unwrap_err().hint, "Type in, mm, thou or µm.");
    }
}
