//! One pass at a depth: what of the cutter is in the cut, and what that asks of it at a feed.

use super::{
    asked::Divided,
    case::{Case, diameter_cut},
    teeth::{Pair, Windows},
    threshold::{self as t, Band},
};
use crate::engine::{
    cutters::{Kind, Tip},
    cutting::{
        bending::{self, Cantilever},
        chip::Engagement,
        drilling::TwistDrill,
        force, power, runout, speed,
    },
    quantity::{
        EdgeLoad, FeedRate, Force, Length, Power, RemovalRate, SpindleSpeed, Stress, SurfaceSpeed,
    },
    question::Operation,
};

/// A case at one depth of pass.
#[derive(Clone, Debug)]
pub struct Pass<'c> {
    pub case: &'c Case<'c>,
    /// Number of passes or pecks that the whole depth takes.
    pub count: u32,
    /// Depth of each.
    pub each: Length,
    /// Axial depth in the force formulas.
    pub depth: Length,
    /// Radial width in the force formulas.
    pub width: Length,
    /// Diameter that really cuts.
    pub diameter: Length,
    /// Largest chip over feed where the chip follows from the width, else 1.
    pub largest: f64,
    /// Mean chip over feed.
    pub mean: f64,
    windows: Option<Windows>,
    beam: Cantilever,
    /// Depth that is limited because chips pack, and where.
    pub packing: Option<(Length, Band<Length>)>,
}

impl<'c> Case<'c> {
    /// The case with its depth divided into `count`.
    pub fn pass(&'c self, count: u32) -> Pass<'c> {
        let each = self.whole / f64::from(count);
        let (depth, width) = match (self.cut.operation, self.mill.cutter.kind) {
            (Operation::Saw, Kind::SlittingSaw { thickness }) => (thickness, each),
            _ => (each, self.width),
        };
        let diameter = diameter_cut(&self.mill.cutter, self.cut.operation, depth);
        let slot = self.cut.operation == Operation::Slot;
        // A ball makes a slot no wider than it is at that depth.
        let width = if slot { diameter } else { width };
        let share = if slot { 1.0 } else { (width / self.diameter).min(1.0) };
        let arc = self.arc(share, diameter);
        Pass {
            case: self,
            count,
            each,
            depth,
            width,
            diameter,
            largest: arc.map_or(1.0, |arc| arc.largest_chip()),
            mean: arc.map_or(1.0, |arc| arc.mean_chip()),
            windows: arc.and_then(|arc| self.windows(&arc, depth)),
            beam: self.beam(if self.divided == Divided::Radial { Length::ZERO } else { depth }),
            packing: self.packing(each, share),
        }
    }

    /// The arc in which a tooth cuts, for what is fed across.
    fn arc(&self, share: f64, diameter_cut: Length) -> Option<Engagement> {
        let arc = match self.cut.operation {
            Operation::Slot | Operation::Side { .. } | Operation::Saw => Engagement::side_of(share),
            Operation::Face { .. } => Engagement::centred_of(share),
            _ => return None,
        };
        // Away from its widest ring an edge cuts at a slant, and the chip is thinner for it.
        Some(match self.mill.cutter.kind {
            Kind::FaceMill { entering_angle } => arc.slanted(entering_angle.sin()),
            Kind::EndMill { tip: Tip::Ball, .. } => arc.slanted(diameter_cut / self.diameter),
            _ => arc,
        })
    }

    fn windows(&self, arc: &Engagement, depth: Length) -> Option<Windows> {
        if !(self.asked.bend || self.asked.breakage || self.climb) {
            return None;
        }
        let helix = if self.asked.breakage { self.mill.cutter.helix.tan() } else { 0.0 };
        let lag = 2.0 * (depth / self.diameter) * helix;
        Some(Windows::new(arc, self.teeth, depth, lag, self.climb))
    }

    /// Cutter and shank as a beam with its load in the middle of the axial depth.
    fn beam(&self, depth: Length) -> Cantilever {
        let cutter = &self.mill.cutter;
        let load = depth / 2.0;
        let flutes = if cutter.kind.has_flutes() { cutter.flute_length } else { Length::ZERO };
        let flutes = (flutes - load).max(Length::ZERO);
        let stickout = (cutter.stickout - load).max(flutes);
        Cantilever::of(self.diameter, bending::CORE, flutes, cutter.shank, stickout)
    }

    fn packing(&self, each: Length, share: f64) -> Option<(Length, Band<Length>)> {
        let cutter = &self.mill.cutter;
        if self.asked.pack {
            let plain = cutter.shank <= self.diameter * 1.001;
            let long = plain && cutter.stickout > self.diameter * (6.0 * (1.0 + 1e-9));
            let room = t::packing_depth(self.diameter, share, self.stock.is_soft(), long);
            Some((each, t::DEPTH.of(room)))
        } else if self.asked.peck {
            Some((each, t::PECK.of(self.diameter)))
        } else {
            None
        }
    }

    /// Spindle speed for a surface speed at a diameter.
    pub fn spindle_speed(&self, surface: SurfaceSpeed, diameter: Length) -> SpindleSpeed {
        if self.mill.cutter.kind == Kind::EdgeFinder {
            return t::edge_finder_cap().within;
        }
        speed::spindle_speed_of(surface, diameter)
    }
}

impl Pass<'_> {
    /// The spindle speed that stock and cutter would like.
    pub fn wanted(&self) -> SpindleSpeed {
        self.case.spindle_speed(self.case.surface.wanted, self.diameter)
    }

    /// As slow as the spindle is turned before the chip gets thinner.
    pub fn slowest(&self) -> SpindleSpeed {
        self.case.spindle_speed(self.case.surface.floor, self.diameter)
    }

    pub fn surface(&self, n: SpindleSpeed) -> SurfaceSpeed {
        speed::surface_speed_of(n, self.diameter)
    }

    /// Thin-chip factor on the table's range.
    pub fn thin(&self) -> f64 {
        if self.case.feeds.thins { (1.0 / self.largest).clamp(1.0, 2.0) } else { 1.0 }
    }

    /// Chip per feed that must not rub.
    pub fn rub_share(&self) -> f64 {
        match self.case.cut.operation {
            // Two lips share what is fed in a turn.
            Operation::Drill { .. } | Operation::Spot => 0.5,
            Operation::Countersink { .. } => 1.0 / f64::from(self.case.teeth.max(1)),
            _ => self.largest,
        }
    }

    /// Specific cutting force at a feed.
    pub fn specific_force(&self, f: Length) -> Stress {
        self.case.law.at(f * self.mean, power::chip_floor())
    }

    fn edge_load(&self, f: Length) -> EdgeLoad {
        self.case.law.edge_load(f, self.mean, power::chip_floor())
    }

    /// The feed at which a force stands on a width of edge.
    pub fn feed_for_force(&self, force: Force, width: Length) -> Length {
        let load = EdgeLoad((force.0 / width.0).into());
        self.case.law.feed_for(load, self.mean, power::chip_floor())
    }

    /// Width of edge that pushes at once.
    pub fn peak_width(&self) -> Length {
        self.windows.as_ref().map_or(self.depth, |w| w.peak)
    }

    /// Peak tangential force at a feed, all teeth alike.
    pub fn peak_force(&self, f: Length) -> Force {
        Force(self.edge_load(f).0 * self.peak_width().0)
    }

    /// Bend of cutter, shank and machine under a tangential force.
    pub fn bend_under(&self, tangential: Force) -> Length {
        self.cutter_bend_under(tangential) + self.machine_give_under(tangential)
    }

    /// Bend of cutter and shank under a tangential force.
    pub fn cutter_bend_under(&self, tangential: Force) -> Length {
        let modulus = bending::youngs_modulus(self.case.mill.cutter.material);
        self.beam.deflection(force::resultant(tangential), modulus)
    }

    /// How far the machine gives way to a tangential force.
    pub fn machine_give_under(&self, tangential: Force) -> Length {
        Length(force::resultant(tangential).0 / self.case.stiffness.0)
    }

    /// The worst tooth and the others at a feed, both with an uneven hand.
    pub fn teeth_by_runout(&self, f: Length) -> (Length, Length) {
        let (z, f) = (f64::from(self.case.teeth), f * t::UNEVEN_HAND);
        let worst = runout::worst_tooth_of(f, self.case.teeth, self.case.step);
        let rest = if self.case.teeth > 1 { (f * z - worst) / (z - 1.0) } else { Length::ZERO };
        (worst, rest)
    }

    /// Force of the worst tooth, and the others, on widths of edge.
    fn force_by_runout(&self, widths: &[Pair], f: Length) -> Force {
        let (worst, rest) = self.teeth_by_runout(f);
        let kc = self.specific_force(worst);
        widths.iter().map(|pair| force_on(kc, pair, worst, rest)).fold(Force::ZERO, Force::max)
    }

    /// Tangential widths of the teeth over a turn.
    pub fn push_widths(&self) -> &[Pair] {
        self.windows.as_ref().map_or(&[], |w| &w.push)
    }

    /// Widths along the feed over a turn, for a climb cut.
    pub fn pull_widths(&self) -> &[Pair] {
        self.windows.as_ref().map_or(&[], |w| &w.pull)
    }

    /// Tangential force of the worst tooth with an uneven hand.
    pub fn worst_force(&self, f: Length) -> Force {
        self.force_by_runout(self.push_widths(), f)
    }

    /// Pull on the table while climbing.
    pub fn pull(&self, f: Length) -> Force {
        self.force_by_runout(self.pull_widths(), f)
    }

    /// Stress in the cutter under a tangential force, bending and torsion together.
    pub fn stress_under(&self, tangential: Force) -> Stress {
        let torque = force::torque_of_force_of(tangential, self.case.diameter);
        self.beam.equivalent_stress(force::resultant(tangential), torque)
    }

    /// Bending stress and torsion in the cutter under a tangential force.
    pub fn stresses_under(&self, tangential: Force) -> (Stress, Stress) {
        let torque = force::torque_of_force_of(tangential, self.case.diameter);
        (self.beam.worst_bending_stress(force::resultant(tangential)), self.beam.torsion(torque))
    }

    /// Margin against breaking under a tangential force.
    pub fn margin_under(&self, tangential: Force) -> f64 {
        let material = self.case.mill.cutter.material;
        bending::breakage_margin_of(material, self.stress_under(tangential))
    }

    /// The drill whose thrust and torque are asked, if it is one.
    pub fn drill(&self) -> Option<TwistDrill> {
        match self.case.cut.operation {
            Operation::Drill { .. } | Operation::Spot => Some(TwistDrill {
                diameter: self.diameter,
                pilot: self.case.pilot,
                work: self.case.stock.drill_factors(),
            }),
            _ => None,
        }
    }

    /// The drill whose torque tells its power: with a force of the person's own the chip does.
    pub fn drill_by_torque(&self) -> Option<TwistDrill> {
        self.drill().filter(|_| !self.case.own_force)
    }

    /// Chip volume at a feed rate: a ring for a tool that goes down, else depth times width.
    pub fn removal_rate(&self, feed: FeedRate) -> RemovalRate {
        match self.case.cut.operation {
            Operation::Drill { .. }
            | Operation::Spot
            | Operation::Ream
            | Operation::Countersink { .. }
            | Operation::Plunge => {
                let pilot = self.case.pilot.min(self.diameter);
                power::removal_rate_drilling_of(self.diameter, pilot, feed)
            }
            _ => power::removal_rate_milling_of(self.depth, self.width, feed),
        }
    }

    /// Power the cut takes.
    pub fn power(&self, n: SpindleSpeed, f: Length) -> Power {
        match self.drill_by_torque() {
            Some(drill) => power::power_of_torque_of(drill.torque(f), n),
            None => {
                let rate = self.removal_rate(self.case.rate(n, f));
                power::cutting_power_of(rate, self.specific_force(f))
            }
        }
    }
}

/// Force of the worst tooth and the others on their widths of edge.
pub fn force_on(kc: Stress, widths: &Pair, worst: Length, rest: Length) -> Force {
    Force(kc.0 * (worst.0 * widths.worst.0 + rest.0 * widths.rest.0))
}
