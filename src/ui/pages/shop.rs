//! The shop: the owner's mills and the drawer of cutters, and the ways to each of them.

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use super::{
    choosing::choice_of,
    cutter::CutterEditor,
    drills::{Drills, in_words},
    machine::{MachineEditor, detail_of, name_of},
    notes::Notes,
    settings::Settings,
    taps::Taps,
    wires::Wires,
};
use crate::{
    engine::drills,
    shop::{
        cuts::{CutterForm, Holding},
        document::{OwnCutter, OwnMachine},
        machines::MachineForm,
        word::Word,
    },
    ui::{
        components::{
            button::{Button, Rank},
            go_to::Tile,
            page::Page,
        },
        sketch::Sketch,
        state::App,
    },
};

/// What the address asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Room {
    Lists,
    Machine(String),
    Cutter(String),
    Drills(Option<drills::Set>),
    Wires,
    Taps,
    Notes,
    Settings,
}

/// The shop page, and the editors that its lists lead to.
#[component]
pub fn Shop() -> impl IntoView {
    let app = App::get();
    let query = use_query_map();
    let room = Memo::new(move |_| {
        let query = query.read();
        let (machine, cutter) = (query.get("machine"), query.get("cutter"));
        match (machine, cutter) {
            (Some(id), _) => Room::Machine(id),
            (_, Some(id)) => Room::Cutter(id),
            _ if query.get_str("settings").is_some() => Room::Settings,
            _ if query.get_str("drills").is_some() => {
                Room::Drills(query.get_str("drills").and_then(drills::Set::from_word))
            }
            _ if query.get_str("wires").is_some() => Room::Wires,
            _ if query.get_str("taps").is_some() => Room::Taps,
            _ if query.get_str("notes").is_some() => Room::Notes,
            _ => Room::Lists,
        }
    });
    // An id that is gone, as in an old bookmark, leads to the lists.
    let there = app.part(move |document| match room.get() {
        Room::Machine(id) => document.machine_called(&id).is_some(),
        Room::Cutter(id) => document.cutters.iter().any(|own| own.id == id),
        Room::Drills(_) | Room::Wires | Room::Taps | Room::Notes | Room::Settings | Room::Lists => {
            true
        }
    });
    move || match room.get() {
        Room::Machine(id) if there.get() => view! { <MachineEditor id /> }.into_any(),
        Room::Cutter(id) if there.get() => view! { <CutterEditor id /> }.into_any(),
        Room::Drills(set) => view! { <Drills set /> }.into_any(),
        Room::Wires => view! { <Wires /> }.into_any(),
        Room::Taps => view! { <Taps /> }.into_any(),
        Room::Notes => view! { <Notes /> }.into_any(),
        Room::Settings => view! { <Settings app /> }.into_any(),
        _ => view! { <Lists app /> }.into_any(),
    }
}

#[component]
fn Lists(app: App) -> impl IntoView {
    let notes = app.part(|document| match document.log.notes().len() {
        0 => "too hot, chatter, fine, could push".to_owned(),
        1 => "one note".to_owned(),
        many => format!("{many} notes"),
    });
    view! {
        <Page title="Shop">
            <Mills app />
            <Drawer app />
            <DrillDrawer app />
            <nav class="stack" aria-label="Settings">
                <h2>"The app"</h2>
                <Tile
                    to="jobs"
                    name="Job cards"
                    detail="a part with its steps"
                    sketch=Sketch::Check
                    across=true
                />
                <Tile
                    to="shop?notes"
                    name="Notes after cuts"
                    detail=notes
                    sketch=Sketch::Check
                    across=true
                />
                <Tile
                    to="shop?settings"
                    name="Settings and backup"
                    detail="units, colours, gloves, files"
                    sketch=Sketch::Settings
                    across=true
                />
            </nav>
        </Page>
    }
}

#[component]
fn Mills(app: App) -> impl IntoView {
    let mills = app.part(|document| {
        let row = |own: &OwnMachine| {
            (own.id.clone(), name_of(&own.form).to_owned(), detail_of(&own.form))
        };
        document.machines.iter().map(row).collect::<Vec<_>>()
    });
    let go = app.way();
    let add = move |()| {
        let mut id = String::new();
        app.change(|document| id = document.add_machine(MachineForm::default()));
        go(&format!("shop?machine={id}"));
    };
    view! {
        <section class="stack">
            <h2>"Your mills"</h2>
            {move || {
                mills
                    .get()
                    .into_iter()
                    .map(|(id, name, detail)| {
                        view! {
                            <Tile
                                to=format!("shop?machine={id}")
                                name
                                detail
                                sketch=Sketch::Mill
                                across=true
                            />
                        }
                    })
                    .collect_view()
            }}
            <Button rank=Rank::Secondary on_press=add>
                "Add a mill"
            </Button>
        </section>
    }
}

#[component]
fn Drawer(app: App) -> impl IntoView {
    let cutters = app.part(|document| {
        let row = |own: &OwnCutter| (choice_of(own), own.cutter.kind);
        document.cutters.iter().map(row).collect::<Vec<_>>()
    });
    let go = app.way();
    let add = move |()| {
        let mut id = String::new();
        app.change(|document| {
            id = document.add_cutter(CutterForm::default(), Holding::default());
        });
        go(&format!("shop?cutter={id}"));
    };
    view! {
        <section class="stack">
            <h2>"The drawer of cutters"</h2>
            {move || {
                cutters
                    .get()
                    .into_iter()
                    .map(|(choice, kind)| {
                        view! {
                            <Tile
                                to=format!("shop?cutter={}", choice.value)
                                name=choice.name
                                detail=choice.detail
                                sketch=Sketch::from(kind)
                                across=true
                            />
                        }
                    })
                    .collect_view()
            }}
            <Button rank=Rank::Secondary on_press=add>
                "Add a cutter"
            </Button>
        </section>
    }
}

#[component]
fn DrillDrawer(app: App) -> impl IntoView {
    let detail = app.part(|document| in_words(document.drills.index().len()));
    let taps = app.part(|document| match document.taps.threads().len() {
        0 => "which ones do you own?".to_owned(),
        1 => "one tap".to_owned(),
        many => format!("{many} taps"),
    });
    let wires = app.part(|document| match document.threads.wires().len() {
        0 => "to measure screws over".to_owned(),
        1 => "of one diameter".to_owned(),
        many => format!("of {many} diameters"),
    });
    view! {
        <section class="stack">
            <h2>"Drills, taps, wires"</h2>
            <Tile to="shop?drills" name="Drills" detail sketch=Sketch::Drill across=true />
            <Tile to="shop?taps" name="Taps" detail=taps sketch=Sketch::Tap across=true />
            <Tile
                to="shop?wires"
                name="Thread wires"
                detail=wires
                sketch=Sketch::Thread
                across=true
            />
        </section>
    }
}
