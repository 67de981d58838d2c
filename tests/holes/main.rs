//! Recipes for finished holes: the acceptance runs of the scenario, what holds for every recipe,
//! and every entry that cannot be.

#[path = "../mills/mod.rs"]
mod mills;

mod bad_input;
mod order;
mod properties;
mod scenario;
mod threads;

use handwheel::engine::{
    drills::{Drill, Index},
    holes::{
        clearance::{self, Fit, clearance_hole},
        finish::{Bottom, Finish, Hole, Opening},
        recipe::{Recipe, Setting, Step, Work, recipe},
    },
    machine::Machine,
    quantity::{Angle, Length},
    question::{Coolant, Own, Style},
    stock::material,
};

/// Every inch drill and every tenth of a millimetre.
fn every_drill() -> Index {
    Index::every()
}

fn drills(names: &[&str]) -> Index {
    Index::new(names.iter().map(|name| Drill::named(name).expect(name)))
}

fn setting<'a>(machine: &'a Machine, stock: &str, drills: &'a Index) -> Setting<'a> {
    Setting {
        machine,
        stock: material(stock).expect(stock),
        drills,
        cutters: None,
        taps: None,
        point_angle: Angle::degree(118.0),
        coolant: Coolant::Brush,
        style: Style::Gentle,
        own: Own::default(),
    }
}

fn through(finish: Finish, plate: f64) -> Hole {
    Hole { finish, plate: Length::inch(plate), bottom: Bottom::Through }
}

fn blind(finish: Finish, plate: f64, depth: Option<f64>) -> Hole {
    Hole { finish, plate: Length::inch(plate), bottom: Bottom::Blind(depth.map(Length::inch)) }
}

fn plain(inch: f64) -> Finish {
    Finish::Drilled(Opening::Plain(Length::inch(inch)))
}

fn clearing(screw: &str, fit: Fit) -> Opening {
    let standard = clearance::Standard::AsmeB18_2_8;
    Opening::Clearance(clearance_hole(standard, screw, fit).expect(screw))
}

fn made(hole: &Hole, setting: &Setting) -> Recipe {
    recipe(hole, setting).expect("a recipe")
}

fn work(recipe: &Recipe) -> Vec<Work> {
    recipe.steps.iter().map(|step| step.work).collect()
}

#[track_caller]
fn step(recipe: &Recipe, work: Work) -> &Step {
    recipe.steps.iter().find(|step| step.work == work).unwrap_or_else(|| panic!("no {work:?}"))
}

#[track_caller]
fn close(got: f64, wanted: f64, by: f64) {
    assert!((got - wanted).abs() <= by, "got {got}, wanted {wanted}");
}
