//! Formulas of the cut: chip, force, power, bending, breakage, runout, finish, tool life, time.
//!
//! A formula refuses what it cannot work with by a [`CuttingError`]. What the search asks tens of
//! thousands of times is checked once and then costs nothing: [`chip::Engagement`],
//! [`power::Kienzle`] and [`bending::Cantilever`] are checked when they are made, and a function
//! ending in `_of` is the bare formula for inputs that are known to be good.

pub mod bending;
pub mod chip;
pub mod drilling;
mod error;
pub mod feed;
pub mod finish;
pub mod force;
pub mod handwheel;
pub mod life;
pub mod power;
pub mod runout;
pub mod speed;
pub mod time;

pub use error::CuttingError;

/// Linear between the points of a rising table, held at its ends.
fn between(table: &[(f64, f64)], x: f64) -> f64 {
    let above = table.partition_point(|&(at, _)| at < x);
    let (x1, y1) = table[above.min(table.len() - 1)];
    let (x0, y0) = table[above.saturating_sub(1)];
    if x1 > x0 && x > x0 { y0 + (y1 - y0) * ((x - x0) / (x1 - x0)).min(1.0) } else { y1 }
}
