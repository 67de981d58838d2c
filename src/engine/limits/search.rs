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

use core::cmp::Ordering;

use super::{
    aim::{ANY, PATIENCE, Point, Range, avoided},
    blocked::{Blocked, Blocks, LimitSet, Pinch},
    case::Case,
    curve::Threshold,
    pass::Pass,
    threshold::GRACE,
};
use crate::engine::{
    answer::Limit,
    quantity::{Duration, Length, SpindleSpeed},
    question::Style,
};

/// Limits whose greatest feed does not depend on the speed.
const BY_DEPTH: [Limit; 6] =
    [Limit::ChipLoad, Limit::Bending, Limit::Breakage, Limit::Climb, Limit::Runout, Limit::Thrust];
/// Limits that count for comfort, besides power and the depth.
const COMFORT: [Limit; 4] = [Limit::Bending, Limit::Breakage, Limit::ChipLoad, Limit::Thrust];
/// More passes than this are only worth their comfort within [`PATIENCE`].
const DOZEN: u32 = 12;
/// Ends that cross by more than this leave no middle, whatever the grace.
const CLOSE: f64 = 1.1;
/// Times closer than this count as equal.
const TIME_STEP: f64 = 0.02;

/// What a search found.
#[derive(Clone, Debug)]
pub struct Found<'c> {
    pub point: Point,
    pub pass: Pass<'c>,
    /// Why the point is not feasible; it is then the least bad one.
    pub blocked: Option<Blocked>,
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
        let comfort = pass.comfort(self.range, f, f > easy * (1.0 + GRACE));
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
            _ => span.thinnest,
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
            if pinch.ratio() < CLOSE && pass.read(n, f).stopping(self.case).is_none() {
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
