//! What a person typed, kept as it was typed.

use crate::engine::{
    convert,
    quantity::{
        Angle, Force, HandRate, Length, Power, SpindleSpeed, Stiffness, Stress, SurfaceSpeed,
        System, Torque,
        entry::{self, EntryError, Measure},
        value::Value,
    },
    question::{Field, InputError},
};
use serde::{Deserialize, Serialize};

/// A text as it was typed, and the unit system that was on the screen then.
///
/// A screen that changes its units never touches it: 60 mm stays 60 mm.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Typed {
    /// The text.
    pub text: String,
    /// The unit system of a text that names no unit.
    pub system: System,
}

/// Finds what was typed by its field.
macro_rules! typed_at {
    ($form:ident: $($field:ident => $($place:ident).+,)+) => {
        impl $form {
            /// What was typed at a field, `None` for a field that is chosen or stands elsewhere.
            #[must_use]
            pub fn typed(
                &self,
                field: $crate::engine::question::Field,
            ) -> Option<&$crate::shop::typed::Typed> {
                match field {
                    $($crate::engine::question::Field::$field => Some(&self.$($place).+),)+
                    _ => None,
                }
            }
            /// The place of what is typed at a field, `None` for a field that is chosen or stands
            /// elsewhere.
            pub fn typed_mut(
                &mut self,
                field: $crate::engine::question::Field,
            ) -> Option<&mut $crate::shop::typed::Typed> {
                match field {
                    $($crate::engine::question::Field::$field => Some(&mut self.$($place).+),)+
                    _ => None,
                }
            }
        }
    };
}
pub(in crate::shop) use typed_at;

/// The readers, each for one kind of quantity.
macro_rules! readers {
    ($($(#[$doc:meta])* $name:ident -> $type:ty = $read:expr;)+) => {$(
        $(#[$doc])*
        ///
        /// # Errors
        /// At `field`, when it is empty, cannot be read, or is not more than nothing.
        pub fn $name(&self, field: Field) -> Result<$type, InputError> {
            let read: fn(&str, System) -> Result<$type, EntryError> = $read;
            let quantity = read(&self.text, self.system).map_err(|e| at(field, e))?;
            if quantity.is_positive() { Ok(quantity) } else { Err(self.is_nothing(field)) }
        }
    )+};
}

impl Typed {
    /// A text in a unit system.
    pub fn new(text: impl Into<String>, system: System) -> Self {
        Self { text: text.into(), system }
    }
    /// A text that counts in inches unless it says otherwise.
    pub fn inch(text: impl Into<String>) -> Self {
        Self::new(text, System::Inch)
    }
    /// A text that counts in millimetres unless it says otherwise.
    pub fn mm(text: impl Into<String>) -> Self {
        Self::new(text, System::Metric)
    }
    /// True when nothing was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty()
    }
    /// The text with its unit, as it was typed: `10 mm`.
    #[must_use]
    pub fn with_unit(&self, field: Field) -> String {
        let text = self.text.trim();
        // Not read for it: the board is on the screen before all that reads a text has come.
        let is_number =
            |c: char| c.is_ascii_digit() || c.is_whitespace() || "+-−*×/.,()".contains(c);
        if !text.chars().all(is_number) {
            return text.to_owned();
        }
        format!("{text} {}", measure(field).unit(self.system)).trim_end().to_owned()
    }
    /// The same, ready to be typed into: an empty text takes the system at hand.
    #[must_use]
    pub fn begun_in(&self, system: System) -> Self {
        if self.is_empty() { Self::new("", system) } else { self.clone() }
    }
    /// What stands there, or `None` when nothing was typed.
    #[must_use]
    pub fn given(&self) -> Option<&Self> {
        (!self.is_empty()).then_some(self)
    }

    readers! {
        /// The length.
        length -> Length = convert::length;
        /// The spindle speed.
        spindle_speed -> SpindleSpeed = |text, _| entry::spindle_speed(text);
        /// The hand rate.
        hand_rate -> HandRate = |text, _| entry::hand_rate(text);
        /// The surface speed.
        surface_speed -> SurfaceSpeed = entry::surface_speed;
        /// The specific cutting force.
        stress -> Stress = entry::stress;
        /// The unit power.
        unit_power -> Stress = entry::unit_power;
        /// The force.
        force -> Force = entry::force;
        /// The power.
        power -> Power = entry::power;
        /// The stiffness.
        stiffness -> Stiffness = |text, _| entry::stiffness(text);
        /// The torque.
        torque -> Torque = entry::torque;
        /// The angle.
        angle -> Angle = |text, _| entry::angle(text);
    }

    /// The length, which may be nothing.
    ///
    /// # Errors
    /// At `field`, when it is empty or cannot be read.
    pub fn length_or_nothing(&self, field: Field) -> Result<Length, InputError> {
        if !is_signed(field) {
            return convert::length(&self.text, self.system).map_err(|e| at(field, e));
        }
        match convert::signed(Measure::Length, &self.text, self.system).map_err(|e| at(field, e))? {
            Value::Length(length) => Ok(length),
            other => unreachable!("a length was read as {other:?}"),
        }
    }

    /// The angle, which may be nothing or less.
    ///
    /// # Errors
    /// At `field`, when it is empty or cannot be read.
    pub fn angle_or_nothing(&self, field: Field) -> Result<Angle, InputError> {
        match convert::signed(Measure::Angle, &self.text, self.system).map_err(|e| at(field, e))? {
            Value::Angle(angle) => Ok(angle),
            other => unreachable!("an angle was read as {other:?}"),
        }
    }

    /// The whole number, from 1 to `most`.
    ///
    /// # Errors
    /// At `field`, when it is empty, cannot be read, is no whole number or lies outside.
    pub fn count(&self, field: Field, most: u32) -> Result<u32, InputError> {
        let count = entry::count(&self.text).map_err(|e| at(field, e))?;
        if count == 0 {
            return Err(self.is_nothing(field));
        }
        if count > most {
            return Err(InputError::new(
                field,
                format!("{} is more than this can be.", self.text.trim()),
                format!("Type a whole number from 1 to {most}."),
            ));
        }
        Ok(count)
    }

    /// The plain number.
    ///
    /// # Errors
    /// At `field`, when it is empty, cannot be read, or is not more than nothing.
    pub fn number(&self, field: Field) -> Result<f64, InputError> {
        let number = entry::number(&self.text).map_err(|e| at(field, e))?;
        if number > 0.0 { Ok(number) } else { Err(self.is_nothing(field)) }
    }

    /// The plain number, which may be nothing or less.
    ///
    /// # Errors
    /// At `field`, when it is empty or cannot be read.
    pub fn number_or_nothing(&self, field: Field) -> Result<f64, InputError> {
        entry::number(&self.text).map_err(|e| at(field, e))
    }

    /// The whole number, which may be nothing.
    ///
    /// # Errors
    /// At `field`, when it is empty, cannot be read or is no whole number.
    pub fn whole_or_nothing(&self, field: Field) -> Result<u32, InputError> {
        entry::count(&self.text).map_err(|e| at(field, e))
    }

    fn is_nothing(&self, field: Field) -> InputError {
        InputError::new(
            field,
            format!("{} is too little: it must be more than 0.", self.text.trim()),
            "Type a number above 0.",
        )
    }
}

/// True for a field of places or readings, which may be less than nothing.
#[must_use]
pub fn is_signed(field: Field) -> bool {
    matches!(
        field,
        Field::CentreX
            | Field::CentreY
            | Field::StartAngle
            | Field::StepX
            | Field::StepY
            | Field::Turned
            | Field::DatumX
            | Field::DatumY
            | Field::SkewAlong
            | Field::SkewOff
            | Field::PlaceX
            | Field::PlaceY
            | Field::PlaceAngle
            | Field::Face
            | Field::Travel
            | Field::LeftReading
            | Field::RightReading
            | Field::Wall
    )
}

/// What the text at a field is to be read as; plain words and choices read as a number.
#[must_use]
pub fn measure(field: Field) -> Measure {
    match field {
        Field::Diameter
        | Field::FluteLength
        | Field::Shank
        | Field::Stickout
        | Field::CornerRadius
        | Field::Thickness
        | Field::Pitch
        | Field::Width
        | Field::Depth
        | Field::CutLength
        | Field::Pilot
        | Field::Hole
        | Field::Runout
        | Field::Lead
        | Field::Backlash
        | Field::FullThread
        | Field::Spare
        | Field::Plate
        | Field::Spot
        | Field::Chamfer
        | Field::Counterbore
        | Field::CounterboreDepth
        | Field::Countersink
        | Field::Wire
        | Field::OverWires
        | Field::PitchDiameter
        | Field::CardEdge
        | Field::MeasuredDiameter
        | Field::CountedOver
        | Field::Pieces
        | Field::Circle
        | Field::Radius
        | Field::CentreX
        | Field::CentreY
        | Field::StepX
        | Field::StepY
        | Field::SizeX
        | Field::SizeY
        | Field::DatumX
        | Field::DatumY
        | Field::SkewAlong
        | Field::SkewOff
        | Field::PartX
        | Field::PartY
        | Field::TableX
        | Field::TableY
        | Field::PlaceX
        | Field::PlaceY
        | Field::PlaceRadius
        | Field::FinderTip
        | Field::Face
        | Field::Travel
        | Field::JawHeight
        | Field::PartHeight
        | Field::PartWidth
        | Field::SideCut
        | Field::Air
        | Field::Grip
        | Field::ParallelThickness
        | Field::ParallelHeight
        | Field::HoleCentre
        | Field::BoltDiameter
        | Field::ToWork
        | Field::ToHeel
        | Field::LeftReading
        | Field::RightReading
        | Field::Sweep
        | Field::RowStep
        | Field::Pivot
        | Field::PartLength
        | Field::Wall
        | Field::Allowance
        | Field::SlotWidth
        | Field::LargestPass
        | Field::FinishPass
        | Field::SineBar
        | Field::Room
        | Field::Stack => Measure::Length,
        Field::Feed | Field::Chip => Measure::Chip,
        Field::Helix
        | Field::EnteringAngle
        | Field::PointAngle
        | Field::FlankAngle
        | Field::StartAngle
        | Field::StepAngle
        | Field::Span
        | Field::Turned
        | Field::PlaceAngle
        | Field::SineAngle => Measure::Angle,
        Field::SpindleSpeed
        | Field::LowestSpeed
        | Field::HighestSpeed
        | Field::BaseSpeed
        | Field::Speeds => Measure::SpindleSpeed,
        Field::SurfaceSpeed => Measure::SurfaceSpeed,
        Field::CuttingForce => Measure::Stress,
        Field::UnitPower => Measure::UnitPower,
        Field::Power => Measure::Power,
        Field::Stiffness => Measure::Stiffness,
        Field::TableDrag | Field::SideForce => Measure::Force,
        Field::Torque => Measure::Torque,
        Field::ComfortableRate | Field::HighestRate => Measure::HandRate,
        Field::Teeth
        | Field::Passes
        | Field::Holes
        | Field::Rows
        | Field::Copies
        | Field::Straps
        | Field::BatchPieces
        | Field::Stands => Measure::Count,
        Field::Machine
        | Field::Stock
        | Field::Operation
        | Field::CutterKind
        | Field::ToolMaterial
        | Field::Tip
        | Field::Holder
        | Field::Feeding
        | Field::Coolant
        | Field::Style
        | Field::MachineName
        | Field::Divisions
        | Field::Screw
        | Field::Fit
        | Field::TapChamfer
        | Field::Thread
        | Field::Percent
        | Field::MeasuredPitch
        | Field::ThreadsCounted
        | Field::Line
        | Field::PlanOperation
        | Field::SetUpTime
        | Field::CycleTime
        | Field::LoadTime
        | Field::ToolChangeTime
        | Field::ScrapRisk
        | Field::After
        | Field::Walk
        | Field::CheckTime
        | Field::NutFactor
        | Field::Friction
        | Field::SafetyFactor => Measure::Number,
    }
}

fn at(field: Field, error: EntryError) -> InputError {
    InputError::new(field, error.problem, error.hint)
}
