//! Topics of threads.

use super::{
    Topic,
    holes::pitch,
    keys::{Keys, Refusal},
    units::got,
};
use crate::engine::threads::wires::Groove;

pub(super) const TOPICS: &[Topic] = &[
    ("wire_best", |k| got(groove(k)?.best_wire())),
    ("wire_over", |k| {
        let groove = groove(k)?;
        let pitch_diameter = match k.which(&["pitch_diameter", "major_diameter"])? {
            0 => k.get("pitch_diameter")?,
            _ => groove.basic_pitch_diameter(k.get("major_diameter")?),
        };
        let wire = k.get("wire")?;
        let over = groove.over_wires(pitch_diameter, wire)?;
        let slanted = k.word_or("helix", &[("yes", true), ("no", false)], false)?;
        got(if slanted { over + groove.slant(pitch_diameter, wire) } else { over })
    }),
    ("wire_pitch_diameter", |k| {
        got(groove(k)?.pitch_diameter(k.get("over_wires")?, k.get("wire")?)?)
    }),
];

fn groove(k: &Keys) -> Result<Groove, Refusal> {
    Ok(Groove::new(pitch(k)?, k.get("thread_angle")?)?)
}
