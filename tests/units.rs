//! Every unit against its exact definition, written out by hand, and against a units library.
#![cfg(not(target_arch = "wasm32"))]

use handwheel::engine::{
    convert::units::convert,
    quantity::{entry::Measure, unit::Size, value::Value},
};
use uom::si;

/// One of a unit, in another: every factor is exact by definition.
const DEFINITIONS: [(&str, &str, f64); 54] = [
    ("in", "mm", 25.4),
    ("ft", "mm", 304.8),
    ("m", "mm", 1000.0),
    ("cm", "mm", 10.0),
    ("thou", "mm", 0.0254),
    ("tenths", "µm", 2.54),
    ("um", "mm", 0.001),
    ("ft/min", "m/min", 0.3048),
    ("m/s", "m/min", 60.0),
    ("in/min", "mm/min", 25.4),
    ("in/s", "mm/s", 25.4),
    ("mm/s", "mm/min", 60.0),
    ("in3/min", "mm3/min", 16_387.064),
    ("cm3/min", "mm3/min", 1000.0),
    ("gal/min", "L/min", 3.785_411_784),
    ("L/h", "L/min", 1.0 / 60.0),
    ("cfm", "L/min", 28.316_846_592),
    ("in3", "mm3", 16_387.064),
    ("cm3", "mm3", 1000.0),
    ("L", "cm3", 1000.0),
    ("ft3", "L", 28.316_846_592),
    ("gal", "L", 3.785_411_784),
    ("fl oz", "ml", 29.573_529_562_5),
    ("lb", "N", 4.448_221_615_260_5),
    ("lbf", "N", 4.448_221_615_260_5),
    ("kgf", "N", 9.806_65),
    ("kN", "N", 1000.0),
    ("kg", "g", 1000.0),
    ("oz", "g", 28.349_523_125),
    ("pound", "kg", 0.453_592_37),
    ("lbf.in", "N.m", 0.112_984_829_027_616_7),
    ("lbf.ft", "N.m", 1.355_817_948_331_400_4),
    ("ozf in", "N m", 0.112_984_829_027_616_7 / 16.0),
    ("hp", "W", 745.699_871_582_270_2),
    ("PS", "W", 735.498_75),
    ("kW", "W", 1000.0),
    ("psi", "kPa", 6.894_757_293_168_361),
    ("ksi", "MPa", 6.894_757_293_168_361),
    ("bar", "kPa", 100.0),
    ("GPa", "MPa", 1000.0),
    ("kPa", "N/mm2", 0.001),
    ("hp/(in3/min)", "J/mm3", 745.699_871_582_270_2 * 60.0 / 16_387.064),
    ("deg", "arcmin", 60.0),
    ("arcmin", "arcsec", 60.0),
    ("rad", "deg", 57.295_779_513_082_32),
    ("deg", "deg", 1.0),
    ("degC", "degF", 33.8),
    ("degF", "degC", -155.0 / 9.0),
    ("K", "degC", -272.15),
    ("rpm", "rev/min", 1.0),
    ("turns/min", "tpm", 1.0),
    ("N/um", "N/µm", 1.0),
    ("in/ft", "mm/m", 1000.0 / 12.0),
    ("mm", "in", 1.0 / 25.4),
];

#[test]
fn every_unit_is_as_large_as_its_definition() {
    for (from, to, expected) in DEFINITIONS {
        let got = convert(1.0, from, to).unwrap_or_else(|| panic!("{from} to {to}"));
        assert!((got / expected - 1.0).abs() < 1e-14, "{from} is {got} {to}, not {expected}");
    }
}

#[test]
fn every_unit_stands_among_the_definitions() {
    for unit in Measure::ALL.into_iter().flat_map(Measure::units) {
        let named =
            DEFINITIONS.iter().any(|(from, to, _)| unit.is_called(from) || unit.is_called(to));
        assert!(named, "{}", unit.name());
    }
}

/// The typed quantities have factors of their own: they agree with the exact ones.
#[test]
fn the_typed_quantity_of_a_unit_is_as_large_as_the_unit() {
    for measure in Measure::ALL {
        for unit in measure.units() {
            let base = measure
                .units()
                .iter()
                .find(|unit| matches!(unit.size, Size::Times(size) if size.to_f64() == 1.0));
            let Some(base) = base else { continue };
            for number in [0.5, 17.0] {
                let wanted = (base.of)(base.float_from_base(unit.float_to_base(number)));
                let (got, wanted) = (si_of((unit.of)(number)), si_of(wanted));
                assert!((got / wanted - 1.0).abs() < 1e-13, "{}: {got} {wanted}", unit.name());
            }
        }
    }
}

fn si_of(value: Value) -> f64 {
    match value {
        Value::Length(v) | Value::Chip(v) => v.to_metre(),
        Value::SpindleSpeed(v) => v.to_rpm(),
        Value::HandRate(v) => v.to_turns_per_min(),
        Value::SurfaceSpeed(v) => v.to_m_per_min(),
        Value::FeedRate(v) => v.to_mm_per_min(),
        Value::Force(v) => v.to_newton(),
        Value::Torque(v) => v.to_newton_metre(),
        Value::Power(v) => v.to_watt(),
        Value::Stress(v) | Value::UnitPower(v) => v.to_newton_per_mm2(),
        Value::Angle(v) => v.to_degree(),
        Value::RemovalRate(v) => v.to_mm3_per_min(),
        Value::Stiffness(v) => v.to_newton_per_um(),
        Value::Mass(v) => v.to_kilogram(),
        Value::Volume(v) => v.to_mm3(),
        Value::Temperature(v) => v.to_celsius(),
        other => panic!("{other:?} has no unit"),
    }
}

/// Where the general units library has exact factors, they are ours; it rounds some others.
#[test]
fn a_general_units_library_agrees() {
    use si::f64::{Force, Length, Mass, Pressure, Volume};
    let agree = |from, to, theirs: f64, within: f64| {
        let ours = convert(1.0, from, to).expect(from);
        assert!((ours / theirs - 1.0).abs() < within, "{from}: {ours}, {theirs}");
    };
    let exact = 1e-12;
    let inch = Length::new::<si::length::inch>(1.0);
    agree("in", "mm", inch.get::<si::length::millimeter>(), exact);
    let foot = Length::new::<si::length::foot>(1.0);
    agree("ft", "m", foot.get::<si::length::meter>(), exact);
    let pound = Mass::new::<si::mass::pound>(1.0);
    agree("pound", "kg", pound.get::<si::mass::kilogram>(), 1e-6);
    let gallon = Volume::new::<si::volume::gallon>(1.0);
    agree("gal", "L", gallon.get::<si::volume::liter>(), 1e-6);
    let force = Force::new::<si::force::pound_force>(1.0);
    agree("lbf", "N", force.get::<si::force::newton>(), 1e-6);
    let psi = Pressure::new::<si::pressure::pound_force_per_square_inch>(1.0);
    agree("psi", "kPa", psi.get::<si::pressure::kilopascal>(), 1e-6);
}

#[test]
fn units_of_different_kinds_do_not_convert() {
    for (from, to) in [("in", "deg"), ("hp", "psi"), ("furlong", "mm"), ("", "mm"), ("rpm", "in")] {
        assert_eq!(convert(1.0, from, to), None, "{from} to {to}");
    }
}
