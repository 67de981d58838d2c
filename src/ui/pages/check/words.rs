//! The words of a check.

use crate::{
    engine::{
        answer::State,
        safety::{
            Group, Severity,
            context::{Holding, PutOn},
        },
        source::{Sureness, sources_of},
    },
    shop::{
        check_form::{Ask, Doing, OtherStock, Step},
        checks::{Fitting, Habit},
    },
};

pub fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "stop",
        Severity::Caution => "caution",
        Severity::Reminder => "reminder",
    }
}

/// The shape and colour of a severity.
pub fn state(severity: Severity) -> State {
    match severity {
        Severity::Stop => State::Over,
        Severity::Caution => State::Near,
        Severity::Reminder => State::Within,
    }
}

pub fn group(group: Group) -> &'static str {
    match group {
        Group::Body => "Body and clothing",
        Group::Place => "Machine and floor",
        Group::Holding => "Holding the part",
        Group::Tool => "Tool and spindle",
        Group::Fluid => "Fluid",
        Group::LastLook => "Last look",
        Group::Cut => "The cut",
        Group::Attention => "Attention",
        Group::Chips => "Chips",
        Group::Leaving => "Leaving",
        Group::Direction => "Direction",
        Group::Stock => "This stock",
    }
}

pub fn step(step: Step) -> &'static str {
    match step {
        Step::Begin | Step::You => "You and your mill",
        Step::SetUp => "This set-up",
        Step::Power => "Power off",
        Step::Cut => "Know before the cut",
        Step::Start => "Before it turns",
        Step::Ready => "Hands free from here",
        Step::Chips => "Spindle stopped: chips",
        Step::After => "After the cut",
        Step::Records => "The last checks",
    }
}

pub fn habit(habit: Habit) -> &'static str {
    match habit {
        Habit::LongHair => "Hair that can reach the spindle?",
        Habit::Prescription => "Glasses with a prescription?",
        Habit::Tired => "At the mill tired, on medicine or in a hurry, now and then?",
        Habit::Bystanders => "Do other people come near?",
        Habit::Alone => "Do you work alone?",
        Habit::FloorWet => "Does the floor get wet or oily?",
        Habit::PhoneOnTable => "Does this phone stand on the table?",
        Habit::StaleFluid => "Water mix older than four weeks?",
        Habit::GrindingNearby => "Is steel ground where aluminium is cut?",
        Habit::Heavy => "Parts or a vise over 35 lb (16 kg)?",
    }
}

pub fn fitting(fitting: Fitting) -> &'static str {
    match fitting {
        Fitting::BeltDrive => "Is a belt moved to change the speed?",
        Fitting::Drawbar => "Does a drawbar hold the tool?",
        Fitting::ScrewOnChuck => "Does the chuck screw on the spindle?",
        Fitting::KeyChuck => "Is the chuck tightened with a key?",
        Fitting::StaysOff => "After a power cut, does it stay off?",
        Fitting::ChipShield => "Has it a chip shield?",
    }
}

pub fn ask(ask: Ask) -> &'static str {
    match ask {
        Ask::Air => "Compressed air at the chips?",
        Ask::GrippedDeep => "Is a third of its height, and 0.20 in (5 mm), in the jaws?",
        Ask::Overhangs => "Does much more hang out than is held?",
        Ask::Thin => "A ring, or a wall under 1/8 in (3 mm)?",
        Ask::Parallels => "Parallels or blocks under it?",
        Ask::NearParallels => "Does the cutter come near them?",
        Ask::TwoClamps => "Two clamps or more, or a clamp and a stop?",
        Ask::Studs => "Studs in T-nuts?",
        Ask::Interrupted => "Do the teeth leave the part and hit it again?",
        Ask::Plunges => "Does the end mill go straight down to begin?",
        Ask::Batch => "Do more parts like it follow?",
        Ask::TwoMachines => "Is the other mill in use, too?",
        Ask::EndOfDay => "Is it the last cut of the day?",
    }
}

pub fn holding(holding: Holding) -> &'static str {
    match holding {
        Holding::Vise => "Vise",
        Holding::SoftJaws => "Soft jaws",
        Holding::Straps => "Strap clamps",
        Holding::Tape => "Tape or glue",
        Holding::Nothing => "Not held",
    }
}

pub fn put_on(put_on: PutOn) -> &'static str {
    match put_on {
        PutOn::Dry => "Dry",
        PutOn::Oil => "Oil",
        PutOn::WaterMix => "Water mix",
        PutOn::Mist => "Mist",
        PutOn::Spirit => "Kerosene, spirit",
    }
}

pub fn doing(doing: Doing) -> &'static str {
    match doing {
        Doing::Cut => "This cut",
        Doing::HandTap => "Tap by hand",
        Doing::Indicate => "Sweep an indicator",
    }
}

pub fn other_stock(stock: OtherStock) -> &'static str {
    match stock {
        OtherStock::BerylliumCopper => "Beryllium copper",
        OtherStock::Silica => "Stone, glass, ceramic",
        OtherStock::Unknown => "I don't know what it is",
    }
}

/// Where a rule comes from; one that nothing published says is common practice.
pub fn sources(tags: &str) -> String {
    let known: Vec<String> = sources_of(tags)
        .into_iter()
        .filter(|source| source.sureness != Sureness::CommonPractice)
        .map(|source| format!("{} ({})", source.text, source.sureness.words()))
        .collect();
    if known.is_empty() { "Common practice.".to_owned() } else { known.join("; ") + "." }
}
