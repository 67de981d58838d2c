//! Which thread is this? What was measured on it, and every listed thread that it may be.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use super::state::card_of;
use crate::{
    engine::{
        answer::State,
        quantity::{
            Length, System,
            rounding::{self, Shown, fixed},
        },
        question::{Field, InputError},
        threads::{
            Thread,
            identify::{self, Candidate, LookAlike, difference, pairs_of, to_hold_against},
        },
    },
    shop::{
        gauge::GaugeForm,
        measured::{MeasuredForm, PitchWay, Side},
        typed::Typed,
    },
    ui::{
        addressed::Addressed,
        components::{
            BigNumber, Choice, Choices, NumberField, Page, Split, StateMark, Tile, UnitSwitch,
            error_text::complaint_at,
            measuring_picture::{Measuring, MeasuringPicture},
        },
        sketch::Sketch,
        state::App,
        words,
    },
};

/// So many of those that fit are shown: with the diameter alone there are many.
const FITTING: usize = 8;

type Found = Result<Option<Vec<Candidate>>, Vec<InputError>>;

/// What the screen holds.
#[derive(Clone, Copy)]
struct Bench {
    app: App,
    addressed: Addressed<MeasuredForm>,
    link_faults: RwSignal<Vec<InputError>>,
    found: Memo<Found>,
}

impl Bench {
    fn new() -> Self {
        let app = App::get();
        let search = use_location().search;
        let (start, faults) = MeasuredForm::from_query(&search.get_untracked());
        let addressed = Addressed::new(start);
        let link_faults = RwSignal::new(faults);
        let read = move |query: &str| {
            let (said, faults) = MeasuredForm::from_query(query);
            link_faults.set(faults);
            said
        };
        addressed.keep(app, read, |form| format!("threads?{}", form.to_query()), || ());
        let found = Memo::new(move |_| addressed.form.read().candidates());
        Self { app, addressed, link_faults, found }
    }

    /// A field of the form.
    fn field(self, field: Field, label: &'static str) -> AnyView {
        let system = self.app.system();
        let value = Signal::derive(move || {
            let typed = self.addressed.form.read().typed(field).cloned().unwrap_or_default();
            // Who says a pitch and no threads in an inch means a metric one.
            typed.begun_in(if field == Field::Pitch { System::Metric } else { system.get() })
        });
        let on_change = move |typed: Typed| {
            self.addressed.change(field, |form| {
                if let Some(place) = form.typed_mut(field) {
                    *place = typed;
                }
            });
        };
        let complaint = Signal::derive(move || {
            self.found.read().as_ref().err().and_then(|faults| complaint_at(faults, field))
        });
        view! { <NumberField field label value on_change complaint /> }.into_any()
    }
}

/// The page.
#[component]
pub fn Measure() -> impl IntoView {
    let bench = Bench::new();
    let app = bench.app;
    let system = app.system();
    view! {
        <Page
            title="Which thread is this?"
            back_to="threads"
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
        >
            <Split
                names=("What it may be", "What you measure")
                answer=move || {
                    view! {
                        <Answer bench />
                        <div class="reasons stack">{move || told(&bench.found.read(), system.get())}</div>
                    }
                }
            >
                <Inputs bench />
            </Split>
        </Page>
    }
}

/// The likeliest, the largest thing on the screen.
#[component]
fn Answer(bench: Bench) -> impl IntoView {
    let found = bench.found;
    let first = move || {
        let first = found.read().as_ref().ok()?.as_ref()?.first().copied();
        first.filter(|candidate| candidate.fits).map(|candidate| candidate.thread)
    };
    let mark = move || {
        stand(&found.read(), bench.addressed.form.read().pitch().is_ok_and(|p| p.is_some()))
    };
    let shown = Signal::derive(move || {
        first().map_or_else(|| Shown { digits: "–".to_owned(), unit: "" }, name_shown)
    });
    view! {
        <section class="answer stay named" aria-label="The answer">
            {move || {
                let (state, word) = mark();
                view! {
                    <p class="verdict" aria-live="polite" data-testid="verdict">
                        <StateMark state word />
                    </p>
                }
            }}
            <BigNumber label="Likeliest" shown />
            <p class="answer-line">
                {move || first().map_or("", |thread| thread.series().words())}
            </p>
        </section>
        {move || {
            bench
                .link_faults
                .get()
                .into_iter()
                .map(|fault| view! { <p class="big-why">{fault.to_string()}</p> })
                .collect_view()
        }}
    }
}

/// A thread's name as the large number, its series beside it.
fn name_shown(thread: Thread) -> Shown {
    let digits = thread.short_name();
    let unit = if digits == thread.designation() { "" } else { thread.series().letters() };
    Shown { digits, unit }
}

/// What the measurements say so far.
fn stand(found: &Found, has_pitch: bool) -> (State, String) {
    let found = match found {
        Err(_) => return (State::Over, "No thread measures this".to_owned()),
        Ok(None) => return (State::Near, "Measure the diameter first".to_owned()),
        Ok(Some(found)) => found,
    };
    match (found.iter().filter(|candidate| candidate.fits).count(), has_pitch) {
        (0, _) => (State::Over, "No listed thread fits".to_owned()),
        (many, false) => (State::Near, format!("{many} so far: now the pitch")),
        (1, true) => (State::Within, "One thread fits".to_owned()),
        (many, true) => (State::Near, format!("{many} threads fit")),
    }
}

/// What there is to measure, each with its picture.
#[component]
fn Inputs(bench: Bench) -> impl IntoView {
    let form = bench.addressed.form;
    let side = Memo::new(move |_| form.read().side);
    let way = Memo::new(move |_| form.read().way);
    const SIDES: [(Side, &str, Sketch); 2] =
        [(Side::Screw, "A screw", Sketch::Thread), (Side::Hole, "A hole", Sketch::Tapping)];
    const WAYS: [(PitchWay, &str); 3] =
        [(PitchWay::Tpi, "tpi"), (PitchWay::Pitch, "mm"), (PitchWay::Count, "Count")];
    let sides = SIDES.map(|(side, name, sketch)| Choice::new(side, name).sketch(sketch)).to_vec();
    let ways = WAYS.map(|(way, name)| Choice::new(way, name)).to_vec();
    view! {
        <Choices
            name="The thread is on"
            of=sides
            chosen=Signal::derive(move || Some(side.get()))
            on_choose=move |side| bench.addressed.change(Field::Thread, |form| form.side = side)
        />
        {move || match side.get() {
            Side::Screw => {
                view! {
                    <MeasuringPicture
                        of=Measuring::OverCrests
                        words="Spindle stopped. Over the crests, where the thread is not worn: a used one is a little under its size."
                    />
                }
            }
            Side::Hole => {
                view! {
                    <MeasuringPicture
                        of=Measuring::BetweenRidges
                        words="Between the ridges, with the inside jaws: that is the hole the tap drill made."
                    />
                }
            }
        }}
        {move || {
            let label = match side.get() {
                Side::Screw => "Over the crests",
                Side::Hole => "Between the ridges",
            };
            bench.field(Field::MeasuredDiameter, label)
        }}
        <Choices
            name="Pitch by"
            of=ways
            chosen=Signal::derive(move || Some(way.get()))
            on_choose=move |way| bench.addressed.change(Field::Thread, |form| form.way = way)
        />
        {move || match way.get() {
            PitchWay::Count => {
                view! {
                    <MeasuringPicture
                        of=Measuring::OverLength
                        words="Count gaps, not crests: the first crest is nought. More threads make a truer pitch."
                    />
                }
            }
            PitchWay::Tpi | PitchWay::Pitch => {
                view! {
                    <MeasuringPicture
                        of=Measuring::PitchGauge
                        words="The leaf that shows no light against a lamp. Try an inch and a metric leaf."
                    />
                }
            }
        }}
        {move || match way.get() {
            PitchWay::Tpi => bench.field(Field::MeasuredPitch, "Threads in an inch"),
            PitchWay::Pitch => bench.field(Field::Pitch, "Pitch"),
            PitchWay::Count => {
                view! {
                    {bench.field(Field::ThreadsCounted, "Gaps counted")}
                    {bench.field(Field::CountedOver, "Over a length of")}
                }
                    .into_any()
            }
        }}
        <MeasuringPicture
            of=Measuring::Taper
            words="Straight or tapered? Measure at two places: a pipe thread that grows by 1 in 16 is a taper one."
        />
    }
}

/// Everything it may be, what it is taken for, and the screen to hold it against.
fn told(found: &Found, system: System) -> AnyView {
    let Ok(Some(found)) = found else { return ().into_any() };
    let (fitting, near): (Vec<_>, Vec<_>) = found.iter().copied().partition(|c| c.fits);
    let first = fitting.first().map(|candidate| candidate.thread);
    let more = fitting.len().saturating_sub(FITTING);
    let doors = |of: &[Candidate]| -> Vec<AnyView> {
        of.iter().take(FITTING).map(|candidate| door(*candidate, first, system)).collect()
    };
    view! {
        {(!fitting.is_empty())
            .then(|| {
                view! {
                    <section class="stack" data-testid="fitting">
                        <h2>
                            <StateMark state=State::Within word="Fits what you measured" />
                        </h2>
                        {doors(&fitting)}
                        {(more > 0).then(|| view! { <p>{format!("And {more} more: the pitch tells them apart.")}</p> })}
                    </section>
                }
            })}
        {pairs(&pairs_of(found))}
        {to_hold_against(found)
            .map(|(one, other)| {
                let beside = other.as_ref().map_or("the nearest", |other| other.name.as_str());
                view! {
                    <Tile
                        to=format!("threads?{}", GaugeForm::of(&one, other.as_ref()).to_query())
                        name="Hold it against the screen"
                        detail=format!("{} beside {beside}", one.name)
                        sketch=Sketch::Convert
                        across=true
                    />
                }
            })}
        {(!near.is_empty())
            .then(|| {
                view! {
                    <section class="stack" data-testid="near">
                        <h2>
                            <StateMark state=State::Over word="Close, but does not fit" />
                        </h2>
                        {doors(&near)}
                    </section>
                }
            })}
        <p class="muted">{words::sources(identify::SOURCE)}</p>
    }
    .into_any()
}

/// The pairs that ruin threads.
fn pairs(pairs: &[&'static LookAlike]) -> Option<AnyView> {
    let row = |pair: &&'static LookAlike| {
        view! {
            <li>
                <strong>{pair.one} " and " {pair.other}</strong>
                ". "
                {pair.by}
            </li>
        }
    };
    (!pairs.is_empty()).then(|| {
        view! {
            <section class="stack" data-testid="pairs">
                <h2>
                    <StateMark state=State::Near word="Taken for each other, and ruined by it" />
                </h2>
                <ul class="points">{pairs.iter().map(row).collect_view()}</ul>
            </section>
        }
        .into_any()
    })
}

/// The door to a candidate's card.
fn door(candidate: Candidate, first: Option<Thread>, system: System) -> AnyView {
    let thread = candidate.thread;
    let mut detail = misfit(candidate, system);
    if let Some(first) = first.filter(|first| *first != thread && candidate.fits) {
        detail += &format!(" {}", apart(thread, first, system));
    }
    view! {
        <Tile
            to=card_of(&thread.designation())
            name=thread.designation()
            detail
            sketch=Sketch::Thread
            across=true
        />
    }
    .into_any()
}

/// How far the measurements lie from a thread's own sizes.
fn misfit(candidate: Candidate, system: System) -> String {
    let off = candidate.diameter_off;
    let size = |length: Length| rounding::length(length, system);
    let by = size(off.abs());
    let way = match (is_nought(&by), off.is_positive()) {
        (true, _) => "Its own diameter".to_owned(),
        (false, true) => format!("{by} over its own diameter"),
        (false, false) => format!("{by} under its own diameter"),
    };
    let pitch = match (candidate.off_over_ten_threads(), candidate.pitch_off_share) {
        (Some(_), Some(_)) if candidate.has_its_pitch() => ", its own pitch.".to_owned(),
        (Some(off), Some(share)) => {
            let way = if share > 0.0 { "finer" } else { "coarser" };
            format!(
                "; its pitch is {} % {way}, {} over ten threads.",
                fixed(share.abs() * 100.0, 1),
                size(off.abs())
            )
        }
        _ => ".".to_owned(),
    };
    way + &pitch
}

/// What tells a thread from another one that fits as well.
fn apart(thread: Thread, from: Thread, system: System) -> String {
    let apart = difference(thread, from);
    let mut by = Vec::new();
    if apart.taper {
        by.push("the taper".to_owned());
    }
    if apart.flanks {
        let degrees = |thread: Thread| trim(thread.form().flank_angle().to_degree());
        by.push(format!("flanks of {}°, not {}°", degrees(thread), degrees(from)));
    }
    for (what, length) in
        [("of diameter", apart.diameter), ("over ten threads", apart.over_ten_threads)]
    {
        let shown = rounding::length(length, system);
        if !is_nought(&shown) {
            by.push(format!("{shown} {what}"));
        }
    }
    let from = from.designation();
    if by.is_empty() {
        format!("One with {from} by every size.")
    } else {
        format!("Told from {from} by {}.", by.join(", "))
    }
}

fn is_nought(shown: &Shown) -> bool {
    shown.digits.chars().all(|c| matches!(c, '0' | '.' | '-'))
}

fn trim(number: f64) -> String {
    fixed(number, 1).trim_end_matches(".0").to_owned()
}
