//! What a helper comes to, in the terms of the screen.

use super::picture;
use crate::{
    engine::{
        answer::State,
        quantity::{
            Force, Length, System,
            rounding::{self, Shown, fixed},
        },
        setup::{passes::PassPlan, tram::Tram},
    },
    shop::setup::{Outcome, OverParallels},
    ui::words,
};

/// An answer as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// How it stands, in a few words.
    pub mark: (State, String),
    /// What the number to set is.
    pub label: String,
    /// The number to set.
    pub shown: Shown,
    /// One sentence under it.
    pub why: String,
    /// Figures beside it.
    pub cells: Vec<(String, Shown, String)>,
    /// What to heed.
    pub cautions: Vec<(State, &'static str, String)>,
    /// Depths to stop at, pass by pass.
    pub targets: Vec<String>,
    /// The drawing.
    pub drawing: String,
    /// The drawing in words.
    pub words: String,
}

/// The answer of an outcome.
pub fn answered(outcome: &Outcome, system: System) -> Answered {
    let show = |length: Length| rounding::length(length, system);
    let text = |length: Length| show(length).to_string();
    let (drawing, words) = picture::draw(outcome, system);
    let mut a = Answered {
        mark: (State::Within, "Worked out".to_owned()),
        label: String::new(),
        shown: Shown { digits: "–".to_owned(), unit: "" },
        why: String::new(),
        cells: Vec::new(),
        cautions: Vec::new(),
        targets: Vec::new(),
        drawing,
        words,
    };
    match outcome {
        Outcome::Face { value, tip, side, .. } => {
            let axis = words::setup::axis(*side);
            a.label = format!("Type {axis} =");
            a.shown = show(*value);
            a.why = format!(
                "Finder {}: the axis stands half of the tip, {}, from the face.",
                words::setup::side(*side).to_lowercase(),
                text(*tip / 2.0)
            );
        }
        Outcome::Middle { between, zero, tip, inside } => {
            a.label = "At the second touch type".to_owned();
            a.shown = show(*zero);
            a.why =
                "Zero is then in the middle. Size needs the tip, the middle does not.".to_owned();
            let (name, note) = if *inside {
                ("Size of the bore", "travel and tip")
            } else {
                ("Width", "travel less tip")
            };
            a.cells.push((name.to_owned(), show(between.size), note.to_owned()));
            let note = "from the first touch".to_owned();
            a.cells.push(("Middle".to_owned(), show(between.centre), note));
            if !inside {
                let from_face = between.centre - *tip / 2.0;
                let note = "from the first face".to_owned();
                a.cells.push(("Middle".to_owned(), show(from_face), note));
            }
        }
        Outcome::Parallels { range, choice, jaw, part, side_cut, least_grip, is_own_set, hole } => {
            a.label = "Parallels of".to_owned();
            a.why = format!("From {} to {} fit.", text(range.lowest), text(range.highest));
            match choice {
                Some(height) => {
                    a.shown = show(*height);
                    let (top, grip) = (*height + *part - *jaw, *jaw - *height);
                    a.cells.push(("Above the jaws".to_owned(), show(top), String::new()));
                    a.cells.push(("In the jaws".to_owned(), show(grip), String::new()));
                    let note = "between cut and jaws".to_owned();
                    a.cells.push(("Air".to_owned(), show(top - *side_cut), note));
                    let lowest = format!("at least {}", text(*least_grip));
                    a.mark = (State::Within, format!("Grip {}, {lowest}", text(grip)));
                }
                None => {
                    a.mark = (State::Over, "None of the set fits".to_owned());
                    let fix = "Stack blocks to a height between the two, or cut less deep.";
                    a.cautions.push((State::Over, "None fits", fix.to_owned()));
                }
            }
            if !is_own_set {
                a.why.push_str(" Taken from a set of 1/2 to 1 5/8 in by eighths.");
            }
            over_hole(&mut a, *hole, system);
        }
        Outcome::Strap { bolt, work, friction, allowed, force, straps, to_work, to_heel, heel } => {
            strap(
                &mut a,
                (*bolt, *work, *friction, *allowed),
                *force,
                *straps,
                *to_work < *to_heel,
                *heel,
                system,
            );
        }
        Outcome::Head { tram, step, hollow, .. } => {
            tram_answer(&mut a, tram, "seen from the front", system);
            a.label = "Turn until both read".to_owned();
            a.shown = fine(tram.target(), system);
            if let Some(step) = step {
                a.cells.push(("Step between rows".to_owned(), fine(*step, system), String::new()));
            }
            if let Some(hollow) = hollow {
                let note = "fed along the lean".to_owned();
                a.cells.push(("Hollow of a row".to_owned(), fine(*hollow, system), note));
            }
        }
        Outcome::Vise { tram, at_bolt, over_part, .. } => {
            tram_answer(&mut a, tram, "seen from above", system);
            a.label = "Readings differ by".to_owned();
            a.shown = fine(tram.apart(), system);
            if let Some(move_by) = at_bolt {
                a.label = "Move it at the bolt by".to_owned();
                a.shown = fine(*move_by, system);
            }
            if let Some(over) = over_part {
                let note = "if left as it is".to_owned();
                a.cells.push(("Error over the part".to_owned(), fine(*over, system), note));
            }
        }
        Outcome::Wall { rough, finish, side, passes, .. } => {
            let axis = words::setup::axis(*side);
            a.label = format!("Finish at {axis} =");
            a.shown = show(*finish);
            if rough != finish {
                a.why = format!("Rough at {axis} = {}.", text(*rough));
                a.cells.push((format!("Rough, {axis}"), show(*rough), String::new()));
            }
            pass_plan(&mut a, *passes, system);
        }
        Outcome::Slot { rough, finish, passes, .. } => {
            a.label = "Finish at, lower".to_owned();
            a.shown = show(finish.0);
            a.why = format!("And at {}.", text(finish.1));
            a.cells.push(("Finish, upper".to_owned(), show(finish.1), String::new()));
            if rough != finish {
                a.cells.push(("Rough, lower".to_owned(), show(rough.0), String::new()));
                a.cells.push(("Rough, upper".to_owned(), show(rough.1), String::new()));
            }
            pass_plan(&mut a, *passes, system);
        }
        Outcome::Exit { left, below, parallel, hole, .. } => {
            a.label = "Left under the tip".to_owned();
            a.shown = show(*left);
            a.why = format!("The tip comes {} out below the part.", text(*below));
            if *left <= Length::ZERO {
                a.mark = (State::Over, "The drill reaches what is below".to_owned());
                let text = format!(
                    "The tip goes {} deeper than parallels of {} leave. Higher ones, or a shallower stop.",
                    text(-*left),
                    text(*parallel)
                );
                a.cautions.push((State::Over, "Into vise or table", text));
            } else {
                a.mark = (State::Within, "It comes out free".to_owned());
            }
            over_hole(&mut a, *hole, system);
        }
        Outcome::Sine { height, bar, angle } => {
            a.label = "Blocks of".to_owned();
            a.shown = show(*height);
            a.why = format!("A bar of {} at {}°.", text(*bar), fixed(*angle, 4));
        }
    }
    a
}

/// A length that is smaller than a readout shows.
fn fine(length: Length, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: fixed(length.to_inch(), 5), unit: "in" },
        System::Metric => Shown { digits: fixed(length.to_mm(), 4), unit: "mm" },
    }
}

fn tram_answer(a: &mut Answered, tram: &Tram, seen: &str, system: System) {
    let minutes = rounding::significant(tram.angle().to_arcminute(), 3);
    match tram.turn() {
        Some(turn) => {
            let turn = words::setup::turn(turn);
            a.mark = (State::Near, format!("Turn it {turn}, {seen}"));
            a.why = format!("It is {minutes} arc minutes off.");
        }
        None => {
            a.mark = (State::Within, "Both readings agree".to_owned());
            "Square over this sweep.".clone_into(&mut a.why);
        }
    }
    let slope = match system {
        System::Inch => Shown { digits: fixed(tram.slope().abs() * 1000.0, 4), unit: "thou/in" },
        System::Metric => Shown { digits: fixed(tram.slope().abs() * 1000.0, 4), unit: "µm/mm" },
    };
    a.cells.push(("Slope".to_owned(), slope, String::new()));
    let angle = Shown { digits: minutes, unit: "arcmin" };
    a.cells.push(("Angle".to_owned(), angle, String::new()));
}

fn strap(
    a: &mut Answered,
    (bolt, work, friction, allowed): (Force, Force, Force, Force),
    force: Option<Force>,
    straps: u32,
    is_near: bool,
    heel: Option<(Length, Length)>,
    system: System,
) {
    let show = |force: Force| match system {
        System::Inch => Shown { digits: rounding::significant(force.to_lbf(), 3), unit: "lbf" },
        System::Metric => Shown { digits: rounding::significant(force.to_newton(), 3), unit: "N" },
    };
    a.label = "Cutting force it may hold".to_owned();
    a.shown = show(allowed);
    a.why = format!("{} straps hold {} by friction alone.", straps, show(friction));
    a.cells.push(("Pull of a bolt".to_owned(), show(bolt), String::new()));
    a.cells.push(("At the work".to_owned(), show(work), "each strap".to_owned()));
    if let Some((low, high)) = heel {
        let range = rounding::length(high, system);
        let note = "level or a hair higher".to_owned();
        let digits = format!("{} – {}", rounding::length(low, system).digits, range.digits);
        a.cells.push(("Heel".to_owned(), Shown { digits, unit: range.unit }, note));
    }
    if let Some(force) = force {
        let factor = friction / force;
        let against = Shown { digits: rounding::significant(factor, 2), unit: "" };
        a.cells.push(("Factor against slip".to_owned(), against, String::new()));
        a.mark = if force > friction {
            (State::Over, "The part slips at this force".to_owned())
        } else if force > allowed {
            (State::Near, "Less room than the factor asks".to_owned())
        } else {
            (State::Within, "Holds this force with the factor".to_owned())
        };
        if force > allowed {
            let fix = "More straps, a stop against the part, or a lighter cut.";
            a.cautions.push((a.mark.0, "Slip", fix.to_owned()));
        }
    }
    if !is_near {
        let text = "The bolt stands nearer the heel: it clamps the step block, not the part. \
                    Move it towards the work.";
        a.cautions.push((State::Over, "Bolt nearer the heel", text.to_owned()));
        if a.mark.0 == State::Within {
            a.mark = (State::Near, "The bolt is nearer the heel".to_owned());
        }
    }
    if straps == 1 {
        let text = "One strap is a pivot. Use two, or a strap and a stop.";
        a.cautions.push((State::Over, "One strap", text.to_owned()));
    }
}

fn over_hole(a: &mut Answered, hole: Option<OverParallels>, system: System) {
    let Some(hole) = hole else { return };
    let show = |length: Length| rounding::length(length, system).to_string();
    let under = hole.under;
    if under.is_clear() {
        a.cautions.push((
            State::Within,
            "Clear of the parallels",
            format!("The hole lies {} to {} from the fixed jaw.", show(under.from), show(under.to)),
        ));
        return;
    }
    let which = match (under.fixed, under.moving) {
        (true, true) => "both parallels",
        (true, false) => "the parallel at the fixed jaw",
        _ => "the parallel at the moving jaw",
    };
    a.mark = (State::Over, "A parallel is under the hole".to_owned());
    let text = format!(
        "The hole lies {} to {} from the fixed jaw; {which}, {} thick, is under it. Move it clear, or take thinner ones.",
        show(under.from),
        show(under.to),
        show(hole.thickness)
    );
    a.cautions.push((State::Over, "Drill into a parallel", text));
}

fn pass_plan(a: &mut Answered, passes: Option<PassPlan>, system: System) {
    let Some(plan) = passes else { return };
    let show = |length: Length| rounding::length(length, system).to_string();
    if plan.rough_passes > 0 {
        let digits = plan.rough_passes.to_string();
        let note = format!("{} each", show(plan.rough_depth));
        a.cells.push(("Rough passes".to_owned(), Shown { digits, unit: "" }, note));
    }
    a.targets = plan.targets().take(MOST_TARGETS).map(show).collect();
}

/// A list that is longer is read by nobody.
const MOST_TARGETS: usize = 60;
