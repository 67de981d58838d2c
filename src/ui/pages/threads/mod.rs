//! `/threads`: the drill to take, the thread that was found, and the gauge.

mod gauge;

use leptos::prelude::*;

use gauge::Gauge;

/// The page.
#[component]
pub fn Threads() -> impl IntoView {
    view! { <Gauge /> }
}
