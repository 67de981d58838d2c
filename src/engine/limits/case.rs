//! A question prepared for the search: every figure looked up once.

use core::f64::consts::PI;

use super::{
    asked::{Asked, Divided},
    check,
    threshold::{self as t, Band},
    wanted::{self, Feeds, Surface},
};
use crate::engine::{
    cutters::{Cutter, Kind, Tip},
    cutting::{chip, drilling, feed, power::Kienzle, runout},
    quantity::{Angle, FeedRate, Force, HandRate, Length, Power, SpindleSpeed, Stiffness},
    question::{Cut, Feeding, InputError, OnTheMill, Operation},
    stock::{Edge, Material},
};

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
        wanted::never_thin(self.stock)
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
