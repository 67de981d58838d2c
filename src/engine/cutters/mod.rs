//! Cutters: what stands in the spindle, and the feed that its maker's trade tables give it.

pub mod feed;

use crate::engine::{
    quantity::{Angle, Length},
    stock::Edge,
};

/// What the cutter is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToolMaterial {
    /// High-speed steel.
    Hss,
    /// Cobalt high-speed steel.
    Cobalt,
    /// Cemented carbide.
    Carbide,
}

impl ToolMaterial {
    /// The column of the tables it reads: cobalt reads the high-speed steel one.
    #[must_use]
    pub fn edge(self) -> Edge {
        match self {
            Self::Hss | Self::Cobalt => Edge::Hss,
            Self::Carbide => Edge::Carbide,
        }
    }
}

/// The shape of an end mill's tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tip {
    /// Square corners.
    Square,
    /// A full ball.
    Ball,
    /// Rounded corners.
    CornerRadius(Length),
}

/// The kind of cutter, with what only that kind has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// End mill.
    EndMill {
        /// Shape of the tip.
        tip: Tip,
        /// Can it go straight down?
        center_cutting: bool,
    },
    /// Face mill or shell mill with several teeth.
    FaceMill {
        /// Entering angle of the edges, 90 degrees for a square shoulder.
        entering_angle: Angle,
    },
    /// One bit in a head; the diameter is the circle it sweeps.
    FlyCutter,
    /// Slitting saw; the diameter is the outside one, not the thickness.
    SlittingSaw {
        /// Blade thickness: the width of the slot.
        thickness: Length,
    },
    /// Twist drill.
    Drill {
        /// Included angle of the point.
        point_angle: Angle,
    },
    /// Spot drill.
    SpotDrill {
        /// Included angle of the point.
        point_angle: Angle,
    },
    /// Reamer.
    Reamer,
    /// Countersink or chamfer cutter.
    Countersink {
        /// Included angle.
        included_angle: Angle,
    },
    /// Boring head; the diameter is the bore it makes.
    BoringHead,
    /// Spring-loaded mechanical edge finder.
    EdgeFinder,
    /// A tap driven by the spindle; one turn advances one pitch.
    Tap {
        /// Thread pitch.
        pitch: Length,
    },
}

/// A cutter as it stands in its holder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutter {
    /// Kind, with what only that kind has.
    pub kind: Kind,
    /// Diameter that cuts: outside, swept or bored.
    pub diameter: Length,
    /// Teeth or flutes.
    pub teeth: u32,
    /// What it is made of.
    pub material: ToolMaterial,
    /// A hard coating; feeds and speeds are those of the bare cutter.
    pub coated: bool,
    /// Length of the flutes.
    pub flute_length: Length,
    /// Diameter of the shank.
    pub shank: Length,
    /// How far it stands out of the holder.
    pub stickout: Length,
    /// Helix angle, nothing for straight teeth.
    pub helix: Angle,
}
