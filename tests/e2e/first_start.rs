//! From nothing on the device to a first answer.

use crate::page::Page;
use crate::runner::tests;
use crate::screen::SMALL_PHONE;
use serde_json::json;

tests![
    four_questions_and_a_cut_lead_to_a_first_answer,
    the_sample_shop_is_one_tap_away_and_one_tap_gone,
];

/// Answers the four questions of the first start as the owner of a bench mill.
pub async fn describe_a_bench_mill(page: &Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "My bench mill").await;
    page.tap("Bench mill").await;
    page.tap("Next").await;
    page.tap("Variable").await;
    page.enter("Lowest speed", "100").await;
    page.enter("Highest speed", "2800").await;
    page.tap("Next").await;
    page.tap("0.0625 in").await;
    page.tap("Next").await;
    page.tap("I don't know").await;
    page.sees("My bench mill").await;
}

async fn four_questions_and_a_cut_lead_to_a_first_answer(page: Page) {
    page.hold(SMALL_PHONE).await;
    describe_a_bench_mill(&page).await;
    assert_eq!(page.heading().await, "On the mill");
    println!("    {} taps and the digits to describe a mill", page.taps());
    page.shot("first-mill").await;

    page.count_from_here();
    page.tap("Cut").await;
    page.sees("What will you do?").await;
    page.tap("Slot").await;
    page.sees("In what stock?").await;
    page.tap("6061-T6").await;
    page.sees("With which cutter?").await;
    page.enter("Diameter", "0.25").await;
    page.tap("Next").await;
    page.tap("1/2 D").await;
    page.tap("Next").await;
    page.tap("Show the answer").await;
    page.sees("Slot in 6061-T6").await;
    println!("    {} taps and the digits to a first answer", page.taps());
    // What was not asked was taken on the safe side, and is said.
    page.sees("Power at the cutter taken as").await;
    page.sees("Runout taken as").await;
    assert!(page.in_view("[data-result=key]").await);
    let speed = page.js("return document.querySelector('[data-result=key]').innerText").await;
    assert_eq!(speed, json!("1250"));
    page.shot("first-answer").await;
}

async fn the_sample_shop_is_one_tap_away_and_one_tap_gone(page: Page) {
    page.hold(SMALL_PHONE).await;
    page.open("/").await;
    page.tap("Sample shop").await;
    page.sees("This is the sample shop").await;
    page.tap("Last cut").await;
    page.sees("Spindle speed").await;
    page.tap("Back").await;
    page.tap("Begin with my own mill").await;
    page.sees("Your mill in four questions").await;
}
