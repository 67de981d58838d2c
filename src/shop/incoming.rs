//! What comes in from elsewhere, a backup file or a code, looked at before anything is written.

use crate::shop::{
    document::Document,
    merge::key,
    restore::{parts, restore, revive},
};
use serde_json::{Map, Value};

/// A saved shop is smaller: a browser keeps no more for one app.
pub const LARGEST: usize = 8_000_000;
/// More of one kind is in no shop.
const MOST_ITEMS: usize = 5_000;
/// Longer than anything that a person types.
const LONGEST_TEXT: usize = 20_000;

/// Reads what comes from elsewhere.
///
/// # Errors
/// A sentence: as [`restore`], and for what is larger than a shop can be.
pub fn read(text: &str) -> Result<Document, String> {
    if text.len() > LARGEST {
        return Err(too_large(text.len()));
    }
    let document = restore(text).map_err(|unreadable| unreadable.problem)?;
    let parts = parts(&document.to_text());
    parts.iter().try_for_each(|(part, value)| within(part, value))?;
    Ok(document)
}

/// What is said of a file that no shop can fill.
#[must_use]
pub fn too_large(bytes: usize) -> String {
    format!(
        "This is no saved shop: it has {} MB, and a shop has at most {}.",
        bytes.div_ceil(1_000_000),
        LARGEST / 1_000_000
    )
}

fn within(part: &str, value: &Value) -> Result<(), String> {
    match value {
        Value::Array(items) if items.len() > MOST_ITEMS => Err(format!(
            "This is no saved shop: it lists {} {part}, and a shop has at most {MOST_ITEMS}.",
            items.len()
        )),
        Value::Array(items) => items.iter().try_for_each(|item| within(part, item)),
        Value::Object(map) => map.values().try_for_each(|value| within(part, value)),
        Value::String(text) if text.len() > LONGEST_TEXT => Err(format!(
            "This is no saved shop: a text of its {part} has {} letters, and at most \
             {LONGEST_TEXT} are read.",
            text.chars().count()
        )),
        _ => Ok(()),
    }
}

/// A document with what came from elsewhere added to it, and what that means.
#[derive(Clone, Debug, PartialEq)]
pub struct Joined {
    /// The document.
    pub document: Document,
    /// Names of what is new in it.
    pub new: Vec<String>,
    /// Names of what is here too, but not the same, so that both are kept.
    pub both: Vec<String>,
    /// How many things are here already.
    pub same: usize,
}

/// Adds what comes from elsewhere to what is here. Nothing that is here changes: settings, checks
/// and what is on the mill stay, and of two things of one name that differ both are kept. The
/// sample shop, which is nobody's, makes room.
///
/// # Errors
/// A sentence, where the two cannot be one.
pub fn join(here: &Document, theirs: &Document) -> Result<Joined, String> {
    let mut start = here.clone();
    if here.sample {
        start = Document::default();
        start.settings = here.settings.clone();
    }
    let mut joining = Joining::default();
    let mut all = parts(&start.to_text());
    // The mills are named first.
    let mut theirs: Vec<(String, Value)> = parts(&theirs.to_text()).into_iter().collect();
    theirs.sort_by_key(|(part, _)| part != "machines");
    for (part, value) in theirs {
        let is_theirs = !AT_HAND.contains(&part.as_str()) || start.is_new();
        if is_theirs && !STAYS.contains(&part.as_str()) {
            joining.add(&mut all, &part, value);
        }
    }
    let mut document = revive(&Value::Object(all))?;
    document.drills.trust(&start.drills);
    let news = joining.new.len() + joining.both.len();
    let news = u32::try_from(news).unwrap_or(u32::MAX);
    document.backup.changes = document.backup.changes.saturating_add(news);
    Ok(Joined { document, new: joining.new, both: joining.both, same: joining.same })
}

/// Parts that are as they are here.
const STAYS: [&str; 10] = [
    "version", "sample", "mill", "last_cut", "settings", "welcome", "backup", "checks", "trace",
    "marks",
];

/// What belongs to the mills and to the work that were here: notes, what was looked at, the batch
/// and the patterns under way. A shop without a mill takes them too.
const AT_HAND: [&str; 5] = ["log", "recents", "plans", "layouts", "setups"];

/// What two things of one name are told apart by.
const FROM: &str = " (from elsewhere)";

#[derive(Default)]
struct Joining {
    new: Vec<String>,
    both: Vec<String>,
    same: usize,
}

impl Joining {
    fn add(&mut self, to: &mut Map<String, Value>, name: &str, value: Value) {
        match (to.get_mut(name), value) {
            (None, value) => {
                to.insert(name.to_owned(), value);
            }
            (Some(Value::Object(here)), Value::Object(there)) => {
                for (name, value) in there {
                    self.add(here, &name, value);
                }
            }
            (Some(Value::Array(here)), Value::Array(there)) => {
                for item in there {
                    self.add_item(here, item);
                }
            }
            (Some(here), value) if is_empty(here) => *here = value,
            _ => {}
        }
    }

    fn add_item(&mut self, here: &mut Vec<Value>, mut item: Value) {
        let id = key(&item);
        let is_named = item.get("id").is_some();
        match here.iter().find(|found| key(found) == id) {
            None => {
                self.new.extend(is_named.then(|| name_of(&item)));
                here.push(item);
            }
            Some(found) if *found == item => self.same += usize::from(is_named),
            Some(_) => {
                let name = name_of(&item);
                if let Some(own) = own_name(&mut item)
                    && !own.is_empty()
                    && !own.ends_with(FROM)
                {
                    own.push_str(FROM);
                }
                // The id that is taken gives way to a free one as the document is read.
                if here.iter().any(|found| is_but_for_id(found, &item)) {
                    self.same += 1;
                } else {
                    self.both.push(name);
                    here.push(item);
                }
            }
        }
    }
}

fn is_empty(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::String(text) => text.is_empty(),
        _ => false,
    }
}

fn is_but_for_id(one: &Value, other: &Value) -> bool {
    let (Some(one), Some(other)) = (one.as_object(), other.as_object()) else { return false };
    one.len() == other.len()
        && one.iter().all(|(key, value)| key == "id" || other.get(key) == Some(value))
}

/// Where an item of any list keeps the name that its owner gave it.
fn own_name(item: &mut Value) -> Option<&mut String> {
    let place = ["/name", "/form/name", "/cutter/name"]
        .into_iter()
        .find(|place| item.pointer(place).is_some_and(Value::is_string))?;
    match item.pointer_mut(place) {
        Some(Value::String(name)) => Some(name),
        _ => None,
    }
}

fn name_of(item: &Value) -> String {
    let mut item = item.clone();
    match own_name(&mut item) {
        Some(name) if !name.trim().is_empty() => name.trim().to_owned(),
        _ => key(&item).replace('_', " "),
    }
}
