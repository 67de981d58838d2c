//! A hole that is wanted, as it is asked about: the form and its link.
//!
//! [`making`] reads it and asks for its recipe. A form that says nothing else is of a tapped hole,
//! which is what the card of a thread shows.

pub mod making;

use crate::{
    engine::{
        holes::clearance::Fit,
        quantity::Angle,
        question::{Field, InputError},
        stock::Material,
        threads::{
            Thread, form_tap,
            tap::{self, Advice, Style},
        },
    },
    shop::{
        cuts::CutterKind,
        query::{NO, Query, YES, answer, choose, enter, pairs, word_unless},
        typed::{Typed, typed_at},
        usual,
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

words!(Fit: Close = "close", Normal = "normal", Loose = "loose");

/// What a hole is to be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FinishKind {
    /// Drilled to a size.
    Plain,
    /// For a screw to pass through.
    Clearance,
    /// Reamed to a size.
    Reamed,
    /// Tapped.
    #[default]
    Tapped,
    /// For a socket head, sunk flush.
    Counterbored,
    /// For a flat head, sunk flush.
    Countersunk,
}
words!(FinishKind:
    Tapped = "tapped",
    Clearance = "clearance",
    Plain = "plain",
    Reamed = "reamed",
    Counterbored = "counterbored",
    Countersunk = "countersunk",
);

impl FinishKind {
    /// True when a screw goes through the hole.
    #[must_use]
    pub fn is_for_a_screw(self) -> bool {
        matches!(self, Self::Clearance | Self::Counterbored | Self::Countersunk)
    }

    /// True when the hole is asked for by its diameter.
    #[must_use]
    pub fn is_sized(self) -> bool {
        matches!(self, Self::Plain | Self::Reamed)
    }
}

/// The head that a countersink is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FlatHead {
    /// With a socket.
    #[default]
    Socket,
    /// Of a machine screw, with a slot or a recess.
    Machine,
}
words!(FlatHead: Socket = "socket", Machine = "machine");

/// The form of a hole. What was typed is kept as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoleForm {
    /// What it is to be.
    pub finish: FinishKind,
    /// The machine, by its id; empty for the one on the mill.
    pub machine: String,
    /// The stock, by its id; empty for the one on the mill.
    pub stock: String,
    /// The screw, as its table names it.
    pub screw: String,
    /// How much room the screw has.
    pub fit: Fit,
    /// By the shop chart in place of the standard.
    pub chart: bool,
    /// The head of a countersunk screw.
    pub head: FlatHead,
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
    /// Under power, where the machine allows it.
    pub under_power: bool,
    /// Ends on the far side.
    pub through: bool,
    /// Length of full thread.
    pub full_thread: Typed,
    /// Thickness of the stock where the hole goes.
    pub plate: Typed,
    /// Depth at the full diameter.
    pub depth: Typed,
    /// Diameter of a hole that is asked for by it.
    pub size: Typed,
    /// A drill of the person's own choice for a tap, by its name or its size.
    pub drill: Typed,
    /// Threads of the tap's chamfer, where they were counted.
    pub chamfer: Typed,
    /// What is left for chips below the tap.
    pub spare: Typed,
    /// Included angle of the drill's point.
    pub point: Typed,
    /// Surface speed of the drill.
    pub surface_speed: Typed,
    /// Feed of the drill, per turn.
    pub feed: Typed,
}

impl Default for HoleForm {
    fn default() -> Self {
        Self {
            finish: FinishKind::default(),
            machine: String::new(),
            stock: String::new(),
            screw: String::new(),
            fit: Fit::Normal,
            chart: false,
            head: FlatHead::default(),
            thread: String::new(),
            percent: None,
            to_class: true,
            oversize: false,
            tap: Style::Plug,
            under_power: false,
            through: true,
            full_thread: Typed::default(),
            plate: Typed::default(),
            depth: Typed::default(),
            size: Typed::default(),
            drill: Typed::default(),
            chamfer: Typed::default(),
            spare: Typed::default(),
            point: Typed::default(),
            surface_speed: Typed::default(),
            feed: Typed::default(),
        }
    }
}

/// The short name of every typed entry. The drill of one's own choice stands at [`Field::Pilot`]:
/// the size of a hole that is asked for by it is another entry.
const KEYS: [(Field, &str); 10] = [
    (Field::FullThread, "full"),
    (Field::Plate, "plate"),
    (Field::Depth, "depth"),
    (Field::Hole, "hole"),
    (Field::Pilot, "drill"),
    (Field::TapChamfer, "chamfer"),
    (Field::Spare, "spare"),
    (Field::PointAngle, "point"),
    (Field::SurfaceSpeed, "v"),
    (Field::Feed, "feed"),
];

typed_at!(HoleForm:
    FullThread => full_thread,
    Plate => plate,
    Depth => depth,
    Hole => size,
    Pilot => drill,
    TapChamfer => chamfer,
    Spare => spare,
    PointAngle => point,
    SurfaceSpeed => surface_speed,
    Feed => feed,
);

impl HoleForm {
    /// The percentage of thread: the person's own, else the one that thread, stock and tap ask for,
    /// with its reason.
    #[must_use]
    pub fn percent(&self, thread: Thread, stock: Option<&Material>) -> (u32, Option<Advice>) {
        if let Some(percent) = self.percent {
            return (percent, None);
        }
        // Of a hole that goes through no length of thread is asked.
        let asked = (!self.through).then_some(&self.full_thread);
        let length = asked.and_then(|typed| typed.length(Field::FullThread).ok());
        let mut advice = tap::advise(thread, stock, length);
        if self.tap.forms() {
            advice = Advice {
                percent: form_tap::ADVISED,
                range: (form_tap::ADVISED, form_tap::ADVISED),
                reason: "Usual for a forming tap: more presses harder and holds no better.",
                source: form_tap::SOURCE,
            };
        }
        // A percentage is whole here: the advice is given in fives.
        (advice.percent as u32, Some(advice))
    }

    /// Included angle of a drill's point where none was typed.
    #[must_use]
    pub fn usual_point(&self) -> Angle {
        usual::point_angle(CutterKind::Drill, self.point.system)
    }

    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("kind", word_unless(self.finish, plain.finish));
        query.put("thread", &self.thread);
        query.put("screw", &self.screw);
        query.put("fit", word_unless(self.fit, plain.fit));
        query.put("chart", if self.chart { YES } else { "" });
        query.put("head", word_unless(self.head, plain.head));
        query.put("percent", &self.percent.map_or_else(String::new, |p| p.to_string()));
        query.put("class", if self.to_class { "" } else { NO });
        query.put("oversize", if self.oversize { YES } else { "" });
        query.put("tap", word_unless(self.tap, plain.tap));
        query.put("power", if self.under_power { YES } else { "" });
        query.put("through", if self.through { "" } else { NO });
        query.put_typed(&KEYS, |field| self.typed(field));
        query.put("stock", &self.stock);
        query.put("mill", &self.machine);
        query.text()
    }

    /// The form of a query, and what in it could not be understood, each at its field.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            match name.as_str() {
                "kind" => choose(&mut form.finish, &value, Field::Operation, &mut faults),
                "thread" => form.thread = value,
                "screw" => form.screw = value,
                "fit" => choose(&mut form.fit, &value, Field::Fit, &mut faults),
                "chart" => {
                    answer(&mut form.chart, &value, Field::Fit, &mut faults);
                }
                "head" => choose(&mut form.head, &value, Field::Screw, &mut faults),
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
                    answer(&mut form.under_power, &value, Field::TapChamfer, &mut faults);
                }
                "through" => {
                    answer(&mut form.through, &value, Field::Depth, &mut faults);
                }
                "stock" => form.stock = value,
                "mill" => form.machine = value,
                found => {
                    enter(&KEYS, found, value, |field| form.typed_mut(field));
                }
            }
        }
        (form, faults)
    }
}
