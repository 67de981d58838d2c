//! `/threads`: the drill for a thread, a thread that nobody knows, and the screen as a pitch gauge.

mod card;
mod finder;
mod gauge;
mod measure;
mod state;
mod trial;
mod wires;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use self::{
    card::Card,
    finder::Finder,
    gauge::Gauge,
    measure::Measure,
    state::{HoleState, Room},
};

/// The page.
#[component]
pub fn Threads() -> impl IntoView {
    let search = use_location().search;
    let room = Memo::new(move |_| Room::of(&search.read()));
    move || match room.get() {
        Room::Finder => view! { <Finder /> }.into_any(),
        Room::Card => {
            HoleState::provide();
            view! { <Card /> }.into_any()
        }
        Room::Measure => view! { <Measure /> }.into_any(),
        Room::Gauge => view! { <Gauge /> }.into_any(),
    }
}
