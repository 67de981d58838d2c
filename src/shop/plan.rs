//! A batch as entered, and the run that is made of it.

use crate::{
    engine::{
        plan::{
            Batch, Fault, MOST_PIECES, Mill, Operation,
            compare::{Comparison, Preference},
            order::{Order, Run, Stand},
            progress::{Progress, Step, Tick, steps},
        },
        quantity::{Duration, rounding},
        question::{Field, InputError},
    },
    shop::{
        document::Document,
        typed::Typed,
        word::{self, words},
    },
};
use serde::{Deserialize, Serialize};

words!(Preference:
    LeastTotal = "least_total",
    SoonestFirst = "soonest_first",
    FewestSetUps = "fewest_set_ups",
    LeastAtRisk = "least_at_risk",
);

/// The part of the saved document about plans.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Plans {
    /// The batch as entered.
    #[serde(default)]
    pub form: PlanForm,
    /// The run that is under way.
    #[serde(default)]
    pub run: Option<RunSheet>,
}

/// A batch as entered. An empty time is none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanForm {
    /// What the part is called; may stay empty.
    pub name: String,
    /// How many pieces.
    pub pieces: Typed,
    /// The operations.
    pub operations: Vec<OperationForm>,
    /// From one mill to another with work and back, in seconds.
    pub walk: Typed,
    /// The first piece is checked before a second may be spoiled.
    pub check_first: bool,
    /// For that check, in minutes.
    pub check: Typed,
    /// What is wanted most.
    #[serde(with = "word::saved")]
    pub preference: Preference,
    /// Mills with room for more than one set-up: id and how many.
    #[serde(default)]
    pub stands: Vec<(String, u32)>,
}

/// An operation as entered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OperationForm {
    /// Number that never changes within a plan.
    pub id: u32,
    /// What it is called; may stay empty.
    pub name: String,
    /// Id of its mill; empty for any.
    pub mill: String,
    /// To set it up, in minutes.
    pub set_up: Typed,
    /// In the cut, in seconds.
    pub cut: Typed,
    /// To load and unload, in seconds.
    pub load: Typed,
    /// To change tools, in seconds.
    pub tool_change: Typed,
    /// Numbers of the operations that come before it.
    pub after: Vec<u32>,
    /// Pieces it may spoil, in per cent; empty where nobody knows.
    pub risk: Typed,
}

impl Default for PlanForm {
    fn default() -> Self {
        Self {
            name: String::new(),
            pieces: Typed::inch("1"),
            operations: Vec::new(),
            walk: Typed::default(),
            check_first: true,
            check: Typed::default(),
            preference: Preference::LeastTotal,
            stands: Vec::new(),
        }
    }
}

impl OperationForm {
    /// What it is called at its place.
    #[must_use]
    pub fn title(&self, place: usize) -> String {
        match self.name.trim() {
            "" => format!("Operation {}", place + 1),
            name => name.to_owned(),
        }
    }

    /// What is typed at a field.
    #[must_use]
    pub fn typed(&self, field: Field) -> Option<&Typed> {
        Some(match field {
            Field::SetUpTime => &self.set_up,
            Field::CycleTime => &self.cut,
            Field::LoadTime => &self.load,
            Field::ToolChangeTime => &self.tool_change,
            Field::ScrapRisk => &self.risk,
            _ => return None,
        })
    }

    /// The place of what is typed at a field.
    pub fn typed_mut(&mut self, field: Field) -> Option<&mut Typed> {
        Some(match field {
            Field::SetUpTime => &mut self.set_up,
            Field::CycleTime => &mut self.cut,
            Field::LoadTime => &mut self.load,
            Field::ToolChangeTime => &mut self.tool_change,
            Field::ScrapRisk => &mut self.risk,
            _ => return None,
        })
    }
}

/// A number that may be left out, and may be nothing.
fn amount(typed: &Typed, field: Field) -> Result<Option<f64>, InputError> {
    let Some(typed) = typed.given() else { return Ok(None) };
    typed.number_or_nothing(field).map(Some)
}

fn time(
    typed: &Typed,
    field: Field,
    make: fn(f64) -> Duration,
    at: Option<usize>,
    faults: &mut Vec<Fault>,
) -> Duration {
    match amount(typed, field) {
        Ok(amount) => make(amount.unwrap_or(0.0)),
        Err(error) => {
            faults.push(Fault { operation: at, error });
            Duration::ZERO
        }
    }
}

impl PlanForm {
    /// Adds an operation after the last one. Returns its number.
    pub fn add(&mut self) -> u32 {
        let id = self.operations.iter().map(|operation| operation.id).max().unwrap_or(0) + 1;
        let after = self.operations.last().map(|last| last.id).into_iter().collect();
        self.operations.push(OperationForm { id, after, ..OperationForm::default() });
        id
    }

    /// Adds the steps of a job card in their order: what each is called, the id of its mill, and
    /// its time in the cut, as far as they are known.
    pub fn take_steps(
        &mut self,
        part: &str,
        steps: impl IntoIterator<Item = (String, String, Option<Duration>)>,
    ) {
        if self.name.trim().is_empty() {
            part.clone_into(&mut self.name);
        }
        for (name, mill, time) in steps {
            self.add();
            if let Some(operation) = self.operations.last_mut() {
                (operation.name, operation.mill) = (name, mill);
                operation.cut = time.map_or_else(Typed::default, |time| {
                    Typed::inch(rounding::fixed(time.to_second(), 0))
                });
            }
        }
    }

    /// Takes an operation away; what came after it comes after what it came after.
    pub fn remove(&mut self, id: u32) -> Option<(usize, Vec<OperationForm>)> {
        let place = self.operations.iter().position(|operation| operation.id == id)?;
        let before = self.operations.clone();
        let gone = self.operations.remove(place);
        for operation in &mut self.operations {
            if operation.after.contains(&id) {
                operation.after.retain(|other| *other != id);
                for other in &gone.after {
                    if !operation.after.contains(other) && *other != operation.id {
                        operation.after.push(*other);
                    }
                }
            }
        }
        Some((place, before))
    }

    /// How many set-ups stay on a mill's table.
    #[must_use]
    pub fn stands_of(&self, mill: &str) -> u32 {
        self.stands.iter().find(|(id, _)| id == mill).map_or(1, |(_, stands)| *stands)
    }

    /// Says how many.
    pub fn set_stands(&mut self, mill: &str, stands: u32) {
        self.stands.retain(|(id, _)| id != mill);
        if stands != 1 {
            self.stands.push((mill.to_owned(), stands));
        }
    }

    /// The batch, on the mills of a shop in their order.
    ///
    /// # Errors
    /// Everything that cannot be planned with, each at its operation or at the batch.
    pub fn read(&self, document: &Document) -> Result<Batch, Vec<Fault>> {
        let mills: Vec<&str> = document.machines.iter().map(|own| own.id.as_str()).collect();
        self.read_on(&mills)
    }

    fn read_on(&self, mills: &[&str]) -> Result<Batch, Vec<Fault>> {
        let mut faults = Vec::new();
        let pieces = match self.pieces.whole_or_nothing(Field::BatchPieces) {
            Ok(pieces) => pieces,
            Err(error) => {
                faults.push(Fault { operation: None, error });
                1
            }
        };
        let mut operations = Vec::new();
        for (place, form) in self.operations.iter().enumerate() {
            let at = Some(place);
            let mut read = |typed: &Typed, field, make| time(typed, field, make, at, &mut faults);
            let set_up = read(&form.set_up, Field::SetUpTime, Duration::minute);
            let cut = read(&form.cut, Field::CycleTime, Duration::second);
            let load = read(&form.load, Field::LoadTime, Duration::second);
            let tool_change = read(&form.tool_change, Field::ToolChangeTime, Duration::second);
            let risk = amount(&form.risk, Field::ScrapRisk).unwrap_or_else(|error| {
                faults.push(Fault { operation: at, error });
                None
            });
            let own = mills.iter().position(|id| *id == form.mill);
            if own.is_none() && !form.mill.is_empty() {
                faults.push(Fault {
                    operation: at,
                    error: InputError::new(
                        Field::Machine,
                        format!("The mill of “{}” is no longer in the shop.", form.title(place)),
                        "Choose another, or leave it to either.",
                    ),
                });
            }
            let before = |id: &u32| self.operations.iter().position(|other| other.id == *id);
            operations.push(Operation {
                name: form.title(place),
                mills: own.map_or_else(|| (0..mills.len()).collect(), |own| vec![own]),
                set_up,
                cut,
                load,
                tool_change,
                after: form.after.iter().filter_map(before).collect(),
                risk: risk.map(|percent| percent / 100.0),
            });
        }
        let walk = time(&self.walk, Field::Walk, Duration::second, None, &mut faults);
        let check = time(&self.check, Field::CheckTime, Duration::minute, None, &mut faults);
        let stands = |id: &&str| Mill { stands: self.stands_of(id) as usize };
        let batch = Batch {
            pieces,
            operations,
            mills: mills.iter().map(stands).collect(),
            walk,
            check,
            check_first: self.check_first,
            blanks_at: None,
        };
        if let Err(found) = batch.check() {
            let is_new = |fault: &Fault| {
                let same = |other: &Fault| {
                    (other.operation, other.error.field) == (fault.operation, fault.error.field)
                };
                !faults.iter().any(same)
            };
            let found: Vec<Fault> = found.into_iter().filter(is_new).collect();
            faults.extend(found);
        }
        if faults.is_empty() { Ok(batch) } else { Err(faults) }
    }

    /// The orders of the batch side by side.
    ///
    /// # Errors
    /// Everything that cannot be planned with.
    pub fn compare(&self, document: &Document) -> Result<(Batch, Comparison), Vec<Fault>> {
        let batch = self.read(document)?;
        let comparison = Comparison::of(&batch, self.preference)?;
        Ok((batch, comparison))
    }

    /// One piece fewer or more.
    pub fn step_pieces(&mut self, step: i32) {
        let now = self.pieces.whole_or_nothing(Field::BatchPieces).unwrap_or(1);
        let next = now.saturating_add_signed(step).clamp(1, MOST_PIECES);
        self.pieces = Typed::new(next.to_string(), self.pieces.system);
    }
}

/// A run as it is ticked off: the plan it was begun with, and what is done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RunSheet {
    /// The batch as it was entered then.
    pub form: PlanForm,
    /// The mills it is made on, by their names then.
    pub mills: Vec<String>,
    /// For each operation its place among those mills.
    on: Vec<usize>,
    /// For each operation its place on the table.
    stands: Vec<usize>,
    /// Operation, first piece, and the one after the last.
    runs: Vec<(usize, u32, u32)>,
    /// Nothing stays set up.
    anew: bool,
    /// When it was begun, in seconds.
    pub began: i64,
    /// Steps ticked off, each with its time.
    ticks: Vec<(usize, i64)>,
}

/// A run that can be followed.
#[derive(Clone, Debug, PartialEq)]
pub struct Followed {
    /// Its batch.
    pub batch: Batch,
    /// What there is to tick off.
    pub steps: Vec<Step>,
}

impl RunSheet {
    /// Begins a run.
    #[must_use]
    pub fn begin(form: &PlanForm, document: &Document, order: &Order, now: i64) -> Self {
        Self {
            form: form.clone(),
            mills: document.machines.iter().map(|own| own.form.name.clone()).collect(),
            on: order.stands.iter().map(|stand| stand.mill).collect(),
            stands: order.stands.iter().map(|stand| stand.stand).collect(),
            runs: order
                .runs
                .iter()
                .map(|run| (run.operation, run.pieces.0, run.pieces.1))
                .collect(),
            anew: order.anew,
            began: now,
            ticks: Vec::new(),
        }
    }

    /// What there is to tick off; `None` for a sheet that was damaged.
    #[must_use]
    pub fn follow(&self) -> Option<Followed> {
        let count = self.form.operations.len();
        // On the mills as they were then, whatever has become of them in the shop.
        let mills = vec![""; self.mills.len()];
        let mut form = self.form.clone();
        form.operations.iter_mut().for_each(|operation| operation.mill.clear());
        let mut batch = form.read_on(&mills).ok()?;
        let most = self.stands.iter().copied().max().unwrap_or(0) + 1;
        batch.mills = vec![Mill { stands: most }; self.mills.len()];
        let sound = self.on.len() == count
            && self.stands.len() == count
            && self.on.iter().all(|mill| *mill < self.mills.len())
            && self.runs.iter().all(|(operation, from, to)| {
                *operation < count && from < to && *to <= batch.pieces
            });
        if !sound {
            return None;
        }
        let stands = self.on.iter().zip(&self.stands);
        let order = Order {
            stands: stands.map(|(mill, stand)| Stand { mill: *mill, stand: *stand }).collect(),
            runs: self
                .runs
                .iter()
                .map(|(operation, from, to)| Run { operation: *operation, pieces: (*from, *to) })
                .collect(),
            anew: self.anew,
        };
        let steps = steps(&batch, &order);
        Some(Followed { batch, steps })
    }

    /// Where it stands.
    #[must_use]
    pub fn progress(&self, steps: &[Step], now: i64) -> Progress {
        let ticks: Vec<Tick> =
            self.ticks.iter().map(|(step, at)| Tick { step: *step, at: *at }).collect();
        Progress::of(steps, self.form.operations.len(), self.began, &ticks, now)
    }

    /// Whether a step is ticked off.
    #[must_use]
    pub fn is_ticked(&self, step: usize) -> bool {
        self.ticks.iter().any(|(ticked, _)| *ticked == step)
    }

    /// Ticks a step off, or takes the tick away.
    pub fn tick(&mut self, step: usize, on: bool, now: i64) {
        self.ticks.retain(|(ticked, _)| *ticked != step);
        if on {
            self.ticks.push((step, now));
        }
    }

    /// The step that was ticked off last.
    #[must_use]
    pub fn last_tick(&self) -> Option<usize> {
        self.ticks.last().map(|(step, _)| *step)
    }
}
