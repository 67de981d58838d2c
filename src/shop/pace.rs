//! How a cut is paced, as it is asked for.

use core::ops::RangeInclusive;

use crate::{
    engine::{
        pace::{Beat, Choice, MOST_TURNS, delays, longest_rest, tap_turns},
        quantity::Duration,
        question::{Field, InputError},
    },
    shop::{
        cuts::CutForm,
        query::{NO, Query, answer, choose_open, pairs},
        word::words,
    },
};

words!(Beat:
    Turn = "turn",
    Tenth = "tenth",
    TenThou = "10_thou",
    FifthMm = "0.2_mm",
    Eighth = "eighth",
    TapTurn = "tap_turn",
);

/// The shortest and the longest delay, in whole seconds.
#[must_use]
pub fn delay_range() -> RangeInclusive<u32> {
    whole(delays())
}

/// The shortest and the longest rest, in whole seconds.
#[must_use]
pub fn rest_range() -> RangeInclusive<u32> {
    whole((Duration::second(1.0), longest_rest()))
}

/// The shortest and the longest time of one turn of a tap, in whole seconds.
#[must_use]
pub fn turn_range() -> RangeInclusive<u32> {
    whole(tap_turns())
}

fn whole((least, most): (Duration, Duration)) -> RangeInclusive<u32> {
    least.to_second() as u32..=most.to_second() as u32
}

/// A cut, or the turns of a tap, and the pace for it.
#[derive(Clone, Debug, PartialEq)]
pub struct PaceForm {
    /// The cut.
    pub cut: CutForm,
    /// Turns of a tap by hand, in place of a cut.
    pub turns: Option<f64>,
    /// Seconds for one of them.
    pub each: u32,
    /// What a beat stands for; `None` for the one that suits the feed.
    pub beat: Option<Beat>,
    /// Seconds from the start to the first beat.
    pub delay: u32,
    /// Seconds for the way back, or to clear.
    pub rest: u32,
    /// The beats are heard.
    pub sound: bool,
}

impl Default for PaceForm {
    fn default() -> Self {
        Self {
            cut: CutForm::default(),
            turns: None,
            each: 2,
            beat: None,
            delay: 10,
            rest: 20,
            sound: true,
        }
    }
}

impl PaceForm {
    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let seconds = |value: u32, plain: u32| {
            if value == plain { String::new() } else { value.to_string() }
        };
        let mut query = Query::default();
        if let Some(turns) = self.turns {
            query.put("turns", &turns.to_string());
            query.put("each", &seconds(self.each, plain.each));
        }
        query.put("beat", self.beat.map_or("", crate::shop::word::Word::word));
        query.put("delay", &seconds(self.delay, plain.delay));
        query.put("rest", &seconds(self.rest, plain.rest));
        query.put("sound", if self.sound { "" } else { NO });
        let own = query.text();
        match (self.turns, own.is_empty()) {
            (Some(_), _) => own,
            (None, true) => self.cut.to_query(),
            (None, false) => format!("{own}&{}", self.cut.to_query()),
        }
    }

    /// The form of a query, and what in it could not be understood.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let (cut, mut faults) = CutForm::from_query(query);
        let mut form = Self { cut, ..Self::default() };
        let choose =
            |range: RangeInclusive<u32>| format!("Choose {} to {} s.", range.start(), range.end());
        for (key, value) in pairs(query) {
            let fault = |what: &str, hint: String| {
                let problem = format!("The link says “{value}” for the {what}.");
                InputError::new(Field::Feed, problem, hint)
            };
            let seconds = value.parse::<u32>().ok();
            match key.as_str() {
                "turns" => match value.parse::<f64>() {
                    Ok(turns) if turns > 0.0 && turns <= MOST_TURNS => form.turns = Some(turns),
                    _ => {
                        // It is of a tap all the same, not of a cut.
                        form.turns = Some(0.0);
                        let hint = format!("A tap takes up to {MOST_TURNS} turns, such as 13.6.");
                        faults.push(fault("turns of the tap", hint));
                    }
                },
                "each" => match seconds {
                    Some(each) if turn_range().contains(&each) => form.each = each,
                    _ => faults.push(fault("time of a turn", choose(turn_range()))),
                },
                "beat" => choose_open(&mut form.beat, &value, Field::Feed, &mut faults),
                "delay" => match seconds {
                    Some(delay) if delay_range().contains(&delay) => {
                        form.delay = delay;
                    }
                    _ => faults.push(fault("first beat", choose(delay_range()))),
                },
                "rest" => match seconds {
                    Some(rest) if rest_range().contains(&rest) => form.rest = rest,
                    _ => faults.push(fault("way back", choose(rest_range()))),
                },
                "sound" => {
                    answer(&mut form.sound, &value, Field::Feed, &mut faults);
                }
                _ => {}
            }
        }
        (form, faults)
    }

    /// The choice of a run at this beat.
    #[must_use]
    pub fn choice(&self, beat: Beat) -> Choice {
        Choice {
            beat,
            delay: Duration::second(f64::from(self.delay)),
            rest: Duration::second(f64::from(self.rest)),
        }
    }
}
