//! The converter: what is typed on its pad or a keyboard, what it means, and where it goes.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use crate::screen::{PHONE, SMALL_PHONE};
use serde_json::json;
use std::time::Duration;
use thirtyfour::Key;

tests![
    twenty_lines_by_touch,
    twenty_lines_by_keyboard,
    a_line_is_one_tap_away_and_means_everything_at_once,
    what_cannot_be_read_is_marked_and_shows_no_number,
    ten_kilobytes_of_text_do_no_harm,
    a_line_swaps_and_goes_to_the_cut,
    earlier_lines_survive_a_restart,
    a_link_opens_its_line_and_back_undoes,
    other_quantities_are_a_tile_each,
    hardness_is_approximate_and_for_steel_alone,
    blocks_stack_and_the_readout_speaks,
];

/// A line as a shop writes it, and its largest number with the unit.
const LINES: [(&str, &str); 20] = [
    ("1.375", "34.925 mm"),
    ("1 3/8", "34.925 mm"),
    ("1-3/8", "34.925 mm"),
    ("3/8", "9.525 mm"),
    (".5+1/64", "13.097 mm"),
    ("25.4mm-.5in", "0.50000 in"),
    ("2*(3/16)+.030", "10.287 mm"),
    ("60mm/2", "1.18110 in"),
    ("#25", "3.797 mm"),
    ("#7", "5.105 mm"),
    ("F", "6.528 mm"),
    ("Z", "10.490 mm"),
    ("10thou", "0.254 mm"),
    ("2tenths", "0.00508 mm"),
    ("5µm", "0.0001969 in"),
    ("-.1", "-2.540 mm"),
    ("1.25±.002", "31.750 mm"),
    ("100/2.54", "1000.000 mm"),
    ("5ft3in", "1600.200 mm"),
    ("(1 1/2+.25)*2", "88.900 mm"),
];

/// What the largest number says.
async fn says(page: &Page) -> String {
    let said = page
        .js("return document.querySelector('.converted .big-line')?.innerText.replace(/\\s+/g, ' ')")
        .await;
    said.as_str().unwrap_or_default().trim().to_owned()
}

async fn comes_to(page: &Page, wanted: &str, line: &str) {
    for _ in 0..60 {
        if says(page).await == wanted {
            return;
        }
        page.frame().await;
    }
    panic!("“{line}” comes to {} and not to {wanted}", says(page).await);
}

/// The keys of the pad for a line, the turns to its other faces among them.
fn keys(line: &str) -> Vec<String> {
    const SIGNS: &str = "+ − …";
    let mut keys = Vec::new();
    let mut rest = line;
    let mut push = |names: &[&str]| keys.extend(names.iter().map(|name| (*name).to_owned()));
    while let Some(c) = rest.chars().next() {
        let unit = ["thou", "tenths", "µm", "mm", "in", "ft"];
        if let Some(unit) = unit.into_iter().find(|unit| rest.starts_with(unit)) {
            push(&[SIGNS, unit, "1 2 3"]);
            rest = &rest[unit.len()..];
            continue;
        }
        match c {
            '.' => push(&["point"]),
            '/' => push(&["stroke of a fraction"]),
            ' ' => push(&["space"]),
            '+' => push(&[SIGNS, "plus"]),
            '-' => push(&[SIGNS, "minus"]),
            '*' => push(&[SIGNS, "times"]),
            '(' | ')' => push(&[SIGNS, "bracket"]),
            '±' => push(&[SIGNS, "plus or minus"]),
            '#' => push(&[SIGNS, "drills", "number of a drill"]),
            'A'..='M' => push(&[SIGNS, "drills", &c.to_string()]),
            'N'..='Z' => push(&[SIGNS, "drills", "N – Z", &c.to_string()]),
            digit => push(&[&digit.to_string()]),
        }
        rest = &rest[c.len_utf8()..];
    }
    keys
}

async fn twenty_lines_by_touch(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    page.open("/").await;
    page.tap("Convert").await;
    for (n, (line, wanted)) in LINES.into_iter().enumerate() {
        if n > 0 {
            page.tap("Length").await;
            page.tap_in("Number pad for Length", "+ − …").await;
            page.tap_in("Number pad for Length", "clear").await;
            page.tap_in("Number pad for Length", "1 2 3").await;
        }
        for key in keys(line) {
            page.tap_in("Number pad for Length", &key).await;
            tokio::time::sleep(Duration::from_millis(85)).await;
        }
        comes_to(&page, wanted, line).await;
        assert!(page.in_view(".converted [data-result=key]").await, "{line} hides what it means");
        page.tap_in("Number pad for Length", "done").await;
        page.waits_for("the closed pad", "return !document.querySelector('.pad')").await;
        comes_to(&page, wanted, line).await;
    }
}

async fn twenty_lines_by_keyboard(page: Page) {
    page.hold(PHONE).await;
    open_the_sample(&page).await;
    page.open("/convert").await;
    page.waits_for("the pad", "return !!document.querySelector('.pad')").await;
    for (line, wanted) in LINES {
        page.write("Length", "").await;
        page.press(Key::Backspace).await;
        page.type_text(line).await;
        comes_to(&page, wanted, line).await;
        page.press(Key::Enter).await;
        page.waits_for("the closed pad", "return !document.querySelector('.pad')").await;
    }
}

async fn a_line_is_one_tap_away_and_means_everything_at_once(page: Page) {
    page.hold(PHONE).await;
    open_the_sample(&page).await;
    page.open("/").await;
    page.count_from_here();
    page.tap("Convert").await;
    page.key_in("0.15").await;
    comes_to(&page, "3.810 mm", "0.15").await;
    assert_eq!(page.taps(), 1);
    page.tap("done").await;
    for text in ["0.1500 in", "5/32 in", "0.0063 over", "3.8 mm", "#24", "0.0020 in over"] {
        page.sees(text).await;
    }
    let drawn = page.js("return document.querySelector('.number-line').ariaLabel").await;
    let drawn = drawn.as_str().expect("words for the picture");
    assert!(drawn.contains("9/64 and 5/32") && drawn.contains("3.8 mm and #24"), "{drawn}");
    page.passes_axe().await;
    page.shot("convert").await;
}

async fn what_cannot_be_read_is_marked_and_shows_no_number(page: Page) {
    open_the_sample(&page).await;
    page.open("/convert?line_in=1").await;
    for (line, marked, problem) in [
        ("1.2.3", ".", "one point"),
        ("1/0", "0", "divided by zero"),
        ("1/(2-2)", "(2-2)", "divided by zero"),
        ("#98", "#98", "There is no drill #98"),
        ("1 - 3/8", "1 - 3/8", "mixed number or a subtraction"),
        ("1,250", "1,250", "two ways"),
        ("60mm+.5", ".5", "has no unit"),
        ("1 in + 30°", "°", "unit of angle"),
        ("9999999", "9999999", "too large"),
        ("999999*999999", "999999*999999", "too large"),
        ("0.0000000001", "0.0000000001", "less than any shop"),
        ("2*", "*", "number is missing"),
        ("(1+2", "(", "not closed"),
        ("3 mil", "mil", "thousandth of an inch or a millimetre"),
        ("10-32", "10-32", "thread or a subtraction"),
        ("NaN", "NaN", "does not begin"),
        ("1e309", "e309", "not a unit"),
        ("🔩", "🔩", "does not begin"),
    ] {
        page.write("Length", line).await;
        page.press(Key::Escape).await;
        page.sees(problem).await;
        let shown = page.js("return document.querySelector('.field-marked mark')?.innerText").await;
        assert_eq!(shown, json!(marked), "{line}");
        assert_eq!(says(&page).await, "–", "{line}");
        let text = page.text().await.replace("NaN", "");
        assert!(!text.contains("inf") && !text.contains("undefined"), "{line}: {text}");
        let hint = page.js("return document.querySelector('.error').innerText").await;
        assert!(hint.as_str().is_some_and(|hint| hint.ends_with('.')), "{line}: {hint}");
    }
    // The pad says it too, and keeps open.
    page.write("Length", "3/").await;
    page.press(Key::Enter).await;
    page.sees("Below the stroke").await;
    assert_eq!(page.js("return document.querySelector('.pad mark').innerText").await, json!("/"));
}

async fn ten_kilobytes_of_text_do_no_harm(page: Page) {
    open_the_sample(&page).await;
    page.open("/convert?line_in=1").await;
    for piece in ["1", "(", "1 3/8+", "a note of the drawing ", "½é🔩"] {
        let text = piece.repeat(10_000 / piece.len());
        page.write("Length", &text).await;
        page.press(Key::Escape).await;
        page.sees("too long to be a number").await;
        assert_eq!(says(&page).await, "–");
    }
    page.write("Length", "1").await;
    comes_to(&page, "25.400 mm", "1").await;
    page.open("/").await;
    page.open("/convert").await;
    assert_eq!(page.heading().await, "Convert");
}

async fn a_line_swaps_and_goes_to_the_cut(page: Page) {
    page.hold(PHONE).await;
    open_the_sample(&page).await;
    page.open("/convert?line_in=3/8").await;
    page.tap("Swap").await;
    comes_to(&page, "0.37500 in", "9.525 mm").await;
    assert_eq!(page.value_of("Length").await, "9.525");
    // Sooner it would be the first tap bouncing.
    tokio::time::sleep(Duration::from_millis(450)).await;
    page.tap("Swap").await;
    comes_to(&page, "9.525 mm", "0.375 in").await;
    page.tap("Copy").await;
    page.sees("9.525 mm").await;
    page.tap("Use as diameter").await;
    page.sees("Slot in").await;
    let place = page.place().await;
    assert!(place.starts_with("/cut?") && place.contains("d_in=0.375"), "{place}");
    page.open("/convert?line_in=%2325").await;
    page.tap("Use as diameter").await;
    page.sees("Slot in").await;
    assert!(page.place().await.contains("d_in=%2325"), "{}", page.place().await);
}

async fn earlier_lines_survive_a_restart(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    page.tap("Convert").await;
    for line in ["1.375", "60mm/2"] {
        page.write("Length", line).await;
        page.press(Key::Enter).await;
        page.waits_for("the closed pad", "return !document.querySelector('.pad')").await;
    }
    page.waits_for(
        "the saved line",
        "return localStorage[localStorage['handwheel/current']].includes('60mm/2')",
    )
    .await;
    page.open("/convert").await;
    page.press(Key::Escape).await;
    page.tap("Earlier lines").await;
    page.sees("= 34.925 mm").await;
    page.tap("60mm/2").await;
    comes_to(&page, "1.18110 in", "60mm/2").await;
}

async fn a_link_opens_its_line_and_back_undoes(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    page.open("/convert?line_mm=10").await;
    comes_to(&page, "0.39370 in", "10").await;
    page.write("Length", "20").await;
    page.press(Key::Escape).await;
    page.waits_for("the address", "return location.search == '?line_mm=20'").await;
    page.back().await;
    comes_to(&page, "0.39370 in", "10").await;
    page.reload().await;
    comes_to(&page, "0.39370 in", "10").await;
}

async fn other_quantities_are_a_tile_each(page: Page) {
    open_the_sample(&page).await;
    page.open("/convert?line_in=1").await;
    page.tap("Other quantities").await;
    let mut chosen = "Length";
    for (tile, line, big) in [
        ("Angle, slope", "30.2575", "30° 15' 27\""),
        ("Surface speed", "100", "30.48 m/min"),
        ("Feed rate", "10", "254.0 mm/min"),
        ("Feed per tooth, turn", "2thou", "0.0508 mm"),
        ("Removal rate", "1", "16.387 cm³/min"),
        ("Power", "1", "745.7 W"),
        ("Torque", "1 lbf ft", "1.356 N m"),
        ("Force", "1", "4.448 N"),
        ("Pressure, stress", "1000", "6.8948 N/mm²"),
        ("Mass", "1", "0.4536 kg"),
        ("Temperature", "-40", "-40.0 °C"),
        ("Volume", "1 gal", "3785.412 cm³"),
        ("Flow", "1", "3.785 L/min"),
    ] {
        page.tap_in(&format!("Quantity: {chosen}"), tile).await;
        chosen = tile;
        // The line has the focus at once.
        page.waits_for("the pad", "return !!document.querySelector('.pad')").await;
        page.type_text(line).await;
        page.press(Key::Escape).await;
        comes_to(&page, big, line).await;
    }
    page.passes_axe().await;
}

async fn hardness_is_approximate_and_for_steel_alone(page: Page) {
    open_the_sample(&page).await;
    page.open("/convert?of=hardness&scale=hrc&line_in=45").await;
    for text in ["421 HB", "446 HV", "73.1 HRA", "Approximate", "ASTM E140"] {
        page.sees(text).await;
    }
    page.tap("Austenitic stainless").await;
    page.sees("do not hold for austenitic").await;
    page.sees_no("446 HV").await;
    page.tap("Carbon, alloy or tool steel").await;
    page.write("Hardness", "70").await;
    page.press(Key::Escape).await;
    page.sees("from 20 to 68 HRC").await;
}

async fn blocks_stack_and_the_readout_speaks(page: Page) {
    open_the_sample(&page).await;
    page.open("/convert?line_in=1.3437").await;
    page.tap("Blocks and parallels").await;
    page.sees("exactly").await;
    page.tap("10 parallels").await;
    page.sees("1 piece, 0.03130 in over").await;
    page.tap("What the readout says").await;
    page.sees("1.3435 in").await;
    page.sees("0.00020 in under").await;
    page.tap("0.01 mm").await;
    page.sees("34.130 mm").await;
}
