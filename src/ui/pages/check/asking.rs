//! What the rules ask: of the person and the machine once, of the set-up each time. Every question
//! may stay open, and then counts on the strict side.

use leptos::prelude::*;

use super::{state::CheckState, words};
use crate::{
    engine::{
        question::Field,
        safety::context::{Holding, PutOn},
    },
    shop::{
        check_form::{Ask, Doing, OtherStock, Step},
        checks::{Fitting, Habit},
        document::OwnMachine,
        word::Word,
    },
    ui::{
        components::{Button, Choice, Choices, Fold, GoTo, HOME, Page, Rank, YesNo},
        keep::Keep,
    },
};

/// Questions about the person and the machine.
#[component]
pub fn You() -> impl IntoView {
    let state = CheckState::get();
    let app = state.app;
    let way = app.way();
    let on = move |()| {
        app.change(|document| document.checks.asked = true);
        way(&state.at(Step::SetUp).get_untracked());
    };
    let habits = Habit::ALL
        .iter()
        .map(|&habit| {
            view! {
                <YesNo
                    label=words::habit(habit)
                    answer=app.part(move |document| document.checks.habits.get(habit))
                    on_answer=move |answer| {
                        app.change(|document| document.checks.habits.set(habit, answer));
                    }
                />
            }
        })
        .collect_view();
    view! {
        <Page
            title=words::step(Step::You)
            back_to=HOME
            bar=move || view! { <Button on_press=on>"Next"</Button> }
        >
            <p>
                "Asked once. Skip what you like: a question that stays open counts on the strict side, and shows more."
            </p>
            <section class="stack" aria-label="You">
                <h2>"You"</h2>
                {habits}
            </section>
            <Fittings state />
        </Page>
    }
}

/// What else the machine has.
#[component]
fn Fittings(state: CheckState) -> impl IntoView {
    let app = state.app;
    let id = Memo::new(move |_| state.form.read().cut.mill.machine.clone());
    let name = app
        .part(move |document| document.machine_called(&id.get()).map(|own| own.form.name.clone()));
    let change = move |fitting: Fitting, answer: Option<bool>| {
        let id = id.get_untracked();
        app.change(|document| {
            let own = document.machines.iter_mut().find(|own| own.id == id);
            if let Some(OwnMachine { form, .. }) = own {
                form.fittings.set(fitting, answer);
                document.count_change();
            }
        });
    };
    move || {
        name.get().map(|name| {
            let rows = Fitting::ALL
                .iter()
                .map(|&fitting| {
                    let answer = app.part(move |document| {
                        let own = document.machine_called(&id.get())?;
                        own.form.fittings.get(fitting)
                    });
                    view! {
                        <YesNo
                            label=words::fitting(fitting)
                            answer
                            on_answer=move |answer| change(fitting, answer)
                        />
                    }
                })
                .collect_view();
            view! {
                <section class="stack" aria-label="Your mill">
                    <h2>{name}</h2>
                    {rows}
                </section>
            }
        })
    }
}

/// Questions about the set-up.
#[component]
pub fn SetUp() -> impl IntoView {
    let state = CheckState::get();
    let bar = move || {
        view! {
            <GoTo to=state.at(Step::Power) class=Rank::Primary.class() {..} data-touch="c">
                "Next"
            </GoTo>
        }
    };
    let others = OtherStock::ALL.iter().map(|&s| (s.word(), words::other_stock(s)));
    let questions = Memo::new(move |_| state.form.read().questions(&state.app.document.read()));
    let asks =
        move || questions.get().into_iter().map(|ask| view! { <Asked state ask /> }).collect_view();
    view! {
        <Page title=words::step(Step::SetUp) back_to=HOME bar=bar>
            <Summary />
            {pick(
                "What holds the part",
                Holding::ALL.iter().map(|&h| (h.word(), words::holding(h))).collect(),
                Signal::derive(move || state.form.read().holding.map(word)),
                move |word| {
                    state.change(Field::Holder, |form| form.holding = Holding::from_word(word));
                },
            )}
            <Ranges state />
            <Fold title="More about this set-up">
                <p class="muted">"What stays open counts on the strict side."</p>
                {asks}
            </Fold>
            <Fold title="Tool, stock and fluid">
                {pick(
                    "What is done",
                    Doing::ALL.iter().map(|&d| (d.word(), words::doing(d))).collect(),
                    Signal::derive(move || Some(word(state.form.read().doing))),
                    move |word| {
                        state
                            .change(
                                Field::Operation,
                                |form| form.doing = Doing::from_word(word).unwrap_or_default(),
                            );
                    },
                )}
                {pick(
                    "Hand of the cut",
                    vec![(RIGHT, "Right-hand"), (LEFT, "Left-hand")],
                    Signal::derive(move || {
                        Some(if state.form.read().left_hand { LEFT } else { RIGHT }.to_owned())
                    }),
                    move |word| {
                        state.change(Field::CutterKind, |form| form.left_hand = word == LEFT);
                    },
                )}
                {pick(
                    "The stock is",
                    core::iter::once((LISTED, "As listed")).chain(others).collect(),
                    Signal::derive(move || {
                        let other = state.form.read().other_stock;
                        Some(other.map_or(LISTED.to_owned(), word))
                    }),
                    move |word| {
                        state
                            .change(
                                Field::Stock,
                                |form| form.other_stock = OtherStock::from_word(word),
                            );
                    },
                )}
                {pick(
                    "What is put on the cut",
                    PutOn::ALL.iter().map(|&p| (p.word(), words::put_on(p))).collect(),
                    Signal::derive(move || state.form.read().fluid().map(word)),
                    move |word| {
                        state.change(Field::Coolant, |form| form.put_on = PutOn::from_word(word));
                    },
                )}
            </Fold>
            <nav class="stack" aria-label="More">
                <GoTo to=state.at(Step::You) class=Rank::Secondary.class() {..} data-touch="c">
                    "About you and your mill"
                </GoTo>
                <GoTo to=state.at(Step::Records) class=Rank::Secondary.class() {..} data-touch="c">
                    "The last checks"
                </GoTo>
            </nav>
            <Keep
                name=Signal::derive(move || format!("Check: {}", state.form.read().cut.title()))
                to=state.at(Step::SetUp)
                words="Save this check"
            />
        </Page>
    }
}

const RIGHT: &str = "right";
const LEFT: &str = "left";
const LISTED: &str = "listed";

fn word<T: Word>(choice: T) -> String {
    choice.word().to_owned()
}

/// One of several, by their words, so that one kind of tiles serves them all.
fn pick(
    name: &'static str,
    of: Vec<(&'static str, &'static str)>,
    chosen: Signal<Option<String>>,
    on_choose: impl Fn(&str) + Send + Sync + 'static,
) -> AnyView {
    let of: Vec<Choice<String>> =
        of.into_iter().map(|(word, name)| Choice::new(word.to_owned(), name)).collect();
    let on_choose = Callback::new(move |word: String| on_choose(&word));
    view! { <Choices name of chosen on_choose /> }.into_any()
}

/// One question of the set-up.
#[component]
fn Asked(state: CheckState, ask: Ask) -> impl IntoView {
    view! {
        <YesNo
            label=words::ask(ask)
            answer=Signal::derive(move || state.form.read().answers.get(ask))
            on_answer=move |answer| {
                state.change(Field::Pieces, |form| form.answers.set(ask, answer));
            }
        />
    }
}

/// The range that is set, on a machine with several.
#[component]
pub fn Ranges(state: CheckState) -> impl IntoView {
    let of = Memo::new(move |_| {
        let reading = state.reading.read();
        let names = reading.context.machine.ranges.iter().enumerate();
        names
            .map(|(place, range)| Choice::new(place.to_string(), range.name.clone()))
            .collect::<Vec<_>>()
    });
    move || {
        (of.read().len() > 1).then(|| {
            view! {
                <Choices
                    name="Range"
                    of
                    chosen=Signal::derive(move || {
                        state.reading.read().context.spindle.range.map(|place| place.to_string())
                    })
                    on_choose=move |place: String| {
                        state.change(Field::Speeds, |form| form.range = place.parse().ok());
                    }
                />
            }
        })
    }
}

/// What the check is for, and what of it cannot be worked out.
#[component]
pub fn Summary() -> impl IntoView {
    use crate::shop::check_form::Trouble;
    let state = CheckState::get();
    let what = move || {
        let form = state.form.read();
        let document = state.app.document.read();
        let machine = document.machine_called(&form.cut.mill.machine);
        let machine = machine.map_or("no mill", |own| own.form.name.as_str());
        let cutter = form.cut.mill.cutter.title();
        let speed = state.reading.read().speed.map_or(String::new(), |rpm| format!(", {rpm} rpm"));
        format!("{}, {machine}, {cutter}{speed}", form.title())
    };
    let trouble = move || {
        let said = match &state.reading.read().trouble {
            None => return None,
            Some(Trouble::NoMachine) => {
                "No mill is chosen: which way its switch turns the spindle is not known. Choose one on the first page; the rest is checked."
            }
            Some(Trouble::Machine) => {
                "The mill as entered cannot be worked with. Mend it in the shop; the rest is checked."
            }
            Some(Trouble::Cut(_)) => {
                "The cut has no speed yet: something is missing in it. What hangs on the speed counts on the strict side."
            }
        };
        Some(view! { <p class="notice">{said}</p> })
    };
    let gloves = state.app.part(|document| document.settings.gloves);
    let stock = move || {
        let form = state.form.read();
        let unknown = form.other_stock.is_none() && form.cut.mill.material().is_none();
        unknown.then(|| {
            view! {
                <p class="notice">
                    "The stock is not known. Choose it, or say what it is under “Tool, stock and fluid”."
                </p>
            }
        })
    };
    view! {
        <p class="check-what" data-testid="what">{what}</p>
        {trouble}
        {stock}
        {move || {
            gloves
                .get()
                .then(|| {
                    view! { <p><b>"Set up here. Gloves off before the spindle turns."</b></p> }
                })
        }}
    }
}
