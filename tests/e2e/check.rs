//! The check before a cut: what it says of a set-up, what it stores, and hands off the phone.

use crate::page::Page;
use crate::places::{CHECK_FACE, CHECK_G10, SLOT, open_the_sample};
use crate::runner::tests;
use serde_json::json;

tests![
    the_answer_leads_to_its_check_in_one_tap,
    a_face_in_the_low_range_is_switched_to_rev,
    glass_dust_is_not_blown_at,
    magnesium_gets_no_water,
    a_jog_test_is_stored,
    another_range_is_looked_at_again,
    a_check_ends_with_hands_off_and_its_record_is_kept,
    open_stops_are_named_and_noted,
    the_emergency_number_is_kept,
    without_a_mill_the_rest_is_checked,
];

/// How a row stands: "true" when it is ticked.
async fn row(page: &Page, words: &str) -> String {
    let script = "return [...document.querySelectorAll('.check-row')]
        .find(row => row.innerText.includes(arguments[0]))
        ?.querySelector('.check').getAttribute('aria-checked')";
    page.js_with(script, vec![json!(words)]).await.as_str().unwrap_or("no such row").to_owned()
}

/// Until a row stands like this.
async fn row_is(page: &Page, words: &str, wanted: &str) {
    for _ in 0..100 {
        if row(page, words).await == wanted {
            return;
        }
        page.frame().await;
    }
    panic!("“{words}” is {} and not {wanted}", row(page, words).await);
}

/// Ticks every row of the page.
async fn tick_all(page: &Page) {
    page.js(
        "for (const row of document.querySelectorAll('.check[aria-checked=false]')) row.click()",
    )
    .await;
    page.waits_for(
        "every row to be ticked",
        "return !document.querySelector('.check[aria-checked=false]')",
    )
    .await;
}

async fn the_answer_leads_to_its_check_in_one_tap(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Check before the cut").await;
    page.sees("You and your mill").await;
    page.tap("Next").await;
    page.sees("Slot in 6061-T6, Bench mill").await;
    page.tap("Vise").await;
    page.tap("Next").await;
    page.sees("Power off").await;
    page.sees("retighten by feel").await;
    page.sees_no("Class D").await;
    // Asked once: the next check goes on at the set-up.
    page.open(SLOT).await;
    page.tap("Check before the cut").await;
    page.sees("What holds the part").await;
    page.passes_axe().await;
}

async fn a_face_in_the_low_range_is_switched_to_rev(page: Page) {
    open_the_sample(&page).await;
    page.open(CHECK_FACE).await;
    page.sees("Switch to REV").await;
    page.sees("clockwise, seen from above").await;
    page.sees("Fly cutter: 70 rpm at most").await;
    page.sees("Jog the switch and watch the spindle").await;
    page.sees_no("Switch to FWD").await;
    page.shot("check-start").await;
}

async fn glass_dust_is_not_blown_at(page: Page) {
    open_the_sample(&page).await;
    page.open(CHECK_G10).await;
    page.sees("No air on this material: vacuum, or a damp wipe").await;
    let struck = page.js("return document.querySelector('[data-testid=struck] s').innerText").await;
    assert!(struck.as_str().is_some_and(|text| text.contains("30 psi")), "{struck}");
    assert_eq!(row(&page, "30 psi").await, "no such row");
    page.sees("Never blow your skin").await;
}

async fn magnesium_gets_no_water(page: Page) {
    open_the_sample(&page).await;
    let cut =
        "op=slot&mill=bench_mill&stock=magnesium&kind=end_mill&of=hss&d_mm=3&teeth=2&out_mm=10";
    page.open(&format!("/check?step=power&{cut}&held=vise&put_on=water_mix")).await;
    page.sees("Class D powder or dry sand within reach, no water near").await;
    page.sees("No water-based coolant").await;
    page.tap("Show why, and the sources").await;
    page.sees("make hydrogen").await;
    page.sees("T.O. 1-1A-9").await;
    page.sees("Common practice.").await;
    page.passes_axe().await;
    // Nor does an answer take it.
    page.open(&format!("/cut?{cut}&depth_in=0.060&coolant=flood")).await;
    page.sees("Wet magnesium chips make hydrogen and burn hotter.").await;
    page.sees("No answer yet").await;
    page.tap("Dry").await;
    page.sees_no("No answer yet").await;
}

async fn a_jog_test_is_stored(page: Page) {
    open_the_sample(&page).await;
    page.open("/check?step=start&held=vise&left=yes").await;
    page.sees("Switch not known").await;
    page.sees("counter-clockwise, seen from above").await;
    page.tap("It turned counter-clockwise").await;
    page.sees("The place of the switch is not named yet.").await;
    page.tap("REV").await;
    // A second tap on one control within 400 ms is the first one bouncing.
    tokio::time::sleep(std::time::Duration::from_millis(450)).await;
    page.tap("It turned counter-clockwise").await;
    page.sees("Switch to REV").await;
    page.sees_no("Jog test").await;
    row_is(&page, "Jog the switch", "true").await;
    page.waits_for(
        "the table to be saved",
        "return localStorage[localStorage['handwheel/current']]
            .includes('\"counter_clockwise_label\":\"REV\"')",
    )
    .await;
    page.open("/shop?machine=bench_mill").await;
    assert_eq!(page.value_of("Counter-clockwise when it says").await, "REV");
}

async fn another_range_is_looked_at_again(page: Page) {
    open_the_sample(&page).await;
    page.open(CHECK_FACE).await;
    page.tap("stop Jog the switch and watch").await;
    row_is(&page, "Jog the switch", "true").await;
    page.tap("high").await;
    page.sees("Switch to FWD").await;
    row_is(&page, "Jog the switch", "false").await;
    page.tap("low").await;
    page.sees("Switch to REV").await;
    row_is(&page, "Jog the switch", "false").await;
}

async fn a_check_ends_with_hands_off_and_its_record_is_kept(page: Page) {
    open_the_sample(&page).await;
    page.open(&CHECK_FACE.replace("step=start", "step=power")).await;
    tick_all(&page).await;
    page.tap("Next: know before the cut").await;
    page.sees("light first pass").await;
    tick_all(&page).await;
    page.tap("Next: before it turns").await;
    page.sees("Switch to REV").await;
    // What is ticked outlives the end of the app.
    page.js("document.querySelector('.check').click()").await;
    page.waits_for(
        "the tick to be saved",
        "return localStorage[localStorage['handwheel/current']].includes('\"S0')",
    )
    .await;
    page.reload().await;
    page.sees("Switch to REV").await;
    tick_all(&page).await;
    page.tap("Next: start").await;
    page.sees("Hands free from here").await;
    let targets = page
        .js("return [...document.querySelectorAll('a, button, input, select, summary')]
                .filter(e => e.checkVisibility()).map(e => e.innerText)")
        .await;
    assert_eq!(targets, json!(["Close: the spindle stands"]));
    page.sees("70 rpm, switch at REV.").await;
    page.passes_axe().await;
    page.shot("check-hands-free").await;
    page.tap("Close: the spindle stands").await;
    page.sees("Spindle stopped: chips").await;
    page.tap("Next: after the cut").await;
    page.sees("power isolated before unclamping").await;
    tick_all(&page).await;
    page.tap("Done").await;
    page.sees("On the mill").await;
    page.open("/check?step=records").await;
    page.sees("Face in Grey cast iron, Knee mill").await;
    page.reload().await;
    page.sees("Face in Grey cast iron, Knee mill").await;
    page.sees("Left open").await;
    // The same set-up again rests on it, but gloves are looked at each time.
    page.tap("Check it again").await;
    page.sees("You and your mill").await;
    page.tap("Next").await;
    page.sees("What holds the part: Vise").await;
    page.tap("Next").await;
    page.sees("Power off").await;
    page.sees("Ticked for this set-up not long ago").await;
    page.sees("Take gloves off").await;
}

async fn open_stops_are_named_and_noted(page: Page) {
    open_the_sample(&page).await;
    page.open("/check?step=ready&held=vise").await;
    page.sees("Do not start yet").await;
    page.sees("Put on safety glasses with side shields").await;
    page.tap("Leave it, and note them as open").await;
    page.sees("On the mill").await;
    page.open("/check?step=records").await;
    page.sees("Left open").await;
    page.sees("Put on safety glasses with side shields").await;
}

async fn the_emergency_number_is_kept(page: Page) {
    open_the_sample(&page).await;
    // Two taps from anywhere: the head of the page leads home.
    page.open("/convert").await;
    page.count_from_here();
    page.tap("Back").await;
    page.tap("Emergency").await;
    assert_eq!(page.taps(), 2);
    page.sees("no medical person has checked it").await;
    page.write("Number to call here", "+44 20 7946 0000").await;
    page.waits_for(
        "the number to be saved",
        "return localStorage[localStorage['handwheel/current']].includes('7946')",
    )
    .await;
    page.reload().await;
    page.sees("Call +44 20 7946 0000").await;
    let to = page.js("return document.querySelector('a[href^=\"tel:\"]').href").await;
    assert_eq!(to, json!("tel:+442079460000"));
    page.passes_axe().await;
}

async fn without_a_mill_the_rest_is_checked(page: Page) {
    page.open("/check?step=start").await;
    page.sees("No mill is chosen").await;
    page.sees("The stock is not known.").await;
    page.sees("Switch not known").await;
    page.sees_no("Switch to FWD").await;
    page.open("/check?step=power").await;
    page.sees("Find out what it is before cutting").await;
    row_is(&page, "Take gloves off", "false").await;
}
