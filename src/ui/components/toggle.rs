//! Yes or no, inch or metric.

use leptos::prelude::*;

use super::press::Press;
use crate::engine::quantity::System;

/// A switch that says in words how it stands. Another tap undoes it.
#[component]
pub fn Toggle(
    /// What is switched.
    #[prop(into)]
    label: Signal<String>,
    /// How it stands.
    #[prop(into)]
    on: Signal<bool>,
    /// Takes how it stands next.
    #[prop(into)]
    on_change: Callback<bool>,
    /// The words for on and off.
    #[prop(default = ("on", "off"))]
    said: (&'static str, &'static str),
) -> impl IntoView {
    let press = Press::commit();
    view! {
        <button
            type="button"
            class="toggle"
            role="switch"
            data-touch="b"
            aria-checked=move || on.get().to_string()
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_change.run(!on.get_untracked());
                }
            }
        >
            <span class="toggle-words">{move || label.get()}</span>
            <span class="toggle-state">{move || if on.get() { said.0 } else { said.1 }}</span>
            <svg viewBox="0 0 60 34" aria-hidden="true" focusable="false">
                <rect class="track" x="2" y="2" width="56" height="30" rx="15" />
                <circle class="knob" cx=move || if on.get() { "43" } else { "17" } cy="17" r="9" />
            </svg>
        </button>
    }
}

/// Inch or millimetre for the whole page, one tap.
#[component]
pub fn UnitSwitch(
    /// The units at hand.
    #[prop(into)]
    system: Signal<System>,
    /// Takes the other ones.
    #[prop(into)]
    on_change: Callback<System>,
) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <button
            type="button"
            class="unit-switch"
            data-touch="a"
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_change.run(system.get_untracked().other());
                }
            }
        >
            <TwoUnits system />
        </button>
    }
}

/// The two units, the one at hand bold and underlined; a reader hears which.
#[component]
pub fn TwoUnits(
    /// The units at hand.
    system: Signal<System>,
) -> impl IntoView {
    let is = move |this| system.get() == this;
    view! {
        <span class="two-units">
            <span class:on=move || is(System::Inch)>"in"</span>
            <span class:on=move || is(System::Metric)>"mm"</span>
            <span class="hidden-text">
                {move || if is(System::Inch) { ", now inches" } else { ", now millimetres" }}
            </span>
        </span>
    }
}
