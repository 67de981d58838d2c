//! An address that leads nowhere.

use leptos::prelude::*;

use crate::ui::components::{
    go_to::{GoTo, HOME},
    page::Page,
};

/// Says so, with a way home.
#[component]
pub fn NotFound() -> impl IntoView {
    view! {
        <Page title="Nothing here">
            <p>"This address leads to no page of Handwheel. What you have saved is untouched."</p>
            <GoTo to=HOME class="button primary" {..} data-touch="c">
                "On the mill"
            </GoTo>
        </Page>
    }
}
