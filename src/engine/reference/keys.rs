//! Reading the inputs of a row: `key=value` pairs, the unit at the end of the key.

use crate::engine::quantity::{
    Angle, Duration, FeedRate, Force, HandRate, Length, Power, RemovalRate, SpindleSpeed, Stress,
    SurfaceSpeed, Torque,
};
use core::cell::Cell;

/// Why a row cannot be asked: a sentence.
#[derive(Debug)]
pub(super) struct Refusal(pub(super) String);

impl<E: core::error::Error> From<E> for Refusal {
    fn from(error: E) -> Self {
        Self(error.to_string())
    }
}

/// The pairs of a row, each marked once it has been read.
pub(super) struct Keys<'a> {
    pairs: Vec<(&'a str, &'a str, Cell<bool>)>,
}

/// Constructor, key and text of a value that was given.
type Found<'a, T> = (fn(f64) -> T, &'a str, &'a str);

/// Ending of a key and the constructor it stands for; a plain number has an empty ending.
type Unit<T> = (&'static str, fn(f64) -> T);

/// What a value is read as, and the key endings it is read by.
pub(super) trait Keyed: Sized + 'static {
    /// The units it may be given in.
    const UNITS: &'static [Unit<Self>];
}

macro_rules! keyed {
    ($($name:ident: $($ending:literal $make:ident),+;)+) => {
        $(impl Keyed for $name {
            const UNITS: &'static [Unit<Self>] =
                &[$(($ending, $name::$make)),+];
        })+
        /// Every ending of a key.
        const ENDINGS: &[&str] = &[$($($ending),+),+, "hp_in3_min", "J_mm3"];
    };
}

keyed! {
    Length: "in" inch, "mm" mm;
    SpindleSpeed: "rpm" rpm;
    HandRate: "turns_min" turns_per_min;
    SurfaceSpeed: "sfm" ft_per_min, "m_min" m_per_min;
    FeedRate: "in_min" inch_per_min, "mm_min" mm_per_min;
    Angle: "deg" degree;
    Power: "hp" horsepower, "kW" kilowatt, "W" watt;
    Force: "N" newton, "lbf" lbf;
    Torque: "N_m" newton_metre, "lbf_in" lbf_inch, "lbf_ft" lbf_foot;
    Stress: "N_mm2" newton_per_mm2, "psi" psi;
    RemovalRate: "in3_min" inch3_per_min, "mm3_min" mm3_per_min;
    Duration: "min" minute, "s" second;
}

impl Keyed for f64 {
    const UNITS: &'static [Unit<Self>] = &[("", core::convert::identity)];
}

impl<'a> Keys<'a> {
    /// Splits the inputs of a row.
    pub(super) fn new(inputs: &'a str) -> Result<Self, Refusal> {
        let mut pairs: Vec<(&str, &str, Cell<bool>)> = Vec::new();
        for pair in inputs.split(';') {
            let Some((key, value)) = pair.split_once('=') else {
                return Err(Refusal(format!("The input {pair} is not a key=value pair.")));
            };
            if pairs.iter().any(|(k, ..)| *k == key) {
                return Err(Refusal(format!("The key {key} is given twice.")));
            }
            pairs.push((key, value, Cell::new(false)));
        }
        Ok(Self { pairs })
    }

    /// The value of a name, in whichever of its units it is given.
    pub(super) fn get<T: Keyed>(&self, name: &str) -> Result<T, Refusal> {
        let (make, key, text) = self.find(name)?.ok_or_else(|| missing::<T>(name))?;
        Ok(make(number(key, text)?))
    }

    /// The value of a name, or the default where it is not given.
    pub(super) fn get_or<T: Keyed>(&self, name: &str, default: T) -> Result<T, Refusal> {
        match self.find(name)? {
            Some((make, key, text)) => Ok(make(number(key, text)?)),
            None => Ok(default),
        }
    }

    /// The values of a name, a list separated by blanks.
    pub(super) fn list<T: Keyed>(&self, name: &str) -> Result<Vec<T>, Refusal> {
        let (make, key, text) = self.find(name)?.ok_or_else(|| missing::<T>(name))?;
        text.split(' ').map(|text| Ok(make(number(key, text)?))).collect()
    }

    /// A whole number.
    pub(super) fn count(&self, name: &str) -> Result<u32, Refusal> {
        whole(name, self.get(name)?)
    }

    /// A whole number, or the default where it is not given.
    pub(super) fn count_or(&self, name: &str, default: u32) -> Result<u32, Refusal> {
        whole(name, self.get_or(name, f64::from(default))?)
    }

    /// One of some words, each standing for a value.
    pub(super) fn word<T: Copy>(&self, name: &str, words: &[(&str, T)]) -> Result<T, Refusal> {
        let (_, text) = self.read(name).ok_or_else(|| missing::<f64>(name))?;
        meaning(name, text, words)
    }

    /// One of some words, or the default where it is not given.
    pub(super) fn word_or<T: Copy>(
        &self,
        name: &str,
        words: &[(&str, T)],
        default: T,
    ) -> Result<T, Refusal> {
        self.read(name).map_or(Ok(default), |(_, text)| meaning(name, text, words))
    }

    /// A text as it stands.
    pub(super) fn text(&self, name: &str) -> Result<&'a str, Refusal> {
        self.read(name).map(|(_, text)| text).ok_or_else(|| missing::<f64>(name))
    }

    /// True when a name is given, in any unit.
    pub(super) fn has(&self, name: &str) -> bool {
        self.key_of(name).is_some()
    }

    /// Which of some names is given, by its place; they exclude each other.
    pub(super) fn which(&self, names: &[&str]) -> Result<usize, Refusal> {
        let mut given = names.iter().enumerate().filter_map(|(i, n)| Some((i, self.key_of(n)?)));
        match (given.next(), given.next()) {
            (Some((place, _)), None) => Ok(place),
            (Some((_, one)), Some((_, other))) => Err(both(one, other)),
            (None, _) => Err(Refusal(format!("One of the keys {} is missing.", names.join(", ")))),
        }
    }

    /// Refuses a row with a key that nothing has read.
    pub(super) fn all_read(&self, topic: &str) -> Result<(), Refusal> {
        match self.pairs.iter().find(|(_, _, read)| !read.get()) {
            None => Ok(()),
            Some((key, ..)) => Err(Refusal(format!(
                "The key {key} is not known to the topic {topic}, or not beside the others."
            ))),
        }
    }

    /// Constructor, key and text of a name.
    fn find<T: Keyed>(&self, name: &str) -> Result<Option<Found<'a, T>>, Refusal> {
        let mut found = None;
        for &(ending, make) in T::UNITS {
            let Some((key, text)) = self.read(&full(name, ending)) else { continue };
            match found {
                None => found = Some((make, key, text)),
                Some((_, earlier, _)) => return Err(both(earlier, key)),
            }
        }
        Ok(found)
    }

    /// A key and its text; the pair is marked.
    fn read(&self, key: &str) -> Option<(&'a str, &'a str)> {
        let (key, text, read) = self.pairs.iter().find(|(k, ..)| *k == key)?;
        read.set(true);
        Some((key, text))
    }

    /// The first key of a name, in any unit.
    fn key_of(&self, name: &str) -> Option<&str> {
        self.pairs.iter().map(|(key, ..)| *key).find(|key| match key.strip_prefix(name) {
            Some("") => true,
            Some(rest) => rest.strip_prefix('_').is_some_and(|unit| ENDINGS.contains(&unit)),
            None => false,
        })
    }
}

/// A finite number.
pub(super) fn number(key: &str, text: &str) -> Result<f64, Refusal> {
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        _ => Err(Refusal(format!("The {key} is {text}, which is not a number."))),
    }
}

fn meaning<T: Copy>(key: &str, text: &str, words: &[(&str, T)]) -> Result<T, Refusal> {
    words.iter().find(|(word, _)| *word == text).map(|(_, value)| *value).ok_or_else(|| {
        let words: Vec<_> = words.iter().map(|(word, _)| *word).collect();
        Refusal(format!("The {key} is {text}, which is none of {}.", words.join(", ")))
    })
}

fn whole(key: &str, number: f64) -> Result<u32, Refusal> {
    if libm::floor(number) == number && (0.0..=f64::from(u32::MAX)).contains(&number) {
        return Ok(number as u32);
    }
    Err(Refusal(format!("The {key} is {number}, which is not a whole number.")))
}

fn full(name: &str, ending: &str) -> String {
    if ending.is_empty() { name.to_owned() } else { format!("{name}_{ending}") }
}

fn both(one: &str, other: &str) -> Refusal {
    Refusal(format!("The keys {one} and {other} are both given, and only one of them can hold."))
}

fn missing<T: Keyed>(name: &str) -> Refusal {
    let keys: Vec<_> = T::UNITS.iter().map(|(ending, _)| full(name, ending)).collect();
    Refusal(format!("The key {} is missing.", keys.join(" or ")))
}
