//! A limit on its graduated scale.

use core::fmt::Write;
use std::sync::OnceLock;

use leptos::prelude::*;

use super::state_mark::{shape, status};
use crate::{
    engine::{answer::Reading, quantity::System},
    ui::words,
};

/// The scale ends here; what lies beyond is shown at its end.
const END: f64 = 2.5;

/// One limit: its shape and name, the figures, and a rule with the pointer at its place. One and
/// two are the long marks where it begins to be near and over.
#[component]
pub fn Scale(
    /// The limit as it was read off.
    #[prop(into)]
    reading: Signal<Reading>,
    /// The units of the figures.
    #[prop(into)]
    system: Signal<System>,
) -> impl IntoView {
    let state = move || reading.read().state;
    let percent = move || {
        let utilisation = reading.read().utilisation;
        let along = if utilisation.is_finite() { utilisation.clamp(0.0, END) } else { END };
        format!("{:.2}%", along / END * 100.0)
    };
    view! {
        <div class="scale" data-status=move || status(state())>
            <div class="scale-words">
                <span class="scale-name">
                    {move || shape(state())} {move || words::limit(reading.read().limit)}
                </span>
                <span class="scale-figure">
                    <b>{move || words::state(state())}</b>
                    ": "
                    {move || words::figures(&reading.read(), system.get())}
                </span>
            </div>
            <svg class="graduated" aria-hidden="true" focusable="false">
                <rect class="fill" x="0" y="20" height="10" width=percent />
                <g inner_html=graduation()></g>
                <svg class="pointer-place" x=percent overflow="visible">
                    <path class="pointer" d="M0 20-8 5H8Z" />
                </svg>
            </svg>
        </div>
    }
}

/// Ticks at every tenth, longer at the halves, through the band at one and two.
fn graduation() -> &'static str {
    static TICKS: OnceLock<String> = OnceLock::new();
    TICKS.get_or_init(|| {
        let mut ticks = String::from(r#"<line class="line" x1="0" x2="100%" y1="20" y2="20"/>"#);
        for tenth in 0..=25 {
            let at = f64::from(tenth) / 10.0 / END * 100.0;
            let (class, top, foot) = match tenth {
                10 | 20 => ("mark", 6, 31),
                5 | 15 | 25 | 0 => ("line", 10, 20),
                _ => ("line", 14, 20),
            };
            // A string takes whatever is written to it.
            let _ = write!(
                ticks,
                r#"<line class="{class}" x1="{at}%" x2="{at}%" y1="{top}" y2="{foot}"/>"#
            );
        }
        // The shapes of the states stand where they begin.
        ticks
            + r#"<svg x="40%" overflow="visible"><path class="near-at" d="M0 33l6 10H-6Z"/></svg>"#
            + r#"<svg x="80%" overflow="visible"><path class="over-at" d="M-5 34H5V44H-5Z"/></svg>"#
    })
}
