//! Numbers as a shop writes them, and everything one of them means: other units, the nearest
//! fraction, the nearest drills, a stack of blocks, limits, what a readout will say.
//!
//! A line is kept exactly as a ratio; what is shown of it is rounded once, at the end.

pub mod blocks;
pub mod form;
pub mod fraction;
pub mod hardness;
pub mod line;
pub mod readout;
pub mod tolerance;
pub mod units;

pub use line::{Line, read};
