//! A second opinion: every limit worked out again from first principles, the cutter cut into thin
//! slices and the beam into short lengths. It shares no line with the program but its tables.

#![allow(clippy::disallowed_methods, reason = "a second opinion has sines of its own")]

use std::f64::consts::{PI, TAU};

use handwheel::engine::{
    answer::Answer,
    cutters::{
        Kind, Tip, ToolMaterial,
        feed::{Table, feed_range},
    },
    machine::Class,
    question::{Coolant, Feeding, Operation},
    stock::{Edge, Flag, IsoGroup, Work},
};

use crate::questions::Question;

const INCH: f64 = 25.4;
const LBF: f64 = 4.448_221_615;
/// Steps of a turn of the cutter; two to six teeth stand at whole steps.
const TURN: usize = 7200;
/// Parts of half a turn, and of a beam.
const PARTS: usize = 3600;
/// Slack on a comparison: half a per cent of grace, and what sums lose against integrals.
const SLACK: f64 = 1.012;

/// A cut as an answer has it, in mm, N, W, rpm and minutes.
pub struct Judge<'a> {
    q: &'a Question,
    n: f64,
    f: f64,
    /// Axial depth and radial width of a pass.
    ap: f64,
    ae: f64,
    d: f64,
    /// Diameter that cuts.
    d_cut: f64,
    z: f64,
    arc: Option<Vec<f64>>,
    slant: f64,
}

/// A limit that an answer breaks, with what was found and what is allowed.
pub type Broken = (&'static str, f64, f64);

impl<'a> Judge<'a> {
    pub fn new(q: &'a Question, answer: &Answer) -> Self {
        let passes = answer.passes.as_ref().map_or(1, |p| p.targets.len()) as f64;
        let d = q.cutter.diameter.to_mm();
        let (ap, ae) = match (q.cut.operation, q.cutter.kind) {
            (Operation::Saw, Kind::SlittingSaw { thickness }) => {
                (thickness.to_mm(), q.cut.depth.to_mm() / passes)
            }
            (Operation::Bore { width }, _) => (width.to_mm() / passes, PI * d),
            (Operation::Slot, _) => (q.cut.depth.to_mm() / passes, d),
            (Operation::Side { width, .. }, _) => (q.cut.depth.to_mm() / passes, width.to_mm()),
            (Operation::Face { width }, _) => (q.cut.depth.to_mm() / passes, width.to_mm().min(d)),
            _ => (q.cut.depth.to_mm() / passes, 0.0),
        };
        let mut judge = Self {
            q,
            n: answer.speed.set.to_rpm(),
            f: answer.feed.map_or(0.0, |f| f.per_tooth.to_mm()),
            ap,
            ae,
            d,
            d_cut: d,
            z: f64::from(q.cutter.teeth),
            arc: None,
            slant: 1.0,
        };
        judge.d_cut = judge.diameter_cut();
        if matches!(q.cutter.kind, Kind::EndMill { tip: Tip::Ball, .. })
            && q.cut.operation == Operation::Slot
        {
            judge.ae = judge.d_cut;
        }
        judge.arc = judge.angles();
        judge.slant = match q.cutter.kind {
            Kind::FaceMill { entering_angle } => entering_angle.to_radian().sin(),
            Kind::EndMill { tip: Tip::Ball, .. } => judge.d_cut / d,
            _ => 1.0,
        };
        judge
    }

    fn diameter_cut(&self) -> f64 {
        let cone = |angle: f64, hole: f64| (hole + 2.0 * self.ap * (angle / 2.0).tan()).min(self.d);
        match (self.q.cut.operation, self.q.cutter.kind) {
            (Operation::Spot, Kind::SpotDrill { point_angle }) => {
                cone(point_angle.to_radian(), 0.0)
            }
            (Operation::Countersink { hole }, Kind::Countersink { included_angle }) => {
                cone(included_angle.to_radian(), hole.to_mm())
            }
            (_, Kind::EndMill { tip: Tip::Ball, .. }) if self.ap < self.d / 2.0 => {
                let off = self.d / 2.0 - self.ap;
                2.0 * (self.d * self.d / 4.0 - off * off).sqrt()
            }
            _ => self.d,
        }
    }

    /// Is a tooth in the cut at an angle from where a conventional tooth enters?
    fn cuts_at(&self, angle: f64) -> bool {
        if !(0.0..=PI).contains(&angle) {
            return false;
        }
        let r = 1.0;
        match self.q.cut.operation {
            Operation::Face { .. } => (r * angle.cos()).abs() <= self.ae / self.d,
            Operation::Slot => true,
            // How deep the tooth stands in the side of the work.
            _ => r - r * angle.cos() <= 2.0 * self.ae / self.d,
        }
    }

    fn angles(&self) -> Option<Vec<f64>> {
        let across = matches!(
            self.q.cut.operation,
            Operation::Slot | Operation::Side { .. } | Operation::Face { .. } | Operation::Saw
        );
        across.then(|| {
            let all = (0..PARTS).map(|i| PI * (i as f64 + 0.5) / PARTS as f64);
            all.filter(|a| self.cuts_at(*a)).collect()
        })
    }

    /// Largest and mean chip over the feed.
    fn chip_shares(&self) -> (f64, f64) {
        let Some(arc) = &self.arc else { return (1.0, 1.0) };
        let largest = arc.iter().map(|a| a.sin()).fold(0.0, f64::max);
        let mean = arc.iter().map(|a| a.sin()).sum::<f64>() / arc.len() as f64;
        (largest * self.slant, mean * self.slant)
    }

    fn kc(&self, chip: f64) -> f64 {
        let stock = self.q.mill().stock;
        stock.kc1_1().to_newton_per_mm2() * chip.max(0.02).powf(-stock.mc)
    }

    /// Feeds of the table for this cutter, and teeth that count for the rate.
    fn table(&self) -> (f64, f64, f64) {
        let table = match self.q.cutter.kind {
            Kind::EndMill { .. } => Table::EndMill,
            Kind::FaceMill { .. } => Table::FaceMill,
            Kind::FlyCutter => Table::FlyCutter,
            Kind::SlittingSaw { .. } => Table::SlittingSaw,
            Kind::Reamer => Table::Reamer,
            Kind::Countersink { .. } => Table::Countersink,
            Kind::BoringHead => Table::BoringHead,
            _ => Table::Drill,
        };
        let d = if self.q.cut.operation == Operation::Spot {
            self.q.cutter.diameter * (self.d_cut / self.d)
        } else {
            self.q.cutter.diameter
        };
        let edge = self.q.cutter.material.edge();
        let range = feed_range(table, edge, self.q.mill().stock.feed_group, d).unwrap();
        let share = if self.q.cut.operation == Operation::Plunge { 0.25 } else { 1.0 };
        let teeth = if range.per_turn { 1.0 } else { self.z };
        (range.low.to_mm() * share, range.high.to_mm() * share, teeth)
    }

    fn soft(&self) -> bool {
        self.q.mill().stock.kc1_1().to_newton_per_mm2() < 600.0
    }

    fn rate(&self) -> f64 {
        self.f * self.table().2 * self.n
    }

    /// Every limit that is broken.
    pub fn broken(&self) -> Vec<Broken> {
        let mut all = vec![self.speed(), self.power(), self.chip(), self.rubbing()];
        all.extend(self.cap());
        all.extend(self.wheel());
        all.extend(self.depth());
        if self.cutter_pushes() {
            all.push(self.bending());
        }
        if self.has_teeth_that_snap() {
            all.push(self.breakage());
            all.extend(self.runout());
        }
        all.extend(self.climb());
        all.extend(self.thrust());
        all.into_iter().filter(|(_, found, most)| *found > *most * SLACK).collect()
    }

    fn has_teeth_that_snap(&self) -> bool {
        matches!(self.q.cut.operation, Operation::Slot | Operation::Side { .. })
    }

    fn cutter_pushes(&self) -> bool {
        self.has_teeth_that_snap()
            || matches!(self.q.cut.operation, Operation::Face { .. } | Operation::Bore { .. })
    }

    fn speed(&self) -> Broken {
        let drilling = matches!(
            self.q.cut.operation,
            Operation::Drill { .. }
                | Operation::Spot
                | Operation::Ream
                | Operation::Countersink { .. }
        );
        let stock = self.q.mill().stock;
        let edge = self.q.cutter.material.edge();
        let work = if drilling { Work::Drilling } else { Work::Milling };
        let high = stock.speed(edge, work).unwrap().high().to_m_per_min();
        let fluid = match (edge, stock.iso_group, self.q.cut.coolant) {
            (Edge::Carbide, _, _) | (_, IsoGroup::K | IsoGroup::N, _) => 1.0,
            (_, _, Coolant::Flood) => 1.0,
            (_, _, Coolant::Brush) => 0.85,
            (_, _, Coolant::Dry) => 0.7,
        };
        let ream = if self.q.cut.operation == Operation::Ream { 0.67 } else { 1.0 };
        let life = if edge == Edge::Hss { 1.25 } else { 1.5 };
        ("speed", PI * self.d_cut * self.n / 1000.0, high * fluid * ream * life)
    }

    fn cap(&self) -> Option<Broken> {
        let head = matches!(self.q.cutter.kind, Kind::FlyCutter | Kind::BoringHead);
        head.then(|| ("cap", self.n * (self.d / INCH / 3.0).sqrt(), 1000.0))
    }

    fn rubbing(&self) -> Broken {
        let stock = self.q.mill().stock;
        let low = self.table().0;
        let least = if stock.is(Flag::Magnesium) {
            0.0004 * INCH
        } else if stock.is(Flag::WorkHardening) {
            (0.0003 * INCH).min(0.6 * low)
        } else {
            (0.000_07 * INCH).min(0.35 * low)
        };
        let worn = if self.q.worn { 2.0 } else { 1.0 };
        let share = match self.q.cut.operation {
            Operation::Drill { .. } | Operation::Spot => 0.5,
            Operation::Countersink { .. } => 1.0 / self.z,
            _ => self.chip_shares().0,
        };
        // Too thin a chip as a quantity that must stay low.
        ("rubbing", 1.0 / (self.f * share), 1.0 / (least * worn))
    }

    fn chip(&self) -> Broken {
        let most = if self.soft() { 2.25 } else { 1.5 };
        ("chip", self.f * self.chip_shares().0, most * self.table().1)
    }

    fn wheel(&self) -> Option<Broken> {
        let across = self.arc.is_some();
        across.then(|| {
            let turns = self.rate() / self.q.machine.table.lead.to_mm();
            ("wheel", turns, self.q.machine.highest_rate.to_turns_per_min())
        })
    }

    fn power_at_speed(&self) -> f64 {
        use handwheel::engine::machine::Speeds;
        let watts = self.q.machine.power_or_assumed().to_watt();
        let share = |speeds: &Speeds| match speeds {
            Speeds::Steps(steps) => {
                let has = steps.iter().any(|s| (s.to_rpm() - self.n).abs() < 0.2);
                if has { 1.0 } else { 0.0 }
            }
            Speeds::Continuous { lowest, highest, base } => {
                let inside = self.n >= lowest.to_rpm() - 0.2 && self.n <= highest.to_rpm() + 0.2;
                let base = base.unwrap_or(*highest).to_rpm();
                if inside { (self.n / base).min(1.0) } else { 0.0 }
            }
        };
        watts * self.q.machine.ranges.iter().map(|r| share(&r.speeds)).fold(0.0, f64::max)
    }

    fn power(&self) -> Broken {
        let (_, mean) = self.chip_shares();
        let kc = self.kc(mean * self.f);
        let cut = match self.q.cut.operation {
            Operation::Drill { .. } | Operation::Spot => {
                let torque = |d: f64| {
                    let kd = self.q.mill().stock.drill_factors().torque;
                    let (d, f) = (d / INCH, self.f / INCH);
                    kd * f.powf(0.8) * d.powf(1.8) * 1.085
                };
                let inch_pounds = torque(self.d_cut) - torque(self.pilot());
                inch_pounds * self.n / 63_025.0 * 745.7
            }
            Operation::Ream | Operation::Countersink { .. } | Operation::Plunge => {
                let ring = self.d_cut * self.d_cut - self.pilot() * self.pilot();
                kc * PI / 4.0 * ring * self.rate() / 60_000.0
            }
            _ => kc * self.ap * self.ae * self.rate() / 60_000.0,
        };
        ("power", cut, self.power_at_speed())
    }

    fn pilot(&self) -> f64 {
        match self.q.cut.operation {
            Operation::Drill { pilot, .. } => pilot.map_or(0.0, |p| p.to_mm()),
            Operation::Countersink { hole } => hole.to_mm(),
            Operation::Ream => (self.d - 0.010 * INCH).max(0.0),
            _ => 0.0,
        }
    }

    /// Sum over teeth and slices of `of` at their angles, the first tooth apart from the others, at
    /// every position of a turn, in mm of edge. A slice is as thick as the helix turns in a step.
    fn slices(&self, of: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        if self.arc.is_none() {
            return vec![(self.ap, 0.0)];
        }
        let helix = if self.has_teeth_that_snap() { self.q.cutter.helix.to_radian() } else { 0.0 };
        let lag = 2.0 * self.ap * helix.tan() / self.d;
        let slices = ((lag / TAU * TURN as f64).round() as usize).max(1);
        let angle = |i: usize| TAU * (i as f64 + 0.5) / TURN as f64;
        let edge: Vec<f64> =
            (0..TURN).map(|i| if self.cuts_at(angle(i)) { of(angle(i)) } else { 0.0 }).collect();
        // The tip is at position i, the slices above it follow behind.
        let mut window: f64 = (0..slices).map(|k| edge[(2 * TURN - k) % TURN]).sum();
        let mut one = Vec::with_capacity(TURN);
        for i in 0..TURN {
            one.push(window * self.ap / slices as f64);
            window += edge[(i + 1) % TURN] - edge[(2 * TURN + i + 1 - slices) % TURN];
        }
        let teeth = self.q.cutter.teeth as usize;
        assert_eq!(TURN % teeth, 0, "teeth stand at whole steps");
        (0..TURN)
            .map(|i| {
                let others = (1..teeth).map(|t| one[(i + TURN / teeth * t) % TURN]);
                (one[i], others.sum())
            })
            .collect()
    }

    /// Tangential force with the first tooth and the others at their feeds, the most in a turn.
    fn most_force(&self, first: f64, others: f64) -> f64 {
        let kc = self.kc(self.chip_shares().1 * first);
        let sums = self.slices(f64::sin).into_iter().map(|(a, b)| kc * (first * a + others * b));
        sums.fold(0.0, f64::max)
    }

    /// Length of flutes and of all that stands out, from the middle of the axial depth.
    fn lengths(&self) -> (f64, f64) {
        let radial = matches!(self.q.cut.operation, Operation::Bore { .. });
        let load = if radial { 0.0 } else { self.ap / 2.0 };
        let fluted = !matches!(
            self.q.cutter.kind,
            Kind::FaceMill { .. } | Kind::FlyCutter | Kind::BoringHead
        );
        let flutes = if fluted { self.q.cutter.flute_length.to_mm() } else { 0.0 };
        let flutes = (flutes - load).max(0.0);
        (flutes, (self.q.cutter.stickout.to_mm() - load).max(flutes))
    }

    fn bending(&self) -> Broken {
        let (flutes, out) = self.lengths();
        let force = self.most_force(self.f, self.f) * (1.0f64 + 0.4 * 0.4).sqrt();
        let e = match self.q.cutter.material {
            ToolMaterial::Carbide => 600_000.0,
            _ => 205_000.0,
        };
        let step = out / PARTS as f64;
        let bend: f64 = (0..PARTS)
            .map(|i| step * (i as f64 + 0.5))
            .map(|x| {
                let d = if x < flutes { 0.8 * self.d } else { self.q.cutter.shank.to_mm() };
                // Moment, curvature, and what it adds to the way of the tip.
                force * x / (e * PI * d.powi(4) / 64.0) * x * step
            })
            .sum();
        let per_um = match self.q.machine.class {
            Class::LightBench => 3.0,
            Class::Bench => 5.0,
            Class::HeavyBench => 8.0,
            Class::Knee => 20.0,
        };
        let most =
            if self.q.cut.finish { 0.0015 * INCH } else { (0.005 * INCH).min(0.04 * self.d) };
        ("bending", bend + force / per_um / 1000.0, most)
    }

    /// Feeds of the worst tooth and the others, the hand uneven.
    fn uneven(&self) -> (f64, f64) {
        let f = 1.4 * self.f;
        let step = if self.z > 1.0 { self.q.runout.to_mm() * (PI / self.z).sin() } else { 0.0 };
        let worst = (f + step).min(self.z * f);
        (worst, if self.z > 1.0 { (self.z * f - worst) / (self.z - 1.0) } else { 0.0 })
    }

    fn breakage(&self) -> Broken {
        let (worst, others) = self.uneven();
        let force = self.most_force(worst, others);
        let push = force * 1.16f64.sqrt();
        let (flutes, out) = self.lengths();
        let core = 0.8 * self.d;
        let modulus = |d: f64| PI * d.powi(3) / 32.0;
        let at_flutes = push * flutes / modulus(core);
        let at_holder =
            if out > flutes { push * out / modulus(self.q.cutter.shank.to_mm()) } else { 0.0 };
        let shear = force * self.d / 2.0 / (2.0 * modulus(core));
        let stress = (at_flutes.max(at_holder).powi(2) + 3.0 * shear * shear).sqrt();
        let rupture = match self.q.cutter.material {
            ToolMaterial::Carbide => 1500.0,
            _ => 2400.0,
        };
        ("breakage", 1.5 * stress / rupture, 1.0 / 1.5)
    }

    /// Only small cutters are refused for their wobble.
    fn runout(&self) -> Vec<Broken> {
        if self.d > 0.125 * INCH * 1.0001 {
            return Vec::new();
        }
        let tir = self.q.runout.to_mm();
        let h = self.f * self.chip_shares().0;
        let step = if self.z > 1.0 { tir * (PI / self.z).sin() } else { 0.0 };
        let soft = if self.soft() { 1.5 } else { 1.0 };
        vec![
            ("worst tooth", (h + step).min(self.z * h), 1.6 * soft * self.table().1),
            ("wobble", tir, 0.020 * self.d),
        ]
    }

    fn climb(&self) -> Option<Broken> {
        let Operation::Side { feeding: Feeding::Climb, .. } = self.q.cut.operation else {
            return None;
        };
        let backlash = self.q.machine.table.backlash.map_or(0.010, |b| b.to_inch());
        let (forgiven, drag) = match self.q.machine.class {
            Class::LightBench => (0.002, 40.0),
            Class::Bench => (0.002, 60.0),
            Class::HeavyBench => (0.005, 120.0),
            Class::Knee => (0.005, 250.0),
        };
        if backlash <= 0.002 || self.ae <= 3.0 * forgiven * INCH * SLACK {
            return None;
        }
        let (worst, others) = self.uneven();
        let kc = self.kc(self.chip_shares().1 * worst);
        let pull = self
            .slices(|a| a.sin() * (a.cos() - 0.4 * a.sin()))
            .into_iter()
            .map(|(first, rest)| kc * (worst * first + others * rest))
            .fold(0.0, f64::max);
        Some(("climb", pull, drag))
    }

    fn depth(&self) -> Option<Broken> {
        if matches!(self.q.cut.operation, Operation::Drill { .. } | Operation::Plunge) {
            return Some(("peck", self.ap, 6.0 * self.d));
        }
        if !self.has_teeth_that_snap() {
            return None;
        }
        let share = (self.ae / self.d).min(1.0);
        let s = (self.d / (0.5 * INCH)).clamp(0.25, 0.5);
        let r = if share >= 0.5 {
            1.0 + 2.0 * (1.0 - share)
        } else {
            (2.0 + 4.0 * (0.5 - share)).min(3.0)
        };
        let soft = if self.soft() { 2.0 } else { 1.0 };
        let out = self.q.cutter.stickout.to_mm() / self.d;
        let plain = self.q.cutter.shank.to_mm() <= self.d * 1.001;
        let long = if plain && out > 6.0 { 0.5 } else { 1.0 };
        Some(("depth", self.ap, 2.0 * s * self.d * r * soft * long))
    }

    fn thrust(&self) -> Option<Broken> {
        if !matches!(self.q.cut.operation, Operation::Drill { .. } | Operation::Spot) {
            return None;
        }
        let k = self.q.mill().stock.drill_factors().thrust;
        let (d, f) = (self.d_cut / INCH, self.f / INCH);
        let pilot = self.pilot() / INCH;
        let pounds = if pilot >= 0.18 * d {
            2.0 * k * f.powf(0.8) * d.powf(0.8) * (1.0 - pilot / d)
        } else {
            2.0 * k * f.powf(0.8) * d.powf(0.8) * 1.355 + k * d * d * 0.030
        };
        let most = match self.q.machine.class {
            Class::LightBench => 220.0,
            Class::Bench => 300.0,
            Class::HeavyBench => 400.0,
            Class::Knee => 500.0,
        };
        Some(("thrust", pounds * LBF, most * LBF))
    }
}
