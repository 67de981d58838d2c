//! The words of holes and their recipes.

use super::{Advice, advice, beyond, length};
use crate::{
    engine::{
        answer::State,
        holes::{
            clearance::Standard,
            recipe::{ByHand, Caution, Remedy, Step, Turn, Work},
            tool::{Has, Tool},
        },
        machine::Turning,
        quantity::{
            System,
            rounding::{self, fixed},
        },
        question::Field,
        threads::tap_hole::Verdict,
    },
    shop::holes::{FinishKind, FlatHead, HoleForm, making},
};

/// What a kind of hole is called, and what it is for.
#[must_use]
pub fn finish(kind: FinishKind) -> (&'static str, &'static str) {
    match kind {
        FinishKind::Plain => ("Drilled", "to a size"),
        FinishKind::Clearance => ("Clearance", "a screw passes"),
        FinishKind::Reamed => ("Reamed", "to a size"),
        FinishKind::Tapped => ("Tapped", "for a screw"),
        FinishKind::Counterbored => ("Counterbored", "socket head"),
        FinishKind::Countersunk => ("Countersunk", "flat head"),
    }
}

/// What a flat head is called.
#[must_use]
pub fn flat_head(head: FlatHead) -> &'static str {
    match head {
        FlatHead::Socket => "With a socket",
        FlatHead::Machine => "Machine screw",
    }
}

/// What is asked for, in a few words: `Tapped: 1/4-20 UNC`.
#[must_use]
pub fn what(form: &HoleForm) -> String {
    let (name, _) = finish(form.finish);
    let size = match form.finish {
        FinishKind::Tapped if !form.thread.is_empty() => form.thread.clone(),
        FinishKind::Tapped => "no thread yet".to_owned(),
        kind if kind.is_sized() => match form.size.given() {
            Some(size) => size.with_unit(Field::Hole),
            None => "no size yet".to_owned(),
        },
        _ if form.screw.is_empty() => "no screw yet".to_owned(),
        _ => format!("{}, {}", form.screw, fit(form)),
    };
    format!("{name}: {size}")
}

/// The fit of a form as its table calls it.
fn fit(form: &HoleForm) -> String {
    let standard = making::clearance_standard(form);
    let word = form.fit.words(standard);
    if standard == Standard::Trade { format!("{word} by the shop chart") } else { word.to_owned() }
}

/// Where a hole ends, in a few words: `Blind in 0.750 in, 0.5 in of thread`.
#[must_use]
pub fn ends(form: &HoleForm) -> String {
    let typed = |field| {
        let typed = form.typed(field).and_then(|typed| typed.given());
        typed.map(|typed| typed.with_unit(field))
    };
    let plate = typed(Field::Plate);
    if form.through {
        return plate.map_or_else(
            || "Through, no thickness yet".to_owned(),
            |plate| format!("Through {plate}"),
        );
    }
    let thread = typed(Field::FullThread).filter(|_| form.finish == FinishKind::Tapped);
    let depth = match (thread, typed(Field::Depth)) {
        (Some(thread), _) => format!("{thread} of thread"),
        (None, Some(depth)) => format!("{depth} deep"),
        (None, None) => "no depth yet".to_owned(),
    };
    match plate {
        Some(plate) => format!("Blind in {plate}, {depth}"),
        None => format!("Blind, {depth}"),
    }
}

/// What a step does.
#[must_use]
pub fn work(work: Work) -> &'static str {
    match work {
        Work::Spot => "Spot",
        Work::Pilot => "Pilot",
        Work::Drill => "Drill",
        Work::Chamfer => "Bevel the mouth",
        Work::Ream => "Ream",
        Work::Counterbore => "Counterbore",
        Work::BreakEdge => "Break the edge below the head",
        Work::Countersink => "Countersink",
        Work::TapByHand => "Tap by hand",
        Work::TapUnderPower => "Tap under power",
        Work::Deburr => "Burr off, by hand",
    }
}

/// A tool as the head of its step.
#[must_use]
pub fn tool(tool: &Tool, system: System) -> String {
    let title = tool.kind.title(system);
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Whether a tool is there; nothing where it is, or where nobody has said.
#[must_use]
pub fn has(has: Has) -> Option<&'static str> {
    (has == Has::No).then_some("Not in your drawer")
}

fn turning(turning: Turning) -> &'static str {
    match turning {
        Turning::Clockwise => "clockwise",
        Turning::CounterClockwise => "counter-clockwise",
    }
}

/// Which way a tap is turned, and what the switch says for it.
#[must_use]
pub fn turn(turn: &Turn) -> String {
    let with = |way: Turning, switch: &Option<String>| match switch {
        Some(switch) => format!("switch to {switch}, {}", turning(way)),
        None => turning(way).to_owned(),
    };
    let into = with(turn.into, &turn.switch);
    match turn.out {
        Some(out) => {
            format!("In: {into}. Out: {}. Seen from above.", with(out, &turn.switch_out))
        }
        None => format!("In: {into}. Seen from above."),
    }
}

/// A caution of a recipe: what is the matter with its figures, and why or what to do.
#[must_use]
pub fn caution(caution: &Caution, steps: &[Step], system: System) -> Advice {
    let size = |value| length(value, system);
    let why = match caution {
        Caution::BreaksThrough { tip, plate } => {
            format!("The tip goes to {}, and the plate is {} thick.", size(*tip), size(*plate))
        }
        Caution::ThinFloor(floor) => format!("Only {} is left under the tip.", size(*floor)),
        Caution::Grabs => "The plate is thinner than the drill's point is long.".to_owned(),
        Caution::Over { step, limit } => {
            let name = steps.get(*step).map_or("this step", |step| work(step.work));
            format!("Step {}, {}: {}", step + 1, name.to_lowercase(), beyond(*limit))
        }
        Caution::NearestDrill { wanted, off } => {
            let side = if off.is_positive() { "over" } else { "under" };
            format!("The drill is {} {side} the {} wanted.", size(off.abs()), size(*wanted))
        }
        Caution::OutsideClass { hole, verdict, class, to_buy } => {
            let class = class.map_or("its class", |class| class.class);
            let side = if *verdict == Verdict::Binds { "under" } else { "over" };
            let buy = to_buy.map(|drill| format!(" {} would be inside.", drill.name()));
            format!("The hole, {}, is {side} {class}.{}", size(*hole), buy.unwrap_or_default())
        }
        Caution::ReamedForTap => "The hole of the tap is reamed.".to_owned(),
        Caution::ReamAllowance(takes) => {
            format!("The reamer takes {} off the diameter.", size(*takes))
        }
        Caution::ShortThread { has, wants } => {
            format!("The thread is {} long; the screw wants {}.", size(*has), size(*wants))
        }
        Caution::DeadSpindle => "The spindle must not be able to start.".to_owned(),
        Caution::TwoTaps => "Two taps: the plug tap first, then the bottoming tap.".to_owned(),
        Caution::TapChips => "A tap in a blind hole packs its chips below it.".to_owned(),
        Caution::ByHand(ByHand::Small | ByHand::Fast | ByHand::NoReverse) => {
            "Tap this one by hand.".to_owned()
        }
        Caution::LeftHand => "A left-hand thread.".to_owned(),
    };
    advice(why, caution.why())
}

/// How bad it is.
#[must_use]
pub fn caution_state(caution: &Caution) -> State {
    match caution {
        Caution::BreaksThrough { .. }
        | Caution::Over { .. }
        | Caution::OutsideClass { verdict: Verdict::Binds, .. } => State::Over,
        _ => State::Near,
    }
}

/// What would mend a hole that breaks through: what to do, and what comes of it.
#[must_use]
pub fn remedy(remedy: Remedy, system: System) -> (String, String) {
    let size = |value| length(value, system);
    match remedy {
        Remedy::BottomingTap { tip, floor, turns, .. } => (
            "Finish with a bottoming tap".to_owned(),
            format!(
                "Plug tap first. Tip {}, {} left under it, {} turns.",
                size(tip),
                size(floor),
                fixed(turns, 1)
            ),
        ),
        Remedy::BlunterPoint { angle, tip, floor } => (
            format!("Drill with a {}° point", fixed(angle.to_degree(), 0)),
            format!("Tip {}, {} left under it.", size(tip), size(floor)),
        ),
        Remedy::FlatBottom { floor } => (
            "Flatten the bottom".to_owned(),
            format!("Drill less deep, finish with an end mill of its size: {} left.", size(floor)),
        ),
        Remedy::ShorterThread(most) => (format!("At most {} of thread", size(most)), String::new()),
        Remedy::LessDeep(most) => (format!("At most {} deep", size(most)), String::new()),
        Remedy::ThickerPlate(least) => {
            ("Take thicker stock".to_owned(), format!("{} at least.", size(least)))
        }
        Remedy::Through => ("Go through".to_owned(), String::new()),
    }
}

/// How long a recipe takes under feed.
#[must_use]
pub fn time(time: crate::engine::quantity::Duration) -> String {
    format!(
        "{} under feed. Changing tools, pecks and hand work are not in it.",
        rounding::duration(time)
    )
}
