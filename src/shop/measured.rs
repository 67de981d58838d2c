//! A thread that nobody knows, as it is measured.

use crate::{
    engine::{
        quantity::Length,
        question::{Field, InputError},
        threads::identify::{Candidate, Measured, identify, pitch_from_count},
    },
    shop::{
        query::{Query, choose, enter, pairs, word_unless},
        typed::{Typed, typed_at},
        word::words,
    },
};

/// What the thread is on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// On a screw: the caliper lies over its crests.
    #[default]
    Screw,
    /// In a hole: the caliper stands between its ridges.
    Hole,
}
words!(Side: Screw = "screw", Hole = "hole");

/// How the pitch was found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PitchWay {
    /// Threads in an inch, off a gauge.
    #[default]
    Tpi,
    /// A pitch, off a gauge.
    Pitch,
    /// Threads counted over a length.
    Count,
}
words!(PitchWay: Tpi = "tpi", Pitch = "pitch", Count = "count");

/// The form of a measured thread. What was typed is kept as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MeasuredForm {
    /// What the thread is on.
    pub side: Side,
    /// How the pitch was found.
    pub way: PitchWay,
    /// Over the crests, or between the ridges.
    pub diameter: Typed,
    /// Threads in an inch.
    pub tpi: Typed,
    /// Pitch.
    pub pitch: Typed,
    /// Gaps counted ...
    pub threads: Typed,
    /// ... over a length.
    pub over: Typed,
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 5] = [
    (Field::MeasuredDiameter, "d"),
    (Field::MeasuredPitch, "tpi"),
    (Field::Pitch, "pitch"),
    (Field::ThreadsCounted, "count"),
    (Field::CountedOver, "over"),
];

typed_at!(MeasuredForm:
    MeasuredDiameter => diameter,
    MeasuredPitch => tpi,
    Pitch => pitch,
    ThreadsCounted => threads,
    CountedOver => over,
);

impl MeasuredForm {
    /// The fields that the pitch is asked at.
    #[must_use]
    pub fn pitch_fields(&self) -> &'static [Field] {
        match self.way {
            PitchWay::Tpi => &[Field::MeasuredPitch],
            PitchWay::Pitch => &[Field::Pitch],
            PitchWay::Count => &[Field::ThreadsCounted, Field::CountedOver],
        }
    }

    /// The query of the address, without the question mark. It always names the screen.
    #[must_use]
    pub fn to_query(&self) -> String {
        let mut query = Query::default();
        query.put("on", word_unless(self.side, Side::default()));
        query.put("by", word_unless(self.way, PitchWay::default()));
        query.put_typed(&KEYS, |field| self.typed(field));
        match query.text() {
            text if text.is_empty() => "measure".to_owned(),
            text => format!("measure&{text}"),
        }
    }

    /// The form of a query, and what in it could not be understood, each at its field.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            match name.as_str() {
                "on" => choose(&mut form.side, &value, Field::MeasuredDiameter, &mut faults),
                "by" => choose(&mut form.way, &value, Field::MeasuredPitch, &mut faults),
                found => {
                    enter(&KEYS, found, value, |field| form.typed_mut(field));
                }
            }
        }
        (form, faults)
    }

    /// The threads it may be, the likeliest first; nothing while no diameter is given.
    ///
    /// # Errors
    /// Everything that was typed and cannot be, each at its field.
    pub fn candidates(&self) -> Result<Option<Vec<Candidate>>, Vec<InputError>> {
        let mut faults = Vec::new();
        let diameter = self.diameter.given().map(|typed| typed.length(Field::MeasuredDiameter));
        let diameter = diameter.transpose().map_err(|fault| faults.push(fault)).unwrap_or_default();
        let pitch = self.pitch().map_err(|fault| faults.push(fault)).unwrap_or_default();
        if !faults.is_empty() {
            return Err(faults);
        }
        let Some(diameter) = diameter else { return Ok(None) };
        let measured = match self.side {
            Side::Screw => Measured::Crests(diameter),
            Side::Hole => Measured::Bore(diameter),
        };
        let at_its_field = |fault: InputError| {
            // The engine knows one pitch; the person typed it at one of three places.
            let is_pitch = fault.field == Field::MeasuredPitch;
            let field = if is_pitch { self.pitch_fields()[0] } else { fault.field };
            vec![InputError { field, ..fault }]
        };
        identify(measured, pitch).map(Some).map_err(at_its_field)
    }

    /// The pitch, where one was given.
    ///
    /// # Errors
    /// At the field of the way that was chosen.
    pub fn pitch(&self) -> Result<Option<Length>, InputError> {
        match self.way {
            PitchWay::Tpi => {
                let Some(typed) = self.tpi.given() else { return Ok(None) };
                let tpi = typed.number(Field::MeasuredPitch)?;
                Ok(Some(Length::inch(1.0) / tpi))
            }
            PitchWay::Pitch => {
                self.pitch.given().map(|typed| typed.length(Field::Pitch)).transpose()
            }
            PitchWay::Count => {
                let threads = self.threads.given().map(|typed| typed.number(Field::ThreadsCounted));
                let over = self.over.given().map(|typed| typed.length(Field::CountedOver));
                match (threads.transpose()?, over.transpose()?) {
                    (Some(threads), Some(over)) => pitch_from_count(threads, over).map(Some),
                    _ => Ok(None),
                }
            }
        }
    }
}
