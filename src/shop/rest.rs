//! What a saved document holds and this version does not know: kept where it stood.
//!
//! The rest of a value is made of objects alone: a key leads to what is unknown below it, or to the
//! unknown value itself under [`KEPT`]. Items of a list are found by their ids, or by their places
//! where they have none.

use crate::shop::merge::key;
use serde_json::{Map, Value};

/// Stands for a whole unknown value; no document has such a key.
const KEPT: &str = "\u{0}kept";

/// What `known` lacks of `all`; nothing where it lacks nothing.
#[must_use]
pub(in crate::shop) fn of(all: &Value, known: &Value) -> Value {
    let mut rest = Map::new();
    match (all, known) {
        (Value::Object(all), Value::Object(known)) => {
            for (name, value) in all {
                let lacking = match known.get(name) {
                    Some(known) => of(value, known),
                    None => Value::Object(Map::from_iter([(KEPT.to_owned(), value.clone())])),
                };
                if !lacking.is_null() {
                    rest.insert(name.clone(), lacking);
                }
            }
        }
        (Value::Array(all), Value::Array(known)) => {
            for (place, (value, known)) in all.iter().zip(known).enumerate() {
                let lacking = of(value, known);
                if !lacking.is_null() {
                    rest.insert(name_at(known, place, all.len()), lacking);
                }
            }
        }
        _ => {}
    }
    if rest.is_empty() { Value::Null } else { Value::Object(rest) }
}

/// Puts the rest back where it stood; what a person has changed since stays changed.
pub(in crate::shop) fn put_back(value: &mut Value, rest: &Value) {
    let Value::Object(rest) = rest else { return };
    match value {
        Value::Object(value) => {
            for (name, lacking) in rest {
                match (value.get_mut(name), lacking.get(KEPT)) {
                    (None, Some(kept)) => {
                        value.insert(name.clone(), kept.clone());
                    }
                    (Some(value), None) => put_back(value, lacking),
                    _ => {}
                }
            }
        }
        Value::Array(items) => {
            let length = items.len();
            for (place, item) in items.iter_mut().enumerate() {
                if let Some(lacking) = rest.get(&name_at(item, place, length)) {
                    put_back(item, lacking);
                }
            }
        }
        _ => {}
    }
}

/// A place says something only as long as the list has its length.
fn name_at(item: &Value, place: usize, length: usize) -> String {
    if item.get("id").is_some_and(Value::is_string) {
        key(item)
    } else {
        format!("#{place} of {length}")
    }
}
