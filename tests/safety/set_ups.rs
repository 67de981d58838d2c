//! Set-ups to look at rules in.

use handwheel::engine::{
    machine::{Class, Range, Speeds},
    quantity::{HandRate, Length, SpindleSpeed, System},
    question::Holder,
    safety::{
        Context,
        context::{
            Chuck, Cut, Drive, Hand, Holding, Machine, Part, Person, Plan, PutOn, Spindle, Stock,
            Task, Tool, ToolKind,
        },
        list::{Checklist, checklist},
    },
    stock::material,
};

pub fn listed(id: &str) -> Option<Stock> {
    Some(Stock::Listed(material(id).expect("a material of the table")))
}

pub fn rpm(speeds: &[f64]) -> Speeds {
    Speeds::Steps(speeds.iter().map(|n| SpindleSpeed::rpm(*n)).collect())
}

fn range(name: &str, speeds: Speeds, clockwise: &str, counter: &str) -> Range {
    let label = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    Range {
        name: name.to_owned(),
        speeds,
        clockwise_label: label(clockwise),
        counter_clockwise_label: label(counter),
    }
}

/// The knee mill, whose back gear turns the spindle over.
pub fn knee_ranges() -> Vec<Range> {
    vec![
        range("low", rpm(&[70.0, 115.0, 190.0, 310.0]), "REV", "FWD"),
        range("high", rpm(&[560.0, 930.0, 1540.0, 2560.0]), "FWD", "REV"),
    ]
}

/// Everything is known, and nothing gives cause to any rule that has a condition.
pub fn calm() -> Context {
    Context {
        machine: Machine {
            class: Some(Class::Knee),
            ranges: knee_ranges(),
            drive: Some(Drive::Gear),
            drawbar: Some(false),
            chuck: Some(Chuck::Keyless),
            restart_protection: Some(true),
            chip_shield: Some(true),
            backlash: Some(Length::ZERO),
        },
        spindle: Spindle {
            range: Some(1),
            wanted: Some(SpindleSpeed::rpm(950.0)),
            set: Some(SpindleSpeed::rpm(930.0)),
            before: Some(SpindleSpeed::rpm(930.0)),
            confirmed: true,
            range_changed: Some(false),
            speed_changed: Some(false),
            tool_changed: Some(false),
            new_set_up: Some(false),
        },
        tool: Tool {
            kind: Some(ToolKind::EndMill),
            hand: Some(Hand::Right),
            diameter: Some(Length::inch(0.5)),
            stickout: Some(Length::inch(1.5)),
            holder: Some(Holder::SetScrew),
            carbide: Some(false),
            stays: Some(false),
        },
        cut: Cut {
            task: Some(Task::FindEdge),
            climb: Some(false),
            plunges: Some(false),
            interrupted: Some(false),
            depth: Some(Length::inch(0.25)),
            through: Some(true),
            peck: Some(Length::inch(0.25)),
            wheel: Some(HandRate::turns_per_min(20.0)),
            fluid: Some(PutOn::Dry),
            air: Some(false),
        },
        part: Part {
            stock: listed("al_6061"),
            holding: Some(Holding::Nothing),
            grip: Some(Length::inch(0.5)),
            height: Some(Length::inch(0.75)),
            gripped_deep: Some(true),
            overhangs: Some(false),
            thin: Some(false),
            parallels: Some(false),
            near_parallels: Some(false),
            clamps: Some(0),
            studs: Some(false),
            heavy: Some(false),
        },
        person: Person {
            long_hair: Some(false),
            prescription: Some(false),
            tired: Some(false),
            bystanders: Some(false),
            alone: Some(false),
            floor_wet: Some(false),
            phone_on_table: Some(false),
            stale_fluid: Some(false),
            grinding_nearby: Some(false),
        },
        plan: Plan {
            two_machines: Some(false),
            next_elsewhere: Some(false),
            batch: Some(1),
            end_of_day: Some(false),
            hour: Some(10),
        },
    }
}

/// A set-up, calm but for what a test is about.
pub fn with(change: impl FnOnce(&mut Context)) -> Context {
    let mut context = calm();
    change(&mut context);
    context
}

pub fn list(context: &Context) -> Checklist {
    checklist(context, None, System::Inch)
}

/// Ids of every rule that is shown.
pub fn shown(context: &Context) -> Vec<&'static str> {
    list(context).shown().map(|item| item.rule.id).collect()
}

/// What a rule says.
pub fn text(context: &Context, id: &str) -> String {
    let list = list(context);
    let mut items = list.shown();
    items
        .find(|item| item.rule.id == id)
        .unwrap_or_else(|| panic!("{id} is not shown"))
        .text
        .clone()
}
