//! The feed at which each limit turns near and over, in closed form.

use super::{
    pass::{Pass, force_on},
    teeth::Pair,
    threshold::{self as t, Band, Compared},
};
use crate::engine::{
    answer::Limit,
    cutting::{feed, force, handwheel, power},
    quantity::{EdgeLoad, Force, Length, Power, SpindleSpeed},
};

/// Which threshold a curve follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Threshold {
    Near,
    Over,
}

impl Threshold {
    fn of<Q: Compared>(self, band: Band<Q>) -> Q {
        match self {
            Self::Near => band.within,
            Self::Over => band.near,
        }
    }
}

/// The limits that hold a feed down, those that also depend on the speed first.
pub const HOLD_DOWN: [Limit; 8] = [
    Limit::Wheel,
    Limit::Power,
    Limit::ChipLoad,
    Limit::Bending,
    Limit::Breakage,
    Limit::Climb,
    Limit::Runout,
    Limit::Thrust,
];

impl Pass<'_> {
    /// Least feed above which the edge does not rub.
    pub fn least_feed(&self, at: Threshold) -> Length {
        if !self.case.asked.chip {
            return Length::ZERO;
        }
        at.of(self.case.feeds.least) / self.rub_share()
    }

    /// Greatest feed a limit allows, for wheel and power at a speed; `None` where it is not asked.
    /// Infinite where the limit never turns.
    pub fn greatest_feed(&self, limit: Limit, n: SpindleSpeed, at: Threshold) -> Option<Length> {
        let case = self.case;
        match limit {
            Limit::ChipLoad if case.asked.chip => Some(at.of(case.chip_band()) / self.largest),
            Limit::Wheel if case.asked.wheel => {
                let rate = handwheel::table_feed_by_hand_of(at.of(case.hand), case.lead);
                Some(feed::feed_per_turn_of(rate, n) / case.feeds.teeth)
            }
            Limit::Power if case.asked.power => {
                Some(self.feed_for_power(case.power_at(n) * at.of(t::POWER), n))
            }
            Limit::Bending if case.asked.bend => {
                // Bend goes as the force.
                let unit = Force::newton(1.0);
                let force = unit * (at.of(case.bend_band()) / self.bend_under(unit));
                Some(self.feed_for_force(force, self.peak_width()))
            }
            Limit::Breakage if case.asked.breakage => {
                // The margin goes as one over the force.
                let unit = Force::newton(1.0);
                let force = unit * (self.margin_under(unit) / at.of(case.margin_band()));
                Some(self.feed_for_worst(self.push_widths(), force))
            }
            Limit::Climb if case.climb && self.is_too_wide_to_climb() => {
                Some(self.feed_for_worst(self.pull_widths(), case.drag * at.of(t::CLIMB_PULL)))
            }
            Limit::Runout if case.asked.breakage => {
                let most = at.of(case.tooth_band());
                let all = most / f64::from(case.teeth);
                Some((most - case.step).max(all) / self.largest)
            }
            Limit::Thrust => {
                let band = t::thrust(case.mill.machine.class);
                self.drill().map(|drill| drill.feed_for_thrust(at.of(band)))
            }
            _ => None,
        }
    }

    /// Greatest feed that a hand on the quill lever paces; `None` where the table is fed.
    pub fn greatest_by_lever(&self, n: SpindleSpeed, at: Threshold) -> Option<Length> {
        let per_turn = feed::feed_per_turn_of(at.of(t::lever()), n);
        self.case.by_lever().then(|| per_turn / self.case.feeds.teeth)
    }

    /// Wider than may be climbed whatever the pull.
    fn is_too_wide_to_climb(&self) -> bool {
        self.width > t::climb_width(self.case.mill.machine.class).near * (1.0 + t::GRACE)
    }

    fn feed_for_power(&self, power: Power, n: SpindleSpeed) -> Length {
        if let Some(drill) = self.drill_by_torque() {
            return drill.feed_for_torque(force::spindle_torque_of(power, n));
        }
        // Chip volume goes as the feed, so that of any feed gives the load on the edge.
        let any = Length::mm(1.0);
        let rate = self.removal_rate(self.case.rate(n, any));
        let load = EdgeLoad((power.0 / rate.0 * any.0).into());
        self.case.law.feed_for(load, self.mean, power::chip_floor())
    }

    /// The feed at which the worst tooth, with the others, pushes with a force.
    fn feed_for_worst(&self, widths: &[Pair], force: Force) -> Length {
        let (z, hand) = (f64::from(self.case.teeth), t::UNEVEN_HAND);
        let alone = widths.iter().map(|p| p.worst).fold(Length::ZERO, Length::max);
        if alone <= Length::ZERO {
            return Length::mm(f64::INFINITY);
        }
        // One tooth does it all while the step is larger than what the others would take.
        let f = self.feed_for_force(force, alone) / (hand * z);
        if self.case.teeth == 1 || f * (hand * (z - 1.0)) <= self.case.step {
            return f;
        }
        self.solve_worst(widths, force, f)
    }

    /// Newton's steps inside a bracket that grows from a first guess.
    fn solve_worst(&self, widths: &[Pair], force: Force, guess: Length) -> Length {
        let mut bracket = (Length::ZERO, guess * 2.0);
        while self.worst_at(widths, bracket.1).0 < force {
            // Teeth on the far side push back: a wide climb may never pull that hard.
            if bracket.1 > self.case.diameter {
                return Length::mm(f64::INFINITY);
            }
            bracket = (bracket.1, bracket.1 * 2.0);
        }
        let mut x = guess.max(bracket.0);
        for _ in 0..60 {
            let (push, slope) = self.worst_at(widths, x);
            let miss = push - force;
            if miss > Force::ZERO {
                bracket.1 = x;
            } else {
                bracket.0 = x;
            }
            let mut next = x - Length(miss.0 / slope.0);
            if !(next > bracket.0 && next < bracket.1) {
                next = (bracket.0 + bracket.1) * 0.5;
            }
            if (next - x).abs() <= x * 1e-14 {
                return next;
            }
            x = next;
        }
        x
    }

    /// The greatest force of the worst tooth with the others at a feed, and how fast it rises.
    fn worst_at(&self, widths: &[Pair], f: Length) -> (Force, EdgeLoad) {
        let (worst, rest) = self.teeth_by_runout(f);
        let kc = self.specific_force(worst);
        let mut most = (Force::ZERO, Pair::NONE);
        for pair in widths {
            let force = force_on(kc, pair, worst, rest);
            if force > most.0 {
                most = (force, *pair);
            }
        }
        let widths = (most.1.worst + most.1.rest) * t::UNEVEN_HAND;
        let mut slope = EdgeLoad((kc.0 * widths.0).into());
        if worst * self.mean > power::chip_floor() {
            let ease = most.0 * (self.case.law.exponent() * t::UNEVEN_HAND);
            slope = slope - EdgeLoad((ease.0 / worst.0).into());
        }
        (most.0, slope)
    }
}
