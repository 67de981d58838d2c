//! `/threads`: the drill for a thread, the recipe for a hole, a thread that nobody knows, and the
//! screen as a pitch gauge.

mod card;
mod finder;
mod gauge;
mod measure;
mod recipe;
mod state;
mod trial;
mod wires;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::shop::holes::HoleForm;

use self::{
    card::Card,
    finder::Finder,
    gauge::Gauge,
    measure::Measure,
    recipe::RecipePage,
    state::{HoleState, Lead, Room},
};

/// The page.
#[component]
pub fn Threads() -> impl IntoView {
    let search = use_location().search;
    let room = Memo::new(move |_| Room::of(&search.read()));
    move || match room.get() {
        Room::Finder => view! { <Finder lead=Lead::Card /> }.into_any(),
        Room::ThreadOfRecipe => {
            let (form, _) = HoleForm::from_query(&search.get_untracked());
            view! { <Finder lead=Lead::Recipe(Box::new(form)) /> }.into_any()
        }
        Room::Recipe => {
            HoleState::provide(state::recipe);
            view! { <RecipePage /> }.into_any()
        }
        Room::Card => {
            HoleState::provide(state::card);
            view! { <Card /> }.into_any()
        }
        Room::Measure => view! { <Measure /> }.into_any(),
        Room::Gauge => view! { <Gauge /> }.into_any(),
    }
}
