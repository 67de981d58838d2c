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
    tool::{Has, Tool, ToolKind, cutter},
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
    threads::{
        Hand, Thread,
        tap::{Style, chip_room},
        tap_hole::Question,
    },
};

/// A thread that is wanted in a hole.
#[derive(Clone, Debug)]
pub struct Tapped {
    /// The thread, and how much of it.
    pub hole: Question,
    /// Length of full thread; the whole plate where none is given for a through hole.
    pub full_thread: Option<Length>,
    /// The tap that is at hand.
    pub tap: Style,
    /// Threads of its chamfer, where they were counted.
    pub chamfer_threads: Option<f64>,
    /// What is left for chips below the tap; one pitch where nothing is said.
    pub spare: Option<Length>,
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
    style: Style,
    travel: Length,
}

/// Threads that the chamfer of a tap takes: the middle of what its style has.
fn chamfer(style: Style) -> f64 {
    let (low, high) = style.chamfer();
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
    let major = tapped.thread().major();
    major + (major * 0.1).min(Length::inch(0.030))
}

impl Tapped {
    /// The thread.
    #[must_use]
    pub fn thread(&self) -> Thread {
        self.hole.thread
    }

    fn is_left_hand(&self) -> bool {
        self.thread().hand() == Hand::Left
    }

    /// The tap forms the thread and makes no chips.
    pub(super) fn forms(&self) -> bool {
        self.tap.forms()
    }

    /// The tap that goes closest to the bottom.
    fn bottoming(&self) -> Style {
        if self.forms() { Style::FormBottoming } else { Style::Bottoming }
    }

    fn spare_or_least(&self) -> Length {
        self.spare.unwrap_or_else(|| chip_room(self.thread()).0)
    }

    fn chamfer_of(&self, style: Style) -> f64 {
        self.chamfer_threads.filter(|_| style == self.tap).unwrap_or_else(|| chamfer(style))
    }

    fn chain(&self, full_thread: Length, style: Style) -> Result<BlindThread> {
        let pitch = self.thread().pitch();
        BlindThread::new(full_thread, pitch, self.chamfer_of(style), self.spare_or_least())
            .map_err(|error| vec![error])
    }

    /// Entries that cannot be worked with.
    pub(super) fn check(&self, hole: &Hole, depth: Option<Length>, faults: &mut Faults) {
        if self.drill.is_some_and(|drill| drill.diameter() >= self.thread().major()) {
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
    let choosing::Tapping { bit, reamer, percent, verdict } = choosing::tap_hole(kit, tapped)?;
    let through = kit.hole.is_through();
    let full_thread = tapped.full_thread.filter(|_| !through).unwrap_or(kit.hole.plate);
    let asked = tapped.chain(full_thread, tapped.tap)?;
    let finish = match kit.hole.bottom {
        Bottom::Blind(Some(depth)) if asked.full_depth() > depth * (1.0 + 1e-9) => {
            bottoming_in(tapped, full_thread, depth)?;
            tapped.bottoming()
        }
        _ => tapped.tap,
    };
    let chain = tapped.chain(full_thread, finish)?;
    let full = match kit.hole.bottom {
        Bottom::Through => kit.hole.plate,
        Bottom::Blind(depth) => depth.unwrap_or(chain.full_depth()),
    };
    // A reamer does not reach the bottom of the drill.
    let drilled = if reamer.is_some() && !through { full + ream_room() } else { full };
    let tip = kit.drill_tip(bit.diameter(), drilled);
    let floor = kit.hole.plate - tip;
    if !through {
        kit.say_floor(tip);
        if !tapped.forms() {
            kit.cautions.push(Caution::TapChips);
        }
    }
    let major = tapped.thread().major();
    let (wants, _) = engagement(kit.setting.stock).lengths(major);
    if full_thread < wants * (1.0 - 1e-9) {
        kit.cautions.push(Caution::ShortThread { has: full_thread, wants });
    }
    let mut taps = order(kit, tapped, finish);
    for turned in &mut taps {
        let travel = tapped.chain(full_thread, turned.style)?.tap_travel();
        turned.travel = if through { travel } else { travel.min(full) };
    }
    if taps.len() > 1 && finish == Style::Bottoming {
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
            thread_turns: full_thread / tapped.thread().pitch(),
            percent,
            verdict,
        },
        drilled,
        bit,
        reamer,
        taps,
    })
}

/// Refuses a thread that not even a bottoming tap brings into a hole.
fn bottoming_in(tapped: &Tapped, full_thread: Length, depth: Length) -> Result<()> {
    let least = tapped.chain(full_thread, tapped.bottoming())?.full_depth();
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
fn order(kit: &Kit, tapped: &Tapped, finish: Style) -> Vec<Turned> {
    let tough = kit.setting.stock.is(Flag::WorkHardening) && !tapped.under_power;
    let mut styles = Vec::with_capacity(3);
    match finish {
        Style::Taper => styles.push(Style::Taper),
        Style::Plug => {
            if tough && kit.hole.is_through() {
                styles.push(Style::Taper);
            }
            styles.push(Style::Plug);
        }
        Style::Bottoming => styles.extend([Style::Plug, Style::Bottoming]),
        Style::FormPlug | Style::FormBottoming => styles.push(finish),
    }
    styles.into_iter().map(|style| Turned { style, travel: Length::ZERO }).collect()
}

/// Why the hand does what power was asked to do.
fn refused(kit: &Kit, tapped: &Tapped) -> Option<ByHand> {
    let machine = kit.setting.machine;
    if tapped.thread().major() < smallest_under_power() * (1.0 - 1e-9) {
        return Some(ByHand::Small);
    }
    if machine.lowest().is_none_or(|lowest| lowest > fastest_tap()) {
        return Some(ByHand::Fast);
    }
    None
}

/// Taps a drilled hole.
pub(super) fn tap(kit: &mut Kit, tapped: &Tapped, plan: &Plan) -> Result<()> {
    if tapped.is_left_hand() {
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
    if tapped.is_left_hand() {
        (Turning::CounterClockwise, Turning::Clockwise)
    } else {
        (Turning::Clockwise, Turning::CounterClockwise)
    }
}

fn tool(kit: &Kit, tapped: &Tapped, style: Style) -> Tool {
    let pitch = tapped.thread().pitch();
    let owned = kit.drawer(|c| {
        matches!(c.kind, Kind::Tap { pitch: p } if (p - pitch).abs() <= pitch * 0.002)
            && choosing::same_size(c.diameter, tapped.thread().major())
    });
    let right = tapped.thread().with_hand(Hand::Right);
    let in_a_set =
        !tapped.is_left_hand() && kit.setting.taps.is_some_and(|taps| taps.contains(&right));
    let nobody_has_said = kit.setting.cutters.is_none() && kit.setting.taps.is_none();
    let has = match owned.is_some() || in_a_set {
        true => Has::Yes,
        false if nobody_has_said => Has::Unknown,
        false => Has::No,
    };
    Tool { kind: ToolKind::Tap { thread: tapped.thread(), style }, has }
}

/// What a tap leaves of full thread: its chamfer cuts none, and one that stops on the bottom of the
/// hole leaves the rest to the next.
fn full_thread_of(tapped: &Tapped, plan: &Plan, turned: &Turned) -> Length {
    let chamfer = tapped.thread().pitch() * tapped.chamfer_of(turned.style);
    (turned.travel - chamfer).min(plan.chain.full_thread).max(Length::ZERO)
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
        makes: tapped.thread().major(),
        full: full_thread_of(tapped, plan, turned),
        tip: turned.travel,
        pecks: Vec::new(),
        turns: Some(turned.travel / tapped.thread().pitch()),
        time: None,
        lubricant: kit.setting.stock.coolant,
        why: match turned.style {
            Style::Taper => "A long chamfer starts true and shares the work among many teeth.",
            Style::Plug => "It starts true and cuts the thread.",
            Style::Bottoming => "It carries the full thread close to the bottom.",
            Style::FormPlug | Style::FormBottoming => {
                "It presses the thread; it wants oil, and makes no chips."
            }
        },
        sources: turned.style.source(),
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
    let (pitch, major) = (tapped.thread().pitch(), tapped.thread().major());
    let cutter = cutter(Kind::Tap { pitch }, major, 4, kit.material());
    let answer = kit.answer(cutter, Operation::Tap, turned.travel, Own::default())?;
    let range = kit.setting.machine.ranges.get(answer.speed.range.0);
    let (mut into, mut out) = (
        range.and_then(|r| r.clockwise_label.clone()),
        range.and_then(|r| r.counter_clockwise_label.clone()),
    );
    if tapped.is_left_hand() {
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
    if chain.tap != tapped.bottoming()
        && let Ok(short) = tapped.chain(chain.full_thread, tapped.bottoming())
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
