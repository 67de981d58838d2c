//! Every limit read off at a point.

use super::{
    case::Case,
    pass::Pass,
    threshold::{self as t, Band, Compared},
};
use crate::engine::{
    answer::{Limit, State},
    cutting::{handwheel, runout},
    quantity::{Length, SpindleSpeed, value::Value},
};

/// One limit at one point.
#[derive(Clone, Copy, Debug)]
pub struct Mark {
    pub limit: Limit,
    /// 0 to 1 within, 1 to 2 near, above 2 over.
    pub utilisation: f64,
    pub state: State,
    /// What is compared.
    pub value: Value,
    /// Where it begins to be near, and where it is over.
    pub thresholds: (Value, Value),
}

impl Mark {
    fn new<Q: Compared>(limit: Limit, x: Q, band: Band<Q>, show: impl Fn(Q) -> Value) -> Self {
        Self {
            limit,
            utilisation: band.utilisation(x),
            state: band.state(x),
            value: show(x),
            thresholds: (show(band.within), show(band.near)),
        }
    }

    /// State first, then utilisation.
    fn is_worse_than(&self, other: &Self) -> bool {
        self.state > other.state
            || self.state == other.state && self.utilisation > other.utilisation
    }
}

/// Every limit at one point.
#[derive(Clone, Copy, Debug, Default)]
pub struct Marks {
    items: [Option<Mark>; 12],
}

impl Marks {
    fn put(&mut self, mark: Mark) {
        self.items[mark.limit as usize] = Some(mark);
    }
    /// The limit, if it is asked.
    pub fn get(&self, limit: Limit) -> Option<&Mark> {
        self.items[limit as usize].as_ref()
    }
    /// All that are asked.
    pub fn iter(&self) -> impl Iterator<Item = &Mark> {
        self.items.iter().flatten()
    }
    /// The greatest utilisation.
    pub fn worst(&self) -> f64 {
        self.iter().map(|m| m.utilisation).fold(0.0, f64::max)
    }
    /// The limit that stops the cut: over, and not the runout of a cutter over 1/8 in, which is a
    /// strong caution only. The worst where several do.
    pub fn stopping(&self, case: &Case) -> Option<Limit> {
        let stops = |limit| limit != Limit::Runout || case.is_small();
        worst(self.iter().filter(|m| m.state == State::Over && stops(m.limit)))
    }
    /// The limit that holds the cut back.
    pub fn binding(&self) -> Option<Limit> {
        worst(self.iter())
    }
}

fn worst<'a>(marks: impl Iterator<Item = &'a Mark>) -> Option<Limit> {
    marks
        .reduce(|worst, mark| if mark.is_worse_than(worst) { mark } else { worst })
        .map(|mark| mark.limit)
}

impl Pass<'_> {
    /// Every limit at a speed and a feed per tooth or turn.
    pub fn read(&self, n: SpindleSpeed, f: Length) -> Marks {
        let case = self.case;
        let mut marks = self.read_whatever_feed(n);
        if case.asked.chip {
            let rub = f * self.rub_share();
            marks.put(Mark::new(Limit::Rubbing, rub, case.feeds.least, Value::Chip));
            let chip = f * self.largest;
            marks.put(Mark::new(Limit::ChipLoad, chip, case.chip_band(), Value::Chip));
        }
        if case.asked.wheel {
            let hand = handwheel::hand_rate_of(case.rate(n, f), case.lead);
            marks.put(Mark::new(Limit::Wheel, hand, case.hand, Value::HandRate));
        }
        if case.asked.power {
            let band = t::POWER.of(case.power_at(n));
            marks.put(Mark::new(Limit::Power, self.power(n, f), band, Value::Power));
        }
        if case.asked.bend {
            let bend = self.bend_under(self.peak_force(f));
            marks.put(Mark::new(Limit::Bending, bend, case.bend_band(), Value::Length));
        }
        if case.asked.breakage {
            let margin = self.margin_under(self.worst_force(f));
            marks.put(Mark::new(Limit::Breakage, margin, case.margin_band(), Value::Ratio));
            marks.put(self.read_runout(f));
        }
        if case.climb {
            marks.put(self.read_climb(f));
        }
        if let Some(drill) = self.drill() {
            let band = t::thrust(case.mill.machine.class);
            marks.put(Mark::new(Limit::Thrust, drill.thrust(f), band, Value::Force));
        }
        marks
    }

    /// The limits that do not depend on the feed.
    fn read_whatever_feed(&self, n: SpindleSpeed) -> Marks {
        let mut marks = Marks::default();
        if let Some(band) = self.case.surface.most {
            marks.put(Mark::new(Limit::Speed, self.surface(n), band, Value::SurfaceSpeed));
        }
        if self.case.asked.cap {
            marks.put(Mark::new(Limit::BodyCap, n, self.case.cap_band(), Value::SpindleSpeed));
        }
        if let Some((depth, band)) = self.packing {
            marks.put(Mark::new(Limit::Depth, depth, band, Value::Length));
        }
        marks
    }

    /// The limits that are over whatever the feed, worst first in the order of the table.
    pub fn over_whatever_feed(&self, n: SpindleSpeed) -> impl Iterator<Item = Limit> + use<'_> {
        let case = self.case;
        let over = |is: bool, limit| is.then_some(limit);
        let share = case.runout / case.diameter;
        [
            over(
                case.surface.most.is_some_and(|b| b.state(self.surface(n)) == State::Over),
                Limit::Speed,
            ),
            over(case.asked.cap && case.cap_band().state(n) == State::Over, Limit::BodyCap),
            over(
                case.asked.breakage
                    && case.is_small()
                    && t::RUNOUT_SHARE.state(share) == State::Over,
                Limit::Runout,
            ),
            over(
                self.packing.is_some_and(|(depth, band)| band.state(depth) == State::Over),
                Limit::Depth,
            ),
        ]
        .into_iter()
        .flatten()
    }

    /// The three ways runout is looked at; the worst counts. The reading shown is the indicator's,
    /// and where that would turn near and over.
    fn read_runout(&self, f: Length) -> Mark {
        let case = self.case;
        let chip = f * self.largest;
        let show = |_| Value::Length(case.runout);
        let ratio = case.step / chip;
        let mut note =
            Mark::new(Limit::Runout, ratio, Band::new(t::RUNOUT_RATIO, f64::INFINITY), show);
        note.utilisation = (ratio / t::RUNOUT_RATIO).min(t::RUNOUT_RATIO_MOST);
        let worst = runout::worst_tooth_of(chip, case.teeth, case.step);
        let tooth =
            Mark::new(Limit::Runout, worst, case.tooth_band(), |_| Value::Length(case.runout));
        let share = Mark::new(Limit::Runout, case.runout / case.diameter, t::RUNOUT_SHARE, show);
        let mark = [tooth, share]
            .into_iter()
            .fold(note, |worst, mark| if mark.is_worse_than(&worst) { mark } else { worst });
        let (near, over) = self.runout_thresholds(chip);
        Mark { thresholds: (Value::Length(near), Value::Length(over)), ..mark }
    }

    /// Total indicator readings at which runout turns near and over for a chip.
    fn runout_thresholds(&self, chip: Length) -> (Length, Length) {
        let case = self.case;
        let z = case.teeth;
        let reading = |step: Length| runout::runout_limit_of(step, z, 1.0);
        let by_tooth = |most: Length| {
            if chip * f64::from(z) <= most {
                Length::mm(f64::INFINITY)
            } else {
                reading((most - chip).max(Length::ZERO))
            }
        };
        let tooth = case.tooth_band();
        let share = t::RUNOUT_SHARE.of(case.diameter);
        let note = reading(chip * t::RUNOUT_RATIO);
        (note.min(by_tooth(tooth.within)).min(share.within), by_tooth(tooth.near).min(share.near))
    }

    /// Width against what backlash forgives, and pull against the table's drag: over only where
    /// both are.
    fn read_climb(&self, f: Length) -> Mark {
        let class = self.case.mill.machine.class;
        let width = Mark::new(Limit::Climb, self.width, t::climb_width(class), Value::Length);
        if width.state == State::Within {
            return width;
        }
        let band = t::CLIMB_PULL.of(self.case.drag);
        let mut pull = Mark::new(Limit::Climb, self.pull(f), band, Value::Force);
        // Wider than backlash forgives it is never well within, however light the pull.
        pull.state = pull.state.max(State::Near);
        pull.utilisation = pull.utilisation.max(1.0 + t::GRACE);
        if pull.utilisation < width.utilisation { pull } else { width }
    }
}
