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

use core::{cmp::Ordering, ops::RangeInclusive};

use super::{
    case::{Case, Divided},
    curve::Threshold,
    pass::Pass,
    threshold::{DEPTH_GRACE, GRACE},
};
use crate::engine::{
    answer::Limit,
    cutting::{feed, handwheel},
    quantity::{Duration, HandRate, Length, SpindleSpeed},
    question::Style,
};

/// Limits whose greatest feed does not depend on the speed.
const BY_DEPTH: [Limit; 6] =
    [Limit::ChipLoad, Limit::Bending, Limit::Breakage, Limit::Climb, Limit::Runout, Limit::Thrust];
/// Limits that count for comfort, besides power and the depth.
const COMFORT: [Limit; 4] = [Limit::Bending, Limit::Breakage, Limit::ChipLoad, Limit::Thrust];
/// Thinnest chip as a share of the low end of the range.
const THINNEST: f64 = 0.4;
/// Where in its range a gentle feed aims.
const AIM: f64 = 0.4;
/// How far above its range a feed may go.
const ABOVE: f64 = 1.5;
/// Times closer than this count as equal.
const TIME_STEP: f64 = 0.02;
/// Rounding that may not decide between two points.
const ROUNDING: f64 = 1e-12;
/// Any speed, where a limit does not depend on it.
const ANY: SpindleSpeed = SpindleSpeed::ZERO;

/// A point of the search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Number of passes.
    pub count: u32,
    pub n: SpindleSpeed,
    /// Feed per tooth or turn.
    pub f: Length,
    pub tier: u8,
    /// 0 where every limit that counts for comfort is within.
    pub comfort: u8,
}

/// The class of a point: 0 full chip at a fair speed, 1 thin chip, 2 slow, 3 worse.
pub fn tier(full: bool, fair: bool) -> u8 {
    match (full, fair) {
        (true, true) => 0,
        (false, true) => 1,
        (true, false) => 2,
        (false, false) => 3,
    }
}

/// Why a search found nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Blocked {
    /// Over at every speed and depth.
    Alone(Limit),
    /// Feed wanted at least, feed allowed at most.
    Between { at_least: (Limit, Length), at_most: (Limit, Length) },
}

/// What a search found.
#[derive(Clone, Debug)]
pub struct Found<'c> {
    pub point: Point,
    pub pass: Pass<'c>,
    /// Why the point is not feasible; it is then the least bad one.
    pub blocked: Option<Blocked>,
}

/// The range aimed at, thin-chip rule applied.
#[derive(Clone, Copy, Debug)]
pub struct Range {
    pub low: Length,
    pub high: Length,
    /// Factor of the thin-chip rule.
    pub thin: f64,
}

impl Range {
    /// Where a gentle feed aims if nothing holds it down.
    pub fn target(&self) -> Length {
        self.low + (self.high - self.low) * AIM
    }
}

impl Pass<'_> {
    /// The range aimed at.
    pub fn range(&self) -> Range {
        let (thin, feeds) = (self.thin(), &self.case.feeds);
        Range { low: feeds.low * thin, high: feeds.high * thin, thin }
    }

    /// The feed a gentle answer aims at: not so fast that the wheel is uncomfortable while the
    /// chip stays full.
    pub fn aim(&self, range: Range, n: SpindleSpeed) -> Length {
        let case = self.case;
        if !case.asked.wheel {
            return range.target();
        }
        let rate = handwheel::table_feed_by_hand_of(case.hand.within, case.lead);
        let easy = feed::feed_per_turn_of(rate, n) / case.feeds.teeth;
        range.target().min(range.low.max(easy))
    }

    /// Highest feed the search proposes of its own.
    pub fn highest(&self, range: Range) -> Length {
        if self.case.cut.finish { self.case.feeds.high } else { range.high * ABOVE }
    }
}

impl Case<'_> {
    /// Thinnest chip the search proposes while there is another way.
    pub fn thinnest(&self, range: Range) -> Length {
        if self.never_thin() { range.low } else { range.low * THINNEST }
    }

    /// Numbers of passes that are worth trying.
    pub fn counts(&self) -> RangeInclusive<u32> {
        match self.cut.own.passes {
            Some(count) => count..=count,
            None => 1..=self.most_passes(),
        }
    }

    /// Time for an inch of length: passes, their feed and the return by hand at a turn a second.
    pub fn time(&self, point: &Point) -> Duration {
        let inch = Length::inch(1.0);
        let one = handwheel::travel_time_of(inch, self.rate(point.n, point.f));
        let back = if matches!(self.divided, Divided::Pecks | Divided::Whole) {
            Duration::ZERO
        } else {
            let rate = handwheel::table_feed_by_hand_of(HandRate::turns_per_min(60.0), self.lead);
            handwheel::travel_time_of(inch, rate)
        };
        (one + back) * f64::from(point.count)
    }
}

/// What the depth alone decides: the interval of feeds but for wheel and power.
struct Span {
    range: Range,
    thinnest: Length,
    bottom: (Limit, Length),
    top: (Limit, Length),
    easy: Length,
    deep: bool,
}

impl Span {
    fn new(pass: &Pass) -> Self {
        let case = pass.case;
        let range = pass.range();
        let thinnest = case.thinnest(range);
        let mut bottom = (Limit::Rubbing, pass.least_feed(Threshold::Over));
        let mut top = (Limit::ChipLoad, Length::mm(f64::INFINITY));
        if case.feeds.kept.is_none() && case.asked.chip {
            bottom.1 = bottom.1.max(thinnest / 5.0);
            top.1 = pass.highest(range);
        }
        for limit in BY_DEPTH {
            if limit == Limit::Runout && !case.is_small() {
                continue;
            }
            if let Some(most) = pass.greatest_feed(limit, ANY, Threshold::Over) {
                lower(&mut top, limit, most);
            }
        }
        let easy = COMFORT
            .into_iter()
            .filter_map(|limit| pass.greatest_feed(limit, ANY, Threshold::Near))
            .fold(Length::mm(f64::INFINITY), Length::min);
        let deep =
            pass.packing.is_some_and(|(depth, band)| depth > band.within * (1.0 + DEPTH_GRACE));
        Self { range, thinnest, bottom, top, easy, deep }
    }

    /// The greatest feed at a speed, with the limit that sets it.
    fn top_at(&self, pass: &Pass, n: SpindleSpeed) -> (Limit, Length) {
        let mut top = self.top;
        for limit in [Limit::Wheel, Limit::Power] {
            if let Some(most) = pass.greatest_feed(limit, n, Threshold::Over) {
                lower(&mut top, limit, most);
            }
        }
        top
    }

    /// The greatest feed at a speed that is comfortable.
    fn easy_at(&self, pass: &Pass, n: SpindleSpeed) -> Length {
        match pass.greatest_feed(Limit::Power, n, Threshold::Near) {
            Some(power) => self.easy.min(power),
            None => self.easy,
        }
    }
}

fn lower(top: &mut (Limit, Length), limit: Limit, most: Length) {
    if most < top.1 {
        *top = (limit, most);
    }
}

/// Feeds to try, and whether they are kept whatever the range.
struct Tries {
    feeds: [Length; 7],
    count: usize,
    kept: bool,
}

/// Searches.
pub fn search<'c>(case: &'c Case<'c>) -> Found<'c> {
    let mut search = Search::new(case);
    for count in case.counts() {
        if search.is_settled() {
            break;
        }
        search.pass(&case.pass(count));
    }
    match search.best() {
        Some(point) => Found { point, pass: case.pass(point.count), blocked: None },
        None => least_bad(case, search.blocks.named()),
    }
}

struct Search<'c> {
    case: &'c Case<'c>,
    brisk: bool,
    /// The best gentle point, and how far its feed is from the aim.
    gentlest: Option<(Point, f64)>,
    /// Everything a brisk search may choose from.
    offers: Vec<Point>,
    blocks: Blocks,
    /// The speeds of the last pass, for the speed that was wanted in it.
    speeds: (SpindleSpeed, Vec<SpindleSpeed>),
}

impl<'c> Search<'c> {
    fn new(case: &'c Case<'c>) -> Self {
        Self {
            case,
            brisk: case.cut.style == Style::Brisk,
            gentlest: None,
            offers: Vec::new(),
            blocks: Blocks::default(),
            speeds: (SpindleSpeed::rpm(-1.0), Vec::new()),
        }
    }

    /// More passes only cost once a full chip is comfortable.
    fn is_settled(&self) -> bool {
        !self.brisk && self.gentlest.is_some_and(|(p, _)| p.tier == 0 && p.comfort == 0)
    }

    fn best(&self) -> Option<Point> {
        if self.brisk { quickest(self.case, &self.offers) } else { self.gentlest.map(|g| g.0) }
    }

    /// Tries every speed of a pass.
    fn pass(&mut self, pass: &Pass) {
        let span = Span::new(pass);
        let (wanted, slowest) = (pass.wanted(), pass.slowest());
        if self.speeds.0 != wanted {
            self.speeds = (wanted, self.case.speeds(wanted, span.range.low));
        }
        let fastest = self.speeds.1.first().copied().unwrap_or(SpindleSpeed::ZERO);
        for i in 0..self.speeds.1.len() {
            let n = self.speeds.1[i];
            let over = LimitSet::from(pass.over_whatever_feed(n));
            if over.is_empty() {
                self.speed(pass, &span, n, n >= slowest || n == fastest);
            } else {
                self.blocks.constant(over);
            }
            // A slower speed cannot beat a full and comfortable chip at a faster one.
            if self.is_settled() {
                break;
            }
        }
    }

    /// Tries the feeds of a pass at a speed.
    fn speed(&mut self, pass: &Pass, span: &Span, n: SpindleSpeed, fair: bool) {
        let top = span.top_at(pass, n);
        if span.bottom.1 > top.1 * (1.0 + GRACE) {
            self.blocks.between(span.bottom, top);
            return;
        }
        let easy = span.easy_at(pass, n);
        let aim = pass.aim(span.range, n);
        let Some(tries) = self.tries(span, top, easy, aim) else { return };
        for &f in &tries.feeds[..tries.count] {
            if !tries.kept && (f < span.bottom.1 || f > top.1) {
                continue;
            }
            let full = f >= span.range.low * (1.0 - ROUNDING);
            let thick = f >= span.thinnest * (1.0 - ROUNDING);
            if !tries.kept && !thick && self.case.never_thin() {
                continue;
            }
            let tier = if thick { tier(full, fair) } else { 3 };
            let comfort = u8::from(span.deep || f > easy * (1.0 + GRACE));
            self.offer(Point { count: pass.count, n, f, tier, comfort }, aim);
        }
    }

    /// The feeds worth trying; `None` where a kept feed is not allowed.
    fn tries(
        &mut self,
        span: &Span,
        top: (Limit, Length),
        easy: Length,
        aim: Length,
    ) -> Option<Tries> {
        let none = Length::ZERO;
        if let Some(feed) = self.case.feeds.kept {
            if feed > top.1 * (1.0 + GRACE) {
                self.blocks.between((Limit::ChipLoad, feed), top);
                return None;
            }
            if feed < span.bottom.1 * (1.0 - GRACE) {
                self.blocks.between(span.bottom, (Limit::Rubbing, feed));
                return None;
            }
            return Some(Tries {
                feeds: [feed, none, none, none, none, none, none],
                count: 1,
                kept: true,
            });
        }
        if !self.case.asked.chip {
            let feeds = [span.range.low, none, none, none, none, none, none];
            return Some(Tries { feeds, count: 1, kept: true });
        }
        let feeds = [span.bottom.1, span.thinnest, span.range.low, top.1, aim, easy, aim.min(easy)];
        Some(Tries { feeds, count: if self.brisk { 4 } else { 7 }, kept: false })
    }

    fn offer(&mut self, point: Point, aim: Length) {
        if self.brisk {
            self.offers.push(point);
            return;
        }
        let far = libm::fabs(libm::log(point.f / aim));
        let better = self.gentlest.is_none_or(|(best, best_far)| {
            (point.tier, point.comfort, point.count)
                .cmp(&(best.tier, best.comfort, best.count))
                .then(faster(&point, &best))
                .then(far.total_cmp(&best_far))
                .is_lt()
        });
        if better {
            self.gentlest = Some((point, far));
        }
    }
}

/// The faster spindle first.
fn faster(a: &Point, b: &Point) -> Ordering {
    b.n.to_rpm().total_cmp(&a.n.to_rpm())
}

/// The least time; within two per cent of it fewer passes, then more speed, then more feed.
fn quickest(case: &Case, offers: &[Point]) -> Option<Point> {
    let class = |p: &Point| u8::from(p.tier > 0);
    let first = offers.iter().map(class).min()?;
    let fit = || offers.iter().filter(|p| class(p) == first);
    let least = fit().map(|p| case.time(p)).reduce(Duration::min)?;
    fit()
        .filter(|p| case.time(p) <= least * (1.0 + TIME_STEP))
        .min_by(|a, b| {
            let feed = b.f.to_mm().total_cmp(&a.f.to_mm());
            a.count.cmp(&b.count).then(faster(a, b)).then(feed)
        })
        .copied()
}

/// The point whose worst limit is least bad, to show under "Do not cut like this".
fn least_bad<'c>(case: &'c Case<'c>, blocked: Blocked) -> Found<'c> {
    let mut best: Option<(Point, f64)> = None;
    for count in case.counts() {
        let pass = case.pass(count);
        let range = pass.range();
        let f = case.feeds.kept.unwrap_or(range.low);
        for n in case.speeds(pass.wanted(), range.low) {
            let worst = pass.read(n, f).worst();
            if best.is_none_or(|(_, least)| worst < least * (1.0 - 1e-9)) {
                best = Some((Point { count, n, f, tier: 3, comfort: 1 }, worst));
            }
        }
    }
    let none =
        Point { count: 1, n: SpindleSpeed::rpm(1.0), f: case.feeds.low, tier: 3, comfort: 1 };
    let point = best.map_or(none, |b| b.0);
    Found { point, pass: case.pass(point.count), blocked: Some(blocked) }
}

/// A set of limits.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct LimitSet(u16);

impl LimitSet {
    fn from(limits: impl Iterator<Item = Limit>) -> Self {
        Self(limits.fold(0, |set, limit| set | 1 << limit as u16))
    }
    fn is_empty(self) -> bool {
        self.0 == 0
    }
    fn both(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
    /// The first in the order of the table.
    fn first(self) -> Option<Limit> {
        super::threshold::TABLE.iter().map(|row| row.limit).find(|l| self.0 & 1 << *l as u16 != 0)
    }
}

/// What stood in the way, over all speeds and depths.
#[derive(Default)]
struct Blocks {
    /// Constant limits that were over every time so far.
    always: Option<LimitSet>,
    first: Option<Limit>,
    pair: Option<((Limit, Length), (Limit, Length))>,
}

impl Blocks {
    fn constant(&mut self, over: LimitSet) {
        self.first = self.first.or(over.first());
        self.always = Some(self.always.map_or(over, |always| always.both(over)));
    }

    fn between(&mut self, bottom: (Limit, Length), top: (Limit, Length)) {
        let ratio = |b: Length, t: Length| if t > Length::ZERO { b / t } else { f64::INFINITY };
        let closer = self.pair.is_none_or(|(b, t)| ratio(bottom.1, top.1) < ratio(b.1, t.1));
        if closer {
            self.pair = Some((bottom, top));
        }
    }

    fn named(&self) -> Blocked {
        if let Some((at_least, at_most)) = self.pair {
            if at_most.1 <= Length::ZERO {
                return Blocked::Alone(at_most.0);
            }
            return Blocked::Between { at_least, at_most };
        }
        let always = self.always.and_then(LimitSet::first);
        Blocked::Alone(always.or(self.first).unwrap_or(Limit::Speed))
    }
}
