//! What the page holds: the form, the run it comes to, and the one that is on.

use std::sync::Arc;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    browser::sound::Speaker,
    engine::{
        answer::Answer,
        limits,
        pace::{Beat, NotPaced, Pace, beats, steadiest},
        quantity::{Duration, System},
        question::{Field, InputError},
    },
    shop::{document::Document, pace::PaceForm},
    ui::{addressed::Addressed, state::App},
};

/// What a form comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// There is no machine to answer for.
    NoMachine,
    /// Entries of the cut that cannot be worked with.
    Faults(Vec<InputError>),
    /// Nothing to pace.
    Not(NotPaced),
    /// A run.
    Ready(Arc<Ready>),
}

/// A run that can begin.
#[derive(Clone, Debug, PartialEq)]
pub struct Ready {
    /// The run.
    pub pace: Pace,
    /// The beats to choose from, each with its length.
    pub beats: Vec<(Beat, Duration)>,
    /// The length of the chosen one.
    pub every: Duration,
    /// The answer it is of; `None` for a tap by hand.
    pub answer: Option<Answer>,
}

/// The page's state, provided as a context.
#[derive(Clone, Copy)]
pub struct PaceState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<PaceForm>,
    /// What the address said that this version does not know.
    pub link_faults: RwSignal<Vec<InputError>>,
    /// What the form comes to.
    pub outcome: Memo<Outcome>,
    /// The run that is on.
    pub run: RwSignal<Option<Arc<Ready>>>,
    /// What it is heard from; opened by the tap that starts it.
    pub speaker: StoredValue<Option<Speaker>, LocalStorage>,
    addressed: Addressed<PaceForm>,
}

impl PaceState {
    /// Reads the address, or takes the last cut.
    pub fn provide() -> Self {
        let app = App::get();
        let search = use_location().search;
        let read = move |query: &str| -> (PaceForm, Vec<InputError>) {
            let (mut form, faults) = PaceForm::from_query(query.trim_start_matches('?'));
            let document = app.document.read_untracked();
            if !query.contains("op=") {
                form.cut = document.last_cut.clone().unwrap_or_else(|| document.next_cut());
            }
            if document.machine_called(&form.cut.mill.machine).is_none() {
                form.cut.mill.machine.clone_from(&document.mill.machine);
            }
            (form, faults)
        };
        let (start, faults) = read(&search.get_untracked());
        let addressed = Addressed::new(start);
        let form = addressed.form;
        let link_faults = RwSignal::new(faults);
        let system = app.system();
        let outcome = Memo::new(move |_| outcome(&form.read(), &app.document.read(), system.get()));
        let state = Self {
            app,
            form,
            link_faults,
            outcome,
            run: RwSignal::new(None),
            speaker: StoredValue::new_local(None),
            addressed,
        };
        let said = move |query: &str| {
            let (said, faults) = read(query);
            link_faults.set(faults);
            said
        };
        addressed.keep(app, said, address, || {});
        provide_context(state);
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// Changes the form.
    pub fn change(self, change: impl FnOnce(&mut PaceForm)) {
        self.addressed.change(Field::Feed, change);
    }

    /// Begins the run, if there is one. To be called in a tap.
    pub fn start(self) {
        self.addressed.flush();
        let Outcome::Ready(ready) = self.outcome.get_untracked() else { return };
        let speaker = self.form.read_untracked().sound.then(Speaker::open).flatten();
        self.speaker.set_value(speaker);
        self.run.set(Some(ready));
    }
}

/// The address of a pace.
pub fn address(form: &PaceForm) -> String {
    format!("pace?{}", form.to_query())
}

fn outcome(form: &PaceForm, document: &Document, system: System) -> Outcome {
    if let Some(turns) = form.turns {
        let every = Duration::second(f64::from(form.each));
        let delay = form.choice(Beat::TapTurn).delay;
        return match Pace::of_tap_turns(turns, every, delay) {
            Ok(pace) => ready(Ready { pace, beats: Vec::new(), every, answer: None }),
            Err(why) => Outcome::Not(why),
        };
    }
    let Some(own) = document.machine_called(&form.cut.mill.machine) else {
        return Outcome::NoMachine;
    };
    let answer = own.form.read().and_then(|machine| {
        let question = document.ask(&form.cut, &machine)?;
        limits::answer(&question.mill, &question.cut)
    });
    match answer {
        Ok(answer) => paced(form, answer, system),
        Err(faults) => Outcome::Faults(faults),
    }
}

fn paced(form: &PaceForm, answer: Answer, system: System) -> Outcome {
    // The marks of the other dial are offered only to whoever has chosen them.
    let foreign = match system {
        System::Inch => Beat::FifthMm,
        System::Metric => Beat::TenThou,
    };
    let mut beats = beats(&answer);
    beats.retain(|(beat, _)| *beat != foreign || form.beat == Some(foreign));
    let chosen = beats.iter().find(|(beat, _)| Some(*beat) == form.beat).copied();
    let Some((beat, every)) = chosen.or_else(|| steadiest(&beats)) else {
        let none = if answer.passes.is_none() { NotPaced::NoFeed } else { NotPaced::TooQuick };
        return Outcome::Not(none);
    };
    match Pace::of(&answer, form.choice(beat)) {
        Ok(pace) => ready(Ready { pace, beats, every, answer: Some(answer) }),
        Err(why) => Outcome::Not(why),
    }
}

fn ready(ready: Ready) -> Outcome {
    Outcome::Ready(Arc::new(ready))
}
