//! What a machine can check about whether everyone can use the screens, in every colour scheme.

use crate::page::Page;
use crate::places::{EMPTY, OVER, SAMPLE, SLOT, open_the_sample, open_wide, unfold};
use crate::runner::tests;
use crate::screen::{SMALL_PHONE, Screen};

tests![
    axe_finds_nothing_in_the_dark,
    axe_finds_nothing_in_the_light,
    axe_finds_nothing_in_high_contrast,
    axe_finds_nothing_on_an_empty_device,
    axe_finds_nothing_with_the_number_pad_open,
];

/// Sets the colours, as the setting does.
pub async fn paint(page: &Page, theme: &str) {
    let script = match theme {
        "dark" => "delete document.documentElement.dataset.theme".to_owned(),
        other => format!("document.documentElement.dataset.theme = '{other}'"),
    };
    page.js(&script).await;
    page.frame().await;
}

/// Makes the screen as tall as the page: a target that has scrolled halfway under a bar would look
/// too small.
async fn stretch(page: &Page) {
    let height = page.js("return document.documentElement.scrollHeight").await;
    let height = height.as_u64().and_then(|h| u32::try_from(h).ok()).expect("a height");
    page.turn(Screen { height: height.max(SMALL_PHONE.height), ..SMALL_PHONE }).await;
}

async fn check_the_sample(page: &Page, theme: &str, label: &str) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(page).await;
    page.open("/shop?settings").await;
    page.tap(label).await;
    page.waits_for("the saved colours", &format!(
        "return localStorage[localStorage['handwheel/current']].includes('\"theme\":\"{theme}\"')"
    ))
    .await;
    for place in SAMPLE {
        open_wide(page, place).await;
        stretch(page).await;
        page.passes_axe().await;
        page.hold(SMALL_PHONE).await;
    }
}

async fn axe_finds_nothing_in_the_dark(page: Page) {
    check_the_sample(&page, "dark", "Dark").await;
}

async fn axe_finds_nothing_in_the_light(page: Page) {
    check_the_sample(&page, "light", "Light").await;
}

async fn axe_finds_nothing_in_high_contrast(page: Page) {
    check_the_sample(&page, "contrast", "High contrast").await;
}

async fn axe_finds_nothing_on_an_empty_device(page: Page) {
    page.hold(SMALL_PHONE).await;
    for place in EMPTY {
        open_wide(&page, place).await;
        stretch(&page).await;
        for theme in ["dark", "light", "contrast"] {
            paint(&page, theme).await;
            page.passes_axe().await;
        }
        page.hold(SMALL_PHONE).await;
    }
}

async fn axe_finds_nothing_with_the_number_pad_open(page: Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(&page).await;
    for place in [SLOT, OVER, "/cut?next=measures&op=side&d_in=1/2"] {
        page.open(place).await;
        page.tap("Whole depth").await;
        page.key_in("1/").await;
        page.tap("done").await;
        page.sees("fraction").await;
        for theme in ["dark", "light", "contrast"] {
            paint(&page, theme).await;
            page.passes_axe().await;
        }
    }
    page.open("/shop?machine=knee_mill").await;
    page.tap("Remove this mill").await;
    unfold(&page).await;
    page.passes_axe().await;
    page.tap("Remove it").await;
    page.sees("is removed").await;
    page.passes_axe().await;
}
