//! Feed per tooth, per turn of the spindle, and along the axis.

use super::error::{CuttingError, positive, toothed};
use crate::engine::quantity::{FeedRate, Length, SpindleSpeed};

/// Source: geometry of evenly spaced teeth, as every handbook prints it (US Army TC 9-524, ch. 8).
pub const SOURCE: &str = "F_GEOMETRY";

/// Feed for one turn of the spindle: f = f_z z. One-tooth tools have z = 1.
pub fn feed_per_turn(per_tooth: Length, teeth: u32) -> Result<Length, CuttingError> {
    positive("feed per tooth", per_tooth)?;
    toothed(teeth)?;
    Ok(per_tooth * f64::from(teeth))
}

/// Feed of table or quill: v_f = f n, with the feed per turn f of drills, reamers and taps or
/// [`feed_per_turn`] of a toothed cutter.
pub fn table_feed(per_turn: Length, spindle: SpindleSpeed) -> Result<FeedRate, CuttingError> {
    positive("feed per turn", per_turn)?;
    positive("spindle speed", spindle)?;
    Ok(table_feed_of(per_turn, spindle))
}

/// [`table_feed`] of inputs known to be good.
#[must_use]
pub fn table_feed_of(per_turn: Length, spindle: SpindleSpeed) -> FeedRate {
    FeedRate(per_turn.0 * spindle.0)
}

/// The feed for one turn that a table feed comes to: f = v_f / n.
pub fn feed_per_turn_at(feed: FeedRate, spindle: SpindleSpeed) -> Result<Length, CuttingError> {
    positive("table feed", feed)?;
    positive("spindle speed", spindle)?;
    Ok(feed_per_turn_of(feed, spindle))
}

/// [`feed_per_turn_at`] of inputs known to be good.
#[must_use]
pub fn feed_per_turn_of(feed: FeedRate, spindle: SpindleSpeed) -> Length {
    Length(feed.0 / spindle.0)
}

/// The feed per tooth that a table feed comes to: f_z = v_f / (z n).
pub fn feed_per_tooth(
    feed: FeedRate,
    spindle: SpindleSpeed,
    teeth: u32,
) -> Result<Length, CuttingError> {
    toothed(teeth)?;
    Ok(feed_per_turn_at(feed, spindle)? / f64::from(teeth))
}
