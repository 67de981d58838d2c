//! Where a figure comes from, and how sure it is.

/// How sure a figure is, in one vocabulary for the whole program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sureness {
    /// A source prints it.
    Published,
    /// It follows from a formula or geometry that a standard or handbook gives.
    ComputedFromStandard,
    /// The trade does it so; no source is claimed.
    CommonPractice,
    /// A known source, not re-read.
    FromMemory,
    /// Arithmetic or geometry.
    ClosedForm,
}

impl Sureness {
    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::ComputedFromStandard => "computed from a standard",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
            Self::ClosedForm => "closed form",
        }
    }
}

/// One entry of the list of sources.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// The short tag that tables carry.
    pub tag: &'static str,
    /// What it is: standard with clause or table, handbook with table or page.
    pub text: &'static str,
    /// How sure a figure taken from it is.
    pub sureness: Sureness,
}

include!(concat!(env!("OUT_DIR"), "/sources.rs"));

/// The source with this tag.
///
/// # Panics
/// Never for a tag that stands in a table: the build refuses an unknown one.
#[must_use]
pub fn source(tag: &str) -> &'static Source {
    let at = SOURCES.binary_search_by(|s| s.tag.cmp(tag));
    at.map(|i| &SOURCES[i]).unwrap_or_else(|_| panic!("no source has the tag {tag}"))
}

/// The sources of a figure, from its tags with blanks or commas between.
///
/// # Panics
/// Never for the tags of a table, as [`source`].
#[must_use]
pub fn sources_of(tags: &str) -> Vec<&'static Source> {
    tags.split([',', ';', ' ']).filter(|t| !t.is_empty()).map(source).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_is_found_by_its_tag() {
        for s in SOURCES {
            assert_eq!(source(s.tag), s);
        }
    }

    #[test]
    fn tags_may_be_separated_by_blanks_or_commas() {
        let tags = |text| sources_of(text).iter().map(|s| s.tag).collect::<Vec<_>>();
        assert_eq!(tags("NAVY CP"), ["NAVY", "CP"]);
        assert_eq!(tags("KIENZLE, VDI;MH_POWER"), ["KIENZLE", "VDI", "MH_POWER"]);
        assert!(tags("").is_empty());
    }

    #[test]
    #[should_panic(expected = "no source has the tag NOWHERE")]
    fn an_unknown_tag_is_named() {
        let _ = source("NOWHERE");
    }
}
