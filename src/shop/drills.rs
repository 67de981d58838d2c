//! The owner's drills: boxes, what is missing from them, and single ones besides.

use serde::{Deserialize, Serialize};

use crate::{
    engine::drills::{Drill, Index, NameError, Set},
    shop::word::{Word, words},
};

words!(Set:
    Fractions = "fractions",
    LargeFractions = "large_fractions",
    Numbers = "numbers",
    SmallNumbers = "small_numbers",
    Letters = "letters",
    MetricHalves = "metric_halves",
    MetricTenths = "metric_tenths",
    MetricTenthsTo13 = "metric_tenths_to_13",
    SmallMetric = "small_metric",
);

/// The drawer of drills. Drills are kept by their short names, which never change.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct DrillDrawer {
    /// Words of the boxes.
    sets: Vec<String>,
    /// Drills that are gone from their box.
    missing: Vec<String>,
    /// Drills that belong to no box.
    single: Vec<String>,
}

impl DrillDrawer {
    /// True until the owner has said anything about drills.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sets.is_empty() && self.single.is_empty()
    }

    /// True when this box is owned.
    #[must_use]
    pub fn has_set(&self, set: Set) -> bool {
        self.sets.iter().any(|word| word == set.word())
    }

    /// Puts a box in, or takes it out; what was missing from it comes back with the next one.
    pub fn own_set(&mut self, set: Set, owned: bool) {
        self.sets.retain(|word| word != set.word());
        if owned {
            self.sets.push(set.word().to_owned());
        } else {
            let gone: Vec<String> = set.drills().into_iter().map(Drill::short_name).collect();
            self.missing.retain(|name| !gone.contains(name));
        }
    }

    /// True when a drill of a box is not in it.
    #[must_use]
    pub fn is_missing(&self, drill: Drill) -> bool {
        self.missing.contains(&drill.short_name())
    }

    /// Marks a drill of a box as missing, or as there again.
    pub fn miss(&mut self, drill: Drill, missing: bool) {
        let name = drill.short_name();
        self.missing.retain(|one| *one != name);
        if missing {
            self.missing.push(name);
        }
    }

    /// How many drills are missing from a box.
    #[must_use]
    pub fn missing_of(&self, set: Set) -> usize {
        set.drills().into_iter().filter(|drill| self.is_missing(*drill)).count()
    }

    /// Adds a single drill by its name.
    ///
    /// # Errors
    /// As [`Drill::named`].
    pub fn add(&mut self, name: &str) -> Result<Drill, NameError> {
        let drill = Drill::named(name)?;
        self.remove(drill);
        self.single.push(drill.short_name());
        Ok(drill)
    }

    /// Takes a single drill out.
    pub fn remove(&mut self, drill: Drill) {
        let name = drill.short_name();
        self.single.retain(|one| *one != name);
    }

    /// Holds what is said to be missing from a box against the drawer before: of a box that was in
    /// it, nobody else knows better.
    pub(in crate::shop) fn trust(&mut self, before: &Self) {
        let here = before.sets.iter().filter_map(|word| Set::from_word(word)).flat_map(Set::drills);
        let here: Vec<String> = here.map(Drill::short_name).collect();
        self.missing.retain(|name| before.missing.contains(name) || !here.contains(name));
    }

    /// The single drills, as they were added.
    pub fn singles(&self) -> impl Iterator<Item = Drill> + '_ {
        self.single.iter().filter_map(|name| Drill::named(name).ok())
    }

    /// All that can be put in a chuck.
    #[must_use]
    pub fn index(&self) -> Index {
        let boxed = self.sets.iter().filter_map(|word| Set::from_word(word)).flat_map(Set::drills);
        Index::new(boxed.filter(|drill| !self.is_missing(*drill)).chain(self.singles()))
    }
}
