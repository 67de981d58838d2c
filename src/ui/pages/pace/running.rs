//! The run: a beat to be seen and heard, and one place to stop it.

use core::time::Duration as Period;
use std::{cell::Cell, rc::Rc, sync::Arc};

use leptos::{prelude::*, task::spawn_local};

use super::state::{PaceState, Ready};
use crate::{
    browser::{
        awake, clock, page,
        sound::{Speaker, Tone, can_shake, shake},
    },
    engine::{
        pace::{Accent, Beat, Leg, Moment, Work},
        quantity::{Duration, rounding},
    },
    ui::{components::press::Press, words},
};

/// Tones are handed to the audio clock this often, and so far ahead: longer than any pause of a
/// busy page, or of one whose screen is off.
const OFTEN: Period = Period::from_millis(400);
const AHEAD: f64 = 3.0;
/// A touch of the device, in milliseconds.
const TOUCH: u32 = 25;

/// The clock of a run: the audio's as soon as it runs, the page's until then and without one.
struct Clock {
    speaker: Option<Speaker>,
    /// When the run began, on the page's clock, in seconds.
    began: Cell<f64>,
    /// The same on the audio's.
    heard: Cell<Option<f64>>,
    /// Every tone before this is handed over.
    handed: Cell<f64>,
}

impl Clock {
    fn new(speaker: Option<Speaker>) -> Self {
        Self {
            speaker,
            began: Cell::new(clock::steady()),
            heard: Cell::new(None),
            handed: Cell::new(0.0),
        }
    }

    /// Seconds since the run began.
    fn now(&self) -> f64 {
        let page = clock::steady() - self.began.get();
        let Some(speaker) = &self.speaker else { return page };
        match (self.heard.get(), speaker.is_running()) {
            (Some(heard), true) => {
                let now = speaker.now() - heard;
                // Where a call takes the sound away, the run goes on from here.
                self.began.set(clock::steady() - now);
                now
            }
            (None, true) => {
                self.heard.set(Some(speaker.now() - page));
                self.handed.set(page);
                page
            }
            (Some(_), false) => {
                speaker.forget();
                self.heard.set(None);
                page
            }
            (None, false) => page,
        }
    }

    fn hand_over(&self, ready: &Ready) {
        let now = self.now();
        let (Some(speaker), Some(heard)) = (&self.speaker, self.heard.get()) else { return };
        let until = now + AHEAD;
        let from = self.handed.replace(until).max(now);
        for tick in ready.pace.ticks(Duration::second(from), Duration::second(until)) {
            speaker.sound(heard + tick.at.to_second(), tone(tick.accent));
        }
    }
}

fn tone(accent: Accent) -> Tone {
    match accent {
        Accent::CountIn => Tone { hertz: 660.0, lasts: 0.08 },
        Accent::Begin => Tone { hertz: 1320.0, lasts: 0.25 },
        Accent::Beat => Tone { hertz: 880.0, lasts: 0.05 },
        Accent::Whole => Tone { hertz: 1175.0, lasts: 0.09 },
        Accent::End => Tone { hertz: 440.0, lasts: 0.5 },
    }
}

/// The page while the run is on.
#[component]
pub fn Running(ready: Arc<Ready>) -> impl IntoView {
    let state = PaceState::get();
    let system = state.app.system();
    let pace = StoredValue::new(ready.clone());
    let moment: RwSignal<Option<Moment>> = RwSignal::new(ready.pace.at(Duration::ZERO));
    let is_awake = RwSignal::new(None);
    let has_sound = RwSignal::new(true);
    let watch = Rc::new(Clock::new(state.speaker.get_value()));
    let beat = ready.pace.beat;
    let wants_sound = state.form.read_untracked().sound;

    page::mark("data-busy", Some("pace"));
    spawn_local(async move {
        let kept = awake::keep().await;
        let _ = is_awake.try_set(Some(kept));
    });
    let hand = {
        let (watch, ready) = (watch.clone(), ready.clone());
        move || {
            watch.hand_over(&ready);
            let _ = has_sound.try_set(watch.heard.get().is_some());
            let _ = moment.try_set(ready.pace.at(Duration::second(watch.now())));
        }
    };
    hand();
    let timer = set_interval_with_handle(hand, OFTEN).ok();
    follow(watch, ready, moment);
    on_cleanup(move || {
        if let Some(timer) = timer {
            timer.clear();
        }
        page::mark("data-busy", None);
        awake::let_go();
        if let Some(speaker) = state.speaker.try_get_value().flatten() {
            speaker.close();
        }
    });

    let leg =
        Memo::new(move |_| moment.read().map(|moment| pace.read_value().pace.legs[moment.leg]));
    let word = move || words::work_now(leg.get().map(|leg| leg.work), beat);
    let pass = move || leg.get().map(|leg| of_passes(&leg)).unwrap_or_default();
    let left = Memo::new(move |_| {
        let moment = moment.get()?;
        Some(match moment.left {
            Some(left) => format!("{} left", words::clock(left)),
            None => words::clock(moment.into),
        })
    });
    let giant = Memo::new(move |_| {
        let moment = moment.get()?;
        Some(giant(&pace.read_value(), &moment))
    });
    let digits =
        move || giant.read().as_ref().map_or("–".to_owned(), |(digits, _)| digits.clone());
    let unit = move || giant.read().as_ref().map(|(_, unit)| unit.clone());
    let depth = move || {
        let depth = rounding::length(leg.get()?.depth?, system.get());
        Some(view! {
            <p class="pace-depth">
                <span class="pace-label">"Depth"</span>
                <span data-testid="depth">{depth.digits}</span>
                <span class="pace-label">{depth.unit}</span>
            </p>
        })
    };
    let sweep = move || {
        let share = moment.read().map_or(0.0, |moment| moment.sweep);
        format!("scaleX({share:.3})")
    };
    let is_odd = Memo::new(move |_| moment.read().is_some_and(|moment| moment.beats % 2 == 1));
    let missing = move || {
        let mut said = Vec::new();
        if wants_sound && !has_sound.get() {
            said.push("No sound here: watch the bar.");
        }
        if !can_shake() {
            said.push("It cannot be felt here.");
        }
        if is_awake.get() == Some(false) {
            said.push("The screen may go dark: give it a long time-out.");
        }
        said.join(" ")
    };
    let press = Press::commit();
    let is_over = Memo::new(move |_| moment.read().is_none());
    view! {
        <div class="pace-run">
            <main class="pace-face">
                <h1 class="pace-work" aria-live="assertive">
                    {word}
                </h1>
                <p class="pace-line">
                    <span data-testid="pass">{pass}</span>
                    <span data-testid="left">{move || left.get()}</span>
                </p>
                <p class="pace-giant">
                    <span data-result="key">{digits}</span>
                    <span class="pace-label">{unit}</span>
                </p>
                <div class="pace-bar" class:odd=move || is_odd.get() aria-hidden="true">
                    <div class="pace-sweep" style:transform=sweep></div>
                </div>
                {depth}
                <p class="pace-missing">{missing}</p>
            </main>
            <button
                type="button"
                class="pace-stop"
                data-touch="c"
                on:pointerdown=move |event| press.down(&event)
                on:click=move |event| {
                    if press.accepts(&event) {
                        state.run.set(None);
                    }
                }
            >
                <b>{move || if is_over.get() { "CLOSE" } else { "STOP THE PACE" }}</b>
                <span>{words::when_to_stop(beat)}</span>
            </button>
        </div>
    }
}

/// Keeps the screen at the run's time, frame by frame.
fn follow(watch: Rc<Clock>, ready: Arc<Ready>, moment: RwSignal<Option<Moment>>) {
    request_animation_frame(move || {
        let Some(before) = moment.try_get_untracked() else { return };
        let now = ready.pace.at(Duration::second(watch.now()));
        if let (Some(before), Some(now)) = (before, now)
            && (before.leg, before.beats) != (now.leg, now.beats)
        {
            shake(TOUCH);
        }
        if moment.try_set(now).is_some() {
            return;
        }
        if now.is_some() {
            follow(watch, ready, moment);
        }
    });
}

fn of_passes(leg: &Leg) -> String {
    let (pass, of) = leg.pass;
    if of > 1 { format!("{pass} of {of}") } else { String::new() }
}

/// What is read from farthest away: the seconds to wait, the turns of a tap, the turns a minute.
fn giant(ready: &Ready, moment: &Moment) -> (String, String) {
    let leg = &ready.pace.legs[moment.leg];
    match leg.work {
        Work::GetReady | Work::GoBack | Work::NextRow | Work::Clear => {
            let left = moment.leg_left.map_or(0.0, Duration::to_second);
            (rounding::fixed(libm::ceil(left), 0), "s".to_owned())
        }
        Work::Tap => {
            let whole = leg.beats.map_or(String::new(), |n| rounding::fixed(n, 1));
            (moment.beats.to_string(), format!("of {whole} turns"))
        }
        Work::Feed => {
            let wheel = ready.answer.as_ref().and_then(|answer| answer.feed?.wheel);
            match (ready.pace.beat, wheel) {
                (Beat::Eighth, _) | (_, None) => {
                    (rounding::seconds(ready.every).digits, words::a_beat(ready.pace.beat))
                }
                (_, Some(wheel)) => (rounding::hand_rate(wheel).digits, "turns a min".to_owned()),
            }
        }
    }
}
