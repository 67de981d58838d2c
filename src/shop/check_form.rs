//! What a check is for: a cut, and what the rules ask beside it. It lives in the address, as a cut
//! does.

use crate::{
    engine::{
        answer::Answer,
        limits, machine,
        question::{Coolant, InputError},
        safety::{
            Context,
            context::{
                Cut, Hand, Holding, Machine, Part, Plan, PutOn, Spindle, Stock, Task, Tool,
                ToolKind,
            },
            list::{Earlier, REST_MINUTES},
        },
    },
    shop::{
        answers::Answers,
        checks::{Fitting, Habit, Record},
        cuts::{CutForm, CutterKind, OperationKind},
        document::Document,
        query::{NO, Query, YES, pairs, word_unless},
        word::{Word, words},
    },
};

/// Where in the check a person is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Step {
    /// Where it begins, whatever that is.
    #[default]
    Begin,
    /// Questions about the person and the machine.
    You,
    /// Questions about the set-up.
    SetUp,
    /// Power is off.
    Power,
    /// What is kept in mind in the first cut.
    Cut,
    /// The spindle is about to start.
    Start,
    /// Nothing is touched any more.
    Ready,
    /// The spindle stands, chips are cleared.
    Chips,
    /// The cut is done.
    After,
    /// The last checks.
    Records,
}
words!(Step: Records = "records", Begin = "begin", You = "you", SetUp = "set_up", Power = "power", Cut = "cut",
    Start = "start", Ready = "ready", Chips = "chips", After = "after");

/// What is done with the spindle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Doing {
    /// The cut of the form.
    #[default]
    Cut,
    /// A tap turned by hand in the spindle.
    HandTap,
    /// An indicator swept by hand.
    Indicate,
}
words!(Doing: Cut = "cut", HandTap = "hand_tap", Indicate = "indicate");

/// Stock that is none of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OtherStock {
    /// A copper alloy with beryllium.
    BerylliumCopper,
    /// Stone, glass, ceramic, or filled with silica.
    Silica,
    /// Nobody knows.
    Unknown,
}
words!(OtherStock: BerylliumCopper = "beryllium_copper", Silica = "silica", Unknown = "unknown");
words!(Holding: Vise = "vise", SoftJaws = "soft_jaws", Straps = "straps", Tape = "tape",
    Nothing = "nothing");
words!(PutOn: Dry = "dry", Oil = "oil", WaterMix = "water_mix", Mist = "mist", Spirit = "spirit");

/// Questions about a set-up that the cut does not answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// Compressed air at the chips.
    Air,
    /// A third of the height and 0.20 in are in the jaws.
    GrippedDeep,
    /// Less than 1/2 in along the jaws, more than twice the grip hangs out.
    Overhangs,
    /// A wall under 1/8 in, or a ring.
    Thin,
    /// Parallels or blocks under the part.
    Parallels,
    /// The cutter comes near them.
    NearParallels,
    /// Two clamps or more.
    TwoClamps,
    /// Studs in T-nuts.
    Studs,
    /// The teeth leave the part and hit it again.
    Interrupted,
    /// The end mill goes straight down.
    Plunges,
    /// More parts of the kind follow.
    Batch,
    /// The other machine is in use, too.
    TwoMachines,
    /// The last cut of the day.
    EndOfDay,
}
words!(Ask: Air = "air", GrippedDeep = "gripped", Overhangs = "overhangs", Thin = "thin",
    Parallels = "parallels", NearParallels = "near_parallels", TwoClamps = "two_clamps",
    Studs = "studs", Interrupted = "interrupted", Plunges = "plunges", Batch = "batch",
    TwoMachines = "two_machines", EndOfDay = "end_of_day");

/// A check as its address says it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CheckForm {
    /// Where a person is in it.
    pub step: Step,
    /// The cut, with what is on the mill.
    pub cut: CutForm,
    /// What is done with the spindle.
    pub doing: Doing,
    /// The tool cuts left-handed.
    pub left_hand: bool,
    /// Stock that is none of the table.
    pub other_stock: Option<OtherStock>,
    /// What is put on the cut, where the cut does not say it all.
    pub put_on: Option<PutOn>,
    /// What holds the part.
    pub holding: Option<Holding>,
    /// The range, where no speed names it.
    pub range: Option<usize>,
    /// The other answers.
    pub answers: Answers<Ask>,
}

/// The time at which a check is made; the engine has no clock.
#[derive(Clone, Copy)]
pub struct Now<'a> {
    /// Hour of the day.
    pub hour: u32,
    /// Minutes since an ISO date and time.
    pub minutes_since: &'a dyn Fn(&str) -> Option<f64>,
}

/// A form made ready for the rules.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckReading {
    /// What is known.
    pub context: Context,
    /// The check before, where it counts.
    pub earlier: Option<Earlier>,
    /// Speed to set, turns per minute, rounded.
    pub speed: Option<u32>,
    /// Why the cut has no speed: no machine, or entries that cannot be worked with.
    pub trouble: Option<Trouble>,
}

/// What keeps a cut from being worked out.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// There is no machine.
    NoMachine,
    /// The machine as entered cannot be worked with.
    Machine,
    /// The cut cannot.
    Cut(Vec<InputError>),
}

impl CheckForm {
    /// A check of a cut.
    #[must_use]
    pub fn of(cut: CutForm) -> Self {
        Self { cut, ..Self::default() }
    }

    /// The same check at another step.
    #[must_use]
    pub fn at(&self, step: Step) -> Self {
        Self { step, ..self.clone() }
    }

    /// The query of its address.
    #[must_use]
    pub fn to_query(&self) -> String {
        let mut query = Query::default();
        query.put("step", word_unless(self.step, Step::default()));
        query.put("doing", word_unless(self.doing, Doing::default()));
        query.put("left", if self.left_hand { YES } else { "" });
        query.put("other_stock", self.other_stock.map_or("", Word::word));
        query.put("put_on", self.put_on.map_or("", Word::word));
        query.put("held", self.holding.map_or("", Word::word));
        query.put("range", &self.range.map_or_else(String::new, |place| (place + 1).to_string()));
        for (ask, answer) in self.answers.all() {
            query.put(&format!("is_{}", ask.word()), if answer { YES } else { NO });
        }
        match (query.text(), self.cut.to_query()) {
            (own, cut) if own.is_empty() => cut,
            (own, cut) => format!("{own}&{cut}"),
        }
    }

    /// The form of a query. A word that is not known leaves its question open, which shows more.
    #[must_use]
    pub fn from_query(query: &str) -> Self {
        let mut form = Self::of(CutForm::from_query(query).0);
        for (key, value) in pairs(query) {
            match key.as_str() {
                "step" => form.step = Step::from_word(&value).unwrap_or_default(),
                "doing" => form.doing = Doing::from_word(&value).unwrap_or_default(),
                "left" => form.left_hand = value == YES,
                "other_stock" => form.other_stock = OtherStock::from_word(&value),
                "put_on" => form.put_on = PutOn::from_word(&value),
                "held" => form.holding = Holding::from_word(&value),
                "range" => {
                    form.range = value.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                }
                key => {
                    let ask = key.strip_prefix("is_").and_then(Ask::from_word);
                    let answer = match value.as_str() {
                        YES => Some(true),
                        NO => Some(false),
                        _ => None,
                    };
                    if let (Some(ask), Some(answer)) = (ask, answer) {
                        form.answers.set(ask, Some(answer));
                    }
                }
            }
        }
        form
    }

    /// What it is for: "Slot in 6061-T6".
    #[must_use]
    pub fn title(&self) -> String {
        match self.doing {
            Doing::Cut => self.cut.title(),
            Doing::HandTap => "Tap by hand in the spindle".to_owned(),
            Doing::Indicate => "Sweep with an indicator".to_owned(),
        }
    }

    /// The machine, material and operation it belongs to.
    #[must_use]
    pub fn set_up(&self) -> String {
        let stock = match self.other_stock {
            Some(other) => other.word(),
            None => &self.cut.mill.stock,
        };
        let doing = match self.doing {
            Doing::Cut => self.cut.operation.word(),
            other => other.word(),
        };
        format!("{} {stock} {doing}", self.cut.mill.machine)
    }

    /// What is put on the cut: as said here, or as the cut has it. A flood counts as water mix.
    #[must_use]
    pub fn fluid(&self) -> Option<PutOn> {
        if self.put_on.is_some() {
            return self.put_on;
        }
        self.cut.mill.material()?;
        Some(match self.cut.coolant() {
            Coolant::Dry => PutOn::Dry,
            Coolant::Brush => PutOn::Oil,
            Coolant::Flood => PutOn::WaterMix,
        })
    }

    /// Stores what a jog test has shown, and that somebody has looked.
    pub fn note_turning(
        &self,
        document: &mut Document,
        range: usize,
        label: &str,
        turning: machine::Turning,
        now: String,
    ) {
        let id = &self.cut.mill.machine;
        let Some(own) = document.machines.iter_mut().find(|own| own.id == *id) else { return };
        own.form.note_turning(range, label, turning);
        document.count_change();
        if turning == self.turning() {
            self.note_seen(document, range, now);
        }
    }

    /// Stores that somebody saw the spindle turn as it should.
    pub fn note_seen(&self, document: &mut Document, range: usize, now: String) {
        let machine = self.cut.mill.machine.clone();
        document.checks.seen = Some(crate::shop::checks::Seen { machine, range, when: now });
    }

    /// The way the spindle has to turn for this tool to cut.
    #[must_use]
    pub fn turning(&self) -> machine::Turning {
        crate::engine::safety::direction::turning(self.hand())
    }

    fn hand(&self) -> Hand {
        if self.left_hand { Hand::Left } else { Hand::Right }
    }

    /// A record of this check.
    #[must_use]
    pub fn record(
        &self,
        reading: &CheckReading,
        when: String,
        ticked: Vec<String>,
        open: Vec<String>,
    ) -> Record {
        Record {
            when,
            title: self.title(),
            machine: self.cut.mill.machine.clone(),
            range: reading.context.spindle.range,
            speed: reading.speed,
            cutter: self.cut.mill.cutter.title(),
            set_up: self.set_up(),
            link: self.at(Step::Begin).to_query(),
            ticked,
            open,
        }
    }

    /// All that is known of the set-up.
    #[must_use]
    pub fn read(&self, document: &Document, now: Now) -> CheckReading {
        let own = document.machine_called(&self.cut.mill.machine);
        let machine = own.and_then(|own| own.form.read().ok());
        let mut trouble = match (own, &machine) {
            (None, _) => Some(Trouble::NoMachine),
            (_, None) => Some(Trouble::Machine),
            _ => None,
        };
        let answer = machine.as_ref().filter(|_| self.doing == Doing::Cut).and_then(|machine| {
            match self.answer(document, machine) {
                Ok(answer) => Some(answer),
                Err(faults) => {
                    trouble = Some(Trouble::Cut(faults));
                    None
                }
            }
        });
        let ranges = machine.as_ref().map_or(0, |machine| machine.ranges.len());
        let range = self
            .range
            .filter(|place| *place < ranges)
            .or(answer.as_ref().map(|answer| answer.speed.range.0))
            .or((ranges == 1).then_some(0));
        let speed = answer.as_ref().map(|answer| whole_rpm(answer.speed.set.to_rpm()));
        let last = document.checks.last_on(&self.cut.mill.machine);
        let since = last.and_then(|record| (now.minutes_since)(&record.when));
        let same = last.is_some_and(|record| record.set_up == self.set_up());
        let is_fresh = same && since.is_some_and(|m| (0.0..=REST_MINUTES).contains(&m));
        let cutter = self.cut.mill.cutter.title();
        let fittings = own.map(|own| own.form.fittings.clone()).unwrap_or_default();
        let spindle = Spindle {
            range,
            wanted: answer.as_ref().map(|answer| answer.speed.wanted),
            set: answer.as_ref().map(|answer| answer.speed.set),
            before: last
                .and_then(|record| record.speed)
                .map(|rpm| crate::engine::quantity::SpindleSpeed::rpm(f64::from(rpm))),
            confirmed: range.is_some_and(|range| {
                document.checks.is_seen(&self.cut.mill.machine, range, now.minutes_since)
            }),
            range_changed: last.and_then(|record| Some(record.range? != range?)),
            speed_changed: last
                .and_then(|record| Some(record.range? != range? || record.speed? != speed?)),
            tool_changed: last.map(|record| record.cutter != cutter),
            new_set_up: Some(!is_fresh),
        };
        let earlier = last.zip(since).map(|(record, minutes)| Earlier {
            minutes,
            same,
            ticked: record.ticked.clone(),
        });
        CheckReading {
            context: Context {
                machine: Machine {
                    class: machine.as_ref().map(|machine| machine.class),
                    ranges: machine.as_ref().map(|m| m.ranges.clone()).unwrap_or_default(),
                    drive: fittings.drive(),
                    drawbar: fittings.get(Fitting::Drawbar),
                    chuck: fittings.chuck(),
                    restart_protection: fittings.get(Fitting::StaysOff),
                    chip_shield: fittings.get(Fitting::ChipShield),
                    backlash: machine.as_ref().and_then(|machine| machine.table.backlash),
                },
                spindle,
                tool: self.tool(machine.as_ref()),
                cut: self.about_the_cut(machine.as_ref(), answer.as_ref()),
                part: self.part(document),
                person: document.checks.habits.person(),
                plan: self.plan(document, now.hour),
            },
            earlier,
            speed,
            trouble,
        }
    }

    fn answer(
        &self,
        document: &Document,
        machine: &machine::Machine,
    ) -> Result<Answer, Vec<InputError>> {
        let question = document.ask(&self.cut, machine)?;
        limits::answer(&question.mill, &question.cut)
    }

    fn task(&self) -> Task {
        match self.doing {
            Doing::HandTap => Task::HandTap,
            Doing::Indicate => Task::Indicate,
            Doing::Cut => match self.cut.operation {
                OperationKind::Slot => Task::Slot,
                OperationKind::Side => Task::Side,
                OperationKind::Face => Task::Face,
                OperationKind::Plunge => Task::Plunge,
                OperationKind::Drill => Task::Drill,
                OperationKind::Spot => Task::Spot,
                OperationKind::Ream => Task::Ream,
                OperationKind::Countersink => Task::Countersink,
                OperationKind::Saw => Task::Saw,
                OperationKind::Bore => Task::Bore,
                OperationKind::FindEdge => Task::FindEdge,
                OperationKind::Tap => Task::PowerTap,
            },
        }
    }

    fn tool(&self, machine: Option<&machine::Machine>) -> Tool {
        let mill = &self.cut.mill;
        let read = machine.and_then(|machine| mill.read(machine).ok());
        let kind = match (self.doing, mill.cutter.kind) {
            (Doing::Indicate, _) => ToolKind::Indicator,
            (Doing::HandTap, _) => ToolKind::Tap,
            (_, CutterKind::EndMill) => ToolKind::EndMill,
            (_, CutterKind::FaceMill) => ToolKind::FaceMill,
            (_, CutterKind::FlyCutter) => ToolKind::FlyCutter,
            (_, CutterKind::SlittingSaw) => ToolKind::SlittingSaw,
            (_, CutterKind::Drill) => ToolKind::Drill,
            (_, CutterKind::SpotDrill) => ToolKind::SpotDrill,
            (_, CutterKind::Reamer) => ToolKind::Reamer,
            (_, CutterKind::Countersink) => ToolKind::Countersink,
            (_, CutterKind::BoringHead) => ToolKind::BoringHead,
            (_, CutterKind::EdgeFinder) => ToolKind::EdgeFinder,
            (_, CutterKind::Tap) => ToolKind::Tap,
        };
        // A stick-out that was not typed is not known, whatever the usual one is.
        let stickout = (!mill.holding.stickout.is_empty())
            .then(|| read.as_ref().map(|read| read.cutter.stickout))
            .flatten();
        Tool {
            kind: Some(kind),
            hand: Some(self.hand()),
            diameter: read.as_ref().map(|read| read.cutter.diameter),
            stickout,
            holder: Some(mill.holder()),
            carbide: Some(
                mill.cutter.material.edge() == crate::engine::stock::Edge::Carbide
                    && self.doing == Doing::Cut,
            ),
            stays: None,
        }
    }

    fn about_the_cut(&self, machine: Option<&machine::Machine>, answer: Option<&Answer>) -> Cut {
        let question = machine.and_then(|machine| self.cut.read(machine).ok());
        let feeds = answer.and_then(|answer| answer.feed.as_ref());
        let pecks = answer.and_then(|answer| answer.passes.as_ref()).filter(|passes| passes.pecks);
        Cut {
            task: Some(self.task()),
            climb: Some(self.cut.climb),
            plunges: self.answers.get(Ask::Plunges),
            interrupted: self.answers.get(Ask::Interrupted),
            depth: question.map(|question| question.cut.depth),
            // Only a drilled hole was asked whether it goes through.
            through: (self.doing == Doing::Cut && self.cut.operation == OperationKind::Drill)
                .then_some(self.cut.through),
            peck: pecks.map(|passes| passes.depth),
            // A hole fed by the lever has no wheel that could be slow.
            wheel: feeds
                .and_then(|feed| feed.wheel)
                .or_else(|| answer.map(|_| crate::engine::limits::threshold::slow_wheel() * 2.0)),
            fluid: self.fluid(),
            air: self.answers.get(Ask::Air),
        }
    }

    fn part(&self, document: &Document) -> Part {
        let stock = match self.other_stock {
            Some(OtherStock::BerylliumCopper) => Some(Stock::BerylliumCopper),
            Some(OtherStock::Silica) => Some(Stock::Silica),
            Some(OtherStock::Unknown) => None,
            None => self.cut.mill.material().map(Stock::Listed),
        };
        Part {
            stock,
            holding: self.holding,
            grip: None,
            height: None,
            gripped_deep: self.answers.get(Ask::GrippedDeep),
            overhangs: self.answers.get(Ask::Overhangs),
            thin: self.answers.get(Ask::Thin),
            parallels: self.answers.get(Ask::Parallels),
            near_parallels: match self.answers.get(Ask::Parallels) {
                Some(false) => Some(false),
                _ => self.answers.get(Ask::NearParallels),
            },
            clamps: self.answers.get(Ask::TwoClamps).map(|two| if two { 2 } else { 1 }).or(
                match self.holding {
                    Some(Holding::Straps) | None => None,
                    Some(_) => Some(0),
                },
            ),
            studs: self.answers.get(Ask::Studs),
            heavy: document.checks.habits.get(Habit::Heavy),
        }
    }

    fn plan(&self, document: &Document, hour: u32) -> Plan {
        let only_one = document.machines.len() < 2;
        let two_machines = if only_one { Some(false) } else { self.answers.get(Ask::TwoMachines) };
        Plan {
            two_machines,
            next_elsewhere: two_machines.filter(|two| !two),
            // More follow, nobody said how many.
            batch: match self.answers.get(Ask::Batch) {
                Some(false) => Some(1),
                _ => None,
            },
            end_of_day: self.answers.get(Ask::EndOfDay),
            hour: Some(hour),
        }
    }
}

/// Turns per minute without a fraction.
fn whole_rpm(rpm: f64) -> u32 {
    let rounded = rpm.round();
    if (0.0..=1e6).contains(&rounded) { rounded as u32 } else { 0 }
}

/// The questions of a set-up that mean something for it, the ones about what holds the part first.
impl CheckForm {
    /// Questions that change what is shown.
    #[must_use]
    pub fn questions(&self, document: &Document) -> Vec<Ask> {
        let jaws = matches!(self.holding, None | Some(Holding::Vise | Holding::SoftJaws));
        let straps = matches!(self.holding, None | Some(Holding::Straps));
        let hole = !matches!(self.doing, Doing::Indicate);
        let cuts = self.doing == Doing::Cut;
        Ask::ALL
            .iter()
            .copied()
            .filter(|ask| match ask {
                Ask::GrippedDeep | Ask::Overhangs => jaws,
                Ask::TwoClamps | Ask::Studs => straps,
                Ask::Parallels => hole,
                Ask::NearParallels => hole && self.answers.get(Ask::Parallels) != Some(false),
                Ask::Interrupted => cuts,
                Ask::Plunges => cuts && self.cut.operation == OperationKind::Slot,
                Ask::TwoMachines => document.machines.len() > 1,
                Ask::Air | Ask::Thin | Ask::Batch | Ask::EndOfDay => true,
            })
            .collect()
    }
}
