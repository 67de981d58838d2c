//! Holes: what a screw needs in the part, how deep each tool goes, and the recipe for a finished
//! hole.
//!
//! [`clearance`], [`counterbore`] and [`countersink`] read the tables of the standards beside them,
//! each figure as its standard prints it; [`engagement`] says how long a thread has to be; [`depth`]
//! is the geometry of cones and the chain of depths of a blind tapped hole.

pub mod clearance;
pub mod counterbore;
pub mod countersink;
pub mod depth;
pub mod engagement;
pub mod screw;
