//! Finding a thread by what a person types or says: "1/4-20", "quarter twenty", "m6x.75",
//! "1/8 npt", "2ba", "m8 fine", "left hand m6".
//!
//! A text is read once into a [`Wanted`]: at most two numbers, the series it may mean and a hand.
//! The list of threads is then compared by numbers alone, so that a search as long as a word is
//! typed costs nothing that is felt.

use super::{Form, Hand, Pitch, Series, Size, Thread, all};
use crate::engine::{
    quantity::Length,
    question::{Field, InputError},
};

/// So many of the nearest are offered where nothing fits.
const OFFERED: usize = 5;

/// How well a thread fits what was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// It is what was typed.
    Named,
    /// What was typed is the beginning of it.
    Begun,
    /// Nothing fits, and it is among the nearest.
    Near,
}

/// A thread found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Match {
    /// The thread, with the hand that was typed.
    pub thread: Thread,
    /// How well it fits.
    pub how: How,
}

/// The threads that a text may mean, the likeliest first. Where nothing fits, the nearest; nothing
/// for a text without a number or a series.
#[must_use]
pub fn find(text: &str) -> Vec<Match> {
    let Some(wanted) = Wanted::read(text) else { return Vec::new() };
    let mut found: Vec<(How, usize, f64, Thread)> = Vec::new();
    for thread in all() {
        if let Some(how) = wanted.fits(thread) {
            // Within a series the coarser pitch is the likelier one.
            let pitch = if wanted.pitch.is_some() { 0.0 } else { -thread.pitch().to_mm() };
            let order = if wanted.size.is_some() { pitch } else { 0.0 };
            found.push((how, wanted.order(thread), order, thread));
        }
    }
    if found.is_empty() {
        found.extend(
            all()
                .filter(|thread| wanted.allows(*thread))
                .map(|thread| (How::Near, 0, wanted.distance(thread), thread))
                .filter(|(_, _, distance, _)| distance.is_finite()),
        );
    }
    found.sort_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2)));
    if found.first().is_some_and(|first| first.0 == How::Near) {
        found.truncate(OFFERED);
    }
    let hand = wanted.hand;
    found.into_iter().map(|(how, .., t)| Match { thread: t.with_hand(hand), how }).collect()
}

/// The one thread that a text names, in a standard's list or not.
///
/// # Errors
/// A sentence with the nearest threads, where the text names none or leaves the pitch open.
pub fn named(text: &str) -> Result<Thread, InputError> {
    let error = |problem: String, hint: String| Err(InputError::new(Field::Thread, problem, hint));
    let shown = text.trim();
    let Some(wanted) = Wanted::read(text) else {
        return error(
            if shown.is_empty() {
                "No thread is named.".to_owned()
            } else {
                format!("“{shown}” is not the name of a thread.")
            },
            "Write it like 1/4-20, 10-32, M6, M8x1, 1/8 NPT, G 1/4 or 2 BA.".to_owned(),
        );
    };
    let found = find(text);
    if let Some(first) = found.first().filter(|m| m.how == How::Named) {
        return Ok(first.thread);
    }
    if let Some(thread) = wanted.special() {
        return Ok(thread);
    }
    let names: Vec<_> = found.iter().take(3).map(|m| m.thread.designation()).collect();
    let names = names.join(", ");
    match found.first().map(|m| m.how) {
        Some(How::Begun) => error(
            format!("“{shown}” leaves the thread open."),
            format!("It may be {names}: write the pitch or the series too."),
        ),
        Some(_) => {
            error(format!("No thread is called “{shown}”."), format!("The nearest are {names}."))
        }
        None => error(
            format!("No thread is called “{shown}”."),
            "Write it like 1/4-20, 10-32, M6, M8x1, 1/8 NPT, G 1/4 or 2 BA.".to_owned(),
        ),
    }
}

/// How a number was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Written {
    Whole,
    Decimal,
    Fraction,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Number {
    value: f64,
    written: Written,
}

/// Series as a set of bits, in the order of [`Series::ALL`].
type Set = u16;

const fn set(series: &[Series]) -> Set {
    let mut set = 0;
    let mut i = 0;
    while i < series.len() {
        set |= 1 << series[i] as u16;
        i += 1;
    }
    set
}

const UNIFIED: Set = set(&[Series::Unc, Series::Unf, Series::Unef, Series::Un, Series::Uns]);
const METRIC: Set = set(&[Series::Metric, Series::MetricFine]);
const COARSE: Set = set(&[Series::Unc, Series::Metric, Series::Bsw]);
const FINE: Set = set(&[Series::Unf, Series::MetricFine, Series::Bsf]);
const EXTRA_FINE: Set = set(&[Series::Unef, Series::MetricFine]);
const PIPE: Set = set(&[Series::Npt, Series::G, Series::R]);
const WHITWORTH: Set = set(&[Series::Bsw, Series::Bsf, Series::Bsb, Series::Me]);

/// Words for series.
const SERIES_WORDS: &[(&str, Set)] = &[
    ("unc", set(&[Series::Unc])),
    ("nc", set(&[Series::Unc])),
    ("unf", set(&[Series::Unf])),
    ("nf", set(&[Series::Unf])),
    ("unef", set(&[Series::Unef])),
    ("nef", set(&[Series::Unef])),
    ("un", UNIFIED),
    ("uns", set(&[Series::Uns])),
    ("ns", set(&[Series::Uns])),
    ("unified", UNIFIED),
    ("coarse", COARSE),
    ("fine", FINE),
    ("npt", set(&[Series::Npt])),
    ("bsp", set(&[Series::G, Series::R])),
    ("gas", set(&[Series::G, Series::R])),
    ("bspp", set(&[Series::G])),
    ("g", set(&[Series::G])),
    ("parallel", set(&[Series::G])),
    ("bspt", set(&[Series::R])),
    ("r", set(&[Series::R])),
    ("rc", set(&[Series::R])),
    ("taper", set(&[Series::Npt, Series::R])),
    ("pipe", PIPE),
    ("bsw", set(&[Series::Bsw])),
    ("whit", set(&[Series::Bsw])),
    ("whitworth", set(&[Series::Bsw])),
    ("ww", set(&[Series::Bsw])),
    ("w", set(&[Series::Bsw])),
    ("bsf", set(&[Series::Bsf])),
    ("bsb", set(&[Series::Bsb])),
    ("brass", set(&[Series::Bsb])),
    ("ba", set(&[Series::Ba])),
    ("me", set(&[Series::Me])),
    ("model", set(&[Series::Me])),
    ("m", METRIC),
    ("mf", set(&[Series::MetricFine])),
    ("metric", METRIC),
    ("iso", METRIC),
];

/// Words that say nothing about which thread it is.
const IDLE: &[&str] = &[
    "a", "an", "and", "by", "x", "hand", "handed", "thread", "threads", "tap", "tapped", "hole",
    "screw", "bolt", "nut", "size", "per", "tpi", "pitch", "engineer", "british", "american",
    "the",
];

const ONES: &[&str] = &[
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: &[&str] = &["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty"];
const PARTS: &[(&str, u8)] = &[
    ("half", 2),
    ("halves", 2),
    ("quarter", 4),
    ("quarters", 4),
    ("fourth", 4),
    ("fourths", 4),
    ("eighth", 8),
    ("eighths", 8),
    ("sixteenth", 16),
    ("sixteenths", 16),
    ("second", 32),
    ("seconds", 32),
];

/// What a text asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Wanted {
    size: Option<Number>,
    pitch: Option<Number>,
    series: Set,
    /// The exact series of a Unified thread, where it was said.
    is_un: bool,
    hand: Hand,
    /// Said with #, no. or number: a numbered screw or British Association.
    numbered: bool,
    /// Said in inches.
    in_inches: bool,
}

impl Wanted {
    /// Reads a text; nothing where it has neither a number nor a series, or a word that is none.
    fn read(text: &str) -> Option<Self> {
        // Nobody writes a thread in more letters, and a pasted page is none.
        if text.len() > 80 {
            return None;
        }
        let mut reader = Reader::default();
        let lower = text.to_lowercase();
        let mut rest = without_class(lower.trim_end());
        while let Some(c) = rest.chars().next() {
            let end = |is: fn(char) -> bool| rest.find(|c| !is(c)).unwrap_or(rest.len());
            let is_point = matches!(c, '.' | ',');
            let digit_follows = is_point && rest[1..].starts_with(|c: char| c.is_ascii_digit());
            let taken = if c.is_ascii_digit() || digit_follows {
                let end = end(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/'));
                reader.number(&rest[..end])?;
                end
            } else if c.is_alphabetic() {
                let end = end(char::is_alphabetic);
                reader.word(&rest[..end])?;
                end
            } else {
                reader.sign(c)?;
                c.len_utf8()
            };
            rest = &rest[taken..];
        }
        reader.finish()
    }

    fn allows(&self, thread: Thread) -> bool {
        self.series == 0 || self.series & (1 << thread.series() as u16) != 0
    }

    /// Series in the order of a list; the one that was said before those it stands for as well.
    fn order(&self, thread: Thread) -> usize {
        if self.is_un && thread.series() == Series::Un { 0 } else { 1 + thread.series() as usize }
    }

    fn fits(&self, thread: Thread) -> Option<How> {
        if !self.allows(thread) {
            return None;
        }
        let Some(size) = self.size else { return (self.series != 0).then_some(How::Begun) };
        if !self.is_size(size, thread) {
            return None;
        }
        match self.pitch {
            // 1/8-27 may be a pipe thread, but a pipe thread is not called so.
            Some(pitch) if is_pitch(pitch, thread) => {
                let unsaid_pipe = self.series == 0 && PIPE & (1 << thread.series() as u16) != 0;
                Some(if unsaid_pipe { How::Begun } else { How::Named })
            }
            Some(pitch) => begins_pitch(pitch, thread).then_some(How::Begun),
            None if is_whole_name(thread) && self.names_series() => Some(How::Named),
            None => Some(How::Begun),
        }
    }

    /// True when so few series were said that a size alone names a thread.
    fn names_series(&self) -> bool {
        self.series.count_ones() == 1
            || self.series == METRIC
            || self.series == set(&[Series::G, Series::R])
    }

    fn is_size(&self, size: Number, thread: Thread) -> bool {
        let near = |x: f64, tolerance: f64| (x - size.value).abs() < tolerance;
        match thread.size {
            Size::Number(n) => match size.written {
                Written::Whole => near(f64::from(n), 1e-9) && !self.in_inches,
                Written::Decimal => near(thread.major().to_inch(), 0.0006),
                Written::Fraction => false,
            },
            Size::Ba(n) => size.written == Written::Whole && near(f64::from(n), 1e-9),
            Size::HundredthsMm(n) => {
                size.written != Written::Fraction
                    && near(f64::from(n) / 100.0, 1e-6)
                    && !self.numbered
                    && !self.in_inches
            }
            Size::SixtyFourths(n) => {
                let tolerance = if size.written == Written::Decimal { 0.0006 } else { 1e-6 };
                near(f64::from(n) / 64.0, tolerance) && !self.numbered
            }
        }
    }

    /// How far a thread lies from what was typed, in steps that a person would call alike.
    fn distance(&self, thread: Thread) -> f64 {
        let Some(size) = self.size else { return f64::INFINITY };
        let ratio = |a: f64, b: f64| libm::fabs(libm::log(a / b));
        // A pipe is called by its bore, everything else by its own diameter.
        let own = match thread.size {
            Size::SixtyFourths(n) => f64::from(n) / 64.0,
            _ => thread.major().to_inch(),
        };
        let by_number = match thread.size {
            Size::Number(n) | Size::Ba(n) if size.written == Written::Whole => {
                (f64::from(n) - size.value).abs() * 0.1
            }
            _ => f64::INFINITY,
        };
        let typed = if thread.series().is_metric() { size.value / 25.4 } else { size.value };
        let by_size = match thread.size {
            Size::Number(_) if size.written != Written::Decimal => f64::INFINITY,
            Size::Ba(_) => f64::INFINITY,
            Size::HundredthsMm(_) if size.written == Written::Fraction => f64::INFINITY,
            _ => ratio(own, typed),
        };
        let by_pitch = self.pitch.map_or(0.0, |pitch| {
            let typed =
                if thread.is_named_by_tpi() { 1.0 / pitch.value } else { pitch.value / 25.4 };
            ratio(thread.pitch().to_inch(), typed)
        });
        8.0 * by_size.min(by_number) + by_pitch
    }

    /// A thread that no list holds, but that is named in full: 13/32-28, M13x0.9.
    fn special(&self) -> Option<Thread> {
        let (size, pitch) = (self.size?, self.pitch?);
        let is_metric = self.series != 0 && self.series & !METRIC == 0;
        let thread = if is_metric {
            Thread::metric(Length::mm(size.value), Length::mm(pitch.value))
        } else if self.series != 0 && self.series & !WHITWORTH == 0 && self.series.count_ones() == 1
        {
            let series = Series::ALL[self.series.trailing_zeros() as usize];
            Thread::whitworth(series, Length::inch(size.value), pitch.value)
        } else if self.series == 0 || self.series & !UNIFIED == 0 {
            let series = match (self.series.count_ones(), self.is_un) {
                (_, true) => Series::Un,
                (1, _) => Series::ALL[self.series.trailing_zeros() as usize],
                _ => Series::Uns,
            };
            let numbered = size.written == Written::Whole
                && !self.in_inches
                && is_number(size.value, pitch.value);
            let diameter = if numbered {
                Length::inch(0.060 + 0.013 * size.value)
            } else {
                Length::inch(size.value)
            };
            Thread::unified(series, diameter, pitch.value)
        } else {
            None
        };
        thread.map(|thread| thread.with_hand(self.hand))
    }
}

/// Whether a whole number before a pitch is that of a numbered screw: 1 and 2 only with 48 threads
/// in an inch or finer, and none whose thread would take half of the screw: 3-16 is three inches.
pub(super) fn is_number(number: f64, tpi: f64) -> bool {
    match number {
        1.0 | 2.0 => tpi >= 48.0,
        _ => {
            let diameter = 0.060 + 0.013 * number;
            number <= 12.0 && Form::Iso.full_depth() / tpi < diameter / 2.0
        }
    }
}

/// Threads whose size names them in full: metric coarse, pipe, British by series.
fn is_whole_name(thread: Thread) -> bool {
    matches!(
        thread.series(),
        Series::Metric
            | Series::Npt
            | Series::G
            | Series::R
            | Series::Ba
            | Series::Bsw
            | Series::Bsf
            | Series::Bsb
            | Series::Unc
            | Series::Unf
            | Series::Unef
    )
}

fn is_pitch(pitch: Number, thread: Thread) -> bool {
    match thread.pitch {
        Pitch::HalfTpi(halves) => (f64::from(halves) / 2.0 - pitch.value).abs() < 1e-6,
        Pitch::Um(_) if thread.series() == Series::Ba => false,
        Pitch::Um(um) => (f64::from(um) / 1000.0 - pitch.value).abs() < 1e-6,
    }
}

/// Whether a pitch in threads to the inch is typed so far: 1/4-2 on the way to 1/4-20.
fn begins_pitch(pitch: Number, thread: Thread) -> bool {
    let tens = match thread.pitch {
        Pitch::HalfTpi(halves) => halves / 20,
        Pitch::Um(_) => 0,
    };
    tens > 0 && pitch.written == Written::Whole && f64::from(tens) == pitch.value
}

/// A text without the class that stands at its end: 1/4-20 UNC-2B, M6x1 6H.
fn without_class(text: &str) -> &str {
    const CLASSES: [&str; 11] = ["1a", "1b", "2a", "2b", "3a", "3b", "4h", "5h", "6h", "6g", "6e"];
    let class = CLASSES.iter().find_map(|class| text.strip_suffix(class));
    class.filter(|before| before.ends_with([' ', '-'])).unwrap_or(text)
}

/// Collects what a text says, piece by piece.
#[derive(Default)]
struct Reader {
    numbers: [Option<Number>; 4],
    count: usize,
    /// A number in words that may go on: "thirty" before "two".
    spoken: Option<f64>,
    /// The last number ended in a word: a fraction may take it as its numerator.
    may_be_numerator: bool,
    series: Set,
    is_un: bool,
    is_extra: bool,
    left: bool,
    numbered: bool,
    in_inches: bool,
    /// Nothing but a blank or a dash since the last number.
    adjoins: bool,
}

impl Reader {
    fn push(&mut self, value: f64, written: Written) -> Option<()> {
        let number = Number { value, written };
        // 1 1/8, 1-1/8: one number.
        if written == Written::Fraction
            && value < 1.0
            && self.adjoins
            && self.count > 0
            && self.series & METRIC == 0
            && let Some(last) = &mut self.numbers[self.count - 1]
            && last.written == Written::Whole
        {
            *last = Number { value: last.value + value, written };
            return Some(());
        }
        *self.numbers.get_mut(self.count)? = Some(number);
        self.count += 1;
        self.adjoins = true;
        Some(())
    }

    fn flush(&mut self) -> Option<()> {
        match self.spoken.take() {
            Some(value) => self.push(value, Written::Whole),
            None => Some(()),
        }
    }

    /// Digits with a point or comma, or a fraction.
    fn number(&mut self, text: &str) -> Option<()> {
        self.flush()?;
        let decimal = |text: &str| {
            let number: f64 = text.replace(',', ".").parse().ok()?;
            (number < 10_000.0).then_some(number)
        };
        let Some((over, under)) = text.split_once('/') else {
            let is_whole = text.bytes().all(|b| b.is_ascii_digit());
            let written = if is_whole { Written::Whole } else { Written::Decimal };
            return self.push(decimal(text)?, written);
        };
        let whole = |text: &str| text.parse::<u16>().ok().filter(|n| *n > 0);
        // Half a fraction is typed: 1/ on the way to 1/4.
        if under.is_empty() {
            return self.push(decimal(over)?, Written::Whole);
        }
        self.push(f64::from(whole(over)?) / f64::from(whole(under)?), Written::Fraction)
    }

    fn word(&mut self, word: &str) -> Option<()> {
        let ones = ONES.iter().position(|w| *w == word);
        let tens = TENS.iter().position(|w| *w == word);
        if let Some(one) = ones {
            let one = one as f64;
            if let Some(spoken) = self.spoken
                && spoken >= 20.0
                && spoken % 10.0 == 0.0
                && (1.0..10.0).contains(&one)
            {
                self.spoken = Some(spoken + one);
                return Some(());
            }
            self.flush()?;
            self.spoken = Some(one);
            self.may_be_numerator = true;
            return Some(());
        }
        if let Some(ten) = tens {
            self.flush()?;
            self.spoken = Some((ten as f64 + 2.0) * 10.0);
            return Some(());
        }
        if let Some((_, under)) = PARTS.iter().find(|(w, _)| *w == word) {
            return self.part(*under);
        }
        self.flush()?;
        self.may_be_numerator = false;
        match word {
            "lh" | "left" => self.left = true,
            "l" | "h" | "rh" | "right" => {}
            "extra" => self.is_extra = true,
            "no" | "number" | "num" => self.numbered = true,
            "in" | "inch" | "inches" => self.in_inches = true,
            "mm" => self.series |= METRIC,
            _ => return self.series_word(word),
        }
        Some(())
    }

    /// Halves, quarters, eighths ... of what was said before.
    fn part(&mut self, under: u8) -> Option<()> {
        let over = match (self.spoken.take(), under) {
            // "thirty seconds", "sixty fourths": the numerator stands before them.
            (Some(30.0), 32) => return self.long_part(32.0),
            (Some(60.0), 4) => return self.long_part(64.0),
            (over, _) => over.unwrap_or(1.0),
        };
        self.may_be_numerator = false;
        self.push(over / f64::from(under), Written::Fraction)
    }

    fn long_part(&mut self, under: f64) -> Option<()> {
        let last = self.count.checked_sub(1).and_then(|i| self.numbers[i]);
        let over = match last {
            Some(last) if self.may_be_numerator && last.written == Written::Whole => {
                self.count -= 1;
                last.value
            }
            _ => 1.0,
        };
        self.may_be_numerator = false;
        self.push(over / under, Written::Fraction)
    }

    fn series_word(&mut self, word: &str) -> Option<()> {
        if IDLE.contains(&word) {
            self.adjoins = word == "a" || word == "an" || word == "and";
            return Some(());
        }
        let (_, said) = SERIES_WORDS.iter().find(|(w, _)| *w == word)?;
        let said = if self.is_extra && word == "fine" { EXTRA_FINE } else { *said };
        self.is_un |= word == "un";
        self.adjoins = false;
        let both = self.series & said;
        // "m8 fine" narrows, "taper pipe" too; what does not meet is taken as said last.
        self.series = if self.series == 0 || both == 0 { said } else { both };
        Some(())
    }

    fn sign(&mut self, c: char) -> Option<()> {
        let fraction = match c {
            '½' => Some(0.5),
            '¼' => Some(0.25),
            '¾' => Some(0.75),
            '⅛' => Some(0.125),
            '⅜' => Some(0.375),
            '⅝' => Some(0.625),
            '⅞' => Some(0.875),
            _ => None,
        };
        if let Some(fraction) = fraction {
            self.flush()?;
            return self.push(fraction, Written::Fraction);
        }
        match c {
            '#' | '№' => self.numbered = true,
            '"' | '”' | '″' => self.in_inches = true,
            '×' | '*' => self.adjoins = false,
            ' ' | '.' | ',' | '-' | '–' | '—' | '_' | '(' | ')' | '\'' | '\u{a0}' => {}
            _ => return None,
        }
        Some(())
    }

    fn finish(mut self) -> Option<Wanted> {
        self.flush()?;
        let size = self.numbers[0].filter(|_| self.count > 0);
        let pitch = self.numbers[1].filter(|_| self.count > 1);
        let zero =
            |n: Option<Number>| n.is_some_and(|n| n.value <= 0.0 && n.written != Written::Whole);
        let wrong = self.count > 2 || zero(size) || pitch.is_some_and(|p| p.value <= 0.0);
        if wrong || (size.is_none() && self.series == 0) {
            return None;
        }
        let hand = if self.left { Hand::Left } else { Hand::Right };
        Some(Wanted {
            size,
            pitch,
            series: self.series,
            is_un: self.is_un,
            hand,
            numbered: self.numbered,
            in_inches: self.in_inches,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn first(text: &str) -> String {
        let found = find(text);
        found.first().map_or_else(|| "nothing".to_owned(), |m| m.thread.designation())
    }

    #[test]
    fn a_thread_is_found_however_it_is_written() {
        for (text, is) in [
            ("10-32", "10-32 UNF"),
            ("10 32", "10-32 UNF"),
            ("#10-32", "10-32 UNF"),
            ("no. 10 x 32", "10-32 UNF"),
            ("1/4-20", "1/4-20 UNC"),
            ("1/4 20", "1/4-20 UNC"),
            ("1/4\"-20", "1/4-20 UNC"),
            ("¼ 20", "1/4-20 UNC"),
            (".250-20", "1/4-20 UNC"),
            ("0.164-32", "8-32 UNC"),
            ("M6", "M6x1"),
            ("m6x1", "M6x1"),
            ("M6 × 1.0", "M6x1"),
            ("m6x.75", "M6x0.75"),
            ("m6x,75", "M6x0.75"),
            ("m 2.5", "M2.5x0.45"),
            ("1/8 npt", "1/8 NPT"),
            ("1/8-27 NPT", "1/8 NPT"),
            ("2BA", "2 BA"),
            ("2 ba", "2 BA"),
            ("g1/4", "G 1/4"),
            ("1/4 bsp", "G 1/4"),
            ("r 1/8", "R 1/8"),
            ("1/2 bspt", "R 1/2"),
            ("1/4 whit", "1/4-20 BSW"),
            ("1/4-20 BSW", "1/4-20 BSW"),
            ("#4-40", "4-40 UNC"),
            ("4-40 unc", "4-40 UNC"),
            ("5/16 fine", "5/16-24 UNF"),
            ("m8 fine", "M8x1"),
            ("1/4-20 lh", "1/4-20 UNC LH"),
            ("left hand m6", "M6x1 LH"),
            ("1 1/8-7", "1 1/8-7 UNC"),
            ("1-1/8-12", "1 1/8-12 UNF"),
            ("1-8", "1-8 UNC"),
            ("1-64", "1-64 UNC"),
            ("2-4.5", "2-4.5 UNC"),
            ("2-56", "2-56 UNC"),
            ("3/16-32 me", "3/16-32 ME"),
            ("1/4 extra fine", "1/4-32 UNEF"),
            ("1/4 coarse", "1/4-20 UNC"),
            ("1/2-26 brass", "1/2-26 BSB"),
            ("1 1/8-8 UN", "1 1/8-8 UN"),
            ("1/4-20 UNC-2B", "1/4-20 UNC"),
            ("M6x1 6H", "M6x1"),
        ] {
            assert_eq!(first(text), is, "{text}");
        }
    }

    #[test]
    fn a_thread_is_found_as_it_is_said() {
        for (text, is) in [
            ("quarter twenty", "1/4-20 UNC"),
            ("a quarter twenty eight", "1/4-28 UNF"),
            ("half thirteen", "1/2-13 UNC"),
            ("three eighths sixteen", "3/8-16 UNC"),
            ("five sixteenths eighteen", "5/16-18 UNC"),
            ("ten thirty two", "10-32 UNF"),
            ("ten twenty four", "10-24 UNC"),
            ("eight thirty-two", "8-32 UNC"),
            ("four forty", "4-40 UNC"),
            ("two fifty six", "2-56 UNC"),
            ("zero eighty", "0-80 UNF"),
            ("number six thirty two", "6-32 UNC"),
            ("m six", "M6x1"),
            ("m eight by one", "M8x1"),
            ("one and a quarter seven", "1 1/4-7 UNC"),
            ("one inch eight", "1-8 UNC"),
            ("three quarter ten", "3/4-10 UNC"),
            ("eighth npt", "1/8 NPT"),
            ("two ba", "2 BA"),
            ("seven thirty seconds bsf", "7/32-28 BSF"),
        ] {
            assert_eq!(first(text), is, "{text}");
        }
    }

    #[test]
    fn what_leaves_the_thread_open_lists_what_it_may_be() {
        let names: Vec<_> = find("10").iter().map(|m| m.thread.designation()).collect();
        for name in ["10-24 UNC", "10-32 UNF", "M10x1.5", "10 BA"] {
            assert!(names.iter().any(|n| n == name), "{names:?}");
        }
        assert!(find("10").iter().all(|m| m.how == How::Begun));
        assert!(find("1/4-2").iter().any(|m| m.thread.designation() == "1/4-20 UNC"));
        assert_eq!(find("bsf").len(), all().filter(|t| t.series() == Series::Bsf).count());
        assert!(named("1/4").unwrap_err().hint.contains("1/4-20 UNC"));
    }

    #[test]
    fn a_name_that_no_thread_has_is_answered_with_the_nearest() {
        let special = named("1/4-19").expect("any half number of threads can be cut");
        assert_eq!(special.designation(), "1/4-19 UNS");
        let found = find("1/4-21");
        assert_eq!((found[0].how, found[0].thread.designation()), (How::Near, "1/4-20 UNC".into()));
        assert!(find("1/4-19").iter().any(|m| m.thread.designation() == "G 1/4"));
        let error = named("21 BA").unwrap_err();
        assert!(error.problem.contains("21 BA") && error.hint.contains("16 BA"), "{error}");
        let error = named("5/7 npt").unwrap_err();
        assert!(error.hint.contains("3/4 NPT"), "{error}");
        for text in ["", "  ", "hello", "1/0", "1/4-0", "m6x0", "1/4-20-3-4", "💥", "m-"] {
            assert!(find(text).iter().all(|m| m.how != How::Named), "{text}");
            let error = named(text).unwrap_err();
            assert!(error.field == Field::Thread && error.hint.ends_with('.'), "{text}: {error}");
        }
        assert!(named(&"9".repeat(5000)).is_err());
    }

    #[test]
    fn threads_beyond_the_lists_are_built_from_their_name() {
        for (text, is) in [
            ("2 1/2-8 UN", "2 1/2-8 UN"),
            ("13/32-28", "13/32-28 UNS"),
            ("M13x0.75", "M13x0.75"),
            ("11-32", "11-32 UNS"),
            ("3-4 UNC", "3-4 UNC"),
            ("3-16 UN", "3-16 UN"),
            ("4.0-20 UN", "4\"-20 UN"),
            ("4-20 UN", "4-20 UN"),
            ("5/8-20 BSF", "5/8-20 BSF"),
        ] {
            assert_eq!(named(text).expect(text).designation(), is);
        }
        for text in ["M1x2", "1/4-2 UNC", "0.3-20", "M6x30"] {
            assert!(named(text).is_err(), "{text}");
        }
    }

    #[test]
    fn every_thread_is_found_first_by_its_own_name() {
        for thread in all() {
            let name = thread.designation();
            let found = find(&name);
            let first = found.first().expect(&name);
            assert_eq!((first.how, first.thread), (How::Named, thread), "{name}");
            let left = thread.with_hand(Hand::Left);
            assert_eq!(named(&left.designation()), Ok(left), "{name}");
        }
    }
}
