//! The recipe for a finished hole: ordered steps, each with its tool, what to set, how deep, and
//! why.
//!
//! [`recipe`] is the one way in. Every step that cuts under power asks the engine's one answer, so
//! its speed is one the machine has, its feed one that its hand and its limits allow, and it says
//! so where it is not.

use super::{
    finish::{self, Hole},
    making,
    tool::Tool,
};
use crate::engine::{
    answer::{Answer, Limit},
    cutters::Cutter,
    drills::{Drill, Index},
    machine::{Machine, Turning},
    quantity::{Angle, Duration, Length},
    question::{Coolant, InputError, Own, Style},
    stock::Material,
    threads::{Thread, limits::Internal, tap, tap_hole::Verdict},
};

/// Where a hole is made, and with what.
#[derive(Clone, Debug)]
pub struct Setting<'a> {
    /// The machine.
    pub machine: &'a Machine,
    /// The stock.
    pub stock: &'static Material,
    /// The drills in the drawer.
    pub drills: &'a Index,
    /// The other cutters in the drawer; `None` where nobody has said.
    pub cutters: Option<&'a [Cutter]>,
    /// Threads there are taps for; `None` where nobody has said.
    pub taps: Option<&'a [Thread]>,
    /// Included angle of the drills' points.
    pub point_angle: Angle,
    /// What is put on the cut.
    pub coolant: Coolant,
    /// How hard to push.
    pub style: Style,
    /// Figures of the person's own for the drill that makes the hole.
    pub own: Own,
}

/// What a step does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Give the drill its place.
    Spot,
    /// Drill ahead of the web of a large drill.
    Pilot,
    /// Drill.
    Drill,
    /// Bevel the mouth.
    Chamfer,
    /// Ream to size.
    Ream,
    /// Sink the head's seat.
    Counterbore,
    /// Break the edge under a head.
    BreakEdge,
    /// Sink the cone of a flat head.
    Countersink,
    /// Tap, the tap turned by hand in the dead spindle.
    TapByHand,
    /// Tap under power.
    TapUnderPower,
    /// Take the burr off the far side by hand.
    Deburr,
}

/// Which way a step turns.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// While it goes in, seen from above.
    pub into: Turning,
    /// What the switch says for it; `None` by hand, or until looked up.
    pub switch: Option<String>,
    /// While it comes out, where that is the other way.
    pub out: Option<Turning>,
    /// What the switch says for that.
    pub switch_out: Option<String>,
}

/// One step of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What it does.
    pub work: Work,
    /// With what.
    pub tool: Tool,
    /// Speed, feed, limits: the engine's answer; `None` for what is done by hand.
    pub answer: Option<Answer>,
    /// Which way it turns; `None` for what is done by hand without the spindle.
    pub turn: Option<Turn>,
    /// Diameter that it leaves, at its widest.
    pub makes: Length,
    /// Depth at the full diameter, from the surface; of a tap, how deep its full thread goes.
    pub full: Length,
    /// Depth of the tip, from the surface: what the quill shows when it was set to nothing with
    /// the tip on the surface.
    pub tip: Length,
    /// Depths of the tip at which it is drawn out to clear, the last one the whole; empty for one
    /// stroke.
    pub pecks: Vec<Length>,
    /// Turns of a tap for its travel.
    pub turns: Option<f64>,
    /// Time under feed; `None` for what is done by hand.
    pub time: Option<Duration>,
    /// What the trade puts on this stock; empty for nothing.
    pub lubricant: &'static str,
    /// Why it is done so, a sentence.
    pub why: &'static str,
    /// Tags of the sources.
    pub sources: &'static str,
}

/// Something worth saying of the hole as a whole; it never blocks.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// The tip comes out of the far side of a blind hole.
    BreaksThrough {
        /// Depth of the tip.
        tip: Length,
        /// Thickness of the plate.
        plate: Length,
    },
    /// So little is left under the tip.
    ThinFloor(Length),
    /// The point is out before the drill is in: it grabs.
    Grabs,
    /// This limit of a step is over: the numbers are shown all the same.
    Over {
        /// Place of the step.
        step: usize,
        /// The limit.
        limit: Limit,
    },
    /// The nearest drill is not the one wanted.
    NearestDrill {
        /// Wanted diameter.
        wanted: Length,
        /// The drill's diameter less the wanted one.
        off: Length,
    },
    /// The hole lies outside the class of the thread.
    OutsideClass {
        /// Of the hole.
        hole: Length,
        /// On which side.
        verdict: Verdict,
        /// The class, where its standard has limits.
        class: Option<Internal>,
        /// The drill to buy for a hole inside it.
        to_buy: Option<Drill>,
    },
    /// The tap drill is replaced by a smaller drill and an owned reamer.
    ReamedForTap,
    /// The reamer takes this much off the diameter, more or less than is good.
    ReamAllowance(Length),
    /// The thread is shorter than a steel screw needs in this stock.
    ShortThread {
        /// Its length.
        has: Length,
        /// What the screw needs.
        wants: Length,
    },
    /// The spindle cannot start while a hand turns the tap.
    DeadSpindle,
    /// A second tap finishes what the first began.
    TwoTaps,
    /// A tap in a blind hole pushes its chips ahead.
    TapChips,
    /// Tapping under power was asked, and this is why the hand does it.
    ByHand(ByHand),
    /// The tap goes in counter-clockwise.
    LeftHand,
}

/// Why a tap is turned by hand where power was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ByHand {
    /// Under #8 or M4 a hand feels what a spindle does not.
    Small,
    /// The lowest speed is too fast for a hand to reverse in time.
    Fast,
    /// The switch for the way out is not known.
    NoReverse,
}

impl Caution {
    /// Why it is said, a sentence or two.
    #[must_use]
    pub fn why(&self) -> &'static str {
        match self {
            Self::BreaksThrough { .. } => {
                "The point goes deeper than the plate is thick, so the hole is not blind."
            }
            Self::ThinFloor(_) => "A floor as thin as this bulges or tears under the point.",
            Self::Grabs => {
                "The point is out before the full diameter is in. Clamp the work, and back it up."
            }
            Self::Over { .. } => "Do not cut this step like this; its answer says what mends it.",
            Self::NearestDrill { .. } => "The drill wanted is not in the index.",
            Self::OutsideClass { verdict: Verdict::Binds, .. } => {
                "The hole is under the basic minor diameter: the tap binds and breaks."
            }
            Self::OutsideClass { .. } => {
                "The hole is over the class: strong enough with length, but a gauge refuses it."
            }
            Self::ReamedForTap => "No drill in the index makes the tap's hole, a reamer does.",
            Self::ReamAllowance(_) => {
                "Too little makes a reamer rub, too much makes it cut large and wear."
            }
            Self::ShortThread { .. } => {
                "In this stock so short a thread strips before a screw breaks."
            }
            Self::DeadSpindle => {
                "Power off at the wall or the plug before a hand turns the tap in the spindle."
            }
            Self::TwoTaps => {
                "The plug tap starts true; the bottoming tap carries the thread to the bottom."
            }
            Self::TapChips => "Back the tap each turn or two and empty the hole before it bottoms.",
            Self::ByHand(ByHand::Small) => {
                "A tap this small breaks before a spindle can be stopped."
            }
            Self::ByHand(ByHand::Fast) => "The lowest speed is too fast to be reversed by hand.",
            Self::ByHand(ByHand::NoReverse) => {
                "The switch for counter-clockwise is not known: jog and look first."
            }
            Self::LeftHand => "Into the work it turns counter-clockwise seen from above.",
        }
    }

    /// Tags of its sources.
    #[must_use]
    pub fn sources(&self) -> &'static str {
        match self {
            Self::BreaksThrough { .. } | Self::LeftHand => "F_GEOMETRY",
            Self::Over { .. } => "LIMITS_CP",
            Self::ShortThread { .. } => "ENGAGEMENT_CP",
            Self::OutsideClass { class, .. } => class.map_or("F_GEOMETRY", |c| c.source),
            _ => "CP",
        }
    }
}

/// What would mend a hole that breaks through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// Finish with a bottoming tap: the hole need not be so deep.
    BottomingTap {
        /// Depth at the full diameter.
        full: Length,
        /// Depth of the tip.
        tip: Length,
        /// What is left under it.
        floor: Length,
        /// Turns of the tap.
        turns: f64,
    },
    /// A drill with a blunter point.
    BlunterPoint {
        /// Included angle.
        angle: Angle,
        /// Depth of the tip.
        tip: Length,
        /// What is left under it.
        floor: Length,
    },
    /// Finish the bottom flat with an end mill of the hole's diameter, and drill less deep.
    FlatBottom {
        /// What is left under it.
        floor: Length,
    },
    /// No more than this of full thread.
    ShorterThread(Length),
    /// No deeper than this at the full diameter.
    LessDeep(Length),
    /// At least so thick a plate.
    ThickerPlate(Length),
    /// A through hole.
    Through,
}

/// A tool that has to be found or bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Missing {
    /// The tool.
    pub tool: Tool,
    /// For which work.
    pub work: Work,
}

/// The chain of depths of a tapped hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chain {
    /// Length of full thread.
    pub full_thread: Length,
    /// The tap that finishes it.
    pub tap: tap::Style,
    /// Threads of its chamfer.
    pub chamfer_threads: f64,
    /// What the thread, the chamfer and the spare need at the full diameter.
    pub needs: Length,
    /// Depth that is drilled at the full diameter.
    pub full: Length,
    /// Depth of the tip.
    pub tip: Length,
    /// What is left under it; less than nothing where it breaks through, `None` for a through
    /// hole.
    pub floor: Option<Length>,
    /// Travel of the tap.
    pub travel: Length,
    /// Turns of the tap for its travel.
    pub turns: f64,
    /// Turns for the full thread alone.
    pub thread_turns: f64,
    /// Percentage of thread that the hole leaves, on the basis of the question; of a forming tap
    /// by its own rule.
    pub percent: f64,
    /// How the hole stands to the class of the thread; `None` for a forming tap.
    pub verdict: Option<Verdict>,
}

impl Chain {
    /// Turns after those of the full thread, until a through hole is clear of the chamfer.
    #[must_use]
    pub fn turns_to_clear(&self) -> f64 {
        self.turns - self.thread_turns
    }
}

/// How a hole is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    /// Steps in their order.
    pub steps: Vec<Step>,
    /// What is worth saying of the whole.
    pub cautions: Vec<Caution>,
    /// Tools that are not in the drawer.
    pub missing: Vec<Missing>,
    /// The chain of depths of a tapped hole.
    pub chain: Option<Chain>,
    /// What would mend a hole that breaks through, best first.
    pub remedies: Vec<Remedy>,
    /// Time under feed of all steps; changing tools, pecks and hand work are not in it.
    pub time: Duration,
    /// Tags of all sources, each once.
    pub sources: Vec<&'static str>,
}

/// The recipe for a hole in a setting.
///
/// # Errors
/// Every entry that cannot be worked with, each at its field.
pub fn recipe(hole: &Hole, setting: &Setting) -> Result<Recipe, Vec<InputError>> {
    let errors = finish::check(hole);
    if !errors.is_empty() {
        return Err(errors);
    }
    making::make(hole, setting)
}
