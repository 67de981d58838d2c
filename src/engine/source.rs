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
    SOURCES.iter().find(|s| s.tag == tag).expect("tags are checked when the tables are built")
}
