//! A batch of like pieces: one person, a mill or several, never two spindles at once.
//!
//! A [`Batch`] is what is to be made, an [`order::Order`] one way to make it, and a
//! [`timetable::Timetable`] what comes of it. [`order`] has the three simple orders, [`search`] the
//! best one, [`compare`] puts them side by side, and [`progress`] follows a run as it is ticked off.
//! [`which`] asks the same cut of every mill.
//!
//! What the figures rest on: pieces are alike and every operation takes them in turn; all of them
//! go the same way through the operations; an operation stays on one mill; whatever the person
//! does, nothing else goes on; a walk is the way to another mill with work and back again, and
//! takes along everything that waits.

pub mod compare;
pub mod order;
pub mod progress;
pub mod search;
pub mod timetable;
pub mod which;

use crate::engine::{
    quantity::Duration,
    question::{Field, InputError},
};

/// Sources of the rule of the first piece and of what counts as equal; the times are arithmetic.
pub const SOURCE: &str = "PLAN_CP F_GEOMETRY";

/// More pieces than anyone makes on a manual mill.
pub const MOST_PIECES: u32 = 1000;
/// More operations than a part has.
pub const MOST_OPERATIONS: usize = 12;
/// More set-ups than a table has room for.
pub const MOST_STANDS: usize = MOST_OPERATIONS;

/// No time of a plan is longer than a day.
#[must_use]
pub fn longest() -> Duration {
    Duration::minute(24.0 * 60.0)
}

/// One operation of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Operation {
    /// What the person calls it.
    pub name: String,
    /// The mills that can do it, by their places in the batch.
    pub mills: Vec<usize>,
    /// To set it up.
    pub set_up: Duration,
    /// In the cut, for one piece: the spindle turns.
    pub cut: Duration,
    /// To load and unload one piece.
    pub load: Duration,
    /// For the changes of tool within one piece.
    pub tool_change: Duration,
    /// The operations that come before it on every piece.
    pub after: Vec<usize>,
    /// The share of pieces that it spoils while nobody has checked one, 0 to 1. Of an operation
    /// where it is not known, every piece is at risk.
    pub risk: Option<f64>,
}

impl Operation {
    /// For one piece, set up already.
    #[must_use]
    pub fn each(&self) -> Duration {
        self.load + self.tool_change + self.cut
    }

    /// Whether it can spoil a piece.
    #[must_use]
    pub fn can_spoil(&self) -> bool {
        self.risk != Some(0.0)
    }
}

/// A mill as a plan sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mill {
    /// Set-ups that can stay on its table side by side.
    pub stands: usize,
}

/// What is to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// How many pieces.
    pub pieces: u32,
    /// The operations of each.
    pub operations: Vec<Operation>,
    /// The mills.
    pub mills: Vec<Mill>,
    /// From one mill to another with work, and back.
    pub walk: Duration,
    /// To check the first piece that is finished.
    pub check: Duration,
    /// The first piece is checked before an operation that can spoil one meets a second.
    pub check_first: bool,
    /// The mill where the blanks lie; beside whichever takes them where it is open.
    pub blanks_at: Option<usize>,
}

/// Something that cannot be planned with, at its operation or at the batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Which operation.
    pub operation: Option<usize>,
    /// What is wrong with which entry.
    pub error: InputError,
}

impl core::fmt::Display for Fault {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}", self.error)
    }
}

impl core::error::Error for Fault {}

/// Collects what is wrong.
struct Faults(Vec<Fault>);

impl Faults {
    fn add(
        &mut self,
        operation: Option<usize>,
        field: Field,
        problem: impl Into<String>,
        hint: impl Into<String>,
    ) {
        self.0.push(Fault { operation, error: InputError::new(field, problem, hint) });
    }

    fn time(&mut self, operation: Option<usize>, field: Field, what: &str, time: Duration) {
        if !time.is_finite() || time < Duration::ZERO {
            self.add(
                operation,
                field,
                format!("The time {what} cannot be less than nothing."),
                "Type 0 where there is none.",
            );
        } else if time > longest() {
            self.add(
                operation,
                field,
                format!("The time {what} is longer than a day."),
                "Look whether it counts minutes or seconds.",
            );
        }
    }
}

impl Batch {
    /// Everything that cannot be planned with.
    ///
    /// # Errors
    /// Each at its operation or at the batch: no pieces or too many, no operations, times below
    /// nothing or over a day, no mill, and operations that wait for each other.
    pub fn check(&self) -> Result<(), Vec<Fault>> {
        let mut faults = Faults(Vec::new());
        if self.pieces == 0 {
            faults.add(
                None,
                Field::BatchPieces,
                "A batch of no pieces is nothing to plan.",
                "Type how many you make.",
            );
        } else if self.pieces > MOST_PIECES {
            faults.add(
                None,
                Field::BatchPieces,
                format!("{} pieces are more than a manual mill makes in one batch.", self.pieces),
                format!("Type a whole number from 1 to {MOST_PIECES}."),
            );
        }
        if self.mills.is_empty() {
            faults.add(
                None,
                Field::Machine,
                "There is no mill to plan for.",
                "Add your own first.",
            );
        }
        if self.mills.iter().any(|mill| !(1..=MOST_STANDS).contains(&mill.stands)) {
            faults.add(
                None,
                Field::Stands,
                "This many set-ups do not stand on one table.",
                format!("Choose 1 to {MOST_STANDS}."),
            );
        }
        faults.time(None, Field::Walk, "for the walk", self.walk);
        faults.time(None, Field::CheckTime, "to check a piece", self.check);
        self.check_operations(&mut faults);
        if faults.0.is_empty() { Ok(()) } else { Err(faults.0) }
    }

    fn check_operations(&self, faults: &mut Faults) {
        let count = self.operations.len();
        if count == 0 {
            faults.add(
                None,
                Field::PlanOperation,
                "The part has no operations yet.",
                "Add the first one.",
            );
        } else if count > MOST_OPERATIONS {
            faults.add(
                None,
                Field::PlanOperation,
                format!("{count} operations are more than this plans at once."),
                format!("Join some, or plan the part in two halves of up to {MOST_OPERATIONS}."),
            );
        }
        for (place, operation) in self.operations.iter().enumerate() {
            let at = Some(place);
            faults.time(at, Field::SetUpTime, "to set up", operation.set_up);
            faults.time(at, Field::CycleTime, "in the cut", operation.cut);
            faults.time(at, Field::LoadTime, "to load and unload", operation.load);
            faults.time(at, Field::ToolChangeTime, "to change tools", operation.tool_change);
            if operation.mills.iter().all(|mill| *mill >= self.mills.len()) {
                faults.add(
                    at,
                    Field::Machine,
                    format!("“{}” has no mill that can do it.", operation.name),
                    "Choose one of yours, or leave it to either.",
                );
            }
            if operation.risk.is_some_and(|risk| !(0.0..=1.0).contains(&risk)) {
                faults.add(
                    at,
                    Field::ScrapRisk,
                    "The share of pieces spoiled lies between 0 and 100 %.",
                    "Type 0 for an operation that cannot spoil one.",
                );
            }
        }
        if let Some(circle) = self.circle() {
            let names: Vec<_> = circle.iter().map(|o| self.operations[*o].name.as_str()).collect();
            faults.add(
                circle.first().copied(),
                Field::After,
                if circle.len() == 1 {
                    format!("“{}” is to come after itself.", names[0])
                } else {
                    format!("“{}” wait for each other in a circle.", names.join("”, “"))
                },
                "Take one of these away: something has to come first.",
            );
        }
    }

    /// Operations that wait for each other, if any do.
    fn circle(&self) -> Option<Vec<usize>> {
        let mut waiting: Vec<usize> = (0..self.operations.len()).collect();
        loop {
            let free: Vec<usize> = waiting
                .iter()
                .copied()
                .filter(|o| !self.operations[*o].after.iter().any(|b| waiting.contains(b)))
                .collect();
            if free.is_empty() {
                break;
            }
            waiting.retain(|o| !free.contains(o));
        }
        // From any that waits, those it waits for lead into the circle.
        let mut way = vec![*waiting.first()?];
        loop {
            let last = *way.last()?;
            let next = self.operations[last].after.iter().copied().find(|b| waiting.contains(b))?;
            if let Some(begin) = way.iter().position(|o| *o == next) {
                let mut circle = way.split_off(begin);
                circle.reverse();
                let first = (0..circle.len()).min_by_key(|place| circle[*place])?;
                circle.rotate_left(first);
                return Some(circle);
            }
            way.push(next);
        }
    }

    /// The operations in an order that respects what comes after what, as close to the order they
    /// are named in as that allows.
    #[must_use]
    pub fn route(&self) -> Vec<usize> {
        let mut route: Vec<usize> = Vec::new();
        while route.len() < self.operations.len() {
            let next = (0..self.operations.len()).find(|o| {
                !route.contains(o) && self.operations[*o].after.iter().all(|b| route.contains(b))
            });
            let Some(next) = next else { break };
            route.push(next);
        }
        route
    }

    /// What every order takes at the least: each operation set up once, every piece worked on, the
    /// first one checked.
    #[must_use]
    pub fn least(&self) -> Duration {
        let pieces = f64::from(self.pieces);
        self.operations
            .iter()
            .fold(self.check_time(), |sum, op| sum + op.set_up + op.each() * pieces)
    }

    /// For the check of the first piece, where there is one.
    #[must_use]
    pub fn check_time(&self) -> Duration {
        if self.check_first { self.check } else { Duration::ZERO }
    }
}
