//! Two copies of one document, changed apart and put together again.

use handwheel::{
    engine::drills::{Drill, Set},
    shop::{
        cuts::{CutterForm, Holding},
        document::{Document, Theme},
        machines::MachineForm,
        merge::{changed, merge},
        sample::sample,
        store::{self, Keeper, Shelf},
        typed::Typed,
    },
};
use proptest::prelude::*;

/// Something a person does.
#[derive(Clone, Debug)]
enum Act {
    AddMill(u8),
    RenameMill(u8, u8),
    RemoveMill(u8),
    AddCutter(u8),
    ChangeCutter(u8, u8),
    RemoveCutter(u8),
    AddFavorite(u8),
    RemoveFavorite(u8),
    OwnSet(bool),
    Miss(u8, bool),
    Gloves(bool),
    Theme(bool),
    Stock(bool),
    Look(u8),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        (0..6u8).prop_map(Act::AddMill),
        (0..4u8, any::<u8>()).prop_map(|(which, name)| Act::RenameMill(which, name)),
        (0..4u8).prop_map(Act::RemoveMill),
        (0..6u8).prop_map(Act::AddCutter),
        (0..12u8, any::<u8>()).prop_map(|(which, teeth)| Act::ChangeCutter(which, teeth)),
        (0..12u8).prop_map(Act::RemoveCutter),
        (0..6u8).prop_map(Act::AddFavorite),
        (0..3u8).prop_map(Act::RemoveFavorite),
        any::<bool>().prop_map(Act::OwnSet),
        (1..60u8, any::<bool>()).prop_map(|(which, gone)| Act::Miss(which, gone)),
        any::<bool>().prop_map(Act::Gloves),
        any::<bool>().prop_map(Act::Theme),
        any::<bool>().prop_map(Act::Stock),
        (0..6u8).prop_map(Act::Look),
    ]
}

fn done(before: &Document, acts: &[Act]) -> Document {
    let mut shop = before.clone();
    for act in acts {
        match *act {
            Act::AddMill(name) => {
                let name = format!("Mill {name}");
                shop.add_machine(MachineForm { name, ..MachineForm::default() });
            }
            Act::RenameMill(which, name) => {
                if let Some(own) = shop.machines.get_mut(usize::from(which)) {
                    own.form.name = format!("Renamed {name}");
                }
            }
            Act::RemoveMill(which) => {
                if let Some(id) = shop.machines.get(usize::from(which)).map(|own| own.id.clone()) {
                    shop.remove_machine(&id);
                }
            }
            Act::AddCutter(name) => {
                let name = format!("Cutter {name}");
                shop.add_cutter(CutterForm { name, ..CutterForm::default() }, Holding::default());
            }
            Act::ChangeCutter(which, teeth) => {
                if let Some(id) = shop.cutters.get(usize::from(which)).map(|own| own.id.clone()) {
                    shop.change_cutter(&id, |own| {
                        own.cutter.teeth = Typed::inch(teeth.to_string());
                    });
                }
            }
            Act::RemoveCutter(which) => {
                if let Some(id) = shop.cutters.get(usize::from(which)).map(|own| own.id.clone()) {
                    shop.remove_cutter(&id);
                }
            }
            Act::AddFavorite(name) => {
                shop.add_favorite(&format!("Favorite {name}"), "cut?op=slot");
            }
            Act::RemoveFavorite(which) => {
                if let Some(id) = shop.favorites.get(usize::from(which)).map(|own| own.id.clone()) {
                    shop.remove_favorite(&id);
                }
            }
            Act::OwnSet(owned) => shop.drills.own_set(Set::SmallNumbers, owned),
            Act::Miss(which, gone) => {
                let drill = Drill::number(which).expect("a drill");
                shop.drills.miss(drill, gone);
            }
            Act::Gloves(on) => shop.settings.gloves = on,
            Act::Theme(light) => {
                shop.settings.theme = if light { Theme::Light } else { Theme::Contrast };
            }
            Act::Stock(steel) => {
                shop.mill.stock = if steel { "steel_low_c" } else { "brass_360" }.to_owned();
            }
            Act::Look(which) => shop.threads.look_at(&format!("M{which}")),
        }
    }
    shop
}

fn same(one: &Document, other: &Document) -> bool {
    changed(one, other).is_empty() && changed(other, one).is_empty()
}

/// Mills and cutters as they are, without their ids, in no order.
fn owned(shop: &Document) -> Vec<String> {
    let mills = shop.machines.iter().map(|own| format!("{:?}", own.form));
    let cutters = shop.cutters.iter().map(|own| format!("{:?}", (&own.cutter, &own.holding)));
    let favorites = shop.favorites.iter().map(|own| format!("{:?}", (&own.name, &own.link)));
    mills.chain(cutters).chain(favorites).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]
    #[test]
    fn whose_copy_is_whose_does_not_matter(
        here in prop::collection::vec(act(), 0..8),
        there in prop::collection::vec(act(), 0..8),
    ) {
        let base = sample();
        let (mine, theirs) = (done(&base, &here), done(&base, &there));
        let (one, other) = (merge(&base, &mine, &theirs), merge(&base, &theirs, &mine));
        prop_assert!(same(&one, &other), "{:?}", changed(&one, &other));
    }

    #[test]
    fn merging_again_changes_nothing(
        here in prop::collection::vec(act(), 0..8),
        there in prop::collection::vec(act(), 0..8),
    ) {
        let base = sample();
        let (mine, theirs) = (done(&base, &here), done(&base, &there));
        let merged = merge(&base, &mine, &theirs);
        prop_assert!(same(&merge(&merged, &merged, &merged), &merged));
        prop_assert!(same(&merge(&theirs, &merged, &theirs), &merged));
        prop_assert!(same(&merge(&base, &merged, &base), &merged));
        prop_assert!(same(&merge(&base, &mine, &mine), &mine));
        prop_assert!(same(&merge(&base, &base, &theirs), &theirs));
    }

    #[test]
    fn nothing_that_one_side_made_is_lost(
        here in prop::collection::vec(act(), 0..8),
        there in prop::collection::vec(act(), 0..8),
    ) {
        let base = sample();
        let (mine, theirs) = (done(&base, &here), done(&base, &there));
        let merged = owned(&merge(&base, &mine, &theirs));
        let before = owned(&base);
        for (side, other) in [(&mine, &theirs), (&theirs, &mine)] {
            for item in owned(side).iter().filter(|item| !before.contains(item)) {
                // Both may have changed one thing of the sample; then the later one stays.
                let id = |shop: &Document| {
                    let mills = shop.machines.iter().map(|own| (own.id.clone(), format!("{:?}", own.form)));
                    let cutters = shop.cutters.iter()
                        .map(|own| (own.id.clone(), format!("{:?}", (&own.cutter, &own.holding))));
                    mills.chain(cutters).find(|(_, found)| found == item).map(|(id, _)| id)
                };
                let of = |shop: &Document, id: &str| {
                    let mill = shop.machines.iter().find(|own| own.id == id).map(|own| format!("{:?}", own.form));
                    let cutter = shop.cutters.iter().find(|own| own.id == id)
                        .map(|own| format!("{:?}", (&own.cutter, &own.holding)));
                    mill.or(cutter)
                };
                let both = id(side).is_some_and(|id| of(&base, &id).is_some() && of(other, &id) != of(&base, &id));
                prop_assert!(merged.contains(item) || both, "{item} is gone");
            }
        }
        // And what neither side touched is there.
        for item in before.iter().filter(|i| owned(&mine).contains(i) && owned(&theirs).contains(i)) {
            prop_assert!(merged.contains(item), "{item} is gone");
        }
    }

    /// However saves and looks of two windows follow each other, both come to the same.
    #[test]
    fn two_windows_come_to_the_same(
        steps in prop::collection::vec((any::<bool>(), prop::option::of(act())), 1..24),
    ) {
        let shelf = Texts::default();
        let begin = sample();
        store::save(&shelf, &begin).expect("room");
        let open = |n| (Keeper::new(Some(&shelf), begin.clone(), n), begin.clone());
        let mut windows = [open(1), open(2)];
        let tell = |window: &mut (Keeper, Document)| {
            if let (store::Kept::Merged(merged), _) = window.0.look(&shelf, "now", &window.1) {
                window.1 = *merged;
            }
            if let Ok(store::Kept::Merged(merged)) = window.0.save(&shelf, "now", &window.1) {
                window.1 = *merged;
            }
        };
        for (which, act) in &steps {
            let window = &mut windows[usize::from(*which)];
            match act {
                Some(act) => window.1 = done(&window.1, core::slice::from_ref(act)),
                None => tell(window),
            }
        }
        for _ in 0..3 {
            windows.iter_mut().for_each(&tell);
        }
        prop_assert!(same(&windows[0].1, &windows[1].1), "{:?}", changed(&windows[0].1, &windows[1].1));
    }
}

#[derive(Default)]
struct Texts(core::cell::RefCell<std::collections::BTreeMap<String, String>>);

impl Shelf for Texts {
    fn text(&self, key: &str) -> Option<String> {
        self.0.borrow().get(key).cloned()
    }
    fn put(&self, key: &str, text: &str) -> Result<(), String> {
        self.0.borrow_mut().insert(key.to_owned(), text.to_owned());
        Ok(())
    }
    fn remove(&self, key: &str) {
        self.0.borrow_mut().remove(key);
    }
    fn keys(&self) -> Vec<String> {
        self.0.borrow().keys().cloned().collect()
    }
}

#[test]
fn what_one_side_changed_and_the_other_removed_stays() {
    let base = sample();
    let mine = done(&base, &[Act::RenameMill(1, 7)]);
    let theirs = done(&base, &[Act::RemoveMill(1)]);
    let merged = merge(&base, &mine, &theirs);
    assert!(merged.machines.iter().any(|own| own.form.name == "Renamed 7"));
    let merged = merge(&base, &base, &theirs);
    assert_eq!(merged.machines.len(), 1, "what nobody changed goes");
}

#[test]
fn two_mills_added_under_one_name_are_two_mills() {
    let base = sample();
    let add = |power: &str| {
        let mut shop = base.clone();
        let power = Typed::inch(power);
        shop.add_machine(MachineForm { name: "New".into(), power, ..MachineForm::default() });
        shop
    };
    let merged = merge(&base, &add("1 hp"), &add("2 hp"));
    let ids: Vec<&str> = merged.machines.iter().map(|own| own.id.as_str()).collect();
    assert_eq!(ids, ["bench_mill", "knee_mill", "new", "new_2"]);
    let merged = merge(&base, &add("1 hp"), &add("1 hp"));
    assert_eq!(merged.machines.len(), 3, "the same one twice is one");
}

/// A cutter is one thing: the diameter of one copy never meets the teeth of another.
#[test]
fn no_item_is_mixed_from_two() {
    let base = sample();
    let id = base.cutters[0].id.clone();
    let mut mine = base.clone();
    mine.change_cutter(&id, |own| own.cutter.diameter = Typed::mm("4"));
    let mut theirs = base.clone();
    theirs.change_cutter(&id, |own| own.cutter.teeth = Typed::inch("4"));
    let merged = merge(&base, &mine, &theirs);
    assert!([&mine.cutters[0], &theirs.cutters[0]].contains(&&merged.cutters[0]));
    assert!([&mine.mill, &theirs.mill].contains(&&merged.mill));
}
