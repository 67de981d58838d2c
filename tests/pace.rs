//! A cut in time: the beat of a scenario, and properties no run may break.

mod mills;

use handwheel::engine::{
    answer::{Answer, Verdict},
    cutters::{Kind, ToolMaterial},
    limits::answer,
    pace::{Accent, Beat, Choice, NotPaced, Pace, Work, beats, quickest},
    quantity::{Angle, Duration, Length, Stress, SurfaceSpeed},
    question::{Operation, Own},
};
use mills::{bench_mill, cut, end_mill, knee_mill, on};
use proptest::prelude::*;

fn second(value: f64) -> Duration {
    Duration::second(value)
}

fn choice(beat: Beat) -> Choice {
    Choice { beat, delay: second(10.0), rest: second(15.0) }
}

/// The slot of 3 mm in two passes: 1.34 s a turn, 32 s a pass.
fn slot(length: Option<Length>) -> Answer {
    let mill = bench_mill();
    let mut cutter = end_mill(Length::mm(3.0), 2, ToolMaterial::Hss);
    cutter.flute_length = Length::mm(9.0);
    cutter.shank = Length::mm(3.0);
    cutter.stickout = Length::mm(10.0);
    let mut on = on(&mill, "al_6061", cutter);
    on.runout = Some(Length::inch(0.0005));
    let mut cut = cut(Operation::Slot, Length::inch(0.060));
    cut.length = length;
    cut.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(250.0)),
        feed: Some(Length::inch(0.0005)),
        cutting_force: Some(Stress::newton_per_mm2(1682.0)),
        ..Own::default()
    };
    answer(&on, &cut).unwrap()
}

/// A blind hole of 4.2 mm, three diameters deep.
fn hole() -> Answer {
    let mill = knee_mill();
    let mut drill = end_mill(Length::mm(4.2), 2, ToolMaterial::Hss);
    drill.kind = Kind::Drill { point_angle: Angle::degree(118.0) };
    let mut hole = cut(Operation::Drill { through: false, pilot: None }, Length::inch(0.500));
    hole.own.passes = Some(3);
    answer(&on(&mill, "ss_303", drill), &hole).unwrap()
}

#[test]
fn a_slot_in_two_passes_is_fed_goes_back_and_is_fed_again() {
    let pace = Pace::of(&slot(Some(Length::inch(1.5))), choice(Beat::Turn)).unwrap();
    let work: Vec<Work> = pace.legs.iter().map(|leg| leg.work).collect();
    assert_eq!(work, [Work::GetReady, Work::Feed, Work::GoBack, Work::Feed]);
    let first = pace.legs[1];
    assert!((first.beat.unwrap().to_second() - 1.34).abs() < 0.005);
    assert!((first.lasts.unwrap().to_second() - 32.0).abs() < 0.5);
    assert_eq!(first.pass, (1, 2));
    assert!((first.depth.unwrap().to_inch() - 0.030).abs() < 1e-9);
    assert!((pace.legs[3].depth.unwrap().to_inch() - 0.060).abs() < 1e-9);
    let whole = pace.lasts().unwrap().to_second();
    assert!((whole - (10.0 + 15.0 + 2.0 * first.lasts.unwrap().to_second())).abs() < 1e-9);
}

#[test]
fn the_next_row_of_a_face_is_at_the_same_depth_and_the_next_pass_deeper() {
    let mut mill = end_mill(Length::inch(0.5), 4, ToolMaterial::Hss);
    mill.flute_length = Length::inch(1.0);
    mill.stickout = Length::inch(1.25);
    let mut face = cut(Operation::Face { width: Length::inch(0.8) }, Length::inch(0.02));
    face.own.passes = Some(2);
    face.length = Some(Length::inch(2.0));
    let face = answer(&on(&knee_mill(), "al_6061", mill), &face).unwrap();
    assert_eq!(face.rows.as_ref().unwrap().centres.len(), 2);
    let pace = Pace::of(&face, choice(Beat::Turn)).unwrap();
    let between: Vec<Work> = pace.legs[2..].iter().step_by(2).map(|leg| leg.work).collect();
    assert_eq!(between, [Work::NextRow, Work::GoBack, Work::NextRow]);
    assert_eq!(pace.legs[1].depth, pace.legs[3].depth);
    assert!(pace.legs[5].depth > pace.legs[3].depth);
}

#[test]
fn ten_tenths_are_a_turn_and_the_tenth_is_told_apart() {
    let answer = slot(Some(Length::inch(1.5)));
    let turn = Pace::of(&answer, choice(Beat::Turn)).unwrap().legs[1].beat.unwrap();
    // Of this slot a tenth is quicker than a hand, so a slower one of the same form is counted.
    assert_eq!(Pace::of(&answer, choice(Beat::Tenth)), Err(NotPaced::TooQuick));
    assert!(beats(&answer).iter().all(|(_, lasts)| *lasts >= quickest()));
    let mut slow = answer;
    let feed = slow.feed.as_mut().unwrap();
    feed.turn_time = Some(turn * 4.0);
    let pace = Pace::of(&slow, choice(Beat::Tenth)).unwrap();
    let ticks = pace.ticks(second(10.0), second(10.0 + 4.0 * turn.to_second() + 0.01));
    let whole: Vec<_> = ticks.iter().filter(|tick| tick.accent == Accent::Whole).collect();
    assert_eq!(whole.len(), 1);
    assert!((whole[0].at.to_second() - 10.0 - 4.0 * turn.to_second()).abs() < 1e-9);
}

#[test]
fn a_cut_of_unknown_length_is_paced_until_it_is_stopped() {
    let pace = Pace::of(&slot(None), choice(Beat::Turn)).unwrap();
    assert_eq!(pace.legs.len(), 2);
    assert_eq!(pace.lasts(), None);
    let moment = pace.at(second(3600.0)).unwrap();
    assert_eq!((moment.leg, moment.left), (1, None));
}

#[test]
fn pecks_end_at_the_depth_of_the_tip_and_are_cleared_between() {
    let hole = hole();
    let beat = beats(&hole).first().unwrap().0;
    let pace = Pace::of(&hole, choice(beat)).unwrap();
    let work: Vec<Work> = pace.legs.iter().map(|leg| leg.work).collect();
    let fed = |work: &&Work| **work == Work::Feed;
    assert_eq!(work.iter().filter(fed).count(), 3);
    assert_eq!(work[2], Work::Clear);
    let tip = hole.passes.as_ref().unwrap().tip.unwrap();
    let last = pace.legs.last().unwrap().depth.unwrap();
    assert!((last.to_inch() - tip.to_inch()).abs() < 1e-9, "{last:?} is not {tip:?}");
    let rate = hole.feed.as_ref().unwrap().rate.to_inch_per_min();
    let under_feed: f64 = pace
        .legs
        .iter()
        .filter(|leg| leg.work == Work::Feed)
        .map(|leg| leg.lasts.unwrap().to_minute())
        .sum();
    assert!((under_feed * rate - tip.to_inch()).abs() < 1e-9);
}

#[test]
fn what_is_over_a_limit_is_not_paced() {
    let mut answer = slot(Some(Length::inch(1.5)));
    answer.verdict = Verdict::DoNotCut;
    assert_eq!(Pace::of(&answer, choice(Beat::Turn)), Err(NotPaced::OverLimit));
}

#[test]
fn a_speed_alone_is_not_paced() {
    let mut answer = slot(None);
    answer.feed = None;
    assert_eq!(Pace::of(&answer, choice(Beat::Turn)), Err(NotPaced::NoFeed));
    assert!(beats(&answer).is_empty());
}

#[test]
fn delays_and_rests_that_are_none_are_named() {
    let answer = slot(None);
    for (delay, rest, what) in [
        (4.0, 15.0, "delay"),
        (31.0, 15.0, "delay"),
        (f64::NAN, 15.0, "delay"),
        (10.0, 0.0, "rest"),
        (10.0, f64::INFINITY, "rest"),
    ] {
        let choice = Choice { beat: Beat::Turn, delay: second(delay), rest: second(rest) };
        assert_eq!(Pace::of(&answer, choice), Err(NotPaced::Unusable(what)), "{delay} {rest}");
    }
}

#[test]
fn thirteen_turns_and_six_tenths_of_a_tap_are_counted() {
    let pace = Pace::of_tap_turns(13.6, second(2.0), second(10.0)).unwrap();
    assert!((pace.lasts().unwrap().to_second() - 37.2).abs() < 1e-9);
    let ticks = pace.ticks(second(10.0), second(60.0));
    assert_eq!(ticks.iter().filter(|tick| tick.accent == Accent::Beat).count(), 13);
    assert_eq!(ticks.last().unwrap().accent, Accent::End);
    for turns in [0.0, -1.0, f64::NAN, 1e9] {
        assert!(Pace::of_tap_turns(turns, second(2.0), second(10.0)).is_err(), "{turns}");
    }
}

#[test]
fn three_two_one_is_counted_before_every_pass() {
    let pace = Pace::of(&slot(Some(Length::inch(1.5))), choice(Beat::Turn)).unwrap();
    let all = pace.ticks(second(0.0), second(1e6));
    let counted: Vec<f64> = all
        .iter()
        .filter(|tick| tick.accent == Accent::CountIn)
        .map(|tick| tick.at.to_second())
        .collect();
    assert_eq!(counted.len(), 6);
    assert_eq!(counted[..3], [7.0, 8.0, 9.0]);
    assert_eq!(all.iter().filter(|tick| tick.accent == Accent::Begin).count(), 2);
}

proptest! {
    #[test]
    fn pieces_of_a_run_sound_like_the_whole(cuts in prop::collection::vec(0.0..120.0_f64, 1..8)) {
        let pace = Pace::of(&slot(Some(Length::inch(1.5))), choice(Beat::Turn)).unwrap();
        let mut cuts = cuts;
        cuts.extend([0.0, 120.0]);
        cuts.sort_by(f64::total_cmp);
        let pieces: Vec<_> = cuts
            .windows(2)
            .flat_map(|pair| pace.ticks(second(pair[0]), second(pair[1])))
            .collect();
        prop_assert_eq!(pieces, pace.ticks(second(0.0), second(120.0)));
    }

    #[test]
    fn no_beat_drifts(every in 1.0..10.0_f64, turns in 1.0..500.0_f64) {
        let pace = Pace::of_tap_turns(turns, second(every), second(5.0)).unwrap();
        let ticks = pace.ticks(second(5.0), second(1e6));
        let beats = ticks.iter().filter(|tick| tick.accent == Accent::Beat);
        for (n, tick) in beats.enumerate() {
            let ideal = 5.0 + (n as f64 + 1.0) * every;
            prop_assert!((tick.at.to_second() - ideal).abs() < 1e-6);
        }
    }

    #[test]
    fn a_moment_lies_in_its_stretch(now in 0.0..200.0_f64) {
        let pace = Pace::of(&slot(Some(Length::inch(1.5))), choice(Beat::Turn)).unwrap();
        let whole = pace.lasts().unwrap().to_second();
        match pace.at(second(now)) {
            None => prop_assert!(now >= whole),
            Some(moment) => {
                prop_assert!(now < whole);
                prop_assert!((0.0..1.0).contains(&moment.sweep));
                prop_assert!((moment.left.unwrap().to_second() - (whole - now)).abs() < 1e-9);
                let before: f64 = pace.legs[..moment.leg]
                    .iter()
                    .map(|leg| leg.lasts.unwrap().to_second())
                    .sum();
                prop_assert!((before + moment.into.to_second() - now).abs() < 1e-9);
            }
        }
    }
}
