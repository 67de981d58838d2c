//! The threads a person comes back to.

use crate::{
    engine::{
        quantity::Length,
        question::{Field, InputError},
        threads::wires::{self, Groove},
    },
    shop::typed::Typed,
};
use serde::{Deserialize, Serialize};

/// So many threads are remembered.
const RECENT: usize = 8;

/// Threads by their designations, how large the screen draws, and the wires to measure threads
/// over.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ThreadShelf {
    /// Those looked at last, the last one first.
    pub recent: Vec<String>,
    /// Those with a star, the last one first.
    pub starred: Vec<String>,
    /// Long edge of a bank card on this screen, in tenths of its units.
    pub card: Option<u32>,
    /// Diameters of the owner's wires, as they were typed.
    #[serde(default)]
    wires: Vec<Typed>,
}

impl ThreadShelf {
    /// Keeps a thread as the one looked at last.
    pub fn look_at(&mut self, designation: &str) {
        self.recent.retain(|one| one != designation);
        self.recent.insert(0, designation.to_owned());
        self.recent.truncate(RECENT);
    }

    /// True when it has a star.
    #[must_use]
    pub fn is_starred(&self, designation: &str) -> bool {
        self.starred.iter().any(|one| one == designation)
    }

    /// Gives a star, or takes it away.
    pub fn star(&mut self, designation: &str, starred: bool) {
        self.starred.retain(|one| one != designation);
        if starred {
            self.starred.insert(0, designation.to_owned());
        }
    }

    /// The wires owned, the thinnest first, each as it was typed.
    #[must_use]
    pub fn wires(&self) -> Vec<(Typed, Length)> {
        let read = |typed: &Typed| Some((typed.clone(), typed.length(Field::Wire).ok()?));
        let mut wires: Vec<_> = self.wires.iter().filter_map(read).collect();
        wires.sort_by(|a, b| a.1.to_mm().total_cmp(&b.1.to_mm()));
        wires
    }

    /// The wire owned that a thread is best measured over, if one can be used.
    #[must_use]
    pub fn wire_for(&self, groove: Groove) -> Option<(Typed, Length)> {
        let wires = self.wires();
        let sizes: Vec<Length> = wires.iter().map(|(_, size)| *size).collect();
        let best = groove.wire_of(&sizes)?;
        wires.into_iter().find(|(_, size)| *size == best)
    }

    /// Puts three wires of a diameter among the owner's.
    ///
    /// # Errors
    /// A diameter that is none, that fits no thread, or that is there already.
    pub fn add_wire(&mut self, typed: &Typed) -> Result<(), InputError> {
        let wire = typed.length(Field::Wire)?;
        let (least, most) = wires::range();
        if !(wire >= least && wire <= most) {
            return Err(InputError::new(
                Field::Wire,
                format!(
                    "No listed thread is measured over wires of {}.",
                    typed.with_unit(Field::Wire)
                ),
                format!(
                    "They run from {:.4} in ({:.3} mm) to {:.4} in ({:.3} mm): look at the unit.",
                    least.to_inch(),
                    least.to_mm(),
                    most.to_inch(),
                    most.to_mm()
                ),
            ));
        }
        // Two that differ by less than a micrometer shows are one.
        if self.wires().iter().any(|(_, own)| (*own - wire).abs() < Length::um(0.5)) {
            return Err(InputError::new(
                Field::Wire,
                "Wires of this diameter are there already.",
                "Type another diameter.",
            ));
        }
        self.wires.push(typed.clone());
        Ok(())
    }

    /// Takes a wire away.
    pub fn remove_wire(&mut self, typed: &Typed) {
        self.wires.retain(|own| own != typed);
    }
}
