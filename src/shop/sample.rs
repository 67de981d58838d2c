//! The sample shop: two mills and a small drawer of cutters, to look around in.

use crate::{
    engine::{
        cutters::ToolMaterial, drills::Set, machine::Class, quantity::System, question::Holder,
    },
    shop::{
        answers::Answers,
        checks::Fitting,
        converter::ConvertForm,
        cuts::{CutForm, CutterForm, CutterKind, Holding, OperationKind},
        document::Document,
        jobs::{Job, Step},
        machines::{AxisForm, Drive, MachineForm, RangeForm},
        plan::{OperationForm, PlanForm},
        typed::Typed,
    },
};

/// The sample shop. Nobody owns it; a first machine of one's own takes its place.
#[must_use]
pub fn sample() -> Document {
    let mut shop = Document { sample: true, ..Document::default() };
    shop.add_machine(bench_mill());
    shop.add_machine(knee_mill());
    for (cutter, holding) in cutters() {
        shop.add_cutter(cutter, holding);
    }
    for set in [Set::Fractions, Set::Numbers, Set::Letters, Set::MetricTenths] {
        shop.drills.own_set(set, true);
    }
    for wire in ["0.018", "0.024", "0.029", "0.040"] {
        let wire = shop.threads.add_wire(&Typed::inch(wire));
        debug_assert!(wire.is_ok(), "{wire:?}");
    }
    let first = shop.cutters[0].id.clone();
    shop.choose_cutter(&first);
    shop.mill.stock = "al_6061".to_owned();

    let slot = CutForm {
        mill: shop.mill.clone(),
        operation: OperationKind::Slot,
        depth: Typed::inch("0.060"),
        length: Typed::inch("1.500"),
        ..CutForm::default()
    };
    shop.add_favorite("Focuser slot, 3 mm", &format!("cut?{}", slot.to_query()));
    shop.remember(&slot);
    shop.add_job();
    shop.jobs[0] = base_plate(&slot);
    let line = ConvertForm { line: Typed::inch("1 3/8+.030"), ..ConvertForm::default() };
    shop.converter.note(&line);
    shop.plans.form = blanks();
    shop.backup = Default::default();
    shop
}

/// The base plate of the focuser mount.
fn base_plate(slot: &CutForm) -> Job {
    let words = |title: &str| Step { title: title.to_owned(), ..Step::default() };
    let screen = |title: &str, to: String| Step { title: title.to_owned(), to, done: false };
    let holes = "threads?recipe&thread=M4x0.7&plate_in=0.500&mill=knee_mill".to_owned();
    Job {
        id: "base_plate".to_owned(),
        name: "Base plate of the focuser mount".to_owned(),
        datum: "Left front corner, fixed jaw".to_owned(),
        stops: "Left end on the vise stop".to_owned(),
        next_time: String::new(),
        steps: vec![
            words("Face the top"),
            screen("Slot for the focuser", format!("cut?{}", slot.to_query())),
            screen("Six M4 on a 60 mm circle", holes),
            words("Break every edge"),
        ],
    }
}

/// Eight blanks for the clamp nuts of the mount, from two sides.
fn blanks() -> PlanForm {
    let side = |id: u32, name: &str, set_up: &str, cut: &str| OperationForm {
        id,
        name: name.to_owned(),
        set_up: Typed::inch(set_up),
        cut: Typed::inch(cut),
        after: (1..id).collect(),
        ..OperationForm::default()
    };
    PlanForm {
        name: "Clamp nut blanks".to_owned(),
        pieces: Typed::inch("8"),
        operations: vec![side(1, "First side", "12", "130"), side(2, "Second side", "8", "150")],
        walk: Typed::inch("15"),
        ..PlanForm::default()
    }
}

fn bench_mill() -> MachineForm {
    MachineForm {
        name: "Bench mill".to_owned(),
        class: Class::Bench,
        ranges: vec![RangeForm {
            drive: Drive::Variable,
            lowest: Typed::inch("100"),
            highest: Typed::inch("2800"),
            base: Typed::inch("1100"),
            clockwise_label: "FWD".to_owned(),
            ..RangeForm::default()
        }],
        power: Typed::inch("350 W"),
        table: AxisForm {
            lead: Typed::inch("0.0625"),
            divisions: Typed::inch("62.5"),
            ..AxisForm::default()
        },
        quill_wheel: AxisForm { lead: Typed::inch("0.050"), ..AxisForm::default() },
        fittings: Answers::default()
            .with(Fitting::BeltDrive, false)
            .with(Fitting::Drawbar, true)
            .with(Fitting::StaysOff, true),
        ..MachineForm::default()
    }
}

fn knee_mill() -> MachineForm {
    MachineForm {
        name: "Knee mill".to_owned(),
        class: Class::Knee,
        ranges: vec![
            // The back gear turns the spindle over.
            RangeForm {
                name: "low".to_owned(),
                steps: "70 115 190 310".to_owned(),
                clockwise_label: "REV".to_owned(),
                counter_clockwise_label: "FWD".to_owned(),
                ..RangeForm::default()
            },
            RangeForm {
                name: "high".to_owned(),
                steps: "560 930 1540 2560".to_owned(),
                clockwise_label: "FWD".to_owned(),
                counter_clockwise_label: "REV".to_owned(),
                ..RangeForm::default()
            },
        ],
        power: Typed::inch("1100 W"),
        table: AxisForm {
            lead: Typed::inch("0.200"),
            divisions: Typed::inch("200"),
            ..AxisForm::default()
        },
        fittings: Answers::default().with(Fitting::BeltDrive, true).with(Fitting::Drawbar, true),
        ..MachineForm::default()
    }
}

fn cutters() -> [(CutterForm, Holding); 10] {
    let collet =
        |out: Typed| Holding { holder: Some(Holder::Collet), stickout: out, ..Holding::default() };
    [
        (
            end_mill("3 mm end mill, 2 flutes", Typed::mm("3"), "2"),
            Holding { runout: Typed::inch("0.0005"), ..collet(Typed::mm("10")) },
        ),
        (
            CutterForm {
                material: ToolMaterial::Carbide,
                ..end_mill("1/8 carbide end mill, 2 flutes", Typed::inch("1/8"), "2")
            },
            collet(Typed::inch("1/2")),
        ),
        (end_mill("3/8 end mill, 4 flutes", Typed::inch("3/8"), "4"), collet(Typed::inch("1 1/8"))),
        (end_mill("1/2 end mill, 4 flutes", Typed::inch("1/2"), "4"), collet(Typed::inch("1 1/2"))),
        of_kind(CutterKind::FlyCutter, "2 1/2 fly cutter", Typed::inch("2.5")),
        of_kind(CutterKind::SpotDrill, "6 mm spot drill", Typed::mm("6")),
        of_kind(CutterKind::Drill, "3.3 mm drill", Typed::mm("3.3")),
        of_kind(CutterKind::Drill, "4.2 mm drill", Typed::mm("4.2")),
        of_kind(CutterKind::Drill, "No. 7 drill", Typed::inch("0.201")),
        of_kind(CutterKind::EdgeFinder, "0.200 edge finder", Typed::inch("0.200")),
    ]
}

fn end_mill(name: &str, diameter: Typed, teeth: &str) -> CutterForm {
    CutterForm {
        name: name.to_owned(),
        diameter,
        teeth: Typed::new(teeth, System::Inch),
        ..CutterForm::default()
    }
}

fn of_kind(kind: CutterKind, name: &str, diameter: Typed) -> (CutterForm, Holding) {
    (
        CutterForm { name: name.to_owned(), kind, diameter, ..CutterForm::default() },
        Holding::default(),
    )
}
