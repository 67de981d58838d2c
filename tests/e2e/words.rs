//! The words the other tests are written in mean what they say, tried on a page made for it.

use crate::page::Page;
use crate::runner::tests;
use crate::screen::{DESK, PHONE, PHONE_SIDEWAYS};
use serde_json::json;
use std::time::Duration;
use thirtyfour::Key;

tests![
    a_tap_finds_its_control_by_name_and_counts,
    a_tap_needs_one_control_that_a_finger_can_reach,
    fields_and_boxes_are_found_by_their_labels,
    the_device_can_be_changed,
    axe_finds_what_is_too_small_or_too_pale,
    a_stopped_host_can_come_back,
    a_breach_of_the_content_policy_is_noticed,
];

const TRY: &str = r#"<!doctype html><html lang="en"><title>Try</title>
<link rel="icon" href="data:,"><meta name="viewport" content="width=device-width">
<style>
  body { font: 18px sans-serif; color: black; background: white }
  button, input { min-height: 64px; min-width: 64px; margin: 8px }
  .far { margin-top: 1500px }
  .under { position: relative } .under div { position: absolute; inset: 0 }
  .box input { position: absolute; opacity: 0; min-width: 0; min-height: 0; width: 1px; height: 1px }
  .box label { display: block; height: 64px }
</style>
<main>
  <h1>Try</h1>
  <button id="add">Add <small>one turn</small></button> <output>0</output>
  <button disabled>Subtract</button>
  <section aria-label="Left"><button>Side</button></section>
  <section aria-label="Right"><button>Side</button></section>
  <div class="under"><button>Under</button><div></div></div>
  <label>Depth <input id="depth" value="1"></label>
  <p class="box"><input type="checkbox" id="oil"><label for="oil">Cutting oil</label></p>
  <div id="pad"><button>3</button><button aria-label="stroke of a fraction">/</button><button>8</button></div>
  <p hidden>Hidden words</p>
  <div class="far"><button id="far">Far below</button></div>
</main>
<script>
  let turns = 0;
  const show = text => document.querySelector('output').textContent = text;
  document.getElementById('add').onclick = () => show(++turns);
  document.getElementById('far').onclick = () => show('reached');
  for (const side of ['Left', 'Right'])
    document.querySelector(`[aria-label=${side}] button`).onclick = () => show(side);
  document.getElementById('pad').onclick = e =>
    document.getElementById('depth').value += e.target.textContent;
</script>"#;

async fn opened(page: &Page) {
    page.site().replace("try.html", TRY);
    page.open("/try.html").await;
}

async fn a_tap_finds_its_control_by_name_and_counts(page: Page) {
    for screen in [PHONE, DESK] {
        page.hold(screen).await;
        page.count_from_here();
        opened(&page).await;
        page.tap("Add").await;
        page.sees("Add one turn 1").await;
        page.tap("Add one turn").await;
        page.sees("Add one turn 2").await;
        page.tap_in("Right", "Side").await;
        page.sees("Right").await;
        page.sees_no("Hidden words").await;
        assert_eq!((page.taps(), page.scrolls()), (3, 0));
        page.tap("Far below").await;
        page.sees("reached").await;
        assert_eq!((page.taps(), page.scrolls()), (4, 1));
        assert!(page.in_view("#far").await && !page.in_view("#add").await);
    }
}

async fn a_tap_needs_one_control_that_a_finger_can_reach(page: Page) {
    opened(&page).await;
    page.wait_at_most(Duration::from_millis(500));
    for name in ["Side", "Subtract", "Under", "Ad", "Nothing"] {
        let page = page.clone();
        let tap = tokio::spawn(async move { page.tap(name).await }).await;
        assert!(tap.is_err(), "“{name}” was tapped");
    }
}

async fn fields_and_boxes_are_found_by_their_labels(page: Page) {
    opened(&page).await;
    page.tap("Cutting oil").await;
    assert_eq!(page.value_of("Cutting oil").await, "true");
    page.key_in("3/8").await;
    assert_eq!(page.value_of("Depth").await, "13/8");
    page.write("Depth", "0.25").await;
    assert_eq!(page.value_of("Depth").await, "0.25");
    page.press(Key::Backspace).await;
    page.sees("0.2").await;
    assert_eq!(page.value_of("Depth").await, "0.2");
    assert_eq!(page.taps(), 1);
}

async fn the_device_can_be_changed(page: Page) {
    opened(&page).await;
    page.turn(PHONE_SIDEWAYS).await;
    page.prefer(&[("prefers-color-scheme", "light"), ("prefers-reduced-motion", "reduce")]).await;
    let prefers = "return ['(prefers-color-scheme: light)', '(prefers-reduced-motion: reduce)']
        .every(q => matchMedia(q).matches)";
    assert_eq!(page.js(prefers).await, json!(true));

    page.text_size(200).await;
    let size = "const p = document.createElement('p'); p.style.fontSize = '1rem';
        document.body.append(p); return getComputedStyle(p).fontSize";
    assert_eq!(page.js(size).await, json!("32px"));

    let work = "const t = performance.now(); for (let i = 0, x = 1; i < 3e6; i++) x = x * 7 % 13;
        return performance.now() - t";
    page.js(work).await;
    let fast = page.js(work).await.as_f64().expect("a time");
    page.slow_down(8.0).await;
    let slow = page.js(work).await.as_f64().expect("a time");
    page.slow_down(1.0).await;
    assert!(slow > 2.0 * fast, "{fast} ms, slowed down {slow} ms");

    page.flight_mode(true).await;
    assert_eq!(page.js("return navigator.onLine").await, json!(false));
    page.flight_mode(false).await;
}

async fn axe_finds_what_is_too_small_or_too_pale(page: Page) {
    opened(&page).await;
    page.passes_axe().await;
    for flaw in [
        "for (const b of pad.children) b.style.cssText = 'all: revert; width: 9px; height: 9px'",
        "document.querySelector('label').style.color = '#666'",
    ] {
        opened(&page).await;
        page.js(flaw).await;
        let page = page.clone();
        let axe = tokio::spawn(async move { page.passes_axe().await }).await;
        assert!(axe.is_err(), "axe does not see {flaw}");
    }
}

async fn a_stopped_host_can_come_back(page: Page) {
    opened(&page).await;
    page.site().stop();
    page.site().start();
    opened(&page).await;
    page.tap("Far below").await;
    page.back().await;
}

async fn a_breach_of_the_content_policy_is_noticed(page: Page) {
    page.open("/").await;
    assert_eq!(page.trouble().await, None);
    page.js("document.body.setAttribute('style', 'color: red')").await;
    let trouble = page.trouble().await.expect("a breach");
    assert!(trouble.contains("Content Security Policy"), "{trouble}");
}
