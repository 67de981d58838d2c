//! A cut in time: when to turn, when to go back, when to clear, worked out before it begins.
//!
//! Every moment is a product of whole beats and their length, never a sum of them: an hour in, the
//! beat stands where it would have stood at the start. Nothing here knows a clock; the caller
//! says how long ago it began.

mod legs;

use crate::engine::{
    answer::{Answer, Feed, Verdict},
    quantity::{Duration, Length},
};

/// Sources of the delays, of the quickest beat and of the count-in.
pub const SOURCE: &str = "PACE_CP";

/// A hand can follow no quicker beat, and an ear hardly tells one from the next.
#[must_use]
pub fn quickest() -> Duration {
    Duration::second(0.15)
}

/// The shortest and the longest time from the start to the first beat: the way from the screen to
/// the wheel.
#[must_use]
pub fn delays() -> (Duration, Duration) {
    (Duration::second(5.0), Duration::second(30.0))
}

/// The longest rest between two stretches of work.
#[must_use]
pub fn longest_rest() -> Duration {
    Duration::second(120.0)
}

/// The shortest and the longest time of one turn of a tap by hand.
#[must_use]
pub fn tap_turns() -> (Duration, Duration) {
    (Duration::second(1.0), Duration::second(10.0))
}

/// More turns than any tap takes.
pub const MOST_TURNS: f64 = 500.0;

/// A beat is followed best when it comes at least this often.
const SLOWEST: f64 = 3.0;

/// What a beat stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Beat {
    /// One turn of the handwheel.
    Turn,
    /// A tenth of a turn of the handwheel.
    Tenth,
    /// 0.010 in of travel.
    TenThou,
    /// 0.2 mm of travel.
    FifthMm,
    /// 1/8 in of a quill lever.
    Eighth,
    /// One turn of a tap.
    TapTurn,
}

impl Beat {
    /// All of them, the longest first.
    pub const ALL: [Self; 6] =
        [Self::Turn, Self::Eighth, Self::Tenth, Self::TenThou, Self::FifthMm, Self::TapTurn];

    /// How long one is at a feed; `None` where nothing of the kind is turned.
    #[must_use]
    pub fn lasts(self, feed: &Feed) -> Option<Duration> {
        match self {
            Self::Turn => feed.turn_time,
            Self::Tenth => feed.turn_time.map(|turn| turn / 10.0),
            Self::TenThou => Some(Duration(Length::inch(0.010).0 / feed.rate.0)),
            Self::FifthMm => Some(Duration(Length::mm(0.2).0 / feed.rate.0)),
            Self::Eighth => feed.turn_time.is_none().then_some(feed.eighth_time),
            Self::TapTurn => None,
        }
    }
}

/// What a person does for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Work {
    /// Leaves the screen, starts the spindle, takes the wheel.
    GetReady,
    /// Feeds.
    Feed,
    /// Takes the cutter back to the start and sets the next depth.
    GoBack,
    /// Takes the cutter back to the start and over to the next row, at the same depth.
    NextRow,
    /// Pulls the drill out and clears the chips.
    Clear,
    /// Turns a tap in.
    Tap,
}

/// One stretch of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// What is done.
    pub work: Work,
    /// Which pass or peck this is, or leads to, counted from 1, and of how many.
    pub pass: (usize, usize),
    /// What the readout shows at the end of it: the depth of this pass, at the tip of a drill.
    /// `None` for a tap, whose turns are counted.
    pub depth: Option<Length>,
    /// How long; `None` where no length of cut is known: it goes on until it is stopped.
    pub lasts: Option<Duration>,
    /// The length of a beat; `None` where nothing is counted.
    pub beat: Option<Duration>,
    /// How many beats are counted, where that is known: turns of a tap, turns of the wheel.
    pub beats: Option<f64>,
}

/// How a run is paced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// What a beat stands for.
    pub beat: Beat,
    /// From the start to the first beat.
    pub delay: Duration,
    /// For the way back between passes, or for clearing between pecks.
    pub rest: Duration,
}

/// What is heard at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Accent {
    /// Three, two, one before work begins.
    CountIn,
    /// Work begins.
    Begin,
    /// A beat.
    Beat,
    /// A beat that ends a whole turn, where tenths of one are counted.
    Whole,
    /// Work ends.
    End,
}

/// A moment that is heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tick {
    /// Since the run began.
    pub at: Duration,
    /// How it sounds.
    pub accent: Accent,
}

/// Where a run stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// The stretch it is in, counted from 0.
    pub leg: usize,
    /// Since that stretch began.
    pub into: Duration,
    /// Until it ends; `None` where it has no end.
    pub leg_left: Option<Duration>,
    /// Until the run ends; `None` where it has no end.
    pub left: Option<Duration>,
    /// Whole beats behind.
    pub beats: u64,
    /// The part of the present beat that is over, 0 to 1.
    pub sweep: f64,
}

/// Why there is nothing to pace: a sentence and a hint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotPaced {
    /// Nothing is fed by hand to a depth: only a speed is asked, or a tap draws itself in.
    NoFeed,
    /// The cut is over a limit.
    OverLimit,
    /// Nothing of the kind is turned in this cut.
    NoSuchBeat,
    /// The beat is quicker than a hand.
    TooQuick,
    /// A time or a count that cannot be worked with, by its name.
    Unusable(&'static str),
}

impl core::fmt::Display for NotPaced {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let text = match self {
            Self::NoFeed => {
                "Nothing is fed by hand here, so there is nothing to pace. Choose another cut."
            }
            Self::OverLimit => {
                "This cut is over a limit and is not paced. Change what its answer names first."
            }
            Self::NoSuchBeat => "That is not turned in this cut. Choose another beat.",
            Self::TooQuick => "That beat is too quick to follow. Choose a longer one.",
            Self::Unusable(what) => {
                return write!(f, "The {what} cannot be worked with. Choose it again.");
            }
        };
        f.write_str(text)
    }
}

/// A whole run, from the start to its end.
#[derive(Clone, Debug, PartialEq)]
pub struct Pace {
    /// What a beat stands for.
    pub beat: Beat,
    /// The stretches in order. Only the last may be without an end.
    pub legs: Vec<Leg>,
    /// When each begins, in seconds.
    starts: Vec<f64>,
}

/// The beats a hand can follow in this cut, each with its length, the longest first.
#[must_use]
pub fn beats(answer: &Answer) -> Vec<(Beat, Duration)> {
    let (Some(feed), Some(_)) = (&answer.feed, &answer.passes) else { return Vec::new() };
    let mut found: Vec<_> = Beat::ALL
        .into_iter()
        .filter_map(|beat| Some((beat, beat.lasts(feed)?)))
        .filter(|(_, lasts)| lasts.is_positive() && *lasts >= quickest())
        .collect();
    found.sort_by(|a, b| b.1.to_second().total_cmp(&a.1.to_second()));
    found
}

/// The beat that suits a hand: the longest of some that is not too slow, else the quickest. They
/// come as [`beats`] gives them.
#[must_use]
pub fn steadiest(beats: &[(Beat, Duration)]) -> Option<(Beat, Duration)> {
    let steady = beats.iter().find(|(_, lasts)| lasts.to_second() <= SLOWEST);
    steady.or(beats.last()).copied()
}

impl Pace {
    /// The run of an answer.
    ///
    /// Passes follow each other with a rest for the way back, rows of a face within each depth;
    /// pecks with a rest to clear. The time of a pass is its travel over the feed.
    pub fn of(answer: &Answer, choice: Choice) -> Result<Self, NotPaced> {
        if answer.verdict == Verdict::DoNotCut {
            return Err(NotPaced::OverLimit);
        }
        let (Some(feed), Some(passes)) = (&answer.feed, &answer.passes) else {
            return Err(NotPaced::NoFeed);
        };
        let beat = choice.beat.lasts(feed).ok_or(NotPaced::NoSuchBeat)?;
        let rest = legs::usable(choice.rest, Duration::ZERO, longest_rest(), "rest")?;
        let mut run = vec![legs::get_ready(choice.delay)?];
        if passes.pecks {
            legs::peck(&mut run, passes, feed, beat, rest);
        } else {
            legs::mill(&mut run, answer, passes, feed, beat, rest);
        }
        Self::new(choice.beat, run)
    }

    /// A count of turns of a tap by hand, the spindle dead, at a time for each.
    pub fn of_tap_turns(turns: f64, each: Duration, delay: Duration) -> Result<Self, NotPaced> {
        if !(turns.is_finite() && turns > 0.0 && turns <= MOST_TURNS) {
            return Err(NotPaced::Unusable("count of turns"));
        }
        let (least, most) = tap_turns();
        let each = legs::usable(each, least, most, "time of a turn")?;
        Self::new(Beat::TapTurn, vec![legs::get_ready(delay)?, legs::tap(turns, each)])
    }

    fn new(beat: Beat, legs: Vec<Leg>) -> Result<Self, NotPaced> {
        if legs.iter().any(|leg| leg.beat.is_some_and(|beat| beat < quickest())) {
            return Err(NotPaced::TooQuick);
        }
        let mut starts = vec![0.0];
        for leg in &legs {
            let Some(lasts) = leg.lasts else { break };
            starts.push(starts[starts.len() - 1] + lasts.to_second());
        }
        Ok(Self { beat, legs, starts })
    }

    /// How long the whole run takes; `None` where it goes on until it is stopped.
    #[must_use]
    pub fn lasts(&self) -> Option<Duration> {
        let end = self.starts.get(self.legs.len())?;
        Some(Duration::second(*end))
    }

    /// Where the run stands so long after its start; `None` once it is over.
    #[must_use]
    pub fn at(&self, since: Duration) -> Option<Moment> {
        let now = since.to_second().max(0.0);
        let leg = self.starts.partition_point(|start| *start <= now) - 1;
        let here = self.legs.get(leg)?;
        let into = now - self.starts[leg];
        let (beats, sweep) = here.beat.map_or((0, 0.0), |beat| {
            let passed = into / beat.to_second();
            (passed as u64, passed - libm::floor(passed))
        });
        Some(Moment {
            leg,
            into: Duration::second(into),
            leg_left: here.lasts.map(|lasts| lasts - Duration::second(into)),
            left: self.lasts().map(|lasts| lasts - Duration::second(now)),
            beats,
            sweep,
        })
    }

    /// What is heard from a moment on and before another.
    #[must_use]
    pub fn ticks(&self, from: Duration, before: Duration) -> Vec<Tick> {
        let (from, before) = (from.to_second(), before.to_second());
        let mut ticks = Vec::new();
        for (leg, start) in self.legs.iter().zip(&self.starts) {
            if *start >= before {
                break;
            }
            legs::ticks(leg, *start, self.beat, from, before, &mut ticks);
        }
        let end = self.lasts().filter(|end| (from..before).contains(&end.to_second()));
        ticks.extend(end.map(|at| Tick { at, accent: Accent::End }));
        ticks
    }
}
