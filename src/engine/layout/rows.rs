//! Holes in straight rows: a line, a grid, the outline of a rectangle.

use super::{LayoutError, MOST, Place, finite, positive};
use crate::engine::quantity::Length;

/// Source: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// Holes in a row, each one step in X and one in Y from the last; either step may go backwards.
pub fn line(
    first: Place,
    holes: u32,
    step_x: Length,
    step_y: Length,
) -> Result<Vec<Place>, LayoutError> {
    count(holes)?;
    finite("step", step_x.to_mm() + step_y.to_mm())?;
    finite("place of the first hole", first.x.to_mm() + first.y.to_mm())?;
    if holes > 1 && step_x.to_mm() == 0.0 && step_y.to_mm() == 0.0 {
        return Err(LayoutError::NoStep);
    }
    Ok((0..holes).map(|n| at(first, step_x * f64::from(n), step_y * f64::from(n))).collect())
}

/// Rows of holes, one above the other, each row from left to right.
pub fn grid(
    first: Place,
    columns: u32,
    rows: u32,
    step_x: Length,
    step_y: Length,
) -> Result<Vec<Place>, LayoutError> {
    count(columns)?;
    count(rows)?;
    count(columns.saturating_mul(rows))?;
    finite("place of the first hole", first.x.to_mm() + first.y.to_mm())?;
    for (many, step, what) in [(columns, step_x, "step in X"), (rows, step_y, "step in Y")] {
        finite(what, step.to_mm())?;
        if many > 1 && step.to_mm() == 0.0 {
            return Err(LayoutError::NoStep);
        }
    }
    let row =
        |y: u32| (0..columns).map(move |x| at(first, step_x * f64::from(x), step_y * f64::from(y)));
    Ok((0..rows).flat_map(row).collect())
}

/// Holes along the four sides of a rectangle, its corners among them, counter-clockwise from the
/// corner with the smallest numbers.
pub fn rectangle(
    corner: Place,
    width: Length,
    height: Length,
    columns: u32,
    rows: u32,
) -> Result<Vec<Place>, LayoutError> {
    positive("width of the rectangle", width)?;
    positive("height of the rectangle", height)?;
    finite("place of the corner", corner.x.to_mm() + corner.y.to_mm())?;
    if columns < 2 || rows < 2 {
        return Err(LayoutError::TwoCorners);
    }
    count(columns.saturating_add(rows).saturating_mul(2).saturating_sub(4))?;
    // The far corner is where the drawing says, whatever the last digit of its steps.
    let part = |of: Length, n: u32, last: u32| {
        if n == last { of } else { of * (f64::from(n) / f64::from(last)) }
    };
    let (right, top) = (columns - 1, rows - 1);
    let along = |n: u32| part(width, n, right);
    let up = |n: u32| part(height, n, top);
    let zero = Length::ZERO;
    let mut places = Vec::new();
    places.extend((0..right).map(|n| at(corner, along(n), zero)));
    places.extend((0..top).map(|n| at(corner, width, up(n))));
    places.extend((1..=right).rev().map(|n| at(corner, along(n), height)));
    places.extend((1..=top).rev().map(|n| at(corner, zero, up(n))));
    Ok(places)
}

fn at(from: Place, x: Length, y: Length) -> Place {
    Place { x: from.x + x, y: from.y + y }
}

fn count(holes: u32) -> Result<(), LayoutError> {
    match holes {
        0 => Err(LayoutError::NoHoles),
        holes if holes > MOST => Err(LayoutError::TooManyHoles),
        _ => Ok(()),
    }
}
