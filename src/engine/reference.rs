//! The reference seam: a check row becomes a call of the public function that the screens use.
//!
//! A row asks one question and holds the answer that a source gives. Nothing here computes: a
//! topic reads its keys in their units, calls one function, and gives back what came out.

mod convert;
mod cutting;
mod drilling;
mod holes;
mod keys;
mod plan;
mod setup;
mod threads;
mod units;

use keys::{Keys, Refusal};
use units::Got;

/// The columns of a file of check rows, in their order.
pub const COLUMNS: [&str; 8] =
    ["id", "topic", "inputs", "expected", "unit", "tolerance", "source", "basis"];

/// To spare in every comparison, so that a value on the edge of its tolerance holds.
const SPARE: f64 = 1e-9;

type Topic = (&'static str, fn(&Keys) -> Result<Got, Refusal>);

const SUBJECTS: [&[Topic]; 7] = [
    convert::TOPICS,
    cutting::TOPICS,
    drilling::TOPICS,
    holes::TOPICS,
    plan::TOPICS,
    setup::TOPICS,
    threads::TOPICS,
];

/// One question to the engine and the answer a source gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Unique name.
    pub id: String,
    /// Which function is asked.
    pub topic: String,
    /// `key=value` pairs joined by `;`, the unit at the end of each key.
    pub inputs: String,
    /// The answer of the source, a number or a word.
    pub expected: String,
    /// Unit of the answer.
    pub unit: String,
    /// `abs:x` in the unit, `rel:x` as a fraction of the answer, or `exact`.
    pub tolerance: String,
    /// Where the answer comes from.
    pub source: String,
    /// How sure it is.
    pub basis: String,
}

/// What the engine answered, in the unit of the row.
#[derive(Clone, Debug, PartialEq)]
pub enum Answered {
    /// A number.
    Number(f64),
    /// A word.
    Word(String),
}

impl core::fmt::Display for Answered {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Number(number) => write!(f, "{number}"),
            Self::Word(word) => f.write_str(word),
        }
    }
}

/// What became of a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// The engine agrees with the source.
    Holds(Answered),
    /// It does not.
    Off(Answered),
    /// The row could not be asked; a sentence says why.
    Refused(String),
}

/// The rows of a file, or nothing when its first line is not exactly the eight [`COLUMNS`].
pub fn rows(text: &str) -> Option<impl Iterator<Item = Result<Row, String>>> {
    let mut lines = text.trim_start_matches('\u{feff}').lines();
    let header = fields(lines.next()?).ok()?;
    (header == COLUMNS).then(|| lines.filter(|line| !line.trim().is_empty()).map(parse_row))
}

/// Reads one line of a file of rows.
///
/// # Errors
/// A sentence when a quote stays open or the fields are not eight.
pub fn parse_row(line: &str) -> Result<Row, String> {
    let fields = fields(line)?;
    let count = fields.len();
    let Ok([id, topic, inputs, expected, unit, tolerance, source, basis]) =
        <[String; 8]>::try_from(fields)
    else {
        return Err(format!("A row has eight fields, this one has {count}: {line}"));
    };
    Ok(Row { id, topic, inputs, expected, unit, tolerance, source, basis })
}

/// Asks the engine a row's question and compares.
#[must_use]
pub fn check(row: &Row) -> Outcome {
    match answer(row).and_then(|got| Ok((holds(row, &got)?, got))) {
        Ok((true, got)) => Outcome::Holds(got),
        Ok((false, got)) => Outcome::Off(got),
        Err(Refusal(why)) => Outcome::Refused(why),
    }
}

fn answer(row: &Row) -> Result<Answered, Refusal> {
    let (_, ask) = SUBJECTS
        .iter()
        .flat_map(|topics| topics.iter())
        .find(|(name, _)| *name == row.topic)
        .ok_or_else(|| Refusal(format!("The topic {} is not known.", row.topic)))?;
    let keys = Keys::new(&row.inputs)?;
    let got = ask(&keys)?;
    keys.all_read(&row.topic)?;
    got.in_unit(&row.unit)
}

/// Whether an answer lies within the tolerance of the expected one.
fn holds(row: &Row, got: &Answered) -> Result<bool, Refusal> {
    let got = match got {
        Answered::Number(number) => *number,
        Answered::Word(word) => return Ok(row.tolerance == "exact" && *word == row.expected),
    };
    let expected = keys::number("expected value", &row.expected)?;
    let allowed = match row.tolerance.split_once(':') {
        Some(("abs", x)) => keys::number("tolerance", x)?,
        Some(("rel", x)) => keys::number("tolerance", x)? * expected.abs(),
        None if row.tolerance == "exact" => 0.0,
        _ => {
            return Err(Refusal(format!(
                "The tolerance {} is none of abs:x, rel:x and exact.",
                row.tolerance
            )));
        }
    };
    Ok((got - expected).abs() <= allowed + SPARE)
}

/// Splits a line at its commas; a field in quotes may hold commas, and a doubled quote is one.
fn fields(line: &str) -> Result<Vec<String>, String> {
    let mut fields = vec![String::new()];
    let mut quoted = false;
    let mut chars = line.trim_end_matches('\r').chars().peekable();
    while let Some(c) = chars.next() {
        let field = fields.last_mut().expect("there is always a field begun");
        match c {
            '"' if quoted && chars.next_if_eq(&'"').is_some() => field.push('"'),
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(String::new()),
            c => field.push(c),
        }
    }
    if quoted { Err(format!("A quote stays open: {line}")) } else { Ok(fields) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(topic: &str, inputs: &str, expected: &str, unit: &str, tolerance: &str) -> Row {
        let own = str::to_owned;
        Row {
            id: own("T1"),
            topic: own(topic),
            inputs: own(inputs),
            expected: own(expected),
            unit: own(unit),
            tolerance: own(tolerance),
            source: own("geometry"),
            basis: own("closed-form"),
        }
    }

    fn refusal(topic: &str, inputs: &str, unit: &str) -> String {
        match check(&row(topic, inputs, "1", unit, "rel:1")) {
            Outcome::Refused(why) => why,
            other => panic!("{topic} {inputs}: {other:?}"),
        }
    }

    #[test]
    fn a_quoted_field_holds_commas_and_quotes() {
        let row = parse_row("A1,t,a=1,2,in,abs:1,\"a book, \"\"ch. 8\"\"\",published\r").unwrap();
        assert_eq!(row.source, "a book, \"ch. 8\"");
        assert_eq!(row.basis, "published");
    }

    #[test]
    fn a_row_has_eight_fields_and_closes_its_quotes() {
        assert!(parse_row("A1,t,a=1,2,in,abs:1,book").unwrap_err().contains("has 7"));
        assert!(parse_row("A1,t,a=1,2,in,abs:1,\"book,published").unwrap_err().contains("quote"));
    }

    #[test]
    fn only_the_eight_columns_in_their_order_are_a_file_of_rows() {
        let header = COLUMNS.join(",");
        assert_eq!(rows(&header).map(Iterator::count), Some(0));
        assert_eq!(rows(&format!("{header}\n\na,b,c,d,e,f,g,h\n")).map(Iterator::count), Some(1));
        for other in ["", "id,topic", &format!("{header},note"), &header.replace("id", "ID")] {
            assert!(rows(other).is_none(), "{other}");
        }
    }

    #[test]
    fn what_a_row_may_not_say_is_named() {
        let sfm = "surface_speed_sfm=35;diameter_in=2";
        for (topic, inputs, unit, named) in [
            ("spindel_speed", sfm, "rpm", "topic spindel_speed"),
            ("spindle_speed", &format!("{sfm};teeth=2"), "rpm", "key teeth"),
            ("spindle_speed", "surface_speed_sfm=35", "rpm", "diameter_in or diameter_mm"),
            ("spindle_speed", &format!("{sfm};diameter_mm=50"), "rpm", "diameter_mm are both"),
            ("spindle_speed", &format!("{sfm};diameter_in=2"), "rpm", "diameter_in is given twice"),
            ("spindle_speed", "surface_speed_sfm=35;diameter_cm=5", "rpm", "diameter_in or"),
            ("spindle_speed", "surface_speed_sfm=35;diameter_in", "rpm", "diameter_in is not a"),
            ("spindle_speed", "surface_speed_sfm=nan;diameter_in=2", "rpm", "surface_speed_sfm is"),
            ("spindle_speed", "surface_speed_sfm=inf;diameter_in=2", "rpm", "surface_speed_sfm is"),
            ("spindle_speed", "surface_speed_sfm=35;diameter_in=0", "rpm", "diameter has to be"),
            ("spindle_speed", sfm, "in", "unit in"),
            (
                "table_feed",
                "spindle_rpm=930;feed_per_tooth_in=.001;teeth=2;feed_per_rev_mm=.05",
                "in/min",
                "feed_per_tooth_in and feed_per_rev_mm are both",
            ),
            ("table_feed", "spindle_rpm=930", "in/min", "feed_per_tooth, feed_per_rev is missing"),
            (
                "attainable_speed",
                "wanted_rpm=90;speeds_rpm=70 115;lowest_rpm=70;highest_rpm=115",
                "rpm",
                "speeds_rpm and lowest_rpm are both",
            ),
            (
                "feed_per_tooth",
                "table_feed_in_min=2;spindle_rpm=560;teeth=2.5",
                "in",
                "teeth is 2.5",
            ),
            (
                "approach_face",
                "diameter_in=4;width_in=3;position=middle",
                "in",
                "position is middle",
            ),
            (
                "drill_time",
                "depth_in=1;point_angle_deg=118;table_feed_in_min=2",
                "s",
                "key point_angle_deg",
            ),
        ] {
            let why = refusal(topic, inputs, unit);
            assert!(why.contains(named), "{why}");
            assert!(why.ends_with('.'), "{why}");
        }
    }

    #[test]
    fn a_value_holds_to_the_edge_of_its_tolerance_and_no_further() {
        let feed = |expected, tolerance| {
            let inputs = "spindle_rpm=100;feed_per_rev_in=0.1";
            check(&row("table_feed", inputs, expected, "in/min", tolerance))
        };
        let ten = Answered::Number(10.0);
        for (expected, tolerance) in [("10", "exact"), ("9.9", "abs:0.1"), ("8", "rel:0.25")] {
            assert_eq!(feed(expected, tolerance), Outcome::Holds(ten.clone()), "{expected}");
        }
        for (expected, tolerance) in [("10.1", "exact"), ("9.9", "abs:0.09"), ("8", "rel:0.24")] {
            assert_eq!(feed(expected, tolerance), Outcome::Off(ten.clone()), "{expected}");
        }
        assert!(
            matches!(feed("10", "5 %"), Outcome::Refused(why) if why.contains("tolerance 5 %"))
        );
        assert!(matches!(feed("nan", "abs:1"), Outcome::Refused(why) if why.contains("expected")));
    }
}
