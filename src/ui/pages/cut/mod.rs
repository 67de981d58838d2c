//! `/cut`: what to set, how to turn the wheel, and what holds it back.
//!
//! The first time one thing is asked after the other; from then on the answer and all it is asked
//! with stand on one page. The form lives in the address, so that a bookmark, a favorite and the
//! Back button know it.

mod after;
mod answer;
mod ask;
pub(super) mod figures;
mod inputs;
mod picture;
mod sheet;
mod state;

use leptos::prelude::*;

use state::CutState;

/// The page.
#[component]
pub fn Cut() -> impl IntoView {
    let state = CutState::provide();
    let open = state.open;
    move || match open.get() {
        Some(open) => view! { <ask::Question open /> }.into_any(),
        None => view! { <sheet::Sheet /> }.into_any(),
    }
}
