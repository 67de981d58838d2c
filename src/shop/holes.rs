//! A tapped hole that is wanted, as it is asked about.

use crate::{
    engine::{
        quantity::System,
        question::{Field, InputError},
        threads::tap::Style,
    },
    shop::{
        query::{NO, Query, YES, answer, choose, key, pairs, word_unless},
        typed::Typed,
        word::words,
    },
};

words!(Style:
    Taper = "taper",
    Plug = "plug",
    Bottoming = "bottoming",
    FormPlug = "form_plug",
    FormBottoming = "form_bottoming",
);

/// The form of a tapped hole. What was typed is kept as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoleForm {
    /// The stock, by its id; empty for the one on the mill.
    pub stock: String,
    /// The thread, as it is designated.
    pub thread: String,
    /// Percentage of thread wanted; `None` for the one the stock asks for.
    pub percent: Option<u32>,
    /// A hole inside the class before one at the percentage.
    pub to_class: bool,
    /// What the drill cuts over its size is allowed for.
    pub oversize: bool,
    /// The tap at hand.
    pub tap: Style,
    /// Ends on the far side.
    pub through: bool,
    /// Length of full thread.
    pub full_thread: Typed,
    /// Thickness of the stock where the hole goes.
    pub plate: Typed,
}

impl Default for HoleForm {
    fn default() -> Self {
        Self {
            stock: String::new(),
            thread: String::new(),
            percent: None,
            to_class: true,
            oversize: false,
            tap: Style::Plug,
            through: true,
            full_thread: Typed::default(),
            plate: Typed::default(),
        }
    }
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 2] = [(Field::FullThread, "full"), (Field::Plate, "plate")];

impl HoleForm {
    /// What is typed at a field.
    #[must_use]
    pub fn typed(&self, field: Field) -> Option<&Typed> {
        Some(match field {
            Field::FullThread => &self.full_thread,
            Field::Plate => &self.plate,
            _ => return None,
        })
    }

    /// [`Self::typed`], to be changed.
    pub fn typed_mut(&mut self, field: Field) -> Option<&mut Typed> {
        Some(match field {
            Field::FullThread => &mut self.full_thread,
            Field::Plate => &mut self.plate,
            _ => return None,
        })
    }

    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("thread", &self.thread);
        query.put("percent", &self.percent.map_or_else(String::new, |p| p.to_string()));
        query.put("class", if self.to_class { "" } else { NO });
        query.put("oversize", if self.oversize { YES } else { "" });
        query.put("tap", word_unless(self.tap, plain.tap));
        query.put("through", if self.through { "" } else { NO });
        for (field, short) in KEYS {
            if let Some(typed) = self.typed(field).and_then(Typed::given) {
                query.put(&key(short, field, typed.system), &typed.text);
            }
        }
        query.put("stock", &self.stock);
        query.text()
    }

    /// The form of a query, and what in it could not be understood, each at its field.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            match name.as_str() {
                "thread" => form.thread = value,
                "percent" => match value.parse() {
                    Ok(percent @ 1..=100) => form.percent = Some(percent),
                    _ => faults.push(InputError::new(
                        Field::Percent,
                        format!("The link says “{value}” here, which is no percentage of thread."),
                        "Choose again.",
                    )),
                },
                "class" => {
                    answer(&mut form.to_class, &value, Field::Percent, &mut faults);
                }
                "oversize" => {
                    answer(&mut form.oversize, &value, Field::Hole, &mut faults);
                }
                "tap" => choose(&mut form.tap, &value, Field::TapChamfer, &mut faults),
                "through" => {
                    answer(&mut form.through, &value, Field::Depth, &mut faults);
                }
                "stock" => form.stock = value,
                found => form.enter(found, value),
            }
        }
        (form, faults)
    }

    fn enter(&mut self, found: &str, value: String) {
        for (field, short) in KEYS {
            for system in [System::Inch, System::Metric] {
                if key(short, field, system) == found {
                    if let Some(typed) = self.typed_mut(field) {
                        *typed = Typed::new(value, system);
                    }
                    return;
                }
            }
        }
    }
}
