//! `/setup`: what is worked out before the spindle turns, one helper at a time, each with its
//! drawing to scale.

mod answer;
mod picture;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use self::answer::{Answered, answered};
use crate::{
    engine::{
        layout::edge::Side,
        quantity::rounding,
        question::{Field, InputError},
    },
    shop::{
        setup::{Helper, SetupForm, finder_speed},
        typed::Typed,
        word::Word,
    },
    ui::{
        addressed::Addressed,
        components::{
            BigNumber, Chip, Choice, Choices, Complaint, Fold, NumberField, Page, SecondNumber,
            Split, StateMark, Tile, UnitSwitch, complaint_at,
            state_mark::{shape, status},
        },
        keep::Keep,
        sketch::Sketch,
        state::App,
        words,
    },
};

/// What the page of a helper holds.
#[derive(Clone, Copy)]
struct SetupState {
    app: App,
    form: RwSignal<SetupForm>,
    link_faults: RwSignal<Vec<InputError>>,
    addressed: Addressed<SetupForm>,
    faults: Memo<Vec<InputError>>,
    answered: Memo<Option<Answered>>,
    touched: Memo<bool>,
}

/// The page: the list of helpers, or one of them.
#[component]
pub fn SetUp() -> impl IntoView {
    let search = use_location().search;
    let helper = Memo::new(move |_| SetupForm::from_query(&search.read()).0.helper);
    move || match helper.get() {
        None => list().into_any(),
        Some(helper) => view! { <One helper /> }.into_any(),
    }
}

fn list() -> impl IntoView {
    let tiles = Helper::ALL.iter().map(|&helper| {
        let (name, detail) = words::setup::helper(helper);
        let to = format!("setup?at={}", helper.word());
        view! { <Tile to name detail sketch=Sketch::from(helper) /> }
    });
    view! {
        <Page title="Set-up">
            <nav class="doors" aria-label="Helpers">
                {tiles.collect_view()}
            </nav>
        </Page>
    }
}

/// One helper.
#[component]
fn One(helper: Helper) -> impl IntoView {
    let state = provide(helper);
    let app = state.app;
    let system = app.system();
    let (title, _) = words::setup::helper(helper);
    let right = move || {
        view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
    };
    view! {
        <Page title back_to="setup" right=right>
            <Split answer=move || {
                view! {
                    {answer(state)}
                    {wants(state)}
                    {drawing(state)}
                    {around(state, helper)}
                }
            }>{inputs(state, helper)}</Split>
        </Page>
    }
}

fn provide(helper: Helper) -> SetupState {
    let app = App::get();
    let search = use_location().search;
    // A helper that is opened without figures goes on with those of the last time.
    let read = move |query: &str| {
        let (form, faults) = SetupForm::from_query(query);
        let bare = SetupForm { helper: form.helper, ..SetupForm::default() };
        if form != bare {
            return (form, faults);
        }
        let last = app.document.read_untracked().setups.last(helper);
        (last.unwrap_or(form), faults)
    };
    let (start, faults) = read(&search.get_untracked());
    let link_faults = RwSignal::new(faults);
    let addressed = Addressed::new(start.clone());
    let form = addressed.form;
    let outcome = Memo::new(move |_| form.read().read());
    let faults = Memo::new(move |_| outcome.get().err().unwrap_or_default());
    let system = app.system();
    let answered = Memo::new(move |_| {
        let outcome = outcome.read();
        outcome.as_ref().ok().map(|outcome| answered(outcome, system.get()))
    });
    let touched = Memo::new(move |before: Option<&bool>| {
        before.copied().unwrap_or_default() || *form.read() != start
    });
    let said = move |query: &str| {
        let (form, faults) = read(query);
        link_faults.set(faults);
        form
    };
    let address = |form: &SetupForm| format!("setup?{}", form.to_query());
    addressed.keep(app, said, address, move || {
        let form = form.get_untracked();
        if form.read().is_ok() {
            let known = app.document.read_untracked().setups.last(helper);
            if known.as_ref() != Some(&form) {
                app.change(|document| document.setups.remember(&form));
            }
        }
    });
    SetupState { app, form, link_faults, addressed, faults, answered, touched }
}

/// The number to set, what stands beside it, and a sentence.
fn answer(state: SetupState) -> AnyView {
    let answered = state.answered;
    let label = Signal::derive(move || {
        answered.read().as_ref().map_or("Nothing yet".to_owned(), |a| a.label.clone())
    });
    let shown = Signal::derive(move || {
        answered.read().as_ref().map_or_else(
            || rounding::Shown { digits: "–".to_owned(), unit: "" },
            |a| a.shown.clone(),
        )
    });
    let why = move || answered.read().as_ref().map(|a| a.why.clone()).unwrap_or_default();
    let mark = Memo::new(move |_| answered.read().as_ref().map(|a| a.mark.clone()));
    view! {
        <section class="answer stay" aria-label="The answer">
            {move || match mark.get() {
                Some((state, word)) => {
                    view! {
                        <p class="verdict" aria-live="polite" data-testid="verdict">
                            <StateMark state word />
                        </p>
                    }
                        .into_any()
                }
                None => view! { <p class="verdict">"No answer yet"</p> }.into_any(),
            }}
            <BigNumber label shown />
            <p class="answer-line" data-testid="line">{why}</p>
        </section>
    }
    .into_any()
}

fn wants(state: SetupState) -> AnyView {
    let text = Memo::new(move |_| {
        let faults = state.faults.read();
        let form = state.form.read();
        let mut names: Vec<&str> = Vec::with_capacity(faults.len());
        for fault in faults.iter() {
            let name = words::setup::field(&form, fault.field);
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names.join(", ").to_lowercase()
    });
    let of_link = move || {
        let faults = state.link_faults.get().into_iter();
        faults.map(|fault| view! { <p class="big-why">{fault.to_string()}</p> }).collect_view()
    };
    view! {
        <div class="faults">
            {of_link}
            {move || {
                let text = text.get();
                (!text.is_empty())
                    .then(|| {
                        view! { <p class="wants" role="status">{format!("It wants: {text}.")}</p> }
                    })
            }}
        </div>
    }
    .into_any()
}

fn drawing(state: SetupState) -> AnyView {
    let drawn = Memo::new(move |_| {
        state.answered.read().as_ref().map(|a| (a.drawing.clone(), a.words.clone()))
    });
    let is_drawn = Memo::new(move |_| drawn.read().is_some());
    let strokes = move || drawn.get().map(|(strokes, _)| strokes).unwrap_or_default();
    let label = move || drawn.get().map(|(_, words)| words).unwrap_or_default();
    (move || {
        is_drawn.get().then(|| {
            view! {
                <figure class="layout-picture" data-testid="drawing">
                    <svg
                        class="picture"
                        viewBox=format!("0 0 {} {}", picture::WIDTH, picture::HEIGHT)
                        role="img"
                        aria-label=label
                        focusable="false"
                        inner_html=strokes
                    ></svg>
                </figure>
            }
        })
    })
    .into_any()
}

/// The other figures, what to heed, and what every such set-up needs.
fn around(state: SetupState, helper: Helper) -> AnyView {
    let cells = move || {
        let answered = state.answered.read();
        let cells = answered.iter().flat_map(|a| a.cells.clone());
        cells.map(|(label, shown, note)| view! { <SecondNumber label shown note /> }).collect_view()
    };
    let cautions = move || {
        let answered = state.answered.read();
        let cautions = answered.iter().flat_map(|a| a.cautions.clone());
        cautions
            .map(|(state, word, text)| {
                view! {
                    <li class="caution" data-status=status(state)>
                        {shape(state)} <span>
                            <span class="hidden-text">{words::state(state)} ": "</span>
                            <b>{word}</b>
                            {text}
                        </span>
                    </li>
                }
            })
            .collect_view()
    };
    let targets = move || {
        let targets = state.answered.read().as_ref().map(|a| a.targets.clone());
        targets.filter(|targets| !targets.is_empty()).map(|targets| {
            let items = targets.into_iter().map(|target| view! { <li>{target}</li> });
            view! {
                <h2>"Depths to stop at"</h2>
                <ol class="targets" data-testid="targets">
                    {items.collect_view()}
                </ol>
            }
        })
    };
    let app = state.app;
    let speed = app.part(move |document| {
        if !matches!(helper, Helper::Face | Helper::Middle) {
            return None;
        }
        let own = document.machine()?;
        let speed = finder_speed(&own.form.read().ok()?)?;
        Some(format!(
            "{}: {} at most for a finder with a spring. Change the speed back after it.",
            own.form.name,
            rounding::spindle_speed(speed)
        ))
    });
    let always = always(helper);
    let to = Signal::derive(move || format!("setup?{}", state.form.read().to_query()));
    let can = Signal::derive(move || state.answered.read().is_some());
    view! {
        <div class="stack reasons">
            <div class="cells">{cells}</div>
            {targets}
            <ul class="cautions" data-testid="cautions">
                {cautions}
                {move || {
                    speed
                        .get()
                        .map(|text| {
                            view! {
                                <li class="caution">
                                    <span data-testid="finder-speed">{text}</span>
                                </li>
                            }
                        })
                }}
                {always
                    .iter()
                    .map(|text| view! { <li class="caution"><span>{*text}</span></li> })
                    .collect_view()}
            </ul>
            <div class="no-print">
                <Keep name=words::setup::helper(helper).0 to can words="Save this set-up" />
            </div>
        </div>
    }
    .into_any()
}

/// What holds for every set-up of the kind.
fn always(helper: Helper) -> &'static [&'static str] {
    match helper {
        Helper::Face | Helper::Middle => &[
            "Come from the same side as the readout counts, and type only with the spindle stopped.",
        ],
        Helper::Head | Helper::Vise => &[
            "Spindle in neutral, power isolated. Turn it by hand only.",
            "Plunger pressed in counts up. Turn the zero of the indicator so that no reading is confused.",
        ],
        Helper::Parallels => {
            &["Tap the part down until neither parallel slides, and take the vise handle off."]
        }
        Helper::Strap => &[
            "The stud must not come out under the T-nut.",
            "Check that the whole path of the cutter clears straps and studs.",
            "Something soft under a hole that goes through: the drill comes out below.",
        ],
        Helper::Wall | Helper::Slot => &[
            "Measure the cutter: a reground one is smaller than its name.",
            "With screws that have play, come to each number from the same side.",
        ],
        Helper::Exit => &["Measure from the surface that the quill is zeroed on."],
        Helper::Sine => &["Clamp the bar: it slides off its blocks under a cut."],
    }
}

fn inputs(state: SetupState, helper: Helper) -> AnyView {
    let (first, more) = helper.fields();
    let mut parts = Vec::new();
    if matches!(helper, Helper::Face | Helper::Wall) {
        let sides = Side::ALL.iter().map(|&side| Choice::new(side, words::setup::side(side)));
        let sides = sides.collect::<Vec<_>>();
        let name = if helper == Helper::Face { "The finder stands" } else { "The cutter stands" };
        let chosen = Signal::derive(move || Some(state.form.read().side));
        parts.push(
            view! {
                <Choices
                    name
                    of=sides
                    chosen
                    on_choose=move |side| {
                        state.addressed.change(Field::Operation, |form| form.side = side);
                    }
                />
            }
            .into_any(),
        );
    }
    if helper == Helper::Middle {
        let of = vec![
            Choice::new(false, "Outside").detail("over a part or a boss"),
            Choice::new(true, "Inside").detail("in a bore or a slot"),
        ];
        let chosen = Signal::derive(move || Some(state.form.read().inside));
        parts.push(
            view! {
                <Choices
                    name="Both touches"
                    of=of
                    chosen
                    on_choose=move |inside| {
                        state.addressed.change(Field::Operation, |form| form.inside = inside);
                    }
                />
            }
            .into_any(),
        );
    }
    parts.extend(first.iter().map(|&field| entry(state, field)));
    let given = more.iter().any(|&f| state.form.read_untracked().entries.given(f).is_some());
    let more_view = (!more.is_empty()).then(|| {
        let more = more.iter().map(|&field| entry(state, field)).collect::<Vec<_>>();
        view! {
            <Fold title=more_title(helper) open=given>
                {more}
            </Fold>
        }
    });
    view! { <div class="stack">{parts}{more_view}</div> }.into_any()
}

fn more_title(helper: Helper) -> &'static str {
    match helper {
        Helper::Face => "A face that is not at zero",
        Helper::Parallels => "A hole over them, your set, air and grip",
        Helper::Strap => "Cutting force, heel, friction",
        Helper::Head => "What it does to the part",
        Helper::Vise => "At the bolt, and over the part",
        Helper::Exit => "Is a parallel under the hole?",
        _ => "Place, allowance, passes",
    }
}

fn entry(state: SetupState, field: Field) -> AnyView {
    let system = state.app.system();
    let value = Signal::derive(move || state.form.read().entries.at(field).begun_in(system.get()));
    let label = Signal::derive(move || words::setup::field(&state.form.read(), field).to_owned());
    let complaint: Signal<Option<Complaint>> = Signal::derive(move || {
        if value.read().is_empty() && !state.touched.get() {
            return None;
        }
        complaint_at(&state.faults.read(), field)
    });
    let chips: Vec<Chip> = match field {
        Field::Torque => ["20 lbf ft", "30 lbf ft"]
            .map(|text| Chip { name: text.to_owned(), value: Typed::inch(text) })
            .to_vec(),
        Field::FinderTip => ["0.200 in", "10 mm", "6 mm"]
            .map(|text| Chip { name: text.to_owned(), value: Typed::inch(text) })
            .to_vec(),
        _ => Vec::new(),
    };
    view! {
        <NumberField
            field
            label
            value
            chips=Signal::stored(chips)
            complaint
            placeholder=words::setup::taken(field).to_owned()
            on_change=move |typed: Typed| {
                state.addressed.change(field, |form| form.entries.set(field, typed));
            }
        />
    }
    .into_any()
}
