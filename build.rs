//! Placeholder.
fn main() {
    let out = std::path::PathBuf::from(std::env::var("OUT_DIR").unwrap());
    std::fs::write(out.join("sources.rs"), "/// The list.\npub const SOURCES: &[Source] = &[];")
        .unwrap();
    std::fs::write(out.join("materials.rs"), "/// All.\npub const MATERIALS: &[Material] = &[];")
        .unwrap();
    std::fs::write(
        out.join("chip_load.rs"),
        "/// All.\npub const FEED_POINTS: &[FeedPoint] = &[];",
    )
    .unwrap();
}
