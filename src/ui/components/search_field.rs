//! A field to search with.

use leptos::prelude::*;

use super::rule::unique;

/// A field that takes the phone's keyboard and looks through a list as it is typed.
#[component]
pub fn SearchField(
    /// What may be typed.
    #[prop(into)]
    label: String,
    /// What has been typed.
    text: RwSignal<String>,
    /// What was found, in a sentence; empty until something was typed.
    #[prop(into)]
    found: Signal<String>,
) -> impl IntoView {
    let id = unique("search");
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>
                {label}
            </label>
            <input
                id=id
                class="text-input"
                type="text"
                autocomplete="off"
                autocapitalize="none"
                spellcheck="false"
                enterkeyhint="search"
                data-touch="b"
                prop:value=move || text.get()
                on:input=move |event| text.set(event_target_value(&event))
            />
            <div class="field-second" role="status">
                {move || found.get()}
            </div>
        </div>
    }
}
