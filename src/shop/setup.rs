//! A set-up that is worked out: the form, its link, and what it comes to.

use crate::{
    engine::{
        convert,
        layout::edge::{self, Side},
        limits::threshold::edge_finder_cap,
        machine::Machine,
        quantity::{Force, Length, SpindleSpeed},
        question::{Field, InputError},
        setup::{
            parallels::{self, Range, Under},
            passes::PassPlan,
            sine, strap,
            touch::{self, Between, Touch},
            tram::Tram,
        },
    },
    shop::{
        entries::{Entries, at, keep},
        query::{Query, YES, answer, choose, choose_open, entry, pairs, word_unless},
        typed::Typed,
        word::{Word, words},
    },
};
use serde::{Deserialize, Serialize};

words!(Side: Left = "left", Right = "right", Front = "front", Back = "back");

/// What is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Helper {
    /// What to type when a finder touches a face.
    Face,
    /// The middle between two touches: of two edges, a bore, a boss.
    Middle,
    /// Parallels under a part in the vise.
    Parallels,
    /// Straps on the table.
    Strap,
    /// The head out of square.
    Head,
    /// The vise out of square.
    Vise,
    /// The cutter beside a wall.
    Wall,
    /// A slot wider than its cutter.
    Slot,
    /// Where a drill comes out.
    Exit,
    /// An angle over a sine bar.
    Sine,
}
words!(Helper:
    Face = "face",
    Middle = "middle",
    Parallels = "parallels",
    Strap = "strap",
    Head = "head",
    Vise = "vise",
    Wall = "wall",
    Slot = "slot",
    Exit = "exit",
    Sine = "sine",
);

impl Helper {
    /// The entries it asks for, those it cannot do without first.
    #[must_use]
    pub fn fields(self) -> (&'static [Field], &'static [Field]) {
        match self {
            Self::Face => (&[Field::FinderTip], &[Field::Face]),
            Self::Middle => (&[Field::FinderTip, Field::Travel], &[]),
            Self::Parallels => (
                &[Field::JawHeight, Field::PartHeight, Field::SideCut],
                &[
                    Field::PartWidth,
                    Field::Hole,
                    Field::HoleCentre,
                    Field::ParallelThickness,
                    Field::Pieces,
                    Field::Air,
                    Field::Grip,
                ],
            ),
            Self::Strap => (
                &[Field::Torque, Field::BoltDiameter, Field::ToWork, Field::ToHeel],
                &[
                    Field::SideForce,
                    Field::PartHeight,
                    Field::Straps,
                    Field::Friction,
                    Field::SafetyFactor,
                    Field::NutFactor,
                ],
            ),
            Self::Head => (
                &[Field::LeftReading, Field::RightReading, Field::Sweep],
                &[Field::RowStep, Field::Diameter, Field::Width],
            ),
            Self::Vise => (
                &[Field::LeftReading, Field::RightReading, Field::Sweep],
                &[Field::Pivot, Field::PartLength],
            ),
            Self::Wall => (
                &[Field::Diameter],
                &[
                    Field::Wall,
                    Field::Allowance,
                    Field::CornerRadius,
                    Field::Depth,
                    Field::LargestPass,
                    Field::FinishPass,
                ],
            ),
            Self::Slot => (
                &[Field::Diameter, Field::SlotWidth],
                &[
                    Field::Wall,
                    Field::Allowance,
                    Field::Depth,
                    Field::LargestPass,
                    Field::FinishPass,
                ],
            ),
            Self::Exit => (
                &[Field::PartHeight, Field::Depth, Field::ParallelHeight],
                &[Field::PartWidth, Field::Hole, Field::HoleCentre, Field::ParallelThickness],
            ),
            Self::Sine => (&[Field::SineBar, Field::SineAngle], &[]),
        }
    }
}

/// The form. What was typed is kept as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetupForm {
    /// What is worked out; none while it is chosen.
    pub helper: Option<Helper>,
    /// What is typed at the fields.
    pub entries: Entries,
    /// On which side of a face or a wall the tool stands.
    pub side: Side,
    /// Both touches are inside, as in a bore.
    pub inside: bool,
}

impl Default for SetupForm {
    fn default() -> Self {
        Self { helper: None, entries: Entries::default(), side: Side::Left, inside: false }
    }
}

const KEYS: [(Field, &str); 38] = [
    (Field::FinderTip, "tip"),
    (Field::Face, "face"),
    (Field::Travel, "travel"),
    (Field::JawHeight, "jaw"),
    (Field::PartHeight, "part"),
    (Field::SideCut, "cut"),
    (Field::PartWidth, "between"),
    (Field::Hole, "hole"),
    (Field::HoleCentre, "hole_at"),
    (Field::ParallelThickness, "thick"),
    (Field::Pieces, "set"),
    (Field::Air, "air"),
    (Field::Grip, "grip"),
    (Field::Torque, "torque"),
    (Field::BoltDiameter, "bolt"),
    (Field::ToWork, "to_work"),
    (Field::ToHeel, "to_heel"),
    (Field::SideForce, "force"),
    (Field::Straps, "straps"),
    (Field::Friction, "friction"),
    (Field::SafetyFactor, "factor"),
    (Field::NutFactor, "nut"),
    (Field::LeftReading, "l"),
    (Field::RightReading, "r"),
    (Field::Sweep, "sweep"),
    (Field::RowStep, "rows"),
    (Field::Diameter, "d"),
    (Field::Width, "width"),
    (Field::Pivot, "pivot"),
    (Field::PartLength, "length"),
    (Field::Wall, "wall"),
    (Field::Allowance, "left"),
    (Field::SlotWidth, "slot"),
    (Field::CornerRadius, "corner"),
    (Field::Depth, "depth"),
    (Field::LargestPass, "pass"),
    (Field::FinishPass, "finish"),
    (Field::ParallelHeight, "on"),
];
const SINE: [(Field, &str); 2] = [(Field::SineBar, "bar"), (Field::SineAngle, "angle")];

impl SetupForm {
    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("at", self.helper.map_or("", Word::word));
        query.put("side", word_unless(self.side, plain.side));
        query.put("inside", if self.inside { YES } else { "" });
        query.put_typed(&KEYS, |field| self.entries.given(field));
        query.put_typed(&SINE, |field| self.entries.given(field));
        query.text()
    }

    /// The form of a query, and what in it could not be understood, each at its field.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (name, value) in pairs(query) {
            match name.as_str() {
                "at" => choose_open(&mut form.helper, &value, Field::Operation, &mut faults),
                "side" => choose(&mut form.side, &value, Field::Operation, &mut faults),
                "inside" => {
                    answer(&mut form.inside, &value, Field::Operation, &mut faults);
                }
                found => {
                    let key = entry(&KEYS, found).or_else(|| entry(&SINE, found));
                    if let Some((field, system)) = key {
                        form.entries.set(field, Typed::new(value, system));
                    }
                }
            }
        }
        (form, faults)
    }
}

/// The part of the saved document that set-ups keep.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct SetupShelf {
    /// The last form of each helper, as the query of its link.
    pub last: Vec<String>,
}

impl SetupShelf {
    /// The last form of a helper.
    #[must_use]
    pub fn last(&self, helper: Helper) -> Option<SetupForm> {
        let forms = self.last.iter().map(|query| SetupForm::from_query(query).0);
        forms.into_iter().find(|form| form.helper == Some(helper))
    }

    /// Keeps a form as the last one of its helper.
    pub fn remember(&mut self, form: &SetupForm) {
        let Some(helper) = form.helper else { return };
        let query = form.to_query();
        if self.last.contains(&query) {
            return;
        }
        self.last.retain(|query| SetupForm::from_query(query).0.helper != Some(helper));
        self.last.push(query);
    }
}

/// A hole in a part on parallels, and where those are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OverParallels {
    /// Width of the part between the jaws.
    pub width: Length,
    /// Thickness of a parallel.
    pub thickness: Length,
    /// The hole.
    pub under: Under,
}

/// What a form comes to.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "each figure is named after what it is")]
pub enum Outcome {
    /// What to type into the readout.
    Face { value: Length, tip: Length, face: Length, side: Side },
    /// Size, middle, and what to type at the second touch.
    Middle { between: Between, zero: Length, tip: Length, inside: bool },
    /// Which parallels.
    Parallels {
        range: Range,
        choice: Option<Length>,
        jaw: Length,
        part: Length,
        side_cut: Length,
        least_grip: Length,
        is_own_set: bool,
        hole: Option<OverParallels>,
    },
    /// What straps hold.
    Strap {
        bolt: Force,
        work: Force,
        friction: Force,
        allowed: Force,
        force: Option<Force>,
        straps: u32,
        to_work: Length,
        to_heel: Length,
        heel: Option<(Length, Length)>,
    },
    /// How far the head is off, and what it does to the part.
    Head { tram: Tram, sweep: Length, step: Option<Length>, hollow: Option<Length> },
    /// How far the vise is off, and how far to move it.
    Vise { tram: Tram, sweep: Length, at_bolt: Option<Length>, over_part: Option<Length> },
    /// The axis beside a wall.
    Wall {
        rough: Length,
        finish: Length,
        wall: Length,
        diameter: Length,
        side: Side,
        passes: Option<PassPlan>,
    },
    /// The axis between two walls.
    Slot {
        rough: (Length, Length),
        finish: (Length, Length),
        middle: Length,
        width: Length,
        diameter: Length,
        passes: Option<PassPlan>,
    },
    /// What is left under a drill.
    Exit {
        left: Length,
        part: Length,
        below: Length,
        parallel: Length,
        hole: Option<OverParallels>,
    },
    /// Blocks under a sine bar.
    Sine { height: Length, bar: Length, angle: f64 },
}

/// The fastest speed of a machine that a finder with a spring may turn at.
#[must_use]
pub fn finder_speed(machine: &Machine) -> Option<SpindleSpeed> {
    machine.neighbours(edge_finder_cap().within).0
}

impl SetupForm {
    /// What the form comes to.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read(&self) -> Result<Outcome, Vec<InputError>> {
        let mut faults = Vec::new();
        let outcome = self.outcome(&mut faults);
        match outcome {
            Some(outcome) if faults.is_empty() => Ok(outcome),
            _ => Err(faults),
        }
    }

    fn outcome(&self, faults: &mut Vec<InputError>) -> Option<Outcome> {
        let e = &self.entries;
        match self.helper? {
            Helper::Face => {
                let tip = keep(faults, e.length(Field::FinderTip));
                let face = keep(faults, e.signed(Field::Face));
                let (tip, face, side) = (tip?, face?, self.side);
                let value = touch::value_at_face(face, tip, side);
                let value = keep(faults, value.map_err(|error| at(Field::FinderTip, &error)))?;
                Some(Outcome::Face { value, tip, face, side })
            }
            Helper::Middle => {
                let tip = keep(faults, e.length(Field::FinderTip));
                let typed = e.at(Field::Travel).length_or_nothing(Field::Travel);
                let travel = keep(faults, typed);
                let (tip, travel) = (tip?, travel?);
                let touch = if self.inside { Touch::Inside } else { Touch::Outside };
                // The second touch may lie to either side: its number shrinks then.
                let between = touch::between(travel.abs(), tip, touch);
                let between = keep(faults, between.map_err(|error| at(Field::Travel, &error)))?;
                let zero = touch::zero_in_the_middle(travel);
                let zero = keep(faults, zero.map_err(|error| at(Field::Travel, &error)))?;
                Some(Outcome::Middle { between, zero, tip, inside: self.inside })
            }
            Helper::Parallels => self.parallels(faults),
            Helper::Strap => self.strap(faults),
            Helper::Head => {
                let (tram, sweep) = self.tram(faults)?;
                let step = keep(faults, e.some_length(Field::RowStep))?;
                let step = step.map(|step| tram.row_step(step));
                let step = step.transpose().map_err(|error| at(Field::RowStep, &error));
                let step = keep(faults, step)?;
                let cutter = self.both(Field::Diameter, Field::Width, faults)?;
                let hollow = cutter.map(|(diameter, width)| tram.hollow(diameter, width));
                let hollow = hollow.transpose().map_err(|error| at(Field::Width, &error));
                let hollow = keep(faults, hollow)?;
                Some(Outcome::Head { tram, sweep, step, hollow })
            }
            Helper::Vise => {
                let (tram, sweep) = self.tram(faults)?;
                let pivot = keep(faults, e.some_length(Field::Pivot));
                let part = keep(faults, e.some_length(Field::PartLength));
                let over = |length: Option<Length>| length.and_then(|l| tram.at_bolt(l).ok());
                let (at_bolt, over_part) = (over(pivot?), over(part?));
                Some(Outcome::Vise { tram, sweep, at_bolt, over_part })
            }
            Helper::Wall => {
                let diameter = keep(faults, e.length(Field::Diameter));
                let wall = keep(faults, e.signed(Field::Wall));
                let left = keep(faults, e.some_length(Field::Allowance));
                let corner = keep(faults, e.some_length(Field::CornerRadius));
                let passes = self.passes(faults);
                let (diameter, wall, left) = (diameter?, wall?, left?.unwrap_or(Length::ZERO));
                if let Some(corner) = corner? {
                    let fits = edge::fits_corner(diameter, corner);
                    keep(faults, fits.map_err(|error| at(Field::CornerRadius, &error)))?;
                }
                let axis = |left| edge::axis(wall, diameter, left, self.side);
                let finish = axis(Length::ZERO).map_err(|error| at(Field::Diameter, &error));
                let rough = axis(left).map_err(|error| at(Field::Allowance, &error));
                let (finish, rough) = (keep(faults, finish)?, keep(faults, rough)?);
                let side = self.side;
                Some(Outcome::Wall { rough, finish, wall, diameter, side, passes: passes? })
            }
            Helper::Slot => {
                let diameter = keep(faults, e.length(Field::Diameter));
                let width = keep(faults, e.length(Field::SlotWidth));
                let middle = keep(faults, e.signed(Field::Wall));
                let left = keep(faults, e.some_length(Field::Allowance));
                let passes = self.passes(faults);
                let (diameter, width, middle) = (diameter?, width?, middle?);
                let axis = |left| edge::between(middle, width, diameter, left);
                let finish = axis(Length::ZERO).map_err(|error| at(Field::Diameter, &error));
                let rough = axis(left?.unwrap_or(Length::ZERO));
                let rough = rough.map_err(|error| at(Field::Allowance, &error));
                let finish = keep(faults, finish)?;
                let rough = keep(faults, rough)?;
                Some(Outcome::Slot { rough, finish, middle, width, diameter, passes: passes? })
            }
            Helper::Exit => {
                let part = keep(faults, e.length(Field::PartHeight));
                let depth = keep(faults, e.length(Field::Depth));
                let parallel = keep(faults, e.length(Field::ParallelHeight));
                let hole = self.over_parallels(faults);
                let (part, depth, parallel) = (part?, depth?, parallel?);
                let below = (depth - part).max(Length::ZERO);
                let left = parallels::left_under(parallel, below);
                let left = keep(faults, left.map_err(|error| at(Field::ParallelHeight, &error)))?;
                Some(Outcome::Exit { left, part, below, parallel, hole: hole? })
            }
            Helper::Sine => {
                let bar = keep(faults, e.length(Field::SineBar));
                let angle = keep(faults, e.at(Field::SineAngle).angle(Field::SineAngle));
                let (bar, angle) = (bar?, angle?);
                let height = sine::height(bar, angle);
                let height = keep(faults, height.map_err(|error| at(Field::SineAngle, &error)))?;
                Some(Outcome::Sine { height, bar, angle: angle.to_degree() })
            }
        }
    }

    fn parallels(&self, faults: &mut Vec<InputError>) -> Option<Outcome> {
        let e = &self.entries;
        let jaw = keep(faults, e.length(Field::JawHeight));
        let part = keep(faults, e.length(Field::PartHeight));
        let cut = keep(faults, e.at(Field::SideCut).length_or_nothing(Field::SideCut));
        let air = keep(faults, e.length_or(Field::Air, parallels::usual_air()));
        let grip = keep(faults, e.some_length(Field::Grip));
        let owned = keep(faults, self.owned());
        let hole = self.over_parallels(faults);
        let (jaw, part, side_cut) = (jaw?, part?, cut?);
        let least_grip = grip?.unwrap_or_else(|| parallels::least_grip(part));
        let range = parallels::range(jaw, part, side_cut, air?, least_grip);
        let range = keep(faults, range.map_err(|error| at(Field::SideCut, &error)))?;
        let (owned, is_own_set) = owned?;
        Some(Outcome::Parallels {
            choice: range.choice(&owned),
            range,
            jaw,
            part,
            side_cut,
            least_grip,
            is_own_set,
            hole: hole?,
        })
    }

    /// The heights there are to choose from; eighths of an inch where nobody has said.
    fn owned(&self) -> Result<(Vec<Length>, bool), InputError> {
        let typed = self.entries.at(Field::Pieces);
        if typed.is_empty() {
            return Ok(((4..=13).map(|n| Length::inch(f64::from(n) / 8.0)).collect(), false));
        }
        let read = |piece: &str| {
            convert::length(piece, typed.system)
                .map_err(|error| InputError::new(Field::Pieces, error.problem, error.hint))
        };
        let owned = typed.text.split_whitespace().map(read).collect::<Result<_, _>>()?;
        Ok((owned, true))
    }

    #[allow(clippy::option_option, reason = "a hole that is not asked about is no fault")]
    fn over_parallels(&self, faults: &mut Vec<InputError>) -> Option<Option<OverParallels>> {
        let e = &self.entries;
        if e.given(Field::HoleCentre).is_none() {
            return Some(None);
        }
        let width = keep(faults, e.length(Field::PartWidth));
        let hole = keep(faults, e.length(Field::Hole));
        let centre = keep(faults, e.length(Field::HoleCentre));
        let usual = Length::inch(0.125);
        let thickness = keep(faults, e.length_or(Field::ParallelThickness, usual));
        let (width, thickness) = (width?, thickness?);
        let under = parallels::under(width, thickness, hole?, centre?);
        let under = keep(faults, under.map_err(|error| at(Field::HoleCentre, &error)))?;
        Some(Some(OverParallels { width, thickness, under }))
    }

    fn strap(&self, faults: &mut Vec<InputError>) -> Option<Outcome> {
        let e = &self.entries;
        let number = |field: Field, usual: f64| {
            e.given(field).map_or(Ok(usual), |typed| typed.number(field))
        };
        let torque = keep(faults, e.at(Field::Torque).torque(Field::Torque));
        let diameter = keep(faults, e.length(Field::BoltDiameter));
        let nut = keep(faults, number(Field::NutFactor, NUT_FACTOR));
        let friction = keep(faults, number(Field::Friction, FRICTION));
        let factor = keep(faults, number(Field::SafetyFactor, SAFETY));
        let to_work = keep(faults, e.length(Field::ToWork));
        let to_heel = keep(faults, e.length(Field::ToHeel));
        let straps = e.given(Field::Straps);
        let straps = straps.map_or(Ok(STRAPS), |typed| typed.count(Field::Straps, 20));
        let straps = keep(faults, straps);
        let force = e.given(Field::SideForce).map(|typed| typed.force(Field::SideForce));
        let force = keep(faults, force.transpose());
        let part = keep(faults, e.some_length(Field::PartHeight));
        let (to_work, to_heel, straps, mu) = (to_work?, to_heel?, straps?, friction?);
        let bolt = strap::bolt_force(torque?, diameter?, nut?);
        let bolt = keep(faults, bolt.map_err(|error| at(Field::Torque, &error)))?;
        let work = strap::at_work(bolt, to_work, to_heel);
        let work = keep(faults, work.map_err(|error| at(Field::ToWork, &error)))?;
        let hold = |factor| {
            strap::side_hold(work, straps, mu, factor).map_err(|error| at(Field::Friction, &error))
        };
        let (friction, allowed) = (keep(faults, hold(1.0))?, keep(faults, hold(factor?))?);
        Some(Outcome::Strap {
            bolt,
            work,
            friction,
            allowed,
            force: force?,
            straps,
            to_work,
            to_heel,
            heel: part?.map(strap::heel),
        })
    }

    fn tram(&self, faults: &mut Vec<InputError>) -> Option<(Tram, Length)> {
        let e = &self.entries;
        let left = keep(faults, e.signed(Field::LeftReading));
        let right = e.at(Field::RightReading).length_or_nothing(Field::RightReading);
        let right = keep(faults, right);
        let sweep = keep(faults, e.length(Field::Sweep));
        let sweep = sweep?;
        let tram = Tram::new(left?, right?, sweep);
        let tram = keep(faults, tram.map_err(|error| at(Field::RightReading, &error)))?;
        Some((tram, sweep))
    }

    #[allow(clippy::option_option, reason = "what is not asked about is no fault")]
    fn both(
        &self,
        one: Field,
        other: Field,
        faults: &mut Vec<InputError>,
    ) -> Option<Option<(Length, Length)>> {
        let e = &self.entries;
        if e.given(one).is_none() && e.given(other).is_none() {
            return Some(None);
        }
        let both = (keep(faults, e.length(one)), keep(faults, e.length(other)));
        Some(Some((both.0?, both.1?)))
    }

    #[allow(clippy::option_option, reason = "a cut without a depth is no fault")]
    fn passes(&self, faults: &mut Vec<InputError>) -> Option<Option<PassPlan>> {
        let e = &self.entries;
        let finish = keep(faults, e.some_length(Field::FinishPass));
        let depth = self.both(Field::Depth, Field::LargestPass, faults)?;
        let finish = finish?.unwrap_or(Length::ZERO);
        let plan = depth.map(|(depth, largest)| PassPlan::new(depth, largest, finish));
        let plan = plan.transpose().map_err(|error| at(Field::FinishPass, &error));
        keep(faults, plan)
    }
}

/// Nut factor of a clean dry stud. Common practice.
pub const NUT_FACTOR: f64 = 0.2;
/// Friction of a part on the table under straps. Common practice.
pub const FRICTION: f64 = 0.15;
/// Against slipping. Common practice.
pub const SAFETY: f64 = 2.0;
/// One alone is a pivot.
pub const STRAPS: u32 = 2;
