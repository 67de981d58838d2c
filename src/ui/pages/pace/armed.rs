//! What is set with the spindle stopped.

use core::ops::RangeInclusive;
use std::sync::Arc;

use leptos::prelude::*;

use super::state::{Outcome, PaceState, Ready};
use crate::{
    engine::{
        pace::{Beat, Leg, Work},
        quantity::{System, rounding},
    },
    shop::pace::{PaceForm, delay_range, rest_range, turn_range},
    ui::{
        components::{
            BigNumber, Button, Choice, Choices, Fold, GoTo, HOME, Page, Stepper, Toggle, UnitSwitch,
        },
        words,
    },
};

/// Seconds of a step of a delay or a rest.
const STEP: u32 = 5;

/// The page before the run.
#[component]
pub fn Armed() -> impl IntoView {
    let state = PaceState::get();
    let app = state.app;
    let ready = Memo::new(move |_| match state.outcome.get() {
        Outcome::Ready(ready) => Some(ready),
        _ => None,
    });
    let is_ready = Memo::new(move |_| ready.read().is_some());
    let back = Signal::derive(move || {
        let form = state.form.read();
        if form.turns.is_some() {
            "threads".to_owned()
        } else {
            format!("cut?{}", form.cut.to_query())
        }
    });
    let right = move || {
        view! {
            <UnitSwitch system=app.system() on_change=move |system| app.set_system(system) />
        }
    };
    let bar = move || {
        move || {
            is_ready.get().then(|| {
                view! { <Button on_press=move |()| state.start()>"Start the pace"</Button> }
            })
        }
    };
    view! {
        <Page title="Pacer" back_to=back right=right bar=bar>
            <Refused />
            {move || ready.get().map(|ready| view! { <Chosen ready /> })}
        </Page>
    }
}

/// Why there is nothing to pace.
#[component]
fn Refused() -> impl IntoView {
    let state = PaceState::get();
    let said = move || -> Vec<String> {
        let mut said: Vec<String> = match state.outcome.get() {
            Outcome::Ready(_) => Vec::new(),
            Outcome::NoMachine => vec!["No mill is chosen. Choose one on the first page.".into()],
            Outcome::Not(why) => vec![why.to_string()],
            Outcome::Faults(faults) => faults
                .iter()
                .map(|fault| {
                    format!("{}: {} {}", words::field(fault.field), fault.problem, fault.hint)
                })
                .collect(),
        };
        said.extend(
            state
                .link_faults
                .read()
                .iter()
                .map(|fault| format!("{} {}", fault.problem, fault.hint)),
        );
        said
    };
    let mend = move || match *state.outcome.read() {
        Outcome::Ready(_) => None,
        Outcome::NoMachine => Some((HOME.to_owned(), "To the first page")),
        _ if state.form.read().turns.is_some() => Some(("threads".to_owned(), "To the threads")),
        _ => Some((format!("cut?{}", state.form.read().cut.to_query()), "To the cut")),
    };
    move || {
        let said = said();
        (!said.is_empty()).then(|| {
            let lines = said.into_iter().map(|line| view! { <p>{line}</p> }).collect_view();
            let mend = mend().map(|(to, words)| {
                view! {
                    <GoTo to class="button secondary" {..} data-touch="c">
                        {words}
                    </GoTo>
                }
            });
            view! {
                <div class="notice" role="alert">
                    {lines}
                </div>
                {mend}
            }
        })
    }
}

#[component]
fn Chosen(ready: Arc<Ready>) -> impl IntoView {
    let state = PaceState::get();
    let system = state.app.system();
    let form = state.form;
    let beat = ready.pace.beat;
    let every = ready.every;
    let (label, shown) = (words::beat(beat), rounding::seconds(every));
    let choices: Vec<_> = ready
        .beats
        .iter()
        .map(|(beat, every)| {
            Choice::new(*beat, words::beat(*beat)).detail(rounding::seconds(*every).to_string())
        })
        .collect();
    let choices = (choices.len() > 1).then(|| {
        view! {
            <Choices
                name="A beat is"
                of=choices
                chosen=Signal::stored(Some(beat))
                on_choose=move |beat| state.change(|form| form.beat = Some(beat))
            />
        }
    });
    let each = (beat == Beat::TapTurn).then(|| {
        view! {
            <Seconds label="One turn of the tap" range=turn_range() step=1 part=|form| &mut form.each />
        }
    });
    let rests = ready.pace.legs.iter().find_map(|leg| words::rest(leg.work));
    let rest = rests.map(|label| {
        view! { <Seconds label range=rest_range() step=STEP part=|form| &mut form.rest /> }
    });
    let (reader, ahead) = (ready.clone(), ready);
    view! {
        <section class="answer" aria-label="The beat">
            <BigNumber label=label shown=Signal::stored(shown) />
            <p class="answer-line" data-testid="whole">
                {whole(&reader)}
            </p>
        </section>
        <p>{words::how_to_pace(beat)}</p>
        {choices}
        {each}
        <Seconds
            label="First beat after"
            range=delay_range()
            step=STEP
            part=|form| &mut form.delay
        />
        {rest}
        <Toggle
            label="The beat"
            on=Signal::derive(move || form.read().sound)
            on_change=move |on| state.change(|form| form.sound = on)
            said=("is heard and seen", "is seen only")
        />
        <Fold title="The whole run">
            <ol class="points">
                {move || {
                    ahead
                        .pace
                        .legs
                        .iter()
                        .map(|leg| view! { <li>{line(leg, system.get())}</li> })
                        .collect_view()
                }}
            </ol>
            <p class="muted">{words::sources(crate::engine::pace::SOURCE)}</p>
        </Fold>
    }
}

/// A time of the form, changed by steps. An odd one of a link steps to the next whole multiple.
#[component]
fn Seconds(
    label: &'static str,
    range: RangeInclusive<u32>,
    step: u32,
    part: fn(&mut PaceForm) -> &mut u32,
) -> impl IntoView {
    let state = PaceState::get();
    let (least, most) = range.into_inner();
    let now = move || {
        let mut form = state.form.get();
        *part(&mut form)
    };
    let on_step = move |way: i32| {
        state.change(|form| {
            let value = part(form);
            let next = if way < 0 {
                (value.div_ceil(step) - 1) * step
            } else {
                (*value / step + 1) * step
            };
            *value = next.clamp(least, most);
        });
    };
    view! {
        <Stepper
            label
            value=Signal::derive(move || format!("{} s", now()))
            on_step
            less=Signal::derive(move || now() > least)
            more=Signal::derive(move || now() < most)
        />
    }
}

/// How long it takes, and how often.
fn whole(ready: &Ready) -> String {
    let fed = ready.pace.legs.iter().filter(|leg| matches!(leg.work, Work::Feed | Work::Tap));
    let count = fed.clone().count();
    let first = fed.clone().next();
    let passes = ready.answer.as_ref().and_then(|answer| answer.passes.as_ref());
    let is_hole = passes.is_some_and(|passes| passes.pecks);
    match (ready.pace.lasts(), first) {
        (None, _) => "Runs until it is stopped: the length of the cut is not known.".to_owned(),
        (Some(whole), Some(leg)) => {
            let kind = match leg.work {
                Work::Tap => {
                    format!("{} turns", rounding::fixed(leg.beats.unwrap_or(0.0), 1))
                }
                _ if is_hole && count == 1 => "In one stroke".to_owned(),
                _ if is_hole => format!("{count} pecks"),
                _ if count == 1 => "One pass".to_owned(),
                _ => format!("{count} passes"),
            };
            format!("{kind}, {} in all", words::clock(whole))
        }
        _ => String::new(),
    }
}

fn line(leg: &Leg, system: System) -> String {
    let work = words::work(leg.work);
    let lasts = leg.lasts.map_or("until stopped".to_owned(), words::clock);
    match leg.depth {
        Some(depth) => format!("{work}, {lasts}, depth {}", rounding::length(depth, system)),
        None => format!("{work}, {lasts}"),
    }
}
