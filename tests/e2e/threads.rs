//! Threads: found by phrase and by tiles, the drill to take, the gauge, the drawer of drills.

use crate::page::Page;
use crate::places::open_the_sample;
use crate::runner::tests;
use crate::screen::SMALL_PHONE;
use core::time::Duration;
use serde_json::json;

tests![
    every_phrase_finds_its_thread,
    an_unknown_thread_is_answered_with_the_nearest,
    a_common_tap_drill_takes_three_taps_and_no_keyboard,
    ten_thirty_two_at_60_per_cent_in_303_says_where_the_class_ends,
    a_drill_that_is_gone_is_not_offered,
    a_left_hand_is_a_property_of_a_thread,
    nothing_owned_that_fits_says_what_to_buy_and_what_will_do,
    a_bare_drill_number_is_asked,
    a_starred_thread_stands_first,
    a_forming_tap_never_gets_the_drill_of_a_cutting_one,
    more_thread_than_the_form_has_is_refused_in_a_sentence,
    the_gauge_says_what_it_cannot_tell_apart,
    a_gauge_is_found_again_by_its_link,
    a_measured_10_32_is_named_with_what_is_taken_for_it,
    an_m5_is_recognised_by_its_pitch_in_three_ways,
    what_no_thread_measures_is_refused_at_its_field,
    a_screw_is_measured_over_ones_own_wires,
    wires_of_ones_own_are_kept_over_a_reload,
];

async fn begin(page: &Page) {
    page.hold(SMALL_PHONE).await;
    open_the_sample(page).await;
}

async fn every_phrase_finds_its_thread(page: Page) {
    begin(&page).await;
    page.open("/threads").await;
    for (phrase, thread) in [
        ("10-32", "10-32 UNF"),
        ("10 32", "10-32 UNF"),
        ("1/4-20", "1/4-20 UNC"),
        ("quarter twenty", "1/4-20 UNC"),
        ("M6", "M6x1"),
        ("m6x.75", "M6x0.75"),
        ("1/8 npt", "1/8 NPT"),
        ("2BA", "2 BA"),
    ] {
        page.write("Find:", phrase).await;
        page.waits_for(
            &format!("{thread} first for “{phrase}”"),
            &format!("return document.querySelector('.door')?.innerText.startsWith('{thread}\\n')"),
        )
        .await;
    }
}

async fn an_unknown_thread_is_answered_with_the_nearest(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=M6x9").await;
    page.sees("No thread is called that. The nearest are:").await;
    page.tap("M6x1").await;
    page.sees("of thread").await;
    page.open("/threads?thread=zzz").await;
    page.sees("No thread is called that. Try 10-32").await;
}

async fn a_common_tap_drill_takes_three_taps_and_no_keyboard(page: Page) {
    begin(&page).await;
    for (taps, group, thread, drill) in [
        (2, None, "1/4-20", "No. 7"),
        (2, None, "10-32", "No. 21"),
        (3, Some("Metric"), "M6x1", "5 mm"),
        (3, Some("Pipe"), "1/8 NPT", "Q letter drill"),
        (3, Some("British"), "2 BA", "5/32 in"),
    ] {
        page.open("/").await;
        page.count_from_here();
        page.tap("Threads").await;
        if let Some(group) = group {
            page.tap(group).await;
        }
        page.tap(thread).await;
        page.waits_for(
            &format!("{drill} for {thread}"),
            &format!(
                "return document.querySelector('.big-line')?.innerText
                    .replace(/\\s+/g, ' ').startsWith('{drill}')"
            ),
        )
        .await;
        assert!(page.in_view("[data-result=key]").await, "the drill is out of sight");
        println!("    the drill of {thread}: {} taps of {taps}", page.taps());
        assert!(page.taps() <= taps, "{thread} takes {} taps", page.taps());
    }
}

async fn ten_thirty_two_at_60_per_cent_in_303_says_where_the_class_ends(page: Page) {
    begin(&page).await;
    // The index: number drills and tenths of a millimetre.
    page.open("/shop?drills").await;
    page.tap("Fractions, 1/16 to 1/2 in by 64ths").await;
    page.tap("Letters A to Z").await;
    page.open("/threads?thread=10-32+UNF&percent=60&class=no&stock=ss_303").await;
    assert_eq!(key(&page).await, "4.2");
    page.sees("60.7 % of thread").await;
    page.sees("Larger than 2B allows").await;
    page.sees("Under 64.0 % the hole is larger than 2B allows").await;
    page.sees("Per cent of 1.299").await;
    let neighbours = part(&page, "neighbours").await;
    for words in ["At or under: 4.2 mm", "0.1654 in", "60.7", "Next over: No. 19", "59.1"] {
        assert!(neighbours.contains(words), "no “{words}” in: {neighbours}");
    }
    page.tap("Inside the class before the percentage").await;
    page.sees("Inside 2B").await;
    page.sees("70.4 % of thread").await;
    page.sees("Nearest to the percentage you want is 4.2 mm, 60.7 %").await;
    assert_eq!(key(&page).await, "4.1");
    // What the neighbours of the chart leave.
    page.tap("What would another drill leave?").await;
    for (drill, percent, word) in [
        ("#20", "71.4", "Inside 2B"),
        ("#19", "59.1", "Larger than 2B allows"),
        ("#18", "50.5", "Larger than 2B allows"),
        ("#24", "> 83.3", "Too small: the tap binds"),
    ] {
        page.write("Drill, or the hole as it measures", drill).await;
        page.sees(percent).await;
        let trial = part(&page, "trial").await;
        assert!(trial.contains(percent) && trial.contains(word), "{drill}: {trial}");
    }
    page.write("Drill, or the hole as it measures", "0.2").await;
    page.tap("done").await;
    page.sees("A hole of this size leaves no thread of 10-32 UNF.").await;
    page.sees("choose a smaller drill").await;
    // Blind: 0.300 of full thread, four threads of chamfer, one to spare, the point of 4.2 mm.
    page.open(
        "/threads?thread=10-32+UNF&percent=60&class=no&stock=ss_303&through=no&full_in=0.300",
    )
    .await;
    page.sees("13.6 turns").await;
    let depths = part(&page, "depths").await;
    for words in ["full diameter 0.4562 in", "point) 0.5059 in", "4 threads of chamfer 0.4250 in"] {
        assert!(depths.contains(words), "no “{words}” in: {depths}");
    }
    // The hole itself, on the knee mill.
    page.open(&format!("{}&v_ft_min=50&feed_in=0.002", crate::places::DRILL)).await;
    page.sees("930").await;
    assert_eq!(key(&page).await, "930");
    page.sees("1.86").await;
    page.sees("Pull the drill right out after each peck").await;
}

/// The number to set.
async fn key(page: &Page) -> String {
    let key = page.js("return document.querySelector('[data-result=key]').innerText").await;
    key.as_str().unwrap_or_default().to_owned()
}

async fn a_drill_that_is_gone_is_not_offered(page: Page) {
    begin(&page).await;
    page.open("/shop?drills=numbers").await;
    page.tap("#7").await;
    page.open("/threads?thread=1/4-20+UNC").await;
    page.sees("of thread").await;
    let drill = page.js("return document.querySelector('[data-result=key]').innerText").await;
    assert_ne!(drill, json!("No. 7"));
    page.open("/shop?drills").await;
    page.sees("one is missing").await;
}

async fn a_bare_drill_number_is_asked(page: Page) {
    begin(&page).await;
    page.open("/shop?drills").await;
    page.write("Another one", "10").await;
    page.tap("Put it in the drawer").await;
    page.sees("10 can mean No. 10 or 10 mm").await;
    page.write("Another one", "11.5 mm").await;
    // A second tap at once is taken for a bounce.
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.tap("Put it in the drawer").await;
    page.sees("Take out 11.5 mm").await;
    page.tap("Take out 11.5 mm").await;
    page.sees("11.5 mm is removed").await;
    page.tap("Undo").await;
    page.sees("Take out 11.5 mm").await;
}

async fn a_starred_thread_stands_first(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=M5x0.8").await;
    page.tap("Star").await;
    page.sees("Starred").await;
    page.open("/threads?thread=M4x0.7").await;
    page.sees("3.3").await;
    page.open("/threads").await;
    page.sees("Starred and recent").await;
    let first = page.js("return document.querySelector('.door-chip').innerText").await;
    assert_eq!(first, json!("M5x0.8"));
    page.reload().await;
    page.sees("M4x0.7").await;
}

async fn a_forming_tap_never_gets_the_drill_of_a_cutting_one(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=1/4-20+UNC&tap=form_plug&stock=al_6061").await;
    page.sees("No. 1").await;
    page.sees("Never use the drill of a cutting tap").await;
    page.open("/threads?thread=1/4-20+UNC&tap=form_plug&stock=ci_grey").await;
    page.sees("a forming tap is not for it").await;
}

async fn more_thread_than_the_form_has_is_refused_in_a_sentence(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=1/4-20+UNC&percent=85").await;
    page.sees("the tap would bind").await;
    page.sees("Ask for at most 83.3 %").await;
    page.open("/threads?thread=1/4-20+UNC&percent=900").await;
    page.sees("no percentage of thread").await;
    page.open("/threads?thread=1/4-20+UNC&full_in=1&plate_in=0.5").await;
    page.sees("longer than the plate is thick").await;
}

async fn the_gauge_says_what_it_cannot_tell_apart(page: Page) {
    begin(&page).await;
    page.open("/threads?gauge").await;
    page.sees("How large is your screen?").await;
    page.tap("Bar: more").await;
    page.tap("It is as long as the card").await;
    page.sees("20 tpi and 1.25 mm stand").await;
    page.tap("Coarser").await;
    page.sees("19 tpi and").await;
    page.waits_for("the pitch in the address", "return location.search == '?gauge=19+tpi'").await;
    page.reload().await;
    page.sees("19 tpi and").await;
    page.tap("Finer").await;
    page.sees("20 tpi and 1.25 mm stand").await;
    // A pitch of the drawn comb is true to the card.
    let comb = page
        .js("const d = document.querySelector('.gauge path').getAttribute('d');
                        const ys = [...d.matchAll(/L[\\d.]+ ([\\d.]+)/g)].map(m => +m[1]);
                        return (ys[19] - ys[1]) / 9 * 85.6 / 515;")
        .await;
    let pitch = comb.as_f64().expect("a pitch");
    assert!((pitch - 1.27).abs() < 0.005, "{pitch} mm for 20 tpi");
}

async fn a_gauge_is_found_again_by_its_link(page: Page) {
    begin(&page).await;
    page.open("/threads?gauge=32+tpi&beside=0.7+mm").await;
    page.tap("Bar: more").await;
    page.tap("It is as long as the card").await;
    page.sees("32 tpi and 0.7 mm stand").await;
    // The pitch beside stays while the other is stepped, until it is let go.
    page.tap("Coarser").await;
    page.sees("0.8 mm and 0.7 mm stand").await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.tap("Coarser").await;
    page.sees("and 0.7 mm stand").await;
    page.tap("Show the nearest pitch beside it").await;
    page.waits_for("no pitch held", "return !location.search.includes('beside')").await;
    page.back().await;
    page.sees("and 0.7 mm stand").await;
    for nonsense in ["gauge=0+tpi", "gauge=20+tpi&beside=abc", "gauge=-1+mm", "gauge=NaN+mm"] {
        page.open(&format!("/threads?{nonsense}")).await;
        page.sees("No listed thread has a pitch of").await;
        page.sees("20 tpi and 1.25 mm stand").await;
    }
}

/// What stands in a part of the screen.
async fn part(page: &Page, name: &str) -> String {
    let script = format!("return document.querySelector('[data-testid={name}]')?.innerText");
    let text = page.js(&script).await;
    text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
}

async fn a_measured_10_32_is_named_with_what_is_taken_for_it(page: Page) {
    begin(&page).await;
    page.open("/threads").await;
    page.tap("Which thread is this?").await;
    page.sees("Measure the diameter first").await;
    page.enter("Over the crests", ".188").await;
    page.sees("so far: now the pitch").await;
    page.enter("Threads in an inch", "32").await;
    page.waits_for(
        "10-32 as the likeliest",
        "return document.querySelector('[data-result=key]').innerText == '10-32'",
    )
    .await;
    let fitting = part(&page, "fitting").await;
    for words in ["10-32 UNF", "0.0020 in under its own diameter, its own pitch.", "3/16-32 BSF"] {
        assert!(fitting.contains(words), "no “{words}” in: {fitting}");
    }
    assert!(!fitting.contains("M5x0.8"), "{fitting}");
    let pairs = part(&page, "pairs").await;
    for words in ["10-32 UNF and M5x0.8", "0.007 in only", "a nut starts, then jams"] {
        assert!(pairs.contains(words), "no “{words}” in: {pairs}");
    }
    page.waits_for("the pitch in the address", "return location.search.includes('tpi=32')").await;
    page.reload().await;
    page.sees("10-32 UNF and M5x0.8").await;
    page.tap("Hold it against the screen").await;
    page.sees("How large is your screen?").await;
    page.tap("Bar: more").await;
    page.tap("It is as long as the card").await;
    page.sees("32 tpi and").await;
    page.open("/threads?measure&d_in=.188&tpi=32").await;
    page.tap("10-32 UNF").await;
    page.sees("of thread").await;
}

async fn an_m5_is_recognised_by_its_pitch_in_three_ways(page: Page) {
    begin(&page).await;
    for query in [
        "d_mm=4.95&by=pitch&pitch_mm=0.8",
        "d_mm=4.95&by=count&count=10&over_mm=8",
        "d_mm=4.95&tpi=31.75",
    ] {
        page.open(&format!("/threads?measure&{query}")).await;
        page.waits_for(
            &format!("M5 from {query}"),
            "return document.querySelector('[data-result=key]').innerText == 'M5x0.8'",
        )
        .await;
        page.sees("10-32 UNF and M5x0.8").await;
    }
    // The hole that a tap was made for.
    page.open("/threads?measure&on=hole&d_mm=4.2&by=pitch&pitch_mm=0.8").await;
    page.sees("M5x0.8").await;
    page.tap("A screw").await;
    page.waits_for("no M5 of 4.2 mm", "return !location.search.includes('on=hole')").await;
    assert!(!part(&page, "fitting").await.contains("M5x0.8"));
}

async fn what_no_thread_measures_is_refused_at_its_field(page: Page) {
    begin(&page).await;
    for (query, words) in [
        ("d_in=500&tpi=20", "No thread has this diameter."),
        ("d_in=0&tpi=20", "must be more than 0"),
        ("d_in=abc", "does not begin with a number"),
        ("d_in=0.25&tpi=0", "must be more than 0"),
        ("d_in=0.25&tpi=-20", "A sign has no place here."),
        ("d_in=0.25&tpi=0.1", "No thread has this pitch."),
        ("d_in=0.25&by=pitch&pitch_mm=99", "No thread has this pitch."),
        ("d_in=0.25&by=count&count=0&over_in=1", "must be more than 0"),
        ("d_in=0.25&by=count&count=10&over_in=90", "No thread has this pitch."),
        ("d_in=0.25&by=moon", "The link says “moon” here"),
        ("d_in=0.25&on=moon", "The link says “moon” here"),
    ] {
        page.open(&format!("/threads?measure&{query}")).await;
        page.sees(words).await;
        let text = page.text().await;
        assert!(!text.contains("NaN") && !text.contains("inf"), "{query}: {text}");
    }
    page.open("/threads?measure&d_in=0.25&tpi=33").await;
    page.sees("No listed thread fits").await;
    page.sees("Close, but does not fit").await;
}

async fn a_screw_is_measured_over_ones_own_wires(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=1/4-20+UNC").await;
    page.tap("Measuring over three wires").await;
    let wires = part(&page, "wires").await;
    // Best P / (2 cos 30); 2A is 0.2127 to 0.2164, over 0.029 in: + 3 W - 0.866025 P + 0.00011.
    for words in ["Best wires 0.0289 in", "yours 0.029 in", "2A 0.2565 to 0.2602 in"] {
        assert!(wires.contains(words), "no “{words}” in: {wires}");
    }
    let reading = "Your reading over the 0.029 in wires";
    for (typed, said) in [
        (".258", "Inside 2A"),
        (".2612", "over 2A: take more off"),
        (".255", "under 2A: too thin"),
        ("6.55 mm", "Inside 2A"),
    ] {
        page.write(reading, typed).await;
        page.sees(said).await;
    }
    page.tap("done").await;
    page.enter(reading, ".258").await;
    page.sees("0.2142").await;
    for (typed, said) in
        [("2.58", "No 1/4-20 UNC reads this over such wires."), ("0", "must be more than 0")]
    {
        page.enter(reading, typed).await;
        page.sees(said).await;
    }
}

async fn wires_of_ones_own_are_kept_over_a_reload(page: Page) {
    begin(&page).await;
    // No wire of the sample shop is thick enough for it.
    page.open("/threads?thread=1\"-8+UNC").await;
    page.tap("Measuring over three wires").await;
    page.sees("none fits").await;
    page.tap("Your thread wires").await;
    page.sees("Take out 0.029 in").await;
    page.enter("Wires of another diameter", "29").await;
    page.tap("Put them in the drawer").await;
    page.sees("No listed thread is measured over wires of 29 in").await;
    page.enter("Wires of another diameter", ".072").await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.tap("Put them in the drawer").await;
    page.sees("Take out .072 in").await;
    page.tap("Take out 0.029 in").await;
    page.sees("Wires of 0.029 in").await;
    page.waits_for("what is saved", "return !!localStorage['handwheel/current']").await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    page.reload().await;
    page.sees("Take out .072 in").await;
    page.sees_no("Take out 0.029 in").await;
    page.open("/threads?thread=1\"-8+UNC").await;
    page.tap("Measuring over three wires").await;
    page.sees("Your reading over the .072 in wires").await;
}

async fn a_left_hand_is_a_property_of_a_thread(page: Page) {
    begin(&page).await;
    page.open("/threads?thread=M6x1").await;
    page.sees("of thread").await;
    page.tap("Left hand").await;
    page.sees("M6x1 LH").await;
    page.sees("turns in counter-clockwise, seen from above").await;
    assert_eq!(key(&page).await, "5");
    page.waits_for("the hand in the address", "return location.search.includes('LH')").await;
    page.reload().await;
    page.sees("M6x1 LH").await;
    page.tap("Left hand").await;
    page.sees_no("counter-clockwise").await;
}

async fn nothing_owned_that_fits_says_what_to_buy_and_what_will_do(page: Page) {
    begin(&page).await;
    page.open("/shop?drills").await;
    for set in
        ["Fractions, 1/16 to 1/2 in by 64ths", "Numbers 1 to 60", "Metric, 1 to 10 mm by 0.1"]
    {
        page.tap(set).await;
    }
    // Letters are left: A is 5.94 mm.
    page.open("/threads?thread=M6x1").await;
    page.sees("That is a stop-gap. Buy 5 mm").await;
    page.open("/threads?thread=M4x0.7").await;
    page.sees("Buy this drill").await;
    page.sees("Every drill you own binds the tap or leaves no thread.").await;
}
