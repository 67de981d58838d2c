//! What cannot be worked with is said at its field, and harms nothing else.

use crate::page::Page;
use crate::places::{SLOT, open_the_sample};
use crate::runner::tests;
use serde_json::{Value, json};
use std::path::Path;
use thirtyfour::Key;

tests![
    every_bad_number_is_a_sentence_with_a_hint_at_its_field,
    a_bad_link_opens_with_its_faults_said,
    a_cutter_that_sticks_out_less_than_its_flutes_is_refused,
    a_width_beyond_the_diameter_is_refused,
    an_empty_cutter_asks_for_its_size,
    a_mill_without_speeds_says_what_it_lacks,
    the_speeds_of_a_mill_have_to_be_speeds,
    what_the_browser_has_garbled_is_kept_and_offered_as_a_file,
    a_bad_backup_file_changes_nothing,
];

/// What stands against the field of this label: the problem and the hint.
async fn complaint(page: &Page, field: &str) -> Option<(String, String)> {
    let said = page
        .js_with(
            "const label = [...document.querySelectorAll('label')]
                 .find(l => l.textContent.trim() == arguments[0]);
             const input = document.getElementById(label.htmlFor);
             if (input.getAttribute('aria-invalid') != 'true') return null;
             const error = document.getElementById(input.getAttribute('aria-describedby'));
             const problem = error.querySelector('strong').textContent.trim();
             return [problem, error.innerText.trim().slice(problem.length).trim()];",
            vec![json!(field)],
        )
        .await;
    let text = |n: usize| said[n].as_str().map(str::to_owned);
    Some((text(0)?, text(1)?))
}

/// Waits until something stands against a field, and holds it to be two sentences.
async fn complains(page: &Page, field: &str) {
    for _ in 0..100 {
        if let Some((problem, hint)) = complaint(page, field).await {
            // A sentence may begin with the number it is about.
            let is_sentence = |text: &str| {
                !text.starts_with(char::is_lowercase) && text.ends_with('.') && text.contains(' ')
            };
            assert!(is_sentence(&problem), "no sentence at {field}: {problem}");
            assert!(is_sentence(&hint), "no hint at {field}: {problem} {hint}");
            return;
        }
        page.frame().await;
    }
    panic!("nothing stands against {field}");
}

/// Every text and drawing of the page, which must hold no number that is none; what is typed may be
/// said again.
async fn holds_no_nonsense(page: &Page, typed: &str) {
    let text = page
        .js_with(
            "const drawings = [...document.querySelectorAll('svg')].map(svg => svg.outerHTML);
             const text = document.body.innerText;
             const [typed] = arguments;
             return [typed ? text.replaceAll(typed, '') : text, ...drawings].join(' ');",
            vec![json!(typed)],
        )
        .await;
    let text = text.as_str().expect("a text");
    for nonsense in ["NaN", "inf ", "Infinity", "undefined", "[object", "-0.000", "None"] {
        assert!(
            !text.contains(nonsense),
            "“{nonsense}” stands on the page after “{typed}”: {text}"
        );
    }
}

/// What stands in every field, by its label.
async fn entries(page: &Page) -> Value {
    page.js("return [...document.querySelectorAll('input[type=text]')]
                 .map(i => [i.labels[0].textContent.trim(), i.value]);")
        .await
}

async fn every_bad_number_is_a_sentence_with_a_hint_at_its_field(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Cutter and holding").await;
    page.tap("More about this cutter").await;
    page.tap("Your own figures").await;
    let speed = page.js("return document.querySelector('[data-result=key]').innerText").await;
    let before = entries(&page).await;
    let all =
        ["0", "-1", "1e9", "12..5", "1/0", "abc", "99999999999999999999", "½ ½", "NaN", "inf"];
    for (field, texts) in [
        ("Whole depth", &all[..]),
        ("Travel along the slot", &all[..]),
        ("Diameter", &[&all[..], &["500", "1e-9"]].concat()),
        ("Flutes or teeth", &[&all[..], &["2.5", "1000"]].concat()),
        ("Flute length", &all[..]),
        ("Shank diameter", &all[..]),
        ("Helix angle", &["-1", "90", "abc"]),
        ("Out of the holder", &all[..]),
        ("Runout, full reading", &["-1", "abc", "500"]),
        ("Surface speed", &all[..]),
        ("Feed per tooth", &all[..]),
        ("Passes", &[&all[..], &["1.5"]].concat()),
        ("Specific cutting force", &all[..]),
        ("Unit power", &all[..]),
    ] {
        let was = page.value_of(field).await;
        for text in texts {
            page.write(field, text).await;
            page.press(Key::Escape).await;
            complains(&page, field).await;
            holds_no_nonsense(&page, text).await;
        }
        page.write(field, &was).await;
        page.press(Key::Escape).await;
        for _ in 0..100 {
            if complaint(&page, field).await.is_none() {
                break;
            }
            page.frame().await;
        }
        assert_eq!(complaint(&page, field).await, None, "{field} with {was}");
    }
    assert_eq!(entries(&page).await, before);
    let now = page.js("return document.querySelector('[data-result=key]').innerText").await;
    assert_eq!(now, speed);
}

async fn a_bad_link_opens_with_its_faults_said(page: Page) {
    open_the_sample(&page).await;
    for (link, field) in [
        ("/cut?op=slot&d_mm=3&depth_in=0", "Whole depth"),
        ("/cut?op=slot&d_mm=3&depth_in=1e99", "Whole depth"),
        ("/cut?op=slot&d_mm=3&rpm=1000000000&depth_in=0.06", ""),
        ("/cut?op=fly&kind=broom&of=cheese&tip=hat&holder=hand&worn=perhaps", ""),
        ("/cut?op=slot&mill=nobody&stock=unobtainium&d_mm=3&depth_in=0.06", ""),
        ("/cut?%E0%A4%A&&&=&d_mm==3&op", ""),
        ("/cut?op=slot&d_mm=NaN&depth_in=inf&teeth=-0&v_ft_min=1e309", "Diameter"),
    ] {
        page.open(link).await;
        holds_no_nonsense(&page, "NaN").await;
        let said =
            page.js("return [...document.querySelectorAll('.error')].map(e => e.innerText)").await;
        assert_ne!(said, json!([]), "{link} is taken without a word");
        if !field.is_empty() {
            assert!(complaint(&page, field).await.is_some(), "nothing at {field} of {link}");
        }
    }
}

async fn a_cutter_that_sticks_out_less_than_its_flutes_is_refused(page: Page) {
    open_the_sample(&page).await;
    page.open(SLOT).await;
    page.tap("Cutter and holding").await;
    page.tap("More about this cutter").await;
    page.enter("Flute length", "0.5").await;
    complains(&page, "Out of the holder").await;
    page.enter("Out of the holder", "16").await;
    page.sees("Switch to FWD").await;
    assert_eq!(complaint(&page, "Out of the holder").await, None);
}

async fn a_width_beyond_the_diameter_is_refused(page: Page) {
    open_the_sample(&page).await;
    page.open("/cut?op=side&mill=bench_mill&stock=al_6061&d_in=1/4&depth_in=0.1&width_in=0.3")
        .await;
    complains(&page, "Width of cut").await;
    assert_eq!(page.value_of("Whole depth").await, "0.1");
    page.enter("Width of cut", "0.03").await;
    page.sees("a turn").await;
    assert_eq!(complaint(&page, "Width of cut").await, None);
}

async fn an_empty_cutter_asks_for_its_size(page: Page) {
    open_the_sample(&page).await;
    page.open("/cut?op=slot&mill=bench_mill&stock=al_6061&depth_in=0.1").await;
    page.tap("Cutter and holding").await;
    complains(&page, "Diameter").await;
    holds_no_nonsense(&page, "").await;
    page.enter("Diameter", "1/4").await;
    page.sees("a turn").await;
}

async fn a_mill_without_speeds_says_what_it_lacks(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop").await;
    page.tap("Add a mill").await;
    page.sees("Still needed").await;
    page.tap("Work on this mill").await;
    page.sees("A mill without a name").await;
    page.sees("On the mill").await;
    holds_no_nonsense(&page, "").await;
    page.open(&SLOT.replace("mill=bench_mill", "mill=mill")).await;
    page.waits_for(
        "what is missing",
        "const errors = [...document.querySelectorAll('.error')].map(e => e.innerText);
         return errors.some(e => e.includes('peed'));",
    )
    .await;
    holds_no_nonsense(&page, "").await;
    page.tap("Bench mill").await;
    page.sees("Switch to FWD").await;
}

async fn the_speeds_of_a_mill_have_to_be_speeds(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop?machine=bench_mill").await;
    for (field, texts) in [
        ("Highest speed", &["0", "-5", "1000000000", "50", "abc", ""][..]),
        ("Lowest speed", &["0", "-5", "5000", ""]),
        ("One turn of the handwheel moves the table", &["0", "-1", "100", ""]),
        ("Power at the cutter", &["0", "-1", "1000000"]),
    ] {
        let was = page.value_of(field).await;
        for text in texts {
            let at = if *text == "5000" { "Highest speed" } else { field };
            page.write(field, text).await;
            if text.is_empty() {
                page.press(Key::Backspace).await;
                page.press(Key::Escape).await;
                page.sees("Still needed").await;
            } else {
                page.press(Key::Escape).await;
                complains(&page, at).await;
            }
            holds_no_nonsense(&page, "").await;
        }
        page.write(field, &was).await;
        page.press(Key::Escape).await;
        page.sees_no("Still needed").await;
    }
    page.open("/shop?machine=knee_mill").await;
    page.tap("Back").await;
    page.open("/").await;
    page.tap("Last cut").await;
    page.sees("Switch to FWD").await;
}

/// Where a download lands.
async fn catch_downloads(page: &Page) -> std::path::PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!(
        "downloads-{}-{}",
        std::process::id(),
        page.site().origin().len()
    ));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for downloads");
    page.cdp("Browser.setDownloadBehavior", json!({ "behavior": "allow", "downloadPath": folder }))
        .await;
    folder
}

async fn what_the_browser_has_garbled_is_kept_and_offered_as_a_file(page: Page) {
    let folder = catch_downloads(&page).await;
    for garbage in [
        "",
        "null",
        "[]",
        "{\"version\":1,\"machines\":[{\"id\":",
        "{\"version\":999,\"machines\":\"none\"}",
        "\u{0}\u{1}\u{fffd} <script>alert(1)</script> \"'&",
        "0123456789abcdef",
    ] {
        page.open("/about").await;
        page.js("localStorage.clear()").await;
        page.js_with(
            "localStorage['handwheel/document/a'] = arguments[0];
             localStorage['handwheel/current'] = 'handwheel/document/a';",
            vec![json!(garbage)],
        )
        .await;
        page.open("/").await;
        page.sees("It is kept as it was found; nothing of it is lost.").await;
        page.tap("Get it as a file").await;
        let file = folder.join("handwheel-rescued.txt");
        page.waits_until("the file is there", || {
            std::fs::read_to_string(&file).is_ok_and(|text| text == garbage)
        })
        .await;
        std::fs::remove_file(&file).expect("a file to remove");
        let kept = page
            .js("return Object.keys(localStorage).filter(k => k.startsWith('handwheel/rescued/'))
                     .map(k => localStorage[k]);")
            .await;
        assert_eq!(kept, json!([garbage]));
        page.tap("Later").await;
        page.sees_no("It is kept as it was found").await;
        // It works on, and the next visit does not speak of it again.
        page.tap("Sample shop").await;
        page.tap("Last cut").await;
        page.sees("Switch to FWD").await;
        page.waits_for(
            "the saved shop",
            "return !!localStorage[localStorage['handwheel/current']]?.includes('Knee mill')",
        )
        .await;
        page.reload().await;
        page.sees("Switch to FWD").await;
        page.sees_no("It is kept as it was found").await;
        page.open("/shop?settings").await;
        page.sees("What could not be read on an earlier day is still kept.").await;
    }
}

async fn a_bad_backup_file_changes_nothing(page: Page) {
    open_the_sample(&page).await;
    page.open("/shop?settings").await;
    let before = page.js("return localStorage[localStorage['handwheel/current']]").await;
    for garbage in ["", "garbage", "{\"version\":999}", "[]"] {
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bad-backup.json");
        std::fs::write(&path, garbage).expect("a bad backup file");
        let document = page.cdp("DOM.getDocument", json!({})).await;
        let field = page
            .cdp(
                "DOM.querySelector",
                json!({ "nodeId": document["root"]["nodeId"], "selector": "input[type=file]" }),
            )
            .await;
        page.cdp("DOM.setFileInputFiles", json!({ "nodeId": field["nodeId"], "files": [path] }))
            .await;
        page.sees("Nothing here was changed.").await;
    }
    page.open("/").await;
    page.sees("Bench mill").await;
    let after = page.js("return localStorage[localStorage['handwheel/current']]").await;
    assert_eq!(after, before);
}
