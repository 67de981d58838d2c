//! Two copies of one document, changed apart, become one again, item by item.
//!
//! Every item carries a mark: how often it was changed, and on which device last. A merge knows the
//! copy that both began with. What only one side changed is taken; what only one side removed goes;
//! what one side changed and the other removed stays; what both changed is taken from the side with
//! the higher mark. Items are never mixed from two: a cutter with the diameter of one and the teeth
//! of another is a cutter that nobody owns. Two different items that both sides added under one name
//! are both kept.

use crate::shop::{document::Document, restore};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// Which save a document is, and which one it was made from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Trace {
    /// Stamp of this save: a count and the window.
    pub(in crate::shop) at: String,
    /// Stamp of the save before it.
    pub(in crate::shop) after: String,
}

impl Trace {
    pub(in crate::shop) fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The trace of the save that follows one.
    pub(in crate::shop) fn after(before: &Self, window: &str) -> Self {
        let count = before.at.split('-').next().and_then(|count| count.parse::<u64>().ok());
        let count = count.unwrap_or(0).saturating_add(1);
        Self { at: format!("{count}-{window}"), after: before.at.clone() }
    }
}

/// How often an item was changed, and on which device last. The greater one is the later one.
pub type Mark = (u32, String);
/// The marks by the names of the items: `machines/bench_mill`, `settings`.
pub type Marks = BTreeMap<String, Mark>;

/// The names of the items in which two documents differ.
#[must_use]
pub fn changed(before: &Document, now: &Document) -> Vec<String> {
    // Field by field, so that a new one is not forgotten here.
    let Document {
        version: _,
        trace: _,
        marks: _,
        sample,
        machines,
        cutters,
        drills,
        taps,
        threads,
        mill,
        last_cut,
        favorites,
        settings,
        welcome,
        backup,
        converter,
        checks,
        layouts,
        setups,
        plans,
        log,
        jobs,
        recents,
        rest,
    } = now;
    let mut names = Vec::new();
    items("machines", &before.machines, machines, |own| &own.id, &mut names);
    items("cutters", &before.cutters, cutters, |own| &own.id, &mut names);
    items("favorites", &before.favorites, favorites, |own| &own.id, &mut names);
    items("jobs", &before.jobs, jobs, |own| &own.id, &mut names);
    for (name, differs) in [
        ("sample", before.sample != *sample),
        ("drills", before.drills != *drills),
        ("taps", before.taps != *taps),
        ("threads", before.threads != *threads),
        ("mill", before.mill != *mill),
        ("last_cut", before.last_cut != *last_cut),
        ("settings", before.settings != *settings),
        ("welcome", before.welcome != *welcome),
        ("backup", before.backup != *backup),
        ("converter", before.converter != *converter),
        ("checks", before.checks != *checks),
        ("layouts", before.layouts != *layouts),
        ("setups", before.setups != *setups),
        ("plans", before.plans != *plans),
        ("log", before.log != *log),
        ("recents", before.recents != *recents),
        ("rest", before.rest != *rest),
    ] {
        if differs {
            names.push(name.to_owned());
        }
    }
    names
}

/// The names of the items in which two lists differ, and that of the list where its order does.
fn items<T: PartialEq>(
    list: &str,
    before: &[T],
    now: &[T],
    id: impl Fn(&T) -> &str,
    names: &mut Vec<String>,
) {
    if before == now {
        return;
    }
    let known: BTreeMap<&str, &T> = before.iter().map(|item| (id(item), item)).collect();
    let there: BTreeMap<&str, &T> = now.iter().map(|item| (id(item), item)).collect();
    let mut say = |item: &T| names.push(format!("{list}/{}", id(item)));
    now.iter().filter(|item| known.get(id(item)) != Some(item)).for_each(&mut say);
    before.iter().filter(|item| !there.contains_key(id(item))).for_each(&mut say);
    if !before.iter().map(&id).eq(now.iter().map(&id)) {
        names.push(list.to_owned());
    }
}

/// The marks after a change of some items on a device.
#[must_use]
pub fn marked(before: &Marks, changed: &[String], device: &str) -> Marks {
    let mut marks = before.clone();
    for name in changed {
        let count = marks.get(name).map_or(0, |(count, _)| *count);
        marks.insert(name.clone(), (count.saturating_add(1), device.to_owned()));
    }
    marks
}

/// The one document of two that began as `base`. It does not matter which of them is whose.
#[must_use]
pub fn merge(base: &Document, mine: &Document, theirs: &Document) -> Document {
    let sides = Sides { mine: &mine.marks, theirs: &theirs.marks };
    let [base, one, other] = [base, mine, theirs].map(parts_of);
    let merged = sides.parts(0, "", Some(&base), &one, &other);
    // Every part of it comes whole out of one of two documents, so it can be read as they can.
    let Ok(mut document) = restore::revive(&Value::Object(merged)) else { return mine.clone() };
    document.trace = theirs.trace.clone();
    document.marks = sides.joined();
    document
}

/// A document as its parts, without what is said of its saves.
fn parts_of(document: &Document) -> Map<String, Value> {
    let mut parts = restore::parts(&document.to_text());
    parts.remove("trace");
    parts.remove("marks");
    parts
}

/// Parts that are one thing and not several.
const WHOLE: [&str; 4] = ["mill", "last_cut", "welcome", "backup"];

struct Sides<'a> {
    mine: &'a Marks,
    theirs: &'a Marks,
}

impl Sides<'_> {
    fn parts(
        &self,
        depth: u8,
        part: &str,
        base: Option<&Map<String, Value>>,
        mine: &Map<String, Value>,
        theirs: &Map<String, Value>,
    ) -> Map<String, Value> {
        let mut merged = Map::new();
        for key in mine.keys().chain(theirs.keys().filter(|key| !mine.contains_key(*key))) {
            let part = if depth == 0 { key } else { part };
            let before = base.and_then(|base| base.get(key));
            if let Some(value) = self.value(depth, part, before, mine.get(key), theirs.get(key)) {
                merged.insert(key.clone(), value);
            }
        }
        merged
    }

    fn value(
        &self,
        depth: u8,
        part: &str,
        base: Option<&Value>,
        mine: Option<&Value>,
        theirs: Option<&Value>,
    ) -> Option<Value> {
        if mine == theirs || theirs == base {
            return mine.cloned();
        }
        if mine == base {
            return theirs.cloned();
        }
        let (one, other) = match (mine, theirs) {
            (Some(one), Some(other)) => (one, other),
            // Changed here, removed there.
            (one, other) => return one.or(other).cloned(),
        };
        Some(match (one, other) {
            (Value::Object(one), Value::Object(other)) if depth == 0 && !WHOLE.contains(&part) => {
                let base = base.and_then(Value::as_object);
                Value::Object(self.parts(depth + 1, part, base, one, other))
            }
            (Value::Array(one), Value::Array(other)) => {
                let base = base.and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
                Value::Array(self.list(part, base, one, other))
            }
            _ => self.later(part, one, other).clone(),
        })
    }

    /// Of two values of an item that both sides changed, the one with the higher mark.
    fn later<'v>(&self, item: &str, mine: &'v Value, theirs: &'v Value) -> &'v Value {
        let order = self.mine.get(item).cmp(&self.theirs.get(item));
        // Two windows of one device may have given the same mark.
        let order = order.then_with(|| mine.to_string().cmp(&theirs.to_string()));
        if order.is_lt() { theirs } else { mine }
    }

    fn list(&self, part: &str, base: &[Value], mine: &[Value], theirs: &[Value]) -> Vec<Value> {
        let all = Value::Array(mine.to_vec());
        let mine_leads = *self.later(part, &all, &Value::Array(theirs.to_vec())) == all;
        let (first, second) = if mine_leads { (mine, theirs) } else { (theirs, mine) };
        let keyed = |list: &[Value]| -> Vec<(String, Value)> {
            list.iter().map(|item| (key(item), item.clone())).collect()
        };
        let find = |list: &[(String, Value)], key: &str| -> Option<Value> {
            list.iter().find(|(found, _)| found == key).map(|(_, item)| item.clone())
        };
        let (base, first, second) = (keyed(base), keyed(first), keyed(second));
        let mut merged: Vec<(String, Value)> = Vec::new();
        let mut twice = Vec::new();
        for (key, one) in &first {
            let (before, other) = (find(&base, key), find(&second, key));
            let item = match (&before, &other) {
                (_, Some(other)) if other == one => Some(one.clone()),
                (Some(before), other) if before == one => other.clone(),
                (before, other) if before == other => Some(one.clone()),
                // Changed here, removed there.
                (_, None) => Some(one.clone()),
                (Some(_), Some(other)) => {
                    let (mine, theirs) = if mine_leads { (one, other) } else { (other, one) };
                    Some(self.later(&item_name(part, key), mine, theirs).clone())
                }
                // Added by both, and not the same thing.
                (None, Some(other)) => {
                    twice.push((key.clone(), other.clone()));
                    Some(one.clone())
                }
            };
            merged.extend(item.map(|item| (key.clone(), item)));
        }
        let mut after: Option<&str> = None;
        for (key, other) in &second {
            let is_there = first.iter().any(|(found, _)| found == key);
            // Gone on the first side: it stays only if the second one made or changed it.
            if !is_there && find(&base, key).as_ref() != Some(other) {
                let place = after.and_then(|key| merged.iter().position(|(found, _)| found == key));
                merged.insert(place.map_or(0, |place| place + 1), (key.clone(), other.clone()));
            }
            if merged.iter().any(|(found, _)| found == key) {
                after = Some(key);
            }
        }
        merged.extend(twice);
        merged.into_iter().map(|(_, item)| item).collect()
    }

    /// Of every item the higher mark.
    fn joined(&self) -> Marks {
        let mut marks = self.mine.clone();
        for (name, mark) in self.theirs {
            let known = marks.entry(name.clone()).or_default();
            if *known < *mark {
                known.clone_from(mark);
            }
        }
        marks
    }
}

/// What tells an item from the others of its list: its id, or all it says.
pub(in crate::shop) fn key(item: &Value) -> String {
    match item.get("id") {
        Some(Value::String(id)) => id.clone(),
        _ => item.to_string(),
    }
}

fn item_name(part: &str, key: &str) -> String {
    format!("{part}/{key}")
}
