//! What a formula cannot work with, it refuses by a sentence, and never by a number that is none.

use handwheel::engine::{
    cutters::ToolMaterial,
    cutting::{
        CuttingError,
        bending::{self, Cantilever, Section},
        chip::{self, Engagement},
        drilling::{self, DrillLoad},
        feed,
        finish::{self, Roughness},
        force, handwheel as wheel, life,
        power::{self, Factors, Kienzle},
        runout, speed,
        time::{self, Position, Travel},
    },
    machine::{Speeds, speeds::attainable},
    quantity::{
        Angle, Duration, FeedRate, Force, HandRate, Length, Power, RemovalRate, SpindleSpeed,
        Stress, SurfaceSpeed, Torque,
    },
    setup::{dials::DialTurns, passes::PassPlan},
};
use proptest::prelude::*;

/// A formula as a function of plain numbers, all of which may be 1.
struct Formula {
    name: &'static str,
    /// How many numbers it takes.
    takes: usize,
    /// Places of the numbers that may be zero.
    zero: &'static [usize],
    call: fn(&[f64]) -> Result<f64, String>,
}

fn read<T, E: core::error::Error>(
    result: Result<T, E>,
    read: impl FnOnce(T) -> f64,
) -> Result<f64, String> {
    result.map(read).map_err(|error| error.to_string())
}

macro_rules! formulas {
    ($($name:literal $takes:literal $zero:tt |$a:ident| $result:expr => $read:expr;)+) => {
        const FORMULAS: &[Formula] = &[$(Formula {
            name: $name,
            takes: $takes,
            zero: &$zero,
            call: |$a| read($result, $read),
        }),+];
    };
}

formulas! {
    "spindle speed" 2 [] |a| speed::spindle_speed(SurfaceSpeed::m_per_min(a[0]), mm(a[1]))
        => SpindleSpeed::to_rpm;
    "surface speed" 2 [] |a| speed::surface_speed(rpm(a[0]), mm(a[1])) => SurfaceSpeed::to_m_per_min;
    "step" 2 [] |a| attainable(&Speeds::Steps(vec![rpm(a[0])]), rpm(a[1])) => SpindleSpeed::to_rpm;
    "stepless speed" 3 [] |a| attainable(
        &Speeds::Continuous { lowest: rpm(a[0]), highest: rpm(a[1]), base: None }, rpm(a[2]))
        => SpindleSpeed::to_rpm;
    "feed per turn" 1 [] |a| feed::feed_per_turn(mm(a[0]), 4) => Length::to_mm;
    "table feed" 2 [] |a| feed::table_feed(mm(a[0]), rpm(a[1])) => FeedRate::to_mm_per_min;
    "feed per turn at a feed" 2 [] |a| feed::feed_per_turn_at(rate(a[0]), rpm(a[1])) => Length::to_mm;
    "feed per tooth" 2 [] |a| feed::feed_per_tooth(rate(a[0]), rpm(a[1]), 4) => Length::to_mm;
    "hand rate" 2 [] |a| wheel::hand_rate(rate(a[0]), mm(a[1])) => HandRate::to_turns_per_min;
    "travel time" 2 [] |a| wheel::travel_time(mm(a[0]), rate(a[1])) => Duration::to_second;
    "speed for a hand rate" 3 [] |a| wheel::spindle_speed_for(
        HandRate::turns_per_min(a[0]), mm(a[1]), mm(a[2])) => SpindleSpeed::to_rpm;
    "feed by hand" 2 [] |a| wheel::table_feed_by_hand(HandRate::turns_per_min(a[0]), mm(a[1]))
        => FeedRate::to_mm_per_min;
    "side engagement" 2 [] |a| Engagement::side(mm(a[0]), mm(a[1])) => |e| e.mean_chip();
    "centred engagement" 2 [] |a| Engagement::centred(mm(a[0]), mm(a[1])) => |e| e.mean_chip();
    "entering angle" 1 [] |a| Engagement::slot().entering_at(Angle::degree(a[0]))
        => |e| e.largest_chip();
    "largest chip" 1 [] |a| chip::chip_max(Engagement::slot(), mm(a[0])) => Length::to_mm;
    "mean chip" 1 [] |a| chip::chip_mean(Engagement::slot(), mm(a[0])) => Length::to_mm;
    "feed for a chip" 4 [] |a| Engagement::side(mm(a[0]), mm(a[1]))
        .and_then(|e| e.entering_at(Angle::degree(a[2])))
        .and_then(|e| chip::feed_for_chip(e, mm(a[3]))) => Length::to_mm;
    "ball" 3 [2] |a| chip::ball_effective_diameter(mm(a[0]), mm(a[1]), Angle::degree(a[2]))
        => Length::to_mm;
    "removal rate, milling" 3 [] |a| power::removal_rate_milling(mm(a[0]), mm(a[1]), rate(a[2]))
        => RemovalRate::to_mm3_per_min;
    "removal rate, drilling" 3 [1] |a| power::removal_rate_drilling(
        mm(a[0]), mm(a[1] / 2.0), rate(a[2])) => RemovalRate::to_mm3_per_min;
    "specific cutting force" 4 [1, 3] |a| Kienzle::new(stress(a[0]), a[1] / 2.0)
        .and_then(|law| power::specific_cutting_force(law, mm(a[2]), mm(a[3])))
        => Stress::to_newton_per_mm2;
    "cutting power" 4 [] |a| power::cutting_power(
        RemovalRate::mm3_per_min(a[0]), stress(a[1]), Factors { feed: a[2], wear: a[3] })
        => Power::to_watt;
    "power of a force" 2 [] |a| power::power_of_force(
        Force::newton(a[0]), SurfaceSpeed::m_per_min(a[1])) => Power::to_watt;
    "power of a torque" 2 [] |a| power::power_of_torque(Torque::newton_metre(a[0]), rpm(a[1]))
        => Power::to_watt;
    "motor power" 2 [] |a| power::motor_power(Power::watt(a[0]), a[1]) => Power::to_watt;
    "power-limited feed" 7 [] |a| power::power_limited_feed(
        Power::watt(a[0]), a[1], stress(a[2]), Factors { feed: a[3], wear: a[4] }, mm(a[5]),
        mm(a[6])) => FeedRate::to_mm_per_min;
    "torque" 2 [] |a| force::spindle_torque(Power::watt(a[0]), rpm(a[1])) => Torque::to_newton_metre;
    "force of a power" 2 [] |a| force::force_of_power(
        Power::watt(a[0]), SurfaceSpeed::m_per_min(a[1])) => Force::to_newton;
    "force of a torque" 2 [] |a| force::force_of_torque(Torque::newton_metre(a[0]), mm(a[1]))
        => Force::to_newton;
    "torque of a force" 2 [] |a| force::torque_of_force(Force::newton(a[0]), mm(a[1]))
        => Torque::to_newton_metre;
    "force of a chip" 3 [] |a| force::force_of_chip(stress(a[0]), mm(a[1]), mm(a[2]))
        => Force::to_newton;
    "deflection" 7 [2] |a| Cantilever::new(mm(a[0]), a[1], mm(a[2]), mm(a[3]), mm(a[4]))
        .and_then(|beam| bending::tip_deflection(&beam, Force::newton(a[5]), stress(a[6])))
        => Length::to_mm;
    "bending stress" 6 [2] |a| Cantilever::new(mm(a[0]), a[1], mm(a[2]), mm(a[3]), mm(a[4]))
        .and_then(|beam| bending::bending_stress(&beam, Force::newton(a[5]), Section::Holder))
        => Stress::to_newton_per_mm2;
    "breakage margin" 1 [] |a| bending::breakage_margin(ToolMaterial::Carbide, stress(a[0]))
        => |margin| margin;
    "runout step" 1 [0] |a| runout::runout_step(mm(a[0]), 4) => Length::to_mm;
    "worst tooth" 2 [1] |a| runout::worst_tooth_chip(mm(a[0]), 4, mm(a[1])) => Length::to_mm;
    "least tooth" 2 [1] |a| runout::least_tooth_chip(mm(a[0]), 4, mm(a[1])) => Length::to_mm;
    "runout limit" 2 [] |a| runout::runout_limit(mm(a[0]), 4, a[1]) => Length::to_mm;
    "point length" 2 [] |a| drilling::point_length(mm(a[0]), Angle::degree(a[1])) => Length::to_mm;
    "tip depth" 3 [0, 1, 2] |a| drilling::tip_depth(mm(a[0]), mm(a[1]), mm(a[2])) => Length::to_mm;
    "drill time" 4 [1, 2] |a| drilling::drill_time(mm(a[0]), mm(a[1]), mm(a[2]), rate(a[3]))
        => Duration::to_second;
    "thrust" 6 [5] |a| load(a).thrust(a[4], a[5]) => Force::to_newton;
    "drill torque" 5 [] |a| load(a).torque(a[4]) => Torque::to_newton_metre;
    "deep hole" 2 [] |a| drilling::depth_derating(mm(a[0]), mm(a[1])) => |(speed, _)| speed;
    "scallop" 2 [] |a| finish::scallop_height(mm(a[0]), mm(a[1])) => Length::to_mm;
    "stepover" 2 [] |a| finish::stepover_for_scallop(mm(a[0]), mm(a[1])) => Length::to_mm;
    "roughness" 2 [] |a| finish::ideal_roughness(mm(a[0]), mm(a[1]), Roughness::Ra) => Length::to_mm;
    "cusp" 2 [] |a| finish::peripheral_cusp(mm(a[0]), mm(a[1])) => Length::to_mm;
    "life ratio" 2 [] |a| life::life_ratio(a[0], a[1]) => |ratio| ratio;
    "life" 3 [] |a| life::taylor_life(
        a[0], SurfaceSpeed::m_per_min(a[1]), SurfaceSpeed::m_per_min(a[2])) => Duration::to_minute;
    "exponent" 2 [] |a| life::exponent_from_ratios(2.0 * a[0], 0.5 * a[1]) => |n| n;
    "exponent of two tests" 4 [] |a| life::exponent_from_tests(
        (SurfaceSpeed::m_per_min(2.0 * a[0]), Duration::minute(a[1])),
        (SurfaceSpeed::m_per_min(a[2]), Duration::minute(2.0 * a[3]))) => |n| n;
    "approach, slab" 2 [] |a| time::approach_slab(mm(a[0]), mm(a[1])) => Length::to_mm;
    "approach, face" 2 [] |a| time::approach_face(mm(a[0]), mm(a[1]), Position::Centred)
        => Length::to_mm;
    "approach, edge" 2 [] |a| time::approach_face(mm(a[0]), mm(a[1]), Position::Edge)
        => Length::to_mm;
    "milling time" 5 [1, 2, 3] |a| time::milling_time(
        Travel { length: mm(a[0]), approach: mm(a[1]), overrun: mm(a[2]), clearance: mm(a[3]) },
        rate(a[4]), 2) => Duration::to_second;
    "pass plan" 3 [2] |a| PassPlan::new(mm(a[0]), mm(a[1]), mm(a[2])) => |p| p.rough_depth.to_mm();
    "dial" 3 [0] |a| DialTurns::new(mm(a[0]), mm(a[1])).and_then(|dial| dial.divisions(a[2]))
        => |divisions| divisions;
}

fn mm(x: f64) -> Length {
    Length::mm(x)
}

fn rpm(x: f64) -> SpindleSpeed {
    SpindleSpeed::rpm(x)
}

fn rate(x: f64) -> FeedRate {
    FeedRate::mm_per_min(x)
}

fn stress(x: f64) -> Stress {
    Stress::newton_per_mm2(x)
}

fn load(a: &[f64]) -> DrillLoad {
    DrillLoad { diameter: mm(a[0]), feed: mm(a[1]), work_factor: a[2], wear_factor: a[3] }
}

fn is_a_sentence_with_a_hint(text: &str) -> bool {
    text.starts_with(char::is_uppercase) && text.ends_with('.') && text.matches(". ").count() >= 1
}

#[test]
fn every_formula_works_with_ones() {
    for formula in FORMULAS {
        let got = (formula.call)(&[1.0; 8]);
        assert!(got.as_ref().is_ok_and(|x| x.is_finite()), "{}: {got:?}", formula.name);
    }
}

#[test]
fn zero_negative_infinite_and_no_number_are_refused_by_a_sentence() {
    for Formula { name, takes, zero, call } in FORMULAS {
        for place in 0..*takes {
            for bad in [0.0, -1.0, -0.001, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
                let mut numbers = [1.0; 8];
                numbers[place] = bad;
                let got = call(&numbers);
                if bad == 0.0 && zero.contains(&place) {
                    assert!(got.is_ok_and(f64::is_finite), "{name}: number {place} may be zero");
                    continue;
                }
                let sentence = got.expect_err(&format!("{name}: number {place} is {bad}"));
                assert!(is_a_sentence_with_a_hint(&sentence), "{name}: {sentence}");
            }
        }
    }
}

#[test]
fn what_does_not_fit_the_cutter_is_refused() {
    let (d, wide) = (mm(10.0), mm(10.001));
    let feed = rate(100.0);
    let half = Angle::degree(90.001);
    for error in [
        Engagement::side(d, wide).unwrap_err(),
        Engagement::centred(d, wide).unwrap_err(),
        time::approach_slab(d, wide).unwrap_err(),
        time::approach_face(d, wide, Position::Centred).unwrap_err(),
        time::approach_face(d, wide, Position::Edge).unwrap_err(),
        power::removal_rate_drilling(d, d, feed).unwrap_err(),
        finish::peripheral_cusp(d, wide).unwrap_err(),
    ] {
        assert!(matches!(error, CuttingError::OverDiameter(_)), "{error}");
    }
    for error in [
        finish::scallop_height(d, mm(20.001)).unwrap_err(),
        finish::stepover_for_scallop(d, wide).unwrap_err(),
        finish::ideal_roughness(d, mm(20.001), Roughness::Rt).unwrap_err(),
    ] {
        assert!(matches!(error, CuttingError::OverRadius(_)), "{error}");
    }
    for error in [
        Engagement::slot().entering_at(half).unwrap_err(),
        chip::ball_effective_diameter(d, d, half).unwrap_err(),
        drilling::point_length(d, half * 2.0).unwrap_err(),
    ] {
        assert!(matches!(error, CuttingError::Angle(..)), "{error}");
    }
    for error in [
        power::motor_power(Power::watt(100.0), 1.001).unwrap_err(),
        Kienzle::new(stress(1000.0), 1.0).unwrap_err(),
        Cantilever::new(d, 1.001, d, d, d).unwrap_err(),
    ] {
        assert!(matches!(error, CuttingError::OverOne(_)), "{error}");
    }
}

#[test]
fn a_width_of_the_whole_diameter_fits_in_either_unit() {
    for inch in [0.125, 0.1875, 0.3937, 0.5, 0.7165, 2.5] {
        let (d, w) = (Length::inch(inch), Length::mm(inch * 25.4));
        for (d, w) in [(d, w), (w, d)] {
            assert!(close_to_slot(Engagement::side(d, w)), "{inch}");
            assert!(close_to_slot(Engagement::centred(d, w)), "{inch}");
            assert!(time::approach_face(d, w, Position::Centred).is_ok_and(|a| a / d > 0.499_999));
            assert!(time::approach_face(d, w, Position::Edge).is_ok_and(|a| a.is_finite()));
        }
    }
}

fn close_to_slot(engagement: Result<Engagement, CuttingError>) -> bool {
    engagement.is_ok_and(|e| (e.mean_chip() - Engagement::slot().mean_chip()).abs() < 1e-6)
}

#[test]
fn the_full_angles_are_allowed() {
    let square = Engagement::slot().entering_at(Angle::degree(90.0)).unwrap();
    assert_eq!(square.largest_chip(), 1.0);
    let flat = drilling::point_length(mm(10.0), Angle::degree(180.0)).unwrap();
    assert!(flat.to_mm() < 1e-12);
}

#[test]
fn no_teeth_and_no_passes_are_refused() {
    let mm = mm(1.0);
    let travel = Travel { length: mm, approach: mm, overrun: mm, clearance: mm };
    assert_eq!(feed::feed_per_turn(mm, 0), Err(CuttingError::NoTeeth));
    assert_eq!(feed::feed_per_tooth(rate(1.0), rpm(1.0), 0), Err(CuttingError::NoTeeth));
    assert_eq!(runout::worst_tooth_chip(mm, 0, mm), Err(CuttingError::NoTeeth));
    assert_eq!(runout::runout_limit(mm, 0, 0.3), Err(CuttingError::NoTeeth));
    assert_eq!(runout::runout_limit(mm, 1, 0.3), Err(CuttingError::LoneTooth));
    assert_eq!(time::milling_time(travel, rate(1.0), 0), Err(CuttingError::NoPass));
}

#[test]
fn tests_of_tool_life_must_differ_the_right_way() {
    for (speed, life) in [(1.0, 0.5), (2.0, 1.0), (2.0, 2.0), (0.5, 0.5), (1.0, 1.0)] {
        let got = life::exponent_from_ratios(speed, life);
        assert_eq!(got, Err(CuttingError::TestsDisagree), "{speed} {life}");
    }
    assert_eq!(life::life_ratio(0.001, 0.5), Err(CuttingError::Beyond("tool life")));
}

#[test]
fn a_plan_has_only_its_own_passes() {
    let plan = PassPlan::new(mm(4.0), mm(1.0), mm(0.2)).unwrap();
    assert_eq!(plan.passes(), 5);
    for pass in [0, 6, u32::MAX] {
        assert!(is_a_sentence_with_a_hint(&plan.target(pass).unwrap_err().to_string()));
    }
    let finish_only = PassPlan::new(mm(0.2), mm(1.0), Length::inch(0.2 / 25.4)).unwrap();
    assert_eq!((finish_only.rough_passes, finish_only.passes()), (0, 1));
    assert_eq!(finish_only.target(1), Ok(mm(0.2)));
    assert!(PassPlan::new(mm(0.1), mm(1.0), mm(0.2)).is_err());
    assert!(PassPlan::new(mm(1e6), mm(1e-6), mm(0.0)).is_err());
    assert!(DialTurns::new(mm(1e12), mm(1.0)).is_err());
}

#[test]
fn a_machine_without_speeds_is_refused() {
    for speeds in [
        Speeds::Steps(Vec::new()),
        Speeds::Steps(vec![rpm(70.0), rpm(f64::NAN)]),
        Speeds::Continuous { lowest: rpm(200.0), highest: rpm(100.0), base: None },
    ] {
        let error = attainable(&speeds, rpm(100.0)).unwrap_err();
        assert!(is_a_sentence_with_a_hint(&error.to_string()), "{error}");
    }
}

/// Any number, and as often one that a shop could mean.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![0.001..1000.0_f64, 0.0..1.0_f64, any::<f64>()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2048))]

    #[test]
    fn a_formula_gives_a_finite_number_or_a_sentence(numbers in prop::array::uniform8(number())) {
        for Formula { name, call, .. } in FORMULAS {
            match call(&numbers) {
                Ok(x) => prop_assert!(x.is_finite(), "{name} gives {x}"),
                Err(sentence) => prop_assert!(is_a_sentence_with_a_hint(&sentence), "{sentence}"),
            }
        }
    }
}
