//! Four jobs of a telescope maker, typed in and read off the screen: a 3 mm slot, a faced
//! counterweight, a shim of glass laminate, and the same side cut on two machines.
//!
//! Surface speed, feed, cutting force and chip are the person's own figures, as the jobs state
//! them; machines and cutters are those of the sample shop.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use serde_json::{Value, json};

tests![
    a_3_mm_slot_runs_at_the_highest_speed_in_two_passes,
    a_counterweight_is_faced_in_two_rows_with_the_switch_in_reverse,
    a_shim_of_g10_is_cut_as_fast_as_a_hand_can_turn,
    a_dovetail_bar_goes_on_the_knee_mill_and_wants_a_truer_holder,
];

/// What stands in the line of a figure: its name, its note and its digits.
async fn cell(page: &Page, label: &str) -> String {
    let cell = page
        .js_with(
            "const cells = [...document.querySelectorAll('.cell')];
             return cells.find(c => c.innerText.startsWith(arguments[0]))?.innerText;",
            vec![json!(label)],
        )
        .await;
    words(&cell)
}

/// The text of an element by its selector, every white space one space.
async fn part(page: &Page, selector: &str) -> String {
    let script = "return document.querySelector(arguments[0])?.innerText";
    words(&page.js_with(script, vec![json!(selector)]).await)
}

fn words(text: &Value) -> String {
    text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every step of the working.
async fn working(page: &Page) -> String {
    page.js("document.querySelector('[data-testid=working]').open = true").await;
    page.sees("From the question to the answer").await;
    part(page, "[data-testid=working]").await
}

#[track_caller]
fn says(text: &str, wanted: &[&str]) {
    for words in wanted {
        assert!(text.contains(words), "no “{words}” in: {text}");
    }
}

/// Types figures of one's own, each by its field, in units of the screen.
async fn enter_own(page: &Page, figures: &[(&str, &str)]) {
    if !page.text().await.contains("A figure of yours stands in place") {
        page.tap("Your own figures").await;
    }
    for (field, digits) in figures {
        page.enter(field, digits).await;
    }
}

/// Types a figure in the other unit than the screen has.
async fn enter_in_other_unit(page: &Page, field: &str, digits: &str) {
    page.tap(field).await;
    page.tap_in(&format!("Number pad for {field}"), "in mm").await;
    page.key_in(digits).await;
    page.tap("done").await;
}

async fn a_3_mm_slot_runs_at_the_highest_speed_in_two_passes(page: Page) {
    open_the_sample(&page).await;
    page.tap("Last cut").await;
    page.sees("Slot in 6061").await;
    enter_own(&page, &[("Surface speed", "250"), ("Feed per tooth", "0.0005")]).await;
    enter_in_other_unit(&page, "Specific cutting force", "1682").await;

    assert_eq!(part(&page, "[data-result=key]").await, "2800");
    says(
        &part(&page, "[data-testid=why]").await,
        &["The fastest this mill has", "8085 wanted", "86.6 ft/min"],
    );
    says(
        &cell(&page, "One turn of the wheel").await,
        &["1.34 s", "44.8 turns/min", "0.010 in each 0.214 s"],
    );
    says(&cell(&page, "Depth of a pass").await, &["0.0300 in", "2 passes, to 0.0600 in"]);
    says(&cell(&page, "Feed").await, &["2.80 in/min", "0.00050 in a tooth"]);
    says(&cell(&page, "Time in the cut").await, &["64 s", "travel 1.5000 in"]);
    says(&part(&page, "[data-testid=cautions]").await, &["one tooth does the work"]);
    says(&part(&page, "[data-testid=limits]").await, &["Runout near"]);
    let text = page.text().await;
    assert!(!text.contains("8.09 in/min") && !text.contains("3.000 in/min"), "{text}");
    page.shot("s1").await;

    page.tap("in mm").await;
    says(&working(&page).await, &["16 N"]);
}

async fn a_counterweight_is_faced_in_two_rows_with_the_switch_in_reverse(page: Page) {
    open_the_sample(&page).await;
    page.tap("Cut").await;
    page.tap("Face").await;
    page.tap("Grey cast iron").await;
    page.tap("2 1/2 fly cutter").await;
    page.tap("Knee mill").await;
    page.enter("Width of the face", "4").await;
    page.enter("Depth, whole", "0.015").await;
    page.enter("Length of the face", "4").await;
    enter_own(&page, &[("Surface speed", "60"), ("Feed per tooth", "0.008")]).await;

    assert_eq!(part(&page, "[data-result=key]").await, "70");
    says(
        &part(&page, "[data-testid=why]").await,
        &["92 wanted", "−24 %", "115 is +25 %", "45.8 ft/min"],
    );
    says(&part(&page, ".gear").await, &["Range low", "switch to REV"]);
    says(
        &cell(&page, "One turn of the wheel").await,
        &["21.4 s", "2.8 turns/min", "0.010 in each 1.07 s"],
    );
    says(&cell(&page, "Feed").await, &["0.56 in/min"]);
    says(&cell(&page, "Time in the cut").await, &["23.9 min", "2 rows of 6.7000 in"]);
    says(&part(&page, "[data-testid=cautions]").await, &["Count the marks"]);
    page.tap("Readout targets").await;
    says(&page.text().await, &["-0.7500 in", "0.7500 in"]);
    page.shot("s4").await;

    page.tap("Cutter and holding").await;
    page.tap("Carbide").await;
    enter_own(&page, &[("Surface speed", "200"), ("Feed per tooth", "0.006")]).await;
    assert_eq!(part(&page, "[data-result=key]").await, "310");
    says(&part(&page, "[data-testid=why]").await, &["306 wanted", "+1 %"]);
    says(&cell(&page, "Feed").await, &["1.86 in/min"]);
    says(&cell(&page, "Time in the cut").await, &["7.2 min"]);
}

async fn a_shim_of_g10_is_cut_as_fast_as_a_hand_can_turn(page: Page) {
    open_the_sample(&page).await;
    page.tap("Cut").await;
    page.tap("Slot").await;
    page.tap("G10").await;
    page.tap("1/8 carbide end mill, 2 flutes").await;
    page.enter("Whole depth", "0.030").await;
    enter_own(&page, &[("Surface speed", "400"), ("Feed per tooth", "0.0015")]).await;

    assert_eq!(part(&page, "[data-result=key]").await, "1250");
    says(
        &part(&page, "[data-testid=why]").await,
        &["12223 wanted", "the hand cannot turn the wheel faster", "40.9 ft/min"],
    );
    says(&cell(&page, "One turn of the wheel").await, &["1.00 s", "60.0 turns/min"]);
    says(&cell(&page, "Feed").await, &["3.75 in/min", "0.00150 in a tooth"]);
    says(&part(&page, "[data-testid=limits]").await, &["Handwheel near: 60.0 of 60.0 turns/min"]);
    let cautions = part(&page, "[data-testid=cautions]").await;
    says(&cautions, &["Carbide this slow", "dust"]);
    for fluid in ["oil", "flood", "Flood", "kerosene"] {
        assert!(!cautions.contains(fluid), "a fluid on glass laminate: {cautions}");
    }
    assert_eq!(page.value_of("Dry usual here").await, "true");

    // The chip kept, the highest speed is more than a hand can turn, and says so.
    page.tap("2800").await;
    page.sees("Do not cut like this").await;
    says(&cell(&page, "One turn of the wheel").await, &["134.4 turns/min"]);
    says(
        &part(&page, "[data-testid=limits]").await,
        &["no hand turns the wheel that fast", "Set 1250 rpm", "Handwheel over"],
    );
    page.shot("s5").await;
}

async fn a_dovetail_bar_goes_on_the_knee_mill_and_wants_a_truer_holder(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop?machine=knee_mill").await;
    page.tap("Dial, backlash, quill wheel").await;
    page.enter("Backlash", "0.010").await;
    page.tap("Back").await;
    page.tap("Back").await;
    page.tap("Cut").await;
    page.tap("Side cut").await;
    page.tap("Plain low-carbon steel").await;
    page.tap("3/8 end mill, 4 flutes").await;
    page.tap("Knee mill").await;
    page.enter("Width of cut", "0.0375").await;
    page.enter("Whole depth", "0.375").await;
    page.tap("Cutter and holding").await;
    page.enter("Runout, full reading", "0.0020").await;
    enter_own(
        &page,
        &[
            ("Surface speed", "80"),
            ("Chip thickness", "0.0015"),
            ("Passes", "1"),
            ("Unit power", "1"),
        ],
    )
    .await;

    assert_eq!(part(&page, "[data-result=key]").await, "560");
    says(
        &part(&page, "[data-testid=why]").await,
        &["815 wanted", "−31 %", "930 is +14 %", "55.0 ft/min"],
    );
    says(&part(&page, ".gear").await, &["Range high", "switch to FWD"]);
    says(&cell(&page, "One turn of the wheel").await, &["2.14 s", "28.0 turns/min"]);
    says(&cell(&page, "Feed").await, &["5.60 in/min", "0.00250 in a tooth"]);
    says(&part(&page, "[data-testid=limits]").await, &["Runout over"]);
    says(&part(&page, "[data-testid=cautions]").await, &["0.0006 in or better"]);
    page.shot("s11").await;
    page.tap("in mm").await;
    says(&working(&page).await, &["59 W"]);
    page.tap("in mm").await;

    // Fed with the cutter, its pull may be no more than what holds the table.
    page.tap("Climb").await;
    page.sees("because the cutter would pull the table").await;
    says(&part(&page, "[data-testid=cautions]").await, &["by its backlash"]);
    page.tap("Conventional").await;
    page.tap("Bench mill").await;
    page.sees("375").await;
    assert_eq!(part(&page, "[data-result=key]").await, "375");
    says(&cell(&page, "One turn of the wheel").await, &["60.0 turns/min"]);
    says(&part(&page, "[data-testid=why]").await, &["the hand cannot turn the wheel faster"]);
}
