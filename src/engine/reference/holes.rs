//! Topics of holes and screws.

use super::{
    Topic,
    keys::{Keys, Refusal},
    units::{Got, got},
};
use crate::engine::{
    holes::{
        clearance::{self, Fit, clearance_hole},
        counterbore::{self, counterbore},
        countersink::{self, countersink},
        depth::{self, BlindThread},
    },
    quantity::Length,
};

pub(super) const TOPICS: &[Topic] = &[
    ("blind_hole_depth", |k| {
        let chain = BlindThread::new(
            k.get("full_thread")?,
            pitch(k)?,
            k.get("chamfer_threads")?,
            k.get("spare")?,
        )?;
        let quantities = [
            ("full_depth", 0),
            ("tip_depth", 1),
            ("floor", 2),
            ("tap_travel", 3),
            ("tap_turns", 4),
        ];
        match k.word("quantity", &quantities)? {
            0 => got(chain.full_depth()),
            1 => got(chain.tip_depth(k.get("diameter")?, k.get("point_angle")?)?),
            2 => {
                got(chain.floor(k.get("diameter")?, k.get("point_angle")?, k.get("thickness")?)?)
            }
            3 => got(chain.tap_travel()),
            _ => got(chain.tap_turns()),
        }
    }),
    ("clearance_hole", |k| {
        use clearance::Standard;
        let standards = [
            ("asme_b18.2.8", Standard::AsmeB18_2_8),
            ("iso_273", Standard::Iso273),
            ("trade", Standard::Trade),
        ];
        let standard = k.word("standard", &standards)?;
        let fits = Fit::ALL.map(|fit| (fit.words(standard), fit));
        let hole = clearance_hole(standard, k.text("screw")?, k.word("fit", &fits)?)?;
        Ok(Got::Drill(hole.drill.to_owned(), hole.hole()))
    }),
    ("counterbore", |k| {
        use counterbore::Standard;
        let standards = [
            ("asme_b18.3", Standard::AsmeB18_3),
            ("asme_b18.3.1m", Standard::AsmeB18_3_1M),
            ("iso_4762", Standard::Iso4762),
        ];
        let bore = counterbore(k.word("standard", &standards)?, k.text("screw")?)?;
        got(match k.word("quantity", &[("diameter", 0), ("depth", 1), ("head_diameter", 2)])? {
            0 => bore.diameter(),
            1 => bore.depth(),
            _ => bore.head_diameter(),
        })
    }),
    ("countersink", |k| {
        use countersink::Standard;
        let standards = [
            ("asme_b18.3", Standard::AsmeB18_3),
            ("asme_b18.6.3", Standard::AsmeB18_6_3),
            ("iso_10642", Standard::Iso10642),
            ("iso_15065", Standard::Iso15065),
        ];
        let sink = countersink(k.word("standard", &standards)?, k.text("screw")?)?;
        match k.word("quantity", &[("diameter", 0), ("angle", 1)])? {
            0 => got(sink.diameter()),
            _ => got(sink.angle()),
        }
    }),
    ("countersink_depth", |k| {
        let hole = k.get_or("hole_diameter", Length::ZERO)?;
        got(depth::countersink_depth(
            k.get("countersink_diameter")?,
            hole,
            k.get("included_angle")?,
        )?)
    }),
];

/// A pitch, given as such or by the threads in an inch.
pub(super) fn pitch(k: &Keys) -> Result<Length, Refusal> {
    match k.which(&["tpi", "pitch"])? {
        0 => Ok(Length::inch(1.0) / k.get::<f64>("tpi")?),
        _ => k.get("pitch"),
    }
}
