//! A new version waits until the person agrees, and comes whole or not at all.

use crate::page::Page;
use crate::runner::tests;
use crate::site;
use serde_json::json;

tests![
    a_new_version_waits_for_consent_and_comes_with_one_reload,
    wrong_content_under_a_good_name_keeps_the_old_version,
    a_login_page_of_a_guest_network_keeps_the_old_version,
    a_version_that_cannot_start_gives_way_to_the_next,
];

/// Becomes true when a new version waits.
pub const WAITING: &str = "return document.documentElement.dataset.update == 'waiting'";

/// Agrees to the new version, as the app does for the person, and waits for the reload.
pub async fn agree(page: &Page) {
    page.js("window.before = true; dispatchEvent(new CustomEvent('handwheel:use-update'))").await;
    page.waits_for("the reload", "return !window.before && !!document.querySelector('h1')").await;
}

async fn running(page: &Page) -> String {
    let build = page.js("return document.documentElement.dataset.build").await;
    build.as_str().expect("a version").to_owned()
}

/// Opens the app, lets it be stored, and leaves something of the person's.
async fn settle_in(page: &Page) {
    page.open("/").await;
    page.waits_for("the stored app", crate::offline::READY).await;
    page.js("localStorage.setItem('handwheel/kept', 'my mill')").await;
    page.js("sessionStorage.setItem('loads', 0)").await;
}

async fn a_new_version_waits_for_consent_and_comes_with_one_reload(page: Page) {
    settle_in(&page).await;
    let old = site::version(&site::dist());
    let next = site::next_version();
    let new = site::version(&next);
    assert_ne!(old, new);

    page.site().publish(next);
    page.reload().await;
    page.waits_for("the new version", WAITING).await;
    assert_eq!(running(&page).await, old);
    page.reload().await;
    page.waits_for("the new version", WAITING).await;
    assert_eq!(running(&page).await, old, "the old version must run until the person agrees");

    // Each load of the page from here on leaves a mark.
    let mark = "sessionStorage.loads = Number(sessionStorage.loads) + 1;";
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": mark })).await;
    agree(&page).await;
    assert_eq!(running(&page).await, new);
    page.frame().await;
    tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    assert_eq!(page.js("return sessionStorage.loads").await, json!("1"));
    assert_eq!(page.js(WAITING).await, json!(false));
    let name = format!("handwheel /x/y/ {new}");
    assert_eq!(page.js("return caches.keys()").await, json!([name]));
    assert_eq!(page.js("return localStorage.getItem('handwheel/kept')").await, json!("my mill"));
}

async fn wrong_content_under_a_good_name_keeps_the_old_version(page: Page) {
    settle_in(&page).await;
    page.site().publish(site::next_version());
    page.site().replace("icons/192.png", "<h1>Please log in</h1>");
    refuses(&page, "redundant").await;
}

async fn a_login_page_of_a_guest_network_keeps_the_old_version(page: Page) {
    settle_in(&page).await;
    page.site().put_portal_before("<h1>Please log in</h1>");
    refuses(&page, "none").await;
}

/// Searches for the new version: its worker must end so, and the old version run on offline.
async fn refuses(page: &Page, end: &str) {
    let old = site::version(&site::dist());
    page.expect_noise("sw.js");
    let result = page
        .js("return (async () => {
            const registration = await navigator.serviceWorker.getRegistration();
            const found = await registration.update().catch(() => registration);
            const worker = found.installing;
            if (worker) await new Promise(done => worker.addEventListener('statechange', done));
            return worker?.state ?? 'none';
        })()")
        .await;
    assert_eq!(result, json!(end));
    page.site().stop();
    page.reload().await;
    assert_eq!(running(page).await, old);
    assert_eq!(page.js(WAITING).await, json!(false));
    let name = format!("handwheel /x/y/ {old}");
    assert_eq!(page.js("return caches.keys()").await, json!([name]));
}

async fn a_version_that_cannot_start_gives_way_to_the_next(page: Page) {
    settle_in(&page).await;
    let program = site::program(&site::dist());
    page.js_with(
        "return caches.keys().then(names => caches.open(names[0])).then(cache =>
            cache.put(arguments[0], new Response('this is no program')));",
        vec![json!(page.site().address(&program))],
    )
    .await;
    page.expect_noise("WebAssembly");
    let next = site::next_version();
    let new = site::version(&next);
    page.site().publish(next);
    page.reload().await;
    let script = format!("return document.documentElement.dataset.build == '{new}'");
    page.waits_for("the next version", &script).await;
    page.waits_for("its heading", "return !!document.querySelector('h1')").await;
    assert_ne!(page.heading().await, "Handwheel could not start");
}
