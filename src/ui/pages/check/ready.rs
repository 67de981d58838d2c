//! The end of a check: stops that are open, or hands off the phone.

use leptos::{html, prelude::*};

use super::{
    state::{BEFORE, CheckState},
    words,
};
use crate::{
    engine::safety::{Fact, Phase, direction, list::Item},
    shop::check_form::Step,
    ui::components::{Button, GoTo, Page, Rank, StateMark},
};

/// The page.
#[component]
pub fn Ready() -> impl IntoView {
    let state = CheckState::get();
    // Decided once: nothing may change here any more.
    let open = untrack(|| state.open_stops(&BEFORE));
    if open.is_empty() { view! { <HandsFree /> }.into_any() } else { not_yet(state, &open) }
}

/// Stops are open: which, and the way back to each.
fn not_yet(state: CheckState, open: &[Item]) -> AnyView {
    let way = state.app.way();
    let leave = move |()| {
        state.close();
        way("");
    };
    let severity = crate::engine::safety::Severity::Stop;
    let step = |phase: Phase| match phase {
        Phase::BeforePower => Step::Power,
        Phase::FirstCut => Step::Cut,
        _ => Step::Start,
    };
    let links = BEFORE
        .into_iter()
        .filter(|phase| open.iter().any(|item| item.rule.phase == *phase))
        .map(|phase| {
            let lines = open
                .iter()
                .filter(|item| item.rule.phase == phase)
                .map(|item| view! { <li>{item.text.clone()}</li> })
                .collect_view();
            view! {
                <section class="stack" aria-label=words::step(step(phase))>
                    <GoTo to=state.at(step(phase)) class=Rank::Secondary.class() {..} data-touch="c">
                        "To: " {words::step(step(phase))}
                    </GoTo>
                    <ul class="points">{lines}</ul>
                </section>
            }
        })
        .collect_view();
    view! {
        <Page
            title="Do not start yet"
            back_to=state.at(Step::Start)
            bar=move || {
                view! {
                    <Button rank=Rank::Secondary on_press=leave>
                        "Leave it, and note them as open"
                    </Button>
                }
            }
        >
            <p>
                <StateMark state=words::state(severity) word="These stops are open".to_owned() />
            </p>
            {links}
        </Page>
    }
    .into_any()
}

/// Nothing to touch but one large close.
#[component]
fn HandsFree() -> impl IntoView {
    let state = CheckState::get();
    let heading = NodeRef::<html::H1>::new();
    heading.on_load(|h1| {
        let _ = h1.focus();
    });
    Effect::new(move || document().set_title("Hands free from here – Handwheel"));
    let way = state.app.way();
    let close = move |()| {
        let next = state.at(Step::Chips).get_untracked();
        state.close();
        way(&next);
    };
    let reading = state.reading.get_untracked();
    let context = &reading.context;
    let set = match (Fact::ByHand.of(context), context.switch(), reading.speed) {
        (Some(true), ..) => "Power isolated, turned by hand.".to_owned(),
        (_, Some(switch), Some(rpm)) => format!("{rpm} rpm, switch at {switch}."),
        (_, Some(switch), None) => format!("Switch at {switch}."),
        _ => String::new(),
    };
    let way_round = context.turning().map(direction::words).unwrap_or_default();
    view! {
        <main class="hands-free">
            <h1 tabindex="-1" node_ref=heading>"Hands free from here"</h1>
            <p>{set} " It turns " {way_round} ", seen from above."</p>
            <p>
                "Nothing on this phone needs a touch while the spindle turns. Leave it lying until the spindle stands."
            </p>
            <Button on_press=close>"Close: the spindle stands"</Button>
        </main>
    }
}
