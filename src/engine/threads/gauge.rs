//! A screen as a screw-pitch gauge: how large it draws, and what can be told apart on it.

use super::Thread;
use crate::engine::{
    quantity::Length,
    question::{Field, InputError},
};

/// Sources of the size of a card, and of what an eye is taken to see.
pub const SOURCE: &str = "ISO_7810 SCREEN_CP";
/// Two rulings that differ by this share of a pitch at their end are seen to differ: a crest
/// stands where a flank should be.
const SEEN: f64 = 0.25;
/// And by as many points of the screen.
const POINTS: f64 = 2.0;
/// Points in a millimetre of the screens that are made: from a wall of a shop to a good phone.
const DENSITIES: (f64, f64) = (1.5, 30.0);

/// Long edge of a bank card, 85.60 mm.
#[must_use]
pub fn card_edge() -> Length {
    Length::mm(85.60)
}

/// A pitch that screws are cut with, and how it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruling {
    /// `20 tpi` or `1.25 mm`.
    pub name: String,
    /// The pitch.
    pub pitch: Length,
}

/// The pitch of a thread as its series names it.
#[must_use]
pub fn ruling(thread: Thread) -> Ruling {
    let name = if thread.is_named_by_tpi() {
        format!("{} tpi", thread.tpi())
    } else {
        format!("{} mm", thread.pitch().to_um().round() / 1000.0)
    };
    Ruling { name, pitch: thread.pitch() }
}

/// Every pitch of a listed thread, from the finest to the coarsest, each once.
#[must_use]
pub fn rulings() -> Vec<Ruling> {
    let mut all: Vec<Ruling> = super::all().map(ruling).collect();
    all.sort_by(|a, b| a.pitch.to_mm().total_cmp(&b.pitch.to_mm()).then(a.name.cmp(&b.name)));
    all.dedup_by(|a, b| a.name == b.name);
    all
}

/// The ruling of a name.
///
/// # Errors
/// When no listed thread has such a pitch.
pub fn ruling_called(name: &str) -> Result<Ruling, InputError> {
    rulings().into_iter().find(|ruling| ruling.name == name).ok_or_else(|| {
        InputError::new(
            Field::MeasuredPitch,
            format!("No listed thread has a pitch of “{name}”."),
            "Take one that there is, such as 20 tpi or 1.25 mm.",
        )
    })
}

/// The ruling that is most easily taken for this one.
#[must_use]
pub fn look_alike<'a>(of: &Ruling, among: &'a [Ruling]) -> Option<&'a Ruling> {
    let off = |other: &Ruling| ((other.pitch - of.pitch) / of.pitch).abs();
    among.iter().filter(|other| *other != of).min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// A screen whose size is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screen {
    /// Units of the page in a millimetre.
    pub per_mm: f64,
    /// Points of the screen in such a unit.
    pub points: f64,
}

/// What two pitches look like beside each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart {
    /// How far their last crests stand apart.
    pub drift: Length,
    /// That as a share of the finer pitch.
    pub share: f64,
    /// That in points of the screen.
    pub points: f64,
    /// The length over which they would be told apart.
    pub length_needed: Length,
    /// True when an eye can tell them apart over the length there is.
    pub can_be_told: bool,
}

impl Screen {
    /// A screen on which the long edge of a card is as long as `card` units of the page, each of
    /// so many points.
    ///
    /// # Errors
    /// When no screen is that fine or that coarse.
    pub fn calibrated(card: f64, points: f64) -> Result<Self, InputError> {
        let per_mm = card / card_edge().to_mm();
        let points = if points.is_finite() && points >= 0.5 { points } else { 1.0 };
        let (least, greatest) = DENSITIES;
        if !(per_mm >= least && per_mm * points <= greatest) {
            return Err(InputError::new(
                Field::CardEdge,
                "No screen is made that a card fits so.",
                "Lay the long edge of a bank card beside the bar, and step until both are one.",
            ));
        }
        Ok(Self { per_mm, points })
    }

    /// A length in units of the page.
    #[must_use]
    pub fn units(self, length: Length) -> f64 {
        length.to_mm() * self.per_mm
    }

    /// What so many units of the page are.
    #[must_use]
    pub fn length(self, units: f64) -> Length {
        Length::mm(units / self.per_mm)
    }

    /// One point of the screen: nothing finer can be shown.
    #[must_use]
    pub fn point(self) -> Length {
        Length::mm(1.0 / (self.per_mm * self.points))
    }

    /// What two pitches look like over a length, their first crests side by side.
    #[must_use]
    pub fn tell_apart(self, one: Length, other: Length, over: Length) -> Apart {
        let (fine, coarse) = (one.min(other), one.max(other));
        let per_length = (coarse - fine) / coarse;
        let drift = over * per_length;
        let share = drift / fine;
        let points = drift / self.point();
        let needed = (fine * SEEN).max(self.point() * POINTS);
        let length_needed =
            if per_length > 0.0 { needed / per_length } else { Length::mm(f64::INFINITY) };
        let can_be_told = share >= SEEN && points >= POINTS;
        Apart { drift, share, points, length_needed, can_be_told }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn phone() -> Screen {
        Screen::calibrated(517.0, 3.0).expect("a phone")
    }

    #[test]
    fn a_card_gives_the_size_of_the_screen() {
        let screen = phone();
        assert!((screen.units(card_edge()) - 517.0).abs() < 1e-9);
        assert!((screen.point().to_mm() - 85.60 / 517.0 / 3.0).abs() < 1e-12);
        for bad in [0.0, -5.0, 50.0, 9000.0, f64::NAN, f64::INFINITY] {
            assert_eq!(Screen::calibrated(bad, 1.0).expect_err("refused").field, Field::CardEdge);
        }
    }

    #[test]
    fn quarter_twenty_and_m6_are_told_apart_over_two_turns_and_5_16_and_m8_over_a_hand() {
        let screen = phone();
        let over = Length::mm(100.0);
        let quarter = screen.tell_apart(Length::inch(1.0 / 20.0), Length::mm(1.0), over);
        assert!(quarter.can_be_told && quarter.length_needed < Length::mm(2.0));
        let five = screen.tell_apart(Length::inch(1.0 / 18.0), Length::mm(1.25), over);
        assert!(five.can_be_told && five.length_needed < Length::mm(4.0));
    }

    #[test]
    fn ten_thirty_two_and_m5_need_a_length_that_is_said() {
        let told =
            |mm: f64| phone().tell_apart(Length::inch(1.0 / 32.0), Length::mm(0.8), Length::mm(mm));
        // 0.79375 against 0.8 mm: 0.8 % apart, a quarter of a pitch after 25 mm.
        assert!((told(10.0).length_needed.to_mm() - 25.4).abs() < 0.01);
        assert!(!told(10.0).can_be_told);
        assert!(told(60.0).can_be_told);
    }

    #[test]
    fn a_look_alike_is_the_nearest_pitch() {
        let all = rulings();
        assert!(all.windows(2).all(|pair| pair[0].pitch < pair[1].pitch));
        let alike = |name: &str| {
            let one = all.iter().find(|ruling| ruling.name == name).expect("a pitch");
            look_alike(one, &all).expect("another").name.clone()
        };
        assert_eq!(alike("32 tpi"), "0.8 mm");
        assert_eq!(alike("20 tpi"), "1.25 mm");
        assert_eq!(alike("0.8 mm"), "32 tpi");
    }

    #[test]
    fn a_pitch_is_called_by_its_name_or_refused_in_a_sentence() {
        for ruling in rulings() {
            assert_eq!(ruling_called(&ruling.name), Ok(ruling));
        }
        for bad in ["", "0 tpi", "20", "99 tpi", "NaN mm", "-1 mm"] {
            assert_eq!(ruling_called(bad).expect_err("refused").field, Field::MeasuredPitch);
        }
    }

    #[test]
    fn one_pitch_is_never_told_from_itself() {
        let same = phone().tell_apart(Length::mm(1.0), Length::mm(1.0), Length::mm(100.0));
        assert!(!same.can_be_told && same.drift == Length::ZERO);
    }
}
