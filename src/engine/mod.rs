//! The engine: pure functions from what is on the mill and the cut that is wanted to an answer
//! that can be set on the machine.
//!
//! A subject of the trade has a folder. Later subjects may use earlier ones, never the reverse:
//! [`quantity`], [`source`] and [`drills`], then [`stock`], [`cutters`] and [`machine`], then
//! [`cutting`], then [`limits`], which ends in [`answer`], and the rooms that ask it: [`holes`],
//! [`layout`], [`setup`], [`pace`] and [`plan`]. [`safety`] is what is checked before the cut. [`convert`] comes after all
//! of them: a line of it may name anything they know.

pub mod answer;
pub mod convert;
pub mod cutters;
pub mod cutting;
pub mod drills;
pub mod experience;
pub mod holes;
pub mod layout;
pub mod limits;
pub mod machine;
pub mod pace;
pub mod plan;
pub mod quantity;
pub mod question;
pub mod reference;
pub mod safety;
pub mod setup;
pub mod source;
pub mod stock;
pub mod threads;
