//! The order to go from hole to hole: short, and each hole reached from the same side.

use super::Place;
use crate::engine::quantity::Length;

/// Source: geometry; nearest hole next, then crossings taken out two legs at a time.
pub const SOURCE: &str = "F_GEOMETRY";

/// So many rounds of taking crossings out: patterns of a shop need far fewer.
const ROUNDS: u32 = 30;
/// What is not shorter by this, in millimetres, is not shorter.
const LEAST: f64 = 1e-6;

/// The way through every hole in an order.
#[must_use]
pub fn length(from: Place, places: &[Place], order: &[usize]) -> Length {
    let mut here = from;
    let mut way = Length::ZERO;
    for place in order.iter().filter_map(|&n| places.get(n)) {
        way += here.distance(*place);
        here = *place;
    }
    way
}

/// A short order from a place through every hole, as their places in the list; never longer than
/// the list's own.
#[must_use]
pub fn short(from: Place, places: &[Place]) -> Vec<usize> {
    let own: Vec<usize> = (0..places.len()).collect();
    let points: Vec<(f64, f64)> = places.iter().map(|p| (p.x.to_mm(), p.y.to_mm())).collect();
    let start = (from.x.to_mm(), from.y.to_mm());
    let mut order = by_nearest(start, &points);
    uncross(start, &points, &mut order);
    let is_shorter =
        length(from, places, &order).to_mm() + LEAST < length(from, places, &own).to_mm();
    if is_shorter { order } else { own }
}

fn by_nearest(start: (f64, f64), points: &[(f64, f64)]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..points.len()).collect();
    let mut order = Vec::with_capacity(points.len());
    let mut here = start;
    while !left.is_empty() {
        let mut nearest = 0;
        let mut least = f64::INFINITY;
        for (n, &hole) in left.iter().enumerate() {
            let way = between(here, points[hole]);
            // Of two as near the first of the list, so that a drawing gives one order.
            if way < least - LEAST {
                (nearest, least) = (n, way);
            }
        }
        let hole = left.remove(nearest);
        here = points[hole];
        order.push(hole);
    }
    order
}

/// Turns a stretch of the way round wherever that makes it shorter.
fn uncross(start: (f64, f64), points: &[(f64, f64)], order: &mut [usize]) {
    let count = order.len();
    for _ in 0..ROUNDS {
        let mut is_better = false;
        for i in 0..count.saturating_sub(1) {
            let mut before = if i == 0 { start } else { points[order[i - 1]] };
            for j in i + 1..count {
                let (first, last) = (points[order[i]], points[order[j]]);
                let after = order.get(j + 1).map(|&n| points[n]);
                let way = |to: (f64, f64)| after.map_or(0.0, |after| between(to, after));
                let now = between(before, first) + way(last);
                let turned = between(before, last) + way(first);
                if turned + LEAST < now {
                    order[i..=j].reverse();
                    is_better = true;
                    before = if i == 0 { start } else { points[order[i - 1]] };
                }
            }
        }
        if !is_better {
            return;
        }
    }
}

fn between(a: (f64, f64), b: (f64, f64)) -> f64 {
    ((a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1)).sqrt()
}

/// One move of the table to a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Signed travel in X.
    pub x: Length,
    /// Signed travel in Y.
    pub y: Length,
    /// X has to go past by the backlash and come back.
    pub past_x: bool,
    /// Y has to.
    pub past_y: bool,
}

/// The move from one place to another. With screws that have play each hole is reached with its
/// numbers growing: a move the other way goes past and comes back.
#[must_use]
pub fn step(from: Place, to: Place) -> Move {
    let way = to.from_datum(from);
    let is_back = |length: Length| length.to_mm() < -LEAST;
    Move { x: way.x, y: way.y, past_x: is_back(way.x), past_y: is_back(way.y) }
}
