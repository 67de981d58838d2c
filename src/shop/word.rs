//! Stable words: how a choice is written in saved data and in links.
//!
//! The words are kept apart from the names of the engine's types, so that renaming a type never
//! breaks a saved shop.

use crate::engine::{
    cutters::ToolMaterial,
    machine::Class,
    quantity::System,
    question::{Coolant, Holder, Style},
};

/// A choice out of a few, each with a word that never changes.
pub trait Word: Copy + PartialEq + Sized + 'static {
    /// Every choice, in the order a screen offers them.
    const ALL: &'static [Self];

    /// The word of this choice.
    fn word(self) -> &'static str;

    /// The choice with this word.
    #[must_use]
    fn from_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|choice| choice.word() == word)
    }
}

/// Gives a type its words; a choice without one does not compile.
macro_rules! words {
    ($type:ty: $($choice:ident = $word:literal),+ $(,)?) => {
        impl $crate::shop::word::Word for $type {
            const ALL: &'static [Self] = &[$(Self::$choice),+];
            fn word(self) -> &'static str {
                match self { $(Self::$choice => $word),+ }
            }
        }
    };
}
pub(crate) use words;

words!(Class: LightBench = "light_bench", Bench = "bench", HeavyBench = "heavy_bench", Knee = "knee");
words!(ToolMaterial: Hss = "hss", Cobalt = "cobalt", Carbide = "carbide");
words!(Holder: Collet = "collet", SetScrew = "set_screw", DrillChuck = "drill_chuck", Arbor = "arbor");
words!(Coolant: Flood = "flood", Brush = "brush", Dry = "dry");
words!(Style: Gentle = "gentle", Brisk = "brisk");
words!(System: Inch = "inch", Metric = "metric");

/// Saves a choice as its word: `#[serde(with = "word::saved")]`.
pub mod saved {
    use super::Word;
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    /// Writes the word.
    ///
    /// # Errors
    /// Those of the serializer.
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
    pub fn serialize<T: Word, S: Serializer>(choice: &T, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(choice.word())
    }

    /// Reads the word.
    ///
    /// # Errors
    /// A word that is not known.
    pub fn deserialize<'de, T: Word, D: Deserializer<'de>>(from: D) -> Result<T, D::Error> {
        let word = String::deserialize(from)?;
        T::from_word(&word).ok_or_else(|| D::Error::custom(format!("“{word}” is not known here")))
    }
}

/// Saves a choice that may be left open, as its word or null: `#[serde(with = "word::saved_open")]`.
pub mod saved_open {
    use super::Word;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    /// Writes the word, or null.
    ///
    /// # Errors
    /// Those of the serializer.
    #[allow(clippy::ref_option, reason = "serde hands over a reference")]
    pub fn serialize<T: Word, S: Serializer>(choice: &Option<T>, to: S) -> Result<S::Ok, S::Error> {
        choice.map(Word::word).serialize(to)
    }

    /// Reads the word, or null.
    ///
    /// # Errors
    /// A word that is not known.
    pub fn deserialize<'de, T: Word, D: Deserializer<'de>>(from: D) -> Result<Option<T>, D::Error> {
        let Some(word) = Option::<String>::deserialize(from)? else { return Ok(None) };
        T::from_word(&word)
            .map(Some)
            .ok_or_else(|| D::Error::custom(format!("“{word}” is not known here")))
    }
}
