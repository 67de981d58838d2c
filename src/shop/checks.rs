//! The checks before a cut: what a person answered once, what was checked last, which way the
//! spindle was seen to turn, and whom to call.

use crate::engine::{
    machine::Turning,
    safety::{
        context::{Chuck, Drive, Person},
        list::REST_MINUTES,
    },
};
use crate::shop::{answers::Answers, machines::MachineForm, word::words};
use serde::{Deserialize, Serialize};

/// Questions about the person and the shop, asked once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Habit {
    /// Hair that can reach a spindle.
    LongHair,
    /// Prescription lenses.
    Prescription,
    /// Sometimes tired, on medicine or hurried.
    Tired,
    /// Other people come near.
    Bystanders,
    /// Works alone.
    Alone,
    /// The floor gets wet or oily.
    FloorWet,
    /// The phone stands on the table.
    PhoneOnTable,
    /// Water mix may stand for more than four weeks.
    StaleFluid,
    /// Steel is ground where aluminium is cut.
    GrindingNearby,
    /// Parts or a vise of more than 35 lb.
    Heavy,
}
words!(Habit: LongHair = "long_hair", Prescription = "prescription", Tired = "tired",
    Bystanders = "bystanders", Alone = "alone", FloorWet = "floor_wet",
    PhoneOnTable = "phone_on_table", StaleFluid = "stale_fluid", GrindingNearby = "grinding_nearby",
    Heavy = "heavy");

/// Questions about a machine that its speeds do not answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fitting {
    /// Belts are moved by hand to change the speed.
    BeltDrive,
    /// A drawbar holds the tool.
    Drawbar,
    /// The chuck screws on the spindle.
    ScrewOnChuck,
    /// The chuck has a key.
    KeyChuck,
    /// After a power cut it stays off.
    StaysOff,
    /// It has a chip shield.
    ChipShield,
}
words!(Fitting: BeltDrive = "belt_drive", Drawbar = "drawbar", ScrewOnChuck = "screw_on_chuck",
    KeyChuck = "key_chuck", StaysOff = "stays_off", ChipShield = "chip_shield");

/// What a machine has, for the rules.
impl Answers<Fitting> {
    /// How the motor drives the spindle.
    #[must_use]
    pub fn drive(&self) -> Option<Drive> {
        self.get(Fitting::BeltDrive).map(|belt| if belt { Drive::Belt } else { Drive::Variable })
    }

    /// Its chuck; one that may screw on is not known.
    #[must_use]
    pub fn chuck(&self) -> Option<Chuck> {
        match (self.get(Fitting::ScrewOnChuck)?, self.get(Fitting::KeyChuck)) {
            (true, _) => Some(Chuck::ScrewOn),
            (false, key) => key.map(|key| if key { Chuck::Key } else { Chuck::Keyless }),
        }
    }
}

impl Answers<Habit> {
    /// The person, for the rules.
    #[must_use]
    pub fn person(&self) -> Person {
        Person {
            long_hair: self.get(Habit::LongHair),
            prescription: self.get(Habit::Prescription),
            tired: self.get(Habit::Tired),
            bystanders: self.get(Habit::Bystanders),
            alone: self.get(Habit::Alone),
            floor_wet: self.get(Habit::FloorWet),
            phone_on_table: self.get(Habit::PhoneOnTable),
            stale_fluid: self.get(Habit::StaleFluid),
            grinding_nearby: self.get(Habit::GrindingNearby),
        }
    }
}

/// The part of the saved document about checks.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Checks {
    /// The person's answers.
    pub habits: Answers<Habit>,
    /// True once they were asked, answered or not.
    pub asked: bool,
    /// Where the spindle was last seen to turn the right way; nothing once a range or machine has
    /// changed.
    pub seen: Option<Seen>,
    /// The check that is under way.
    pub under_way: Option<UnderWay>,
    /// The last checks, the last one first.
    pub records: Vec<Record>,
    /// Whom to call, as the person typed it.
    pub call: String,
}

/// Where and when the spindle was seen to turn as it should.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    /// Id of the machine.
    pub machine: String,
    /// Place of the range.
    pub range: usize,
    /// ISO date and time.
    pub when: String,
}

/// What has been ticked so far.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct UnderWay {
    /// The set-up it belongs to, as [`crate::shop::check_form::CheckForm::set_up`] names it.
    pub set_up: String,
    /// Place of the range that was set.
    pub range: Option<usize>,
    /// Ids of rules.
    pub ticked: Vec<String>,
}

/// The rules about which way the spindle turns.
const DIRECTION: [&str; 3] = ["S01", "S02", "S03"];

/// A check that was closed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Record {
    /// ISO date and time.
    pub when: String,
    /// What it was for: "Slot in 6061-T6".
    pub title: String,
    /// Id of the machine.
    pub machine: String,
    /// Place of its range.
    pub range: Option<usize>,
    /// Speed to set, turns per minute, rounded.
    pub speed: Option<u32>,
    /// What was in the spindle.
    pub cutter: String,
    /// The set-up it belongs to.
    pub set_up: String,
    /// The form, as the query of its link.
    pub link: String,
    /// Ids of the rules that were ticked.
    pub ticked: Vec<String>,
    /// What was left open, in the words it was shown in.
    pub open: Vec<String>,
}

/// Checks that are kept.
pub const RECORDS: usize = 20;

impl Checks {
    /// Keeps a closed check in front of the others; none is under way any more.
    pub fn close(&mut self, record: Record) {
        self.records.insert(0, record);
        self.records.truncate(RECORDS);
        self.under_way = None;
    }

    /// Adds what was ticked and left open with the spindle stopped to the check it belongs to.
    pub fn finish(&mut self, set_up: &str, ticked: Vec<String>, open: Vec<String>) {
        if let Some(record) = self.records.first_mut().filter(|record| record.set_up == set_up) {
            record.ticked.extend(ticked);
            record.open.extend(open);
        }
        self.under_way = None;
    }

    /// The last check on a machine.
    #[must_use]
    pub fn last_on(&self, machine: &str) -> Option<&Record> {
        self.records.iter().find(|record| record.machine == machine)
    }

    /// What is ticked of a set-up.
    #[must_use]
    pub fn ticked(&self, set_up: &str) -> &[String] {
        match &self.under_way {
            Some(under_way) if under_way.set_up == set_up => &under_way.ticked,
            _ => &[],
        }
    }

    /// Ticks rules of a set-up, or takes their ticks away. Ticks of another set-up go.
    pub fn tick(&mut self, set_up: &str, range: Option<usize>, ids: &[&str], on: bool) {
        let mut ticked = self.ticked(set_up).to_vec();
        ticked.retain(|id| !ids.contains(&id.as_str()));
        if on {
            ticked.extend(ids.iter().map(|id| (*id).to_owned()));
        }
        self.under_way = Some(UnderWay { set_up: set_up.to_owned(), range, ticked });
    }

    /// True where somebody saw the spindle turn as it should, in this range of this machine, less
    /// than two hours ago and with no other range since.
    pub fn is_seen(
        &self,
        machine: &str,
        range: usize,
        minutes_since: impl Fn(&str) -> Option<f64>,
    ) -> bool {
        self.seen.as_ref().is_some_and(|seen| {
            seen.machine == machine
                && seen.range == range
                && minutes_since(&seen.when).is_some_and(|m| (0.0..=REST_MINUTES).contains(&m))
        })
    }

    /// Forgets what was seen, and what was ticked about the direction, when another range or
    /// machine is set.
    pub fn turn_to(&mut self, machine: &str, range: usize) {
        if let Some(under_way) = &mut self.under_way
            && under_way.range != Some(range)
        {
            under_way.range = Some(range);
            under_way.ticked.retain(|id| !DIRECTION.contains(&id.as_str()));
        }
        if self.seen.as_ref().is_some_and(|seen| seen.machine != machine || seen.range != range) {
            self.seen = None;
        }
    }

    /// Whom to call, as a telephone takes it; empty without a number.
    #[must_use]
    pub fn number(&self) -> String {
        self.call.chars().filter(|c| c.is_ascii_digit() || "+*#".contains(*c)).collect()
    }
}

impl MachineForm {
    /// Stores what a jog test has shown: with the switch at this label the spindle of a range
    /// turns this way. A label stands for one way only.
    pub fn note_turning(&mut self, range: usize, label: &str, turning: Turning) {
        let Some(range) = self.ranges.get_mut(range) else { return };
        let label = label.trim();
        let (this, other) = match turning {
            Turning::Clockwise => (&mut range.clockwise_label, &mut range.counter_clockwise_label),
            Turning::CounterClockwise => {
                (&mut range.counter_clockwise_label, &mut range.clockwise_label)
            }
        };
        label.clone_into(this);
        if other.trim() == label {
            other.clear();
        }
    }
}
