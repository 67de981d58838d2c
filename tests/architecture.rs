//! The walls of the house: each layer uses only those before it, and inside the engine a subject
//! uses only earlier ones. The cargo feature `ui` is the wall; this is the signpost at it.

use std::{fs, path::Path};

/// Layers, each with the words that no file of it may say.
const WALLS: [(&str, &[&str]); 4] = [
    (
        "src/engine/",
        &[
            "crate::shop",
            "crate::browser",
            "crate::ui",
            "leptos",
            "web_sys",
            "js_sys",
            "gloo",
            "wasm_bindgen",
            "std::time",
            "std::fs",
            "std::env",
            "std::net",
            "std::thread",
        ],
    ),
    (
        "src/shop/",
        &[
            "crate::browser",
            "crate::ui",
            "leptos",
            "web_sys",
            "js_sys",
            "gloo",
            "wasm_bindgen",
            "std::time",
            "std::fs",
            "std::net",
        ],
    ),
    ("src/browser/", &["crate::ui", "leptos"]),
    ("src/ui/", &["web_sys", "js_sys", "gloo", "wasm_bindgen"]),
];

/// Subjects of the engine in their order: a file may use its own subject and those before it.
const SUBJECTS: [&str; 16] = [
    "source", "quantity", "drills", "stock", "cutters", "machine", "cutting", "question", "answer",
    "limits", "plan", "setup", "threads", "holes", "safety", "convert",
];

/// What a view may not say: links that leave the folder the app is served from, styles that the
/// content policy drops, inputs that a wheel or an oily thumb changes.
const VIEWS: [&str; 6] =
    ["<A ", "href=\"/", "style=\"", "type=\"number\"", "type=\"range\"", "user-scalable=no"];

fn code_of(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().filter(|(_, line)| !line.trim_start().starts_with("//"))
}

/// Every line of a file that crosses a wall.
fn crossings(path: &str, text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut say = |line: usize, what: &str| found.push(format!("{path}:{}: {what}", line + 1));
    for (layer, forbidden) in WALLS {
        if !path.starts_with(layer) {
            continue;
        }
        for (i, line) in code_of(text) {
            for word in forbidden.iter().filter(|word| line.contains(**word)) {
                say(i, &format!("{layer} may not name {word}"));
            }
        }
    }
    if let Some(subject) = path.strip_prefix("src/engine/") {
        let own = subject.split(['/', '.']).next().unwrap_or_default();
        if let Some(place) = SUBJECTS.iter().position(|s| *s == own) {
            for (i, line) in code_of(text) {
                for later in &SUBJECTS[place + 1..] {
                    if line.contains(&format!("engine::{later}")) {
                        say(i, &format!("{own} comes before {later} and may not use it"));
                    }
                }
            }
        }
    }
    if path.starts_with("src/ui/") {
        for (i, line) in code_of(text) {
            for word in VIEWS.iter().filter(|word| line.contains(**word)) {
                say(i, &format!("a view may not say {word}"));
            }
        }
    }
    found
}

fn walk(folder: &Path, visit: &mut dyn FnMut(&str, &str)) {
    for entry in fs::read_dir(folder).expect("the folder is there") {
        let path = entry.expect("it can be read").path();
        if path.is_dir() {
            walk(&path, visit);
        } else if path.extension().is_some_and(|e| e == "rs") {
            let text = fs::read_to_string(&path).expect("a source file is text");
            let root = Path::new(env!("CARGO_MANIFEST_DIR"));
            let name = path.strip_prefix(root).expect("it lies in the package");
            visit(&name.to_string_lossy().replace('\\', "/"), &text);
        }
    }
}

#[test]
fn no_layer_uses_a_later_one() {
    let mut found = Vec::new();
    let mut files = 0;
    walk(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut |path, text| {
        files += 1;
        found.extend(crossings(path, text));
    });
    assert!(files > 20, "only {files} files were looked at");
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn the_signpost_bites() {
    for (path, line) in [
        ("src/engine/limits/mod.rs", "use crate::shop::cuts::CutForm;"),
        ("src/engine/cutting/chip.rs", "use leptos::prelude::*;"),
        ("src/engine/quantity/mod.rs", "use crate::engine::stock::Material;"),
        ("src/engine/stock/mod.rs", "use crate::engine::limits::answer;"),
        ("src/shop/document.rs", "use web_sys::Storage;"),
        ("src/browser/storage.rs", "use crate::ui::state::App;"),
        ("src/ui/pages/home.rs", "use web_sys::window;"),
        ("src/ui/pages/home.rs", "view! { <a href=\"/cut\">\"Cut\"</a> }"),
        ("src/ui/pages/home.rs", "view! { <A href=\"cut\">\"Cut\"</A> }"),
        ("src/ui/pages/home.rs", "view! { <p style=\"color: red\"></p> }"),
    ] {
        assert_eq!(crossings(path, line).len(), 1, "{path}: {line}");
    }
    for (path, line) in [
        ("src/engine/limits/mod.rs", "use crate::engine::stock::Material;"),
        ("src/shop/cuts.rs", "use crate::engine::stock;"),
        ("src/ui/pages/home.rs", "use crate::browser::storage;"),
        ("src/ui/pages/home.rs", "view! { <GoTo to=\"cut\">\"Cut\"</GoTo> }"),
        ("src/engine/stock/mod.rs", "// use crate::engine::limits, some day"),
    ] {
        assert!(crossings(path, line).is_empty(), "{path}: {line}");
    }
}

/// The top of the house holds what it has to and nothing else.
#[test]
fn the_top_level_is_what_tools_force_and_what_a_reader_wants() {
    const KNOWN: [&str; 24] = [
        ".cargo",
        ".ci",
        ".git",
        ".gitignore",
        ".tools",
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "LICENSE-APACHE",
        "LICENSE-MIT",
        "README.md",
        "Trunk.toml",
        "build.rs",
        "clippy.toml",
        "dev",
        "dist",
        "public",
        "rust-toolchain.toml",
        "rustfmt.toml",
        "src",
        "style",
        "target",
        "tests",
        "webdriver.json",
    ];
    for entry in fs::read_dir(env!("CARGO_MANIFEST_DIR")).expect("the package is there") {
        let name = entry.expect("it can be read").file_name();
        assert!(KNOWN.contains(&&*name.to_string_lossy()), "{name:?} lies at the top");
    }
}
