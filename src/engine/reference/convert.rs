//! Topics of the converter.

use super::{
    Topic,
    keys::Refusal,
    units::{Got, got},
};
use crate::engine::{
    convert::{
        fraction,
        hardness::{self, Metal, Scale},
        units,
    },
    quantity::ratio::Ratio,
};

/// Decimals that a row's number is taken with.
const DECIMALS: u32 = 9;

pub(super) const TOPICS: &[Topic] = &[
    ("convert", |k| {
        let (from, to) = (k.text("from")?, k.text("to")?);
        let number = units::convert(k.get("value")?, from, to)
            .ok_or_else(|| Refusal(format!("{from} cannot be converted to {to}.")))?;
        got(Got::In(number, to.to_owned()))
    }),
    ("fraction", |k| {
        let value: f64 = k.get::<crate::engine::quantity::Length>("value")?.to_inch();
        let near = Ratio::rounded(value, DECIMALS)
            .and_then(|inches| fraction::nearest(inches, k.count("denominator").ok()?.into()))
            .ok_or_else(|| Refusal("The value has no fraction.".to_owned()))?;
        got(near.inches.as_mixed().as_str())
    }),
    ("hardness", |k| {
        let scale = |key| {
            let name = k.text(key)?;
            Scale::called(name).ok_or_else(|| Refusal(format!("There is no scale {name}.")))
        };
        let to = scale("to")?;
        let converted = hardness::convert(k.get("value")?, scale("from")?, to, Metal::Steel)?;
        got(Got::In(converted.number, to.name().to_owned()))
    }),
];
