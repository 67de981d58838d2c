//! Drills by name in a line, and the drills nearest to a size.

use std::sync::LazyLock;

use crate::engine::{
    drills::{Drill, Family, Index, Neighbours},
    quantity::{
        Length,
        entry::{NamedSizes, SizeName},
        ratio::Ratio,
    },
};

/// The drills that a length may be called by.
pub const NAMES: NamedSizes = NamedSizes {
    find: |name| {
        let drill = match name {
            SizeName::Number(number) => u8::try_from(number).ok().and_then(Drill::number),
            SizeName::Letter(letter) => Drill::letter(letter),
        };
        // Number and letter sizes are defined in ten-thousandths of an inch.
        drill.and_then(|drill| Ratio::rounded(drill.diameter().to_inch(), 4))
    },
    known: "Number drills run from #1 to #97, letter drills from A to Z.",
};

/// Every drill, sorted once.
static ALL: LazyLock<Index> = LazyLock::new(Index::every);

/// A drill beside a size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// The drill.
    pub drill: Drill,
    /// How much thicker it is than the size; below nothing where it is thinner.
    pub over: Length,
}

/// The drills on both sides of a size.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Around {
    /// The drill of exactly this size.
    pub exact: Option<Drill>,
    /// The thickest thinner one.
    pub below: Option<Near>,
    /// The thinnest thicker one.
    pub above: Option<Near>,
}

/// Two sizes closer than this are one: rounding of the last bits.
const SAME_MM: f64 = 1e-9;

/// The drills around a size among those of one family, or of all.
#[must_use]
pub fn around(size: Length, family: Option<Family>) -> Around {
    let neighbours = |size: Length| match family {
        Some(family) => ALL.neighbours_in(family, size),
        None => ALL.neighbours(size),
    };
    let near = |drill: Drill| Near { drill, over: drill.diameter() - size };
    let Neighbours { below, above } = neighbours(size);
    let exact = below.filter(|drill| near(*drill).over.abs() < Length::mm(SAME_MM));
    let below = match exact {
        None => below,
        Some(_) => neighbours(size - Length::mm(3.0 * SAME_MM)).below,
    };
    Around { exact, below: below.map(near), above: above.map(near) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{
        convert,
        quantity::{System, entry::Measure},
    };

    #[test]
    fn every_number_and_letter_drill_is_a_length_by_its_name() {
        let named = ALL.iter().filter(|d| matches!(d.family(), Family::Number | Family::Letter));
        for drill in named {
            for name in [drill.short_name(), drill.name()] {
                let line = convert::read(Measure::Length, &name, System::Metric);
                let mm = line.unwrap_or_else(|e| panic!("{name}: {e}")).exact.base.to_f64();
                assert!((mm - drill.diameter().to_mm()).abs() < 1e-12, "{name}: {mm}");
            }
        }
        let error = convert::read(Measure::Length, "#98", System::Inch).unwrap_err();
        assert_eq!(error.to_string(), format!("There is no drill #98. {}", NAMES.known));
        assert!(convert::read(Measure::Length, "#4294967297", System::Inch).is_err());
    }

    #[test]
    fn a_size_lies_between_two_drills_or_is_one() {
        let name = |near: Option<Near>| near.map(|near| near.drill.short_name());
        let quarter = around(Length::inch(0.25), Some(Family::Letter));
        assert_eq!(quarter.exact.map(Drill::short_name).as_deref(), Some("E"));
        assert_eq!(name(quarter.below).as_deref(), Some("D"));
        assert_eq!(name(quarter.above).as_deref(), Some("F"));

        let between = around(Length::inch(0.15), None);
        assert_eq!(between.exact, None);
        assert_eq!(name(between.below).as_deref(), Some("3.8 mm"));
        assert_eq!(name(between.above).as_deref(), Some("#24"));
        let over = between.above.unwrap().over.to_inch();
        assert!((over - 0.002).abs() < 1e-12, "{over}");

        assert_eq!(around(Length::inch(40.0), None).above, None);
        assert_eq!(around(Length::ZERO, None).below, None);
    }
}
