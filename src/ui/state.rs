//! The state of the app: what is saved, and what has to be told about it.

use crate::{
    browser::{clock, install, keeping, page, storage, updates},
    engine::quantity::System,
    shop::{
        document::{Document, Theme},
        store::{self, Keeper, Kept, Rescued},
        word::Word,
    },
};
use core::time::Duration;
use std::sync::Arc;

use leptos::{leptos_dom::helpers::TimeoutHandle, prelude::*, task::spawn_local};
use leptos_router::{NavigateOptions, hooks::use_navigate};

/// After this much quiet, what changed is saved.
const QUIET: Duration = Duration::from_millis(300);

/// What was removed can be brought back for this long from wherever the person is.
const SECOND_THOUGHTS: Duration = Duration::from_secs(20);

/// The app's state, given to every page by context.
#[derive(Clone, Copy)]
pub struct App {
    /// The one saved document.
    pub document: RwSignal<Document>,
    /// Why the last change is not saved; `None` while all is well.
    pub not_saved: RwSignal<Option<String>>,
    /// What was found on the device and could not be read.
    pub rescued: RwSignal<Vec<Rescued>>,
    /// The browser keeps what is saved for good; `None` until it has said.
    pub kept_for_good: RwSignal<Option<bool>>,
    /// A new version waits to be used.
    pub update_waits: RwSignal<bool>,
    /// Every file has just been stored on the device for the first time.
    pub ready_offline: RwSignal<bool>,
    /// The browser offers to put the app on the home screen.
    pub can_install: RwSignal<bool>,
    /// What was removed last, and can be brought back.
    pub removed: RwSignal<Option<Removed>>,
    keeper: StoredValue<Keeper>,
    asked_to_keep: StoredValue<bool>,
    forgetting: StoredValue<Option<TimeoutHandle>>,
    folder: StoredValue<String>,
    last_words: StoredValue<Option<Callback<()>>>,
}

/// Something that was removed or taken in, and can be undone.
#[derive(Clone)]
pub struct Removed {
    /// What was done.
    pub sentence: String,
    /// Brings it back, long after the page that removed it is gone.
    pub bring_back: Arc<dyn Fn() + Send + Sync>,
}

impl App {
    /// Loads what is saved, keeps it saved from now on, and gives the state to every page.
    pub fn start() -> Self {
        let shelf = storage::shelf();
        let not_saved = shelf.as_ref().err().cloned();
        let shelf = shelf.ok();
        let found = shelf.as_ref().map(|shelf| store::load(shelf, &clock::now()));
        let found = found.unwrap_or_default();
        let document = found.document.unwrap_or_default();
        let keeper = Keeper::new(shelf.as_ref(), document.clone(), storage::random());
        let app = Self {
            document: RwSignal::new(document),
            not_saved: RwSignal::new(not_saved),
            rescued: RwSignal::new(found.rescued),
            kept_for_good: RwSignal::new(None),
            update_waits: RwSignal::new(false),
            ready_offline: RwSignal::new(false),
            can_install: RwSignal::new(false),
            removed: RwSignal::new(None),
            keeper: StoredValue::new(keeper),
            asked_to_keep: StoredValue::new(false),
            forgetting: StoredValue::new(None),
            folder: StoredValue::new(page::folder()),
            last_words: StoredValue::new(None),
        };
        provide_context(app);
        app.keep_saved();
        app.keep_marked();
        app.listen();
        app
    }

    /// The state, in any page.
    #[must_use]
    pub fn get() -> Self {
        expect_context()
    }

    /// Changes the document.
    pub fn change(self, change: impl FnOnce(&mut Document)) {
        self.document.update(change);
    }

    /// A part of the document, followed.
    pub fn part<T>(self, part: impl Fn(&Document) -> T + Send + Sync + 'static) -> Signal<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        let document = self.document;
        Memo::new(move |_| part(&document.read())).into()
    }

    /// The unit system at hand.
    #[must_use]
    pub fn system(self) -> Signal<System> {
        self.part(|document| document.settings.system)
    }

    /// Changes the unit system. What was typed stays as it was typed.
    pub fn set_system(self, system: System) {
        self.change(|document| document.settings.system = system);
    }

    /// Takes something away and remembers how to bring it back.
    pub fn remove<T: Clone + Send + Sync + 'static>(
        self,
        mut name: String,
        take: impl FnOnce(&mut Document) -> Option<T>,
        bring_back: impl Fn(&mut Document, T) + Send + Sync + 'static,
    ) {
        let mut taken = None;
        self.change(|document| taken = take(document));
        let Some(taken) = taken else { return };
        name.push_str(" is removed.");
        self.offer_back(name, move || {
            self.change(|document| bring_back(document, taken.clone()));
        });
    }

    /// The shop to look around in, in place of an empty one.
    pub fn open_sample(self, mut document: Document) {
        let settings = self.document.read_untracked().settings.clone();
        document.settings = settings;
        self.document.set(document);
    }

    /// An empty shop in place of the sample, which can be brought back.
    pub fn leave_sample(self) {
        let settings = self.document.read_untracked().settings.clone();
        let mut document = Document::default();
        document.settings = settings;
        self.replace("The sample shop", document);
    }

    /// A document from elsewhere takes the place of this one, which can be brought back.
    pub fn replace(self, name: &str, document: Document) {
        self.take_in(&format!("{name} is removed."), document);
    }

    /// The same with a sentence of its own.
    pub fn take_in(self, sentence: &str, document: Document) {
        let before = self.document.get_untracked();
        self.document.set(document);
        self.offer_back(sentence.to_owned(), move || {
            self.document.set(before.clone());
        });
    }

    fn offer_back(self, sentence: String, bring_back: impl Fn() + Send + Sync + 'static) {
        self.removed.set(Some(Removed { sentence, bring_back: Arc::new(bring_back) }));
        if let Some(timer) = self.forgetting.get_value() {
            timer.clear();
        }
        let forget = move || self.removed.set(None);
        self.forgetting.set_value(set_timeout_with_handle(forget, SECOND_THOUGHTS).ok());
    }

    /// Runs before the app saves as it goes out of sight; the page that asks for it stays in it
    /// until it is left.
    pub fn before_leaving(self, last_words: Callback<()>) {
        self.last_words.set_value(Some(last_words));
        on_cleanup(move || self.last_words.set_value(None));
    }

    /// Saves at once, with what another window saved meanwhile.
    pub fn save(self) {
        let kept = storage::shelf().and_then(|shelf| {
            let document = self.document.read_untracked();
            let mut keeper = self.keeper.write_value();
            keeper.save(&shelf, &clock::now(), &document)
        });
        match kept {
            Ok(Kept::AsBefore) => return,
            Ok(Kept::Saved) => self.ask_to_keep(),
            Ok(Kept::Merged(document)) => self.document.set(*document),
            Err(why) => return self.not_saved.set(Some(why)),
        }
        self.not_saved.set(None);
    }

    /// Takes in what another window has saved.
    fn look(self) {
        let Ok(shelf) = storage::shelf() else { return };
        let (kept, rescued) = {
            let document = self.document.read_untracked();
            let mut keeper = self.keeper.write_value();
            keeper.look(&shelf, &clock::now(), &document)
        };
        if let Kept::Merged(document) = kept {
            self.document.set(*document);
        }
        self.rescued.set(rescued);
    }

    /// Lets a rescued text go.
    pub fn forget_rescued(self, rescued: &Rescued) {
        if let Ok(shelf) = storage::shelf() {
            store::forget_rescued(&shelf, rescued);
        }
        self.rescued.update(|all| all.retain(|one| one != rescued));
    }

    /// A way to another page of the app, for the end of a tap: `cut?d_mm=3`, or nothing for home.
    pub fn way(self) -> impl Fn(&str) + Clone + 'static {
        let navigate = use_navigate();
        move |to: &str| {
            let address = format!("{}/{to}", self.folder.read_value());
            navigate(&address, NavigateOptions { resolve: false, ..NavigateOptions::default() });
        }
    }

    /// The folder the app is served from, for its router.
    pub(super) fn folder(self) -> String {
        self.folder.get_value()
    }

    fn keep_saved(self) {
        let waiting = StoredValue::new(None::<TimeoutHandle>);
        Effect::new(move || {
            self.document.track();
            if let Some(waiting) = waiting.get_value() {
                waiting.clear();
            }
            waiting.set_value(set_timeout_with_handle(move || self.save(), QUIET).ok());
        });
        // A phone may end the app once it is out of sight.
        page::when_hidden(move || {
            if let Some(last_words) = self.last_words.get_value() {
                last_words.run(());
            }
            self.save();
        });
        storage::at_save_elsewhere(move || self.look());
    }

    /// Once a visit, because some browsers ask the person.
    fn ask_to_keep(self) {
        if self.asked_to_keep.get_value() {
            return;
        }
        self.asked_to_keep.set_value(true);
        spawn_local(async move {
            self.kept_for_good.set(Some(keeping::ask().await));
        });
    }

    /// Colours and gloves stand at the root of the page, where its style sheet reads them.
    fn keep_marked(self) {
        let settings = self.part(|document| document.settings.clone());
        Effect::new(move || {
            let settings = settings.read();
            let theme = (settings.theme != Theme::Dark).then(|| settings.theme.word());
            page::mark("data-theme", theme);
            page::mark("data-gloves", settings.gloves.then_some("on"));
        });
    }

    fn listen(self) {
        spawn_local(async move {
            self.kept_for_good.set(Some(keeping::is_granted().await));
        });
        updates::when_update_waits(move || self.update_waits.set(true));
        updates::when_ready_offline(move || {
            let is_new =
                storage::shelf().is_ok_and(|shelf| store::is_new_to_tell(&shelf, "offline"));
            self.ready_offline.set(is_new);
        });
        install::when_offered(move || self.can_install.set(true));
    }
}

/// Runs once the next frame has gone to the screen: for what is read after the number to set.
pub fn after_the_frame(act: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(act, Duration::ZERO));
}
