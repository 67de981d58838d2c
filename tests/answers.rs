//! Whole answers: the acceptance runs of the scenario, and properties no answer may break.

mod mills;

use handwheel::engine::{
    answer::{Because, Caution, Change, Concession, Limit, State, Trouble, Verdict},
    cutters::{Cutter, Kind, ToolMaterial},
    limits::{Offers, answer, answer_with, window},
    quantity::{Angle, FeedRate, Length, SpindleSpeed, Stress, SurfaceSpeed},
    question::{Coolant, Feeding, Field, Operation, Own, Style},
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

/// A cutter of another kind with the lengths of an end mill.
fn cutter(kind: Kind, inch: f64, teeth: u32) -> Cutter {
    Cutter { kind, ..end_mill(Length::inch(inch), teeth, ToolMaterial::Hss) }
}

fn drill(inch: f64) -> Cutter {
    cutter(Kind::Drill { point_angle: Angle::degree(118.0) }, inch, 2)
}

#[test]
fn at_the_hand_s_limit_a_brisk_cut_keeps_its_chip_and_gives_up_speed() {
    let mill = bench_mill();
    let on = on(&mill, "al_6061", end_mill(Length::inch(0.5), 4, ToolMaterial::Hss));
    let mut slot = cut(Operation::Slot, Length::inch(0.25));
    slot.style = Style::Brisk;
    let a = answer(&on, &slot).unwrap();
    let feed = a.feed.unwrap();
    close(feed.wheel.unwrap().to_turns_per_min(), 60.0, 1e-3);
    assert!(feed.per_tooth >= feed.range.0 * 0.4, "{:?} is a shaving", feed.per_tooth);
    assert!(a.speed.set < a.speed.wanted * 0.5);
}

#[test]
fn a_limit_that_has_nothing_to_do_with_depth_is_no_reason_for_passes() {
    let mill = bench_mill();
    let on = on(&mill, "al_6061", end_mill(Length::inch(0.25), 2, ToolMaterial::Hss));
    let a = answer(&on, &cut(Operation::Slot, Length::inch(0.25))).unwrap();
    assert_eq!(a.binding().unwrap().limit, Limit::Wheel);
    let reasons: Vec<_> = a
        .given_up
        .iter()
        .map(|c| match c {
            Concession::Passes { because, .. } => ("passes", *because),
            Concession::Speed { because, .. } => ("speed", *because),
            Concession::Feed { because, .. } => ("feed", *because),
        })
        .collect();
    let wheel = Because::Limit(Limit::Wheel);
    let bend = Because::Limit(Limit::Bending);
    assert_eq!(reasons, [("passes", bend), ("speed", wheel), ("feed", wheel)]);
}

#[test]
fn a_drill_in_titanium_names_its_thrust_and_is_mended_by_a_pilot() {
    let knee = knee_mill();
    let on = on(&knee, "ti_6al4v", drill(0.5));
    let hole = cut(Operation::Drill { pilot: None, through: true }, Length::inch(1.0));
    let a = answer(&on, &hole).unwrap();
    assert_eq!(a.verdict, Verdict::DoNotCut);
    let Some(Trouble::Between { at_least, at_most, mend: Some(Change::Pilot(pilot)) }) = a.trouble
    else {
        panic!("{:?}", a.trouble)
    };
    assert_eq!((at_least.0, at_most.0), (Limit::Rubbing, Limit::Thrust));
    let hole = cut(Operation::Drill { pilot: Some(pilot), through: true }, Length::inch(1.0));
    assert_ne!(answer(&on, &hole).unwrap().verdict, Verdict::DoNotCut);
}

#[test]
fn a_deep_hole_is_pecked_and_drilled_slower() {
    let knee = knee_mill();
    let on = on(&knee, "steel_low_c", drill(0.25));
    let ask = |depth: f64| {
        let hole = Operation::Drill { pilot: None, through: false };
        answer(&on, &cut(hole, Length::inch(depth))).unwrap()
    };
    let (shallow, deep) = (ask(0.5), ask(1.5));
    assert!(deep.speed.wanted < shallow.speed.wanted && deep.speed.set <= shallow.speed.set);
    let pecks = deep.passes.unwrap();
    assert!(pecks.pecks && pecks.targets.len() == 2 && pecks.depth <= Length::inch(0.76));
    assert!(deep.cautions.contains(&Caution::Peck) && !shallow.cautions.contains(&Caution::Peck));
}

#[test]
fn a_hole_is_never_fed_faster_than_a_hand_paces_a_lever() {
    let mill = bench_mill();
    let fastest = FeedRate::inch_per_min(15.0) * 1.001;
    for (cutter, operation) in [
        (cutter(Kind::Reamer, 0.25, 6), Operation::Ream),
        (drill(0.25), Operation::Drill { pilot: None, through: true }),
    ] {
        let on = on(&mill, "al_6061", cutter);
        let mut hole = cut(operation, Length::inch(0.5));
        hole.style = Style::Brisk;
        let feed = answer(&on, &hole).unwrap().feed.unwrap();
        assert!(feed.rate <= fastest, "{:?}", feed.rate);
        // Its fine-feed wheel would have to be spun: the lever is told instead.
        assert!(feed.wheel.is_none());
    }
}

#[test]
fn a_wide_climb_is_not_cut_in_dozens_of_passes() {
    let mill = bench_mill();
    let on = on(&mill, "al_6061", end_mill(Length::inch(1.0), 4, ToolMaterial::Hss));
    let side = Operation::Side { width: Length::inch(0.05), feeding: Feeding::Climb };
    let a = answer(&on, &cut(side, Length::inch(1.0))).unwrap();
    assert!(a.passes.unwrap().targets.len() <= 12);
    assert_eq!(a.relief[0].change, Change::Conventional);
}

#[test]
fn a_spot_is_fed_like_a_drill_of_its_own_size() {
    let knee = knee_mill();
    let spot = |inch: f64, depth: f64| {
        let spot_drill = cutter(Kind::SpotDrill { point_angle: Angle::degree(90.0) }, inch, 2);
        let on = on(&knee, "steel_low_c", spot_drill);
        answer(&on, &cut(Operation::Spot, Length::inch(depth))).unwrap().feed.unwrap().range
    };
    let (large, small) = (spot(0.5, 0.06), spot(0.25, 0.06));
    close(large.0 / small.0, 1.0, 1e-9);
    assert!(spot(0.5, 0.2).0 > large.0);
}

#[test]
fn cautions_say_nothing_that_is_not_so() {
    let bench = bench_mill();
    let side = Operation::Side { width: Length::inch(0.01), feeding: Feeding::Conventional };
    let mut finish = cut(side, Length::inch(0.5));
    finish.finish = true;
    let a =
        answer(&on(&bench, "al_6061", end_mill(Length::inch(0.5), 4, ToolMaterial::Hss)), &finish);
    let shallow = |c: &Caution| matches!(c, Caution::BeginAt(_));
    assert!(!a.unwrap().cautions.iter().any(shallow), "a finishing pass is as deep as it is");

    let finder = cutter(Kind::EdgeFinder, 0.2, 1);
    let a = answer(&on(&bench, "ti_6al4v", finder), &cut(Operation::FindEdge, Length::ZERO));
    assert_eq!(a.unwrap().cautions, [], "an edge finder makes no chips");

    let countersink = cutter(Kind::Countersink { included_angle: Angle::degree(82.0) }, 0.5, 3);
    let on_knee = knee_mill();
    let hole = Operation::Countersink { hole: Length::inch(0.25) };
    let a = answer(&on(&on_knee, "ti_6al4v", countersink), &cut(hole, Length::inch(0.1))).unwrap();
    assert!(a.speed.set > a.speed.wanted * 1.05);
    assert!(!a.cautions.contains(&Caution::LowestTooFast), "no edge minds 70 rpm here");

    // A truer holder is wished for only where this one is worse than the wish.
    let mut true_running = on(&bench, "al_6061", end_mill(Length::inch(0.5), 4, ToolMaterial::Hss));
    true_running.runout = Some(Length::inch(0.0001));
    let mut brisk = cut(Operation::Slot, Length::inch(0.1));
    brisk.style = Style::Brisk;
    let wish = |c: &Caution| matches!(c, Caution::OneTooth(_) | Caution::BetterHolder(_));
    assert!(!answer(&true_running, &brisk).unwrap().cautions.iter().any(wish));
}

#[test]
fn a_narrow_finish_that_only_rubs_is_mended_by_more_width() {
    let knee = knee_mill();
    let on = on(&knee, "ss_304", end_mill(Length::inch(0.125), 2, ToolMaterial::Hss));
    let side = |width| Operation::Side { width, feeding: Feeding::Conventional };
    let mut finish = cut(side(Length::inch(0.003)), Length::inch(0.125));
    finish.finish = true;
    let a = answer(&on, &finish).unwrap();
    let Some(Trouble::Between { mend: Some(Change::Width(width)), .. }) = a.trouble else {
        panic!("{:?}", a.trouble)
    };
    close(width.to_inch(), 0.006, 1e-9);
}

#[test]
fn a_tap_turns_no_faster_than_a_hand_reverses_it() {
    let bench = bench_mill();
    let tap = cutter(Kind::Tap { pitch: Length::inch(0.05) }, 0.25, 2);
    let a = answer(&on(&bench, "al_6061", tap), &cut(Operation::Tap, Length::inch(0.5))).unwrap();
    close(a.speed.set.to_rpm(), 200.0, 1e-9);
    close(a.feed.unwrap().per_turn.to_inch(), 0.05, 1e-9);
}

#[test]
fn a_borrowed_feed_says_from_whom() {
    let knee = knee_mill();
    let mut fly = cutter(Kind::FlyCutter, 2.5, 1);
    (fly.shank, fly.stickout) = (Length::inch(0.75), Length::inch(2.0));
    let face = cut(Operation::Face { width: Length::inch(2.0) }, Length::inch(0.01));
    let a = answer(&on(&knee, "ti_6al4v", fly), &face).unwrap();
    assert!(a.cautions.contains(&Caution::FeedBorrowed("stainless")), "{:?}", a.cautions);
}

#[test]
fn what_one_mill_cannot_push_another_of_the_shop_can() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let spot_drill = cutter(Kind::SpotDrill { point_angle: Angle::degree(90.0) }, 0.5, 2);
    let spot = cut(Operation::Spot, Length::inch(0.15));
    let machines = [bench.clone(), knee.clone()];
    let offers = Offers { cutters: &[], machines: &machines };
    let a = answer_with(&on(&bench, "ss_304", spot_drill), &spot, &offers).unwrap();
    assert!(
        matches!(a.trouble, Some(Trouble::Between { mend: Some(Change::OtherMachine(1)), .. })),
        "{:?}",
        a.trouble
    );
}

#[test]
fn a_drill_that_is_hard_to_push_is_not_made_to_rub_instead() {
    let bench = bench_mill();
    let on = on(&bench, "steel_low_c", drill(0.375));
    let a = answer(&on, &cut(Operation::Drill { pilot: None, through: true }, Length::inch(0.75)));
    let a = a.unwrap();
    assert_eq!(a.verdict, Verdict::Care);
    assert!(a.feed.unwrap().per_tooth > Length::inch(0.002));
    assert!(matches!(a.relief[0].change, Change::Pilot(_)), "{:?}", a.relief);
}

#[test]
fn two_typed_numbers_that_are_both_too_much_are_both_said_to_be() {
    let bench = bench_mill();
    let on = on(&bench, "steel_low_c", end_mill(Length::inch(0.25), 2, ToolMaterial::Hss));
    let mut slot = cut(Operation::Slot, Length::inch(0.125));
    slot.own.spindle_speed = Some(SpindleSpeed::rpm(2800.0));
    slot.own.feed_as_set = Some(Length::inch(0.005));
    let a = answer(&on, &slot).unwrap();
    assert!(matches!(a.trouble, Some(Trouble::Yours { mend: None, .. })), "{:?}", a.trouble);
}
