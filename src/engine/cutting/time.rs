//! Travel and time of a milling pass.

use super::error::{CuttingError, not_negative, positive};
use crate::engine::quantity::{Duration, FeedRate, Length};

/// Source: Groover, Fundamentals of Modern Manufacturing, ch. 22.
pub const SOURCE: &str = "GROOVER";

/// Travel of a side or slab cutter or a saw before it cuts to full depth: √(d (D - d)), and half
/// the diameter for a cut that reaches past the axis.
pub fn approach_slab(diameter: Length, depth: Length) -> Result<Length, CuttingError> {
    within_diameter("depth", depth, diameter)?;
    Ok(approach_slab_of(diameter, depth))
}

/// [`approach_slab`] of inputs known to be good.
#[must_use]
pub fn approach_slab_of(diameter: Length, depth: Length) -> Length {
    chord(diameter, depth.min(diameter / 2.0))
}

/// Where a face mill stands over the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Position {
    /// Centred on the width.
    Centred,
    /// Its rim on one edge of the width.
    Edge,
}

/// Travel of a face mill or fly cutter before its whole width is in: centred
/// (D - √(D² - w²))/2, on an edge √(w (D - w)).
///
/// The handbook's figure on an edge is meant for widths up to half the diameter; past it the rim
/// touches at the axis first, half a diameter ahead, and the figure falls short of that.
pub fn approach_face(
    diameter: Length,
    width: Length,
    position: Position,
) -> Result<Length, CuttingError> {
    within_diameter("width", width, diameter)?;
    Ok(match position {
        Position::Centred => {
            let (d, w) = (diameter.0, width.0.min(diameter.0));
            Length(w * w / (d + (d * d - w * w).sqrt()) / 2.0)
        }
        Position::Edge => chord(diameter, width.min(diameter)),
    })
}

/// Travel of one pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Travel {
    /// Length of the work.
    pub length: Length,
    /// Before the cut is full.
    pub approach: Length,
    /// Past the end, until the cutter has left it.
    pub overrun: Length,
    /// Free way before and after, together.
    pub clearance: Length,
}

impl Travel {
    /// All of it.
    #[must_use]
    pub fn total(&self) -> Length {
        self.length + self.approach + self.overrun + self.clearance
    }
}

/// Time under feed of all passes: i (L + A + O + c)/v_f. The way back is not in it.
pub fn milling_time(travel: Travel, feed: FeedRate, passes: u32) -> Result<Duration, CuttingError> {
    positive("length", travel.length)?;
    not_negative("approach", travel.approach)?;
    not_negative("overrun", travel.overrun)?;
    not_negative("clearance", travel.clearance)?;
    positive("table feed", feed)?;
    if passes == 0 {
        return Err(CuttingError::NoPass);
    }
    Ok(Duration(travel.total().0 / feed.0) * f64::from(passes))
}

/// Half the chord of a circle at a depth below its rim: √(d (D - d)).
fn chord(diameter: Length, depth: Length) -> Length {
    Length((depth.0 * (diameter.0 - depth.0)).sqrt())
}

fn within_diameter(
    what: &'static str,
    length: Length,
    diameter: Length,
) -> Result<(), CuttingError> {
    positive("diameter", diameter)?;
    positive(what, length)?;
    if length > diameter * (1.0 + 4.0 * f64::EPSILON) {
        return Err(CuttingError::OverDiameter(what));
    }
    Ok(())
}
