//! Which way the spindle has to turn: the switch as its owner has seen it, or the jog test.

use leptos::prelude::*;

use super::{asking::Ranges, state::CheckState};
use crate::{
    engine::{
        machine::Turning,
        safety::{Fact, direction},
    },
    shop::check_form::CheckReading,
    ui::{
        components::{TextField, press::Press},
        sketch::Sketch,
    },
};

/// True where a range is set whose switch nobody has looked at.
pub fn is_unseen(reading: &CheckReading) -> bool {
    let c = &reading.context;
    c.spindle.range.is_some() && c.switch().is_none() && Fact::ByHand.of(c) != Some(true)
}

fn sketch(turning: Turning) -> Sketch {
    match turning {
        Turning::Clockwise => Sketch::Clockwise,
        Turning::CounterClockwise => Sketch::CounterClockwise,
    }
}

/// The card at the head of the phase.
#[component]
pub fn Direction() -> impl IntoView {
    let state = CheckState::get();
    let turning = Memo::new(move |_| state.form.read().turning());
    let switch = Memo::new(move |_| state.reading.read().context.switch().map(str::to_owned));
    let by_hand = Memo::new(move |_| Fact::ByHand.of(&state.reading.read().context) == Some(true));
    let unseen = Memo::new(move |_| is_unseen(&state.reading.read()));
    let head = move || {
        let label = match (by_hand.get(), switch.get()) {
            (true, _) => "By hand".to_owned(),
            (_, Some(switch)) => format!("Switch to {switch}"),
            (_, None) => "Switch not known".to_owned(),
        };
        view! {
            <div class="turn">
                {sketch(turning.get()).draw_as("turn-arrow")}
                <p class="turn-words">
                    <b class="turn-label">{label}</b>
                    <span>{direction::words(turning.get())} ", seen from above"</span>
                </p>
            </div>
        }
    };
    view! {
        <section class="stack" aria-label="Direction" data-testid="direction">
            {head}
            <Ranges state />
            {move || unseen.get().then(|| view! { <JogTest /> })}
        </section>
    }
}

/// Two big choices: what was seen is stored for this range of this machine.
#[component]
fn JogTest() -> impl IntoView {
    const LABELS: &[&str] = &["FWD", "REV"];
    let state = CheckState::get();
    let label = RwSignal::new(String::new());
    let missing = RwSignal::new(false);
    let see = move |turning: Turning| {
        let words = label.get_untracked();
        let range = state.reading.read_untracked().context.spindle.range;
        let Some(range) = range.filter(|_| !words.trim().is_empty()) else {
            missing.set(true);
            return;
        };
        state.jogged(range, &words, turning);
        label.set(String::new());
    };
    // What was seen the other way round is told: the other place of the switch is tried next.
    let told = move || {
        let reading = state.reading.read();
        let needed = reading.context.turning()?;
        let range = reading.context.range()?;
        let other = direction::switch(range, direction::opposite(needed))?.to_owned();
        Some(format!(
            "{other} turns it {}. Try the other place of the switch.",
            direction::words(direction::opposite(needed))
        ))
    };
    view! {
        <div class="jog stack" data-testid="jog">
            <h2>"Jog test"</h2>
            <p>
                "No cutter near the work, nothing loose on the spindle. Put the switch in one place, start and stop at once, and look from above while it runs out."
            </p>
            <p role="status">{told}</p>
            <TextField
                label="The switch stands at"
                value=label
                on_change=move |text: String| {
                    missing.set(false);
                    label.set(text);
                }
                placeholder="what it says"
                complaint=Signal::derive(move || {
                    missing
                        .get()
                        .then(|| crate::ui::components::Complaint {
                            problem: "The place of the switch is not named yet.".to_owned(),
                            hint: "Tap FWD or REV, or write what it says.".to_owned(),
                        })
                })
                usual=LABELS
            />
            <p>"After it stands still: which way did it turn?"</p>
            <div class="jog-ways">
                {seen_button(Turning::Clockwise, see)}
                {seen_button(Turning::CounterClockwise, see)}
            </div>
        </div>
    }
}

fn seen_button(turning: Turning, see: impl Fn(Turning) + 'static) -> AnyView {
    let press = Press::commit();
    let words = match turning {
        Turning::Clockwise => "It turned clockwise",
        Turning::CounterClockwise => "It turned counter-clockwise",
    };
    view! {
        <button
            type="button"
            class="door"
            data-touch="c"
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    see(turning);
                }
            }
        >
            {sketch(turning).draw()}
            <span class="door-words">{words}</span>
        </button>
    }
    .into_any()
}
