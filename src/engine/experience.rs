//! A person's own experience with a cut: what was felt at earlier ones, as a bounded factor.
//!
//! Every cut that was noted asks for a factor on the speed and one on the feed, times the factor it
//! was made with; the mean of the last ones counts. So a speed that was lowered until the cut was
//! fine stays where it was fine.

/// Source of what a feeling asks for, and of the bounds.
pub const SOURCE: &str = "EXPERIENCE_CP";

/// Fewer cuts say nothing.
pub const LEAST: usize = 3;
/// So many of the last cuts count.
pub const COUNTED: usize = 12;
/// The speed is at least halved and never raised.
const SPEED: (f64, f64) = (0.5, 1.0);
/// The feed is at least halved, and raised inside the range of the table only.
const FEED: (f64, f64) = (0.5, 1.2);

/// How a cut was felt, heard and seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Felt {
    /// Smoke, blue chips, a hot cutter.
    TooHot,
    /// It sang or hammered.
    Chatter,
    /// Nothing to complain of.
    Fine,
    /// The hand could have gone faster.
    CouldPush,
}

impl Felt {
    /// What it asks for: a factor on the speed and one on the feed. Common practice, `EXPERIENCE_CP`.
    #[must_use]
    pub fn asks(self) -> (f64, f64) {
        match self {
            Self::TooHot => (0.75, 1.0),
            Self::Chatter => (0.85, 0.85),
            Self::Fine => (1.0, 1.0),
            Self::CouldPush => (1.0, 1.15),
        }
    }
}

/// One cut that was noted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Noted {
    /// How it was.
    pub felt: Felt,
    /// Factor on the speed that it was made with.
    pub speed: f64,
    /// Factor on the feed that it was made with.
    pub feed: f64,
}

/// The factors that earlier cuts come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Experience {
    /// On the surface speed of the tables, 0.5 to 1.
    pub speed: f64,
    /// On the feed that is aimed at, 0.5 to 1.2.
    pub feed: f64,
    /// How many cuts it comes from.
    pub cuts: u32,
}

impl Default for Experience {
    fn default() -> Self {
        Self::NONE
    }
}

impl Experience {
    /// No experience: the tables alone.
    pub const NONE: Self = Self { speed: 1.0, feed: 1.0, cuts: 0 };

    /// What cuts with the same machine, stock and cutter come to, the last one first. Fewer than
    /// [`LEAST`] come to nothing. A factor that is no number counts as 1.
    #[must_use]
    pub fn of(noted: &[Noted]) -> Self {
        let last = &noted[..noted.len().min(COUNTED)];
        if last.len() < LEAST {
            return Self::NONE;
        }
        let mean = |bounds: (f64, f64), part: fn(&Noted) -> f64| {
            let sum: f64 = last.iter().map(part).map(|f| bounded(f, bounds)).sum();
            bounded(sum / last.len() as f64, bounds)
        };
        Self {
            speed: mean(SPEED, |noted| noted.speed * noted.felt.asks().0),
            feed: mean(FEED, |noted| noted.feed * noted.felt.asks().1),
            cuts: last.len() as u32,
        }
    }

    /// True where it changes nothing.
    #[must_use]
    pub fn is_none(&self) -> bool {
        (self.speed - 1.0).abs() < 1e-9 && (self.feed - 1.0).abs() < 1e-9
    }

    /// The same, inside its bounds whatever it came from.
    #[must_use]
    pub(in crate::engine) fn bounded(self) -> Self {
        Self { speed: bounded(self.speed, SPEED), feed: bounded(self.feed, FEED), ..self }
    }
}

fn bounded(factor: f64, (least, most): (f64, f64)) -> f64 {
    if factor.is_finite() { factor.clamp(least, most) } else { 1.0 }
}
