//! What holds for every recipe, whatever the hole, the stock, the machine and the drawer.

use super::{drills, every_drill, setting, threads::tapped as tapped_of};
use crate::mills::{bench_mill, end_mill, knee_mill};
use handwheel::engine::{
    answer::{Limit, State},
    cutters::{Cutter, Kind, ToolMaterial},
    drills::Index,
    holes::{
        clearance::{self, Fit, clearance_hole, screws},
        counterbore::{self, counterbore},
        countersink::{self, countersink},
        finish::{Bottom, Finish, Hole, Opening},
        recipe::{Caution, Recipe, Step, Work, recipe},
        tapping::Tapped,
        tool::Has,
    },
    quantity::{Angle, Duration, Length},
    source::source,
    stock::MATERIALS,
    threads::{Hand, tap::Style},
};
use proptest::{prelude::*, test_runner::TestCaseResult};

fn opening() -> impl Strategy<Value = Opening> {
    let sizes: Vec<_> = clearance::Standard::ALL
        .into_iter()
        .flat_map(|standard| screws(standard).map(move |screw| (standard, screw)))
        .flat_map(|(s, screw)| Fit::ALL.map(|fit| clearance_hole(s, screw, fit).ok()))
        .flatten()
        .collect();
    prop_oneof![
        (0.03..1.2f64).prop_map(|inch| Opening::Plain(Length::inch(inch))),
        proptest::sample::select(sizes).prop_map(Opening::Clearance),
    ]
}

fn tapped() -> impl Strategy<Value = Tapped> {
    let names =
        ["M3", "M4", "M6", "M12", "10-32", "1/4-20", "1/2-13", "1/4-20 BSW", "2 BA", "1/8 NPT"];
    let threads: Vec<_> = names.iter().map(|name| tapped_of(name)).collect();
    let styles = proptest::sample::select(Style::ALL.to_vec());
    (proptest::sample::select(threads), styles, any::<[bool; 2]>(), 0.05..1.0f64, 50.0..80.0f64)
        .prop_map(|(mut tapped, style, [left_hand, under_power], length, percent)| {
            tapped.tap = style;
            if left_hand {
                tapped.hole.thread = tapped.hole.thread.with_hand(Hand::Left);
            }
            tapped.under_power = under_power;
            tapped.hole.percent = percent;
            tapped.full_thread = Some(Length::inch(length));
            tapped
        })
}

fn seat() -> impl Strategy<Value = Finish> {
    let bores: Vec<_> = counterbore::Standard::ALL
        .into_iter()
        .flat_map(|s| counterbore::screws(s).map(move |screw| counterbore(s, screw)))
        .flatten()
        .collect();
    let cones: Vec<_> = countersink::Standard::ALL
        .into_iter()
        .flat_map(|s| countersink::screws(s).map(move |screw| countersink(s, screw)))
        .flatten()
        .collect();
    prop_oneof![
        (opening(), proptest::sample::select(bores))
            .prop_map(|(hole, bore)| Finish::socket_head(hole, bore)),
        (opening(), proptest::sample::select(cones))
            .prop_map(|(hole, cone)| Finish::flat_head(hole, cone)),
    ]
}

fn hole() -> impl Strategy<Value = Hole> {
    let finish = prop_oneof![
        opening().prop_map(Finish::Drilled),
        (0.06..1.0f64).prop_map(|inch| Finish::Reamed(Length::inch(inch))),
        tapped().prop_map(Finish::Tapped),
        seat(),
    ];
    let bottom = prop_oneof![
        Just(Bottom::Through),
        (0.02..1.5f64).prop_map(|inch| Bottom::Blind(Some(Length::inch(inch)))),
        Just(Bottom::Blind(None)),
    ];
    (finish, 0.03..2.0f64, bottom).prop_map(|(finish, plate, bottom)| Hole {
        finish,
        plate: Length::inch(plate),
        bottom,
    })
}

fn drawer() -> Vec<Cutter> {
    let of = |kind, inch| {
        let mut cutter = end_mill(Length::inch(inch), 2, ToolMaterial::Hss);
        cutter.kind = kind;
        cutter
    };
    vec![
        of(Kind::SpotDrill { point_angle: Angle::degree(90.0) }, 0.25),
        of(Kind::SpotDrill { point_angle: Angle::degree(120.0) }, 0.5),
        of(Kind::Countersink { included_angle: Angle::degree(82.0) }, 0.75),
        of(Kind::Countersink { included_angle: Angle::degree(90.0) }, 0.5),
        of(Kind::Reamer, 0.25),
        end_mill(Length::inch(0.4375), 2, ToolMaterial::Hss),
    ]
}

/// Place of a step in the order of the trade.
fn rank(work: Work) -> u32 {
    match work {
        Work::Spot => 0,
        Work::Pilot => 1,
        Work::Drill => 2,
        Work::Chamfer => 3,
        Work::Ream => 4,
        Work::Counterbore | Work::Countersink => 5,
        Work::BreakEdge => 6,
        Work::TapByHand | Work::TapUnderPower => 7,
        Work::Deburr => 8,
    }
}

fn is_tap(step: &Step) -> bool {
    matches!(step.work, Work::TapByHand | Work::TapUnderPower)
}

fn sound(hole: &Hole, recipe: &Recipe) -> TestCaseResult {
    let text = format!("{recipe:?}");
    let words = text.split(|c: char| !c.is_alphanumeric());
    prop_assert!(!words.into_iter().any(|word| matches!(word, "NaN" | "inf")), "{text}");
    let steps = &recipe.steps;
    prop_assert!(steps.windows(2).all(|s| rank(s[0].work) <= rank(s[1].work)), "{steps:?}");
    prop_assert_eq!(steps[0].work, Work::Spot);
    prop_assert_eq!(hole.bottom == Bottom::Through, steps.last().unwrap().work == Work::Deburr);

    let mut time = Duration::ZERO;
    for (place, step) in steps.iter().enumerate() {
        prop_assert!(step.why.ends_with('.') && step.makes.is_positive(), "{step:?}");
        // A tap that another one follows may leave no full thread of its own.
        let begins = is_tap(step) && steps.get(place + 1).is_some_and(is_tap);
        prop_assert!(step.tip.is_positive(), "{step:?}");
        prop_assert!(step.full.is_positive() || begins && step.full == Length::ZERO, "{step:?}");
        for tag in step.sources.split(' ') {
            prop_assert!(recipe.sources.contains(&source(tag).tag));
        }
        prop_assert!(step.pecks.windows(2).all(|p| p[0] < p[1]), "{:?}", step.pecks);
        if let Some(last) = step.pecks.last() {
            prop_assert!(step.pecks.len() > 1 && *last == step.tip);
        }
        if let Some(one) = step.time {
            prop_assert!(one.is_positive());
            time += one;
        }
        // Every answer holds its limits, or the recipe says which it does not.
        let over = step
            .answer
            .iter()
            .flat_map(|a| &a.limits)
            .find(|r| r.state == State::Over && r.limit != Limit::Runout);
        let said = recipe.cautions.iter().any(
            |c| matches!(c, Caution::Over { step, limit } if *step == place && over.is_some_and(|r| r.limit == *limit)),
        );
        prop_assert_eq!(over.is_some(), said, "{:?}", step);
        let missing = recipe.missing.iter().any(|m| m.work == step.work);
        prop_assert!(step.tool.has != Has::No || missing, "{step:?}");
    }
    prop_assert!((time - recipe.time).abs() <= Duration::second(1e-6));
    for caution in &recipe.cautions {
        prop_assert!(caution.why().ends_with('.'));
        prop_assert!(caution.sources().split(' ').all(|tag| recipe.sources.contains(&tag)));
    }
    if let (Some(last), Some(chain)) = (steps.iter().rfind(|s| is_tap(s)), recipe.chain) {
        let off = (last.full - chain.full_thread).abs();
        prop_assert!(off <= Length::mm(1e-9), "{last:?} leaves no {:?}", chain.full_thread);
    }
    // A drill goes no deeper than the one it leads, and is smaller.
    let drills: Vec<_> =
        steps.iter().filter(|s| matches!(s.work, Work::Pilot | Work::Drill)).collect();
    for pair in drills.windows(2) {
        prop_assert!(pair[0].makes < pair[1].makes);
        prop_assert!(pair[0].tip <= pair[1].tip * (1.0 + 1e-12));
    }
    Ok(())
}

fn indexes() -> [Index; 3] {
    [every_drill(), drills(&["#7", "1/4", "1/2", "3.3 mm"]), Index::default()]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    #[test]
    fn a_recipe_is_sound_or_refused_in_sentences(
        hole in hole(),
        stock in proptest::sample::select(MATERIALS.iter().map(|m| m.id).collect::<Vec<_>>()),
        on_the_knee in any::<bool>(),
        index in 0..3usize,
        told in any::<bool>(),
        point in prop_oneof![Just(118.0), Just(135.0), 90.0..140.0f64],
    ) {
        let machine = if on_the_knee { knee_mill() } else { bench_mill() };
        let (indexes, drawer) = (indexes(), drawer());
        let mut setting = setting(&machine, stock, &indexes[index]);
        setting.cutters = told.then_some(&drawer[..]);
        setting.point_angle = Angle::degree(point);
        match recipe(&hole, &setting) {
            Ok(recipe) => {
                sound(&hole, &recipe)?;
                prop_assert!(told || recipe.missing.iter().all(|m| matches!(m.work, Work::Drill | Work::Pilot)));
                let speeds = recipe.steps.iter().filter_map(|s| s.answer.as_ref());
                prop_assert!(speeds.into_iter().all(|a| machine.range_of(a.speed.set).is_some()));
            }
            Err(errors) => {
                prop_assert!(!errors.is_empty());
                for error in errors {
                    prop_assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
                }
            }
        }
    }

    #[test]
    fn a_deeper_blind_hole_never_leaves_a_higher_floor(
        plate in 0.2..2.0f64,
        one in 0.02..1.9f64,
        other in 0.02..1.9f64,
        tapped in tapped(),
    ) {
        let (knee, drills) = (knee_mill(), every_drill());
        let setting = setting(&knee, "al_6061", &drills);
        let (shallow, deep) = if one < other { (one, other) } else { (other, one) };
        let floor = |finish, depth| {
            let bottom = Bottom::Blind(depth);
            let hole = Hole { finish, plate: Length::inch(plate), bottom };
            let recipe = recipe(&hole, &setting).ok()?;
            let drill = recipe.steps.iter().find(|s| s.work == Work::Drill)?;
            Some(hole.plate - drill.tip)
        };
        let plain = |depth| floor(Finish::Drilled(Opening::Plain(Length::mm(5.0))), Some(Length::inch(depth)));
        if let (Some(high), Some(low)) = (plain(shallow), plain(deep)) {
            prop_assert!(low <= high);
        }
        let threaded = |length| {
            let mut tapped = tapped.clone();
            tapped.full_thread = Some(Length::inch(length));
            floor(Finish::Tapped(tapped), None)
        };
        if let (Some(high), Some(low)) = (threaded(shallow), threaded(deep)) {
            prop_assert!(low <= high);
        }
    }
}
