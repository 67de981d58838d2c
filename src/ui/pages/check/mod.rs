//! `/check`: what is looked at before this cut, and after it.
//!
//! Nothing is asked while the spindle turns: the check ends with hands off the phone, and goes on
//! when the spindle stands.

mod asking;
mod direction;
mod phase;
mod ready;
mod records;
mod state;
mod words;

use leptos::prelude::*;

use crate::{engine::safety::Phase, shop::check_form::Step};
use state::CheckState;

/// The page.
#[component]
pub fn Check() -> impl IntoView {
    let state = CheckState::provide();
    let step = state.step;
    move || match step.get() {
        Step::Begin | Step::You => view! { <asking::You /> }.into_any(),
        Step::SetUp => view! { <asking::SetUp /> }.into_any(),
        Step::Power => phase::page(Step::Power, Phase::BeforePower),
        Step::Cut => phase::page(Step::Cut, Phase::FirstCut),
        Step::Start => phase::page(Step::Start, Phase::BeforeStart),
        Step::Ready => view! { <ready::Ready /> }.into_any(),
        Step::Chips => phase::page(Step::Chips, Phase::Chips),
        Step::After => phase::page(Step::After, Phase::After),
        Step::Records => view! { <records::Records /> }.into_any(),
    }
}
