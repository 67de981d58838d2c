//! Hardness from one scale to another, by the tables of ASTM E140 for steel.
//!
//! The scales press different things into the metal; there is no formula between them, only
//! tables of steels that were tried on both. What comes out is approximate.

/// A scale of hardness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Scale {
    /// Rockwell C: a diamond cone, 150 kgf.
    Hrc,
    /// Rockwell B: a 1/16 in ball, 100 kgf.
    Hrb,
    /// Brinell: a 10 mm carbide ball, 3000 kgf.
    Hb,
    /// Vickers: a diamond pyramid.
    Hv,
    /// Rockwell A: a diamond cone, 60 kgf.
    Hra,
}

/// What is tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Metal {
    /// Carbon, alloy and tool steel, any but austenitic.
    Steel,
    /// Austenitic stainless steel.
    AusteniticSteel,
    /// Aluminium, copper alloys, cast iron and everything else.
    Other,
}

/// A row of a table: the same steel on several scales.
#[derive(Debug)]
pub struct Row {
    /// The scale the table goes by.
    pub scale: Scale,
    /// The number on it.
    pub number: f64,
    /// Vickers.
    pub hv: f64,
    /// Brinell, where it can be tested.
    pub hb: Option<f64>,
    /// Rockwell A, where the table gives it.
    pub hra: Option<f64>,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/hardness.rs"));

/// A number on another scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Converted {
    /// The number, not rounded.
    pub number: f64,
    /// Tags of the sources.
    pub source: &'static str,
}

/// Why a hardness cannot be converted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HardnessError {
    /// There is no table for the metal.
    Metal(Metal),
    /// The number lies outside of the tables; the least and the most on its scale.
    Outside {
        /// The scale of the number.
        scale: Scale,
        /// The least number of the tables.
        least: f64,
        /// The greatest.
        most: f64,
    },
    /// The tables have no number on the other scale for a steel this hard or soft.
    NoNumber(Scale),
}

impl core::fmt::Display for HardnessError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Metal(Metal::AusteniticSteel) => f.write_str(
                "The tables do not hold for austenitic stainless steel. Test it on the scale that \
                 is asked for.",
            ),
            Self::Metal(_) => f.write_str(
                "The tables hold for steel alone. Test this metal on the scale that is asked for.",
            ),
            Self::Outside { scale, least, most } => write!(
                f,
                "The tables go from {least} to {most} {name}. Type a number between them.",
                name = scale.name()
            ),
            Self::NoNumber(scale) => write!(
                f,
                "No {name} number stands beside this in the tables. Take another scale.",
                name = scale.name()
            ),
        }
    }
}

impl core::error::Error for HardnessError {}

impl Scale {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Hrc, Self::Hrb, Self::Hb, Self::Hv, Self::Hra];

    /// Its letters.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Hrc => "HRC",
            Self::Hrb => "HRB",
            Self::Hb => "HB",
            Self::Hv => "HV",
            Self::Hra => "HRA",
        }
    }

    /// The scale with these letters, in either case.
    #[must_use]
    pub fn called(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|scale| scale.name().eq_ignore_ascii_case(name))
    }

    /// Decimals that the tables give it with.
    #[must_use]
    pub fn decimals(self) -> usize {
        usize::from(self == Self::Hra)
    }

    fn of(self, row: &Row) -> Option<f64> {
        match self {
            Self::Hv => Some(row.hv),
            Self::Hb => row.hb,
            Self::Hra => row.hra,
            _ => (row.scale == self).then_some(row.number),
        }
    }
}

/// A hardness on another scale, interpolated between the rows of the tables.
///
/// # Errors
/// See [`HardnessError`].
pub fn convert(
    number: f64,
    from: Scale,
    to: Scale,
    metal: Metal,
) -> Result<Converted, HardnessError> {
    if metal != Metal::Steel {
        return Err(HardnessError::Metal(metal));
    }
    let outside = || {
        let of = |row| from.of(row);
        let numbers = || HARDNESS.iter().filter_map(of);
        let least = numbers().fold(f64::INFINITY, f64::min);
        let most = numbers().fold(0.0, f64::max);
        HardnessError::Outside { scale: from, least, most }
    };
    // The same table where it has both scales; else over Vickers, which both tables have.
    let tables = [Scale::Hrc, Scale::Hrb];
    let mut found = None;
    for table in tables {
        found = found.or_else(|| between(table, number, from, to));
    }
    if let Some(converted) = found {
        return Ok(converted);
    }
    let vickers = tables.into_iter().find_map(|table| between(table, number, from, Scale::Hv));
    let vickers = vickers.ok_or_else(outside)?;
    tables
        .into_iter()
        .find_map(|table| between(table, vickers.number, Scale::Hv, to))
        .ok_or(HardnessError::NoNumber(to))
}

/// Between two rows of a table that have both scales.
fn between(table: Scale, number: f64, from: Scale, to: Scale) -> Option<Converted> {
    let mut rows = HARDNESS
        .iter()
        .filter(|row| row.scale == table)
        .filter_map(|row| Some((from.of(row)?, to.of(row)?, row.source)));
    let mut above = rows.next()?;
    if above.0 == number {
        return Some(Converted { number: above.1, source: above.2 });
    }
    for below in rows {
        if (below.0..=above.0).contains(&number) {
            let share = (number - below.0) / (above.0 - below.0);
            let number = below.1 + share * (above.1 - below.1);
            return Some(Converted { number, source: below.2 });
        }
        above = below;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steel(number: f64, from: Scale, to: Scale) -> Result<f64, HardnessError> {
        convert(number, from, to, Metal::Steel).map(|converted| converted.number)
    }

    #[test]
    fn every_row_reads_back_on_every_scale_it_has() {
        for row in HARDNESS {
            for to in Scale::ALL {
                let Some(expected) = to.of(row) else { continue };
                assert_eq!(steel(row.number, row.scale, to), Ok(expected), "{row:?}");
                let back = steel(expected, to, row.scale).unwrap();
                assert!((back - row.number).abs() < 1e-9, "{row:?} {to:?}: {back}");
            }
        }
        assert_eq!(HARDNESS.iter().filter(|row| row.scale == Scale::Hrc).count(), 49);
    }

    #[test]
    fn harder_is_harder_on_every_scale() {
        for pair in HARDNESS.windows(2).filter(|pair| pair[0].scale == pair[1].scale) {
            for scale in Scale::ALL {
                if let (Some(a), Some(b)) = (scale.of(&pair[0]), scale.of(&pair[1])) {
                    assert!(a > b, "{pair:?}");
                }
            }
        }
    }

    #[test]
    fn between_two_rows_it_is_interpolated() {
        assert_eq!(steel(45.5, Scale::Hrc, Scale::Hv), Ok(452.0));
        assert_eq!(steel(20.0, Scale::Hrc, Scale::Hrb), Ok(99.0 + 2.0 / 3.0));
    }

    #[test]
    fn outside_of_the_tables_and_for_other_metals_it_is_refused() {
        for (number, from, to) in [
            (19.9, Scale::Hrc, Scale::Hv),
            (68.1, Scale::Hrc, Scale::Hv),
            (0.0, Scale::Hb, Scale::Hv),
            (f64::NAN, Scale::Hv, Scale::Hrc),
            (f64::INFINITY, Scale::Hv, Scale::Hrc),
            (100.1, Scale::Hrb, Scale::Hb),
        ] {
            assert!(
                matches!(steel(number, from, to), Err(HardnessError::Outside { scale, .. }) if scale == from),
                "{number} {from:?}"
            );
        }
        assert_eq!(steel(66.0, Scale::Hrc, Scale::Hb), Err(HardnessError::NoNumber(Scale::Hb)));
        assert_eq!(steel(60.0, Scale::Hrc, Scale::Hrb), Err(HardnessError::NoNumber(Scale::Hrb)));
        for metal in [Metal::AusteniticSteel, Metal::Other] {
            let error = convert(30.0, Scale::Hrc, Scale::Hv, metal).unwrap_err();
            assert!(error.to_string().ends_with('.'), "{error}");
        }
    }
}
