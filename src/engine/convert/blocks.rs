//! A stack of gauge blocks or parallels for a height: the fewest pieces of an owned set.

use crate::engine::quantity::ratio::Ratio;

/// A set of pieces as it is sold.
#[derive(Debug)]
pub struct Set {
    /// The name a link and a saved shop know it by.
    pub id: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// Its series: the first piece, the step and how many, in `unit`.
    pub series: &'static [(Ratio, Ratio, i128)],
    /// The unit of its pieces, in millimetres.
    pub unit: Ratio,
    /// Where its pieces are listed.
    pub source: &'static str,
}

const fn of(num: i128, den: i128) -> Ratio {
    Ratio::constant(num, den)
}
const INCH: Ratio = of(254, 10);
const NO_STEP: Ratio = Ratio::ZERO;

/// The sets that a home shop meets, pieces by common practice.
pub const SETS: &[Set] = &[
    Set {
        id: "inch_81",
        name: "81 gauge blocks, inch",
        series: &[
            (of(1001, 10_000), of(1, 10_000), 9),
            (of(101, 1000), of(1, 1000), 49),
            (of(50, 1000), of(50, 1000), 19),
            (of(1, 1), of(1, 1), 4),
        ],
        unit: INCH,
        source: "BLOCKS_CP",
    },
    Set {
        id: "inch_36",
        name: "36 gauge blocks or space blocks, inch",
        series: &[
            (of(50, 1000), NO_STEP, 1),
            (of(1001, 10_000), of(1, 10_000), 9),
            (of(101, 1000), of(1, 1000), 9),
            (of(110, 1000), of(10, 1000), 9),
            (of(1, 10), of(1, 10), 5),
            (of(1, 1), of(1, 1), 2),
            (of(4, 1), NO_STEP, 1),
        ],
        unit: INCH,
        source: "BLOCKS_CP",
    },
    Set {
        id: "metric_87",
        name: "87 gauge blocks, metric",
        series: &[
            (of(1001, 1000), of(1, 1000), 9),
            (of(101, 100), of(1, 100), 49),
            (of(1, 2), of(1, 2), 19),
            (of(10, 1), of(10, 1), 10),
        ],
        unit: of(1, 1),
        source: "BLOCKS_CP",
    },
    Set {
        id: "metric_47",
        name: "47 gauge blocks, metric",
        series: &[
            (of(1005, 1000), NO_STEP, 1),
            (of(101, 100), of(1, 100), 9),
            (of(11, 10), of(1, 10), 9),
            (of(1, 1), of(1, 1), 24),
            (of(25, 1), of(25, 1), 4),
        ],
        unit: of(1, 1),
        source: "BLOCKS_CP",
    },
    Set {
        id: "parallels",
        name: "10 parallels, 1/2 to 1 5/8 in",
        series: &[(of(1, 2), of(1, 8), 10)],
        unit: INCH,
        source: "BLOCKS_CP",
    },
];

impl Set {
    /// The set of this name.
    #[must_use]
    pub fn called(id: &str) -> Option<&'static Self> {
        SETS.iter().find(|set| set.id == id)
    }

    /// Its pieces in millimetres.
    #[must_use]
    pub fn pieces(&self) -> Vec<Ratio> {
        let piece = |first: Ratio, step: Ratio, n| {
            first.plus(step.times(Ratio::new(n, 1)?)?)?.times(self.unit)
        };
        self.series
            .iter()
            .flat_map(|&(first, step, count)| (0..count).filter_map(move |n| piece(first, step, n)))
            .collect()
    }
}

/// Pieces put one on the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stack {
    /// The pieces in millimetres, largest first.
    pub pieces: Vec<Ratio>,
    /// How much the stack is over the height, in millimetres; below zero where it is under.
    pub over: Ratio,
}

/// Why there is no stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StackError {
    /// The height is not above nothing.
    NoHeight,
    /// There is no piece, or one that is not above nothing.
    NoPieces,
    /// The height is more than all pieces together.
    TooHigh,
    /// The height and the pieces have no common step coarse enough to be searched.
    TooFine,
}

impl core::fmt::Display for StackError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::NoHeight => "A stack is higher than nothing. Type a height above 0.",
            Self::NoPieces => "There is no piece to stack. Type their heights.",
            Self::TooHigh => "All the pieces together are lower than this. Choose another set.",
            Self::TooFine => {
                "The pieces have no common step that can be searched. Type them with fewer digits."
            }
        })
    }
}

impl core::error::Error for StackError {}

/// The table of the search holds a mark for every piece and every step up to the height.
const MOST_MARKS: usize = 16 << 20;

/// The stack nearest to a height, of those the one with the fewest pieces, no piece twice. Heights
/// are in millimetres.
///
/// # Errors
/// See [`StackError`].
pub fn stack(height: Ratio, pieces: &[Ratio]) -> Result<Stack, StackError> {
    if height <= Ratio::ZERO {
        return Err(StackError::NoHeight);
    }
    if pieces.is_empty() || pieces.iter().any(|piece| *piece <= Ratio::ZERO) {
        return Err(StackError::NoPieces);
    }
    let step = common_step(pieces).ok_or(StackError::TooFine)?;
    let count = |size: Ratio| {
        usize::try_from(size.over(step)?.floor()).ok().filter(|count| *count < MOST_MARKS)
    };
    let mut sizes = Vec::with_capacity(pieces.len());
    for piece in pieces {
        sizes.push((count(*piece).ok_or(StackError::TooFine)?, *piece));
    }
    sizes.sort_unstable_by_key(|(size, _)| core::cmp::Reverse(*size));
    let total: usize = sizes.iter().map(|(size, _)| size).sum();
    let wanted = count(height).ok_or(StackError::TooHigh)?;
    if wanted > total {
        return Err(StackError::TooHigh);
    }
    // The nearest stack above may be as much as the smallest piece higher.
    let smallest = sizes.last().map_or(0, |(size, _)| *size);
    let top = (wanted + 1 + smallest).min(total);
    if (top + 1).saturating_mul(sizes.len()) > MOST_MARKS {
        return Err(StackError::TooFine);
    }
    let found = Fewest::search(&sizes, top);
    let below = (1..=wanted).rev().find(|&sum| found.reaches(sum));
    let above = (wanted + 1..=top).find(|&sum| found.reaches(sum));
    let over = |sum: usize| {
        let high = Ratio::new(sum as i128, 1).and_then(|sum| sum.times(step));
        high.and_then(|high| high.minus(height)).ok_or(StackError::TooFine)
    };
    let mut best: Option<(usize, Ratio)> = None;
    for sum in [below, above].into_iter().flatten() {
        let over = over(sum)?;
        if best.is_none_or(|(_, least)| over.abs() < least.abs()) {
            best = Some((sum, over));
        }
    }
    let (sum, over) = best.ok_or(StackError::TooHigh)?;
    Ok(Stack { pieces: found.pieces_of(&sizes, sum), over })
}

/// The largest step that every piece is a whole number of.
fn common_step(pieces: &[Ratio]) -> Option<Ratio> {
    let mut step = Ratio::ZERO;
    for piece in pieces {
        let (mut a, mut b) = (*piece, step);
        while !b.is_zero() {
            let times = Ratio::new(a.over(b)?.floor(), 1)?;
            (a, b) = (b, a.minus(times.times(b)?)?);
        }
        step = a;
    }
    Some(step)
}

/// The fewest pieces for every height, found piece by piece, largest first.
struct Fewest {
    /// For every sum, how many pieces make it at least.
    least: Vec<u8>,
    /// For every piece and sum, whether the piece is in the best stack of it and those before.
    taken: Vec<bool>,
    width: usize,
}

const NEVER: u8 = u8::MAX;

impl Fewest {
    fn search(sizes: &[(usize, Ratio)], top: usize) -> Self {
        let width = top + 1;
        let mut least = vec![NEVER; width];
        least[0] = 0;
        let mut taken = vec![false; width * sizes.len()];
        for (&(size, _), row) in sizes.iter().zip(taken.chunks_mut(width)) {
            for sum in (size..width).rev() {
                let with = least[sum - size].saturating_add(1);
                if with < least[sum] {
                    least[sum] = with;
                    row[sum] = true;
                }
            }
        }
        Self { least, taken, width }
    }

    fn reaches(&self, sum: usize) -> bool {
        self.least[sum] != NEVER
    }

    fn pieces_of(&self, sizes: &[(usize, Ratio)], mut sum: usize) -> Vec<Ratio> {
        let mut pieces = Vec::new();
        for (&(size, piece), row) in sizes.iter().zip(self.taken.chunks(self.width)).rev() {
            if row[sum] {
                pieces.push(piece);
                sum -= size;
            }
        }
        pieces.reverse();
        pieces
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(pieces: &[Ratio]) -> Vec<String> {
        let inch = |piece: &Ratio| piece.over(INCH).unwrap().as_decimal(4).unwrap();
        pieces.iter().map(inch).collect()
    }

    fn inch(num: i128) -> Ratio {
        of(num, 10_000).times(INCH).unwrap()
    }

    #[test]
    fn the_sets_have_as_many_pieces_as_their_names_say() {
        for set in SETS {
            let said: usize = set.name.split(' ').next().unwrap().parse().unwrap();
            assert_eq!(set.pieces().len(), said, "{}", set.name);
            assert_eq!(crate::engine::source::source(set.source).tag, set.source);
        }
    }

    #[test]
    fn a_height_takes_the_fewest_pieces() {
        let set = Set::called("inch_81").unwrap().pieces();
        for (height, pieces) in [
            (10_000, &["1"][..]),
            (13_750, &["1", "0.25", "0.125"]),
            (13_437, &["1", "0.2", "0.1437"]),
            (23_456, &["2", "0.1", "0.1306", "0.115"]),
        ] {
            let stack = stack(inch(height), &set).unwrap();
            assert!(stack.over.is_zero());
            assert!(stack.pieces.len() <= pieces.len().max(4), "{:?}", inches(&stack.pieces));
            let sum = stack.pieces.iter().fold(Ratio::ZERO, |sum, p| sum.plus(*p).unwrap());
            assert_eq!(sum, inch(height));
            let mut once = stack.pieces.clone();
            once.dedup();
            assert_eq!(once, stack.pieces, "no piece twice");
        }
        let set = Set::called("parallels").unwrap().pieces();
        assert_eq!(inches(&stack(inch(12_500), &set).unwrap().pieces), ["1.25"]);
        assert_eq!(inches(&stack(inch(31_250), &set).unwrap().pieces).len(), 2);
    }

    #[test]
    fn a_height_between_the_steps_says_how_far_the_stack_is() {
        let set = Set::called("inch_36").unwrap().pieces();
        let ten = stack(Ratio::whole(10), &set).unwrap();
        // 10 mm is 0.393 701 in.
        assert_eq!(ten.over, inch(3937).minus(Ratio::whole(10)).unwrap());
        let set = Set::called("parallels").unwrap().pieces();
        let near = stack(inch(13_437), &set).unwrap();
        assert_eq!((inches(&near.pieces), near.over), (vec!["1.375".to_owned()], inch(313)));
        let set = Set::called("inch_36").unwrap().pieces();
        let low = stack(inch(600), &set).unwrap();
        assert_eq!((inches(&low.pieces), low.over), (vec!["0.05".to_owned()], inch(-100)));
    }

    #[test]
    fn what_cannot_be_stacked_is_said() {
        let set = [inch(5000), inch(6250)];
        assert_eq!(stack(Ratio::ZERO, &set), Err(StackError::NoHeight));
        assert_eq!(stack(inch(1), &[]), Err(StackError::NoPieces));
        assert_eq!(stack(inch(20_000), &set), Err(StackError::TooHigh));
        let odd = [of(999_983, 1_000_003), of(1_000_000_007, 1_000_000_009)];
        assert_eq!(stack(Ratio::ONE, &odd), Err(StackError::TooFine));
    }
}
