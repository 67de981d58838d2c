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
    /// True when the diameter lies below the smallest or above the largest that is listed.
    pub outside: bool,
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
    if !diameter.is_positive() {
        return None;
    }
    let d = diameter.to_inch();
    let series = series(table, edge, group)?;
    let above = series.points.iter().position(|p| p.diameter_in >= d);
    let first = series.points.first()?;
    let last = series.points.last()?;
    let (low, high, nearest) = match above {
        None => (last.low_in, last.high_in, last),
        Some(0) => {
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
        outside: !(first.diameter_in..=last.diameter_in).contains(&d),
        note: series.note,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{source::sources_of, stock::MATERIALS};

    const TABLES: [Table; 9] = [
        Table::EndMill,
        Table::FaceMill,
        Table::SideMill,
        Table::FlyCutter,
        Table::SlittingSaw,
        Table::Drill,
        Table::Reamer,
        Table::Countersink,
        Table::BoringHead,
    ];

    fn range(table: Table, edge: Edge, group: &str, inch: f64) -> FeedRange {
        feed_range(table, edge, group, Length::inch(inch)).expect("a range")
    }

    fn close(a: Length, inch: f64) -> bool {
        (a.to_inch() / inch - 1.0).abs() < 1e-12
    }

    #[test]
    fn every_listed_point_is_hit() {
        for s in FEED_SERIES {
            for p in s.points {
                let r = range(s.table, s.edge, s.group, p.diameter_in);
                assert!(close(r.low, p.low_in) && close(r.high, p.high_in), "{s:?} {r:?}");
                assert_eq!((r.source, r.note, r.per_turn), (p.source, s.note, s.per_turn));
                assert_eq!((r.borrowed_from, r.other_edge), (None, false));
            }
        }
    }

    #[test]
    fn a_thicker_cutter_never_takes_a_thinner_chip() {
        for s in FEED_SERIES {
            let mut last = (Length::ZERO, Length::ZERO);
            for step in 0..400 {
                let d = 0.005 * libm::pow(2.0, f64::from(step) / 40.0);
                let r = range(s.table, s.edge, s.group, d);
                let slack = 1.0 + 1e-12;
                assert!(r.low <= r.high, "{s:?} at {d}");
                assert!(r.low * slack >= last.0 && r.high * slack >= last.1, "{s:?} at {d}");
                last = (r.low, r.high);
            }
        }
    }

    #[test]
    fn between_points_the_logarithms_are_interpolated() {
        let r = range(Table::EndMill, Edge::Hss, "aluminium", (0.25f64 * 0.375).sqrt());
        assert!(
            close(r.low, (0.0015f64 * 0.002).sqrt()) && close(r.high, (0.003f64 * 0.004).sqrt())
        );
    }

    #[test]
    fn below_the_smallest_the_feed_falls_with_the_diameter_and_above_the_largest_it_stays() {
        let small = range(Table::EndMill, Edge::Hss, "aluminium", 1.0 / 64.0);
        assert!(close(small.low, 0.0001) && close(small.high, 0.0002));
        let large = range(Table::EndMill, Edge::Hss, "aluminium", 2.0);
        assert!(close(large.low, 0.0045) && close(large.high, 0.009));
    }

    #[test]
    fn only_a_diameter_beyond_the_listed_ones_is_outside() {
        let outside = |inch| range(Table::EndMill, Edge::Hss, "aluminium", inch).outside;
        let points = series(Table::EndMill, Edge::Hss, "aluminium").expect("it is listed").points;
        let ends = (points[0].diameter_in, points[points.len() - 1].diameter_in);
        assert!(!outside(ends.0) && !outside(ends.1) && !outside(0.3));
        assert!(outside(ends.0 * 0.99) && outside(ends.1 * 1.01));
    }

    #[test]
    fn a_drill_band_belongs_to_its_middle_and_a_lone_band_holds_from_end_to_end() {
        let drill = range(Table::Drill, Edge::Hss, "aluminium", (0.125f64 * 0.25).sqrt());
        assert!(close(drill.low, 0.003) && close(drill.high, 0.004) && drill.per_turn);
        for d in [1.0, 1.5, 4.0, 6.0] {
            assert!(close(range(Table::FlyCutter, Edge::Hss, "aluminium", d).high, 0.006));
        }
        assert!(close(range(Table::FlyCutter, Edge::Hss, "aluminium", 0.5).high, 0.003));
    }

    #[test]
    fn a_group_without_a_row_borrows_from_its_neighbour() {
        let lent = |table, group| range(table, Edge::Hss, group, 2.0).borrowed_from;
        assert_eq!(lent(Table::FlyCutter, "medium-carbon steel"), Some("low-carbon steel"));
        assert_eq!(lent(Table::Reamer, "copper"), Some("brass and bronze"));
        assert_eq!(lent(Table::SlittingSaw, "magnesium"), Some("aluminium"));
        assert_eq!(lent(Table::FlyCutter, "titanium"), Some("stainless"));
        assert_eq!(lent(Table::FaceMill, "nickel"), Some("stainless"));
        assert_eq!(lent(Table::FlyCutter, "laminate"), Some("thermoplastic"));
        assert_eq!(lent(Table::Countersink, "wood, wax and board"), Some("thermoplastic"));
        assert_eq!(lent(Table::Drill, "graphite"), Some("cast iron"));
        assert_eq!(lent(Table::SlittingSaw, "cast iron"), Some("low-carbon steel"));
        assert_eq!(lent(Table::FaceMill, "laminate"), Some("low-carbon steel"));
    }

    #[test]
    fn an_edge_without_a_row_takes_the_other_edge_of_the_same_group() {
        let drill = range(Table::Drill, Edge::Carbide, "aluminium", 0.25);
        assert_eq!((drill.borrowed_from, drill.other_edge), (None, true));
        let graphite = range(Table::EndMill, Edge::Hss, "graphite", 0.25);
        assert_eq!((graphite.borrowed_from, graphite.other_edge), (None, true));
        assert_eq!(graphite.low, range(Table::EndMill, Edge::Carbide, "graphite", 0.25).low);
    }

    #[test]
    fn every_material_has_a_feed_with_a_source_in_every_table() {
        for m in MATERIALS {
            for table in TABLES {
                for edge in [Edge::Hss, Edge::Carbide] {
                    let r = range(table, edge, m.feed_group, 0.5);
                    assert!(r.low.is_positive() && !sources_of(r.source).is_empty());
                }
            }
        }
    }

    #[test]
    fn a_diameter_that_is_none_has_no_feed() {
        for d in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(feed_range(Table::Drill, Edge::Hss, "stainless", Length::inch(d)), None);
        }
    }
}
