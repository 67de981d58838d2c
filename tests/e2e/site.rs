//! A static host of the build: a folder under a path, with the manners of common hosts.

use std::collections::HashMap;
use std::fs;
use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicBool, AtomicU16, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;
use std::time::Duration;

/// A running host. Each has a port that no other had in this run: storage belongs to the port.
pub struct Site {
    port: u16,
    shared: Arc<Shared>,
    listener: Mutex<Option<JoinHandle<()>>>,
}

struct Shared {
    /// Where the site lies on the host: begins and ends with a slash.
    path: String,
    open: AtomicBool,
    folder: Mutex<PathBuf>,
    replaced: Mutex<HashMap<String, Vec<u8>>>,
    portal: Mutex<Option<String>>,
    answered: Mutex<Vec<Answered>>,
}

/// A request that was answered.
#[derive(Clone, Debug)]
pub struct Answered {
    pub path: String,
    pub status: u16,
}

/// The release build.
pub fn dist() -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("dist");
    let worker = fs::read_to_string(folder.join("sw.js")).unwrap_or_default();
    assert!(worker.contains("const VERSION"), "no release build in dist/: run ./dev build first");
    folder
}

/// A build of the next version: the same but for one comment, with its own version and digests.
pub fn next_version() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("next");
    let _ = fs::remove_dir_all(&folder);
    copy(&dist(), &folder);
    edit(&folder.join("boot.js"), |text| text + "\n// The next version.\n");
    edit(&folder.join("index.html"), |text| {
        let (before, rest) = text.split_once("data-build=\"").expect("a stamped page");
        let (_, after) = rest.split_once('"').expect("an end of the stamp");
        format!("{before}data-build=\"debug\"{after}")
    });
    let hook = Path::new(env!("CARGO_MANIFEST_DIR")).join("public/precache.sh");
    let status = Command::new("sh")
        .arg(hook)
        .env("TRUNK_STAGING_DIR", &folder)
        .env("TRUNK_PROFILE", "release")
        .status();
    assert!(status.is_ok_and(|s| s.success()), "precache.sh failed on {}", folder.display());
    folder
}

/// The version that a build carries.
pub fn version(folder: &Path) -> String {
    let page = fs::read_to_string(folder.join("index.html")).expect("a page in the build");
    let (_, rest) = page.split_once("data-build=\"").expect("a stamped page");
    rest.split('"').next().expect("a version").to_owned()
}

/// Every file of a build that is kept on the device, by its path under the site.
pub fn kept_files(folder: &Path) -> Vec<String> {
    let worker = fs::read_to_string(folder.join("sw.js")).expect("a worker in the build");
    let lines = worker.lines().filter_map(|line| line.trim().strip_prefix("['"));
    lines.map(|line| line.split('\'').next().expect("a path").to_owned()).collect()
}

/// What a build starts with, by its path under the site; its pieces come later.
pub fn program(folder: &Path) -> String {
    let page = fs::read_to_string(folder.join("index.html")).expect("a page in the build");
    let (_, rest) = page.split_once("data-wasm=\"./").expect("a program in the page");
    rest.split('"').next().expect("a path").to_owned()
}

/// A file of a build by its path under the site.
pub fn file(folder: &Path, path: &str) -> PathBuf {
    folder.join(if path == "./" { "index.html" } else { path })
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder for the copy");
    for entry in fs::read_dir(from).expect("a folder to copy") {
        let entry = entry.expect("an entry");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("a copied file");
        }
    }
}

fn edit(path: &Path, change: impl FnOnce(String) -> String) {
    let text = fs::read_to_string(path).expect("a text to edit");
    fs::write(path, change(text)).expect("an edited text");
}

static NEXT_PORT: AtomicU16 = AtomicU16::new(0);

fn free_port() -> (u16, TcpListener) {
    let first = 20_000 + u16::try_from(std::process::id() % 20_000).expect("below 20 000");
    let _ = NEXT_PORT.compare_exchange(0, first, Ordering::Relaxed, Ordering::Relaxed);
    loop {
        let port = NEXT_PORT.fetch_add(1, Ordering::Relaxed);
        if let Ok(listener) = TcpListener::bind(("127.0.0.1", port)) {
            return (port, listener);
        }
    }
}

impl Site {
    /// Serves a folder under a path such as `/x/y/`.
    pub fn serve(folder: PathBuf, path: &str) -> Self {
        assert!(path.starts_with('/') && path.ends_with('/'), "{path} is no folder of a site");
        let (port, listener) = free_port();
        let site = Site {
            port,
            shared: Arc::new(Shared {
                path: path.to_owned(),
                open: AtomicBool::new(false),
                folder: Mutex::new(folder),
                replaced: Mutex::default(),
                portal: Mutex::default(),
                answered: Mutex::default(),
            }),
            listener: Mutex::default(),
        };
        site.open(listener);
        site
    }

    /// The address of a route or file, such as `/cut` or `sw.js`.
    pub fn address(&self, path: &str) -> String {
        format!("{}{}{}", self.origin(), self.shared.path, path.trim_start_matches('/'))
    }

    /// The address without any path.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Takes the site off the network: from here on nothing answers at its address.
    pub fn stop(&self) {
        self.shared.open.store(false, Ordering::SeqCst);
        let _ = TcpStream::connect(("127.0.0.1", self.port)); // wakes the listener
        if let Some(listener) = self.listener.lock().unwrap().take() {
            listener.join().expect("a listener that ended well");
        }
        assert!(
            TcpStream::connect(("127.0.0.1", self.port)).is_err(),
            "the stopped site still answers"
        );
    }

    /// Brings a stopped site back at the same address.
    pub fn start(&self) {
        let listener = TcpListener::bind(("127.0.0.1", self.port)).expect("the port of before");
        self.open(listener);
    }

    /// Puts another build at the same address.
    pub fn publish(&self, folder: PathBuf) {
        *self.shared.folder.lock().unwrap() = folder;
    }

    /// Answers the path with this content instead of the file.
    pub fn replace(&self, path: &str, content: &str) {
        self.shared.replaced.lock().unwrap().insert(path.to_owned(), content.into());
    }

    /// Answers the path with the file again.
    pub fn mend(&self, path: &str) {
        self.shared.replaced.lock().unwrap().remove(path);
    }

    /// Answers every request with status 200 and this page, as the login of a guest network does.
    pub fn put_portal_before(&self, html: &str) {
        *self.shared.portal.lock().unwrap() = Some(html.to_owned());
    }

    /// What was asked for so far.
    pub fn answered(&self) -> Vec<Answered> {
        self.shared.answered.lock().unwrap().clone()
    }

    fn open(&self, listener: TcpListener) {
        self.shared.open.store(true, Ordering::SeqCst);
        let shared = Arc::clone(&self.shared);
        let thread = std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                if !shared.open.load(Ordering::SeqCst) {
                    break;
                }
                let shared = Arc::clone(&shared);
                std::thread::spawn(move || shared.answer(stream));
            }
        });
        *self.listener.lock().unwrap() = Some(thread);
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.shared.open.store(false, Ordering::SeqCst);
        let _ = TcpStream::connect(("127.0.0.1", self.port));
    }
}

impl Shared {
    /// One request to a connection; a browser holds idle ones open, which must not outlive `stop`.
    fn answer(&self, mut stream: TcpStream) {
        let _ = stream.set_read_timeout(Some(Duration::from_secs(10)));
        let mut head = Vec::new();
        let mut piece = [0; 4096];
        while !head.windows(4).any(|w| w == b"\r\n\r\n") {
            match stream.read(&mut piece) {
                Ok(n) if n > 0 => head.extend_from_slice(&piece[..n]),
                _ => return,
            }
        }
        if !self.open.load(Ordering::SeqCst) {
            return;
        }
        let head = String::from_utf8_lossy(&head);
        let target = head.split(' ').nth(1).unwrap_or("/");
        let path = target.split(['?', '#']).next().unwrap_or("/");
        let (status, kind, body) = self.find(path);
        self.answered.lock().unwrap().push(Answered { path: path.to_owned(), status });
        let location = if status == 301 { format!("location: {path}/\r\n") } else { String::new() };
        let head = format!(
            "HTTP/1.1 {status} .\r\ncontent-type: {kind}\r\ncontent-length: {}\r\n\
             cache-control: no-cache\r\nconnection: close\r\n{location}\r\n",
            body.len()
        );
        // A browser that has gone away is no fault of the site.
        let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&body));
    }

    fn find(&self, path: &str) -> (u16, &'static str, Vec<u8>) {
        if let Some(html) = &*self.portal.lock().unwrap() {
            return (200, "text/html", html.clone().into_bytes());
        }
        if format!("{path}/") == self.path {
            return (301, "text/plain", Vec::new());
        }
        let Some(path) = path.strip_prefix(&self.path).filter(|p| !p.contains("..")) else {
            return (404, "text/plain", b"outside the site".to_vec());
        };
        let path = if path.is_empty() { "index.html" } else { path };
        if let Some(content) = self.replaced.lock().unwrap().get(path) {
            return (200, kind_of(path), content.clone());
        }
        let folder = self.folder.lock().unwrap().clone();
        match fs::read(folder.join(path)) {
            Ok(body) => (200, kind_of(path), body),
            Err(_) => (404, "text/html", fs::read(folder.join("404.html")).unwrap_or_default()),
        }
    }
}

fn kind_of(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html",
        "js" => "text/javascript",
        "css" => "text/css",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "woff2" => "font/woff2",
        _ => "text/plain",
    }
}
