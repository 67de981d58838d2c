//! The drill for a tapped hole, out of those a person owns.
//!
//! The percentage wanted gives an ideal hole. Two drills answer to it: the one nearest to the
//! ideal, and the one nearest to it among those whose hole lies inside the class of the thread.
//! They differ where the percentage itself lies outside the class, as 60 % of a 10-32 does; a
//! question says with [`Question::to_class`] which of them is wanted. A drill under the basic minor
//! diameter binds the tap and is never chosen.

use super::{
    Thread,
    percent::{self, Basis},
};
use crate::engine::{
    drills::{Drill, Index},
    quantity::{Length, rounding::fixed},
    question::{Field, InputError},
};

include!(concat!(env!("OUT_DIR"), "/oversize.rs"));

/// Source of what a drill cuts over its size.
pub const SOURCE: &str = "USCTI_OVERSIZE";

/// What a drill of a size cuts over it.
struct Oversize {
    drill_in: f64,
    most_in: f64,
    mean_in: f64,
    least_in: f64,
}

/// How much over its size the drill is taken to cut.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub enum Allowance {
    /// Nothing: a sharp drill after a spot drill, running true.
    #[default]
    None,
    /// The least that was measured.
    Least,
    /// The mean of what was measured.
    Mean,
    /// The most that was measured.
    Most,
    /// So much, measured on the own machine.
    Measured(Length),
}

impl Allowance {
    /// How much larger the hole of a drill comes out. Between the diameters of the table in
    /// proportion; below the first in proportion to the diameter, above the last as that one.
    #[must_use]
    pub fn of(self, drill: Length) -> Length {
        let inch = drill.to_inch();
        let pick = |row: &Oversize| match self {
            Self::Least => row.least_in,
            Self::Mean => row.mean_in,
            Self::Most => row.most_in,
            Self::None | Self::Measured(_) => 0.0,
        };
        match self {
            Self::None => Length::ZERO,
            Self::Measured(over) => over,
            _ => Length::inch(interpolated(inch, pick)),
        }
    }
}

fn interpolated(inch: f64, pick: impl Fn(&Oversize) -> f64) -> f64 {
    let (first, last) = (&OVERSIZE[0], &OVERSIZE[OVERSIZE.len() - 1]);
    if inch <= first.drill_in {
        return pick(first) * inch / first.drill_in;
    }
    let pair = OVERSIZE.windows(2).find(|pair| inch <= pair[1].drill_in);
    pair.map_or_else(
        || pick(last),
        |pair| {
            let share = (inch - pair[0].drill_in) / (pair[1].drill_in - pair[0].drill_in);
            pick(&pair[0]) + share * (pick(&pair[1]) - pick(&pair[0]))
        },
    )
}

/// How a hole stands to the class of its thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Inside the limits of the minor diameter.
    Inside,
    /// Larger than the greatest minor diameter: enough for strength, but not to the class.
    OverMost,
    /// Under the basic minor diameter: the tap binds.
    Binds,
    /// Not under the basic minor diameter, and the series has no upper limit here.
    NoLimit,
}

impl Verdict {
    /// Whether a hole is as the class wants it, as far as there is one.
    #[must_use]
    pub fn is_to_class(self) -> bool {
        matches!(self, Self::Inside | Self::NoLimit)
    }
}

/// A billionth over: a hole that is a limit itself lies inside, whatever its unit.
const SAME: f64 = 1e-9;

/// How a hole stands to the class of a thread: the basic minor diameter, not rounded, is the lower
/// limit, the printed greatest minor diameter the upper.
#[must_use]
pub fn verdict(thread: Thread, hole: Length) -> Verdict {
    if hole < thread.basic_minor() * (1.0 - SAME) {
        return Verdict::Binds;
    }
    match thread.internal() {
        None => Verdict::NoLimit,
        Some(limits) if hole > limits.minor.most * (1.0 + SAME) => Verdict::OverMost,
        Some(_) => Verdict::Inside,
    }
}

/// What is wanted of a tapped hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question {
    /// The thread.
    pub thread: Thread,
    /// Percentage of thread wanted.
    pub percent: f64,
    /// What a hundred per cent is.
    pub basis: Basis,
    /// Whether a hole inside the class is wanted before one at the percentage.
    pub to_class: bool,
    /// What the drill is taken to cut over its size.
    pub allowance: Allowance,
}

impl Question {
    /// A hole to the class of a thread at 75 %, on the basis that is usual for it.
    #[must_use]
    pub fn new(thread: Thread) -> Self {
        Self {
            thread,
            percent: 75.0,
            basis: Basis::usual(thread.form()),
            to_class: true,
            allowance: Allowance::None,
        }
    }
}

/// A drill for the hole, and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The drill.
    pub drill: Drill,
    /// The hole it leaves, with the allowance.
    pub hole: Length,
    /// Percentage of thread that is left, on the basis of the question.
    pub percent: f64,
    /// How the hole stands to the class. Whether it binds is judged without the allowance: a drill
    /// that happens to cut true must not break the tap.
    pub verdict: Verdict,
    /// Hole less ideal hole.
    pub off: Length,
}

/// A reamer that makes a hole which no owned drill does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reaming {
    /// Diameter of the reamer.
    pub reamer: Length,
    /// The largest owned drill that leaves it something to cut.
    pub pilot: Drill,
    /// Percentage of thread that is left.
    pub percent: f64,
}

/// The answer: what to drill, and what else could be.
#[derive(Clone, Debug, PartialEq)]
pub struct TapHole {
    /// The hole that leaves exactly the percentage wanted.
    pub ideal: Length,
    /// How the ideal hole stands to the class.
    pub ideal_verdict: Verdict,
    /// The percentage that the largest hole inside the class leaves, on the basis of the question.
    pub least_percent_in_class: Option<f64>,
    /// What to drill. To class it is [`Self::in_class`] whenever there is one, and otherwise the
    /// best stop-gap; nothing when every drill owned binds or leaves no thread.
    pub chosen: Option<Candidate>,
    /// The owned drill nearest to the ideal that does not bind.
    pub nearest: Option<Candidate>,
    /// The owned drill nearest to the ideal among those inside the class.
    pub in_class: Option<Candidate>,
    /// The owned drill next below the ideal, or at it.
    pub below: Option<Candidate>,
    /// The owned drill next above the ideal.
    pub above: Option<Candidate>,
    /// An owned reamer that reaches the class where no owned drill does.
    pub reaming: Option<Reaming>,
    /// What to buy where no owned drill is inside the class: the standard's drill if it has one,
    /// or the nearest that suppliers keep.
    pub to_buy: Option<Candidate>,
}

impl Question {
    fn checked(&self) -> Result<Length, InputError> {
        if let Allowance::Measured(over) = self.allowance {
            let sensible = over >= Length::ZERO && over <= self.thread.pitch();
            if !sensible {
                return Err(InputError::new(
                    Field::Hole,
                    "A drill cuts between nothing and one pitch over its size.",
                    "Measure a trial hole and enter how much larger than the drill it is.",
                ));
            }
        }
        let ideal = percent::hole_for(self.thread, self.percent, self.basis)?;
        let most = percent::most(self.thread, self.basis);
        if self.percent > most + 1e-9 {
            return Err(InputError::new(
                Field::Percent,
                format!(
                    "{} % would need a hole under the basic minor diameter: the tap would bind.",
                    fixed(self.percent, 1)
                ),
                format!("Ask for at most {:.1} % on this basis.", libm::floor(most * 10.0) / 10.0),
            ));
        }
        Ok(ideal)
    }

    /// What a drill makes of the hole.
    #[must_use]
    pub fn candidate(&self, drill: Drill, ideal: Length) -> Candidate {
        let bare = drill.diameter();
        let hole = bare + self.allowance.of(bare);
        let verdict = match verdict(self.thread, bare) {
            Verdict::Binds => Verdict::Binds,
            _ => verdict(self.thread, hole),
        };
        let percent = percent::of_hole(self.thread, hole, self.basis);
        Candidate { drill, hole, percent, verdict, off: hole - ideal }
    }

    /// The drill for the hole out of those owned.
    ///
    /// # Errors
    /// A percentage that no hole can leave without binding the tap, a taper thread, an allowance
    /// that is none: each at its field.
    pub fn answer(&self, owned: &Index, reamers: &[Length]) -> Result<TapHole, InputError> {
        let ideal = self.checked()?;
        let made = |drill| self.candidate(drill, ideal);
        // A drill as large as the thread leaves nothing of it.
        let leaves_thread = |c: &Candidate| c.hole < self.thread.major();
        let usable = || {
            let from = self.thread.basic_minor();
            owned.between(from, self.thread.major()).map(made).filter(leaves_thread)
        };
        let nearest = nearest(usable().filter(|c| c.verdict != Verdict::Binds));
        let in_class = self::nearest(usable().filter(|c| c.verdict.is_to_class()));
        let chosen = if self.to_class { in_class.or(nearest) } else { nearest };
        let sides = owned.neighbours(self.drill_for(ideal));
        let needs_help = in_class.is_none();
        Ok(TapHole {
            ideal,
            ideal_verdict: verdict(self.thread, ideal),
            least_percent_in_class: self
                .thread
                .internal()
                .map(|limits| percent::of_hole(self.thread, limits.minor.most, self.basis)),
            chosen,
            nearest,
            in_class,
            below: sides.below.map(made),
            above: sides.above.map(made),
            reaming: needs_help.then(|| self.reaming(ideal, owned, reamers)).flatten(),
            to_buy: needs_help.then(|| self.purchase(ideal)).flatten(),
        })
    }

    /// The drill that leaves the ideal hole, its allowance taken off.
    fn drill_for(&self, ideal: Length) -> Length {
        let first = ideal - self.allowance.of(ideal);
        ideal - self.allowance.of(first)
    }

    fn reaming(&self, ideal: Length, owned: &Index, reamers: &[Length]) -> Option<Reaming> {
        let off = |reamer: Length| (reamer - ideal).abs();
        let inside = reamers
            .iter()
            .copied()
            .filter(|r| verdict(self.thread, *r).is_to_class() && *r < self.thread.major());
        let reamer = inside.min_by(|a, b| off(*a).to_mm().total_cmp(&off(*b).to_mm()))?;
        let pilot = owned.neighbours(reamer * (1.0 - 1e-6)).below?;
        let percent = percent::of_hole(self.thread, reamer, self.basis);
        // A reamer takes a few per cent of its diameter, not the hole.
        (pilot.diameter() > reamer * 0.9).then_some(Reaming { reamer, pilot, percent })
    }

    fn purchase(&self, ideal: Length) -> Option<Candidate> {
        let standard = self.thread.standard().and_then(|row| row.tap_drill());
        let made = |drill| self.candidate(drill, ideal);
        let standard = standard.map(|(drill, _)| made(drill)).filter(|c| c.verdict.is_to_class());
        standard.or_else(|| {
            let kept = kept(self.thread.basic_minor(), self.thread.major());
            nearest(kept.map(made).filter(|c| c.verdict.is_to_class()))
        })
    }
}

/// Drills that suppliers keep, between two sizes: 64ths, numbers to 80, letters, twentieths of a
/// millimetre to 3 mm and tenths beyond.
fn kept(least: Length, most: Length) -> impl Iterator<Item = Drill> {
    let numbers = (1..=80).filter_map(Drill::number);
    let letters = ('A'..='Z').filter_map(Drill::letter);
    let fractions = (1..=128).filter_map(Drill::sixty_fourths);
    let small = (50..300).step_by(5).filter_map(Drill::hundredths_of_mm);
    let large = (300..=8000).step_by(10).filter_map(Drill::hundredths_of_mm);
    let all = numbers.chain(letters).chain(fractions).chain(small).chain(large);
    all.filter(move |drill| drill.diameter() >= least && drill.diameter() < most)
}

/// The candidate nearest to the ideal; of two as near the larger, which is easier on the tap.
fn nearest(candidates: impl Iterator<Item = Candidate>) -> Option<Candidate> {
    candidates.reduce(|best, next| {
        let (near, far) = (next.off.abs().to_mm(), best.off.abs().to_mm());
        let tie = (near - far).abs() <= SAME;
        let closer = if tie { next.hole > best.hole * (1.0 + SAME) } else { near < far };
        if closer { next } else { best }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{drills::Set, threads::named};

    fn ask(thread: &str, percent: f64, to_class: bool, owned: &Index) -> TapHole {
        let question =
            Question { percent, to_class, ..Question::new(named(thread).expect(thread)) };
        question.answer(owned, &[]).expect(thread)
    }

    fn name(candidate: Option<Candidate>) -> String {
        candidate.map_or_else(|| "none".to_owned(), |c| c.drill.short_name())
    }

    fn numbers_and_tenths() -> Index {
        Index::new(Set::Numbers.drills().into_iter().chain(Set::MetricTenths.drills()))
    }

    #[test]
    fn sixty_per_cent_of_a_ten_thirty_two_lies_outside_its_class() {
        let owned = numbers_and_tenths();
        let free = ask("10-32", 60.0, false, &owned);
        assert!((free.ideal.to_inch() - 0.1656).abs() < 0.000_05);
        assert_eq!(free.ideal_verdict, Verdict::OverMost);
        assert!((free.least_percent_in_class.expect("2B") - 64.05).abs() < 0.01);
        assert_eq!(name(free.chosen), "4.2 mm");
        assert!((free.chosen.expect("one").percent - 60.7).abs() < 0.05);
        assert_eq!(free.chosen.expect("one").verdict, Verdict::OverMost);
        assert_eq!((name(free.below), name(free.above)), ("4.2 mm".into(), "#19".into()));
        let class = ask("10-32", 60.0, true, &owned);
        assert_eq!(name(class.chosen), "4.1 mm");
        assert!((class.chosen.expect("one").percent - 70.4).abs() < 0.05);
        assert_eq!(name(class.nearest), "4.2 mm");
        assert_eq!(class.to_buy, None);
    }

    #[test]
    fn an_m4_takes_3_3_mm_and_its_inch_neighbours_are_told_apart() {
        let owned = numbers_and_tenths();
        let hole = ask("M4", 75.0, true, &owned);
        assert_eq!(name(hole.chosen), "3.3 mm");
        let question = Question::new(named("M4").expect("listed"));
        let of = |drill: &str| question.candidate(Drill::named(drill).expect(drill), hole.ideal);
        assert_eq!((of("#30").verdict, of("#29").verdict), (Verdict::Inside, Verdict::OverMost));
        assert!((of("#30").percent - 80.9).abs() < 0.06 && (of("#29").percent - 60.0).abs() < 0.06);
    }

    #[test]
    fn a_drill_that_charts_print_but_that_binds_is_never_chosen() {
        let owned = Index::every_inch();
        for (thread, wrong) in [("9/16-24", "33/64"), ("5/8-24", "37/64"), ("11/16-24", "41/64")] {
            for to_class in [true, false] {
                let hole = ask(thread, 75.0, to_class, &owned);
                assert_ne!(name(hole.chosen), wrong, "{thread}");
                assert_eq!(name(hole.below), wrong);
                assert_eq!(hole.below.expect("one").verdict, Verdict::Binds);
                let buy = hole.to_buy.expect("a metric drill fits");
                assert_eq!(buy.verdict, Verdict::Inside, "{thread}");
            }
        }
        let soft = ask("M22x2.5", 75.0, true, &Index::every());
        assert!(!["18.5 mm", "19 mm"].contains(&name(soft.chosen).as_str()));
        assert_eq!(soft.chosen.expect("one").verdict, Verdict::Inside);
    }

    #[test]
    fn a_drill_that_cuts_over_leaves_less_thread() {
        let drill = |name: &str| Drill::named(name).expect(name);
        let percent = |thread: &str, name: &str, over: f64| {
            let question = Question {
                allowance: Allowance::Measured(Length::inch(over)),
                ..Question::new(named(thread).expect(thread))
            };
            question.candidate(drill(name), Length::ZERO).percent
        };
        assert!((percent("1/4-20", "#7", 0.004) - 69.3).abs() < 0.05);
        assert!((percent("2-56", "#50", 0.003) - 56.0).abs() < 0.5);
        let mean = Allowance::Mean.of(Length::inch(0.1875)).to_inch();
        assert!((mean - 0.0035).abs() < 1e-12);
        assert!((Allowance::Most.of(Length::inch(2.0)).to_inch() - 0.009).abs() < 1e-12);
        let tiny = Allowance::Least.of(Length::inch(0.031_25)).to_inch();
        assert!((tiny - 0.0005).abs() < 1e-12);
    }

    #[test]
    fn an_allowance_moves_the_choice_to_a_smaller_drill() {
        let owned = Index::every_inch();
        let thread = named("1/4-20").expect("listed");
        let plain = Question::new(thread);
        let over = Question { allowance: Allowance::Mean, ..plain };
        let chosen = |q: Question| q.answer(&owned, &[]).expect("a hole").chosen.expect("a drill");
        assert!(chosen(over).drill.diameter() < chosen(plain).drill.diameter());
        assert_eq!(chosen(over).verdict, Verdict::Inside);
    }

    #[test]
    fn with_no_drill_inside_the_class_there_is_a_reamer_a_purchase_and_a_stop_gap() {
        let owned = Index::new(["5/32", "11/64", "3/16"].map(|d| Drill::named(d).expect(d)));
        let question = Question::new(named("10-32").expect("listed"));
        let hole =
            question.answer(&owned, &[Length::inch(0.160), Length::inch(0.25)]).expect("one");
        assert_eq!(hole.in_class.map(|c| c.drill.short_name()), Some("5/32".into()));
        let owned = Index::new(["#24", "11/64", "3/16"].map(|d| Drill::named(d).expect(d)));
        let hole = question.answer(&owned, &[Length::inch(0.150)]).expect("one");
        assert_eq!(hole.in_class, None);
        assert_eq!(hole.reaming, None, "0.150 binds");
        let hole =
            question.answer(&owned, &[Length::inch(0.1495), Length::inch(0.1563)]).expect("1");
        assert_eq!(hole.reaming.map(|r| r.pilot.short_name()), Some("#24".into()));
        assert_eq!(name(hole.chosen), "11/64");
        assert_eq!(name(hole.to_buy), "#21");
        let metric = Question::new(named("M8").expect("listed"));
        let hole = metric.answer(&Index::default(), &[]).expect("one");
        assert_eq!((name(hole.chosen), name(hole.to_buy)), ("none".into(), "6.8 mm".into()));
    }

    #[test]
    fn what_would_bind_the_tap_is_refused_before_a_drill_is_looked_for() {
        let thread = named("1/4-20").expect("listed");
        let refused = |percent| {
            let question = Question { percent, ..Question::new(thread) };
            question.answer(&Index::every(), &[]).expect_err("refused")
        };
        assert!(refused(90.0).hint.contains("83.3"), "{}", refused(90.0));
        for percent in [84.0, 0.0, -3.0, f64::NAN] {
            assert_eq!(refused(percent).field, Field::Percent);
        }
    }
}
