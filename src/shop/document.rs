//! The one saved document: what a person owns and has chosen.

use crate::{
    engine::{
        drills::Index,
        quantity::{Length, System},
        question::{Field, Style},
    },
    shop::{
        checks::Checks,
        converter::Converter,
        cut_log::CutLog,
        cuts::{CutForm, CutterForm, CutterKind, Holding, Mill},
        drills::DrillDrawer,
        jobs::Job,
        layout::shelf::LayoutShelf,
        machines::MachineForm,
        merge::{Marks, Trace},
        plan::Plans,
        recent::{Recents, is_ours},
        rest,
        restore::{self, VERSION},
        setup::SetupShelf,
        taps::TapDrawer,
        threads::ThreadShelf,
        word::{self, words},
    },
};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Everything that is saved. [`crate::shop::restore`] is its one door in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Document {
    /// Version of its shape.
    pub(in crate::shop) version: u32,
    /// True for the sample shop, which nobody owns.
    pub sample: bool,
    /// The owner's machines.
    pub machines: Vec<OwnMachine>,
    /// The drawer of cutters.
    pub cutters: Vec<OwnCutter>,
    /// The drawer of drills.
    pub drills: DrillDrawer,
    /// The drawer of taps.
    #[serde(default)]
    pub taps: TapDrawer,
    /// Threads looked at and starred.
    pub threads: ThreadShelf,
    /// What is on the mill now.
    pub mill: Mill,
    /// The cut that was answered last.
    pub last_cut: Option<CutForm>,
    /// Cuts kept by name.
    pub favorites: Vec<Favorite>,
    /// Settings.
    pub settings: Settings,
    /// Answers of the first start, while it is under way.
    pub welcome: Welcome,
    /// How much stands in no backup yet.
    pub backup: BackupState,
    /// The converter's earlier lines, and the blocks and the readout it speaks of.
    #[serde(default)]
    pub converter: Converter,
    /// The batch that is planned, and its run.
    #[serde(default)]
    pub plans: Plans,
    /// Checks before a cut.
    pub checks: Checks,
    /// Hole layouts under way.
    #[serde(default)]
    pub layouts: LayoutShelf,
    /// Set-ups as they were worked out last.
    #[serde(default)]
    pub setups: SetupShelf,
    /// Notes after cuts.
    #[serde(default)]
    pub log: CutLog,
    /// Job cards.
    #[serde(default)]
    pub jobs: Vec<Job>,
    /// What was looked at last.
    #[serde(default)]
    pub recents: Recents,
    /// Which save it is.
    #[serde(default, skip_serializing_if = "Trace::is_empty")]
    pub(in crate::shop) trace: Trace,
    /// How often each item was changed, and where last.
    #[serde(default, skip_serializing_if = "Marks::is_empty")]
    pub(in crate::shop) marks: Marks,
    /// What was restored and this version does not know.
    #[serde(skip)]
    pub(in crate::shop) rest: Value,
}

/// A machine among the owner's.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnMachine {
    /// Name that never changes, for links.
    pub id: String,
    /// As entered.
    pub form: MachineForm,
}

/// A cutter in the drawer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnCutter {
    /// Name that never changes.
    pub id: String,
    /// The cutter.
    pub cutter: CutterForm,
    /// How it is usually held.
    pub holding: Holding,
    /// What its owner has to say of it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// A screen kept by name: a cut, a thread, a recipe, a line of the converter ...
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Favorite {
    /// Name that never changes.
    pub id: String,
    /// What the owner calls it.
    pub name: String,
    /// What the screen shows, as the query of its link.
    pub link: String,
    /// The page; empty for that of a cut.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub page: String,
    /// It stands before the others.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub starred: bool,
    /// Id of the job it is filed with; empty for none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub job: String,
}

impl Favorite {
    /// Where it opens, as `cut?op=slot`. A page that is none of ours is that of a cut.
    #[must_use]
    pub fn to(&self) -> String {
        let to = format!("{}?{}", self.page, self.link);
        if is_ours(&to) { to } else { format!("cut?{}", self.link) }
    }
}

/// Settings.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// Unit system of answers and of new entries.
    pub system: System,
    /// Colours.
    #[serde(with = "word::saved")]
    pub theme: Theme,
    /// Targets for gloved hands at set-up.
    pub gloves: bool,
    /// How hard to push, for new cuts.
    #[serde(with = "word::saved")]
    pub style: Style,
}

/// Colours of the screen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// For the shop.
    #[default]
    Dark,
    /// For the sun.
    Light,
    /// For tired eyes and smeared glass.
    Contrast,
    /// As the phone has it.
    System,
}
words!(Theme: Dark = "dark", Light = "light", Contrast = "contrast", System = "system");

/// The first start: which question is open, and the answers so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Welcome {
    /// Place of the open question, counted from 0, before which nothing was asked.
    pub step: u32,
    /// The machine as answered so far.
    pub machine: MachineForm,
}

/// How much stands in no backup yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BackupState {
    /// ISO date and time of the last backup file.
    pub since: Option<String>,
    /// Machines, cutters and favorites added, changed or removed since.
    pub changes: u32,
}

impl Default for Settings {
    fn default() -> Self {
        Self { system: System::Inch, theme: Theme::Dark, gloves: false, style: Style::Gentle }
    }
}

impl Default for Document {
    fn default() -> Self {
        Self {
            version: VERSION,
            sample: false,
            machines: Vec::new(),
            cutters: Vec::new(),
            drills: DrillDrawer::default(),
            taps: TapDrawer::default(),
            threads: ThreadShelf::default(),
            mill: Mill::default(),
            last_cut: None,
            favorites: Vec::new(),
            settings: Settings::default(),
            welcome: Welcome::default(),
            backup: BackupState::default(),
            converter: Converter::default(),
            checks: Checks::default(),
            layouts: LayoutShelf::default(),
            setups: SetupShelf::default(),
            plans: Plans::default(),
            log: CutLog::default(),
            jobs: Vec::new(),
            recents: Recents::default(),
            trace: Trace::default(),
            marks: Marks::new(),
            rest: Value::Null,
        }
    }
}

impl Document {
    /// The text that is saved, and that a backup file holds.
    ///
    /// # Panics
    /// Never: every part of a document has a form in JSON.
    #[must_use]
    pub fn to_text(&self) -> String {
        let text = serde_json::to_string(self).expect("a document is plain data");
        if self.rest.is_null() {
            return text;
        }
        let mut whole = Value::Object(restore::parts(&text));
        rest::put_back(&mut whole, &self.rest);
        whole.to_string()
    }

    /// True until the owner has a machine.
    #[must_use]
    pub fn is_new(&self) -> bool {
        self.machines.is_empty()
    }

    /// The machine in use.
    #[must_use]
    pub fn machine(&self) -> Option<&OwnMachine> {
        self.machine_called(&self.mill.machine)
    }

    /// The machine with this id.
    #[must_use]
    pub fn machine_called(&self, id: &str) -> Option<&OwnMachine> {
        self.machines.iter().find(|machine| machine.id == id)
    }

    /// The cutter of the drawer that is in the spindle, if it is one of them.
    #[must_use]
    pub fn cutter_on_the_mill(&self) -> Option<&OwnCutter> {
        self.cutters.iter().find(|own| own.cutter == self.mill.cutter)
    }

    /// Diameters of the reamers in the drawer.
    #[must_use]
    pub fn reamers(&self) -> Vec<Length> {
        let cutters = self.cutters.iter().map(|own| &own.cutter);
        let reamers = cutters.filter(|cutter| cutter.kind == CutterKind::Reamer);
        reamers.filter_map(|cutter| cutter.diameter.length(Field::Diameter).ok()).collect()
    }

    /// The drills there are to choose from: those owned, or every one that is made where nobody has
    /// said.
    #[must_use]
    pub fn owned_drills(&self) -> Index {
        if self.drills.is_empty() { Index::every() } else { self.drills.index() }
    }

    /// Adds a machine; the first one is put to use. Returns its id.
    pub fn add_machine(&mut self, form: MachineForm) -> String {
        let id = free_id(&form.name, "mill", |id| self.machines.iter().any(|own| own.id == id));
        if self.machine().is_none() {
            self.mill.machine.clone_from(&id);
        }
        self.machines.push(OwnMachine { id: id.clone(), form });
        self.count_change();
        id
    }

    /// Takes a machine away, with its place for putting it back. Another one takes over on the
    /// mill.
    pub fn remove_machine(&mut self, id: &str) -> Option<(usize, OwnMachine)> {
        let place = self.machines.iter().position(|own| own.id == id)?;
        let machine = self.machines.remove(place);
        if self.mill.machine == id {
            self.mill.machine = self.machines.first().map(|own| own.id.clone()).unwrap_or_default();
        }
        self.count_change();
        Some((place, machine))
    }

    /// Puts a machine back where it was.
    pub fn put_back_machine(&mut self, place: usize, machine: OwnMachine) {
        if self.machine().is_none() {
            self.mill.machine.clone_from(&machine.id);
        }
        self.machines.insert(place.min(self.machines.len()), machine);
        self.count_change();
    }

    /// Adds a cutter to the drawer. Returns its id.
    pub fn add_cutter(&mut self, cutter: CutterForm, holding: Holding) -> String {
        let is_taken = |id: &str| self.cutters.iter().any(|own| own.id == id);
        let id = free_id(&cutter.title(), "cutter", is_taken);
        self.cutters.push(OwnCutter { id: id.clone(), cutter, holding, notes: String::new() });
        self.count_change();
        id
    }

    /// Changes a cutter of the drawer; when it is in the spindle, it changes there too.
    pub fn change_cutter(&mut self, id: &str, change: impl FnOnce(&mut OwnCutter)) {
        let Some(own) = self.cutters.iter_mut().find(|own| own.id == id) else { return };
        let before = own.clone();
        change(own);
        if self.mill.cutter == before.cutter {
            self.mill.cutter = own.cutter.clone();
            if self.mill.holding == before.holding {
                self.mill.holding = own.holding.clone();
            }
        }
    }

    /// Takes a cutter out of the drawer, with its place for putting it back. What is in the
    /// spindle stays there.
    pub fn remove_cutter(&mut self, id: &str) -> Option<(usize, OwnCutter)> {
        let place = self.cutters.iter().position(|own| own.id == id)?;
        self.count_change();
        Some((place, self.cutters.remove(place)))
    }

    /// Puts a cutter back where it was.
    pub fn put_back_cutter(&mut self, place: usize, cutter: OwnCutter) {
        self.cutters.insert(place.min(self.cutters.len()), cutter);
        self.count_change();
    }

    /// Puts a cutter of the drawer in the spindle, held as usual.
    pub fn choose_cutter(&mut self, id: &str) {
        if let Some(own) = self.cutters.iter().find(|own| own.id == id) {
            self.mill.cutter = own.cutter.clone();
            self.mill.holding = own.holding.clone();
        }
    }

    /// The cut that a person asks next: the last one's figures with what is on the mill now; the
    /// first that the cutter can do, when it cannot do the last one.
    #[must_use]
    pub fn next_cut(&self) -> CutForm {
        let mill = self.mill.clone();
        match &self.last_cut {
            Some(last) if last.operation.cutters().contains(&mill.cutter.kind) => {
                CutForm { mill, ..last.clone() }
            }
            _ => CutForm {
                operation: mill.cutter.kind.operations().next().unwrap_or_default(),
                mill,
                style: self.settings.style,
                ..CutForm::default()
            },
        }
    }

    /// Keeps a cut as the last one; what it has on the mill is on the mill now.
    pub fn remember(&mut self, form: &CutForm) {
        self.mill = form.mill.clone();
        self.last_cut = Some(form.clone());
    }

    /// The favorite that opens an address, if there is one.
    #[must_use]
    pub fn favorite_at(&self, to: &str) -> Option<&Favorite> {
        self.favorites.iter().find(|favorite| favorite.to() == to)
    }

    /// Keeps an address by name; the last one kept stands first. Returns its id.
    pub fn add_favorite(&mut self, name: &str, to: &str) -> String {
        let id = free_id(name, "cut", |id| self.favorites.iter().any(|own| own.id == id));
        let (page, link) = to.split_once('?').unwrap_or((to, ""));
        self.favorites.insert(
            0,
            Favorite {
                id: id.clone(),
                name: name.trim().to_owned(),
                link: link.to_owned(),
                page: if page == "cut" { String::new() } else { page.to_owned() },
                ..Favorite::default()
            },
        );
        self.count_change();
        id
    }

    /// The favorites in the order they are shown: the starred ones first.
    pub fn favorites_shown(&self) -> impl Iterator<Item = &Favorite> {
        let starred = self.favorites.iter().filter(|favorite| favorite.starred);
        starred.chain(self.favorites.iter().filter(|favorite| !favorite.starred))
    }

    /// Puts a favorite one place earlier or later among those it is shown with.
    pub fn move_favorite(&mut self, id: &str, later: bool) {
        let Some(place) = self.favorites.iter().position(|favorite| favorite.id == id) else {
            return;
        };
        let starred = self.favorites[place].starred;
        let is_alike = |at: &usize| self.favorites[*at].starred == starred;
        let to = if later {
            (place + 1..self.favorites.len()).find(is_alike)
        } else {
            (0..place).rev().find(is_alike)
        };
        if let Some(to) = to {
            self.favorites.swap(place, to);
            self.count_change();
        }
    }

    /// Takes a favorite away, with its place for putting it back.
    pub fn remove_favorite(&mut self, id: &str) -> Option<(usize, Favorite)> {
        let place = self.favorites.iter().position(|favorite| favorite.id == id)?;
        self.count_change();
        Some((place, self.favorites.remove(place)))
    }

    /// Puts a favorite back where it was.
    pub fn put_back_favorite(&mut self, place: usize, favorite: Favorite) {
        self.favorites.insert(place.min(self.favorites.len()), favorite);
        self.count_change();
    }

    /// Counts a change that stands in no backup yet.
    pub fn count_change(&mut self) {
        self.backup.changes = self.backup.changes.saturating_add(1);
    }

    /// Notes that a backup file was made.
    pub fn note_backup(&mut self, now: String) {
        self.backup = BackupState { since: Some(now), changes: 0 };
    }
}

/// More of a name is in no link.
const LONGEST_SLUG: usize = 60;

/// A short name for links that is not taken yet: "Bench mill" becomes `bench_mill`.
pub(in crate::shop) fn free_id(name: &str, plain: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let mut slug = String::new();
    for c in name.chars() {
        if slug.len() > LONGEST_SLUG {
            break;
        }
        if c.is_ascii_alphanumeric() {
            slug.push(c.to_ascii_lowercase());
        } else if !slug.is_empty() && !slug.ends_with('_') {
            slug.push('_');
        }
    }
    let slug = match slug.trim_end_matches('_') {
        "" => plain,
        slug => slug,
    };
    let mut id = slug.to_owned();
    let mut count = 2;
    while is_taken(&id) {
        id = format!("{slug}_{count}");
        count += 1;
    }
    id
}
