//! Holes as entered: links, reading, and the recipe made with what a person owns.

use handwheel::{
    engine::{
        holes::{
            clearance::Fit,
            finish::{Bottom, Finish, Opening},
            recipe::{Caution, Remedy, Work},
            tool::ToolKind,
        },
        limits::answer,
        quantity::System,
        question::{Coolant, Field, InputError},
        threads::{named, tap::Style, tap_set::TapSet},
    },
    shop::{
        cuts::{CutForm, OperationKind},
        document::Document,
        holes::{
            FinishKind, FlatHead, HoleForm,
            making::{Made, drilling, make, screws},
        },
        restore::restore,
        sample::sample,
        typed::{Typed, measure},
        word::Word,
    },
};
use proptest::prelude::*;

/// The sample shop with its knee mill in use.
fn shop() -> Document {
    let mut shop = sample();
    shop.mill.machine = "knee_mill".into();
    shop
}

fn form(query: &str) -> HoleForm {
    let (form, faults) = HoleForm::from_query(query);
    assert!(faults.is_empty(), "{faults:?}");
    form
}

#[track_caller]
fn made(query: &str) -> Made {
    make(&form(query), &shop()).unwrap_or_else(|errors| panic!("{errors:?}"))
}

#[track_caller]
fn refused(query: &str, field: Field) -> Vec<InputError> {
    let errors = make(&form(query), &shop()).expect_err("it cannot be");
    assert!(errors.iter().any(|error| error.field == field), "{field:?} is not in {errors:?}");
    for error in &errors {
        assert!(error.problem.ends_with('.') && error.hint.ends_with('.'), "{error}");
    }
    errors
}

#[test]
fn a_link_of_a_card_still_means_a_tapped_hole() {
    let form = form("thread=1/4-20+UNC&through=no&full_in=0.5&plate_in=0.750&percent=75");
    assert_eq!(form.finish, FinishKind::Tapped);
    assert_eq!((form.thread.as_str(), form.percent, form.through), ("1/4-20 UNC", Some(75), false));
}

#[test]
fn a_blind_quarter_twenty_is_made_with_the_shop_as_it_is() {
    let blind = "thread=1/4-20+UNC&through=no&full_in=0.5&plate_in=0.750&percent=75&chamfer=4";
    let made = made(&format!("{blind}&drill_in=%237"));
    let chain = made.recipe.chain.expect("a chain");
    assert!((chain.tip.to_inch() - 0.8104).abs() < 1e-4);
    assert!((chain.turns - 14.0).abs() < 1e-9);
    let breaks = |c: &Caution| matches!(c, Caution::BreaksThrough { .. });
    assert!(made.recipe.cautions.iter().any(breaks));
    assert!(matches!(made.recipe.remedies.first(), Some(Remedy::BottomingTap { .. })));
}

#[test]
fn the_drilling_checked_before_a_hole_is_the_one_of_its_recipe() {
    // The last cut was another: nothing of it may come along.
    let mut shop = shop();
    let mut last = CutForm { operation: OperationKind::Drill, ..CutForm::default() };
    last.mill.machine = "bench_mill".into();
    last.coolant = Some(Coolant::Flood);
    last.own.spindle_speed = Typed::new("77", System::Inch);
    last.own.passes = Typed::new("9", System::Inch);
    last.pilot = Typed::new("0.1", System::Inch);
    last.mill.stock = "al_6061".into();
    shop.remember(&last);
    for query in [
        "thread=1/4-20+UNC&through=no&full_in=0.5&plate_in=1",
        "thread=M4x0.7&plate_in=0.500&stock=ss_304",
        "kind=plain&hole_in=0.75&plate_in=1.5&stock=steel_low_c&mill=knee_mill",
        "kind=plain&hole_in=0.25&plate_in=0.5&point_in=135&v_in=40&feed_in=0.002",
        "kind=reamed&hole_mm=8&plate_mm=12&stock=brass_360",
    ] {
        let form = form(query);
        let recipe =
            make(&form, &shop).unwrap_or_else(|errors| panic!("{query}: {errors:?}")).recipe;
        let of_recipe = recipe.steps.iter().find(|step| step.work == Work::Drill).unwrap();
        let of_recipe = of_recipe.answer.as_ref().unwrap();
        let cut = drilling(&form, &shop, &recipe).unwrap();
        let machine = shop.machine_called(&cut.mill.machine).unwrap().form.read().unwrap();
        let asked = cut.read(&machine).unwrap_or_else(|errors| panic!("{query}: {errors:?}"));
        let checked = answer(&asked.mill, &asked.cut).unwrap();
        assert_eq!(checked.verdict, of_recipe.verdict, "{query}");
        assert_eq!(checked.speed.set, of_recipe.speed.set, "{query}");
        let feeds = [&checked, of_recipe].map(|a| a.feed.map(|feed| feed.rate.to_inch_per_min()));
        let [Some(checked), Some(of_recipe)] = feeds else { panic!("{query}: {feeds:?}") };
        assert!((checked / of_recipe - 1.0).abs() < 1e-4, "{query}: {checked} {of_recipe}");
    }
}

#[test]
fn a_tap_of_the_drawer_is_not_missing() {
    let form = form("thread=M4x0.7&plate_in=0.500");
    let is_missing = |shop: &Document, form: &HoleForm| {
        let missing = make(form, shop).unwrap().recipe.missing;
        missing.iter().any(|missing| missing.work == Work::TapByHand)
    };
    let mut shop = shop();
    assert!(is_missing(&shop, &form));
    shop.taps.own_set(TapSet::MetricCoarse, true);
    assert!(!is_missing(&shop, &form));
    let left = HoleForm { thread: "M4x0.7 LH".into(), ..form.clone() };
    assert!(is_missing(&shop, &left), "a right-hand tap cuts no left-hand thread");
    shop.taps.own(named("M4").unwrap(), false);
    assert!(is_missing(&shop, &form));
    assert!(!shop.taps.has_set(TapSet::MetricCoarse) && shop.taps.threads().len() == 6);

    shop.taps.add("5-40").unwrap();
    shop.taps.add("5-40 UNC").unwrap();
    assert_eq!(shop.taps.singles().len(), 1);
    assert!(shop.taps.add("M4x9").is_err());
    assert_eq!(restore(&shop.to_text()).unwrap().taps, shop.taps);
    // Where nothing else was said, nothing is missing.
    shop.cutters.clear();
    shop.taps = Default::default();
    assert!(!is_missing(&shop, &form));
}

#[test]
fn what_is_owned_and_what_is_not_are_told_apart() {
    let made = made("thread=M4x0.7&plate_in=0.500");
    assert!(made.recipe.missing.iter().any(|m| m.work == Work::TapByHand), "there are no taps");
    assert!(!made.recipe.missing.iter().any(|m| m.work == Work::Drill), "3.3 mm is in its box");
    let mut bare = shop();
    bare.cutters.clear();
    let made = make(&form("thread=M4x0.7&plate_in=0.500"), &bare).expect("a recipe");
    assert!(made.recipe.missing.is_empty(), "nobody has said what is owned");
}

#[test]
fn every_kind_of_hole_is_made_from_few_entries() {
    for (query, works) in [
        ("kind=plain&hole_mm=6&plate_in=0.5", Work::Drill),
        ("kind=reamed&hole_in=1/4&plate_in=0.5", Work::Ream),
        ("kind=clearance&screw=M5&plate_mm=10", Work::Drill),
        ("kind=clearance&screw=%2310&fit=close&chart=yes&plate_mm=10", Work::Drill),
        ("kind=counterbored&screw=1/4&plate_in=0.5", Work::Counterbore),
        ("kind=countersunk&screw=%238&head=machine&plate_in=0.5", Work::Countersink),
        ("thread=M6x1&power=yes&plate_mm=12", Work::TapUnderPower),
        ("thread=M3x0.5&tap=form_plug&plate_mm=6", Work::TapByHand),
    ] {
        let made = made(query);
        assert!(made.recipe.steps.iter().any(|step| step.work == works), "{query}");
    }
}

#[test]
fn a_screw_that_is_offered_has_its_hole() {
    for &finish in FinishKind::ALL.iter().filter(|kind| kind.is_for_a_screw()) {
        for &head in FlatHead::ALL {
            for metric in [false, true] {
                let form =
                    HoleForm { finish, head, plate: Typed::inch("6"), ..HoleForm::default() };
                let offered = screws(&form, metric);
                assert!(offered.len() > 5, "{finish:?} {head:?}: {offered:?}");
                for screw in offered {
                    let form = HoleForm { screw: screw.to_owned(), ..form.clone() };
                    let made = make(&form, &shop());
                    let faults = made.err().unwrap_or_default();
                    let table = faults.iter().any(|f| f.field == Field::Screw);
                    assert!(!table, "{finish:?} {screw}: {faults:?}");
                }
            }
        }
    }
}

#[test]
fn the_shop_chart_and_the_standard_differ() {
    let hole = |query: &str| match made(query).hole.finish {
        Finish::Drilled(Opening::Clearance(row)) => row.hole(),
        other => panic!("{other:?}"),
    };
    let standard = hole("kind=clearance&screw=1/4&fit=close&plate_in=0.5");
    let chart = hole("kind=clearance&screw=1/4&fit=close&chart=yes&plate_in=0.5");
    assert!(chart < standard);
}

#[test]
fn a_depth_of_ones_own_is_kept_and_a_through_hole_has_none() {
    let blind = "kind=plain&hole_in=1/4&plate_in=1&through=no&depth_in=1/2";
    let Bottom::Blind(Some(depth)) = made(blind).hole.bottom else { panic!("it is blind") };
    assert!((depth.to_inch() - 0.5).abs() < 1e-12);
    let through = blind.replace("&through=no", "");
    assert_eq!(made(&through).hole.bottom, Bottom::Through);
}

#[test]
fn a_drill_of_ones_own_is_named_or_measured() {
    for drill in ["drill_in=%237", "drill_in=.201", "drill_in=no.7", "drill_mm=5.105"] {
        let made = made(&format!("thread=1/4-20&plate_in=0.5&{drill}"));
        let step = made.recipe.steps.iter().find(|s| s.work == Work::Drill).expect("a drill");
        let ToolKind::Drill(drill) = step.tool.kind else { panic!("{:?}", step.tool) };
        assert_eq!(drill.name(), "No. 7");
    }
    refused("thread=1/4-20&plate_in=0.5&drill_in=1/4", Field::Pilot);
    refused("thread=1/4-20&plate_in=0.5&drill_in=9", Field::Pilot);
    refused("thread=1/4-20&plate_in=0.5&drill_in=wide", Field::Pilot);
}

#[test]
fn what_is_missing_or_cannot_be_stands_at_its_field() {
    refused("plate_in=0.5", Field::Thread);
    refused("thread=zzz&plate_in=0.5", Field::Thread);
    refused("thread=1/8+NPT&plate_in=0.5", Field::Thread);
    refused("thread=1/4-20", Field::Plate);
    refused("thread=1/4-20&plate_in=0.5&through=no", Field::FullThread);
    refused("thread=1/4-20&plate_in=0.5&through=no&full_in=0", Field::FullThread);
    refused("thread=1/4-20&plate_in=0.5&through=no&full_in=.2&depth_in=0", Field::Depth);
    refused("thread=1/4-20&plate_in=0.5&through=no&full_in=.2&depth_in=0.6", Field::Depth);
    refused("thread=1/4-20&plate_in=0.5&chamfer=99&full_in=.2", Field::TapChamfer);
    refused("thread=1/4-20&plate_in=0.5&point=5", Field::PointAngle);
    refused("kind=clearance&plate_in=0.5", Field::Screw);
    refused("kind=clearance&plate_in=0.5&screw=M99", Field::Screw);
    refused("kind=clearance&plate_in=0.5&screw=1/4&chart=yes", Field::Fit);
    refused("kind=counterbored&plate_in=0.1&screw=1/4", Field::Screw);
    refused("kind=counterbored&plate_mm=3&screw=M12", Field::Screw);
    refused("kind=reamed&plate_in=0.5", Field::Hole);
    refused("kind=plain&plate_in=0.5&hole_in=9", Field::Hole);
    refused("kind=plain&plate_in=0.5&hole_in=1/4&through=no", Field::Depth);
    refused("thread=1/4-20&plate_in=0.5&stock=unobtainium", Field::Stock);
    let all = refused("kind=counterbored&v_ft_min=fast&plate_in=0&point=x", Field::Screw);
    let fields: Vec<Field> = all.iter().map(|error| error.field).collect();
    assert_eq!(fields, [Field::Screw, Field::Plate, Field::SurfaceSpeed, Field::PointAngle]);
    let nobody = make(&form("thread=1/4-20&plate_in=0.5"), &Document::default());
    let fields: Vec<Field> = nobody.expect_err("nothing").iter().map(|e| e.field).collect();
    assert_eq!(fields, [Field::Machine, Field::Stock]);
}

const FIELDS: [Field; 10] = [
    Field::FullThread,
    Field::Plate,
    Field::Depth,
    Field::Hole,
    Field::Pilot,
    Field::TapChamfer,
    Field::Spare,
    Field::PointAngle,
    Field::SurfaceSpeed,
    Field::Feed,
];

fn word<T: Word + std::fmt::Debug>() -> impl Strategy<Value = T> {
    proptest::sample::select(T::ALL)
}

prop_compose! {
    fn any_form()(
        choices in (word::<FinishKind>(), word::<Fit>(), word::<FlatHead>(), word::<Style>()),
        percent in proptest::option::of(1u32..=100),
        names in proptest::array::uniform4("\\PC{0,12}"),
        flags in any::<[bool; 5]>(),
        typed in proptest::collection::vec(("\\PC{0,12}", word::<System>()), FIELDS.len()),
    ) -> HoleForm {
        let (finish, fit, head, tap) = choices;
        let [machine, stock, thread, screw] = names;
        let [to_class, oversize, under_power, through, chart] = flags;
        let mut form = HoleForm {
            finish, fit, head, tap, percent, machine, stock, thread, screw,
            to_class, oversize, under_power, through, chart,
            ..HoleForm::default()
        };
        for (&field, (text, system)) in FIELDS.iter().zip(typed) {
            // A blank text says nothing, and a measure with one unit says nothing about systems.
            if text.trim().is_empty() {
                continue;
            }
            let system = if measure(field).has_systems() { system } else { System::Inch };
            *form.typed_mut(field).expect("a typed field") = Typed::new(text, system);
        }
        form
    }
}

proptest! {
    #[test]
    fn a_link_brings_back_the_hole_it_was_made_of(form in any_form()) {
        let (back, faults) = HoleForm::from_query(&form.to_query());
        prop_assert!(faults.is_empty(), "{faults:?}");
        prop_assert_eq!(back, form);
    }

    #[test]
    fn no_form_at_all_breaks_its_recipe(form in any_form()) {
        let _ = make(&form, &shop());
    }

    #[test]
    fn no_text_at_all_breaks_the_link_of_a_hole(query in "\\PC*") {
        let (form, _) = HoleForm::from_query(&query);
        let _ = make(&form, &shop());
    }
}
