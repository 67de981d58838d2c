//! Notes after cuts: how each was, with the set-up it was made with, and what they come to for the
//! next one of its kind.

use crate::{
    engine::{
        experience::{Experience, Felt, LEAST, Noted},
        machine::Machine,
        question::{Field, InputError},
    },
    shop::{
        cuts::CutForm,
        document::Document,
        reading::Question,
        word::{self, Word, words},
    },
};
use serde::{Deserialize, Serialize};

words!(Felt: TooHot = "too_hot", Chatter = "chatter", Fine = "fine", CouldPush = "could_push");

/// Notes that are kept; the oldest go.
pub const KEPT: usize = 300;

/// One note.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Note {
    /// ISO date and time.
    pub when: String,
    /// How the cut was.
    #[serde(with = "word::saved")]
    pub felt: Felt,
    /// The cut, as the query of its link.
    pub link: String,
    /// Machine, stock and cutter, as [`kind_of`] names them.
    of: String,
    /// Factors it was made with, in hundredths.
    speed: u32,
    feed: u32,
}

/// All notes, the last one first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CutLog(Vec<Note>);

impl CutLog {
    /// Notes how a cut was that was made with this experience.
    pub fn note(&mut self, when: String, form: &CutForm, felt: Felt, made_with: Experience) {
        let hundredths = |factor: f64| libm::round(factor * 100.0) as u32;
        self.0.insert(
            0,
            Note {
                when,
                felt,
                link: form.to_query(),
                of: kind_of(form),
                speed: hundredths(made_with.speed),
                feed: hundredths(made_with.feed),
            },
        );
        self.0.truncate(KEPT);
    }

    /// Every note, the last one first.
    #[must_use]
    pub fn notes(&self) -> &[Note] {
        &self.0
    }

    /// Takes a note away, with its place for putting it back.
    pub fn remove(&mut self, place: usize) -> Option<(usize, Note)> {
        (place < self.0.len()).then(|| (place, self.0.remove(place)))
    }

    /// Puts a note back where it was.
    pub fn put_back(&mut self, place: usize, note: Note) {
        self.0.insert(place.min(self.0.len()), note);
    }

    /// How many cuts with the machine, the stock and the cutter of a form were noted.
    #[must_use]
    pub fn count(&self, form: &CutForm) -> usize {
        let kind = kind_of(form);
        self.0.iter().filter(|note| note.of == kind).count()
    }

    /// How many more have to be noted before they count.
    #[must_use]
    pub fn wanting(&self, form: &CutForm) -> usize {
        LEAST.saturating_sub(self.count(form))
    }

    /// What the notes come to for a cut, whether or not the form heeds them.
    #[must_use]
    pub fn experience(&self, form: &CutForm) -> Experience {
        if self.0.is_empty() {
            return Experience::NONE;
        }
        let kind = kind_of(form);
        let part = |hundredths: u32| f64::from(hundredths) / 100.0;
        let noted: Vec<Noted> = self
            .0
            .iter()
            .filter(|note| note.of == kind)
            .map(|note| Noted { felt: note.felt, speed: part(note.speed), feed: part(note.feed) })
            .collect();
        Experience::of(&noted)
    }
}

impl Document {
    /// The question that a form asks on a machine, with what was noted after cuts of its kind.
    ///
    /// # Errors
    /// As [`CutForm::read`].
    pub fn ask<'a>(
        &self,
        form: &CutForm,
        machine: &'a Machine,
    ) -> Result<Question<'a>, Vec<InputError>> {
        let mut question = form.read(machine)?;
        if form.heeds_notes {
            question.cut.own.experience = self.log.experience(form);
        }
        Ok(question)
    }
}

/// Machine, stock and cutter of a cut: cuts that agree in them are of a kind.
fn kind_of(form: &CutForm) -> String {
    let (mill, cutter) = (&form.mill, &form.mill.cutter);
    [
        mill.machine.as_str(),
        &mill.stock,
        cutter.name.trim(),
        cutter.kind.word(),
        cutter.material.word(),
        &cutter.diameter.with_unit(Field::Diameter),
        cutter.teeth.text.trim(),
    ]
    .join("/")
}
