//! The answer: what to set, how to turn the wheel, what holds it back, and why.
//!
//! An answer is data. Words, colours and pictures are made of it elsewhere.

use crate::engine::{
    quantity::{Duration, FeedRate, HandRate, Length, SpindleSpeed, SurfaceSpeed, value::Value},
    stock::Refused,
};

/// One cause that can hold a cut back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Limit {
    /// The edge burns.
    Speed,
    /// A one-tooth head throws its bit, an edge finder its tip.
    BodyCap,
    /// The chip is too thin: the edge rubs.
    Rubbing,
    /// The chip is too thick for the tooth.
    ChipLoad,
    /// The hand cannot turn the wheel that fast.
    Wheel,
    /// The spindle stalls.
    Power,
    /// Cutter and machine give way.
    Bending,
    /// The cutter snaps.
    Breakage,
    /// The cutter wobbles: one tooth does the work.
    Runout,
    /// The cutter pulls the table through its backlash.
    Climb,
    /// Chips pack.
    Depth,
    /// The hand or the quill cannot push that hard.
    Thrust,
}

/// How a limit stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Well inside.
    Within,
    /// Between good practice and trouble.
    Near,
    /// Trouble.
    Over,
}

/// One limit, read off for this cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Which limit.
    pub limit: Limit,
    /// 0 to 1 within, 1 to 2 near, above 2 over; linear between the thresholds.
    pub utilisation: f64,
    /// How it stands.
    pub state: State,
    /// The quantity compared.
    pub value: Value,
    /// Where it begins to be near.
    pub near_at: Value,
    /// Where it is over.
    pub over_at: Value,
    /// How the value was worked out.
    pub working: Vec<Step>,
    /// Tags of the sources of formula and thresholds.
    pub sources: &'static str,
}

/// One line of working: a formula, what was put in, what came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is worked out, in the trade's words.
    pub what: &'static str,
    /// The formula in symbols.
    pub formula: &'static str,
    /// The numbers put in, each with its symbol.
    pub inputs: Vec<(&'static str, Value)>,
    /// What came out.
    pub result: Value,
    /// Tags of the sources.
    pub sources: &'static str,
    /// True when a figure of the person's own went in.
    pub yours: bool,
}

/// Whether to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Every limit is within.
    Go,
    /// A limit is near, or a caution stands.
    Care,
    /// A limit is over: the numbers are shown under "Do not cut like this".
    DoNotCut,
}

/// The spindle speed to set.
#[derive(Clone, Debug, PartialEq)]
pub struct Speed {
    /// What to set.
    pub set: SpindleSpeed,
    /// Index and name of the range it lies in.
    pub range: (usize, String),
    /// What the switch says for the cutter to turn the right way; `None` until looked up.
    pub switch: Option<String>,
    /// What material and cutter would like.
    pub wanted: SpindleSpeed,
    /// The machine's next speed at or below the wanted one, and the next above.
    pub neighbours: (Option<SpindleSpeed>, Option<SpindleSpeed>),
    /// Surface speed that results.
    pub surface: SurfaceSpeed,
    /// Surface speed the wanted speed stands for.
    pub surface_wanted: SurfaceSpeed,
    /// The machine's slowest speed is still too fast.
    pub too_fast_at_lowest: bool,
    /// The person typed it.
    pub yours: bool,
}

/// The feed, in every term a hand or a readout can use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// Per tooth; per turn for drills and one-tooth tools.
    pub per_tooth: Length,
    /// Per turn of the spindle.
    pub per_turn: Length,
    /// Along the axis.
    pub rate: FeedRate,
    /// Of the handwheel; `None` for a hole fed by the quill lever.
    pub wheel: Option<HandRate>,
    /// For one turn of the wheel.
    pub turn_time: Option<Duration>,
    /// The small travel that is counted when a turn is too long: 0.010 in, or 0.2 mm.
    pub mark: Length,
    /// For that travel.
    pub mark_time: Duration,
    /// For 1/8 in, the pace of a quill lever.
    pub eighth_time: Duration,
    /// The table range the feed came from, per tooth, thin-chip rule applied.
    pub range: (Length, Length),
    /// The factor of the thin-chip rule, 1 where it does not apply.
    pub thin_chip: f64,
    /// The person typed it.
    pub yours: bool,
}

/// Depth in passes, or pecks.
#[derive(Clone, Debug, PartialEq)]
pub struct Passes {
    /// Depth of each.
    pub depth: Length,
    /// What the readout shows at the end of each, from nothing at the surface.
    pub targets: Vec<Length>,
    /// Depth at the tip of a drill, spot or countersink, when it differs.
    pub tip: Option<Length>,
    /// For holes: these are pecks.
    pub pecks: bool,
    /// The person typed their number.
    pub yours: bool,
}

/// Rows of a face that is wider than the cutter.
#[derive(Clone, Debug, PartialEq)]
pub struct Rows {
    /// Where the spindle runs, from the middle of the face.
    pub centres: Vec<Length>,
    /// Share of the cutter by which neighbours overlap, at least.
    pub overlap: f64,
}

/// What was given up on the way from the wanted point to the answer, in the order it happened.
#[derive(Clone, Debug, PartialEq)]
pub enum Concession {
    /// The machine or a limit allows only this speed.
    Speed {
        /// Wanted.
        wanted: SpindleSpeed,
        /// Set.
        set: SpindleSpeed,
        /// Why.
        because: Because,
    },
    /// The feed left its aim.
    Feed {
        /// Aimed at.
        wanted: Length,
        /// Set.
        set: Length,
        /// Why.
        because: Because,
    },
    /// The depth was divided.
    Passes {
        /// Whole depth.
        whole: Length,
        /// Number of passes.
        passes: u32,
        /// Why.
        because: Because,
    },
}

/// Why something was given up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// The machine has no such speed.
    Machine,
    /// This limit would be over, or not comfortable.
    Limit(Limit),
    /// A light machine begins at the low end.
    Gentle,
    /// The person typed the other number.
    Yours,
}

/// One change that would relieve a limit, with what it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// The change.
    pub change: Change,
    /// Greatest utilisation after it.
    pub utilisation: f64,
}

/// A change that relieves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// Less depth per pass.
    Depth(Length),
    /// Less width.
    Width(Length),
    /// Shorter out of the holder.
    Stickout(Length),
    /// Less feed per tooth.
    Feed(Length),
    /// A slower step.
    Speed(SpindleSpeed),
    /// Fewer flutes.
    Teeth(u32),
    /// A truer holder.
    Runout(Length),
    /// Feed against the cutter.
    Conventional,
    /// A pilot hole of this diameter.
    Pilot(Length),
    /// This one of the cutters offered, by its place in the list.
    OtherCutter(usize),
    /// This one of the machines offered, by its place in the list.
    OtherMachine(usize),
    /// A carbide cutter.
    Carbide,
}

/// Why nothing can be proposed.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// One limit is over at every speed and depth.
    Alone {
        /// The limit.
        limit: Limit,
        /// First change that mends it; `None` if none of those tried does.
        mend: Option<Change>,
    },
    /// Two limits leave no feed between them.
    Between {
        /// Wants at least this feed per tooth.
        at_least: (Limit, Length),
        /// Wants at most this.
        at_most: (Limit, Length),
        /// First change that mends it.
        mend: Option<Change>,
    },
    /// A number the person typed is over this limit.
    Yours {
        /// The limit.
        limit: Limit,
        /// The number that holds; `None` where more than one stands in the way.
        mend: Option<Change>,
    },
}

/// A caution: it never blocks, it says why and what to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Caution {
    /// Carbide below half of its low surface speed: built-up edge, chipping.
    SlowCarbide,
    /// The wheel turns slower than a steady hand: count marks.
    CountMarks,
    /// A light machine begins at this depth.
    BeginAt(Length),
    /// The slot is deep: clear the chips.
    ClearChips,
    /// One tooth does the work; this total indicator reading would share it out.
    OneTooth(Length),
    /// The worst tooth takes too much: a better holder.
    BetterHolder(Length),
    /// Climbing with backlash.
    ClimbBacklash,
    /// Milling in a drill chuck.
    DrillChuckMilling,
    /// The tip breaks through and grabs.
    BreakThrough,
    /// Pecks: pull out and clear.
    Peck,
    /// What the trade puts on this stock.
    Lubricant(&'static str),
    /// What is put on it must not come near this stock.
    Refused(&'static Refused),
    /// Never dwell: the stock hardens under the edge.
    NeverDwell,
    /// Chips burn; no water.
    ChipFire,
    /// What this stock does to a cutter and to a person.
    Hazard(&'static str),
    /// High-speed steel dulls within inches.
    HssDulls,
    /// Rubbing is nearest: a sharp edge is needed.
    SharpEdge,
    /// An interrupted cut on a brazed bit.
    InterruptedCut,
    /// Never turn a reamer backwards.
    NeverReverse,
    /// A spring pass instead of a finishing pass that bends.
    SpringPass,
    /// Tapping under power needs a tested reverse.
    PowerTap,
    /// The switch for this range is not known: jog and look before the cutter is near.
    SwitchUnknown,
    /// The lowest speed of this machine is still too fast.
    LowestTooFast,
    /// The person's own feed lies above the high end of the table, which is this.
    FeedAboveTable(Length),
    /// The feed table has no row of the stock's own group; this one's was read.
    FeedBorrowed(&'static str),
    /// The diameter lies outside the feed table; its nearest figure was used.
    OutsideTable,
}

/// Something that was taken on the safe side because the person has not said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Assumed {
    /// Power at the cutter.
    Power(Value),
    /// Backlash of the table.
    Backlash(Value),
    /// Stiffness of the machine.
    Stiffness(Value),
    /// Drag of the table.
    TableDrag(Value),
    /// Runout of the cutter.
    Runout(Value),
    /// Speed below which the drive loses power.
    BaseSpeed(Value),
}

/// The answer to a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Whether to cut.
    pub verdict: Verdict,
    /// Speed to set.
    pub speed: Speed,
    /// Feed; `None` where only the speed is asked.
    pub feed: Option<Feed>,
    /// Passes; `None` where only the speed is asked.
    pub passes: Option<Passes>,
    /// Rows side by side, for a face wider than the cutter.
    pub rows: Option<Rows>,
    /// Time in the cut, approach and overrun included; `None` without a length.
    pub time: Option<Duration>,
    /// Travel of the table for one pass, approach and overrun included.
    pub travel: Option<Length>,
    /// Every limit that applies, worst first.
    pub limits: Vec<Reading>,
    /// What was given up.
    pub given_up: Vec<Concession>,
    /// What would relieve the binding limit, best first.
    pub relief: Vec<Relief>,
    /// Why nothing can be proposed.
    pub trouble: Option<Trouble>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    /// What was taken on the safe side.
    pub assumed: Vec<Assumed>,
    /// The working from the question to the speed, feed and passes.
    pub working: Vec<Step>,
}

impl Answer {
    /// The limit that holds the cut back.
    #[must_use]
    pub fn binding(&self) -> Option<&Reading> {
        self.limits.first()
    }
    /// The one that would be next.
    #[must_use]
    pub fn next(&self) -> Option<&Reading> {
        self.limits.get(1)
    }
}

/// The operating window: speed across, feed up, each limit a curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Right edge.
    pub speed_max: SpindleSpeed,
    /// Upper edge.
    pub feed_max: FeedRate,
    /// Speeds this machine has; a continuous range is its two ends.
    pub speeds: Vec<SpindleSpeed>,
    /// Speeds are steps, not a range.
    pub stepped: bool,
    /// Curves of the limits.
    pub curves: Vec<Curve>,
    /// Highest and lowest feed that no limit forbids, along the speeds; empty where none is.
    pub allowed: Vec<(SpindleSpeed, FeedRate, FeedRate)>,
    /// The answer.
    pub chosen: (SpindleSpeed, FeedRate),
    /// What material and cutter would like.
    pub wanted: (SpindleSpeed, FeedRate),
    /// Limits that are over whatever speed and feed.
    pub everywhere: Vec<Limit>,
}

/// One limit in the operating window.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// The limit.
    pub limit: Limit,
    /// Which side of it is allowed.
    pub side: Side,
    /// Where it begins to be near.
    pub near: Vec<(SpindleSpeed, FeedRate)>,
    /// Where it is over.
    pub over: Vec<(SpindleSpeed, FeedRate)>,
}

/// Which side of a curve is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Below it.
    Below,
    /// Above it.
    Above,
    /// Left of it.
    Left,
}
