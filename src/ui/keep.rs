//! Keeping a screen: by name among the favorites, and in the list of what was looked at last.

use leptos::prelude::*;

use crate::ui::{
    components::{Button, GoTo, Rank},
    sketch::Sketch,
    state::App,
};

/// Keeps the screen at an address by name, and notes it as looked at when it is left.
#[component]
pub fn Keep(
    /// The name it gets; it can be changed later.
    #[prop(into)]
    name: Signal<String>,
    /// Where it stands, as `cut?op=slot`.
    #[prop(into)]
    to: Signal<String>,
    /// False while there is nothing to keep.
    #[prop(default = Signal::stored(true), into)]
    can: Signal<bool>,
    /// What the button says.
    #[prop(default = "Save this")]
    words: &'static str,
) -> impl IntoView {
    let app = App::get();
    // Made anew only when it says something else: a button that gives way to its like between
    // the finger's coming down and going up is not pressed.
    let is_kept = Memo::new(move |_| app.document.read().favorite_at(&to.read()).is_some());
    let can_keep = Memo::new(move |_| can.get());
    remember(app, name, to, can);
    let keep = move |()| {
        let (name, to) = (name.get_untracked(), to.get_untracked());
        app.change(|document| {
            document.add_favorite(&name, &to);
        });
    };
    move || match (is_kept.get(), can_keep.get()) {
        (true, _) => view! {
            <GoTo to="favorites" class=Rank::Secondary.class() {..} data-touch="c">
                {Sketch::StarFilled.draw_small()}
                "Saved: see all"
            </GoTo>
        }
        .into_any(),
        (false, true) => view! { <Button on_press=keep>{words}</Button> }.into_any(),
        (false, false) => ().into_any(),
    }
}

/// Notes what was shown last when the page is left, not every step on the way there.
fn remember(app: App, name: Signal<String>, to: Signal<String>, can: Signal<bool>) {
    let last = StoredValue::new(None::<(String, String)>);
    Effect::new(move || {
        if can.get() {
            last.set_value(Some((name.get(), to.get())));
        }
    });
    on_cleanup(move || {
        let Some((name, to)) = last.try_get_value().flatten() else { return };
        if !app.document.read_untracked().recents.is_last(&name, &to) {
            app.change(|document| document.recents.note(name, to));
        }
    });
}
