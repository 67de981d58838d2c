//! The release build opens, on every page and every screen, and tells when it cannot.

use crate::page::Page;
use crate::runner::tests;
use crate::{ROUTES, screen, site};
use serde_json::json;

tests![
    the_release_build_opens_with_a_heading,
    every_page_opens_on_every_screen_with_a_quiet_console,
    an_unknown_address_shows_a_way_home,
    the_page_says_which_version_runs,
    an_app_that_cannot_start_says_so,
    a_part_that_does_not_arrive_says_so_and_is_asked_for_again,
    the_download_stays_small,
];

async fn the_release_build_opens_with_a_heading(page: Page) {
    page.open("/").await;
    assert_ne!(page.heading().await, "");
    page.shot("start").await;
}

/// The runner fails on a warning, an error or a breach of the content policy in the console.
async fn every_page_opens_on_every_screen_with_a_quiet_console(page: Page) {
    for screen in [screen::SMALL_PHONE, screen::PHONE_SIDEWAYS] {
        page.hold(screen).await;
        for route in ROUTES {
            page.open(route).await;
            assert!(!page.heading().await.is_empty(), "no heading on {route}");
        }
    }
    for screen in screen::ALL {
        page.turn(screen).await;
    }
}

async fn an_unknown_address_shows_a_way_home(page: Page) {
    page.open("/no-such-page").await;
    let home = page.site().address("");
    let ways = page
        .js_with(
            "return [...document.querySelectorAll('a')].some(a => a.href == arguments[0]);",
            vec![json!(home)],
        )
        .await;
    assert_eq!(ways, json!(true), "no link to {home}");
}

async fn the_page_says_which_version_runs(page: Page) {
    page.open("/").await;
    let build = page.js("return document.documentElement.dataset.build").await;
    assert_eq!(build, json!(site::version(&site::dist())));
}

async fn an_app_that_cannot_start_says_so(page: Page) {
    let program = site::program(&site::dist());
    page.site().replace(&program, "this is no program");
    page.expect_noise("WebAssembly");
    page.open("/").await;
    assert_eq!(page.heading().await, "Handwheel could not start");
    page.sees("What you have saved is still on this device.").await;
    page.shot("broken").await;
}

async fn a_part_that_does_not_arrive_says_so_and_is_asked_for_again(page: Page) {
    let kept = site::kept_files(&site::dist());
    let rest = kept.iter().find(|f| f.ends_with("-rest.wasm")).expect("a second piece");
    page.site().replace(rest, "this is no program");
    page.expect_noise("WebAssembly");
    page.expect_noise("sw.js");
    page.open("/about").await;
    assert_eq!(page.heading().await, "Not here yet");
    page.shot("not-here-yet").await;
    page.tap("Back").await;
    page.sees("Your mill in four questions").await;

    page.site().mend(rest);
    page.tap("Sample shop").await;
    page.sees("On the mill").await;
    page.tap("About").await;
    page.sees("Check this app against its sources").await;
}

/// Uncompressed; `./dev bench` prints what travels.
async fn the_download_stays_small(_page: Page) {
    let folder = site::dist();
    let size = |path: &String| {
        std::fs::metadata(site::file(&folder, path)).expect("a kept file").len() as f64 / 1e6
    };
    let kept = site::kept_files(&folder);
    let all: f64 = kept.iter().map(size).sum();
    let program: f64 = kept.iter().filter(|f| f.ends_with(".wasm")).map(size).sum();
    let first = size(&site::program(&folder));
    println!("    {all:.2} MB kept on the device, {program:.2} MB program, {first:.2} MB at once");
    // A third of it travels. What the first screen takes is the smallest app of this kind (a
    // quarter of a megabyte), the saved document and the board: a page that slips into it shows.
    assert!(first < 0.86, "the first screen takes {first} MB of program");
    assert!(program < 3.6, "the program takes {program} MB");
    assert!(all < 3.9, "all files take {all} MB");
}
