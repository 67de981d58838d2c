//! How something stands: a shape and a word before a colour.

use leptos::prelude::*;

use crate::{engine::answer::State, ui::words};

/// The shape of a state: a disc within, a triangle near, a square over.
#[must_use]
pub fn shape(state: State) -> AnyView {
    let drawing = match state {
        State::Within => view! { <circle cx="12" cy="12" r="10" /> }.into_any(),
        State::Near => view! { <path d="M12 1.5 23 21.5H1Z" /> }.into_any(),
        State::Over => view! { <rect x="2" y="2" width="20" height="20" rx="2" /> }.into_any(),
    };
    view! {
        <svg class="state-shape" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            {drawing}
        </svg>
    }
    .into_any()
}

/// The word by which style and tests know a state.
#[must_use]
pub fn status(state: State) -> &'static str {
    match state {
        State::Within => "within",
        State::Near => "near",
        State::Over => "over",
    }
}

/// A state's shape and its word.
#[component]
pub fn StateMark(
    /// How it stands.
    #[prop(into)]
    state: Signal<State>,
    /// Words in place of the usual ones.
    #[prop(optional, into)]
    word: Signal<String>,
) -> impl IntoView {
    let words = move || {
        let own = word.get();
        if own.is_empty() { words::state(state.get()).to_owned() } else { own }
    };
    view! {
        <span class="state" data-status=move || status(state.get())>
            {move || shape(state.get())}
            <span>{words}</span>
        </span>
    }
}
