//! How many taps lead to an answer, from the page at the root with the machine remembered. Digits
//! of the number pad do not count.

use crate::page::Page;
use crate::places::{SLOT, open_the_sample};
use crate::runner::tests;
use crate::screen::SMALL_PHONE;

tests![
    the_last_cut_again_takes_one_tap,
    a_new_answer_with_a_cutter_of_the_drawer_takes_five,
    a_new_answer_with_a_typed_diameter_takes_six,
    a_favorite_takes_two,
    the_other_units_take_one,
    keeping_a_cut_takes_one,
];

const KEY: &str = "[data-result=key]";

/// The page at the root of the sample shop, on a small phone, with the counter at nought.
async fn begin(page: &Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(page).await;
    page.open("/").await;
    page.count_from_here();
}

async fn spent(page: &Page, most: u32, task: &str) {
    assert!(page.in_view(KEY).await, "the number to set is out of sight");
    println!("    {task}: {} taps of {most}, {} scrolls", page.taps(), page.scrolls());
    assert!(page.taps() <= most, "{task} takes {} taps and may take {most}", page.taps());
}

async fn the_last_cut_again_takes_one_tap(page: Page) {
    begin(&page).await;
    page.tap("Last cut").await;
    page.sees("Spindle speed").await;
    assert!(page.in_view("[data-testid=line]").await, "the handwheel is out of sight");
    spent(&page, 1, "the last cut again").await;
}

async fn a_new_answer_with_a_cutter_of_the_drawer_takes_five(page: Page) {
    begin(&page).await;
    page.tap("Cut").await;
    page.tap("Side cut").await;
    page.tap("Plain low-carbon steel").await;
    page.tap("3/8 end mill, 4 flutes").await;
    page.tap("1/4 D").await;
    page.sees("Side cut in").await;
    page.sees("0.094").await;
    spent(&page, 5, "a new answer, cutter in the drawer").await;
}

async fn a_new_answer_with_a_typed_diameter_takes_six(page: Page) {
    begin(&page).await;
    page.tap("Cut").await;
    page.tap("Side cut").await;
    page.tap("Plain low-carbon steel").await;
    page.tap("Diameter").await;
    page.key_in("5/16").await;
    page.tap("done").await;
    page.tap("1/4 D").await;
    page.sees("Side cut in").await;
    page.sees("0.078").await;
    spent(&page, 6, "a new answer, diameter typed").await;
}

async fn a_favorite_takes_two(page: Page) {
    begin(&page).await;
    page.tap("Favorites").await;
    page.tap("Focuser slot, 3 mm").await;
    page.sees("Spindle speed").await;
    spent(&page, 2, "a favorite").await;
}

async fn the_other_units_take_one(page: Page) {
    begin(&page).await;
    page.open(SLOT).await;
    page.sees("in/min").await;
    page.count_from_here();
    page.tap("in mm").await;
    page.sees("mm/min").await;
    page.sees_no("in/min").await;
    spent(&page, 1, "the other units").await;
}

async fn keeping_a_cut_takes_one(page: Page) {
    begin(&page).await;
    page.open(&SLOT.replace("depth_in=0.060", "depth_in=0.050")).await;
    page.count_from_here();
    page.tap("Save this cut").await;
    page.sees("Saved").await;
    spent(&page, 1, "keeping a cut").await;
    page.open("/favorites").await;
    page.sees("Slot in 6061-T6, 3 mm end mill, 2 flutes").await;
}
