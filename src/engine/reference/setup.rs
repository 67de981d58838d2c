//! Topics of setting up.

use super::{Topic, units::got};
use crate::engine::setup::{dials::DialTurns, passes::PassPlan};

pub(super) const TOPICS: &[Topic] = &[
    ("pass_plan", |k| {
        let plan = PassPlan::new(k.get("total_depth")?, k.get("max_pass")?, k.get("finish")?)?;
        let pass = k.count_or("pass", 0)?;
        match k.word("quantity", &[("rough_passes", 0), ("rough_depth", 1), ("target", 2)])? {
            0 => got(plan.rough_passes),
            1 => got(plan.rough_depth),
            _ => got(plan.target(pass)?),
        }
    }),
    ("dial_turns", |k| {
        let dial = DialTurns::new(k.get("distance")?, k.get("lead")?)?;
        let per_turn = k.get_or("divisions_per_turn", 0.0)?;
        let quantities = [("turns", 0), ("whole_turns", 1), ("remainder", 2), ("divisions", 3)];
        match k.word("quantity", &quantities)? {
            0 => got(dial.turns),
            1 => got(dial.whole),
            2 => got(dial.remainder),
            _ => got(dial.divisions(per_turn)?),
        }
    }),
];
