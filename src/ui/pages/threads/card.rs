//! A thread: the drill to take, what is owned on both sides of it, and its sizes.

use leptos::prelude::*;

use super::{
    state::{HoleState, Lead, card, card_of, doors, recipe, say_found},
    trial::Trial,
    wires::Wires,
};
use crate::{
    engine::{
        answer::State,
        cutting::drilling,
        drills::{Drill, Family},
        holes::{
            clearance::{self, Fit, clearance_hole},
            depth::BlindThread,
        },
        quantity::{
            Length, System,
            rounding::{self, Shown, fixed},
        },
        question::{Field, InputError},
        stock::Material,
        threads::{
            self, Hand, Series, Thread, form_tap,
            percent::Basis,
            tap::{self, Style},
            tap_hole::{Allowance, Candidate, Question, TapHole, Verdict},
        },
    },
    shop::{cuts::short_name, document::Document, holes::HoleForm},
    ui::{
        components::{
            BigNumber, Button, Choice, Choices, Fold, GoTo, NumberField, Page, Rank, SecondNumber,
            Split, StateMark, Stepper, Tile, Toggle, UnitSwitch,
            error_text::complaint_at,
            hole_picture::{HolePicture, Section, Threading},
            thread_picture::{Profile, ThreadPicture},
        },
        keep::Keep,
        sketch::Sketch,
        words,
    },
};

/// Percentages that can be asked for, and their step.
const PERCENT: (u32, u32) = (50, 85);
const STEP: u32 = 5;
/// So many of the nearest threads are offered.
const FOUND: usize = 6;

/// What there is to say of the hole.
#[derive(Clone, Debug, PartialEq)]
enum Drilled {
    /// A hole for a cutting tap.
    Cut(TapHole),
    /// A hole for a forming tap.
    Formed(form_tap::FormHole),
    /// A taper thread: the drill that its table names, and an older one.
    Table(Option<Drill>, Option<Drill>),
    /// It cannot be: a sentence and a hint.
    Not(InputError),
}

/// The page.
#[component]
pub fn Card() -> impl IntoView {
    let state = HoleState::get();
    let title = Signal::derive(move || {
        let thread = state.thread.get();
        thread.map_or_else(|| "Thread".to_owned(), Thread::designation)
    });
    let right = move || {
        view! {
            <UnitSwitch
                system=state.system()
                on_change=move |system| state.app.set_system(system)
            />
        }
    };
    // Its hand changes nothing of what is drawn anew.
    let thread = Memo::new(move |_| state.thread.get().map(|thread| thread.with_hand(Hand::Right)));
    view! {
        <Page title back_to="threads" right=right bar=|| view! { <Ways /> }>
            {move || match thread.get() {
                Some(thread) => view! { <Known thread /> }.into_any(),
                None => view! { <Unknown /> }.into_any(),
            }}
        </Page>
    }
}

/// The address names a thread that there is not.
#[component]
fn Unknown() -> impl IntoView {
    let state = HoleState::get();
    let found = Memo::new(move |_| threads::find(&state.form.read().thread));
    view! {
        <p role="alert">{move || say_found(&found.read())}</p>
        <div class="stack">{move || doors(&found.read(), FOUND, &Lead::Card)}</div>
        <Tile
            to="threads?measure"
            name="Which thread is this?"
            detail="by what it measures"
            sketch=Sketch::Thread
            across=true
        />
    }
}

/// The recipe for the hole, and the star.
#[component]
fn Ways() -> impl IntoView {
    let state = HoleState::get();
    let app = state.app;
    let name = move || state.thread.get().map(Thread::designation).unwrap_or_default();
    let starred = Memo::new(move |_| app.document.read().threads.is_starred(&name()));
    let star = move |()| {
        let (name, starred) = (name(), starred.get_untracked());
        app.change(|document| document.threads.star(&name, !starred));
    };
    let can_be_made =
        Memo::new(move |_| state.thread.get().is_some_and(|thread| !thread.series().is_taper()));
    let to = Signal::derive(move || recipe(&state.form.read()));
    view! {
        <Show when=move || can_be_made.get()>
            <GoTo to class=Rank::Primary.class() {..} data-touch="c">
                "Recipe"
            </GoTo>
        </Show>
        <Button rank=Rank::Secondary on_press=star>
            {move || if starred.get() { "Starred" } else { "Star" }}
        </Button>
    }
}

#[component]
fn Known(thread: Thread) -> impl IntoView {
    let state = HoleState::get();
    let reamers = state.app.part(Document::reamers);
    let drilled = Memo::new(move |_| drilled(state, thread, &reamers.read()));
    view! {
        <Split answer=move || {
            view! {
                <Answer thread drilled />
                <Owned thread drilled />
                <Picture thread drilled />
                <div class="reasons stack">
                    <Screw thread />
                    <Depths thread drilled />
                    <Trial thread />
                    <LookAlikes thread />
                    <Sizes thread />
                </div>
            }
        }>
            {(!thread.series().is_taper())
                .then(|| {
                    view! {
                        <Wanted />
                        <TapChoice />
                        <Stock />
                        <Ends />
                    }
                })}
            <WhichHand thread />
            <Keep
                name=Signal::derive(move || thread.designation())
                to=Signal::derive(move || card(&state.form.read()))
                words="Save it to the favorites"
            />
        </Split>
    }
}

fn drilled(state: HoleState, thread: Thread, reamers: &[Length]) -> Drilled {
    if thread.series().is_taper() {
        let row = thread.standard();
        return Drilled::Table(
            row.and_then(|row| row.tap_drill()).map(|(drill, _)| drill),
            row.and_then(|row| row.other_tap_drill()).map(|(drill, _)| drill),
        );
    }
    let form = state.form.read();
    let Some((percent, _)) = state.percent() else { return Drilled::Table(None, None) };
    let owned = state.drills.read();
    let answered = if form.tap.forms() {
        form_tap::choose(thread, f64::from(percent), state.stock(), &owned).map(Drilled::Formed)
    } else {
        let allowance = if form.oversize { Allowance::Mean } else { Allowance::None };
        let question = Question {
            percent: f64::from(percent),
            to_class: form.to_class,
            allowance,
            ..Question::new(thread)
        };
        question.answer(&owned, reamers).map(Drilled::Cut)
    };
    answered.unwrap_or_else(Drilled::Not)
}

/// A drill as the large number: its name is what is read at the drill stand.
fn drill_shown(drill: Drill) -> Shown {
    let name = drill.name();
    match drill.family() {
        Family::Number => Shown { digits: name, unit: "drill" },
        Family::Letter => Shown { digits: drill.short_name(), unit: "letter drill" },
        Family::Fraction => Shown { digits: name.trim_end_matches(" in").to_owned(), unit: "in" },
        Family::Metric => Shown { digits: name.trim_end_matches(" mm").to_owned(), unit: "mm" },
    }
}

/// A diameter in both systems.
fn both(length: Length) -> String {
    let (inch, metric) =
        (rounding::length(length, System::Inch), rounding::length(length, System::Metric));
    format!("{inch}, {metric}")
}

fn basis(thread: Thread) -> &'static str {
    Basis::usual(thread.form()).words()
}

/// What the class of a hole is called in a sentence.
fn class_of(thread: Thread) -> &'static str {
    match thread.internal().map(|limits| limits.class) {
        Some("nut") => "what a nut",
        Some(class) => class,
        None => "what the class",
    }
}

/// How a hole stands to its class: the state of the mark, and its words.
pub(super) fn verdict(verdict: Verdict, thread: Thread) -> (State, String) {
    let class = class_of(thread);
    match verdict {
        Verdict::Inside if class.starts_with("what") => {
            (State::Within, "Inside the limits of a nut".to_owned())
        }
        Verdict::Inside => (State::Within, format!("Inside {class}")),
        Verdict::OverMost => (State::Near, format!("Larger than {class} allows")),
        Verdict::Binds => (State::Over, "Too small: the tap binds".to_owned()),
        Verdict::NoLimit => {
            (State::Within, "Not too small; this series has no class here".to_owned())
        }
    }
}

/// The drill to take, the largest thing on the screen.
#[component]
fn Answer(thread: Thread, drilled: Memo<Drilled>) -> impl IntoView {
    let state = HoleState::get();
    let mark = move || match drilled.get() {
        Drilled::Cut(hole) => match hole.chosen {
            Some(chosen) => verdict(chosen.verdict, thread),
            None => (State::Over, "No drill you own makes this hole".to_owned()),
        },
        Drilled::Formed(hole) if hole.will_do => (State::Within, "For a forming tap".to_owned()),
        Drilled::Formed(_) => {
            (State::Over, "No drill you own will do for a forming tap".to_owned())
        }
        Drilled::Table(..) => (State::Near, "From a table, for a taper tap".to_owned()),
        Drilled::Not(_) => (State::Over, "This cannot be".to_owned()),
    };
    let shown = Signal::derive(move || {
        let drill = match drilled.get() {
            Drilled::Cut(hole) => hole.chosen.or(hole.to_buy).map(|one| one.drill),
            Drilled::Formed(hole) => hole.nearest.map(|(drill, _)| drill),
            Drilled::Table(drill, _) => drill,
            Drilled::Not(_) => None,
        };
        drill.map_or_else(|| Shown { digits: "–".to_owned(), unit: "" }, drill_shown)
    });
    let label = move || match drilled.get() {
        Drilled::Cut(TapHole { chosen: None, to_buy: Some(_), .. }) => "Buy this drill",
        _ => "Tap drill",
    };
    let why = move || why(&drilled.get(), thread, state.any_drill.get());
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
            <BigNumber label=Signal::derive(move || label().to_owned()) shown />
            <p class="answer-line" data-testid="line">{move || line(&drilled.get())}</p>
        </section>
        <div class="answer-more">
            {move || {
                state.link_faults
                    .get()
                    .into_iter()
                    .map(|fault| view! { <p class="big-why">{fault.to_string()}</p> })
                    .collect_view()
            }}
            {move || {
                is_left(state)
                    .then(|| {
                        view! {
                            <p class="big-why">
                                "Left hand: the tap turns in counter-clockwise, seen from above."
                            </p>
                        }
                    })
            }}
            {move || why().into_iter().map(|text| view! { <p class="big-why">{text}</p> }).collect_view()}
        </div>
    }
}

/// What the hole leaves, to keep in view.
fn line(drilled: &Drilled) -> String {
    match drilled {
        Drilled::Cut(TapHole { chosen: Some(one), .. } | TapHole { to_buy: Some(one), .. }) => {
            format!("{} % of thread", fixed(one.percent, 1))
        }
        Drilled::Formed(form_tap::FormHole { nearest: Some((_, percent)), .. }) => {
            format!("{} % of thread, formed", fixed(*percent, 1))
        }
        _ => String::new(),
    }
}

/// The sentences under the number.
fn why(drilled: &Drilled, thread: Thread, any_drill: bool) -> Vec<String> {
    let mut said = Vec::new();
    match drilled {
        Drilled::Cut(hole) => {
            if let Some(one) = hole.chosen.or(hole.to_buy) {
                said.push(format!("{}. Per cent {}.", both(one.drill.diameter()), basis(thread)));
            }
            if let (Some(least), false) =
                (hole.least_percent_in_class, hole.ideal_verdict.is_to_class())
            {
                let class = class_of(thread);
                said.push(format!(
                    "Under {} % the hole is larger than {class} allows: often strong enough, but not to print.",
                    fixed(least, 1)
                ));
            }
            if let Some(nearest) =
                hole.nearest.filter(|n| Some(n.drill) != hole.chosen.map(|c| c.drill))
            {
                said.push(format!(
                    "Nearest to the percentage you want is {}, {} %.",
                    nearest.drill.name(),
                    fixed(nearest.percent, 1)
                ));
            }
            if let Some(reaming) = hole.reaming {
                said.push(format!(
                    "Or drill {} and ream to {}: {} %.",
                    reaming.pilot.name(),
                    both(reaming.reamer),
                    fixed(reaming.percent, 1)
                ));
            }
            match (hole.chosen, hole.to_buy) {
                (Some(stop_gap), Some(buy)) => said.push(format!(
                    "That is a stop-gap. Buy {}: {} %, inside the class; {} will do until then.",
                    buy.drill.name(),
                    fixed(buy.percent, 1),
                    stop_gap.drill.name()
                )),
                (None, Some(_)) => {
                    said.push("Every drill you own binds the tap or leaves no thread.".to_owned());
                }
                _ => {}
            }
        }
        Drilled::Formed(hole) => {
            said.push(format!(
                "The hole for a forming tap is {}; from {} to {} will do. Never use the drill of a cutting tap.",
                both(hole.ideal),
                rounding::length(hole.least, thread.system()),
                rounding::length(hole.most, thread.system()),
            ));
            if !hole.will_do {
                said.push("Ream the hole, or buy a drill between these.".to_owned());
            }
        }
        Drilled::Table(drill, other) => {
            if let Some(drill) = drill {
                said.push(format!(
                    "{}. From memory: look at the sheet of your tap's maker.",
                    both(drill.diameter())
                ));
            } else {
                said.push(
                    "No drill is listed for it. Look at the sheet of your tap's maker.".to_owned(),
                );
            }
            if let Some(other) = other {
                said.push(format!(
                    "Older tables say {}, {}.",
                    other.name(),
                    both(other.diameter())
                ));
            }
        }
        Drilled::Not(error) => said.push(error.to_string()),
    }
    if any_drill && matches!(drilled, Drilled::Cut(_) | Drilled::Formed(_)) {
        said.push("Out of every drill that is made: say in the shop which you own.".to_owned());
    }
    said
}

/// The owned drills on both sides.
#[component]
fn Owned(thread: Thread, drilled: Memo<Drilled>) -> impl IntoView {
    let cell = move |label: &str, one: Candidate| {
        let (_, word) = verdict(one.verdict, thread);
        view! {
            <SecondNumber
                label=format!("{label}: {}", one.drill.name())
                shown=Shown { digits: fixed(one.percent, 1), unit: "%" }
                note=format!("{}. {word}", both(one.hole))
            />
        }
    };
    move || {
        let Drilled::Cut(hole) = drilled.get() else { return None };
        Some(view! {
            <div class="cells" data-testid="neighbours">
                {hole.below.map(|one| cell("At or under", one))}
                {hole.above.map(|one| cell("Next over", one))}
            </div>
        })
    }
}

#[component]
fn Picture(thread: Thread, drilled: Memo<Drilled>) -> impl IntoView {
    let profile = Signal::derive(move || {
        let hole = match drilled.get() {
            Drilled::Cut(hole) => hole.chosen.or(hole.to_buy)?.hole,
            Drilled::Formed(_) | Drilled::Table(..) | Drilled::Not(_) => return None,
        };
        let form = thread.form();
        let half = form.flank_angle() / 2.0;
        // What is left of the sharp groove at the major diameter.
        let sharp = 1.0 / (2.0 * half.tan());
        let root_flat = (sharp - form.full_depth()) * half.tan();
        let limits = thread.internal();
        Some(Profile {
            major: thread.major().to_mm(),
            pitch: thread.pitch().to_mm(),
            half_angle_degree: half.to_degree(),
            root_flat: root_flat.max(0.05),
            hole: hole.to_mm(),
            class: limits.map(|limits| (limits.minor.least.to_mm(), limits.minor.most.to_mm())),
            class_name: limits.map_or("", |limits| limits.class),
        })
    });
    let caption = Signal::derive(move || match drilled.get() {
        Drilled::Cut(TapHole { chosen: Some(one), .. } | TapHole { to_buy: Some(one), .. }) => {
            format!(
                "The wall of the hole in section: {} % of thread stands in it.",
                fixed(one.percent, 0)
            )
        }
        _ => String::new(),
    });
    view! { <ThreadPicture profile words=caption /> }
}

/// The percentage wanted, and whether the class comes first.
#[component]
pub fn Wanted() -> impl IntoView {
    let state = HoleState::get();
    let percent = Signal::derive(move || state.percent().map_or(75, |(percent, _)| percent));
    let is_formed = Memo::new(move |_| state.form.read().tap.forms());
    let step = move |step: i32| {
        let now = percent.get_untracked();
        let down = now.div_ceil(STEP).saturating_sub(1) * STEP;
        let next = if step < 0 { down } else { (now / STEP + 1) * STEP };
        state.change(Field::Percent, |form| form.percent = Some(next.clamp(PERCENT.0, PERCENT.1)));
    };
    let advice = move || match state.percent() {
        Some((_, Some(advice))) => advice.reason.to_owned(),
        Some((_, None)) => "Your number.".to_owned(),
        None => String::new(),
    };
    let to_class = Signal::derive(move || state.form.read().to_class);
    let oversize = Signal::derive(move || state.form.read().oversize);
    view! {
        <Stepper
            label="Thread wanted"
            value=Signal::derive(move || format!("{} %", percent.get()))
            on_step=step
            less=Signal::derive(move || percent.get() > PERCENT.0)
            more=Signal::derive(move || percent.get() < PERCENT.1)
        />
        <p class="muted">{advice}</p>
        <Show when=move || !is_formed.get()>
            <Toggle
                label="Inside the class before the percentage"
                on=to_class
                said=("yes", "no")
                on_change=move |on| state.change(Field::Fit, |form| form.to_class = on)
            />
            <Toggle
                label="Allow for a drill that cuts large"
                on=oversize
                said=("yes", "no")
                on_change=move |on| state.change(Field::Hole, |form| form.oversize = on)
            />
        </Show>
    }
}

/// The tap at hand.
#[component]
pub fn TapChoice() -> impl IntoView {
    let state = HoleState::get();
    let of = Style::ALL
        .map(|style| {
            let (least, most) = style.chamfer();
            Choice::new(style, style.words()).detail(format!(
                "{} to {} threads of chamfer",
                fixed(least, 0),
                trim(most)
            ))
        })
        .to_vec();
    view! {
        <Choices
            name="Tap"
            of
            chosen=Signal::derive(move || Some(state.form.read().tap))
            on_choose=move |tap| state.change(Field::TapChamfer, |form| form.tap = tap)
            rows=true
        />
    }
}

fn trim(number: f64) -> String {
    fixed(number, 1).trim_end_matches(".0").to_owned()
}

/// The stock, which is the one on the mill.
#[component]
fn Stock() -> impl IntoView {
    let state = HoleState::get();
    let name = Signal::derive(move || {
        state
            .stock()
            .map_or_else(|| "Choose the stock".to_owned(), |m: &Material| short_name(m).to_owned())
    });
    view! { <Tile to="./?change=stock" name detail="on the mill" sketch=Sketch::Stock across=true /> }
}

/// Which way the thread turns in.
#[component]
fn WhichHand(thread: Thread) -> impl IntoView {
    let state = HoleState::get();
    let turn = move |left: bool| {
        let hand = if left { Hand::Left } else { Hand::Right };
        let name = thread.with_hand(hand).designation();
        state.change(Field::Thread, |form| form.thread = name);
    };
    view! {
        <Toggle
            label="Left hand"
            on=Signal::derive(move || is_left(state))
            said=("yes", "no, right")
            on_change=turn
        />
    }
}

fn is_left(state: HoleState) -> bool {
    state.thread.get().is_some_and(|thread| thread.hand() == Hand::Left)
}

/// Where the hole ends, and how much thread it holds.
#[component]
fn Ends() -> impl IntoView {
    let state = HoleState::get();
    let through = Signal::derive(move || state.form.read().through);
    let fault = Memo::new(move |_| depth_fault(&state.form.read()));
    let at = move |field| Signal::derive(move || complaint_at(&fault.get(), field));
    view! {
        <Toggle
            label="Goes through"
            on=through
            said=("yes", "no, blind")
            on_change=move |on| state.change(Field::Depth, |form| form.through = on)
        />
        <NumberField
            field=Field::FullThread
            value=state.typed(Field::FullThread)
            on_change=state.type_in(Field::FullThread)
            complaint=at(Field::FullThread)
        />
        <NumberField
            field=Field::Plate
            value=state.typed(Field::Plate)
            on_change=state.type_in(Field::Plate)
            complaint=at(Field::Plate)
        />
    }
}

fn depth_fault(form: &HoleForm) -> Vec<InputError> {
    let mut faults = Vec::new();
    let mut read = |field: Field| {
        let typed = form.typed(field)?.given()?;
        typed.length(field).map_err(|fault| faults.push(fault)).ok()
    };
    let (full, plate) = (read(Field::FullThread), read(Field::Plate));
    if let (Some(full), Some(plate)) = (full, plate)
        && full > plate
    {
        faults.push(InputError::new(
            Field::FullThread,
            "The thread is longer than the plate is thick.",
            "Enter a shorter thread, or a thicker plate.",
        ));
    }
    faults
}

/// The screw of a thread as a screw is called: #10, 1/4, M6.
fn screw_of(thread: Thread) -> Option<String> {
    let name = thread.short_name();
    let head = |mark: char| name.split(mark).next().map(str::to_owned);
    match thread.series() {
        Series::Metric | Series::MetricFine => head('x'),
        Series::Unc | Series::Unf | Series::Unef | Series::Un | Series::Uns => {
            let size = head('-')?;
            let is_number = thread.major() < Length::inch(0.25);
            Some(if is_number && !size.contains('/') { format!("#{size}") } else { size })
        }
        _ => None,
    }
}

/// Holes for its screw to pass.
#[component]
fn Screw(thread: Thread) -> impl IntoView {
    let Some(screw) = screw_of(thread) else { return ().into_any() };
    let standards: &[clearance::Standard] = match thread.system() {
        System::Inch => &[clearance::Standard::AsmeB18_2_8, clearance::Standard::Trade],
        System::Metric => &[clearance::Standard::Iso273],
    };
    let rows: Vec<_> = standards
        .iter()
        .flat_map(|standard| Fit::ALL.map(|fit| (*standard, fit)))
        .filter_map(|(standard, fit)| clearance_hole(standard, &screw, fit).ok())
        .map(|hole| {
            let name = format!("{}, {}", hole.standard.words(), hole.fit.words(hole.standard));
            row(name, format!("{}, {}", hole.drill, both(hole.hole())))
        })
        .collect();
    view! {
        <Fold title=format!("Clearance for {screw}")>
            <dl class="sizes">{rows}</dl>
        </Fold>
    }
    .into_any()
}

pub(super) fn row(name: impl Into<String>, value: impl Into<String>) -> impl IntoView {
    view! {
        <div>
            <dt>{name.into()}</dt>
            <dd>{value.into()}</dd>
        </div>
    }
}

/// What is easily taken for it, and what tells them apart.
#[component]
fn LookAlikes(thread: Thread) -> impl IntoView {
    let alikes: Vec<_> = threads::identify::look_alikes(thread)
        .map(|(other, row)| {
            view! {
                <li>
                    <GoTo to=card_of(&other.designation()) class="button quiet" {..} data-touch="a">
                        {other.designation()}
                    </GoTo>
                    " " {row.by}
                </li>
            }
        })
        .collect();
    (!alikes.is_empty()).then(|| {
        view! {
            <section class="stack">
                <h2>"Easily taken for it"</h2>
                <ul class="points look-alikes">{alikes}</ul>
            </section>
        }
    })
}

/// How deep a blind hole is drilled and tapped, and what that leaves of the plate.
#[component]
fn Depths(thread: Thread, drilled: Memo<Drilled>) -> impl IntoView {
    let state = HoleState::get();
    let system = state.system();
    move || {
        let form = state.form.read();
        let full = form.full_thread.length(Field::FullThread).ok()?;
        let plate = form.plate.length(Field::Plate).ok();
        let size = |length: Length| rounding::length(length, system.get()).to_string();
        let turns = |length: Length| format!("{} turns", fixed(tap::turns(thread, length), 1));
        if form.through {
            return Some(
                view! {
                    <dl class="sizes" data-testid="depths">
                        {row("Tap, for the thread", turns(full))}
                    </dl>
                }
                .into_any(),
            );
        }
        let drill = match drilled.get() {
            Drilled::Cut(hole) => hole.chosen.or(hole.to_buy)?.drill,
            Drilled::Formed(hole) => hole.nearest?.0,
            Drilled::Table(..) | Drilled::Not(_) => return None,
        };
        // As the recipe has them: what was typed there, else the usual.
        let (least, most) = form.tap.chamfer();
        let chamfer = form.chamfer.number(Field::TapChamfer).unwrap_or(f64::midpoint(least, most));
        let spare = form.spare.length_or_nothing(Field::Spare);
        let spare = spare.unwrap_or_else(|_| tap::chip_room(thread).0);
        let point = form.point.angle(Field::PointAngle);
        let point = point.unwrap_or_else(|_| form.usual_point());
        let chain = |threads: f64| BlindThread::new(full, thread.pitch(), threads, spare).ok();
        let depths = chain(chamfer)?;
        let tip = depths.tip_depth(drill.diameter(), point).ok()?;
        let floor = plate.map(|plate| plate - tip);
        let broken = floor.filter(|floor| !floor.is_positive()).map(|_| {
            let shorter = chain(f64::midpoint(1.0, 2.0))
                .and_then(|chain| chain.tip_depth(drill.diameter(), point).ok())
                .filter(|tip| form.tap == Style::Plug && plate.is_some_and(|plate| *tip < plate))
                .map(|tip| {
                    format!(
                        " Begin with the plug tap and finish with a bottoming one: then the tip need only go {} deep.",
                        size(tip)
                    )
                });
            view! {
                <p role="alert">
                    <StateMark state=State::Over word="The point breaks through the plate." />
                    {shorter.unwrap_or_else(|| " Shorten the thread, or take a thicker plate.".to_owned())}
                </p>
            }
        });
        let section = plate.map(|plate| Section {
            plate,
            through: false,
            drill: drill.diameter(),
            full: depths.full_depth(),
            tip,
            point: drilling::point_length_of(drill.diameter(), point),
            reamed: None,
            thread: Some(Threading {
                major: thread.major(),
                pitch: thread.pitch(),
                full,
                tap: depths.tap_travel(),
            }),
            seat: None,
        });
        Some(
            view! {
                <section class="stack">
                    <h2>"The blind hole"</h2>
                    {broken}
                    <HolePicture section=Signal::stored(section) system />
                    <dl class="sizes" data-testid="depths">
                        {row("Drill, at its full diameter", size(depths.full_depth()))}
                        {row(format!("Drill, at the tip ({}° point)", trim(point.to_degree())), size(tip))}
                        {floor
                            .filter(|floor| floor.is_positive())
                            .map(|floor| row("Left under the tip", size(floor)))}
                        {row(
                            format!("Tap, {} threads of chamfer", trim(chamfer)),
                            format!(
                                "{} deep, {}",
                                size(depths.tap_travel()),
                                turns(depths.tap_travel()),
                            ),
                        )}
                        {row("Spare for chips", size(spare))}
                    </dl>
                    <p class="muted">
                        {words::sources("F_GEOMETRY B94_9_CHAMFER CHIP_ROOM_CP")}
                    </p>
                </section>
            }
            .into_any(),
        )
    }
}

/// Sizes, limits and wires.
#[component]
fn Sizes(thread: Thread) -> impl IntoView {
    let state = HoleState::get();
    let system = state.system();
    let limits = move || limits(thread, system.get());
    view! {
        <Fold title="Limits of the thread">
            <dl class="sizes" data-testid="limits">
                {move || limits().into_iter().map(|(name, value)| row(name, value)).collect_view()}
            </dl>
            <p class="muted">{sources(thread)}</p>
        </Fold>
        <Wires thread />
    }
}

pub(super) fn span(least: Length, most: Length, system: System) -> String {
    format!("{} to {}", rounding::length(least, system).digits, rounding::length(most, system))
}

fn limits(thread: Thread, system: System) -> Vec<(String, String)> {
    let size = |length| rounding::length(length, system).to_string();
    let pitch = if thread.is_named_by_tpi() {
        format!("{}, {} to the inch", size(thread.pitch()), trim(thread.tpi()))
    } else {
        format!("{}, {} to the inch", size(thread.pitch()), fixed(thread.tpi(), 2))
    };
    let mut rows = vec![
        ("Major diameter".to_owned(), size(thread.major())),
        ("Pitch".to_owned(), pitch),
        ("Pitch diameter, basic".to_owned(), size(thread.basic_pitch_diameter())),
        ("Minor diameter of the hole, basic".to_owned(), size(thread.basic_minor())),
        (
            "Angle between the flanks".to_owned(),
            format!("{}°", trim(thread.form().flank_angle().to_degree())),
        ),
    ];
    if let Some(inside) = thread.internal() {
        let class = inside.class;
        rows.push((
            format!("Hole, {class}: minor"),
            span(inside.minor.least, inside.minor.most, system),
        ));
        if let Some(pitch) = inside.pitch {
            rows.push((
                format!("Hole, {class}: pitch diameter"),
                span(pitch.least, pitch.most, system),
            ));
        }
    }
    if let Some(outside) = thread.external() {
        let class = outside.class;
        rows.push((
            format!("Screw, {class}: major"),
            span(outside.major.least, outside.major.most, system),
        ));
        rows.push((
            format!("Screw, {class}: pitch diameter"),
            span(outside.pitch.least, outside.pitch.most, system),
        ));
    }
    if let Some(npt) = thread.npt_sizes() {
        rows.extend([
            ("Pitch diameter at the small end, E0".to_owned(), size(npt.e0)),
            ("Pitch diameter at the mouth, E1".to_owned(), size(npt.e1)),
            ("Hand-tight engagement, L1".to_owned(), size(npt.l1)),
            ("Effective thread, L2".to_owned(), size(npt.l2)),
            ("Minor at the small end, K0".to_owned(), size(npt.k0)),
        ]);
    }
    rows
}

fn sources(thread: Thread) -> String {
    let mut tags = thread.standard().map(|row| row.source()).unwrap_or_default().to_owned();
    for more in [thread.internal().map(|l| l.source), thread.external().map(|l| l.source)] {
        for tag in more.unwrap_or_default().split(' ') {
            if !tag.is_empty() && !tags.split(' ').any(|one| one == tag) {
                tags = format!("{tags} {tag}");
            }
        }
    }
    words::sources(&tags)
}
