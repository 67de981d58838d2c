//! Where holes are to be, as it is asked for: the form and its link, and what has been drilled.
//!
//! [`laid`] reads the form into places.

pub mod laid;
pub mod shelf;

use crate::{
    engine::{
        layout::{circle::Direction, moved::Mirror},
        question::{Field, InputError},
    },
    shop::{
        entries::Entries,
        holes::{FinishKind, HoleForm},
        query::{Query, YES, answer, choose, choose_open, entry, pairs, word_unless},
        typed::Typed,
        word::{Word, words},
    },
};

words!(Direction: CounterClockwise = "ccw", Clockwise = "cw");
words!(Mirror: LeftRight = "left_right", FrontBack = "front_back");

/// How holes are given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shape {
    /// All the way round a circle.
    #[default]
    Circle,
    /// Along a part of a circle.
    Arc,
    /// In a row.
    Row,
    /// In rows and columns.
    Grid,
    /// Along the sides of a rectangle.
    Rectangle,
    /// One by one, by X and Y.
    List,
    /// One by one, by radius and angle.
    Polar,
    /// No holes: the cutter's axis around a round outline, in steps.
    Steps,
}
words!(Shape:
    Circle = "circle",
    Arc = "arc",
    Row = "row",
    Grid = "grid",
    Rectangle = "rectangle",
    List = "list",
    Polar = "polar",
    Steps = "steps",
);

impl Shape {
    /// True when its holes are typed one by one.
    #[must_use]
    pub fn is_listed(self) -> bool {
        matches!(self, Self::List | Self::Polar)
    }

    /// The entries it asks for, those it cannot do without first.
    #[must_use]
    pub fn fields(self) -> &'static [Field] {
        match self {
            Self::Circle => {
                &[Field::Holes, Field::Circle, Field::StartAngle, Field::CentreX, Field::CentreY]
            }
            Self::Arc => &[
                Field::Holes,
                Field::Circle,
                Field::StartAngle,
                Field::StepAngle,
                Field::CentreX,
                Field::CentreY,
            ],
            Self::Row => {
                &[Field::Holes, Field::StepX, Field::StepY, Field::CentreX, Field::CentreY]
            }
            Self::Grid => &[
                Field::Holes,
                Field::Rows,
                Field::StepX,
                Field::StepY,
                Field::CentreX,
                Field::CentreY,
            ],
            Self::Rectangle => &[
                Field::Holes,
                Field::Rows,
                Field::SizeX,
                Field::SizeY,
                Field::CentreX,
                Field::CentreY,
            ],
            Self::List => &[],
            Self::Polar => &[Field::CentreX, Field::CentreY],
            Self::Steps => &[
                Field::Radius,
                Field::Diameter,
                Field::StartAngle,
                Field::Span,
                Field::StepAngle,
                Field::CentreX,
                Field::CentreY,
            ],
        }
    }
}

/// Most holes that are typed one by one.
pub const MOST_LISTED: usize = 60;

/// The form. What was typed is kept as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LayoutForm {
    /// How the holes are given.
    pub shape: Shape,
    /// What is typed at the fields.
    pub entries: Entries,
    /// X and Y, or radius and angle, of holes that are given one by one.
    pub places: Vec<(Typed, Typed)>,
    /// Which way holes on a circle follow each other.
    pub direction: Direction,
    /// The angle of an arc is that from its first hole to its last.
    pub by_span: bool,
    /// A hole in the middle, too.
    pub centre_hole: bool,
    /// The cutter's axis runs inside of the outline.
    pub inside: bool,
    /// Mirrored at a line through the datum.
    pub mirror: Option<Mirror>,
    /// In the order that makes the way short; as listed otherwise.
    pub short: bool,
    /// Every hole is reached with its numbers growing, for screws with play.
    pub one_side: bool,
    /// The thread of the holes; may stay empty.
    pub thread: String,
    /// The hole that is at hand, counted from 1 along the way; none while the list is looked at.
    pub at: Option<u32>,
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 26] = [
    (Field::Holes, "n"),
    (Field::Rows, "rows"),
    (Field::Circle, "d"),
    (Field::Radius, "radius"),
    (Field::Diameter, "cutter"),
    (Field::StartAngle, "start"),
    (Field::StepAngle, "step"),
    (Field::Span, "span"),
    (Field::CentreX, "x"),
    (Field::CentreY, "y"),
    (Field::StepX, "step_x"),
    (Field::StepY, "step_y"),
    (Field::SizeX, "size_x"),
    (Field::SizeY, "size_y"),
    (Field::Turned, "turned"),
    (Field::Copies, "copies"),
    (Field::DatumX, "datum_x"),
    (Field::DatumY, "datum_y"),
    (Field::SkewAlong, "along"),
    (Field::SkewOff, "off"),
    (Field::PartX, "part_x"),
    (Field::PartY, "part_y"),
    (Field::TableX, "table_x"),
    (Field::TableY, "table_y"),
    (Field::Hole, "hole"),
    (Field::Depth, "depth"),
];
/// Of a hole that is given by X and Y, and of one that is given by radius and angle.
const LISTED: [(Field, &str); 4] = [
    (Field::PlaceX, "px"),
    (Field::PlaceY, "py"),
    (Field::PlaceRadius, "pr"),
    (Field::PlaceAngle, "pa"),
];

impl LayoutForm {
    /// The fields of one hole of a list.
    #[must_use]
    pub fn place_fields(&self) -> (Field, Field) {
        match self.shape {
            Shape::Polar => (Field::PlaceRadius, Field::PlaceAngle),
            _ => (Field::PlaceX, Field::PlaceY),
        }
    }

    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let yes = |yes: bool| if yes { YES } else { "" };
        let mut query = Query::default();
        query.put("shape", word_unless(self.shape, plain.shape));
        query.put_typed(&KEYS, |field| self.entries.given(field));
        if self.shape.is_listed() {
            let (first, second) = self.place_fields();
            for (a, b) in &self.places {
                // An empty one keeps its place in the list.
                let mut put = |field: Field, typed: &Typed| {
                    let dash = Typed::new("-", typed.system);
                    let typed = if typed.is_empty() { &dash } else { typed };
                    query.put_typed(&LISTED, |found| (found == field).then_some(typed));
                };
                put(first, a);
                put(second, b);
            }
        }
        query.put("way", word_unless(self.direction, plain.direction));
        query.put("by_span", yes(self.by_span));
        query.put("middle", yes(self.centre_hole));
        query.put("inside", yes(self.inside));
        query.put("mirror", self.mirror.map_or("", Word::word));
        query.put("short", yes(self.short));
        query.put("one_side", yes(self.one_side));
        query.put("thread", &self.thread);
        query.put("at", &self.at.map_or_else(String::new, |at| at.to_string()));
        query.text()
    }

    /// The form of a query, and what in it could not be understood, each at its field.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            let mut yes = |place: &mut bool| {
                answer(place, &value, Field::Operation, &mut faults);
            };
            match name.as_str() {
                "shape" => choose(&mut form.shape, &value, Field::Operation, &mut faults),
                "way" => choose(&mut form.direction, &value, Field::Operation, &mut faults),
                "mirror" => choose_open(&mut form.mirror, &value, Field::Operation, &mut faults),
                "by_span" => yes(&mut form.by_span),
                "middle" => yes(&mut form.centre_hole),
                "inside" => yes(&mut form.inside),
                "short" => yes(&mut form.short),
                "one_side" => yes(&mut form.one_side),
                "thread" => form.thread = value,
                "at" => form.at = value.parse().ok().filter(|at| *at > 0),
                found => {
                    if let Some((field, system)) = entry(&KEYS, found) {
                        form.entries.set(field, Typed::new(value, system));
                    } else if let Some((field, system)) = entry(&LISTED, found) {
                        form.take_listed(field, Typed::new(value, system));
                    }
                }
            }
        }
        (form, faults)
    }

    fn take_listed(&mut self, field: Field, mut typed: Typed) {
        if typed.text == "-" {
            typed.text.clear();
        }
        match field {
            Field::PlaceX | Field::PlaceRadius => {
                if self.places.len() < MOST_LISTED {
                    self.places.push((typed, Typed::default()));
                }
            }
            _ => {
                if let Some(last) = self.places.last_mut() {
                    last.1 = typed;
                }
            }
        }
    }

    /// What stands for the places alone: the link without what is done at them.
    #[must_use]
    pub fn pattern(&self) -> String {
        let mut form = self.clone();
        form.entries = form.entries.without(&[Field::Hole, Field::Depth]);
        form.thread.clear();
        form.at = None;
        form.to_query()
    }

    /// The hole itself, for its recipe; none where nothing is said of it.
    #[must_use]
    pub fn hole(&self) -> Option<HoleForm> {
        let thread = self.thread.trim();
        let size = self.entries.given(Field::Hole);
        if thread.is_empty() && size.is_none() {
            return None;
        }
        let plain = HoleForm::default();
        let finish = if thread.is_empty() { FinishKind::Plain } else { plain.finish };
        Some(HoleForm {
            finish,
            thread: thread.to_owned(),
            size: size.filter(|_| thread.is_empty()).cloned().unwrap_or_default(),
            depth: self.entries.at(Field::Depth),
            through: self.entries.given(Field::Depth).is_none(),
            ..plain
        })
    }
}
