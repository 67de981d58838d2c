//! Machines as entered.

use handwheel::{
    engine::{
        machine::{Class, Machine, Speeds},
        quantity::{HandRate, Length, Power, SpindleSpeed},
        question::Field,
    },
    shop::{
        machines::{Drive, MachineForm, RangeForm},
        typed::Typed,
    },
};

/// Answers to the four questions and nothing else.
fn four_questions() -> MachineForm {
    MachineForm {
        name: "Bench mill".into(),
        class: Class::Bench,
        ranges: vec![RangeForm { steps: "70 115 190 310".into(), ..RangeForm::default() }],
        table: lead("0.0625"),
        ..MachineForm::default()
    }
}

fn lead(text: &str) -> handwheel::shop::machines::AxisForm {
    handwheel::shop::machines::AxisForm { lead: Typed::inch(text), ..Default::default() }
}

fn steps(text: &str) -> MachineForm {
    let mut form = four_questions();
    form.ranges[0].steps = text.into();
    form
}

fn variable(lowest: &str, highest: &str, base: &str) -> MachineForm {
    let mut form = four_questions();
    form.ranges[0] = RangeForm {
        drive: Drive::Variable,
        lowest: Typed::inch(lowest),
        highest: Typed::inch(highest),
        base: Typed::inch(base),
        ..RangeForm::default()
    };
    form
}

fn with(change: impl FnOnce(&mut MachineForm)) -> MachineForm {
    let mut form = four_questions();
    change(&mut form);
    form
}

fn rpm(speeds: &[f64]) -> Vec<SpindleSpeed> {
    speeds.iter().copied().map(SpindleSpeed::rpm).collect()
}

#[test]
fn four_questions_are_enough() {
    let machine: Machine = four_questions().read().expect("four answers");
    assert_eq!(machine.name, "Bench mill");
    assert_eq!(machine.ranges[0].speeds, Speeds::Steps(rpm(&[70.0, 115.0, 190.0, 310.0])));
    assert_eq!(machine.table.lead, Length::inch(0.0625));
    assert_eq!(machine.power, None);
    assert_eq!(machine.table.backlash, None);
    assert_eq!(machine.quill_wheel, None);
    assert_eq!(machine.comfortable_rate, HandRate::turns_per_min(40.0));
    assert_eq!(machine.highest_rate, HandRate::turns_per_min(60.0));
    assert_eq!(machine.ranges[0].clockwise_label, None);
}

#[test]
fn speeds_may_stand_between_commas_or_on_lines() {
    for text in ["70 115 190", "70, 115, 190", "70;115;190", "70\n115\n190", " 70  115 190 "] {
        let machine = steps(text).read().expect(text);
        assert_eq!(machine.ranges[0].speeds, Speeds::Steps(rpm(&[70.0, 115.0, 190.0])), "{text}");
    }
}

#[test]
fn a_variable_drive_goes_from_its_lowest_to_its_highest_speed() {
    let machine = variable("100", "2800", "").read().expect("a range");
    assert_eq!(
        machine.ranges[0].speeds,
        Speeds::Continuous {
            lowest: SpindleSpeed::rpm(100.0),
            highest: SpindleSpeed::rpm(2800.0),
            base: None
        }
    );
    let machine = variable("100", "2800", "1100").read().expect("a range with a base speed");
    let Speeds::Continuous { base, .. } = machine.ranges[0].speeds else { panic!("variable") };
    assert_eq!(base, Some(SpindleSpeed::rpm(1100.0)));
}

#[test]
fn power_is_read_in_the_unit_of_the_plate() {
    for (text, power) in [
        ("350 W", Power::watt(350.0)),
        ("1.1 kW", Power::watt(1100.0)),
        ("1 1/2 hp", Power::horsepower(1.5)),
    ] {
        let machine = with(|form| form.power = Typed::inch(text)).read().expect(text);
        assert_eq!(machine.power, Some(power), "{text}");
    }
}

#[test]
fn a_metric_screw_keeps_its_millimetres() {
    let machine = with(|form| form.table.lead = Typed::mm("2.5")).read().expect("2.5 mm");
    assert_eq!(machine.table.lead, Length::mm(2.5));
}

#[test]
fn what_no_mill_has_is_refused_at_its_field() {
    let cases: [(&str, MachineForm, Field); 27] = [
        ("no name", with(|m| m.name = "  ".into()), Field::MachineName),
        ("no ranges", with(|m| m.ranges.clear()), Field::Speeds),
        ("no speeds", steps(""), Field::Speeds),
        ("zero speed", steps("0 70 115"), Field::Speeds),
        ("negative speed", steps("-70 115"), Field::Speeds),
        ("a word", steps("fast"), Field::Speeds),
        ("absurd speed", steps("70 1000000000"), Field::Speeds),
        ("over any spindle", steps("70 90000"), Field::Speeds),
        ("falling speeds", steps("310 190 115 70"), Field::Speeds),
        ("one out of order", steps("70 190 115 310"), Field::Speeds),
        ("twice the same", steps("70 115 115"), Field::Speeds),
        ("a range among steps", steps("100-2800"), Field::Speeds),
        ("no lowest", variable("", "2800", ""), Field::LowestSpeed),
        ("no highest", variable("100", "", ""), Field::HighestSpeed),
        ("highest below lowest", variable("2800", "100", ""), Field::HighestSpeed),
        ("base outside", variable("100", "2800", "50"), Field::BaseSpeed),
        ("no lead", with(|m| m.table.lead = Typed::inch("")), Field::Lead),
        ("zero lead", with(|m| m.table.lead = Typed::inch("0")), Field::Lead),
        ("lead over an inch", with(|m| m.table.lead = Typed::inch("1.5")), Field::Lead),
        ("one mark for a turn", with(|m| m.table.lead = Typed::inch("0.001")), Field::Lead),
        ("zero power", with(|m| m.power = Typed::inch("0 W")), Field::Power),
        ("a ship's power", with(|m| m.power = Typed::inch("350")), Field::Power),
        ("no such dial", with(|m| m.table.divisions = Typed::inch("1")), Field::Divisions),
        ("a loose nut", with(|m| m.table.backlash = Typed::inch("0.5")), Field::Backlash),
        (
            "comfortable over highest",
            with(|m| m.comfortable_rate = Typed::inch("80")),
            Field::HighestRate,
        ),
        ("a racing hand", with(|m| m.highest_rate = Typed::inch("600")), Field::HighestRate),
        ("a soft mill", with(|m| m.stiffness = Typed::inch("0.001")), Field::Stiffness),
    ];
    for (what, form, field) in cases {
        let errors = form.read().expect_err(what);
        assert_eq!(errors.len(), 1, "{what}: {errors:?}");
        assert_eq!(errors[0].field, field, "{what}");
        for sentence in [&errors[0].problem, &errors[0].hint] {
            assert!(sentence.ends_with('.') && sentence.len() > 5, "{what}: {sentence:?}");
        }
    }
}

#[test]
fn speeds_out_of_order_are_told_and_never_sorted() {
    let errors = steps("70 190 115").read().expect_err("out of order");
    assert_eq!(errors[0].problem, "115 stands after 190, but is slower.");
}

#[test]
fn every_fault_is_told_at_once() {
    let mut form = steps("0");
    form.name.clear();
    form.table.lead = Typed::inch("2");
    form.power = Typed::inch("much");
    let fields: Vec<Field> =
        form.read().expect_err("four faults").iter().map(|error| error.field).collect();
    assert_eq!(fields, [Field::MachineName, Field::Speeds, Field::Power, Field::Lead]);
}

#[test]
fn the_fault_of_one_of_several_ranges_names_it() {
    let mut form = four_questions();
    form.ranges[0].name = "low".into();
    form.ranges.push(RangeForm { steps: "930 560".into(), ..RangeForm::default() });
    let errors = form.read().expect_err("the second range falls");
    assert!(errors[0].problem.starts_with("Range 2: 560"), "{}", errors[0].problem);
    assert_eq!(form.ranges[1].read().expect_err("alone")[0].field, Field::Speeds);
    assert!(form.ranges[0].read().is_ok());
}
