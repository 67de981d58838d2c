//! The operating window: speed across, feed up, each limit an exact curve.
//!
//! A limit that gives a greatest feed per tooth whatever the speed is a ray from the origin; the
//! wheel is level, speeds are upright, and power leaves its ray where the drive runs out of it.

use core::f64::consts::PI;

use super::{
    case::{Case, Threshold},
    threshold as t,
};
use crate::engine::{
    answer::{Answer, Curve, Limit, Side, State, Window},
    cutters::Kind,
    machine::Speeds,
    quantity::{FeedRate, SpindleSpeed},
};

/// Points along a bent curve.
const BENT: u32 = 16;
/// Points along the allowed region of a continuous drive.
const REGION: u32 = 48;

/// The window around an answer; `None` where there is no feed to show.
pub fn draw(case: &Case, answer: &Answer) -> Option<Window> {
    if !case.asked.chip {
        return None;
    }
    let feed = answer.feed.as_ref()?;
    let k = answer.passes.as_ref().map_or(1, |p| p.targets.len() as u32);
    let depth = case.depth(k);
    let machine = case.mill.machine;
    let top = machine.highest()?.to_rpm();
    let wanted = answer.speed.wanted.to_rpm();
    let chosen = answer.speed.set.to_rpm();
    // Show a little more than the machine has, but not empty room far beyond what is wanted.
    let speed_max = (1.12 * top).min((1.6 * wanted).max(1.3 * chosen)).max(1.1 * chosen);
    let range = super::search::range(case, &depth);
    let aim = super::search::aim(case, range, chosen);
    let aimed = case.fixed_feed.unwrap_or(aim);
    let rate = feed.rate.to_mm_per_min();
    let wheel = if case.asked.wheel { 1.25 * case.wheel.near * case.lead } else { 0.0 };
    let feed_max = (2.0 * rate).max(wheel.min(4.0 * rate)).max(1e-6);

    let at = |n: f64, v: f64| (SpindleSpeed::rpm(n), FeedRate::mm_per_min(v));
    let ray = |f: f64| vec![at(0.0, 0.0), at(speed_max, case.rate(speed_max, f))];
    let upright = |n: f64| vec![at(n, 0.0), at(n, feed_max)];
    let level = |v: f64| vec![at(0.0, v), at(speed_max, v)];

    let mut curves = Vec::new();
    if case.v_high.is_finite() {
        let n = |band: f64| 1000.0 * band * case.v_high / (PI * depth.d_cut);
        curves.push(Curve {
            limit: Limit::Speed,
            side: Side::Left,
            near: upright(n(case.speed_band.within)),
            over: upright(n(case.speed_band.near)),
        });
    }
    if case.asked.cap && case.mill.cutter.kind != Kind::EdgeFinder {
        let swing = (case.d / t::BODY_CAP_SWING_MM).sqrt();
        curves.push(Curve {
            limit: Limit::BodyCap,
            side: Side::Left,
            near: upright(t::BODY_CAP.within / swing),
            over: upright(t::BODY_CAP.near / swing),
        });
    }
    curves.push(Curve {
        limit: Limit::Rubbing,
        side: Side::Above,
        near: ray(case.least_feed(&depth, Threshold::Near)),
        over: ray(case.least_feed(&depth, Threshold::Over)),
    });
    for limit in [
        Limit::ChipLoad,
        Limit::Bending,
        Limit::Breakage,
        Limit::Climb,
        Limit::Runout,
        Limit::Thrust,
    ] {
        let at = |threshold| case.greatest_feed(&depth, limit, 1.0, threshold);
        if let (Some(near), Some(over)) = (at(Threshold::Near), at(Threshold::Over)) {
            let (near, over) = (ray(near.max(0.0)), ray(over.max(0.0)));
            curves.push(Curve { limit, side: Side::Below, near, over });
        }
    }
    if case.asked.wheel {
        curves.push(Curve {
            limit: Limit::Wheel,
            side: Side::Below,
            near: level(case.wheel.within * case.lead),
            over: level(case.wheel.near * case.lead),
        });
    }
    if case.asked.power {
        let bent = |threshold: Threshold| {
            power_speeds(case, speed_max)
                .into_iter()
                .filter_map(|n| {
                    let f = case.greatest_feed(&depth, Limit::Power, n, threshold)?;
                    f.is_finite().then(|| at(n, case.rate(n, f)))
                })
                .collect()
        };
        curves.push(Curve {
            limit: Limit::Power,
            side: Side::Below,
            near: bent(Threshold::Near),
            over: bent(Threshold::Over),
        });
    }

    let stepped = machine.ranges.iter().all(|r| matches!(r.speeds, Speeds::Steps(_)));
    let mut speeds: Vec<f64> = Vec::new();
    let mut region: Vec<f64> = Vec::new();
    for range in &machine.ranges {
        match &range.speeds {
            Speeds::Steps(steps) => {
                speeds.extend(steps.iter().map(|s| s.to_rpm()));
                region.extend(steps.iter().map(|s| s.to_rpm()));
            }
            Speeds::Continuous { lowest, highest, .. } => {
                let (low, high) = (lowest.to_rpm(), highest.to_rpm());
                speeds.extend([low, high]);
                region.extend(
                    (0..=REGION).map(|i| low + (high - low) * f64::from(i) / f64::from(REGION)),
                );
            }
        }
    }
    for list in [&mut speeds, &mut region] {
        list.sort_by(f64::total_cmp);
        list.dedup();
        list.retain(|n| *n <= speed_max);
    }
    let everywhere: Vec<Limit> = case
        .read_constant(&depth, chosen)
        .iter()
        .filter(|m| m.limit == Limit::Depth && m.state == State::Over)
        .map(|m| m.limit)
        .collect();
    let allowed = if everywhere.is_empty() {
        region.iter().filter_map(|&n| allowed(case, &depth, n, feed_max)).collect()
    } else {
        Vec::new()
    };
    Some(Window {
        speed_max: SpindleSpeed::rpm(speed_max),
        feed_max: FeedRate::mm_per_min(feed_max),
        speeds: speeds.into_iter().map(SpindleSpeed::rpm).collect(),
        stepped,
        curves,
        allowed,
        chosen: (answer.speed.set, feed.rate),
        wanted: at(wanted, case.rate(wanted, aimed)),
        everywhere,
    })
}

/// Speeds at which a power curve is worked out, its kinks among them.
fn power_speeds(case: &Case, speed_max: f64) -> Vec<f64> {
    let mut speeds: Vec<f64> = Vec::new();
    for range in &case.mill.machine.ranges {
        let (Some(low), Some(high)) = (range.speeds.lowest(), range.speeds.highest()) else {
            continue;
        };
        let (low, high) = (low.to_rpm(), high.to_rpm().min(speed_max));
        if let Speeds::Continuous { base: Some(base), .. } = &range.speeds {
            speeds.push(base.to_rpm().clamp(low, high.max(low)));
        }
        let step = (high - low) / f64::from(BENT);
        speeds.extend((0..=BENT).map(|i| low + step * f64::from(i)));
    }
    speeds.retain(|n| case.power_at(*n) > 0.0);
    speeds.sort_by(f64::total_cmp);
    speeds.dedup();
    speeds
}

/// Lowest and highest feed rate no limit forbids at a speed.
fn allowed(
    case: &Case,
    depth: &super::case::Depth,
    n: f64,
    feed_max: f64,
) -> Option<(SpindleSpeed, FeedRate, FeedRate)> {
    if case.read_constant(depth, n).iter().any(|m| m.state == State::Over) {
        return None;
    }
    let least = case.least_feed(depth, Threshold::Over);
    let mut most = f64::INFINITY;
    for row in &t::TABLE {
        if row.limit == Limit::Runout && !case.is_small() {
            continue;
        }
        if let Some(f) = case.greatest_feed(depth, row.limit, n, Threshold::Over) {
            most = most.min(f);
        }
    }
    let high = case.rate(n, most).min(feed_max);
    let low = case.rate(n, least);
    (low < high)
        .then(|| (SpindleSpeed::rpm(n), FeedRate::mm_per_min(low), FeedRate::mm_per_min(high)))
}
