//! The tool of a step: what the trade calls it, whether it is in the drawer, and the cutter that
//! the engine is asked with.

use crate::engine::{
    cutters::{Cutter, Kind, Tip, ToolMaterial},
    drills::Drill,
    quantity::{Angle, Length, System, rounding},
    stock::Material,
    threads::{Thread, tap::Style},
};

/// What a step is done with.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// What it is.
    pub kind: ToolKind,
    /// Whether it is there.
    pub has: Has,
}

/// Whether a tool is in the drawer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Has {
    /// It is.
    Yes,
    /// Nobody has said what is in the drawer.
    Unknown,
    /// It is not: it has to be found or bought.
    No,
}

/// A kind of tool, with its size.
#[derive(Clone, Debug, PartialEq)]
pub enum ToolKind {
    /// Twist drill.
    Drill(Drill),
    /// Spot drill of at least this diameter.
    SpotDrill {
        /// Diameter.
        diameter: Length,
        /// Included angle.
        angle: Angle,
    },
    /// Reamer.
    Reamer(Length),
    /// Piloted counterbore, or an end mill of the same diameter.
    Counterbore(Length),
    /// Countersink of at least this diameter.
    Countersink {
        /// Diameter.
        diameter: Length,
        /// Included angle.
        angle: Angle,
    },
    /// Tap.
    Tap {
        /// The thread.
        thread: Thread,
        /// Length of its chamfer.
        style: Style,
    },
    /// A deburring tool in the hand.
    Deburring,
}

impl ToolKind {
    /// What the trade calls it.
    #[must_use]
    pub fn title(&self, system: System) -> String {
        let size = |length| rounding::length(length, system);
        let degrees = |angle: Angle| rounding::fixed(angle.to_degree(), 0);
        match self {
            Self::Drill(drill) => format!("{} drill", drill.name()),
            Self::SpotDrill { diameter, angle } => {
                format!("{}° spot drill, {}", degrees(*angle), size(*diameter))
            }
            Self::Reamer(diameter) => format!("reamer, {}", size(*diameter)),
            Self::Counterbore(diameter) => format!("counterbore or end mill, {}", size(*diameter)),
            Self::Countersink { diameter, angle } => {
                format!("{}° countersink, {}", degrees(*angle), size(*diameter))
            }
            Self::Tap { thread, style } => {
                format!("{} tap, {}", thread.designation(), style.words().to_lowercase())
            }
            Self::Deburring => "deburring tool".to_owned(),
        }
    }
}

/// A cutter of a kind; its lengths do not matter to a tool that goes straight down.
pub(super) fn cutter(kind: Kind, diameter: Length, teeth: u32, material: ToolMaterial) -> Cutter {
    Cutter {
        kind,
        diameter,
        teeth,
        material,
        coated: false,
        flute_length: diameter * 4.0,
        shank: diameter,
        stickout: diameter * 6.0,
        helix: Angle::degree(30.0),
    }
}

/// What the tools of a recipe are of: high-speed steel, but for stock that dulls it at once.
#[must_use]
pub fn material_for(stock: &Material) -> ToolMaterial {
    if stock.hss_usable { ToolMaterial::Hss } else { ToolMaterial::Carbide }
}

/// Diameters in which spot drills and countersinks are made, in sixty-fourths of an inch: 1/8 to
/// 2 in.
const CONES: [u32; 10] = [8, 12, 16, 24, 32, 40, 48, 64, 96, 128];

/// The smallest cone that is commonly made above a diameter; the diameter itself above them all.
pub(super) fn common_cone(above: Length) -> Length {
    CONES
        .iter()
        .map(|&n| Length::inch(f64::from(n) / 64.0))
        .find(|d| *d > above)
        .unwrap_or(above * 1.1)
}

/// An end mill that goes straight down, for a counterbore.
pub(super) fn end_mill(diameter: Length, material: ToolMaterial) -> Cutter {
    let kind = Kind::EndMill { tip: Tip::Square, center_cutting: true };
    cutter(kind, diameter, 2, material)
}
