//! Where to cut: a bolt circle typed, listed and gone through hole by hole, and the set-ups of the
//! trade with their figures and their warnings.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use crate::shop::saved;
use serde_json::{Value, json};
use std::time::Duration;

tests![
    six_holes_of_a_mount_are_laid_out_and_drilled_one_by_one,
    holes_that_are_typed_one_by_one_and_a_grid_of_two_hundred,
    what_cannot_be_laid_out_is_said_and_nothing_is_lost,
    a_finder_of_two_tenths_gives_what_to_type,
    a_head_and_a_vise_say_which_way_and_how_far,
    the_one_inch_parallels_hold_and_meet_the_hole,
    two_straps_hold_four_times_the_cut,
    a_cutter_beside_a_wall_has_its_passes,
    a_layout_is_kept_by_name,
];

async fn part(page: &Page, selector: &str) -> String {
    let script = "return document.querySelector(arguments[0])?.innerText";
    words(&page.js_with(script, vec![json!(selector)]).await)
}

fn words(text: &Value) -> String {
    text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn says(text: &str, wanted: &[&str]) {
    for words in wanted {
        assert!(text.contains(words), "no “{words}” in: {text}");
    }
}

async fn key(page: &Page) -> String {
    part(page, "[data-result=key]").await
}

async fn six_holes_of_a_mount_are_laid_out_and_drilled_one_by_one(page: Page) {
    open_the_sample(&page).await;
    page.open("/layout").await;
    page.sees("No holes yet").await;
    page.enter("Holes", "6").await;
    page.enter("Diameter of the circle", "60").await;
    // Sixty inches are wide: the unit is typed with the number.
    page.open("/layout?n=6&d_mm=60").await;
    page.enter("Centre, X", "2.5").await;
    page.enter("Centre, Y", "2.5").await;
    page.sees("6 holes").await;
    says(&part(&page, "[data-testid=line]").await, &["From hole to hole 1.1811 in."]);
    let list = part(&page, "[data-testid=places]").await;
    says(
        &list,
        &[
            "1 3.6811 2.5000",
            "2 3.0906 3.5229",
            "3 1.9094 3.5229",
            "4 1.3189 2.5000",
            "5 1.9094 1.4771",
            "6 3.0906 1.4771",
        ],
    );
    page.tap("Order, backlash, readout").await;
    page.tap("0.0005 in").await;
    says(&part(&page, "[data-testid=places]").await, &["2 3.0905 3.5230"]);

    page.tap("Hole by hole").await;
    page.sees("Tap only with the spindle stopped.").await;
    assert_eq!(page.heading().await, "Hole 1");
    says(&part(&page, "[data-testid=x]").await, &["3.6810"]);
    page.tap("Done, next").await;
    page.sees("2 of 6 along the way").await;
    says(&part(&page, "[data-testid=x]").await, &["3.0905"]);
    says(&part(&page, "[data-testid=y]").await, &["3.5230"]);
    page.sees("On the drawing: X 3.0906, Y 3.5229.").await;
    says(&part(&page, "[data-testid=way]").await, &["From the hole before: X -0.5906 in (9 turns"]);
    // A second tap within 400 ms would be the finger's own echo.
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.tap("Done, next").await;
    page.sees("3 of 6 along the way").await;
    saved(&page, "\"under_way\":[{").await;
    page.waits_for("the address", "return location.search.includes('at=3')").await;
    // What is done, and the hole at hand, outlive a restart.
    page.reload().await;
    page.sees("3 of 6 along the way").await;
    page.tap("Back one").await;
    page.sees("2 of 6 along the way").await;
    page.sees("Done").await;
    page.tap("Not done yet").await;
    page.sees("To do").await;
    page.passes_axe().await;
    page.tap("Back").await;
    page.sees("Where to go, in order").await;
    says(&part(&page, "[data-testid=places]").await, &["1 ✓ 3.6810"]);
}

async fn holes_that_are_typed_one_by_one_and_a_grid_of_two_hundred(page: Page) {
    open_the_sample(&page).await;
    page.open("/layout?shape=list&px_in=0.5&py_in=0.5").await;
    page.sees("1 hole").await;
    page.tap("Add a hole").await;
    page.enter("X 2", "1.25").await;
    page.enter("Y 2", "3/8").await;
    page.sees("2 holes").await;
    says(&part(&page, "[data-testid=places]").await, &["2 1.2500 0.3750 31.750 9.525"]);
    page.open("/layout?shape=list&px_in=-0.5&py_in=0.5&mirror=left_right").await;
    says(&part(&page, "[data-testid=places]").await, &["1 0.5000 0.5000"]);
    page.open("/layout?shape=grid&n=20&rows=10&step_x_mm=10&step_y_mm=10&short=yes").await;
    page.sees("200 holes").await;
    let rows = page.js("return document.querySelectorAll('[data-testid=places] tbody tr').length");
    assert_eq!(rows.await, json!(200));
    let spots = page.js("return document.querySelectorAll('[data-testid=pattern] .spot').length");
    assert_eq!(spots.await, json!(200));
    page.open("/layout?n=6&d_mm=60&thread=M4x0.7&at=2").await;
    page.tap("Recipe of the hole").await;
    page.sees("M4").await;
    assert!(page.place().await.contains("threads"), "{}", page.place().await);
}

async fn what_cannot_be_laid_out_is_said_and_nothing_is_lost(page: Page) {
    open_the_sample(&page).await;
    for (place, wanted) in [
        ("/layout?n=0&d_mm=60", "must be more than 0"),
        ("/layout?n=1000000&d_mm=60", "Type a whole number from 1 to 1000."),
        ("/layout?n=6&d_mm=0", "must be more than 0"),
        ("/layout?n=6&d_mm=NaN", "It wants: diameter of the circle."),
        ("/layout?n=4&d_in=4&x_in=1&y_in=1&part_x_in=2&part_y_in=2", "lie outside the part"),
        ("/layout?n=6&d_in=20&table_x_in=8&table_y_in=40", "further apart than the table travels"),
        (
            "/layout?shape=steps&radius_in=0.1&cutter_in=1/2&inside=yes&span=90&step=5",
            "Take a smaller one.",
        ),
        ("/setup?at=middle&tip_in=0.2&travel_in=0.1", "The tip is larger than the travel."),
    ] {
        page.open(place).await;
        let all = page.js("document.querySelectorAll('details').forEach(d => d.open = true)");
        all.await;
        // What is asked wrongly is said once something was touched.
        page.sees(wanted).await;
    }
    page.open("/layout?n=6&d_mm=60&shape=spiral").await;
    page.sees("spiral").await;
    page.sees("6 holes").await;
}

async fn a_finder_of_two_tenths_gives_what_to_type(page: Page) {
    open_the_sample(&page).await;
    page.open("/setup").await;
    page.tap("Touch a face").await;
    page.enter("Tip of the finder", "0.200").await;
    page.sees("Type X =").await;
    assert_eq!(key(&page).await, "-0.1000");
    page.tap("In front of it").await;
    page.sees("Type Y =").await;
    assert_eq!(key(&page).await, "-0.1000");
    page.tap("Right of it").await;
    page.sees("Type X =").await;
    assert_eq!(key(&page).await, "0.1000");
    says(&part(&page, "[data-testid=finder-speed]").await, &["rpm at most"]);
    page.passes_axe().await;
    page.open("/setup?at=middle&tip_in=0.200&travel_in=3.2480").await;
    says(&part(&page, ".cells").await, &["Width", "3.0480", "1.6240", "1.5240"]);
    assert_eq!(key(&page).await, "1.6240");
    page.open("/setup?at=middle&tip_in=0.200&travel_in=1.3000&inside=yes").await;
    says(&part(&page, ".cells").await, &["Size of the bore", "1.5000"]);
}

async fn a_head_and_a_vise_say_which_way_and_how_far(page: Page) {
    open_the_sample(&page).await;
    page.open("/setup?at=head&sweep_in=8.0&rows_in=0.75&d_in=2&width_in=1.5").await;
    page.enter("Reading at the right", "0.0045").await;
    page.sees("Turn it counter-clockwise, seen from the front").await;
    assert_eq!(key(&page).await, "0.00225");
    says(&part(&page, ".cells").await, &["0.5625", "1.93", "0.00042", "0.00019"]);
    page.sees("power isolated").await;
    page.open("/setup?at=vise&r_in=0.003&sweep_in=5&pivot_in=6&length_in=3").await;
    assert_eq!(key(&page).await, "0.00360");
    says(&part(&page, ".cells").await, &["2.06", "0.00180"]);
}

async fn the_one_inch_parallels_hold_and_meet_the_hole(page: Page) {
    open_the_sample(&page).await;
    page.open("/setup?at=parallels").await;
    page.enter("Height of the jaws", "1.375").await;
    page.enter("Height of the part", "0.750").await;
    page.enter("Depth of the cut down its side", "0.250").await;
    page.sees("From 0.9350 in to 1.1250 in fit.").await;
    assert_eq!(key(&page).await, "1.0000");
    says(&part(&page, ".cells").await, &["Above the jaws", "0.3750", "Air", "0.1250"]);
    page.tap("A hole over them").await;
    page.enter("Width of the part between the jaws", "2.000").await;
    page.enter("Hole diameter", "0.250").await;
    page.enter("Centre of the hole", "0.200").await;
    page.sees("A parallel is under the hole").await;
    says(&part(&page, "[data-testid=cautions]").await, &["0.0750 in to 0.3250 in", "fixed jaw"]);
    page.enter("Centre of the hole", "0.400").await;
    page.sees("Clear of the parallels").await;
    page.passes_axe().await;
    // The vise is the same the next time.
    page.open("/").await;
    page.open("/setup?at=parallels").await;
    assert_eq!(key(&page).await, "1.0000");
}

async fn two_straps_hold_four_times_the_cut(page: Page) {
    open_the_sample(&page).await;
    let straps = "/setup?at=strap&torque_lbf_in=20+lbf+ft&bolt_in=1/2&force_lbf=60&part_in=0.5";
    page.open(&format!("{straps}&to_work_in=1&to_heel_in=2")).await;
    assert_eq!(key(&page).await, "240");
    says(&part(&page, ".cells").await, &["2400", "1600", "8.0", "0.5000 – 0.5600"]);
    says(&part(&page, "[data-testid=line]").await, &["480"]);
    page.sees("T-nut").await;
    page.open(&format!("{straps}&to_work_in=2&to_heel_in=1")).await;
    assert_eq!(key(&page).await, "120");
    page.sees("Bolt nearer the heel").await;
}

async fn a_cutter_beside_a_wall_has_its_passes(page: Page) {
    open_the_sample(&page).await;
    page.open("/setup?at=wall&d_in=3/8&left_in=0.010&depth_in=0.180&pass_in=0.050&finish_in=0.008")
        .await;
    assert_eq!(key(&page).await, "-0.1875");
    says(&part(&page, ".cells").await, &["-0.1975"]);
    says(
        &part(&page, "[data-testid=targets]").await,
        &["0.0430", "0.0860", "0.1290", "0.1720", "0.1800"],
    );
    page.open("/setup?at=slot&d_in=3/8&slot_in=0.5").await;
    assert_eq!(key(&page).await, "-0.0625");
    page.open("/setup?at=exit&part_in=0.5&depth_in=0.64&on_in=1").await;
    assert_eq!(key(&page).await, "0.8600");
}

async fn a_layout_is_kept_by_name(page: Page) {
    open_the_sample(&page).await;
    page.open("/layout?n=6&d_mm=60").await;
    page.tap("Save this pattern").await;
    page.tap("Saved: see all").await;
    page.sees("Bolt circle, 6 holes").await;
}
