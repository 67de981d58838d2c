//! A thread measured over three wires: two in the grooves of one side, one in the groove between
//! them on the other.

use super::{Series, Thread, all, limits::Span};
use crate::engine::{
    quantity::{Angle, Length},
    question::{Field, InputError},
};
use core::f64::consts::PI;

/// Source of the formulas: the general equation for wires of equal size in a symmetrical groove.
pub const SOURCE: &str = "H28_WIRES";

/// The forms that are measured over wires, by the angle between their flanks: degrees, and the
/// share of the pitch by which the basic pitch diameter lies under the major.
const FORMS: [(f64, f64); 4] = [(60.0, 0.649_519_053), (55.0, 0.640_327), (47.5, 0.6), (29.0, 0.5)];

/// A thread as wires see it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Groove {
    pitch: Length,
    half: Angle,
    /// Major less pitch diameter, as a share of the pitch.
    depth: f64,
}

impl Groove {
    /// A groove of this pitch and angle between the flanks: 60, 55, 47.5 or 29 degrees.
    ///
    /// # Errors
    /// At the pitch, when it is not above zero; at the angle, when no form has it.
    pub fn new(pitch: Length, flank_angle: Angle) -> Result<Self, InputError> {
        if !pitch.is_positive() {
            return Err(InputError::new(
                Field::Pitch,
                "A pitch has to be more than 0.",
                "Measure over ten threads and divide, or count the threads in an inch.",
            ));
        }
        let degrees = flank_angle.to_degree();
        let form = FORMS.iter().find(|(angle, _)| (angle - degrees).abs() < 1e-6);
        let Some((_, depth)) = form else {
            return Err(InputError::new(
                Field::FlankAngle,
                "No thread measured over wires has this angle between its flanks.",
                "Enter 60°, 55°, 47.5° or 29°.",
            ));
        };
        Ok(Self { pitch, half: flank_angle / 2.0, depth: *depth })
    }

    /// The wire that touches at the pitch line, P / (2 cos a): an error of the flanks' angle does
    /// not count there.
    #[must_use]
    pub fn best_wire(self) -> Length {
        self.pitch / (2.0 * self.half.cos())
    }

    /// The thinnest wire that stands out over the crests, and the thickest that touches the
    /// flanks of a basic thread.
    #[must_use]
    pub fn usable_wires(self) -> (Length, Length) {
        let (sin, cos, tan) = (self.half.sin(), self.half.cos(), self.half.tan());
        let least = (self.depth + 1.0 / (2.0 * tan)) / (1.0 + 1.0 / sin);
        let greatest = (self.depth / 2.0 + 1.0 / (4.0 * tan)) * 2.0 * sin / (cos * cos);
        (self.pitch * least, self.pitch * greatest)
    }

    /// The wire of a set that lies nearest to the best one, among those that can be used.
    #[must_use]
    pub fn wire_of(self, set: &[Length]) -> Option<Length> {
        let (least, greatest) = self.usable_wires();
        let off = |wire: Length| (wire - self.best_wire()).abs().to_mm();
        set.iter()
            .copied()
            .filter(|wire| *wire >= least && *wire <= greatest)
            .min_by(|a, b| off(*a).total_cmp(&off(*b)))
    }

    /// The basic pitch diameter of a thread of this major diameter.
    #[must_use]
    pub fn basic_pitch_diameter(self, major: Length) -> Length {
        major - self.pitch * self.depth
    }

    /// What the micrometer reads over the wires: E + W (1 + 1/sin a) - P / (2 tan a).
    ///
    /// # Errors
    /// At the wire or the pitch diameter, when it is not above zero or the wire cannot be used.
    pub fn over_wires(self, pitch_diameter: Length, wire: Length) -> Result<Length, InputError> {
        if !pitch_diameter.is_positive() {
            return Err(InputError::new(
                Field::PitchDiameter,
                "A pitch diameter has to be more than 0.",
                "Enter the one the class asks for.",
            ));
        }
        Ok(pitch_diameter + self.rise(wire)?)
    }

    /// What the slant of the thread adds to [`Self::over_wires`]: W s² cos a cot a / 2, with
    /// s = P / (π E). Under 0.0002 in for all but the coarsest threads.
    #[must_use]
    pub fn slant(self, pitch_diameter: Length, wire: Length) -> Length {
        let slope = self.pitch / (pitch_diameter * PI);
        wire * (slope * slope * self.half.cos() / self.half.tan() / 2.0)
    }

    /// The pitch diameter from a reading over the wires, the slant left out.
    ///
    /// # Errors
    /// At the reading, when it is no more than the wires alone; at the wire as
    /// [`Self::over_wires`].
    pub fn pitch_diameter(self, over_wires: Length, wire: Length) -> Result<Length, InputError> {
        let pitch_diameter = over_wires - self.rise(wire)?;
        if pitch_diameter.is_positive() {
            Ok(pitch_diameter)
        } else {
            Err(InputError::new(
                Field::OverWires,
                "The reading is no more than the wires alone take.",
                "Measure over one wire on the one side and two on the other.",
            ))
        }
    }

    /// What the wires add to the pitch diameter.
    fn rise(self, wire: Length) -> Result<Length, InputError> {
        // A tenth beyond the basic thread: a worn or thin one still takes the wire.
        let (least, greatest) = self.usable_wires();
        if !(wire >= least * 0.9 && wire <= greatest * 1.1) {
            return Err(InputError::new(
                Field::Wire,
                if wire < least {
                    "This wire lies under the crests: a micrometer would touch the thread."
                } else {
                    "This wire is too thick: it would ride on the crests."
                },
                format!(
                    "Take one between {:.4} and {:.4} in; {:.4} in is the best.",
                    least.to_inch(),
                    greatest.to_inch(),
                    self.best_wire().to_inch()
                ),
            ));
        }
        Ok(wire * (1.0 + 1.0 / self.half.sin()) - self.pitch / (2.0 * self.half.tan()))
    }
}

/// What a reading over wires says of an external thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The pitch diameter, the slant of the thread taken off.
    pub pitch_diameter: Length,
    /// How it stands to the class.
    pub stand: Stand,
}

/// How a pitch diameter stands to the class of its thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stand {
    /// Inside the limits.
    Inside,
    /// So much over the greatest: more has to come off.
    Over(Length),
    /// So much under the least: nothing brings it back.
    Under(Length),
    /// The series has no class here: measured less basic.
    NoLimit(Length),
}

/// The thinnest and the thickest wire that any listed thread can be measured over.
#[must_use]
pub fn range() -> (Length, Length) {
    let usable = all().filter_map(|thread| Some(thread.groove().ok()?.usable_wires()));
    usable.fold((Length::mm(f64::INFINITY), Length::ZERO), |(least, most), (thin, thick)| {
        (least.min(thin), most.max(thick))
    })
}

impl Thread {
    /// The groove of an external thread as wires see it.
    ///
    /// # Errors
    /// For a taper thread: its pitch diameter changes along it.
    pub fn groove(self) -> Result<Groove, InputError> {
        if matches!(self.series(), Series::Npt | Series::R) {
            return Err(InputError::new(
                Field::Thread,
                format!("{} is a taper thread: wires slide along it.", self.designation()),
                "Measure it with a ring gauge.",
            ));
        }
        Groove::new(self.pitch(), self.form().flank_angle())
    }

    /// What the micrometer may read over wires for the class of the external thread, the slant of
    /// the thread counted in; nothing for series whose class is not limited here.
    ///
    /// # Errors
    /// As [`Self::groove`], and at the wire when it cannot be used.
    pub fn over_wires(self, wire: Length) -> Result<Option<Span>, InputError> {
        let groove = self.groove()?;
        let reading = |pitch_diameter| {
            Ok(groove.over_wires(pitch_diameter, wire)? + groove.slant(pitch_diameter, wire))
        };
        self.external()
            .map(|class| {
                let (least, most) = (reading(class.pitch.least)?, reading(class.pitch.most)?);
                Ok(Span { least, most })
            })
            .transpose()
    }

    /// What a reading over wires says of the thread.
    ///
    /// # Errors
    /// As [`Self::groove`] and [`Groove::pitch_diameter`]; at the reading, when no screw of this
    /// thread can give it.
    pub fn read_over_wires(self, reading: Length, wire: Length) -> Result<Reading, InputError> {
        let groove = self.groove()?;
        let level = groove.pitch_diameter(reading, wire)?;
        let deepest = self.pitch() * self.form().pitch_depth();
        if (level - self.basic_pitch_diameter()).abs() > deepest {
            let wanted = groove.over_wires(self.basic_pitch_diameter(), wire)?;
            return Err(InputError::new(
                Field::OverWires,
                format!("No {} reads this over such wires.", self.designation()),
                format!(
                    "It reads about {:.4} in ({:.3} mm): look at the unit, the wires and the pitch.",
                    wanted.to_inch(),
                    wanted.to_mm()
                ),
            ));
        }
        // The slant is small and changes little with the diameter: a few rounds settle it.
        let mut pitch_diameter = level;
        for _ in 0..8 {
            pitch_diameter = level - groove.slant(pitch_diameter, wire);
        }
        let stand = match self.external() {
            None => Stand::NoLimit(pitch_diameter - self.basic_pitch_diameter()),
            // A nanometre to spare, so that a limit itself lies inside, whatever its unit.
            Some(class) if pitch_diameter > class.pitch.most + Length::um(1e-3) => {
                Stand::Over(pitch_diameter - class.pitch.most)
            }
            Some(class) if pitch_diameter < class.pitch.least - Length::um(1e-3) => {
                Stand::Under(class.pitch.least - pitch_diameter)
            }
            Some(_) => Stand::Inside,
        };
        Ok(Reading { pitch_diameter, stand })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::threads::{all, named};

    #[test]
    fn the_reading_wanted_is_that_of_the_class_and_not_of_the_basic_thread() {
        let thread = named("1/4-20").expect("listed");
        let wire = Length::inch(0.02887);
        let span = thread.over_wires(wire).expect("it fits").expect("2A");
        // 2A: 0.2127 to 0.2164; the basic 0.2175 reads 0.26092.
        assert!((span.most.to_inch() - (0.26092 - 0.0011)).abs() < 0.000_02, "{span:?}");
        assert!((span.least.to_inch() - (0.26092 - 0.0048)).abs() < 0.000_02, "{span:?}");
        assert_eq!(named("2 BA").expect("listed").over_wires(Length::mm(0.45)), Ok(None));
        let taper = named("1/8 NPT").expect("listed");
        assert_eq!(taper.over_wires(wire).expect_err("taper").field, Field::Thread);
    }

    #[test]
    fn every_parallel_thread_takes_its_best_wire() {
        for thread in all().filter(|t| !t.series().is_taper()) {
            let groove = thread.groove().expect("parallel");
            let span = thread.over_wires(groove.best_wire()).expect("the best wire fits");
            assert!(span.is_none_or(|s| s.least < s.most), "{}", thread.designation());
        }
    }

    #[test]
    fn a_reading_at_a_limit_is_inside_and_one_beyond_it_is_not() {
        for thread in all().filter(|t| !t.series().is_taper()) {
            let name = thread.designation();
            let wire = thread.groove().expect("parallel").best_wire();
            let read = |reading| thread.read_over_wires(reading, wire).expect(&name).stand;
            let Some(span) = thread.over_wires(wire).expect("the best wire fits") else {
                let (groove, basic) =
                    (thread.groove().expect("parallel"), thread.basic_pitch_diameter());
                let reading =
                    groove.over_wires(basic, wire).expect("basic") + groove.slant(basic, wire);
                assert!(
                    matches!(read(reading), Stand::NoLimit(off) if off.abs() < Length::um(0.01)),
                    "{name}"
                );
                continue;
            };
            assert_eq!(read(span.least), Stand::Inside, "{name}");
            assert_eq!(read(span.most), Stand::Inside, "{name}");
            let (over, under) = (read(span.most + Length::um(5.0)), read(span.least * 0.9999));
            assert!(
                matches!(over, Stand::Over(by) if (by.to_um() - 5.0).abs() < 0.05),
                "{name} {over:?}"
            );
            assert!(matches!(under, Stand::Under(_)), "{name} {under:?}");
        }
    }

    #[test]
    fn a_reading_that_no_such_screw_gives_is_refused_at_its_field() {
        let (thread, wire) = (named("1/4-20").expect("listed"), Length::inch(0.029));
        for reading in [0.0, -1.0, 0.1, 2.56, 25.6, f64::INFINITY] {
            let error = thread.read_over_wires(Length::inch(reading), wire).expect_err("refused");
            assert_eq!(error.field, Field::OverWires, "{reading}");
        }
        let thick = thread.read_over_wires(Length::inch(0.256), Length::inch(0.2));
        assert_eq!(thick.expect_err("refused").field, Field::Wire);
    }

    #[test]
    fn a_wire_for_some_thread_lies_in_the_range_of_wires() {
        let (least, most) = range();
        for thread in all().filter(|t| !t.series().is_taper()) {
            let best = thread.groove().expect("parallel").best_wire();
            assert!(least < best && best < most);
        }
    }

    fn sixty(tpi: f64) -> Groove {
        Groove::new(Length::inch(1.0 / tpi), Angle::degree(60.0)).expect("a thread")
    }

    #[test]
    fn wires_for_60_degrees_lie_between_the_handbook_s_bounds() {
        let (least, greatest) = sixty(1.0).usable_wires();
        assert!((least.to_inch() - 0.505_182).abs() < 1e-5);
        assert!((greatest.to_inch() - 1.010_363).abs() < 1e-5);
    }

    #[test]
    fn every_form_can_be_measured_with_its_best_wire() {
        for (angle, _) in FORMS {
            let groove = Groove::new(Length::mm(1.0), Angle::degree(angle)).expect("a form");
            let (least, greatest) = groove.usable_wires();
            assert!(least < groove.best_wire() && groove.best_wire() < greatest, "{angle}");
            let over = groove.over_wires(Length::mm(8.0), groove.best_wire()).expect("a reading");
            let back = groove.pitch_diameter(over, groove.best_wire()).expect("a diameter");
            assert!((back.to_mm() - 8.0).abs() < 1e-12);
        }
    }

    #[test]
    fn the_wire_of_a_set_is_the_nearest_that_can_be_used() {
        let set = [0.018, 0.029, 0.032, 0.045].map(Length::inch);
        assert_eq!(sixty(20.0).wire_of(&set), Some(Length::inch(0.029)));
        assert_eq!(sixty(4.0).wire_of(&set), None);
        assert_eq!(sixty(20.0).wire_of(&[]), None);
    }

    #[test]
    fn what_cannot_be_measured_is_said_at_its_field() {
        let error = |e: Result<Length, InputError>| e.expect_err("refused").field;
        let groove = sixty(20.0);
        assert_eq!(error(groove.over_wires(Length::inch(0.2), Length::inch(0.1))), Field::Wire);
        assert_eq!(error(groove.over_wires(Length::inch(0.2), Length::inch(0.01))), Field::Wire);
        assert_eq!(
            error(groove.over_wires(Length::ZERO, Length::inch(0.029))),
            Field::PitchDiameter
        );
        assert_eq!(
            error(groove.pitch_diameter(Length::inch(0.01), Length::inch(0.029))),
            Field::OverWires
        );
        let none = Groove::new(Length::ZERO, Angle::degree(60.0)).expect_err("refused");
        assert_eq!(none.field, Field::Pitch);
        let odd = Groove::new(Length::mm(1.0), Angle::degree(45.0)).expect_err("refused");
        assert_eq!(odd.field, Field::FlankAngle);
    }
}
