//! A question prepared for the search: every figure looked up once, in mm, N, W, rpm and minutes.

use core::f64::consts::PI;

use super::{
    check,
    engagement::{Arc, Engagement, greatest},
    threshold::{self as t, Band},
};
use crate::engine::{
    answer::{Limit, State},
    cutters::{
        Kind, Tip,
        feed::{FeedRange, Table, feed_range},
    },
    machine::{Class, Speeds},
    quantity::{Angle, INCH, Length, SpindleSpeed, SurfaceSpeed},
    question::{Coolant, Cut, Feeding, Field, InputError, OnTheMill, Operation, Style},
    stock::{Edge, Flag, IsoGroup, Material, Work},
};

const INCH_MM: f64 = INCH * 1000.0;
/// Chip at which Kienzle's force is held: below, it would grow without end, mm.
pub const CHIP_FLOOR_MM: f64 = 0.02;
/// Core of a fluted cutter over its diameter.
const CORE: f64 = 0.80;
/// Young's modulus, N/mm2.
const MODULUS: [f64; 2] = [205_000.0, 600_000.0];
/// Design transverse rupture strength, N/mm2.
const RUPTURE: [f64; 2] = [2400.0, 1500.0];
/// Notch of the flute and interrupted load.
const NOTCH: f64 = 1.5;
/// Resultant of the tangential and the radial force over the tangential one.
const RESULTANT: f64 = 1.077;
/// Factors of the drill formulas for a sharp standard point: torque, thrust, chisel edge.
const DRILL_TORQUE: f64 = 1.085;
const DRILL_THRUST: f64 = 1.355;
const DRILL_CHISEL: f64 = 0.030;
/// Width of a drill's web over its diameter: a pilot that wide takes the chisel edge out.
const WEB: f64 = 0.18;
/// Stock a reamer takes off the diameter where the hole is not given, in.
const REAM_ALLOWANCE_IN: f64 = 0.010;
const LBF: f64 = 4.448_221_615_260_5;
/// Watts of a torque of 1 lbf in at 1 rpm.
const WATT_PER_LBF_IN_RPM: f64 = LBF * INCH * 2.0 * PI / 60.0;
/// Share by which rows of a face overlap at least.
pub const ROW_OVERLAP: f64 = 0.30;

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
    pub thrust: bool,
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

/// How the chip follows from the feed.
#[derive(Clone, Copy, Debug, PartialEq)]
enum ChipRule {
    /// By the width of the cut.
    Width,
    /// The feed times a fixed factor.
    Fixed(f64),
}

/// A question, prepared.
#[derive(Debug)]
pub struct Case<'a> {
    pub mill: &'a OnTheMill<'a>,
    pub cut: &'a Cut,
    pub stock: &'static Material,
    pub asked: Asked,
    pub divided: Divided,
    /// Depth to divide, mm.
    pub whole: f64,
    /// Cutter diameter, mm.
    pub d: f64,
    /// Teeth that count for the feed rate: one where the table counts per turn.
    pub z_feed: f64,
    /// Teeth.
    pub teeth: u32,
    /// Radial width, mm, where it does not follow from the division.
    pub ae: f64,
    pub lf: f64,
    pub shank: f64,
    pub stickout: f64,
    helix_tan: f64,
    modulus: f64,
    rupture: f64,
    /// Specific cutting force at 1 mm, N/mm2, and its exponent.
    pub kc1: f64,
    pub mc: f64,
    pub own_force: bool,
    soft: bool,
    chip_rule: ChipRule,
    climb: bool,
    /// Table range as printed for this diameter, mm.
    pub table: FeedRange,
    /// Range aimed at, thin-chip rule not applied, mm.
    pub low: f64,
    pub high: f64,
    /// High end by which the chip is judged, mm.
    pub judge_high: f64,
    /// A feed that is kept, mm.
    pub fixed_feed: Option<f64>,
    /// Thin-chip rule applies.
    pub thins: bool,
    /// Least chips, as a band of reciprocals per mm.
    pub rub: Band,
    /// Surface speeds, m/min: wanted, and the high end by which it is judged.
    pub v_want: f64,
    pub v_high: f64,
    /// Low and high of the stock's range with factors, m/min.
    pub v_range: (f64, f64),
    /// A quarter of the high-speed-steel low value, m/min.
    pub v_floor: f64,
    pub speed_band: Band,
    pub lead: f64,
    pub wheel: Band,
    pub machine_give: f64,
    pub drag: f64,
    pub climb_width: f64,
    pub tir: f64,
    thrust: Band,
    pub pilot: f64,
    /// Base speeds: power in W over all speeds, by range.
    power: f64,
}

/// A case at one depth of pass.
#[derive(Clone, Debug)]
pub struct Depth {
    /// Number of passes or pecks.
    pub k: u32,
    /// Axial depth in the force formulas, mm.
    pub ap: f64,
    /// Radial width in the force formulas, mm.
    pub ae: f64,
    /// Diameter that really cuts, mm.
    pub d_cut: f64,
    /// Greatest chip over feed.
    pub q: f64,
    /// Mean chip over feed.
    pub m: f64,
    engagement: Option<Engagement>,
    /// Bend of cutter and shank under one newton at the tip, mm.
    pub beam: f64,
    /// Bending stress per newton of tangential force, and torsion, N/mm2.
    pub stress: (f64, f64),
    /// Depth over the depth at which chips pack, or peck over diameter.
    pub share: Option<f64>,
}

/// One limit at one point.
#[derive(Clone, Copy, Debug)]
pub struct Mark {
    pub limit: Limit,
    /// What is compared with the band.
    pub x: f64,
    pub band: Band,
    pub u: f64,
    pub state: State,
}

impl Mark {
    fn new(limit: Limit, x: f64, band: Band) -> Self {
        Self { limit, x, band, u: band.utilisation(x), state: band.state(x) }
    }
}

/// Every limit at one point.
#[derive(Clone, Copy, Debug, Default)]
pub struct Marks {
    items: [Option<Mark>; 12],
}

impl Marks {
    fn put(&mut self, mark: Mark) {
        self.items[mark.limit as usize] = Some(mark);
    }
    /// The limit, if it is asked.
    pub fn get(&self, limit: Limit) -> Option<&Mark> {
        self.items[limit as usize].as_ref()
    }
    /// All that are asked.
    pub fn iter(&self) -> impl Iterator<Item = &Mark> {
        self.items.iter().flatten()
    }
    /// The greatest utilisation.
    pub fn worst(&self) -> f64 {
        self.iter().map(|m| m.u).fold(0.0, f64::max)
    }
}

/// Which threshold a curve follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Threshold {
    Near,
    Over,
}

impl Threshold {
    fn of(self, band: Band) -> f64 {
        match self {
            Self::Near => band.within,
            Self::Over => band.near,
        }
    }
}

impl<'a> Case<'a> {
    /// Looks everything up and checks every entry.
    pub fn new(mill: &'a OnTheMill<'a>, cut: &'a Cut) -> Result<Self, Vec<InputError>> {
        let errors = check::entries(mill, cut);
        if !errors.is_empty() {
            return Err(errors);
        }
        let stock = mill.stock;
        let machine = mill.machine;
        let cutter = &mill.cutter;
        let edge = cutter.material.edge();
        let op = cut.operation;
        let own = &cut.own;
        let d = cutter.diameter.to_mm();
        let soft = stock.is_soft();

        let table = match table_of(cutter.kind) {
            Some(table) => feed_range(table, edge, stock.feed_group, cutter.diameter)
                .ok_or_else(|| vec![no_feed(stock)])?,
            None => tap_feed(cutter.kind),
        };
        let share = if op == Operation::Plunge { t::PLUNGE_FEED } else { 1.0 };
        let (table_low, table_high) = (table.low.to_mm() * share, table.high.to_mm() * share);
        let z_feed = if table.per_turn { 1.0 } else { f64::from(cutter.teeth) };

        let (mut low, mut high, mut judge_high) = (table_low, table_high, table_high);
        let mut fixed_feed = None;
        let mut thins = matches!(op, Operation::Side { .. }) && !cut.finish;
        if let Some(chip) = own.chip {
            (low, high) = (chip.to_mm(), chip.to_mm());
            thins = matches!(op, Operation::Side { .. });
        }
        if let Some(feed) = own.feed {
            (low, high) = (feed.to_mm(), feed.to_mm());
            // The chip limit takes the person's figure for the table's; the rubbing one does not,
            // because the edge of the cutter is no sharper for it.
            judge_high = judge_high.max(feed.to_mm());
            fixed_feed = Some(feed.to_mm());
            thins = false;
        }
        if let Some(feed) = own.feed_as_set {
            fixed_feed = Some(feed.to_mm());
        }
        if let Kind::Tap { pitch } = cutter.kind {
            fixed_feed = Some(pitch.to_mm());
        }

        let work = if op.is_hole_by_drill() { Work::Drilling } else { Work::Milling };
        let factor = op.speed_factor();
        let coolant = coolant_factor(stock, edge, cut.coolant);
        let (v_range, v_floor, table_high) = match stock.speed(edge, work) {
            Some(range) => {
                let (v_low, v_high) = (range.low().to_m_per_min(), range.high().to_m_per_min());
                let hss_low = stock.speed(Edge::Hss, work).unwrap_or(range).low();
                (
                    (v_low * coolant * factor, v_high * coolant * factor),
                    hss_low.to_m_per_min() * factor / 4.0,
                    v_high * coolant * op.speed_limit_factor(),
                )
            }
            None if op == Operation::FindEdge => ((0.0, f64::INFINITY), 0.0, f64::INFINITY),
            None => return Err(vec![no_speed(stock)]),
        };
        let (v_want, v_high) = match own.surface_speed {
            Some(v) => (v.to_m_per_min(), table_high.max(v.to_m_per_min())),
            None => (wanted_speed(machine.class, cut.style, v_range), table_high),
        };

        let own_force = own.cutting_force.or(own.unit_power);
        let asked = Asked::of(op, cutter.kind);
        let class = machine.class;
        let backlash = machine.table.backlash.unwrap_or_else(|| class.assumed_backlash());
        let climb = matches!(op, Operation::Side { feeding: Feeding::Climb, .. })
            && backlash.to_mm() > t::CLIMB_BACKLASH_MM;
        let ae = match op {
            Operation::Slot => d,
            Operation::Side { width, .. } => width.to_mm(),
            Operation::Face { width } => width.to_mm().min(d),
            Operation::Bore { .. } => PI * d,
            _ => 0.0,
        };
        let whole = match op {
            Operation::Bore { width } => width.to_mm(),
            _ => cut.depth.to_mm(),
        };
        let lead = machine.table.lead.to_mm();
        Ok(Self {
            mill,
            cut,
            stock,
            asked,
            divided: op.divided(),
            whole,
            d,
            z_feed,
            teeth: cutter.teeth,
            ae,
            lf: if cutter.kind.has_flutes() { cutter.flute_length.to_mm() } else { 0.0 },
            shank: cutter.shank.to_mm(),
            stickout: cutter.stickout.to_mm(),
            helix_tan: if matches!(op, Operation::Slot | Operation::Side { .. }) {
                cutter.helix.tan()
            } else {
                0.0
            },
            modulus: MODULUS[edge as usize],
            rupture: RUPTURE[edge as usize],
            kc1: own_force.map_or(stock.kc1_1(), |f| f).to_newton_per_mm2(),
            mc: if own_force.is_some() { 0.0 } else { stock.mc },
            own_force: own_force.is_some(),
            soft,
            chip_rule: match op {
                Operation::Slot
                | Operation::Side { .. }
                | Operation::Face { .. }
                | Operation::Saw => ChipRule::Width,
                Operation::Drill { .. } | Operation::Spot => ChipRule::Fixed(0.5),
                Operation::Countersink { .. } => {
                    ChipRule::Fixed(1.0 / f64::from(cutter.teeth.max(1)))
                }
                _ => ChipRule::Fixed(1.0),
            },
            climb,
            rub: least_chips(stock, table_low, mill.worn),
            table,
            low,
            high,
            judge_high,
            fixed_feed,
            thins,
            v_want,
            v_high,
            v_range,
            v_floor,
            speed_band: match edge {
                Edge::Hss => t::SPEED_HSS,
                Edge::Carbide => t::SPEED_CARBIDE,
            },
            lead,
            wheel: Band {
                within: machine.comfortable_rate.to_turns_per_min(),
                near: machine.highest_rate.to_turns_per_min(),
            },
            machine_give: 1e-3
                / machine.stiffness.unwrap_or_else(|| class.stiffness()).to_newton_per_um(),
            drag: machine.table_drag.unwrap_or_else(|| class.table_drag()).to_newton(),
            climb_width: t::climb_width_mm(class),
            tir: mill.runout.unwrap_or_else(|| mill.holder.assumed_runout()).to_mm(),
            thrust: t::thrust(class),
            pilot: match op {
                Operation::Drill { pilot, .. } => pilot.map_or(0.0, Length::to_mm),
                Operation::Countersink { hole } => hole.to_mm(),
                Operation::Ream => d - REAM_ALLOWANCE_IN * INCH_MM,
                _ => 0.0,
            },
            power: machine.power_or_assumed().to_watt(),
        })
    }

    /// The case with its depth divided into `k`.
    pub fn depth(&self, k: u32) -> Depth {
        let part = self.whole / f64::from(k);
        let (ap, ae) = match (self.cut.operation, self.mill.cutter.kind) {
            (Operation::Saw, Kind::SlittingSaw { thickness }) => (thickness.to_mm(), part),
            _ => (part, self.ae),
        };
        let d_cut = self.diameter_cut(ap);
        let share = (ae / self.d).min(1.0);
        let (arc, mut q, mut m) = match self.cut.operation {
            Operation::Slot | Operation::Side { .. } | Operation::Saw => {
                let arc = Arc::side(share);
                let q = if share < 0.5 { 2.0 * (share * (1.0 - share)).sqrt() } else { 1.0 };
                (Some(arc), q, (1.0 - libm::cos(arc.to)) / arc.to)
            }
            Operation::Face { .. } => {
                let arc = Arc::centred(share);
                (Some(arc), 1.0, 2.0 * share / (arc.to - arc.from))
            }
            _ => (None, 1.0, 1.0),
        };
        // Away from its widest ring an edge cuts at a slant, and the chip is thinner for it.
        let slant = match self.mill.cutter.kind {
            Kind::FaceMill { entering_angle } => entering_angle.sin(),
            Kind::EndMill { tip: Tip::Ball, .. } => d_cut / self.d,
            _ => 1.0,
        };
        q *= slant;
        m *= slant;
        let engagement = match arc {
            Some(arc) if self.asked.bend || self.asked.breakage || self.climb => {
                Some(Engagement::new(arc, self.teeth, ap, self.d, self.helix_tan, self.climb))
            }
            _ => None,
        };
        let (beam, stress) = self.beam(if self.divided == Divided::Radial { 0.0 } else { ap });
        let pack = || {
            let s = (self.d / (0.5 * INCH_MM)).clamp(0.25, 0.5);
            let r = if share >= 0.5 {
                1.0 + (1.0 - share) / 0.5
            } else if share >= 0.25 {
                2.0 + (0.5 - share) / 0.25
            } else {
                3.0
            };
            let mut cap = s * self.d * r;
            if self.soft {
                cap *= 2.0;
            }
            if self.stickout / self.d > 6.0 * (1.0 + 1e-9) && self.shank <= self.d * 1.001 {
                cap *= 0.5;
            }
            ap / cap
        };
        let share = if self.asked.pack {
            Some(pack())
        } else if self.asked.peck {
            Some(part / self.d)
        } else {
            None
        };
        Depth { k, ap, ae, d_cut, q, m, engagement, beam, stress, share }
    }

    /// Diameter that really cuts at an axial depth, mm.
    fn diameter_cut(&self, ap: f64) -> f64 {
        let cone =
            |angle: Angle, hole: f64| (hole + 2.0 * ap * (angle / 2.0).tan()).clamp(1e-6, self.d);
        match (self.cut.operation, self.mill.cutter.kind) {
            (Operation::Spot, Kind::SpotDrill { point_angle } | Kind::Drill { point_angle }) => {
                cone(point_angle, 0.0)
            }
            (Operation::Countersink { hole }, Kind::Countersink { included_angle: angle })
            | (Operation::Countersink { hole }, Kind::SpotDrill { point_angle: angle }) => {
                cone(angle, hole.to_mm())
            }
            (_, Kind::EndMill { tip: Tip::Ball, .. }) if ap < self.d / 2.0 => {
                2.0 * (ap * (self.d - ap)).sqrt()
            }
            _ => self.d,
        }
    }

    /// Bend at the cut under one newton there, and stress per newton of tangential force. The load
    /// stands at the middle of the axial depth.
    fn beam(&self, ap: f64) -> (f64, (f64, f64)) {
        let load = ap / 2.0;
        let lf = (self.lf - load).max(0.0);
        let l = (self.stickout - load).max(lf);
        let core = CORE * self.d;
        let inertia = |d: f64| PI * d.powi(4) / 64.0;
        let cube = |x: f64| x * x * x;
        let bend = (cube(lf) / inertia(core) + (cube(l) - cube(lf)) / inertia(self.shank))
            / (3.0 * self.modulus);
        let per_newton = |x: f64, d: f64| 32.0 * x / (PI * cube(d));
        let holder = if l > lf { per_newton(l, self.shank) } else { 0.0 };
        let sigma = RESULTANT * per_newton(lf, core).max(holder);
        (bend, (sigma, 8.0 * self.d / (PI * cube(core))))
    }

    /// Specific cutting force at a chip, N/mm2.
    pub fn kc(&self, chip: f64) -> f64 {
        self.kc1 * libm::pow(chip.max(CHIP_FLOOR_MM), -self.mc)
    }

    /// The feed at which a tooth of unit width pushes with `force`: solves kc(m f) f = force.
    fn feed_for_force(&self, force: f64, m: f64) -> f64 {
        let f = libm::pow(force * libm::pow(m, self.mc) / self.kc1, 1.0 / (1.0 - self.mc));
        if m * f > CHIP_FLOOR_MM { f } else { force / self.kc(CHIP_FLOOR_MM) }
    }

    /// Step between neighbouring teeth by runout, mm.
    fn step(&self) -> f64 {
        self.tir * libm::sin(PI / f64::from(self.teeth.max(1)))
    }

    /// The worst tooth and the others at a feed, both with an uneven hand, mm.
    fn teeth_by_runout(&self, f: f64) -> (f64, f64) {
        let z = f64::from(self.teeth);
        let f = t::UNEVEN_HAND * f;
        let worst = (f + self.step()).min(z * f);
        let rest = if self.teeth > 1 { (z * f - worst) / (z - 1.0) } else { 0.0 };
        (worst, rest)
    }

    /// Feed in mm/min at a speed and a feed per tooth or turn.
    pub fn rate(&self, n: f64, f: f64) -> f64 {
        n * f * self.z_feed
    }

    /// Power at the cutter at a speed, W.
    pub fn power_at(&self, n: f64) -> f64 {
        self.mill.machine.power_at(SpindleSpeed::rpm(n)).to_watt()
    }

    /// Power the cut takes, W.
    pub fn power_taken(&self, depth: &Depth, n: f64, f: f64) -> f64 {
        match self.cut.operation {
            Operation::Drill { .. } | Operation::Spot if !self.own_force => {
                self.drill_torque(depth, f) * n * WATT_PER_LBF_IN_RPM
            }
            Operation::Drill { .. }
            | Operation::Spot
            | Operation::Ream
            | Operation::Countersink { .. }
            | Operation::Plunge => {
                self.kc(depth.m * f) * self.hole_area(depth) * self.rate(n, f) / 60_000.0
            }
            _ => self.kc(depth.m * f) * depth.ap * depth.ae * self.rate(n, f) / 60_000.0,
        }
    }

    /// Ring that a hole tool cuts away, mm2.
    fn hole_area(&self, depth: &Depth) -> f64 {
        let pilot = self.pilot.min(depth.d_cut);
        PI / 4.0 * (depth.d_cut * depth.d_cut - pilot * pilot)
    }

    /// Torque of a sharp drill, lbf in.
    fn drill_torque(&self, depth: &Depth, f: f64) -> f64 {
        let kd = self.stock.drill_factors().torque;
        kd * libm::pow(f / INCH_MM, 0.8) * self.drill_torque_width(depth) * DRILL_TORQUE
    }
    fn drill_torque_width(&self, depth: &Depth) -> f64 {
        let (d, d0) = (depth.d_cut / INCH_MM, self.pilot / INCH_MM);
        libm::pow(d, 1.8) - if d0 > 0.0 { libm::pow(d0, 1.8) } else { 0.0 }
    }

    /// Thrust of a sharp drill as `a f^0.8 + b`, in N with f in mm.
    fn drill_thrust(&self, depth: &Depth) -> (f64, f64) {
        let kd = self.stock.drill_factors().thrust;
        let d = depth.d_cut / INCH_MM;
        // A pilot as wide as the web leaves the chisel edge nothing to push through.
        let (b, j, share) = if self.pilot >= WEB * self.d {
            (1.0, 0.0, 1.0 - self.pilot / depth.d_cut)
        } else {
            (DRILL_THRUST, DRILL_CHISEL, 1.0)
        };
        let a = 2.0 * kd * libm::pow(d, 0.8) * b * share * LBF / libm::pow(INCH_MM, 0.8);
        (a, kd * d * d * j * share * LBF)
    }

    /// Spindle speed over its cap: what is compared, and the band.
    fn cap(&self, n: f64) -> (f64, Band) {
        if self.mill.cutter.kind == Kind::EdgeFinder {
            (n, t::EDGE_FINDER_CAP)
        } else {
            (n * (self.d / t::BODY_CAP_SWING_MM).sqrt(), t::BODY_CAP)
        }
    }

    fn chip_band(&self) -> Band {
        if self.soft { t::CHIP_SOFT } else { t::CHIP }
    }
    fn tooth_band(&self) -> Band {
        t::RUNOUT_TOOTH.times(if self.soft { t::RUNOUT_TOOTH_SOFT } else { 1.0 })
    }
    fn bend_band(&self) -> Band {
        if self.cut.finish {
            t::BEND_FINISH_MM
        } else {
            let (mm, share) = (t::BEND_ROUGH_MM, t::BEND_ROUGH_SHARE.times(self.d));
            Band { within: mm.within.min(share.within), near: mm.near.min(share.near) }
        }
    }
    fn margin_band(&self) -> Band {
        let small_carbide = self.d <= t::SMALL_CUTTER_MM * 1.0001
            && self.mill.cutter.material.edge() == Edge::Carbide;
        Band::least(
            if small_carbide { t::MARGIN_WITHIN_SMALL_CARBIDE } else { t::MARGIN_WITHIN },
            t::MARGIN_NEAR,
        )
    }
    /// A cutter so small that runout breaks it.
    pub fn is_small(&self) -> bool {
        self.d <= t::SMALL_CUTTER_MM * 1.0001
    }

    /// Chip per feed for rubbing, and for the chip limit.
    pub fn chip_factors(&self, depth: &Depth) -> (f64, f64) {
        match self.chip_rule {
            ChipRule::Width => (depth.q, depth.q),
            ChipRule::Fixed(rub) => (rub, 1.0),
        }
    }

    /// Bend in mm at a feed.
    pub fn bend(&self, depth: &Depth, f: f64) -> f64 {
        let peak = match &depth.engagement {
            Some(e) => e.peak,
            None => depth.ap,
        };
        RESULTANT * self.kc(depth.m * f) * f * peak * (depth.beam + self.machine_give)
    }

    /// Peak tangential force at a feed, N, all teeth alike.
    pub fn peak_force(&self, depth: &Depth, f: f64) -> f64 {
        self.kc(depth.m * f) * f * depth.engagement.as_ref().map_or(depth.ap, |e| e.peak)
    }

    /// Tangential force of the worst tooth with an uneven hand, N.
    pub fn worst_force(&self, depth: &Depth, f: f64) -> f64 {
        let Some(e) = &depth.engagement else { return 0.0 };
        let (worst, rest) = self.teeth_by_runout(f);
        self.kc(depth.m * worst) * greatest(&e.push, worst, rest).0
    }

    /// Equivalent stress per newton of tangential force, N/mm2.
    fn stress_per_newton(&self, depth: &Depth) -> f64 {
        let (sigma, tau) = depth.stress;
        (sigma * sigma + 3.0 * tau * tau).sqrt()
    }

    /// Margin against breaking.
    pub fn margin(&self, depth: &Depth, f: f64) -> f64 {
        let stress = self.worst_force(depth, f) * self.stress_per_newton(depth);
        self.rupture / (NOTCH * stress)
    }

    /// Pull on the table while climbing, N.
    pub fn pull(&self, depth: &Depth, f: f64) -> f64 {
        let Some(e) = &depth.engagement else { return 0.0 };
        let (worst, rest) = self.teeth_by_runout(f);
        self.kc(depth.m * worst) * greatest(&e.pull, worst, rest).0
    }

    /// Every limit at a speed in rpm and a feed in mm per tooth or turn.
    pub fn read(&self, depth: &Depth, n: f64, f: f64) -> Marks {
        let mut marks = self.read_constant(depth, n);
        let (rub, chip) = self.chip_factors(depth);
        if self.asked.chip {
            marks.put(Mark::new(Limit::Rubbing, 1.0 / (rub * f), self.rub));
            marks.put(Mark::new(Limit::ChipLoad, chip * f / self.judge_high, self.chip_band()));
        }
        if self.asked.wheel {
            marks.put(Mark::new(Limit::Wheel, self.rate(n, f) / self.lead, self.wheel));
        }
        if self.asked.power {
            let share = self.power_taken(depth, n, f) / self.power_at(n);
            marks.put(Mark::new(Limit::Power, share, t::POWER));
        }
        if self.asked.bend {
            marks.put(Mark::new(Limit::Bending, self.bend(depth, f), self.bend_band()));
        }
        if self.asked.breakage {
            let x = 1.0 / self.margin(depth, f);
            marks.put(Mark::new(Limit::Breakage, x, self.margin_band()));
            marks.put(self.runout(depth, f));
        }
        if self.climb {
            marks.put(self.climbing(depth, f));
        }
        if self.asked.thrust {
            let (a, b) = self.drill_thrust(depth);
            marks.put(Mark::new(Limit::Thrust, a * libm::pow(f, 0.8) + b, self.thrust));
        }
        marks
    }

    /// The limits that do not depend on the feed.
    pub fn read_constant(&self, depth: &Depth, n: f64) -> Marks {
        let mut marks = Marks::default();
        if self.v_high.is_finite() {
            let v = PI * depth.d_cut * n / 1000.0;
            marks.put(Mark::new(Limit::Speed, v / self.v_high, self.speed_band));
        }
        if self.asked.cap {
            let (x, band) = self.cap(n);
            marks.put(Mark::new(Limit::BodyCap, x, band));
        }
        if let Some(share) = depth.share {
            let band = if self.asked.pack { t::DEPTH } else { t::PECK };
            marks.put(Mark::new(Limit::Depth, share, band));
        }
        marks
    }

    /// The three ways runout is looked at; the worst counts.
    fn runout(&self, depth: &Depth, f: f64) -> Mark {
        let h = depth.q * f;
        let step = self.step();
        let ratio = step / h;
        let as_note = Band { within: t::RUNOUT_RATIO_WITHIN, near: f64::INFINITY };
        let mut note = Mark::new(Limit::Runout, ratio, as_note);
        note.u = (ratio / t::RUNOUT_RATIO_WITHIN).min(t::RUNOUT_RATIO_MOST);
        let tooth = (h + step).min(f64::from(self.teeth) * h) / self.judge_high;
        let tooth = Mark::new(Limit::Runout, tooth, self.tooth_band());
        let share = Mark::new(Limit::Runout, self.tir / self.d, t::RUNOUT_SHARE);
        let mut worst = note;
        for mark in [tooth, share] {
            if mark.state > worst.state || mark.state == worst.state && mark.u > worst.u {
                worst = mark;
            }
        }
        worst
    }

    fn climbing(&self, depth: &Depth, f: f64) -> Mark {
        let width = Mark::new(Limit::Climb, depth.ae / self.climb_width, t::CLIMB_WIDTH);
        if width.state == State::Within {
            return width;
        }
        // Wider than backlash forgives it is never well within, however light the pull.
        let mut pull = Mark::new(Limit::Climb, self.pull(depth, f) / self.drag, t::CLIMB_PULL);
        pull.state = pull.state.max(State::Near);
        pull.u = pull.u.max(1.0 + t::GRACE);
        if pull.u < width.u { pull } else { width }
    }

    /// Least feed above which the edge does not rub.
    pub fn least_feed(&self, depth: &Depth, at: Threshold) -> f64 {
        if !self.asked.chip {
            return 0.0;
        }
        1.0 / (at.of(self.rub) * self.chip_factors(depth).0)
    }

    /// Greatest feed a limit allows at a depth and, for wheel and power, a speed.
    pub fn greatest_feed(&self, depth: &Depth, limit: Limit, n: f64, at: Threshold) -> Option<f64> {
        match limit {
            Limit::ChipLoad if self.asked.chip => {
                Some(at.of(self.chip_band()) * self.judge_high / self.chip_factors(depth).1)
            }
            Limit::Wheel if self.asked.wheel => {
                Some(at.of(self.wheel) * self.lead / (n * self.z_feed))
            }
            Limit::Power if self.asked.power => Some(self.feed_for_power(depth, n, at)),
            Limit::Bending if self.asked.bend => {
                let peak = depth.engagement.as_ref().map_or(depth.ap, |e| e.peak);
                let give = RESULTANT * (depth.beam + self.machine_give) * peak;
                Some(self.feed_for_force(at.of(self.bend_band()) / give, depth.m))
            }
            Limit::Breakage if self.asked.breakage => {
                let force = self.rupture * at.of(self.margin_band())
                    / (NOTCH * self.stress_per_newton(depth));
                let e = depth.engagement.as_ref()?;
                Some(self.feed_for_worst(depth, &e.push, force))
            }
            Limit::Climb if self.climb && depth.ae > 3.0 * self.climb_width * (1.0 + t::GRACE) => {
                let e = depth.engagement.as_ref()?;
                Some(self.feed_for_worst(depth, &e.pull, at.of(t::CLIMB_PULL) * self.drag))
            }
            Limit::Runout if self.asked.breakage => {
                let most = at.of(self.tooth_band()) * self.judge_high;
                let z = f64::from(self.teeth);
                Some((most - self.step()).max(most / z) / depth.q)
            }
            Limit::Thrust if self.asked.thrust => {
                let (a, b) = self.drill_thrust(depth);
                let left = at.of(self.thrust) - b;
                Some(if left > 0.0 { libm::pow(left / a, 1.25) } else { 0.0 })
            }
            _ => None,
        }
    }

    fn feed_for_power(&self, depth: &Depth, n: f64, at: Threshold) -> f64 {
        let watts = at.of(t::POWER) * self.power_at(n);
        let per_chip = match self.cut.operation {
            Operation::Drill { .. } | Operation::Spot if !self.own_force => {
                let torque = watts / (n * WATT_PER_LBF_IN_RPM);
                let kd = self.stock.drill_factors().torque;
                let width = kd * self.drill_torque_width(depth) * DRILL_TORQUE;
                return libm::pow(torque / width, 1.25) * INCH_MM;
            }
            Operation::Drill { .. }
            | Operation::Spot
            | Operation::Ream
            | Operation::Countersink { .. }
            | Operation::Plunge => self.hole_area(depth),
            _ => depth.ap * depth.ae,
        };
        self.feed_for_force(60_000.0 * watts / (per_chip * self.z_feed * n), depth.m)
    }

    /// The feed at which the worst tooth pushes with `force`.
    fn feed_for_worst(
        &self,
        depth: &Depth,
        windows: &[super::engagement::Pair],
        force: f64,
    ) -> f64 {
        let z = f64::from(self.teeth);
        let step = self.step();
        let alone = windows.iter().map(|p| p.worst).fold(0.0, f64::max);
        if alone <= 0.0 {
            return f64::INFINITY;
        }
        // One tooth does it all while the step is larger than what the others would take.
        let f = self.feed_for_force(force / alone, depth.m) / (t::UNEVEN_HAND * z);
        if self.teeth == 1 || t::UNEVEN_HAND * f * (z - 1.0) <= step {
            return f;
        }
        let at = |f: f64| {
            let (worst, rest) = self.teeth_by_runout(f);
            let kc = self.kc(depth.m * worst);
            let (sum, pair) = greatest(windows, worst, rest);
            let slope = if depth.m * worst > CHIP_FLOOR_MM { -self.mc * sum / worst } else { 0.0 };
            (kc * sum - force, t::UNEVEN_HAND * kc * (pair.worst + pair.rest + slope))
        };
        let (mut low, mut high) = (0.0, 2.0 * f);
        while at(high).0 < 0.0 {
            // Teeth on the far side push back: a wide climb may never pull that hard.
            if high > self.d {
                return f64::INFINITY;
            }
            low = high;
            high *= 2.0;
        }
        let mut x = f.clamp(low, high);
        for _ in 0..60 {
            let (miss, slope) = at(x);
            if miss > 0.0 {
                high = x;
            } else {
                low = x;
            }
            let mut next = x - miss / slope;
            if !(next > low && next < high) {
                next = 0.5 * (low + high);
            }
            if (next - x).abs() <= 1e-14 * x {
                return next;
            }
            x = next;
        }
        x
    }

    /// Thin-chip factor on the table's range.
    pub fn thin(&self, depth: &Depth) -> f64 {
        if self.thins { (1.0 / depth.q).clamp(1.0, 2.0) } else { 1.0 }
    }

    /// Work-hardening stock or magnesium: the chip may never go under its range.
    pub fn never_thin(&self) -> bool {
        self.stock.is(Flag::WorkHardening) || self.stock.is(Flag::Magnesium)
    }

    /// Speeds to try for a wanted one, fastest first.
    pub fn speeds(&self, n_want: f64, low_feed: f64) -> Vec<f64> {
        let machine = self.mill.machine;
        if let Some(own) = self.cut.own.spindle_speed {
            return vec![own.to_rpm()];
        }
        let cap = if self.mill.cutter.kind == Kind::EdgeFinder { n_want } else { 1.05 * n_want };
        let mut speeds = Vec::with_capacity(32);
        for range in &machine.ranges {
            match &range.speeds {
                Speeds::Steps(steps) => {
                    speeds.extend(steps.iter().map(|s| s.to_rpm()).filter(|n| *n <= cap));
                }
                Speeds::Continuous { lowest, highest, .. } => {
                    let (low, high) = (lowest.to_rpm(), highest.to_rpm().min(n_want));
                    if high < low {
                        continue;
                    }
                    let ratio = high / low;
                    for i in 0..=23 {
                        speeds.push(low * libm::pow(ratio, f64::from(i) / 23.0));
                    }
                    if self.asked.wheel {
                        for rate in [self.wheel.within, self.wheel.near] {
                            let n = rate * self.lead / (low_feed * self.z_feed);
                            if n >= low && n <= high {
                                speeds.push(n);
                            }
                        }
                    }
                }
            }
        }
        if speeds.is_empty() {
            speeds.extend(machine.lowest().map(SpindleSpeed::to_rpm));
        }
        speeds.sort_by(|a, b| b.total_cmp(a));
        speeds.dedup_by(|a, b| (*a - *b).abs() < 1e-9 * *b);
        speeds
    }

    /// Spindle speed for a surface speed, rpm and m/min.
    pub fn rpm_for(&self, depth: &Depth, v: f64) -> f64 {
        if self.mill.cutter.kind == Kind::EdgeFinder {
            return t::EDGE_FINDER_CAP.within;
        }
        1000.0 * v / (PI * depth.d_cut)
    }

    /// Most passes worth trying.
    pub fn most_passes(&self) -> u32 {
        let least = match self.divided {
            Divided::Whole => return 1,
            Divided::Pecks => 0.5 * self.d,
            Divided::Axial | Divided::Radial => (0.005 * INCH_MM).max(0.02 * self.d),
        };
        ((self.whole / least).ceil() as u32).clamp(1, 40)
    }

    /// The typed surface speed as a quantity.
    pub fn surface(&self, depth: &Depth, n: f64) -> SurfaceSpeed {
        SurfaceSpeed::m_per_min(PI * depth.d_cut * n / 1000.0)
    }

    /// Whole power of the machine, W.
    pub fn power(&self) -> f64 {
        self.power
    }
}

/// The feed table a kind of cutter reads.
pub fn table_of(kind: Kind) -> Option<Table> {
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
fn tap_feed(kind: Kind) -> FeedRange {
    let pitch = if let Kind::Tap { pitch } = kind { pitch } else { Length::mm(1.0) };
    FeedRange {
        low: pitch,
        high: pitch,
        per_turn: true,
        source: "F_GEOMETRY",
        borrowed_from: None,
        other_edge: false,
        note: "",
    }
}

/// Where in the range of surface speeds an answer begins: gently at the low end, on a knee mill in
/// the middle, briskly at the high end.
fn wanted_speed(class: Class, style: Style, (low, high): (f64, f64)) -> f64 {
    match (style, class) {
        (Style::Brisk, _) => high,
        (Style::Gentle, Class::Knee) => 0.5 * (low + high),
        (Style::Gentle, _) => low,
    }
}

fn coolant_factor(stock: &Material, edge: Edge, coolant: Coolant) -> f64 {
    let asks = matches!(stock.iso_group, IsoGroup::P | IsoGroup::M | IsoGroup::S);
    match coolant {
        _ if !asks || edge == Edge::Carbide => t::COOLANT_FLOOD,
        Coolant::Flood => t::COOLANT_FLOOD,
        Coolant::Brush => t::COOLANT_BRUSH,
        Coolant::Dry => t::COOLANT_DRY,
    }
}

/// Least chips of a stock as a band of reciprocals, 1/mm; `low` is the low end of the table, mm.
fn least_chips(stock: &Material, low: f64, worn: bool) -> Band {
    let inch = |x: f64| x * INCH_MM;
    let (within, near) = if stock.is(Flag::Magnesium) {
        (inch(0.0008), inch(0.0004))
    } else if stock.is(Flag::WorkHardening) {
        (inch(0.0005).min(low), inch(0.0003).min(0.6 * low))
    } else {
        (inch(0.0002).min(0.7 * low), inch(0.000_07).min(0.35 * low))
    };
    let blunt = if worn { 2.0 } else { 1.0 };
    Band::least(blunt * within, blunt * near)
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
        let cap = matches!(kind, Kind::FlyCutter | Kind::BoringHead | Kind::EdgeFinder);
        match op {
            Operation::Slot | Operation::Side { .. } => Self {
                chip: true,
                wheel: true,
                power: true,
                bend: true,
                breakage: true,
                pack: true,
                ..Self::default()
            },
            Operation::Face { .. } => {
                Self { cap, chip: true, wheel: true, power: true, bend: true, ..Self::default() }
            }
            Operation::Saw => Self { chip: true, wheel: true, power: true, ..Self::default() },
            Operation::Bore { .. } => {
                Self { cap, chip: true, power: true, bend: true, ..Self::default() }
            }
            Operation::Drill { .. } => {
                Self { chip: true, power: true, peck: true, thrust: true, ..Self::default() }
            }
            Operation::Spot => Self { chip: true, power: true, thrust: true, ..Self::default() },
            Operation::Plunge => Self { chip: true, power: true, peck: true, ..Self::default() },
            Operation::Ream | Operation::Countersink { .. } => {
                Self { chip: true, power: true, ..Self::default() }
            }
            Operation::FindEdge | Operation::Tap => Self { cap, ..Self::default() },
        }
    }
}

impl Operation {
    /// Cuts at drilling speeds.
    pub(super) fn is_hole_by_drill(self) -> bool {
        matches!(
            self,
            Self::Drill { .. } | Self::Spot | Self::Ream | Self::Countersink { .. } | Self::Tap
        )
    }
    fn speed_factor(self) -> f64 {
        match self {
            Self::Ream => t::REAM_SPEED,
            Self::Tap => t::TAP_SPEED,
            Self::Countersink { .. } => t::COUNTERSINK_SPEED,
            Self::Plunge => t::PLUNGE_SPEED,
            _ => 1.0,
        }
    }
    /// A reamer and a tap burn below drilling speed; the others are only slowed for a good cut.
    fn speed_limit_factor(self) -> f64 {
        match self {
            Self::Ream => t::REAM_SPEED,
            Self::Tap => t::TAP_SPEED_MOST,
            _ => 1.0,
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
