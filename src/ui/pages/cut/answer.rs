//! The answer card and what stands under it.

use std::sync::Arc;

use leptos::prelude::*;

use super::{
    figures,
    picture::{WindowPicture, in_words},
    state::{CutState, Done, Outcome},
};
use crate::{
    engine::{
        answer::{Caution, Change, Reading, State, Trouble, Verdict},
        machine::Speeds,
        quantity::{
            Length, SpindleSpeed, System,
            rounding::{self, Shown},
        },
        question::Field,
    },
    shop::typed::Typed,
    ui::{
        components::{
            BigNumber, Complaint, ErrorText, Fold, GoTo, LateFold, Scale, SecondNumber, StateMark,
            state_mark::shape, working,
        },
        words,
    },
};

/// The answer, while there is one.
fn done(state: CutState) -> Option<Arc<Done>> {
    match &*state.outcome.read() {
        Outcome::Done(done) => Some(done.clone()),
        _ => None,
    }
}

/// The answer for what is read after the numbers: it follows them by a frame, so that a tap is
/// answered at once.
fn done_shown(state: CutState) -> Option<Arc<Done>> {
    match &*state.shown.read() {
        Outcome::Done(done) => Some(done.clone()),
        _ => None,
    }
}

/// What to set: the speed, the wheel, the passes, the time. Its place and height stay while the
/// entries change.
#[component]
pub fn AnswerCard() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    let dash = || Shown { digits: "–".to_owned(), unit: "rpm" };
    let speed = Signal::derive(move || {
        done(state).map_or_else(dash, |done| rounding::spindle_speed(done.answer.speed.set))
    });
    // A number half typed has no answer. The one before keeps its room then, unseen, while the
    // number pad is open: the field that is typed into must not jump.
    let last = Memo::new(move |before: Option<&Option<Arc<Done>>>| {
        done_shown(state).or_else(|| before.cloned().flatten())
    });
    let why =
        move || last.get().map(|done| figures::why(&done.answer, &done.machine, system.get()));
    let gear =
        move || last.get().map(|done| figures::gear(&done.answer)).filter(|text| !text.is_empty());
    let cells = Memo::new(move |_| {
        last.get().map(|done| figures::cells(&done.answer, system.get())).unwrap_or_default()
    });
    let cells = move || {
        cells
            .get()
            .into_iter()
            .map(|cell| view! { <SecondNumber label=cell.label shown=cell.shown note=cell.note /> })
            .collect_view()
    };
    let check = Signal::derive(move || format!("check?{}", state.settled.read().to_query()));
    let line = move || {
        done(state).map(|done| figures::line(&done.answer, system.get())).unwrap_or_default()
    };
    view! {
        <section class="answer stay" aria-label="The answer">
            <VerdictLine />
            <BigNumber label="Spindle speed" shown=speed />
            <p class="answer-line" data-testid="line">{line}</p>
        </section>
        <div class="answer-more" class:waiting=move || done(state).is_none()>
            <p class="big-why" data-testid="why">{why}</p>
            {move || gear().map(|gear| view! { <p class="gear">{gear}</p> })}
            <div class="cells" data-testid="cells">
                {cells}
            </div>
            <GoTo to=check class="button secondary" {..} data-touch="c">
                "Check before the cut"
            </GoTo>
        </div>
    }
}

/// Whether to cut, above everything else.
#[component]
fn VerdictLine() -> impl IntoView {
    let state = CutState::get();
    // Made anew only when it says something else.
    let verdict = Memo::new(move |_| done(state).map(|done| done.answer.verdict));
    // It keeps its place without an answer, too: what stands under it must not jump.
    move || match verdict.get() {
        Some(verdict) => {
            let live = if verdict == Verdict::DoNotCut { "assertive" } else { "polite" };
            view! {
                <p class="verdict" aria-live=live data-testid="verdict">
                    <StateMark
                        state=words::verdict_state(verdict)
                        word=words::verdict(verdict).to_owned()
                    />
                </p>
            }
            .into_any()
        }
        None => view! { <p class="verdict">"No answer yet"</p> }.into_any(),
    }
}

/// What holds the cut back, worst first, and what would relieve it.
#[component]
pub fn HeldBack() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    move || {
        done_shown(state).map(|done| {
            let system_now = system.get();
            let answer = &done.answer;
            let trouble = answer.trouble.as_ref().map(|trouble| {
                let said = words::trouble(trouble, system_now);
                let named = named(trouble_change(trouble), &done, system_now);
                view! {
                    <div class="notice" data-testid="trouble">
                        <p>{said.why}</p>
                        <p>
                            <b>{named.unwrap_or(said.act)}</b>
                        </p>
                    </div>
                }
            });
            let given_up: Vec<_> = answer
                .given_up
                .iter()
                .map(|given| view! { <li>{words::concession(given, system_now)}</li> })
                .collect();
            let relief: Vec<_> = answer
                .relief
                .iter()
                .filter_map(|relief| named(Some(relief.change), &done, system_now))
                .map(|change| view! { <li>{change}</li> })
                .collect();
            let (first, rest) = answer.limits.split_at(answer.limits.len().min(3));
            let scales = |readings: &[Reading]| {
                readings
                    .iter()
                    .map(|reading| view! { <Scale reading=reading.clone() system /> })
                    .collect_view()
            };
            let more = (!rest.is_empty()).then(|| {
                let title = format!("{} more limits", rest.len());
                let rest = scales(rest);
                view! { <Fold title>{rest}</Fold> }
            });
            let held = held(answer.limits.first());
            view! {
                <section class="stack reasons" aria-label="What holds it back" data-testid="limits">
                    <h2>"What holds it back"</h2>
                    {trouble}
                    <p>{held}</p>
                    {scales(first)}
                    {more}
                    {(!relief.is_empty())
                        .then(|| {
                            view! {
                                <h3>"Would help most"</h3>
                                <ul class="points">{relief}</ul>
                            }
                        })}
                    {(!given_up.is_empty())
                        .then(|| {
                            view! {
                                <h3>"Given up on the way"</h3>
                                <ul class="points">{given_up}</ul>
                            }
                        })}
                </section>
            }
        })
    }
}

/// One sentence on the limit that binds.
fn held(binding: Option<&Reading>) -> String {
    let Some(reading) = binding else {
        return "Nothing holds this back.".to_owned();
    };
    let name = words::limit(reading.limit);
    let share = rounding::fixed(reading.utilisation * 50.0, 0);
    match reading.state {
        State::Within => format!("{name} comes first, at {share} % of its limit."),
        State::Near => format!(
            "{name} binds, at {share} % of its limit. {}",
            words::beyond(reading.limit).replace('.', " beyond it.")
        ),
        State::Over => format!("{name} is over. {}", words::beyond(reading.limit)),
    }
}

fn trouble_change(trouble: &Trouble) -> Option<Change> {
    match trouble {
        Trouble::Alone { mend, .. }
        | Trouble::Between { mend, .. }
        | Trouble::Yours { mend, .. } => *mend,
    }
}

/// A change in words, with the name of the cutter or machine it points at.
fn named(change: Option<Change>, done: &Done, system: System) -> Option<String> {
    let change = change?;
    Some(match change {
        Change::OtherCutter(i) => format!("Use {}.", done.offered.0.get(i)?),
        Change::OtherMachine(i) => format!("Use the {}.", done.offered.1.get(i)?),
        other => words::change(other, system),
    })
}

/// The picture, and the speeds of this mill to try.
#[component]
pub fn Picture() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    move || {
        let done = done_shown(state)?;
        let window = done.window.clone()?;
        let lead = done.answer.feed.as_ref().and_then(|feed| {
            feed.wheel.map(|rate| Length::mm(feed.rate.to_mm_per_min() / rate.to_turns_per_min()))
        });
        let words = in_words(&window, system.get());
        Some(view! {
            <section class="stack reasons" aria-label="Operating window">
                <h2>"Where it can run"</h2>
                <div class="window-panel">
                    <WindowPicture window lead system=system.get() />
                    <p class="window-key">
                        "Solid line: over. Dashed: near. Dot: set. Ring: wanted. Filled: allowed."
                    </p>
                </div>
                <SpeedSteps done />
                <Fold title="The picture in words">
                    <p>{words}</p>
                </Fold>
            </section>
        })
    }
}

/// The speeds around the set one, each one tap.
#[component]
fn SpeedSteps(done: Arc<Done>) -> impl IntoView {
    let state = CutState::get();
    let set = done.answer.speed.set;
    let yours = done.answer.speed.yours;
    let speeds = speeds_to_try(&done);
    let buttons = speeds
        .into_iter()
        .map(|speed| {
            let text = rounding::spindle_speed(speed).digits;
            let is_set = (speed / set - 1.0).abs() < 1e-6;
            let typed = text.clone();
            view! {
                <button
                    type="button"
                    class="chip"
                    data-touch="b"
                    aria-pressed=is_set.to_string()
                    on:click=move |_| {
                        let typed = Typed::new(typed.clone(), System::Inch);
                        state.change(Field::SpindleSpeed, |form| form.own.spindle_speed = typed);
                    }
                >
                    {text}
                </button>
            }
        })
        .collect_view();
    let release = yours.then(|| {
        view! {
            <button
                type="button"
                class="chip"
                data-touch="b"
                on:click=move |_| {
                    state
                        .change(
                            Field::SpindleSpeed,
                            |form| form.own.spindle_speed = Typed::default(),
                        );
                }
            >
                "choose for me"
            </button>
        }
    });
    view! {
        <div role="group" aria-label="Try another speed, rpm">
            <p class="muted">"Try another speed, rpm"</p>
            <div class="row">{buttons} {release}</div>
        </div>
    }
}

/// Every step of the machine, or a few of a continuous range around the set speed.
fn speeds_to_try(done: &Done) -> Vec<SpindleSpeed> {
    let mut speeds: Vec<SpindleSpeed> = Vec::new();
    let set = done.answer.speed.set;
    for range in &done.machine.ranges {
        match &range.speeds {
            Speeds::Steps(steps) => speeds.extend(steps),
            Speeds::Continuous { lowest, highest, .. } => {
                for factor in [0.6, 0.8, 0.9, 1.0, 1.1, 1.25] {
                    let round = (set.to_rpm() * factor / 10.0).round() * 10.0;
                    let speed = if factor == 1.0 { set } else { SpindleSpeed::rpm(round) };
                    if speed >= *lowest && speed <= *highest {
                        speeds.push(speed);
                    }
                }
                speeds.push(*highest);
            }
        }
    }
    speeds.sort_by(|a, b| a.to_rpm().total_cmp(&b.to_rpm()));
    speeds.dedup_by(|a, b| (*a - *b).abs() < SpindleSpeed::rpm(0.5));
    speeds
}

/// Cautions: why, and what to do.
#[component]
pub fn Cautions() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    move || {
        let done = done_shown(state)?;
        let system = system.get();
        let (stock, cut): (Vec<&Caution>, Vec<&Caution>) = done
            .answer
            .cautions
            .iter()
            .partition(|c| matches!(c, Caution::Hazard(_) | Caution::Lubricant(_)));
        let mut list: Vec<_> = cut
            .into_iter()
            .map(|caution| {
                let said = words::caution(*caution, system);
                caution_line(said.why, said.act)
            })
            .collect();
        let of_stock: Vec<String> =
            stock.into_iter().map(|caution| words::caution(*caution, system).why).collect();
        if !of_stock.is_empty() {
            list.push(caution_line(of_stock.join(" "), String::new()));
        }
        (!list.is_empty()).then(|| {
            view! {
                <section class="stack reasons" aria-label="Cautions" data-testid="cautions">
                    <h2>"Cautions"</h2>
                    <ul class="cautions">{list}</ul>
                </section>
            }
        })
    }
}

fn caution_line(why: String, act: String) -> impl IntoView + use<> {
    view! {
        <li class="caution">
            {shape(State::Near)} <span>{why} " " <b>{act}</b></span>
        </li>
    }
}

/// What was taken on the safe side, and the usual figures.
#[component]
pub fn Assumptions() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    move || {
        let done = done_shown(state)?;
        let system = system.get();
        let mut list: Vec<String> =
            done.answer.assumed.iter().map(|a| words::assumed(*a, system)).collect();
        list.extend(done.taken.iter().map(|taken| {
            format!(
                "{} taken as {}, the usual.",
                words::field(taken.field),
                taken.value.shown(system)
            )
        }));
        (!list.is_empty()).then(|| {
            let mill = format!("shop?machine={}", state.form.read().mill.machine);
            view! {
                <section class="stack reasons" aria-label="Assumed" data-testid="assumed">
                    <h2>"Assumed"</h2>
                    <ul class="points">
                        {list.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
                    </ul>
                    <GoTo
                        to=mill
                        class="button secondary"
                        {..}
                        data-touch="c"
                    >
                        "Enter them for this mill"
                    </GoTo>
                </section>
            }
        })
    }
}

/// Readout targets of the passes, and rows of a face.
#[component]
pub fn Targets() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    move || {
        let done = done_shown(state)?;
        let system = system.get();
        let passes = done.answer.passes.as_ref().filter(|p| p.targets.len() > 1);
        let rows = done.answer.rows.as_ref();
        if passes.is_none() && rows.is_none() {
            return None;
        }
        let numbers = |list: &[Length]| {
            list.iter()
                .map(|v| view! { <li class="target">{rounding::length(*v, system).to_string()}</li> })
                .collect_view()
        };
        let depths = passes.map(|p| {
            view! {
                <p>"Depth below the surface at the end of each:"</p>
                <ol class="targets">{numbers(&p.targets)}</ol>
            }
        });
        let rows = rows.map(|rows| {
            view! {
                <p>"Rows, from the middle of the face:"</p>
                <ol class="targets">{numbers(&rows.centres)}</ol>
            }
        });
        Some(view! {
            <Fold title="Readout targets">
                {depths}
                {rows}
            </Fold>
        })
    }
}

/// Every figure with its formula, what was put in, and its source.
#[component]
pub fn Working() -> impl IntoView {
    let state = CutState::get();
    let system = state.system();
    let body = move || done_shown(state).map(|done| working(&done.answer, system.get()));
    view! {
        <LateFold title="Show the working" class="fold reasons" {..} data-testid="working">
            {body}
        </LateFold>
    }
}

/// Every entry that cannot be worked with, by the name of its field: some lie under a fold.
#[component]
pub fn Faults() -> impl IntoView {
    let state = CutState::get();
    let what = Memo::new(move |_| match &*state.outcome.read() {
        Outcome::Done(_) => "",
        Outcome::Faults(_) => "It wants:",
        Outcome::NoMachine => "No mill is chosen.",
    });
    let what = move || (!what.read().is_empty()).then(|| view! { <p>{what.get()}</p> });
    let faults = move || {
        let mut faults = state.link_faults.get();
        faults.extend(state.faults.get());
        faults
            .into_iter()
            .enumerate()
            .map(|(i, fault)| {
                let name = words::field(fault.field);
                let complaint =
                    Complaint { problem: format!("{name}: {}", fault.problem), hint: fault.hint };
                view! { <ErrorText id=format!("fault-{i}") complaint=Some(complaint) /> }
            })
            .collect_view()
    };
    view! { <div class="faults">{what} {faults}</div> }
}
