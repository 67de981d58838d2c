//! The last checks: when, what, and what was left open.

use leptos::prelude::*;

use super::{state::CheckState, words};
use crate::{
    browser::clock,
    shop::{check_form::Step, checks::Record},
    ui::components::{GoTo, Page, Rank},
};

/// The page.
#[component]
pub fn Records() -> impl IntoView {
    let state = CheckState::get();
    let records = state.app.part(|document| {
        let name = |record: &Record| {
            let own = document.machine_called(&record.machine);
            own.map_or_else(|| "a mill that is gone".to_owned(), |own| own.form.name.clone())
        };
        document.checks.records.iter().map(|r| (name(r), r.clone())).collect::<Vec<_>>()
    });
    let list = move || {
        let records = records.get();
        if records.is_empty() {
            return view! { <p>"No check was closed on this device yet."</p> }.into_any();
        }
        records
            .into_iter()
            .map(|(name, record)| record_view(&name, record))
            .collect_view()
            .into_any()
    };
    view! {
        <Page title=words::step(Step::Records) back_to=state.at(Step::SetUp)>
            <p class="muted">"Notes of what was ticked here, and no proof of anything."</p>
            <div class="stack" data-testid="records">{list}</div>
        </Page>
    }
}

fn record_view(name: &str, record: Record) -> AnyView {
    let open = match record.open.len() {
        0 => "Nothing left open.".to_owned(),
        count => format!("Left open ({count}):"),
    };
    let lines = record.open.iter().map(|text| view! { <li>{text.clone()}</li> }).collect_view();
    let title = format!("{}, {name}", record.title);
    view! {
        <section class="panel record" aria-label=title.clone()>
            <h2>{title.clone()}</h2>
            <p>{clock::shown(&record.when)} ". " {record.cutter} ". " {open}</p>
            {(!record.open.is_empty()).then(|| view! { <ul class="points">{lines}</ul> })}
            <GoTo
                to=format!("check?{}", record.link)
                class=Rank::Secondary.class()
                {..}
                data-touch="c"
            >
                "Check it again"
            </GoTo>
        </section>
    }
    .into_any()
}
