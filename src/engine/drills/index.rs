//! A row of drills from the thinnest to the thickest.

use super::{Drill, Family};
use crate::engine::quantity::Length;

/// A row of drills, such as those a person owns. Two names of one size both stand in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Index(Vec<(f64, Drill)>);

/// The drills on both sides of a size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Neighbours {
    /// The thickest that is not thicker.
    pub below: Option<Drill>,
    /// The thinnest that is thicker.
    pub above: Option<Drill>,
}

/// Two sizes closer than this, in mm, are one: rounding of the last bits.
const SAME_MM: f64 = 1e-9;

impl Index {
    /// A row of these drills, in any order.
    #[must_use]
    pub fn new(drills: impl IntoIterator<Item = Drill>) -> Self {
        let mut row: Vec<_> = drills.into_iter().map(|d| (d.diameter().to_mm(), d)).collect();
        row.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.family().cmp(&b.1.family())));
        row.dedup_by(|a, b| a.1 == b.1);
        Self(row)
    }

    /// The drills, from the thinnest.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = Drill> + '_ {
        self.0.iter().map(|(_, drill)| *drill)
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// True when there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// True when this very drill is among them.
    #[must_use]
    pub fn contains(&self, drill: Drill) -> bool {
        self.0.iter().any(|(_, one)| *one == drill)
    }

    /// The drills on both sides of a size; one of exactly that size counts as below.
    #[must_use]
    pub fn neighbours(&self, size: Length) -> Neighbours {
        let after = self.0.partition_point(|(mm, _)| *mm <= size.to_mm() + SAME_MM);
        Neighbours {
            below: after.checked_sub(1).map(|at| self.0[at].1),
            above: self.0.get(after).map(|(_, drill)| *drill),
        }
    }

    /// [`Self::neighbours`] among the drills of one family.
    #[must_use]
    pub fn neighbours_in(&self, family: Family, size: Length) -> Neighbours {
        let after = self.0.partition_point(|(mm, _)| *mm <= size.to_mm() + SAME_MM);
        let of_it = |(_, drill): &&(f64, Drill)| drill.family() == family;
        Neighbours {
            below: self.0[..after].iter().rev().find(of_it).map(|(_, drill)| *drill),
            above: self.0[after..].iter().find(of_it).map(|(_, drill)| *drill),
        }
    }

    /// The drills between two sizes, both included, from the thinnest.
    pub fn between(&self, least: Length, greatest: Length) -> impl Iterator<Item = Drill> + '_ {
        let from = self.0.partition_point(|(mm, _)| *mm < least.to_mm() - SAME_MM);
        let greatest = greatest.to_mm() + SAME_MM;
        self.0[from..].iter().take_while(move |(mm, _)| *mm <= greatest).map(|(_, drill)| *drill)
    }
}
