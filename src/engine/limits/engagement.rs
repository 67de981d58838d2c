//! How many teeth push at once: the force windows of a helical cutter over one turn.
//!
//! A tooth wound round the cutter enters the cut along a lag behind its tip. Over 24 positions for
//! each tooth pitch the windows of one tooth are integrated in closed form; the teeth differ only
//! by a whole number of positions, so one table serves all.

use core::f64::consts::PI;

/// Radial force over tangential force: 0.3 for a sharp edge, 0.5 for a dull one.
pub const RADIAL_SHARE: f64 = 0.4;
/// Positions for each tooth pitch.
const STEPS: usize = 24;
/// Lag taken for straight teeth, so that one formula serves both, radians.
const LEAST_LAG: f64 = 1e-4;

/// The arc in which a tooth cuts, radians from where a conventional tooth enters.
#[derive(Clone, Copy, Debug)]
pub struct Arc {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

impl Arc {
    /// A side cut of a share of the diameter; a slot at one.
    pub fn side(share: f64) -> Self {
        Self { from: 0.0, to: libm::acos((1.0 - 2.0 * share).clamp(-1.0, 1.0)) }
    }
    /// A face cut of a share of the diameter, the cutter centred on it.
    pub fn centred(share: f64) -> Self {
        let half = libm::asin(share.min(1.0));
        Self { from: PI / 2.0 - half, to: PI / 2.0 + half }
    }
}

/// Widths by which the chip of the worst tooth, and of the others, is multiplied: mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pair {
    /// Of the worst tooth.
    pub worst: f64,
    /// Of all others together.
    pub rest: f64,
}

/// Force windows at one depth.
#[derive(Clone, Debug)]
pub struct Engagement {
    /// Tangential, at every position of one turn.
    pub push: Vec<Pair>,
    /// Along the feed of a climb cut, at every position of one turn; empty unless asked for.
    pub pull: Vec<Pair>,
    /// Greatest tangential width with all teeth alike.
    pub peak: f64,
}

impl Engagement {
    /// Windows of `teeth` teeth with a helix of this tangent over an arc, `depth` and `diameter`
    /// in mm. Pull is worked out only where a climb cut asks for it.
    pub fn new(
        arc: Arc,
        teeth: u32,
        depth: f64,
        diameter: f64,
        helix_tan: f64,
        climb: bool,
    ) -> Self {
        let teeth = teeth.max(1) as usize;
        let lag = (2.0 * depth * helix_tan / diameter).max(LEAST_LAG);
        let scale = depth / lag;
        let count = STEPS * teeth;
        let window = |position: usize, of: &dyn Fn(f64, f64) -> f64| -> f64 {
            let tip = 2.0 * PI * position as f64 / count as f64;
            [tip, tip + 2.0 * PI]
                .into_iter()
                .map(|t| (arc.from.max(t - lag), arc.to.min(t)))
                .filter(|(low, high)| high > low)
                .map(|(low, high)| scale * of(low, high))
                .sum()
        };
        let table = |of: &dyn Fn(f64, f64) -> f64| -> Vec<Pair> {
            let one: Vec<f64> = (0..count).map(|i| window(i, of)).collect();
            let all: Vec<f64> =
                (0..STEPS).map(|i| (0..teeth).map(|k| one[i + STEPS * k]).sum()).collect();
            one.iter()
                .enumerate()
                .map(|(i, &worst)| Pair { worst, rest: all[i % STEPS] - worst })
                .collect()
        };
        let push = table(&|low, high| libm::cos(low) - libm::cos(high));
        let mut pull = if climb {
            table(&|low, high| {
                let (sl, sh) = (libm::sin(low), libm::sin(high));
                (sh * sh - sl * sl) / 2.0
                    - RADIAL_SHARE
                        * ((high - low) / 2.0
                            - (libm::sin(2.0 * high) - libm::sin(2.0 * low)) / 4.0)
            })
        } else {
            Vec::new()
        };
        // Teeth on the far side push the table back, but a hand cannot count on them: the worst
        // tooth pulls first.
        for pair in &mut pull {
            pair.rest = pair.rest.max(0.0);
        }
        let peak = push.iter().map(|p| p.worst + p.rest).fold(0.0, f64::max);
        Self { push, pull, peak }
    }
}

/// The greatest of `worst` chips times its width plus `rest` chips times theirs, and the pair.
pub fn greatest(windows: &[Pair], worst: f64, rest: f64) -> (f64, Pair) {
    let mut best = (0.0, Pair::default());
    for pair in windows {
        let sum = worst * pair.worst + rest * pair.rest;
        if sum > best.0 {
            best = (sum, *pair);
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shallow_slot_of_two_flutes_pushes_like_one_straight_tooth() {
        let e = Engagement::new(Arc::side(1.0), 2, 0.01, 10.0, 0.577, false);
        assert!((e.peak / 0.01 - 1.0).abs() < 0.01, "{}", e.peak);
    }

    #[test]
    fn a_helix_only_lowers_the_peak() {
        for share in [0.05, 0.2, 0.5, 1.0] {
            for teeth in [2, 3, 4, 6] {
                let arc = Arc::side(share);
                let straight = Engagement::new(arc, teeth, 8.0, 10.0, 0.0, false);
                let helical = Engagement::new(arc, teeth, 8.0, 10.0, 0.577, false);
                assert!(helical.peak <= straight.peak * 1.01, "share {share}, {teeth} teeth");
            }
        }
    }

    #[test]
    fn the_mean_over_a_turn_is_the_removal_rate() {
        // Chip width times chip, summed over teeth and averaged over a turn, is z ae ap / (pi D) f.
        let (share, teeth, depth, diameter) = (0.3, 4, 5.0, 10.0);
        let e = Engagement::new(Arc::side(share), teeth, depth, diameter, 0.577, false);
        let mean: f64 = e.push.iter().map(|p| p.worst + p.rest).sum::<f64>() / e.push.len() as f64;
        let wanted = f64::from(teeth) * share * diameter * depth / (PI * diameter);
        assert!((mean / wanted - 1.0).abs() < 0.01, "{mean} and {wanted}");
    }
}
