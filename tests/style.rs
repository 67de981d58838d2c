//! The look keeps its promises: contrast in every theme, nothing that needs a hover, no shadow.
#![cfg(not(target_arch = "wasm32"))]

use std::{collections::BTreeMap, fs, path::Path};

fn style(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("style").join(name);
    fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// The files of the look.
fn names() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("style");
    let files = fs::read_dir(folder).expect("the folder is there");
    let names: Vec<String> = files
        .map(|file| file.expect("it can be read").file_name().to_string_lossy().into_owned())
        .collect();
    assert!(names.len() > 4, "only {names:?} were found");
    names
}

/// The colours of one theme, over those of the dark one.
type Theme = BTreeMap<String, String>;

/// Every rule that sets a background, by the line that opens it and the media it stands in.
fn themes() -> Vec<(String, Theme)> {
    let text = style("tokens.css");
    let mut themes = Vec::new();
    let mut media = "";
    for (start, _) in text.match_indices('{') {
        let head = text[..start].rsplit(['}', '{', ';']).next().unwrap_or_default();
        let head = head.rsplit("*/").next().unwrap_or_default().trim();
        if head.starts_with("@media") {
            media = head;
        }
        let body = text[start + 1..].split('}').next().unwrap_or_default();
        if !body.contains("--bg:") || head.starts_with("@media") {
            continue;
        }
        let colours = body.lines().filter_map(|line| {
            let (name, value) = line.trim().strip_prefix("--")?.split_once(": ")?;
            Some((name.to_owned(), value.trim_end_matches(';').to_owned()))
        });
        let name =
            if head.contains("system") { format!("{media} {head}") } else { head.to_owned() };
        themes.push((name, colours.collect()));
    }
    themes
}

/// Relative luminance, WCAG 2.2.
fn luminance(colour: &str) -> f64 {
    let channel = |at: usize| {
        let byte = u8::from_str_radix(&colour[at..at + 2], 16).expect(colour);
        let share = f64::from(byte) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { libm::pow((share + 0.055) / 1.055, 2.4) }
    };
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

/// Contrast ratio, WCAG 2.2.
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn contrast_of_known_pairs() {
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    // 4.48 to one is the grey that is known for just missing 4.5.
    assert!((contrast("#777777", "#ffffff") - 4.48).abs() < 0.01);
}

#[test]
fn every_theme_is_legible_on_every_ground() {
    let themes = themes();
    assert_eq!(themes.len(), 6, "dark, light, contrast, and three for the system to choose");
    for (name, theme) in &themes {
        let dark = &themes[0].1;
        let colour = |what: &str| theme.get(what).or_else(|| dark.get(what)).expect(what).as_str();
        for ground in ["bg", "surface", "raised"] {
            let least = |what: &str, least: f64| {
                let ratio = contrast(colour(what), colour(ground));
                assert!(ratio >= least, "{name}: {what} on {ground} is {ratio:.2}, not {least}");
            };
            least("text", 12.0);
            for text in ["muted", "accent", "within", "near", "over"] {
                least(text, 7.0);
            }
            least("edge", 3.0);
        }
        let on_accent = contrast(colour("on-accent"), colour("accent"));
        assert!(on_accent >= 7.0, "{name}: a button's words are {on_accent:.2}");
    }
}

#[test]
fn the_system_chooses_between_the_same_themes() {
    let themes = themes();
    let named = |part: &str| {
        let found = themes.iter().find(|(name, _)| name.contains(part));
        &found.unwrap_or_else(|| panic!("no theme {part}")).1
    };
    assert_eq!(named("\"light\""), named("@media (prefers-color-scheme: light)"));
    let more = named("@media (prefers-contrast: more) and (prefers-color-scheme: dark)");
    assert_eq!(named("\"contrast\""), more);
}

#[test]
fn nothing_needs_a_hover_and_nothing_is_shaded() {
    for name in names() {
        let text = style(&name);
        for word in [":hover", "gradient(", "box-shadow", "text-shadow", "!important", "@import"] {
            assert!(!text.contains(word), "{name} says {word}");
        }
        let public = Path::new(env!("CARGO_MANIFEST_DIR")).join("public");
        let page = fs::read_to_string(public.join("index.html")).expect("the page is there");
        assert!(page.contains(&format!("../style/{name}")), "the page does not link {name}");
        for address in text.split("url(\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            assert!(public.join(address).is_file(), "{name} names {address}, which is not there");
        }
    }
}

#[test]
fn colours_are_named_in_one_place() {
    // On paper there is one theme only.
    for name in names().into_iter().filter(|name| !["tokens.css", "print.css"].contains(&&**name)) {
        for (at, line) in style(&name).lines().enumerate() {
            let hex = line.split('#').nth(1).is_some_and(|rest| {
                rest.len() >= 6 && rest.bytes().take(6).all(|b| b.is_ascii_hexdigit())
            });
            assert!(!hex, "{name}:{}: {line}", at + 1);
        }
    }
}
