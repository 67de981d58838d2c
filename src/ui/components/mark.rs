//! A small button that stays pressed.

use leptos::prelude::*;

use super::press::Press;

/// One of many small things to mark, such as a drill in its box. The mark is a thicker edge, and
/// assistive devices hear it as pressed.
#[component]
pub fn Mark(
    /// Its words.
    #[prop(into)]
    name: Signal<String>,
    /// Marked.
    #[prop(into)]
    on: Signal<bool>,
    /// Takes a press.
    #[prop(into)]
    on_press: Callback<()>,
) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <button
            type="button"
            class="chip"
            data-touch="b"
            aria-pressed=move || on.get().to_string()
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_press.run(());
                }
            }
        >
            {move || name.get()}
        </button>
    }
}
