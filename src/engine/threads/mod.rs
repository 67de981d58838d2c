//! Threads: what a screen can tell of them, and how they are measured.

pub mod gauge;
pub mod wires;
