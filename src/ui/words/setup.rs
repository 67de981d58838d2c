//! The words of set-ups.

use crate::{
    engine::{layout::edge::Side, question::Field, setup::tram::Turn},
    shop::setup::{Helper, SetupForm},
    ui::words,
};

/// What a helper is called, and what it gives.
#[must_use]
pub fn helper(helper: Helper) -> (&'static str, &'static str) {
    match helper {
        Helper::Face => ("Touch a face", "the value to type"),
        Helper::Middle => ("Middle of two touches", "edges, bore, boss"),
        Helper::Parallels => ("Parallels", "under a part in the jaws"),
        Helper::Strap => ("Straps", "what they hold"),
        Helper::Head => ("Tram the head", "which way, and does it matter"),
        Helper::Vise => ("Tram the vise", "how far at the bolt"),
        Helper::Wall => ("Beside a wall", "centre line and passes"),
        Helper::Slot => ("In a wider slot", "both centre lines"),
        Helper::Exit => ("Drill exit", "what is left under it"),
        Helper::Sine => ("Sine bar", "blocks for an angle"),
    }
}

/// What an entry is called by a helper.
#[must_use]
pub fn field(form: &SetupForm, field: Field) -> &'static str {
    match (form.helper, field) {
        (Some(Helper::Slot), Field::Wall) => "Middle of the slot",
        (Some(Helper::Wall | Helper::Slot), Field::Diameter) => "Cutter, as measured",
        (Some(Helper::Wall | Helper::Slot), Field::Depth) => "Whole depth",
        (Some(Helper::Head), Field::Diameter) => "Fly cutter, diameter",
        (Some(Helper::Parallels), Field::Pieces) => "Heights you own, with blanks between",
        (Some(Helper::Exit), Field::Depth) => "Tip of the drill, from the surface",
        (_, field) => words::field(field),
    }
}

/// What stands in an empty field: what is taken in its place.
#[must_use]
pub fn taken(field: Field) -> &'static str {
    match field {
        Field::Face | Field::Wall | Field::LeftReading | Field::Allowance | Field::SideCut => "0",
        Field::Air => "0.060 in",
        Field::Grip => "1/3 of the part",
        Field::ParallelThickness => "1/8 in",
        Field::Pieces => "1/2 to 1 5/8 by 1/8",
        Field::Straps => "2",
        Field::Friction => "0.15",
        Field::SafetyFactor => "2",
        Field::NutFactor => "0.2",
        Field::FinishPass => "none",
        _ => "",
    }
}

/// On which side of a face or a wall the tool stands.
#[must_use]
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "Left of it",
        Side::Right => "Right of it",
        Side::Front => "In front of it",
        Side::Back => "Behind it",
    }
}

/// The axis that counts there.
#[must_use]
pub fn axis(side: Side) -> &'static str {
    match side {
        Side::Left | Side::Right => "X",
        Side::Front | Side::Back => "Y",
    }
}

/// Which way to turn.
#[must_use]
pub fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Clockwise => "clockwise",
        Turn::CounterClockwise => "counter-clockwise",
    }
}
