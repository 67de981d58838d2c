//! The spindle speeds worth trying for a wanted one.

use super::case::Case;
use crate::engine::{
    cutters::Kind,
    cutting::handwheel,
    machine::{Speeds, speeds::STEP_ABOVE},
    quantity::{Length, SpindleSpeed},
};

/// Speeds tried over a stepless range, in equal ratios.
const STEPLESS: u32 = 24;

impl Case<'_> {
    /// Speeds to try for a wanted one, fastest first; `low_feed` is the low end of the feeds aimed
    /// at. The machine's lowest speed where all are faster than wanted.
    pub fn speeds(&self, wanted: SpindleSpeed, low_feed: Length) -> Vec<SpindleSpeed> {
        if let Some(own) = self.cut.own.spindle_speed {
            return vec![own];
        }
        let machine = self.mill.machine;
        let finder = self.mill.cutter.kind == Kind::EdgeFinder;
        let most = if finder { wanted } else { wanted * STEP_ABOVE };
        let mut speeds = Vec::with_capacity(32);
        for range in &machine.ranges {
            match &range.speeds {
                Speeds::Steps(steps) => speeds.extend(steps.iter().filter(|n| **n <= most)),
                &Speeds::Continuous { lowest, highest, .. } => {
                    self.stepless(lowest, highest.min(wanted), low_feed, &mut speeds);
                }
            }
        }
        if speeds.is_empty() {
            speeds.extend(machine.lowest());
        }
        speeds.sort_by(|a, b| b.to_rpm().total_cmp(&a.to_rpm()));
        speeds.dedup_by(|a, b| (*a - *b).abs() < *b * 1e-9);
        speeds
    }

    /// Equal ratios between two speeds, and where the low end of the feed is as much as the wheel
    /// turns easily, and at all.
    fn stepless(
        &self,
        low: SpindleSpeed,
        high: SpindleSpeed,
        low_feed: Length,
        speeds: &mut Vec<SpindleSpeed>,
    ) {
        if high < low {
            return;
        }
        let steps = f64::from(STEPLESS - 1);
        let ratio = |i| libm::pow(high / low, f64::from(i) / steps);
        speeds.extend((0..STEPLESS).map(|i| low * ratio(i)));
        if self.asked.wheel {
            let per_turn = low_feed * self.feeds.teeth;
            speeds.extend(
                [self.hand.within, self.hand.near]
                    .map(|rate| handwheel::spindle_speed_for_of(rate, self.lead, per_turn))
                    .iter()
                    .filter(|n| **n >= low && **n <= high),
            );
        }
    }
}
