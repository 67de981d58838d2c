//! The one table of limits: what each compares, where it is near and over, who may change that,
//! and what "over" does.
//!
//! Thresholds without another source are common practice, calibrated on about a hundred and fifty
//! practised cuts, good and bad.

use core::ops::{Div, Mul};

use crate::engine::{
    answer::{Limit, State},
    machine::Class,
    quantity::{FeedRate, Force, HandRate, Length, SpindleSpeed},
    question::Coolant,
    stock::{Edge, Flag, IsoGroup, Material},
};

/// What a band can hold: a quantity that divides by its like and multiplies by a number.
pub trait Compared: Copy + PartialOrd + Div<Self, Output = f64> + Mul<f64, Output = Self> {}

impl<Q: Copy + PartialOrd + Div<Self, Output = f64> + Mul<f64, Output = Self>> Compared for Q {}

/// Two thresholds of a quantity. It should stay low, or, where the first lies above the second,
/// high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band<Q> {
    /// Up to here, or down to here, it is within.
    pub within: Q,
    /// From there on to here it is near; beyond, over.
    pub near: Q,
}

/// Slack on every comparison, so that a rounded number on a screen never flips a state.
pub const GRACE: f64 = 0.005;
/// Slack on the depth share where passes are counted: a pass more for 2 % helps nobody.
pub const DEPTH_GRACE: f64 = 0.02;

impl<Q: Compared> Band<Q> {
    /// A band from its two thresholds.
    pub const fn new(within: Q, near: Q) -> Self {
        Self { within, near }
    }
    /// Both thresholds times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { within: self.within * factor, near: self.near * factor }
    }
    /// A quantity, and the end of the near zone, each over the first threshold; upside down where
    /// the quantity should stay high.
    fn over_within(self, x: Q) -> (f64, f64) {
        if self.within <= self.near {
            (x / self.within, self.near / self.within)
        } else {
            (self.within / x, self.within / self.near)
        }
    }
    /// 0 to 1 within, 1 to 2 near, above 2 over; linear in each, so that one bar fits all limits.
    #[must_use]
    pub fn utilisation(self, x: Q) -> f64 {
        let (x, near) = self.over_within(x);
        if x <= 1.0 {
            x
        } else if x <= near {
            1.0 + (x - 1.0) / (near - 1.0)
        } else {
            2.0 * x / near
        }
    }
    /// The state, with [`GRACE`].
    #[must_use]
    pub fn state(self, x: Q) -> State {
        let (x, near) = self.over_within(x);
        if x <= 1.0 + GRACE {
            State::Within
        } else if x <= near * (1.0 + GRACE) {
            State::Near
        } else {
            State::Over
        }
    }
}

impl Band<f64> {
    /// A band that holds for multiples of a quantity, as one of that quantity.
    #[must_use]
    pub fn of<Q: Compared>(self, unit: Q) -> Band<Q> {
        Band { within: unit * self.within, near: unit * self.near }
    }
}

/// Surface speed over the high end of the table, high-speed steel.
pub const SPEED_HSS: Band<f64> = Band::new(1.05, 1.25);
/// Surface speed over the high end of the table, carbide.
pub const SPEED_CARBIDE: Band<f64> = Band::new(1.05, 1.5);

/// Spindle speed of a one-tooth head of a swing: 700 and 1000 rpm at 3 in, force rising with the
/// swing and with the square of the speed.
#[must_use]
pub fn body_cap(swing: Length) -> Band<SpindleSpeed> {
    let factor = (swing / Length::inch(3.0)).sqrt();
    Band::new(700.0, 1000.0).times(1.0 / factor).of(SpindleSpeed::rpm(1.0))
}

/// Spindle speed of a spring-loaded edge finder: beyond the second its tip can fly off.
#[must_use]
pub fn edge_finder_cap() -> Band<SpindleSpeed> {
    Band::new(1000.0, 1200.0).of(SpindleSpeed::rpm(1.0))
}

/// Chip over the high end of the table.
pub const CHIP: Band<f64> = Band::new(1.0, 1.5);
/// The same in soft stock, where the tooth is not what gives.
pub const CHIP_SOFT: Band<f64> = Band::new(1.0, 2.25);
/// Power at the cutter over power at this speed.
pub const POWER: Band<f64> = Band::new(0.7, 1.0);

/// Bend of a roughing cut: 0.002 and 0.005 in, small cutters 2 and 4 % of the diameter.
#[must_use]
pub fn bend_rough(diameter: Length) -> Band<Length> {
    Band {
        within: Length::inch(0.002).min(diameter * 0.02),
        near: Length::inch(0.005).min(diameter * 0.04),
    }
}

/// Bend of a finishing cut: 0.0007 and 0.0015 in.
#[must_use]
pub fn bend_finish() -> Band<Length> {
    Band { within: Length::inch(0.0007), near: Length::inch(0.0015) }
}

/// Margin against breaking. Under the second a cutter breaks on the day it dulls.
pub const MARGIN: Band<f64> = Band::new(3.0, 1.5);
/// The same for carbide of 1/8 in and less, which snaps without bending first.
pub const MARGIN_SMALL_CARBIDE: Band<f64> = Band::new(4.0, 1.5);

/// True for a cutter of 1/8 in and less, which breaks where a larger one only cuts badly.
#[must_use]
pub fn is_small(diameter: Length) -> bool {
    diameter <= Length::inch(0.125) * 1.0001
}

/// Step between neighbouring teeth over the chip. It is a note and never over.
pub const RUNOUT_RATIO: f64 = 0.7;
/// Utilisation of that note at the most.
pub const RUNOUT_RATIO_MOST: f64 = 1.5;
/// Share of the chip by which runout may differ for an even cut: the wish in the caution.
pub const RUNOUT_WISH: f64 = 0.3;
/// Worst tooth over the high end of the table.
pub const RUNOUT_TOOTH: Band<f64> = Band::new(1.25, 1.6);
/// Factor on it in soft stock.
pub const RUNOUT_TOOTH_SOFT: f64 = 1.5;
/// Total indicator reading over the diameter.
pub const RUNOUT_SHARE: Band<f64> = Band::new(0.008, 0.020);

/// Backlash up to which climbing is as good as conventional, 0.002 in.
#[must_use]
pub fn climb_backlash() -> Length {
    Length::inch(0.002)
}

/// Width that may be climbed with backlash whatever the pull.
#[must_use]
pub fn climb_width(class: Class) -> Band<Length> {
    let width = match class {
        Class::LightBench | Class::Bench => Length::inch(0.002),
        Class::HeavyBench | Class::Knee => Length::inch(0.005),
    };
    Band::new(1.0, 3.0).of(width)
}

/// Pull on the table over its drag.
pub const CLIMB_PULL: Band<f64> = Band::new(0.5, 1.0);
/// Depth of a slot or side cut over the depth at which chips pack.
pub const DEPTH: Band<f64> = Band::new(1.0, 2.0);
/// Depth of a peck over the diameter.
pub const PECK: Band<f64> = Band::new(3.0, 6.0);
/// Unevenness of a hand within a turn of the wheel: the most over the mean.
pub const UNEVEN_HAND: f64 = 1.4;

/// Hand rate under which marks are counted instead of turns, 7.5 turns/min.
#[must_use]
pub fn slow_wheel() -> HandRate {
    HandRate::turns_per_min(7.5)
}

/// Depth at which chips pack: a share of the diameter between a quarter and a half, full in a
/// slot, up to three times that in a narrow side cut, twice in soft stock, half on a long thin
/// cutter.
#[must_use]
pub fn packing_depth(diameter: Length, width_share: f64, soft: bool, long: bool) -> Length {
    let share = (diameter / Length::inch(0.5)).clamp(0.25, 0.5);
    let room = if width_share >= 0.5 {
        1.0 + (1.0 - width_share) / 0.5
    } else if width_share >= 0.25 {
        2.0 + (0.5 - width_share) / 0.25
    } else {
        3.0
    };
    let soft = if soft { 2.0 } else { 1.0 };
    let long = if long { 0.5 } else { 1.0 };
    diameter * (share * room * soft * long)
}

/// Thrust a hand gives easily and at most through the quill.
#[must_use]
pub fn thrust(class: Class) -> Band<Force> {
    let (easy, most) = match class {
        Class::LightBench => (120.0, 220.0),
        Class::Bench => (150.0, 300.0),
        Class::HeavyBench => (200.0, 400.0),
        Class::Knee => (250.0, 500.0),
    };
    Band { within: Force::lbf(easy), near: Force::lbf(most) }
}

/// Least chips of a stock. A worn edge doubles them; `low` is the low end of its feed table.
#[must_use]
pub fn least_chip(stock: &Material, low: Length, worn: bool) -> Band<Length> {
    let inch = Length::inch;
    let (within, near) = if stock.is(Flag::Magnesium) {
        (inch(0.0008), inch(0.0004))
    } else if stock.is(Flag::WorkHardening) {
        (inch(0.0005).min(low), inch(0.0003).min(low * 0.6))
    } else {
        (inch(0.0002).min(low * 0.7), inch(0.000_07).min(low * 0.35))
    };
    Band { within, near }.times(if worn { 2.0 } else { 1.0 })
}

/// Factor on the surface speed for what is put on the cut: only high-speed steel in steel,
/// stainless, titanium and nickel asks for it.
#[must_use]
pub fn coolant_factor(stock: &Material, edge: Edge, coolant: Coolant) -> f64 {
    let asks = matches!(stock.iso_group, IsoGroup::P | IsoGroup::M | IsoGroup::S);
    match coolant {
        _ if !asks || edge == Edge::Carbide => 1.0,
        Coolant::Flood => 1.0,
        Coolant::Brush => 0.85,
        Coolant::Dry => 0.7,
    }
}

/// Share of the low speed of high-speed steel down to which the spindle is slowed before the chip
/// gets thinner: a slow edge only costs time.
pub const SLOWEST: f64 = 0.25;
/// Reaming over drilling speed.
pub const REAM_SPEED: f64 = 0.67;
/// Tapping over drilling speed.
pub const TAP_SPEED: f64 = 0.3;
/// Tapping over drilling speed at the most.
pub const TAP_SPEED_MOST: f64 = 0.5;
/// Tapping under power at the most where nothing else is typed, 200 rpm: a hand has to turn the
/// spindle back in time.
#[must_use]
pub fn tap_speed() -> SpindleSpeed {
    SpindleSpeed::rpm(200.0)
}

/// A hand on the quill lever feeds an eighth of an inch in a second easily, in half a second at
/// the most.
#[must_use]
pub fn lever() -> Band<FeedRate> {
    Band::new(7.5, 15.0).of(FeedRate::inch_per_min(1.0))
}

/// Countersinking over drilling speed.
pub const COUNTERSINK_SPEED: f64 = 0.25;
/// Going straight down with an end mill: share of the milling speed.
pub const PLUNGE_SPEED: f64 = 0.75;
/// Going straight down with an end mill: share of the side feed.
pub const PLUNGE_FEED: f64 = 0.25;

/// Who may change a threshold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChangedBy {
    /// The person, in the machine's settings.
    Person,
    /// The table of the stock, or the person's own figure in its place.
    Table,
    /// Nobody at the machine: calibrated on practised cuts.
    Calibration,
}

/// What "over" does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// The search never proposes it; a typed number is refused.
    Refuse,
    /// Small cutters are refused, larger ones cautioned.
    RefuseSmall,
}

/// One row of the table.
#[derive(Debug)]
pub struct Row {
    /// The limit.
    pub limit: Limit,
    /// What is compared.
    pub compared: &'static str,
    /// Formula in symbols.
    pub formula: &'static str,
    /// The thresholds in words.
    pub thresholds: &'static str,
    /// Who may change them.
    pub changed_by: ChangedBy,
    /// What "over" does.
    pub over: Over,
    /// Tags of the sources.
    pub sources: &'static str,
}

/// Every limit, in the order in which ties are named.
pub const TABLE: [Row; 12] = [
    Row {
        limit: Limit::Speed,
        compared: "surface speed over the high end of the stock's range",
        formula: "v = π D n",
        thresholds: "1.05 times the range's high end (the step rule); 1.25 for high-speed steel, 1.5 for carbide, where life falls to a fifth or sixth",
        changed_by: ChangedBy::Table,
        over: Over::Refuse,
        sources: "LIMITS_CP TAYLOR",
    },
    Row {
        limit: Limit::BodyCap,
        compared: "spindle speed of a one-tooth head, or of an edge finder",
        formula: "n √(D / 3 in)",
        thresholds: "700 and 1000 rpm at 3 in swing; 1000 and 1200 rpm for an edge finder",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "LIMITS_CP",
    },
    Row {
        limit: Limit::Rubbing,
        compared: "chip thickness",
        formula: "h = fz 2 √(ae/D (1 − ae/D)); fz from half the diameter up",
        thresholds: "0.0002 in or 0.7 of the range's low end; 0.00007 in or 0.35 of it. Work-hardening stock 0.0005 and 0.0003 in, magnesium 0.0008 and 0.0004 in. A worn edge doubles them",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "LIMITS_CP CHENG_2018",
    },
    Row {
        limit: Limit::ChipLoad,
        compared: "chip thickness over the high end of the feed table",
        formula: "h / fz high",
        thresholds: "1 and 1.5; 2.25 in soft stock",
        changed_by: ChangedBy::Table,
        over: Over::Refuse,
        sources: "LIMITS_CP",
    },
    Row {
        limit: Limit::Wheel,
        compared: "turns of the handwheel per minute",
        formula: "vf / travel per turn",
        thresholds: "the comfortable and the highest rate of the machine, 40 and 60 turns/min unless you say otherwise",
        changed_by: ChangedBy::Person,
        over: Over::Refuse,
        sources: "HAND_CP MIL_STD_1472",
    },
    Row {
        limit: Limit::Power,
        compared: "power at the cutter over the power the spindle has at this speed",
        formula: "P = kc(hm) ap ae vf; kc = kc1.1 h^−mc",
        thresholds: "0.7 and 1",
        changed_by: ChangedBy::Person,
        over: Over::Refuse,
        sources: "KIENZLE LIMITS_CP",
    },
    Row {
        limit: Limit::Bending,
        compared: "bend of cutter, shank and machine under the peak force",
        formula: "δ = F (Σ x³/3EI + 1/k)",
        thresholds: "roughing 0.002 in or 0.02 D, and 0.005 in or 0.04 D; finishing 0.0007 and 0.0015 in",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "KOPS_VO KALPAKJIAN LIMITS_CP",
    },
    Row {
        limit: Limit::Breakage,
        compared: "margin against breaking, on the worst tooth with an uneven hand",
        formula: "TRS / (1.5 √(σ² + 3 τ²))",
        thresholds: "margin 3 (4 for carbide of 1/8 in and less) and 1.5",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "KALPAKJIAN KOPS_VO LIMITS_CP",
    },
    Row {
        limit: Limit::Runout,
        compared: "what the total indicator reading adds to one tooth",
        formula: "min(h + TIR sin(π/z), z h) / fz high; TIR / D",
        thresholds: "worst tooth 1.25 and 1.6 of the table's high end (half more in soft stock); 0.008 and 0.020 of the diameter; a step over 0.7 of the chip is near, never over",
        changed_by: ChangedBy::Calibration,
        over: Over::RefuseSmall,
        sources: "F_GEOMETRY LIMITS_CP",
    },
    Row {
        limit: Limit::Climb,
        compared: "width against the width backlash forgives, and pull against the table's drag",
        formula: "pull = kc Σ f p",
        thresholds: "0.002 in (bench) or 0.005 in (heavy bench, knee) wide, up to three times that, or a pull of half to the whole drag",
        changed_by: ChangedBy::Person,
        over: Over::Refuse,
        sources: "LIMITS_CP HAND_CP",
    },
    Row {
        limit: Limit::Depth,
        compared: "depth of a pass over the depth at which chips pack; of a peck over the diameter",
        formula: "ap / (s D r), s = D/0.5 in between 1/4 and 1/2; peck / D",
        thresholds: "1 and 2; pecks 3 and 6",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "LIMITS_CP",
    },
    Row {
        limit: Limit::Thrust,
        compared: "thrust of the drill",
        formula: "T = 2 Kd f^0.8 D^0.8 B + Kd D² J",
        thresholds: "120 to 250 lbf by class is easy, 220 to 500 lbf is leaning on it",
        changed_by: ChangedBy::Calibration,
        over: Over::Refuse,
        sources: "SHAW_OXFORD HAND_CP",
    },
];

/// The row of a limit.
#[must_use]
pub fn row(limit: Limit) -> &'static Row {
    TABLE.iter().find(|r| r.limit == limit).unwrap_or(&TABLE[0])
}
