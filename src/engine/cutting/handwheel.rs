//! The feed in the terms of a hand on a wheel.

use super::error::{CuttingError, positive};
use crate::engine::quantity::{Duration, FeedRate, HandRate, Length, SpindleSpeed};

/// Source: arithmetic.
pub const SOURCE: &str = "F_GEOMETRY";

/// How fast the wheel turns at a feed, the lead being its travel per turn: v_f / lead.
pub fn hand_rate(feed: FeedRate, lead: Length) -> Result<HandRate, CuttingError> {
    positive("table feed", feed)?;
    positive("travel per turn of the wheel", lead)?;
    Ok(hand_rate_of(feed, lead))
}

/// [`hand_rate`] of inputs known to be good.
#[must_use]
pub fn hand_rate_of(feed: FeedRate, lead: Length) -> HandRate {
    HandRate(feed.0 / lead.0)
}

/// Time for a small travel at a feed: one turn of the wheel, one mark, 0.010 in.
pub fn travel_time(travel: Length, feed: FeedRate) -> Result<Duration, CuttingError> {
    positive("travel", travel)?;
    positive("table feed", feed)?;
    Ok(travel_time_of(travel, feed))
}

/// [`travel_time`] of inputs known to be good.
#[must_use]
pub fn travel_time_of(travel: Length, feed: FeedRate) -> Duration {
    Duration(travel.0 / feed.0)
}

/// The spindle speed at which a hand rate gives the wanted feed per turn of the spindle:
/// n = lead × rate / f.
pub fn spindle_speed_for(
    rate: HandRate,
    lead: Length,
    per_turn: Length,
) -> Result<SpindleSpeed, CuttingError> {
    positive("hand rate", rate)?;
    positive("travel per turn of the wheel", lead)?;
    positive("feed per turn", per_turn)?;
    Ok(spindle_speed_for_of(rate, lead, per_turn))
}

/// [`spindle_speed_for`] of inputs known to be good.
#[must_use]
pub fn spindle_speed_for_of(rate: HandRate, lead: Length, per_turn: Length) -> SpindleSpeed {
    SpindleSpeed(rate.0 * (lead / per_turn))
}

/// The table feed of a hand rate: lead × rate, inverse of [`hand_rate`].
pub fn table_feed_by_hand(rate: HandRate, lead: Length) -> Result<FeedRate, CuttingError> {
    positive("hand rate", rate)?;
    positive("travel per turn of the wheel", lead)?;
    Ok(table_feed_by_hand_of(rate, lead))
}

/// [`table_feed_by_hand`] of inputs known to be good.
#[must_use]
pub fn table_feed_by_hand_of(rate: HandRate, lead: Length) -> FeedRate {
    FeedRate(lead.0 * rate.0)
}
