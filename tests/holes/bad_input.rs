//! Every entry of a hole that cannot be is a sentence with a hint at its field.

use super::{blind, clearing, every_drill, plain, setting, threads::*, through};
use crate::mills::knee_mill;
use handwheel::engine::{
    drills::Drill,
    holes::{
        clearance::Fit,
        finish::{Finish, Hole, Opening},
        recipe::recipe,
    },
    quantity::{Angle, Length},
    question::Field,
};

#[track_caller]
fn refused(hole: &Hole, field: Field) {
    let (knee, drills) = (knee_mill(), every_drill());
    let errors = recipe(hole, &setting(&knee, "al_6061", &drills)).expect_err("it cannot be");
    assert!(errors.iter().any(|e| e.field == field), "{field:?} is not in {errors:?}");
    for error in errors {
        assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
    }
}

fn counterbored(diameter: f64, depth: f64, edge: Option<f64>) -> Finish {
    Finish::Counterbored {
        hole: clearing("1/4", Fit::Normal),
        diameter: Length::inch(diameter),
        depth: Length::inch(depth),
        edge_break: edge.map(Length::inch),
        source: "",
    }
}

fn countersunk(diameter: f64, angle: f64) -> Finish {
    Finish::Countersunk {
        hole: Opening::Plain(Length::inch(0.25)),
        diameter: Length::inch(diameter),
        angle: Angle::degree(angle),
        source: "",
    }
}

#[test]
fn sizes_that_are_none() {
    for bad in [0.0, -1.0, 1e9, 1e-9, f64::NAN, f64::INFINITY] {
        refused(&through(plain(bad), 0.5), Field::Hole);
        refused(&through(plain(0.25), bad), Field::Plate);
        refused(&blind(plain(0.25), 0.5, Some(bad)), Field::Depth);
        refused(&through(Finish::Reamed(Length::inch(bad)), 0.5), Field::Hole);
        refused(&through(counterbored(bad, 0.25, None), 0.5), Field::Counterbore);
        refused(&through(counterbored(0.4375, bad, None), 0.5), Field::CounterboreDepth);
        refused(&through(counterbored(0.4375, 0.25, Some(bad)), 0.5), Field::Chamfer);
        refused(&through(countersunk(bad, 82.0), 0.5), Field::Countersink);
        refused(&through(countersunk(0.5, bad), 0.5), Field::PointAngle);
        let mut tapped = quarter_twenty();
        tapped.full_thread = Some(Length::inch(bad));
        refused(&blind(Finish::Tapped(tapped), 0.75, None), Field::FullThread);
    }
}

#[test]
fn a_blind_hole_has_a_depth_less_than_the_plate() {
    refused(&blind(plain(0.25), 0.5, None), Field::Depth);
    refused(&blind(plain(0.25), 0.5, Some(0.5)), Field::Depth);
    refused(&blind(plain(0.25), 0.5, Some(0.6)), Field::Depth);
    // The point of a 1 in drill is 0.3 in long.
    refused(&blind(plain(1.0), 0.25, Some(0.1)), Field::Plate);
}

#[test]
fn a_seat_is_larger_than_its_hole_and_leaves_something_below() {
    refused(&through(counterbored(0.28, 0.25, None), 0.5), Field::Counterbore);
    refused(&through(counterbored(0.4375, 0.5, None), 0.5), Field::CounterboreDepth);
    refused(&blind(counterbored(0.4375, 0.3, None), 0.5, Some(0.25)), Field::CounterboreDepth);
    refused(&through(counterbored(0.4375, 0.25, Some(0.45)), 0.5), Field::Chamfer);
    refused(&through(countersunk(0.25, 82.0), 0.5), Field::Countersink);
    refused(&through(countersunk(0.2, 82.0), 0.5), Field::Countersink);
    refused(&through(countersunk(0.5, 82.0), 0.125), Field::Countersink);
}

#[test]
fn a_thread_fits_its_hole() {
    let with = |thread: f64| {
        let mut tapped = quarter_twenty();
        tapped.full_thread = Some(Length::inch(thread));
        Finish::Tapped(tapped)
    };
    refused(&blind(with(0.8), 0.75, None), Field::FullThread);
    refused(&blind(with(0.5), 0.75, Some(0.45)), Field::FullThread);
    refused(&blind(with(0.5), 0.75, Some(0.55)), Field::FullThread);
    refused(&through(with(0.6), 0.5), Field::FullThread);
    refused(&blind(Finish::Tapped(quarter_twenty()), 0.75, None), Field::FullThread);
    refused(&blind(with(0.01), 0.05, None), Field::Plate);
}

#[test]
fn figures_of_a_tap_are_checked_too() {
    let with = |change: &dyn Fn(&mut handwheel::engine::holes::tapping::Tapped)| {
        let mut tapped = quarter_twenty();
        tapped.full_thread = Some(Length::inch(0.3));
        change(&mut tapped);
        blind(Finish::Tapped(tapped), 0.75, None)
    };
    for bad in [-1.0, f64::NAN, 99.0] {
        refused(&with(&|t| t.chamfer_threads = Some(bad)), Field::TapChamfer);
        refused(&with(&|t| t.hole.percent = bad * 2.0), Field::Percent);
    }
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        refused(&with(&|t| t.spare = Some(Length::inch(bad))), Field::Spare);
    }
    for large in ["1/4", "5/16"] {
        refused(&with(&|t| t.drill = Drill::named(large).ok()), Field::Hole);
    }
}

#[test]
fn a_hole_wider_than_any_drill_is_to_be_bored() {
    refused(&through(plain(5.0), 0.5), Field::Hole);
}
