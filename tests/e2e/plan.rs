//! A batch of eight blanks on two mills, its run sheet, and which mill a side cut goes on.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use serde_json::{Value, json};
use std::time::Duration;

tests![
    a_batch_of_eight_is_typed_in_and_its_orders_stand_side_by_side,
    a_run_is_ticked_off_and_outlasts_a_restart,
    what_cannot_be_planned_is_said_at_its_field,
    the_dovetail_bar_goes_on_the_knee_mill,
    a_plan_works_without_a_network_and_on_a_small_phone,
    a_job_card_becomes_a_batch,
];

/// The bar with the person's own figures, and the backlash it was measured with.
const BAR: &str = "op=side&mill=bench_mill&stock=steel_low_c&kind=end_mill&of=hss&d_in=3/8&teeth=4\
    &out_in=1%201/8&tir_in=0.0020&width_in=0.0375&depth_in=0.375&v_ft_min=80&chip_in=0.0015&up_hp=1&passes=1";

/// The text of an element by its selector, every white space one space.
async fn part(page: &Page, selector: &str) -> String {
    let script = "return document.querySelector(arguments[0])?.innerText";
    words(&page.js_with(script, vec![json!(selector)]).await)
}

fn words(text: &Value) -> String {
    text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The panel of an order or a mill, by its name.
async fn panel(page: &Page, name: &str) -> String {
    part(page, &format!("section[aria-label^=\"{name}\"]")).await
}

#[track_caller]
fn says(text: &str, wanted: &[&str]) {
    for words in wanted {
        assert!(text.contains(words), "no “{words}” in: {text}");
    }
}

async fn add(page: &Page, name: &str, set_up: &str, cut: &str) {
    page.tap("Add an operation").await;
    page.write("What you call it", name).await;
    page.enter("To set up, min", set_up).await;
    page.enter("In the cut, s a piece", cut).await;
    page.tap("To the plan").await;
    page.sees(name).await;
}

async fn a_batch_of_eight_is_typed_in_and_its_orders_stand_side_by_side(page: Page) {
    open_the_sample(&page).await;
    page.open("/").await;
    page.tap("Batch").await;
    page.tap("Begin a new plan").await;
    page.tap("Clear the plan").await;
    page.sees("The part has no operations yet.").await;
    add(&page, "Side A", "12", "130").await;
    add(&page, "Side B", "8", "150").await;
    page.enter("Or type how many", "8").await;
    page.enter("Walk between mills, s", "15").await;

    // A first batch: both mills stay set up, an error shows on piece 1.
    page.sees("An error shows on piece 1").await;
    assert_eq!(part(&page, "[data-result=key]").await, "57.8");
    says(
        &panel(&page, "Piece by piece on one mill").await,
        &["197.3 min", "24.7 min", "1 at risk"],
    );
    let by_operation = panel(&page, "Operation by operation").await;
    says(
        &by_operation,
        &["57.3 min", "39.8 min", "8 at risk", "begun before the first is checked"],
    );
    let two = panel(&page, "Piece by piece, second mill kept set up").await;
    says(&two, &["59.3 min", "24.9 min", "1 at risk", "2 set-ups"]);
    says(&part(&page, "[data-testid=second]").await, &["Second best", "90 s more in all"]);
    page.shot("s6").await;

    // A proven repeat: one operation after the other.
    page.tap("First piece checked before the rest").await;
    page.sees("Operation by operation. It takes the least time in all.").await;
    assert_eq!(part(&page, "[data-result=key]").await, "57.3");
    says(&part(&page, "[data-testid=recommended]").await, &["8 pieces are begun"]);

    page.tap("Least at risk").await;
    page.sees("No order puts fewer pieces at risk").await;
    assert_eq!(part(&page, "[data-result=key]").await, "57.8");

    // Operations bound to their mills.
    page.tap("Side A").await;
    page.tap("Knee mill").await;
    page.tap("To the plan").await;
    page.tap("Side B").await;
    page.tap("Bench mill").await;
    page.tap("To the plan").await;
    page.sees("no mill can do every operation").await;
    page.sees("On one that could: 197.3 min").await;
    page.tap("Pieces: more").await;
    page.sees("Pieces 2 to 9").await;
}

async fn a_run_is_ticked_off_and_outlasts_a_restart(page: Page) {
    open_the_sample(&page).await;
    page.open("/plan").await;
    page.tap("Begin this run").await;
    page.sees("Set up First side on the").await;
    page.sees("min left: done at").await;
    page.tap("Done: Set up First side").await;
    // The clock counts whole seconds.
    tokio::time::sleep(Duration::from_millis(1100)).await;
    page.tap("Done: Piece 1: First side").await;
    page.sees("Then: Piece 1: Second side").await;
    page.sees("Carry the work to the").await;
    assert_eq!(page.value_of("Piece 1, First side").await, "true");
    // A tick out of turn, and one taken back.
    page.tap("Piece 3, First side").await;
    page.tap("Undo: Piece 3: First side").await;
    page.tap("Done: Set up Second side").await;
    page.tap("Done: Piece 1: Second side").await;
    page.sees("Check piece 1").await;
    page.tap("Done: Check piece 1").await;
    page.sees("Piece 2: First side").await;
    let pressed = "return [...document.querySelectorAll('.run-cell')]
        .filter(c => c.ariaPressed === 'true').map(c => c.ariaLabel).join('; ')";
    let ticked = "Piece 1, First side; Piece 1, Second side";
    assert_eq!(words(&page.js(pressed).await), ticked);
    says(&part(&page, "[data-testid=measured]").await, &["measured on 1", "planned 2.2 min"]);
    page.shot("run-sheet").await;
    // Saving follows the last change by 300 ms.
    tokio::time::sleep(Duration::from_millis(800)).await;

    page.reload().await;
    page.sees("Piece 2: First side").await;
    assert_eq!(words(&page.js(pressed).await), ticked);
    page.open("/plan").await;
    page.tap("To the run sheet").await;
    page.tap("Close the run sheet").await;
    page.tap("Close it").await;
    page.sees("Begin this run").await;
    page.tap("Undo").await;
    page.sees("To the run sheet").await;
}

async fn what_cannot_be_planned_is_said_at_its_field(page: Page) {
    open_the_sample(&page).await;
    page.open("/plan").await;
    page.enter("Or type how many", "0").await;
    page.sees("A batch of no pieces is nothing to plan. Type how many you make.").await;
    page.enter("Or type how many", "10000").await;
    page.sees("10000 pieces are more than a manual mill makes").await;
    page.enter("Or type how many", "8").await;
    page.write("Walk between mills, s", "-5").await;
    page.tap("done").await;
    page.sees("A sign has no place here.").await;
    page.write("Walk between mills, s", "15").await;
    page.tap("done").await;
    page.sees("In all").await;

    page.tap("First side").await;
    page.tap("Second side").await;
    page.sees("wait for each other in a circle").await;
    page.tap("Second side").await;
    page.sees_no("in a circle").await;
    page.write("To set up, min", "-1").await;
    page.tap("done").await;
    page.sees("A sign has no place here.").await;
    page.write("To set up, min", "2000").await;
    page.tap("done").await;
    page.sees("The time to set up is longer than a day. Look whether it counts").await;
    page.enter("To set up, min", "12").await;
    page.tap("Knee mill").await;
    page.tap("To the plan").await;
    page.open("/shop?machine=knee_mill").await;
    page.tap("Remove this mill").await;
    page.tap("Remove it").await;
    page.open("/plan").await;
    page.sees("The mill of “First side” is no longer in the shop.").await;
    page.open("/plan?operation=99").await;
    page.sees("No such operation").await;
    page.open("/plan?run").await;
    page.sees("No run is under way").await;
}

async fn the_dovetail_bar_goes_on_the_knee_mill(page: Page) {
    open_the_sample(&page).await;
    page.open(&format!("/cut?{BAR}")).await;
    page.tap("Which mill?").await;
    page.sees("Take the Knee mill").await;
    assert_eq!(part(&page, "[data-result=key]").await, "560");
    let knee = panel(&page, "Knee mill").await;
    says(&knee, &["815 wanted", "5.60 in/min", "28.0 turns/min", "2.14 s a turn"]);
    says(&knee, &["560 rpm is the nearest it has to 815, −31 %"]);
    let bench = panel(&page, "Bench mill").await;
    says(&bench, &["130 turns/min", "a hand turns 60", "375 rpm", "times as long"]);
    says(&bench, &["It would be the one to take", "if one turn of its wheel moved 0.097"]);
    says(&part(&page, "[data-testid=everywhere]").await, &["Runout", "over"]);
    page.shot("s11-which").await;
    page.tap("in mm").await;
    says(&panel(&page, "Knee mill").await, &["59 W"]);
    page.tap("in mm").await;

    page.tap("Knee mill stands").await;
    page.sees("Take the Bench mill").await;
    says(&panel(&page, "Knee mill").await, &["It stands set up for something else."]);
    // A second tap within 400 ms is the first one bouncing.
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.tap("Knee mill stands").await;
    page.sees("Take the Knee mill").await;
    page.enter("Table to the top of the work", "9").await;
    page.sees("Take the Knee mill").await;
    page.open("/shop?machine=knee_mill").await;
    page.tap("Room above the table").await;
    page.enter("Table to the holder's nose, at most", "8").await;
    page.open(&format!("/which?stack_in=9&{BAR}")).await;
    page.sees("Take the Bench mill").await;
    says(&panel(&page, "Knee mill").await, &["is missing between table and holder"]);
    page.tap("Cut on the Bench mill").await;
    page.sees("Side cut in").await;
}

async fn a_plan_works_without_a_network_and_on_a_small_phone(page: Page) {
    page.hold(crate::screen::SMALL_PHONE).await;
    open_the_sample(&page).await;
    page.open("/plan").await;
    assert!(page.in_view("[data-result=key]").await, "the total is out of sight");
    page.tap("Begin this run").await;
    page.sees("Set up First side").await;
    assert!(page.in_view(".run-next").await, "what is next is out of sight");
    assert!(page.in_view(".page-bar .button").await, "the tick is out of sight");
}

async fn a_job_card_becomes_a_batch(page: Page) {
    open_the_sample(&page).await;
    page.open("/plan").await;
    page.tap("Begin a new plan").await;
    page.tap("Clear the plan").await;
    page.sees("The part has no operations yet.").await;
    page.tap("Add the steps of a job card").await;
    page.tap("Base plate of the focuser mount").await;
    page.sees("Slot for the focuser").await;
    page.sees("Break every edge").await;
    page.passes_axe().await;
    // Two of its steps have a screen that says how long they take.
    let cards = part(&page, "[aria-label=Operations]").await;
    says(&cards, &["Face the top", "s in the cut", "Six M4 on a 60 mm circle"]);
    page.shot("plan-of-a-card").await;
}
