//! Exact numbers: ratios of whole numbers, as a shop's fractions and decimals are.
//!
//! Every operation that could leave the range gives nothing instead, so that a number is either
//! exact or not there.

use core::cmp::Ordering;

/// A ratio of two whole numbers in lowest terms; the lower one is above zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ratio {
    num: i128,
    den: i128,
}

/// Both parts of a ratio stay below this, so that two of them can be compared and added.
const BOUND: u128 = 1 << 126;

impl Ratio {
    /// Nothing.
    pub const ZERO: Self = Self { num: 0, den: 1 };
    /// One.
    pub const ONE: Self = Self { num: 1, den: 1 };

    /// The ratio of two whole numbers; nothing where the lower one is zero.
    #[must_use]
    pub fn new(num: i128, den: i128) -> Option<Self> {
        if den == 0 || num.unsigned_abs() >= BOUND || den.unsigned_abs() >= BOUND {
            return None;
        }
        let common = gcd(num.unsigned_abs(), den.unsigned_abs());
        // Both fit: they are below the bound, and the common part is at least one.
        let common = common as i128 * den.signum();
        Some(Self { num: num / common, den: den / common })
    }

    /// A ratio for a table of constants, where both numbers are small and the lower is above zero.
    #[must_use]
    pub const fn constant(num: i128, den: i128) -> Self {
        assert!(den > 0, "a constant has a denominator");
        let common = gcd(num.unsigned_abs(), den.unsigned_abs()) as i128;
        Self { num: num / common, den: den / common }
    }

    /// The product of two constants; the build stops where it cannot be kept.
    #[must_use]
    pub const fn by(self, other: Self) -> Self {
        Self::constant(self.num * other.num, self.den * other.den)
    }
    /// The quotient of two constants above zero; the build stops where it cannot be kept.
    #[must_use]
    pub const fn per(self, other: Self) -> Self {
        Self::constant(self.num * other.den, self.den * other.num)
    }

    /// A whole number.
    #[must_use]
    pub fn whole(number: i64) -> Self {
        Self { num: i128::from(number), den: 1 }
    }

    /// The number that a float stands for, to this many decimals; nothing where it is not finite
    /// or too large.
    #[must_use]
    pub fn rounded(value: f64, decimals: u32) -> Option<Self> {
        let den = 10_i128.checked_pow(decimals)?;
        let scaled = libm::round(value * den as f64);
        if scaled.abs() < 1e30 { Self::new(scaled as i128, den) } else { None }
    }

    /// The upper number.
    #[must_use]
    pub fn numerator(self) -> i128 {
        self.num
    }
    /// The lower number.
    #[must_use]
    pub fn denominator(self) -> i128 {
        self.den
    }

    /// The nearest float.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        self.num as f64 / self.den as f64
    }

    /// True for nothing.
    #[must_use]
    pub fn is_zero(self) -> bool {
        self.num == 0
    }
    /// True below zero.
    #[must_use]
    pub fn is_negative(self) -> bool {
        self.num < 0
    }
    /// True for a whole number.
    #[must_use]
    pub fn is_whole(self) -> bool {
        self.den == 1
    }
    /// Without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        Self { num: self.num.abs(), den: self.den }
    }
    /// With the other sign.
    #[must_use]
    pub fn negated(self) -> Self {
        Self { num: -self.num, den: self.den }
    }

    /// The sum, where it can be kept.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        let common = gcd(self.den.unsigned_abs(), other.den.unsigned_abs()) as i128;
        let (a, b) = (other.den / common, self.den / common);
        let num = self.num.checked_mul(a)?.checked_add(other.num.checked_mul(b)?)?;
        Self::new(num, self.den.checked_mul(a)?)
    }
    /// The difference, where it can be kept.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.negated())
    }
    /// The product, where it can be kept.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        // Across first, so that what can be kept is kept.
        let left = gcd(self.num.unsigned_abs(), other.den.unsigned_abs()).max(1) as i128;
        let right = gcd(other.num.unsigned_abs(), self.den.unsigned_abs()).max(1) as i128;
        Self::new(
            (self.num / left).checked_mul(other.num / right)?,
            (self.den / right).checked_mul(other.den / left)?,
        )
    }
    /// The quotient, where it can be kept and the other one is not zero.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        if other.is_zero() {
            return None;
        }
        let sign = other.num.signum();
        self.times(Self { num: other.den * sign, den: other.num.abs() })
    }

    /// The whole number not above it.
    #[must_use]
    pub fn floor(self) -> i128 {
        self.num.div_euclid(self.den)
    }
    /// The whole number not below it.
    #[must_use]
    pub fn ceil(self) -> i128 {
        -self.negated().floor()
    }
    /// The nearest whole number; a half goes away from zero.
    #[must_use]
    pub fn round(self) -> i128 {
        let below = self.abs().floor();
        let part = self.abs().num - below * self.den;
        (below + i128::from(part >= self.den - part)) * self.num.signum()
    }

    /// The nearest of the steps of a size, as a count of them; a half goes away from zero.
    #[must_use]
    pub fn steps_of(self, step: Self) -> Option<i128> {
        Some(self.over(step)?.round())
    }

    /// With this many decimals, rounded to the nearest.
    #[must_use]
    pub fn fixed(self, decimals: u32) -> String {
        let scale = 10_i128.pow(decimals.min(18));
        match self.times(Self { num: scale, den: 1 }) {
            Some(scaled) => decimal(scaled.round(), decimals.min(18)),
            None => super::rounding::fixed(self.to_f64(), decimals as usize),
        }
    }

    /// The decimal number that it is, without closing zeros; nothing where it is none with up to
    /// this many decimals.
    #[must_use]
    pub fn as_decimal(self, most: u32) -> Option<String> {
        let scaled = self.times(Self { num: 10_i128.checked_pow(most)?, den: 1 })?;
        if !scaled.is_whole() {
            return None;
        }
        let text = decimal(scaled.num, most);
        if !text.contains('.') {
            return Some(text);
        }
        Some(text.trim_end_matches('0').trim_end_matches('.').to_owned())
    }

    /// As a whole number and a proper fraction: `1 3/8`, `3/8`, `2`, `-1 3/8`.
    #[must_use]
    pub fn as_mixed(self) -> String {
        let sign = if self.num < 0 { "-" } else { "" };
        let (num, den) = (self.num.unsigned_abs(), self.den.unsigned_abs());
        match (num / den, num % den) {
            (whole, 0) => format!("{sign}{whole}"),
            (0, part) => format!("{sign}{part}/{den}"),
            (whole, part) => format!("{sign}{whole} {part}/{den}"),
        }
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Ratio {
    fn cmp(&self, other: &Self) -> Ordering {
        match (self.num.checked_mul(other.den), other.num.checked_mul(self.den)) {
            (Some(a), Some(b)) => a.cmp(&b),
            // Whole parts first, then what is left, turned over: as a continued fraction.
            _ => self.floor().cmp(&other.floor()).then_with(|| {
                let rest = |r: Self| (r.num.rem_euclid(r.den), r.den);
                match (rest(*self), rest(*other)) {
                    ((0, _), (0, _)) => Ordering::Equal,
                    ((0, _), _) => Ordering::Less,
                    (_, (0, _)) => Ordering::Greater,
                    ((a, b), (c, d)) => Self { num: d, den: c }.cmp(&Self { num: b, den: a }),
                }
            }),
        }
    }
}

const fn gcd(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        if a <= u64::MAX as u128 && b <= u64::MAX as u128 {
            // Most numbers of a shop are short, and a browser divides short ones far faster.
            let (mut x, mut y) = (a as u64, b as u64);
            while y != 0 {
                (x, y) = (y, x % y);
            }
            return x as u128;
        }
        (a, b) = (b, a % b);
    }
    a
}

/// A whole number with a point before its last digits.
fn decimal(scaled: i128, decimals: u32) -> String {
    if decimals == 0 {
        return scaled.to_string();
    }
    let sign = if scaled < 0 { "-" } else { "" };
    let (digits, width) = (scaled.unsigned_abs(), decimals as usize + 1);
    let text = format!("{digits:0width$}");
    let (whole, part) = text.split_at(text.len() - decimals as usize);
    format!("{sign}{whole}.{part}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(num: i128, den: i128) -> Ratio {
        Ratio::new(num, den).unwrap()
    }

    #[test]
    fn a_ratio_is_in_lowest_terms_with_its_sign_above() {
        assert_eq!(of(26, 64), Ratio { num: 13, den: 32 });
        assert_eq!(of(3, -6), Ratio { num: -1, den: 2 });
        assert_eq!(of(0, -6), Ratio { num: 0, den: 1 });
        assert_eq!(Ratio::new(1, 0), None);
    }

    #[test]
    fn sums_and_products_are_exact() {
        assert_eq!(of(1, 64).plus(of(1, 2)), Some(of(33, 64)));
        assert_eq!(of(1, 3).minus(of(1, 2)), Some(of(-1, 6)));
        assert_eq!(of(3, 16).times(of(2, 1)), Some(of(3, 8)));
        assert_eq!(of(3, 16).over(of(-3, 8)), Some(of(-1, 2)));
        assert_eq!(of(1, 1).over(Ratio::ZERO), None);
        let large = of(1 << 125, 1);
        assert_eq!(large.times(of(4, 1)), None);
        assert_eq!(large.times(of(1, 4)), Some(of(1 << 123, 1)));
    }

    #[test]
    fn a_half_rounds_away_from_zero() {
        for (ratio, nearest) in
            [(of(5, 2), 3), (of(-5, 2), -3), (of(7, 3), 2), (of(-7, 3), -2), (of(0, 1), 0)]
        {
            assert_eq!(ratio.round(), nearest, "{ratio:?}");
        }
        assert_eq!((of(-7, 3).floor(), of(-7, 3).ceil(), of(7, 3).ceil()), (-3, -2, 3));
    }

    #[test]
    fn the_larger_is_found_even_where_their_product_cannot_be_kept() {
        let a = of((1 << 125) + 1, 1 << 120);
        let b = of((1 << 125) + 3, 1 << 120);
        assert!(a < b);
        assert!(b > a);
        assert_eq!(a.cmp(&a), Ordering::Equal);
        assert!(of(-1, 3) < of(-1, 4));
    }

    #[test]
    fn it_prints_as_decimal_and_as_a_mixed_number() {
        assert_eq!(of(11, 8).fixed(4), "1.3750");
        assert_eq!(of(-1, 3).fixed(2), "-0.33");
        assert_eq!(of(-1, 3000).fixed(2), "0.00");
        assert_eq!(of(11, 8).as_decimal(6).as_deref(), Some("1.375"));
        assert_eq!(of(20, 1).as_decimal(6).as_deref(), Some("20"));
        assert_eq!(of(1, 3).as_decimal(6), None);
        assert_eq!(of(11, 8).as_mixed(), "1 3/8");
        assert_eq!(of(-3, 8).as_mixed(), "-3/8");
        assert_eq!(Ratio::ZERO.as_mixed(), "0");
    }
}
