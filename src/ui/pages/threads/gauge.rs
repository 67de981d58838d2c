//! The screen as a screw-pitch gauge: two pitches at their true size, to lay a screw against.

use core::fmt::Write;

use leptos::{ev, prelude::*};
use leptos_router::hooks::{use_location, use_query_map};

use crate::{
    browser::page,
    engine::{
        quantity::{Length, System, rounding},
        question::Field,
        threads::gauge::{self, Apart, Ruling, Screen, look_alike, rulings},
    },
    shop::gauge::GaugeForm,
    ui::{
        addressed::Addressed,
        components::{Button, Page, Rank, Stepper, press::Press},
        sketch::Sketch,
        state::App,
        words,
    },
};

/// Units of the page on a card's long edge: a usual phone, a usual desk.
const PHONE: u32 = 5140;
const DESK: u32 = 3240;
/// The pitch to begin with.
const BEGIN: &str = "20 tpi";
/// A step of the bar, in tenths of a unit.
const STEP: i32 = 10;
/// Room that head and controls take from the height of an upright screen, what the page keeps free
/// at the sides of a lying one, and the least ruling.
const CONTROLS: f64 = 348.0;
const SIDES: f64 = 48.0;
const LEAST: f64 = 200.0;
/// Across the ruling, on an upright screen and on a lying one.
const UPRIGHT: f64 = 280.0;
const LYING: f64 = 150.0;
/// The solid part of a comb.
const BACK: f64 = 40.0;

/// The place for the ruling: along the screen's long side.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Place {
    along: f64,
    across: f64,
    lies: bool,
}

impl Place {
    fn on_screen() -> Self {
        let (width, height) = page::size();
        if width > height {
            Self { along: (width - SIDES).max(LEAST), across: LYING, lies: true }
        } else {
            Self { along: (height - CONTROLS).max(LEAST), across: UPRIGHT, lies: false }
        }
    }

    fn width(self) -> f64 {
        if self.lies { self.along } else { self.across }
    }

    fn height(self) -> f64 {
        if self.lies { self.across } else { self.along }
    }
}

/// The gauge, once the screen's size is known.
#[component]
pub fn Gauge() -> impl IntoView {
    let app = App::get();
    let card = app.part(|document| document.threads.card);
    let query = use_query_map();
    let again = Memo::new(move |_| query.read().get_str("card").is_some());
    move || match (card.get(), again.get()) {
        (Some(card), false) => view! { <Combs card /> }.into_any(),
        (card, _) => view! { <Card app card /> }.into_any(),
    }
}

/// A bar to make as long as a bank card.
#[component]
fn Card(app: App, card: Option<u32>) -> impl IntoView {
    let start = card.unwrap_or(if page::points() > 1.5 { PHONE } else { DESK });
    let card = RwSignal::new(start);
    let step = move |step: i32| {
        card.update(|card| *card = card.saturating_add_signed(step * STEP));
    };
    let go = app.way();
    let search = use_location().search;
    let fits = move || Screen::calibrated(f64::from(card.get()) / 10.0, page::points());
    let keep = move |()| {
        if fits().is_ok() {
            app.change(|document| document.threads.card = Some(card.get_untracked()));
            // Back to the pitches that the address names.
            let (form, _) = GaugeForm::from_query(&search.get_untracked());
            go(&address(&form));
        }
    };
    let length = move || format!("{:.1}px", f64::from(card.get()) / 10.0);
    view! {
        <Page title="How large is your screen?" back_to="threads">
            <p>
                "Lay a bank card with its long edge beside the bar, one end at its end, and step until both are as long."
            </p>
            <Stepper
                label="Bar"
                value=Signal::derive(move || (card.get() / 10).to_string())
                on_step=step
                less=Signal::derive(move || card.get() > 1500)
                more=Signal::derive(move || card.get() < 20_000)
            />
            {move || fits().err().map(|why| view! { <p role="alert">{why.to_string()}</p> })}
            <Button on_press=keep>"It is as long as the card"</Button>
            <div class="card-bar wide" style:--card=length aria-hidden="true"></div>
        </Page>
    }
}

/// Two pitches side by side.
#[component]
fn Combs(card: u32) -> impl IntoView {
    let app = App::get();
    let all = StoredValue::new(rulings());
    let search = use_location().search;
    let (start, faults) = GaugeForm::from_query(&search.get_untracked());
    let addressed = Addressed::new(start);
    let form = addressed.form;
    let link_faults = RwSignal::new(faults);
    let read = move |query: &str| {
        let (said, faults) = GaugeForm::from_query(query);
        link_faults.set(faults);
        said
    };
    addressed.keep(app, read, address, || ());
    let place_of = move |name: &str| all.read_value().iter().position(|one| one.name == name);
    let place = Memo::new(move |_| {
        place_of(&form.read().pitch).or_else(|| place_of(BEGIN)).unwrap_or_default()
    });
    let screen = Screen::calibrated(f64::from(card) / 10.0, page::points());
    let go = app.way();
    let measure_again = move |()| go(&format!("{}&card", address(&form.read_untracked())));
    let step = move |by: i32| {
        let last = all.read_value().len() - 1;
        let next = place.get_untracked().saturating_add_signed(by as isize).min(last);
        let name = all.read_value()[next].name.clone();
        addressed.change(Field::MeasuredPitch, |form| form.pitch = name);
    };
    let free = move |()| addressed.change(Field::Pitch, |form| form.beside.clear());
    let is_held = Memo::new(move |_| !form.read().beside.is_empty());
    let pair = Memo::new(move |_| {
        let all = all.read_value();
        let one = all[place.get()].clone();
        let held = all.iter().find(|other| other.name == form.read().beside && **other != one);
        let other = held.or_else(|| look_alike(&one, &all)).unwrap_or(&one).clone();
        (one, other)
    });
    let system = app.system();
    let room = RwSignal::new(Place::on_screen());
    let turned = window_event_listener(ev::resize, move |_| room.set(Place::on_screen()));
    on_cleanup(move || turned.remove());
    let body = match screen {
        Err(why) => view! { <p role="alert">{why.to_string()}</p> }.into_any(),
        Ok(screen) => {
            let over = move || screen.length(room.get().along);
            let told = Memo::new(move |_| {
                let (one, other) = pair.get();
                screen.tell_apart(one.pitch, other.pitch, over())
            });
            let drawing = move || {
                let (one, other) = pair.get();
                let room = room.get();
                let combs = comb(&one, screen, room, false) + &comb(&other, screen, room, true);
                if room.lies {
                    format!(r#"<g transform="matrix(0 1 1 0 0 0)">{combs}</g>"#)
                } else {
                    combs
                }
            };
            view! {
                <div class="gauge-names wide" style:--along=move || format!("{}px", room.get().width())>
                    <b data-testid="pitch">{move || pair.get().0.name}</b>
                    <span>{move || pair.get().1.name}</span>
                </div>
                <svg
                    class="gauge wide"
                    width=move || room.get().width()
                    height=move || room.get().height()
                    aria-hidden="true"
                    focusable="false"
                    inner_html=drawing
                ></svg>
                <div class="gauge-keys">
                    <Key name="Finer" sign=Sketch::Minus on_press=move |()| step(-1) />
                    <Key name="Coarser" sign=Sketch::Plus on_press=move |()| step(1) />
                </div>
                <p role="status">
                    {move || {
                        let (one, other) = pair.get();
                        say(&one, &other, told.get(), over(), system.get())
                    }}
                </p>
                <p class="muted">
                    {format!(
                        "One point of this screen is {}: nothing finer can be shown. Lay the screw on, do not press; look straight down.",
                        rounding::length(screen.point(), System::Metric),
                    )}
                </p>
                <p class="muted">{words::sources(gauge::SOURCE)}</p>
            }
            .into_any()
        }
    };
    view! {
        <Page title="Pitch gauge" back_to="threads">
            {move || {
                let fault = |fault| view! { <p role="alert">{format!("{fault}")}</p> };
                link_faults.get().into_iter().map(fault).collect_view()
            }}
            {body}
            <Show when=move || is_held.get()>
                <Button rank=Rank::Secondary on_press=free>
                    "Show the nearest pitch beside it"
                </Button>
            </Show>
            <Button rank=Rank::Quiet on_press=measure_again>
                "Measure the screen again"
            </Button>
        </Page>
    }
}

fn address(form: &GaugeForm) -> String {
    format!("threads?{}", form.to_query())
}

#[component]
fn Key(name: &'static str, sign: Sketch, #[prop(into)] on_press: Callback<()>) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <button
            type="button"
            class="button secondary"
            data-touch="c"
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_press.run(());
                }
            }
        >
            {sign.draw_small()}
            {name}
        </button>
    }
}

/// What can be told apart here, honestly.
fn say(one: &Ruling, other: &Ruling, told: Apart, over: Length, system: System) -> String {
    let over = rounding::length(over, system);
    let drift = rounding::length(told.drift, system);
    if told.can_be_told {
        format!(
            "{} and {} stand {drift} apart at the end of {over}: they can be told apart from {} on.",
            one.name,
            other.name,
            rounding::length(told.length_needed, system)
        )
    } else {
        format!(
            "{} and {} stand only {drift} apart at the end of {over}: this screen cannot tell them apart. It would take {} of thread.",
            one.name,
            other.name,
            rounding::length(told.length_needed, system)
        )
    }
}

/// A comb with flanks of 60 degrees at true size, downwards; the second one looks to the left.
fn comb(ruling: &Ruling, screen: Screen, room: Place, mirrored: bool) -> String {
    let Place { along, across, .. } = room;
    let pitch = screen.units(ruling.pitch);
    let depth = pitch / 2.0 / libm::tan(30f64.to_radians());
    let x = |depth: f64| if mirrored { across - BACK - depth } else { BACK + depth };
    let edge = if mirrored { across } else { 0.0 };
    let mut path = format!("M{edge} 0H{:.2}", x(0.0));
    let mut y = 0.0;
    while y < along {
        let _ =
            write!(path, "L{:.2} {:.2}L{:.2} {:.2}", x(depth), y + pitch / 2.0, x(0.0), y + pitch);
        y += pitch;
    }
    let _ = write!(path, "H{edge}Z");
    format!(r#"<path d="{path}"/>"#)
}
