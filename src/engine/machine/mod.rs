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

impl Speeds {
    /// The lowest speed.
    #[must_use]
    pub fn lowest(&self) -> Option<SpindleSpeed> {
        match self {
            Self::Steps(steps) => steps.iter().copied().reduce(SpindleSpeed::min),
            Self::Continuous { lowest, .. } => Some(*lowest),
        }
    }
    /// The highest speed.
    #[must_use]
    pub fn highest(&self) -> Option<SpindleSpeed> {
        match self {
            Self::Steps(steps) => steps.iter().copied().reduce(SpindleSpeed::max),
            Self::Continuous { highest, .. } => Some(*highest),
        }
    }
    /// True when the range has this speed, to a tenth of a turn per minute.
    #[must_use]
    pub fn has(&self, speed: SpindleSpeed) -> bool {
        let slack = SpindleSpeed::rpm(0.1);
        match self {
            Self::Steps(steps) => steps.iter().any(|s| (*s - speed).abs() <= slack),
            Self::Continuous { lowest, highest, .. } => {
                speed >= *lowest - slack && speed <= *highest + slack
            }
        }
    }
    /// Share of the power that is there at a speed: all of it on steps, in proportion to the
    /// speed under the base speed of an electric drive.
    #[must_use]
    pub fn power_share(&self, speed: SpindleSpeed) -> f64 {
        match self {
            Self::Steps(_) => 1.0,
            Self::Continuous { highest, base, .. } => (speed / base.unwrap_or(*highest)).min(1.0),
        }
    }
}

impl Machine {
    /// Power at the cutter, the person's or the assumed one.
    #[must_use]
    pub fn power_or_assumed(&self) -> Power {
        self.power.unwrap_or_else(|| self.class.assumed_power())
    }
    /// Place of the range to use for a speed: where two have it, the one with more power.
    #[must_use]
    pub fn range_of(&self, speed: SpindleSpeed) -> Option<usize> {
        let mut best: Option<(usize, f64)> = None;
        for (place, range) in self.ranges.iter().enumerate() {
            let share = range.speeds.power_share(speed);
            if range.speeds.has(speed) && best.is_none_or(|(_, most)| share > most) {
                best = Some((place, share));
            }
        }
        best.map(|(place, _)| place)
    }
    /// Power at the cutter at a speed, in the range [`Self::range_of`] names.
    #[must_use]
    pub fn power_at(&self, speed: SpindleSpeed) -> Power {
        let share = self.range_of(speed).map_or(0.0, |i| self.ranges[i].speeds.power_share(speed));
        self.power_or_assumed() * share
    }
    /// The lowest speed of all ranges.
    #[must_use]
    pub fn lowest(&self) -> Option<SpindleSpeed> {
        self.ranges.iter().filter_map(|r| r.speeds.lowest()).reduce(SpindleSpeed::min)
    }
    /// The highest speed of all ranges.
    #[must_use]
    pub fn highest(&self) -> Option<SpindleSpeed> {
        self.ranges.iter().filter_map(|r| r.speeds.highest()).reduce(SpindleSpeed::max)
    }
    /// The next speed this machine has at or below one, and the next above it.
    #[must_use]
    pub fn neighbours(&self, wanted: SpindleSpeed) -> (Option<SpindleSpeed>, Option<SpindleSpeed>) {
        let mut below: Option<SpindleSpeed> = None;
        let mut above: Option<SpindleSpeed> = None;
        let mut offer = |speed: SpindleSpeed| {
            if speed <= wanted {
                below = Some(below.map_or(speed, |b| b.max(speed)));
            } else {
                above = Some(above.map_or(speed, |a| a.min(speed)));
            }
        };
        for range in &self.ranges {
            match &range.speeds {
                Speeds::Steps(steps) => steps.iter().copied().for_each(&mut offer),
                Speeds::Continuous { lowest, highest, .. } => {
                    if wanted >= *lowest && wanted <= *highest {
                        offer(wanted);
                    }
                    offer(*lowest);
                    offer(*highest);
                }
            }
        }
        (below, above)
    }
}
