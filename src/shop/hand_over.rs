//! One thing handed over to another phone without a network: a code to show, to scan and to paste.
//!
//! A code is a shop with one thing in it, without all that is usual, its words shortened by a fixed
//! list, a sum to check it, in the letters of base 32 (RFC 4648), which a picture of squares holds
//! in less room than any other text. It comes in by the same door as a backup file.

use crate::shop::{
    cuts::{CutterForm, Holding},
    document::{Document, Favorite},
    incoming,
    machines::MachineForm,
    merge::key,
    restore::parts,
};
use qrcodegen::{DataTooLong, QrCode, QrCodeEcc, QrSegment, Version};
use serde_json::{Map, Value};

/// What a code is shortened by: each word for one byte that stands in no JSON text. New ones go to
/// the end, and none ever changes, or an old code is read as something else.
const WORDS: [&str; 45] = [
    "{\"text\":\"",
    "\",\"system\":\"metric\"}",
    "{\"system\":\"metric\",\"text\":\"",
    "\"},\"",
    "\":{\"",
    "\":\"",
    "\",\"",
    "\":{\"text\":\"",
    "\":{\"system\":\"metric\",\"text\":\"",
    "\"}",
    "{\"",
    "{\"machines\":[{\"form\":{\"",
    "{\"cutters\":[{\"cutter\":{\"",
    "{\"favorites\":[{\"id\":\"",
    ",\"version\":2}",
    "\"}}],\"version\":2}",
    "\"ranges\":[{\"",
    "clockwise_label\":\"",
    "counter_clockwise_label\":\"",
    "\"class\":\"",
    "\"drive\":\"variable\"",
    "comfortable_rate",
    "highest_rate",
    "\"highest",
    "lowest",
    "backlash",
    "divisions",
    "quill_wheel",
    "table",
    "lead",
    "power",
    "fittings",
    "\"steps\":\"",
    "name",
    "diameter",
    "holding\":{\"",
    "stickout",
    "runout",
    "holder\":\"",
    "teeth",
    "\"kind\":\"end_mill\"",
    "material\":\"",
    "flute",
    "link\":\"op=",
    "&stock=",
];

/// The byte that stands for a word: one of those below a space, or one that UTF-8 never has.
fn byte_of(word: usize) -> u8 {
    const NEVER: [u8; 13] =
        [0xC0, 0xC1, 0xF5, 0xF6, 0xF7, 0xF8, 0xF9, 0xFA, 0xFB, 0xFC, 0xFD, 0xFE, 0xFF];
    match u8::try_from(word) {
        Ok(low) if low < 32 => low,
        _ => NEVER[(word - 32).min(NEVER.len() - 1)],
    }
}

/// The code of one thing: of `machines`, `cutters`, `favorites` or any other list of the document,
/// by its id.
#[must_use]
pub fn code_of(document: &Document, list: &str, id: &str) -> Option<String> {
    let all = parts(&document.to_text());
    let item = all.get(list)?.as_array()?.iter().find(|item| key(item) == id)?;
    let plain = plain();
    let usual = plain.get(list).and_then(|items| items.get(0));
    let item = usual.map_or_else(|| Some(item.clone()), |usual| without(item, usual))?;
    let mut shop = Map::new();
    shop.insert(list.to_owned(), Value::Array(vec![item]));
    shop.insert("version".to_owned(), all.get("version")?.clone());
    let mut bytes = shortened(&Value::Object(shop).to_string());
    bytes.extend(sum(&bytes).to_be_bytes());
    Some(letters(&bytes))
}

/// Reads a code, or the link that ends in one, as it was scanned or pasted.
///
/// # Errors
/// A sentence: for what is no code or not all of one, and as [`incoming::read`].
pub fn read(pasted: &str) -> Result<Document, String> {
    let code = pasted.rsplit('#').next().unwrap_or_default();
    if code.len() > LONGEST {
        return Err(format!("This is no code: it has more than {LONGEST} letters."));
    }
    let not_whole = "This is no code of a Handwheel, or not all of one.";
    let mut bytes = bytes_of(code).ok_or(not_whole)?;
    let Some(place) = bytes.len().checked_sub(2).filter(|place| *place > 0) else {
        return Err(not_whole.to_owned());
    };
    let told = bytes.split_off(place);
    if sum(&bytes).to_be_bytes() != told[..] {
        return Err(not_whole.to_owned());
    }
    let text = lengthened(&bytes).ok_or(not_whole)?;
    let mut shop: Map<String, Value> = serde_json::from_str(&text).map_err(|_| not_whole)?;
    let plain = plain();
    for (list, items) in &mut shop {
        let usual = plain.get(list).and_then(|items| items.get(0));
        if let (Some(items), Some(usual)) = (items.as_array_mut(), usual) {
            items.iter_mut().for_each(|item| fill(item, usual));
        }
    }
    let mut whole = parts(&Document::default().to_text());
    whole.append(&mut shop);
    incoming::read(&Value::Object(whole).to_string())
}

/// More than the largest picture of squares holds.
const LONGEST: usize = 5_000;

/// One thing of each list, with nothing said of it but what is usual.
fn plain() -> Map<String, Value> {
    let mut shop = Document::default();
    shop.add_machine(MachineForm::default());
    shop.add_cutter(CutterForm::default(), Holding::default());
    shop.favorites.push(Favorite::default());
    parts(&shop.to_text())
}

/// What is said of a thing beyond the usual; nothing where there is nothing.
fn without(value: &Value, usual: &Value) -> Option<Value> {
    match (value, usual) {
        _ if value == usual => None,
        (Value::Object(value), Value::Object(usual)) => {
            let said = value.iter().filter_map(|(name, value)| {
                let said = match usual.get(name) {
                    Some(usual) => without(value, usual)?,
                    None => value.clone(),
                };
                Some((name.clone(), said))
            });
            Some(Value::Object(said.collect()))
        }
        (Value::Array(items), Value::Array(usual)) if !usual.is_empty() => {
            let nothing = || Value::Object(Map::new());
            let said = items.iter().map(|item| without(item, &usual[0]).unwrap_or_else(nothing));
            Some(Value::Array(said.collect()))
        }
        _ => Some(value.clone()),
    }
}

/// The opposite of [`without`].
fn fill(value: &mut Value, usual: &Value) {
    match (value, usual) {
        (Value::Object(value), Value::Object(usual)) => {
            for (name, usual) in usual {
                match value.get_mut(name) {
                    Some(value) => fill(value, usual),
                    None => {
                        value.insert(name.clone(), usual.clone());
                    }
                }
            }
        }
        (Value::Array(items), Value::Array(usual)) => {
            if let Some(usual) = usual.first() {
                items.iter_mut().for_each(|item| fill(item, usual));
            }
        }
        _ => {}
    }
}

fn shortened(text: &str) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut rest = text;
    while let Some(next) = rest.chars().next() {
        let words = WORDS.iter().enumerate().filter(|(_, word)| rest.starts_with(**word));
        if let Some((place, word)) = words.max_by_key(|(_, word)| word.len()) {
            bytes.push(byte_of(place));
            rest = &rest[word.len()..];
        } else {
            bytes.extend(&rest.as_bytes()[..next.len_utf8()]);
            rest = &rest[next.len_utf8()..];
        }
    }
    bytes
}

fn lengthened(bytes: &[u8]) -> Option<String> {
    let mut text = Vec::new();
    for byte in bytes {
        match (0..WORDS.len()).find(|place| byte_of(*place) == *byte) {
            Some(place) => text.extend(WORDS[place].as_bytes()),
            None => text.push(*byte),
        }
    }
    String::from_utf8(text).ok()
}

/// CRC-16 with the polynomial of ITU-T V.41.
fn sum(bytes: &[u8]) -> u16 {
    bytes.iter().fold(0xFFFF, |sum, byte| {
        (0..8).fold(sum ^ (u16::from(*byte) << 8), |sum, _| {
            if sum & 0x8000 == 0 { sum << 1 } else { (sum << 1) ^ 0x1021 }
        })
    })
}

const LETTERS: &[u8; 32] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

fn letters(bytes: &[u8]) -> String {
    let mut text = String::new();
    for five in bytes.chunks(5) {
        let mut held = [0; 8];
        held[3..3 + five.len()].copy_from_slice(five);
        let bits = u64::from_be_bytes(held);
        for place in 0..(five.len() * 8).div_ceil(5) {
            let letter = (bits >> (35 - 5 * place)) & 31;
            text.push(char::from(LETTERS[usize::try_from(letter).unwrap_or_default()]));
        }
    }
    text
}

/// The bytes of a code; blanks in it and small letters do no harm.
fn bytes_of(code: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let (mut held, mut bits) = (0_u32, 0);
    for c in code.chars().filter(|c| !c.is_whitespace()) {
        let c = u8::try_from(c.to_ascii_uppercase()).ok()?;
        let letter = LETTERS.iter().position(|letter| *letter == c)?;
        held = (held << 5) | u32::try_from(letter).ok()?;
        bits += 5;
        if bits >= 8 {
            bits -= 8;
            bytes.push(u8::try_from((held >> bits) & 0xFF).ok()?);
        }
    }
    Some(bytes)
}

/// A code as a picture of squares (ISO/IEC 18004).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Squares along an edge, with the empty ones around it.
    pub side: usize,
    /// The dark squares as the path of a drawing, one unit each.
    pub path: String,
}

/// Squares of every edge that stay empty, as the standard wants it.
const QUIET: usize = 4;

/// Draws the link that opens a code on another phone. A quarter of the picture may be under oil,
/// less where it would get too fine for a camera.
#[must_use]
pub fn picture(address: &str, code: &str) -> Option<Picture> {
    let parts = [QrSegment::make_bytes(address.as_bytes()), QrSegment::make_alphanumeric(code)];
    // 97 squares are some 3.4 pixels each on a small phone.
    let drawn = encode(&parts, QrCodeEcc::Quartile, 20)
        .or_else(|_| encode(&parts, QrCodeEcc::Medium, 25))
        .ok()?;
    let size = drawn.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let dark = (x..size).take_while(|x| drawn.get_module(*x, y)).count();
            if dark > 0 {
                let (left, top) = (x + 4, y + 4);
                path.push_str(&format!("M{left} {top}h{dark}v1h-{dark}z"));
            }
            x += i32::try_from(dark).unwrap_or(size) + 1;
        }
    }
    Some(Picture { side: usize::try_from(size).ok()? + 2 * QUIET, path })
}

fn encode(parts: &[QrSegment], level: QrCodeEcc, most: u8) -> Result<QrCode, DataTooLong> {
    QrCode::encode_segments_advanced(parts, level, Version::MIN, Version::new(most), None, true)
}
