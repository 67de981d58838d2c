//! Ways to another page.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use super::press::Press;
use crate::ui::sketch::Sketch;

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
    let here = use_location().pathname;
    // A query asks for something on a page, which is not the page a person stands on.
    let current = move || {
        let to = to.read();
        (!to.contains('?') && last_segment(&to) == last_segment(&here.read())).then_some("page")
    };
    view! {
        <a
            href=move || to.get()
            class=class
            aria-label=label
            aria-current=current
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if !press.accepts(&event) {
                    event.prevent_default();
                }
            }
        >
            {children()}
        </a>
    }
}

fn last_segment(address: &str) -> String {
    let path = address.split(['?', '#']).next().unwrap_or_default();
    let segment = path.rsplit('/').next().unwrap_or_default();
    if segment == "index.html" || segment == "." { String::new() } else { segment.to_owned() }
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
            </span>
        </GoTo>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_segment_of_an_address_tells_the_page() {
        assert_eq!(last_segment("cut?depth=1/8"), "cut");
        assert_eq!(last_segment("/a/folder/cut"), "cut");
        assert_eq!(last_segment("./"), last_segment("/a/folder/"));
        assert_eq!(last_segment("./"), last_segment("/a/folder/index.html"));
    }
}
