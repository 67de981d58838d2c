//! Targets that a knuckle, an oily thumb and a glove can hit, and digits that can be read at arm's
//! length: the table of sizes, gaps, letters and contrasts, measured in the browser.

use crate::axe::paint;
use crate::page::Page;
use crate::places::{
    DRILL, EMPTY, FACE, FAULTY, OVER, SAMPLE, SIDE, SLOT, open_the_sample, open_wide, unfold,
};
use crate::runner::tests;
use crate::screen::{
    DESK, PHONE, PHONE_SIDEWAYS, SMALL_PHONE, SMALLEST_PHONE, Screen, TABLET, TABLET_SIDEWAYS,
};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;
use std::time::Duration;

tests![
    targets_and_letters_on_a_small_phone,
    targets_and_letters_on_a_phone_on_its_side,
    targets_and_letters_on_an_empty_device,
    targets_and_letters_in_every_pair_of_the_rest,
    the_number_pad_on_every_screen,
    what_asks_twice_keeps_its_distance,
    colours_and_gloves_are_one_tap_and_stay,
    the_system_chooses_the_colours_when_asked,
    two_taps_on_a_control_are_one_deed,
    two_taps_on_a_digit_are_two_digits,
    a_page_that_appears_is_deaf_for_a_moment,
    a_finger_that_slides_off_does_nothing,
    a_mouse_that_slides_off_does_nothing,
    the_answer_is_in_view_after_the_last_entry,
    nothing_moves_while_a_number_is_typed,
    the_longest_numbers_fit,
    nothing_needs_a_hover_a_slider_or_a_zoom,
];

/// A way to hold and set the app.
#[derive(Clone, Copy, Debug)]
struct Set {
    screen: Screen,
    theme: &'static str,
    gloves: bool,
    /// The person's own text size in percent.
    text: u32,
}

impl Set {
    const fn plain(screen: Screen) -> Self {
        Set { screen, theme: "dark", gloves: false, text: 100 }
    }
}

async fn hold(page: &Page, set: Set) {
    page.text_size(set.text).await;
    let gloves =
        if set.gloves { "dataset.gloves = 'on'" } else { "removeAttribute('data-gloves')" };
    page.js(&format!("document.documentElement.{gloves}")).await;
    paint(page, set.theme).await;
    page.hold(set.screen).await;
    page.frame().await;
}

/// Everything of the table that stands wrong on the page as it is.
async fn measure(page: &Page, set: Set) -> Vec<String> {
    let found =
        page.js_with(MEASURE, vec![json!(set.screen.width), json!(set.gloves), json!(false)]).await;
    found.as_array().expect("a list").iter().filter_map(Value::as_str).map(str::to_owned).collect()
}

/// Fails with everything that stands wrong, each once with where.
#[track_caller]
fn none(found: Vec<(String, String)>) {
    if found.is_empty() {
        return;
    }
    let mut lines: Vec<String> = Vec::new();
    for (wrong, place) in found {
        match lines.iter_mut().find(|line| line.starts_with(&wrong)) {
            Some(line) => *line += &format!(", {place}"),
            None => lines.push(format!("{wrong}\n        on {place}")),
        }
    }
    panic!("{} things stand wrong:\n    {}", lines.len(), lines.join("\n    "));
}

async fn measure_places(page: &Page, places: &[&str], set: Set) {
    page.hold(set.screen).await;
    let mut found = Vec::new();
    for place in places {
        open_wide(page, place).await;
        hold(page, set).await;
        let short: String = place.chars().take(24).collect();
        found.extend(measure(page, set).await.into_iter().map(|wrong| (wrong, short.clone())));
    }
    none(found);
}

async fn targets_and_letters_on_a_small_phone(page: Page) {
    open_the_sample(&page).await;
    measure_places(&page, SAMPLE, Set::plain(SMALL_PHONE)).await;
}

async fn targets_and_letters_on_a_phone_on_its_side(page: Page) {
    open_the_sample(&page).await;
    measure_places(&page, SAMPLE, Set::plain(PHONE_SIDEWAYS)).await;
}

async fn targets_and_letters_on_an_empty_device(page: Page) {
    measure_places(&page, EMPTY, Set::plain(SMALL_PHONE)).await;
    measure_places(&page, EMPTY, Set::plain(PHONE_SIDEWAYS)).await;
}

/// Each pair of a place, a screen, colours, gloves and text sizes comes up at least once.
async fn targets_and_letters_in_every_pair_of_the_rest(page: Page) {
    const SCREENS: [Screen; 6] = [SMALLEST_PHONE, PHONE, TABLET, DESK, SMALL_PHONE, PHONE_SIDEWAYS];
    const THEMES: [&str; 3] = ["dark", "light", "contrast"];
    let mut pairs = BTreeSet::new();
    let mut found = Vec::new();
    open_the_sample(&page).await;
    for (p, place) in SAMPLE.iter().enumerate() {
        page.hold(PHONE).await;
        page.text_size(100).await;
        open_wide(&page, place).await;
        for (s, screen) in SCREENS.into_iter().enumerate() {
            let (t, g, x) = ((p + s) % 3, (p / 3 + s / 2 + s) % 2, (p + s / 3) % 2);
            let set = Set { screen, theme: THEMES[t], gloves: g == 1, text: [100, 200][x] };
            hold(&page, set).await;
            let short: String = place.chars().take(24).collect();
            let at = format!(
                "{short} ({}x{} {} {g} {})",
                screen.width, screen.height, THEMES[t], set.text
            );
            found.extend(measure(&page, set).await.into_iter().map(|wrong| (wrong, at.clone())));
            let value = [("place", p), ("screen", s), ("theme", t), ("gloves", g), ("text", x)];
            for (n, a) in value.iter().enumerate() {
                pairs.extend(value[n + 1..].iter().map(|b| (*a, *b)));
            }
        }
    }
    let counts = [SAMPLE.len(), 6, 3, 2, 2];
    let wanted: usize = (0..5).flat_map(|a| (a + 1..5).map(move |b| counts[a] * counts[b])).sum();
    // A place meets every screen once, and so not every text size with both gloves.
    assert_eq!(pairs.len(), wanted, "some pairs are left out");
    none(found);
}

async fn the_number_pad_on_every_screen(page: Page) {
    open_the_sample(&page).await;
    let mut found = Vec::new();
    for (n, screen) in
        [SMALL_PHONE, SMALLEST_PHONE, PHONE, PHONE_SIDEWAYS, TABLET, TABLET_SIDEWAYS, DESK]
            .into_iter()
            .enumerate()
    {
        for gloves in [false, true] {
            let set =
                Set { gloves, theme: ["dark", "light", "contrast"][n % 3], ..Set::plain(screen) };
            page.hold(screen).await;
            page.open(SLOT).await;
            hold(&page, set).await;
            page.tap("Whole depth").await;
            let at = format!("{}x{} gloves {gloves}", screen.width, screen.height);
            // Every face of the pad, and the ways from one to the next.
            let turns: &[&str] = if gloves {
                &["", "/ in mm", "units", "drills", "H – O", "P – W", "X – Z"]
            } else {
                &["", "+ − …", "drills", "N – Z"]
            };
            for turn in turns {
                if !turn.is_empty() {
                    page.tap_in("Number pad for Whole depth", turn).await;
                }
                let wrong = page
                    .js_with(MEASURE, vec![json!(screen.width), json!(gloves), json!(true)])
                    .await;
                let wrong = wrong.as_array().expect("a list").iter().filter_map(Value::as_str);
                found.extend(wrong.map(|w| (w.to_owned(), format!("{at} {turn}"))));
            }
            page.shot(&format!("pad-{}-{gloves}", screen.width)).await;
        }
    }
    none(found);
}

async fn what_asks_twice_keeps_its_distance(page: Page) {
    open_the_sample(&page).await;
    let mut found = Vec::new();
    for gloves in [false, true] {
        let set = Set { gloves, ..Set::plain(SMALL_PHONE) };
        for (place, ask) in [
            ("/shop?machine=knee_mill", "Remove this mill"),
            ("/shop?cutter=3_mm_end_mill_2_flutes", "Remove this cutter"),
            ("/shop?settings", "Remove everything"),
        ] {
            page.hold(set.screen).await;
            page.open(place).await;
            page.tap(ask).await;
            page.sees("Keep it").await;
            unfold(&page).await;
            hold(&page, set).await;
            found.extend(measure(&page, set).await.into_iter().map(|w| (w, place.to_owned())));
        }
        page.open("/favorites").await;
        page.tap("Change “Focuser slot, 3 mm”").await;
        page.tap("Remove it").await;
        page.sees("Undo").await;
        unfold(&page).await;
        hold(&page, set).await;
        found.extend(measure(&page, set).await.into_iter().map(|w| (w, "undo".to_owned())));
        page.tap("Undo").await;
    }
    none(found);
}

async fn colours_and_gloves_are_one_tap_and_stay(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop?settings").await;
    for (label, theme) in
        [("Light", "light"), ("High contrast", "contrast"), ("As the phone", "system")]
    {
        page.tap(label).await;
        let set = format!("return document.documentElement.dataset.theme == '{theme}'");
        page.waits_for(label, &set).await;
    }
    page.tap("Larger targets for gloves").await;
    page.waits_for("gloves", "return document.documentElement.dataset.gloves == 'on'").await;
    page.waits_for(
        "the saved gloves",
        "return localStorage[localStorage['handwheel/current']].includes('\"gloves\":true')",
    )
    .await;
    page.open("/").await;
    let kept =
        "return [document.documentElement.dataset.theme, document.documentElement.dataset.gloves]";
    assert_eq!(page.js(kept).await, json!(["system", "on"]));
}

async fn the_system_chooses_the_colours_when_asked(page: Page) {
    page.open("/").await;
    paint(&page, "system").await;
    let ground = "return getComputedStyle(document.documentElement).backgroundColor";
    let mut grounds = BTreeSet::new();
    for wishes in [
        &[("prefers-color-scheme", "light")][..],
        &[("prefers-color-scheme", "dark")],
        &[("prefers-color-scheme", "dark"), ("prefers-contrast", "more")],
        &[("prefers-color-scheme", "light"), ("prefers-contrast", "more")],
    ] {
        page.prefer(wishes).await;
        grounds.insert(page.js(ground).await.to_string());
        page.passes_axe().await;
    }
    assert_eq!(grounds.len(), 4, "{grounds:?}");
}

async fn two_taps_on_a_control_are_one_deed(page: Page) {
    let bounce = Duration::from_millis(150);
    open_the_sample(&page).await;
    page.open(&SLOT.replace("0.060", "0.050")).await;
    page.tap_twice("Cut for stock removal", bounce).await;
    page.sees("size and finish").await;
    tokio::time::sleep(Duration::from_millis(450)).await;
    page.tap("Cut for size and finish").await;
    page.sees("stock removal").await;

    page.tap_twice("Save this cut", bounce).await;
    page.sees("Saved").await;
    let kept = "return document.querySelectorAll('.page-main > section').length";
    page.open("/favorites").await;
    assert_eq!(page.js(kept).await, json!(2));

    page.open("/shop").await;
    page.tap_twice("Add a cutter", bounce).await;
    page.sees("Put it in the spindle").await;
    page.tap("Back").await;
    page.sees("The drawer of cutters").await;
    let drawer = "return document.querySelectorAll('a[href*=\"cutter=\"]').length";
    assert_eq!(page.js(drawer).await, json!(11));
}

async fn two_taps_on_a_digit_are_two_digits(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Whole depth").await;
    page.tap_twice("7", Duration::from_millis(90)).await;
    assert_eq!(page.value_of("Whole depth").await, "77");
    // A finger that bounces within 80 ms has struck once.
    tokio::time::sleep(Duration::from_millis(90)).await;
    page.tap_twice("1", Duration::ZERO).await;
    assert_eq!(page.value_of("Whole depth").await, "771");
    tokio::time::sleep(Duration::from_millis(90)).await;
    page.tap_twice("take the last sign away", Duration::from_millis(90)).await;
    assert_eq!(page.value_of("Whole depth").await, "7");
}

async fn a_page_that_appears_is_deaf_for_a_moment(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    page.open("/").await;
    // The second tap falls on whatever the new page has at this place.
    page.tap_twice("Favorites", Duration::from_millis(150)).await;
    page.sees("Focuser slot").await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    assert_eq!(page.place().await, "/favorites");
    page.open("/").await;
    page.tap_twice("Cut", Duration::from_millis(150)).await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    assert_eq!(page.heading().await, "What will you do?");
    // What lay under the key that closed the pad is deaf, too.
    page.open(SLOT).await;
    let before = page.place().await;
    page.tap("Whole depth").await;
    page.tap_twice("done", Duration::from_millis(150)).await;
    tokio::time::sleep(Duration::from_millis(600)).await;
    assert_eq!(page.place().await, before);
    page.sees("Saved").await;
}

/// What is tried: where, the control, and what must not have come about.
const SLIDES: &[(&str, &str)] = &[
    ("/", "Cut"),
    ("/", "Favorites"),
    ("/", "in mm"),
    ("/?change=mill", "Knee mill"),
    (SLOT, "1/2 D"),
    (SLOT, "Cut for stock removal"),
    (SLOT, "Flood"),
    (SLOT, "Cutter and holding"),
    (SLOT, "Show the working"),
    ("/cut?next=operation", "Side cut"),
    ("/cut?next=stock", "Grey cast iron"),
    ("/shop", "Add a mill"),
    ("/shop?machine=knee_mill", "Remove this mill"),
    ("/shop?settings", "Larger targets for gloves"),
    ("/shop?settings", "Light"),
    ("/favorites", "Focuser slot, 3 mm"),
];

async fn slide_off(page: Page) {
    open_the_sample(&page).await;
    let all = "return [location.href, document.body.innerText, document.documentElement.outerHTML,
        [...document.querySelectorAll('input')].map(i => i.checked + i.value).join(),
        document.querySelectorAll('details[open]').length].join('|')
        .replaceAll(/(aria-describedby|id|for|name)=\"[a-z]+-?[0-9]+\"/g, '')";
    for (place, control) in SLIDES {
        page.open(place).await;
        unfold_nothing(&page).await;
        let before = page.js(all).await;
        page.slide_on(control, 40.0).await;
        tokio::time::sleep(Duration::from_millis(100)).await;
        assert_eq!(page.js(all).await, before, "a slide on “{control}” did something on {place}");
        assert!(!page.heading().await.is_empty(), "{place}");
    }
}

/// Waits for the end of the page's first deaf moment.
async fn unfold_nothing(page: &Page) {
    page.js("return Promise.all(document.getAnimations().map(a => a.finished)).then(() => true)")
        .await;
}

async fn a_finger_that_slides_off_does_nothing(page: Page) {
    page.hold(SMALL_PHONE).await;
    slide_off(page).await;
}

async fn a_mouse_that_slides_off_does_nothing(page: Page) {
    page.hold(DESK).await;
    slide_off(page).await;
}

async fn the_answer_is_in_view_after_the_last_entry(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    for (place, field, digits) in [
        (SLOT, "Whole depth", "0.08"),
        (SLOT, "Travel along the slot", "2"),
        (SIDE, "Width of cut", "0.05"),
        (DRILL, "Depth of the hole", "0.4"),
        (FACE, "Length of the face", "3"),
        (OVER, "Whole depth", "0.05"),
        (FAULTY, "Whole depth", "0.05"),
    ] {
        page.open(place).await;
        page.tap(field).await;
        page.key_in(digits).await;
        in_view(&page, &format!("{field}, while it is typed")).await;
        page.tap("done").await;
        page.frame().await;
        in_view(&page, field).await;
    }
    for (own, digits) in [("Surface speed", "200"), ("Unit power", "1")] {
        page.open(SLOT).await;
        page.tap("Your own figures").await;
        page.enter(own, digits).await;
        in_view(&page, own).await;
    }
    // And at the end of the questions.
    page.open("/cut?next=holding&op=slot&mill=bench_mill&stock=al_6061&d_in=1/4&depth_in=0.1")
        .await;
    page.tap("Show the answer").await;
    page.sees("a turn").await;
    in_view(&page, "the questions").await;
}

/// The number to set lies within the screen, and nothing lies over it.
async fn in_view(page: &Page, after: &str) {
    let found = page
        .js("const key = document.querySelector('[data-result=key]');
             const box = key.getBoundingClientRect();
             const inside = box.top >= 0 && box.left >= 0 && box.bottom <= innerHeight
                 && box.right <= innerWidth;
             const free = [[0.1, 0.2], [0.5, 0.5], [0.9, 0.8]].every(([x, y]) => {
                 const top = document.elementFromPoint(box.left + x * box.width, box.top + y * box.height);
                 return top && (key.contains(top) || top.contains(key));
             });
             return [inside, free, box.top, box.bottom];")
        .await;
    assert!(
        found[0] == json!(true) && found[1] == json!(true),
        "the number to set is out of view after {after}: {found}"
    );
}

async fn nothing_moves_while_a_number_is_typed(page: Page) {
    open_the_sample(&page).await;
    for screen in [SMALL_PHONE, PHONE_SIDEWAYS] {
        page.hold(screen).await;
        for (place, field, digits) in [
            (SLOT, "Whole depth", "0.125"),
            (SLOT, "Travel along the slot", "12.5"),
            (SIDE, "Width of cut", "0.0625"),
            (SIDE, "Whole depth", "1/2"),
            (DRILL, "Depth of the hole", "1.25"),
        ] {
            page.open(place).await;
            page.tap(field).await;
            page.frame().await;
            page.js(WATCH).await;
            for digit in digits.chars() {
                page.js("window.places = whereAll()").await;
                page.key_in(&digit.to_string()).await;
                tokio::time::sleep(Duration::from_millis(100)).await;
                let moved = page.js("return [window.shift, moved()]").await;
                assert_eq!(
                    moved[0],
                    json!(0),
                    "{} moves at “{digit}” of “{digits}” in “{field}” on {} x {}",
                    moved[1],
                    screen.width,
                    screen.height
                );
            }
        }
    }
}

/// Adds up the browser's own measure of what moves, and tells what it was.
const WATCH: &str = "
    window.shift = 0;
    new PerformanceObserver(list => list.getEntries().forEach(e => window.shift += e.value))
        .observe({ type: 'layout-shift' });
    window.whereAll = () => new Map([...document.querySelectorAll('body *')]
        .map(e => [e, e.getBoundingClientRect()]));
    window.moved = () => [...whereAll()].filter(([e, now]) => {
        const was = places.get(e);
        return was && now.height && was.height && now.bottom > 0 && now.top < innerHeight
            && Math.hypot(now.x - was.x, now.y - was.y) > 2;
    }).map(([e, now]) => `${e.tagName} ${e.getAttribute('class')} `
        + `${places.get(e).x},${places.get(e).y} to ${now.x},${now.y}`);";

async fn the_longest_numbers_fit(page: Page) {
    open_the_sample(&page).await;
    for screen in [SMALLEST_PHONE, SMALL_PHONE, PHONE_SIDEWAYS] {
        page.hold(screen).await;
        for (place, field) in [
            (SLOT, "Whole depth"),
            ("/shop?machine=knee_mill", "One turn of the handwheel moves the table"),
        ] {
            for (text, metric) in [("-12 7/8", false), ("1234.5678", true)] {
                page.open(place).await;
                page.tap(field).await;
                page.write(field, text).await;
                if metric {
                    page.tap_in(&format!("Number pad for {field}"), "in mm").await;
                }
                let wrong = page
                    .js("return [...document.querySelectorAll('.field:not(.list) input, .pad-typed, button, summary')]
                             .filter(e => e.checkVisibility({ visibilityProperty: true }) && e.scrollWidth > e.clientWidth)
                             .map(e => `${e.className || e.id} ${e.innerText || e.value}: ${e.scrollWidth} in ${e.clientWidth}`);")
                    .await;
                assert_eq!(wrong, json!([]), "“{text}” on {} x {}", screen.width, screen.height);
            }
        }
    }
}

/// Reads the style sheets and the sources: what is not there needs no screen to be tried on.
async fn nothing_needs_a_hover_a_slider_or_a_zoom(_page: Page) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut wrong = Vec::new();
    for path in files(&root.join("style")).into_iter().chain(files(&root.join("src/ui"))) {
        let text = std::fs::read_to_string(&path).expect("a source");
        for bad in
            ["type=\"range\"", "type=\"number\"", "user-scalable", "maximum-scale", "ondblclick"]
        {
            if text.contains(bad) {
                wrong.push(format!("{} holds {bad}", path.display()));
            }
        }
        if path.extension().is_some_and(|e| e == "css") {
            for selector in hovers(&text) {
                let twin = |state: &str| text.contains(&selector.replace(":hover", state));
                if !twin(":active") && !twin(":focus-visible") {
                    wrong.push(format!("{} has {selector} alone", path.display()));
                }
            }
        }
    }
    let page = std::fs::read_to_string(root.join("public/index.html")).expect("the page");
    assert!(!page.contains("user-scalable") && !page.contains("maximum-scale"));
    assert!(wrong.is_empty(), "{wrong:#?}");
}

fn files(folder: &Path) -> Vec<std::path::PathBuf> {
    let entries = std::fs::read_dir(folder).expect("a folder").map(|e| e.expect("an entry").path());
    entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

/// Every selector that asks for a hover.
fn hovers(css: &str) -> Vec<String> {
    css.split(['{', '}', ',', ';'])
        .map(str::trim)
        .filter(|part| part.contains(":hover"))
        .map(str::to_owned)
        .collect()
}

/// The measurement itself.
const MEASURE: &str = include_str!("touch.js");
