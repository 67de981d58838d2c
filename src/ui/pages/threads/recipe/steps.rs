//! The steps in their order: the tool, what to set, how deep.

use leptos::prelude::*;

use super::state::{Laid, RecipeState};
use crate::{
    engine::{
        answer::{Answer, Caution, Verdict},
        holes::recipe::{Step, Work},
        quantity::{
            Length, System,
            rounding::{self, Shown, fixed},
        },
    },
    shop::{holes::making::drilling, pace::PaceForm},
    ui::{
        components::{GoTo, LateFold, SecondNumber, StateMark, working},
        pages::cut::figures::{self, Figure},
        words,
    },
};

/// All of them.
#[component]
pub fn Steps() -> impl IntoView {
    let state = RecipeState::get();
    let system = state.hole.system();
    move || {
        let laid = state.shown_now()?;
        let system = system.get();
        let rows: Vec<_> = laid
            .recipe
            .steps
            .iter()
            .enumerate()
            .map(|(place, step)| row(place + 1, step, &laid, system))
            .collect();
        Some(view! {
            <section class="stack reasons" aria-label="Steps" data-testid="steps">
                <ol class="recipe">{rows}</ol>
                <p>"Zero the quill with the tip of each tool on the surface: every depth is counted from there."</p>
                <p class="muted">{words::holes::time(laid.recipe.time)}</p>
                {check(state, &laid)}
            </section>
        })
    }
}

fn row(place: usize, step: &Step, laid: &Laid, system: System) -> AnyView {
    let verdict = step.answer.as_ref().map(|answer| answer.verdict);
    let stop = (verdict == Some(Verdict::DoNotCut)).then(|| {
        let act = step.answer.as_ref().and_then(|answer| answer.trouble.as_ref());
        let act = act.map(|trouble| words::trouble(trouble, system).act).unwrap_or_default();
        view! {
            <p>
                <StateMark
                    state=words::verdict_state(Verdict::DoNotCut)
                    word=words::verdict(Verdict::DoNotCut).to_owned()
                />
                " "
                {act}
            </p>
        }
    });
    let has = words::holes::has(step.tool.has).map(|word| {
        view! { <StateMark state=crate::engine::answer::State::Near word /> }
    });
    let cells: Vec<_> = figures_of(step, laid, system)
        .into_iter()
        .map(|Figure { label, shown, note }| view! { <SecondNumber label shown note /> })
        .collect();
    let turn = step.turn.as_ref().filter(|turn| turn.out.is_some()).map(words::holes::turn);
    let said: Vec<_> = turn
        .into_iter()
        .chain(lubricant(step))
        .chain(heeded(step).map(|caution| {
            let said = words::caution(caution, system);
            format!("{} {}", said.why, said.act)
        }))
        .map(|text| view! { <p>{text}</p> })
        .collect();
    view! {
        <li class="recipe-step" data-testid="step">
            <h2>
                <span class="recipe-place">{place}</span>
                {words::holes::work(step.work)}
            </h2>
            <p class="recipe-tool" data-result="second">{words::holes::tool(&step.tool, system)}</p>
            {has}
            {stop}
            <div class="cells">{cells}</div>
            {said}
            {count(step)}
            {match step.work {
                Work::Deburr => view! { <p>{step.why}</p> }.into_any(),
                _ => reasons(step, system).into_any(),
            }}
        </li>
    }
    .into_any()
}

/// To the check before the drilling.
fn check(state: RecipeState, laid: &Laid) -> Option<impl IntoView + use<>> {
    let cut = drilling(&state.hole.form.read(), &state.hole.app.document.read(), &laid.recipe)?;
    Some(view! {
        <GoTo to=format!("check?{}", cut.to_query()) class="button secondary" {..} data-touch="c">
            "Check before the hole"
        </GoTo>
    })
}

/// To the count of the turns of a tap by hand.
fn count(step: &Step) -> Option<impl IntoView + use<>> {
    let turns = step.turns.filter(|_| step.answer.is_none())?;
    let form = PaceForm { turns: fixed(turns, 1).parse().ok(), ..PaceForm::default() };
    Some(view! {
        <GoTo to=format!("pace?{}", form.to_query()) class="button secondary" {..} data-touch="c">
            "Count the turns"
        </GoTo>
    })
}

/// What the trade puts on this stock.
fn lubricant(step: &Step) -> Option<String> {
    (!step.lubricant.is_empty()).then(|| format!("On the cut: {}.", step.lubricant))
}

/// Cautions that have to be read before the step is begun; the others stand with its reasons.
fn heeded(step: &Step) -> impl Iterator<Item = Caution> + '_ {
    step.answer.iter().flat_map(|answer| answer.cautions.iter().copied()).filter(|caution| {
        matches!(
            caution,
            Caution::PowerTap
                | Caution::SwitchUnknown
                | Caution::NeverReverse
                | Caution::BreakThrough
                | Caution::LowestTooFast
        )
    })
}

fn other_cautions(answer: &Answer, system: System) -> Vec<String> {
    let is_other = |caution: &&Caution| {
        !matches!(
            caution,
            Caution::PowerTap
                | Caution::SwitchUnknown
                | Caution::NeverReverse
                | Caution::BreakThrough
                | Caution::LowestTooFast
                | Caution::Hazard(_)
                | Caution::Lubricant(_)
        )
    };
    let say = |caution: &Caution| {
        let said = words::caution(*caution, system);
        format!("{} {}", said.why, said.act)
    };
    answer.cautions.iter().filter(is_other).map(say).collect()
}

/// Why it is done so, how it was worked out, and by whose figures.
fn reasons(step: &Step, system: System) -> impl IntoView + use<> {
    let (why, sources, answer) = (step.why, step.sources, step.answer.clone());
    view! {
        <LateFold title="Why, and the working">
            <p>{why}</p>
            {answer.as_ref().map(|answer| {
                let list = other_cautions(answer, system);
                view! {
                    {list.into_iter().map(|text| view! { <p>{text}</p> }).collect_view()}
                    {working(answer, system)}
                }
            })}
            <p class="muted">{words::sources(sources)}</p>
        </LateFold>
    }
}

/// What to set and how deep, the speed first.
fn figures_of(step: &Step, laid: &Laid, system: System) -> Vec<Figure> {
    let mut list = Vec::with_capacity(5);
    if let Some(answer) = &step.answer {
        list.push(Figure::new(
            "Spindle speed",
            rounding::spindle_speed(answer.speed.set),
            // Which way a tap turns is said with its way out.
            if step.work == Work::TapUnderPower { range_of(answer) } else { figures::gear(answer) },
        ));
    }
    if let Some(turns) = step.turns {
        list.extend(turns_of(step, turns, laid, system));
    } else if step.work != Work::Deburr {
        let (label, note) = depth_of(step, laid, system);
        list.push(Figure::new(label, rounding::length(step.tip, system), note));
    }
    if !step.pecks.is_empty() {
        let last = step.pecks.len() - 1;
        let to: Vec<String> = step.pecks[..last].iter().map(|tip| size(*tip, system)).collect();
        list.push(Figure::new(
            "Pecks",
            Shown { digits: step.pecks.len().to_string(), unit: "" },
            format!("right out to clear at {}", to.join(", ")),
        ));
    }
    if let Some(answer) = &step.answer
        && let Some(mut pace) = figures::pace(answer, system)
    {
        if let Some(feed) = &answer.feed {
            let rate = rounding::feed_rate(feed.rate, system);
            let per = rounding::chip(feed.per_turn, system);
            let whole = step
                .time
                .map_or_else(String::new, |time| format!(", {} in all", rounding::seconds(time)));
            pace.note = format!("{}; {rate}, {per} a turn{whole}", pace.note);
        }
        list.push(pace);
    }
    list
}

fn range_of(answer: &Answer) -> String {
    match answer.speed.range.1.trim() {
        "" => String::new(),
        range => format!("Range {range}"),
    }
}

fn size(length: Length, system: System) -> String {
    rounding::length(length, system).to_string()
}

/// How deep the tip goes, and what that leaves.
fn depth_of(step: &Step, laid: &Laid, system: System) -> (&'static str, String) {
    let makes = size(step.makes, system);
    match step.work {
        Work::Drill | Work::Pilot if laid.through => {
            ("Tip depth", "point and breakthrough included".to_owned())
        }
        Work::Drill | Work::Pilot => {
            ("Tip depth", format!("{} at the full diameter", size(step.full, system)))
        }
        Work::Spot => ("Tip depth", format!("leaves a spot of {makes}")),
        Work::Chamfer | Work::Countersink => ("Tip depth", format!("{makes} wide at the surface")),
        Work::BreakEdge => ("Tip depth", format!("breaks the edge to {makes}")),
        Work::Ream if laid.through => ("Depth", "its lead comes out below".to_owned()),
        _ => ("Depth", format!("{makes} wide")),
    }
}

/// Turns of a tap, and what they are counted for.
fn turns_of(step: &Step, turns: f64, laid: &Laid, system: System) -> Vec<Figure> {
    let shown = |turns: f64| Shown { digits: fixed(turns, 1), unit: "turns" };
    let Some(chain) = laid.recipe.chain else { return Vec::new() };
    if laid.through {
        return vec![Figure::new(
            "Turns of the tap",
            shown(chain.thread_turns),
            format!(
                "for {}, then {} more to clear its chamfer",
                size(step.full, system),
                fixed(chain.turns_to_clear(), 1)
            ),
        )];
    }
    vec![
        Figure::new("Turns of the tap", shown(turns), "its chamfer included".to_owned()),
        Figure::new(
            "Tap goes in",
            rounding::length(step.tip, system),
            if step.full.is_positive() {
                format!("{} of it full thread", size(step.full, system))
            } else {
                "no full thread yet: the next tap cuts it".to_owned()
            },
        ),
    ]
}
