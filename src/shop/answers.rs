//! Yes-or-no questions, each of which may stay open. An open one counts as not known.

use crate::shop::word::Word;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::BTreeMap;

/// The answers to questions of a kind, saved by the words of the questions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answers<T>(Vec<(T, bool)>);

impl<T> Default for Answers<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T: Word> Answers<T> {
    /// The answer; `None` while the question is open.
    #[must_use]
    pub fn get(&self, question: T) -> Option<bool> {
        self.0.iter().find(|(asked, _)| *asked == question).map(|(_, answer)| *answer)
    }

    /// Takes an answer, or opens the question again.
    pub fn set(&mut self, question: T, answer: Option<bool>) {
        self.0.retain(|(asked, _)| *asked != question);
        self.0.extend(answer.map(|answer| (question, answer)));
        // In the order of the questions, so that the same answers are the same.
        self.0.sort_by_key(|(asked, _)| T::ALL.iter().position(|question| question == asked));
    }

    /// With an answer more.
    #[must_use]
    pub fn with(mut self, question: T, answer: bool) -> Self {
        self.set(question, Some(answer));
        self
    }

    /// Every answer, in the order of the questions.
    pub fn all(&self) -> impl Iterator<Item = (T, bool)> {
        self.0.iter().copied()
    }
}

impl<T: Word> Serialize for Answers<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.all().map(|(question, answer)| (question.word(), answer)))
    }
}

impl<'de, T: Word> Deserialize<'de> for Answers<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut answers = Self::default();
        for (word, answer) in BTreeMap::<String, bool>::deserialize(from)? {
            // A question of another version is kept with the rest of the document.
            if let Some(question) = T::from_word(&word) {
                answers.set(question, Some(answer));
            }
        }
        Ok(answers)
    }
}
