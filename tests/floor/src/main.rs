//! Two pages and a number that is kept.

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::path;

fn main() {
    mount_to_body(App);
}

#[component]
fn App() -> impl IntoView {
    let page = document().base_uri().ok().flatten().unwrap_or_default();
    let folder = page.splitn(4, '/').nth(3).map(|p| format!("/{p}")).unwrap_or_default();
    let base = folder.trim_end_matches('/').to_owned();
    view! {
        <Router base=base>
            <Routes fallback=|| view! { <h1>"Nothing here"</h1> }>
                <Route path=path!("/") view=Count />
                <Route path=path!("/two") view=Two />
            </Routes>
        </Router>
    }
}

#[component]
fn Count() -> impl IntoView {
    let count = RwSignal::new(LocalStorage::get("floor/count").unwrap_or(0));
    Effect::new(move |_| LocalStorage::set("floor/count", count.get()));
    view! {
        <h1>"Floor"</h1>
        <button on:click=move |_| *count.write() += 1>"Count"</button>
        <output>{count}</output>
        <a href="two">"Two"</a>
    }
}

#[component]
fn Two() -> impl IntoView {
    view! {
        <h1>"Two"</h1>
        <a href="./">"Back"</a>
    }
}
