//! Whole answers: the acceptance runs of the scenario, and properties no answer may break.

mod mills;

use handwheel::engine::{
    answer::{Caution, Limit, State, Trouble, Verdict},
    cutters::{Kind, ToolMaterial},
    limits::{answer, window},
    quantity::{Angle, Length, SpindleSpeed, Stress, SurfaceSpeed},
    question::{Coolant, Feeding, Field, Operation, Own},
};
use mills::{bench_mill, cut, end_mill, knee_mill, on};

#[track_caller]
fn close(got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs(), "got {got}, wanted {wanted}");
}

#[test]
fn three_mm_slot_in_6061_runs_at_top_speed_in_two_passes() {
    let mill = bench_mill();
    let mut cutter = end_mill(Length::mm(3.0), 2, ToolMaterial::Hss);
    cutter.flute_length = Length::mm(9.0);
    cutter.shank = Length::mm(3.0);
    cutter.stickout = Length::mm(10.0);
    let mut on = on(&mill, "al_6061", cutter);
    on.runout = Some(Length::inch(0.0005));
    let mut cut = cut(Operation::Slot, Length::inch(0.060));
    cut.length = Some(Length::inch(1.5));
    cut.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(250.0)),
        feed: Some(Length::inch(0.0005)),
        cutting_force: Some(Stress::newton_per_mm2(1682.0)),
        ..Own::default()
    };
    let a = answer(&on, &cut).unwrap();
    close(a.speed.wanted.to_rpm(), 8085.0, 1e-3);
    close(a.speed.set.to_rpm(), 2800.0, 1e-9);
    close(a.speed.surface.to_ft_per_min(), 86.6, 1e-3);
    let feed = a.feed.unwrap();
    close(feed.rate.to_inch_per_min(), 2.80, 1e-9);
    close(feed.wheel.unwrap().to_turns_per_min(), 44.8, 1e-9);
    close(feed.turn_time.unwrap().to_second(), 1.34, 5e-3);
    close(feed.mark_time.to_second(), 0.214, 5e-3);
    let passes = a.passes.clone().unwrap();
    assert_eq!(passes.targets.len(), 2);
    close(passes.depth.to_inch(), 0.030, 1e-9);
    close(a.time.unwrap().to_second() / 2.0, 32.0, 0.01);
    let runout = a.limits.iter().find(|r| r.limit == Limit::Runout).unwrap();
    assert_eq!(runout.state, State::Near);
    let wish = a.cautions.iter().find_map(|c| match c {
        Caution::OneTooth(tir) => Some(tir.to_inch()),
        _ => None,
    });
    close(wish.unwrap(), 0.000_15, 1e-6);
    assert_eq!(a.verdict, Verdict::Care);
}

#[test]
fn a_fly_cutter_in_cast_iron_takes_the_step_below_and_the_reversed_switch() {
    let mill = knee_mill();
    let mut cutter = end_mill(Length::inch(2.5), 1, ToolMaterial::Hss);
    cutter.kind = Kind::FlyCutter;
    cutter.shank = Length::inch(0.75);
    cutter.stickout = Length::inch(2.0);
    let mill_on = on(&mill, "ci_grey", cutter);
    let mut face = cut(Operation::Face { width: Length::inch(4.0) }, Length::inch(0.015));
    face.coolant = Coolant::Dry;
    face.length = Some(Length::inch(4.0));
    face.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(60.0)),
        feed: Some(Length::inch(0.008)),
        ..Own::default()
    };
    let a = answer(&mill_on, &face).unwrap();
    close(a.speed.wanted.to_rpm(), 91.67, 1e-3);
    close(a.speed.set.to_rpm(), 70.0, 1e-9);
    close(a.speed.neighbours.1.unwrap().to_rpm(), 115.0, 1e-9);
    assert_eq!(a.speed.switch.as_deref(), Some("REV"));
    let feed = a.feed.unwrap();
    close(feed.rate.to_inch_per_min(), 0.56, 1e-9);
    close(feed.wheel.unwrap().to_turns_per_min(), 2.8, 1e-9);
    close(feed.turn_time.unwrap().to_second(), 21.4, 5e-3);
    close(feed.mark_time.to_second(), 1.07, 5e-3);
    assert!(a.cautions.contains(&Caution::CountMarks));
    let rows = a.rows.clone().unwrap();
    assert_eq!(rows.centres.len(), 2);
    close(rows.centres[1].to_inch(), 0.75, 1e-9);
    close(a.travel.unwrap().to_inch(), 6.7, 1e-9);
    close(a.time.unwrap().to_minute(), 23.9, 5e-3);
    assert_ne!(a.verdict, Verdict::DoNotCut);

    let mut carbide = mill_on.clone();
    carbide.cutter.material = ToolMaterial::Carbide;
    face.own.surface_speed = Some(SurfaceSpeed::ft_per_min(200.0));
    face.own.feed = Some(Length::inch(0.006));
    let a = answer(&carbide, &face).unwrap();
    close(a.speed.wanted.to_rpm(), 305.6, 1e-3);
    close(a.speed.set.to_rpm(), 310.0, 1e-9);
    close(a.feed.unwrap().rate.to_inch_per_min(), 1.86, 1e-9);
    close(a.time.unwrap().to_minute() / 2.0, 3.6, 5e-3);
}

#[test]
fn a_kept_chip_in_g10_brings_the_speed_down_to_what_a_hand_can_turn() {
    let mill = bench_mill();
    let cutter = end_mill(Length::inch(0.125), 2, ToolMaterial::Carbide);
    let on = on(&mill, "g10_fr4", cutter);
    let mut cut = cut(Operation::Slot, Length::inch(0.030));
    cut.coolant = Coolant::Dry;
    cut.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(400.0)),
        feed: Some(Length::inch(0.0015)),
        ..Own::default()
    };
    let a = answer(&on, &cut).unwrap();
    close(a.speed.wanted.to_rpm(), 12_223.0, 1e-3);
    close(a.speed.set.to_rpm(), 1250.0, 1e-9);
    close(a.speed.surface.to_ft_per_min(), 40.9, 1e-3);
    let feed = a.feed.unwrap();
    close(feed.rate.to_inch_per_min(), 3.75, 1e-9);
    close(feed.wheel.unwrap().to_turns_per_min(), 60.0, 1e-9);
}

#[test]
fn the_knee_mill_takes_the_dovetail_bar_and_says_the_holder_wobbles() {
    let knee = knee_mill();
    let bench = bench_mill();
    let cutter = end_mill(Length::inch(0.375), 4, ToolMaterial::Hss);
    let width = Length::inch(0.0375);
    let mut side =
        cut(Operation::Side { width, feeding: Feeding::Conventional }, Length::inch(0.375));
    side.own = Own {
        surface_speed: Some(SurfaceSpeed::ft_per_min(80.0)),
        chip: Some(Length::inch(0.0015)),
        unit_power: Some(Stress::hp_per_inch3_min(1.0)),
        passes: Some(1),
        ..Own::default()
    };
    let mut mill = on(&knee, "steel_low_c", cutter);
    mill.runout = Some(Length::inch(0.0020));
    let a = answer(&mill, &side).unwrap();
    close(a.speed.wanted.to_rpm(), 815.0, 1e-3);
    close(a.speed.set.to_rpm(), 560.0, 1e-9);
    let feed = a.feed.unwrap();
    close(feed.per_tooth.to_inch(), 0.0025, 1e-9);
    close(feed.rate.to_inch_per_min(), 5.60, 1e-9);
    close(feed.wheel.unwrap().to_turns_per_min(), 28.0, 1e-9);
    close(feed.turn_time.unwrap().to_second(), 2.14, 5e-3);
    let runout = a.limits.iter().find(|r| r.limit == Limit::Runout).unwrap();
    assert_eq!(runout.state, State::Over);
    // The machine gives way far more than the cutter: bending is near, power far away.
    let power = a.limits.iter().find(|r| r.limit == Limit::Power).unwrap();
    assert!(power.utilisation < 0.1);
    assert!(a.cautions.iter().any(
        |c| matches!(c, Caution::BetterHolder(tir) if (tir.to_inch() - 0.000_636).abs() < 1e-6)
    ));
    assert_ne!(a.verdict, Verdict::DoNotCut);

    let mut mill = on(&bench, "steel_low_c", cutter);
    mill.runout = Some(Length::inch(0.0020));
    let a = answer(&mill, &side).unwrap();
    close(a.speed.set.to_rpm(), 375.0, 1e-9);
    close(a.feed.unwrap().wheel.unwrap().to_turns_per_min(), 60.0, 1e-9);
}

#[test]
fn a_typed_speed_the_machine_lacks_is_an_error_that_names_its_neighbours() {
    let knee = knee_mill();
    let mill = on(&knee, "al_6061", end_mill(Length::inch(0.25), 2, ToolMaterial::Hss));
    let mut slot = cut(Operation::Slot, Length::inch(0.05));
    slot.own.spindle_speed = Some(SpindleSpeed::rpm(1000.0));
    let errors = answer(&mill, &slot).unwrap_err();
    assert_eq!(errors[0].field, Field::SpindleSpeed);
    assert!(errors[0].hint.contains("930 and 1540"), "{}", errors[0]);
}

#[test]
fn a_typed_speed_that_burns_the_edge_is_refused_with_the_speed_that_holds() {
    let knee = knee_mill();
    let mill = on(&knee, "steel_low_c", end_mill(Length::inch(0.5), 4, ToolMaterial::Hss));
    let mut slot = cut(Operation::Slot, Length::inch(0.05));
    slot.own.spindle_speed = Some(SpindleSpeed::rpm(2560.0));
    let a = answer(&mill, &slot).unwrap();
    assert_eq!(a.verdict, Verdict::DoNotCut);
    assert_eq!(a.speed.set, SpindleSpeed::rpm(2560.0));
    assert!(matches!(a.trouble, Some(Trouble::Yours { limit: Limit::Speed, mend: Some(_) })));
}

#[test]
fn a_half_inch_drill_in_304_on_a_bench_mill_asks_for_a_pilot() {
    let bench = bench_mill();
    let mut drill = end_mill(Length::inch(0.5), 2, ToolMaterial::Hss);
    drill.kind = Kind::Drill { point_angle: Angle::degree(118.0) };
    let mill = on(&bench, "ss_304", drill);
    let hole = cut(Operation::Drill { pilot: None, through: true }, Length::inch(0.5));
    let a = answer(&mill, &hole).unwrap();
    assert_eq!(a.verdict, Verdict::DoNotCut);
    assert!(a.trouble.is_some());
    assert!(a.feed.is_some(), "the numbers are shown all the same");
}

#[test]
fn an_edge_finder_is_only_told_its_speed() {
    let knee = knee_mill();
    let mut finder = end_mill(Length::inch(0.2), 1, ToolMaterial::Hss);
    finder.kind = Kind::EdgeFinder;
    let mill = on(&knee, "al_6061", finder);
    let a = answer(&mill, &cut(Operation::FindEdge, Length::ZERO)).unwrap();
    close(a.speed.set.to_rpm(), 930.0, 1e-9);
    assert!(a.feed.is_none() && a.passes.is_none());
    assert!(window(&mill, &cut(Operation::FindEdge, Length::ZERO), &a).is_none());
}

#[test]
fn carbon_fibre_refuses_high_speed_steel_with_the_reason() {
    let knee = knee_mill();
    let mill = on(&knee, "cfrp", end_mill(Length::inch(0.25), 2, ToolMaterial::Hss));
    let errors = answer(&mill, &cut(Operation::Slot, Length::inch(0.05))).unwrap_err();
    assert_eq!(errors[0].field, Field::ToolMaterial);
    assert!(errors[0].hint.contains("carbide"));
}

#[test]
fn every_absurd_entry_is_a_sentence_at_its_field() {
    let knee = knee_mill();
    let sound = end_mill(Length::inch(0.25), 2, ToolMaterial::Hss);
    let inch = Length::inch;
    let slot = |depth: f64| cut(Operation::Slot, inch(depth));
    for bad in [0.0, -1.0, 500.0, f64::NAN, f64::INFINITY] {
        let mut cutter = sound;
        cutter.diameter = inch(bad);
        let errors = answer(&on(&knee, "al_6061", cutter), &slot(0.05)).unwrap_err();
        assert!(errors.iter().any(|e| e.field == Field::Diameter), "diameter {bad}");
        let errors = answer(&on(&knee, "al_6061", sound), &slot(bad)).unwrap_err();
        assert!(errors.iter().any(|e| e.field == Field::Depth), "depth {bad}");
        let width = Operation::Side { width: inch(bad), feeding: Feeding::Climb };
        let errors = answer(&on(&knee, "al_6061", sound), &cut(width, inch(0.05))).unwrap_err();
        assert!(errors.iter().any(|e| e.field == Field::Width), "width {bad}");
    }
    let mut none = sound;
    none.teeth = 0;
    let errors = answer(&on(&knee, "al_6061", none), &slot(0.05)).unwrap_err();
    assert_eq!(errors[0].field, Field::Teeth);
    let mut short = sound;
    short.stickout = short.flute_length * 0.5;
    let errors = answer(&on(&knee, "al_6061", short), &slot(0.05)).unwrap_err();
    assert!(errors.iter().any(|e| e.field == Field::Stickout));
    let mut idle = knee.clone();
    idle.ranges.clear();
    let errors = answer(&on(&idle, "al_6061", sound), &slot(0.05)).unwrap_err();
    assert!(errors.iter().any(|e| e.field == Field::Speeds));
    let mut fast = slot(0.05);
    fast.own.spindle_speed = Some(SpindleSpeed::rpm(1e9));
    let errors = answer(&on(&knee, "al_6061", sound), &fast).unwrap_err();
    assert_eq!(errors[0].field, Field::SpindleSpeed);
    for error in errors {
        assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
    }
}
