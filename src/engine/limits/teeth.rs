//! How many teeth push at once: the force windows of a helical cutter over one turn.
//!
//! A tooth wound round the cutter enters the cut along a lag behind its tip. Over 24 positions of
//! each tooth pitch, and in the moments when one tooth pushes most, the window of every tooth is
//! integrated in closed form.

use core::f64::consts::{FRAC_PI_2, TAU};

use crate::engine::{
    cutting::{chip::Engagement, force::RADIAL_SHARE},
    quantity::Length,
};

/// Positions for each tooth pitch.
const STEPS: usize = 24;
/// Lag taken for straight teeth, so that one formula serves both, radians.
const LEAST_LAG: f64 = 1e-4;

/// Widths of edge by which the feed of the worst tooth, and of the others, pushes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Of the worst tooth.
    pub worst: Length,
    /// Of all others together.
    pub rest: Length,
}

impl Pair {
    /// Of no tooth at all.
    pub const NONE: Self = Self { worst: Length::ZERO, rest: Length::ZERO };
}

/// Force windows of a pass, over one turn.
#[derive(Clone, Debug)]
pub struct Windows {
    /// Along the path of the teeth, at every position.
    pub push: Vec<Pair>,
    /// Along the feed of a climb cut, the way the table is pulled; empty for any other.
    pub pull: Vec<Pair>,
    /// Greatest width of edge that pushes at once, all teeth alike.
    pub peak: Length,
}

impl Windows {
    /// Windows of `teeth` teeth at an axial depth. The lag is the angle by which the upper end of
    /// a tooth follows its tip, 2 a_p tan(helix) / D in radians. The pull along the feed is worked
    /// out only for a climb cut.
    pub fn new(arc: &Engagement, teeth: u32, depth: Length, lag: f64, climb: bool) -> Self {
        let turn = Turn { arc, teeth: teeth.max(1) as usize, depth, lag: lag.max(LEAST_LAG) };
        let push = turn.pairs(FRAC_PI_2, |low, high| libm::cos(low) - libm::cos(high));
        let peak = push.iter().map(|p| p.worst + p.rest).fold(Length::ZERO, Length::max);
        let densest = (FRAC_PI_2 - libm::atan(RADIAL_SHARE)) / 2.0;
        let mut pull = if climb { turn.pairs(densest, pull_between) } else { Vec::new() };
        // Teeth on the far side push the table back, but a hand cannot count on them: the worst
        // tooth pulls first.
        for pair in &mut pull {
            pair.rest = pair.rest.max(Length::ZERO);
        }
        Self { push, pull, peak }
    }
}

/// Pull along the feed between two angles: the tangential part helps it, the radial part hinders.
fn pull_between(low: f64, high: f64) -> f64 {
    let square = |x: f64| libm::sin(x) * libm::sin(x);
    let radial = (high - low) / 2.0 - (libm::sin(2.0 * high) - libm::sin(2.0 * low)) / 4.0;
    (square(high) - square(low)) / 2.0 - RADIAL_SHARE * radial
}

/// One turn of a cutter.
struct Turn<'a> {
    arc: &'a Engagement,
    teeth: usize,
    depth: Length,
    lag: f64,
}

impl Turn<'_> {
    /// Every position of the turn, with the worst tooth in each place. A slice of a tooth pushes
    /// most at the densest angle.
    fn pairs(&self, densest: f64, between: impl Fn(f64, f64) -> f64) -> Vec<Pair> {
        let pitch = TAU / self.teeth as f64;
        let (enter, exit) = (self.arc.enter.to_radian(), self.arc.exit.to_radian());
        let even = (0..STEPS).map(|i| pitch * i as f64 / STEPS as f64);
        // A tooth pushes most when it is about to leave, has just come in whole, or stands astride
        // of the densest angle.
        let moments = [exit, enter + self.lag, densest + self.lag / 2.0].map(|tip| tip % pitch);
        let mut pairs = Vec::with_capacity((STEPS + 3) * self.teeth);
        for first in even.chain(moments) {
            let start = pairs.len();
            let mut all = Length::ZERO;
            for k in 0..self.teeth {
                let worst = self.window(first + pitch * k as f64, &between);
                all += worst;
                pairs.push(Pair { worst, rest: Length::ZERO });
            }
            for pair in &mut pairs[start..] {
                pair.rest = all - pair.worst;
            }
        }
        pairs
    }

    /// Width of edge of the tooth whose tip stands at an angle; the tooth before it may still be
    /// in the cut with its upper end.
    fn window(&self, tip: f64, between: impl Fn(f64, f64) -> f64) -> Length {
        let (enter, exit) = (self.arc.enter.to_radian(), self.arc.exit.to_radian());
        let width: f64 = [tip, tip + TAU]
            .into_iter()
            .map(|t| (enter.max(t - self.lag), exit.min(t)))
            .filter(|(low, high)| high > low)
            .map(|(low, high)| between(low, high))
            .sum();
        self.depth * (width / self.lag)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn windows(share: f64, teeth: u32, depth_mm: f64, helix_tan: f64) -> Windows {
        let (depth, diameter) = (Length::mm(depth_mm), Length::mm(10.0));
        let lag = 2.0 * (depth / diameter) * helix_tan;
        Windows::new(&Engagement::side_of(share), teeth, depth, lag, false)
    }

    #[test]
    fn a_shallow_slot_of_two_flutes_pushes_like_one_straight_tooth() {
        let peak = windows(1.0, 2, 0.01, 0.577).peak;
        assert!((peak.to_mm() / 0.01 - 1.0).abs() < 0.01, "{peak:?}");
    }

    #[test]
    fn a_helix_only_lowers_the_peak() {
        for share in [0.05, 0.2, 0.5, 1.0] {
            for teeth in [2, 3, 4, 6] {
                let straight = windows(share, teeth, 8.0, 0.0).peak;
                let helical = windows(share, teeth, 8.0, 0.577).peak;
                assert!(helical <= straight * 1.01, "share {share}, {teeth} teeth");
            }
        }
    }

    #[test]
    fn the_mean_over_a_turn_is_the_removal_rate() {
        // Chip width times chip, summed over teeth and averaged over a turn, is z ae ap / (pi D) f.
        let (share, teeth, depth) = (0.3, 4, Length::mm(5.0));
        let arc = Engagement::side_of(share);
        let turn = Turn { arc: &arc, teeth, depth, lag: 0.577 };
        let mut pairs = turn.pairs(1.0, |low, high| libm::cos(low) - libm::cos(high));
        pairs.truncate(STEPS * teeth);
        let sum = pairs.iter().fold(Length::ZERO, |sum, p| sum + p.worst + p.rest);
        let mean = sum / pairs.len() as f64;
        let wanted = depth * (teeth as f64 * share / core::f64::consts::PI);
        assert!((mean / wanted - 1.0).abs() < 0.01, "{mean:?} and {wanted:?}");
    }
}
