//! The one door in: any text becomes a current document, or is kept as it is.

use crate::shop::{
    document::{Document, free_id},
    rest,
};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// Version of the document's shape that this program writes.
pub(in crate::shop) const VERSION: u32 = 2;

/// The step from each version to the next, the one from version 1 first. Every shape that was ever
/// released restores for ever.
const STEPS: &[fn(Value) -> Value] = &[with_drills_threads_lines_and_checks];
const _: () = assert!(STEPS.len() + 1 == VERSION as usize);

/// From version 1, which knew neither drills nor threads nor the converter nor checks.
fn with_drills_threads_lines_and_checks(mut value: Value) -> Value {
    value["drills"] = json!({ "sets": [], "missing": [], "single": [] });
    value["threads"] = json!({ "recent": [], "starred": [], "card": null, "wires": [] });
    value["converter"] = json!({});
    value["checks"] = json!({
        "habits": {}, "asked": false, "seen": null, "under_way": null, "records": [], "call": ""
    });
    for machine in value["machines"].as_array_mut().into_iter().flatten() {
        if machine["form"].is_object() {
            machine["form"]["fittings"] = json!({});
        }
    }
    if value["welcome"]["machine"].is_object() {
        value["welcome"]["machine"]["fittings"] = json!({});
    }
    value
}

/// A text that is no document, kept so that nothing is lost.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// The text, untouched.
    pub raw: String,
    /// What is wrong with it, a full sentence.
    pub problem: String,
}

impl core::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.problem)
    }
}

impl core::error::Error for Unreadable {}

/// Restores a document from a text that any version wrote. What this version does not know stays
/// in its place in the document and is written again.
///
/// # Errors
/// The text itself with what is wrong with it: no JSON, no document of ours, or one of a later
/// version.
pub fn restore(text: &str) -> Result<Document, Unreadable> {
    read(text).map_err(|problem| Unreadable { raw: text.to_owned(), problem })
}

fn read(text: &str) -> Result<Document, String> {
    // A file that went through an editor may begin with a byte order mark.
    let json = text.trim_start_matches('\u{feff}');
    // What this version wrote itself holds nothing that it does not know.
    if let Ok(mut document) = serde_json::from_str::<Document>(json)
        && document.version == VERSION
        && document.to_text() == json
    {
        mend(&mut document);
        return Ok(document);
    }
    let mut value: Value = serde_json::from_str(json).map_err(|e| no_shop(&e))?;
    let version = value
        .get("version")
        .and_then(Value::as_u64)
        .filter(|&version| version > 0)
        .ok_or("This is no saved shop: it names no version.")?;
    if version > u64::from(VERSION) {
        return Err(format!(
            "This shop was saved by a later version of Handwheel ({version}; this one reads up to \
             {VERSION}). Update the app, then try again."
        ));
    }
    let first = usize::try_from(version - 1).map_err(|e| e.to_string())?;
    for step in &STEPS[first..] {
        value = step(value);
    }
    value["version"] = json!(VERSION);
    revive(&value)
}

fn no_shop(error: &serde_json::Error) -> String {
    // The reader's own words for it, of which there is no kind.
    if error.to_string().starts_with("recursion limit") {
        return "This is no saved shop: it is nested deeper than a shop can be.".to_owned();
    }
    if error.is_eof() {
        return format!("This is no saved shop, or not all of one: it ends too early ({error}).");
    }
    format!("This is no saved shop: {error}.")
}

/// The document of a value in the shape of this version.
pub(in crate::shop) fn revive(value: &Value) -> Result<Document, String> {
    let mut document: Document = serde_json::from_str(&value.to_string())
        .map_err(|e| format!("This saved shop is damaged: {e}."))?;
    document.rest = rest::of(value, &Value::Object(parts(&document.to_text())));
    mend(&mut document);
    Ok(document)
}

/// The parts of a document by their names.
pub(in crate::shop) fn parts(text: &str) -> Map<String, Value> {
    serde_json::from_str(text).unwrap_or_default()
}

/// Sets right what a hand or a merge can have broken without harm to anything else.
fn mend(document: &mut Document) {
    let mut wanted = document.mill.machine.clone();
    let mut taken = BTreeSet::new();
    for own in &mut document.machines {
        let before = own.id.clone();
        let is_another = make_own(&mut own.id, &own.form.name, "mill", &mut taken);
        // The first of a name that is there twice keeps it, and what refers to it.
        if is_another && before == wanted && !taken.contains(&before) {
            wanted.clone_from(&own.id);
        }
    }
    document.mill.machine = wanted;
    let mut taken = BTreeSet::new();
    for own in &mut document.cutters {
        make_own(&mut own.id, &own.cutter.name, "cutter", &mut taken);
    }
    let mut taken = BTreeSet::new();
    for favorite in &mut document.favorites {
        make_own(&mut favorite.id, &favorite.name, "cut", &mut taken);
    }
    let mut taken = BTreeSet::new();
    for job in &mut document.jobs {
        make_own(&mut job.id, &job.name, "job", &mut taken);
    }
    if document.machine().is_none() {
        document.mill.machine =
            document.machines.first().map(|machine| machine.id.clone()).unwrap_or_default();
    }
}

/// Gives an item an id that can stand in a link and that no other item of its list has; true where
/// it needed another one.
fn make_own(id: &mut String, name: &str, plain: &str, taken: &mut BTreeSet<String>) -> bool {
    let is_word = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
    let is_good = !id.is_empty() && id.len() <= LONGEST_ID && id.chars().all(is_word);
    let is_new = is_good && taken.insert(id.clone());
    if !is_new {
        let base = if is_good { id.as_str() } else { name };
        *id = free_id(base, plain, |id| taken.contains(id));
        taken.insert(id.clone());
    }
    !is_new
}

/// Longer than any that is made of a name that a person types.
const LONGEST_ID: usize = 200;
