//! Everything goes without a finger: Tab, Enter, arrows and digits.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use crate::screen::{DESK, SMALL_PHONE};
use serde_json::json;
use thirtyfour::Key;

tests![
    from_an_empty_device_to_an_answer_by_keyboard,
    the_last_cut_and_a_favorite_open_by_keyboard,
    a_new_answer_by_keyboard,
    the_focus_is_seen_and_never_covered,
];

async fn enter(page: &Page, name: &str) {
    page.tab_to(name).await;
    page.press(Key::Enter).await;
}

/// Types a number into a field and closes its pad.
async fn fill(page: &Page, field: &str, text: &str) {
    page.tab_to(field).await;
    page.type_text(text).await;
    page.press(Key::Enter).await;
}

async fn from_an_empty_device_to_an_answer_by_keyboard(page: Page) {
    page.hold(SMALL_PHONE).await;
    page.open("/").await;
    enter(&page, "Your mill in four questions").await;
    page.sees("Question 1 of 4").await;
    page.tab_to("What you call it").await;
    page.type_text("My mill").await;
    page.tab_to("Knee mill").await;
    enter(&page, "Next").await;
    page.sees("Question 2 of 4").await;
    page.tab_to("Speeds, slowest first").await;
    page.type_text("70 115 190 310 560 930 1540 2560").await;
    page.press(Key::Enter).await;
    enter(&page, "Next").await;
    page.sees("Question 3 of 4").await;
    fill(&page, "One turn of the handwheel", "0.2").await;
    enter(&page, "Next").await;
    page.sees("Question 4 of 4").await;
    enter(&page, "I don't know").await;
    page.sees("My mill").await;

    enter(&page, "Cut").await;
    page.sees("What will you do?").await;
    enter(&page, "Slot").await;
    page.sees("In what stock?").await;
    page.tab_to("Search").await;
    page.type_text("6061").await;
    enter(&page, "6061-T6").await;
    page.sees("With which cutter?").await;
    fill(&page, "Diameter", "1/4").await;
    enter(&page, "Next").await;
    page.sees("How wide, how deep?").await;
    fill(&page, "Whole depth", "0.1").await;
    enter(&page, "Next").await;
    page.sees("Holding and coolant").await;
    enter(&page, "Show the answer").await;
    page.sees("a turn").await;
    let speed = page.js("return document.querySelector('[data-result=key]').innerText").await;
    assert_eq!(speed, json!("2560"));
}

async fn the_last_cut_and_a_favorite_open_by_keyboard(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    enter(&page, "Last cut").await;
    page.sees("Switch to FWD").await;
    enter(&page, "in mm").await;
    page.sees("mm/min").await;
    enter(&page, "Back").await;
    page.sees("On the mill").await;
    enter(&page, "Favorites").await;
    enter(&page, "Focuser slot, 3 mm").await;
    page.sees("Switch to FWD").await;
    // The field counts in inches, as it was typed first; a unit that is typed wins.
    fill(&page, "Whole depth", "1.2 mm").await;
    page.sees("1.200 mm").await;
    enter(&page, "Save this cut").await;
    page.sees("Saved").await;
}

async fn a_new_answer_by_keyboard(page: Page) {
    page.hold(DESK).await;
    open_the_sample(&page).await;
    page.open("/").await;
    enter(&page, "Cut").await;
    enter(&page, "Side cut").await;
    enter(&page, "Plain low-carbon steel").await;
    enter(&page, "3/8 end mill, 4 flutes").await;
    page.sees("Side cut in").await;
    enter(&page, "1/4 D").await;
    page.tab_to("Climb").await;
    page.sees("with the cutter").await;
    enter(&page, "Your own figures").await;
    fill(&page, "Surface speed", "80").await;
    page.sees("As wanted: 80.0 ft/min").await;
}

/// Tab goes through every page; what has the focus shows it, and neither head nor bar lies over it.
async fn the_focus_is_seen_and_never_covered(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    for place in [
        "/",
        "/?change=stock",
        "/?change=cutter",
        crate::places::SIDE,
        "/cut?next=measures&op=side&d_in=1/2",
        "/convert?line_in=.1875%2B.030",
        "/shop",
        "/shop?machine=knee_mill",
        "/shop?settings",
        "/favorites",
        "/about",
    ] {
        crate::places::open_wide(&page, place).await;
        let mut stops = 0;
        let mut first = json!(null);
        loop {
            page.press(Key::Tab).await;
            page.frame().await;
            let found = page.js(FOCUS).await;
            if found["end"] == json!(true) || stops > 0 && found["path"] == first {
                break;
            }
            if stops == 0 {
                first = found["path"].clone();
            }
            stops += 1;
            assert_eq!(found["trouble"], json!(null), "{place}");
            assert!(stops < 200, "the focus does not come to an end on {place}");
        }
        assert!(stops > 2, "the focus stops {stops} times on {place}");
    }
}

/// What has the focus: its place among all elements, and what is wrong with how it shows.
const FOCUS: &str = "
    const e = document.activeElement;
    if (!e || e == document.body) return { end: true };
    const path = [...document.querySelectorAll('*')].indexOf(e);
    const box = e.getBoundingClientRect(), style = getComputedStyle(e);
    const name = (e.ariaLabel || e.labels?.[0]?.innerText || e.innerText || e.id).trim().slice(0, 40);
    const ring = parseFloat(style.outlineWidth);
    if (style.outlineStyle == 'none' || ring < 3)
        return { path, trouble: `“${name}” has the focus and no ring` };
    const meets = (a, b) => a.left < b.right - 1 && b.left < a.right - 1
        && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    for (const cover of document.querySelectorAll('.page-head, .page-bar, .pad, .stay')) {
        if (cover.contains(e) || !cover.checkVisibility()) continue;
        const by = cover.getBoundingClientRect();
        if (by.height && meets(box, by) && getComputedStyle(cover).position != 'static')
            return { path, trouble: `“${name}” is covered by .${cover.className}` };
    }
    if (box.top < 0 && box.bottom > innerHeight) return { path };
    if (box.top < -1 || box.bottom > innerHeight + 1)
        return { path, trouble: `“${name}” has the focus out of sight: ${box.top} to ${box.bottom}` };
    return { path };
";
