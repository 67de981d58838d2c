//! Back undoes, a reload keeps, and nothing that was typed is lost.

use crate::first_start::describe_a_bench_mill;
use crate::page::Page;
use crate::places::{SLOT, open_the_sample};
use crate::runner::tests;
use crate::screen::{PHONE, PHONE_SIDEWAYS, TABLET, TABLET_SIDEWAYS};
use serde_json::json;

tests![
    back_goes_through_the_questions_of_the_first_start,
    back_goes_through_the_questions_of_a_cut,
    back_undoes_field_by_field,
    a_reload_keeps_the_question_and_the_answers,
    a_reload_keeps_what_is_typed,
    leaving_at_once_loses_nothing,
    a_choice_on_the_answer_is_on_the_mill_from_then_on,
    the_way_back_from_a_question_keeps_an_unfinished_cut,
    turning_the_device_keeps_what_is_typed,
    other_units_keep_what_is_typed,
    what_is_removed_comes_back,
];

/// Waits until a control holds a value.
async fn holds(page: &Page, name: &str, value: &str) {
    for _ in 0..100 {
        if page.value_of(name).await == value {
            return;
        }
        page.frame().await;
    }
    panic!("“{name}” holds “{}” and not “{value}”", page.value_of(name).await);
}

async fn back_goes_through_the_questions_of_the_first_start(page: Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "My mill").await;
    page.tap("Next").await;
    page.sees("Question 2 of 4").await;
    page.enter("Speeds, slowest first", "70 115").await;
    page.tap("Next").await;
    page.sees("Question 3 of 4").await;
    page.back().await;
    page.sees("Question 2 of 4").await;
    holds(&page, "Speeds, slowest first", "70 115").await;
    page.back().await;
    page.sees("Question 1 of 4").await;
    holds(&page, "What you call it", "My mill").await;
    page.back().await;
    page.sees("Your mill in four questions").await;
}

async fn back_goes_through_the_questions_of_a_cut(page: Page) {
    describe_a_bench_mill(&page).await;
    page.tap("Cut").await;
    page.sees("What will you do?").await;
    page.tap("Slot").await;
    page.sees("In what stock?").await;
    page.tap("6061-T6").await;
    page.sees("With which cutter?").await;
    page.enter("Diameter", "1/4").await;
    page.tap("Next").await;
    page.sees("How wide, how deep?").await;
    page.back().await;
    page.sees("With which cutter?").await;
    holds(&page, "Diameter", "1/4").await;
    // The field itself is undone before the question is.
    while page.heading().await == "With which cutter?" {
        page.back().await;
        page.frame().await;
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    assert_eq!(page.heading().await, "In what stock?");
    page.back().await;
    page.sees("What will you do?").await;
    page.back().await;
    page.sees("On the mill").await;
}

async fn back_undoes_field_by_field(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    page.tap("Last cut").await;
    page.sees("Switch to FWD").await;
    let at_first = page.place().await;
    page.enter("Whole depth", "0.080").await;
    page.enter("Travel along the slot", "2").await;
    page.tap("Flood").await;
    page.waits_for("the address", "return location.search.includes('flood')").await;

    page.back().await;
    holds(&page, "Oil by brush", "true").await;
    holds(&page, "Travel along the slot", "2").await;
    page.back().await;
    holds(&page, "Travel along the slot", "1.500").await;
    holds(&page, "Whole depth", "0.080").await;
    page.back().await;
    holds(&page, "Whole depth", "0.060").await;
    assert_eq!(page.place().await, at_first);
    page.back().await;
    page.sees("On the mill").await;
}

async fn a_reload_keeps_the_question_and_the_answers(page: Page) {
    page.open("/").await;
    page.tap("Your mill in four questions").await;
    page.write("What you call it", "My mill").await;
    page.tap("Next").await;
    page.sees("Question 2 of 4").await;
    page.tap("Variable").await;
    page.enter("Lowest speed", "100").await;
    page.reload().await;
    page.sees("Question 2 of 4").await;
    holds(&page, "Variable any speed between two", "true").await;
    holds(&page, "Lowest speed", "100").await;
    // From its icon the app opens at the root, and the questions go on where they stopped.
    page.open("/").await;
    page.tap("Go on with question 2 of 4").await;
    page.enter("Highest speed", "2800").await;
    page.tap("Next").await;
    page.tap("0.0625 in").await;
    page.tap("Next").await;
    page.tap("I don't know").await;
    page.sees("My mill").await;

    page.tap("Cut").await;
    page.tap("Slot").await;
    page.tap("6061-T6").await;
    page.sees("With which cutter?").await;
    page.enter("Diameter", "1/4").await;
    page.waits_for("the address", "return location.search.includes('d_in=1')").await;
    page.reload().await;
    page.sees("With which cutter?").await;
    holds(&page, "Diameter", "1/4").await;
    page.tap("Next").await;
    page.sees("How wide, how deep?").await;
    page.tap("Next").await;
    page.tap("Show the answer").await;
    page.sees("Slot in 6061").await;
}

async fn a_reload_keeps_what_is_typed(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.enter("Whole depth", "1/16").await;
    page.tap("Your own figures").await;
    page.enter("Surface speed", "250").await;
    page.waits_for("the address", "return location.search.includes('v_ft_min=250')").await;
    page.reload().await;
    holds(&page, "Whole depth", "1/16").await;
    page.tap("Your own figures").await;
    holds(&page, "Surface speed", "250").await;
    // And the app opened from its icon knows the cut.
    page.open("/").await;
    page.tap("Last cut").await;
    holds(&page, "Whole depth", "1/16").await;
}

/// A tap is followed by the next one, or by the end of the app, before anything is quiet.
async fn leaving_at_once_loses_nothing(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    // Both taps of one script: nobody is quicker.
    let chip_then_back = "
        const tap = e => e.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true }));
        tap([...document.querySelectorAll('.chip')].find(c => c.innerText == '1/2 D'));
        tap(document.querySelector('.back'));";
    page.js(chip_then_back).await;
    page.sees("On the mill").await;
    tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    assert_eq!(page.heading().await, "On the mill");
    page.tap("Last cut").await;
    holds(&page, "Whole depth", "0.059").await;

    let chip = "
        const tap = e => e.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true }));
        tap([...document.querySelectorAll('.chip')].find(c => c.innerText == '1 D'));";
    page.js(chip).await;
    page.cdp("Page.navigate", json!({ "url": "about:blank" })).await;
    page.open("/").await;
    page.tap("Last cut").await;
    holds(&page, "Whole depth", "0.118").await;

    page.open("/shop?machine=bench_mill").await;
    page.write("What you call it", "Quick mill").await;
    page.cdp("Page.navigate", json!({ "url": "about:blank" })).await;
    page.open("/").await;
    page.sees("Quick mill").await;
}

async fn a_choice_on_the_answer_is_on_the_mill_from_then_on(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    page.tap("Last cut").await;
    page.sees("Slot in 6061").await;
    page.tap("6061-T6 aluminium").await;
    page.tap("Grey cast iron").await;
    page.sees("Slot in Grey cast iron").await;
    page.tap("Back").await;
    page.sees("On the mill").await;
    page.sees("Last cut: Slot in Grey cast iron").await;
    page.sees_no("6061").await;
    page.reload().await;
    page.sees("Last cut: Slot in Grey cast iron").await;
}

async fn the_way_back_from_a_question_keeps_an_unfinished_cut(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Slot").await;
    page.tap("Ream").await;
    page.sees("No answer yet").await;
    page.enter("Depth of the hole", "0.4").await;
    page.tap("6061-T6 aluminium").await;
    page.sees("In what stock?").await;
    page.tap("Back").await;
    page.sees("Ream in 6061").await;
    holds(&page, "Depth of the hole", "0.4").await;
}

async fn turning_the_device_keeps_what_is_typed(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Cutter and holding").await;
    page.enter("Whole depth", "3/64").await;
    page.tap("Out of the holder").await;
    page.key_in("12").await;
    for screen in [PHONE_SIDEWAYS, PHONE, TABLET, TABLET_SIDEWAYS, PHONE] {
        page.turn(screen).await;
        holds(&page, "Whole depth", "3/64").await;
        holds(&page, "Out of the holder", "12").await;
        page.sees("done").await;
    }
    page.key_in("5").await;
    page.tap("done").await;
    holds(&page, "Out of the holder", "125").await;

    page.open("/shop?machine=knee_mill").await;
    page.enter("Power at the cutter", "3/4").await;
    for screen in [PHONE_SIDEWAYS, PHONE] {
        page.turn(screen).await;
        holds(&page, "Power at the cutter", "3/4").await;
    }
}

async fn other_units_keep_what_is_typed(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.enter("Whole depth", "1/16").await;
    for _ in 0..3 {
        page.tap("in mm").await;
        page.frame().await;
        holds(&page, "Whole depth", "1/16").await;
        page.sees("1.587 mm").await;
    }
    // The unit key of the pad says what the digits mean, and changes none of them.
    page.tap("Whole depth").await;
    page.tap_in("Number pad for Whole depth", "in mm").await;
    page.tap("done").await;
    holds(&page, "Whole depth", "1/16").await;
    page.sees("0.0025 in").await;
}

async fn what_is_removed_comes_back(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop?machine=knee_mill").await;
    page.tap("Remove this mill").await;
    page.tap("Keep it").await;
    page.tap("Remove this mill").await;
    page.tap("Remove it").await;
    page.sees("Knee mill is removed.").await;
    page.tap("Undo").await;
    page.tap("Knee mill").await;
    holds(&page, "What you call it", "Knee mill").await;

    page.open("/shop?settings").await;
    page.tap("Remove everything").await;
    page.tap("Remove everything").await;
    page.sees("Everything is removed.").await;
    assert!(page.in_view(".undo .notice").await, "the way to undo is out of sight");
    page.tap("Undo").await;
    page.sees_no("is removed").await;
    page.open("/shop").await;
    page.sees("Knee mill").await;
}
