//! What takes away asks twice.

use leptos::{html, prelude::*};

use super::button::{Button, Rank};

/// A button that takes something away: the first tap asks, a second one on another button does it.
#[component]
pub fn AskTwice(
    /// What the first button says: "Remove this mill".
    #[prop(into)]
    ask: String,
    /// What is said then: what will be gone, a full sentence.
    #[prop(into)]
    sentence: Signal<String>,
    /// What the button says that does it.
    #[prop(into)]
    act: String,
    /// Does it.
    #[prop(into)]
    on_act: Callback<()>,
) -> impl IntoView {
    let asked = RwSignal::new(false);
    move || {
        let (ask, act) = (ask.clone(), act.clone());
        if asked.get() {
            view! { <Asked asked sentence act on_act /> }.into_any()
        } else {
            view! {
                <Button rank=Rank::Danger on_press=move |()| asked.set(true)>
                    {ask}
                </Button>
            }
            .into_any()
        }
    }
}

#[component]
fn Asked(
    asked: RwSignal<bool>,
    sentence: Signal<String>,
    act: String,
    on_act: Callback<()>,
) -> impl IntoView {
    // The bar at the lower edge would cover what has just appeared.
    let panel = NodeRef::<html::Div>::new();
    panel.on_load(|panel| panel.scroll_into_view_with_bool(false));
    let do_it = move |()| {
        asked.set(false);
        on_act.run(());
    };
    view! {
        <div class="panel stack" role="alert" node_ref=panel>
            <p>{move || sentence.get()}</p>
            <Button rank=Rank::Secondary on_press=move |()| asked.set(false)>
                "Keep it"
            </Button>
            <Button rank=Rank::Danger on_press=do_it>
                {act}
            </Button>
        </div>
    }
}
