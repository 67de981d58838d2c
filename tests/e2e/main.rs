//! Whole tasks in a real browser, on the release build in `dist/`.
//!
//! `./dev test` runs them; after `./dev build`, one alone by a part of its name:
//! `cargo test --no-default-features --features e2e --test e2e -- offline`. With `SHOTS=1` the
//! screens land in `target/shots/`. Each test gets a browser tab and an address of its own, so that
//! none sees what another has stored.

mod browser;
mod measure;
mod page;
mod places;
mod runner;
mod screen;
mod site;

mod axe;
mod bad_input;
mod check;
mod convert;
mod first_start;
mod folder;
mod install;
mod kept;
mod keyboard;
mod layout;
mod memory;
mod offline;
mod pace;
mod plan;
mod recipe;
mod scenario;
mod shop;
mod start;
mod taps;
mod threads;
mod touch;
mod update;
mod words;

/// The pages of the app, each one segment under its folder.
const ROUTES: &[&str] = &[
    "/",
    "/cut",
    "/check",
    "/emergency",
    "/threads",
    "/convert",
    "/pace",
    "/layout",
    "/setup",
    "/plan",
    "/which",
    "/shop",
    "/favorites",
    "/take",
    "/jobs",
    "/about",
];

fn main() -> std::process::ExitCode {
    if std::env::args().any(|argument| argument == "--measure") {
        return measure::run();
    }
    let tests = [
        words::TESTS,
        start::TESTS,
        first_start::TESTS,
        taps::TESTS,
        threads::TESTS,
        recipe::TESTS,
        scenario::TESTS,
        bad_input::TESTS,
        convert::TESTS,
        check::TESTS,
        kept::TESTS,
        memory::TESTS,
        keyboard::TESTS,
        axe::TESTS,
        folder::TESTS,
        install::TESTS,
        offline::TESTS,
        pace::TESTS,
        layout::TESTS,
        plan::TESTS,
        shop::TESTS,
        update::TESTS,
        touch::TESTS,
    ];
    runner::run(&tests)
}
