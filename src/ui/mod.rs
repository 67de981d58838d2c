//! The screens.

pub mod components;
pub mod sketch;
pub mod words;

use leptos::prelude::*;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    view! {
        <main>
            <h1>"Handwheel"</h1>
            <a href="./">"On the mill"</a>
        </main>
    }
}
