//! The graduated rule: the edge of everything that is measured.

use core::sync::atomic::{AtomicUsize, Ordering};

use leptos::prelude::*;

/// A name for an element, different each time.
#[must_use]
pub fn unique(stem: &str) -> String {
    static COUNT: AtomicUsize = AtomicUsize::new(0);
    format!("{stem}-{}", COUNT.fetch_add(1, Ordering::Relaxed))
}

/// An engraved edge as wide as its place, ticks of eight pixels, each fifth and tenth longer. It
/// is an ornament and says nothing.
#[component]
pub fn Rule() -> impl IntoView {
    let id = unique("ticks");
    let fill = format!("url(#{id})");
    view! {
        <svg class="rule" aria-hidden="true" focusable="false">
            <defs>
                <pattern id=id width="80" height="12" patternUnits="userSpaceOnUse">
                    <path
                        d="M1 12V1M41 12V4M9 12V8M17 12V8M25 12V8M33 12V8M49 12V8M57 12V8M65 12V8M73 12V8"
                        stroke="currentColor"
                        stroke-width="1.5"
                    />
                </pattern>
            </defs>
            <rect width="100%" height="12" fill=fill />
        </svg>
    }
}
