//! The beat of a cut: heard on time whatever the page is busy with, and nothing to touch but one
//! place to stop it.

use crate::page::Page;
use crate::places::{OVER, SLOT, open_the_sample};
use crate::runner::tests;
use serde_json::{Value, json};
use std::time::Duration;

tests![
    a_beat_is_on_time_on_a_busy_phone,
    a_run_leaves_one_place_to_touch_and_keeps_the_screen_on,
    a_run_that_is_over_waits_to_be_closed,
    without_sound_and_wake_lock_the_pace_is_seen,
    a_cut_over_its_limits_is_not_paced,
    the_turns_of_a_tap_are_counted,
    an_odd_time_of_a_link_steps_to_a_round_one_and_stays_in_its_range,
];

/// Notes every tone handed to the audio clock, when, and what holds the screen on.
const NOTE: &str = "window.tones = []; window.locks = { asked: 0, held: 0 };
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (at) {
        tones.push([this.frequency.value, at, this.context.currentTime]);
        return start.call(this, at);
    };
    const sentinel = () => { locks.held++; return { release: async () => { locks.held--; } }; };
    Object.defineProperty(navigator, 'wakeLock', {
        value: { request: async () => { locks.asked++; return sentinel(); } },
    });";

const BEAT: f64 = 880.0;
const SLOWER: f64 = 6.0;

async fn watch(page: &Page, note: &str) {
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": note })).await;
    open_the_sample(page).await;
}

fn pace_of(cut: &str, more: &str) -> String {
    format!("{}&{more}", cut.replace("/cut?", "/pace?"))
}

/// The worst error of a beat against the audio clock and the least time between a tone's handing
/// over and its sound, in milliseconds, after so long a run at a sixth of the processor.
pub async fn worst_beat(page: &Page, run: Duration) -> (f64, f64, usize) {
    watch(page, NOTE).await;
    page.open(&pace_of(SLOT, "delay=5&length_in=25")).await;
    page.slow_down(SLOWER).await;
    page.tap("Start the pace").await;
    // As busy as a page can be: half of its time is taken away in pieces.
    page.js("window.busy = setInterval(() => { const until = performance.now() + 250;
         while (performance.now() < until); }, 500);")
        .await;
    tokio::time::sleep(run).await;
    page.js("clearInterval(window.busy)").await;
    page.slow_down(1.0).await;
    let tones = page.js("return window.tones").await;
    let column = |tone: &Value, n: usize| tone[n].as_f64().expect("a number");
    let tones = tones.as_array().expect("tones");
    let beats: Vec<f64> =
        tones.iter().filter(|tone| column(tone, 0) == BEAT).map(|tone| column(tone, 1)).collect();
    let begin = tones.iter().find(|tone| column(tone, 0) == 1320.0).expect("a beginning");
    let begin = column(begin, 1);
    // The machine and the feed of the slot make one turn of the wheel in exactly one second.
    let worst = beats
        .iter()
        .enumerate()
        .map(|(n, at)| (at - begin - (n as f64 + 1.0)).abs())
        .fold(0.0, f64::max);
    let margin =
        tones.iter().map(|tone| column(tone, 1) - column(tone, 2)).fold(f64::INFINITY, f64::min);
    (worst * 1e3, margin * 1e3, beats.len())
}

async fn a_beat_is_on_time_on_a_busy_phone(page: Page) {
    let (worst, margin, beats) = worst_beat(&page, Duration::from_secs(60)).await;
    assert!(beats >= 50, "only {beats} beats in a minute");
    assert!(worst < 1.0, "a beat is {worst} ms off");
    assert!(margin >= 0.0, "a tone was handed over {} ms late", -margin);
}

async fn a_run_leaves_one_place_to_touch_and_keeps_the_screen_on(page: Page) {
    watch(&page, NOTE).await;
    page.open(SLOT).await;
    page.tap("Pace it").await;
    page.sees("2 passes").await;
    page.tap("Start the pace").await;
    page.sees("To the wheel").await;
    page.waits_for("the wake lock", "return locks.held === 1").await;
    let touchable = page
        .js("return [...document.querySelectorAll('a, button, input, summary, [tabindex]')]
                 .filter(e => e.checkVisibility() && e.tabIndex >= 0)
                 .map(e => e.innerText.split('\\n')[0]);")
        .await;
    assert_eq!(touchable, json!(["STOP THE PACE"]));
    let share = page
        .js("const { width, height } = document.querySelector('.pace-stop').getBoundingClientRect();
             return width * height / innerWidth / innerHeight;")
        .await;
    assert!(share.as_f64().expect("a share") > 0.45, "the place to stop is {share} of the screen");
    page.passes_axe().await;
    page.tap("STOP THE PACE").await;
    page.sees("Start the pace").await;
    page.waits_for("the screen let go", "return locks.held === 0 && locks.asked === 1").await;
    let busy = page.js("return 'busy' in document.documentElement.dataset").await;
    assert_eq!(busy, json!(false));
}

async fn a_run_that_is_over_waits_to_be_closed(page: Page) {
    watch(&page, NOTE).await;
    page.open("/pace?turns=2&each=1&delay=5").await;
    page.tap("Start the pace").await;
    tokio::time::sleep(Duration::from_secs(8)).await;
    // A tap by hand is turned with the spindle dead.
    page.sees("Over.").await;
    page.sees_no("spindle").await;
    tokio::time::sleep(Duration::from_secs(2)).await;
    page.tap("CLOSE").await;
    page.sees("Start the pace").await;
}

async fn without_sound_and_wake_lock_the_pace_is_seen(page: Page) {
    watch(
        &page,
        "delete window.AudioContext; window.AudioContext = function () { throw new Error('no'); };
         Object.defineProperty(navigator, 'wakeLock', { value: undefined });
         delete Navigator.prototype.vibrate;",
    )
    .await;
    page.open(&pace_of(SLOT, "delay=5")).await;
    page.tap("Start the pace").await;
    page.sees("No sound here: watch the bar.").await;
    page.sees("It cannot be felt here.").await;
    page.sees("The screen may go dark").await;
    tokio::time::sleep(Duration::from_secs(6)).await;
    page.sees("Feed").await;
    let first = page.js("return document.querySelector('.pace-sweep').style.transform").await;
    tokio::time::sleep(Duration::from_millis(300)).await;
    let then = page.js("return document.querySelector('.pace-sweep').style.transform").await;
    assert_ne!(first, then, "the bar stands still");
}

async fn a_cut_over_its_limits_is_not_paced(page: Page) {
    watch(&page, NOTE).await;
    page.open(&pace_of(OVER, "delay=5")).await;
    page.sees("This cut is over a limit and is not paced.").await;
    page.sees_no("Start the pace").await;
    page.open(OVER).await;
    page.sees("Do not cut like this").await;
    page.sees_no("Pace it").await;
    page.open("/pace?turns=abc&delay=99").await;
    page.sees("“99” for the first beat. Choose 5 to 30 s.").await;
    page.sees("To the threads").await;
}

async fn an_odd_time_of_a_link_steps_to_a_round_one_and_stays_in_its_range(page: Page) {
    watch(&page, NOTE).await;
    page.open(&pace_of(SLOT, "delay=7&rest=118")).await;
    page.sees("7 s").await;
    page.tap("First beat after: less").await;
    page.sees("5 s").await;
    page.tap("Back and down again in: more").await;
    page.sees("120 s").await;
}

async fn the_turns_of_a_tap_are_counted(page: Page) {
    watch(&page, NOTE).await;
    page.open("/pace?turns=13.6&each=1&delay=5").await;
    page.sees("13.6 turns").await;
    page.sees("turned with the spindle off at the wall").await;
    page.tap("Start the pace").await;
    page.sees("To the tap").await;
    page.sees_no("spindle").await;
    tokio::time::sleep(Duration::from_millis(8500)).await;
    let count = page.js("return document.querySelector('[data-result=key]').textContent").await;
    assert_eq!(count, json!("3"));
    page.sees("of 13.6 turns").await;
}
