//! What an operation asks: its limits, how its depth is divided, the speeds it reads.

use super::threshold as t;
use crate::engine::{cutters::Kind, question::Operation, stock::Work};

/// The limits an operation asks about.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    pub cap: bool,
    pub chip: bool,
    pub wheel: bool,
    pub power: bool,
    pub bend: bool,
    pub breakage: bool,
    pub pack: bool,
    pub peck: bool,
}

/// How the depth of the question is divided.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Divided {
    /// Passes along the axis.
    Axial,
    /// Passes across: a saw's depth, a bore's stock on the radius.
    Radial,
    /// Pecks of a hole.
    Pecks,
    /// Not at all.
    Whole,
}

impl Asked {
    pub fn of(op: Operation, kind: Kind) -> Self {
        let none = Self::default();
        let cap = matches!(kind, Kind::FlyCutter | Kind::BoringHead | Kind::EdgeFinder);
        // Whatever cuts makes a chip and takes power.
        let cuts = Self { chip: true, power: true, ..none };
        match op {
            Operation::Slot | Operation::Side { .. } => {
                Self { wheel: true, bend: true, breakage: true, pack: true, ..cuts }
            }
            Operation::Face { .. } => {
                // An end mill that faces can snap and pack like one that slots.
                let slender = matches!(kind, Kind::EndMill { .. });
                Self { cap, wheel: true, bend: true, breakage: slender, pack: slender, ..cuts }
            }
            Operation::Saw => Self { wheel: true, ..cuts },
            Operation::Bore { .. } => Self { cap, bend: true, ..cuts },
            Operation::Drill { .. } | Operation::Plunge => Self { peck: true, ..cuts },
            Operation::Spot | Operation::Ream | Operation::Countersink { .. } => cuts,
            Operation::FindEdge | Operation::Tap => Self { cap, ..none },
        }
    }
}

impl Operation {
    /// Which family of surface speeds it reads.
    pub(super) fn work(self) -> Work {
        match self {
            Self::Drill { .. } | Self::Spot | Self::Ream | Self::Countersink { .. } | Self::Tap => {
                Work::Drilling
            }
            _ => Work::Milling,
        }
    }
    /// Factors on the surface speed that is wanted, and on that at which the edge burns: a reamer
    /// and a tap burn below drilling speed, the others are only slowed for a good cut.
    pub(super) fn speed_factors(self) -> (f64, f64) {
        match self {
            Self::Ream => (t::REAM_SPEED, t::REAM_SPEED),
            Self::Tap => (t::TAP_SPEED, t::TAP_SPEED_MOST),
            Self::Countersink { .. } => (t::COUNTERSINK_SPEED, 1.0),
            Self::Plunge => (t::PLUNGE_SPEED, 1.0),
            _ => (1.0, 1.0),
        }
    }
    pub(super) fn divided(self) -> Divided {
        match self {
            Self::Slot | Self::Side { .. } | Self::Face { .. } => Divided::Axial,
            Self::Saw | Self::Bore { .. } => Divided::Radial,
            Self::Drill { .. } | Self::Plunge => Divided::Pecks,
            _ => Divided::Whole,
        }
    }
}

impl Kind {
    /// Teeth run up the body and weaken it; heads and face mills are stiff up to their tip.
    pub(super) fn has_flutes(self) -> bool {
        !matches!(self, Self::FaceMill { .. } | Self::FlyCutter | Self::BoringHead)
    }
}
