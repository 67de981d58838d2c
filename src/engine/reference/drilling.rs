//! Topics of drilling.

use super::{
    Topic,
    keys::{Keys, Refusal},
    units::got,
};
use crate::engine::{
    cutting::{
        drilling::{self, DrillLoad},
        feed, power,
    },
    quantity::{FeedRate, Length},
};

pub(super) const TOPICS: &[Topic] = &[
    ("mrr_drilling", |k| {
        let pilot = k.get_or("pilot_diameter", Length::ZERO)?;
        got(power::removal_rate_drilling(k.get("diameter")?, pilot, feed_rate(k)?)?)
    }),
    ("drill_point_length", |k| got(point(k)?)),
    ("drill_tip_depth", |k| {
        let breakthrough = k.get_or("breakthrough", Length::ZERO)?;
        got(drilling::tip_depth(k.get("full_depth")?, point(k)?, breakthrough)?)
    }),
    ("drill_time", |k| {
        let point = match (k.has("point_length"), k.has("diameter")) {
            (false, false) => Length::ZERO,
            _ => match k.which(&["point_length", "diameter"])? {
                0 => k.get("point_length")?,
                _ => point(k)?,
            },
        };
        let clearance = k.get_or("clearance", Length::ZERO)?;
        got(drilling::drill_time(k.get("depth")?, point, clearance, feed_rate(k)?)?)
    }),
    ("drill_thrust", |k| got(load(k)?.thrust(k.get("thrust_factor")?, k.get("chisel_factor")?)?)),
    ("drill_torque", |k| got(load(k)?.torque(k.get("torque_factor")?)?)),
];

/// Feed of the quill, given as such or by the turn.
fn feed_rate(k: &Keys) -> Result<FeedRate, Refusal> {
    match k.which(&["feed_per_rev", "table_feed"])? {
        0 => Ok(feed::table_feed(k.get("feed_per_rev")?, k.get("spindle")?)?),
        _ => k.get("table_feed"),
    }
}

fn point(k: &Keys) -> Result<Length, Refusal> {
    Ok(drilling::point_length(k.get("diameter")?, k.get("point_angle")?)?)
}

fn load(k: &Keys) -> Result<DrillLoad, Refusal> {
    Ok(DrillLoad {
        diameter: k.get("diameter")?,
        feed: k.get("feed_per_rev")?,
        work_factor: k.get("work_factor")?,
        wear_factor: k.get("wear_factor")?,
    })
}
