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
    /// Tags of the sources of the nearest row.
    pub source: &'static str,
    /// The stock group that was read instead, where the table has no row of the stock's own.
    pub borrowed_from: Option<&'static str>,
    /// True when the row of the other edge material was read.
    pub other_edge: bool,
    /// What the row says besides.
    pub note: &'static str,
}

/// One point of a series: a diameter and its range of feeds.
#[derive(Debug)]
pub struct FeedPoint {
    pub(crate) diameter_in: f64,
    pub(crate) low_in: f64,
    pub(crate) high_in: f64,
    pub(crate) source: &'static str,
}

/// The feeds of one table for one edge and one stock group, by rising diameter.
#[derive(Debug)]
pub struct FeedSeries {
    pub(crate) table: Table,
    pub(crate) edge: Edge,
    pub(crate) group: &'static str,
    pub(crate) per_turn: bool,
    pub(crate) note: &'static str,
    pub(crate) points: &'static [FeedPoint],
}

include!(concat!(env!("OUT_DIR"), "/chip_load.rs"));

/// The group every other one may borrow from.
const COMMON_GROUP: &str = "low-carbon steel";

/// The group that is most like this one to a cutter.
fn lender(group: &str) -> &'static str {
    match group {
        "copper" => "brass and bronze",
        "magnesium" => "aluminium",
        "titanium" | "nickel" => "stainless",
        "laminate" | "wood, wax and board" => "thermoplastic",
        "graphite" => "cast iron",
        _ => COMMON_GROUP,
    }
}

/// The series to read: the stock's own group before a lender, and within a group the edge's own
/// row before the other edge's, since stock tells more about a chip than the edge does.
fn series(table: Table, edge: Edge, group: &str) -> Option<&'static FeedSeries> {
    let other = match edge {
        Edge::Hss => Edge::Carbide,
        Edge::Carbide => Edge::Hss,
    };
    [group, lender(group), COMMON_GROUP].into_iter().find_map(|group| {
        [edge, other].into_iter().find_map(|edge| {
            FEED_SERIES.iter().find(|s| (s.table, s.edge, s.group) == (table, edge, group))
        })
    })
}

/// The feed range of a table for an edge, a stock group and a diameter.
///
/// Between the listed diameters the range is interpolated on logarithms; below the smallest it
/// falls in proportion to the diameter, above the largest it stays. A group without a row borrows
/// from its nearest neighbour and says so. `None` for a diameter that is not above zero.
#[must_use]
pub fn feed_range(table: Table, edge: Edge, group: &str, diameter: Length) -> Option<FeedRange> {
    let d = diameter.to_inch();
    let series = series(table, edge, group)?;
    let above = series.points.iter().position(|p| p.diameter_in >= d);
    let (low, high, nearest) = match above {
        _ if d.is_nan() || d <= 0.0 => return None,
        None => {
            let last = series.points.last()?;
            (last.low_in, last.high_in, last)
        }
        Some(0) => {
            let first = &series.points[0];
            let share = d / first.diameter_in;
            (first.low_in * share, first.high_in * share, first)
        }
        Some(i) => {
            let (a, b) = (&series.points[i - 1], &series.points[i]);
            let t = libm::log(d / a.diameter_in) / libm::log(b.diameter_in / a.diameter_in);
            let between = |a: f64, b: f64| a * libm::pow(b / a, t);
            let nearest = if t < 0.5 { a } else { b };
            (between(a.low_in, b.low_in), between(a.high_in, b.high_in), nearest)
        }
    };
    Some(FeedRange {
        low: Length::inch(low),
        high: Length::inch(high),
        per_turn: series.per_turn,
        source: nearest.source,
        borrowed_from: (series.group != group).then_some(series.group),
        other_edge: series.edge != edge,
        note: series.note,
    })
}
