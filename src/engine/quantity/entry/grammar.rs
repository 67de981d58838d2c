//! The grammar, from the top; each rule is a method of [`Reader`].
//!
//! ```text
//! entry    = sum
//! sum      = product { ("+" | "-") product }
//! product  = part { ("*" | "×" | "x" | "/" | "÷") part }
//! part     = { "-" | "+" } ( "(" sum ")" [unit] | name | quantity )
//! quantity = amount [unit [amount unit]]          5 ft 3 in, 30° 15'
//! amount   = fraction | decimal | whole (space | dash) fraction
//! name     = ("#" | "No.") whole | ["letter"] letter
//! ```
//!
//! `1-3/8` is a mixed number, as the trade writes it; `1 - 3/8`, and a mixed number with a dash
//! inside a longer sum, can be read in two ways and are asked about.

use core::ops::Range;

use super::{EntryError, Exact, LARGEST, LONGEST, Measure, Rules, SizeName, fault, whole_of};
use crate::engine::quantity::{
    ratio::Ratio,
    unit::{Size, Unit},
};

/// Digits that a 64-bit float holds exactly, whatever they are.
const DIGITS: usize = 15;
/// Brackets inside brackets.
const DEEPEST: usize = 8;

/// Reads a whole text.
pub(super) fn read(text: &str, rules: Rules) -> Result<Exact, EntryError> {
    if text.trim().is_empty() {
        return fault(0..text.len(), "Nothing is entered.", "Type a number.");
    }
    if text.trim().len() > LONGEST {
        return fault(
            whole_of(text),
            "This is too long to be a number.",
            "Type a number such as 1.375 or 1 3/8.",
        );
    }
    let mut reader = Reader { text, rules, at: 0, depth: 0, named: false };
    reader.skip_space();
    let sum = reader.sum(&[])?;
    reader.skip_space();
    if !reader.rest().is_empty() {
        return reader.not_expected(&sum);
    }
    reader.finish(&sum)
}

/// What a part of the text comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    /// Numbers without a unit: they take the one at hand.
    Bare,
    /// One quantity over another.
    Share,
    /// With a unit, in the base of its kind.
    Quantity,
}

/// How a number was written, where that decides what may stand beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Written {
    /// `1-3/8`, a mixed number joined by a dash.
    Dashed,
    /// `3/8`
    Fraction,
    /// Anything else.
    Otherwise,
}

#[derive(Clone, Debug)]
struct Part {
    kind: Kind,
    value: Ratio,
    /// The unit that was written first.
    unit: Option<&'static Unit>,
    /// Every unit in it was that one.
    one_unit: bool,
    written: Written,
    span: Range<usize>,
}

/// The digits of one number: how they were written decides what may stand beside them.
struct Digits {
    amount: Ratio,
    whole: bool,
    span: Range<usize>,
}

struct Reader<'a> {
    text: &'a str,
    rules: Rules,
    at: usize,
    depth: usize,
    named: bool,
}

impl Reader<'_> {
    fn rest(&self) -> &str {
        &self.text[self.at..]
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip_space(&mut self) {
        self.at = self.text.len() - self.rest().trim_start().len();
    }

    /// The place of the character at hand, for an error that points to it.
    fn here(&self) -> Range<usize> {
        self.at..self.at + self.peek().map_or(0, char::len_utf8)
    }

    /// Steps over one character.
    fn step(&mut self) -> Range<usize> {
        let here = self.here();
        self.at = here.end;
        here
    }

    /// `product { ("+" | "-") product }`, up to one of some characters or the end.
    fn sum(&mut self, closing: &[char]) -> Result<Part, EntryError> {
        let mut left = self.product()?;
        loop {
            self.skip_space();
            let Some(sign) = self.peek().filter(|c| *c == '+' || is_dash(*c)) else { break };
            let tight = self.at == left.span.end;
            let sign_at = self.step();
            self.skip_space();
            if self.peek().is_none_or(|c| closing.contains(&c)) {
                return dangling(sign, sign_at);
            }
            let right = self.product()?;
            if sign == '+' {
                ask_dashed(self.text, &right)?;
            }
            if is_dash(sign) && tight && self.could_be_thread(&left, &right) {
                return fault(
                    left.span.start..right.span.end,
                    "This can be a thread or a subtraction.",
                    "Look a thread up under Threads, or type the subtraction with blanks.",
                );
            }
            left = self.added(left, right, is_dash(sign), sign_at)?;
        }
        Ok(left)
    }

    /// `1/4-20`, `10-32`: no shop takes away more than there is, and threads look like that.
    fn could_be_thread(&self, left: &Part, right: &Part) -> bool {
        let plain = |part: &Part| part.kind == Kind::Bare && !part.value.is_negative();
        plain(left)
            && plain(right)
            && (left.value.is_whole() || left.written == Written::Fraction)
            && right.value.is_whole()
            && right.value > left.value
            && self.rules.measure == Measure::Length
    }

    fn added(
        &self,
        left: Part,
        right: Part,
        minus: bool,
        sign: Range<usize>,
    ) -> Result<Part, EntryError> {
        let span = left.span.start..right.span.end;
        if [&left, &right].iter().any(|part| part.unit.is_some_and(|unit| !adds_up(unit))) {
            return fault(
                sign,
                "These are not added up.",
                "Type one at a time, with its unit: 68 °F.",
            );
        }
        let (left, right) = self.alike(left, right)?;
        let value =
            if minus { left.value.minus(right.value) } else { left.value.plus(right.value) };
        let unit = left.unit.or(right.unit);
        Ok(Part {
            value: kept(value, &span)?,
            kind: left.kind,
            one_unit: left.one_unit && right.one_unit && left.unit == right.unit,
            unit,
            written: Written::Otherwise,
            span,
        })
    }

    /// Two parts of a sum in the same terms.
    fn alike(&self, left: Part, right: Part) -> Result<(Part, Part), EntryError> {
        match (left.kind, right.kind) {
            (a, b) if a == b => Ok((left, right)),
            (Kind::Bare, Kind::Quantity) => Ok((self.with_unit_at_hand(left, &right)?, right)),
            (Kind::Quantity, Kind::Bare) => {
                let right = self.with_unit_at_hand(right, &left)?;
                Ok((left, right))
            }
            // A bare number beside a share is a plain number like it.
            (Kind::Share, Kind::Bare) => Ok((left, Part { kind: Kind::Share, ..right })),
            (Kind::Bare, Kind::Share) => Ok((Part { kind: Kind::Share, ..left }, right)),
            _ => fault(
                left.span.start..right.span.end,
                format!("A plain number is not added to {}.", self.rules.measure.called()),
                "Look at the units again.",
            ),
        }
    }

    /// A number without a unit beside one that has one: clear only where both are the same.
    fn with_unit_at_hand(&self, bare: Part, beside: &Part) -> Result<Part, EntryError> {
        let at_hand = self.rules.measure.bare_unit(self.rules.system);
        match (at_hand, beside.unit) {
            (Some(unit), Some(other)) if unit == other && beside.one_unit => {
                let value = kept(unit.to_base(bare.value), &bare.span)?;
                Ok(Part { kind: Kind::Quantity, value, unit: Some(unit), ..bare })
            }
            (Some(unit), Some(other)) => {
                let text = &self.text[bare.span.clone()];
                let hint = if unit == other {
                    format!("Type its unit too: {text} {}.", unit.name())
                } else {
                    format!("Type {text} {} or {text} {}.", unit.name(), other.name())
                };
                fault(bare.span, format!("“{text}” has no unit, beside one that has."), hint)
            }
            _ => Ok(bare),
        }
    }

    /// `part { ("*" | "/") part }`
    fn product(&mut self) -> Result<Part, EntryError> {
        let mut left = self.part()?;
        loop {
            let before = self.at;
            self.skip_space();
            let times = self.is_times();
            let over = self.peek().is_some_and(is_stroke);
            if !times && !over {
                self.at = before;
                break;
            }
            let sign = self.peek().unwrap_or_default();
            let sign_at = self.here();
            ask_dashed(self.text, &left)?;
            if over && left.written == Written::Fraction {
                return fault(
                    sign_at,
                    "A fraction has one stroke.",
                    "Type one fraction such as 3/8, or put it in brackets: (3/8)/2.",
                );
            }
            self.step();
            self.skip_space();
            if self.peek().is_none_or(|c| c == ')') {
                return dangling(sign, sign_at);
            }
            let right = self.part()?;
            ask_dashed(self.text, &right)?;
            left =
                if times { self.multiplied(&left, &right)? } else { self.divided(&left, &right)? };
        }
        Ok(left)
    }

    /// A sign that multiplies; an x only where a number follows.
    fn is_times(&self) -> bool {
        let mut chars = self.rest().chars();
        match chars.next() {
            Some('*' | '×' | '·') => true,
            Some('x' | 'X') => chars
                .find(|c| !c.is_whitespace())
                .is_some_and(|c| c.is_ascii_digit() || is_point(c) || c == '('),
            _ => false,
        }
    }

    fn multiplied(&self, left: &Part, right: &Part) -> Result<Part, EntryError> {
        let span = left.span.start..right.span.end;
        let (kind, with_unit) = match (left.kind, right.kind) {
            (Kind::Quantity, Kind::Quantity) => {
                return fault(
                    span,
                    format!("Two of them multiplied are not {}.", self.rules.measure.called()),
                    "Leave the unit away at one of them.",
                );
            }
            (Kind::Quantity, _) => (Kind::Quantity, left),
            (_, Kind::Quantity) => (Kind::Quantity, right),
            (Kind::Share, Kind::Share) => (Kind::Share, left),
            _ => (Kind::Bare, left),
        };
        self.scaled(left.value.times(right.value), kind, with_unit, span)
    }

    fn divided(&self, left: &Part, right: &Part) -> Result<Part, EntryError> {
        let span = left.span.start..right.span.end;
        if right.value.is_zero() {
            return fault(
                right.span.clone(),
                "Nothing can be divided by zero.",
                "Type what to divide by: 60/2.",
            );
        }
        let kind = match (left.kind, right.kind) {
            (Kind::Quantity, Kind::Quantity) => Kind::Share,
            (_, Kind::Quantity) => {
                return fault(
                    span,
                    format!("A number divided by {} is none.", self.rules.measure.called()),
                    "Leave the unit of the lower number away.",
                );
            }
            (kind, _) => kind,
        };
        self.scaled(left.value.over(right.value), kind, left, span)
    }

    fn scaled(
        &self,
        value: Option<Ratio>,
        kind: Kind,
        with_unit: &Part,
        span: Range<usize>,
    ) -> Result<Part, EntryError> {
        if with_unit.unit.is_some_and(|unit| !adds_up(unit)) {
            return fault(
                span,
                "These are not multiplied.",
                "Type one at a time, with its unit: 68 °F.",
            );
        }
        let unit = if kind == Kind::Quantity { with_unit.unit } else { None };
        Ok(Part {
            value: kept(value, &span)?,
            kind,
            unit,
            one_unit: with_unit.one_unit,
            written: Written::Otherwise,
            span,
        })
    }

    /// `{ sign } ( "(" sum ")" [unit] | name | quantity )`
    fn part(&mut self) -> Result<Part, EntryError> {
        let start = self.at;
        let sign = self.peek().filter(|c| *c == '+' || is_dash(*c)).map(|c| (c, self.step()));
        if let Some((_, at)) = &sign {
            let leads = self.text[..start].trim_end().is_empty()
                || self.text[..start].trim_end().ends_with('(');
            if !leads {
                return fault(at.clone(), "Two signs stand side by side.", "Type one of them.");
            }
            if !self.rules.signed {
                return fault(
                    at.clone(),
                    "A sign has no place here.",
                    "Type the size alone; what it is for decides the direction.",
                );
            }
            self.skip_space();
        }
        let minus = sign.is_some_and(|(c, _)| is_dash(c));
        let mut part = if self.peek() == Some('(') {
            self.bracket()?
        } else if let Some(named) = self.name()? {
            named
        } else {
            self.quantity()?
        };
        if minus {
            // The sign of a temperature belongs to its number, not to its base.
            part.value = match part.unit.filter(|unit| !adds_up(unit)) {
                None => part.value.negated(),
                Some(unit) => {
                    let number = unit.from_base(part.value).map(Ratio::negated);
                    match number {
                        Some(number) => kept(unit.to_base(number), &part.span)?,
                        None => part.value.negated(),
                    }
                }
            };
        }
        part.span.start = start;
        Ok(part)
    }

    fn bracket(&mut self) -> Result<Part, EntryError> {
        let open = self.step();
        self.depth += 1;
        if self.depth > DEEPEST {
            return fault(
                open,
                "There are too many brackets inside brackets.",
                "Work out the inner ones first.",
            );
        }
        self.skip_space();
        if self.peek().is_none_or(|c| c == ')') {
            return fault(
                open.start..self.at,
                "There is nothing in the bracket.",
                "Type what belongs in it: 2*(3/16).",
            );
        }
        let mut sum = self.sum(&[')'])?;
        self.skip_space();
        if self.peek() != Some(')') {
            if self.peek().is_some() {
                return self.not_expected(&sum);
            }
            return fault(open, "This bracket is not closed.", "Close it: 2*(3/16).");
        }
        let close = self.step();
        self.depth -= 1;
        sum.span = open.start..close.end;
        sum.written = Written::Otherwise;
        if sum.kind == Kind::Bare {
            self.take_unit(&mut sum)?;
        }
        Ok(sum)
    }

    /// `("#" | "No.") whole | ["letter"] letter`
    fn name(&mut self) -> Result<Option<Part>, EntryError> {
        let Some(names) = self.rules.names.filter(|_| self.rules.measure == Measure::Length) else {
            return Ok(None);
        };
        let start = self.at;
        let Some(called) = self.called()? else { return Ok(None) };
        let span = start..self.at;
        let Some(inches) = (names.find)(called) else {
            let text = &self.text[span.clone()];
            return fault(span, format!("There is no drill {text}."), names.known);
        };
        let inch = self.rules.measure.units().first();
        self.named = true;
        Ok(Some(Part {
            kind: Kind::Quantity,
            value: kept(inch.and_then(|inch| inch.to_base(inches)), &span)?,
            unit: inch,
            one_unit: true,
            written: Written::Otherwise,
            span,
        }))
    }

    /// The name of a size, if one stands here.
    fn called(&mut self) -> Result<Option<SizeName>, EntryError> {
        let start = self.at;
        if self.peek() == Some('#') {
            self.step();
            return self.drill_number(start).map(Some);
        }
        let word = self.word();
        let lower = word.to_ascii_lowercase();
        let after = start + word.len();
        if ["no", "nr", "number"].contains(&lower.as_str()) {
            self.at = after;
            if self.peek() == Some('.') {
                self.step();
            }
            return self.drill_number(start).map(Some);
        }
        let letter = if ["letter", "drill"].contains(&lower.as_str()) {
            self.at = after;
            self.skip_space();
            if self.peek() == Some('#') {
                self.step();
                return self.drill_number(start).map(Some);
            }
            self.word().to_owned()
        } else {
            word.to_owned()
        };
        let mut letters = letter.chars();
        if let (Some(c @ ('a'..='z' | 'A'..='Z')), None) = (letters.next(), letters.next()) {
            self.at += 1;
            if !self.peek().is_some_and(|c| c.is_alphanumeric()) {
                return Ok(Some(SizeName::Letter(c.to_ascii_uppercase())));
            }
        }
        self.at = start;
        Ok(None)
    }

    fn drill_number(&mut self, start: usize) -> Result<SizeName, EntryError> {
        self.skip_space();
        let digits =
            self.rest().len() - self.rest().trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let number = self.rest()[..digits].parse::<u32>();
        self.at += digits;
        match number {
            Ok(number) if !self.peek().is_some_and(|c| c.is_alphabetic() || is_point(c)) => {
                Ok(SizeName::Number(number))
            }
            _ => fault(
                start..self.at,
                "The number of the drill is missing.",
                "Type it as a whole number: #25.",
            ),
        }
    }

    /// The letters at hand.
    fn word(&self) -> &str {
        let rest = self.rest();
        &rest[..rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len())]
    }

    /// `amount [unit [amount unit]]`
    fn quantity(&mut self) -> Result<Part, EntryError> {
        let start = self.at;
        let (amount, written) = self.amount()?;
        let mut part = Part {
            kind: Kind::Bare,
            value: amount,
            unit: None,
            one_unit: true,
            written,
            span: start..self.at,
        };
        let too_large = |number: Ratio, span: &Range<usize>| {
            if number.abs().to_f64() > LARGEST {
                return fault(
                    span.clone(),
                    "This number is too large.",
                    "Look for a missing point, or for two numbers run together.",
                );
            }
            Ok(())
        };
        too_large(amount, &part.span)?;
        self.take_unit(&mut part)?;
        let mut last = part.clone();
        let mut number = amount;
        while let Some((smaller, count)) = last.unit.and_then(|unit| unit.holds) {
            let before = self.at;
            self.skip_space();
            if !self.peek().is_some_and(|c| c.is_ascii_digit() || is_point(c)) {
                self.at = before;
                break;
            }
            let larger = last.unit.map_or("", Unit::name);
            if !number.is_whole() {
                return fault(
                    last.span,
                    format!("Before what follows this has to be whole {larger}."),
                    "Type 5 ft 3 in, or one decimal number with its unit.",
                );
            }
            let start = self.at;
            let (amount, _) = self.amount()?;
            let mut next = Part {
                kind: Kind::Bare,
                value: amount,
                unit: None,
                one_unit: true,
                written: Written::Otherwise,
                span: start..self.at,
            };
            self.take_unit(&mut next)?;
            let text = &self.text[next.span.clone()];
            if !next.unit.is_some_and(|unit| unit.is_called(smaller)) {
                return fault(
                    next.span.clone(),
                    format!("“{text}” after {larger} is not marked as {smaller}."),
                    format!("Type {text} {smaller}."),
                );
            }
            if amount >= Ratio::whole(count) {
                return fault(
                    next.span.clone(),
                    format!("{count} {smaller} make one {larger} already."),
                    "Look at the digits again.",
                );
            }
            part.value = kept(part.value.plus(next.value), &next.span)?;
            part.span.end = next.span.end;
            part.one_unit = false;
            number = amount;
            last = next;
        }
        Ok(part)
    }

    /// `fraction | decimal | whole (space | dash) fraction`
    fn amount(&mut self) -> Result<(Ratio, Written), EntryError> {
        let first = self.digits()?;
        let after_first = self.at;
        self.skip_space();
        let spaced = self.at > after_first;
        if self.is_fraction_stroke() {
            if first.whole {
                return Ok((self.fraction(&first)?.0, Written::Fraction));
            }
            self.at = after_first;
            return Ok((first.amount, Written::Otherwise));
        }
        if self.peek().is_some_and(is_dash) {
            if let Some(part) = self.after_dash(&first, spaced)? {
                return Ok((part, Written::Dashed));
            }
            self.at = after_first;
            return Ok((first.amount, Written::Otherwise));
        }
        if !self.peek().is_some_and(|c| c.is_ascii_digit() || is_point(c)) {
            self.at = after_first;
            return Ok((first.amount, Written::Otherwise));
        }
        let second = self.digits()?;
        self.skip_space();
        if self.peek() != Some('/') {
            return fault(
                first.span.start..second.span.end,
                "There are two numbers.",
                "Type one, or a whole number with its fraction: 1 3/8.",
            );
        }
        let part = self.proper_fraction(&second)?;
        if !first.whole {
            return fault(
                first.span.start..self.at,
                "A decimal number cannot have a fraction after it.",
                "Type 1 3/8 or 1.375.",
            );
        }
        let value = kept(first.amount.plus(part), &(first.span.start..self.at))?;
        Ok((value, Written::Otherwise))
    }

    /// The stroke of a fraction, and not of a division by a bracket or a name.
    fn is_fraction_stroke(&self) -> bool {
        let mut chars = self.rest().chars();
        chars.next() == Some('/')
            && !chars.find(|c| !c.is_whitespace()).is_some_and(|c| {
                c == '(' || c == '#' || c.is_alphabetic() || c == '+' || is_dash(c)
            })
    }

    /// What follows a whole number and a dash, if it is its fraction.
    fn after_dash(&mut self, first: &Digits, spaced: bool) -> Result<Option<Ratio>, EntryError> {
        self.step();
        let before = self.at;
        self.skip_space();
        let spaced = spaced || self.at > before;
        let rest = self.rest();
        let above = &rest[..rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len())];
        let below = rest[above.len()..].trim_start();
        let is_fraction = !above.is_empty()
            && below
                .strip_prefix('/')
                .is_some_and(|below| below.trim_start().starts_with(|c: char| c.is_ascii_digit()));
        if !first.whole || !is_fraction {
            return Ok(None);
        }
        let start = self.at;
        let above = self.digits()?;
        self.skip_space();
        let part = self.proper_fraction(&above)?;
        let (whole, text) = (&self.text[first.span.clone()], &self.text[start..self.at]);
        if spaced {
            return fault(
                first.span.start..self.at,
                "This can be a mixed number or a subtraction.",
                format!("Type {whole} {text}, or {whole}-({text}) to take away."),
            );
        }
        let span = first.span.start..self.at;
        Ok(Some(kept(first.amount.plus(part), &span)?))
    }

    /// The fraction after a whole number.
    fn proper_fraction(&mut self, above: &Digits) -> Result<Ratio, EntryError> {
        let (part, whole) = self.fraction(above)?;
        let span = above.span.start..self.at;
        if !above.whole || !whole {
            return fault(
                span,
                "A fraction is made of two whole numbers.",
                "Type it like 1 3/8, or type a decimal number.",
            );
        }
        if part >= Ratio::ONE {
            return fault(
                span,
                "After a whole number the fraction must be less than one.",
                "Look at the digits again.",
            );
        }
        Ok(part)
    }

    /// The stroke and what is below it; what is above has been read. Says too whether what is below
    /// is a whole number.
    fn fraction(&mut self, above: &Digits) -> Result<(Ratio, bool), EntryError> {
        let stroke = self.here();
        self.at = stroke.end;
        self.skip_space();
        if !self.peek().is_some_and(|c| c.is_ascii_digit() || is_point(c)) {
            return fault(
                stroke,
                "Below the stroke of the fraction nothing stands.",
                "Type the lower number too: 3/8.",
            );
        }
        let below = self.digits()?;
        if below.amount.is_zero() {
            return fault(
                below.span,
                "Nothing can be divided by zero.",
                "Type a lower number such as 2, 4, 8, 16, 32 or 64.",
            );
        }
        let span = above.span.start..below.span.end;
        Ok((kept(above.amount.over(below.amount), &span)?, below.whole))
    }

    /// `375`, `1.375`, `.5`, `1.`, `0,5`
    fn digits(&mut self) -> Result<Digits, EntryError> {
        let start = self.at;
        let run: &str = {
            let rest = self.rest();
            let length = rest.find(|c: char| !(c.is_ascii_digit() || is_point(c)));
            &rest[..length.unwrap_or(rest.len())]
        };
        let span = start..start + run.len();
        if run.is_empty() {
            return self.no_digits();
        }
        let mut points = run.char_indices().filter(|(_, c)| is_point(*c));
        let point = points.next();
        if let Some((second, c)) = points.next() {
            return fault(
                start + second..start + second + c.len_utf8(),
                "A number has one point.",
                "Take the second one away.",
            );
        }
        let (whole, decimals) = match point {
            Some((place, _)) => (&run[..place], &run[place + 1..]),
            None => (run, ""),
        };
        if whole.is_empty() && decimals.is_empty() {
            return fault(span, "There is a point without digits.", "Type a number such as 0.5.");
        }
        if matches!(point, Some((_, ','))) && could_be_thousands(whole, decimals) {
            return fault(
                span,
                format!("{run} can be read in two ways."),
                format!("Type {whole}.{decimals} or {whole}{decimals}."),
            );
        }
        let digits = [whole, decimals].concat();
        if digits.trim_start_matches('0').len() > DIGITS || decimals.len() > DIGITS {
            return fault(span, "There are too many digits.", "Six decimals are plenty.");
        }
        // At most fifteen digits and as many decimals: both fit, and neither can fail to parse.
        let num = digits.bytes().fold(0_i128, |n, digit| n * 10 + i128::from(digit - b'0'));
        let amount = kept(Ratio::new(num, 10_i128.pow(decimals.len() as u32)), &span)?;
        self.at = span.end;
        Ok(Digits { amount, whole: point.is_none(), span })
    }

    fn no_digits<T>(&self) -> Result<T, EntryError> {
        let here = self.here();
        let with_names = self.rules.names.is_some() && self.rules.measure == Measure::Length;
        match self.peek() {
            Some('/') => fault(
                here,
                "Above the stroke of the fraction nothing stands.",
                "Type the upper number too: 3/8.",
            ),
            Some(')') => {
                fault(here, "This bracket closes nothing.", "Take it away, or open one before it.")
            }
            Some(c @ ('*' | '×' | '÷')) => {
                fault(here, format!("Before {c} a number is missing."), "Type it: 2*.030.")
            }
            _ if self.at > 0 => fault(
                self.at..self.text.len(),
                "Here a number is missing.",
                "Type a number such as 1.375 or 1 3/8.",
            ),
            _ => fault(
                self.at..self.text.len(),
                "This does not begin with a number.",
                if with_names {
                    "Type a number such as 1.375 or 1 3/8, or a drill such as #25 or letter F."
                } else {
                    "Type a number such as 1.375 or 1 3/8."
                },
            ),
        }
    }

    /// The unit after a number, if one stands there.
    fn take_unit(&mut self, part: &mut Part) -> Result<(), EntryError> {
        let before = self.at;
        self.skip_space();
        if self.is_times() || self.stands_for_nothing() {
            self.at = before;
            return Ok(());
        }
        let units = self.rules.measure.units();
        let word = unit_word(self.rest());
        let found = units
            .iter()
            .filter_map(|unit| Some((unit.at_front_of(self.rest())?, unit)))
            .max_by_key(|(length, _)| *length)
            .filter(|(length, unit)| {
                let rest = &self.rest()[*length..];
                let goes_on =
                    unit.holds.is_some() && rest.starts_with(|c: char| c.is_ascii_digit());
                *length >= word.len() || goes_on
            });
        let Some((length, unit)) = found else {
            return self.no_unit(word);
        };
        self.at += length;
        let span = part.span.start..self.at;
        part.value = kept(unit.to_base(part.value), &span)?;
        part.kind = Kind::Quantity;
        part.unit = Some(unit);
        part.span = span;
        self.named = true;
        Ok(())
    }

    /// True where no unit can begin: at the end, and before signs, brackets and further numbers.
    fn stands_for_nothing(&self) -> bool {
        self.peek().is_none_or(|c| {
            c == '+'
                || c == '('
                || c == ')'
                || c == '#'
                || is_dash(c)
                || is_stroke(c)
                || c.is_ascii_digit()
                || is_point(c)
        })
    }

    /// What stands where a unit could and is none of this measure.
    fn no_unit(&self, word: &str) -> Result<(), EntryError> {
        let span = self.at..self.at + word.len();
        let Rules { measure, system, .. } = self.rules;
        if ["mil", "mils"].contains(&word.to_lowercase().as_str()) && measure.takes_lengths() {
            return fault(
                span,
                format!("“{word}” can be a thousandth of an inch or a millimetre."),
                "Type thou or mm.",
            );
        }
        let units = measure.units();
        if units.is_empty() {
            return fault(
                span,
                format!("This is a plain number, “{word}” has no place in it."),
                "Type the number alone.",
            );
        }
        let usual: Vec<&str> =
            units.iter().filter(|unit| unit.usual).map(|unit| unit.name()).collect();
        let hint = match usual.as_slice() {
            [_] | [] => format!("Leave it away: the number is in {}.", measure.unit(system)),
            [others @ .., last] => format!("Type {} or {last}.", others.join(", ")),
        };
        let other = Measure::ALL
            .into_iter()
            .find(|other| other.units().iter().any(|unit| unit.is_called(word)));
        match other {
            Some(other) => fault(
                span,
                format!("“{word}” is a unit of {}, not of {}.", other.noun(), measure.noun()),
                hint,
            ),
            None => fault(span, format!("“{word}” is not a unit of this."), hint),
        }
    }

    /// Something follows that belongs to nothing.
    fn not_expected<T>(&self, before: &Part) -> Result<T, EntryError> {
        match self.peek() {
            Some(')') => self.no_digits(),
            Some('(' | '#') => fault(
                before.span.start..self.here().end,
                "Between the two a sign is missing.",
                "Type it: 2*(3/16).",
            ),
            Some(c) if c.is_ascii_digit() || is_point(c) => fault(
                before.span.start..self.text.trim_end().len(),
                "There are two numbers.",
                "Type one, or put a sign between them.",
            ),
            _ => fault(
                self.at..self.text.trim_end().len(),
                "This has no place here.",
                "Take it away.",
            ),
        }
    }

    /// The whole entry in the terms of its measure.
    fn finish(&self, sum: &Part) -> Result<Exact, EntryError> {
        let Rules { measure, system, signed, .. } = self.rules;
        let at_hand = measure.bare_unit(system);
        let (base, unit) = match (sum.kind, sum.unit.or(at_hand)) {
            (Kind::Share, Some(_)) => {
                return fault(
                    sum.span.clone(),
                    format!("This comes to a plain number, and {} is wanted.", measure.called()),
                    "Leave the unit of the lower number away.",
                );
            }
            (Kind::Bare, Some(unit)) => (kept(unit.to_base(sum.value), &sum.span)?, Some(unit)),
            (_, unit) => (sum.value, unit),
        };
        let number = unit.and_then(|unit| unit.from_base(base)).unwrap_or(base);
        if number.abs().to_f64() > LARGEST {
            return fault(
                sum.span.clone(),
                "This comes to a number that is too large.",
                "Look for a missing point, or for two numbers run together.",
            );
        }
        if number.is_negative() && !signed {
            return fault(
                sum.span.clone(),
                "This comes to less than nothing.",
                "Look at what is taken away.",
            );
        }
        Ok(Exact { base, unit, named: self.named })
    }
}

impl Measure {
    fn takes_lengths(self) -> bool {
        matches!(self, Self::Length | Self::Chip)
    }
    fn noun(self) -> &'static str {
        let called = self.called();
        called.split_once(' ').map_or(called, |(_, noun)| noun)
    }
}

/// A unit whose numbers can be added and multiplied: neither a temperature nor a slope.
fn adds_up(unit: &Unit) -> bool {
    matches!(unit.size, Size::Times(_))
}

fn kept(value: Option<Ratio>, span: &Range<usize>) -> Result<Ratio, EntryError> {
    value.map_or_else(
        || {
            fault(
                span.clone(),
                "This is too long to be worked out exactly.",
                "Use fewer digits, or do it in two steps.",
            )
        },
        Ok,
    )
}

fn dangling<T>(sign: char, at: Range<usize>) -> Result<T, EntryError> {
    if is_dash(sign) {
        return fault(
            at,
            "A dash stands alone.",
            "A dash joins a whole number to its fraction, 1-3/8, or takes away, 1-.5.",
        );
    }
    fault(at, format!("After {sign} a number is missing."), "Type it, or take the sign away.")
}

/// A mixed number with a dash beside another sign can be read in two ways.
fn ask_dashed(text: &str, part: &Part) -> Result<(), EntryError> {
    if part.written != Written::Dashed {
        return Ok(());
    }
    let span = part.span.clone();
    let written = &text[span.clone()];
    let (whole, rest) = written.split_once(is_dash).unwrap_or((written, ""));
    fault(
        span,
        "Beside another sign this can be a mixed number or a subtraction.",
        format!("Type {whole} {rest}, or take away with brackets: {whole}-({rest})."),
    )
}

/// The letters, strokes and marks that a person who writes a unit writes.
fn unit_word(rest: &str) -> &str {
    let mut end = 0;
    let mut chars = rest.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let next = chars.peek().map(|(_, c)| *c);
        let goes_on = c.is_alphabetic()
            || matches!(c, '°' | '²' | '³')
            || at > 0 && c.is_ascii_digit()
            || at > 0 && matches!(c, '/' | '.' | '·') && next.is_some_and(char::is_alphabetic);
        if !goes_on {
            break;
        }
        end = at + c.len_utf8();
    }
    if end == 0 {
        end = rest.chars().next().map_or(0, char::len_utf8);
    }
    &rest[..end]
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–' | '−')
}

fn is_stroke(c: char) -> bool {
    matches!(c, '/' | '÷')
}

fn is_point(c: char) -> bool {
    matches!(c, '.' | ',')
}

/// `1,250` is one and a quarter to one shop and twelve hundred and fifty to another. `0,250`,
/// `1,25` and `1250,000` are not: no group of thousands looks like that.
fn could_be_thousands(whole: &str, decimals: &str) -> bool {
    decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0')
}
