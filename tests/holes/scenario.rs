//! The holes of the telescope mount, with the numbers that were worked out by hand.

use super::{blind, close, drills, every_drill, made, setting, step, threads::*, through, work};
use crate::mills::knee_mill;
use handwheel::engine::{
    answer,
    drills::{Index, Set},
    holes::{
        finish::Finish,
        recipe::{Caution, Remedy, Work},
        tool::ToolKind,
    },
    machine::Turning,
    quantity::{Length, SurfaceSpeed, System},
    question::Own,
    threads::{Hand, tap::Style, tap_hole::Verdict},
};

#[test]
fn six_m4_in_6061_are_drilled_3_3_mm_at_top_speed_and_tapped_by_hand() {
    let (knee, drills) = (knee_mill(), every_drill());
    let mut setting = setting(&knee, "al_6061", &drills);
    setting.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(200.0)),
        feed: Some(Length::inch(0.003)),
        ..Own::default()
    };
    let recipe = made(&through(Finish::Tapped(m4()), 0.500), &setting);
    assert_eq!(work(&recipe), [Work::Spot, Work::Drill, Work::TapByHand, Work::Deburr]);

    let spot = step(&recipe, Work::Spot);
    close(spot.makes.to_mm(), 4.4, 1e-9);
    close(spot.tip.to_inch(), 0.0866, 1e-4);

    let drill = step(&recipe, Work::Drill);
    assert_eq!(drill.tool.kind.title(System::Metric), "3.3 mm drill");
    let answer = drill.answer.as_ref().expect("it is cut");
    close(answer.speed.wanted.to_rpm(), 5880.0, 2.0);
    close(answer.speed.set.to_rpm(), 2560.0, 1e-6);
    close(answer.speed.surface.to_ft_per_min(), 87.1, 0.1);
    assert_eq!(drill.turn.as_ref().and_then(|t| t.switch.as_deref()), Some("FWD"));
    close(answer.feed.expect("a feed").rate.to_inch_per_min(), 7.68, 1e-6);
    close(drill.tip.to_inch(), 0.569, 1e-4);
    close(drill.time.expect("a time").to_second(), 4.4, 0.05);

    let tap = step(&recipe, Work::TapByHand);
    let chain = recipe.chain.expect("a chain");
    close(chain.thread_turns, 18.1, 0.05);
    close(tap.turns.expect("turns"), 18.14 + 4.0, 0.01);
    assert!(tap.answer.is_none() && recipe.cautions.contains(&Caution::DeadSpindle));
    assert!(!recipe.cautions.contains(&Caution::TapChips), "the hole goes through");
}

#[test]
fn ten_thirty_two_at_60_percent_in_303_fits_a_half_inch_hole_and_leaves_its_class() {
    let knee = knee_mill();
    let drills = Index::new(Set::Numbers.drills().into_iter().chain(Index::every_metric().iter()));
    let mut setting = setting(&knee, "ss_303", &drills);
    setting.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(50.0)),
        feed: Some(Length::inch(0.002)),
        ..Own::default()
    };
    let mut tapped = tapped("10-32");
    tapped.hole.percent = 60.0;
    tapped.hole.to_class = false;
    tapped.full_thread = Some(Length::inch(0.300));
    let recipe = made(&blind(Finish::Tapped(tapped), 0.75, Some(0.500)), &setting);
    let drill = step(&recipe, Work::Drill);
    assert_eq!(drill.tool.kind.title(System::Inch), "4.2 mm drill");
    let outside = recipe.cautions.iter().find_map(|c| match c {
        Caution::OutsideClass { verdict, class, .. } => Some((*verdict, class.expect("limits"))),
        _ => None,
    });
    let (verdict, class) = outside.expect("it is outside the class");
    assert_eq!(verdict, Verdict::OverMost);
    close(class.minor.least.to_inch(), 0.1560, 1e-6);
    close(class.minor.most.to_inch(), 0.1640, 1e-6);
    close(recipe.chain.expect("a chain").percent, 60.7, 0.05);

    let answer = drill.answer.as_ref().expect("it is cut");
    close(answer.speed.wanted.to_rpm(), 1155.0, 8.0);
    close(answer.speed.set.to_rpm(), 930.0, 1e-6);
    let rate = answer.feed.expect("a feed").rate;
    close(rate.to_inch_per_min(), 1.86, 1e-6);
    close(0.500 / rate.to_inch_per_min() * 60.0, 16.1, 0.1);
    close(drill.tip.to_inch(), 0.550, 5e-4);
    let chain = recipe.chain.expect("a chain");
    close(chain.needs.to_inch(), 0.456, 5e-4);
    close(chain.full.to_inch(), 0.500, 1e-9);
    close(chain.turns, 13.6, 1e-6);
    assert_eq!(chain.tap, Style::Plug);
    assert!(recipe.cautions.contains(&Caution::TapChips));
}

#[test]
fn ten_thirty_two_to_its_class_takes_another_drill() {
    let knee = knee_mill();
    let drills = Index::new(Set::Numbers.drills().into_iter().chain(Index::every_metric().iter()));
    let setting = setting(&knee, "ss_303", &drills);
    let mut tapped = tapped("10-32");
    tapped.hole.percent = 60.0;
    tapped.full_thread = Some(Length::inch(0.300));
    let recipe = made(&blind(Finish::Tapped(tapped), 0.75, Some(0.500)), &setting);
    assert_eq!(recipe.chain.expect("a chain").verdict, Some(Verdict::Inside));
    assert!(!recipe.cautions.iter().any(|c| matches!(c, Caution::OutsideClass { .. })));
}

#[test]
fn a_blind_quarter_twenty_by_plug_tap_breaks_through_three_quarters_of_an_inch() {
    let (knee, drills) = (knee_mill(), drills(&["#7"]));
    let setting = setting(&knee, "al_6061", &drills);
    let mut tapped = quarter_twenty();
    tapped.full_thread = Some(Length::inch(0.500));
    let hole = blind(Finish::Tapped(tapped.clone()), 0.750, None);
    let recipe = made(&hole, &setting);
    let chain = recipe.chain.expect("a chain");
    close(chain.full.to_inch(), 0.750, 1e-9);
    close(chain.tip.to_inch(), 0.8104, 1e-4);
    close(chain.turns, 14.0, 1e-9);
    let breaks = |c: &Caution| matches!(c, Caution::BreaksThrough { .. });
    assert!(recipe.cautions.iter().any(breaks));
    assert!(!step(&recipe, Work::Drill).pecks.is_empty(), "0.81 in is more than three diameters");

    let Some(Remedy::BottomingTap { full, tip, floor, turns }) = recipe.remedies.first() else {
        panic!("{:?}", recipe.remedies)
    };
    close(full.to_inch(), 0.625, 1e-9);
    close(tip.to_inch(), 0.6854, 1e-4);
    close(floor.to_inch(), 0.0646, 1e-4);
    close(*turns, 11.5, 1e-9);
    assert!(recipe.remedies.contains(&Remedy::Through));

    // The remedy taken: two taps, and a floor.
    let mut hole = hole;
    tapped.tap = Style::Bottoming;
    hole.finish = Finish::Tapped(tapped);
    let recipe = made(&hole, &setting);
    assert!(!recipe.cautions.iter().any(breaks) && recipe.remedies.is_empty());
    assert!(recipe.cautions.contains(&Caution::TwoTaps));
    let styles: Vec<_> = recipe
        .steps
        .iter()
        .filter_map(|step| match &step.tool.kind {
            ToolKind::Tap { style, .. } => Some((*style, step.turns.expect("turns"))),
            _ => None,
        })
        .collect();
    assert_eq!(styles.len(), 2);
    assert_eq!((styles[0].0, styles[1].0), (Style::Plug, Style::Bottoming));
    close(styles[1].1, 11.5, 1e-9);
    // The plug tap stops on the bottom, its chamfer of four threads short of full thread.
    let full: Vec<f64> = recipe
        .steps
        .iter()
        .filter(|step| step.work == Work::TapByHand)
        .map(|step| step.full.to_inch())
        .collect();
    close(full[0], 0.425, 1e-9);
    close(full[1], 0.500, 1e-9);
    close(recipe.chain.expect("a chain").floor.expect("a floor").to_inch(), 0.0646, 1e-4);
}

#[test]
fn a_hole_too_short_for_a_plug_tap_is_finished_with_a_bottoming_one() {
    let (knee, drills) = (knee_mill(), drills(&["#7"]));
    let setting = setting(&knee, "al_6061", &drills);
    let mut tapped = quarter_twenty();
    tapped.full_thread = Some(Length::inch(0.500));
    let recipe = made(&blind(Finish::Tapped(tapped.clone()), 0.750, Some(0.640)), &setting);
    assert_eq!(recipe.chain.expect("a chain").tap, Style::Bottoming);
    assert!(recipe.cautions.contains(&Caution::TwoTaps));
}

#[test]
fn a_left_hand_tap_goes_in_on_the_forward_switch_of_a_range_that_reverses() {
    let (knee, drills) = (knee_mill(), drills(&["5 mm"]));
    let setting = setting(&knee, "al_6061", &drills);
    let mut tapped = tapped("M6");
    tapped.under_power = true;
    let turn = |tapped| {
        let recipe = made(&through(Finish::Tapped(tapped), 0.5), &setting);
        let tap = step(&recipe, Work::TapUnderPower).clone();
        let answer = tap.answer.expect("it is cut");
        assert!(answer.speed.set.to_rpm() <= 200.0 && answer.verdict != answer::Verdict::DoNotCut);
        close(answer.feed.expect("a feed").per_turn.to_mm(), 1.0, 1e-9);
        tap.turn.expect("it turns")
    };
    let right = turn(tapped.clone());
    assert_eq!((right.into, right.switch.as_deref()), (Turning::Clockwise, Some("REV")));
    assert_eq!(right.switch_out.as_deref(), Some("FWD"));
    tapped.hole.thread = tapped.hole.thread.with_hand(Hand::Left);
    let left = turn(tapped);
    assert_eq!((left.into, left.switch.as_deref()), (Turning::CounterClockwise, Some("FWD")));
    assert_eq!((left.out, left.switch_out.as_deref()), (Some(Turning::Clockwise), Some("REV")));
}
