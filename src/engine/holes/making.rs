//! Making a recipe: the steps in the order of the trade.

use super::{
    choosing, depth,
    finish::{Bottom, Finish, Hole},
    kit::{Ask, Bit, Kit, Result, same_angle},
    recipe::{Caution, Chain, Recipe, Remedy, Setting, Step, Work},
    tapping,
    tool::{Has, Tool, ToolKind, common_cone, cutter, end_mill},
};
use crate::engine::{
    answer::{Answer, Limit, State, Trouble, Verdict},
    cutters::{Cutter, Kind},
    cutting::{
        drilling::{self, TwistDrill},
        power,
    },
    quantity::{Angle, Duration, Length, value::Value},
    question::{Field, InputError, Operation, Own},
    stock::{Flag, Material},
};

/// Source of the order of the steps, of allowances and of rooms.
const SOURCE: &str = "CP";

/// How wide a mouth is bevelled where nothing is screwed in, on the radius.
fn edge() -> Length {
    Length::inch(0.010)
}

/// The mouth of a plain hole: its edge broken.
fn mouth_of(hole: Length) -> Length {
    hole + edge() * 2.0
}

/// Largest spot that is made in one go; a wider mouth gets its bevel after the drill.
fn widest_spot() -> Length {
    Length::inch(0.5)
}

/// A spot drill's rim is not used: its corners are the first to go.
const RIM: f64 = 0.9;

/// A spot that only centres a drill stays under its diameter, and is at least as wide as its web.
const CENTRES: [f64; 3] = [0.9, 0.5, 0.25];

/// How deep a spot may go, of the tip of the drill or of the plate.
const SPOT_DEEP: f64 = 0.8;

/// Included angle of spot drills and bevels.
fn right_angle() -> Angle {
    Angle::degree(90.0)
}

/// Pilots tried, of the drill's diameter: wider than its web, and leaving the lips something to
/// cut.
const PILOTS: [f64; 4] = [0.25, 0.35, 0.50, 0.70];

/// Up to here a drill is not piloted for comfort: a pilot costs a tool change and leads a small
/// drill astray.
fn from_solid() -> Length {
    Length::inch(0.375)
}

/// A light chip, of the low end of the table, in stock that does not harden under it.
const THIN: f64 = 0.5;

/// A pilot eases a drill enough where it is hardly over what is easy: the next larger one would
/// itself want a pilot.
const EASED: f64 = 1.25;

/// No drill has more drills ahead of it.
const MOST_PILOTS: usize = 3;

/// What a blind hole is deeper than its reaming: the lead of the reamer and room for chips.
pub(super) fn ream_room() -> Length {
    Length::inch(1.0 / 16.0)
}

/// The recipe for a hole that has been checked.
pub(super) fn make(hole: &Hole, setting: &Setting) -> Result<Recipe> {
    let mut kit = Kit::new(hole, setting);
    let mut chain = None;
    let remedies;
    check_point(setting.point_angle)?;
    let depth = match hole.bottom {
        Bottom::Through => hole.plate,
        Bottom::Blind(depth) => depth.unwrap_or(hole.plate),
    };
    match &hole.finish {
        Finish::Drilled(opening) => {
            let bit = choosing::opening(&mut kit, *opening)?;
            let mouth = mouth_of(bit.diameter());
            kit.open(&bit, depth, Some(mouth))?;
            remedies = kit.floor(bit.diameter(), depth);
        }
        Finish::Reamed(diameter) => {
            let drilled = if hole.is_through() { depth } else { depth + ream_room() };
            let bit = choosing::under_reamer(&mut kit, *diameter)?;
            kit.open(&bit, drilled, Some(mouth_of(*diameter)))?;
            kit.ream(*diameter, depth)?;
            remedies = kit.floor(bit.diameter(), drilled);
        }
        Finish::Tapped(tapped) => {
            let plan = tapping::plan(&mut kit, tapped)?;
            kit.open(&plan.bit, plan.drilled, Some(tapping::mouth(tapped)))?;
            if let Some(reamer) = plan.reamer {
                kit.ream(reamer, plan.chain.full)?;
            }
            tapping::tap(&mut kit, tapped, &plan)?;
            remedies = tapping::remedies(&kit, tapped, &plan);
            chain = Some(plan.chain);
        }
        &Finish::Counterbored { hole: below, diameter, depth: sunk, edge_break, .. } => {
            let bit = choosing::opening(&mut kit, below)?;
            kit.open(&bit, depth, None)?;
            kit.counterbore(diameter, sunk)?;
            if let Some(edge) = edge_break.filter(|edge| *edge > bit.diameter() && *edge < diameter)
            {
                kit.break_edge(&bit, edge, diameter, sunk)?;
            }
            remedies = kit.floor(bit.diameter(), depth);
        }
        &Finish::Countersunk { hole: below, diameter, angle, .. } => {
            let bit = choosing::opening(&mut kit, below)?;
            if bit.diameter() >= diameter {
                return Err(vec![InputError::new(
                    Field::Countersink,
                    "The countersink is no larger than the drill that makes the hole.",
                    "Take a larger head, or a closer fit.",
                )]);
            }
            kit.open(&bit, depth, None)?;
            let why = "Cut to the sharp diameter, or the head stands proud.";
            kit.cone(Work::Countersink, bit.diameter(), diameter, angle, Length::ZERO, why)?;
            remedies = kit.floor(bit.diameter(), depth);
        }
    }
    if hole.is_through() {
        kit.deburr();
    }
    Ok(finished(kit, chain, remedies))
}

fn check_point(angle: Angle) -> Result<()> {
    if angle >= Angle::degree(20.0) && angle <= Angle::degree(170.0) {
        return Ok(());
    }
    Err(vec![InputError::new(
        Field::PointAngle,
        "A point angle lies between 20 and 170 degrees.",
        "Drills have 118 or 135.",
    )])
}

fn finished(kit: Kit, chain: Option<Chain>, remedies: Vec<Remedy>) -> Recipe {
    let time = kit.steps.iter().filter_map(|s| s.time).fold(Duration::ZERO, |a, b| a + b);
    let mut sources: Vec<&'static str> = kit
        .steps
        .iter()
        .flat_map(|step| {
            let limits = step.answer.iter().flat_map(|a| a.limits.iter().map(|l| l.sources));
            let working = step.answer.iter().flat_map(|a| a.working.iter().map(|w| w.sources));
            limits.chain(working).chain([step.sources])
        })
        .chain(kit.cautions.iter().map(Caution::sources))
        .chain(kit.hole.finish.sources())
        .flat_map(|tags| tags.split([' ', ',', ';']))
        .filter(|tag| !tag.is_empty())
        .collect();
    sources.sort_unstable();
    sources.dedup();
    let Kit { steps, cautions, missing, .. } = kit;
    Recipe { steps, cautions, missing, chain, remedies, time, sources }
}

impl Kit<'_> {
    /// Spot, drill, and bevel the mouth where it is to have one.
    pub(super) fn open(&mut self, bit: &Bit, full: Length, mouth: Option<Length>) -> Result<()> {
        if !self.hole.is_through() && self.point(bit.diameter()) >= self.hole.plate {
            return Err(vec![InputError::new(
                Field::Plate,
                "The point of the drill alone is longer than the plate is thick.",
                "Go through, or take thicker stock.",
            )]);
        }
        let tip = self.drill_tip(bit.diameter(), full);
        let pilots = self.pilots(bit, full)?;
        let first = pilots.last().map_or(bit.diameter(), |(bit, ..)| bit.diameter());
        // A spot wider than what the machine drills from solid would only push as hard.
        let bevel = mouth.filter(|_| pilots.len() == 1);
        let bevelled = self.spot(first, tip, bevel)?;
        for (place, (bit, pilot, answer)) in pilots.into_iter().enumerate().rev() {
            self.drill(&bit, pilot, tip, answer, place == 0);
        }
        if self.point(bit.diameter()) > self.hole.plate && self.hole.is_through() {
            self.cautions.push(Caution::Grabs);
        }
        if let (Some(mouth), false) = (mouth, bevelled) {
            let why = "A bevel leads the next tool in and leaves no burr.";
            self.cone(Work::Chamfer, bit.diameter(), mouth, right_angle(), Length::ZERO, why)?;
        }
        Ok(())
    }

    /// Spots the place; true when the spot is the bevel too.
    fn spot(&mut self, first: Length, tip: Length, mouth: Option<Length>) -> Result<bool> {
        let deepest = tip.min(self.hole.plate) * SPOT_DEEP;
        // One spot that is the bevel as well, where depth, drawer and machine allow it.
        let bevel = mouth.filter(|mouth| {
            *mouth <= widest_spot() && drilling::point_length_of(*mouth, right_angle()) <= deepest
        });
        if let Some(mouth) = bevel
            && let Some(spot) = self.spot_drill(mouth, true)
        {
            let (ask, answer) = self.spot_of(spot, mouth)?;
            if pushes(&answer) <= 1.0 {
                self.push(ask, answer);
                return Ok(true);
            }
        }
        let mut best = None;
        for share in CENTRES {
            let wanted = (first * share).min(widest_spot());
            let Some((cutter, has)) = self.spot_drill(wanted, false) else { break };
            let Kind::SpotDrill { point_angle } = cutter.kind else { break };
            let most = drilling::cone_diameter_of(deepest, point_angle).min(cutter.diameter * RIM);
            let (ask, answer) = self.spot_of((cutter, has), wanted.min(most))?;
            let done = pushes(&answer) <= 1.0;
            best = Some((ask, answer));
            if done {
                break;
            }
        }
        if let Some((ask, answer)) = best {
            self.push(ask, answer);
        }
        Ok(false)
    }

    /// The spot drill for a spot: of a right angle and wide enough for one that is the bevel, else
    /// the nearest there is.
    fn spot_drill(&self, wanted: Length, bevel: bool) -> Option<(Cutter, Has)> {
        let is_spot = |c: &Cutter| matches!(c.kind, Kind::SpotDrill { .. });
        let will_do = |c: &Cutter| {
            matches!(c.kind, Kind::SpotDrill { point_angle }
                if !bevel || same_angle(point_angle, right_angle()))
                && c.diameter * RIM >= wanted
        };
        let found = self.drawer(will_do);
        let none = self.drawer(is_spot).is_none();
        if found.is_some() || none {
            let kind = Kind::SpotDrill { point_angle: right_angle() };
            let common = cutter(kind, common_cone(wanted / RIM), 2, self.material());
            return Some(self.or_common(found, common));
        }
        if bevel { None } else { self.largest(is_spot).map(|cutter| (cutter, Has::Yes)) }
    }

    /// A spot of a diameter, and what the engine says of it.
    fn spot_of(&self, (cutter, has): (Cutter, Has), spot: Length) -> Result<(Ask, Answer)> {
        let angle = match cutter.kind {
            Kind::SpotDrill { point_angle } => point_angle,
            _ => right_angle(),
        };
        let depth = depth::spot_depth(spot, angle).map_err(|error| vec![error])?;
        let answer = self.answer(cutter, Operation::Spot, depth, Own::default())?;
        let ask = Ask {
            work: Work::Spot,
            tool: ToolKind::SpotDrill { diameter: cutter.diameter, angle },
            has,
            cutter,
            operation: Operation::Spot,
            depth,
            makes: spot,
            tip: depth,
            why: "It gives the drill its place, so that it does not wander.",
            sources: SOURCE,
        };
        Ok((ask, answer))
    }

    /// The largest cutter in the drawer of a kind.
    fn largest(&self, is: impl Fn(&Cutter) -> bool) -> Option<Cutter> {
        let cutters = self.setting.cutters?.iter().filter(|cutter| is(cutter));
        cutters.copied().reduce(|a, b| if b.diameter > a.diameter { b } else { a })
    }

    /// The drill and its pilots, the last one first in the hole, each with its answer.
    fn pilots(&self, bit: &Bit, full: Length) -> Result<Vec<(Bit, Option<Length>, Answer)>> {
        let through = self.hole.is_through();
        let tip = self.drill_tip(bit.diameter(), full);
        let mut chain = Vec::with_capacity(2);
        let mut bit = *bit;
        let mut own = self.setting.own;
        loop {
            let depth = self.full_of(bit.diameter(), full, tip);
            let ask = |pilot| {
                let operation = Operation::Drill { pilot, through };
                self.answer(self.drill_cutter(bit.diameter()), operation, depth, own)
            };
            let solid = ask(None)?;
            let mut best: Option<(Bit, Answer)> = None;
            if chain.len() < MOST_PILOTS
                && wants_pilot(bit.diameter(), &solid)
                && let Some(pilot) = self.easing_pilot(bit.diameter(), &solid)
            {
                let answer = ask(Some(pilot.diameter()))?;
                best = (pushes(&answer) < pushes(&solid)).then_some((pilot, answer));
            }
            // A pilot that leaves the drill stopped all the same mends nothing.
            match best.filter(|(_, answer)| answer.verdict != Verdict::DoNotCut) {
                None => {
                    chain.push((bit, None, solid));
                    return Ok(chain);
                }
                Some((pilot, answer)) => {
                    chain.push((bit, Some(pilot.diameter()), answer));
                    bit = pilot;
                    own = Own::default();
                }
            }
        }
    }

    /// The smallest pilot after which the drill is easy to push at a full chip and to turn at a light
    /// one; else the one that eases them most. The formulas tell, so that the engine is asked once.
    fn easing_pilot(&self, drill: Length, solid: &Answer) -> Option<Bit> {
        let feed = solid.feed?.range.0;
        let light = feed * if never_thin(self.setting.stock) { 1.0 } else { THIN };
        let n = solid.speed.set;
        let work = self.setting.stock.drill_factors();
        let strain = |pilot: Length| {
            let drill = TwistDrill { diameter: drill, pilot, work };
            let readings =
                solid.limits.iter().map(|reading| match (reading.limit, reading.near_at) {
                    (Limit::Thrust, Value::Force(easy)) => drill.thrust(feed) / easy,
                    (Limit::Power, Value::Power(easy)) => {
                        power::power_of_torque_of(drill.torque(light), n) / easy
                    }
                    _ => 0.0,
                });
            readings.fold(0.0, f64::max)
        };
        let mut best: Option<(f64, Bit)> = None;
        for pilot in choosing::pilots(self.setting.drills, drill, &PILOTS) {
            let now = strain(pilot.diameter());
            if best.as_ref().is_none_or(|(least, _)| now < *least) {
                best = Some((now, pilot));
            }
            if now <= EASED {
                break;
            }
        }
        best.map(|(_, pilot)| pilot)
    }

    /// Depth at its full diameter of a drill whose tip goes no deeper than that of the hole's own.
    fn full_of(&self, diameter: Length, full: Length, tip: Length) -> Length {
        if self.hole.is_through() { full } else { tip - self.point(diameter) }
    }

    fn drill(&mut self, bit: &Bit, pilot: Option<Length>, tip: Length, answer: Answer, last: bool) {
        let through = self.hole.is_through();
        let point = self.point(bit.diameter());
        let out = if through { depth::breakthrough() } else { Length::ZERO };
        let full = if through { self.hole.plate } else { tip - point };
        let (work, why) = match (last, pilot) {
            (false, _) => (
                Work::Pilot,
                "The web of the next drill cuts badly and takes most of the push: this goes ahead of it.",
            ),
            (true, Some(_)) => (Work::Drill, "It follows the pilot; the spot is not needed again."),
            (true, None) => (Work::Drill, "It makes the hole."),
        };
        let ask = Ask {
            work,
            tool: ToolKind::Drill(bit.drill),
            has: bit.has,
            cutter: self.drill_cutter(bit.diameter()),
            operation: Operation::Drill { pilot, through },
            depth: full,
            makes: bit.diameter(),
            tip: full + point + out,
            why,
            sources: "F_GEOMETRY CP",
        };
        self.push(ask, answer);
    }

    /// A cone on the mouth of a hole that lies `below` the surface.
    fn cone(
        &mut self,
        work: Work,
        hole: Length,
        mouth: Length,
        angle: Angle,
        below: Length,
        why: &'static str,
    ) -> Result<()> {
        let found = self.drawer(|c| {
            matches!(c.kind,
                Kind::Countersink { included_angle: a } | Kind::SpotDrill { point_angle: a }
                if same_angle(a, angle))
                && c.diameter >= mouth
        });
        let kind = Kind::Countersink { included_angle: angle };
        let common = cutter(kind, common_cone(mouth), 1, self.material());
        let (cutter, has) = self.or_common(found, common);
        let depth = depth::countersink_depth(mouth, hole, angle).map_err(|error| vec![error])?;
        self.cut(Ask {
            work,
            tool: ToolKind::Countersink { diameter: cutter.diameter, angle },
            has,
            cutter,
            operation: Operation::Countersink { hole },
            depth,
            makes: mouth,
            tip: below + drilling::point_length_of(mouth, angle),
            why,
            sources: "F_GEOMETRY CP",
        })
    }

    /// Breaks the edge below a head.
    fn break_edge(
        &mut self,
        bit: &Bit,
        edge: Length,
        counterbore: Length,
        below: Length,
    ) -> Result<()> {
        let found = self.drawer(|c| {
            matches!(c.kind, Kind::Countersink { included_angle: a } if same_angle(a, right_angle()))
                && c.diameter >= edge
                && c.diameter < counterbore
        });
        let kind = Kind::Countersink { included_angle: right_angle() };
        // It has to go down inside the counterbore.
        let common = cutter(kind, (edge + counterbore) / 2.0, 1, self.material());
        let (cutter, has) = self.or_common(found, common);
        let depth = depth::countersink_depth(edge, bit.diameter(), right_angle())
            .map_err(|error| vec![error])?;
        self.cut(Ask {
            work: Work::BreakEdge,
            tool: ToolKind::Countersink { diameter: cutter.diameter, angle: right_angle() },
            has,
            cutter,
            operation: Operation::Countersink { hole: bit.diameter() },
            depth,
            makes: edge,
            tip: below + drilling::point_length_of(edge, right_angle()),
            why: "The fillet under a head must not ride on a sharp edge.",
            sources: "F_GEOMETRY CP",
        })
    }

    /// Reams a drilled hole.
    pub(super) fn ream(&mut self, diameter: Length, full: Length) -> Result<()> {
        let found =
            self.drawer(|c| c.kind == Kind::Reamer && choosing::same_size(c.diameter, diameter));
        let teeth = if diameter < Length::inch(0.25) { 4 } else { 6 };
        let common = cutter(Kind::Reamer, diameter, teeth, self.material());
        let (cutter, has) = self.or_common(found, common);
        let through = self.hole.is_through();
        let out = if through { ream_room() + depth::breakthrough() } else { Length::ZERO };
        self.cut(Ask {
            work: Work::Ream,
            tool: ToolKind::Reamer(cutter.diameter),
            has,
            cutter,
            operation: Operation::Ream,
            depth: full,
            makes: cutter.diameter,
            tip: full + out,
            why: "It takes the last few thousandths to size; never turn it backwards.",
            sources: SOURCE,
        })
    }

    /// Sinks the seat of a head.
    fn counterbore(&mut self, diameter: Length, sunk: Length) -> Result<()> {
        let found = self.drawer(|c| {
            matches!(c.kind, Kind::EndMill { center_cutting: true, .. })
                && choosing::same_size(c.diameter, diameter)
        });
        let (cutter, has) = self.or_common(found, end_mill(diameter, self.material()));
        self.cut(Ask {
            work: Work::Counterbore,
            tool: ToolKind::Counterbore(cutter.diameter),
            has,
            cutter,
            operation: Operation::Plunge,
            depth: sunk,
            makes: cutter.diameter,
            tip: sunk,
            why: "The head goes in flush; the hole below keeps the tool in its place.",
            sources: SOURCE,
        })
    }

    /// Takes the burr off the far side.
    fn deburr(&mut self) {
        let tip = self.hole.plate;
        let comes_out =
            |work| matches!(work, Work::Drill | Work::Ream | Work::TapByHand | Work::TapUnderPower);
        let last = self.steps.iter().rev().find(|step| comes_out(step.work));
        let makes = last.map_or(Length::ZERO, |step| step.makes);
        self.steps.push(Step {
            work: Work::Deburr,
            tool: Tool { kind: ToolKind::Deburring, has: Has::Unknown },
            answer: None,
            turn: None,
            makes,
            full: tip,
            tip,
            pecks: Vec::new(),
            turns: None,
            time: None,
            lubricant: "",
            why: "The tool leaves a burr where it comes out: take it off by hand, spindle stopped.",
            sources: SOURCE,
        });
    }

    /// Looks at what is left under the tip of a blind hole; what mends it where nothing is.
    fn floor(&mut self, drill: Length, full: Length) -> Vec<Remedy> {
        if self.hole.is_through() {
            return Vec::new();
        }
        let (tip, plate) = (self.drill_tip(drill, full), self.hole.plate);
        let floor = plate - tip;
        self.say_floor(tip);
        if floor > Length::ZERO {
            return Vec::new();
        }
        let mut remedies: Vec<Remedy> = self.blunter(drill, full).into_iter().collect();
        remedies.push(Remedy::FlatBottom { floor: plate - full });
        let most = plate - depth::breakthrough() - self.point(drill);
        if most.is_positive() {
            remedies.push(Remedy::LessDeep(most));
        }
        remedies.push(Remedy::ThickerPlate(tip + depth::breakthrough()));
        remedies.push(Remedy::Through);
        remedies
    }

    /// Cautions for a blind hole by the depth of its tip.
    pub(super) fn say_floor(&mut self, tip: Length) {
        let (plate, least) = (self.hole.plate, depth::breakthrough());
        if tip >= plate {
            self.cautions.push(Caution::BreaksThrough { tip, plate });
        } else if plate - tip < least * (1.0 - 1e-9) {
            self.cautions.push(Caution::ThinFloor(plate - tip));
        }
    }

    /// A blunter point, where it leaves a floor.
    pub(super) fn blunter(&self, drill: Length, full: Length) -> Option<Remedy> {
        let angle = Angle::degree(135.0);
        if self.setting.point_angle >= angle {
            return None;
        }
        let tip = full + drilling::point_length_of(drill, angle);
        let floor = self.hole.plate - tip;
        floor.is_positive().then_some(Remedy::BlunterPoint { angle, tip, floor })
    }
}

/// A larger drill goes in from solid where that is easy, a smaller one wherever it is not near the
/// end of what the machine can push and twist.
fn wants_pilot(drill: Length, solid: &Answer) -> bool {
    pushes(solid) > if drill > from_solid() { 1.0 } else { 1.5 }
}

/// Stock that hardens or burns under a thin chip.
fn never_thin(stock: &Material) -> bool {
    stock.is(Flag::WorkHardening) || stock.is(Flag::Magnesium)
}

/// How hard a drill pushes and twists, in the measure of its limits: above 1 a pilot would help.
fn pushes(answer: &Answer) -> f64 {
    let heavy = |limit| matches!(limit, Limit::Thrust | Limit::Power);
    let readings = answer.limits.iter().filter(|r| heavy(r.limit) && r.state > State::Within);
    // Half a per cent over the line is still on it.
    let worst = readings.map(|r| r.utilisation.max(1.0 + 1e-9)).fold(0.0, f64::max);
    let stopped = match answer.trouble {
        Some(Trouble::Alone { limit, .. } | Trouble::Yours { limit, .. }) => heavy(limit),
        Some(Trouble::Between { at_most, .. }) => heavy(at_most.0),
        None => false,
    };
    if stopped { worst.max(2.0) } else { worst }
}
