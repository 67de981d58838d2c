//! The unit that a row wants its answer in.

use super::{Answered, keys::Refusal};
use crate::engine::quantity::{
    Angle, Duration, FeedRate, Force, HandRate, Length, Power, RemovalRate, SpindleSpeed, Stress,
    SurfaceSpeed, Torque, value::Value,
};

/// What a topic gives back.
pub(super) enum Got {
    Number(Value),
    Word(String),
    /// A number that is in the unit the row names.
    In(f64, String),
    /// A drill by its name, which a row may also ask the diameter of.
    Drill(String, Length),
}

/// What a topic gives back, from the typed result of the function it called.
pub(super) fn got(result: impl Into<Got>) -> Result<Got, Refusal> {
    Ok(result.into())
}

macro_rules! into_got {
    ($($from:ident $variant:ident;)+) => {$(
        impl From<$from> for Got {
            fn from(value: $from) -> Self {
                Self::Number(Value::$variant(value))
            }
        }
    )+};
}

into_got! {
    Length Length; SpindleSpeed SpindleSpeed; HandRate HandRate; SurfaceSpeed SurfaceSpeed;
    FeedRate FeedRate; Force Force; Torque Torque; Power Power; Stress Stress; Angle Angle;
    Duration Duration; RemovalRate RemovalRate; f64 Ratio; u32 Count;
}

impl From<&str> for Got {
    fn from(word: &str) -> Self {
        Self::Word(word.to_owned())
    }
}

impl Got {
    /// The answer in the unit of a row.
    pub(super) fn in_unit(self, unit: &str) -> Result<Answered, Refusal> {
        let number = match (self, unit) {
            (Self::Word(word), _) => return Ok(Answered::Word(word)),
            (Self::In(number, own), unit) => (own == unit).then_some(number),
            (Self::Drill(name, _), "drill") => return Ok(Answered::Word(name)),
            (Self::Drill(_, diameter), unit) => in_unit(Value::Length(diameter), unit),
            (Self::Number(value), unit) => in_unit(value, unit),
        };
        number
            .map(Answered::Number)
            .ok_or_else(|| Refusal(format!("The answer has no unit {unit}.")))
    }
}

fn in_unit(value: Value, unit: &str) -> Option<f64> {
    Some(match (value, unit) {
        (Value::Length(v), "in") => v.to_inch(),
        (Value::Length(v), "mm") => v.to_mm(),
        (Value::Length(v), "um") => v.to_um(),
        (Value::Length(v), "uin") => v.to_microinch(),
        (Value::SpindleSpeed(v), "rpm") => v.to_rpm(),
        (Value::HandRate(v), "turn/min") => v.to_turns_per_min(),
        (Value::SurfaceSpeed(v), "ft/min") => v.to_ft_per_min(),
        (Value::SurfaceSpeed(v), "m/min") => v.to_m_per_min(),
        (Value::FeedRate(v), "in/min") => v.to_inch_per_min(),
        (Value::FeedRate(v), "mm/min") => v.to_mm_per_min(),
        (Value::Force(v), "N") => v.to_newton(),
        (Value::Force(v), "lbf") => v.to_lbf(),
        (Value::Torque(v), "N.m") => v.to_newton_metre(),
        (Value::Torque(v), "lbf.in") => v.to_lbf_inch(),
        (Value::Torque(v), "lbf.ft") => v.to_lbf_foot(),
        (Value::Power(v), "W") => v.to_watt(),
        (Value::Power(v), "kW") => v.to_kilowatt(),
        (Value::Power(v), "hp") => v.to_horsepower(),
        (Value::Stress(v), "N/mm2") => v.to_newton_per_mm2(),
        (Value::Stress(v), "psi") => v.to_psi(),
        (Value::Stress(v), "J/mm3") => v.to_joule_per_mm3(),
        (Value::Stress(v), "hp/(in3/min)") => v.to_hp_per_inch3_min(),
        (Value::Angle(v), "deg") => v.to_degree(),
        (Value::Angle(v), "arcmin") => v.to_arcminute(),
        (Value::Duration(v), "s") => v.to_second(),
        (Value::Duration(v), "min") => v.to_minute(),
        (Value::RemovalRate(v), "in3/min") => v.to_inch3_per_min(),
        (Value::RemovalRate(v), "cm3/min") => v.to_cm3_per_min(),
        (Value::RemovalRate(v), "mm3/min") => v.to_mm3_per_min(),
        (Value::RemovalRate(v), "mm3/s") => v.to_mm3_per_min() / 60.0,
        (Value::Ratio(v), "ratio" | "turn" | "division") => v,
        (Value::Count(v), "count") => f64::from(v),
        _ => return None,
    })
}
