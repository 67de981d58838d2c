//! Which mill: the same cut asked of every one, why each loses, and what would change that.
//!
//! A mill that cannot make the cut, has no room for it or is over a limit that another one keeps
//! comes behind; then one that stands set up for something else; then the slower one. What holds
//! the cut back on every mill alike decides nothing and is named apart.

use crate::engine::{
    answer::{Answer, Because, Concession, Limit, Reading, State},
    cutters::{Kind, ToolMaterial},
    limits,
    machine::{Machine, Range, Speeds},
    quantity::{HandRate, Length, Power, SpindleSpeed},
    question::{Cut, InputError, OnTheMill},
};

/// Sources of what is compared: the step rule of the speeds and the order of the reasons.
pub const SOURCE: &str = "LIMITS_CP HAND_CP";

/// A step this share above the wanted speed is as good as the wanted one.
const STEP_OVER: f64 = 1.05;
/// Times this share apart are the same.
const SAME: f64 = 1.02;

/// One of the mills.
#[derive(Clone, Copy, Debug)]
pub struct Candidate<'a> {
    /// The mill.
    pub machine: &'a Machine,
    /// From its table to the nose of a holder at the most.
    pub room: Option<Length>,
    /// It stands set up for something else.
    pub busy: bool,
}

/// Why a mill loses, or what it pays.
#[derive(Clone, Debug, PartialEq)]
pub enum Loss {
    /// The cut cannot be worked out on it.
    Cannot(InputError),
    /// So much is missing between table and holder.
    Height(Length),
    /// It stands set up for something else.
    Busy,
    /// Over or nearer to this limit than the best one.
    Limit(Reading),
    /// Its fastest or nearest speed is slower than what is wanted.
    TooSlow {
        /// The nearest it has.
        able: SpindleSpeed,
        /// Wanted.
        wanted: SpindleSpeed,
    },
    /// Its slowest speed is faster than what is wanted.
    TooFast {
        /// The slowest it has.
        able: SpindleSpeed,
        /// Wanted.
        wanted: SpindleSpeed,
    },
    /// No hand turns its wheel as fast as the wanted speed asks.
    Wheel {
        /// The rate at the speed it could run.
        rate: HandRate,
        /// The highest that stays steady.
        most: HandRate,
        /// The speed that a hand can follow.
        set: SpindleSpeed,
    },
    /// This limit slows it down.
    HeldBy(Limit),
    /// It takes so many times as long as the best one.
    Slower(f64),
}

/// What would make another mill the one to take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turn {
    /// If one turn of its wheel moved this much.
    Lead(Length),
    /// If it had this speed.
    Speed(SpindleSpeed),
    /// If it had this power at the cutter.
    Power(Power),
    /// If the work stood this much lower.
    Lower(Length),
    /// If its set-up were taken down.
    TakeDown,
    /// With a cutter of so many flutes.
    Teeth(u32),
    /// With a carbide cutter.
    Carbide,
}

/// How a mill stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// Its place among the mills asked.
    pub mill: usize,
    /// Its answer.
    pub answer: Option<Answer>,
    /// The speed nearest to the wanted one that it has.
    pub able: Option<SpindleSpeed>,
    /// Why it is not the best one; for the best one, what it pays.
    pub losses: Vec<Loss>,
    /// What would make it the one to take.
    pub turns: Vec<Turn>,
}

/// The mills side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The one to take first.
    pub standings: Vec<Standing>,
    /// What is near or over on every one of them.
    pub everywhere: Vec<Reading>,
    /// False where not even the first can make the cut.
    pub can: bool,
}

/// What the mills are asked.
#[derive(Clone, Debug)]
pub struct Wanted<'a> {
    /// What is on the mill; its machine counts for nothing.
    pub mill: OnTheMill<'a>,
    /// The cut.
    pub cut: Cut,
    /// From the table to the top of the work.
    pub stack: Option<Length>,
}

/// What a mill is ranked by, the first that differs deciding.
type Key = [f64; 6];

/// A mill with its answer.
struct Asked {
    answer: Result<Answer, Vec<InputError>>,
    missing: Option<Length>,
}

fn ask(wanted: &Wanted, candidate: &Candidate) -> Asked {
    let on = OnTheMill { machine: candidate.machine, ..wanted.mill.clone() };
    let needs = wanted.stack.map(|stack| stack + wanted.mill.cutter.stickout);
    let missing = needs.zip(candidate.room).map(|(needs, room)| needs - room);
    Asked {
        answer: limits::answer(&on, &wanted.cut),
        missing: missing.filter(|missing| *missing > Length::um(1.0)),
    }
}

/// Time for the cut, or what stands for it: passes over the feed.
fn time_of(answer: &Answer) -> f64 {
    let passes = answer.passes.as_ref().map_or(1, |passes| passes.targets.len().max(1));
    match (answer.time, answer.feed) {
        (Some(time), _) => time.to_second(),
        (None, Some(feed)) => passes as f64 / feed.rate.to_mm_per_min(),
        // Only a speed is asked: the farther from the wanted one, the worse.
        (None, None) => (answer.speed.wanted / answer.speed.set).max(1.0),
    }
}

fn reading(answer: &Answer, limit: Limit) -> Option<&Reading> {
    answer.limits.iter().find(|reading| reading.limit == limit)
}

/// The limits that are over on each of them.
fn over_everywhere(asked: &[Asked]) -> Vec<Limit> {
    let mut answers = asked.iter().filter_map(|asked| asked.answer.as_ref().ok());
    let Some(first) = answers.next() else { return Vec::new() };
    let rest: Vec<&Answer> = answers.collect();
    let is_over = |answer: &Answer, limit| {
        reading(answer, limit).is_some_and(|reading| reading.state == State::Over)
    };
    let limits = first.limits.iter().map(|reading| reading.limit);
    limits
        .filter(|limit| is_over(first, *limit) && rest.iter().all(|a| is_over(a, *limit)))
        .collect()
}

fn key(asked: &Asked, candidate: &Candidate, shared: &[Limit]) -> Key {
    let flag = |on: bool| if on { 1.0 } else { 0.0 };
    let Ok(answer) = &asked.answer else { return [1.0, 0.0, 0.0, 0.0, 0.0, 0.0] };
    let own_over = answer
        .limits
        .iter()
        .any(|reading| reading.state == State::Over && !shared.contains(&reading.limit));
    let worst = answer
        .limits
        .iter()
        .filter(|reading| !shared.contains(&reading.limit))
        .map(|reading| reading.utilisation)
        .fold(0.0, f64::max);
    [
        0.0,
        flag(asked.missing.is_some()),
        flag(own_over),
        flag(candidate.busy),
        time_of(answer),
        worst,
    ]
}

/// The mills asked, the places of the best first.
fn rank(wanted: &Wanted, candidates: &[Candidate]) -> (Vec<Asked>, Vec<usize>) {
    let asked: Vec<Asked> = candidates.iter().map(|one| ask(wanted, one)).collect();
    let shared = over_everywhere(&asked);
    let keys: Vec<Key> =
        asked.iter().zip(candidates).map(|(asked, one)| key(asked, one, &shared)).collect();
    let mut order: Vec<usize> = (0..candidates.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&keys[*a], &keys[*b]);
        let same_time = a[4] < b[4] * SAME && b[4] < a[4] * SAME;
        let places = (0..a.len()).filter(|place| *place != 4 || !same_time);
        let differs = places.map(|place| a[place].total_cmp(&b[place])).find(|o| o.is_ne());
        differs.unwrap_or(core::cmp::Ordering::Equal)
    });
    (asked, order)
}

/// Asks the same cut of every mill.
#[must_use]
pub fn which(wanted: &Wanted, candidates: &[Candidate]) -> Choice {
    let (mut asked, order) = rank(wanted, candidates);
    let shared = over_everywhere(&asked);
    let best = order.first().and_then(|place| asked[*place].answer.as_ref().ok()).cloned();
    let everywhere = best.iter().flat_map(|answer| &answer.limits);
    let everywhere =
        everywhere.filter(|reading| shared.contains(&reading.limit)).cloned().collect();
    let standings: Vec<Standing> = order
        .iter()
        .enumerate()
        .map(|(rank, place)| {
            let candidate = &candidates[*place];
            let losses = losses(&asked[*place], candidate, best.as_ref(), &shared, rank == 0);
            let turns = if rank == 0 {
                Vec::new()
            } else {
                turns(wanted, candidates, *place, &losses, best.as_ref())
            };
            let answer = asked[*place].answer.as_ref().ok();
            let able = answer.and_then(|answer| able(candidate.machine, answer.speed.wanted));
            Standing { mill: *place, answer: None, able, losses, turns }
        })
        .collect();
    let mut choice = Choice { standings, everywhere, can: best.is_some() };
    for standing in &mut choice.standings {
        let taken = core::mem::replace(&mut asked[standing.mill].answer, Err(Vec::new()));
        standing.answer = taken.ok();
    }
    choice
}

/// The speed that a machine would run at for a wanted one: the highest that is not well above it,
/// else its lowest.
fn able(machine: &Machine, wanted: SpindleSpeed) -> Option<SpindleSpeed> {
    let (below, _) = machine.neighbours(wanted * STEP_OVER);
    // A range without steps has the wanted one itself.
    let exact = machine.range_of(wanted).map(|_| wanted);
    exact.or(below).or_else(|| machine.lowest())
}

/// The rate of the wheel at a speed, with the feed of an answer.
fn rate_at(machine: &Machine, answer: &Answer, speed: SpindleSpeed) -> Option<HandRate> {
    let feed = answer.feed.filter(|feed| feed.wheel.is_some())?;
    let turns = feed.per_turn / machine.table.lead;
    Some(HandRate::turns_per_min(speed.to_rpm() * turns))
}

fn losses(
    asked: &Asked,
    candidate: &Candidate,
    best: Option<&Answer>,
    shared: &[Limit],
    is_best: bool,
) -> Vec<Loss> {
    let mut losses = Vec::new();
    let answer = match &asked.answer {
        Ok(answer) => answer,
        Err(errors) => return errors.iter().cloned().map(Loss::Cannot).collect(),
    };
    losses.extend(asked.missing.map(Loss::Height));
    if candidate.busy {
        losses.push(Loss::Busy);
    }
    for reading in &answer.limits {
        let than = best.and_then(|best| self::reading(best, reading.limit));
        let is_worse = is_best || than.is_none_or(|than| reading.state > than.state);
        if reading.state == State::Over && is_worse && !shared.contains(&reading.limit) {
            losses.push(Loss::Limit(reading.clone()));
        }
    }
    let (machine, wanted) = (candidate.machine, answer.speed.wanted);
    if let Some(able) = able(machine, wanted) {
        if able > wanted * STEP_OVER {
            losses.push(Loss::TooFast { able, wanted });
        } else if able < wanted / STEP_OVER {
            losses.push(Loss::TooSlow { able, wanted });
        }
    }
    for given in &answer.given_up {
        if let Concession::Speed { set, because: Because::Limit(limit), .. } = given {
            let able = able(machine, wanted).unwrap_or(wanted);
            let most = machine.highest_rate;
            match rate_at(machine, answer, able) {
                Some(rate) if *limit == Limit::Wheel && rate > most => {
                    losses.push(Loss::Wheel { rate, most, set: *set });
                }
                _ => losses.push(Loss::HeldBy(*limit)),
            }
        }
    }
    if let Some(best) = best.filter(|_| !is_best) {
        let times = time_of(answer) / time_of(best);
        if times > SAME {
            losses.push(Loss::Slower(times));
        }
    }
    losses
}

/// What would make a mill the best one; each is tried out.
fn turns(
    wanted: &Wanted,
    candidates: &[Candidate],
    place: usize,
    losses: &[Loss],
    best: Option<&Answer>,
) -> Vec<Turn> {
    let machine = candidates[place].machine;
    let mut tries = Vec::new();
    for loss in losses {
        match loss {
            Loss::Height(missing) => tries.push(Turn::Lower(*missing)),
            Loss::Busy => tries.push(Turn::TakeDown),
            Loss::Wheel { most, .. } => {
                // Faster than the best one at the highest rate of the hand, or at one that is easy.
                if let Some(feed) = best.and_then(|best| best.feed) {
                    for rate in [*most, machine.comfortable_rate] {
                        let per_turn = feed.rate.to_mm_per_min() / rate.to_turns_per_min();
                        tries.push(Turn::Lead(Length::mm(per_turn * (2.0 * SAME - 1.0))));
                    }
                }
            }
            Loss::TooSlow { wanted, .. } | Loss::TooFast { wanted, .. } => {
                tries.push(Turn::Speed(*wanted));
            }
            Loss::HeldBy(Limit::Power) | Loss::Limit(Reading { limit: Limit::Power, .. }) => {
                tries.push(Turn::Power(machine.power_or_assumed() * 2.0));
            }
            _ => {}
        }
    }
    let cutter = &wanted.mill.cutter;
    if matches!(cutter.kind, Kind::EndMill { .. }) && cutter.teeth > 2 {
        tries.push(Turn::Teeth(cutter.teeth / 2));
    }
    if cutter.material != ToolMaterial::Carbide {
        tries.push(Turn::Carbide);
    }
    tries.retain(|turn| turned(wanted, candidates, place, *turn) == Some(place));
    // Of two travels the shorter one.
    tries.dedup_by(|a, b| matches!((a, b), (Turn::Lead(_), Turn::Lead(_))));
    tries
}

/// The best mill after a change at one of them, or at the cutter; `None` where none can cut.
fn turned(wanted: &Wanted, candidates: &[Candidate], place: usize, turn: Turn) -> Option<usize> {
    let (mut wanted, mut candidates) = (wanted.clone(), candidates.to_vec());
    let mut machine = candidates[place].machine.clone();
    match turn {
        Turn::Lead(lead) => machine.table.lead = lead,
        Turn::Speed(speed) => {
            let name = machine.ranges.first().map(|range| range.name.clone()).unwrap_or_default();
            machine.ranges.push(Range {
                name,
                speeds: Speeds::Steps(vec![speed]),
                clockwise_label: None,
                counter_clockwise_label: None,
            });
        }
        Turn::Power(power) => machine.power = Some(power),
        Turn::Lower(missing) => wanted.stack = wanted.stack.map(|stack| stack - missing),
        Turn::TakeDown => candidates[place].busy = false,
        Turn::Teeth(teeth) => wanted.mill.cutter.teeth = teeth,
        Turn::Carbide => wanted.mill.cutter.material = ToolMaterial::Carbide,
    }
    candidates[place].machine = &machine;
    let (asked, order) = rank(&wanted, &candidates);
    order.first().copied().filter(|first| asked[*first].answer.is_ok())
}
