//! The search for spindle speed, passes and feed.
//!
//! For a given speed and number of passes every limit but rubbing allows feeds up to a value, and
//! rubbing from a value on, each in closed form: the allowed feeds are one interval. The search
//! walks passes and speeds and tries a handful of feeds in each interval.
//!
//! Gently, it prefers in this order: a full chip, limits that are comfortable, fewer passes, a
//! faster spindle, a feed near the aim. Briskly: a full chip, least time, fewer passes. The order
//! of giving up follows: depth is divided before the feed leaves its comfortable band, the feed
//! falls to the low end of its range before the speed falls, and the speed falls before the chip
//! gets thinner than that range.

use super::{
    case::{Case, Depth, Divided, Threshold},
    threshold::{DEPTH_GRACE, GRACE},
};
use crate::engine::{
    answer::{Limit, State},
    question::Style,
};

/// Limits whose greatest feed does not depend on the speed.
const BY_DEPTH: [Limit; 6] =
    [Limit::ChipLoad, Limit::Bending, Limit::Breakage, Limit::Climb, Limit::Runout, Limit::Thrust];
/// Limits that count for comfort, besides the depth.
const COMFORT: [Limit; 4] = [Limit::Bending, Limit::Breakage, Limit::ChipLoad, Limit::Thrust];
/// Thinnest chip as a share of the low end of the range.
const THINNEST: f64 = 0.4;
/// Where in its range a gentle feed aims.
const AIM: f64 = 0.4;
/// Times closer than this count as equal.
const TIME_STEP: f64 = 0.02;

/// A point of the search, in rpm and mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    pub k: u32,
    pub n: f64,
    pub f: f64,
    /// 0 full chip at a fair speed, 1 thin chip, 2 slow, 3 both.
    pub tier: u8,
    /// 0 where every limit that counts for comfort is within.
    pub comfort: u8,
}

/// The wanted range at a depth, thin-chip rule applied, mm.
#[derive(Clone, Copy, Debug)]
pub struct Range {
    pub low: f64,
    pub high: f64,
    pub thin: f64,
}

/// Why a search found nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Blocked {
    /// Over at every speed and depth.
    Alone(Limit),
    /// Feed wanted at least, feed allowed at most, mm.
    Between { at_least: (Limit, f64), at_most: (Limit, f64) },
}

/// What a search found.
#[derive(Clone, Debug)]
pub struct Found {
    pub point: Point,
    pub depth: Depth,
    /// Why the point is not feasible; it is then the least bad one.
    pub blocked: Option<Blocked>,
}

/// The range aimed at.
pub fn range(case: &Case, depth: &Depth) -> Range {
    let thin = case.thin(depth);
    Range { low: thin * case.low, high: thin * case.high, thin }
}

/// The feed a gentle answer aims at: not so fast that the wheel is uncomfortable while the chip
/// stays full.
pub fn aim(case: &Case, range: Range, n: f64) -> f64 {
    let aim = range.low + AIM * (range.high - range.low);
    if case.asked.wheel {
        aim.min(range.low.max(case.wheel.within * case.lead / (n * case.z_feed)))
    } else {
        aim
    }
}

/// Time for a unit of length, up to a factor: passes, their feed and the return by hand.
pub fn time(case: &Case, point: &Point) -> f64 {
    let back = if matches!(case.divided, Divided::Pecks | Divided::Whole) {
        0.0
    } else {
        1.0 / (60.0 * case.lead)
    };
    f64::from(point.k) * (1.0 / case.rate(point.n, point.f) + back)
}

/// Counts that the depth may be divided into.
pub fn counts(case: &Case) -> core::ops::RangeInclusive<u32> {
    match case.cut.own.passes {
        Some(k) => k..=k,
        None => 1..=case.most_passes(),
    }
}

/// The class of a point: full chip and fair speed first.
pub fn tier(full: bool, fair: bool) -> u8 {
    match (full, fair) {
        (true, true) => 0,
        (false, true) => 1,
        (true, false) => 2,
        (false, false) => 3,
    }
}

/// What the depth alone decides: the interval of feeds but for wheel and power.
struct Span {
    range: Range,
    thinnest: f64,
    bottom: (Limit, f64),
    top: (Limit, f64),
    easy: f64,
    deep: bool,
}

impl Span {
    fn new(case: &Case, depth: &Depth) -> Self {
        let range = range(case, depth);
        let thinnest = if case.never_thin() { range.low } else { THINNEST * range.low };
        let mut bottom = (Limit::Rubbing, case.least_feed(depth, Threshold::Over));
        let mut top = (Limit::ChipLoad, f64::INFINITY);
        if case.fixed_feed.is_none() && case.asked.chip {
            bottom.1 = bottom.1.max(thinnest / 5.0);
            top.1 = if case.cut.finish { case.high } else { 1.5 * range.high };
        }
        for limit in BY_DEPTH {
            if limit == Limit::Runout && !case.is_small() {
                continue;
            }
            let most = case.greatest_feed(depth, limit, 1.0, Threshold::Over);
            if let Some(most) = most.filter(|f| *f < top.1) {
                top = (limit, most);
            }
        }
        let easy = COMFORT
            .into_iter()
            .filter_map(|limit| case.greatest_feed(depth, limit, 1.0, Threshold::Near))
            .fold(f64::INFINITY, f64::min);
        let deep = depth.share.is_some_and(|share| {
            let within = if case.asked.pack { 1.0 } else { super::threshold::PECK.within };
            share > within * (1.0 + DEPTH_GRACE)
        });
        Self { range, thinnest, bottom, top, easy, deep }
    }
}

/// The limits that are over whatever the feed.
fn constant_over(case: &Case, depth: &Depth, n: f64) -> Vec<Limit> {
    let mut over: Vec<Limit> = case
        .read_constant(depth, n)
        .iter()
        .filter(|m| m.state == State::Over)
        .map(|m| m.limit)
        .collect();
    if case.asked.breakage && case.is_small() {
        let share = case.tir / case.d;
        if super::threshold::RUNOUT_SHARE.state(share) == State::Over {
            over.push(Limit::Runout);
        }
    }
    over
}

/// Searches.
pub fn search(case: &Case) -> Found {
    let brisk = case.cut.style == Style::Brisk;
    let mut best: Option<(Point, f64)> = None;
    let mut offers: Vec<Point> = Vec::new();
    let mut blocks = Blocks::default();
    let mut speeds: (f64, Vec<f64>) = (f64::NAN, Vec::new());

    for k in counts(case) {
        if !brisk && best.is_some_and(|(p, _)| p.tier == 0 && p.comfort == 0) {
            break;
        }
        let depth = case.depth(k);
        let span = Span::new(case, &depth);
        let n_want = case.rpm_for(&depth, case.v_want);
        let n_floor = case.rpm_for(&depth, case.v_floor);
        if speeds.0 != n_want {
            speeds = (n_want, case.speeds(n_want, span.range.low));
        }
        let fastest = speeds.1.first().copied().unwrap_or(0.0);
        for &n in &speeds.1 {
            let over = constant_over(case, &depth, n);
            if !over.is_empty() {
                blocks.constant(&over);
                continue;
            }
            let mut top = span.top;
            for limit in [Limit::Wheel, Limit::Power] {
                let most = case.greatest_feed(&depth, limit, n, Threshold::Over);
                if let Some(most) = most.filter(|f| *f < top.1) {
                    top = (limit, most);
                }
            }
            if span.bottom.1 > top.1 * (1.0 + GRACE) {
                blocks.between(span.bottom, top);
                continue;
            }
            let power =
                case.greatest_feed(&depth, Limit::Power, n, Threshold::Near).unwrap_or(f64::MAX);
            let easy = span.easy.min(power);
            let aim = aim(case, span.range, n);
            let tries: &[f64] = match case.fixed_feed {
                Some(feed) => {
                    if feed > top.1 * (1.0 + GRACE) {
                        blocks.between((Limit::ChipLoad, feed), top);
                        continue;
                    }
                    if feed < span.bottom.1 * (1.0 - GRACE) {
                        blocks.between(span.bottom, (Limit::Rubbing, feed));
                        continue;
                    }
                    &[feed]
                }
                None if !case.asked.chip => &[span.range.low],
                None if brisk => &[span.bottom.1, span.thinnest, span.range.low, top.1],
                None => {
                    &[span.bottom.1, span.thinnest, span.range.low, top.1, aim, easy, aim.min(easy)]
                }
            };
            for &f in tries {
                let held = case.fixed_feed.is_some() || !case.asked.chip;
                if !held && (f < span.bottom.1 || f > top.1) {
                    continue;
                }
                let full = f >= span.range.low * (1.0 - 1e-12);
                if !held && f < span.thinnest * (1.0 - 1e-12) && case.never_thin() {
                    continue;
                }
                let fair = n >= n_floor || n == fastest;
                let thin_allowed = full || f >= span.thinnest * (1.0 - 1e-12);
                let tier = if thin_allowed { tier(full, fair) } else { 3 };
                let comfort = u8::from(span.deep || f > easy * (1.0 + GRACE));
                let point = Point { k, n, f, tier, comfort };
                if brisk {
                    offers.push(point);
                } else {
                    let far = libm::fabs(libm::log(f / aim));
                    let better = best.is_none_or(|(b, b_far)| {
                        (point.tier, point.comfort, point.k)
                            .cmp(&(b.tier, b.comfort, b.k))
                            .then(b.n.total_cmp(&point.n))
                            .then(far.total_cmp(&b_far))
                            .is_lt()
                    });
                    if better {
                        best = Some((point, far));
                    }
                }
            }
            // A slower speed cannot beat a full and comfortable chip at a faster one.
            if !brisk && best.is_some_and(|(p, _)| p.k == k && p.tier == 0 && p.comfort == 0) {
                break;
            }
        }
    }
    if brisk {
        best = quickest(case, &offers).map(|p| (p, 0.0));
    }
    match best {
        Some((point, _)) => Found { point, depth: case.depth(point.k), blocked: None },
        None => least_bad(case, blocks.named()),
    }
}

/// The least time; within two per cent of it fewer passes, then more speed, then more feed.
fn quickest(case: &Case, offers: &[Point]) -> Option<Point> {
    let class = |p: &Point| u8::from(p.tier > 0);
    let first = offers.iter().map(class).min()?;
    let fit = || offers.iter().filter(|p| class(p) == first);
    let least = fit().map(|p| time(case, p)).fold(f64::INFINITY, f64::min);
    fit()
        .filter(|p| time(case, p) <= least * (1.0 + TIME_STEP))
        .min_by(|a, b| a.k.cmp(&b.k).then(b.n.total_cmp(&a.n)).then(b.f.total_cmp(&a.f)))
        .copied()
}

/// The point whose worst limit is least bad, to show under "Do not cut like this".
fn least_bad(case: &Case, blocked: Blocked) -> Found {
    let mut best: Option<(Point, f64)> = None;
    for k in counts(case) {
        let depth = case.depth(k);
        let range = range(case, &depth);
        let f = case.fixed_feed.unwrap_or(range.low);
        for n in case.speeds(case.rpm_for(&depth, case.v_want), range.low) {
            let worst = case.read(&depth, n, f).worst();
            if best.is_none_or(|(_, least)| worst < least * (1.0 - 1e-9)) {
                best = Some((Point { k, n, f, tier: 3, comfort: 1 }, worst));
            }
        }
    }
    let point = best.map_or(Point { k: 1, n: 1.0, f: case.low, tier: 3, comfort: 1 }, |b| b.0);
    Found { point, depth: case.depth(point.k), blocked: Some(blocked) }
}

/// What stood in the way, over all speeds and depths.
#[derive(Default)]
struct Blocks {
    /// Constant limits that were over every time so far.
    always: Option<Vec<Limit>>,
    first: Option<Limit>,
    pair: Option<((Limit, f64), (Limit, f64))>,
}

impl Blocks {
    fn constant(&mut self, over: &[Limit]) {
        self.first = self.first.or(over.first().copied());
        match &mut self.always {
            None => self.always = Some(over.to_vec()),
            Some(always) => always.retain(|l| over.contains(l)),
        }
    }
    fn between(&mut self, bottom: (Limit, f64), top: (Limit, f64)) {
        let ratio = |b: f64, t: f64| if t > 0.0 { b / t } else { f64::INFINITY };
        let closer = self.pair.is_none_or(|(b, t)| ratio(bottom.1, top.1) < ratio(b.1, t.1));
        if closer {
            self.pair = Some((bottom, top));
        }
    }
    fn named(self) -> Blocked {
        match (self.pair, self.always.as_deref(), self.first) {
            (Some((_, (limit, most))), _, _) if most <= 0.0 => Blocked::Alone(limit),
            (Some((at_least, at_most)), _, _) => Blocked::Between { at_least, at_most },
            (None, Some([limit, ..]), _) => Blocked::Alone(*limit),
            (None, _, first) => Blocked::Alone(first.unwrap_or(Limit::Speed)),
        }
    }
}
