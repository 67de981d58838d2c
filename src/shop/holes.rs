//! A hole that is wanted, as it is asked about: a thread and its drill, or any finished hole.

use crate::{
    engine::{
        holes::clearance::Fit,
        question::{Field, InputError},
        threads::tap::Style,
    },
    shop::{
        query::{NO, Query, YES, answer, choose, key, pairs, word_unless},
        typed::Typed,
        word::words,
    },
};

/// What a hole is to be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum FinishKind {
    /// Threaded.
    #[default]
    Tapped,
    /// For a screw to pass.
    Clearance,
    /// For the head of a socket screw.
    Counterbored,
    /// For a flat head.
    Countersunk,
    /// To size with a reamer.
    Reamed,
    /// Drilled.
    Plain,
}

words!(FinishKind:
    Tapped = "tapped",
    Clearance = "clearance",
    Counterbored = "counterbored",
    Countersunk = "countersunk",
    Reamed = "reamed",
    Plain = "plain",
);
words!(Fit: Close = "close", Normal = "normal", Loose = "loose");
words!(Style:
    Taper = "taper",
    Plug = "plug",
    Bottoming = "bottoming",
    FormPlug = "form_plug",
    FormBottoming = "form_bottoming",
);

impl FinishKind {
    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Tapped => "Tapped",
            Self::Clearance => "Clearance",
            Self::Counterbored => "Counterbored",
            Self::Countersunk => "Countersunk",
            Self::Reamed => "Reamed",
            Self::Plain => "Drilled",
        }
    }
}

/// The form of a hole. What was typed is kept as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoleForm {
    /// What it is to be.
    pub finish: FinishKind,
    /// The machine, by its id; empty for the one in use.
    pub machine: String,
    /// The stock, by its id; empty for the one on the mill.
    pub stock: String,
    /// The thread, as it is designated; also the screw of a clearance hole or a head.
    pub thread: String,
    /// Percentage of thread wanted; `None` for the one the stock asks for.
    pub percent: Option<u32>,
    /// A hole inside the class before one at the percentage.
    pub to_class: bool,
    /// What the drill cuts over its size is allowed for.
    pub oversize: bool,
    /// The tap that finishes it.
    pub tap: Style,
    /// Tapped under power, where the machine allows it.
    pub under_power: bool,
    /// How a screw passes.
    pub fit: Fit,
    /// Ends on the far side.
    pub through: bool,
    /// Length of full thread.
    pub full_thread: Typed,
    /// Thickness of the stock where the hole goes.
    pub plate: Typed,
    /// Depth of a blind hole at its full diameter.
    pub depth: Typed,
    /// Diameter of a plain or reamed hole.
    pub size: Typed,
}

impl Default for HoleForm {
    fn default() -> Self {
        Self {
            finish: FinishKind::Tapped,
            machine: String::new(),
            stock: String::new(),
            thread: String::new(),
            percent: None,
            to_class: true,
            oversize: false,
            tap: Style::Plug,
            under_power: false,
            fit: Fit::Normal,
            through: true,
            full_thread: Typed::default(),
            plate: Typed::default(),
            depth: Typed::default(),
            size: Typed::default(),
        }
    }
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 4] = [
    (Field::FullThread, "full"),
    (Field::Plate, "plate"),
    (Field::Depth, "depth"),
    (Field::Hole, "hole"),
];

impl HoleForm {
    /// What is typed at a field.
    #[must_use]
    pub fn typed(&self, field: Field) -> Option<&Typed> {
        Some(match field {
            Field::FullThread => &self.full_thread,
            Field::Plate => &self.plate,
            Field::Depth => &self.depth,
            Field::Hole => &self.size,
            _ => return None,
        })
    }

    /// [`Self::typed`], to be changed.
    pub fn typed_mut(&mut self, field: Field) -> Option<&mut Typed> {
        Some(match field {
            Field::FullThread => &mut self.full_thread,
            Field::Plate => &mut self.plate,
            Field::Depth => &mut self.depth,
            Field::Hole => &mut self.size,
            _ => return None,
        })
    }

    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("thread", &self.thread);
        query.put("finish", word_unless(self.finish, plain.finish));
        query.put("percent", &self.percent.map_or_else(String::new, |p| p.to_string()));
        query.put("class", if self.to_class { "" } else { NO });
        query.put("oversize", if self.oversize { YES } else { "" });
        query.put("tap", word_unless(self.tap, plain.tap));
        query.put("power", if self.under_power { YES } else { "" });
        query.put("fit", word_unless(self.fit, plain.fit));
        query.put("through", if self.through { "" } else { NO });
        for (field, short) in KEYS {
            if let Some(typed) = self.typed(field).and_then(Typed::given) {
                query.put(&key(short, field, typed.system), &typed.text);
            }
        }
        query.put("mill", &self.machine);
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
                "finish" => choose(&mut form.finish, &value, Field::Operation, &mut faults),
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
                "power" => {
                    answer(&mut form.under_power, &value, Field::Operation, &mut faults);
                }
                "fit" => choose(&mut form.fit, &value, Field::Fit, &mut faults),
                "through" => {
                    answer(&mut form.through, &value, Field::Depth, &mut faults);
                }
                "mill" => form.machine = value,
                "stock" => form.stock = value,
                found => form.enter(found, value),
            }
        }
        (form, faults)
    }

    fn enter(&mut self, found: &str, value: String) {
        use crate::engine::quantity::System;
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
