//! Choosing what is on the mill: machine, stock, cutter, holding.

use leptos::prelude::*;

use super::{
    cutter::{CutterFields, Desk, HoldingFields, Place},
    machine::{detail_of, name_of},
};
use crate::{
    engine::{
        question::Field,
        stock::{MATERIALS, Material},
    },
    shop::{cuts::CutterForm, document::OwnCutter},
    ui::{
        components::{
            button::{Button, Rank},
            choice::{Choice, Choices},
            fold::Fold,
            go_to::{GoTo, HOME},
            page::Page,
            picker::Picker,
            toggle::UnitSwitch,
        },
        state::App,
        words,
    },
};

/// One of the four things on the mill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The machine.
    Machine,
    /// The stock.
    Stock,
    /// The cutter.
    Cutter,
    /// How the cutter is held.
    Holding,
}

impl Part {
    /// As the address says it: `?change=stock`.
    #[must_use]
    pub fn from_query(word: &str) -> Option<Self> {
        match word {
            "mill" => Some(Self::Machine),
            "stock" => Some(Self::Stock),
            "cutter" => Some(Self::Cutter),
            "holding" => Some(Self::Holding),
            _ => None,
        }
    }
}

/// The screen on which one part is chosen. It leads back to where it was opened from.
#[component]
pub fn Choosing(
    /// What is chosen.
    part: Part,
    /// True when the cut page asked.
    for_cut: bool,
) -> impl IntoView {
    let app = App::get();
    let system = app.system();
    let (back_to, then) = if for_cut { ("cut", "cut") } else { (HOME, "") };
    let title = match part {
        Part::Machine => "Which mill?",
        Part::Stock => "Which stock?",
        Part::Cutter => "Which cutter?",
        Part::Holding => "How is it held?",
    };
    // A tap on a choice is the whole deed; with the arrow keys a person is still looking.
    let by_finger = StoredValue::new(false);
    let go = app.way();
    let done = Callback::new(move |()| go(then));
    let chosen = Callback::new(move |()| {
        if by_finger.get_value() {
            done.run(());
        }
    });
    view! {
        <Page
            title
            back_to
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
            bar=move || view! { <Button on_press=done>"Done"</Button> }
        >
            <div
                class="stack"
                on:pointerdown=move |_| by_finger.set_value(true)
                on:keydown=move |_| by_finger.set_value(false)
            >
                {match part {
                    Part::Machine => view! { <ChooseMachine app chosen /> }.into_any(),
                    Part::Stock => view! { <ChooseStock app chosen /> }.into_any(),
                    Part::Cutter => view! { <ChooseCutter app chosen /> }.into_any(),
                    Part::Holding => {
                        view! { <HoldingFields desk=Desk::new(app, Place::Spindle) /> }.into_any()
                    }
                }}
            </div>
        </Page>
    }
}

#[component]
fn ChooseMachine(app: App, chosen: Callback<()>) -> impl IntoView {
    let of = app.part(|document| {
        document
            .machines
            .iter()
            .map(|own| Choice::new(own.id.clone(), name_of(&own.form)).detail(detail_of(&own.form)))
            .collect::<Vec<_>>()
    });
    view! {
        <Choices
            name=words::field(Field::Machine)
            of
            chosen=app.part(|document| document.machine().map(|own| own.id.clone()))
            on_choose=move |id: String| {
                app.change(|document| document.mill.machine = id);
                chosen.run(());
            }
            rows=true
        />
        <GoTo to="shop" class="button secondary" {..} data-touch="c">
            "Add or change a mill"
        </GoTo>
    }
}

#[component]
fn ChooseStock(app: App, chosen: Callback<()>) -> impl IntoView {
    view! {
        <Picker
            name=words::field(Field::Stock)
            of=stocks()
            chosen=app.part(|document| document.mill.material().map(|material| material.id))
            on_choose=move |id: &'static str| {
                app.change(|document| document.mill.stock = id.to_owned());
                chosen.run(());
            }
            example="6061, brass, acetal"
        />
    }
}

/// Every stock as something to choose.
pub(super) fn stocks() -> Vec<Choice<&'static str>> {
    let choice = |material: &Material| {
        Choice::new(material.id, material.name).detail(words::iso_group(material.iso_group))
    };
    MATERIALS.iter().map(choice).collect()
}

#[component]
fn ChooseCutter(app: App, chosen: Callback<()>) -> impl IntoView {
    let of = app.part(|document| document.cutters.iter().map(choice_of).collect::<Vec<_>>());
    let in_drawer = app.part(|document| document.cutter_on_the_mill().map(|own| own.id.clone()));
    let keep = move |()| {
        app.change(|document| {
            let (cutter, holding) = (document.mill.cutter.clone(), document.mill.holding.clone());
            document.add_cutter(cutter, holding);
        });
    };
    let has_size = app.part(|document| !document.mill.cutter.diameter.is_empty());
    let another = move |()| {
        app.change(|document| document.mill.cutter = CutterForm::default());
    };
    view! {
        <Show when=move || !of.read().is_empty()>
            <Choices
                name="In the drawer"
                of
                chosen=in_drawer
                on_choose=move |id: String| {
                    app.change(|document| document.choose_cutter(&id));
                    chosen.run(());
                }
                rows=true
            />
        </Show>
        <Fold title="Describe the cutter" open=of.read_untracked().is_empty()>
            <Show when=move || in_drawer.read().is_some()>
                <Button rank=Rank::Secondary on_press=another>"Another one, from new"</Button>
            </Show>
            <CutterFields desk=Desk::new(app, Place::Spindle) />
            <Show when=move || in_drawer.read().is_none() && has_size.get()>
                <Button rank=Rank::Secondary on_press=keep>"Keep it in the drawer"</Button>
            </Show>
        </Fold>
    }
}

/// A cutter of the drawer as something to choose.
pub(super) fn choice_of(own: &OwnCutter) -> Choice<String> {
    let cutter = &own.cutter;
    let material = words::tool_material(cutter.material).to_lowercase();
    let detail = match cutter.teeth.text.trim() {
        "" => material,
        teeth => format!("{teeth} flutes, {material}"),
    };
    Choice::new(own.id.clone(), cutter.title()).detail(detail).sketch(cutter.kind.into())
}
