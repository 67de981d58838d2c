//! Recognising a thread by what is measured on it.
//!
//! Never one answer: every thread that fits is a candidate, and beside them stands what tells them
//! apart.

use super::{
    Thread, all,
    gauge::{self, Ruling},
    named,
};
use crate::engine::{
    quantity::Length,
    question::{Field, InputError},
};

use core::cmp::Ordering;

include!(concat!(env!("OUT_DIR"), "/look_alikes.rs"));

/// Source of what a used thread measures.
pub const SOURCE: &str = "IDENTIFY_CP";

/// A basic major diameter lies at most so far under the measured one, in inches ...
const UNDER_IN: f64 = 0.001;
/// ... and at most so far over it: allowance, tolerance and wear.
const OVER_IN: f64 = 0.0065;
/// Share of the pitch by which a measured one may be off.
const PITCH_OFF: f64 = 0.012;
/// Chart percentage that the largest hole still called tapped leaves.
const SHALLOWEST: f64 = 50.0;
/// Steps of the misfit, from the middle of the windows to where one ends, that count as different.
const ALIKE: f64 = 4.0;
/// So many that do not fit are shown after those that do.
const NEAR_MISSES: usize = 3;
/// To spare, so that a value on the edge of a window fits whatever its unit.
const SPARE: f64 = 1e-9;
/// Share of the pitch within which a measured one is the thread's own.
const OWN_PITCH: f64 = 0.001;

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measured {
    /// Diameter over the crests of an external thread.
    Crests(Length),
    /// Bore of an internal thread, over its ridges.
    Bore(Length),
}

/// Two threads that are taken for each other.
#[derive(Debug, PartialEq, Eq)]
pub struct LookAlike {
    /// Designation of one.
    pub one: &'static str,
    /// Designation of the other.
    pub other: &'static str,
    /// What tells them apart, in sentences.
    pub by: &'static str,
    /// Tags of the sources.
    pub source: &'static str,
}

/// A thread that may be the measured one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The thread.
    pub thread: Thread,
    /// Measured less basic diameter.
    pub diameter_off: Length,
    /// Measured less own pitch, where one was measured.
    pub pitch_off: Option<Length>,
    /// That as a share of its pitch.
    pub pitch_off_share: Option<f64>,
    /// Whether diameter and pitch lie within what a used thread measures.
    pub fits: bool,
    /// How far from the middle of both windows: the smaller, the likelier.
    misfit: f64,
}

/// What differs between two threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Between their basic major diameters.
    pub diameter: Length,
    /// Between ten pitches of each.
    pub over_ten_threads: Length,
    /// Whether the angle between their flanks differs.
    pub flanks: bool,
    /// Whether one is a taper and the other is not.
    pub taper: bool,
}

/// The pitch from so many threads counted over a length, crest to crest.
///
/// # Errors
/// No thread, or a length that is not above 0.
pub fn pitch_from_count(threads: f64, over: Length) -> Result<Length, InputError> {
    if !(threads > 0.0 && threads <= 10_000.0) {
        return Err(InputError::new(
            Field::ThreadsCounted,
            "At least one thread has to be counted.",
            "Count the gaps between crests: ten of them are a good number.",
        ));
    }
    if !over.is_positive() {
        return Err(InputError::new(
            Field::CountedOver,
            "The length counted over has to be more than 0.",
            "Measure from one crest to another.",
        ));
    }
    Ok(over / threads)
}

/// Whether a thread fits an external one of this measured major diameter and pitch: its basic
/// major diameter lies from 0.001 in below to 0.0065 in above the measured one, its pitch within
/// 1.2 %.
#[must_use]
pub fn fits(thread: Thread, major: Length, pitch: Length) -> bool {
    Candidate::of(thread, Measured::Crests(major), Some(pitch)).fits
}

/// Every thread that fits what was measured, the likeliest first, and a few near misses.
///
/// # Errors
/// A diameter or pitch that is no size of a thread.
pub fn identify(measured: Measured, pitch: Option<Length>) -> Result<Vec<Candidate>, InputError> {
    let (Measured::Crests(diameter) | Measured::Bore(diameter)) = measured;
    let sensible =
        |length: Length, least: f64, most: f64| length.to_mm() > least && length.to_mm() < most;
    if !sensible(diameter, 0.1, 1000.0) {
        return Err(InputError::new(
            Field::MeasuredDiameter,
            "No thread has this diameter.",
            "Measure over the crests, and look at the unit.",
        ));
    }
    if pitch.is_some_and(|pitch| !sensible(pitch, 0.05, 50.0)) {
        return Err(InputError::new(
            Field::MeasuredPitch,
            "No thread has this pitch.",
            "Measure ten threads and divide, or count the threads in an inch: more than 0.",
        ));
    }
    let mut found: Vec<_> = all().map(|thread| Candidate::of(thread, measured, pitch)).collect();
    // What fits alike is no likelier by a hair: there the commoner series stands first, which is
    // the order of `Series`.
    let alike = |c: &Candidate| if c.fits { (c.misfit * ALIKE) as u32 } else { 0 };
    found.sort_by(|a, b| {
        b.fits
            .cmp(&a.fits)
            .then(alike(a).cmp(&alike(b)))
            .then(if a.fits { a.thread.series().cmp(&b.thread.series()) } else { Ordering::Equal })
            .then(a.misfit.total_cmp(&b.misfit))
    });
    let fitting = found.iter().take_while(|c| c.fits).count();
    found.truncate(fitting + NEAR_MISSES);
    Ok(found)
}

impl Candidate {
    /// True where the measured pitch is the thread's own.
    #[must_use]
    pub fn has_its_pitch(&self) -> bool {
        self.pitch_off_share.is_some_and(|share| share.abs() < OWN_PITCH)
    }

    /// What the measured pitch is longer over ten threads than ten of the thread's own.
    #[must_use]
    pub fn off_over_ten_threads(&self) -> Option<Length> {
        self.pitch_off.map(|off| off * 10.0)
    }

    fn of(thread: Thread, measured: Measured, pitch: Option<Length>) -> Self {
        let (off, least, most) = match measured {
            Measured::Crests(diameter) => (diameter - thread.major(), -OVER_IN, UNDER_IN),
            Measured::Bore(diameter) => {
                let basic = thread.basic_minor();
                let shallow = thread.pitch() * (1.299_038 * SHALLOWEST / 100.0);
                let most = thread.major() - shallow - basic;
                (diameter - basic, -UNDER_IN, most.to_inch().max(UNDER_IN))
            }
        };
        let inch = off.to_inch();
        let (middle, half) = ((least + most) / 2.0, (most - least) / 2.0);
        let by_diameter = (inch - middle) / half;
        let pitch_off = pitch.map(|pitch| pitch - thread.pitch());
        let share = pitch_off.map(|off| off / thread.pitch());
        let by_pitch = share.map_or(0.0, |share| share / PITCH_OFF);
        Self {
            thread,
            diameter_off: off,
            pitch_off,
            pitch_off_share: share,
            fits: by_diameter.abs() <= 1.0 + SPARE && by_pitch.abs() <= 1.0 + SPARE,
            misfit: by_diameter * by_diameter + by_pitch * by_pitch,
        }
    }
}

/// What differs between two threads.
#[must_use]
pub fn difference(one: Thread, other: Thread) -> Difference {
    Difference {
        diameter: (one.major() - other.major()).abs(),
        over_ten_threads: (one.pitch() - other.pitch()).abs() * 10.0,
        flanks: one.form().flank_angle() != other.form().flank_angle(),
        taper: one.series().is_taper() != other.series().is_taper(),
    }
}

/// The pairs that a thread is one of.
pub fn look_alikes(thread: Thread) -> impl Iterator<Item = (Thread, &'static LookAlike)> {
    let name = thread.with_hand(super::Hand::Right).designation();
    LOOK_ALIKES.iter().filter_map(move |pair| {
        let other = if pair.one == name {
            pair.other
        } else if pair.other == name {
            pair.one
        } else {
            return None;
        };
        Some((named(other).ok()?, pair))
    })
}

/// The pairs that the threads which fit belong to, each once, in the order of the threads.
#[must_use]
pub fn pairs_of(found: &[Candidate]) -> Vec<&'static LookAlike> {
    let mut pairs: Vec<&'static LookAlike> = Vec::new();
    for candidate in found.iter().filter(|candidate| candidate.fits) {
        for (_, pair) in look_alikes(candidate.thread) {
            if !pairs.contains(&pair) {
                pairs.push(pair);
            }
        }
    }
    pairs
}

/// The pitches to hold a screw against: that of the likeliest thread, and the next one that can be
/// meant, of another thread that fits or of a look-alike.
#[must_use]
pub fn to_hold_against(found: &[Candidate]) -> Option<(Ruling, Option<Ruling>)> {
    let first = found.first()?.thread;
    let one = gauge::ruling(first);
    let fitting = found.iter().filter(|candidate| candidate.fits).map(|c| c.thread);
    let alike = look_alikes(first).map(|(thread, _)| thread);
    let other = fitting.chain(alike).map(gauge::ruling).find(|other| *other != one);
    Some((one, other))
}

/// All pairs that are taken for each other.
#[must_use]
pub fn all_look_alikes() -> &'static [LookAlike] {
    LOOK_ALIKES
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fitting(measured: Measured, pitch: Length) -> Vec<String> {
        let found = identify(measured, Some(pitch)).expect("measured");
        found.iter().filter(|c| c.fits).map(|c| c.thread.designation()).collect()
    }

    #[test]
    fn everything_that_fits_is_listed() {
        let inch =
            |d: f64, tpi: f64| fitting(Measured::Crests(Length::inch(d)), Length::inch(1.0 / tpi));
        for (found, names) in [
            (inch(0.2485, 20.0), vec!["1/4-20 UNC", "1/4-20 BSW"]),
            (inch(0.188, 32.0), vec!["10-32 UNF", "3/16-32 BSF", "3/16-32 ME"]),
            (fitting(Measured::Crests(Length::mm(5.95)), Length::mm(1.0)), vec!["M6x1", "0 BA"]),
        ] {
            for name in &names {
                assert!(found.iter().any(|f| f == name), "{name} in {found:?}");
            }
        }
        assert!(!inch(0.498, 13.0).contains(&"1/2-12 BSW".to_owned()));
    }

    #[test]
    fn a_bore_is_known_by_its_minor_diameter() {
        let found = fitting(Measured::Bore(Length::mm(5.05)), Length::mm(1.0));
        assert_eq!(found.first().map(String::as_str), Some("M6x1"), "{found:?}");
        assert!(found.contains(&"0 BA".to_owned()), "{found:?}");
        assert!(!found.contains(&"M5x0.8".to_owned()));
    }

    #[test]
    fn every_thread_is_recognised_from_its_own_class() {
        for thread in all() {
            let Some(limits) = thread.external() else { continue };
            // The largest diameters and coarsest pitches have a wider tolerance than wear.
            if limits.major.most - limits.major.least > Length::inch(0.005) {
                continue;
            }
            assert!(fits(thread, limits.major.most, thread.pitch()), "{}", thread.designation());
        }
    }

    #[test]
    fn look_alikes_are_threads_of_the_list_and_said_in_sentences() {
        for pair in all_look_alikes() {
            for name in [pair.one, pair.other] {
                let thread = named(name).expect(name);
                assert_eq!(thread.designation(), name);
                assert!(look_alikes(thread).next().is_some());
            }
            assert!(pair.by.ends_with('.'));
        }
        let m6 = named("M6").expect("listed");
        let apart = difference(m6, named("1/4-20").expect("listed"));
        assert!((apart.over_ten_threads.to_mm() - 2.7).abs() < 1e-9 && !apart.flanks);
        let twins = difference(m6, named("0 BA").expect("listed"));
        assert!(twins.flanks && twins.diameter == Length::ZERO);
    }

    #[test]
    fn a_pair_that_ruins_threads_is_told_with_either_of_its_threads() {
        let found =
            identify(Measured::Crests(Length::mm(4.95)), Some(Length::mm(0.8))).expect("measured");
        assert_eq!(found[0].thread.designation(), "M5x0.8");
        assert!(!found.iter().any(|c| c.fits && c.thread.designation() == "10-32 UNF"));
        assert!(pairs_of(&found).iter().any(|p| (p.one, p.other) == ("10-32 UNF", "M5x0.8")));
        let (one, other) = to_hold_against(&found).expect("a pitch");
        assert_eq!(
            (one.name.as_str(), other.expect("another").name.as_str()),
            ("0.8 mm", "32 tpi")
        );
        // Twins of one pitch are held against no second one.
        let twins = identify(Measured::Crests(Length::mm(5.95)), Some(Length::mm(1.0)));
        let pairs = pairs_of(twins.as_ref().expect("measured"));
        assert_eq!(pairs.iter().filter(|p| p.other == "0 BA").count(), 1, "told twice");
        assert_eq!(to_hold_against(&[]), None);
    }

    #[test]
    fn what_was_not_measured_is_said_at_its_field() {
        let field = |d: f64, p: Option<f64>| {
            identify(Measured::Crests(Length::mm(d)), p.map(Length::mm)).expect_err("refused").field
        };
        for d in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            assert_eq!(field(d, None), Field::MeasuredDiameter);
            assert_eq!(field(6.0, Some(d)), Field::MeasuredPitch);
        }
        assert_eq!(field(6.0, Some(0.01)), Field::MeasuredPitch);
        assert_eq!(field(0.05, None), Field::MeasuredDiameter);
        assert_eq!(
            pitch_from_count(0.0, Length::mm(10.0)).unwrap_err().field,
            Field::ThreadsCounted
        );
        assert_eq!(pitch_from_count(10.0, Length::ZERO).unwrap_err().field, Field::CountedOver);
        assert!((pitch_from_count(10.0, Length::mm(8.0)).unwrap().to_mm() - 0.8).abs() < 1e-12);
    }
}
