//! The search for spindle speed, passes and feed.
//!
//! For a given speed and number of passes every limit but rubbing allows feeds up to a value, and
//! rubbing from a value on, each in closed form: the allowed feeds are one interval. The search
//! walks passes and speeds and tries a handful of feeds in each interval.
//!
//! Gently, it prefers in this order: a full chip, limits that are comfortable, fewer passes, a
//! faster spindle, a feed near the aim; but not more than a dozen passes where fewer take less than
//! half the time. Briskly: least time, a thin chip or a slow spindle counting double, and within two
//! per cent of that the fuller chip and the fewer passes. The order of giving up follows: depth is
//! divided before the feed leaves its comfortable band, the feed falls to the low end of its range
//! before the speed falls, and the speed falls before the chip gets thinner than that range.

use core::{cmp::Ordering, ops::RangeInclusive};

use super::{
    case::{Case, Divided},
    curve::Threshold,
    pass::Pass,
    threshold::{Band, DEPTH_GRACE, GRACE, lever},
};
use crate::engine::{
    answer::Limit,
    cutting::handwheel,
    quantity::{Duration, FeedRate, HandRate, Length, SpindleSpeed},
    question::{Operation, Style},
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
/// More passes than this are only worth their comfort within [`PATIENCE`].
const DOZEN: u32 = 12;
/// A fuller chip, or comfort, may take so many times the time of what is had without.
const PATIENCE: f64 = 2.0;
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
    /// 0 full chip at a fair speed, 1 thin chip, 2 slow, 3 worse; [`Pass::tier`].
    pub tier: u8,
    /// 0 where every limit that counts for comfort is within; [`Case::comfort`].
    pub comfort: u8,
}

/// How many times its time a tier is worth avoiding, for a brisk search: a thin chip and a slow
/// spindle are alike to it.
fn avoided(tier: u8) -> f64 {
    PATIENCE.powi(i32::from(tier.div_ceil(2)))
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
        match self.greatest_by_hand(n, Threshold::Near) {
            Some(easy) => range.target().min(range.low.max(easy)),
            None => range.target(),
        }
    }

    /// Greatest feed by the wheel or the quill lever.
    pub fn greatest_by_hand(&self, n: SpindleSpeed, at: Threshold) -> Option<Length> {
        self.greatest_feed(Limit::Wheel, n, at).or_else(|| self.greatest_by_lever(n, at))
    }

    /// How far a feed gives up the chip that is aimed at, and the spindle its speed.
    pub fn tier(&self, range: Range, f: Length, fair: bool) -> u8 {
        let full = f >= range.low * (1.0 - ROUNDING);
        let thick = f >= self.case.thinnest(range) * (1.0 - ROUNDING);
        match (full, fair) {
            _ if !thick => 3,
            (true, true) => 0,
            (false, true) => 1,
            (true, false) => 2,
            (false, false) => 3,
        }
    }

    /// Lowest feed the search proposes of its own: far under the thinnest in need, but never where
    /// the chip may not be thinner.
    pub fn lowest(&self, range: Range) -> Length {
        let thinnest = self.case.thinnest(range);
        if self.case.never_thin() { thinnest } else { thinnest / 5.0 }
    }

    /// Deeper than chips come out of easily. The thin chips of a finishing pass always do.
    pub fn is_deep(&self) -> bool {
        let packs =
            |(depth, band): (Length, Band<Length>)| depth > band.within * (1.0 + DEPTH_GRACE);
        !self.case.cut.finish && self.packing.is_some_and(packs)
    }

    /// Highest feed the search proposes of its own. A reamer finishes whatever it cuts.
    pub fn highest(&self, range: Range) -> Length {
        let finishes = self.case.cut.finish || self.case.cut.operation == Operation::Ream;
        let most = if finishes { self.case.feeds.high } else { range.high * ABOVE };
        if self.case.is_small() {
            return most;
        }
        // Small cutters are refused for their runout; a larger one is not made to run out worse
        // than its range needs.
        match self.greatest_feed(Limit::Runout, ANY, Threshold::Over) {
            Some(even) if even >= range.low => most.min(even),
            _ => most,
        }
    }
}

impl Case<'_> {
    /// Thinnest feed the search proposes while there is another way; the table's own low end, thin
    /// cut or not, where the chip may never be thinner.
    pub fn thinnest(&self, range: Range) -> Length {
        if self.never_thin() { self.feeds.low } else { range.low * THINNEST }
    }

    /// How uncomfortable a point is: too deep, or hard on a limit, or neither. A peck more is cheap
    /// whatever else is hard, so that the two of them add up in a hole.
    pub fn comfort(&self, deep: bool, hard: bool) -> u8 {
        if self.divided == Divided::Pecks {
            u8::from(deep) + u8::from(hard)
        } else {
            u8::from(deep || hard)
        }
    }

    /// Numbers of passes that are worth trying.
    pub fn counts(&self) -> RangeInclusive<u32> {
        match self.own_passes() {
            Some(count) => count..=count,
            None => 1..=self.most_passes(),
        }
    }

    /// Time for an inch of length: passes, their feed and the return by hand.
    pub fn time(&self, point: &Point) -> Duration {
        self.time_of_pass(self.rate(point.n, point.f)) * f64::from(point.count)
    }

    /// What a brisk search keeps low: time, the chip that is given up for it priced in.
    pub fn price(&self, point: &Point) -> Duration {
        self.time(point) * avoided(point.tier)
    }

    /// An inch under feed, and back at a turn of the wheel a second; pecks do not go back.
    fn time_of_pass(&self, rate: FeedRate) -> Duration {
        let inch = Length::inch(1.0);
        let feeding = handwheel::travel_time_of(inch, rate);
        if matches!(self.divided, Divided::Pecks | Divided::Whole) {
            return feeding;
        }
        let back = handwheel::table_feed_by_hand_of(HandRate::turns_per_min(60.0), self.lead);
        feeding + handwheel::travel_time_of(inch, back)
    }

    /// The least time of a pass by hand; nothing where a kept feed is held to no hand.
    fn fastest_by_hand(&self) -> Duration {
        if self.asked.wheel {
            self.time_of_pass(handwheel::table_feed_by_hand_of(self.hand.near, self.lead))
        } else if self.feeds.kept.is_none() && self.asked.chip {
            self.time_of_pass(lever().near)
        } else {
            Duration::ZERO
        }
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
            bottom.1 = bottom.1.max(pass.lowest(range));
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
        let deep = pass.is_deep();
        Self { range, thinnest, bottom, top, easy, deep }
    }

    /// The greatest feed at a speed, with the limit that sets it.
    fn top_at(&self, pass: &Pass, n: SpindleSpeed) -> (Limit, Length) {
        let mut top = self.top;
        if let Some(most) = pass.greatest_feed(Limit::Power, n, Threshold::Over) {
            lower(&mut top, Limit::Power, most);
        }
        let kept = pass.case.feeds.kept.is_some();
        // What is typed is held to the limits only, and the lever is none.
        let hand = if kept {
            pass.greatest_feed(Limit::Wheel, n, Threshold::Over)
        } else {
            pass.greatest_by_hand(n, Threshold::Over)
        };
        if let Some(most) = hand {
            lower(&mut top, Limit::Wheel, most);
        }
        top
    }

    /// A feed as a point: how full its chip is, and how comfortable the limits.
    fn point(&self, pass: &Pass, n: SpindleSpeed, f: Length, fair: bool, easy: Length) -> Point {
        let comfort = pass.case.comfort(self.deep, f > easy * (1.0 + GRACE));
        Point { count: pass.count, n, f, tier: pass.tier(self.range, f, fair), comfort }
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

/// Searches.
pub fn search<'c>(case: &'c Case<'c>) -> Found<'c> {
    let mut search = Search::new(case);
    for count in case.counts() {
        if search.is_settled(count) {
            break;
        }
        search.pass(&case.pass(count));
    }
    let (point, blocked) = match search.best() {
        Some(point) => (point, None),
        None => {
            let (point, blocked) = search.blocks.named(case);
            (point, Some(blocked))
        }
    };
    Found { point, pass: case.pass(point.count), blocked }
}

struct Search<'c> {
    case: &'c Case<'c>,
    brisk: bool,
    /// The best gentle point, and how many times its feed is off the aim.
    gentlest: Option<(Point, f64)>,
    /// The same among no more than a dozen passes.
    among_few: Option<(Point, f64)>,
    /// Everything a brisk search may choose from.
    offers: Vec<Point>,
    /// The least price among them.
    least: Option<Duration>,
    /// The least time a hand needs for one pass.
    fastest: Duration,
    blocks: Blocks,
    /// The speeds of the last pass, for the speed that was wanted in it.
    speeds: (SpindleSpeed, Vec<SpindleSpeed>),
    /// The best tier at any of them.
    ideal: u8,
}

impl<'c> Search<'c> {
    fn new(case: &'c Case<'c>) -> Self {
        Self {
            case,
            brisk: case.cut.style == Style::Brisk,
            gentlest: None,
            among_few: None,
            offers: Vec::new(),
            least: None,
            fastest: case.fastest_by_hand(),
            blocks: Blocks::default(),
            speeds: (SpindleSpeed::rpm(-1.0), Vec::new()),
            ideal: 0,
        }
    }

    /// Nothing better can come: the best tier that a hand allows is comfortable, or, briskly, no
    /// hand does so many passes at the price already found.
    fn is_settled(&self, count: u32) -> bool {
        if self.brisk {
            let fastest = self.fastest * (f64::from(count) * avoided(self.ideal));
            return self.least.is_some_and(|least| fastest > least * (1.0 + TIME_STEP));
        }
        self.gentlest.is_some_and(|(p, _)| p.tier <= self.ideal && p.comfort == 0)
    }

    /// Where the best tier is had already, more passes have to bring its comfort.
    fn cannot_be_gentler(&self, span: &Span) -> bool {
        let least = match self.ideal {
            0 | 2 => span.range.low,
            1 => span.thinnest,
            _ => span.bottom.1,
        };
        let comfortable = !span.deep && span.easy * (1.0 + GRACE) >= least;
        !comfortable && self.gentlest.is_some_and(|(p, _)| p.tier <= self.ideal && p.comfort <= 1)
    }

    /// The best tier at any of the speeds if nothing but the hand held the feed down.
    fn ideal_tier(&self, pass: &Pass, range: Range) -> u8 {
        let (slowest, fastest) = (pass.slowest(), self.speeds.1.first());
        let tier = |n: &SpindleSpeed| {
            let most = pass.greatest_by_hand(*n, Threshold::Over);
            let most = most.map_or(pass.highest(range), |by_hand| by_hand.min(pass.highest(range)));
            let f = self.case.feeds.kept.unwrap_or(most);
            pass.tier(range, f, *n >= slowest || Some(n) == fastest)
        };
        self.speeds.1.iter().map(tier).min().unwrap_or(0)
    }

    fn best(&self) -> Option<Point> {
        if self.brisk {
            return quickest(self.case, &self.offers);
        }
        let gentlest = self.gentlest?.0;
        let few = self.among_few.map(|g| g.0);
        let worth = |few: &Point| self.case.time(few) * PATIENCE < self.case.time(&gentlest);
        Some(few.filter(worth).unwrap_or(gentlest))
    }

    /// Tries every speed of a pass.
    fn pass(&mut self, pass: &Pass) {
        let span = Span::new(pass);
        if self.cannot_be_gentler(&span) {
            return;
        }
        let (wanted, slowest) = (pass.wanted(), pass.slowest());
        if self.speeds.0 != wanted {
            self.speeds = (wanted, self.case.speeds(wanted, span.range.low));
            self.ideal = self.ideal_tier(pass, span.range);
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
            if self.is_settled(pass.count) {
                break;
            }
        }
    }

    /// Tries the feeds of a pass at a speed.
    fn speed(&mut self, pass: &Pass, span: &Span, n: SpindleSpeed, fair: bool) {
        let top = span.top_at(pass, n);
        let easy = span.easy_at(pass, n);
        let aim = pass.aim(span.range, n);
        let (bottom, low) = (span.bottom.1, span.range.low);
        if let Some(feed) = self.case.feeds.kept {
            match pass.read(n, feed).stopping(self.case) {
                Some(Limit::Rubbing) => {
                    self.blocks.between(pass, n, span.bottom, (Limit::Rubbing, feed));
                }
                Some(_) => self.blocks.between(pass, n, (top.0, feed), top),
                None => self.offer(span.point(pass, n, feed, fair, easy), aim),
            }
        } else if !self.case.asked.chip {
            self.offer(span.point(pass, n, low, fair, easy), aim);
        } else if bottom > top.1 {
            // Ends that cross by no more than the grace leave their middle.
            let pinch = Pinch { count: pass.count, n, at_least: span.bottom, at_most: top };
            let f = pinch.middle();
            if pinch.ratio() < 1.0 + 4.0 * GRACE && pass.read(n, f).stopping(self.case).is_none() {
                self.offer(span.point(pass, n, f, fair, easy), aim);
            } else {
                self.blocks.between(pass, n, span.bottom, top);
            }
        } else {
            let tries = [bottom, span.thinnest, low, top.1, aim, easy, aim.min(easy)];
            let tries = if self.brisk { &tries[..4] } else { &tries };
            for &f in tries.iter().filter(|f| **f >= bottom && **f <= top.1) {
                self.offer(span.point(pass, n, f, fair, easy), aim);
            }
        }
    }

    fn offer(&mut self, point: Point, aim: Length) {
        if self.brisk {
            self.offers.push(point);
            let price = self.case.price(&point);
            self.least = Some(self.least.map_or(price, |least| least.min(price)));
            return;
        }
        let far = (point.f / aim).max(aim / point.f);
        if point.count <= DOZEN {
            keep_gentler(&mut self.among_few, point, far);
        }
        keep_gentler(&mut self.gentlest, point, far);
    }
}

/// A fuller chip, then comfort, fewer passes, a faster spindle, a feed nearer the aim.
fn keep_gentler(best: &mut Option<(Point, f64)>, point: Point, far: f64) {
    let better = best.is_none_or(|(best, best_far)| {
        (point.tier, point.comfort, point.count)
            .cmp(&(best.tier, best.comfort, best.count))
            .then(faster(&point, &best))
            .then(far.total_cmp(&best_far))
            .is_lt()
    });
    if better {
        *best = Some((point, far));
    }
}

/// The faster spindle first.
fn faster(a: &Point, b: &Point) -> Ordering {
    b.n.to_rpm().total_cmp(&a.n.to_rpm())
}

/// The least price; within two per cent of it the fuller chip, fewer passes, more speed, more feed.
fn quickest(case: &Case, offers: &[Point]) -> Option<Point> {
    let least = offers.iter().map(|p| case.price(p)).reduce(Duration::min)?;
    offers
        .iter()
        .filter(|p| case.price(p) <= least * (1.0 + TIME_STEP))
        .min_by(|a, b| {
            let feed = b.f.to_mm().total_cmp(&a.f.to_mm());
            (a.tier, a.count).cmp(&(b.tier, b.count)).then(faster(a, b)).then(feed)
        })
        .copied()
}

/// The point whose worst limit is least bad where some are over whatever the feed, to show under
/// "Do not cut like this".
fn least_bad(case: &Case) -> Point {
    let f = |range: Range| case.feeds.kept.unwrap_or(range.low);
    let first = case.pass(*case.counts().start());
    let none = Point { count: 1, n: first.wanted(), f: f(first.range()), tier: 3, comfort: 1 };
    let mut best = (none, f64::INFINITY);
    for count in case.counts() {
        let pass = case.pass(count);
        let range = pass.range();
        for n in case.speeds(pass.wanted(), range.low) {
            let point = Point { count, n, f: f(range), ..none };
            let worst = pass.read(n, point.f).worst();
            if worst < best.1 * (1.0 - 1e-9) {
                best = (point, worst);
            }
        }
    }
    best.0
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
    pair: Option<Pinch>,
}

/// A point where the feed wanted at least is above the feed allowed at most.
struct Pinch {
    count: u32,
    n: SpindleSpeed,
    at_least: (Limit, Length),
    at_most: (Limit, Length),
}

impl Pinch {
    fn ratio(&self) -> f64 {
        let most = self.at_most.1;
        if most > Length::ZERO { self.at_least.1 / most } else { f64::INFINITY }
    }

    /// Where neither limit is far over.
    fn middle(&self) -> Length {
        if self.at_most.1 > Length::ZERO {
            self.at_least.1 * (1.0 / self.ratio().sqrt())
        } else {
            self.at_least.1
        }
    }
}

impl Blocks {
    fn constant(&mut self, over: LimitSet) {
        self.first = self.first.or(over.first());
        self.always = Some(self.always.map_or(over, |always| always.both(over)));
    }

    fn between(
        &mut self,
        pass: &Pass,
        n: SpindleSpeed,
        at_least: (Limit, Length),
        at_most: (Limit, Length),
    ) {
        let pinch = Pinch { count: pass.count, n, at_least, at_most };
        if self.pair.as_ref().is_none_or(|pair| pinch.ratio() < pair.ratio()) {
            self.pair = Some(pinch);
        }
    }

    /// The least bad point, and the limit or the pair that leaves nothing better.
    fn named(&self, case: &Case) -> (Point, Blocked) {
        let Some(pinch) = &self.pair else {
            let always = self.always.and_then(LimitSet::first);
            let limit = always.or(self.first).unwrap_or(Limit::Speed);
            return (least_bad(case), Blocked::Alone(limit));
        };
        let &Pinch { at_least, at_most, .. } = pinch;
        // A feed that is kept has no other limit to leave room for.
        let alone = at_most.1 <= Length::ZERO || at_most.0 == at_least.0;
        let blocked =
            if alone { Blocked::Alone(at_most.0) } else { Blocked::Between { at_least, at_most } };
        let f = case.feeds.kept.unwrap_or_else(|| pinch.middle());
        (Point { count: pinch.count, n: pinch.n, f, tier: 3, comfort: 1 }, blocked)
    }
}
