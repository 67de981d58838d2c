//! Runs the tests one after the other in one browser and reports as `cargo test` does.

use crate::browser::Browser;
use crate::page::Page;
use std::future::Future;
use std::pin::Pin;
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// A test: its name and what it does with a page of its own.
pub struct Test {
    pub name: &'static str,
    pub run: fn(Page) -> Pin<Box<dyn Future<Output = ()> + Send>>,
}

/// Lists the tests of a file as its `TESTS`; a function left out is a warning of the compiler.
macro_rules! tests {
    ($($name:ident),* $(,)?) => {
        pub const TESTS: &[crate::runner::Test] = &[$(crate::runner::Test {
            name: concat!(module_path!(), "::", stringify!($name)),
            run: |page| Box::pin($name(page)),
        }),*];
    };
}
pub(crate) use tests;

/// What the last panic said and where.
static LAST_WORDS: Mutex<String> = Mutex::new(String::new());

const LONGEST: Duration = Duration::from_secs(120);

/// Runs the tests whose name contains one of the arguments, or all of them.
pub fn run(files: &[&[Test]]) -> ExitCode {
    let wanted: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with('-')).collect();
    let tests: Vec<&Test> = files
        .iter()
        .copied()
        .flatten()
        .filter(|t| wanted.is_empty() || wanted.iter().any(|w| t.name.contains(w.as_str())))
        .collect();
    std::panic::set_hook(Box::new(|panic| *LAST_WORDS.lock().unwrap() = panic.to_string()));
    println!("\nrunning {} tests in Chromium", tests.len());
    let failed = block_on(run_all(&tests));
    if failed.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Runs a future to its end.
pub fn block_on<T>(future: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime.expect("a runtime").block_on(future)
}

async fn run_all(tests: &[&Test]) -> Vec<&'static str> {
    let began = Instant::now();
    let mut browser = Browser::start().await;
    let mut failed = Vec::new();
    for test in tests {
        let began = Instant::now();
        let name = test.name.trim_start_matches("e2e::");
        if !browser.answers().await {
            browser.quit().await;
            browser = Browser::start().await;
        }
        let page = browser.new_page().await;
        let result = tokio::time::timeout(LONGEST, tokio::spawn((test.run)(page.clone()))).await;
        let trouble = match result {
            Err(_) => Some(format!("took longer than {LONGEST:?}")),
            Ok(Err(_)) => Some(LAST_WORDS.lock().unwrap().clone()),
            Ok(Ok(())) => page.trouble().await,
        };
        let seconds = began.elapsed().as_secs_f64();
        match trouble {
            None => println!("test {name} ... ok ({seconds:.1} s)"),
            Some(trouble) => {
                println!("test {name} ... FAILED ({seconds:.1} s)\n{trouble}");
                println!("{}", page.tell_story(name).await);
                failed.push(test.name);
            }
        }
        browser.close(page).await;
    }
    browser.quit().await;
    println!(
        "\ntest result: {}. {} passed; {} failed; finished in {:.1} s\n",
        if failed.is_empty() { "ok" } else { "FAILED" },
        tests.len() - failed.len(),
        failed.len(),
        began.elapsed().as_secs_f64()
    );
    failed
}
