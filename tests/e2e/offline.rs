//! After the first visit the app needs no network.

use crate::ROUTES;
use crate::page::Page;
use crate::runner::tests;
use crate::site;
use serde_json::json;

tests![
    the_first_visit_stores_every_file,
    every_page_opens_with_the_host_gone,
    two_copies_on_one_host_leave_each_other_alone,
    the_nosw_address_fetches_everything_afresh,
    an_app_stored_halfway_is_not_stored,
];

/// Becomes true when the app has said that it works without a network.
pub const READY: &str = "return document.documentElement.dataset.offline == 'ready'";

async fn the_first_visit_stores_every_file(page: Page) {
    page.open("/").await;
    page.waits_for("the stored app", READY).await;
    let stored = page
        .js("return (async () => {
            const names = await caches.keys();
            const cache = await caches.open(names[0]);
            const files = (await cache.keys()).map(r => r.url);
            return { names, files };
        })()")
        .await;
    let name = format!("handwheel /x/y/ {}", site::version(&site::dist()));
    assert_eq!(stored["names"], json!([name]));
    let files = stored["files"].as_array().expect("a list");
    for path in site::kept_files(&site::dist()) {
        let address = page.site().address(path.trim_start_matches("./"));
        assert!(files.contains(&json!(address)), "{address} is not stored");
    }
}

async fn every_page_opens_with_the_host_gone(page: Page) {
    page.open("/").await;
    page.waits_for("the stored app", READY).await;
    page.site().stop();
    // The search for a new version cannot succeed, and may say so.
    page.expect_noise("sw.js");
    for route in ROUTES.iter().copied().chain(["/?a=1", "/index.html", "/no-such-page"]) {
        page.open(route).await;
        assert_ne!(page.heading().await, "Handwheel could not start", "{route}");
    }
    page.reload().await;
}

async fn two_copies_on_one_host_leave_each_other_alone(page: Page) {
    page.open("/").await;
    page.waits_for("the stored app", READY).await;
    // The neighbor stores and tidies under its own name on the same origin.
    page.js("return caches.open('handwheel /x/y/z/ 0').then(c => c.put('a', new Response('b')))")
        .await;
    page.site().publish(site::next_version());
    page.reload().await;
    page.waits_for("the new version", crate::update::WAITING).await;
    crate::update::agree(&page).await;
    let names = page.js("return caches.keys()").await;
    let names = names.as_array().expect("a list");
    assert!(names.contains(&json!("handwheel /x/y/z/ 0")), "{names:?}");
    assert_eq!(names.len(), 2, "{names:?}");
}

async fn the_nosw_address_fetches_everything_afresh(page: Page) {
    page.open("/").await;
    page.waits_for("the stored app", READY).await;
    page.js("localStorage.setItem('handwheel/kept', 'yes')").await;
    page.open("/?nosw").await;
    page.waits_for(
        "an empty store",
        "return Promise.all([caches.keys(), navigator.serviceWorker.getRegistrations()])
            .then(([names, workers]) => names.length + workers.length == 0)",
    )
    .await;
    assert_eq!(page.js("return localStorage.getItem('handwheel/kept')").await, json!("yes"));
    page.open("/").await;
    page.waits_for("the stored app", READY).await;
}

async fn an_app_stored_halfway_is_not_stored(page: Page) {
    page.site().replace("icons/512.png", "<h1>Please log in</h1>");
    page.expect_noise("sw.js");
    page.open("/").await;
    let refused = "return navigator.serviceWorker.getRegistrations().then(all => all.length == 0)";
    let tries = || page.site().answered().iter().filter(|a| a.path.ends_with("/512.png")).count();
    page.waits_until("the file was asked for past every store on the way", || tries() == 2).await;
    page.waits_for("the refusal", refused).await;
    assert_eq!(page.js("return caches.keys()").await, json!([]));
    assert_eq!(page.js(READY).await, json!(false));
}
