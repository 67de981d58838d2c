//! `/plan`: a batch, its orders side by side, and the run sheet.
//!
//! The batch stands in the saved document, and with it the run: both outlast a restart.

mod operation;
mod orders;
mod picture;
mod run;

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use self::{operation::OperationPage, orders::Orders, run::RunPage};

/// The page.
#[component]
pub fn Plan() -> impl IntoView {
    let query = use_query_map();
    let part = Memo::new(move |_| {
        let query = query.read();
        let operation = query.get_str("operation").and_then(|id| id.parse::<u32>().ok());
        (query.get_str("run").is_some(), operation)
    });
    move || match part.get() {
        (true, _) => view! { <RunPage /> }.into_any(),
        (false, Some(id)) => view! { <OperationPage id /> }.into_any(),
        (false, None) => view! { <Orders /> }.into_any(),
    }
}
