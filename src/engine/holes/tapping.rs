//! Tapping a hole: the chain of depths, the order of the taps, which way they turn, and what mends
//! a hole that is too deep for its plate.

use super::{
    choosing,
    depth::{self, BlindThread},
    engagement::engagement,
    finish::{Bottom, Faults, Hole},
    kit::{Bit, Kit, Result},
    making::ream_room,
    recipe::{ByHand, Caution, Chain, Remedy, Step, Turn, Work},
    tool::{Has, TapStyle, Tool, ToolKind, cutter},
};
use crate::engine::{
    answer::Verdict,
    cutters::Kind,
    cutting::handwheel,
    drills::Drill,
    machine::Turning,
    quantity::{Length, SpindleSpeed},
    question::{Field, InputError, Operation, Own},
    stock::Flag,
};

/// What a tap's hole needs to know of a thread.
#[derive(Clone, Debug, PartialEq)]
pub struct TapThread {
    /// As the trade writes it: 1/4-20, M6x1.
    pub name: String,
    /// Major diameter.
    pub major: Length,
    /// Pitch.
    pub pitch: Length,
    /// Basic minor diameter, not rounded, and the greatest of the class.
    pub minor: (Length, Length),
}

impl TapThread {
    /// Diameter of the hole that leaves a percentage of thread, 100 % being 1.299 pitches: the
    /// convention of the tap drill charts.
    #[must_use]
    pub fn hole_for(&self, percent: f64) -> Length {
        self.major - self.pitch * (HEIGHT * percent / 100.0)
    }

    /// Percentage of thread that a hole leaves, inverse of [`Self::hole_for`].
    #[must_use]
    pub fn percent_of(&self, hole: Length) -> f64 {
        100.0 * ((self.major - hole) / self.pitch) / HEIGHT
    }
}

/// Twice three quarters of the height of a sharp 60 degree thread, in pitches: 100 % of thread on
/// the diameter as tap drill charts count it.
const HEIGHT: f64 = 1.299_038;

/// A thread that is wanted in a hole.
#[derive(Clone, Debug)]
pub struct Tapped {
    /// The thread.
    pub thread: TapThread,
    /// It screws in counter-clockwise.
    pub left_hand: bool,
    /// Length of full thread; the whole plate where none is given for a through hole.
    pub full_thread: Option<Length>,
    /// The tap that is at hand.
    pub tap: TapStyle,
    /// Threads of its chamfer, where they were counted.
    pub chamfer_threads: Option<f64>,
    /// What is left for chips below the tap; one pitch where nothing is said.
    pub spare: Option<Length>,
    /// Percentage of thread to aim at, of 1.299 pitches.
    pub percent: f64,
    /// A drill of the person's own choice, in place of the percentage.
    pub drill: Option<Drill>,
    /// Under power, where the machine allows it.
    pub under_power: bool,
}

/// What was decided before the first step.
pub(super) struct Plan {
    pub bit: Bit,
    /// A reamer that makes the tap's hole after a smaller drill.
    pub reamer: Option<Length>,
    /// Depth of the drill at its full diameter.
    pub drilled: Length,
    pub chain: Chain,
    taps: Vec<Turned>,
}

/// One tap of the order.
struct Turned {
    style: TapStyle,
    travel: Length,
}

/// Threads that the chamfer of a tap takes: the middle of what its style has.
fn chamfer(style: TapStyle) -> f64 {
    let (low, high) = style.chamfer_threads();
    (low + high) / 2.0
}

/// Smaller threads than this are tapped by hand: #8 and M4.
fn smallest_under_power() -> Length {
    Length::mm(4.0)
}

/// Faster than this no hand reverses a spindle in time.
fn fastest_tap() -> SpindleSpeed {
    SpindleSpeed::rpm(200.0)
}

/// Diameter of the mouth of a tapped hole: the major diameter and a bit, so that the first thread
/// raises no burr.
pub(super) fn mouth(tapped: &Tapped) -> Length {
    let major = tapped.thread.major;
    major + (major * 0.1).min(Length::inch(0.030))
}

impl Tapped {
    fn spare_or_one(&self) -> Length {
        self.spare.unwrap_or(self.thread.pitch)
    }

    fn chamfer_of(&self, style: TapStyle) -> f64 {
        self.chamfer_threads.filter(|_| style == self.tap).unwrap_or_else(|| chamfer(style))
    }

    fn chain(&self, full_thread: Length, style: TapStyle) -> Result<BlindThread> {
        let pitch = self.thread.pitch;
        BlindThread::new(full_thread, pitch, self.chamfer_of(style), self.spare_or_one())
            .map_err(|error| vec![error])
    }

    /// Entries that cannot be worked with.
    pub(super) fn check(&self, hole: &Hole, depth: Option<Length>, faults: &mut Faults) {
        if !(10.0..=100.0).contains(&self.percent) {
            faults.add(
                Field::Percent,
                "A percentage of thread lies between 10 and 100.",
                "60 to 75 is usual.",
            );
        }
        if self.drill.is_some_and(|drill| drill.diameter() >= self.thread.major) {
            faults.add(
                Field::Hole,
                "The drill is as large as the thread.",
                "Enter the tap drill; it is smaller than the screw.",
            );
        }
        let Some(full_thread) = self.full_thread else {
            if !hole.is_through() {
                faults.add(
                    Field::FullThread,
                    "A blind thread needs a length.",
                    "Enter how much full thread the screw is to find.",
                );
            }
            return;
        };
        if !faults.size(Field::FullThread, "The length of thread", full_thread) {
            return;
        }
        let room = depth.unwrap_or(hole.plate);
        if full_thread > room {
            faults.add(
                Field::FullThread,
                "The thread is longer than the hole.",
                "Enter a shorter one, or a deeper hole.",
            );
        }
        if let Err(errors) = self.chain(full_thread, self.tap) {
            faults.0.extend(errors);
        }
    }
}

/// Decides on drill, depth and taps.
pub(super) fn plan(kit: &mut Kit, tapped: &Tapped) -> Result<Plan> {
    let (bit, reamer) = choosing::tap_hole(kit, tapped)?;
    let through = kit.hole.is_through();
    let full_thread = tapped.full_thread.filter(|_| !through).unwrap_or(kit.hole.plate);
    let asked = tapped.chain(full_thread, tapped.tap)?;
    let finish = match kit.hole.bottom {
        Bottom::Blind(Some(depth)) if asked.full_depth() > depth * (1.0 + 1e-9) => {
            bottoming_in(tapped, full_thread, depth)?;
            TapStyle::Bottoming
        }
        _ => tapped.tap,
    };
    let chain = tapped.chain(full_thread, finish)?;
    let full = match kit.hole.bottom {
        Bottom::Through => kit.hole.plate,
        Bottom::Blind(depth) => depth.unwrap_or(chain.full_depth()),
    };
    let hole = reamer.unwrap_or(bit.diameter());
    // A reamer does not reach the bottom of the drill.
    let drilled = if reamer.is_some() && !through { full + ream_room() } else { full };
    let tip = kit.drill_tip(bit.diameter(), drilled);
    let floor = kit.hole.plate - tip;
    if !through {
        kit.say_floor(tip);
        kit.cautions.push(Caution::TapChips);
    }
    let major = tapped.thread.major;
    let (wants, _) = engagement(kit.setting.stock).lengths(major);
    if full_thread < wants * (1.0 - 1e-9) {
        kit.cautions.push(Caution::ShortThread { has: full_thread, wants });
    }
    let mut taps = order(kit, tapped, finish);
    for turned in &mut taps {
        let travel = tapped.chain(full_thread, turned.style)?.tap_travel();
        turned.travel = if through { travel } else { travel.min(full) };
    }
    if taps.len() > 1 && finish == TapStyle::Bottoming {
        kit.cautions.push(Caution::TwoTaps);
    }
    Ok(Plan {
        chain: Chain {
            full_thread,
            tap: finish,
            chamfer_threads: tapped.chamfer_of(finish),
            needs: chain.full_depth(),
            full,
            tip,
            floor: (!through).then_some(floor),
            travel: chain.tap_travel(),
            turns: chain.tap_turns(),
            thread_turns: full_thread / tapped.thread.pitch,
            percent: tapped.thread.percent_of(hole),
        },
        drilled,
        bit,
        reamer,
        taps,
    })
}

/// Refuses a thread that not even a bottoming tap brings into a hole.
fn bottoming_in(tapped: &Tapped, full_thread: Length, depth: Length) -> Result<()> {
    let least = tapped.chain(full_thread, TapStyle::Bottoming)?.full_depth();
    if least <= depth * (1.0 + 1e-9) {
        return Ok(());
    }
    Err(vec![InputError::new(
        Field::FullThread,
        "The hole is too short for this thread: even a bottoming tap needs its chamfer and room for chips.",
        format!(
            "Drill at least {:.3} in ({:.2} mm) deep, or ask for less thread.",
            least.to_inch(),
            least.to_mm()
        ),
    )])
}

/// The taps in their order: tough stock begins with a taper tap, a bottoming tap never begins.
fn order(kit: &Kit, tapped: &Tapped, finish: TapStyle) -> Vec<Turned> {
    let tough = kit.setting.stock.is(Flag::WorkHardening) && !tapped.under_power;
    let mut styles = Vec::with_capacity(3);
    match finish {
        TapStyle::Taper => styles.push(TapStyle::Taper),
        TapStyle::Plug => {
            if tough && kit.hole.is_through() {
                styles.push(TapStyle::Taper);
            }
            styles.push(TapStyle::Plug);
        }
        TapStyle::Bottoming => styles.extend([TapStyle::Plug, TapStyle::Bottoming]),
    }
    styles.into_iter().map(|style| Turned { style, travel: Length::ZERO }).collect()
}

/// Why the hand does what power was asked to do.
fn refused(kit: &Kit, tapped: &Tapped) -> Option<ByHand> {
    let machine = kit.setting.machine;
    if tapped.thread.major < smallest_under_power() * (1.0 - 1e-9) {
        return Some(ByHand::Small);
    }
    if machine.lowest().is_none_or(|lowest| lowest > fastest_tap()) {
        return Some(ByHand::Fast);
    }
    None
}

/// Taps a drilled hole.
pub(super) fn tap(kit: &mut Kit, tapped: &Tapped, plan: &Plan) -> Result<()> {
    if tapped.left_hand {
        kit.cautions.push(Caution::LeftHand);
    }
    let mut by_hand = if tapped.under_power { refused(kit, tapped) } else { None };
    if let Some(why) = by_hand {
        kit.cautions.push(Caution::ByHand(why));
    }
    for turned in &plan.taps {
        if tapped.under_power && by_hand.is_none() {
            by_hand = under_power(kit, tapped, plan, turned)?;
            if by_hand.is_none() {
                continue;
            }
        }
        with_the_hand(kit, tapped, plan, turned);
    }
    if !tapped.under_power || by_hand.is_some() {
        kit.cautions.push(Caution::DeadSpindle);
    }
    Ok(())
}

/// In and out again, seen from above.
fn ways(tapped: &Tapped) -> (Turning, Turning) {
    if tapped.left_hand {
        (Turning::CounterClockwise, Turning::Clockwise)
    } else {
        (Turning::Clockwise, Turning::CounterClockwise)
    }
}

fn tool(kit: &Kit, tapped: &Tapped, style: TapStyle) -> Tool {
    let pitch = tapped.thread.pitch;
    let owned = kit.drawer(|c| {
        matches!(c.kind, Kind::Tap { pitch: p } if (p - pitch).abs() <= pitch * 0.002)
            && choosing::same_size(c.diameter, tapped.thread.major)
    });
    let has = match (owned, kit.setting.cutters) {
        (Some(_), _) => Has::Yes,
        (None, None) => Has::Unknown,
        (None, Some(_)) => Has::No,
    };
    Tool { kind: ToolKind::Tap { thread: tapped.thread.name.clone(), style }, has }
}

fn step(kit: &mut Kit, tapped: &Tapped, plan: &Plan, turned: &Turned, work: Work) -> Step {
    let tool = tool(kit, tapped, turned.style);
    kit.need(work, &tool.kind, tool.has);
    let (into, out) = ways(tapped);
    Step {
        work,
        tool,
        answer: None,
        turn: Some(Turn { into, switch: None, out: Some(out), switch_out: None }),
        makes: tapped.thread.major,
        full: plan.chain.full_thread,
        tip: turned.travel,
        pecks: Vec::new(),
        turns: Some(turned.travel / tapped.thread.pitch),
        time: None,
        lubricant: kit.setting.stock.coolant,
        why: match turned.style {
            TapStyle::Taper => "A long chamfer starts true and shares the work among many teeth.",
            TapStyle::Plug => "It starts true and cuts the thread.",
            TapStyle::Bottoming => "It carries the full thread close to the bottom.",
        },
        sources: "F_GEOMETRY CP",
    }
}

fn with_the_hand(kit: &mut Kit, tapped: &Tapped, plan: &Plan, turned: &Turned) {
    let step = step(kit, tapped, plan, turned, Work::TapByHand);
    kit.steps.push(step);
}

/// Taps under power; `Some` with the reason where the machine cannot.
fn under_power(
    kit: &mut Kit,
    tapped: &Tapped,
    plan: &Plan,
    turned: &Turned,
) -> Result<Option<ByHand>> {
    let (pitch, major) = (tapped.thread.pitch, tapped.thread.major);
    let cutter = cutter(Kind::Tap { pitch }, major, 4, kit.material());
    let answer = kit.answer(cutter, Operation::Tap, turned.travel, Own::default())?;
    let range = kit.setting.machine.ranges.get(answer.speed.range.0);
    let (mut into, mut out) = (
        range.and_then(|r| r.clockwise_label.clone()),
        range.and_then(|r| r.counter_clockwise_label.clone()),
    );
    if tapped.left_hand {
        core::mem::swap(&mut into, &mut out);
    }
    let why = if answer.verdict == Verdict::DoNotCut || answer.speed.set > fastest_tap() {
        Some(ByHand::Fast)
    } else if into.is_none() || out.is_none() {
        Some(ByHand::NoReverse)
    } else {
        None
    };
    if let Some(why) = why {
        kit.cautions.push(Caution::ByHand(why));
        return Ok(Some(why));
    }
    let mut step = step(kit, tapped, plan, turned, Work::TapUnderPower);
    let (way_in, way_out) = ways(tapped);
    step.turn = Some(Turn { into: way_in, switch: into, out: Some(way_out), switch_out: out });
    // In and out again at the same pace.
    let once = answer.feed.map(|feed| handwheel::travel_time_of(turned.travel, feed.rate));
    step.time = once.map(|once| once * 2.0);
    step.answer = Some(answer);
    kit.steps.push(step);
    Ok(None)
}

/// What mends a tapped hole that breaks through, best first.
pub(super) fn remedies(kit: &Kit, tapped: &Tapped, plan: &Plan) -> Vec<Remedy> {
    let chain = &plan.chain;
    if chain.floor.is_none_or(|floor| floor.is_positive()) {
        return Vec::new();
    }
    let (plate, drill) = (kit.hole.plate, plan.bit.diameter());
    let mut list = Vec::with_capacity(5);
    if chain.tap != TapStyle::Bottoming
        && let Ok(short) = tapped.chain(chain.full_thread, TapStyle::Bottoming)
    {
        let full = short.full_depth();
        let tip = full + kit.point(drill);
        let floor = plate - tip;
        if floor.is_positive() {
            list.push(Remedy::BottomingTap { full, tip, floor, turns: short.tap_turns() });
        }
    }
    list.extend(kit.blunter(drill, plan.drilled));
    let most = plate - depth::breakthrough() - (chain.tip - chain.full_thread);
    if most.is_positive() {
        list.push(Remedy::ShorterThread(most));
    }
    list.push(Remedy::ThickerPlate(chain.tip + depth::breakthrough()));
    list.push(Remedy::Through);
    list
}
