//! The stretches of a run and what is heard in each.

use super::{Accent, Beat, Leg, NotPaced, Tick, Work, delays};
use crate::engine::{
    answer::{Answer, Feed, Passes},
    quantity::{Duration, Length},
};

/// Counted aloud before work begins, in seconds before it.
const COUNT_IN: [f64; 3] = [3.0, 2.0, 1.0];

pub(super) fn usable(
    time: Duration,
    least: Duration,
    most: Duration,
    what: &'static str,
) -> Result<Duration, NotPaced> {
    if time.is_positive() && time >= least && time <= most {
        Ok(time)
    } else {
        Err(NotPaced::Unusable(what))
    }
}

pub(super) fn get_ready(delay: Duration) -> Result<Leg, NotPaced> {
    let (shortest, longest) = delays();
    let delay = usable(delay, shortest, longest, "delay")?;
    Ok(Leg {
        work: Work::GetReady,
        pass: (1, 1),
        depth: None,
        lasts: Some(delay),
        beat: None,
        beats: None,
    })
}

pub(super) fn tap(turns: f64, each: Duration) -> Leg {
    Leg {
        work: Work::Tap,
        pass: (1, 1),
        depth: None,
        lasts: Some(each * turns),
        beat: Some(each),
        beats: Some(turns),
    }
}

/// Every row of every depth, with the way back between two of them.
pub(super) fn mill(
    run: &mut Vec<Leg>,
    answer: &Answer,
    passes: &Passes,
    feed: &Feed,
    beat: Duration,
    rest: Duration,
) {
    let rows = answer.rows.as_ref().map_or(1, |rows| rows.centres.len().max(1));
    let of = passes.targets.len() * rows;
    let lasts = answer.travel.map(|travel| Duration(travel.0 / feed.rate.0));
    for pass in 1..=of {
        let depth = Some(passes.targets[(pass - 1) / rows]);
        if pass > 1 {
            let is_same_depth = (pass - 1) % rows != 0;
            let work = if is_same_depth { Work::NextRow } else { Work::GoBack };
            run.push(stop(work, (pass, of), depth, rest));
        }
        run.push(fed((pass, of), depth, lasts, beat));
        if lasts.is_none() {
            // Without a length nobody knows when the next pass begins.
            return;
        }
    }
}

/// Every peck, with a rest to clear between two of them. The depths are those of the tip.
pub(super) fn peck(
    run: &mut Vec<Leg>,
    passes: &Passes,
    feed: &Feed,
    beat: Duration,
    rest: Duration,
) {
    let of = passes.targets.len();
    let last = passes.targets.last().copied().unwrap_or(Length::ZERO);
    let point = passes.tip.map_or(Length::ZERO, |tip| (tip - last).max(Length::ZERO));
    let mut before = Length::ZERO;
    for (place, target) in passes.targets.iter().enumerate() {
        let (pass, depth) = ((place + 1, of), *target + point);
        if place > 0 {
            run.push(stop(Work::Clear, pass, Some(depth), rest));
        }
        let lasts = Duration((depth - before).0 / feed.rate.0);
        run.push(fed(pass, Some(depth), Some(lasts), beat));
        before = depth;
    }
}

fn fed(
    pass: (usize, usize),
    depth: Option<Length>,
    lasts: Option<Duration>,
    beat: Duration,
) -> Leg {
    let beats = lasts.map(|lasts| lasts / beat);
    Leg { work: Work::Feed, pass, depth, lasts, beat: Some(beat), beats }
}

fn stop(work: Work, pass: (usize, usize), depth: Option<Length>, rest: Duration) -> Leg {
    Leg { work, pass, depth, lasts: Some(rest), beat: None, beats: None }
}

/// What is heard of a stretch between two moments: a count before work, its beginning, its beats.
pub(super) fn ticks(
    leg: &Leg,
    start: f64,
    counts: Beat,
    from: f64,
    before: f64,
    ticks: &mut Vec<Tick>,
) {
    let mut add = |at: f64, accent: Accent| {
        if (from..before).contains(&at) {
            ticks.push(Tick { at: Duration::second(at), accent });
        }
    };
    let lasts = leg.lasts.map_or(f64::INFINITY, Duration::to_second);
    let Some(beat) = leg.beat.map(Duration::to_second) else {
        if start > 0.0 {
            add(start, Accent::End);
        }
        for ahead in COUNT_IN.into_iter().filter(|ahead| *ahead < lasts) {
            add(start + lasts - ahead, Accent::CountIn);
        }
        return;
    };
    add(start, Accent::Begin);
    // The beats that can be heard here, by their number: beat n stands at n lengths.
    let first = libm::floor((from - start) / beat).max(1.0);
    let last = libm::ceil((before - start).min(lasts) / beat);
    let mut n = first;
    while n <= last {
        let at = n * beat;
        // The end of a stretch has a sound of its own.
        if at < lasts - 1e-6 {
            let whole = counts == Beat::Tenth && n % 10.0 == 0.0;
            add(start + at, if whole { Accent::Whole } else { Accent::Beat });
        }
        n += 1.0;
    }
}
