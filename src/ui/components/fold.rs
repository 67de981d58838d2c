//! What is one tap away.

use leptos::prelude::*;

use super::press::Press;
use crate::ui::sketch::Sketch;

/// A heading that unfolds what stands under it.
#[component]
pub fn Fold(
    /// The heading.
    #[prop(into)]
    title: Signal<String>,
    /// Unfolded from the beginning.
    #[prop(optional)]
    open: bool,
    /// What unfolds.
    children: Children,
) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <details class="fold" open=open>
            <summary
                data-touch="b"
                on:pointerdown=move |event| press.down(&event)
                on:click=move |event| press.guard(&event)
            >
                <span>{move || title.get()}</span>
                {Sketch::Unfold.draw_small()}
            </summary>
            <div class="fold-body">{children()}</div>
        </details>
    }
}
