//! What holds for every thread, hole and set of drills.

use handwheel::engine::{
    drills::{Drill, Family, Index, Set},
    quantity::Length,
    threads::{
        Hand, Series, Thread, all, find, identify, named,
        percent::{Basis, hole_for, most, percent_of},
        search::How,
        tap_hole::{Allowance, Question, Verdict, verdict},
    },
};
use proptest::prelude::*;

fn threads() -> impl Strategy<Value = Thread> {
    let all: Vec<_> = all().collect();
    (proptest::sample::select(all), any::<bool>())
        .prop_map(|(thread, left)| thread.with_hand(if left { Hand::Left } else { Hand::Right }))
}

fn parallel() -> impl Strategy<Value = Thread> {
    threads().prop_filter("a taper has no percentage", |t| !t.series().is_taper())
}

fn bases() -> impl Strategy<Value = Basis> {
    proptest::sample::select(vec![Basis::Chart, Basis::Basic, Basis::Form])
}

/// Every drill that has a name.
fn every_drill() -> Vec<Drill> {
    let numbers = (1..=97).filter_map(Drill::number);
    let letters = ('A'..='Z').filter_map(Drill::letter);
    let fractions = (1..=192).filter_map(Drill::sixty_fourths);
    let metric = (5..=8000).filter_map(Drill::hundredths_of_mm);
    numbers.chain(letters).chain(fractions).chain(metric).collect()
}

/// Some boxes, some of their drills lost, some bought one by one.
fn indexes() -> impl Strategy<Value = Index> {
    let boxes = proptest::sample::subsequence(Set::ALL.to_vec(), 0..=Set::ALL.len());
    let bought = proptest::collection::vec(proptest::sample::select(every_drill()), 0..20);
    (boxes, bought, any::<u64>()).prop_map(|(boxes, bought, lost)| {
        let boxed = boxes.into_iter().flat_map(Set::drills).enumerate();
        let kept = boxed.filter(move |(i, _)| lost >> (i % 64) & 1 == 0).map(|(_, drill)| drill);
        Index::new(kept.chain(bought))
    })
}

fn allowances() -> impl Strategy<Value = Allowance> {
    prop_oneof![
        Just(Allowance::None),
        Just(Allowance::Least),
        Just(Allowance::Mean),
        Just(Allowance::Most),
        (0.0..0.1).prop_map(|mm| Allowance::Measured(Length::mm(mm))),
    ]
}

proptest! {
    #![proptest_config(super::cases(500))]

    #[test]
    fn a_percentage_comes_back_from_its_hole(t in parallel(), basis in bases(), share in 0.01..1.0) {
        let percent = share * most(t, basis).min(100.0);
        let hole = hole_for(t, percent, basis).expect("a hole");
        prop_assert!((percent_of(t, hole, basis).expect("a percentage") - percent).abs() < 1e-9);
    }

    #[test]
    fn a_larger_hole_leaves_less_thread(t in parallel(), basis in bases(), a in 0.5..0.99, b in 0.5..0.99) {
        let (small, large) = if a < b { (a, b) } else { (b, a) };
        prop_assume!(large - small > 1e-6);
        let left = |share: f64| percent_of(t, t.major() * share, basis).expect("a percentage");
        prop_assert!(left(large) < left(small));
    }

    #[test]
    fn no_drill_is_chosen_outside_the_class_while_one_inside_it_is_owned(
        t in parallel(), owned in indexes(), share in 0.4..1.0, allowance in allowances(), to_class: bool,
    ) {
        let plain = Question { allowance, to_class, ..Question::new(t) };
        // The printed depth of some BA threads is a little over the form's.
        let percent = share * most(t, plain.basis).min(100.0);
        let question = Question { percent, ..plain };
        let Ok(hole) = question.answer(&owned, &[]) else {
            // Only an allowance over a pitch is refused here.
            prop_assert!(matches!(allowance, Allowance::Measured(over) if over > t.pitch()));
            return Ok(());
        };
        let made = owned.iter().map(|drill| question.candidate(drill, hole.ideal));
        let made: Vec<_> = made.filter(|c| c.hole < t.major()).collect();
        if let Some(chosen) = hole.chosen {
            prop_assert!(owned.contains(chosen.drill));
            prop_assert!(chosen.verdict != Verdict::Binds && chosen.percent > 0.0);
            prop_assert!(chosen.drill.diameter() >= t.basic_minor() * (1.0 - 1e-8));
            let rivals = made.iter().filter(|c| c.verdict != Verdict::Binds);
            let some_inside = made.iter().any(|c| c.verdict.is_to_class());
            if to_class && some_inside {
                prop_assert!(chosen.verdict.is_to_class(), "{chosen:?}");
            }
            // Nothing that may be chosen lies nearer.
            for rival in rivals.filter(|c| !to_class || !some_inside || c.verdict.is_to_class()) {
                let (near, far) = (chosen.off.abs().to_mm(), rival.off.abs().to_mm());
                prop_assert!(near <= far + 1e-9, "{chosen:?} {rival:?}");
            }
        } else {
            prop_assert!(made.iter().all(|c| c.verdict == Verdict::Binds));
        }
        prop_assert_eq!(hole.to_buy.is_some(), hole.to_buy.is_some_and(|c| c.verdict.is_to_class()));
        prop_assert!(hole.in_class.is_none() || hole.to_buy.is_none());
    }

    #[test]
    fn a_hole_of_a_class_neither_binds_nor_leaves_it(t in parallel(), share in 0.0..1.0) {
        if let Some(limits) = t.internal() {
            let least = t.basic_minor().max(limits.minor.least);
            let hole = least + (limits.minor.most - least) * share;
            prop_assert_eq!(verdict(t, hole), Verdict::Inside, "{}", t.designation());
            prop_assert_eq!(verdict(t, t.basic_minor() * 0.9999), Verdict::Binds);
            prop_assert_eq!(verdict(t, limits.minor.most * 1.0001), Verdict::OverMost);
        }
    }

    #[test]
    fn a_thread_is_recognised_from_its_own_size(t in threads(), off in -0.0009..0.0064) {
        let measured = t.major() - Length::inch(off);
        prop_assert!(identify::fits(t, measured, t.pitch() * 1.01), "{}", t.designation());
        let found = identify::identify(identify::Measured::Crests(measured), Some(t.pitch()));
        let found = found.expect("a size");
        let right = t.with_hand(Hand::Right);
        prop_assert!(found.iter().any(|c| c.fits && c.thread == right), "{}", t.designation());
    }

    #[test]
    fn whatever_is_typed_is_found_or_refused_in_sentences(text in "\\PC{0,24}") {
        check_text(&text)?;
    }

    #[test]
    fn whatever_looks_like_a_thread_is_found_or_refused_in_sentences(
        text in "[#m ]{0,2}[0-9/. -]{1,8}[-x ][0-9/.]{0,4} ?(unc|unf|ba|bsp|npt|lh|fine|me|half|ten)?",
    ) {
        check_text(&text)?;
    }
}

fn check_text(text: &str) -> Result<(), TestCaseError> {
    for found in find(text) {
        prop_assert!(found.thread.major().is_positive() && found.thread.pitch().is_positive());
    }
    match named(text) {
        Ok(thread) => {
            prop_assert!(thread.basic_minor().is_positive(), "{text}");
            // What it is called is read back as itself.
            prop_assert_eq!(named(&thread.designation()), Ok(thread), "{}", text);
        }
        Err(error) => {
            prop_assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
        }
    }
    Ok(())
}

#[test]
fn every_thread_is_found_first_by_its_own_designation() {
    let mut count = 0;
    for thread in all() {
        let found = find(&thread.designation());
        let first = found.first().expect("it is found");
        assert_eq!((first.thread, first.how), (thread, How::Named), "{}", thread.designation());
        count += 1;
    }
    assert!(count > 450, "{count}");
}

#[test]
fn whole_inches_and_numbers_of_screws_are_not_mixed_up() {
    for inches in 1..=6 {
        for halves in 2..=160 {
            let (size, tpi) = (Length::inch(f64::from(inches)), f64::from(halves) / 2.0);
            let Some(thread) = Thread::unified(Series::Uns, size, tpi) else { continue };
            assert_eq!(named(&thread.designation()), Ok(thread), "{}", thread.designation());
        }
    }
}

#[test]
fn every_drill_is_read_back_from_both_its_names() {
    let drills = every_drill();
    assert!(drills.len() > 1800);
    for drill in drills {
        assert_eq!(Drill::named(&drill.name()), Ok(drill));
        assert_eq!(Drill::named(&drill.short_name()), Ok(drill));
    }
    assert_eq!(Family::ALL.len(), 4);
}
