//! The first start: your mill in four questions, or the sample shop.

use leptos::{prelude::*, task::spawn_local};
use leptos_router::hooks::use_query_map;

use super::{
    home::Insecure,
    machine::{ClassField, Desk, LeadField, NameField, Place, PowerField, RangesField},
    settings::Installing,
};
use crate::{
    engine::{
        quantity::System,
        question::{Field, InputError},
    },
    shop::{document::Welcome as Answers, machines::MachineForm},
    ui::{
        components::{
            button::{Button, Rank},
            choice::{Choice, Choices},
            notice::Notice,
            page::Page,
            toggle::UnitSwitch,
        },
        pieces::{self, rest},
        state::App,
    },
};

/// The questions, each a screen.
const QUESTIONS: u32 = 4;

/// The first start. The open question stands in the address, so that Back goes to the one before;
/// the answers stand in the document, so that nothing is asked twice.
#[component]
pub fn Welcome() -> impl IntoView {
    let app = App::get();
    let query = use_query_map();
    let step = Memo::new(move |_| {
        query.read().get_str("question").and_then(|text| text.parse::<u32>().ok()).unwrap_or(0)
    });
    move || match step.get() {
        number @ 1..=QUESTIONS => pieces::page(rest::question(number)),
        _ => view! { <Beginning app /> }.into_any(),
    }
}

#[component]
fn Beginning(app: App) -> impl IntoView {
    let begun = app.part(|document| document.welcome.step);
    let system = app.system();
    let units = vec![
        Choice::new(System::Inch, "Inches").detail("in, ft/min, lbf"),
        Choice::new(System::Metric, "Millimetres").detail("mm, m/min, N"),
    ];
    let lost = RwSignal::new(false);
    let look_around = move |()| {
        lost.set(false);
        spawn_local(async move {
            match rest::sample().await {
                Some(sample) => app.open_sample(sample),
                None => lost.set(true),
            }
        });
    };
    let message = Signal::derive(move || {
        lost.get().then(|| "The sample shop did not arrive. Try again with a network.".to_owned())
    });
    let go = app.way();
    let begin = move |()| go(&format!("?question={}", begun.get_untracked().max(1)));
    let label = move || match begun.get() {
        0 | 1 => "Your mill in four questions".to_owned(),
        step => format!("Go on with question {step} of {QUESTIONS}"),
    };
    view! {
        <Page
            title="Handwheel"
            back=false
            bar=move || {
                view! {
                    <Button on_press=begin>{label}</Button>
                    <Button rank=Rank::Secondary on_press=look_around>
                        "Sample shop"
                    </Button>
                }
            }
        >
            <p>
                "Speeds, turns of the handwheel and limits, in the terms of your own mill. Everything is worked out and kept on this device; nothing leaves it."
            </p>
            <Choices
                name="You think in"
                of=units
                chosen=Signal::derive(move || Some(system.get()))
                on_choose=move |system| app.set_system(system)
            />
            <p class="muted">
                "Both are one tap away everywhere. What you type stays as you typed it."
            </p>
            <Notice message />
            <Installing app />
            <Insecure />
        </Page>
    }
}

/// One of the questions.
#[component]
pub(in crate::ui) fn Question(number: u32) -> impl IntoView {
    let app = App::get();
    let desk = Desk::new(app, Place::FirstStart);
    app.change(|document| document.welcome.step = number);
    let system = app.system();
    let title = match number {
        1 => "Which mill?",
        2 => "Its speeds",
        3 => "Its handwheel",
        _ => "Its power",
    };
    let back_to = ["./", "./", "?question=1", "?question=2", "?question=3"][number as usize];
    let go = app.way();
    let next = {
        let go = go.clone();
        move |()| {
            let form = app.document.read_untracked().welcome.machine.clone();
            if !is_answered(&form, number) {
                desk.ask();
            } else if number < QUESTIONS {
                go(&format!("?question={}", number + 1));
            } else {
                finish(app, form);
                go("");
            }
        }
    };
    let without_power = move |()| {
        desk.change(|form| form.power.text.clear());
        let form = app.document.read_untracked().welcome.machine.clone();
        finish(app, form);
        go("");
    };
    let fields = match number {
        1 => view! { <NameField desk /> <ClassField desk /> }.into_any(),
        2 => view! { <RangesField desk /> }.into_any(),
        3 => view! {
            <LeadField desk />
            <p class="muted">
                "Not the marks on the dial: what the table moves when the wheel goes round once."
            </p>
        }
        .into_any(),
        _ => view! {
            <PowerField desk />
            <p class="muted">
                "At the cutter, about three quarters of what the plate says. Unknown is fine: then the low side of its weight is taken, and said."
            </p>
        }
        .into_any(),
    };
    view! {
        <Page
            title
            back_to
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
            bar=move || {
                view! {
                    <Button on_press=next>
                        {if number < QUESTIONS { "Next" } else { "Ready" }}
                    </Button>
                    {(number == QUESTIONS)
                        .then(|| {
                            view! {
                                <Button rank=Rank::Secondary on_press=without_power>
                                    "I don't know"
                                </Button>
                            }
                        })}
                }
            }
        >
            <p class="muted">"Question " {number} " of " {QUESTIONS}</p>
            {fields}
        </Page>
    }
}

/// True when nothing that a question asks is missing or wrong.
fn is_answered(form: &MachineForm, number: u32) -> bool {
    let asked: &[Field] = match number {
        1 => &[Field::MachineName],
        2 => &[Field::Speeds, Field::LowestSpeed, Field::HighestSpeed, Field::BaseSpeed],
        3 => &[Field::Lead],
        _ => &[Field::Power],
    };
    let errors: Vec<InputError> = form.read().err().unwrap_or_default();
    !errors.iter().any(|error| asked.contains(&error.field))
}

fn finish(app: App, form: MachineForm) {
    app.change(|document| {
        document.add_machine(form);
        document.welcome = Answers::default();
    });
}
