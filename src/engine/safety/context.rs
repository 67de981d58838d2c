//! All that is known of a set-up. What is `None` is not known, and counts against it.

use crate::engine::{
    machine::{Class, Range, Turning},
    quantity::{HandRate, Length, SpindleSpeed},
    question::Holder,
    stock::Material,
};

/// What is about to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the work of that name")]
pub enum Task {
    Slot,
    Side,
    Face,
    Plunge,
    Drill,
    Spot,
    Ream,
    Countersink,
    Saw,
    Bore,
    FindEdge,
    PowerTap,
    HandTap,
    /// A dial indicator swept by the spindle: tramming, centring.
    Indicate,
    Deburr,
}

/// What stands in the spindle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the tool of that name")]
pub enum ToolKind {
    EndMill,
    FaceMill,
    FlyCutter,
    SlittingSaw,
    Drill,
    SpotDrill,
    Reamer,
    Countersink,
    BoringHead,
    EdgeFinder,
    Tap,
    Indicator,
}

/// The hand of the cut, not of the spiral.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    /// Cuts when it turns clockwise seen from above.
    Right,
    /// Cuts when it turns counter-clockwise seen from above.
    Left,
}

/// How the motor drives the spindle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drive {
    /// Belts that are moved by hand.
    Belt,
    /// Gears and a lever.
    Gear,
    /// A variable electric drive without belts to be moved.
    Variable,
}

/// The chuck that the machine is used with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chuck {
    /// Tightened with a key.
    Key,
    /// Tightened by hand.
    Keyless,
    /// Screwed on the spindle.
    ScrewOn,
}

/// What is put on the cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PutOn {
    /// Nothing.
    Dry,
    /// Oil by brush or bottle.
    Oil,
    /// Water mixed with oil, flooded or dripped.
    WaterMix,
    /// A mist of water mix.
    Mist,
    /// Kerosene, spirit or alcohol.
    Spirit,
}

/// What holds the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holding {
    /// A vise.
    Vise,
    /// Strap clamps.
    Straps,
    /// Bored or soft jaws in a vise.
    SoftJaws,
    /// Tape or adhesive.
    Tape,
    /// Nothing but its weight, or a hand.
    Nothing,
}

/// What the stock is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stock {
    /// A material of the table.
    Listed(&'static Material),
    /// A copper alloy that holds beryllium.
    BerylliumCopper,
    /// Stone, glass, ceramic, or something filled with silica.
    Silica,
}

/// The machine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Machine {
    /// Class by weight.
    pub class: Option<Class>,
    /// Its ranges with what the switch says in each; empty while there is no machine.
    pub ranges: Vec<Range>,
    /// How the motor drives the spindle.
    pub drive: Option<Drive>,
    /// A drawbar holds the tool.
    pub drawbar: Option<bool>,
    /// Its chuck.
    pub chuck: Option<Chuck>,
    /// A power cut drops its switch out: it does not start again by itself.
    pub restart_protection: Option<bool>,
    /// It has a chip shield.
    pub chip_shield: Option<bool>,
    /// Lost motion of the table.
    pub backlash: Option<Length>,
}

/// The spindle, and what was done at the machine since the last cut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spindle {
    /// Place of the range that is set.
    pub range: Option<usize>,
    /// Speed that material and cutter would like.
    pub wanted: Option<SpindleSpeed>,
    /// Speed to set.
    pub set: Option<SpindleSpeed>,
    /// Speed of the cut before this one.
    pub before: Option<SpindleSpeed>,
    /// A person has seen it turn the way the table says, in this range, since it was last changed.
    pub confirmed: bool,
    /// The range or the machine is another one than at the last check.
    pub range_changed: Option<bool>,
    /// A belt or gear was moved, or has to be.
    pub speed_changed: Option<bool>,
    /// The tool is changed before this cut.
    pub tool_changed: Option<bool>,
    /// The part, the tool or the range is set up anew.
    pub new_set_up: Option<bool>,
}

/// The tool.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tool {
    /// Kind.
    pub kind: Option<ToolKind>,
    /// Hand of its cut.
    pub hand: Option<Hand>,
    /// Diameter that cuts.
    pub diameter: Option<Length>,
    /// How far it stands out.
    pub stickout: Option<Length>,
    /// What holds it.
    pub holder: Option<Holder>,
    /// It is carbide.
    pub carbide: Option<bool>,
    /// It stays in the spindle after the cut.
    pub stays: Option<bool>,
}

/// The cut.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cut {
    /// What is to be done.
    pub task: Option<Task>,
    /// Fed with the cutter.
    pub climb: Option<bool>,
    /// An end mill goes straight down to begin.
    pub plunges: Option<bool>,
    /// The teeth leave the part and hit it again.
    pub interrupted: Option<bool>,
    /// Depth.
    pub depth: Option<Length>,
    /// A hole goes through.
    pub through: Option<bool>,
    /// Depth of a peck.
    pub peck: Option<Length>,
    /// Turns of the wheel.
    pub wheel: Option<HandRate>,
    /// What is put on it.
    pub fluid: Option<PutOn>,
    /// Compressed air is used at the chips.
    pub air: Option<bool>,
}

/// The part and what holds it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Part {
    /// What it is; `None` where nobody knows.
    pub stock: Option<Stock>,
    /// What holds it.
    pub holding: Option<Holding>,
    /// Depth in the jaws.
    pub grip: Option<Length>,
    /// Height.
    pub height: Option<Length>,
    /// A third of its height and 0.20 in are in the jaws, where the two above are not known.
    pub gripped_deep: Option<bool>,
    /// Less than 1/2 in is in the jaws along them, and more than twice that hangs out.
    pub overhangs: Option<bool>,
    /// A wall thinner than 1/8 in, or a ring.
    pub thin: Option<bool>,
    /// Parallels or blocks stand under it.
    pub parallels: Option<bool>,
    /// The cutter comes near them.
    pub near_parallels: Option<bool>,
    /// Clamps on it.
    pub clamps: Option<u32>,
    /// Studs in T-nuts.
    pub studs: Option<bool>,
    /// It or the vise weighs more than 35 lb.
    pub heavy: Option<bool>,
}

/// The person and the shop, as answered once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Person {
    /// Hair that can reach a spindle.
    pub long_hair: Option<bool>,
    /// Prescription lenses.
    pub prescription: Option<bool>,
    /// Tired, on medicine or hurried.
    pub tired: Option<bool>,
    /// Other people come near.
    pub bystanders: Option<bool>,
    /// Works alone.
    pub alone: Option<bool>,
    /// The floor gets wet or oily.
    pub floor_wet: Option<bool>,
    /// The phone stands on the table.
    pub phone_on_table: Option<bool>,
    /// Water mix may stand for more than four weeks.
    pub stale_fluid: Option<bool>,
    /// Steel is ground where aluminium is cut.
    pub grinding_nearby: Option<bool>,
}

/// What comes before and after this cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Two machines are in use.
    pub two_machines: Option<bool>,
    /// The next operation is on the other one.
    pub next_elsewhere: Option<bool>,
    /// Parts of the batch; one or none is no batch.
    pub batch: Option<u32>,
    /// It is the last cut of the day.
    pub end_of_day: Option<bool>,
    /// The hour of the day, 0 to 23.
    pub hour: Option<u32>,
}

/// All that is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Context {
    /// The machine.
    pub machine: Machine,
    /// Its spindle.
    pub spindle: Spindle,
    /// The tool.
    pub tool: Tool,
    /// The cut.
    pub cut: Cut,
    /// The part.
    pub part: Part,
    /// The person.
    pub person: Person,
    /// The plan.
    pub plan: Plan,
}

impl Context {
    /// The range that is set.
    #[must_use]
    pub fn range(&self) -> Option<&Range> {
        self.machine.ranges.get(self.spindle.range?)
    }

    /// The way the spindle has to turn to cut, seen from above.
    #[must_use]
    pub fn turning(&self) -> Option<Turning> {
        self.tool.hand.map(super::direction::turning)
    }
}
