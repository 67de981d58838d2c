//! What the page holds: the set-up in its address, the rules for it, and what is ticked.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    browser::clock,
    engine::{
        machine::Turning,
        question::Field,
        safety::{
            Phase, Severity,
            list::{Checklist, Item, Part, checklist},
        },
    },
    shop::{
        check_form::{CheckForm, CheckReading, Now, Step},
        checks::{Record, Seen},
        document::Document,
    },
    ui::{addressed::Addressed, state::App},
};

/// What was kept of earlier checks when this one began: it must not change under the finger.
#[derive(Clone, PartialEq)]
struct Before {
    set_up: (String, Option<usize>),
    records: Vec<Record>,
    seen: Option<Seen>,
}

/// The page's state, provided as a context.
#[derive(Clone, Copy)]
pub struct CheckState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<CheckForm>,
    /// What the form comes to.
    pub reading: Memo<CheckReading>,
    /// The rules for it.
    pub list: Memo<Checklist>,
    /// Ids of what is ticked.
    pub ticked: Memo<Vec<String>>,
    /// Where in the check the person is.
    pub step: Memo<Step>,
    addressed: Addressed<CheckForm>,
}

/// The address of a form.
pub fn address(form: &CheckForm) -> String {
    format!("check?{}", form.to_query())
}

impl CheckState {
    /// Reads the address, or takes what is on the mill.
    pub fn provide() -> Self {
        let app = App::get();
        let first = use_location().search.get_untracked();
        let addressed = Addressed::new(read(&first, &app.document.read_untracked()));
        let form = addressed.form;
        let before = StoredValue::new(None::<Before>);
        let reading = Memo::new(move |_| come_to(&form.read(), &app.document.read(), before));
        let list = Memo::new(move |_| {
            let reading = reading.read();
            let system = app.document.read().settings.system;
            checklist(&reading.context, reading.earlier.as_ref(), system)
        });
        let ticked = Memo::new(move |_| {
            let document = app.document.read();
            document.checks.ticked(&form.read().set_up()).to_vec()
        });
        let step = Memo::new(move |_| {
            let form = form.read();
            match form.step {
                Step::Begin if !app.document.read().checks.asked => Step::You,
                Step::Begin if form.holding.is_none() => Step::SetUp,
                Step::Begin => Step::Power,
                step => step,
            }
        });
        // What was seen in one range says nothing of the next, nor when it comes back.
        Effect::new(move || {
            let Some(range) = reading.read().context.spindle.range else { return };
            let machine = form.read().cut.mill.machine.clone();
            let before = app.document.read_untracked().checks.clone();
            let mut after = before.clone();
            after.turn_to(&machine, range);
            if after != before {
                request_animation_frame(move || {
                    app.change(|document| document.checks.turn_to(&machine, range));
                });
            }
        });
        let state = Self { app, form, reading, list, ticked, step, addressed };
        let said = move |query: &str| read(query, &app.document.read_untracked());
        addressed.keep(app, said, address, || ());
        provide_context(state);
        state
    }

    /// The state of this page.
    pub fn get() -> Self {
        expect_context()
    }

    /// Changes an answer. What is asked at different fields is undone one by one.
    pub fn change(self, field: Field, change: impl FnOnce(&mut CheckForm)) {
        self.addressed.change(field, change);
    }

    /// The address of a step of this check.
    pub fn at(self, step: Step) -> Signal<String> {
        Signal::derive(move || address(&self.form.read().at(step)))
    }

    /// A phase.
    pub fn part(self, phase: Phase) -> Option<Part> {
        self.list.read().parts.iter().find(|part| part.phase == phase).cloned()
    }

    /// True when all of them are ticked.
    pub fn is_ticked(self, ids: &[&'static str]) -> bool {
        let ticked = self.ticked.read();
        ids.iter().all(|id| ticked.iter().any(|one| one == id))
    }

    /// Ticks them, or takes their ticks away.
    pub fn tick(self, ids: &[&'static str], on: bool) {
        let form = self.form.get_untracked();
        let range = self.reading.read_untracked().context.spindle.range;
        self.app.change(|document| {
            document.checks.tick(&form.set_up(), range, ids, on);
            if ids.contains(&"S03") {
                match range {
                    Some(range) if on => form.note_seen(document, range, clock::now()),
                    _ => document.checks.seen = None,
                }
            }
        });
    }

    /// Takes what a jog test has shown.
    pub fn jogged(self, range: usize, label: &str, turning: Turning) {
        let form = self.form.get_untracked();
        let is_right = turning == form.turning();
        self.app.change(|document| {
            form.note_turning(document, range, label, turning, clock::now());
            if is_right {
                document.checks.tick(&form.set_up(), Some(range), &["S03"], true);
            }
        });
    }

    /// Everything of some phases that is not ticked.
    pub fn open(self, phases: &[Phase]) -> Vec<Item> {
        let ticked = self.ticked.read();
        let list = self.list.read();
        list.items()
            .filter(|item| phases.contains(&item.rule.phase))
            .filter(|item| !ticked.iter().any(|id| id == item.rule.id))
            .cloned()
            .collect()
    }

    /// The stops among them.
    pub fn open_stops(self, phases: &[Phase]) -> Vec<Item> {
        let mut open = self.open(phases);
        open.retain(|item| item.rule.severity == Severity::Stop);
        open
    }

    /// Keeps a record of what was looked at before the cut.
    pub fn close(self) {
        let open = untrack(|| self.open(&BEFORE));
        let open = open.into_iter().map(|item| item.text).collect();
        let form = self.form.get_untracked();
        let ticked = self.ticked.get_untracked();
        let record = form.record(&self.reading.read_untracked(), clock::now(), ticked, open);
        self.app.change(|document| document.checks.close(record));
    }

    /// Adds what was looked at after it.
    pub fn finish(self) {
        let open = untrack(|| self.open(&STOPPED));
        let open = open.into_iter().map(|item| item.text).collect();
        let set_up = self.form.read_untracked().set_up();
        let ticked = self.ticked.get_untracked();
        self.app.change(|document| document.checks.finish(&set_up, ticked, open));
    }
}

/// What is looked at before the spindle turns.
pub const BEFORE: [Phase; 3] = [Phase::BeforePower, Phase::FirstCut, Phase::BeforeStart];
/// What is looked at when it stands again.
pub const STOPPED: [Phase; 2] = [Phase::Chips, Phase::After];

/// The form that an address says; without a cut in it, the cut that a person would check next.
fn read(search: &str, document: &Document) -> CheckForm {
    let query = search.trim_start_matches('?');
    let mut form = CheckForm::from_query(query);
    if !query.split('&').any(|pair| pair.starts_with("op=")) {
        form.cut = document.next_cut();
    }
    if document.machine_called(&form.cut.mill.machine).is_none() {
        form.cut.mill.machine.clone_from(&document.mill.machine);
    }
    form
}

/// What a form comes to, with the earlier checks as they were when this set-up was opened.
fn come_to(
    form: &CheckForm,
    document: &Document,
    before: StoredValue<Option<Before>>,
) -> CheckReading {
    let now = Now { hour: clock::hour(), minutes_since: &clock::minutes_since };
    let live = form.read(document, now);
    let set_up = (form.set_up(), live.context.spindle.range);
    let kept = before.get_value().filter(|before| before.set_up == set_up);
    let Some(kept) = kept else {
        before.set_value(Some(Before {
            set_up,
            records: document.checks.records.clone(),
            seen: document.checks.seen.clone(),
        }));
        return live;
    };
    if kept.records == document.checks.records && kept.seen == document.checks.seen {
        return live;
    }
    let mut then = document.clone();
    then.checks.records = kept.records;
    then.checks.seen = kept.seen;
    form.read(&then, now)
}
