//! The query of an address, written and read.
//!
//! A measure says its unit system in its key: `d_mm=3`. What is the default is left out.

use crate::{
    engine::{
        quantity::{System, entry::Measure},
        question::{Field, InputError},
    },
    shop::{
        typed::{Typed, measure},
        word::Word,
    },
};

pub(in crate::shop) const YES: &str = "yes";
pub(in crate::shop) const NO: &str = "no";

pub(in crate::shop) fn yes_or_no(yes: bool) -> &'static str {
    if yes { YES } else { NO }
}

pub(in crate::shop) fn word_unless<T: Word>(choice: T, plain: T) -> &'static str {
    if choice == plain { "" } else { choice.word() }
}

pub(in crate::shop) fn choose<T: Word>(
    choice: &mut T,
    word: &str,
    field: Field,
    faults: &mut Vec<InputError>,
) {
    match T::from_word(word) {
        Some(found) => *choice = found,
        None => faults.push(unknown(word, field)),
    }
}

pub(in crate::shop) fn choose_open<T: Word>(
    choice: &mut Option<T>,
    word: &str,
    field: Field,
    faults: &mut Vec<InputError>,
) {
    match T::from_word(word) {
        Some(found) => *choice = Some(found),
        None => faults.push(unknown(word, field)),
    }
}

/// True when the word was an answer.
pub(in crate::shop) fn answer(
    yes: &mut bool,
    word: &str,
    field: Field,
    faults: &mut Vec<InputError>,
) -> bool {
    match word {
        YES => *yes = true,
        NO => *yes = false,
        _ => {
            faults.push(unknown(word, field));
            return false;
        }
    }
    true
}

fn unknown(word: &str, field: Field) -> InputError {
    InputError::new(
        field,
        format!("The link says “{word}” here, which this version does not know."),
        "Choose again.",
    )
}

/// The key of an entry: its short name, and the unit of the text where the systems differ.
fn key(short: &str, field: Field, system: System) -> String {
    let unit = match (measure(field), system) {
        (Measure::Length | Measure::Chip, System::Inch) => "_in",
        (Measure::Length | Measure::Chip, System::Metric) => "_mm",
        (Measure::SurfaceSpeed, System::Inch) => "_ft_min",
        (Measure::SurfaceSpeed, System::Metric) => "_m_min",
        (Measure::Stress, System::Inch) => "_psi",
        (Measure::Stress, System::Metric) => "_N_mm2",
        (Measure::Force, System::Inch) => "_lbf",
        (Measure::Force, System::Metric) => "_N",
        (Measure::Torque, System::Inch) => "_lbf_in",
        (Measure::Torque, System::Metric) => "_N_m",
        (Measure::UnitPower, System::Inch) => "_hp",
        (Measure::UnitPower, System::Metric) => "_J_mm3",
        _ => "",
    };
    format!("{short}{unit}")
}

/// Puts the text of a key where its entry stands, in the units that the key says. A key that is of
/// no entry does nothing.
pub(in crate::shop) fn enter<'a>(
    names: &[(Field, &str)],
    found: &str,
    text: String,
    place: impl FnOnce(Field) -> Option<&'a mut Typed>,
) {
    if let Some((field, system)) = entry(names, found)
        && let Some(place) = place(field)
    {
        *place = Typed::new(text, system);
    }
}

/// The field and the unit system that a key of an entry stands for.
pub(in crate::shop) fn entry(names: &[(Field, &str)], found: &str) -> Option<(Field, System)> {
    names.iter().find_map(|(field, short)| {
        let is_it = |system: &System| key(short, *field, *system) == found;
        Some((*field, [System::Inch, System::Metric].into_iter().find(is_it)?))
    })
}

/// A query being written.
#[derive(Default)]
pub(in crate::shop) struct Query(String);

impl Query {
    /// Adds a pair; an empty value is left out.
    pub(in crate::shop) fn put(&mut self, key: &str, value: &str) {
        if value.is_empty() {
            return;
        }
        if !self.0.is_empty() {
            self.0.push('&');
        }
        self.0.push_str(key);
        self.0.push('=');
        encode(value, &mut self.0);
    }

    /// Adds what is typed at each of some fields, by their short names.
    pub(in crate::shop) fn put_typed<'a>(
        &mut self,
        names: &[(Field, &str)],
        typed: impl Fn(Field) -> Option<&'a Typed>,
    ) {
        for (field, short) in names {
            if let Some(typed) = typed(*field).and_then(Typed::given) {
                self.put(&key(short, *field, typed.system), &typed.text);
            }
        }
    }

    /// The query as it stands in an address.
    pub(in crate::shop) fn text(self) -> String {
        self.0
    }
}

fn encode(value: &str, to: &mut String) {
    for byte in value.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                to.push(char::from(byte));
            }
            b' ' => to.push('+'),
            _ => {
                to.push('%');
                for half in [byte >> 4, byte & 15] {
                    to.push(char::from(b"0123456789ABCDEF"[usize::from(half)]));
                }
            }
        }
    }
}

pub(in crate::shop) fn pairs(query: &str) -> impl Iterator<Item = (String, String)> {
    query.trim_start_matches('?').split('&').filter(|pair| !pair.is_empty()).map(|pair| {
        let (key, value) = pair.split_once('=').unwrap_or((pair, ""));
        (decode(key), decode(value))
    })
}

/// Undoes [`encode`]; a percent sign that encodes nothing stands for itself.
fn decode(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        let coded = (first == b'%')
            .then(|| after.get(..2))
            .flatten()
            .filter(|two| two.iter().all(u8::is_ascii_hexdigit))
            .and_then(|two| core::str::from_utf8(two).ok())
            .and_then(|two| u8::from_str_radix(two, 16).ok());
        if let Some(byte) = coded {
            bytes.push(byte);
            rest = &after[2..];
        } else {
            bytes.push(if first == b'+' { b' ' } else { first });
            rest = after;
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}
