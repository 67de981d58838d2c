//! What the pages of holes hold: the form, the thread it names, and what is owned.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    engine::{
        drills::Index,
        quantity::System,
        question::{Field, InputError},
        stock::Material,
        threads::{
            self, Thread,
            search::{How, Match},
            tap,
        },
    },
    shop::{
        holes::{FinishKind, HoleForm, making},
        typed::Typed,
    },
    ui::{addressed::Addressed, components::Tile, sketch::Sketch, state::App},
};

/// Which of the rooms is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// A list to find a thread in.
    Finder,
    /// A thread and its drill.
    Card,
    /// A thread that nobody knows.
    Measure,
    /// The recipe for a hole.
    Recipe,
    /// The list again, to find the thread of a recipe in.
    ThreadOfRecipe,
    /// The screen as a gauge.
    Gauge,
}

impl Room {
    /// The room that an address asks for.
    #[must_use]
    pub fn of(search: &str) -> Self {
        let keys = search.trim_start_matches('?').split('&');
        let mut room = Self::Finder;
        for key in keys.map(|pair| pair.split_once('=').map_or(pair, |(key, _)| key)) {
            match key {
                "gauge" => return Self::Gauge,
                "measure" => return Self::Measure,
                "recipe" => return Self::Recipe,
                "find" => return Self::ThreadOfRecipe,
                "thread" => room = Self::Card,
                _ => {}
            }
        }
        room
    }
}

/// The address of a thread's card.
#[must_use]
pub fn card(form: &HoleForm) -> String {
    format!("threads?{}", form.to_query())
}

/// The address of the recipe for a hole.
#[must_use]
pub fn recipe(form: &HoleForm) -> String {
    let query = form.to_query();
    if query.is_empty() { "threads?recipe".to_owned() } else { format!("threads?recipe&{query}") }
}

/// The address of the list in which the thread of a recipe is found.
#[must_use]
pub fn thread_of(form: &HoleForm) -> String {
    format!("threads?find&{}", form.to_query())
}

/// Where a thread that is found leads.
#[derive(Clone, Debug, PartialEq)]
pub enum Lead {
    /// To its card.
    Card,
    /// To the recipe that it was looked for.
    Recipe(Box<HoleForm>),
}

impl Lead {
    /// The address of a thread.
    #[must_use]
    pub fn to(&self, designation: &str) -> String {
        match self {
            Self::Card => card_of(designation),
            Self::Recipe(form) => recipe(&HoleForm {
                finish: FinishKind::Tapped,
                thread: designation.to_owned(),
                ..(**form).clone()
            }),
        }
    }
}

/// The address of a thread's card, everything else as usual.
#[must_use]
pub fn card_of(designation: &str) -> String {
    card(&HoleForm { thread: designation.to_owned(), ..HoleForm::default() })
}

/// What a search found, in a sentence.
#[must_use]
pub fn say_found(found: &[Match]) -> String {
    match found {
        [] => "No thread is called that. Try 10-32, M6, 1/8 npt or 2 BA.".to_owned(),
        [first, ..] if first.how == How::Near => {
            "No thread is called that. The nearest are:".to_owned()
        }
        [_] => "One thread found.".to_owned(),
        many => format!("{} threads found.", many.len()),
    }
}

/// The doors to what a search found.
pub fn doors(found: &[Match], most: usize, lead: &Lead) -> impl IntoView + use<> {
    let door = |found: &Match| {
        view! {
            <Tile
                to=lead.to(&found.thread.designation())
                name=found.thread.designation()
                detail=found.thread.series().words()
                sketch=Sketch::Thread
                across=true
            />
        }
    };
    found.iter().take(most).map(door).collect_view()
}

/// The state of a card or a recipe, provided as a context.
#[derive(Clone, Copy)]
pub struct HoleState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<HoleForm>,
    /// What the address said that this version does not know.
    pub link_faults: RwSignal<Vec<InputError>>,
    /// The thread, if there is one of that name.
    pub thread: Memo<Option<Thread>>,
    /// The drills owned; every drill that is made where nobody has said.
    pub drills: Memo<Index>,
    /// True where nobody has said which drills are owned.
    pub any_drill: Signal<bool>,
    addressed: Addressed<HoleForm>,
}

impl HoleState {
    /// Reads the address, and keeps it as `address` says.
    pub fn provide(address: fn(&HoleForm) -> String) -> Self {
        let app = App::get();
        let search = use_location().search;
        let (start, faults) = HoleForm::from_query(&search.get_untracked());
        let addressed = Addressed::new(start);
        let form = addressed.form;
        let link_faults = RwSignal::new(faults);
        let thread = Memo::new(move |_| threads::named(&form.read().thread).ok());
        let any_drill = app.part(|document| document.drills.is_empty());
        let drills = Memo::new(move |_| app.document.read().owned_drills());
        let state = Self { app, form, link_faults, thread, drills, any_drill, addressed };
        let read = move |query: &str| {
            let (said, faults) = HoleForm::from_query(query);
            link_faults.set(faults);
            said
        };
        addressed.keep(app, read, address, move || state.remember());
        provide_context(state);
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// The units at hand.
    pub fn system(self) -> Signal<System> {
        self.app.system()
    }

    /// Changes what stands at a field.
    pub fn change(self, field: Field, change: impl FnOnce(&mut HoleForm)) {
        self.addressed.change(field, change);
    }

    /// What is typed at a field.
    pub fn typed(self, field: Field) -> Signal<Typed> {
        let system = self.system();
        Signal::derive(move || {
            let form = self.form.read();
            form.typed(field).cloned().unwrap_or_default().begun_in(system.get())
        })
    }

    /// Takes what is typed at a field.
    pub fn type_in(self, field: Field) -> Callback<Typed> {
        Callback::new(move |typed: Typed| {
            self.change(field, |form| {
                if let Some(place) = form.typed_mut(field) {
                    *place = typed;
                }
            });
        })
    }

    /// The stock: the one the link says, else the one on the mill.
    pub fn stock(self) -> Option<&'static Material> {
        making::stock_of(&self.form.read(), &self.app.document.read())
    }

    /// The percentage of thread: the person's own, else the one that is asked for.
    pub fn percent(self) -> Option<(u32, Option<tap::Advice>)> {
        let thread = self.thread.get()?;
        Some(self.form.read().percent(thread, self.stock()))
    }

    /// A thread whose card is open is one of those looked at last.
    fn remember(self) {
        let Some(Some(thread)) = self.thread.try_get_untracked() else { return };
        let name = thread.designation();
        let is_new = self.app.document.read_untracked().threads.recent.first() != Some(&name);
        if is_new {
            self.app.change(|document| document.threads.look_at(&name));
        }
    }
}
