//! The app runs in any folder of a host and asks for nothing outside of it.

use crate::ROUTES;
use crate::page::Page;
use crate::runner::tests;
use crate::site;
use serde_json::{Value, json};

tests![every_request_and_link_stays_in_the_folder, index_html_is_the_first_page];

async fn every_request_and_link_stays_in_the_folder(page: Page) {
    let folder = page.site().address("");
    for route in ROUTES {
        page.open(route).await;
        let addresses = page
            .js("return [
                ...[...document.querySelectorAll('[src], [href]')].map(e => e.src || e.href),
                ...performance.getEntriesByType('resource').map(e => e.name),
            ].filter(a => typeof a == 'string');")
            .await;
        for address in addresses.as_array().expect("a list").iter().filter_map(Value::as_str) {
            let inside = address.starts_with(&folder) || address.starts_with("data:");
            assert!(inside, "{address} on {route} leaves {folder}");
        }
        let links = page
            .js_with(
                "return [...document.querySelectorAll('a[href]')].map(a => a.href)
                    .filter(a => a.startsWith(arguments[0])).map(a => a.slice(arguments[0].length));",
                vec![json!(folder)],
            )
            .await;
        for link in links.as_array().expect("a list").iter().filter_map(Value::as_str) {
            let place = link.split(['?', '#']).next().expect("a place");
            let known = ROUTES.iter().any(|r| r.trim_start_matches('/') == place)
                || site::dist().join(place).is_file();
            assert!(known, "the link “{link}” on {route} leads nowhere");
        }
    }
    page.waits_for("the stored app", crate::offline::READY).await;
    for asked in page.site().answered() {
        assert!(asked.path.starts_with("/x/y/"), "{} was asked for", asked.path);
        let is_route = ROUTES.iter().any(|r| asked.path == format!("/x/y{r}"));
        assert!(asked.status == 200 || is_route, "{} answered {}", asked.path, asked.status);
    }
}

async fn index_html_is_the_first_page(page: Page) {
    page.open("/").await;
    let heading = page.heading().await;
    page.open("/index.html?a=1#b").await;
    assert_eq!(page.place().await, "/?a=1#b");
    assert_eq!(page.heading().await, heading);
}
