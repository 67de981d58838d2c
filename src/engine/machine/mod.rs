//! The machine: what its spindle can do, what one turn of its handwheels moves.

pub mod speeds;

use crate::engine::quantity::{Force, HandRate, Length, Power, SpindleSpeed, Stiffness};

/// How heavy and stiff a machine is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// Up to about 200 lb.
    LightBench,
    /// About 200 to 450 lb.
    Bench,
    /// About 450 to 1000 lb.
    HeavyBench,
    /// A knee mill.
    Knee,
}

impl Class {
    /// Stiffness of spindle and table together, assumed where it was not measured.
    #[must_use]
    pub fn stiffness(self) -> Stiffness {
        Stiffness::newton_per_um(match self {
            Self::LightBench => 3.0,
            Self::Bench => 5.0,
            Self::HeavyBench => 8.0,
            Self::Knee => 20.0,
        })
    }
    /// Drag of the table with the gibs snugged.
    #[must_use]
    pub fn table_drag(self) -> Force {
        Force::newton(match self {
            Self::LightBench => 40.0,
            Self::Bench => 60.0,
            Self::HeavyBench => 120.0,
            Self::Knee => 250.0,
        })
    }
    /// Share of a full machine's depth to begin with.
    #[must_use]
    pub fn rigidity(self) -> f64 {
        match self {
            Self::LightBench => 0.3,
            Self::Bench => 0.4,
            Self::HeavyBench => 0.6,
            Self::Knee => 1.0,
        }
    }
    /// Power at the cutter taken where it is not known: the low side of the class.
    #[must_use]
    pub fn assumed_power(self) -> Power {
        Power::watt(match self {
            Self::LightBench => 150.0,
            Self::Bench => 250.0,
            Self::HeavyBench => 450.0,
            Self::Knee => 750.0,
        })
    }
    /// Backlash taken where it is not known.
    #[must_use]
    pub fn assumed_backlash(self) -> Length {
        Length::inch(0.010)
    }
}

/// Which way the spindle turns, seen from above, looking down at the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// Clockwise seen from above: right-hand cut.
    Clockwise,
    /// Counter-clockwise seen from above.
    CounterClockwise,
}

/// One belt or gear range.
#[derive(Clone, Debug, PartialEq)]
pub struct Range {
    /// What the person calls it: "low", "belt 2".
    pub name: String,
    /// Speeds within it.
    pub speeds: Speeds,
    /// What the switch says for clockwise seen from above; unknown until the person has looked.
    pub clockwise_label: Option<String>,
    /// What the switch says for counter-clockwise seen from above.
    pub counter_clockwise_label: Option<String>,
}

/// Speeds of a range.
#[derive(Clone, Debug, PartialEq)]
pub enum Speeds {
    /// Fixed steps by belt or gear; the motor gives its power at each.
    Steps(Vec<SpindleSpeed>),
    /// Any speed between two, by an electric drive.
    Continuous {
        /// The lowest.
        lowest: SpindleSpeed,
        /// The highest.
        highest: SpindleSpeed,
        /// Below this the drive gives torque, not power. The top of the range where unknown.
        base: Option<SpindleSpeed>,
    },
}

/// A feed axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Travel for one turn of the handwheel.
    pub lead: Length,
    /// Marks on the dial for one turn.
    pub divisions: Option<f64>,
    /// Lost motion when the wheel turns back.
    pub backlash: Option<Length>,
}

/// A machine as its owner has described it.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// What the person calls it.
    pub name: String,
    /// Class by weight.
    pub class: Class,
    /// Belt or gear ranges, at least one.
    pub ranges: Vec<Range>,
    /// Power at the cutter; assumed by class where unknown.
    pub power: Option<Power>,
    /// The table axis that feeds.
    pub table: Axis,
    /// The quill's fine feed wheel, where there is one.
    pub quill_wheel: Option<Axis>,
    /// Stiffness; assumed by class where unknown.
    pub stiffness: Option<Stiffness>,
    /// Drag of the table; assumed by class where unknown.
    pub table_drag: Option<Force>,
    /// The hand rate that stays comfortable.
    pub comfortable_rate: HandRate,
    /// The highest hand rate that stays steady.
    pub highest_rate: HandRate,
}
