//! The one door in: any text becomes a current document, or is kept as it is.

use crate::shop::document::Document;
use serde_json::{Value, json};

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

/// Restores a document from a text that any version wrote.
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
    let mut value: Value =
        serde_json::from_str(json).map_err(|e| format!("This is no saved shop: {e}."))?;
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
    let mut document: Document =
        serde_json::from_value(value).map_err(|e| format!("This saved shop is damaged: {e}."))?;
    document.version = VERSION;
    mend(&mut document);
    Ok(document)
}

/// Sets right what a hand or a merge can have broken without harm to anything else.
fn mend(document: &mut Document) {
    if document.machine().is_none() {
        document.mill.machine =
            document.machines.first().map(|machine| machine.id.clone()).unwrap_or_default();
    }
}
