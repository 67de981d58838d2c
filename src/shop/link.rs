//! Links: a cut form as the query of an address, and back. A favorite, a code to scan and a
//! bookmark are the same link.
//!
//! Keys are short and readable, a measure says its unit system in its key: `op=slot&d_mm=3`.
//! What is the default is left out. A key that is not known is passed over, so that an old copy
//! of the app opens a new link; a value that is not known is reported at its field.

use crate::{
    engine::{
        quantity::{System, entry::Measure},
        question::{Field, InputError},
    },
    shop::{
        cuts::CutForm,
        typed::{Typed, measure},
        word::Word,
    },
};

impl CutForm {
    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("op", self.operation.word());
        query.put("mill", &self.mill.machine);
        query.put("stock", &self.mill.stock);
        let cutter = &self.mill.cutter;
        query.put("cutter", &cutter.name);
        query.put("kind", cutter.kind.word());
        query.put("of", cutter.material.word());
        query.put("tip", word_unless(cutter.tip, plain.mill.cutter.tip));
        query.put("center", cutter.center_cutting.map_or("", yes_or_no));
        query.put("coated", if cutter.coated { YES } else { "" });
        query.put("holder", self.mill.holding.holder.map_or("", Word::word));
        query.put("worn", if self.mill.holding.worn { YES } else { "" });
        for (field, short) in KEYS {
            if let Some(typed) = self.typed(field).and_then(Typed::given) {
                query.put(&key(short, field, typed.system), &typed.text);
            }
        }
        query.put("through", if self.through { "" } else { NO });
        query.put("finish", if self.finish { YES } else { "" });
        query.put("climb", if self.climb { YES } else { "" });
        query.put("coolant", self.coolant.map_or("", Word::word));
        query.put("style", word_unless(self.style, plain.style));
        query.0
    }

    /// The form of a query, and what in it could not be understood, each at its field. A text that
    /// was typed is kept whatever it is; reading the form judges it.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (key, value) in pairs(query) {
            let cutter = &mut form.mill.cutter;
            let holding = &mut form.mill.holding;
            match key.as_str() {
                "op" => choose(&mut form.operation, &value, Field::Operation, &mut faults),
                "mill" => form.mill.machine = value,
                "stock" => form.mill.stock = value,
                "cutter" => cutter.name = value,
                "kind" => choose(&mut cutter.kind, &value, Field::CutterKind, &mut faults),
                "of" => choose(&mut cutter.material, &value, Field::ToolMaterial, &mut faults),
                "tip" => choose(&mut cutter.tip, &value, Field::Tip, &mut faults),
                "center" => {
                    let mut center = false;
                    if answer(&mut center, &value, Field::CutterKind, &mut faults) {
                        cutter.center_cutting = Some(center);
                    }
                }
                "coated" => {
                    answer(&mut cutter.coated, &value, Field::ToolMaterial, &mut faults);
                }
                "holder" => {
                    choose_open(&mut holding.holder, &value, Field::Holder, &mut faults);
                }
                "worn" => {
                    answer(&mut holding.worn, &value, Field::Runout, &mut faults);
                }
                "through" => {
                    answer(&mut form.through, &value, Field::Operation, &mut faults);
                }
                "finish" => {
                    answer(&mut form.finish, &value, Field::Operation, &mut faults);
                }
                "climb" => {
                    answer(&mut form.climb, &value, Field::Feeding, &mut faults);
                }
                "coolant" => choose_open(&mut form.coolant, &value, Field::Coolant, &mut faults),
                "style" => choose(&mut form.style, &value, Field::Style, &mut faults),
                key => enter(&mut form, key, value),
            }
        }
        (form, faults)
    }
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 24] = [
    (Field::Diameter, "d"),
    (Field::Teeth, "teeth"),
    (Field::FluteLength, "flute"),
    (Field::Shank, "shank"),
    (Field::Helix, "helix"),
    (Field::CornerRadius, "corner"),
    (Field::EnteringAngle, "entering"),
    (Field::PointAngle, "point"),
    (Field::Thickness, "thick"),
    (Field::Pitch, "pitch"),
    (Field::Stickout, "out"),
    (Field::Runout, "tir"),
    (Field::Width, "width"),
    (Field::Depth, "depth"),
    (Field::CutLength, "length"),
    (Field::Pilot, "pilot"),
    (Field::Hole, "hole"),
    (Field::SpindleSpeed, "rpm"),
    (Field::SurfaceSpeed, "v"),
    (Field::Feed, "feed"),
    (Field::Chip, "chip"),
    (Field::Passes, "passes"),
    (Field::CuttingForce, "kc"),
    (Field::UnitPower, "up"),
];

const YES: &str = "yes";
const NO: &str = "no";

fn yes_or_no(yes: bool) -> &'static str {
    if yes { YES } else { NO }
}

fn word_unless<T: Word>(choice: T, plain: T) -> &'static str {
    if choice == plain { "" } else { choice.word() }
}

fn choose<T: Word>(choice: &mut T, word: &str, field: Field, faults: &mut Vec<InputError>) {
    match T::from_word(word) {
        Some(found) => *choice = found,
        None => faults.push(unknown(word, field)),
    }
}

fn choose_open<T: Word>(
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
fn answer(yes: &mut bool, word: &str, field: Field, faults: &mut Vec<InputError>) -> bool {
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

fn enter(form: &mut CutForm, key_found: &str, value: String) {
    for (field, short) in KEYS {
        for system in [System::Inch, System::Metric] {
            if key(short, field, system) == key_found {
                if let Some(typed) = form.typed_mut(field) {
                    *typed = Typed::new(value, system);
                }
                return;
            }
        }
    }
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
        (Measure::UnitPower, System::Inch) => "_hp",
        (Measure::UnitPower, System::Metric) => "_J_mm3",
        _ => "",
    };
    format!("{short}{unit}")
}

/// A query being written.
#[derive(Default)]
struct Query(String);

impl Query {
    /// Adds a pair; an empty value is left out.
    fn put(&mut self, key: &str, value: &str) {
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

fn pairs(query: &str) -> impl Iterator<Item = (String, String)> {
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
