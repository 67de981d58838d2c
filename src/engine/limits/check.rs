//! Every entry of a question that cannot be worked with, each as a sentence with a hint.

use crate::engine::{
    cutters::{Cutter, Kind, Tip},
    machine::{Machine, Speeds},
    quantity::{Angle, HandRate, Length, SpindleSpeed},
    question::{Cut, Field, InputError, OnTheMill, Operation},
};

/// Lengths between these are entries; the rest are slips of the finger.
const SHORTEST_IN: f64 = 1e-6;
const LONGEST_IN: f64 = 200.0;

/// True where a number lies outside a range, or is none.
fn outside(x: f64, low: f64, high: f64) -> bool {
    !(low..=high).contains(&x)
}

/// A speed that no spindle has.
fn no_speed(n: SpindleSpeed) -> bool {
    outside(n.to_rpm(), 0.1, 100_000.0)
}

struct Errors(Vec<InputError>);

impl Errors {
    fn add(&mut self, field: Field, problem: impl Into<String>, hint: impl Into<String>) {
        self.0.push(InputError::new(field, problem, hint));
    }
    /// A length above nothing and not above `most`.
    fn length(&mut self, field: Field, what: &str, value: Length, most: Length) -> bool {
        if !value.is_positive() {
            self.add(
                field,
                format!("{what} must be above 0."),
                "Enter a size such as 3/8 or 6 mm.",
            );
            return false;
        }
        if value < Length::inch(SHORTEST_IN) {
            self.add(
                field,
                format!("{what} is too small to be measured."),
                "Check the unit and the point.",
            );
            return false;
        }
        if value > most {
            self.add(
                field,
                format!("{what} of {} in is beyond what a manual mill holds.", short(value)),
                format!("Enter at most {} in; check the unit and the point.", short(most)),
            );
            return false;
        }
        true
    }
}

/// Digits of a length in inches, without trailing noughts.
fn short(value: Length) -> String {
    let text = format!("{:.4}", value.to_inch());
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// All entries that cannot be worked with.
pub fn entries(mill: &OnTheMill, cut: &Cut) -> Vec<InputError> {
    let mut errors = Errors(Vec::new());
    machine(mill.machine, &mut errors);
    let cutter_is_sound = cutter(mill, cut, &mut errors);
    fits(mill.cutter.kind, cut.operation, &mut errors);
    operation(mill, cut, cutter_is_sound, &mut errors);
    own(mill, cut, &mut errors);
    fluid(mill, cut, &mut errors);
    errors.0
}

/// What is put on the cut must not hurt with this stock.
fn fluid(mill: &OnTheMill, cut: &Cut, errors: &mut Errors) {
    for refused in cut.coolant.refusals(mill.stock).filter(|refused| refused.stops) {
        errors.add(
            Field::Coolant,
            format!("{}.", refused.why),
            format!("On the cut: {}.", mill.stock.coolant),
        );
    }
}

fn machine(machine: &Machine, errors: &mut Errors) {
    let sound = |n: SpindleSpeed| !no_speed(n);
    let has_speeds = machine.ranges.iter().any(|r| match &r.speeds {
        Speeds::Steps(steps) => !steps.is_empty(),
        Speeds::Continuous { .. } => true,
    });
    if !has_speeds {
        errors.add(
            Field::Speeds,
            "This machine has no spindle speeds.",
            "Enter them as on its plate, for example 70 115 190 310.",
        );
    }
    for range in &machine.ranges {
        let good = match &range.speeds {
            Speeds::Steps(steps) => steps.iter().all(|s| sound(*s)),
            Speeds::Continuous { lowest, highest, base } => {
                sound(*lowest) && sound(*highest) && lowest <= highest && base.is_none_or(sound)
            }
        };
        if !good {
            errors.add(
                Field::Speeds,
                "A spindle speed of this machine cannot be.",
                "Speeds lie above 0 and under 100000 rpm, the lowest first.",
            );
        }
    }
    errors.length(Field::Lead, "Travel per turn", machine.table.lead, Length::inch(2.0));
    if machine.table.backlash.is_some_and(|b| outside(b.to_inch(), 0.0, 1.0)) {
        errors.add(
            Field::Backlash,
            "Backlash lies between 0 and 1 in.",
            "Turn the wheel back until the table moves, and read the dial.",
        );
    }
    if machine.power.is_some_and(|p| outside(p.to_watt(), 1.0, 100_000.0)) {
        errors.add(
            Field::Power,
            "This power at the cutter cannot be.",
            "Enter it in watts or horsepower, or leave it unknown.",
        );
    }
    let no_rate = |r: HandRate| outside(r.to_turns_per_min(), 0.1, 300.0);
    if no_rate(machine.comfortable_rate)
        || no_rate(machine.highest_rate)
        || machine.comfortable_rate >= machine.highest_rate
    {
        errors.add(
            Field::HighestRate,
            "The highest hand rate must lie above the comfortable one, and under 300 turns/min.",
            "40 and 60 turns/min suit most hands.",
        );
    }
    if machine.stiffness.is_some_and(|s| outside(s.to_newton_per_um(), 0.01, 10_000.0)) {
        errors.add(
            Field::Stiffness,
            "This stiffness cannot be: mills have 3 to 30 N/µm.",
            "Leave it unknown instead.",
        );
    }
    if machine.table_drag.is_some_and(|d| outside(d.to_newton(), 0.1, 100_000.0)) {
        errors.add(
            Field::TableDrag,
            "This table drag cannot be: a table takes 10 to 100 lbf to push.",
            "Leave it unknown instead.",
        );
    }
}

fn cutter(mill: &OnTheMill, cut: &Cut, errors: &mut Errors) -> bool {
    let c = &mill.cutter;
    if c.kind == Kind::EdgeFinder {
        return true;
    }
    let before = errors.0.len();
    diameter_and_teeth(c, errors);
    if uses_beam(cut.operation) {
        beam(c, errors);
    }
    if !(c.helix.is_finite() && c.helix >= Angle::ZERO && c.helix <= Angle::degree(70.0)) {
        errors.add(
            Field::Helix,
            "A helix lies between 0 and 70 degrees.",
            "Most end mills have 30 degrees.",
        );
    }
    shape(c, errors);
    if let Some(reading) = mill.runout {
        runout(reading, errors);
    }
    errors.0.len() == before
}

fn diameter_and_teeth(c: &Cutter, errors: &mut Errors) {
    let most = Length::inch(12.0);
    if errors.length(Field::Diameter, "A cutter diameter", c.diameter, most)
        && c.diameter < Length::inch(0.002)
    {
        errors.add(
            Field::Diameter,
            "A cutter this thin cannot be held by hand feed.",
            "Enter at least 0.002 in; check the unit.",
        );
    }
    let most = if matches!(c.kind, Kind::SlittingSaw { .. }) { 300 } else { 60 };
    if c.teeth == 0 || c.teeth > most {
        errors.add(
            Field::Teeth,
            format!("A cutter with {} teeth cannot be.", c.teeth),
            "Count its cutting edges: an end mill has 2, 3, 4 or 6.",
        );
    }
}

/// The lengths by which a cutter bends.
fn beam(c: &Cutter, errors: &mut Errors) {
    let longest = Length::inch(24.0);
    let stickout = errors.length(Field::Stickout, "The stick-out", c.stickout, longest);
    errors.length(Field::Shank, "The shank", c.shank, Length::inch(4.0));
    if !c.kind.has_flutes() {
        return;
    }
    let flutes = errors.length(Field::FluteLength, "The flute length", c.flute_length, longest);
    if stickout && flutes && c.stickout < c.flute_length {
        errors.add(
            Field::Stickout,
            format!(
                "The cutter stands out {} in, less than its {} in of flutes: the holder would grip the flutes.",
                short(c.stickout),
                short(c.flute_length)
            ),
            "Measure from the holder to the tip; it is at least the flute length.",
        );
    }
}

/// What only one kind of cutter has.
fn shape(c: &Cutter, errors: &mut Errors) {
    let within = |a: Angle, low: f64, high: f64| {
        a.is_finite() && a >= Angle::degree(low) && a <= Angle::degree(high)
    };
    match c.kind {
        Kind::EndMill { tip: Tip::CornerRadius(r), .. }
            if !(r.is_finite() && r >= Length::ZERO && r <= c.diameter / 2.0) =>
        {
            errors.add(
                Field::CornerRadius,
                "A corner radius lies between 0 and half the diameter.",
                "For half the diameter choose a ball end.",
            );
        }
        Kind::FaceMill { entering_angle } if !within(entering_angle, 10.0, 90.0) => {
            errors.add(
                Field::EnteringAngle,
                "An entering angle lies between 10 and 90 degrees.",
                "A square-shoulder mill has 90, most face mills have 45.",
            );
        }
        Kind::Drill { point_angle }
        | Kind::SpotDrill { point_angle }
        | Kind::Countersink { included_angle: point_angle }
            if !within(point_angle, 20.0, 170.0) =>
        {
            errors.add(
                Field::PointAngle,
                "A point angle lies between 20 and 170 degrees.",
                "Drills have 118 or 135, countersinks 82 or 90.",
            );
        }
        Kind::SlittingSaw { thickness } => {
            errors.length(Field::Thickness, "A blade thickness", thickness, Length::inch(0.5));
        }
        Kind::Tap { pitch } => {
            errors.length(Field::Pitch, "A pitch", pitch, Length::inch(0.5));
        }
        _ => {}
    }
}

fn runout(reading: Length, errors: &mut Errors) {
    if !(reading.is_finite() && reading >= Length::ZERO) {
        errors.add(
            Field::Runout,
            "Runout cannot be below 0.",
            "Enter the total indicator reading, or leave it unknown.",
        );
    } else if reading > Length::inch(0.1) {
        errors.add(
            Field::Runout,
            "A cutter that runs out more than 0.1 in is not held.",
            "Enter the total indicator reading; check the point.",
        );
    }
}

/// The cutter bends as a beam in this operation, so its lengths are asked.
fn uses_beam(op: Operation) -> bool {
    matches!(
        op,
        Operation::Slot | Operation::Side { .. } | Operation::Face { .. } | Operation::Bore { .. }
    )
}

fn fits(kind: Kind, op: Operation, errors: &mut Errors) {
    let (good, needs) = match op {
        Operation::Slot | Operation::Side { .. } => {
            (matches!(kind, Kind::EndMill { .. }), "an end mill")
        }
        Operation::Face { .. } => (
            matches!(
                kind,
                Kind::EndMill { .. } | Kind::FaceMill { .. } | Kind::FlyCutter | Kind::BoringHead
            ),
            "a face mill, a fly cutter or an end mill",
        ),
        Operation::Plunge => {
            if let Kind::EndMill { center_cutting: false, .. } = kind {
                errors.add(
                    Field::CutterKind,
                    "This end mill does not cut at its centre: it cannot go straight down.",
                    "Take a centre-cutting one, or drill first.",
                );
                return;
            }
            (matches!(kind, Kind::EndMill { .. }), "a centre-cutting end mill")
        }
        Operation::Drill { .. } => (matches!(kind, Kind::Drill { .. }), "a twist drill"),
        Operation::Spot => {
            (matches!(kind, Kind::SpotDrill { .. } | Kind::Drill { .. }), "a spot drill")
        }
        Operation::Ream => (kind == Kind::Reamer, "a reamer"),
        Operation::Countersink { .. } => (
            matches!(kind, Kind::Countersink { .. } | Kind::SpotDrill { .. }),
            "a countersink or a spot drill",
        ),
        Operation::Saw => (matches!(kind, Kind::SlittingSaw { .. }), "a slitting saw"),
        Operation::Bore { .. } => (kind == Kind::BoringHead, "a boring head"),
        Operation::FindEdge => (kind == Kind::EdgeFinder, "an edge finder"),
        Operation::Tap => (matches!(kind, Kind::Tap { .. }), "a tap"),
    };
    if !good {
        errors.add(
            Field::CutterKind,
            "The cutter on the mill does not do this operation.",
            format!("It needs {needs}: change the cutter or the operation."),
        );
    }
}

fn operation(mill: &OnTheMill, cut: &Cut, cutter_is_sound: bool, errors: &mut Errors) {
    let c = &mill.cutter;
    let longest = Length::inch(LONGEST_IN);
    if matches!(cut.operation, Operation::FindEdge | Operation::Tap) {
        return;
    }
    let deepest = Length::inch(24.0);
    let depth_is_sound = errors.length(Field::Depth, "The depth", cut.depth, deepest);
    if let Some(length) = cut.length {
        errors.length(Field::CutLength, "The length of the cut", length, longest);
    }
    if depth_is_sound && uses_beam(cut.operation) && cutter_is_sound {
        let reach = !matches!(cut.operation, Operation::Bore { .. });
        if reach && cut.depth > c.stickout {
            errors.add(
                Field::Depth,
                format!(
                    "The cutter stands out {} in: it cannot reach {} in deep.",
                    short(c.stickout),
                    short(cut.depth)
                ),
                "Enter the depth of this cut, or a longer stick-out.",
            );
        }
    }
    match cut.operation {
        Operation::Side { width, .. } => side(c, width, cutter_is_sound, errors),
        Operation::Face { width } => {
            errors.length(Field::Width, "The width of the face", width, longest);
        }
        Operation::Bore { width } => bore(c, width, cutter_is_sound, errors),
        Operation::Drill { pilot: Some(pilot), .. } => hole(c.diameter, pilot, errors),
        Operation::Countersink { hole } => countersink(c, hole, cutter_is_sound, errors),
        Operation::Saw if depth_is_sound && cutter_is_sound => saw(c, cut.depth, errors),
        _ => {}
    }
}

fn side(c: &Cutter, width: Length, cutter_is_sound: bool, errors: &mut Errors) {
    let sound = errors.length(Field::Width, "A width", width, Length::inch(LONGEST_IN));
    if sound && cutter_is_sound && width > c.diameter {
        errors.add(
            Field::Width,
            format!(
                "A width of {} in is more than the cutter's {} in.",
                short(width),
                short(c.diameter)
            ),
            "Enter what one pass takes, at most the diameter.",
        );
    }
}

fn bore(c: &Cutter, width: Length, cutter_is_sound: bool, errors: &mut Errors) {
    let longest = Length::inch(LONGEST_IN);
    let sound = errors.length(Field::Width, "The stock on the radius", width, longest);
    if sound && cutter_is_sound && width >= c.diameter / 2.0 {
        errors.add(
            Field::Width,
            "The stock on the radius is as large as the bore.",
            "Enter half of what the bore grows by; drill the hole first.",
        );
    }
}

fn countersink(c: &Cutter, hole: Length, cutter_is_sound: bool, errors: &mut Errors) {
    let sound = errors.length(Field::Hole, "The hole", hole, Length::inch(LONGEST_IN));
    if sound && cutter_is_sound && hole >= c.diameter {
        errors.add(
            Field::Hole,
            "The hole is as large as the countersink.",
            "Take a larger countersink.",
        );
    }
}

fn saw(c: &Cutter, depth: Length, errors: &mut Errors) {
    if depth >= c.diameter / 2.0 {
        errors.add(
            Field::Depth,
            "A saw cannot cut as deep as its own radius: the arbor is in the way.",
            "Enter less than half the saw's diameter.",
        );
    }
}

fn hole(diameter: Length, pilot: Length, errors: &mut Errors) {
    if !pilot.is_positive() {
        errors.add(Field::Pilot, "A pilot hole must be above 0.", "Leave it empty for none.");
    } else if pilot >= diameter {
        errors.add(
            Field::Pilot,
            "The pilot hole is as large as the drill.",
            "Enter the smaller hole that is there already.",
        );
    }
}

fn own(mill: &OnTheMill, cut: &Cut, errors: &mut Errors) {
    let own = &cut.own;
    if let Some(n) = own.spindle_speed {
        let machine = mill.machine;
        if no_speed(n) {
            errors.add(
                Field::SpindleSpeed,
                "This spindle speed cannot be.",
                "Enter a speed the machine has.",
            );
        } else if machine.range_of(n).is_none() {
            let (below, above) = machine.neighbours(n);
            let near: Vec<String> =
                [below, above].iter().flatten().map(|s| format!("{:.0}", s.to_rpm())).collect();
            errors.add(
                Field::SpindleSpeed,
                format!("{} has no {:.0} rpm.", machine.name, n.to_rpm()),
                format!("The nearest it has: {} rpm.", near.join(" and ")),
            );
        }
    }
    if own.surface_speed.is_some_and(|v| outside(v.to_m_per_min(), 0.1, 5000.0)) {
        errors.add(
            Field::SurfaceSpeed,
            "This surface speed cannot be.",
            "Enter it in ft/min or m/min; check which of the two.",
        );
    }
    for (field, what, feed) in [
        (Field::Feed, "A feed", own.feed),
        (Field::Feed, "A feed", own.feed_as_set),
        (Field::Chip, "A chip", own.chip),
    ] {
        let Some(feed) = feed else { continue };
        if errors.length(field, what, feed, Length::inch(LONGEST_IN))
            && mill.cutter.diameter.is_positive()
            && feed > mill.cutter.diameter * 0.25
        {
            errors.add(
                field,
                format!("{what} of {} in is more than a quarter of the cutter.", short(feed)),
                "Enter it per tooth (per turn for a drill); check the unit and the point.",
            );
        }
    }
    if own.passes.is_some_and(|k| k == 0 || k > 500) {
        errors.add(
            Field::Passes,
            "The number of passes lies between 1 and 500.",
            "Leave it empty to be told.",
        );
    }
    for (field, stress) in
        [(Field::CuttingForce, own.cutting_force), (Field::UnitPower, own.unit_power)]
    {
        if stress.is_some_and(|s| outside(s.to_newton_per_mm2(), 1.0, 20_000.0)) {
            errors.add(
                field,
                "This cutting force cannot be.",
                "Soft plastics have about 100, steels about 2500 N/mm².",
            );
        }
    }
}
