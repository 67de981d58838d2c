//! What is kept: favorites of every screen, job cards, notes after cuts.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use crate::shop::saved;
use serde_json::json;
use std::time::Duration;

tests![
    a_hole_is_saved_closed_reopened_and_opened_in_two_taps,
    what_was_looked_at_last_is_a_tap_away,
    a_job_card_is_made_ticked_and_survives_a_restart,
    a_favorite_is_filed_with_a_job_and_becomes_a_step,
    three_hot_cuts_slow_the_next_one_and_one_tap_puts_them_off,
    a_note_can_be_taken_out,
    a_set_of_taps_is_a_tap_and_a_recipe_misses_none_of_it,
];

const HOLE: &str = "/threads?recipe&thread=M4x0.7&plate_in=0.500&mill=knee_mill";
/// A hole whose speed nothing holds down but the stock.
const DRILL: &str = "/cut?op=drill&mill=bench_mill&stock=steel_low_c&kind=drill&of=hss&d_in=1/4\
    &depth_in=1/2";

async fn a_hole_is_saved_closed_reopened_and_opened_in_two_taps(page: Page) {
    open_the_sample(&page).await;
    page.open(HOLE).await;
    page.tap("Save this hole").await;
    page.sees("Saved: see all").await;
    saved(&page, "recipe&").await;
    page.open("/").await;
    page.count_from_here();
    page.tap("Favorites").await;
    page.tap("Tapped: M4x0.7").await;
    page.sees("3.3 mm drill").await;
    assert_eq!(page.taps(), 2);
    page.open("/convert?line_in=1+3/8").await;
    page.tap("Save this line").await;
    page.sees("Saved: see all").await;
    page.open("/threads?thread=1/4-20+UNC").await;
    page.tap("Save it to the favorites").await;
    page.open("/favorites").await;
    page.sees("1/4-20 UNC").await;
    page.sees("1 3/8 in").await;
    page.passes_axe().await;
    page.shot("favorites").await;
}

async fn what_was_looked_at_last_is_a_tap_away(page: Page) {
    open_the_sample(&page).await;
    page.open(HOLE).await;
    page.sees("3.3 mm drill").await;
    page.tap("Back").await;
    page.sees("On the mill").await;
    page.tap("Favorites").await;
    let lately = page.js("return document.querySelector('[data-testid=lately]').innerText").await;
    assert!(lately.as_str().is_some_and(|text| text.contains("Tapped: M4x0.7")), "{lately}");
    page.tap("Tapped: M4x0.7").await;
    page.sees("3.3 mm drill").await;
}

async fn a_job_card_is_made_ticked_and_survives_a_restart(page: Page) {
    open_the_sample(&page).await;
    page.open("/jobs").await;
    page.sees("Base plate of the focuser mount").await;
    page.tap("Begin a card").await;
    page.sees("A part without a name").await;
    page.write("What the part is called", "Clamp block").await;
    page.write("Next time", "deburr before the vise").await;
    page.write("In words", "Face both ends").await;
    page.tap("Add it").await;
    page.sees("1. Face both ends").await;
    page.tap("Focuser slot, 3 mm").await;
    page.sees("2. Focuser slot, 3 mm").await;
    // What its screen says stands with the step.
    page.sees("Bench mill: 2612 rpm").await;
    page.tap("1. Face both ends").await;
    page.sees("done").await;
    saved(&page, "\"done\":true").await;
    page.passes_axe().await;
    page.shot("job-card").await;
    page.reload().await;
    page.sees("Next time: deburr before the vise").await;
    let done = page
        .js("return [...document.querySelectorAll('[role=switch]')].map(s => s.ariaChecked)")
        .await;
    assert_eq!(done, json!(["true", "false"]));
    page.tap("Open it").await;
    page.sees("Spindle speed").await;
    page.open("/jobs").await;
    page.sees("1 of 2 steps done").await;
    page.tap("Clamp block").await;
    page.tap("Every step open again").await;
    page.sees_no("Every step open again").await;
    page.tap("Remove this card").await;
    page.tap("Remove it").await;
    page.sees("Clamp block is removed.").await;
    page.tap("Undo").await;
    page.sees("Clamp block").await;
}

async fn a_favorite_is_filed_with_a_job_and_becomes_a_step(page: Page) {
    open_the_sample(&page).await;
    page.open("/favorites").await;
    page.tap("Change “Focuser slot, 3 mm”").await;
    page.tap("Base plate of the focuser mount").await;
    page.tap("Stands first").await;
    page.tap("Add it to the steps of the job").await;
    page.open("/jobs").await;
    page.sees("0 of 5 steps done").await;
}

/// Turns a minute to set.
async fn speed(page: &Page) -> f64 {
    let shown = page.js("return document.querySelector('[data-result=key]').textContent").await;
    shown.as_str().and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("{shown}"))
}

async fn three_hot_cuts_slow_the_next_one_and_one_tap_puts_them_off(page: Page) {
    open_the_sample(&page).await;
    page.open(DRILL).await;
    let plain = speed(&page).await;
    page.tap("After the cut: how was it?").await;
    let said = ["One noted; 2 more and they count.", "2 noted; 1 more and they count.", "3 noted."];
    for said in said {
        assert_eq!(speed(&page).await, plain);
        page.tap("Too hot").await;
        page.sees(said).await;
        // A second tap at once would be one too many.
        tokio::time::sleep(Duration::from_millis(500)).await;
    }
    page.sees("Your own factor 0.75 on the speed, from 3 cuts").await;
    let slowed = speed(&page).await;
    assert!((slowed / plain - 0.75).abs() < 0.01, "{plain} {slowed}");
    page.passes_axe().await;
    page.tap("Your own factor 0.75 on the speed, from 3 cuts").await;
    page.sees("does not count").await;
    assert_eq!(speed(&page).await, plain);
    page.waits_for("the address", "return location.search.includes('notes=no')").await;
}

async fn a_note_can_be_taken_out(page: Page) {
    open_the_sample(&page).await;
    page.open(DRILL).await;
    page.tap("After the cut: how was it?").await;
    page.tap("Could push").await;
    page.sees("Noted last: Could push.").await;
    page.tap("All notes").await;
    page.sees("Drill in Plain low-carbon steel: could push").await;
    page.tap("Take the note out").await;
    page.sees("Nothing is noted yet.").await;
    page.tap("Undo").await;
    page.sees("Drill in Plain low-carbon steel: could push").await;
    page.passes_axe().await;
    page.tap("Open the cut").await;
    page.sees("Spindle speed").await;
}

async fn a_set_of_taps_is_a_tap_and_a_recipe_misses_none_of_it(page: Page) {
    open_the_sample(&page).await;
    page.open(HOLE).await;
    page.sees("Not among the tools that you entered:").await;
    page.tap("Enter what you own").await;
    page.tap("Taps").await;
    page.tap("Metric coarse, M3 to M12").await;
    page.sees("all here").await;
    page.write("Another one, such as 5-40 or M7", "M4x9").await;
    page.tap("Put it in the drawer").await;
    page.sees("M4x9").await;
    page.passes_axe().await;
    page.shot("taps").await;
    page.open(HOLE).await;
    page.sees_no("Not among the tools that you entered:").await;
}
