//! Job cards: a part with its steps, what was agreed about datum and stops, and what to do better
//! next time.

use serde::{Deserialize, Serialize};

use crate::shop::document::Document;

/// A job card.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// Name that never changes, for links.
    pub id: String,
    /// What the part is called.
    pub name: String,
    /// Which corner or face everything is measured from.
    pub datum: String,
    /// Which end touches the stop, and what else to set up alike.
    pub stops: String,
    /// What to do better; it is read first.
    pub next_time: String,
    /// What is done, in order.
    pub steps: Vec<Step>,
}

/// One step of a job.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// What is done.
    pub title: String,
    /// The screen it is read from, as `cut?op=slot`; empty for a line of words.
    pub to: String,
    /// It is done.
    pub done: bool,
}

impl Job {
    /// What it is called, or what it is.
    #[must_use]
    pub fn title(&self) -> &str {
        match self.name.trim() {
            "" => "A part without a name",
            name => name,
        }
    }

    /// How many steps are done.
    #[must_use]
    pub fn done(&self) -> usize {
        self.steps.iter().filter(|step| step.done).count()
    }

    /// Puts a step one place earlier or later; at an end it stays.
    pub fn move_step(&mut self, place: usize, by: isize) {
        let to = place.checked_add_signed(by).filter(|to| *to < self.steps.len());
        if let Some(to) = to.filter(|_| place < self.steps.len()) {
            self.steps.swap(place, to);
        }
    }

    /// Every step open again, for the next part of the kind.
    pub fn begin_again(&mut self) {
        for step in &mut self.steps {
            step.done = false;
        }
    }

    /// The card as a text to send, the notes first; `line` says a step's numbers.
    #[must_use]
    pub fn text(&self, line: impl Fn(&Step) -> Option<String>) -> String {
        let mut lines = vec![self.title().to_owned()];
        for (what, said) in [
            ("Next time", &self.next_time),
            ("Datum", &self.datum),
            ("Stops and set-up", &self.stops),
        ] {
            if !said.trim().is_empty() {
                lines.push(format!("{what}: {}", said.trim()));
            }
        }
        for (place, step) in self.steps.iter().enumerate() {
            let tick = if step.done { "x" } else { " " };
            lines.push(format!("[{tick}] {}. {}", place + 1, step.title));
            lines.extend(line(step).map(|line| format!("       {line}")));
        }
        lines.join("\n")
    }
}

impl Document {
    /// The job with this id.
    #[must_use]
    pub fn job(&self, id: &str) -> Option<&Job> {
        self.jobs.iter().find(|job| job.id == id)
    }

    /// Changes a job.
    pub fn change_job(&mut self, id: &str, change: impl FnOnce(&mut Job)) {
        if let Some(job) = self.jobs.iter_mut().find(|job| job.id == id) {
            change(job);
            self.count_change();
        }
    }

    /// Adds an empty card in front of the others. Returns its id.
    pub fn add_job(&mut self) -> String {
        let taken = |id: &str| self.jobs.iter().any(|job| job.id == id);
        let id = (1..).map(|n| format!("job_{n}")).find(|id| !taken(id)).unwrap_or_default();
        self.jobs.insert(0, Job { id: id.clone(), ..Job::default() });
        self.count_change();
        id
    }

    /// Takes a card away, with its place for putting it back.
    pub fn remove_job(&mut self, id: &str) -> Option<(usize, Job)> {
        let place = self.jobs.iter().position(|job| job.id == id)?;
        self.count_change();
        Some((place, self.jobs.remove(place)))
    }

    /// Puts a card back where it was.
    pub fn put_back_job(&mut self, place: usize, job: Job) {
        self.jobs.insert(place.min(self.jobs.len()), job);
        self.count_change();
    }
}
