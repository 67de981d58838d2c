//! One hole at a time, in digits that are read from the machine. Going on is asked for only while
//! the spindle is stopped.

use leptos::prelude::*;

use super::{picture, state::LayoutState};
use crate::{
    engine::{
        answer::State,
        layout::travel::Move,
        machine::Axis,
        quantity::{
            Length, System,
            rounding::{self, Shown, fixed},
        },
        question::Field,
        setup::dials::DialTurns,
    },
    ui::{
        components::{Button, Fold, GoTo, Page, Rank, Split, StateMark, UnitSwitch},
        words,
    },
};

/// The page of one hole.
#[component]
pub fn AtHole() -> impl IntoView {
    let state = LayoutState::get();
    let app = state.app;
    let done = state.done();
    let count = Memo::new(move |_| state.laid().map_or(0, |laid| laid.order.len()) as u32);
    let at = Memo::new(move |_| state.form.read().at.unwrap_or(1).clamp(1, count.get().max(1)));
    let here = Memo::new(move |_| state.laid().and_then(|laid| laid.along(at.get())));
    let is_done = Memo::new(move |_| {
        here.read().is_some_and(|(hole, _)| done.read().contains(&(hole as u32)))
    });
    let one = move || words::layout::one(state.form.read().shape);
    let title = Signal::derive(move || {
        let hole = here.get().map_or(0, |(hole, _)| hole + 1);
        format!("{} {hole}", one())
    });
    let place = move || format!("{} of {} along the way", at.get(), count.get());
    let all_done = Memo::new(move |_| done.read().len() as u32 >= count.get());
    let mark = move || match is_done.get() {
        true => view! { <StateMark state=State::Within word="Done" /> }.into_any(),
        false => view! { <span>"To do"</span> }.into_any(),
    };
    let go = move |to: u32| state.change(Field::Hole, |form| form.at = Some(to));
    let done_and_on = move |()| {
        let Some((hole, _)) = here.get_untracked() else { return };
        state.mark(hole, true);
        let at = at.get_untracked();
        if at < count.get_untracked() {
            go(at + 1);
        }
    };
    let back = move |()| {
        let at = at.get_untracked();
        if at > 1 {
            go(at - 1);
        }
    };
    let undo = move |()| {
        if let Some((hole, _)) = here.get_untracked() {
            state.mark(hole, false);
        }
    };
    let right = move || {
        view! {
            <UnitSwitch system=state.system on_change=move |system| app.set_system(system) />
        }
    };
    let on = move || {
        if at.get() < count.get() { "Done, next" } else { "Done" }
    };
    let bar = move || {
        view! {
            <Button rank=Rank::Primary on_press=done_and_on>
                {on}
            </Button>
            <Button rank=Rank::Secondary on_press=back>
                "Back one"
            </Button>
        }
    };
    let giant = move |axis: &'static str, of: fn(crate::engine::layout::Place) -> Length| {
        let shown = Memo::new(move |_| {
            here.get().map_or_else(
                || Shown { digits: "–".to_owned(), unit: "" },
                |(_, place)| rounding::length(of(state.set_to(place)), state.system.get()),
            )
        });
        let class = move || match shown.read().digits.chars().count() {
            0..=6 => "at-giant short",
            7 => "at-giant",
            _ => "at-giant long",
        };
        view! {
            <p class=class data-testid=axis.to_lowercase()>
                <span class="at-axis">
                    <b>{axis}</b>
                    <span>{move || shown.read().unit}</span>
                </span>
                <span data-result="key">{move || shown.get().digits}</span>
            </p>
        }
    };
    let depth = move || {
        let depth = state.laid()?.depth?;
        let shown = rounding::length(depth, state.system.get());
        Some(view! {
            <p class="at-depth">
                <span class="at-axis">"Depth"</span>
                <span data-result="second" data-testid="depth">{shown.digits}</span>
                <span class="at-unit">{shown.unit}</span>
            </p>
        })
    };
    let axis =
        app.part(|document| document.machine()?.form.read().ok().map(|machine| machine.table));
    let way = move || {
        let step = state.laid()?.step(at.get())?;
        let one_side = state.form.read().one_side;
        Some(said(step, axis.get(), one_side, at.get() == 1, state.system.get()))
    };
    let off = move || {
        let (_, place) = here.get()?;
        state.step.get()?;
        let system = state.system.get();
        let show = |length| rounding::length(length, system).digits;
        Some(format!("On the drawing: X {}, Y {}.", show(place.x), show(place.y)))
    };
    let recipe = Memo::new(move |_| {
        let form = state.form.read().hole()?;
        let query = form.to_query();
        Some(format!("threads?recipe&{query}"))
    });
    view! {
        <Page title back_to=Signal::derive(move || state.list()) right=right bar=bar>
            <Split
                names=("Place", "What next")
                answer=move || {
                    view! {
                        <section class="at-hole" aria-label="X, Y and depth">
                            <p class="at-line">
                                <span data-testid="along">{place}</span>
                                {mark}
                            </p>
                            <div class="at-numbers" aria-live="polite" aria-atomic="true">
                                {giant("X", |place| place.x)} {giant("Y", |place| place.y)} {depth}
                            </div>
                        </section>
                    }
                }
            >
                <p class="at-stop">
                    {move || {
                        if all_done.get() {
                            "Every hole is done."
                        } else {
                            "Tap only with the spindle stopped."
                        }
                    }}
                </p>
                <p class="muted" data-testid="way">{way}</p>
                <p class="muted">{off}</p>
                {move || {
                    is_done
                        .get()
                        .then(|| {
                            view! {
                                <Button rank=Rank::Secondary on_press=undo>
                                    "Not done yet"
                                </Button>
                            }
                        })
                }}
                {move || {
                    recipe
                        .get()
                        .map(|to| {
                            view! {
                                <GoTo to=to class="button secondary" {..} data-touch="c">
                                    "Recipe of the hole"
                                </GoTo>
                            }
                        })
                }}
                <Fold title="Where it lies">
                    <picture::Picture />
                </Fold>
            </Split>
        </Page>
    }
}

/// The move to a hole: travel, turns of the wheel, and whether to go past and come back.
fn said(step: Move, axis: Option<Axis>, one_side: bool, first: bool, system: System) -> String {
    let part = |name: &str, travel: Length| {
        let shown = rounding::length(travel, system);
        let turns = axis.and_then(|axis| turns(travel.abs(), axis, system));
        let turns = turns.map(|turns| format!(" ({turns})")).unwrap_or_default();
        format!("{name} {shown}{turns}")
    };
    let from = if first { "From the datum" } else { "From the hole before" };
    let mut text = format!("{from}: {}, {}.", part("X", step.x), part("Y", step.y));
    if one_side && (step.past_x || step.past_y) {
        let axes = match (step.past_x, step.past_y) {
            (true, true) => "X and Y",
            (true, false) => "X",
            _ => "Y",
        };
        let lash = axis.and_then(|axis| axis.backlash);
        let lash = lash.map(|lash| format!(" by more than {}", rounding::length(lash, system)));
        let lash = lash.unwrap_or_default();
        text.push_str(&format!(" In {axes} go past{lash} and come back."));
    }
    text
}

/// Turns of the wheel, and marks or the rest of the travel.
fn turns(travel: Length, axis: Axis, system: System) -> Option<String> {
    let turns = DialTurns::new(travel, axis.lead).ok()?;
    let whole = fixed(turns.whole, 0);
    let rest = match axis.divisions {
        Some(marks) => format!("{} marks", fixed(turns.divisions(marks).ok()?, 1)),
        None => rounding::length(turns.remainder, system).to_string(),
    };
    Some(format!("{whole} turns and {rest}"))
}
