//! Sets of taps as they are sold.

use super::{Thread, named};

/// A set of taps. The pieces in each are common practice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TapSet {
    /// 4-40 to 1/2-13.
    InchCoarse,
    /// 10-32 to 1/2-20.
    InchFine,
    /// M3 to M12.
    MetricCoarse,
    /// M8x1 to M12x1.25.
    MetricFine,
}

impl TapSet {
    /// All of them.
    pub const ALL: [Self; 4] =
        [Self::InchCoarse, Self::InchFine, Self::MetricCoarse, Self::MetricFine];

    /// What is in it, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::InchCoarse => "Inch coarse, 4-40 to 1/2-13",
            Self::InchFine => "Inch fine, 10-32 to 1/2-20",
            Self::MetricCoarse => "Metric coarse, M3 to M12",
            Self::MetricFine => "Metric fine, M8x1 to M12x1.25",
        }
    }

    /// The threads in it, from the smallest.
    #[must_use]
    pub fn threads(self) -> Vec<Thread> {
        let names: &[&str] = match self {
            Self::InchCoarse => &[
                "4-40", "6-32", "8-32", "10-24", "1/4-20", "5/16-18", "3/8-16", "7/16-14", "1/2-13",
            ],
            Self::InchFine => &["10-32", "1/4-28", "5/16-24", "3/8-24", "7/16-20", "1/2-20"],
            Self::MetricCoarse => {
                &["M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75"]
            }
            Self::MetricFine => &["M8x1", "M10x1", "M10x1.25", "M12x1.25"],
        };
        names.iter().filter_map(|name| named(name).ok()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tap_of_a_set_is_a_listed_thread_and_they_grow() {
        for (set, count) in TapSet::ALL.into_iter().zip([9, 6, 7, 4]) {
            let threads = set.threads();
            assert_eq!(threads.len(), count, "{set:?}");
            for pair in threads.windows(2) {
                assert!(pair[0].major() <= pair[1].major(), "{set:?}");
                assert_ne!(pair[0], pair[1], "{set:?}");
            }
            assert!(threads.iter().all(|thread| thread.standard().is_some()), "{set:?}");
        }
    }
}
