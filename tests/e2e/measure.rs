//! What `./dev bench` measures in the browser. Nothing here passes or fails: times depend on the
//! machine, so each stands beside that of the smallest app of this kind.

use crate::browser::Browser;
use crate::page::Page;
use crate::site::Site;
use crate::{offline, pace, runner};
use serde_json::json;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

/// How much slower than this machine a phone of some years is taken to be.
const SLOWER: f64 = 4.0;
const STARTS: usize = 9;
const TAPS: usize = 20;
/// How long the beat of the pacer is listened to.
const LISTEN: Duration = Duration::from_secs(300);
/// How long a finger that taps stays down.
const CONTACT: Duration = Duration::from_millis(80);

/// Measures and prints.
pub fn run() -> ExitCode {
    runner::block_on(async {
        let browser = Browser::start().await;
        measure(&browser).await;
        browser.quit().await;
    });
    ExitCode::SUCCESS
}

async fn measure(browser: &Browser) {
    println!("\nwith the processor slowed down to 1/{SLOWER}, medians:");
    let ours = browser.new_page().await;
    ours.open("/").await;
    ours.tap("Sample shop").await;
    row("start without a network, to the first screen", start(&ours).await, "ms");
    row("memory of the program after it", memory(&ours).await, "MB");
    ours.tap("Last cut").await;
    let (known, shown) = tap_to_answer(&ours, ["1/4 D", "1 D"], "[data-result]").await;
    row("tap on another depth, to the new answer", known, "ms");
    row("    to the frame that shows it", shown, "ms");
    ours.open("/layout?shape=grid&n=20&rows=10&step_x_mm=10&step_y_mm=10&short=yes&turned=1").await;
    let mirrors = ["Left to right", "Front to back"];
    let (known, shown) = tap_to_answer(&ours, mirrors, "[data-testid=places] tbody").await;
    row("200 holes mirrored, put in order, listed and drawn", known, "ms");
    row("    to the frame that shows them", shown, "ms");
    browser.close(ours).await;

    let floor = browser.new_page_on(Site::serve(floor(), "/x/y/")).await;
    floor.open("/").await;
    row("start of the smallest app", start(&floor).await, "ms");
    row("    its memory", memory(&floor).await, "MB");
    let (known, shown) = tap_to_answer(&floor, ["Count", "Count"], "output").await;
    row("    tap on its one button, to the new number", known, "ms");
    row("    to the frame that shows it", shown, "ms");
    browser.close(floor).await;

    println!("\nthe pacer for five minutes, the processor slowed down to 1/6 and kept busy:");
    let pacer = browser.new_page().await;
    let (worst, margin, beats) = pace::worst_beat(&pacer, LISTEN).await;
    row("worst error of a beat against the audio clock", worst, "ms");
    row("least time from handing a tone over to its sound", margin, "ms");
    row("beats", beats as f64, "");
    browser.close(pacer).await;
}

fn row(name: &str, value: f64, unit: &str) {
    println!("{name:<52} {value:>9.1} {unit}");
}

fn floor() -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/floor-dist");
    assert!(folder.join("sw.js").is_file(), "the smallest app is not built: run ./dev bench");
    folder
}

/// From the tap on the icon to the first frame with a heading, out of the stored files alone.
async fn start(page: &Page) -> f64 {
    page.waits_for("the stored app", offline::READY).await;
    page.site().stop();
    page.slow_down(SLOWER).await;
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": NOTE_HEADING })).await;
    let mut times = Vec::new();
    for _ in 0..STARTS {
        page.cdp("Page.navigate", json!({ "url": "about:blank" })).await;
        page.open("/").await;
        page.waits_for("the first frame", "return window.headingShown > 0").await;
        times.push(page.js("return window.headingShown").await.as_f64().expect("a time"));
    }
    page.slow_down(1.0).await;
    median(times)
}

/// Notes when the frame with the first heading has gone to the screen.
const NOTE_HEADING: &str = "new MutationObserver((_, observer) => {
    if (!document.querySelector('h1')) return;
    observer.disconnect();
    requestAnimationFrame(() => setTimeout(() => window.headingShown = performance.now()));
}).observe(document, { childList: true, subtree: true });";

/// From the lifting of the finger to other texts in the watched elements, and to the frame that
/// shows them; the two controls are tapped in turn.
async fn tap_to_answer(page: &Page, controls: [&str; 2], watched: &str) -> (f64, f64) {
    page.js_with(NOTE_ANSWER, vec![json!(watched)]).await;
    page.slow_down(SLOWER).await;
    for n in 1..=TAPS {
        page.rest_on(controls[n % 2], CONTACT).await;
        page.waits_for("the answer", &format!("return window.answers.length == {n}")).await;
    }
    page.slow_down(1.0).await;
    let times = page.js("return window.answers").await;
    let column = |n: usize| {
        let times = times.as_array().expect("times").iter();
        median(times.map(|pair| pair[n].as_f64().expect("a time")).collect())
    };
    (column(0), column(1))
}

const NOTE_ANSWER: &str = "const [watched] = arguments;
    const text = () => [...document.querySelectorAll(watched)].map(e => e.textContent).join();
    window.answers = [];
    let before, lifted = 0;
    addEventListener('pointerup', event => { before = text(); lifted = event.timeStamp; }, true);
    new MutationObserver(() => {
        if (!lifted || text() === before) return;
        const from = lifted, known = performance.now() - from;
        lifted = 0;
        const note = () => answers.push([known, performance.now() - from]);
        requestAnimationFrame(() => setTimeout(note));
    }).observe(document, { childList: true, subtree: true, characterData: true });";

/// The linear memory of the program in megabytes.
async fn memory(page: &Page) -> f64 {
    let bytes = page
        .js("const { js } = document.querySelector('script[data-wasm]').dataset;
             return import(new URL(js, document.baseURI)).then(app => app.default())
                 .then(program => program.memory.buffer.byteLength);")
        .await;
    bytes.as_f64().expect("a size") / 1e6
}

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_unstable_by(f64::total_cmp);
    times[times.len() / 2]
}
