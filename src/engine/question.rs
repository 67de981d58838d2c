//! The question: what is on the mill, and the cut that is wanted.

use crate::engine::{
    cutters::Cutter,
    experience::Experience,
    machine::Machine,
    quantity::{Length, SpindleSpeed, Stress, SurfaceSpeed},
    stock::{Fluid, Material, Refused},
};

/// What is put on the cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coolant {
    /// Flooded.
    Flood,
    /// Oil by brush.
    Brush,
    /// Nothing.
    Dry,
}

impl Coolant {
    /// What of it may not come near a stock. A flood counts as water: what else is in the tank is
    /// not known.
    pub fn refusals(self, stock: &Material) -> impl Iterator<Item = &'static Refused> + use<> {
        let fluid = match self {
            Self::Flood => Some(Fluid::Water),
            Self::Brush => Some(Fluid::Oil),
            Self::Dry => None,
        };
        fluid.and_then(|fluid| stock.refuses(fluid)).into_iter()
    }
}

/// Which way a side cut is fed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feeding {
    /// Against the cutter: it pushes the table back.
    Conventional,
    /// With the cutter: it pulls the table along, through the backlash.
    Climb,
}

/// The operation, with what only it has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Operation {
    /// Full width.
    Slot,
    /// Along an edge.
    Side {
        /// Radial width.
        width: Length,
        /// Against or with the cutter.
        feeding: Feeding,
    },
    /// Across a face, in rows side by side where it is wider than the cutter.
    Face {
        /// Width of the face; up to the cutter's diameter it is centred on it.
        width: Length,
    },
    /// Straight down with an end mill.
    Plunge,
    /// Drill, from solid or from a pilot hole.
    Drill {
        /// Diameter of the hole that is there already.
        pilot: Option<Length>,
        /// Through the part: the point has to come out.
        through: bool,
    },
    /// Spot a hole's place.
    Spot,
    /// Ream.
    Ream,
    /// Countersink or chamfer a hole.
    Countersink {
        /// Diameter of the hole that is there already.
        hole: Length,
    },
    /// Saw.
    Saw,
    /// Bore; the width is the stock on the radius.
    Bore {
        /// Stock on the radius.
        width: Length,
    },
    /// Find an edge: only the speed is asked.
    FindEdge,
    /// Tap under power.
    Tap,
}

/// How hard to push.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Style {
    /// The low end of the tables, comfortable limits.
    #[default]
    Gentle,
    /// Least time inside the limits.
    Brisk,
}

/// Figures of the person's own, each kept in place of the table's or the search's.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Own {
    /// Spindle speed to use.
    pub spindle_speed: Option<SpindleSpeed>,
    /// Surface speed in place of the table's range.
    pub surface_speed: Option<SurfaceSpeed>,
    /// Feed per tooth (per turn for drills and the like) in place of the table's range. It is
    /// kept as it is, without the thin-chip rule, and the chip it gives counts as a full one.
    pub feed: Option<Length>,
    /// Chip thickness wanted in place of the table's range; the feed follows from it by the
    /// thin-chip rule and is judged by the table.
    pub chip: Option<Length>,
    /// The feed per tooth (or turn) a cut is made with, judged by the table.
    pub feed_as_set: Option<Length>,
    /// Number of passes, or of pecks.
    pub passes: Option<u32>,
    /// Specific cutting force, whatever the chip.
    pub cutting_force: Option<Stress>,
    /// Unit power in place of Kienzle's force.
    pub unit_power: Option<Stress>,
    /// What earlier cuts of this kind ask for; it moves what is aimed at, never a limit.
    pub experience: Experience,
}

/// What is on the mill now.
#[derive(Clone, Debug)]
pub struct OnTheMill<'a> {
    /// The machine.
    pub machine: &'a Machine,
    /// The stock.
    pub stock: &'static Material,
    /// The cutter.
    pub cutter: Cutter,
    /// Total indicator reading at the cutter; assumed by holder where unknown.
    pub runout: Option<Length>,
    /// What holds the cutter.
    pub holder: Holder,
    /// The edge is worn: the least chip doubles.
    pub worn: bool,
}

/// What holds the cutter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// Collet.
    Collet,
    /// End mill holder with a set screw.
    SetScrew,
    /// Drill chuck.
    DrillChuck,
    /// An arbor or the tool's own shank.
    Arbor,
}

impl Holder {
    /// Runout taken where it was not measured: the upper end of what the trade meets.
    #[must_use]
    pub fn assumed_runout(self) -> Length {
        Length::inch(match self {
            Self::Collet => 0.0005,
            Self::SetScrew => 0.001,
            Self::DrillChuck => 0.003,
            Self::Arbor => 0.003,
        })
    }
}

/// The cut that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Operation.
    pub operation: Operation,
    /// Whole depth, all passes together.
    pub depth: Length,
    /// Length of the cut along the feed, for its time. Not needed for holes.
    pub length: Option<Length>,
    /// The last pass that makes size and surface.
    pub finish: bool,
    /// What is put on it.
    pub coolant: Coolant,
    /// How hard to push.
    pub style: Style,
    /// Figures of the person's own.
    pub own: Own,
}

/// A place where a person enters something, so that an error can stand at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each name is the label of its field")]
pub enum Field {
    Machine,
    Stock,
    Operation,
    CutterKind,
    ToolMaterial,
    Diameter,
    Teeth,
    FluteLength,
    Shank,
    Stickout,
    Helix,
    Tip,
    CornerRadius,
    EnteringAngle,
    PointAngle,
    Thickness,
    Pitch,
    Width,
    Depth,
    CutLength,
    Pilot,
    Hole,
    Holder,
    Runout,
    Feeding,
    Coolant,
    Style,
    SpindleSpeed,
    SurfaceSpeed,
    Feed,
    Chip,
    Passes,
    CuttingForce,
    UnitPower,
    MachineName,
    Speeds,
    LowestSpeed,
    HighestSpeed,
    BaseSpeed,
    Lead,
    Divisions,
    Backlash,
    Power,
    Stiffness,
    TableDrag,
    ComfortableRate,
    HighestRate,
    Screw,
    Fit,
    FullThread,
    TapChamfer,
    Spare,
    Plate,
    Spot,
    Chamfer,
    Counterbore,
    CounterboreDepth,
    Countersink,
    Wire,
    OverWires,
    PitchDiameter,
    FlankAngle,
    CardEdge,
    Thread,
    Percent,
    MeasuredDiameter,
    MeasuredPitch,
    ThreadsCounted,
    CountedOver,
    /// The converter's line.
    Line,
    /// Gauge blocks or parallels of one's own.
    Pieces,
    BatchPieces,
    PlanOperation,
    SetUpTime,
    CycleTime,
    LoadTime,
    ToolChangeTime,
    ScrapRisk,
    After,
    Walk,
    CheckTime,
    Stands,
    // Where to cut
    Holes,
    Rows,
    Circle,
    Radius,
    StartAngle,
    StepAngle,
    Span,
    CentreX,
    CentreY,
    StepX,
    StepY,
    SizeX,
    SizeY,
    Turned,
    Copies,
    DatumX,
    DatumY,
    SkewAlong,
    SkewOff,
    PartX,
    PartY,
    TableX,
    TableY,
    PlaceX,
    PlaceY,
    PlaceRadius,
    PlaceAngle,
    FinderTip,
    Face,
    Travel,
    JawHeight,
    PartHeight,
    PartWidth,
    SideCut,
    Air,
    Grip,
    ParallelThickness,
    ParallelHeight,
    HoleCentre,
    Torque,
    BoltDiameter,
    NutFactor,
    ToWork,
    ToHeel,
    Straps,
    Friction,
    SafetyFactor,
    SideForce,
    LeftReading,
    RightReading,
    Sweep,
    RowStep,
    Pivot,
    PartLength,
    Wall,
    Allowance,
    SlotWidth,
    LargestPass,
    FinishPass,
    SineBar,
    SineAngle,
    Room,
    Stack,
}

/// Something entered that cannot be worked with: a sentence and what to do, at its field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InputError {
    /// Where it was entered.
    pub field: Field,
    /// What is wrong, a full sentence.
    pub problem: String,
    /// What to do, a full sentence.
    pub hint: String,
}

impl InputError {
    /// An error at a field.
    pub fn new(field: Field, problem: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { field, problem: problem.into(), hint: hint.into() }
    }
}

impl core::fmt::Display for InputError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} {}", self.problem, self.hint)
    }
}

impl core::error::Error for InputError {}
