//! What is one tap away.

use leptos::{html, prelude::*};

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
    view! {
        <details class="fold" open=open>
            {heading(title)}
            <div class="fold-body">{children()}</div>
        </details>
    }
}

fn heading(title: Signal<String>) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <summary
            data-touch="b"
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| press.guard(&event)
        >
            <span>{move || title.get()}</span>
            {Sketch::Unfold.draw_small()}
        </summary>
    }
}

/// A [`Fold`] whose content is made only when it is looked at: for long texts.
#[component]
pub fn LateFold(
    /// The heading.
    #[prop(into)]
    title: Signal<String>,
    /// Its look.
    #[prop(default = "fold")]
    class: &'static str,
    /// Unfolded from the beginning.
    #[prop(optional)]
    open: bool,
    /// What unfolds.
    children: ChildrenFn,
) -> impl IntoView {
    let shown = RwSignal::new(open);
    let fold = NodeRef::<html::Details>::new();
    view! {
        <details
            class=class
            open=open
            node_ref=fold
            on:toggle=move |_| shown.set(fold.get_untracked().is_some_and(|fold| fold.open()))
        >
            {heading(title)}
            <div class="fold-body">{move || shown.get().then(|| children())}</div>
        </details>
    }
}
