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
    let kept = site::kept_files(&site::dist());
    let program = kept.iter().find(|f| f.ends_with(".wasm")).expect("a program");
    page.site().replace(program, "this is no program");
    page.expect_noise("WebAssembly");
    page.open("/").await;
    assert_eq!(page.heading().await, "Handwheel could not start");
    page.sees("What you have saved is still on this device.").await;
    page.shot("broken").await;
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
    println!("    {all:.2} MB kept on the device, of them {program:.2} MB program");
    // With threads, holes and the converter; a third of it travels.
    assert!(program < 2.8, "the program takes {program} MB");
    assert!(all < 3.3, "all files take {all} MB");
}
