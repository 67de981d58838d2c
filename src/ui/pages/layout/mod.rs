//! `/layout`: where holes are to be. A pattern by its picture and a few numbers, drawn to scale,
//! listed, then hole by hole in digits that are read from the machine.

mod at_hole;
mod inputs;
mod listing;
mod picture;
mod state;

use leptos::{prelude::*, task::spawn_local};

use self::{at_hole::AtHole, inputs::Inputs, state::LayoutState};
use crate::{
    browser::{clipboard, page},
    engine::{answer::State, layout::Place, quantity::rounding},
    shop::layout::{LayoutForm, laid::Laid},
    ui::{
        components::{
            AskTwice, Button, GoTo, Page, Rank, SecondNumber, Split, StateMark, Tile, UnitSwitch,
        },
        keep::Keep,
        sketch::Sketch,
        words,
    },
};

/// The page.
#[component]
pub fn Layout() -> impl IntoView {
    let state = LayoutState::provide();
    let at = Memo::new(move |_| state.form.read().at.is_some() && state.laid().is_some());
    move || if at.get() { view! { <AtHole /> }.into_any() } else { view! { <Board /> }.into_any() }
}

#[component]
fn Board() -> impl IntoView {
    let state = LayoutState::get();
    let app = state.app;
    let right = move || {
        view! {
            <UnitSwitch system=state.system on_change=move |system| app.set_system(system) />
        }
    };
    let to = Signal::derive(move || state.hole(next(state)));
    let bar = move || {
        let is_laid = Memo::new(move |_| state.laid().is_some());
        move || {
            is_laid.get().then(|| {
                view! {
                    <GoTo to=to class="button primary" {..} data-touch="c">
                        {move || format!("{} by {}", words::layout::one(state.form.read().shape),
                            words::layout::one(state.form.read().shape).to_lowercase())}
                    </GoTo>
                }
            })
        }
    };
    view! {
        <Page title="Hole layout" right=right bar=bar>
            <Split answer=|| {
                view! {
                    <Answer />
                    <Wants />
                    <picture::Picture />
                    <listing::Listing />
                    <Away />
                }
            }>
                <Inputs />
            </Split>
        </Page>
    }
}

/// The first hole along the way that is not done, counted from 1.
fn next(state: LayoutState) -> u32 {
    let done = state.done().get();
    let order = state.laid().map(|laid| laid.order.clone()).unwrap_or_default();
    let open = order.iter().position(|&hole| !done.contains(&(hole as u32)));
    open.unwrap_or_default() as u32 + 1
}

/// Whether it can be drilled like this, and where the first hole is.
#[component]
fn Answer() -> impl IntoView {
    let state = LayoutState::get();
    let mark = Memo::new(move |_| state.laid().map(|laid| mark(&laid, &state.form.read())));
    let first = move |of: fn(Place) -> crate::engine::quantity::Length| {
        Signal::derive(move || {
            let place = state.laid().and_then(|laid| laid.along(1));
            place.map_or_else(
                || rounding::Shown { digits: "–".to_owned(), unit: "" },
                |(_, place)| rounding::length(of(state.set_to(place)), state.system.get()),
            )
        })
    };
    let name = move |axis: &'static str| {
        Signal::derive(move || format!("{} 1, {axis}", words::layout::one(state.form.read().shape)))
    };
    let line = move || state.laid().map(|laid| line(state, &laid)).unwrap_or_default();
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
                None => view! { <p class="verdict">"No holes yet"</p> }.into_any(),
            }}
            <div class="cells">
                <SecondNumber label=name("X") shown=first(|place| place.x) />
                <SecondNumber label=name("Y") shown=first(|place| place.y) />
            </div>
            <p class="answer-line" data-testid="line">{line}</p>
        </section>
    }
}

/// The state of the whole, in a few words.
fn mark(laid: &Laid, form: &LayoutForm) -> (State, String) {
    let name = |holes: &[usize]| match holes {
        [one] => format!("Hole {}", one + 1),
        many => format!("{} holes", many.len()),
    };
    if !laid.outside.is_empty() {
        let lie = if laid.outside.len() == 1 { "lies" } else { "lie" };
        return (State::Over, format!("{} {lie} outside the part", name(&laid.outside)));
    }
    if !laid.meeting.is_empty() {
        return (State::Over, format!("{} meet each other", name(&laid.meeting)));
    }
    (State::Within, words::layout::count(form.shape, laid.places.len()))
}

/// Chord, travel and what rounding leaves.
fn line(state: LayoutState, laid: &Laid) -> String {
    let system = state.system.get();
    let show = |length| rounding::length(length, system).to_string();
    let mut parts = Vec::with_capacity(4);
    if let Some(chord) = laid.chord {
        parts.push(format!("From hole to hole {}.", show(chord)));
    }
    if let Some(flat) = laid.flat {
        parts.push(format!("Each flat stands {} off the round.", show(flat)));
    }
    if let Some(angle) = laid.askew {
        let degrees = rounding::fixed(angle.to_degree(), 3);
        parts.push(format!("Turned with the part by {degrees}°."));
    }
    if let Some(worst) = state.step.get().and_then(|step| laid.worst_error(step)) {
        parts.push(format!("The readout leaves a hole {} off at most.", show(worst)));
    }
    parts.join(" ")
}

/// What is still missing, and what cannot be.
#[component]
fn Wants() -> impl IntoView {
    let state = LayoutState::get();
    let text = Memo::new(move |_| {
        let faults = state.faults.read();
        let form = state.form.read();
        let mut names: Vec<&str> = Vec::with_capacity(faults.len());
        for fault in faults.iter() {
            let name = words::layout::field(&form, fault.field);
            if !names.contains(&name) {
                names.push(name);
            }
        }
        if names.is_empty() {
            String::new()
        } else {
            format!("It wants: {}.", names.join(", ").to_lowercase())
        }
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
                (!text.is_empty()).then(|| view! { <p class="wants" role="status">{text}</p> })
            }}
        </div>
    }
}

/// Keeping, copying and printing, and what is under way.
#[component]
fn Away() -> impl IntoView {
    let state = LayoutState::get();
    let app = state.app;
    let is_laid = Memo::new(move |_| state.laid().is_some());
    let said = RwSignal::new(String::new());
    let copy = move |text: String, what: &'static str| {
        spawn_local(async move {
            let done = clipboard::put(&text).await;
            let _ = said.try_set(done.map_or_else(|why| why, |()| format!("Copied: {what}.")));
        });
    };
    let list = move |()| {
        if let Some(laid) = state.laid() {
            copy(listing::as_text(state, &laid), "the list");
        }
    };
    let link = move |()| copy(page::address(), "the link");
    let name = Signal::derive(move || {
        let shape = state.form.read().shape;
        let count = state.laid().map_or(0, |laid| laid.places.len());
        let named = words::layout::shape(shape).0;
        format!("{named}, {}", words::layout::count(shape, count))
    });
    let to = Signal::derive(move || state.list());
    let can = Signal::derive(move || state.laid().is_some());
    let under_way = app.part(|document| document.layouts.under_way.clone());
    let forget = move |()| {
        let pattern = state.form.read_untracked().pattern();
        app.change(|document| document.layouts.forget(&pattern));
    };
    let any_done = Memo::new(move |_| !state.done().read().is_empty());
    view! {
        <div class="stack reasons no-print">
            {move || {
                is_laid
                    .get()
                    .then(|| {
                        view! {
                            <div class="row">
                                <Button rank=Rank::Secondary on_press=list>
                                    "Copy the list"
                                </Button>
                                <Button rank=Rank::Secondary on_press=link>
                                    "Copy the link"
                                </Button>
                                <Button rank=Rank::Secondary on_press=|()| page::print()>
                                    "Print"
                                </Button>
                            </div>
                        }
                    })
            }}
            <p role="status">{move || said.get()}</p>
            <Keep name to can words="Save this pattern" />
            {move || {
                let under_way = under_way.get();
                (!under_way.is_empty())
                    .then(|| {
                        let tiles = under_way
                            .into_iter()
                            .map(|one| {
                                let (form, _) = LayoutForm::from_query(&one.link);
                                let name = words::layout::shape(form.shape).0;
                                let done = format!("{} done", one.done.len());
                                tile_of(name, &one.link, &done)
                            });
                        view! {
                            <h2>"Under way"</h2>
                            {tiles.collect_view()}
                        }
                    })
            }}
            {move || {
                any_done
                    .get()
                    .then(|| {
                        view! {
                            <AskTwice
                                ask="Begin this pattern again"
                                sentence="Every hole of it counts as not done."
                                act="Begin again"
                                on_act=forget
                            />
                        }
                    })
            }}
        </div>
    }
}

fn tile_of(name: &str, link: &str, detail: &str) -> impl IntoView + use<> {
    view! {
        <Tile
            to=format!("layout?{link}")
            name=name.to_owned()
            detail=detail.to_owned()
            sketch=Sketch::Layout
            across=true
        />
    }
}
