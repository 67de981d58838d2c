//! What a search aims at: the range of feeds, and what it costs to leave it.

use core::ops::RangeInclusive;

use super::{
    asked::Divided,
    case::Case,
    curve::Threshold,
    pass::Pass,
    threshold::{Band, DEPTH_GRACE, lever},
};
use crate::engine::{
    answer::Limit,
    cutting::handwheel,
    quantity::{Duration, FeedRate, HandRate, Length, SpindleSpeed},
    question::Operation,
};

/// Thinnest chip as a share of the low end of the range.
const THINNEST: f64 = 0.4;
/// Where in its range a gentle feed aims.
const AIM: f64 = 0.4;
/// How far above its range a feed may go.
const ABOVE: f64 = 1.5;
/// A fuller chip, or comfort, may take so many times the time of what is had without.
pub const PATIENCE: f64 = 2.0;
/// Rounding that may not decide between two points.
const ROUNDING: f64 = 1e-12;
/// Any speed, where a limit does not depend on it.
pub const ANY: SpindleSpeed = SpindleSpeed::ZERO;

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
    /// 0 where every limit that counts for comfort is within; [`Pass::comfort`].
    pub comfort: u8,
}

/// How many times its time a tier is worth avoiding, for a brisk search: a thin chip and a slow
/// spindle are alike to it.
pub fn avoided(tier: u8) -> f64 {
    PATIENCE.powi(i32::from(tier.div_ceil(2)))
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

    /// How uncomfortable a feed is: too deep, or hard on a limit, or neither. A chip under the
    /// thinnest is no comfort, however light on the limits. A peck more is cheap whatever else is
    /// hard, so that the two of them add up in a hole.
    pub fn comfort(&self, range: Range, f: Length, hard: bool) -> u8 {
        let hard = hard || f < self.case.thinnest(range) * (1.0 - ROUNDING);
        let deep = self.is_deep();
        if self.case.divided == Divided::Pecks {
            u8::from(deep) + u8::from(hard)
        } else {
            u8::from(deep || hard)
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
    pub fn fastest_by_hand(&self) -> Duration {
        if self.asked.wheel {
            self.time_of_pass(handwheel::table_feed_by_hand_of(self.hand.near, self.lead))
        } else if self.feeds.kept.is_none() && self.asked.chip {
            self.time_of_pass(lever().near)
        } else {
            Duration::ZERO
        }
    }
}
