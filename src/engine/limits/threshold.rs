//! The one table of limits: what each compares, where it is near and over, who may change that,
//! and what "over" does.

use crate::engine::{
    answer::{Limit, State},
    machine::Class,
};

/// Two thresholds of a quantity that should stay low.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Up to here it is within.
    pub within: f64,
    /// Up to here it is near; beyond, over.
    pub near: f64,
}

/// Slack on every comparison, so that a rounded number on a screen never flips a state.
pub const GRACE: f64 = 0.005;
/// Slack on the depth share where passes are counted: a pass more for 2 % helps nobody.
pub const DEPTH_GRACE: f64 = 0.02;

impl Band {
    const fn new(within: f64, near: f64) -> Self {
        Self { within, near }
    }
    /// The band of a quantity that must stay above two values, for its reciprocal.
    #[must_use]
    pub fn least(within: f64, near: f64) -> Self {
        Self { within: 1.0 / within, near: 1.0 / near }
    }
    /// Both thresholds times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { within: self.within * factor, near: self.near * factor }
    }
    /// 0 to 1 within, 1 to 2 near, above 2 over; linear in each, so that one bar fits all limits.
    #[must_use]
    pub fn utilisation(self, x: f64) -> f64 {
        if x <= self.within {
            x / self.within
        } else if x <= self.near {
            1.0 + (x - self.within) / (self.near - self.within)
        } else {
            2.0 * x / self.near
        }
    }
    /// The state, with [`GRACE`].
    #[must_use]
    pub fn state(self, x: f64) -> State {
        if x <= self.within * (1.0 + GRACE) {
            State::Within
        } else if x <= self.near * (1.0 + GRACE) {
            State::Near
        } else {
            State::Over
        }
    }
}

/// Surface speed over the high end of the table, high-speed steel.
pub const SPEED_HSS: Band = Band::new(1.05, 1.25);
/// Surface speed over the high end of the table, carbide.
pub const SPEED_CARBIDE: Band = Band::new(1.05, 1.5);
/// Spindle speed of a one-tooth head, times the root of its swing over 3 in, rpm.
pub const BODY_CAP: Band = Band::new(700.0, 1000.0);
/// Swing at which the caps of a one-tooth head are met as they stand, mm.
pub const BODY_CAP_SWING_MM: f64 = 3.0 * 25.4;
/// Spindle speed of a spring-loaded edge finder, rpm: over the second the tip can fly off.
pub const EDGE_FINDER_CAP: Band = Band::new(1000.0, 1200.0);
/// Chip over the high end of the table.
pub const CHIP: Band = Band::new(1.0, 1.5);
/// The same in soft stock, where the tooth is not what gives.
pub const CHIP_SOFT: Band = Band::new(1.0, 2.25);
/// Power at the cutter over power at this speed.
pub const POWER: Band = Band::new(0.7, 1.0);
/// Bend of a roughing cut in mm, and as a share of the diameter.
pub const BEND_ROUGH_MM: Band = Band::new(0.002 * 25.4, 0.005 * 25.4);
/// Bend of a roughing cut as a share of the diameter.
pub const BEND_ROUGH_SHARE: Band = Band::new(0.02, 0.04);
/// Bend of a finishing cut in mm.
pub const BEND_FINISH_MM: Band = Band::new(0.0007 * 25.4, 0.0015 * 25.4);
/// Margin against breaking that is within, high-speed steel and carbide over 1/8 in.
pub const MARGIN_WITHIN: f64 = 3.0;
/// The same for carbide of 1/8 in and less, which snaps without bending first.
pub const MARGIN_WITHIN_SMALL_CARBIDE: f64 = 4.0;
/// Margin under which a cutter breaks on the day it dulls.
pub const MARGIN_NEAR: f64 = 1.5;
/// Diameter from which down a cutter counts as small, mm.
pub const SMALL_CUTTER_MM: f64 = 0.125 * 25.4;
/// Step between neighbouring teeth over the chip; it is a note, never over.
pub const RUNOUT_RATIO_WITHIN: f64 = 0.7;
/// Utilisation of that note at the most.
pub const RUNOUT_RATIO_MOST: f64 = 1.5;
/// Share of the chip by which runout may differ for an even cut: the wish in the caution.
pub const RUNOUT_WISH: f64 = 0.3;
/// Worst tooth over the high end of the table.
pub const RUNOUT_TOOTH: Band = Band::new(1.25, 1.6);
/// Factor on it in soft stock.
pub const RUNOUT_TOOTH_SOFT: f64 = 1.5;
/// Total indicator reading over the diameter.
pub const RUNOUT_SHARE: Band = Band::new(0.008, 0.020);
/// Backlash from which down climbing is not asked about, mm.
pub const CLIMB_BACKLASH_MM: f64 = 0.002 * 25.4;
/// Width that may be climbed whatever the pull, as a multiple of the class's width.
pub const CLIMB_WIDTH: Band = Band::new(1.0, 3.0);
/// Pull on the table over its drag.
pub const CLIMB_PULL: Band = Band::new(0.5, 1.0);
/// Depth of a slot or side cut over the depth at which chips pack.
pub const DEPTH: Band = Band::new(1.0, 2.0);
/// Depth of a peck over the diameter.
pub const PECK: Band = Band::new(3.0, 6.0);
/// Unevenness of a hand within a turn of the wheel: the most over the mean.
pub const UNEVEN_HAND: f64 = 1.4;
/// Hand rate under which marks are counted instead of turns, turns per minute.
pub const SLOW_WHEEL: f64 = 7.5;

/// Width that may be climbed with backlash, mm.
#[must_use]
pub fn climb_width_mm(class: Class) -> f64 {
    match class {
        Class::LightBench | Class::Bench => 0.002 * 25.4,
        Class::HeavyBench | Class::Knee => 0.005 * 25.4,
    }
}

/// Thrust a hand gives easily and at most through the quill, N.
#[must_use]
pub fn thrust(class: Class) -> Band {
    const LBF: f64 = 4.448_221_615_260_5;
    match class {
        Class::LightBench => Band::new(120.0, 220.0),
        Class::Bench => Band::new(150.0, 300.0),
        Class::HeavyBench => Band::new(200.0, 400.0),
        Class::Knee => Band::new(250.0, 500.0),
    }
    .times(LBF)
}

/// Factor on the high surface speed for what is put on the cut: only high-speed steel in steel,
/// stainless, titanium and nickel asks for it.
pub const COOLANT_FLOOD: f64 = 1.0;
/// Oil by brush.
pub const COOLANT_BRUSH: f64 = 0.85;
/// Dry.
pub const COOLANT_DRY: f64 = 0.7;
/// Reaming over drilling speed.
pub const REAM_SPEED: f64 = 0.67;
/// Tapping over drilling speed.
pub const TAP_SPEED: f64 = 0.3;
/// Tapping over drilling speed at the most.
pub const TAP_SPEED_MOST: f64 = 0.5;
/// Countersinking over drilling speed.
pub const COUNTERSINK_SPEED: f64 = 0.25;
/// Going straight down with an end mill: share of the milling speed, and of the side feed.
pub const PLUNGE_SPEED: f64 = 0.75;
/// See [`PLUNGE_SPEED`].
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
