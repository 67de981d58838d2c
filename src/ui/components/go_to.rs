//! Ways to another page.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use super::press::Press;
use crate::ui::{
    pieces::{Coming, part},
    sketch::Sketch,
};

/// The page at the root of the app, as a link says it.
pub const HOME: &str = "./";

/// A link to a page of this app.
///
/// It is plain text for the browser, which resolves it by the base of the document; the router
/// takes it from there. A leading stroke would leave the folder the app is served from.
#[component]
pub fn GoTo(
    /// One segment and a query: `cut?depth=0.1`, or [`HOME`].
    #[prop(into)]
    to: Signal<String>,
    /// Its look, e.g. `button primary`; a link in a text without one.
    #[prop(optional, into)]
    class: String,
    /// What assistive devices call it, where it shows a picture only.
    #[prop(optional, into)]
    label: Option<String>,
    /// Its words.
    children: Children,
) -> impl IntoView {
    let press = Press::commit();
    let here = use_location();
    let current = move || {
        let (page, query) = page_and_query(&to.read());
        let here_query = here.search.read();
        (page == page_and_query(&here.pathname.read()).0
            && query == here_query.trim_start_matches('?'))
        .then_some("page")
    };
    view! {
        <a
            href=move || to.get()
            class=class
            aria-label=label
            aria-current=current
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| press.guard(&event)
        >
            {children()}
        </a>
    }
}

/// The page an address leads to, empty for the one at the root, and what is asked of it.
fn page_and_query(address: &str) -> (String, String) {
    let (path, query) = address.split_once('?').unwrap_or((address, ""));
    let page = path.rsplit('/').next().unwrap_or_default();
    let page = if matches!(page, "index.html" | ".") { "" } else { page };
    (page.to_owned(), query.to_owned())
}

/// A large tile that leads to a page: a drawing, a name, and what is chosen there.
#[component]
pub fn Tile(
    /// As in [`GoTo`].
    #[prop(into)]
    to: Signal<String>,
    /// Its name.
    #[prop(into)]
    name: Signal<String>,
    /// What is chosen there, or what it is for.
    #[prop(optional, into)]
    detail: Signal<String>,
    /// The same, where it has to be fetched; its place is kept.
    #[prop(optional_no_strip)]
    later: Option<Coming<AnyView>>,
    /// Its drawing.
    #[prop(optional)]
    sketch: Option<Sketch>,
    /// As wide as the page, drawing left of the words.
    #[prop(optional)]
    across: bool,
) -> impl IntoView {
    view! {
        <GoTo to=to class=if across { "door across" } else { "door" } {..} data-touch="b">
            {sketch.map(Sketch::draw)}
            <span class="door-words">
                {move || name.get()}
                {move || {
                    (!detail.read().is_empty())
                        .then(|| view! { <span class="door-detail">{detail.get()}</span> })
                }}
                {later.map(|view| view! { <span class="door-detail later">{part(view)}</span> })}
            </span>
        </GoTo>
    }
}
