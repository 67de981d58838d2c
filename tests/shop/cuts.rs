//! Cuts as entered: reading and links.

use handwheel::{
    engine::{
        cutters::{Kind, Tip},
        machine::Machine,
        quantity::{Length, SpindleSpeed, System},
        question::{Field, Holder, InputError},
    },
    shop::{
        cuts::{CutForm, CutterKind, OperationKind, TipShape},
        machines::{AxisForm, MachineForm, RangeForm},
        typed::Typed,
        word::Word,
    },
};
use proptest::prelude::*;

fn bench() -> Machine {
    MachineForm {
        name: "Bench mill".into(),
        ranges: vec![RangeForm { steps: "100 2800".into(), ..RangeForm::default() }],
        table: AxisForm { lead: Typed::inch("0.0625"), ..AxisForm::default() },
        ..MachineForm::default()
    }
    .read()
    .expect("a machine")
}

/// A 3 mm slot, 0.060 in deep: inches and millimetres in one form.
fn slot() -> CutForm {
    let mut form = CutForm::default();
    form.mill.machine = "bench_mill".into();
    form.mill.stock = "al_6061".into();
    form.mill.cutter.diameter = Typed::mm("3");
    form.mill.holding.stickout = Typed::mm("10");
    form.depth = Typed::inch("0.060");
    form.length = Typed::inch("1.5");
    form
}

fn faults(form: &CutForm) -> Vec<InputError> {
    form.read(&bench()).expect_err("faults")
}

#[test]
fn a_slot_is_read_in_the_units_it_was_typed_in() {
    let machine = bench();
    let question = slot().read(&machine).expect("a slot");
    assert_eq!(question.mill.cutter.diameter, Length::mm(3.0));
    assert_eq!(question.cut.depth, Length::inch(0.060));
    assert_eq!(question.cut.length, Some(Length::inch(1.5)));
    assert_eq!(question.mill.stock.id, "al_6061");
    assert_eq!(question.mill.runout, None);
}

#[test]
fn what_was_skipped_is_taken_and_said() {
    let machine = bench();
    let question = slot().read(&machine).expect("a slot");
    let fields: Vec<Field> = question.taken.iter().map(|taken| taken.field).collect();
    for field in [Field::Teeth, Field::FluteLength, Field::Shank, Field::Helix] {
        assert!(fields.contains(&field), "{field:?} in {fields:?}");
    }
    for field in [Field::Diameter, Field::Stickout, Field::Depth] {
        assert!(!fields.contains(&field), "{field:?} was typed");
    }
    assert_eq!(question.mill.cutter.teeth, 2, "two flutes in aluminium");
    assert_eq!(question.mill.cutter.flute_length, Length::mm(9.0));
    assert_eq!(question.mill.holder, Holder::Collet);
    let Kind::EndMill { tip: Tip::Square, center_cutting: true } = question.mill.cutter.kind else {
        panic!("{:?}", question.mill.cutter.kind)
    };
}

#[test]
fn a_diameter_alone_asks_every_operation_a_sound_question() {
    let machine = bench();
    for &operation in OperationKind::ALL {
        let mut form = CutForm::default();
        form.mill.stock = "al_6061".into();
        form.choose(operation);
        form.mill.cutter.diameter = Typed::inch("0.5");
        // What no rule can guess: teeth and thickness of a saw, pitch of a tap, the hole.
        form.mill.cutter.thickness = Typed::inch("1/16");
        form.mill.cutter.pitch = Typed::inch("0.05");
        form.hole = Typed::inch("0.25");
        if matches!(operation, OperationKind::Saw | OperationKind::Face) {
            form.mill.cutter.teeth = Typed::inch("24");
        }
        let question = form.read(&machine).unwrap_or_else(|e| panic!("{operation:?}: {e:?}"));
        let cutter = question.mill.cutter;
        assert!(cutter.stickout.is_positive() && cutter.shank.is_positive(), "{operation:?}");
        assert!(cutter.flute_length <= cutter.stickout, "{operation:?}");
        let asks_depth = operation != OperationKind::FindEdge;
        assert_eq!(question.cut.depth.is_positive(), asks_depth, "{operation:?}");
    }
}

#[test]
fn every_fault_stands_at_its_field() {
    let mut form = slot();
    form.mill.stock = "unobtainium".into();
    form.mill.cutter.diameter = Typed::inch("wide");
    form.mill.cutter.teeth = Typed::inch("2.5");
    form.mill.holding.stickout = Typed::inch("0");
    form.depth = Typed::inch("1//2");
    form.own.passes = Typed::inch("0");
    form.own.spindle_speed = Typed::inch("fast");
    let fields: Vec<Field> = faults(&form).iter().map(|error| error.field).collect();
    assert_eq!(
        fields,
        [
            Field::Stock,
            Field::Diameter,
            Field::Teeth,
            Field::Stickout,
            Field::Depth,
            Field::SpindleSpeed,
            Field::Passes,
        ]
    );
}

#[test]
fn an_empty_form_asks_for_stock_and_diameter_only() {
    let fields: Vec<Field> = faults(&CutForm::default()).iter().map(|e| e.field).collect();
    assert_eq!(fields, [Field::Stock, Field::Diameter]);
}

#[test]
fn a_drill_cuts_no_slot() {
    let mut form = slot();
    form.mill.cutter.kind = CutterKind::Drill;
    assert_eq!(faults(&form)[0].field, Field::CutterKind);
}

#[test]
fn choosing_an_operation_keeps_a_cutter_that_can_do_it() {
    let mut form = slot();
    form.choose(OperationKind::Side);
    assert_eq!(form.mill.cutter.diameter, Typed::mm("3"));
    form.choose(OperationKind::Drill);
    assert_eq!(form.mill.cutter.kind, CutterKind::Drill);
    assert!(form.mill.cutter.diameter.is_empty(), "another cutter has another diameter");
}

#[test]
fn figures_of_ones_own_go_into_the_question() {
    let machine = bench();
    let mut form = slot();
    form.own.spindle_speed = Typed::inch("2000");
    form.own.passes = Typed::inch("3");
    form.own.feed = Typed::mm("0.02");
    form.own.cutting_force = Typed::mm("1682");
    let own = form.read(&machine).expect("own figures").cut.own;
    assert_eq!(own.spindle_speed, Some(SpindleSpeed::rpm(2000.0)));
    assert_eq!(own.passes, Some(3));
    assert_eq!(own.feed, Some(Length::mm(0.02)));
    assert_eq!(own.cutting_force.map(|kc| kc.to_newton_per_mm2().round()), Some(1682.0));
    assert_eq!(own.surface_speed, None);
}

#[test]
fn a_title_names_the_operation_and_the_stock() {
    let mut form = slot();
    assert_eq!(form.title(), "Slot in 6061-T6");
    form.choose(OperationKind::FindEdge);
    assert_eq!(form.title(), "Find an edge");
    assert_eq!(slot().mill.cutter.title(), "3 mm end mill");
}

#[test]
fn a_link_is_short_and_readable() {
    assert_eq!(
        slot().to_query(),
        "op=slot&mill=bench_mill&stock=al_6061&kind=end_mill&of=hss&d_mm=3&out_mm=10\
         &depth_in=0.060&length_in=1.5"
    );
}

#[test]
fn keys_from_a_later_version_are_passed_over() {
    let (form, faults) = CutForm::from_query("?op=drill&kind=drill&hue=blue&d_mm=3.3&flag");
    assert_eq!(form.operation, OperationKind::Drill);
    assert_eq!(form.mill.cutter.diameter, Typed::mm("3.3"));
    assert!(faults.is_empty(), "{faults:?}");
}

#[test]
fn a_value_that_is_not_known_is_reported_and_the_rest_kept() {
    let (form, faults) =
        CutForm::from_query("op=weld&kind=whisk&of=cheese&holder=tape&worn=perhaps&depth_in=abc");
    let fields: Vec<Field> = faults.iter().map(|fault| fault.field).collect();
    assert_eq!(
        fields,
        [Field::Operation, Field::CutterKind, Field::ToolMaterial, Field::Holder, Field::Runout]
    );
    assert!(faults[0].problem.contains("“weld”"), "{}", faults[0].problem);
    assert_eq!(form.depth, Typed::inch("abc"), "what was typed is kept, reading judges it");
}

#[test]
fn broken_escapes_stand_for_themselves() {
    let (form, _) = CutForm::from_query("cutter=50%+off%zz%4&mill=%C3%A9t%C3%A9");
    assert_eq!(form.mill.cutter.name, "50% off%zz%4");
    assert_eq!(form.mill.machine, "été");
}

/// Any choice of a type that has words.
fn any_word<T: Word + std::fmt::Debug>() -> impl Strategy<Value = T> {
    prop::sample::select(T::ALL.to_vec())
}

/// Nothing, a number as people write them, or any text at all.
fn any_typed() -> impl Strategy<Value = (String, System)> {
    let text = prop_oneof![
        Just(String::new()),
        "[0-9]{0,3}[.,]?[0-9]{1,4}",
        "[0-9] [0-9]/[0-9]{1,2} in",
        "\\PC*",
    ];
    (text, any_word::<System>())
}

prop_compose! {
    fn any_form()(
        operation in any_word::<OperationKind>(),
        kind in any_word::<CutterKind>(),
        tip in any_word::<TipShape>(),
        material in any_word(),
        holder in prop::option::of(any_word()),
        coolant in prop::option::of(any_word()),
        style in any_word(),
        center_cutting in prop::option::of(any::<bool>()),
        flags in prop::array::uniform6(any::<bool>()),
        names in prop::array::uniform3("\\PC*"),
        typed in prop::collection::vec(any_typed(), FIELDS.len()),
    ) -> CutForm {
        let mut form = CutForm { operation, coolant, style, ..CutForm::default() };
        let [machine, stock, name] = names;
        let [coated, worn, through, finish, climb, heeds_notes] = flags;
        form.mill.machine = machine;
        form.mill.stock = stock;
        form.mill.cutter.name = name;
        form.mill.cutter.kind = kind;
        form.mill.cutter.tip = tip;
        form.mill.cutter.material = material;
        form.mill.cutter.coated = coated;
        form.mill.cutter.center_cutting = center_cutting;
        form.mill.holding.holder = holder;
        form.mill.holding.worn = worn;
        (form.through, form.finish, form.climb) = (through, finish, climb);
        form.heeds_notes = heeds_notes;
        for (&field, (text, system)) in FIELDS.iter().zip(typed) {
            // A blank text says nothing, and a measure with one unit says nothing about systems.
            if text.trim().is_empty() {
                continue;
            }
            let systems = handwheel::shop::typed::measure(field).has_systems();
            let system = if systems { system } else { System::Inch };
            *form.typed_mut(field).expect("a typed field") = Typed::new(text, system);
        }
        form
    }
}

const FIELDS: [Field; 24] = [
    Field::Diameter,
    Field::Teeth,
    Field::FluteLength,
    Field::Shank,
    Field::Helix,
    Field::CornerRadius,
    Field::EnteringAngle,
    Field::PointAngle,
    Field::Thickness,
    Field::Pitch,
    Field::Stickout,
    Field::Runout,
    Field::Width,
    Field::Depth,
    Field::CutLength,
    Field::Pilot,
    Field::Hole,
    Field::SpindleSpeed,
    Field::SurfaceSpeed,
    Field::Feed,
    Field::Chip,
    Field::Passes,
    Field::CuttingForce,
    Field::UnitPower,
];

proptest! {
    #[test]
    fn a_link_brings_back_the_form_it_was_made_of(form in any_form()) {
        let (back, faults) = CutForm::from_query(&form.to_query());
        prop_assert!(faults.is_empty(), "{faults:?}");
        prop_assert_eq!(back, form);
    }

    #[test]
    fn a_link_holds_only_letters_that_an_address_may(form in any_form()) {
        let query = form.to_query();
        prop_assert!(query.bytes().all(|b| b.is_ascii_alphanumeric() || b"-._~/%+&=".contains(&b)));
    }

    #[test]
    fn no_text_at_all_breaks_a_link_or_its_reading(query in "\\PC*") {
        let (form, _) = CutForm::from_query(&query);
        let _ = form.read(&bench());
    }
}
