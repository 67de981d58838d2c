//! What a condition of a rule may ask of a set-up, and the answer: yes, no, or not known.

use super::{
    context::{Chuck, Context, Drive, Hand, Holding, PutOn, Stock, Task, ToolKind},
    direction, fold,
};
use crate::engine::{
    limits::threshold,
    machine::{Class, Turning, speeds::STEP_ABOVE},
    quantity::Length,
    question::Holder,
    stock::{Family, Flag, Material},
};

/// A cutter up to this diameter counts as small.
fn small() -> Length {
    Length::inch(0.125)
}
/// Stick-out in diameters beyond which it is long.
pub(super) const LONG_STICKOUT: f64 = 4.0;
/// Depth of a hole in diameters beyond which it is deep.
const DEEP_HOLE: f64 = 3.0;
/// Lost motion beyond which a cutter that is fed with its turn pulls the table.
fn most_backlash() -> Length {
    Length::inch(0.002)
}
/// The least grip of a vise, and the least share of the height of the part.
fn least_grip() -> Length {
    Length::inch(0.20)
}
const LEAST_GRIP_SHARE: f64 = 1.0 / 3.0;
/// Hours at which a person is better off in bed.
const LATE: core::ops::Range<u32> = 5..22;
/// A rounded number must not flip a fact.
const SAME: f64 = 1e-9;

macro_rules! facts {
    ($($fact:ident),+ $(,)?) => {
        /// One thing that a condition asks.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[allow(missing_docs, reason = "each is named after what it says")]
        pub enum Fact { $($fact),+ }
        impl Fact {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$fact),+];
        }
    };
}
facts!(
    BenchMachine,
    BeltDrive,
    Drawbar,
    ScrewOnChuck,
    KeyChuck,
    RestartsItself,
    ChipShield,
    Backlash,
    ReversingRange,
    Confirmed,
    Reverses,
    TooFast,
    LowestTooFast,
    SpeedChange,
    ToolChange,
    NewSetUp,
    ToolStays,
    NextElsewhere,
    TwoMachines,
    Batch,
    EndOfDay,
    Late,
    Tired,
    LongHair,
    Prescription,
    Bystanders,
    PhoneOnTable,
    FloorWet,
    Alone,
    StaleFluid,
    Heavy,
    GrindingNearby,
    Drilling,
    Milling,
    Interrupted,
    FlyCutter,
    BoringHead,
    Saw,
    EdgeFinder,
    Indicating,
    HandTapping,
    PowerTapping,
    ByHand,
    Plunging,
    QuillIdle,
    ThroughHole,
    BlindHole,
    DeepHole,
    Climb,
    SlowWheel,
    EndMill,
    Collet,
    DrillChuck,
    LargeTool,
    LongStickout,
    SmallCutter,
    Carbide,
    LeftHand,
    Vise,
    Straps,
    Tape,
    Loose,
    Studs,
    Clamps,
    OneClamp,
    ShallowGrip,
    Overhang,
    Thin,
    Parallels,
    NearParallels,
    Dry,
    Wetted,
    Water,
    WaterMix,
    Mist,
    Spirit,
    Air,
    StockUnknown,
    Magnesium,
    Titanium,
    Beryllium,
    Leaded,
    Glass,
    Carbon,
    Silica,
    Wood,
    Ptfe,
    Pvc,
    Acetal,
    Phenolic,
    ResinBoard,
    Brittle,
    WorkHardening,
    FineDust,
    Aluminium,
    HotChips,
);

impl Fact {
    /// True for a fact about what the stock is.
    #[must_use]
    pub fn is_of_stock(self) -> bool {
        self as usize >= Self::StockUnknown as usize
    }

    /// Whether it is so; `None` where that is not known.
    #[must_use]
    pub fn of(self, c: &Context) -> Option<bool> {
        if self.is_of_stock() {
            return self.of_stock(c);
        }
        let task = |any: &[Task]| c.cut.task.map(|task| any.contains(&task));
        let tool = |any: &[ToolKind]| c.tool.kind.map(|kind| any.contains(&kind));
        let held = |by: Holding| c.part.holding.map(|holding| holding == by);
        let wet = |any: &[PutOn]| c.cut.fluid.map(|fluid| any.contains(&fluid));
        match self {
            Self::BenchMachine => c.machine.class.map(|class| class != Class::Knee),
            Self::BeltDrive => c.machine.drive.map(|drive| drive == Drive::Belt),
            Self::Drawbar => c.machine.drawbar,
            Self::ScrewOnChuck => c.machine.chuck.map(|chuck| chuck == Chuck::ScrewOn),
            Self::KeyChuck => c.machine.chuck.map(|chuck| chuck != Chuck::Keyless),
            Self::RestartsItself => not(c.machine.restart_protection),
            Self::ChipShield => c.machine.chip_shield,
            Self::Backlash => c.machine.backlash.map(|lash| lash > most_backlash()),
            Self::ReversingRange => direction::reverses(&c.machine.ranges, c.spindle.range?),
            Self::Confirmed => Some(c.spindle.confirmed && c.switch().is_some()),
            Self::Reverses => match (task(&[Task::PowerTap]), c.turning()) {
                (Some(true), _) | (_, Some(Turning::CounterClockwise)) => Some(true),
                (Some(false), Some(Turning::Clockwise)) => Some(false),
                _ => None,
            },
            Self::TooFast => Some(c.spindle.set? > c.spindle.wanted? * (STEP_ABOVE + SAME)),
            Self::LowestTooFast => {
                let lowest = c
                    .machine
                    .ranges
                    .iter()
                    .filter_map(|range| range.speeds.lowest())
                    .reduce(|one, other| one.min(other))?;
                Some(lowest > c.spindle.wanted? * (STEP_ABOVE + SAME))
            }
            Self::SpeedChange => c.spindle.speed_changed,
            Self::ToolChange => c.spindle.tool_changed,
            Self::NewSetUp => c.spindle.new_set_up,
            Self::ToolStays => c.tool.stays,
            Self::NextElsewhere => c.plan.next_elsewhere,
            Self::TwoMachines => c.plan.two_machines,
            Self::Batch => c.plan.batch.map(|count| count > 1),
            Self::EndOfDay => c.plan.end_of_day,
            Self::Late => c.plan.hour.map(|hour| !LATE.contains(&hour)),
            Self::Tired => c.person.tired,
            Self::LongHair => c.person.long_hair,
            Self::Prescription => c.person.prescription,
            Self::Bystanders => c.person.bystanders,
            Self::PhoneOnTable => c.person.phone_on_table,
            Self::FloorWet => c.person.floor_wet,
            Self::Alone => c.person.alone,
            Self::StaleFluid => c.person.stale_fluid,
            Self::Heavy => c.part.heavy,
            Self::GrindingNearby => c.person.grinding_nearby,
            Self::Drilling => task(&[Task::Drill, Task::Spot, Task::Ream, Task::Countersink]),
            Self::Milling => tool(&[
                ToolKind::EndMill,
                ToolKind::FaceMill,
                ToolKind::FlyCutter,
                ToolKind::BoringHead,
            ]),
            Self::Interrupted => c.cut.interrupted,
            Self::FlyCutter => tool(&[ToolKind::FlyCutter]),
            Self::BoringHead => tool(&[ToolKind::BoringHead]),
            Self::Saw => tool(&[ToolKind::SlittingSaw]),
            Self::EdgeFinder => tool(&[ToolKind::EdgeFinder]),
            Self::Indicating => task(&[Task::Indicate]),
            Self::HandTapping => task(&[Task::HandTap]),
            Self::PowerTapping => task(&[Task::PowerTap]),
            Self::ByHand => task(&[Task::HandTap, Task::Indicate, Task::Deburr]),
            Self::Plunging => match task(&[Task::Plunge]) {
                Some(false) if task(&[Task::Slot]) == Some(true) => c.cut.plunges,
                plunge => plunge,
            },
            Self::QuillIdle => task(&[Task::Slot, Task::Side, Task::Face, Task::Saw]),
            Self::ThroughHole => fold(
                [task(&[Task::Drill, Task::Ream, Task::PowerTap, Task::HandTap]), c.cut.through]
                    .into_iter(),
                false,
            ),
            Self::BlindHole => fold(
                [
                    task(&[Task::Drill, Task::Ream, Task::PowerTap, Task::HandTap]),
                    not(c.cut.through),
                ]
                .into_iter(),
                false,
            ),
            Self::DeepHole => Some(c.cut.depth? > c.tool.diameter? * (DEEP_HOLE + SAME)),
            Self::Climb => match task(&[Task::Side, Task::Face]) {
                Some(true) => c.cut.climb,
                other => other,
            },
            Self::SlowWheel => c.cut.wheel.map(|rate| rate < threshold::slow_wheel()),
            Self::EndMill => tool(&[ToolKind::EndMill]),
            Self::Collet => c.tool.holder.map(|holder| holder == Holder::Collet),
            Self::DrillChuck => c.tool.holder.map(|holder| holder == Holder::DrillChuck),
            Self::LargeTool => {
                tool(&[ToolKind::FaceMill, ToolKind::FlyCutter, ToolKind::BoringHead])
            }
            Self::LongStickout => {
                Some(c.tool.stickout? > c.tool.diameter? * (LONG_STICKOUT + SAME))
            }
            Self::SmallCutter => c.tool.diameter.map(|d| d <= small() * (1.0 + SAME)),
            Self::Carbide => c.tool.carbide,
            Self::LeftHand => c.tool.hand.map(|hand| hand == Hand::Left),
            Self::Vise => c.part.holding.map(|h| matches!(h, Holding::Vise | Holding::SoftJaws)),
            Self::Straps => held(Holding::Straps),
            Self::Tape => held(Holding::Tape),
            Self::Loose => held(Holding::Nothing),
            Self::Studs => c.part.studs,
            Self::Clamps => match (held(Holding::Straps), c.part.clamps) {
                (Some(true), _) => Some(true),
                (_, Some(count)) => Some(count > 0),
                (straps, None) => straps,
            },
            Self::OneClamp => c.part.clamps.map(|count| count < 2),
            Self::ShallowGrip => shallow(c),
            Self::Overhang => c.part.overhangs,
            Self::Thin => c.part.thin,
            Self::Parallels => c.part.parallels,
            Self::NearParallels => c.part.near_parallels,
            Self::Dry => wet(&[PutOn::Dry]),
            Self::Wetted => wet(&[PutOn::Oil, PutOn::WaterMix, PutOn::Mist, PutOn::Spirit]),
            Self::Water => wet(&[PutOn::WaterMix, PutOn::Mist]),
            Self::WaterMix => wet(&[PutOn::WaterMix]),
            Self::Mist => wet(&[PutOn::Mist]),
            Self::Spirit => wet(&[PutOn::Spirit]),
            Self::Air => c.cut.air,
            _ => None,
        }
    }

    fn of_stock(self, c: &Context) -> Option<bool> {
        if self == Self::StockUnknown {
            return Some(c.part.stock.is_none());
        }
        let stock = c.part.stock?;
        let listed = |is: &dyn Fn(&Material) -> bool| match stock {
            Stock::Listed(material) => is(material),
            _ => false,
        };
        let flag = |flag: Flag| listed(&|material| material.is(flag));
        Some(match self {
            Self::Magnesium => flag(Flag::Magnesium),
            Self::Titanium => flag(Flag::Titanium),
            Self::Beryllium => stock == Stock::BerylliumCopper,
            Self::Leaded => flag(Flag::Leaded),
            Self::Glass => flag(Flag::Glass),
            Self::Carbon => flag(Flag::Carbon),
            Self::Silica => stock == Stock::Silica,
            Self::Wood => flag(Flag::Wood),
            Self::Ptfe => flag(Flag::Ptfe),
            Self::Pvc => flag(Flag::Pvc),
            Self::Acetal => flag(Flag::Acetal),
            Self::Phenolic => flag(Flag::Phenolic),
            Self::ResinBoard => flag(Flag::ResinBoard),
            Self::Brittle => flag(Flag::Brittle) || stock == Stock::Silica,
            Self::WorkHardening => flag(Flag::WorkHardening),
            Self::FineDust => listed(&|material| {
                material.family() == Family::CastIron
                    || ["graphite", "brass and bronze"].contains(&material.feed_group)
            }),
            Self::Aluminium => listed(&|material| material.family() == Family::Aluminium),
            Self::HotChips => {
                stock == Stock::BerylliumCopper
                    || listed(&|material| {
                        matches!(material.family(), Family::Steel | Family::Stainless)
                            || material.is(Flag::Titanium)
                            || material.is(Flag::Nickel)
                    })
            }
            _ => return None,
        })
    }
}

fn not(fact: Option<bool>) -> Option<bool> {
    fact.map(|fact| !fact)
}

/// Whether the jaws hold too little of the part.
fn shallow(c: &Context) -> Option<bool> {
    let too_little = c.part.grip.map(|grip| grip < least_grip() * (1.0 - SAME));
    let too_low = match (c.part.grip, c.part.height) {
        (Some(grip), Some(height)) => Some(grip < height * (LEAST_GRIP_SHARE - SAME)),
        _ => not(c.part.gripped_deep),
    };
    match (too_little, too_low) {
        (Some(true), _) => Some(true),
        (_, low) => low,
    }
}
