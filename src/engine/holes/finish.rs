//! The hole that is wanted, and every entry of it that cannot be.

use super::{
    clearance::ClearanceHole, counterbore::Counterbore, countersink::Countersink, depth,
    tapping::Tapped,
};
use crate::engine::{
    quantity::{Angle, Length},
    question::{Field, InputError},
};

/// Thicker than this no plate lies under a manual mill, and larger no hole is drilled.
const LARGEST_IN: f64 = 24.0;

/// A finished hole in a plate.
#[derive(Clone, Debug)]
pub struct Hole {
    /// What it is to be.
    pub finish: Finish,
    /// Thickness of the stock where the hole goes.
    pub plate: Length,
    /// Where it ends.
    pub bottom: Bottom,
}

/// Where a hole ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bottom {
    /// On the far side.
    Through,
    /// In the stock, this deep at the full diameter; a tapped hole may leave it to the chain of
    /// depths.
    Blind(Option<Length>),
}

/// What a hole is to be.
#[derive(Clone, Debug)]
pub enum Finish {
    /// Drilled.
    Drilled(Opening),
    /// Reamed to this diameter.
    Reamed(Length),
    /// Tapped.
    Tapped(Tapped),
    /// Drilled, with a counterbore for a head.
    Counterbored {
        /// The hole below.
        hole: Opening,
        /// Diameter of the counterbore.
        diameter: Length,
        /// Depth of the counterbore.
        depth: Length,
        /// Diameter to which the edge below the head is broken; a hole as wide needs none.
        edge_break: Option<Length>,
        /// Tags of the sources of these figures; empty for the person's own.
        source: &'static str,
    },
    /// Drilled, with a countersink for a head.
    Countersunk {
        /// The hole below.
        hole: Opening,
        /// Diameter at the surface.
        diameter: Length,
        /// Included angle.
        angle: Angle,
        /// Tags of the sources of these figures; empty for the person's own.
        source: &'static str,
    },
}

impl Finish {
    /// A hole for a socket head cap screw, the head flush.
    #[must_use]
    pub fn socket_head(hole: Opening, seat: &Counterbore) -> Self {
        Self::Counterbored {
            hole,
            diameter: seat.diameter(),
            depth: seat.depth(),
            edge_break: seat.edge_break(),
            source: seat.source,
        }
    }

    /// A hole for a flat head, the head flush.
    #[must_use]
    pub fn flat_head(hole: Opening, seat: &Countersink) -> Self {
        Self::Countersunk {
            hole,
            diameter: seat.diameter(),
            angle: seat.angle(),
            source: seat.source,
        }
    }

    /// Tags of the tables it was taken from.
    pub(super) fn sources(&self) -> [&'static str; 2] {
        let of_hole = |hole: &Opening| match hole {
            Opening::Plain(_) => "",
            Opening::Clearance(row) => row.source,
        };
        match self {
            Self::Drilled(hole) => [of_hole(hole), ""],
            Self::Counterbored { hole, source, .. } | Self::Countersunk { hole, source, .. } => {
                [of_hole(hole), source]
            }
            Self::Reamed(_) | Self::Tapped(_) => ["", ""],
        }
    }
}

/// A drilled hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Opening {
    /// Of this diameter.
    Plain(Length),
    /// That a screw passes through; any drill of the same fit will do.
    Clearance(&'static ClearanceHole),
}

impl Opening {
    /// Its diameter.
    #[must_use]
    pub fn diameter(self) -> Length {
        match self {
            Self::Plain(diameter) => diameter,
            Self::Clearance(row) => row.hole(),
        }
    }
}

impl Hole {
    /// True when it ends on the far side.
    #[must_use]
    pub fn is_through(&self) -> bool {
        self.bottom == Bottom::Through
    }
}

/// Entries that cannot be worked with, as they are found.
pub(super) struct Faults(pub(super) Vec<InputError>);

impl Faults {
    pub(super) fn add(&mut self, field: Field, problem: impl Into<String>, hint: &str) {
        self.0.push(InputError::new(field, problem, hint));
    }

    /// A size above nothing that a mill can hold.
    pub(super) fn size(&mut self, field: Field, what: &str, size: Length) -> bool {
        if !size.is_positive() {
            self.add(
                field,
                format!("{what} must be above 0."),
                "Enter a size such as 1/4 or 6 mm.",
            );
            return false;
        }
        if size > Length::inch(LARGEST_IN) || size < Length::inch(1e-4) {
            self.add(
                field,
                format!("{what} is no size that is drilled on a manual mill."),
                "Check the unit and the point.",
            );
            return false;
        }
        true
    }
}

/// Every entry of a hole that cannot be worked with.
pub(super) fn check(hole: &Hole) -> Vec<InputError> {
    let mut faults = Faults(Vec::new());
    let plate = faults.size(Field::Plate, "The thickness of the plate", hole.plate);
    let depth = match hole.bottom {
        Bottom::Through => None,
        Bottom::Blind(Some(depth)) => {
            let sound = faults.size(Field::Depth, "The depth", depth);
            if sound && plate && depth >= hole.plate {
                faults.add(
                    Field::Depth,
                    "The hole is as deep as the plate is thick.",
                    "Make it a through hole, or less deep.",
                );
            }
            sound.then_some(depth)
        }
        Bottom::Blind(None) => {
            if !matches!(hole.finish, Finish::Tapped(_)) {
                faults.add(
                    Field::Depth,
                    "A blind hole needs a depth.",
                    "Enter how deep it is at its full diameter.",
                );
            }
            None
        }
    };
    // What the hole has room for: its own depth, or the plate.
    let room = depth.unwrap_or(hole.plate);
    match &hole.finish {
        Finish::Drilled(opening) => {
            faults.size(Field::Hole, "The hole", opening.diameter());
        }
        Finish::Reamed(diameter) => {
            faults.size(Field::Hole, "The hole", *diameter);
        }
        Finish::Tapped(tapped) => tapped.check(hole, depth, &mut faults),
        &Finish::Counterbored { hole: below, diameter, depth, edge_break, .. } => {
            let below_is_sound = faults.size(Field::Hole, "The hole", below.diameter());
            let sound = faults.size(Field::Counterbore, "The counterbore", diameter);
            if sound && below_is_sound && diameter <= below.diameter() {
                faults.add(
                    Field::Counterbore,
                    "The counterbore is no larger than the hole.",
                    "It takes the head of the screw: enter a larger one.",
                );
            }
            if faults.size(Field::CounterboreDepth, "The depth of the counterbore", depth)
                && depth >= room
            {
                faults.add(
                    Field::CounterboreDepth,
                    "The counterbore leaves nothing below the head.",
                    "Enter a depth less than that of the hole, or take thicker stock.",
                );
            }
            if let Some(edge) = edge_break
                && faults.size(Field::Chamfer, "The broken edge", edge)
                && edge >= diameter
            {
                faults.add(
                    Field::Chamfer,
                    "The broken edge is as wide as the counterbore.",
                    "Leave it empty, or enter a diameter between hole and counterbore.",
                );
            }
        }
        &Finish::Countersunk { hole: below, diameter, angle, .. } => {
            if !(angle >= Angle::degree(20.0) && angle <= Angle::degree(170.0)) {
                faults.add(
                    Field::PointAngle,
                    "An included angle lies between 20 and 170 degrees.",
                    "Flat heads have 82, 90 or 100.",
                );
                return faults.0;
            }
            let sound = faults.size(Field::Hole, "The hole", below.diameter())
                && faults.size(Field::Countersink, "The countersink", diameter);
            if sound {
                match depth::countersink_depth(diameter, below.diameter(), angle) {
                    Err(error) => faults.0.push(error),
                    Ok(cone) if cone >= room => faults.add(
                        Field::Countersink,
                        "The countersink is deeper than the hole.",
                        "Take a smaller head, or thicker stock.",
                    ),
                    Ok(_) => {}
                }
            }
        }
    }
    faults.0
}
