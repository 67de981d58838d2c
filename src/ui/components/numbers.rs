//! Numbers to set: the one that matters most, and those beside it.

use leptos::prelude::*;

use crate::engine::quantity::rounding::Shown;

/// The number to set, the largest thing on the screen, with one sentence that says why.
#[component]
pub fn BigNumber(
    /// What it is.
    #[prop(into)]
    label: Signal<String>,
    /// Its digits and unit.
    #[prop(into)]
    shown: Signal<Shown>,
    /// Why it is this one; may be empty.
    #[prop(optional, into)]
    why: Signal<String>,
) -> impl IntoView {
    // Fewer digits may be larger ones; the widest, like "-12 7/8", still fits a small phone.
    let class = move || match shown.read().digits.chars().count() {
        0..=4 => "big-line short",
        5..=6 => "big-line middling",
        _ => "big-line",
    };
    view! {
        <div class="big" aria-live="polite" aria-atomic="true">
            <div class="big-label">{move || label.get()}</div>
            <div class=class>
                <span data-result="key">{move || shown.get().digits}</span>
                <span class="unit">{move || shown.read().unit}</span>
            </div>
            {move || {
                let why = why.get();
                (!why.is_empty()).then(|| view! { <p class="big-why">{why}</p> })
            }}
        </div>
    }
}

/// A result beside the one to set, in a cell; several stand in `<div class="cells">`.
#[component]
pub fn SecondNumber(
    /// What it is.
    #[prop(into)]
    label: Signal<String>,
    /// Its digits and unit.
    #[prop(into)]
    shown: Signal<Shown>,
    /// A few words under it.
    #[prop(optional, into)]
    note: Signal<String>,
) -> impl IntoView {
    view! {
        <div class="cell">
            <span class="cell-words">
                <span class="cell-label">{move || label.get()}</span>
                {move || {
                    let note = note.get();
                    (!note.is_empty()).then(|| view! { <span class="cell-note">{note}</span> })
                }}
            </span>
            <span class="cell-line">
                <span data-result="second">{move || shown.get().digits}</span>
                <span class="unit">{move || shown.read().unit}</span>
            </span>
        </div>
    }
}
