//! Chromium and its driver, which end with this process however it ends.

use crate::page::Page;
use crate::site::{self, Site};
use std::net::{TcpListener, TcpStream};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use thirtyfour::prelude::*;
use thirtyfour::{ChromiumLikeCapabilities, LoggingPrefsLogLevel};

/// A running browser. The process goes before the session, whose own end waits for an answer.
pub struct Browser {
    _process: Process,
    driver: WebDriver,
    first_tab: WindowHandle,
}

struct Process {
    child: Child,
    profile: PathBuf,
}

impl Browser {
    /// Starts Chromium without a window and with an empty profile.
    pub async fn start() -> Self {
        let port = TcpListener::bind("127.0.0.1:0").and_then(|l| l.local_addr()).expect("a port");
        let profile = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!(
            "profile-{}-{}",
            std::process::id(),
            port.port()
        ));
        let process = Process::start(port.port(), profile);
        let mut wishes = DesiredCapabilities::chrome();
        wishes.set_browser_log_level(LoggingPrefsLogLevel::All).expect("a log");
        for arg in [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--disable-quic",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--no-first-run",
            "--mute-audio",
            &format!("--user-data-dir={}", process.profile.display()),
        ] {
            wishes.add_arg(arg).expect("an argument");
        }
        let address = format!("http://{port}");
        let driver = WebDriver::builder(address, wishes)
            .request_timeout(Duration::from_secs(60))
            .connect()
            .await
            .expect("a browser session");
        let first_tab = driver.window().await.expect("a first tab");
        Browser { _process: process, driver, first_tab }
    }

    /// Whether it still answers.
    pub async fn answers(&self) -> bool {
        self.driver.switch_to_window(self.first_tab.clone()).await.is_ok()
    }

    /// A new tab, before it the build under `/x/y/` of an address that nothing was stored at yet.
    pub async fn new_page(&self) -> Page {
        self.new_page_on(Site::serve(site::dist(), "/x/y/")).await
    }

    /// A new tab before a site.
    pub async fn new_page_on(&self, site: Site) -> Page {
        assert!(self.answers().await, "the browser is gone");
        let tab = self.driver.new_tab().await.expect("a new tab");
        self.driver.switch_to_window(tab.clone()).await.expect("the new tab in front");
        self.driver.browser_log().await.expect("a log to empty");
        Page::new(self.driver.clone(), site).await
    }

    /// Closes every tab but the first.
    pub async fn close(&self, page: Page) {
        drop(page);
        for tab in self.driver.windows().await.unwrap_or_default() {
            if tab != self.first_tab {
                let _ = self.driver.switch_to_window(tab).await;
                let _ = self.driver.close_window().await;
            }
        }
    }

    /// Ends the browser.
    pub async fn quit(self) {
        let quitting = self.driver.clone().quit();
        let _ = tokio::time::timeout(Duration::from_secs(10), quitting).await;
        let _ = self.driver.leak();
    }
}

impl Process {
    fn start(port: u16, profile: PathBuf) -> Self {
        let driver = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "chromedriver".into());
        // The shell waits for the end of its input, which comes with the end of this process, and
        // then ends the whole group: driver and browser outlive neither a panic nor an interrupt.
        let child = Command::new("sh")
            .args(["-c", r#""$0" "$1" & read -r _; kill -KILL 0"#, &driver])
            .arg(format!("--port={port}"))
            .process_group(0)
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell");
        let process = Process { child, profile };
        for _ in 0..200 {
            if TcpStream::connect(("127.0.0.1", port)).is_ok() {
                return process;
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        panic!("{driver} does not answer: ./dev setup installs it");
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        drop(self.child.stdin.take());
        let _ = self.child.wait();
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}
