//! Buttons.

use leptos::prelude::*;

use super::press::Press;

/// How much a button asks to be pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Rank {
    /// The one thing to do on this page.
    #[default]
    Primary,
    /// Another thing to do.
    Secondary,
    /// Something that takes away; it keeps its distance from everything else.
    Danger,
    /// A small thing beside a text, underlined.
    Quiet,
}

impl Rank {
    /// The class of its look.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::Primary => "button primary",
            Self::Secondary => "button secondary",
            Self::Danger => "button danger",
            Self::Quiet => "button quiet",
        }
    }

    fn tier(self) -> &'static str {
        match self {
            Self::Primary | Self::Secondary => "c",
            Self::Danger => "e",
            Self::Quiet => "a",
        }
    }
}

/// A button that does one thing once: a second tap within 400 ms and a tap that slides are ignored.
#[component]
pub fn Button(
    /// How much it asks to be pressed.
    #[prop(optional)]
    rank: Rank,
    /// What it does.
    #[prop(into)]
    on_press: Callback<()>,
    /// Its words.
    children: Children,
) -> impl IntoView {
    let press = Press::commit();
    view! {
        <button
            type="button"
            class=rank.class()
            data-touch=rank.tier()
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_press.run(());
                }
            }
        >
            {children()}
        </button>
    }
}
