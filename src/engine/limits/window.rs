//! The operating window: speed across, feed up, each limit an exact curve.
//!
//! A limit that gives a greatest feed per tooth whatever the speed is a ray from the origin; the
//! wheel is level, speeds are upright, and power leaves its ray where the drive runs out of it.

use super::{
    case::Case,
    curve::{HOLD_DOWN, Threshold},
    pass::Pass,
};
use crate::engine::{
    answer::{Answer, Curve, Limit, Side, Window},
    cutting::handwheel,
    machine::Speeds,
    quantity::{FeedRate, Length, SpindleSpeed, SurfaceSpeed},
};

/// Points along a bent curve.
const BENT: u32 = 16;
/// Points along the allowed region of a continuous drive.
const REGION: u32 = 48;

type At = (SpindleSpeed, FeedRate);

/// The window around an answer; `None` where there is no feed to show.
pub fn draw(case: &Case, answer: &Answer) -> Option<Window> {
    if !case.asked.chip {
        return None;
    }
    let feed = answer.feed.as_ref()?;
    let count = answer.passes.as_ref().map_or(1, |p| p.targets.len() as u32);
    let pass = case.pass(count);
    let (chosen, wanted) = (answer.speed.set, answer.speed.wanted);
    let frame = Frame::new(case, chosen, wanted, feed.rate)?;
    let aimed = case.feeds.kept.unwrap_or_else(|| pass.aim(pass.range(), chosen));
    let everywhere: Vec<Limit> =
        pass.over_whatever_feed(chosen).filter(|limit| *limit == Limit::Depth).collect();
    let machine = case.mill.machine;
    let allowed = if everywhere.is_empty() {
        let region = frame.speeds(case, REGION);
        region.into_iter().filter_map(|n| allowed(&pass, n, frame.feed_max)).collect()
    } else {
        Vec::new()
    };
    Some(Window {
        speed_max: frame.speed_max,
        feed_max: frame.feed_max,
        speeds: frame.speeds(case, 1),
        stepped: machine.ranges.iter().all(|r| matches!(r.speeds, Speeds::Steps(_))),
        curves: frame.curves(&pass),
        allowed,
        chosen: (chosen, feed.rate),
        wanted: (wanted, case.rate(wanted, aimed)),
        everywhere,
    })
}

/// The edges of the picture.
struct Frame {
    speed_max: SpindleSpeed,
    feed_max: FeedRate,
}

impl Frame {
    /// A little more than the machine has, but not empty room far beyond what is wanted.
    fn new(
        case: &Case,
        chosen: SpindleSpeed,
        wanted: SpindleSpeed,
        rate: FeedRate,
    ) -> Option<Self> {
        let top = case.mill.machine.highest()?;
        let speed_max = (top * 1.12).min((wanted * 1.6).max(chosen * 1.3)).max(chosen * 1.1);
        let hand = handwheel::table_feed_by_hand_of(case.hand.near, case.lead) * 1.25;
        let hand = if case.asked.wheel { hand } else { FeedRate::ZERO };
        Some(Self { speed_max, feed_max: (rate * 2.0).max(hand.min(rate * 4.0)) })
    }

    /// Speeds the machine has inside the picture, a stepless range in so many parts; it ends where
    /// the picture does.
    fn speeds(&self, case: &Case, parts: u32) -> Vec<SpindleSpeed> {
        let mut speeds: Vec<SpindleSpeed> = Vec::new();
        for range in &case.mill.machine.ranges {
            match &range.speeds {
                Speeds::Steps(steps) => speeds.extend(steps),
                Speeds::Continuous { lowest, highest, .. } if *lowest <= self.speed_max => {
                    speeds.extend(evenly(*lowest, highest.min(self.speed_max), parts));
                }
                Speeds::Continuous { .. } => {}
            }
        }
        self.sorted(speeds)
    }

    /// Speeds at which a power curve is worked out, its kinks among them.
    fn power_speeds(&self, case: &Case) -> Vec<SpindleSpeed> {
        let mut speeds: Vec<SpindleSpeed> = Vec::new();
        for range in &case.mill.machine.ranges {
            let (Some(low), Some(high)) = (range.speeds.lowest(), range.speeds.highest()) else {
                continue;
            };
            let high = high.min(self.speed_max);
            if high < low {
                continue;
            }
            if let Speeds::Continuous { base: Some(base), .. } = &range.speeds {
                speeds.push(base.min(high).max(low));
            }
            speeds.extend(evenly(low, high, BENT));
        }
        speeds.retain(|n| case.power_at(*n).is_positive());
        self.sorted(speeds)
    }

    fn sorted(&self, mut speeds: Vec<SpindleSpeed>) -> Vec<SpindleSpeed> {
        speeds.sort_by(|a, b| a.to_rpm().total_cmp(&b.to_rpm()));
        speeds.dedup();
        speeds.retain(|n| *n <= self.speed_max);
        speeds
    }

    fn curves(&self, pass: &Pass) -> Vec<Curve> {
        let case = pass.case;
        let mut curves = Vec::new();
        if let Some(most) = case.surface.most {
            let n = |v: SurfaceSpeed| self.upright(case.spindle_speed(v, pass.diameter));
            let (near, over) = (n(most.within), n(most.near));
            curves.push(Curve { limit: Limit::Speed, side: Side::Left, near, over });
        }
        if case.asked.cap {
            let cap = case.cap_band();
            let (near, over) = (self.upright(cap.within), self.upright(cap.near));
            curves.push(Curve { limit: Limit::BodyCap, side: Side::Left, near, over });
        }
        let rub = |at| self.ray(case, pass.least_feed(at));
        let (near, over) = (rub(Threshold::Near), rub(Threshold::Over));
        curves.push(Curve { limit: Limit::Rubbing, side: Side::Above, near, over });
        for limit in HOLD_DOWN {
            let curve = |at| self.hold_down(pass, limit, at);
            if let (Some(near), Some(over)) = (curve(Threshold::Near), curve(Threshold::Over)) {
                curves.push(Curve { limit, side: Side::Below, near, over });
            }
        }
        curves
    }

    /// The curve of a limit that holds the feed down.
    fn hold_down(&self, pass: &Pass, limit: Limit, at: Threshold) -> Option<Vec<At>> {
        let case = pass.case;
        // A pull that never drags the table has no place in the picture.
        let rate = |n: SpindleSpeed| {
            let f = pass.greatest_feed(limit, n, at).filter(|f| f.is_finite())?;
            Some(case.rate(n, f.max(Length::ZERO)))
        };
        match limit {
            Limit::Wheel => Some(self.level(rate(self.speed_max)?)),
            Limit::Power => {
                let speeds = self.power_speeds(case);
                speeds.into_iter().map(|n| Some((n, rate(n)?))).collect()
            }
            _ => {
                let end = rate(self.speed_max)?;
                Some(vec![(SpindleSpeed::ZERO, FeedRate::ZERO), (self.speed_max, end)])
            }
        }
    }

    fn ray(&self, case: &Case, f: Length) -> Vec<At> {
        let end = (self.speed_max, case.rate(self.speed_max, f));
        vec![(SpindleSpeed::ZERO, FeedRate::ZERO), end]
    }

    fn upright(&self, n: SpindleSpeed) -> Vec<At> {
        vec![(n, FeedRate::ZERO), (n, self.feed_max)]
    }

    fn level(&self, rate: FeedRate) -> Vec<At> {
        vec![(SpindleSpeed::ZERO, rate), (self.speed_max, rate)]
    }
}

/// Speeds in even steps from one to another, both included.
fn evenly(low: SpindleSpeed, high: SpindleSpeed, parts: u32) -> impl Iterator<Item = SpindleSpeed> {
    let step = (high - low) / f64::from(parts);
    (0..=parts).map(move |i| if i == parts { high } else { low + step * f64::from(i) })
}

/// Lowest and highest feed rate no limit forbids at a speed.
fn allowed(
    pass: &Pass,
    n: SpindleSpeed,
    feed_max: FeedRate,
) -> Option<(SpindleSpeed, FeedRate, FeedRate)> {
    if pass.over_whatever_feed(n).next().is_some() {
        return None;
    }
    let case = pass.case;
    let most = HOLD_DOWN
        .into_iter()
        .filter(|limit| *limit != Limit::Runout || case.is_small())
        .filter_map(|limit| pass.greatest_feed(limit, n, Threshold::Over))
        .fold(Length::mm(f64::INFINITY), Length::min);
    let high = case.rate(n, most).min(feed_max);
    let low = case.rate(n, pass.least_feed(Threshold::Over));
    (low < high).then_some((n, low, high))
}
