//! A field for a name.

use leptos::prelude::*;

use super::{
    error_text::{Complaint, ErrorText},
    press::Press,
    rule::unique,
};

/// A field for words: what the owner calls a thing, what a switch says. It takes the keyboard of
/// the phone, which numbers never do.
#[component]
pub fn TextField(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// What has been typed.
    #[prop(into)]
    value: Signal<String>,
    /// Takes what is typed next.
    #[prop(into)]
    on_change: Callback<String>,
    /// Shown in an empty field.
    #[prop(optional, into)]
    placeholder: Signal<String>,
    /// What stands against it.
    #[prop(optional, into)]
    complaint: Signal<Option<Complaint>>,
    /// Usual words, one tap away.
    #[prop(optional)]
    usual: &'static [&'static str],
) -> impl IntoView {
    let (id, error_id) = (unique("text"), unique("error"));
    let described = error_id.clone();
    let chips = usual.iter().map(|&word| usual_word(word, value, on_change)).collect_view();
    view! {
        <div class="field" class:wrong=move || complaint.read().is_some()>
            <label class="field-label" for=id.clone()>
                {move || label.get()}
            </label>
            <input
                id=id
                class="text-input"
                type="text"
                autocomplete="off"
                enterkeyhint="done"
                data-touch="b"
                placeholder=move || placeholder.get()
                aria-invalid=move || complaint.read().is_some().to_string()
                aria-describedby=move || complaint.read().is_some().then(|| described.clone())
                prop:value=move || value.get()
                on:input=move |event| on_change.run(event_target_value(&event))
            />
            <ErrorText id=error_id complaint />
            {(!usual.is_empty()).then(|| view! { <div class="row">{chips}</div> })}
        </div>
    }
}

fn usual_word(
    word: &'static str,
    value: Signal<String>,
    on_change: Callback<String>,
) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <button
            type="button"
            class="chip"
            data-touch="b"
            aria-pressed=move || (value.read().trim() == word).to_string()
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_change.run(word.to_owned());
                }
            }
        >
            {word}
        </button>
    }
}
