//! A question prepared for the search: every figure looked up once.

use core::f64::consts::PI;

use super::{
    check,
    threshold::{self as t, Band},
};
use crate::engine::{
    cutters::{
        Cutter, Kind, Tip,
        feed::{FeedRange, Table, feed_range},
    },
    cutting::{chip, drilling, feed, power::Kienzle, runout, speed},
    machine::Class,
    quantity::{
        Angle, FeedRate, Force, HandRate, Length, Power, SpindleSpeed, Stiffness, SurfaceSpeed,
    },
    question::{Cut, Feeding, Field, InputError, OnTheMill, Operation, Style},
    stock::{Edge, Flag, Material, Work},
};

/// The limits an operation asks about.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    pub cap: bool,
    pub chip: bool,
    pub wheel: bool,
    pub power: bool,
    pub bend: bool,
    pub breakage: bool,
    pub pack: bool,
    pub peck: bool,
}

/// How the depth of the question is divided.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Divided {
    /// Passes along the axis.
    Axial,
    /// Passes across: a saw's depth, a bore's stock on the radius.
    Radial,
    /// Pecks of a hole.
    Pecks,
    /// Not at all.
    Whole,
}

/// The feeds a question starts from, per tooth, or per turn where the table counts so.
#[derive(Debug)]
pub struct Feeds {
    /// As the table has it for this cutter and operation.
    pub table: FeedRange,
    /// Low end of the range aimed at, thin-chip rule not applied.
    pub low: Length,
    /// High end of it.
    pub high: Length,
    /// High end by which the chip is judged.
    pub judged: Length,
    /// A feed that is kept.
    pub kept: Option<Length>,
    /// The thin-chip rule applies.
    pub thins: bool,
    /// Least chips.
    pub least: Band<Length>,
    /// Teeth that count for the rate: one where the table counts per turn.
    pub teeth: f64,
}

/// The surface speeds a question starts from.
#[derive(Debug)]
pub struct Surface {
    /// What stock and cutter would like.
    pub wanted: SurfaceSpeed,
    /// The stock's range for this operation.
    pub range: (SurfaceSpeed, SurfaceSpeed),
    /// Factors that are in it: for what is put on the cut, the operation, a deep hole.
    pub factors: [f64; 3],
    /// As slow as the spindle is turned before the chip gets thinner.
    pub floor: SurfaceSpeed,
    /// Where it is too fast; `None` for what does not cut.
    pub most: Option<Band<SurfaceSpeed>>,
}

/// A question, prepared.
#[derive(Debug)]
pub struct Case<'a> {
    pub mill: &'a OnTheMill<'a>,
    pub cut: &'a Cut,
    pub stock: &'static Material,
    pub asked: Asked,
    pub divided: Divided,
    /// Depth to divide.
    pub whole: Length,
    pub diameter: Length,
    pub teeth: u32,
    /// Radial width, where it does not follow from the division.
    pub width: Length,
    pub law: Kienzle,
    /// The cutting force is the person's own.
    pub own_force: bool,
    /// Climbing with backlash.
    pub climb: bool,
    pub feeds: Feeds,
    pub surface: Surface,
    pub lead: Length,
    pub hand: Band<HandRate>,
    pub stiffness: Stiffness,
    pub drag: Force,
    /// Total indicator reading at the cutter.
    pub runout: Length,
    /// How far one tooth stands out over the next.
    pub step: Length,
    /// Hole that is there already, nothing for none.
    pub pilot: Length,
}

impl<'a> Case<'a> {
    /// Looks everything up and checks every entry.
    pub fn new(mill: &'a OnTheMill<'a>, cut: &'a Cut) -> Result<Self, Vec<InputError>> {
        let errors = check::entries(mill, cut);
        if !errors.is_empty() {
            return Err(errors);
        }
        let (stock, machine, cutter) = (mill.stock, mill.machine, &mill.cutter);
        let (class, op, diameter) = (machine.class, cut.operation, cutter.diameter);
        let own_force = cut.own.cutting_force.or(cut.own.unit_power);
        let backlash = machine.table.backlash.unwrap_or_else(|| class.assumed_backlash());
        let runout = mill.runout.unwrap_or_else(|| mill.holder.assumed_runout());
        Ok(Self {
            mill,
            cut,
            stock,
            asked: Asked::of(op, cutter.kind),
            divided: op.divided(),
            whole: if let Operation::Bore { width } = op { width } else { cut.depth },
            diameter,
            teeth: cutter.teeth,
            width: width(op, diameter),
            law: match own_force {
                // A force of the person's own holds whatever the chip.
                Some(force) => Kienzle::of(force, 0.0),
                None => Kienzle::of(stock.kc1_1(), stock.mc),
            },
            own_force: own_force.is_some(),
            climb: matches!(op, Operation::Side { feeding: Feeding::Climb, .. })
                && backlash > t::climb_backlash(),
            feeds: Feeds::new(mill, cut)?,
            surface: Surface::new(mill, cut)?,
            lead: machine.table.lead,
            hand: Band { within: machine.comfortable_rate, near: machine.highest_rate },
            stiffness: machine.stiffness.unwrap_or_else(|| class.stiffness()),
            drag: machine.table_drag.unwrap_or_else(|| class.table_drag()),
            runout,
            step: runout::runout_step_of(runout, cutter.teeth.max(1)),
            pilot: pilot(op, diameter),
        })
    }

    /// Feed rate at a speed and a feed per tooth or turn.
    pub fn rate(&self, n: SpindleSpeed, f: Length) -> FeedRate {
        feed::table_feed_of(f * self.feeds.teeth, n)
    }

    /// A hole fed down by the hand on the quill.
    pub fn by_lever(&self) -> bool {
        self.asked.chip && !self.asked.wheel
    }

    /// Power at the cutter at a speed.
    pub fn power_at(&self, n: SpindleSpeed) -> Power {
        self.mill.machine.power_at(n)
    }

    /// A cutter so small that runout breaks it.
    pub fn is_small(&self) -> bool {
        t::is_small(self.diameter)
    }

    pub fn chip_band(&self) -> Band<Length> {
        let band = if self.stock.is_soft() { t::CHIP_SOFT } else { t::CHIP };
        band.of(self.feeds.judged)
    }

    /// Chip of the worst tooth.
    pub fn tooth_band(&self) -> Band<Length> {
        let soft = if self.stock.is_soft() { t::RUNOUT_TOOTH_SOFT } else { 1.0 };
        t::RUNOUT_TOOTH.times(soft).of(self.feeds.judged)
    }

    pub fn bend_band(&self) -> Band<Length> {
        if self.cut.finish { t::bend_finish() } else { t::bend_rough(self.diameter) }
    }

    pub fn margin_band(&self) -> Band<f64> {
        let carbide = self.mill.cutter.material.edge() == Edge::Carbide;
        if carbide && self.is_small() { t::MARGIN_SMALL_CARBIDE } else { t::MARGIN }
    }

    pub fn cap_band(&self) -> Band<SpindleSpeed> {
        match self.mill.cutter.kind {
            Kind::EdgeFinder => t::edge_finder_cap(),
            _ => t::body_cap(self.diameter),
        }
    }

    /// The chip may never go under its range.
    pub fn never_thin(&self) -> bool {
        never_thin(self.stock)
    }

    /// A number of passes of the person's own; what is not divided has none.
    pub fn own_passes(&self) -> Option<u32> {
        self.cut.own.passes.filter(|_| self.divided != Divided::Whole)
    }

    /// Most passes worth trying.
    pub fn most_passes(&self) -> u32 {
        let least = match self.divided {
            Divided::Whole => return 1,
            Divided::Pecks => self.diameter * 0.5,
            Divided::Axial | Divided::Radial => Length::inch(0.005).max(self.diameter * 0.02),
        };
        ((self.whole / least).ceil() as u32).clamp(1, 40)
    }
}

impl Feeds {
    fn new(mill: &OnTheMill, cut: &Cut) -> Result<Self, Vec<InputError>> {
        let (stock, cutter, own) = (mill.stock, &mill.cutter, &cut.own);
        let mut table = match table_of(cutter.kind) {
            Some(table) => {
                let (edge, group) = (cutter.material.edge(), stock.feed_group);
                feed_range(table, edge, group, feed_diameter(cutter, cut))
                    .ok_or_else(|| vec![no_feed(stock)])?
            }
            None => tap_feed(cutter),
        };
        let share = if cut.operation == Operation::Plunge { t::PLUNGE_FEED } else { 1.0 };
        (table.low, table.high) = (table.low * share, table.high * share);
        let deep = if never_thin(stock) { 1.0 } else { deep_hole(mill, cut).1 };
        let side = matches!(cut.operation, Operation::Side { .. });
        let mut feeds = Self {
            low: table.low * deep,
            high: table.high * deep,
            judged: table.high,
            kept: None,
            thins: side && !cut.finish,
            least: t::least_chip(stock, table.low, mill.worn),
            teeth: if table.per_turn { 1.0 } else { f64::from(cutter.teeth) },
            table,
        };
        if let Some(chip) = own.chip {
            (feeds.low, feeds.high) = (chip, chip);
            feeds.thins = side;
        }
        if let Some(feed) = own.feed {
            (feeds.low, feeds.high) = (feed, feed);
            // The chip limit takes the person's figure for the table's; the rubbing one does not,
            // because the edge of the cutter is no sharper for it.
            feeds.judged = feeds.judged.max(feed);
            feeds.kept = Some(feed);
            feeds.thins = false;
        }
        feeds.kept = own.feed_as_set.or(feeds.kept);
        if let Kind::Tap { pitch } = cutter.kind {
            feeds.kept = Some(pitch);
        }
        Ok(feeds)
    }
}

impl Surface {
    fn new(mill: &OnTheMill, cut: &Cut) -> Result<Self, Vec<InputError>> {
        let (stock, op, edge) = (mill.stock, cut.operation, mill.cutter.material.edge());
        if op == Operation::FindEdge {
            return Ok(Self::of_what_does_not_cut());
        }
        let range = stock.speed(edge, op.work()).ok_or_else(|| vec![no_speed(stock)])?;
        let hss = stock.speed(Edge::Hss, op.work()).unwrap_or(range);
        let coolant = t::coolant_factor(stock, edge, cut.coolant);
        let (factor, most_factor) = op.speed_factors();
        let deep = deep_hole(mill, cut).0;
        let low = range.low() * (coolant * factor * deep);
        let high = range.high() * (coolant * factor * deep);
        let most = range.high() * (coolant * most_factor);
        let own = cut.own.surface_speed;
        let mut want = own.unwrap_or_else(|| wanted(mill.machine.class, cut.style, low, high));
        if op == Operation::Tap && own.is_none() {
            want = want.min(speed::surface_speed_of(t::tap_speed(), mill.cutter.diameter));
        }
        let band = if edge == Edge::Hss { t::SPEED_HSS } else { t::SPEED_CARBIDE };
        Ok(Self {
            wanted: want,
            range: (low, high),
            factors: [coolant, factor, deep],
            floor: hss.low() * (factor * deep * t::SLOWEST),
            most: Some(band.of(own.map_or(most, |v| most.max(v)))),
        })
    }

    fn of_what_does_not_cut() -> Self {
        let still = SurfaceSpeed::ZERO;
        Self { wanted: still, range: (still, still), factors: [1.0; 3], floor: still, most: None }
    }
}

/// Work-hardening stock and magnesium: the chip may never go under its range.
fn never_thin(stock: &Material) -> bool {
    stock.is(Flag::WorkHardening) || stock.is(Flag::Magnesium)
}

/// Shares of speed and feed that are left in a deep hole, 1 in any other cut.
fn deep_hole(mill: &OnTheMill, cut: &Cut) -> (f64, f64) {
    match cut.operation {
        Operation::Drill { .. } => drilling::depth_derating_of(cut.depth, mill.cutter.diameter),
        _ => (1.0, 1.0),
    }
}

/// Where in the range of surface speeds an answer begins: gently at the low end, on a knee mill in
/// the middle, briskly at the high end.
fn wanted(class: Class, style: Style, low: SurfaceSpeed, high: SurfaceSpeed) -> SurfaceSpeed {
    match (style, class) {
        (Style::Brisk, _) => high,
        (Style::Gentle, Class::Knee) => (low + high) * 0.5,
        (Style::Gentle, _) => low,
    }
}

/// The diameter by which the feed is read: a spot is fed like a drill of its own size.
fn feed_diameter(cutter: &Cutter, cut: &Cut) -> Length {
    match cut.operation {
        Operation::Spot => diameter_cut(cutter, cut.operation, cut.depth),
        _ => cutter.diameter,
    }
}

/// Diameter that really cuts at an axial depth: a cone and a ball cut less than their widest ring.
pub fn diameter_cut(cutter: &Cutter, op: Operation, depth: Length) -> Length {
    let cone = |hole: Length, angle: Angle| {
        (hole + drilling::cone_diameter_of(depth, angle)).min(cutter.diameter)
    };
    match (op, cutter.kind) {
        (Operation::Spot, Kind::SpotDrill { point_angle } | Kind::Drill { point_angle }) => {
            cone(Length::ZERO, point_angle)
        }
        (Operation::Countersink { hole }, Kind::Countersink { included_angle: angle })
        | (Operation::Countersink { hole }, Kind::SpotDrill { point_angle: angle }) => {
            cone(hole, angle)
        }
        (_, Kind::EndMill { tip: Tip::Ball, .. }) => {
            chip::ball_effective_diameter_of(cutter.diameter, depth, Angle::ZERO)
        }
        _ => cutter.diameter,
    }
}

/// Radial width of an operation, nothing where it has none or where it follows from the passes.
fn width(op: Operation, diameter: Length) -> Length {
    match op {
        Operation::Slot => diameter,
        Operation::Side { width, .. } => width,
        Operation::Face { width } => width.min(diameter),
        Operation::Bore { .. } => diameter * PI,
        _ => Length::ZERO,
    }
}

/// The hole that is there already, nothing for none.
fn pilot(op: Operation, diameter: Length) -> Length {
    match op {
        Operation::Drill { pilot, .. } => pilot.unwrap_or(Length::ZERO),
        Operation::Countersink { hole } => hole,
        Operation::Ream => (diameter - ream_allowance()).max(Length::ZERO),
        _ => Length::ZERO,
    }
}

/// Stock a reamer takes off the diameter where the hole is not given. Common practice.
fn ream_allowance() -> Length {
    Length::inch(0.010)
}

/// The feed table a kind of cutter reads.
fn table_of(kind: Kind) -> Option<Table> {
    Some(match kind {
        Kind::EndMill { .. } => Table::EndMill,
        Kind::FaceMill { .. } => Table::FaceMill,
        Kind::FlyCutter => Table::FlyCutter,
        Kind::SlittingSaw { .. } => Table::SlittingSaw,
        Kind::Drill { .. } | Kind::SpotDrill { .. } => Table::Drill,
        Kind::Reamer => Table::Reamer,
        Kind::Countersink { .. } => Table::Countersink,
        Kind::BoringHead => Table::BoringHead,
        Kind::EdgeFinder | Kind::Tap { .. } => return None,
    })
}

/// A tap has no choice: one turn, one pitch.
fn tap_feed(cutter: &Cutter) -> FeedRange {
    let pitch = if let Kind::Tap { pitch } = cutter.kind { pitch } else { Length::mm(1.0) };
    FeedRange {
        low: pitch,
        high: pitch,
        per_turn: true,
        source: "F_GEOMETRY",
        borrowed_from: None,
        other_edge: false,
        outside: false,
        note: "",
    }
}

fn no_speed(stock: &Material) -> InputError {
    InputError::new(
        Field::ToolMaterial,
        format!("{} dulls high-speed steel at once: there are no figures for it.", stock.name),
        "Choose a carbide cutter.",
    )
}

fn no_feed(stock: &Material) -> InputError {
    InputError::new(
        Field::Stock,
        format!("The feed tables have no row for {}.", stock.name),
        "Choose the nearest stock of the list, or another cutter.",
    )
}

impl Asked {
    fn of(op: Operation, kind: Kind) -> Self {
        let none = Self::default();
        let cap = matches!(kind, Kind::FlyCutter | Kind::BoringHead | Kind::EdgeFinder);
        // Whatever cuts makes a chip and takes power.
        let cuts = Self { chip: true, power: true, ..none };
        match op {
            Operation::Slot | Operation::Side { .. } => {
                Self { wheel: true, bend: true, breakage: true, pack: true, ..cuts }
            }
            Operation::Face { .. } => {
                // An end mill that faces can snap and pack like one that slots.
                let slender = matches!(kind, Kind::EndMill { .. });
                Self { cap, wheel: true, bend: true, breakage: slender, pack: slender, ..cuts }
            }
            Operation::Saw => Self { wheel: true, ..cuts },
            Operation::Bore { .. } => Self { cap, bend: true, ..cuts },
            Operation::Drill { .. } | Operation::Plunge => Self { peck: true, ..cuts },
            Operation::Spot | Operation::Ream | Operation::Countersink { .. } => cuts,
            Operation::FindEdge | Operation::Tap => Self { cap, ..none },
        }
    }
}

impl Operation {
    /// Which family of surface speeds it reads.
    pub(super) fn work(self) -> Work {
        match self {
            Self::Drill { .. } | Self::Spot | Self::Ream | Self::Countersink { .. } | Self::Tap => {
                Work::Drilling
            }
            _ => Work::Milling,
        }
    }
    /// Factors on the surface speed that is wanted, and on that at which the edge burns: a reamer
    /// and a tap burn below drilling speed, the others are only slowed for a good cut.
    fn speed_factors(self) -> (f64, f64) {
        match self {
            Self::Ream => (t::REAM_SPEED, t::REAM_SPEED),
            Self::Tap => (t::TAP_SPEED, t::TAP_SPEED_MOST),
            Self::Countersink { .. } => (t::COUNTERSINK_SPEED, 1.0),
            Self::Plunge => (t::PLUNGE_SPEED, 1.0),
            _ => (1.0, 1.0),
        }
    }
    fn divided(self) -> Divided {
        match self {
            Self::Slot | Self::Side { .. } | Self::Face { .. } => Divided::Axial,
            Self::Saw | Self::Bore { .. } => Divided::Radial,
            Self::Drill { .. } | Self::Plunge => Divided::Pecks,
            _ => Divided::Whole,
        }
    }
}

impl Kind {
    /// Teeth run up the body and weaken it; heads and face mills are stiff up to their tip.
    pub(super) fn has_flutes(self) -> bool {
        !matches!(self, Self::FaceMill { .. } | Self::FlyCutter | Self::BoringHead)
    }
}
