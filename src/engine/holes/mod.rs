//! Holes: what a screw needs in the part, how deep each tool goes, and the recipe for a finished
//! hole.
//!
//! [`clearance`], [`counterbore`] and [`countersink`] read the tables of the standards beside them,
//! each figure as its standard prints it; [`engagement`] says how long a thread has to be; [`depth`]
//! is the geometry of cones and the chain of depths of a blind tapped hole.
//!
//! A [`finish::Hole`] in a [`recipe::Setting`] becomes a [`recipe::Recipe`]: `choosing` takes drills
//! from the index, `making` puts the steps in the order of the trade, [`tapping`] those of a thread,
//! and `kit` asks the engine's one answer for every step that cuts.

mod choosing;
pub mod clearance;
pub mod counterbore;
pub mod countersink;
pub mod depth;
pub mod engagement;
pub mod finish;
mod kit;
mod making;
pub mod recipe;
pub mod screw;
pub mod tapping;
pub mod tool;
