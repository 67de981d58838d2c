//! The recipe for a hole: what is asked above, ordered steps below, what to look out for last.

mod around;
mod inputs;
mod state;
mod steps;

use leptos::prelude::*;

use super::state::recipe;

use self::{
    around::{Cautions, Missing, Remedies, Sources},
    inputs::Inputs,
    state::{Laid, RecipeState},
    steps::Steps,
};
use crate::{
    engine::{
        answer::State,
        holes::recipe::{Caution, Work},
        quantity::{
            System,
            rounding::{self, Shown},
        },
    },
    ui::{
        components::{BigNumber, Page, Split, StateMark, UnitSwitch, hole_picture::HolePicture},
        keep::Keep,
        words,
    },
};

/// The page.
#[component]
pub fn RecipePage() -> impl IntoView {
    let state = RecipeState::provide();
    let app = state.hole.app;
    let right = move || {
        view! {
            <UnitSwitch
                system=app.system()
                on_change=move |system| app.set_system(system)
            />
        }
    };
    view! {
        <Page title="Hole recipe" right=right bar=|| view! { <KeepHole /> }>
            <Split answer=|| {
                view! {
                    <Answer />
                    <Wants />
                    <Remedies />
                    <Steps />
                    <Picture />
                    <Cautions />
                    <Missing />
                    <Sources />
                }
            }>
                <Inputs />
            </Split>
        </Page>
    }
}

/// Keeps the hole by name.
#[component]
fn KeepHole() -> impl IntoView {
    let state = RecipeState::get();
    let form = state.hole.form;
    let name = Signal::derive(move || words::holes::what(&form.read()));
    let to = Signal::derive(move || recipe(&form.read()));
    let can = Signal::derive(move || state.shown_now().is_some());
    view! { <Keep name to can words="Save this hole" /> }
}

/// Whether to make it like this, the depth that matters most, and the drill.
#[component]
fn Answer() -> impl IntoView {
    let state = RecipeState::get();
    let system = state.hole.system();
    let shown = Signal::derive(move || {
        let tip = state.done().and_then(|laid| Some(laid.drill()?.tip));
        tip.map_or_else(
            || Shown { digits: "–".to_owned(), unit: "" },
            |tip| rounding::length(tip, system.get()),
        )
    });
    let line = move || state.done().map(|laid| line(&laid, system.get())).unwrap_or_default();
    let mark = Memo::new(move |_| state.done().map(|laid| mark(&laid)));
    view! {
        <section class="answer stay" aria-label="The answer">
            {move || match mark.get() {
                Some((state, word)) => {
                    view! {
                        <p class="verdict" aria-live="polite" data-testid="verdict">
                            <StateMark state word />
                        </p>
                    }
                        .into_any()
                }
                None => view! { <p class="verdict">"No recipe yet"</p> }.into_any(),
            }}
            <BigNumber label="Tip of the drill, from the surface" shown />
            <p class="answer-line" data-testid="line">{line}</p>
        </section>
    }
}

/// The state of the whole, in a few words.
fn mark(laid: &Laid) -> (State, String) {
    let cautions = &laid.recipe.cautions;
    let over = |c: &&Caution| words::holes::caution_state(c) == State::Over;
    match cautions.iter().find(over) {
        Some(Caution::BreaksThrough { .. }) => {
            return (State::Over, "The point breaks through".to_owned());
        }
        Some(Caution::Over { step, .. }) => {
            return (State::Over, format!("Do not cut step {} like this", step + 1));
        }
        Some(_) => return (State::Over, "The tap binds in this hole".to_owned()),
        None => {}
    }
    let count = laid.recipe.steps.len();
    match cautions.iter().find(|caution| bears_on_the_hole(caution)) {
        Some(Caution::OutsideClass { class: Some(class), .. }) => {
            (State::Near, format!("{count} steps; larger than {} allows", class.class))
        }
        Some(_) => (State::Near, format!("{count} steps, with care")),
        None => (State::Within, format!("{count} steps")),
    }
}

/// True for a caution about the hole itself; the others belong to the work and always stand there.
fn bears_on_the_hole(caution: &Caution) -> bool {
    !matches!(
        caution,
        Caution::DeadSpindle
            | Caution::TwoTaps
            | Caution::TapChips
            | Caution::LeftHand
            | Caution::ByHand(_)
            | Caution::ReamedForTap
    )
}

/// Drill, speed and turns of the tap, to keep in view.
fn line(laid: &Laid, system: System) -> String {
    let mut parts = Vec::with_capacity(3);
    if let Some(step) = laid.drill() {
        parts.push(words::holes::tool(&step.tool, system));
        if let Some(answer) = &step.answer {
            parts.push(rounding::spindle_speed(answer.speed.set).to_string());
        }
    }
    parts.join(", ")
}

/// What is still missing, and what cannot be.
#[component]
fn Wants() -> impl IntoView {
    let state = RecipeState::get();
    let text = Memo::new(move |_| {
        let faults = state.faults.read();
        let mut names: Vec<&str> = Vec::with_capacity(faults.len());
        for fault in faults.iter() {
            let name = inputs::label(fault.field);
            if !names.contains(&name) {
                names.push(name);
            }
        }
        if names.is_empty() {
            String::new()
        } else {
            format!("It wants: {}.", names.join(", ").to_lowercase())
        }
    });
    let of_link = move || {
        let faults = state.hole.link_faults.get().into_iter();
        faults.map(|fault| view! { <p class="big-why">{fault.to_string()}</p> }).collect_view()
    };
    view! {
        <div class="faults">
            {of_link}
            {move || {
                let text = text.get();
                (!text.is_empty()).then(|| view! { <p class="wants" role="status">{text}</p> })
            }}
        </div>
    }
}

#[component]
fn Picture() -> impl IntoView {
    let state = RecipeState::get();
    let section = Signal::derive(move || state.shown_now().and_then(|laid| laid.section));
    let is_drawn = Memo::new(move |_| section.read().is_some());
    move || {
        is_drawn.get().then(|| {
            view! {
                <section class="stack reasons">
                    <h2>"The hole"</h2>
                    <HolePicture section system=state.hole.system() />
                </section>
            }
        })
    }
}

impl Laid {
    /// The step that makes the hole.
    fn drill(&self) -> Option<&crate::engine::holes::recipe::Step> {
        self.recipe.steps.iter().find(|step| step.work == Work::Drill)
    }
}
