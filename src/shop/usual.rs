//! The usual: what is taken where a person skipped a question, on the side that does no harm.
//!
//! All of it is common practice of the trade; a screen shows each figure that was taken so.

use crate::{
    engine::{
        quantity::{Angle, Length, System},
        question::{Coolant, Holder},
        stock::{Flag, IsoGroup, Material},
    },
    shop::cuts::{CutterKind, OperationKind},
};

/// What usually holds a kind of cutter.
#[must_use]
pub fn holder(kind: CutterKind) -> Holder {
    match kind {
        CutterKind::EndMill => Holder::Collet,
        CutterKind::FaceMill
        | CutterKind::FlyCutter
        | CutterKind::SlittingSaw
        | CutterKind::BoringHead => Holder::Arbor,
        CutterKind::Drill
        | CutterKind::SpotDrill
        | CutterKind::Reamer
        | CutterKind::Countersink
        | CutterKind::EdgeFinder
        | CutterKind::Tap => Holder::DrillChuck,
    }
}

/// What is usually put on a stock at a manual mill: oil by brush on metals, nothing on cast iron,
/// on plastics, laminates and wood, and never water on magnesium.
#[must_use]
pub fn coolant(material: &Material) -> Coolant {
    let dusty = [Flag::Glass, Flag::Carbon, Flag::Wood, Flag::ResinBoard, Flag::Magnesium]
        .into_iter()
        .any(|flag| material.is(flag));
    if dusty || material.iso_group == IsoGroup::K || material.is_soft() {
        Coolant::Dry
    } else {
        Coolant::Brush
    }
}

/// Teeth: two or three leave room for the chips of soft stock, four are usual in steel. A face
/// mill and a saw have to be counted.
#[must_use]
pub fn teeth(kind: CutterKind, material: Option<&Material>) -> Option<u32> {
    match kind {
        CutterKind::EndMill => {
            Some(if material.is_some_and(|m| m.iso_group == IsoGroup::N) { 2 } else { 4 })
        }
        CutterKind::FlyCutter | CutterKind::BoringHead | CutterKind::EdgeFinder => Some(1),
        CutterKind::Drill | CutterKind::SpotDrill => Some(2),
        CutterKind::Countersink | CutterKind::Tap => Some(3),
        CutterKind::Reamer => Some(6),
        CutterKind::FaceMill | CutterKind::SlittingSaw => None,
    }
}

/// End mills of two or three flutes usually have one that cuts to the centre.
#[must_use]
pub fn center_cutting(teeth: u32) -> bool {
    teeth <= 3
}

/// Shank: as thick as an end mill cuts, the thinner case; heads stand on a thinner one.
#[must_use]
pub fn shank(kind: CutterKind, diameter: Length) -> Length {
    match kind {
        CutterKind::FaceMill | CutterKind::SlittingSaw => diameter.min(Length::inch(0.75)),
        CutterKind::FlyCutter => diameter.min(Length::inch(0.5)),
        // A bar needs room for its chips.
        CutterKind::BoringHead => diameter * 0.6,
        _ => diameter,
    }
}

/// Stick-out: the long end of good practice, four times the thickness; a drill or reamer about as
/// long as its flutes usually are. Never less than the flutes that were typed.
#[must_use]
pub fn stickout(
    kind: CutterKind,
    diameter: Length,
    shank: Length,
    flute_length: Option<Length>,
) -> Length {
    let usual = match kind {
        CutterKind::FaceMill | CutterKind::SlittingSaw => shank * 2.0,
        CutterKind::FlyCutter | CutterKind::BoringHead => shank * 4.0,
        CutterKind::Drill | CutterKind::Reamer => diameter * 10.0,
        _ => diameter * 4.0,
    };
    flute_length.map_or(usual, |flutes| usual.max(flutes))
}

/// Flute length: three times the diameter of an end mill, the stick-out at most.
#[must_use]
pub fn flute_length(kind: CutterKind, diameter: Length, stickout: Length) -> Length {
    match kind {
        CutterKind::EndMill => (diameter * 3.0).min(stickout),
        _ => stickout,
    }
}

/// Helix angle.
#[must_use]
pub fn helix(kind: CutterKind) -> Angle {
    match kind {
        CutterKind::EndMill | CutterKind::Drill => Angle::degree(30.0),
        _ => Angle::ZERO,
    }
}

/// Included angle of a point. Countersinks are ground to the screws of their unit system.
#[must_use]
pub fn point_angle(kind: CutterKind, system: System) -> Angle {
    Angle::degree(match (kind, system) {
        (CutterKind::Drill, _) => 118.0,
        (CutterKind::Countersink, System::Inch) => 82.0,
        _ => 90.0,
    })
}

/// Entering angle of a face mill: a square shoulder.
#[must_use]
pub fn entering_angle() -> Angle {
    Angle::degree(90.0)
}

/// Width: a tenth of the diameter along an edge, two thirds across a face, ten thousandths off the
/// radius of a bore.
#[must_use]
pub fn width(operation: OperationKind, diameter: Length) -> Length {
    match operation {
        OperationKind::Side => diameter * 0.1,
        OperationKind::Face => diameter * (2.0 / 3.0),
        OperationKind::Bore => Length::inch(0.010),
        _ => diameter,
    }
}

/// Depth to begin with.
#[must_use]
pub fn depth(operation: OperationKind, diameter: Length) -> Length {
    match operation {
        OperationKind::Slot | OperationKind::Spot | OperationKind::Countersink => diameter * 0.25,
        OperationKind::Side | OperationKind::Plunge => diameter * 0.5,
        OperationKind::Face => Length::inch(0.020),
        OperationKind::Drill | OperationKind::Ream => diameter * 2.0,
        OperationKind::Bore => diameter,
        OperationKind::Tap => diameter * 1.5,
        OperationKind::Saw => Length::inch(0.1),
        OperationKind::FindEdge => Length::ZERO,
    }
}
