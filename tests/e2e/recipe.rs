//! Recipes for holes: the holes of a telescope mount, typed in and read off the screen, one of
//! each other kind, what mends a hole that breaks through, and what cannot be.

use crate::page::Page;
use crate::places::{BREAKS_THROUGH, open_the_sample};
use crate::runner::tests;
use crate::screen::{PHONE, SMALL_PHONE};
use serde_json::{Value, json};

tests![
    six_m4_through_half_an_inch_of_6061_on_the_knee_mill,
    a_blind_quarter_twenty_breaks_through_and_a_bottoming_tap_mends_it,
    every_other_remedy_is_a_tap_away,
    a_clearance_hole_is_made_for_its_screw,
    a_counterbore_takes_the_head_of_its_screw,
    a_countersink_is_as_deep_as_its_flat_head_wants,
    a_reamed_hole_is_drilled_under_its_size,
    a_recipe_is_a_few_taps_away,
    a_card_hands_its_form_on_and_shows_a_blind_hole,
    what_cannot_be_is_said_at_its_field_and_the_rest_stays,
    a_wide_screen_shows_what_is_asked_beside_the_steps,
    the_steps_lead_to_their_check_and_to_the_count_of_a_tap,
];

/// The text of the step with this heading, every white space one space.
async fn step(page: &Page, work: &str) -> String {
    let text = page
        .js_with(
            "const steps = [...document.querySelectorAll('[data-testid=step]')];
             return steps.find(s => s.querySelector('h2').innerText.trim().endsWith(arguments[0]))
                 ?.innerText;",
            vec![json!(work)],
        )
        .await;
    words(&text)
}

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

async fn six_m4_through_half_an_inch_of_6061_on_the_knee_mill(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe&thread=M4x0.7").await;
    page.enter("Thickness of the plate", "0.500").await;
    page.tap("6061").await;
    page.tap("Knee mill").await;
    page.tap("Your own figures for the drill").await;
    page.enter("Surface speed of the drill", "200").await;
    page.enter("Feed of the drill, a turn", "0.003").await;
    page.sees("Burr off").await;

    assert_eq!(key(&page).await, "0.5690");
    says(&part(&page, "[data-testid=line]").await, &["3.3 mm drill", "2560 rpm"]);
    says(&step(&page, "Spot").await, &["1 Spot", "0.0866 in", "leaves a spot of 0.1732 in"]);
    says(
        &step(&page, "Drill").await,
        &[
            "3.3 mm drill",
            "2560 rpm",
            "Range high, switch to FWD: clockwise from above",
            "0.5690 in",
            "7.68 in/min",
            "4.45 s in all",
        ],
    );
    says(
        &step(&page, "Tap by hand").await,
        &["M4x0.7 tap, plug", "18.1 turns", "for 0.5000 in, then 4.0 more to clear its chamfer"],
    );
    says(
        &part(&page, "[data-testid=cautions]").await,
        &["The spindle must not be able to start.", "Power off at the wall"],
    );
    assert!(!page.text().await.contains("packs its chips"), "the hole goes through");
    let working = "const steps = [...document.querySelectorAll('[data-testid=step]')];
        steps[1].querySelector('details').open = true";
    page.js(working).await;
    page.sees("From the question to the answer").await;
    says(&step(&page, "Drill").await, &["5880"]);
    page.shot("s2-recipe").await;

    page.tap("in mm").await;
    page.sees("14.453").await;
    assert_eq!(key(&page).await, "14.453");
}

async fn a_blind_quarter_twenty_breaks_through_and_a_bottoming_tap_mends_it(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe&thread=1/4-20+UNC&mill=knee_mill").await;
    page.tap("Goes through").await;
    page.enter("Thickness of the plate", "0.750").await;
    page.enter("Length of full thread", "0.5").await;
    page.tap("Tapped: 1/4-20 UNC").await;
    page.tap("Tap: plug").await;
    page.write("Drill of your own", "#7").await;
    page.tap("done").await;
    page.sees("The point breaks through").await;

    assert_eq!(key(&page).await, "0.8104", "the tip, not the full diameter");
    says(
        &step(&page, "Drill").await,
        &[
            "No. 7 drill",
            "0.8104 in",
            "0.7500 in at the full diameter",
            "right out to clear at 0.4354 in",
        ],
    );
    says(&step(&page, "Tap by hand").await, &["14.0 turns", "0.7000 in", "0.5000 in of it full"]);
    says(
        &part(&page, "[data-testid=cautions]").await,
        &["The tip goes to 0.8104 in, and the plate is 0.7500 in thick.", "packs its chips"],
    );
    let section = "return document.querySelector('[data-testid=section] svg').ariaLabel";
    says(
        &words(&page.js(section).await),
        &["0.5000 full thread", "0.7000 tap", "0.7500 full", "0.8104 drill tip", "0.0604 too deep"],
    );
    says(&part(&page, "[data-testid=remedies]").await, &["Tip 0.6854 in", "0.0646 in", "11.5"]);
    page.shot("s10-recipe").await;

    page.tap("Finish with a bottoming tap").await;
    page.sees("Two taps: the plug tap first").await;
    page.sees_no("The point breaks through").await;
    assert_eq!(key(&page).await, "0.6854");
    says(&words(&page.js(section).await), &["0.6854 drill tip", "0.0646 floor left"]);
    let text = page.text().await;
    says(&text, &["0.4250 in of it full thread", "0.5000 in of it full thread"]);
    says(&text, &["1/4-20 UNC tap, plug", "1/4-20 UNC tap, bottoming", "11.5 turns", "0.5750 in"]);
    page.back().await;
    page.sees("The point breaks through").await;
}

async fn every_other_remedy_is_a_tap_away(page: Page) {
    open_the_sample(&page).await;
    for remedy in ["At most 0.4096 in of thread", "Go through"] {
        page.open(BREAKS_THROUGH).await;
        page.sees("The point breaks through").await;
        page.tap(remedy).await;
        page.sees_no("The point breaks through").await;
    }
    // A depth of one's own was for the longer thread: it may not stand in the way of a shorter one.
    page.open(&format!("{BREAKS_THROUGH}&depth_in=0.74")).await;
    page.sees("The point breaks through").await;
    page.tap("At most").await;
    page.sees_no("The point breaks through").await;
    page.sees_no("No recipe yet").await;
    let plain = "/threads?recipe&kind=plain&hole_in=1/2&plate_in=0.5&through=no&depth_in=";
    page.open(&format!("{plain}0.36")).await;
    page.tap("Drill with a 135° point").await;
    page.sees_no("The point breaks through").await;
    page.open(&format!("{plain}0.45")).await;
    page.sees("Flatten the bottom").await;
    page.tap("At most").await;
    page.sees_no("The point breaks through").await;
}

async fn a_clearance_hole_is_made_for_its_screw(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe").await;
    page.tap("Clearance").await;
    page.sees("No screw is chosen. Choose the one that goes through.").await;
    page.tap("Metric screws").await;
    page.tap("M5").await;
    page.tap("medium").await;
    page.write("Thickness of the plate", "12 mm").await;
    page.sees("5.5 mm drill").await;
    says(&step(&page, "Drill").await, &["5.5 mm drill"]);
    says(&part(&page, "[data-testid=section] figcaption").await, &["drill 0.2165 in"]);
}

async fn a_counterbore_takes_the_head_of_its_screw(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe&kind=counterbored&screw=1/4&plate_in=0.5").await;
    says(&step(&page, "Counterbore").await, &["0.4375 in", "Depth 0.4375 in wide 0.2500 in"]);
    says(&step(&page, "Drill").await, &["9/32 drill", "0.6145 in"]);
    says(&part(&page, "[data-testid=missing]").await, &["Counterbore or end mill, 0.4375 in"]);
    page.tap("in mm").await;
    page.sees("6.350 mm").await;
}

async fn a_countersink_is_as_deep_as_its_flat_head_wants(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe&kind=countersunk&screw=M5&plate_mm=12&through=no&depth_mm=8").await;
    page.sees("90° countersink").await;
    // The tip of a right-angled cone goes half as deep as the cone is wide.
    says(&step(&page, "Countersink").await, &["0.2205 in", "0.4409 in wide at the surface"]);
    page.sees("0.1122 countersink").await;
}

async fn a_reamed_hole_is_drilled_under_its_size(page: Page) {
    open_the_sample(&page).await;
    page.open(
        "/threads?recipe&kind=reamed&hole_in=3/8&plate_in=1&stock=steel_low_c&mill=knee_mill",
    )
    .await;
    says(&step(&page, "Ream").await, &["Reamer, 0.3750 in", "A reamer turned backwards"]);
    says(&step(&page, "Drill").await, &["9.3 mm drill"]);
    says(&part(&page, "[data-testid=section] figcaption").await, &["reamed 0.3750 in"]);
}

async fn a_recipe_is_a_few_taps_away(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    page.open("/").await;
    page.count_from_here();
    page.tap("Hole").await;
    page.tap("Choose the thread").await;
    page.tap("1/4-20").await;
    page.enter("Thickness of the plate", "1/2").await;
    page.sees("Burr off").await;
    println!("    a through thread from home: {} taps of 5", page.taps());
    assert!(page.taps() <= 5, "{} taps", page.taps());
    assert!(page.in_view("[data-result=key]").await, "the depth is out of sight");

    // From the card of a thread whose hole is known, one tap more.
    page.open("/threads?thread=M4x0.7&plate_in=0.5").await;
    page.count_from_here();
    page.tap("Recipe").await;
    page.sees("3.3 mm drill").await;
    assert_eq!(page.taps(), 1);
    page.open("/threads").await;
    page.tap("Recipe for a hole").await;
    page.sees("It wants: thread").await;
}

async fn a_card_hands_its_form_on_and_shows_a_blind_hole(page: Page) {
    page.hold(PHONE).await;
    open_the_sample(&page).await;
    page.open("/threads?thread=1/4-20+UNC&through=no&full_in=0.5&plate_in=0.750&percent=75").await;
    page.sees("The blind hole").await;
    let section = "return document.querySelector('[data-testid=section] svg').ariaLabel";
    says(&words(&page.js(section).await), &["0.8104 drill tip", "0.0604 too deep"]);
    page.tap("Recipe").await;
    page.sees("The point breaks through").await;
    assert_eq!(key(&page).await, "0.8104");
    page.open(&BREAKS_THROUGH.replace("full_in=0.5", "full_in=0.25")).await;
    page.sees("No. 7 drill").await;
    assert!(page.in_view(".recipe-tool").await, "the first tool is out of sight");
    page.back().await;
    page.sees("The point breaks through").await;
    page.back().await;
    page.sees("The blind hole").await;
}

async fn what_cannot_be_is_said_at_its_field_and_the_rest_stays(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe").await;
    page.sees("No thread is chosen. Find it by its name, such as 1/4-20 or M6.").await;
    page.sees("It wants: thread, thickness of the plate.").await;

    let good = "/threads?recipe&thread=1/4-20+UNC&through=no&full_in=0.2&plate_in=0.5";
    page.open(&format!("{good}&drill_in=1/4")).await;
    page.sees("The drill is as large as the thread. Enter the tap drill").await;
    page.open(&format!("{good}&depth_in=0.6")).await;
    page.sees("The hole is as deep as the plate is thick. Make it a through hole").await;
    page.open(&format!("{good}&depth_in=0")).await;
    page.sees("it must be more than 0").await;
    page.open("/threads?recipe&kind=clearance&plate_in=0.5&screw=M99").await;
    page.sees("ISO 273 has no M99 of this kind.").await;
    page.open("/threads?recipe&thread=1/8+NPT&plate_in=0.5").await;
    page.sees("No recipe yet").await;

    // What was typed stays as it was typed, and a mended entry brings the recipe.
    page.open(&format!("{good}&depth_in=0.6")).await;
    page.sees("No recipe yet").await;
    assert_eq!(page.value_of("Thickness of the plate").await, "0.5");
    assert_eq!(page.value_of("Depth at the full diameter").await, "0.6");
    page.write("Depth at the full diameter", "0.4").await;
    page.sees("Bevel the mouth").await;
    page.sees_no("No recipe yet").await;
    page.open("/threads?recipe&kind=oval&thread=M6&plate_in=0.5").await;
    page.sees("which this version does not know").await;
    page.sees("Tap by hand").await;
}

async fn a_wide_screen_shows_what_is_asked_beside_the_steps(page: Page) {
    page.hold(crate::screen::DESK).await;
    open_the_sample(&page).await;
    page.open(BREAKS_THROUGH).await;
    page.sees("Kind of hole: Tapped").await;
    page.sees("Thickness of the plate").await;
}

async fn the_steps_lead_to_their_check_and_to_the_count_of_a_tap(page: Page) {
    open_the_sample(&page).await;
    page.open("/threads?recipe&thread=M4x0.7&plate_in=0.500&mill=knee_mill").await;
    page.tap("Count the turns").await;
    page.sees("22.1 turns").await;
    page.back().await;
    page.sees("Hole recipe").await;
    page.tap("Check before the hole").await;
    page.sees("You and your mill").await;
    let place = page.place().await;
    says(&place, &["op=drill", "mill=knee_mill", "d_mm=3.3"]);
}
