//! The shelf that the document is saved on: full, without power, and shared by two windows.

use core::cell::{Cell, RefCell};
use handwheel::{
    engine::drills::Set,
    shop::{
        document::{Document, Theme},
        machines::MachineForm,
        merge::changed,
        sample::sample,
        store::{self, Found, Keeper, Kept, Shelf},
    },
};
use std::collections::BTreeMap;

const NOW: &str = "2026-11-24T10:00:00.000Z";

/// A shelf of so many bytes that loses power when told to.
struct SmallShelf {
    texts: RefCell<BTreeMap<String, String>>,
    room: Cell<usize>,
    steps_left: Cell<usize>,
    torn: Cell<bool>,
}

impl SmallShelf {
    fn new() -> Self {
        Self {
            texts: RefCell::default(),
            room: Cell::new(usize::MAX),
            steps_left: Cell::new(usize::MAX),
            torn: Cell::new(false),
        }
    }
    fn size(&self) -> usize {
        self.texts.borrow().iter().map(|(key, text)| key.len() + text.len()).sum()
    }
    fn snapshot(&self) -> BTreeMap<String, String> {
        self.texts.borrow().clone()
    }
    /// The step after these is lost, or half done, and so is every later one.
    fn loses_power_after(&self, steps: usize, torn: bool) {
        self.steps_left.set(steps);
        self.torn.set(torn);
    }
    fn gets_power(&self) {
        self.steps_left.set(usize::MAX);
        self.torn.set(false);
    }
    fn has_power(&self) -> bool {
        let left = self.steps_left.get();
        self.steps_left.set(left.saturating_sub(1));
        left > 0
    }
}

impl Shelf for SmallShelf {
    fn text(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }
    fn put(&self, key: &str, text: &str) -> Result<(), String> {
        if !self.has_power() {
            if self.torn.take() {
                let half = text.chars().take(text.chars().count() / 2).collect();
                self.texts.borrow_mut().insert(key.to_owned(), half);
            }
            return Err("The power is off.".to_owned());
        }
        let before = self.texts.borrow().get(key).map_or(0, |old| key.len() + old.len());
        if self.size() - before + key.len() + text.len() > self.room.get() {
            return Err("The shelf is full.".to_owned());
        }
        self.texts.borrow_mut().insert(key.to_owned(), text.to_owned());
        Ok(())
    }
    fn remove(&self, key: &str) {
        if self.has_power() {
            self.texts.borrow_mut().remove(key);
        }
    }
    fn keys(&self) -> Vec<String> {
        self.texts.borrow().keys().cloned().collect()
    }
}

fn with_machine(name: &str) -> Document {
    let mut document = Document::default();
    document.add_machine(MachineForm { name: name.into(), ..MachineForm::default() });
    document
}

fn load(shelf: &impl Shelf) -> Found {
    store::load(shelf, NOW)
}

/// But for what is said of its saves.
fn same(one: &Document, other: &Document) -> bool {
    changed(one, other).is_empty() && changed(other, one).is_empty()
}

#[test]
fn power_lost_at_any_step_of_a_save_leaves_a_whole_document() {
    for torn in [false, true] {
        let mut steps = 0;
        loop {
            let shelf = SmallShelf::new();
            store::save(&shelf, &with_machine("one")).expect("room");
            store::save(&shelf, &with_machine("two")).expect("room");
            shelf.loses_power_after(steps, torn);
            let saved = store::save(&shelf, &with_machine("three"));
            shelf.gets_power();
            let found = load(&shelf);
            let expected = if saved.is_ok() { ["three"; 2] } else { ["two", "three"] };
            let is_one = expected.iter().any(|name| found.document == Some(with_machine(name)));
            assert!(is_one, "after {steps} steps, torn: {torn}: {found:?}");
            // And the shelf is as good as before.
            store::save(&shelf, &with_machine("four")).expect("room");
            assert_eq!(load(&shelf).document, Some(with_machine("four")));
            if saved.is_ok() {
                break;
            }
            steps += 1;
        }
        assert_eq!(steps, 3, "a text, its stamp, the pointer");
    }
}

#[test]
fn power_lost_at_any_step_of_a_rescue_loses_nothing() {
    for room in [usize::MAX, 2000] {
        for steps in 0..6 {
            let shelf = SmallShelf::new();
            store::save(&shelf, &with_machine("one")).expect("room");
            store::save(&shelf, &with_machine("two")).expect("room");
            let in_use = shelf.text("handwheel/current").expect("a pointer");
            shelf.put(&in_use, &"precious".repeat(40)).expect("room");
            if room < usize::MAX {
                shelf.room.set(shelf.size());
            }
            shelf.loses_power_after(steps, false);
            load(&shelf);
            shelf.gets_power();
            let held = shelf.snapshot();
            // A full shelf has to let go of the text before it can keep it elsewhere.
            let is_between = room < usize::MAX && (2..=3).contains(&steps);
            assert!(
                held.values().any(|text| text.starts_with("precious")) || is_between,
                "{steps}"
            );
            assert_eq!(load(&shelf).document, Some(with_machine("one")), "after {steps} steps");
        }
    }
}

#[test]
fn a_clock_that_was_set_back_overwrites_no_rescued_text() {
    let shelf = SmallShelf::new();
    for text in ["first", "second", "third"] {
        shelf.put("handwheel/document/a", text).expect("room");
        assert_eq!(load(&shelf).document, None);
    }
    let held: Vec<String> = load(&shelf).rescued.into_iter().map(|found| found.raw).collect();
    assert_eq!(held, ["first", "second", "third"]);
}

#[test]
fn a_shelf_without_any_room_says_so_and_the_program_goes_on() {
    let shelf = SmallShelf::new();
    shelf.room.set(0);
    let mut keeper = Keeper::new(Some(&shelf), Document::default(), 7);
    for name in ["one", "two"] {
        let kept = keeper.save(&shelf, NOW, &with_machine(name));
        assert_eq!(kept, Err("The shelf is full.".to_owned()));
    }
    assert_eq!(load(&shelf), Found::default());
    shelf.room.set(usize::MAX);
    assert_eq!(keeper.save(&shelf, NOW, &with_machine("two")), Ok(Kept::Saved));
    assert!(same(&load(&shelf).document.expect("saved"), &with_machine("two")));
}

/// Two windows of one device before one shelf.
struct Windows {
    shelf: SmallShelf,
    keepers: [Keeper; 2],
    documents: [Document; 2],
}

impl Windows {
    fn open(document: &Document) -> Self {
        let shelf = SmallShelf::new();
        store::save(&shelf, document).expect("room");
        let keepers = [1, 2].map(|n| Keeper::new(Some(&shelf), document.clone(), n));
        let documents = [document.clone(), document.clone()];
        Self { shelf, keepers, documents }
    }
    fn saves(&mut self, window: usize) {
        let kept = self.keepers[window].save(&self.shelf, NOW, &self.documents[window]);
        if let Kept::Merged(merged) = kept.expect("room") {
            self.documents[window] = *merged;
        }
    }
    fn looks(&mut self, window: usize) {
        let (kept, rescued) = self.keepers[window].look(&self.shelf, NOW, &self.documents[window]);
        assert!(rescued.is_empty());
        if let Kept::Merged(merged) = kept {
            self.documents[window] = *merged;
        }
    }
    /// Until nothing is left to say between the two.
    fn settle(&mut self) {
        for _ in 0..3 {
            for window in [0, 1] {
                self.looks(window);
                self.saves(window);
            }
        }
        let [one, other] = &self.documents;
        assert!(same(one, other), "the windows differ in {:?}", changed(one, other));
        let found = load(&self.shelf).document.expect("saved");
        assert!(same(&found, one), "the shelf differs in {:?}", changed(&found, one));
    }
}

#[test]
fn two_windows_keep_what_was_added_in_each() {
    let mut windows = Windows::open(&sample());
    windows.documents[0].add_machine(MachineForm { name: "Here".into(), ..MachineForm::default() });
    windows.documents[1]
        .add_machine(MachineForm { name: "There".into(), ..MachineForm::default() });
    windows.documents[1].drills.own_set(Set::SmallNumbers, true);
    windows.documents[0].drills.own_set(Set::Letters, false);
    windows.documents[0].settings.gloves = true;
    windows.documents[1].settings.theme = Theme::Light;
    windows.saves(0);
    // The second one has not been told yet.
    windows.saves(1);
    windows.settle();
    let shop = &windows.documents[0];
    let names: Vec<&str> = shop.machines.iter().map(|own| own.form.name.as_str()).collect();
    assert_eq!(names.len(), 4);
    assert!(names.contains(&"Here") && names.contains(&"There"), "{names:?}");
    assert!(shop.drills.has_set(Set::SmallNumbers) && !shop.drills.has_set(Set::Letters));
    assert!(shop.settings.gloves && shop.settings.theme == Theme::Light);
}

#[test]
fn a_save_that_knew_nothing_of_the_other_takes_nothing_away() {
    let mut windows = Windows::open(&sample());
    // Both write at once: neither sees the stamp of the other.
    let before = windows.shelf.snapshot();
    windows.documents[0].remove_cutter("3_mm_end_mill_2_flutes").expect("there");
    windows.documents[0].add_favorite("Here", "cut?op=slot");
    windows.saves(0);
    windows.shelf.texts.replace(before);
    windows.documents[1].add_favorite("There", "cut?op=slot");
    windows.saves(1);
    windows.settle();
    let shop = &windows.documents[1];
    let names: Vec<&str> = shop.favorites.iter().map(|own| own.name.as_str()).collect();
    assert!(names.contains(&"Here") && names.contains(&"There"), "{names:?}");
    assert!(!shop.cutters.iter().any(|own| own.id == "3_mm_end_mill_2_flutes"));
}

#[test]
fn a_shelf_that_was_emptied_elsewhere_gets_the_document_again() {
    let mut windows = Windows::open(&sample());
    windows.shelf.texts.replace(BTreeMap::new());
    windows.looks(0);
    assert_eq!(windows.documents[0], sample(), "what is on the screen stays");
    windows.saves(0);
    assert!(same(&load(&windows.shelf).document.expect("saved"), &sample()));
}

#[test]
fn a_device_has_one_name() {
    let shelf = SmallShelf::new();
    for random in [0xabc, 0xdef] {
        let _ = Keeper::new(Some(&shelf), Document::default(), random);
        assert_eq!(shelf.text("handwheel/device").as_deref(), Some("abc"));
    }
}

#[test]
fn a_full_shelf_is_reported_and_keeps_what_it_holds() {
    let shelf = SmallShelf::new();
    store::save(&shelf, &with_machine("one")).expect("room");
    store::save(&shelf, &with_machine("two")).expect("room");
    shelf.room.set(shelf.size() + 10);
    assert_eq!(store::save(&shelf, &sample()), Err("The shelf is full.".to_owned()));
    assert_eq!(load(&shelf).document, Some(with_machine("two")));
    store::save(&shelf, &with_machine("six")).expect("a smaller one still fits");
    assert_eq!(load(&shelf).document, Some(with_machine("six")));
}

#[test]
fn one_damaged_copy_leaves_the_other() {
    let shelf = SmallShelf::new();
    store::save(&shelf, &with_machine("one")).expect("room");
    store::save(&shelf, &with_machine("two")).expect("room");
    let in_use = shelf.text("handwheel/current").expect("a pointer");
    shelf.put(&in_use, "half a docu").expect("room");
    let found = load(&shelf);
    assert_eq!(found.document, Some(with_machine("one")));
    assert_eq!(found.rescued[0].raw, "half a docu");
}

#[test]
fn what_was_rescued_stays_until_its_owner_lets_it_go() {
    let shelf = SmallShelf::new();
    shelf.put("handwheel/document/a", "precious").expect("room");
    assert_eq!(load(&shelf).document, None);
    for name in ["one", "two", "three", "four"] {
        store::save(&shelf, &with_machine(name)).expect("room");
    }
    let found = store::load(&shelf, "2027-01-01T00:00:00.000Z");
    assert_eq!(found.document, Some(with_machine("four")));
    assert_eq!(found.rescued.len(), 1);
    assert_eq!(found.rescued[0].raw, "precious");

    store::forget_rescued(&shelf, &found.rescued[0]);
    assert!(load(&shelf).rescued.is_empty());
}

#[test]
fn a_full_shelf_still_moves_aside_what_cannot_be_read() {
    let shelf = SmallShelf::new();
    let precious = "precious".repeat(100);
    shelf.put("handwheel/document/a", &precious).expect("room");
    shelf.room.set(shelf.size() + 40);
    let found = load(&shelf);
    assert_eq!(found.rescued[0].key, Some(format!("handwheel/rescued/{NOW}")));
    assert_eq!(shelf.snapshot().len(), 1, "moved, not copied");
    assert_eq!(shelf.text(&format!("handwheel/rescued/{NOW}")), Some(precious));
}

#[test]
fn a_shelf_too_full_to_move_anything_loses_nothing() {
    let shelf = SmallShelf::new();
    shelf.put("handwheel/document/a", "precious").expect("room");
    shelf.room.set(shelf.size());
    let found = load(&shelf);
    assert_eq!((found.rescued[0].key.as_ref(), found.rescued[0].raw.as_str()), (None, "precious"));
    assert_eq!(shelf.text("handwheel/document/a").as_deref(), Some("precious"));
}
