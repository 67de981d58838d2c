//! What stands around the steps: what mends a hole that breaks through, what to look out for,
//! what has to be found first.

use leptos::prelude::*;

use super::state::RecipeState;
use crate::{
    engine::{
        answer::{self, State},
        holes::recipe::Remedy,
        quantity::{
            Length, System,
            rounding::{self, fixed},
        },
        question::Field,
        threads::tap::Style,
    },
    shop::typed::Typed,
    ui::{
        components::{
            GoTo, LateFold,
            press::Press,
            state_mark::{shape, status},
        },
        words,
    },
};

/// What mends a hole that breaks through; a tap does it where the form can say it.
#[component]
pub fn Remedies() -> impl IntoView {
    let state = RecipeState::get();
    let system = state.hole.system();
    move || {
        let laid = state.shown_now()?;
        let system = system.get();
        let rows: Vec<_> =
            laid.recipe.remedies.iter().map(|remedy| row(state, *remedy, system)).collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="stack reasons" aria-label="What mends it" data-testid="remedies">
                    <h2>"What mends it"</h2>
                    <ul class="lines">{rows}</ul>
                </section>
            }
        })
    }
}

fn row(state: RecipeState, remedy: Remedy, system: System) -> AnyView {
    let (name, detail) = words::holes::remedy(remedy, system);
    let said = view! {
        <span class="line-name">
            {name}
            {(!detail.is_empty()).then(|| view! { <span class="line-detail">{detail}</span> })}
        </span>
    };
    if matches!(remedy, Remedy::FlatBottom { .. } | Remedy::ThickerPlate(_)) {
        return view! { <li class="line plain">{said}</li> }.into_any();
    }
    let press = Press::commit();
    view! {
        <li>
            <button
                type="button"
                class="line"
                data-touch="c"
                on:pointerdown=move |event| press.down(&event)
                on:click=move |event| {
                    if press.accepts(&event) {
                        take(state, remedy, system);
                    }
                }
            >
                {said}
            </button>
        </li>
    }
    .into_any()
}

/// Puts a remedy into the form.
fn take(state: RecipeState, remedy: Remedy, system: System) {
    let hole = state.hole;
    match remedy {
        Remedy::BottomingTap { .. } => hole.change(Field::TapChamfer, |form| {
            form.tap = if form.tap.forms() { Style::FormBottoming } else { Style::Bottoming };
            // The chamfer that was counted is that of the other tap, and the depth was for it.
            form.chamfer = Typed::default();
            form.depth = Typed::default();
        }),
        Remedy::BlunterPoint { angle, .. } => hole.change(Field::PointAngle, |form| {
            form.point = Typed::new(fixed(angle.to_degree(), 0), System::Inch);
        }),
        Remedy::ShorterThread(most) => {
            hole.change(Field::FullThread, |form| {
                form.full_thread = at_most(most, system);
                // The depth that was typed was for the longer one.
                form.depth = Typed::default();
            });
        }
        Remedy::LessDeep(most) => {
            hole.change(Field::Depth, |form| form.depth = at_most(most, system));
        }
        Remedy::Through => hole.change(Field::Depth, |form| form.through = true),
        Remedy::FlatBottom { .. } | Remedy::ThickerPlate(_) => {}
    }
}

fn at_most(most: Length, system: System) -> Typed {
    Typed::new(rounding::length_at_most(most, system).digits, system)
}

/// Cautions, the worst first: what is the matter, why, and what to do.
#[component]
pub fn Cautions() -> impl IntoView {
    let state = RecipeState::get();
    let system = state.hole.system();
    move || {
        let laid = state.shown_now()?;
        let (recipe, system) = (&laid.recipe, system.get());
        let mut list: Vec<(State, words::Advice)> = recipe
            .cautions
            .iter()
            .map(|caution| {
                let said = words::holes::caution(caution, &recipe.steps, system);
                (words::holes::caution_state(caution), said)
            })
            .collect();
        list.sort_by_key(|(state, _)| core::cmp::Reverse(*state));
        // What the stock does to a person stands once, not with every step.
        let answers = recipe.steps.iter().filter_map(|step| step.answer.as_ref());
        for caution in answers.flat_map(|answer| answer.cautions.iter()) {
            if matches!(caution, answer::Caution::Hazard(_) | answer::Caution::ChipFire) {
                let said = words::caution(*caution, system);
                if !list.iter().any(|(_, one)| *one == said) {
                    list.push((State::Near, said));
                }
            }
        }
        let rows: Vec<_> = list
            .into_iter()
            .map(|(state, said)| {
                view! {
                    <li class="caution" data-status=status(state)>
                        {shape(state)} <span>
                            <span class="hidden-text">{words::state(state)} ": "</span>
                            <b>{said.why}</b>
                            {said.act}
                        </span>
                    </li>
                }
            })
            .collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="stack reasons" aria-label="Cautions" data-testid="cautions">
                    <h2>"Cautions"</h2>
                    <ul class="cautions">{rows}</ul>
                </section>
            }
        })
    }
}

/// What is not in the drawer.
#[component]
pub fn Missing() -> impl IntoView {
    let state = RecipeState::get();
    let system = state.hole.system();
    move || {
        let laid = state.shown_now()?;
        let missing = laid.recipe.missing.iter();
        let rows: Vec<_> = missing
            .map(|missing| view! { <li>{words::holes::tool(&missing.tool, system.get())}</li> })
            .collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="stack reasons" aria-label="To find or buy" data-testid="missing">
                    <h2>"To find or buy"</h2>
                    <p>"Not among the tools that you entered:"</p>
                    <ul class="points">{rows}</ul>
                    <GoTo to="shop" class="button secondary" {..} data-touch="c">
                        "Enter what you own"
                    </GoTo>
                </section>
            }
        })
    }
}

/// Whose figures the recipe rests on.
#[component]
pub fn Sources() -> impl IntoView {
    let state = RecipeState::get();
    let is_there = Memo::new(move |_| state.shown_now().is_some());
    let sources =
        move || state.shown_now().map(|laid| words::sources(&laid.recipe.sources.join(" ")));
    move || {
        is_there.get().then(|| {
            view! {
                <LateFold title="Sources of all figures" class="fold reasons">
                    <p class="muted">{sources}</p>
                </LateFold>
            }
        })
    }
}
