//! `/which`: the same cut on every mill side by side.

use std::sync::Arc;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    engine::{
        answer::{Answer, State},
        plan::which::{Choice, Standing},
        quantity::{
            System,
            rounding::{self, Shown},
        },
        question::{Field, InputError},
    },
    shop::{cuts::CutForm, document::Document, typed::Typed, which::WhichForm},
    ui::{
        addressed::Addressed,
        components::{
            BigNumber, Complaint, GoTo, NumberField, Pad, Page, Rank, Scale, SecondNumber, Split,
            StateMark, Toggle, UnitSwitch, complaint_at,
        },
        state::App,
        words::plan as told,
    },
};

/// The mills with their ids and names, the best first.
type Outcome = Result<Arc<(Choice, Vec<(String, String)>)>, Vec<InputError>>;

/// The page.
#[component]
pub fn Which() -> impl IntoView {
    let app = App::get();
    let read = move |query: &str| {
        let (mut form, _) = WhichForm::from_query(query.trim_start_matches('?'));
        if !query.contains("op=") {
            let document = app.document.read_untracked();
            form.cut = document.last_cut.clone().unwrap_or_else(|| document.next_cut());
        }
        form
    };
    let addressed = Addressed::new(read(&use_location().search.get_untracked()));
    let form = addressed.form;
    addressed.keep(app, read, |form| format!("which?{}", form.to_query()), || {});
    let outcome: Memo<Outcome> = Memo::new(move |_| ask(&form.read(), &app.document.read()));
    let rested = expect_context::<Pad>().rested(outcome);
    let system = app.system();
    let back = Signal::derive(move || format!("cut?{}", form.read().cut.to_query()));
    view! {
        <Page
            title="Which mill?"
            back_to=back
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
        >
            <Split
                names=("Mills", "What else counts")
                answer=move || {
                    move || match rested.get() {
                        Ok(made) => answer(&made, &form.read().cut, system),
                        Err(errors) => faults(&errors),
                    }
                }
            >
                {inputs(addressed, app, outcome)}
            </Split>
        </Page>
    }
}

fn ask(form: &WhichForm, document: &Document) -> Outcome {
    let (choice, ids) = form.ask(document)?;
    let name = |id: String| {
        let own = document.machine_called(&id);
        (id, own.map(|own| own.form.name.clone()).unwrap_or_default())
    };
    Ok(Arc::new((choice, ids.into_iter().map(name).collect())))
}

fn faults(errors: &[InputError]) -> AnyView {
    let list = errors
        .iter()
        .map(|error| view! { <p><b>{error.problem.clone()}</b> " " {error.hint.clone()}</p> })
        .collect_view();
    view! {
        <section class="stack" data-testid="no-choice">
            <h2>"No answer yet"</h2>
            {list}
        </section>
    }
    .into_any()
}

fn answer(
    made: &(Choice, Vec<(String, String)>),
    cut: &CutForm,
    system: Signal<System>,
) -> AnyView {
    let (choice, mills) = made;
    let Some((best, others)) = choice.standings.split_first() else { return ().into_any() };
    let name = mills.get(best.mill).map(|(_, name)| name.clone()).unwrap_or_default();
    let dash = || Shown { digits: "–".to_owned(), unit: "rpm" };
    let shown =
        best.answer.as_ref().map_or_else(dash, |answer| rounding::spindle_speed(answer.speed.set));
    let what = if others.is_empty() { "Your one mill" } else { "Take the" };
    let (says, why) = if choice.can {
        (format!("{what} {name}"), cut.title())
    } else {
        ("No mill can make this cut".to_owned(), cut.title())
    };
    let everywhere = (!choice.everywhere.is_empty()).then(|| {
        let scales = choice
            .everywhere
            .iter()
            .map(|reading| view! { <Scale reading=reading.clone() system /> })
            .collect_view();
        view! {
            <section class="stack" data-testid="everywhere">
                <h2>"On every mill alike"</h2>
                <p>"This decides nothing between them. It has to be mended before any cut."</p>
                {scales}
            </section>
        }
    });
    let cards =
        choice.standings.iter().map(|standing| card(standing, mills, cut, system)).collect_view();
    view! {
        <section class="answer stay" aria-label="The mill to take" data-testid="take">
            <BigNumber label=says shown why />
        </section>
        <div class="stack">{cards} {everywhere}</div>
    }
    .into_any()
}

/// A mill: its numbers, why it loses, what would change that.
fn card(
    standing: &Standing,
    mills: &[(String, String)],
    cut: &CutForm,
    system: Signal<System>,
) -> AnyView {
    let Some((id, name)) = mills.get(standing.mill).cloned() else { return ().into_any() };
    let losses: Vec<String> =
        standing.losses.iter().map(|loss| told::loss(loss, system.get())).collect();
    let turns: Vec<String> =
        standing.turns.iter().map(|turn| told::turn(*turn, system.get())).collect();
    let none = losses.is_empty();
    let losses = losses.into_iter().map(|loss| view! { <li>{loss}</li> }).collect_view();
    let turns = (!turns.is_empty()).then(|| {
        let turns = turns.into_iter().map(|turn| view! { <li>{turn}</li> }).collect_view();
        view! {
            <p><b>"It would be the one to take:"</b></p>
            <ul class="points">{turns}</ul>
        }
    });
    let mut form = cut.clone();
    form.mill.machine = id;
    let (title, says) = (name.clone(), format!("Cut on the {name}"));
    view! {
        <section class="panel stack which-mill" aria-label=name>
            <h2>{title}</h2>
            {standing.answer.as_ref().map(|answer| cells(answer, system.get()))}
            {none.then(|| view! { <StateMark state=State::Within word="Nothing against it".to_owned() /> })}
            <ul class="points">{losses}</ul>
            {turns}
            <GoTo
                to=format!("cut?{}", form.to_query())
                class=Rank::Secondary.class()
                {..}
                data-touch="c"
            >
                {says}
            </GoTo>
        </section>
    }
    .into_any()
}

fn cells(answer: &Answer, system: System) -> AnyView {
    let cell = |label: &'static str, shown: Shown, note: String| {
        view! { <SecondNumber label=label shown note /> }.into_any()
    };
    let wanted = rounding::spindle_speed(answer.speed.wanted).digits;
    let mut cells =
        vec![cell("Speed", rounding::spindle_speed(answer.speed.set), format!("{wanted} wanted"))];
    if let Some(feed) = &answer.feed {
        cells.push(cell("Feed", rounding::feed_rate(feed.rate, system), String::new()));
        if let Some((rate, time)) = feed.wheel.zip(feed.turn_time) {
            let note = format!("{} a turn", rounding::seconds(time));
            cells.push(cell("Handwheel", rounding::hand_rate(rate), note));
        }
    }
    if let Some(time) = answer.time {
        cells.push(cell("Time in the cut", rounding::duration(time), String::new()));
    }
    let power = crate::engine::answer::Limit::Power;
    if let Some(reading) = answer.limits.iter().find(|reading| reading.limit == power) {
        let of = format!("of {}", reading.over_at.shown(system));
        cells.push(cell("Power", reading.value.shown(system), of));
    }
    view! { <div class="cells">{cells}</div> }.into_any()
}

fn inputs(addressed: Addressed<WhichForm>, app: App, outcome: Memo<Outcome>) -> AnyView {
    let form = addressed.form;
    let mills = app.part(|document| {
        let own = document.machines.iter();
        own.map(|own| (own.id.clone(), own.form.name.clone())).collect::<Vec<_>>()
    });
    let toggle = move |(id, name): (String, String)| {
        let id = StoredValue::new(id);
        let on = Signal::derive(move || form.read().busy.contains(&id.read_value()));
        view! {
            <Toggle
                label=format!("{name} stands")
                on
                on_change=move |on: bool| {
                    addressed
                        .change(
                            Field::Machine,
                            |form| {
                                form.busy.retain(|other| *other != *id.read_value());
                                if on {
                                    form.busy.push(id.get_value());
                                }
                            },
                        );
                }
                said=("set up for something else", "free")
            />
        }
    };
    let complaint = Signal::derive(move || -> Option<Complaint> {
        outcome.read().as_ref().err().and_then(|errors| complaint_at(errors, Field::Stack))
    });
    view! {
        <section class="stack">
            {move || mills.get().into_iter().map(toggle).collect_view()}
            <NumberField
                field=Field::Stack
                value=Signal::derive(move || form.read().stack.clone())
                on_change=move |typed: Typed| {
                    addressed.change(Field::Stack, |form| form.stack = typed);
                }
                placeholder="not asked".to_owned()
                complaint
            />
            <p class="muted">
                "The room above the table is a figure of each mill, in the shop. The cutter's length out of the holder is added here."
            </p>
        </section>
    }
    .into_any()
}
