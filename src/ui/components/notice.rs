//! Something to know that interrupts nothing.

use leptos::prelude::*;

/// A message in a polite live region: it is read out when the reader has time. The region stands
/// empty while there is nothing to say.
#[component]
pub fn Notice(
    /// What to say.
    #[prop(into)]
    message: Signal<Option<String>>,
    /// Buttons beside it.
    #[prop(optional)]
    children: Option<ChildrenFn>,
) -> impl IntoView {
    let children = StoredValue::new(children);
    view! {
        <div role="status" class="notices">
            {move || {
                message
                    .get()
                    .map(|message| {
                        view! {
                            <div class="notice">
                                <span>{message}</span>
                                {children.get_value().map(|children| children())}
                            </div>
                        }
                    })
            }}
        </div>
    }
}
