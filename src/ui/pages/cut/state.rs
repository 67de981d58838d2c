//! What the page holds: the form, the address it is kept in, and the answer that follows.

use std::sync::Arc;

use leptos::prelude::*;
use leptos_router::{
    NavigateOptions,
    hooks::{use_location, use_navigate},
};

use crate::{
    engine::{
        answer::{Answer, Window},
        cutters::Cutter,
        limits::{Offers, answer_with, window},
        machine::Machine,
        quantity::System,
        question::{Field, InputError},
    },
    shop::{
        cuts::{CutForm, Mill},
        document::Document,
        reading::Taken,
        typed::Typed,
    },
    ui::{
        addressed::Addressed,
        components::HOME,
        state::{App, after_the_frame},
    },
};

/// One question of the wizard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// What is to be done.
    Operation,
    /// In what.
    Stock,
    /// With what.
    Cutter,
    /// How wide, how deep.
    Measures,
    /// How it is held, what is put on it.
    Holding,
}

impl Ask {
    /// All of them, in the order they are asked.
    pub const ALL: [Self; 5] =
        [Self::Operation, Self::Stock, Self::Cutter, Self::Measures, Self::Holding];

    fn word(self) -> &'static str {
        match self {
            Self::Operation => "operation",
            Self::Stock => "stock",
            Self::Cutter => "cutter",
            Self::Measures => "measures",
            Self::Holding => "holding",
        }
    }
    fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|ask| ask.word() == word)
    }
    /// Its place, counted from one.
    pub fn place(self) -> usize {
        self as usize + 1
    }
}

/// Which question follows an open one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// None: it was opened from an answer.
    Alone,
    /// The next one, for a person to whom all of it is new.
    InTurn,
    /// What to do, in what, with what: the rest stands beside the answer, one tap away.
    Brief,
}

/// Which question is open, and which follows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Open {
    /// The question.
    pub ask: Ask,
    /// What follows it.
    pub pace: Pace,
}

impl Open {
    fn of(search: &str) -> Option<Self> {
        search.trim_start_matches('?').split('&').find_map(|pair| {
            let (key, word) = pair.split_once('=')?;
            let pace = match key {
                "ask" => Pace::Alone,
                "next" => Pace::InTurn,
                "new" => Pace::Brief,
                _ => return None,
            };
            Ask::from_word(word).map(|ask| Self { ask, pace })
        })
    }
    /// The address of a question about a form.
    pub fn address(self, form: &CutForm) -> String {
        let key = match self.pace {
            Pace::Alone => "ask",
            Pace::InTurn => "next",
            Pace::Brief => "new",
        };
        format!("cut?{key}={}&{}", self.ask.word(), form.to_query())
    }
    /// How many questions are asked at this pace.
    pub fn count(self) -> usize {
        match self.pace {
            Pace::Alone => 1,
            Pace::InTurn => Ask::ALL.len(),
            Pace::Brief => Ask::Cutter.place(),
        }
    }
    /// True when the answer follows.
    pub fn is_last(self) -> bool {
        self.pace == Pace::Alone || self.ask.place() >= self.count()
    }
    /// Where an answer to this question leads: to the next one, or to the answer.
    pub fn onward(self, form: &CutForm) -> String {
        match Ask::ALL.get(self.ask.place()) {
            Some(&ask) if !self.is_last() => Self { ask, ..self }.address(form),
            _ => address(form),
        }
    }
    /// Where the way back leads: to the question before, to the answer it was opened from, or home.
    pub fn back(self, form: &CutForm) -> String {
        match self.ask.place().checked_sub(2).map(|before| Ask::ALL[before]) {
            _ if self.pace == Pace::Alone => address(form),
            Some(ask) => Self { ask, ..self }.address(form),
            None => HOME.to_owned(),
        }
    }
}

/// The address of a form and its answer.
pub fn address(form: &CutForm) -> String {
    format!("cut?{}", form.to_query())
}

/// An answer with what the screen needs beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// The answer.
    pub answer: Answer,
    /// The operating window.
    pub window: Option<Window>,
    /// The usual figures that were taken.
    pub taken: Vec<Taken>,
    /// The machine it is for.
    pub machine: Machine,
    /// The cutter, every figure filled in.
    pub cutter: Cutter,
    /// Names of the cutters and machines that a mend may point at.
    pub offered: (Vec<String>, Vec<String>),
}

/// What a form comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// There is no machine to answer for.
    NoMachine,
    /// Entries that cannot be worked with, each at its field.
    Faults(Vec<InputError>),
    /// An answer.
    Done(Arc<Done>),
}

/// The page's state, provided as a context.
#[derive(Clone, Copy)]
pub struct CutState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<CutForm>,
    /// What the address said that this version does not know.
    pub link_faults: RwSignal<Vec<InputError>>,
    /// What the form comes to.
    pub outcome: Memo<Outcome>,
    /// The same, once the frame with the new numbers is on the screen: for what is read after them.
    pub shown: RwSignal<Outcome>,
    /// The form of that frame.
    pub settled: RwSignal<CutForm>,
    /// What stands against the entries; empty while there is an answer.
    pub faults: Memo<Vec<InputError>>,
    /// The question that is open; the answer is shown when none is.
    pub open: Memo<Option<Open>>,
    addressed: Addressed<CutForm>,
}

impl CutState {
    /// Reads the address, or goes on from the last cut.
    pub fn provide() -> Self {
        let app = App::get();
        let location = use_location();
        let search = location.search;
        let navigate = use_navigate();
        let first = search.get_untracked();
        let (start, faults) = read(&first, &app.document.read_untracked());
        let addressed = Addressed::new(start);
        let form = addressed.form;
        let link_faults = RwSignal::new(faults);
        let open = Memo::new(move |_| Open::of(&search.read()));
        // Much of an answer's time would go into reading the machine again.
        let machine_id = Memo::new(move |_| form.read().mill.machine.clone());
        let machine = Memo::new(move |_| {
            let document = app.document.read();
            document.machine_called(&machine_id.read()).map(|own| own.form.read())
        });
        let outcome = Memo::new(move |_| match &*machine.read() {
            None => Outcome::NoMachine,
            Some(Err(faults)) => Outcome::Faults(faults.clone()),
            Some(Ok(machine)) => match done(&form.read(), machine, &app.document.read()) {
                Ok(done) => Outcome::Done(Arc::new(done)),
                Err(faults) => Outcome::Faults(faults),
            },
        });
        let shown = RwSignal::new(outcome.get_untracked());
        let settled = RwSignal::new(form.get_untracked());
        let faults = Memo::new(move |_| match &*outcome.read() {
            Outcome::Faults(faults) => faults.clone(),
            _ => Vec::new(),
        });
        Effect::new(move |before: Option<()>| {
            form.track();
            outcome.track();
            if before.is_some() {
                after_the_frame(move || {
                    // The page may be gone by then.
                    let Some(now) = form.try_get_untracked() else { return };
                    settled.set(now);
                    shown.set(outcome.get_untracked());
                });
            }
        });
        let state =
            Self { app, form, link_faults, outcome, shown, settled, faults, open, addressed };
        let said = move |query: &str| {
            let (said, faults) = read(query, &app.document.read_untracked());
            link_faults.set(faults);
            said
        };
        let to = move |form: &CutForm| match open.get_untracked() {
            Some(open) => open.address(form),
            None => address(form),
        };
        addressed.keep(app, said, to, move || state.remember());
        provide_context(state);
        // Without an address the questions begin: all of them for a new person.
        if first.trim_start_matches('?').is_empty() {
            let is_new = app.document.read_untracked().last_cut.is_none();
            let pace = if is_new { Pace::InTurn } else { Pace::Brief };
            let to =
                format!("/{}", Open { ask: Ask::Operation, pace }.address(&form.read_untracked()));
            request_animation_frame(move || {
                navigate(&to, NavigateOptions { replace: true, ..NavigateOptions::default() });
            });
        }
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// Units of the answers.
    pub fn system(self) -> Signal<System> {
        self.app.system()
    }

    /// Changes what stands at a field.
    pub fn change(self, field: Field, change: impl FnOnce(&mut CutForm)) {
        self.addressed.change(field, change);
    }

    /// Writes the address and remembers the cut, now.
    pub fn flush(self) {
        self.addressed.flush();
    }

    /// A cut whose answer is shown is the last one; of an unfinished one stays what it puts on the
    /// mill.
    fn remember(self) {
        let Some(form) = self.form.try_get_untracked() else { return };
        let is_shown = self.open.get_untracked().is_none()
            && matches!(*self.outcome.read_untracked(), Outcome::Done(_));
        let document = self.app.document.read_untracked();
        let is_new = if is_shown {
            document.last_cut.as_ref() != Some(&form) || document.mill != form.mill
        } else {
            document.mill != form.mill
        };
        drop(document);
        if is_new {
            self.app.change(|document| {
                if is_shown {
                    document.remember(&form);
                } else {
                    document.mill.clone_from(&form.mill);
                }
            });
        }
    }

    /// What is typed at a field.
    pub fn typed(self, field: Field) -> Signal<Typed> {
        Signal::derive(move || self.form.read().typed(field).cloned().unwrap_or_default())
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
}

/// The form that an address says; without one, the cut that a person would ask next.
fn read(search: &str, document: &Document) -> (CutForm, Vec<InputError>) {
    let query = search.trim_start_matches('?');
    if query.is_empty() {
        return (document.next_cut(), Vec::new());
    }
    let (mut form, faults) = CutForm::from_query(query);
    if document.machine_called(&form.mill.machine).is_none() {
        form.mill.machine.clone_from(&document.mill.machine);
    }
    (form, faults)
}

fn done(form: &CutForm, machine: &Machine, document: &Document) -> Result<Done, Vec<InputError>> {
    let question = document.ask(form, machine)?;
    let mut answer = answer_with(&question.mill, &question.cut, &Offers::default())?;
    let mut offered = (Vec::new(), Vec::new());
    if answer.trouble.is_some() {
        let (names, cutters) = other_cutters(form, machine, document);
        let (mills, machines) = other_machines(form, document);
        let offers = Offers { cutters: &cutters, machines: &machines };
        answer = answer_with(&question.mill, &question.cut, &offers)?;
        offered = (names, mills);
    }
    let window = window(&question.mill, &question.cut, &answer);
    Ok(Done {
        window,
        answer,
        cutter: question.mill.cutter,
        taken: question.taken,
        machine: machine.clone(),
        offered,
    })
}

fn other_cutters(
    form: &CutForm,
    machine: &Machine,
    document: &Document,
) -> (Vec<String>, Vec<Cutter>) {
    let fits = form.operation.cutters();
    document
        .cutters
        .iter()
        .filter(|own| fits.contains(&own.cutter.kind))
        .filter_map(|own| {
            let mill = Mill {
                cutter: own.cutter.clone(),
                holding: own.holding.clone(),
                ..form.mill.clone()
            };
            Some((own.cutter.title(), mill.read(machine).ok()?.cutter))
        })
        .unzip()
}

fn other_machines(form: &CutForm, document: &Document) -> (Vec<String>, Vec<Machine>) {
    document
        .machines
        .iter()
        .filter(|own| own.id != form.mill.machine)
        .filter_map(|own| Some((own.form.name.clone(), own.form.read().ok()?)))
        .unzip()
}
