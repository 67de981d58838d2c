//! The converter: one line, and underneath at once everything it means.

mod answer;
mod picture;
mod state;
mod tools;

use leptos::{prelude::*, task::spawn_local};

use crate::{
    browser::clipboard,
    engine::question::Field,
    shop::{
        converter::{ConvertForm, Quantity},
        word::Word,
    },
    ui::{
        components::{
            Button, Choice, Choices, Fold, GoTo, Notice, NumberField, Page, Rank, Split,
            UnitSwitch, press::Press,
        },
        keep::Keep,
        state::App,
        words,
    },
};
use answer::Answer;
use state::{ConvertState, address, with_unit};
use tools::Tools;

/// Lines of more signs are written smaller.
const LONG: usize = 11;

/// The page of the converter.
#[component]
pub fn Convert() -> impl IntoView {
    let app = App::get();
    let state = ConvertState::provide();
    let system = app.system();
    view! {
        <Page
            title="Convert"
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
            bar=move || view! { <Actions state /> }
        >
            <Split
                names=("The line and what it means", "More")
                answer=move || {
                    view! {
                        <Line state />
                        <Answer state />
                        <Send state />
                    }
                }
            >
                <Tools state />
                <Quantities state />
                <Earlier app state />
                <Keep
                    name=Signal::derive(move || with_unit(&state.form.read()))
                    to=Signal::derive(move || address(&state.form.read()))
                    can=Signal::derive(move || {
                        !state.form.read().line.is_empty() && state.line.read().is_ok()
                    })
                    words="Save this line"
                />
            </Split>
        </Page>
    }
}

/// The line that is typed.
#[component]
fn Line(state: ConvertState) -> impl IntoView {
    let form = state.form;
    let quantity = Memo::new(move |_| form.read().quantity);
    let is_long = Memo::new(move |_| form.read().line.text.chars().count() > LONG);
    move || {
        let quantity = quantity.get();
        let example = if quantity == Quantity::Length { "1 3/8+.030" } else { "" };
        let label = words::quantity(quantity).to_owned();
        view! {
            <div
                class="converter-line"
                class:long=is_long
            >
                <NumberField
                    field=Field::Line
                    label=Signal::stored(label)
                    line=quantity.measure()
                    value=Signal::derive(move || form.read().line.clone())
                    on_change=move |line| state.change(move |form| form.line = line)
                    placeholder=Signal::stored(example.to_owned())
                    at_once=form.read_untracked().line.is_empty()
                    on_done=Some(Callback::new(move |()| state.note()))
                />
            </div>
        }
    }
}

/// What can be done with the line.
#[component]
fn Actions(state: ConvertState) -> impl IntoView {
    let readable = Memo::new(move |_| state.line.read().is_ok());
    let copy = move || {
        state.note();
        let Some(text) = state.copied() else { return };
        spawn_local(async move {
            let done = clipboard::put(&text).await;
            let said = done.map_or_else(|why| why, |()| format!("Copied: {text}"));
            state.said.try_set(Some(said));
        });
    };
    let swaps = Memo::new(move |_| state.swapped.read().is_some());
    view! {
        <Show when=move || swaps.get()>
            <Button rank=Rank::Primary on_press=move |()| state.swap()>
                "Swap"
            </Button>
        </Show>
        <Show when=move || readable.get()>
            <Button rank=Rank::Secondary on_press=move |()| copy()>
                "Copy"
            </Button>
        </Show>
    }
}

/// Other pages that take the length.
#[component]
fn Send(state: ConvertState) -> impl IntoView {
    let link = |to: Option<String>, word: &'static str| {
        to.map(|to| {
            view! {
                <GoTo to class="button secondary" {..} data-touch="c">
                    {word}
                </GoTo>
            }
        })
    };
    view! {
        <Notice message=state.said>
            <Button rank=Rank::Quiet on_press=move |()| state.said.set(None)>
                "Good"
            </Button>
        </Notice>
        <div class="row">
            {move || link(state.cut_with(Field::Diameter), "Use as diameter")}
            {move || link(state.cut_with(Field::Depth), "Use as depth")}
            {move || link(state.screw_over(), "Use as screw")}
        </div>
    }
}

/// Other quantities, a tile each.
#[component]
fn Quantities(state: ConvertState) -> impl IntoView {
    let of = Quantity::ALL.iter().map(|&one| Choice::new(one, words::quantity(one)));
    let of = Signal::stored(of.collect::<Vec<_>>());
    let chosen = Signal::derive(move || Some(state.form.read().quantity));
    view! {
        <Fold title="Other quantities">
            <Choices name="Quantity" of chosen on_choose=move |quantity| state.take_up(quantity) />
        </Fold>
    }
}

/// The lines typed before; a tap brings one back.
#[component]
fn Earlier(app: App, state: ConvertState) -> impl IntoView {
    let lines = app.part(|document| document.converter.lines.clone());
    let any = Memo::new(move |_| !lines.read().is_empty());
    move || {
        any.get().then(|| {
            view! {
                <Fold title="Earlier lines">
                    <div class="earlier">
                        {move || {
                            lines
                                .get()
                                .into_iter()
                                .map(|line| view! { <EarlierLine state line /> })
                                .collect_view()
                        }}
                    </div>
                </Fold>
            }
        })
    }
}

#[component]
fn EarlierLine(state: ConvertState, line: ConvertForm) -> impl IntoView {
    let press = Press::commit();
    let text = state::with_unit(&line);
    let means = state::other_way(&line).map(|other| format!("= {other}"));
    view! {
        <button
            type="button"
            class="earlier-line"
            data-touch="b"
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    state.go_back_to(&line);
                }
            }
        >
            <b>{text}</b>
            <span class="muted">{means}</span>
        </button>
    }
}
