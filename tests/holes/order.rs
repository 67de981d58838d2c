//! The order of the steps, the tools they take, and what is said beside them.

use super::{
    clearing, close, drills, every_drill, made, plain, setting, step, threads::*, through, work,
};
use crate::{
    blind,
    mills::{bench_mill, end_mill, knee_mill},
};
use handwheel::engine::{
    answer::{Limit, State, Verdict},
    cutters::{Cutter, Kind, ToolMaterial},
    drills::Drill,
    holes::{
        clearance::Fit,
        counterbore::{self, counterbore},
        countersink::{self, countersink},
        finish::Finish,
        recipe::{ByHand, Caution, Remedy, Work, recipe as recipe_of},
        tapping::Tapped,
        tool::{Has, ToolKind},
    },
    machine::Machine,
    quantity::{Angle, Length},
    question::Field,
    threads::tap::Style,
};

fn tool(kind: Kind, inch: f64) -> Cutter {
    let mut cutter = end_mill(Length::inch(inch), 2, ToolMaterial::Hss);
    cutter.kind = kind;
    cutter
}

fn spot_drill(inch: f64, angle: f64) -> Cutter {
    tool(Kind::SpotDrill { point_angle: Angle::degree(angle) }, inch)
}

#[test]
fn a_clearance_hole_in_aluminium_is_spotted_to_its_bevel_and_drilled_from_solid() {
    let (knee, drills) = (knee_mill(), every_drill());
    let setting = setting(&knee, "al_6061", &drills);
    let finish = Finish::Drilled(clearing("1/4", Fit::Normal));
    let recipe = made(&through(finish, 0.5), &setting);
    assert_eq!(work(&recipe), [Work::Spot, Work::Drill, Work::Deburr]);
    assert!(step(&recipe, Work::Spot).makes > step(&recipe, Work::Drill).makes);
    assert!(recipe.sources.contains(&"B18_2_8"));
}

#[test]
fn a_drill_of_the_same_fit_serves_where_the_listed_one_is_not_owned() {
    let knee = knee_mill();
    let finish = || Finish::Drilled(clearing("1/4", Fit::Normal));
    let near = drills(&["7.1 mm", "17/64", "19/64"]);
    let recipe = made(&through(finish(), 0.5), &setting(&knee, "al_6061", &near));
    let drill = step(&recipe, Work::Drill);
    assert_eq!(drill.tool.has, Has::Yes);
    close(drill.makes.to_mm(), 7.1, 1e-9);
    assert!(recipe.cautions.iter().any(|c| matches!(c, Caution::NearestDrill { .. })));

    // 17/64 is the close fit and 19/64 the loose one: neither is normal.
    let other = drills(&["17/64", "19/64"]);
    let recipe = made(&through(finish(), 0.5), &setting(&knee, "al_6061", &other));
    assert_eq!(step(&recipe, Work::Drill).tool.has, Has::No);
    assert_eq!(recipe.missing.len(), 1);
    close(step(&recipe, Work::Drill).makes.to_inch(), 0.28125, 1e-9);
}

#[test]
fn a_quarter_inch_hole_takes_the_quarter_inch_drill_and_not_the_letter_of_its_size() {
    let (knee, all) = (knee_mill(), every_drill());
    let recipe = made(&through(plain(0.25), 0.5), &setting(&knee, "al_6061", &all));
    let quarter = Drill::named("1/4").expect("1/4");
    assert_eq!(step(&recipe, Work::Drill).tool.kind, ToolKind::Drill(quarter));
    assert!(recipe.cautions.is_empty());
}

#[test]
fn a_drill_too_large_for_the_machine_follows_a_pilot() {
    let (bench, knee) = (bench_mill(), knee_mill());
    let all = every_drill();
    let hole = through(plain(0.75), 0.5);
    let recipe = made(&hole, &setting(&bench, "al_6061", &all));
    let pilots: Vec<_> = recipe.steps.iter().filter(|s| s.work == Work::Pilot).collect();
    assert!(!pilots.is_empty());
    assert!(pilots.windows(2).all(|pair| pair[0].makes < pair[1].makes));
    let small = made(&through(plain(0.25), 0.5), &setting(&knee, "al_6061", &all));
    assert!(!work(&small).contains(&Work::Pilot), "a small drill needs none");
    // With one drill alone there is none to go ahead.
    let lone = drills(&["3/4"]);
    let alone = made(&hole, &setting(&bench, "al_6061", &lone));
    assert!(!work(&alone).contains(&Work::Pilot));
    let answer = step(&alone, Work::Drill).answer.as_ref().expect("it is cut");
    assert_eq!(answer.verdict, Verdict::Care);
}

#[test]
fn what_the_machine_cannot_do_is_shown_with_the_limit_that_stops_it() {
    let (bench, all) = (bench_mill(), every_drill());
    let recipe = made(&through(plain(0.75), 0.5), &setting(&bench, "ss_304", &all));
    let over = recipe.cautions.iter().find_map(|c| match c {
        Caution::Over { step, limit } => Some((*step, *limit)),
        _ => None,
    });
    let (place, limit) = over.expect("it is over");
    let answer = recipe.steps[place].answer.as_ref().expect("it is cut");
    assert_eq!(answer.verdict, Verdict::DoNotCut);
    assert!(answer.limits.iter().any(|r| r.limit == limit && r.state == State::Over));
    assert!(matches!(limit, Limit::Power | Limit::Thrust));
    assert!(answer.feed.is_some(), "the numbers are shown all the same");
}

#[test]
fn three_eighths_is_reamed_after_a_drill_some_thousandths_under() {
    let (knee, inch) = (knee_mill(), drills(&["U", "23/64", "3/8"]));
    let setting_of = setting(&knee, "al_6061", &inch);
    let finish = || Finish::Reamed(Length::inch(0.375));
    let recipe = made(&through(finish(), 0.5), &setting_of);
    let drill = step(&recipe, Work::Drill);
    assert_eq!(drill.tool.kind, ToolKind::Drill(Drill::letter('U').expect("U")));
    close(drill.makes.to_inch(), 0.368, 1e-9);
    let speed = |work| step(&recipe, work).answer.as_ref().expect("it is cut").speed.set.to_rpm();
    assert!(speed(Work::Ream) < speed(Work::Drill), "a reamer turns slower");
    assert!(step(&recipe, Work::Ream).tip > Length::inch(0.5), "its lead has to come out");

    let heavy = drills(&["23/64"]);
    let recipe = made(&through(finish(), 0.5), &setting(&knee, "al_6061", &heavy));
    let takes = recipe.cautions.iter().find_map(|c| match c {
        Caution::ReamAllowance(takes) => Some(takes.to_inch()),
        _ => None,
    });
    close(takes.expect("it is heavy"), 0.015625, 1e-9);
}

#[test]
fn a_blind_reamed_hole_is_drilled_deeper_than_it_is_reamed() {
    let (knee, all) = (knee_mill(), every_drill());
    let hole = blind(Finish::Reamed(Length::inch(0.25)), 1.0, Some(0.5));
    let recipe = made(&hole, &setting(&knee, "al_6061", &all));
    assert!(step(&recipe, Work::Drill).full > step(&recipe, Work::Ream).tip);
    assert!(!work(&recipe).contains(&Work::Deburr), "nothing comes out");
}

#[test]
fn a_socket_head_gets_its_counterbore_after_the_hole() {
    let (knee, all) = (knee_mill(), every_drill());
    let bore = counterbore(counterbore::Standard::AsmeB18_3, "1/4").expect("1/4");
    let sunk = |fit| Finish::socket_head(clearing("1/4", fit), bore);
    let close_fit = made(&through(sunk(Fit::Close), 0.5), &setting(&knee, "al_6061", &all));
    assert_eq!(
        work(&close_fit),
        [Work::Spot, Work::Drill, Work::Counterbore, Work::BreakEdge, Work::Deburr]
    );
    assert!(close_fit.sources.contains(&"B18_3_CBORE") && close_fit.sources.contains(&"B18_2_8"));
    close(step(&close_fit, Work::Counterbore).tip.to_inch(), 0.25, 1e-9);
    let edge = step(&close_fit, Work::BreakEdge);
    assert!(edge.makes < bore.diameter() && edge.tip > bore.depth());
    // The normal hole is already wider than the edge that would be broken.
    let normal = made(&through(sunk(Fit::Normal), 0.5), &setting(&knee, "al_6061", &all));
    assert!(!work(&normal).contains(&Work::BreakEdge));
}

#[test]
fn a_flat_head_is_sunk_to_its_sharp_diameter_at_its_own_angle() {
    let (knee, all) = (knee_mill(), every_drill());
    let sink = countersink(countersink::Standard::AsmeB18_3, "1/4").expect("1/4");
    let finish = Finish::flat_head(clearing("1/4", Fit::Close), sink);
    let ninety = [tool(Kind::Countersink { included_angle: Angle::degree(90.0) }, 0.75)];
    let mut setting = setting(&knee, "al_6061", &all);
    setting.cutters = Some(&ninety);
    let recipe = made(&through(finish, 0.5), &setting);
    let cone = step(&recipe, Work::Countersink);
    close(cone.full.to_inch(), 0.5752 * (0.531 - 0.265625), 1e-4);
    close(cone.tip.to_inch(), 0.5752 * 0.531, 1e-4);
    assert_eq!(cone.tool.has, Has::No, "a 90 degree countersink is not one of 82");
    assert!(recipe.missing.iter().any(|m| m.work == Work::Countersink));
}

#[test]
fn a_drawer_that_nobody_has_told_of_misses_nothing() {
    let (knee, all) = (knee_mill(), every_drill());
    let unknown = setting(&knee, "al_6061", &all);
    let hole = through(Finish::Tapped(m4()), 0.5);
    assert!(made(&hole, &unknown).missing.is_empty());
    let mut empty = setting(&knee, "al_6061", &all);
    empty.cutters = Some(&[]);
    let missing: Vec<_> = made(&hole, &empty).missing.iter().map(|m| m.work).collect();
    assert_eq!(missing, [Work::Spot, Work::TapByHand]);
}

#[test]
fn a_spot_drill_too_small_for_the_bevel_centres_and_a_countersink_bevels() {
    let (knee, all) = (knee_mill(), every_drill());
    let small = [spot_drill(0.125, 90.0), spot_drill(0.25, 120.0)];
    let mut setting = setting(&knee, "al_6061", &all);
    setting.cutters = Some(&small);
    let recipe = made(&through(Finish::Tapped(quarter_twenty()), 0.5), &setting);
    assert_eq!(
        work(&recipe),
        [Work::Spot, Work::Drill, Work::Chamfer, Work::TapByHand, Work::Deburr]
    );
    assert!(step(&recipe, Work::Spot).makes < step(&recipe, Work::Drill).makes);
    assert_eq!(step(&recipe, Work::Spot).tool.has, Has::Yes);
}

#[test]
fn a_sheet_thinner_than_the_point_grabs() {
    let (knee, all) = (knee_mill(), every_drill());
    let grabs = |plate| {
        let recipe = made(&through(plain(0.5), plate), &setting(&knee, "al_6061", &all));
        let spot = step(&recipe, Work::Spot);
        assert!(spot.tip < Length::inch(plate), "the spot stays in the sheet");
        recipe.cautions.contains(&Caution::Grabs)
    };
    assert!(grabs(0.06) && !grabs(0.5));
}

#[test]
fn a_plain_blind_hole_that_breaks_through_names_what_mends_it() {
    let (knee, all) = (knee_mill(), every_drill());
    let recipe = made(&blind(plain(0.5), 0.5, Some(0.4)), &setting(&knee, "al_6061", &all));
    assert!(recipe.cautions.iter().any(|c| matches!(c, Caution::BreaksThrough { .. })));
    let flat = recipe
        .remedies
        .iter()
        .any(|r| matches!(r, Remedy::FlatBottom { floor } if (floor.to_inch() - 0.1).abs() < 1e-9));
    assert!(flat, "{:?}", recipe.remedies);
    let less = recipe.remedies.iter().find_map(|r| match r {
        Remedy::LessDeep(most) => Some(*most),
        _ => None,
    });
    let again = blind(plain(0.5), 0.5, less.map(Length::to_inch));
    let mended = made(&again, &setting(&knee, "al_6061", &all));
    assert!(mended.cautions.is_empty() && mended.remedies.is_empty(), "{:?}", mended.cautions);
}

#[test]
fn power_is_refused_to_a_tap_where_a_hand_is_surer() {
    let all = every_drill();
    let why = |machine: &Machine, mut tapped: Tapped| {
        tapped.under_power = true;
        let recipe =
            made(&through(Finish::Tapped(tapped), 0.5), &setting(machine, "al_6061", &all));
        let by_hand = work(&recipe).contains(&Work::TapByHand);
        let why = recipe.cautions.iter().find_map(|c| match c {
            Caution::ByHand(why) => Some(*why),
            _ => None,
        });
        assert_eq!(by_hand, why.is_some());
        assert_eq!(by_hand, recipe.cautions.contains(&Caution::DeadSpindle));
        why
    };
    let mut knee = knee_mill();
    assert_eq!(why(&knee, quarter_twenty()), None);
    assert_eq!(why(&knee, tapped("M3")), Some(ByHand::Small));
    knee.ranges[0].counter_clockwise_label = None;
    assert_eq!(why(&knee, quarter_twenty()), Some(ByHand::NoReverse));
    knee.ranges.remove(0);
    assert_eq!(why(&knee, quarter_twenty()), Some(ByHand::Fast));
}

#[test]
fn a_thread_shorter_than_its_stock_needs_is_said() {
    let (knee, all) = (knee_mill(), every_drill());
    let short = |stock, plate| {
        let recipe =
            made(&through(Finish::Tapped(quarter_twenty()), plate), &setting(&knee, stock, &all));
        recipe.cautions.iter().any(|c| matches!(c, Caution::ShortThread { .. }))
    };
    assert!(!short("steel_low_c", 0.25) && short("al_6061", 0.25) && !short("al_6061", 0.375));
}

#[test]
fn tough_stock_begins_with_a_taper_tap_where_it_can_come_out() {
    let (knee, all) = (knee_mill(), every_drill());
    let taps = |stock| {
        let hole = through(Finish::Tapped(quarter_twenty()), 0.5);
        let recipe = made(&hole, &setting(&knee, stock, &all));
        work(&recipe).iter().filter(|w| **w == Work::TapByHand).count()
    };
    assert_eq!((taps("ss_304"), taps("al_6061")), (2, 1));
}

#[test]
fn stock_that_dulls_high_speed_steel_is_drilled_with_carbide() {
    let (knee, all) = (knee_mill(), every_drill());
    let recipe = made(&through(plain(0.25), 0.125), &setting(&knee, "cfrp", &all));
    assert!(step(&recipe, Work::Drill).answer.is_some());
}

#[test]
fn a_thread_is_reamed_for_where_the_drawer_has_a_reamer_and_no_drill() {
    let (knee, few) = (knee_mill(), drills(&["#10", "1/4"]));
    let reamer = [tool(Kind::Reamer, 0.200)];
    let mut setting = setting(&knee, "al_6061", &few);
    setting.cutters = Some(&reamer);
    let mut tapped = quarter_twenty();
    tapped.full_thread = Some(Length::inch(0.3));
    let recipe = made(&blind(Finish::Tapped(tapped.clone()), 1.0, None), &setting);
    assert!(recipe.cautions.contains(&Caution::ReamedForTap));
    let (drill, ream) = (step(&recipe, Work::Drill), step(&recipe, Work::Ream));
    assert_eq!((drill.tool.has, ream.tool.has), (Has::Yes, Has::Yes));
    assert!(drill.makes < ream.makes && drill.full > ream.tip);
    close(recipe.chain.expect("a chain").percent, 76.98, 0.01);

    // Without it the drill is to buy, and 1/4 in is none for a quarter inch screw.
    setting.cutters = None;
    let recipe = made(&blind(Finish::Tapped(tapped), 1.0, None), &setting);
    let drill = step(&recipe, Work::Drill);
    assert_eq!(drill.tool.has, Has::No);
    assert!(drill.makes > Length::inch(0.196) && drill.makes < Length::inch(0.207));
}

#[test]
fn a_drill_of_ones_own_is_kept_and_judged() {
    let (knee, all) = (knee_mill(), every_drill());
    let setting = setting(&knee, "al_6061", &all);
    for (name, inside) in [("#7", true), ("#10", false), ("7/32", false)] {
        let mut tapped = quarter_twenty();
        tapped.drill = Drill::named(name).ok();
        let recipe = made(&through(Finish::Tapped(tapped.clone()), 0.5), &setting);
        assert_eq!(
            step(&recipe, Work::Drill).tool.kind,
            ToolKind::Drill(tapped.drill.expect(name))
        );
        let outside = recipe.cautions.iter().any(|c| matches!(c, Caution::OutsideClass { .. }));
        assert_eq!(outside, !inside, "{name}");
    }
}

#[test]
fn a_forming_tap_gets_its_own_larger_hole_and_only_in_stock_that_flows() {
    let (knee, all) = (knee_mill(), every_drill());
    let mut tapped = quarter_twenty();
    tapped.tap = Style::FormPlug;
    tapped.hole.percent = 65.0;
    let hole = through(Finish::Tapped(tapped), 0.5);
    let recipe = made(&hole, &setting(&knee, "al_6061", &all));
    close(step(&recipe, Work::Drill).makes.to_inch(), 0.2279, 5e-4);
    assert!(recipe.chain.expect("a chain").verdict.is_none());
    let errors = recipe_of(&hole, &setting(&knee, "ci_grey", &all)).expect_err("it is brittle");
    assert_eq!(errors[0].field, Field::Stock);
}

#[test]
fn a_taper_pipe_thread_is_refused_with_a_sentence() {
    let (knee, all) = (knee_mill(), every_drill());
    let hole = through(Finish::Tapped(tapped("1/8 NPT")), 0.5);
    let errors = recipe_of(&hole, &setting(&knee, "brass_360", &all)).expect_err("it is a taper");
    assert_eq!(errors[0].field, Field::Thread);
}
