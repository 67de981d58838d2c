//! What holds for every answer, whatever the question.

#[path = "../mills/mod.rs"]
mod mills;

mod judge;
mod questions;
mod threads;

use std::fmt::Debug;

use handwheel::engine::{
    answer::{Answer, Because, Change, Concession, Limit, State, Trouble, Verdict},
    cutters::{Cutter, ToolMaterial},
    limits::{Offers, answer, answer_with, window},
    quantity::value::Value,
    question::{Cut, Feeding, Operation, Own, Style},
};
use judge::Judge;
use proptest::{prelude::*, test_runner::TestCaseResult};
use questions::{Question, machines, questions, wild_questions};

fn ask(q: &Question) -> Result<Answer, TestCaseError> {
    answer(&q.mill(), &q.cut).map_err(|errors| TestCaseError::fail(format!("{errors:?}")))
}

fn feasible(answer: &Answer) -> bool {
    answer.verdict != Verdict::DoNotCut
}

/// A point of an answer as numbers of the person's own.
fn typed(answer: &Answer) -> Own {
    Own {
        spindle_speed: Some(answer.speed.set),
        feed_as_set: answer.feed.map(|f| f.per_tooth),
        passes: answer.passes.as_ref().map(|p| p.targets.len() as u32),
        ..Own::default()
    }
}

/// Every number in a thing is one that can be shown.
fn all_finite(what: &impl Debug) -> TestCaseResult {
    let text = format!("{what:?}");
    let words = text.split(|c: char| !c.is_alphanumeric());
    let bad = words.filter(|word| matches!(*word, "NaN" | "inf")).count();
    prop_assert!(bad == 0, "{bad} numbers cannot be shown in {text}");
    Ok(())
}

fn value_of(answer: &Answer, limit: Limit) -> Option<Value> {
    answer.limits.iter().find(|r| r.limit == limit).map(|r| r.value)
}

/// Passes, their feed and the return by hand, minutes for an inch; pecks do not return.
fn time_of(q: &Question, a: &Answer) -> Option<f64> {
    let passes = a.passes.as_ref()?;
    let lead = q.machine.table.lead.to_inch();
    let across =
        value_of(a, Limit::Wheel).is_some() || matches!(q.cut.operation, Operation::Bore { .. });
    let back = if across { 1.0 / (60.0 * lead) } else { 0.0 };
    Some(passes.targets.len() as f64 * (1.0 / a.feed?.rate.to_inch_per_min() + back))
}

/// The question with a change made that an answer proposes.
fn changed(q: &Question, change: Change) -> Option<Question> {
    let mut q = q.clone();
    let own = &mut q.cut.own;
    match change {
        Change::Depth(each) => {
            // A bore is opened across, pass by pass.
            let whole = match q.cut.operation {
                Operation::Bore { width } => width,
                _ => q.cut.depth,
            };
            own.passes = Some((whole / each).round() as u32);
        }
        Change::Width(to) => match &mut q.cut.operation {
            Operation::Side { width, .. } | Operation::Bore { width } => *width = to,
            Operation::Face { width } => *width = to,
            _ => return None,
        },
        Change::Stickout(to) => q.cutter.stickout = to,
        Change::Feed(to) if own.feed.is_some() => own.feed = Some(to),
        Change::Feed(to) => own.feed_as_set = Some(to),
        Change::Speed(to) => own.spindle_speed = Some(to),
        Change::Teeth(to) => q.cutter.teeth = to,
        Change::Runout(to) => q.runout = to,
        Change::Conventional => match &mut q.cut.operation {
            Operation::Side { feeding, .. } => *feeding = Feeding::Conventional,
            _ => return None,
        },
        Change::Pilot(to) => match &mut q.cut.operation {
            Operation::Drill { pilot, .. } => *pilot = Some(to),
            _ => return None,
        },
        Change::Carbide => q.cutter.material = ToolMaterial::Carbide,
        Change::OtherCutter(_) | Change::OtherMachine(_) => return None,
    }
    Some(q)
}

/// The depth is taken in passes or pecks.
fn is_divided(operation: Operation) -> bool {
    !matches!(operation, Operation::Spot | Operation::Ream | Operation::Countersink { .. })
}

fn mend(answer: &Answer) -> Option<Change> {
    match answer.trouble.as_ref()? {
        Trouble::Alone { mend, .. }
        | Trouble::Between { mend, .. }
        | Trouble::Yours { mend, .. } => *mend,
    }
}

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn what_is_proposed_breaks_no_limit_by_a_second_opinion(q in questions()) {
        let a = ask(&q)?;
        if feasible(&a) {
            let broken = Judge::new(&q, &a).broken();
            prop_assert!(broken.is_empty(), "{broken:?} at {:?} {:?}", a.speed.set, a.feed);
        }
    }

    #[test]
    fn no_number_is_none(q in questions()) {
        let a = ask(&q)?;
        all_finite(&a)?;
        all_finite(&window(&q.mill(), &q.cut, &a))?;
    }

    #[test]
    fn what_cannot_be_worked_with_is_refused_in_sentences(q in wild_questions()) {
        match answer(&q.mill(), &q.cut) {
            Ok(a) => {
                all_finite(&a)?;
                all_finite(&window(&q.mill(), &q.cut, &a))?;
            }
            Err(errors) => {
                prop_assert!(!errors.is_empty());
                for error in errors {
                    let sentences = error.problem.ends_with('.') && error.hint.ends_with('.');
                    prop_assert!(sentences, "{error}");
                }
            }
        }
    }

    #[test]
    fn the_speed_set_is_one_the_machine_has(q in questions()) {
        let set = ask(&q)?.speed.set;
        prop_assert!(q.machine.range_of(set).is_some(), "{set:?}");
    }

    #[test]
    fn verdict_limits_and_trouble_agree(q in questions()) {
        let a = ask(&q)?;
        prop_assert_eq!(a.verdict == Verdict::DoNotCut, a.trouble.is_some());
        prop_assert_eq!(
            a.verdict == Verdict::Go,
            a.limits.iter().all(|r| r.state == State::Within)
        );
        for pair in a.limits.windows(2) {
            prop_assert!(pair[0].state >= pair[1].state);
        }
        let worst = a.limits.iter().map(|r| r.utilisation).fold(0.0, f64::max);
        for relief in &a.relief {
            prop_assert!(relief.utilisation < worst, "{relief:?} of {worst}");
        }
    }

    #[test]
    fn what_was_given_up_is_what_differs(q in questions()) {
        let a = ask(&q)?;
        let passes = a.given_up.iter().any(|c| matches!(c, Concession::Passes { .. }));
        prop_assert_eq!(passes, a.passes.as_ref().is_some_and(|p| p.targets.len() > 1));
        for concession in &a.given_up {
            let (because, differs) = match concession {
                Concession::Speed { wanted, set, because } => {
                    prop_assert_eq!((*wanted, *set), (a.speed.wanted, a.speed.set));
                    (because, (*set / *wanted - 1.0).abs() > 0.004)
                }
                Concession::Feed { wanted, set, because } => {
                    prop_assert_eq!(*set, a.feed.unwrap().per_tooth);
                    (because, *set < *wanted)
                }
                Concession::Passes { passes, because, .. } => (because, *passes > 1),
            };
            prop_assert!(differs, "{concession:?}");
            prop_assert!(*because != Because::Yours, "nothing was typed: {concession:?}");
        }
    }

    #[test]
    fn what_mends_a_trouble_really_mends_it(q in questions(), machine in machines()) {
        let cutter = Cutter { teeth: 2, ..q.cutter };
        let offers = Offers { cutters: &[q.cutter, cutter], machines: &[machine] };
        let a = answer_with(&q.mill(), &q.cut, &offers).expect("a question that has an answer");
        let Some(change) = mend(&a) else { return Ok(()) };
        let mended = match change {
            Change::OtherCutter(i) => Some(Question { cutter: offers.cutters[i], ..q }),
            Change::OtherMachine(i) => Some(Question { machine: offers.machines[i].clone(), ..q }),
            change => changed(&q, change),
        };
        prop_assert!(mended.is_some(), "{change:?} does not fit the question");
        let after = ask(&mended.unwrap())?;
        prop_assert!(feasible(&after), "{change:?} leaves {:?}", after.trouble);
    }

    #[test]
    fn a_typed_number_is_kept_and_what_mends_it_holds(
        q in questions(), which in 1..8u8, faster in 0.3..3.0, thicker in 0.2..4.0, more in 1..9u32,
    ) {
        let free = ask(&q)?;
        let mut q = q;
        let point = typed(&free);
        let near = q.machine.neighbours(free.speed.set * faster);
        let own = &mut q.cut.own;
        if which & 1 != 0 {
            own.spindle_speed = near.0.or(near.1);
        }
        if which & 2 != 0 {
            own.feed_as_set = point.feed_as_set.map(|f| (f * thicker).min(q.cutter.diameter * 0.2));
        }
        if which & 4 != 0 {
            own.passes = point.passes.filter(|_| is_divided(q.cut.operation)).map(|_| more);
        }
        let own = q.cut.own;
        let a = ask(&q)?;
        prop_assert!(own.spindle_speed.is_none_or(|n| n == a.speed.set && a.speed.yours));
        prop_assert!(own.feed_as_set.is_none_or(|f| f == a.feed.unwrap().per_tooth));
        if let (Some(count), Some(passes)) = (own.passes, &a.passes) {
            prop_assert_eq!(count as usize, passes.targets.len());
            prop_assert!(passes.yours);
        }
        prop_assert_eq!(a.verdict == Verdict::DoNotCut, a.trouble.is_some());
        if let Some(change) = mend(&a) {
            let after = ask(&changed(&q, change).unwrap())?;
            prop_assert!(feasible(&after), "{change:?} leaves {:?}", after.trouble);
        }
        if feasible(&a) {
            let broken = Judge::new(&q, &a).broken();
            prop_assert!(broken.is_empty(), "{broken:?}");
        }
    }

    #[test]
    fn the_point_of_an_answer_typed_in_is_as_good(q in questions()) {
        let a = ask(&q)?;
        let q = Question { cut: Cut { own: typed(&a), ..q.cut }, ..q };
        let same = ask(&q)?;
        prop_assert_eq!(feasible(&same), feasible(&a), "{:?}", same.trouble);
        for (was, is) in a.limits.iter().zip(&same.limits) {
            prop_assert!((was.utilisation - is.utilisation).abs() < 1e-9, "{was:?} {is:?}");
        }
    }

    #[test]
    fn more_power_never_lowers_what_is_allowed(q in questions(), times in 1.1..4.0) {
        let weak = ask(&q)?;
        let mut strong = q.clone();
        strong.machine.power = Some(q.machine.power_or_assumed() * times);
        let a = ask(&strong)?;
        prop_assert!(feasible(&a) || !feasible(&weak), "{:?}", a.trouble);
        let full = |a: &Answer| a.feed.is_none_or(|f| f.per_tooth >= f.range.0 * 0.999);
        // A thin chip may be left for a fuller one that takes longer.
        let comparable = q.cut.style == Style::Brisk && feasible(&weak) && full(&weak) && full(&a);
        if comparable && weak.speed.set == a.speed.set {
            let (before, after) = (time_of(&q, &weak), time_of(&strong, &a));
            prop_assert!(after <= before.map(|t| t * 1.02001), "{before:?} {after:?}");
        }
        let curve = |q: &Question| {
            let window = window(&q.mill(), &q.cut, &weak)?;
            window.curves.into_iter().find(|c| c.limit == Limit::Power)
        };
        if let (Some(low), Some(high)) = (curve(&q), curve(&strong)) {
            for (low, high) in low.over.iter().zip(&high.over) {
                prop_assert!(low.0 == high.0 && low.1 <= high.1, "{low:?} {high:?}");
            }
        }
    }

    #[test]
    fn a_longer_stick_out_never_helps(q in questions(), longer in 1.05..2.5) {
        let a = ask(&q)?;
        let short = Question { cut: Cut { own: typed(&a), ..q.cut }, ..q };
        let mut long = short.clone();
        long.cutter.stickout = short.cutter.stickout * longer;
        let (a, b) = (ask(&short)?, ask(&long)?);
        prop_assert!(feasible(&a) || !feasible(&b));
        if let (Some(Value::Ratio(a)), Some(Value::Ratio(b))) =
            (value_of(&a, Limit::Breakage), value_of(&b, Limit::Breakage))
        {
            prop_assert!(b <= a * (1.0 + 1e-12), "margin {a} rises to {b}");
        }
        if let (Some(Value::Length(a)), Some(Value::Length(b))) =
            (value_of(&a, Limit::Bending), value_of(&b, Limit::Bending))
        {
            prop_assert!(b >= a * (1.0 - 1e-12), "bend {a:?} falls to {b:?}");
        }
    }
}
