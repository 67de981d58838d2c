//! One phase: huge rows, one tap each.

use leptos::prelude::*;

use super::{
    asking::Summary,
    direction::Direction,
    state::{BEFORE, CheckState, STOPPED},
    words,
};
use crate::{
    engine::safety::{
        Phase,
        list::{Item, Row},
    },
    shop::check_form::Step,
    ui::{
        components::{
            Button, Fold, GoTo, HOME, Page, Rank, StateMark, Toggle, press::Press, rule::unique,
        },
        sketch::Sketch,
    },
};

/// The page of a phase.
pub fn page(step: Step, phase: Phase) -> AnyView {
    let state = CheckState::get();
    let (before, next) = match step {
        Step::Power => (Step::SetUp, Step::Cut),
        Step::Cut => (Step::Power, Step::Start),
        Step::Start => (Step::Cut, Step::Ready),
        Step::After => (Step::Chips, Step::Begin),
        _ => (Step::Begin, Step::After),
    };
    let back_to =
        if step == Step::Chips { Signal::stored(HOME.to_owned()) } else { state.at(before) };
    let bar = move || match step {
        Step::After => {
            let way = state.app.way();
            let done = move |()| {
                state.finish();
                way("");
            };
            view! { <Button on_press=done>"Done"</Button> }.into_any()
        }
        _ => view! {
            <GoTo to=state.at(next) class=Rank::Primary.class() {..} data-touch="c">
                "Next: "
                {match next {
                    Step::Ready => "start",
                    Step::Cut => "know before the cut",
                    Step::Start => "before it turns",
                    _ => "after the cut",
                }}
            </GoTo>
        }
        .into_any(),
    };
    let why = RwSignal::new(false);
    let rows = Memo::new(move |_| state.part(phase).map(|part| part.rows).unwrap_or_default());
    let rows = move || rows.get().iter().map(|row| row_view(state, row, why)).collect_view();
    view! {
        <Page title=words::step(step) back_to=back_to bar=bar>
            <Summary />
            <Progress state phase />
            {(step == Step::Start).then(|| view! { <Direction /> })}
            <ul class="check-rows">{rows}</ul>
            <Toggle label="Show why, and the sources" on=why on_change=move |on| why.set(on) />
            <Others state phase />
            <p class="muted">
                "A tick is a note to yourself and proves nothing. The manual of your machine comes first."
            </p>
        </Page>
    }
    .into_any()
}

/// How far the person is, on a graduated scale.
#[component]
fn Progress(state: CheckState, phase: Phase) -> impl IntoView {
    let phases: &'static [Phase] = if BEFORE.contains(&phase) { &BEFORE } else { &STOPPED };
    let counts = Memo::new(move |_| {
        let list = state.list.read();
        let all = list.items().filter(|item| phases.contains(&item.rule.phase)).count();
        (all, state.open(phases).len(), state.open_stops(phases).len())
    });
    let percent = move || {
        let (all, open, _) = counts.get();
        let done = all.saturating_sub(open);
        if all == 0 {
            "100%".to_owned()
        } else {
            format!("{:.1}%", 100.0 * done as f64 / all as f64)
        }
    };
    let said = move || {
        let (all, open, stops) = counts.get();
        let done = all.saturating_sub(open);
        match stops {
            0 => format!("{done} of {all} ticked, no stop open"),
            1 => format!("{done} of {all} ticked, 1 stop open"),
            stops => format!("{done} of {all} ticked, {stops} stops open"),
        }
    };
    let ticks = (0..=20)
        .map(|n| {
            let at = format!("{}%", n * 5);
            let top = if n % 10 == 0 {
                "4"
            } else if n % 5 == 0 {
                "8"
            } else {
                "12"
            };
            view! { <line class="line" x1=at.clone() x2=at y1=top y2="20" /> }
        })
        .collect_view();
    view! {
        <div class="check-progress">
            <p data-testid="progress">{said}</p>
            <svg class="graduated" aria-hidden="true" focusable="false">
                <line class="line" x1="0" x2="100%" y1="20" y2="20" />
                {ticks}
                <svg class="pointer-place" x=percent overflow="visible">
                    <path class="pointer" d="M0 20-8 5H8Z" />
                </svg>
            </svg>
        </div>
    }
}

/// One row: a rule, or several of a kind that are ticked together.
fn row_view(state: CheckState, row: &Row, why: RwSignal<bool>) -> AnyView {
    let severity = row.severity();
    let ids: Vec<&'static str> = row.items.iter().map(|item| item.rule.id).collect();
    let ids = StoredValue::new(ids);
    let is_ticked = Memo::new(move |_| state.is_ticked(&ids.read_value()));
    // A switch that nobody has looked at is not ticked off: the jog test is answered first.
    let waits = Memo::new(move |_| {
        let is_direction = ids.read_value().iter().any(|id| ["S01", "S03"].contains(id));
        is_direction && super::direction::is_unseen(&state.reading.read())
    });
    let press = Press::commit();
    // What belongs together is read under its button: the button itself stays as high as a finger
    // finds it, whatever the size of the letters.
    let together = row.group.map(|group| {
        let lines = row.items.iter().map(line).collect_view();
        (format!("{} ({})", words::group(group), row.items.len()), lines)
    });
    let (title, lines) = match together {
        Some((title, lines)) => (
            view! { <b>{title}</b> }.into_any(),
            Some(view! { <ul class="check-lines">{lines}</ul> }),
        ),
        None => (row.items.iter().map(said).collect_view().into_any(), None),
    };
    let grounds = StoredValue::new(row.items.iter().map(grounds).collect::<Vec<_>>());
    let described = unique("check");
    view! {
        <li class="check-row">
            <button
                type="button"
                role="checkbox"
                class="check"
                data-touch="c"
                aria-checked=move || is_ticked.get().to_string()
                aria-disabled=move || waits.get().then_some("true")
                aria-describedby=described.clone()
                on:pointerdown=move |event| press.down(&event)
                on:click=move |event| {
                    if press.accepts(&event) && !waits.get_untracked() {
                        state.tick(&ids.read_value(), !is_ticked.get_untracked());
                    }
                }
            >
                <StateMark state=words::state(severity) word=words::severity(severity).to_owned() />
                <span class="check-words">{title}</span>
                <span class="check-box">
                    {move || is_ticked.get().then(|| Sketch::Tick.draw_small())}
                    <span>{move || if is_ticked.get() { "done" } else { "open" }}</span>
                </span>
            </button>
            <div class="check-more" id=described>
                {move || {
                    waits.get().then(|| view! { <p><b>"Answer the jog test above first."</b></p> })
                }}
                {lines}
                {move || {
                    why.get()
                        .then(|| {
                            let texts = grounds.get_value().into_iter();
                            texts
                                .map(|text| view! { <p class="check-why">{text}</p> })
                                .collect_view()
                        })
                }}
            </div>
        </li>
    }
    .into_any()
}

/// What to do, and a sentence more.
fn said(item: &Item) -> AnyView {
    let note = item.note.clone().map(|note| view! { " "<b>{note}</b> });
    view! {
        <span>{item.text.clone()} {note}</span>
    }
    .into_any()
}

/// One of several that are ticked together.
fn line(item: &Item) -> AnyView {
    let severity = item.rule.severity;
    view! {
        <li>
            <StateMark state=words::state(severity) word=words::severity(severity).to_owned() />
            {said(item)}
        </li>
    }
    .into_any()
}

/// Why, where from, and whether it is here for want of an answer.
fn grounds(item: &Item) -> String {
    let open = if item.certain { "" } else { " Shown because something it asks is not known." };
    format!("{}: {}.{open} {}", item.rule.id, item.rule.why, words::sources(item.rule.sources))
}

/// What rests, and what is overruled: shown, and not to be ticked.
#[component]
fn Others(state: CheckState, phase: Phase) -> impl IntoView {
    let part = Memo::new(move |_| state.part(phase));
    move || {
        let part = part.get()?;
        let rested = (!part.rested.is_empty()).then(|| {
            let lines = part
                .rested
                .iter()
                .map(|item| view! { <li>{item.text.clone()}</li> })
                .collect_view();
            let title = format!("Ticked for this set-up not long ago ({})", part.rested.len());
            view! { <Fold title><ul class="points">{lines}</ul></Fold> }
        });
        let overruled = part
            .overruled
            .iter()
            .map(|item| {
                let by = item.overruled_by.unwrap_or_default();
                let rules = state.list.read();
                let by = rules.items().find(|other| other.rule.id == by);
                let by = by.map(|by| by.text.clone()).unwrap_or_default();
                view! {
                    <li>
                        <s>{item.text.clone()}</s>
                        " Does not count here: " {by} "."
                    </li>
                }
            })
            .collect_view();
        let overruled = (!part.overruled.is_empty()).then(|| {
            view! {
                <section class="stack" aria-label="Struck out" data-testid="struck">
                    <h2>"Struck out"</h2>
                    <ul class="points">{overruled}</ul>
                </section>
            }
        });
        Some(view! { {rested} {overruled} })
    }
}
