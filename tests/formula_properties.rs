//! Properties of the quantities and the formulas of the cut.

use handwheel::engine::{
    cutters::ToolMaterial,
    cutting::{
        bending::{self, Cantilever, Section},
        chip::{self, Engagement},
        drilling::{self, Chisel, DrillLoad},
        feed, finish, force, handwheel as wheel, life,
        power::{self, Factors, Kienzle, Wear},
        runout, speed,
        time::{self, Position, Travel},
    },
    machine::{
        Speeds,
        speeds::{self, STEP_ABOVE, attainable},
    },
    pace,
    quantity::{
        Angle, Duration, FeedRate, Force, HandRate, Length, Power, RemovalRate, SpindleSpeed,
        Stiffness, Stress, SurfaceSpeed, Torque,
    },
    setup::{
        dials::{self, DialTurns},
        passes::{self, PassPlan},
    },
    source::SOURCES,
};
use proptest::prelude::*;
use std::f64::consts::PI;

/// Numbers spread evenly over their orders of magnitude.
fn spread(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (libm::log(low)..libm::log(high)).prop_map(libm::exp)
}

/// Cutter diameters.
fn diameter() -> impl Strategy<Value = Length> {
    spread(0.5, 150.0).prop_map(Length::mm)
}

/// Feeds per tooth.
fn tooth_feed() -> impl Strategy<Value = Length> {
    spread(0.001, 0.5).prop_map(Length::mm)
}

/// Spindle speeds.
fn spindle() -> impl Strategy<Value = SpindleSpeed> {
    spread(20.0, 20_000.0).prop_map(SpindleSpeed::rpm)
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs())
}

#[test]
fn factors_of_the_units_are_the_exact_definitions() {
    let pound_force = 0.453_592_37 * 9.806_65;
    for (name, base, exact) in [
        ("in", Length::inch(1.0).to_mm(), 25.4),
        ("thou", Length::thou(1.0).to_um(), 25.4),
        ("ft", Length::foot(1.0).to_metre(), 0.3048),
        ("microinch", Length::microinch(1.0).to_um(), 0.0254),
        ("ft/min", SurfaceSpeed::ft_per_min(1.0).to_m_per_min(), 0.3048),
        ("in/min", FeedRate::inch_per_min(1.0).to_mm_per_min(), 25.4),
        ("lbf", Force::lbf(1.0).to_newton(), 4.448_221_615_260_5),
        ("lbf in", Torque::lbf_inch(1.0).to_newton_metre(), pound_force * 0.0254),
        ("lbf ft", Torque::lbf_foot(1.0).to_newton_metre(), pound_force * 0.3048),
        ("hp", Power::horsepower(1.0).to_watt(), 550.0 * 0.3048 * pound_force),
        ("kW", Power::kilowatt(1.0).to_watt(), 1000.0),
        ("psi", Stress::psi(1.0).to_newton_per_mm2(), pound_force / (25.4 * 25.4)),
        ("J/mm3", Stress::joule_per_mm3(1.0).to_newton_per_mm2(), 1000.0),
        ("in3/min", RemovalRate::inch3_per_min(1.0).to_mm3_per_min(), 16_387.064),
        ("cm3/min", RemovalRate::cm3_per_min(1.0).to_mm3_per_min(), 1000.0),
        ("degree", Angle::degree(180.0).to_radian(), PI),
        ("arcminute", Angle::arcminute(60.0).to_degree(), 1.0),
        ("min", Duration::minute(1.0).to_second(), 60.0),
        ("N/um", Stiffness::newton_per_um(1.0) / Stiffness::newton_per_um(0.5), 2.0),
    ] {
        assert!(close(base, exact, 1e-15), "{name}: {base} is not {exact}");
    }
    let unit_power = Stress::hp_per_inch3_min(1.0).to_joule_per_mm3();
    assert!(close(unit_power, 550.0 * 0.3048 * pound_force * 60.0 / 16_387.064, 1e-15));
}

/// Asserts that every constructor is undone by its reader.
macro_rules! comes_back {
    ($x:ident: $($name:ident $($make:ident $read:ident),+;)+) => {$($(
        let back = $name::$make($x).$read();
        prop_assert!(close(back, $x, 1e-12), "{} {}", stringify!($make), back);
    )+)+};
}

proptest! {
    #[test]
    fn a_value_comes_back_from_every_unit(x in -1e9..1e9_f64) {
        comes_back! { x:
            Length inch to_inch, mm to_mm, thou to_thou, um to_um, foot to_foot,
                metre to_metre, microinch to_microinch;
            SpindleSpeed rpm to_rpm;
            HandRate turns_per_min to_turns_per_min;
            SurfaceSpeed ft_per_min to_ft_per_min, m_per_min to_m_per_min;
            FeedRate inch_per_min to_inch_per_min, mm_per_min to_mm_per_min;
            Force newton to_newton, lbf to_lbf;
            Torque newton_metre to_newton_metre, lbf_inch to_lbf_inch, lbf_foot to_lbf_foot;
            Power watt to_watt, kilowatt to_kilowatt, horsepower to_horsepower;
            Stress newton_per_mm2 to_newton_per_mm2, psi to_psi, joule_per_mm3 to_joule_per_mm3,
                hp_per_inch3_min to_hp_per_inch3_min;
            Angle degree to_degree, arcminute to_arcminute, radian to_radian;
            Duration second to_second, minute to_minute;
            RemovalRate inch3_per_min to_inch3_per_min, cm3_per_min to_cm3_per_min,
                mm3_per_min to_mm3_per_min;
            Stiffness newton_per_um to_newton_per_um;
        }
    }

    #[test]
    fn surface_speed_and_spindle_speed_undo_each_other(n in spindle(), d in diameter()) {
        let v = speed::surface_speed(n, d).unwrap();
        prop_assert!(close(speed::spindle_speed(v, d).unwrap() / n, 1.0, 1e-12));
        // Twice the diameter wants half the turns.
        prop_assert!(close(speed::spindle_speed(v, d * 2.0).unwrap() / n, 0.5, 1e-12));
    }

    #[test]
    fn the_step_is_the_highest_up_to_five_per_cent_above(
        steps in prop::collection::vec(spread(20.0, 6000.0), 1..12),
        wanted in spread(10.0, 10_000.0),
    ) {
        let speeds = Speeds::Steps(steps.iter().copied().map(SpindleSpeed::rpm).collect());
        let set = attainable(&speeds, SpindleSpeed::rpm(wanted)).unwrap().to_rpm();
        prop_assert!(steps.iter().any(|s| close(*s, set, 1e-12)));
        for step in steps.iter().filter(|s| **s > set * (1.0 + 1e-12)) {
            prop_assert!(*step > wanted * STEP_ABOVE, "{step} would have been nearer");
        }
        let lowest = steps.iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(set <= wanted * STEP_ABOVE * (1.0 + 1e-9) || close(set, lowest, 1e-12));
    }

    #[test]
    fn a_stepless_drive_holds_the_wanted_speed_inside_its_range(
        wanted in spindle(), lowest in 50.0..500.0_f64, span in 0.0..3000.0_f64,
    ) {
        let (lowest, highest) = (SpindleSpeed::rpm(lowest), SpindleSpeed::rpm(lowest + span));
        let set = attainable(&Speeds::Continuous { lowest, highest, base: None }, wanted).unwrap();
        prop_assert!(set >= lowest && set <= highest);
        prop_assert!(set == wanted || set == lowest || set == highest);
    }

    #[test]
    fn feed_per_tooth_and_table_feed_undo_each_other(
        f in tooth_feed(), z in 1..40_u32, n in spindle(),
    ) {
        let per_turn = feed::feed_per_turn(f, z).unwrap();
        let rate = feed::table_feed(per_turn, n).unwrap();
        prop_assert!(close(feed::feed_per_tooth(rate, n, z).unwrap() / f, 1.0, 1e-12));
        prop_assert!(close(feed::feed_per_turn_at(rate, n).unwrap() / per_turn, 1.0, 1e-12));
    }

    #[test]
    fn hand_rate_and_table_feed_undo_each_other(
        f in tooth_feed(), n in spindle(), lead in spread(0.5, 8.0),
    ) {
        let lead = Length::mm(lead);
        let rate = feed::table_feed(f, n).unwrap();
        let hand = wheel::hand_rate(rate, lead).unwrap();
        prop_assert!(close(wheel::table_feed_by_hand(hand, lead).unwrap() / rate, 1.0, 1e-12));
        prop_assert!(close(wheel::spindle_speed_for(hand, lead, f).unwrap() / n, 1.0, 1e-12));
        let turn = wheel::travel_time(lead, rate).unwrap();
        prop_assert!(close(turn.to_minute() * hand.to_turns_per_min(), 1.0, 1e-12));
    }

    #[test]
    fn the_chip_follows_the_feed_projected_on_the_arc(
        d in diameter(), share in 0.0005..1.0_f64, f in tooth_feed(),
    ) {
        for arc in [
            Engagement::side(d, d * share).unwrap(),
            Engagement::centred(d, d * share).unwrap(),
        ] {
            // Chip thickness is f sin φ; mean and largest by walking the arc.
            let slices = 2000_u32;
            let step = arc.angle().to_radian() / f64::from(slices);
            let sines = (0..slices)
                .map(|i| libm::sin(arc.enter.to_radian() + (f64::from(i) + 0.5) * step));
            let (sum, top) = sines.fold((0.0, 0.0_f64), |(sum, top), s| (sum + s, top.max(s)));
            let mean = chip::chip_mean(arc, f).unwrap() / f;
            let largest = chip::chip_max(arc, f).unwrap() / f;
            prop_assert!(close(mean, sum / f64::from(slices), 1e-5), "{mean}");
            prop_assert!(largest >= top && close(largest, top, 1e-3), "{largest} {top}");
            prop_assert!(mean > 0.0 && mean < largest && largest <= 1.0);
        }
    }

    #[test]
    fn a_wider_cut_never_thins_the_chip(d in diameter(), a in 0.001..1.0_f64, b in 0.001..1.0_f64) {
        let (narrow, wide) = (a.min(b), a.max(b));
        let narrow = Engagement::side(d, d * narrow).unwrap();
        let wide = Engagement::side(d, d * wide).unwrap();
        prop_assert!(narrow.largest_chip() <= wide.largest_chip());
        prop_assert!(narrow.angle() <= wide.angle());
    }

    #[test]
    fn the_thin_chip_rule_undoes_the_thinning(
        d in diameter(), share in 0.0005..1.0_f64, h in tooth_feed(), kappa in 10.0..90.0_f64,
    ) {
        let arc = Engagement::side(d, d * share).unwrap();
        let f = chip::feed_for_chip(arc, h).unwrap();
        prop_assert!(f >= h);
        prop_assert!(close(chip::chip_max(arc, f).unwrap() / h, 1.0, 1e-12));
        let lead = arc.entering_at(Angle::degree(kappa)).unwrap();
        prop_assert!(close(chip::chip_max(lead, f).unwrap() / h, Angle::degree(kappa).sin(), 1e-12));
    }

    #[test]
    fn a_ball_cuts_on_a_smaller_diameter_than_its_own(
        d in diameter(), share in 0.0001..0.6_f64, tilt in 0.0..60.0_f64,
    ) {
        let flat = chip::ball_effective_diameter(d, d * share, Angle::ZERO).unwrap();
        let a = share.min(0.5);
        prop_assert!(close(flat / d, 2.0 * (a * (1.0 - a)).sqrt(), 1e-9));
        let tilted = chip::ball_effective_diameter(d, d * share, Angle::degree(tilt)).unwrap();
        prop_assert!(tilted >= flat * (1.0 - 1e-12) && tilted <= d);
    }

    #[test]
    fn power_comes_out_the_same_by_volume_torque_and_force(
        d in diameter(), n in spindle(), kc in spread(300.0, 6000.0), depth in 0.1..20.0_f64,
        width in 0.1..20.0_f64, f in tooth_feed(),
    ) {
        let (depth, width) = (Length::mm(depth), Length::mm(width));
        let kc = Stress::newton_per_mm2(kc);
        let rate = feed::table_feed(f, n).unwrap();
        let volume = power::removal_rate_milling(depth, width, rate).unwrap();
        let p = power::cutting_power(volume, kc, Factors::default()).unwrap();
        let torque = force::spindle_torque(p, n).unwrap();
        prop_assert!(close(power::power_of_torque(torque, n).unwrap() / p, 1.0, 1e-12));
        let v = speed::surface_speed(n, d).unwrap();
        let at_rim = force::force_of_power(p, v).unwrap();
        prop_assert!(close(power::power_of_force(at_rim, v).unwrap() / p, 1.0, 1e-12));
        prop_assert!(close(force::force_of_torque(torque, d).unwrap() / at_rim, 1.0, 1e-12));
        prop_assert!(close(force::torque_of_force(at_rim, d).unwrap() / torque, 1.0, 1e-12));
        let all = power::power_limited_feed(p, 1.0, kc, Factors::default(), depth, width);
        prop_assert!(close(all.unwrap() / rate, 1.0, 1e-12));
    }

    #[test]
    fn a_real_drive_needs_a_motor_larger_than_the_cut(
        p in spread(10.0, 5000.0), e in 0.05..1.0_f64, feed in 0.9..1.6_f64, wear in 1.0..1.5_f64,
    ) {
        let p = Power::watt(p);
        prop_assert!(close(power::motor_power(p, e).unwrap() / p * e, 1.0, 1e-12));
        let mm = Length::mm(1.0);
        let u = Stress::joule_per_mm3(2.0);
        let sharp = power::power_limited_feed(p, 1.0, u, Factors::default(), mm, mm).unwrap();
        let real = power::power_limited_feed(p, e, u, Factors { feed, wear }, mm, mm).unwrap();
        prop_assert!(close(real / sharp, e / (feed * wear), 1e-12));
        let volume = power::removal_rate_milling(mm, mm, real).unwrap();
        let cut = power::cutting_power(volume, u, Factors { feed, wear }).unwrap();
        prop_assert!(close(cut / p, e, 1e-12));
    }

    #[test]
    fn a_thinner_chip_takes_more_force_per_area_but_less_force(
        kc in spread(300.0, 3000.0), mc in 0.0..0.5_f64, h in spread(0.02, 1.0),
        thinner in 0.1..1.0_f64,
    ) {
        let law = Kienzle::new(Stress::newton_per_mm2(kc), mc).unwrap();
        let at = |h| power::specific_cutting_force(law, Length::mm(h), Length::ZERO).unwrap();
        prop_assert!(at(h * thinner) >= at(h));
        prop_assert!(at(h * thinner) * (h * thinner) <= at(h) * h);
        // Under the floor the force per area stays.
        let floor = power::chip_floor();
        prop_assert_eq!(law.at(Length::mm(h * 1e-3), floor), law.at(floor, floor));
    }

    #[test]
    fn the_feed_factor_falls_as_the_feed_grows(a in spread(0.0002, 0.05), b in spread(0.0002, 0.05)) {
        let (less, more) = (Length::inch(a.min(b)), Length::inch(a.max(b)));
        let (high, low) = (power::feed_factor(less), power::feed_factor(more));
        prop_assert!(high >= low && high <= 1.6 && low >= 0.9);
    }

    #[test]
    fn a_stepped_cutter_bends_as_the_curvature_along_it_adds_up(
        d in 0.5..25.0_f64, flutes in 0.0..6.0_f64, rest in 0.01..4.0_f64, shank in 0.8..4.0_f64,
        f in spread(0.1, 1000.0),
    ) {
        let (core, shank) = (bending::CORE * d, shank * d);
        let (flutes, stickout) = (flutes * d, (flutes + rest) * d);
        let beam = Cantilever::new(
            Length::mm(d), bending::CORE, Length::mm(flutes), Length::mm(shank),
            Length::mm(stickout),
        ).unwrap();
        // Deflection at the tip is the sum of moment × lever / (E I) over both parts, by Simpson's
        // rule, which is exact for the square of the lever.
        let e = 205_000.0;
        let part = |from: f64, to: f64, bar: f64| {
            let square = |x: f64| f * x * x / (e * PI * bar.powi(4) / 64.0);
            (to - from) / 6.0 * (square(from) + 4.0 * square((from + to) / 2.0) + square(to))
        };
        let expected = part(0.0, flutes, core) + part(flutes, stickout, shank);
        let force = Force::newton(f);
        let bent = bending::tip_deflection(&beam, force, Stress::newton_per_mm2(e)).unwrap();
        prop_assert!(close(bent.to_mm(), expected, 1e-9), "{} {expected}", bent.to_mm());
        prop_assert!(close(beam.deflection(force * 2.0, Stress::newton_per_mm2(e)) / bent, 2.0, 1e-12));
    }

    #[test]
    fn a_cutter_further_out_bends_more_and_is_never_less_strained(
        d in diameter(), flutes in 0.5..4.0_f64, out in 0.2..8.0_f64, further in 1.0..2.0_f64,
    ) {
        let beam = |out: f64| {
            Cantilever::new(d, bending::CORE, d * flutes, d, d * out).unwrap()
        };
        let (near, far) = (beam(out), beam(out * further));
        let force = Force::newton(50.0);
        let e = bending::youngs_modulus(ToolMaterial::Hss);
        prop_assert!(far.deflection(force, e) >= near.deflection(force, e));
        prop_assert!(far.worst_bending_stress(force) >= near.worst_bending_stress(force));
    }

    #[test]
    fn torsion_adds_to_bending_and_never_relieves_it(
        d in diameter(), f in spread(0.1, 1000.0), m in spread(0.001, 50.0),
    ) {
        let beam = Cantilever::new(d, bending::CORE, d * 2.0, d, d * 3.0).unwrap();
        let (force, torque) = (Force::newton(f), Torque::newton_metre(m));
        let both = beam.equivalent_stress(force, torque);
        prop_assert!(both >= beam.worst_bending_stress(force));
        prop_assert!(both >= beam.torsion(torque) * 3.0_f64.sqrt() * (1.0 - 1e-12));
        for material in [ToolMaterial::Hss, ToolMaterial::Carbide] {
            let margin = bending::breakage_margin(material, both).unwrap();
            let strength = bending::rupture_strength(material);
            prop_assert!(close(margin * bending::NOTCH * (both / strength), 1.0, 1e-12));
        }
    }

    #[test]
    fn the_worst_and_least_tooth_are_those_of_an_eccentric_cutter(
        f in 0.01..0.5_f64, z in 1..9_u32, wobble in 0.0..6.0_f64,
    ) {
        let tir = f * wobble;
        let (most, least) = walk_eccentric_cutter(f, z as usize, tir);
        let (f, tir) = (Length::mm(f), Length::mm(tir));
        let worst = runout::worst_tooth_chip(f, z, tir).unwrap().to_mm();
        prop_assert!(worst >= most * (1.0 - 1e-9), "{worst} against {most}");
        // The walk meets the worst place only to its own step.
        if runout::runout_step(tir, z).unwrap() <= f * 2.0 {
            prop_assert!(close(worst, most, 1e-4), "{worst} against {most}");
        }
        let left = runout::least_tooth_chip(f, z, tir).unwrap().to_mm();
        prop_assert!(left <= least + 1e-12 && least - left < 1e-4, "{left} against {least}");
    }

    #[test]
    fn the_runout_limit_changes_the_chip_by_its_fraction(
        h in tooth_feed(), z in 2..9_u32, fraction in 0.01..1.0_f64,
    ) {
        let tir = runout::runout_limit(h, z, fraction).unwrap();
        let worst = runout::worst_tooth_chip(h, z, tir).unwrap();
        prop_assert!(close(worst / h, 1.0 + fraction, 1e-12));
    }

    #[test]
    fn the_point_of_a_drill_is_a_cone(d in diameter(), half in 5.0..90.0_f64) {
        let a = drilling::point_length(d, Angle::degree(half * 2.0)).unwrap();
        prop_assert!(close(libm::atan2(d.to_mm() / 2.0, a.to_mm()), half.to_radians(), 1e-9));
        let sharper = drilling::point_length(d, Angle::degree(half * 1.9)).unwrap();
        prop_assert!(sharper > a);
        let tip = drilling::tip_depth(d, a, Length::ZERO).unwrap();
        prop_assert!(close(tip / d, 1.0 + a / d, 1e-12));
    }

    #[test]
    fn a_pilot_takes_its_own_share_of_the_volume(d in diameter(), share in 0.01..0.99_f64) {
        let feed = FeedRate::mm_per_min(100.0);
        let volume = |d, pilot| power::removal_rate_drilling(d, pilot, feed).unwrap();
        let pilot = d * share;
        let both = volume(pilot, Length::ZERO) + volume(d, pilot);
        prop_assert!(close(both / volume(d, Length::ZERO), 1.0, 1e-12));
    }

    #[test]
    fn push_and_twist_of_a_drill_grow_with_feed_and_a_pilot_spares_the_push(
        d in 1.0..75.0_f64, f in spread(0.01, 0.5), work in spread(1500.0, 35_000.0),
    ) {
        let load = |f| DrillLoad {
            diameter: Length::mm(d), feed: Length::mm(f), work_factor: work, wear_factor: 1.0,
        };
        let thrust = |f, c: Chisel| load(f).thrust(c.thrust, c.edge).unwrap();
        let torque = |f, c: Chisel| load(f).torque(c.torque).unwrap();
        prop_assert!(thrust(f * 2.0, Chisel::STANDARD) > thrust(f, Chisel::STANDARD));
        prop_assert!(close(torque(f * 2.0, Chisel::STANDARD) / torque(f, Chisel::STANDARD),
            libm::pow(2.0, 0.8), 1e-12));
        prop_assert!(thrust(f, Chisel::STANDARD) > thrust(f, Chisel::SPLIT_POINT));
        prop_assert!(thrust(f, Chisel::SPLIT_POINT) > thrust(f, Chisel::PILOTED));
        let dull = DrillLoad { wear_factor: 1.3, ..load(f) };
        let sharp = torque(f, Chisel::STANDARD);
        prop_assert!(close(dull.torque(Chisel::STANDARD.torque).unwrap() / sharp, 1.3, 1e-12));
    }

    #[test]
    fn scallop_and_stepover_undo_each_other(r in spread(0.2, 50.0), share in 0.001..2.0_f64) {
        let (r, s) = (Length::mm(r), Length::mm(r * share));
        let h = finish::scallop_height(r, s).unwrap();
        prop_assert!(close(finish::stepover_for_scallop(r, h).unwrap() / s, 1.0, 1e-7));
        // On the circle: (r - h)² + (s/2)² = r².
        prop_assert!(close((1.0_f64 - h / r).powi(2) + share * share / 4.0, 1.0, 1e-9));
    }

    #[test]
    fn feed_marks_grow_with_the_square_of_the_feed(r in spread(0.1, 5.0), share in 0.01..1.0_f64) {
        let (r, f) = (Length::mm(r), Length::mm(r * share));
        let rt = finish::ideal_roughness(r, f, finish::Roughness::Rt).unwrap();
        let twice = finish::ideal_roughness(r, f * 2.0, finish::Roughness::Rt).unwrap();
        prop_assert!(close(twice / rt, 4.0, 1e-12));
        let ra = finish::ideal_roughness(r, f, finish::Roughness::Ra).unwrap();
        prop_assert!(close(rt / ra, 4.0, 1e-12));
        // A nose of radius r and the side of a cutter of diameter 2r leave the same mark.
        let cusp = finish::peripheral_cusp(r * 2.0, f).unwrap();
        prop_assert!(close(cusp / rt, 1.0, 1e-12));
    }

    #[test]
    fn tool_life_and_its_exponent_undo_each_other(n in 0.05..0.7_f64, faster in 1.01..3.0_f64) {
        let ratio = life::life_ratio(n, faster).unwrap();
        prop_assert!(ratio < 1.0);
        prop_assert!(close(life::exponent_from_ratios(faster, ratio).unwrap(), n, 1e-9));
        prop_assert!(close(life::life_ratio(n, 1.0 / faster).unwrap() * ratio, 1.0, 1e-9));
        let c = SurfaceSpeed::m_per_min(200.0);
        let at = |v: SurfaceSpeed| (v, life::taylor_life(n, c, v).unwrap());
        prop_assert!(close(at(c).1.to_minute(), 1.0, 1e-12));
        let from_tests = life::exponent_from_tests(at(c / faster), at(c)).unwrap();
        prop_assert!(close(from_tests, n, 1e-9));
    }

    #[test]
    fn the_approach_ends_where_the_circle_has_passed_the_edge(
        d in diameter(), share in 0.001..1.0_f64,
    ) {
        let r = d / 2.0;
        let slab = time::approach_slab(d, d * share).unwrap();
        prop_assert!(slab <= r * (1.0 + 1e-12));
        if share < 0.5 {
            let below_axis = 0.5 - share;
            prop_assert!(close((slab / d).powi(2) + below_axis * below_axis, 0.25, 1e-9));
        }
        let centred = time::approach_face(d, d * share, Position::Centred).unwrap();
        // From the rim on the axis to the rim at the edge of the width.
        prop_assert!(close((0.5_f64 - centred / d).powi(2) + share * share / 4.0, 0.25, 1e-9));
        let edge = time::approach_face(d, d * share, Position::Edge).unwrap();
        prop_assert!(edge <= r * (1.0 + 1e-12));
    }

    #[test]
    fn time_is_travel_over_feed_for_each_pass(
        parts in prop::array::uniform4(0.1..500.0_f64), passes in 1..20_u32,
    ) {
        let [length, approach, overrun, clearance] = parts.map(Length::mm);
        let travel = Travel { length, approach, overrun, clearance };
        let t = time::milling_time(travel, FeedRate::mm_per_min(60.0), passes).unwrap();
        let all = parts.iter().sum::<f64>() * f64::from(passes);
        prop_assert!(close(t.to_second(), all, 1e-12));
    }

    #[test]
    fn a_plan_of_passes_takes_all_of_the_depth_and_no_pass_too_much(
        total in 0.1..50.0_f64, most in 0.05..20.0_f64, finish in 0.0..0.1_f64,
    ) {
        let (total, most, finish) = (Length::mm(total), Length::mm(most), Length::mm(finish));
        let plan = PassPlan::new(total, most, finish).unwrap();
        prop_assert!(plan.rough_depth <= most * (1.0 + 1e-8));
        let one_less = f64::from(plan.rough_passes) - 1.0;
        prop_assert!(most * one_less < total - finish, "a pass too many");
        let targets: Vec<_> = plan.targets().collect();
        prop_assert_eq!(targets.len(), plan.passes() as usize);
        prop_assert!(targets.is_sorted());
        prop_assert_eq!(targets.last(), Some(&total));
    }

    #[test]
    fn turns_and_remainder_make_up_the_distance(
        distance in 0.0..500.0_f64, lead in spread(0.5, 8.0), marks in 20.0..250.0_f64,
    ) {
        let (distance, lead) = (Length::mm(distance), Length::mm(lead));
        let dial = DialTurns::new(distance, lead).unwrap();
        prop_assert!(dial.remainder >= Length::ZERO && dial.remainder < lead);
        prop_assert!(close((lead * dial.whole + dial.remainder).to_mm(), distance.to_mm(), 1e-8));
        let divisions = dial.divisions(marks).unwrap();
        prop_assert!((dial.whole + divisions / marks - dial.turns).abs() < 1e-8);
    }

    #[test]
    fn whole_turns_are_counted_whole(turns in 0..1000_u32, lead in spread(0.5, 8.0)) {
        let lead = Length::mm(lead);
        let dial = DialTurns::new(lead * f64::from(turns), lead).unwrap();
        prop_assert_eq!(dial.whole, f64::from(turns));
        prop_assert!(dial.remainder < Length::um(0.01));
    }
}

/// Largest and least chip over the teeth of an eccentric cutter and over every way it can stand:
/// a tooth takes what the m-th tooth before it left, the nearest of them.
fn walk_eccentric_cutter(f: f64, teeth: usize, tir: f64) -> (f64, f64) {
    let pitch = 2.0 * PI / teeth as f64;
    let steps = 720;
    let mut extremes = (0.0_f64, f64::INFINITY);
    for step in 0..steps {
        let start = pitch * f64::from(step) / f64::from(steps);
        let out: Vec<f64> =
            (0..teeth).map(|i| tir / 2.0 * libm::cos(start + pitch * i as f64)).collect();
        for tooth in 0..teeth {
            let chip = (1..=teeth)
                .map(|m| m as f64 * f + out[tooth] - out[(tooth + teeth - m) % teeth])
                .fold(f64::INFINITY, f64::min)
                .max(0.0);
            extremes = (extremes.0.max(chip), extremes.1.min(chip));
        }
    }
    extremes
}

#[test]
fn printed_factors_stand_at_their_printed_feeds() {
    for (inch, factor) in [(0.001, 1.60), (0.005, 1.19), (0.009, 1.06), (0.012, 1.00), (0.02, 0.90)]
    {
        assert!(close(power::feed_factor(Length::inch(inch)), factor, 1e-12), "{inch}");
    }
    assert_eq!(power::feed_factor(Length::inch(0.0001)), 1.60);
    assert_eq!(power::feed_factor(Length::inch(0.1)), 0.90);
    assert_eq!(Wear::Drilling.factor(), 1.30);
}

#[test]
fn deep_holes_are_drilled_slower() {
    let share = |diameters: f64| {
        drilling::depth_derating(Length::mm(10.0 * diameters), Length::mm(10.0)).unwrap()
    };
    assert_eq!(share(2.9), (1.0, 1.0));
    assert_eq!(share(3.0), (0.9, 0.9));
    assert_eq!(share(4.5), (0.8, 0.9));
    assert_eq!(share(5.0), (0.7, 0.8));
    assert_eq!(share(8.0), (0.6, 0.8));
}

#[test]
fn the_resultant_is_a_little_more_than_the_force_along_the_path() {
    assert!(close(force::resultant(Force::newton(100.0)).to_newton(), 107.703, 1e-5));
}

#[test]
fn flutes_held_in_the_collet_leave_the_core_as_the_section_at_the_holder() {
    let d = Length::mm(10.0);
    let beam = Cantilever::new(d, 0.8, Length::mm(30.0), d, Length::mm(20.0)).unwrap();
    let force = Force::newton(100.0);
    let at = |section| bending::bending_stress(&beam, force, section).unwrap();
    assert_eq!(at(Section::Holder), at(Section::FluteEnd));
    // 32 × 100 N × 20 mm / (π (8 mm)³)
    assert!(close(at(Section::Holder).to_newton_per_mm2(), 39.788_735_77, 1e-9));
}

#[test]
fn a_step_exactly_five_per_cent_above_is_taken() {
    let speeds = Speeds::Steps([70.0, 105.0, 210.0, 315.0].map(SpindleSpeed::rpm).to_vec());
    for (wanted, set) in [(100.0, 105.0), (200.0, 210.0), (300.0, 315.0), (99.9, 70.0), (9.0, 70.0)]
    {
        let got = attainable(&speeds, SpindleSpeed::rpm(wanted)).unwrap();
        assert!(close(got.to_rpm(), set, 1e-12), "{wanted}");
    }
}

#[test]
fn every_tag_of_a_formula_is_in_the_list_of_sources() {
    for tag in [
        bending::SOURCE,
        bending::SOURCE_CORE,
        bending::SOURCE_NOTCH,
        bending::SOURCE_STRENGTH,
        chip::SOURCE,
        drilling::SOURCE,
        drilling::SOURCE_DERATING,
        drilling::SOURCE_LOAD,
        feed::SOURCE,
        finish::SOURCE,
        finish::SOURCE_ROUGHNESS,
        force::SOURCE,
        wheel::SOURCE,
        life::SOURCE,
        power::SOURCE,
        power::SOURCE_KIENZLE,
        power::SOURCE_UNIT_POWER,
        runout::SOURCE,
        speed::SOURCE,
        time::SOURCE,
        speeds::SOURCE,
        dials::SOURCE,
        passes::SOURCE,
        pace::SOURCE,
    ] {
        assert!(SOURCES.iter().any(|source| source.tag == tag), "{tag}");
    }
}
