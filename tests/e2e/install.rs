//! A phone can put the app on its home screen.

use crate::page::Page;
use crate::runner::tests;
use crate::site;
use serde_json::{Value, json};

tests![
    the_manifest_names_icons_of_the_stated_size,
    chromium_finds_nothing_that_hinders_installing,
    a_person_may_enlarge_the_page,
];

async fn the_manifest_names_icons_of_the_stated_size(page: Page) {
    let folder = site::dist();
    let text = std::fs::read_to_string(folder.join("manifest.webmanifest")).expect("a manifest");
    let manifest: Value = serde_json::from_str(&text).expect("a manifest in JSON");
    assert_eq!(manifest["display"], "standalone");
    assert_eq!(manifest["id"], "handwheel", "another id would be another app to the phone");

    page.open("/").await;
    let resolved = page
        .js_with(
            "const at = path => new URL(path, document.querySelector('[rel=manifest]').href).href;
             return arguments.length && [...arguments].map(at);",
            vec![manifest["scope"].clone(), manifest["start_url"].clone()],
        )
        .await;
    let scope = resolved[0].as_str().expect("a scope");
    assert_eq!(scope, page.site().address(""));
    assert!(resolved[1].as_str().expect("a start").starts_with(scope), "{resolved}");

    let mut sizes = Vec::new();
    for icon in manifest["icons"].as_array().expect("icons") {
        let (path, stated) = (icon["src"].as_str().unwrap(), icon["sizes"].as_str().unwrap());
        let (width, height) = pixels(path);
        assert_eq!(format!("{width}x{height}"), stated, "{path}");
        sizes.push(width);
    }
    assert!(sizes.contains(&192) && sizes.contains(&512), "{sizes:?}");
    let apple = page.js("return document.querySelector('[rel=apple-touch-icon]').href;").await;
    let apple = apple.as_str().unwrap().strip_prefix(&page.site().address("")).expect("inside");
    assert_eq!(pixels(apple), (180, 180));
    for shortcut in manifest["shortcuts"].as_array().expect("shortcuts") {
        let place = shortcut["url"].as_str().unwrap().trim_start_matches('.');
        assert!(crate::ROUTES.contains(&place), "the shortcut {place} leads nowhere");
    }
}

/// Width and height of a PNG of the build, from its header.
fn pixels(path: &str) -> (u32, u32) {
    let png = std::fs::read(site::dist().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"));
    assert_eq!(&png[1..4], b"PNG", "{path}");
    let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().expect("four bytes"));
    (number(16), number(20))
}

async fn chromium_finds_nothing_that_hinders_installing(page: Page) {
    page.open("/").await;
    page.waits_for("the stored app", crate::offline::READY).await;
    let manifest = page.cdp("Page.getAppManifest", json!({})).await;
    assert_eq!(manifest["errors"], json!([]));
    let hindrances = page.cdp("Page.getInstallabilityErrors", json!({})).await;
    assert_eq!(hindrances["installabilityErrors"], json!([]));
}

async fn a_person_may_enlarge_the_page(page: Page) {
    page.open("/").await;
    let viewport = page.js("return document.querySelector('[name=viewport]').content;").await;
    let viewport = viewport.as_str().expect("a viewport");
    assert!(!viewport.contains("user-scalable") && !viewport.contains("maximum-scale"));
}
