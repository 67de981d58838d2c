//! What a person owns and has chosen: reading, links, the saved document.

#[path = "shop/checks.rs"]
mod checks;
#[path = "shop/converter.rs"]
mod converter;
#[path = "shop/cut_log.rs"]
mod cut_log;
#[path = "shop/cuts.rs"]
mod cuts;
#[path = "shop/document.rs"]
mod document;
#[path = "shop/hand_over.rs"]
mod hand_over;
#[path = "shop/holes.rs"]
mod holes;
#[path = "shop/incoming.rs"]
mod incoming;
#[path = "shop/jobs.rs"]
mod jobs;
#[path = "shop/layout.rs"]
mod layout;
#[path = "shop/machines.rs"]
mod machines;
#[path = "shop/measured.rs"]
mod measured;
#[path = "shop/merge.rs"]
mod merge;
#[path = "shop/pace.rs"]
mod pace;
#[path = "shop/plan.rs"]
mod plan;
#[path = "shop/store.rs"]
mod store;

/// The page "about" fetches the files of check rows by their names.
#[test]
fn every_file_of_check_rows_is_run_on_the_phone() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = std::fs::read_to_string(root.join("src/ui/pages/about.rs")).expect("the page");
    let folder = std::fs::read_dir(root.join("tests/reference")).expect("the rows");
    let names: Vec<String> =
        folder.map(|file| file.expect("a file").file_name().to_string_lossy().into()).collect();
    assert!(!names.is_empty());
    for name in &names {
        assert!(page.contains(&format!("\"{name}\"")), "{name} is not run");
    }
    let line = page.lines().find(|line| line.contains("const FILES")).expect("the list");
    assert!(
        line.contains(&format!("; {}]", names.len())),
        "the list holds other files too: {line}"
    );
}
