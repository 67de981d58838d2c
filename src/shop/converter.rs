//! The converter: the line that is typed, the lines before it, and the blocks a person owns.

use crate::{
    engine::{
        convert::{
            self, Line,
            blocks::{SETS, Set},
            form::{self, Form},
            hardness::Scale,
            readout, tolerance, units,
        },
        quantity::{
            System,
            entry::{EntryError, Measure},
            ratio::Ratio,
            unit::{ANGLE, LENGTH},
        },
    },
    shop::{
        query::{Query, pairs, word_unless},
        typed::Typed,
        word::{self, Word, words},
    },
};
use serde::{Deserialize, Serialize};

/// What a line is to be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the quantity it names")]
pub enum Quantity {
    #[default]
    Length,
    Angle,
    SurfaceSpeed,
    FeedRate,
    Feed,
    RemovalRate,
    Power,
    Torque,
    Force,
    Stress,
    Mass,
    Temperature,
    Volume,
    Flow,
    Hardness,
}
words!(
    Quantity: Length = "length", Angle = "angle", SurfaceSpeed = "surface_speed",
    FeedRate = "feed_rate", Feed = "feed", RemovalRate = "removal_rate", Power = "power",
    Torque = "torque", Force = "force", Stress = "stress", Mass = "mass",
    Temperature = "temperature", Volume = "volume", Flow = "flow", Hardness = "hardness",
);
words!(Scale: Hrc = "hrc", Hrb = "hrb", Hb = "hb", Hv = "hv", Hra = "hra");

impl Quantity {
    /// What its numbers are read as; a hardness is a plain number on its scale.
    #[must_use]
    pub fn measure(self) -> Measure {
        match self {
            Self::Length => Measure::Length,
            Self::Angle => Measure::Angle,
            Self::SurfaceSpeed => Measure::SurfaceSpeed,
            Self::FeedRate => Measure::FeedRate,
            Self::Feed => Measure::Chip,
            Self::RemovalRate => Measure::RemovalRate,
            Self::Power => Measure::Power,
            Self::Torque => Measure::Torque,
            Self::Force => Measure::Force,
            Self::Stress => Measure::Stress,
            Self::Mass => Measure::Mass,
            Self::Temperature => Measure::Temperature,
            Self::Volume => Measure::Volume,
            Self::Flow => Measure::Flow,
            Self::Hardness => Measure::Number,
        }
    }
}

/// A line with what it is to be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ConvertForm {
    /// What the line is to be.
    #[serde(with = "word::saved")]
    pub quantity: Quantity,
    /// The line as it was typed.
    pub line: Typed,
    /// The scale of a hardness.
    #[serde(with = "word::saved")]
    pub scale: Scale,
}

impl Default for ConvertForm {
    fn default() -> Self {
        Self { quantity: Quantity::Length, line: Typed::default(), scale: Scale::Hrc }
    }
}

impl ConvertForm {
    /// What the line says.
    ///
    /// # Errors
    /// A sentence and a hint, at its place in the line.
    pub fn read(&self) -> Result<Line, EntryError> {
        convert::read(self.quantity.measure(), &self.line.text, self.line.system)
    }

    /// The system that a line is not written in.
    #[must_use]
    pub fn other_system(&self, line: &Line) -> System {
        let measure = self.quantity.measure();
        let is_length = matches!(measure, Measure::Length | Measure::Chip);
        match line.exact.unit {
            Some(unit) if is_length && units::is_metric(unit) => System::Inch,
            Some(unit) if measure.bare_unit(System::Metric) == Some(unit) => System::Inch,
            Some(unit) if is_length || measure.bare_unit(System::Inch) == Some(unit) => {
                System::Metric
            }
            _ => self.line.system.other(),
        }
    }

    /// The same the other way round: in the unit of the other system, an angle in degrees and
    /// minutes or as a decimal. It is exactly the same where its digits can say it.
    #[must_use]
    pub fn swapped(&self) -> Option<Self> {
        let line = self.read().ok()?;
        let measure = self.quantity.measure();
        if self.quantity == Quantity::Angle {
            let degrees = units::reading(line.exact, &ANGLE[0]).digits;
            let minutes = form::degrees_minutes(line.exact.base, 0)?;
            let text =
                if self.line.text.contains(['\'', '′']) { degrees + "°" } else { minutes };
            return Some(Self { line: Typed::new(text, self.line.system), ..self.clone() });
        }
        // What names its unit is swapped out of that one, whatever is at hand.
        let system = self.other_system(&line);
        let unit = measure.bare_unit(system).filter(|_| measure.has_systems())?;
        let text = match line.limits {
            None => form::print(line.exact.base, Form::Decimal(unit))
                .map(|text| text.split(' ').next().unwrap_or_default().to_owned())
                .unwrap_or_else(|| units::reading(line.exact, unit).digits),
            Some(limits) => tolerance::inward(limits, unit, units::decimals(line.exact, unit))?
                .around(unit.from_base(line.exact.base)?)?,
        };
        Some(Self { line: Typed::new(text, system), ..self.clone() })
    }

    /// The query of the address that stands for this line, without the question mark:
    /// `line_in=1+3/8`.
    #[must_use]
    pub fn to_query(&self) -> String {
        let mut query = Query::default();
        query.put("of", word_unless(self.quantity, Quantity::default()));
        if self.quantity == Quantity::Hardness {
            query.put("scale", self.scale.word());
        }
        let key = match self.line.system {
            System::Inch => "line_in",
            System::Metric => "line_mm",
        };
        query.put(key, &self.line.text);
        query.text()
    }

    /// The form of a query. A word that is not known stands for the usual; a line is kept whatever
    /// it is, and reading it judges it.
    #[must_use]
    pub fn from_query(query: &str) -> Self {
        let mut form = Self::default();
        for (key, value) in pairs(query) {
            match key.as_str() {
                "of" => form.quantity = Quantity::from_word(&value).unwrap_or_default(),
                "scale" => form.scale = Scale::from_word(&value).unwrap_or(form.scale),
                "line_in" => form.line = Typed::inch(value),
                "line_mm" => form.line = Typed::mm(value),
                _ => {}
            }
        }
        form
    }
}

/// The part of the saved document that the converter keeps; what is missing in it is empty.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Converter {
    /// The lines typed before, the last one first.
    pub lines: Vec<ConvertForm>,
    /// The set of blocks that is owned; empty while none is chosen.
    pub blocks: String,
    /// Pieces of one's own, with blanks between.
    pub pieces: Typed,
    /// The step of the readout, as [`readout::STEPS`] names it; empty while none is chosen.
    pub readout: String,
}

/// Lines that are kept.
const LINES: usize = 50;

impl Converter {
    /// Keeps a line that can be read, in front of the others; the same one before goes.
    pub fn note(&mut self, form: &ConvertForm) {
        if form.line.is_empty() || form.read().is_err() || self.lines.first() == Some(form) {
            return;
        }
        self.lines.retain(|line| line != form);
        self.lines.insert(0, form.clone());
        self.lines.truncate(LINES);
    }

    /// The pieces there are, in millimetres: those typed, else those of the chosen set, else those
    /// of the first one.
    ///
    /// # Errors
    /// Where the typed ones cannot be read.
    pub fn owned(&self) -> Result<Vec<Ratio>, EntryError> {
        if self.pieces.is_empty() {
            return Ok(self.set().pieces());
        }
        let mm = &LENGTH[1];
        self.pieces
            .text
            .split_whitespace()
            .map(|piece| {
                let line = convert::read(Measure::Length, piece, self.pieces.system)?;
                Ok(mm.from_base(line.exact.base).unwrap_or(line.exact.base))
            })
            .collect()
    }

    /// The step of the readout: its name and its size in millimetres.
    #[must_use]
    pub fn step(&self) -> (&'static str, Ratio) {
        readout::STEPS
            .into_iter()
            .find(|(name, _)| *name == self.readout)
            .unwrap_or(readout::STEPS[0])
    }

    /// The chosen set of blocks, or the first one.
    #[must_use]
    pub fn set(&self) -> &'static Set {
        Set::called(&self.blocks).unwrap_or(&SETS[0])
    }
}
