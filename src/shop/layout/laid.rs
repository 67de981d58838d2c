//! A form read into places: where every hole is, the way through them, and what stands against it.

use super::{LayoutForm, Shape};
use crate::{
    engine::{
        layout::{
            LayoutError, Place,
            arc::{Side, SteppedArc},
            circle::BoltCircle,
            moved, points, readout, rows, travel,
        },
        quantity::{Angle, Length},
        question::{Field, InputError},
    },
    shop::entries::{at, keep},
};

/// The most steps around an outline.
const MOST_STEPS: f64 = 720.0;

/// A pattern as it is drilled.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// Every hole from the datum in use, as they are listed.
    pub places: Vec<Place>,
    /// The way through them: places in the list.
    pub order: Vec<usize>,
    /// How long the way is, from the datum.
    pub way: Length,
    /// The centre, the first hole or the corner that the pattern is given from.
    pub centre: Place,
    /// Corners of the part, from its own at the datum of the drawing; none where its size is not
    /// known.
    pub part: Option<[Place; 4]>,
    /// From hole to hole, straight, on a circle.
    pub chord: Option<Length>,
    /// How far a straight step leaves a round outline in its middle.
    pub flat: Option<Length>,
    /// How far the part is turned on the table.
    pub askew: Option<Angle>,
    /// Diameter of the holes, where it is known; of the cutter around an outline.
    pub hole: Option<Length>,
    /// Depth, where it is known.
    pub depth: Option<Length>,
    /// The table's way from the least number to the largest, in X and in Y.
    pub table: (Length, Length),
    /// Holes that do not lie within the part, as they are listed.
    pub outside: Vec<usize>,
    /// Holes that meet another one, as they are listed.
    pub meeting: Vec<usize>,
}

impl Laid {
    /// The hole at a place of the way, counted from 1, with its place in the list.
    #[must_use]
    pub fn along(&self, at: u32) -> Option<(usize, Place)> {
        let n = *self.order.get((at as usize).checked_sub(1)?)?;
        Some((n, *self.places.get(n)?))
    }

    /// The move to a place of the way, counted from 1, from the one before it or from the datum.
    #[must_use]
    pub fn step(&self, at: u32) -> Option<travel::Move> {
        let (_, to) = self.along(at)?;
        let from = self.along(at.checked_sub(1)?).map_or(Place::ORIGIN, |(_, place)| place);
        Some(travel::step(from, to))
    }

    /// The largest error that the steps of a readout leave.
    #[must_use]
    pub fn worst_error(&self, step: Length) -> Option<Length> {
        readout::worst_error(&self.places, step).ok()
    }
}

impl LayoutForm {
    /// The places that the form asks for.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read(&self) -> Result<Laid, Vec<InputError>> {
        let mut faults = Vec::new();
        let e = &self.entries;
        let centre = self.place(Field::CentreX, Field::CentreY, &mut faults);
        let datum = self.place(Field::DatumX, Field::DatumY, &mut faults);
        let turned = keep(&mut faults, e.signed_angle(Field::Turned));
        let copies = match e.given(Field::Copies) {
            Some(typed) => keep(&mut faults, typed.count(Field::Copies, 360)),
            None => Some(1),
        };
        let askew = self.askew(&mut faults);
        let part = self.pair(Field::PartX, Field::PartY, &mut faults);
        let table = self.pair(Field::TableX, Field::TableY, &mut faults);
        let hole = keep(&mut faults, e.some_length(Field::Hole));
        let depth = keep(&mut faults, e.some_length(Field::Depth));
        let drawn = centre.and_then(|centre| self.drawn(centre, &mut faults));
        let (
            Some(centre),
            Some(datum),
            Some(turned),
            Some(copies),
            Some(askew),
            Some(drawn),
            Some(part),
            Some(table),
            Some(hole),
            Some(depth),
        ) = (centre, datum, turned, copies, askew, drawn, part, table, hole, depth)
        else {
            return Err(faults);
        };

        let turn = |place: Place| {
            let place = place.turned(centre, turned);
            self.mirror.map_or(place, |mirror| place.mirrored(Place::ORIGIN, mirror))
        };
        let drawn_places: Vec<Place> = drawn.places.iter().copied().map(turn).collect();
        let about = self.mirror.map_or(centre, |mirror| centre.mirrored(Place::ORIGIN, mirror));
        let drawn_places = moved::copies(&drawn_places, about, copies)
            .map_err(|error| vec![at(Field::Copies, &error)])?;
        let (outside, meeting) = (outside(&drawn_places, part, hole), meeting(&drawn_places, hole));
        let on_table = |place: Place| {
            let place = askew.map_or(place, |angle| place.turned(Place::ORIGIN, angle));
            place.from_datum(datum)
        };
        let places: Vec<Place> = drawn_places.into_iter().map(on_table).collect();
        let table_way = extent(&places);
        if let Some((x, y)) = table {
            for (field, way, has) in
                [(Field::TableX, table_way.0, x), (Field::TableY, table_way.1, y)]
            {
                if way > has {
                    return Err(vec![InputError::new(
                        field,
                        "The holes lie further apart than the table travels.",
                        "Drill them from two datums, or on the other machine.",
                    )]);
                }
            }
        }
        let order = if self.short {
            travel::short(Place::ORIGIN, &places)
        } else {
            (0..places.len()).collect()
        };
        let corners = part.map(|(x, y)| {
            let zero = Length::ZERO;
            [(zero, zero), (x, zero), (x, y), (zero, y)].map(|(x, y)| on_table(Place { x, y }))
        });
        Ok(Laid {
            way: travel::length(Place::ORIGIN, &places, &order),
            order,
            places,
            centre: on_table(about),
            part: corners,
            chord: drawn.chord,
            flat: drawn.flat,
            askew,
            hole: drawn.cutter.or(hole),
            depth,
            table: table_way,
            outside,
            meeting: if drawn.cutter.is_some() { Vec::new() } else { meeting },
        })
    }

    /// The place of a hole that is typed, counted from 0.
    ///
    /// # Errors
    /// What of it cannot be read, at its field.
    pub fn listed(&self, n: usize, centre: Place) -> Result<Place, Vec<InputError>> {
        let Some((a, b)) = self.places.get(n) else { return Err(Vec::new()) };
        let (first, second) = self.place_fields();
        let mut faults = Vec::new();
        let place = if self.shape == Shape::Polar {
            let radius = keep(&mut faults, a.length_or_nothing(first));
            let angle = keep(&mut faults, b.angle_or_nothing(second));
            let (Some(radius), Some(angle)) = (radius, angle) else { return Err(faults) };
            points::polar(centre, radius, angle).map_err(|error| vec![at(first, &error)])?
        } else {
            let x = keep(&mut faults, a.length_or_nothing(first));
            let y = keep(&mut faults, b.length_or_nothing(second));
            let (Some(x), Some(y)) = (x, y) else { return Err(faults) };
            Place { x, y }
        };
        Ok(place)
    }

    fn place(&self, x: Field, y: Field, faults: &mut Vec<InputError>) -> Option<Place> {
        let (x, y) = (keep(faults, self.entries.signed(x)), keep(faults, self.entries.signed(y)));
        Some(Place { x: x?, y: y? })
    }

    /// Two sizes that are known together or not at all.
    #[allow(clippy::option_option, reason = "what is not known is no fault")]
    fn pair(
        &self,
        x: Field,
        y: Field,
        faults: &mut Vec<InputError>,
    ) -> Option<Option<(Length, Length)>> {
        if self.entries.given(x).is_none() && self.entries.given(y).is_none() {
            return Some(None);
        }
        let sizes = (keep(faults, self.entries.length(x)), keep(faults, self.entries.length(y)));
        Some(Some((sizes.0?, sizes.1?)))
    }

    #[allow(clippy::option_option, reason = "a part that was not measured is no fault")]
    fn askew(&self, faults: &mut Vec<InputError>) -> Option<Option<Angle>> {
        let e = &self.entries;
        if e.given(Field::SkewAlong).is_none() && e.given(Field::SkewOff).is_none() {
            return Some(None);
        }
        let along = e.at(Field::SkewAlong).length_or_nothing(Field::SkewAlong);
        let (along, off) = (keep(faults, along), keep(faults, e.signed(Field::SkewOff)));
        let angle = moved::askew(along?, off?);
        Some(Some(keep(faults, angle.map_err(|error| at(Field::SkewAlong, &error)))?))
    }

    fn drawn(&self, centre: Place, faults: &mut Vec<InputError>) -> Option<Drawn> {
        let e = &self.entries;
        let count = |field: Field| e.at(field).count(field, MOST_HOLES);
        let plain = |places| Drawn { places, chord: None, flat: None, cutter: None };
        let with_middle = |mut places: Vec<Place>| {
            if self.centre_hole {
                places.push(centre);
            }
            places
        };
        match self.shape {
            Shape::Circle | Shape::Arc => {
                let holes = keep(faults, count(Field::Holes));
                let diameter = keep(faults, e.length(Field::Circle));
                let start = keep(faults, e.signed_angle(Field::StartAngle));
                let circle = if self.shape == Shape::Arc {
                    let angle = e.at(Field::StepAngle).angle(Field::StepAngle);
                    let angle = keep(faults, angle)?;
                    let (holes, diameter, start) = (holes?, diameter?, start?);
                    let gaps = f64::from(holes.saturating_sub(1).max(1));
                    let step = if self.by_span { angle / gaps } else { angle };
                    // The last of them may not come to the place of the first.
                    if holes > 1 && step.to_degree() * gaps > 360.0 - 1e-9 {
                        faults.push(InputError::new(
                            Field::StepAngle,
                            "The last hole comes to the first one, or past it.",
                            "Enter a smaller angle, or choose the whole circle.",
                        ));
                        return None;
                    }
                    BoltCircle::part(holes, diameter, centre, start, step, self.direction)
                } else {
                    BoltCircle::new(holes?, diameter?, centre, start?, self.direction)
                };
                let circle = keep(faults, circle.map_err(|error| at(Field::Circle, &error)))?;
                let chord = (circle.holes() > 1).then(|| circle.chord());
                Some(Drawn { chord, ..plain(with_middle(circle.places())) })
            }
            Shape::Row => {
                let holes = keep(faults, count(Field::Holes));
                let x = keep(faults, e.signed(Field::StepX));
                let y = keep(faults, e.signed(Field::StepY));
                let places = rows::line(centre, holes?, x?, y?);
                keep(faults, places.map_err(|error| at(Field::StepX, &error))).map(plain)
            }
            Shape::Grid => {
                let columns = keep(faults, count(Field::Holes));
                let rows = keep(faults, count(Field::Rows));
                let x = keep(faults, e.signed(Field::StepX));
                let y = keep(faults, e.signed(Field::StepY));
                let places = rows::grid(centre, columns?, rows?, x?, y?);
                let field = |error: &LayoutError| match error {
                    LayoutError::NoStep if x.is_some_and(|x| x.to_mm() != 0.0) => Field::StepY,
                    LayoutError::NoStep => Field::StepX,
                    _ => Field::Holes,
                };
                keep(faults, places.map_err(|error| at(field(&error), &error))).map(plain)
            }
            Shape::Rectangle => {
                let columns = keep(faults, count(Field::Holes));
                let rows = keep(faults, count(Field::Rows));
                let x = keep(faults, e.length(Field::SizeX));
                let y = keep(faults, e.length(Field::SizeY));
                let places = rows::rectangle(centre, x?, y?, columns?, rows?);
                let places = places.map_err(|error| at(Field::Holes, &error));
                keep(faults, places).map(|places| plain(with_middle(places)))
            }
            Shape::List | Shape::Polar => {
                if self.places.is_empty() {
                    faults.push(at(self.place_fields().0, &LayoutError::NoHoles));
                    return None;
                }
                let mut places = Vec::with_capacity(self.places.len());
                for n in 0..self.places.len() {
                    match self.listed(n, centre) {
                        Ok(place) => places.push(place),
                        Err(wrong) => faults.extend(wrong.into_iter().map(|fault| {
                            let problem = format!("Hole {}: {}", n + 1, fault.problem);
                            InputError::new(fault.field, problem, fault.hint)
                        })),
                    }
                }
                (places.len() == self.places.len()).then(|| plain(places))
            }
            Shape::Steps => self.steps(centre, faults),
        }
    }

    fn steps(&self, centre: Place, faults: &mut Vec<InputError>) -> Option<Drawn> {
        let e = &self.entries;
        let radius = keep(faults, e.length(Field::Radius));
        let cutter = keep(faults, e.length(Field::Diameter));
        let start = keep(faults, e.signed_angle(Field::StartAngle));
        let span = keep(faults, e.at(Field::Span).angle(Field::Span));
        let step = keep(faults, e.at(Field::StepAngle).angle(Field::StepAngle));
        let (start, span, step) = (start?, span?, step?);
        let side = if self.inside { Side::Inside } else { Side::Outside };
        let arc = SteppedArc::new(radius?, cutter?, side, centre);
        let arc = keep(faults, arc.map_err(|error| at(Field::Diameter, &error)))?;
        let flat = arc.flat_height(step).map_err(|error| at(Field::StepAngle, &error));
        let flat = keep(faults, flat)?;
        let steps = libm::ceil(span / step - 1e-9);
        if steps > MOST_STEPS || span.to_degree() > 360.0 {
            faults.push(InputError::new(
                Field::StepAngle,
                "That is more steps than anyone cuts.",
                "Enter a larger step, and an arc of 360° at the most.",
            ));
            return None;
        }
        let sign = if self.direction == crate::engine::layout::circle::Direction::Clockwise {
            -1.0
        } else {
            1.0
        };
        // The last step ends where the arc does.
        let turned = |n: u32| (step * f64::from(n)).min(span) * sign;
        let places = (0..=steps as u32).map(|n| arc.at(start + turned(n)));
        let places = places.collect::<Result<Vec<_>, _>>().map_err(|error| at(Field::Span, &error));
        let places = keep(faults, places)?;
        Some(Drawn { places, chord: None, flat: Some(flat), cutter })
    }
}

/// More than this is a slip of the finger.
const MOST_HOLES: u32 = 1000;

/// A pattern as it is drawn, before it is moved.
struct Drawn {
    places: Vec<Place>,
    chord: Option<Length>,
    flat: Option<Length>,
    cutter: Option<Length>,
}

fn extent(places: &[Place]) -> (Length, Length) {
    let way = |of: fn(&Place) -> Length| {
        let least = places.iter().map(of).reduce(Length::min).unwrap_or(Length::ZERO);
        let most = places.iter().map(of).reduce(Length::max).unwrap_or(Length::ZERO);
        most - least
    };
    (way(|place| place.x), way(|place| place.y))
}

fn outside(places: &[Place], part: Option<(Length, Length)>, hole: Option<Length>) -> Vec<usize> {
    let Some((x, y)) = part else { return Vec::new() };
    // An edge that the hole touches is still whole, whatever the last digit.
    let radius = hole.unwrap_or(Length::ZERO) / 2.0 - Length::mm(1e-9);
    let lies_in = |at: Length, size: Length| at >= radius && at + radius <= size;
    let is_out = |place: &Place| !(lies_in(place.x, x) && lies_in(place.y, y));
    places.iter().enumerate().filter(|(_, place)| is_out(place)).map(|(n, _)| n).collect()
}

fn meeting(places: &[Place], hole: Option<Length>) -> Vec<usize> {
    let apart = hole.unwrap_or(Length::mm(1e-6)).to_mm() - 1e-9;
    let meets = |a: &Place, b: &Place| a.distance(*b).to_mm() < apart;
    let others = |n: usize| places.iter().enumerate().filter(move |(other, _)| *other != n);
    places
        .iter()
        .enumerate()
        .filter(|(n, place)| others(*n).any(|(_, other)| meets(place, other)))
        .map(|(n, _)| n)
        .collect()
}
