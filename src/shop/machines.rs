//! The owner's machines as entered: texts that are kept as typed, and the machine they describe.
//!
//! Four questions are enough: class, speeds, travel for one turn, and power, which may stay
//! unknown. Everything else refines.

use crate::{
    engine::{
        machine::{Axis, Class, Machine, Range, Speeds},
        quantity::{Force, HandRate, Length, Power, SpindleSpeed, Stiffness},
        question::{Field, InputError},
    },
    shop::{
        answers::Answers,
        checks::Fitting,
        typed::Typed,
        word::{self, words},
    },
};
use serde::{Deserialize, Serialize};

/// A machine as its owner entered it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MachineForm {
    /// What the owner calls it.
    pub name: String,
    /// Class by weight.
    #[serde(with = "word::saved")]
    pub class: Class,
    /// Belt or gear ranges.
    pub ranges: Vec<RangeForm>,
    /// Power at the cutter; may stay empty.
    pub power: Typed,
    /// The table axis that feeds.
    pub table: AxisForm,
    /// The quill's fine feed wheel; an empty lead means there is none.
    pub quill_wheel: AxisForm,
    /// Stiffness of spindle and table together in newtons per micrometre; may stay empty.
    pub stiffness: Typed,
    /// Drag of the table; may stay empty.
    pub table_drag: Typed,
    /// Turns of the wheel per minute that stay comfortable.
    pub comfortable_rate: Typed,
    /// Turns of the wheel per minute that stay steady.
    pub highest_rate: Typed,
    /// What else it has or has not, for the checks before a cut.
    pub fittings: Answers<Fitting>,
    /// From the table to the nose of a holder at the most; may stay empty.
    #[serde(default)]
    pub room: Typed,
}

/// One belt or gear range as entered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RangeForm {
    /// What the owner calls it; may stay empty.
    pub name: String,
    /// Steps, or any speed between two.
    #[serde(with = "word::saved")]
    pub drive: Drive,
    /// Speeds of the steps, blanks between them, in turns per minute.
    pub steps: String,
    /// Lowest speed of a variable drive.
    pub lowest: Typed,
    /// Highest speed of a variable drive.
    pub highest: Typed,
    /// Speed below which the drive gives torque and no longer all its power; may stay empty.
    pub base: Typed,
    /// What the switch says for clockwise seen from above; empty until the owner has looked.
    pub clockwise_label: String,
    /// What the switch says for counter-clockwise seen from above; empty until the owner has
    /// looked.
    pub counter_clockwise_label: String,
}

/// How a range gives its speeds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Drive {
    /// Fixed steps by belt or gear.
    #[default]
    Steps,
    /// Any speed between two.
    Variable,
}
words!(Drive: Steps = "steps", Variable = "variable");

/// A feed axis as entered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct AxisForm {
    /// Travel for one turn of the handwheel.
    pub lead: Typed,
    /// Marks on the dial for one turn; may stay empty.
    pub divisions: Typed,
    /// Lost motion when the wheel turns back; may stay empty.
    pub backlash: Typed,
}

impl Default for MachineForm {
    fn default() -> Self {
        Self {
            name: String::new(),
            class: Class::Bench,
            ranges: vec![RangeForm::default()],
            power: Typed::default(),
            table: AxisForm::default(),
            quill_wheel: AxisForm::default(),
            stiffness: Typed::default(),
            table_drag: Typed::default(),
            comfortable_rate: Typed::inch("40"),
            highest_rate: Typed::inch("60"),
            fittings: Answers::default(),
            room: Typed::default(),
        }
    }
}

impl MachineForm {
    /// The machine that is described.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field. With several ranges or axes the
    /// sentence names the one that is meant; [`RangeForm::read`] and [`AxisForm::read`] give the
    /// errors of one alone.
    pub fn read(&self) -> Result<Machine, Vec<InputError>> {
        let mut errors = Vec::new();
        let name = keep(&mut errors, self.read_name());
        let ranges = self.read_ranges(&mut errors);
        let power = keep(&mut errors, self.read_power());
        let table = keep_all(&mut errors, self.table.read(), "");
        let quill_wheel = if self.quill_wheel.is_empty() {
            Some(None)
        } else {
            keep_all(&mut errors, self.quill_wheel.read(), "Quill wheel: ").map(Some)
        };
        let stiffness = keep(&mut errors, self.read_stiffness());
        let table_drag = keep(&mut errors, self.read_table_drag());
        let rates = keep_all(&mut errors, self.read_rates(), "");
        match (name, power, table, quill_wheel, stiffness, table_drag, rates) {
            (
                Some(name),
                Some(power),
                Some(table),
                Some(quill_wheel),
                Some(stiffness),
                Some(table_drag),
                Some((comfortable_rate, highest_rate)),
            ) if errors.is_empty() => Ok(Machine {
                name,
                class: self.class,
                ranges,
                power,
                table,
                quill_wheel,
                stiffness,
                table_drag,
                comfortable_rate,
                highest_rate,
            }),
            _ => Err(errors),
        }
    }

    /// From the table to the nose of a holder at the most; `None` where it is not known.
    ///
    /// # Errors
    /// At its field, when it cannot be.
    pub fn read_room(&self) -> Result<Option<Length>, InputError> {
        if self.room.is_empty() {
            return Ok(None);
        }
        let room = self.room.length(Field::Room)?;
        if room <= Length::inch(60.0) {
            return Ok(Some(room));
        }
        Err(InputError::new(
            Field::Room,
            "No mill that is fed by hand has this much room.",
            "Measure from the table to the holder with the head or the quill all the way up.",
        ))
    }

    /// What a range is called: its name, or its place in the list.
    #[must_use]
    pub fn range_name(&self, index: usize) -> String {
        match self.ranges.get(index).map(|range| range.name.trim()) {
            Some(name) if !name.is_empty() => name.to_owned(),
            _ if self.ranges.len() == 1 => String::new(),
            _ => format!("range {}", index + 1),
        }
    }

    fn read_name(&self) -> Result<String, InputError> {
        let name = self.name.trim();
        if name.is_empty() {
            return Err(InputError::new(
                Field::MachineName,
                "The machine has no name.",
                "Give it one, such as “Bench mill”.",
            ));
        }
        Ok(name.to_owned())
    }

    fn read_ranges(&self, errors: &mut Vec<InputError>) -> Vec<Range> {
        if self.ranges.is_empty() {
            errors.push(InputError::new(
                Field::Speeds,
                "The machine has no speeds.",
                "Add a range with the speeds on its chart.",
            ));
        }
        let mut ranges = Vec::new();
        for (index, form) in self.ranges.iter().enumerate() {
            let name = self.range_name(index);
            let prefix =
                if self.ranges.len() > 1 { format!("{}: ", capital(&name)) } else { String::new() };
            if let Some(mut range) = keep_all(errors, form.read(), &prefix) {
                range.name = name;
                ranges.push(range);
            }
        }
        ranges
    }

    fn read_power(&self) -> Result<Option<Power>, InputError> {
        if self.power.is_empty() {
            return Ok(None);
        }
        let power = self.power.power(Field::Power)?;
        if (Power::watt(20.0)..=Power::kilowatt(20.0)).contains(&power) {
            return Ok(Some(power));
        }
        Err(InputError::new(
            Field::Power,
            "This is no power of a mill that is fed by hand.",
            "Look whether the plate says W, kW or hp, or leave it empty.",
        ))
    }

    fn read_stiffness(&self) -> Result<Option<Stiffness>, InputError> {
        if self.stiffness.is_empty() {
            return Ok(None);
        }
        let stiffness = self.stiffness.stiffness(Field::Stiffness)?;
        let possible = Stiffness::newton_per_um(0.1)..=Stiffness::newton_per_um(500.0);
        if possible.contains(&stiffness) {
            return Ok(Some(stiffness));
        }
        Err(InputError::new(
            Field::Stiffness,
            "No mill is as stiff, or as soft, as this.",
            "Benches have about 3 to 8, a knee mill about 20. Leave it empty when not measured.",
        ))
    }

    fn read_table_drag(&self) -> Result<Option<Force>, InputError> {
        if self.table_drag.is_empty() {
            return Ok(None);
        }
        let value = self.table_drag.force(Field::TableDrag)?;
        if value <= Force::newton(3000.0) {
            return Ok(Some(value));
        }
        Err(InputError::new(
            Field::TableDrag,
            "No hand moves a table that drags this much.",
            "Pull it with a spring scale, or leave it empty.",
        ))
    }

    fn read_rates(&self) -> Result<(HandRate, HandRate), Vec<InputError>> {
        let mut errors = Vec::new();
        let comfortable =
            keep(&mut errors, hand_rate(&self.comfortable_rate, Field::ComfortableRate));
        let highest = keep(&mut errors, hand_rate(&self.highest_rate, Field::HighestRate));
        match (comfortable, highest) {
            (Some(comfortable), Some(highest)) if comfortable <= highest => {
                Ok((comfortable, highest))
            }
            (Some(_), Some(_)) => Err(vec![InputError::new(
                Field::HighestRate,
                "The highest hand rate is below the comfortable one.",
                "Type a highest rate that is the comfortable one or more.",
            )]),
            _ => Err(errors),
        }
    }
}

impl RangeForm {
    /// The range that is described; its name is what was typed, and may be empty.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read(&self) -> Result<Range, Vec<InputError>> {
        let speeds = match self.drive {
            Drive::Steps => read_steps(&self.steps).map_err(|error| vec![error])?,
            Drive::Variable => self.read_variable()?,
        };
        Ok(Range {
            name: self.name.trim().to_owned(),
            speeds,
            clockwise_label: label(&self.clockwise_label),
            counter_clockwise_label: label(&self.counter_clockwise_label),
        })
    }

    fn read_variable(&self) -> Result<Speeds, Vec<InputError>> {
        let mut errors = Vec::new();
        let lowest = keep(&mut errors, speed(&self.lowest, Field::LowestSpeed));
        let highest = keep(&mut errors, speed(&self.highest, Field::HighestSpeed));
        let base = if self.base.is_empty() {
            Some(None)
        } else {
            keep(&mut errors, speed(&self.base, Field::BaseSpeed).map(Some))
        };
        if let (Some(lowest), Some(highest)) = (lowest, highest) {
            if highest < lowest {
                errors.push(InputError::new(
                    Field::HighestSpeed,
                    "The highest speed is below the lowest.",
                    "Type the slowest turns per minute first, the fastest second.",
                ));
            } else if base.flatten().is_some_and(|base| base < lowest || base > highest) {
                errors.push(InputError::new(
                    Field::BaseSpeed,
                    "This speed lies outside the range.",
                    "Type the speed below which the drive weakens, or leave it empty.",
                ));
            }
        }
        match (lowest, highest, base) {
            (Some(lowest), Some(highest), Some(base)) if errors.is_empty() => {
                Ok(Speeds::Continuous { lowest, highest, base })
            }
            _ => Err(errors),
        }
    }
}

impl AxisForm {
    /// True when no lead was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.lead.is_empty()
    }

    /// The axis that is described.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read(&self) -> Result<Axis, Vec<InputError>> {
        let mut errors = Vec::new();
        let lead = keep(&mut errors, self.read_lead());
        let divisions = keep(&mut errors, self.read_divisions());
        let backlash = keep(&mut errors, self.read_backlash());
        match (lead, divisions, backlash) {
            (Some(lead), Some(divisions), Some(backlash)) => Ok(Axis { lead, divisions, backlash }),
            _ => Err(errors),
        }
    }

    fn read_lead(&self) -> Result<Length, InputError> {
        let lead = self.lead.length(Field::Lead)?;
        if lead > Length::inch(1.0) {
            return Err(InputError::new(
                Field::Lead,
                "No handwheel moves a table more than an inch a turn.",
                "Turn it once and read what the table moved. Common are 0.0625 in, 0.1 in, 0.2 in \
                 and 2 to 5 mm.",
            ));
        }
        if lead < Length::inch(0.005) {
            return Err(InputError::new(
                Field::Lead,
                "This is less than a handwheel moves in a turn.",
                "Type the travel of a whole turn, not of one mark.",
            ));
        }
        Ok(lead)
    }

    fn read_divisions(&self) -> Result<Option<f64>, InputError> {
        if self.divisions.is_empty() {
            return Ok(None);
        }
        let marks = self.divisions.number(Field::Divisions)?;
        if (2.0..=1000.0).contains(&marks) {
            return Ok(Some(marks));
        }
        Err(InputError::new(
            Field::Divisions,
            format!("No dial has {} marks.", self.divisions.text.trim()),
            "Count the marks of one whole turn.",
        ))
    }

    fn read_backlash(&self) -> Result<Option<Length>, InputError> {
        if self.backlash.is_empty() {
            return Ok(None);
        }
        let backlash = self.backlash.length_or_nothing(Field::Backlash)?;
        if backlash <= Length::inch(0.25) {
            return Ok(Some(backlash));
        }
        Err(InputError::new(
            Field::Backlash,
            "A screw with this much lost motion cannot be milled with.",
            "Type what the dial turns before the table moves, such as 0.010 in, or leave it empty.",
        ))
    }
}

fn read_steps(text: &str) -> Result<Speeds, InputError> {
    let mut steps: Vec<SpindleSpeed> = Vec::new();
    let mut before = "";
    for word in text.split([' ', ',', ';', '\n', '\t']).filter(|word| !word.is_empty()) {
        let rpm = speed(&Typed::inch(word), Field::Speeds).map_err(|error| {
            let hint = if word.contains('-') || word.contains('–') {
                "Write steps with blanks between them. For any speed between two, choose the \
                 variable drive."
                    .to_owned()
            } else {
                error.hint
            };
            InputError::new(Field::Speeds, format!("At “{word}”: {}", error.problem), hint)
        })?;
        if let Some(last) = steps.last() {
            if rpm == *last {
                return Err(InputError::new(
                    Field::Speeds,
                    format!("{word} stands there twice."),
                    "Name each speed once.",
                ));
            }
            if rpm < *last {
                return Err(InputError::new(
                    Field::Speeds,
                    format!("{word} stands after {before}, but is slower."),
                    "Write the speeds from the slowest to the fastest.",
                ));
            }
        }
        steps.push(rpm);
        before = word;
    }
    if steps.is_empty() {
        return Err(InputError::new(
            Field::Speeds,
            "No speeds are typed here yet.",
            "Type them with blanks between, such as 70 115 190 310.",
        ));
    }
    Ok(Speeds::Steps(steps))
}

/// Back gears of large mills go down to some ten turns a minute.
const SLOWEST_RPM: f64 = 5.0;
/// Add-on spindles for small cutters go up to about this.
const FASTEST_RPM: f64 = 60_000.0;

fn speed(typed: &Typed, field: Field) -> Result<SpindleSpeed, InputError> {
    let speed = typed.spindle_speed(field)?;
    if (SpindleSpeed::rpm(SLOWEST_RPM)..=SpindleSpeed::rpm(FASTEST_RPM)).contains(&speed) {
        return Ok(speed);
    }
    Err(InputError::new(
        field,
        format!("No mill's spindle turns {} times a minute.", typed.text.trim()),
        format!(
            "Type turns per minute, from {SLOWEST_RPM} to {FASTEST_RPM}, without a comma inside \
             the number."
        ),
    ))
}

fn hand_rate(typed: &Typed, field: Field) -> Result<HandRate, InputError> {
    let rate = typed.hand_rate(field)?;
    if rate <= HandRate::turns_per_min(200.0) {
        return Ok(rate);
    }
    Err(InputError::new(
        field,
        format!("No hand turns a wheel {} times a minute.", typed.text.trim()),
        "Common are 40 comfortable and 60 at most.",
    ))
}

fn label(text: &str) -> Option<String> {
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

fn keep<T>(errors: &mut Vec<InputError>, result: Result<T, InputError>) -> Option<T> {
    result.map_err(|error| errors.push(error)).ok()
}

fn keep_all<T>(
    errors: &mut Vec<InputError>,
    result: Result<T, Vec<InputError>>,
    prefix: &str,
) -> Option<T> {
    result
        .map_err(|found| {
            errors.extend(found.into_iter().map(|mut error| {
                error.problem.insert_str(0, prefix);
                error
            }));
        })
        .ok()
}
