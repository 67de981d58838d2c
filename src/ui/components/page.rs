//! The frame of a page.

use leptos::{html, prelude::*};

use super::{
    go_to::{GoTo, HOME},
    rule::Rule,
};
use crate::ui::sketch::Sketch;

/// A page: head with a way back, heading and one thing at the right; body; actions at the lower
/// edge.
///
/// The heading takes the focus when the page opens, so that it is read from its top. For 300 ms
/// the page is deaf to taps (`style/page.css`): what appears under a finger is not meant.
#[component]
pub fn Page(
    /// The heading.
    #[prop(into)]
    title: Signal<String>,
    /// False on the first page, which has no way back.
    #[prop(default = true)]
    back: bool,
    /// Where back leads to.
    #[prop(default = HOME.into(), into)]
    back_to: Signal<String>,
    /// At the right of the heading.
    #[prop(optional, into)]
    right: ViewFnOnce,
    /// Actions at the lower edge, the primary one first.
    #[prop(optional, into)]
    bar: ViewFnOnce,
    /// False where the emergency card is a tap away anyway.
    #[prop(default = true)]
    help: bool,
    /// The body.
    children: Children,
) -> impl IntoView {
    let heading = NodeRef::<html::H1>::new();
    heading.on_load(|h1| {
        // Without scrolling: the head is in view anyway, and the router restores the rest.
        let _ = h1.focus();
    });
    Effect::new(move || document().set_title(&format!("{} – Handwheel", title.get())));
    view! {
        <div class="page">
            <header class="page-head">
                <div class="page-head-row">
                    {back
                        .then(|| {
                            view! {
                                <GoTo to=back_to class="back" label="Back" {..} data-touch="a">
                                    {Sketch::Back.draw_small()}
                                </GoTo>
                            }
                        })}
                    <h1 tabindex="-1" node_ref=heading>
                        {move || title.get()}
                    </h1>
                    {right.run()}
                </div>
                <Rule />
            </header>
            <main class="page-main">{children()} {help.then(to_help)}</main>
            <footer class="page-bar">{bar.run()}</footer>
        </div>
    }
}

/// To the emergency card, at the foot of every page: two taps from anywhere.
fn to_help() -> AnyView {
    view! {
        <GoTo to="emergency" class="foot" {..} data-touch="b">
            "Emergency card"
        </GoTo>
    }
    .into_any()
}

/// An answer and what it is asked with: one below the other on a phone, side by side on its side
/// and on a tablet. The first child of the answer with class `stay` keeps in view.
#[component]
pub fn Split(
    /// The answer.
    #[prop(into)]
    answer: ViewFnOnce,
    /// What the two panes are called.
    #[prop(default = ("Answer", "Inputs"))]
    names: (&'static str, &'static str),
    /// As of [`Page`].
    #[prop(default = true)]
    help: bool,
    /// The inputs.
    children: Children,
) -> impl IntoView {
    view! {
        <div class="split">
            <section class="split-answer" aria-label=names.0 tabindex="0">
                {answer.run()}
            </section>
            <section class="split-inputs" aria-label=names.1>
                {children()} {help.then(to_help)}
            </section>
        </div>
    }
}
