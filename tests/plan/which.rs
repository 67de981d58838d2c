//! The dovetail bar on two mills, and what decides between mills.

use handwheel::engine::{
    answer::{Limit, State},
    cutters::ToolMaterial,
    machine::Machine,
    plan::which::{Candidate, Choice, Loss, Turn, Wanted, which},
    quantity::{Length, Stress, SurfaceSpeed},
    question::{Cut, Feeding, Operation},
};

use crate::mills::{bench_mill, cut, end_mill, knee_mill, on};

/// The side cut of the bar, with the person's own figures.
fn bar() -> (Cut, Length) {
    let width = Length::inch(0.0375);
    let mut cut =
        cut(Operation::Side { width, feeding: Feeding::Conventional }, Length::inch(0.375));
    cut.own.surface_speed = Some(SurfaceSpeed::ft_per_min(80.0));
    cut.own.chip = Some(Length::inch(0.0015));
    cut.own.passes = Some(1);
    cut.own.unit_power = Some(Stress::hp_per_inch3_min(1.0));
    (cut, Length::inch(0.0020))
}

fn wanted(machine: &Machine) -> Wanted<'_> {
    let (cut, runout) = bar();
    let cutter = end_mill(Length::inch(0.375), 4, ToolMaterial::Hss);
    let mut mill = on(machine, "steel_low_c", cutter);
    mill.runout = Some(runout);
    Wanted { mill, cut, stack: None }
}

fn candidate(machine: &Machine) -> Candidate<'_> {
    Candidate { machine, room: None, busy: false }
}

fn loser(choice: &Choice) -> &[Loss] {
    &choice.standings[1].losses
}

#[test]
fn the_dovetail_bar_goes_on_the_knee_mill() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let choice = which(&wanted(&bench), &[candidate(&bench), candidate(&knee)]);
    let [best, other] = &choice.standings[..] else { panic!("two mills") };
    assert_eq!((best.mill, other.mill), (1, 0));

    let answer = best.answer.as_ref().unwrap();
    assert!((answer.speed.set.to_rpm() - 560.0).abs() < 1.0);
    assert!((answer.speed.wanted.to_rpm() - 815.0).abs() < 1.0);
    let feed = answer.feed.unwrap();
    assert!((feed.rate.to_inch_per_min() - 5.60).abs() < 0.05);
    assert!((feed.wheel.unwrap().to_turns_per_min() - 28.0).abs() < 0.3);
    assert!((feed.turn_time.unwrap().to_second() - 2.14).abs() < 0.02);
    assert!(best.losses.iter().any(|loss| matches!(loss, Loss::TooSlow { able, .. }
        if (able.to_rpm() - 560.0).abs() < 1.0)));

    // The bench mill could run the wanted speed, but no hand could follow it.
    assert!((other.able.unwrap().to_rpm() - 815.0).abs() < 1.0);
    let wheel = other.losses.iter().find_map(|loss| match loss {
        Loss::Wheel { rate, most, set } => Some((rate, most, set)),
        _ => None,
    });
    let (rate, most, set) = wheel.expect("the wheel");
    assert!((rate.to_turns_per_min() - 130.4).abs() < 1.3);
    assert!((most.to_turns_per_min() - 60.0).abs() < 1e-9);
    assert!((set.to_rpm() - 375.0).abs() < 1.0);
}

#[test]
fn the_runout_is_over_on_both_and_decides_nothing() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let choice = which(&wanted(&bench), &[candidate(&bench), candidate(&knee)]);
    let limits: Vec<_> = choice.everywhere.iter().map(|r| (r.limit, r.state)).collect();
    assert_eq!(limits, [(Limit::Runout, State::Over)]);
    for standing in &choice.standings {
        assert!(!standing.losses.iter().any(|loss| matches!(loss, Loss::Limit(_))));
    }
}

#[test]
fn what_would_turn_the_choice_is_tried_out() {
    let (mut bench, knee) = (bench_mill(), knee_mill());
    let choice = which(&wanted(&bench), &[candidate(&bench), candidate(&knee)]);
    let turns = &choice.standings[1].turns;
    let lead = turns.iter().find_map(|turn| match turn {
        Turn::Lead(lead) => Some(*lead),
        _ => None,
    });
    // A little more than 5.6 in/min at 60 turns/min.
    let lead = lead.expect("a longer lead");
    assert!((lead.to_inch() / (5.6 / 60.0) - 1.04).abs() < 0.01, "{}", lead.to_inch());
    bench.table.lead = lead;
    let again = which(&wanted(&bench), &[candidate(&bench), candidate(&knee)]);
    assert_eq!(again.standings[0].mill, 0);
}

#[test]
fn a_mill_that_stands_set_up_for_something_else_waits_for_one_that_is_free() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let busy = Candidate { busy: true, ..candidate(&knee) };
    let choice = which(&wanted(&bench), &[candidate(&bench), busy]);
    assert_eq!(choice.standings[0].mill, 0);
    assert!(loser(&choice).contains(&Loss::Busy));
    assert!(choice.standings[1].turns.contains(&Turn::TakeDown));
}

#[test]
fn a_mill_without_room_for_the_work_loses_by_what_is_missing() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let mut wanted = wanted(&bench);
    wanted.stack = Some(Length::inch(9.0));
    let out = wanted.mill.cutter.stickout;
    let low = Candidate { room: Some(Length::inch(8.0)), ..candidate(&knee) };
    let high = Candidate { room: Some(Length::inch(20.0)), ..candidate(&bench) };
    let choice = which(&wanted, &[low, high]);
    assert_eq!(choice.standings[0].mill, 1);
    let missing = loser(&choice).iter().find_map(|loss| match loss {
        Loss::Height(missing) => Some(*missing),
        _ => None,
    });
    let missing = missing.expect("the height");
    assert!((missing - (Length::inch(1.0) + out)).abs() < Length::um(1.0));
    assert!(choice.standings[1].turns.contains(&Turn::Lower(missing)));
}

#[test]
fn a_small_cutter_wants_the_faster_spindle() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let slot = on(&bench, "al_6061", end_mill(Length::mm(3.0), 2, ToolMaterial::Hss));
    let wanted = Wanted { mill: slot, cut: cut(Operation::Slot, Length::inch(0.06)), stack: None };
    let choice = which(&wanted, &[candidate(&bench), candidate(&knee)]);
    let speeds: Vec<f64> = choice.standings.iter().filter_map(|s| Some(s.able?.to_rpm())).collect();
    assert_eq!(speeds.len(), 2);
    for standing in &choice.standings {
        assert!(standing.losses.iter().any(|loss| matches!(loss, Loss::TooSlow { .. })));
    }
}

#[test]
fn one_mill_or_none_is_no_choice_and_no_fault() {
    let bench = bench_mill();
    assert!(which(&wanted(&bench), &[]).standings.is_empty());
    let alone = which(&wanted(&bench), &[candidate(&bench)]);
    assert_eq!(alone.standings.len(), 1);
    assert!(alone.can);
    let mut none = bench_mill();
    none.ranges.clear();
    let choice = which(&wanted(&bench), &[candidate(&none)]);
    assert!(!choice.can);
    assert!(choice.standings[0].losses.iter().all(|loss| matches!(loss, Loss::Cannot(_))));
}
