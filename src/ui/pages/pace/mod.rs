//! `/pace`: the beat of a cut, so that a hand feeds steadily without a look at the wheel.
//!
//! It is armed with the spindle stopped, begins after a delay, and runs to its end: from then on
//! there is nothing on the screen but one place to stop it, and nothing needs that either.

mod armed;
mod running;
mod state;

use leptos::prelude::*;

use self::{armed::Armed, running::Running, state::PaceState};

/// The page.
#[component]
pub fn Pace() -> impl IntoView {
    let state = PaceState::provide();
    move || match state.run.get() {
        Some(ready) => view! { <Running ready /> }.into_any(),
        None => view! { <Armed /> }.into_any(),
    }
}
