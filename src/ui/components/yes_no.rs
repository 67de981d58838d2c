//! A question that may stay open.

use leptos::prelude::*;

use super::press::Press;

/// A question with Yes and No; another tap on the answer opens the question again.
#[component]
pub fn YesNo(
    /// The question.
    #[prop(into)]
    label: String,
    /// The answer so far.
    #[prop(into)]
    answer: Signal<Option<bool>>,
    /// Takes the next one.
    #[prop(into)]
    on_answer: Callback<Option<bool>>,
) -> impl IntoView {
    let name = label.clone();
    view! {
        <div class="yes-no" role="group" aria-label=name>
            <p class="yes-no-label">{label}</p>
            {side("Yes", true, answer, on_answer)}
            {side("No", false, answer, on_answer)}
        </div>
    }
}

fn side(
    word: &'static str,
    is: bool,
    answer: Signal<Option<bool>>,
    on_answer: Callback<Option<bool>>,
) -> AnyView {
    let press = Press::commit();
    view! {
        <button
            type="button"
            class="chip"
            data-touch="b"
            aria-pressed=move || (answer.get() == Some(is)).to_string()
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    let open = answer.get_untracked() == Some(is);
                    on_answer.run((!open).then_some(is));
                }
            }
        >
            {word}
        </button>
    }
    .into_any()
}
