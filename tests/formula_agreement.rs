//! The answer on the screen and the formulas that the check rows ask are one arithmetic.
//!
//! A typed speed and feed are answered, and every figure read off is worked out again by the public
//! formulas from what went in.

mod mills;

use handwheel::engine::{
    answer::{Answer, Limit, Reading},
    cutters::{Cutter, Kind, ToolMaterial},
    cutting::{
        bending::{self, Cantilever},
        chip::{self, Engagement},
        drilling::{self, Chisel, DrillLoad},
        feed, force, handwheel as wheel,
        power::{self, Factors, Kienzle},
        runout, speed,
    },
    limits,
    machine::Machine,
    quantity::{Angle, FeedRate, Force, Length, SpindleSpeed, value::Value},
    question::{Cut, Feeding, OnTheMill, Operation, Own},
};
use mills::{bench_mill, cut, end_mill, on};
use proptest::prelude::*;

/// A resultant of 1.077 and its exact root differ by 3 in 100 000; all else only in the last digits.
const SAME: f64 = 1e-4;

const STOCK: [&str; 4] = ["al_6061", "steel_low_c", "ss_304", "brass_360"];

fn same(shown: f64, worked: f64) -> Result<(), TestCaseError> {
    prop_assert!((shown / worked - 1.0).abs() < SAME, "shown {shown}, worked out {worked}");
    Ok(())
}

/// Asks with a speed and a feed of the person's own, in one pass.
fn ask(mill: &OnTheMill, question: Cut, n: SpindleSpeed, f: Length) -> Answer {
    let own =
        Own { spindle_speed: Some(n), feed_as_set: Some(f), passes: Some(1), ..Own::default() };
    limits::answer(mill, &Cut { own, ..question }).expect("it can be asked")
}

fn reading(answer: &Answer, limit: Limit) -> &Reading {
    answer.limits.iter().find(|r| r.limit == limit).expect("the limit is asked")
}

fn speed_and_feed_agree(
    mill: &OnTheMill,
    answer: &Answer,
    n: SpindleSpeed,
    per_turn: Length,
) -> Result<FeedRate, TestCaseError> {
    let rate = feed::table_feed(per_turn, n).unwrap();
    let shown = answer.feed.expect("a feed is asked");
    same(shown.rate / rate, 1.0)?;
    same(answer.speed.surface / speed::surface_speed(n, mill.cutter.diameter).unwrap(), 1.0)?;
    same(shown.mark_time / wheel::travel_time(shown.mark, rate).unwrap(), 1.0)?;
    Ok(rate)
}

fn kienzle(mill: &OnTheMill) -> Kienzle {
    Kienzle::new(mill.stock.kc1_1(), mill.stock.mc).unwrap()
}

proptest! {
    #[test]
    fn a_milling_cut_is_read_off_by_the_public_formulas(
        stock in prop::sample::select(&STOCK[..]), d in 2.0..25.0_f64, teeth in 2..6_u32,
        carbide: bool, slot: bool, width in 0.02..0.98_f64, depth in 0.05..1.0_f64,
        n in 100.0..2800.0_f64, f in 0.001..0.1_f64,
    ) {
        let machine: Machine = bench_mill();
        let d = Length::mm(d);
        let material = if carbide { ToolMaterial::Carbide } else { ToolMaterial::Hss };
        let mill = on(&machine, stock, end_mill(d, teeth, material));
        let (operation, width, arc) = if slot {
            (Operation::Slot, d, Engagement::slot())
        } else {
            let width = d * width;
            let side = Operation::Side { width, feeding: Feeding::Conventional };
            (side, width, Engagement::side(d, width).unwrap())
        };
        let (depth, n, f) = (d * depth, SpindleSpeed::rpm(n), d * f);
        let answer = ask(&mill, cut(operation, depth), n, f);
        let rate = speed_and_feed_agree(&mill, &answer, n, feed::feed_per_turn(f, teeth).unwrap())?;

        let hand = wheel::hand_rate(rate, machine.table.lead).unwrap();
        let Value::HandRate(shown) = reading(&answer, Limit::Wheel).value else { panic!() };
        same(shown / hand, 1.0)?;

        let largest = chip::chip_max(arc, f).unwrap();
        let Value::Chip(shown) = reading(&answer, Limit::ChipLoad).value else { panic!() };
        same(shown / largest, 1.0)?;

        let mean = chip::chip_mean(arc, f).unwrap();
        let kc = power::specific_cutting_force(kienzle(&mill), mean, power::chip_floor()).unwrap();
        let volume = power::removal_rate_milling(depth, width, rate).unwrap();
        let worked = power::cutting_power(volume, kc, Factors::default()).unwrap();
        let Value::Power(shown) = reading(&answer, Limit::Power).value else { panic!() };
        same(shown / worked, 1.0)?;

        let worst = runout::worst_tooth_chip(largest, teeth, mill.runout.unwrap()).unwrap();
        let Value::Chip(shown) = reading(&answer, Limit::Runout).working[0].result else { panic!() };
        same(shown / worst, 1.0)?;

        breakage_agrees(&mill, reading(&answer, Limit::Breakage), depth)?;
    }

    #[test]
    fn a_drilled_hole_is_read_off_by_the_public_formulas(
        stock in prop::sample::select(&STOCK[..]), d in 1.0..16.0_f64, f in 0.002..0.1_f64,
        n in 100.0..2800.0_f64, pilot in prop::option::of(0.2..0.8_f64),
    ) {
        let machine = bench_mill();
        let d = Length::mm(d);
        let point_angle = Angle::degree(118.0);
        let drill = Cutter { kind: Kind::Drill { point_angle }, ..end_mill(d, 2, ToolMaterial::Hss) };
        let mill = on(&machine, stock, drill);
        let pilot = pilot.map(|share| d * share);
        let (n, f, depth) = (SpindleSpeed::rpm(n), d * f, d * 2.0);
        let answer = ask(&mill, cut(Operation::Drill { pilot, through: false }, depth), n, f);
        speed_and_feed_agree(&mill, &answer, n, f)?;

        let factors = mill.stock.drill_factors();
        let load = |diameter, work_factor| DrillLoad { diameter, feed: f, work_factor, wear_factor: 1.0 };
        let torque = |d| load(d, factors.torque).torque(Chisel::STANDARD.torque).unwrap();
        let spared = pilot.map_or(torque(d) * 0.0, torque);
        let worked = power::power_of_torque(torque(d) - spared, n).unwrap();
        let Value::Power(shown) = reading(&answer, Limit::Power).value else { panic!() };
        same(shown / worked, 1.0)?;

        let (chisel, share) = match pilot {
            Some(pilot) => (Chisel::PILOTED, 1.0 - pilot / d),
            None => (Chisel::STANDARD, 1.0),
        };
        let worked = load(d, factors.thrust).thrust(chisel.thrust, chisel.edge).unwrap() * share;
        let Value::Force(shown) = reading(&answer, Limit::Thrust).value else { panic!() };
        same(shown / worked, 1.0)?;

        let point = drilling::point_length(d, point_angle).unwrap();
        let tip = drilling::tip_depth(depth, point, Length::ZERO).unwrap();
        same(answer.passes.unwrap().tip.unwrap() / tip, 1.0)?;
    }
}

/// The margin against breaking follows from the force that the reading shows. The load stands in
/// the middle of the depth.
fn breakage_agrees(
    mill: &OnTheMill,
    reading: &Reading,
    depth: Length,
) -> Result<(), TestCaseError> {
    let Value::Force(tangential) = reading.working[0].result else { panic!() };
    let Value::Ratio(shown) = reading.value else { panic!() };
    let cutter = &mill.cutter;
    let load = depth / 2.0;
    let beam = Cantilever::new(
        cutter.diameter,
        bending::CORE,
        cutter.flute_length - load,
        cutter.shank,
        cutter.stickout - load,
    )
    .unwrap();
    let stress = beam.equivalent_stress(
        force::resultant(tangential),
        force::torque_of_force(tangential, cutter.diameter).unwrap(),
    );
    prop_assert!(tangential > Force::ZERO);
    same(shown, bending::breakage_margin(cutter.material, stress).unwrap())
}
