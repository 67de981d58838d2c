//! The app as a person meets it: what is seen is found by its words, and what is done is a tap.
//!
//! Names are those that Chromium's accessibility tree computes, so a test that finds a button by its
//! name has shown that a screen reader says it. Every failure is a panic that tells what was
//! looked for and what was there instead.

use crate::screen::{PHONE, Screen};
use crate::site::Site;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use thirtyfour::Key;
use thirtyfour::prelude::*;

/// How long a person waits before saying that it does not work, unless told otherwise.
const PATIENCE: Duration = Duration::from_secs(5);
const GLANCE: Duration = Duration::from_millis(30);
/// What lies between two keys of the number pad, which takes quicker ones for a bounce.
const BETWEEN_KEYS: Duration = Duration::from_millis(90);
/// More often nobody presses the Tab key on one page.
const MOST_TABS: usize = 120;

/// A browser tab with the app in it. Clones are the same tab.
#[derive(Clone)]
pub struct Page(Arc<Inner>);

struct Inner {
    driver: WebDriver,
    site: Site,
    screen: Mutex<Screen>,
    patience: Mutex<Duration>,
    taps: AtomicU32,
    scrolls: AtomicU32,
    story: Mutex<Vec<String>>,
    noise: Mutex<Vec<String>>,
}

/// Something that can be used, as the accessibility tree tells it.
#[derive(Debug)]
struct Control {
    node: i64,
    role: String,
    name: String,
    value: String,
}

const CONTROLS: &[&str] = &[
    "button",
    "link",
    "textbox",
    "searchbox",
    "spinbutton",
    "combobox",
    "checkbox",
    "radio",
    "switch",
    "tab",
    "menuitem",
    "menuitemradio",
    "option",
    "DisclosureTriangle",
];

impl Page {
    /// A page in the tab in front, held on a phone; nothing is opened yet.
    pub async fn new(driver: WebDriver, site: Site) -> Self {
        let inner = Inner {
            driver,
            site,
            screen: Mutex::new(PHONE),
            patience: Mutex::new(PATIENCE),
            taps: AtomicU32::new(0),
            scrolls: AtomicU32::new(0),
            story: Mutex::default(),
            noise: Mutex::default(),
        };
        let page = Page(Arc::new(inner));
        page.hold(PHONE).await;
        page
    }

    /// The host the page comes from.
    pub fn site(&self) -> &Site {
        &self.0.site
    }

    // --- Going somewhere -------------------------------------------------------------------------

    /// Opens a route by its address and waits for its heading.
    pub async fn open(&self, route: &str) {
        let address = self.site().address(route);
        self.tell(format!("open {address}"));
        // The host's answer to a route that is not a file, as on the usual static hosts.
        let bare = address.split(['?', '#']).next().expect("an address");
        self.expect_noise(&format!("{bare} - Failed to load resource: the server responded with"));
        self.expect_noise(&format!("{address} - Failed to load resource: the server responded"));
        self.driver().goto(&address).await.unwrap_or_else(|e| panic!("{address}: {e}"));
        self.has_heading().await;
        self.fits_the_screen().await;
    }

    /// Loads the page again, as a person does with a pull or a key.
    pub async fn reload(&self) {
        self.tell("reload");
        self.driver().refresh().await.unwrap_or_else(|e| panic!("reload: {e}"));
        self.has_heading().await;
    }

    /// The back button of the browser.
    pub async fn back(&self) {
        self.tell("back");
        self.driver().back().await.unwrap_or_else(|e| panic!("back: {e}"));
    }

    /// Where the page is, from the folder of the app on, such as `/cut?depth=2`.
    pub async fn place(&self) -> String {
        let address = self.driver().current_url().await.expect("an address").to_string();
        let folder = self.site().address("");
        match address.strip_prefix(folder.trim_end_matches('/')) {
            Some(place) => place.to_owned(),
            None => panic!("{address} is outside of {folder}"),
        }
    }

    // --- Seeing ----------------------------------------------------------------------------------

    /// Waits until the text stands on the screen.
    pub async fn sees(&self, text: &str) {
        self.tell(format!("sees “{text}”"));
        let began = Instant::now();
        while !self.text().await.contains(text) {
            if began.elapsed() > self.patience() {
                panic!("“{text}” does not appear. There is:\n{}", self.text().await);
            }
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Waits until the text stands nowhere on the screen.
    pub async fn sees_no(&self, text: &str) {
        self.tell(format!("sees no “{text}”"));
        let began = Instant::now();
        while self.text().await.contains(text) {
            if began.elapsed() > self.patience() {
                panic!("“{text}” stays. There is:\n{}", self.text().await);
            }
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// All the text that is shown, and what stands in the fields, with single spaces.
    pub async fn text(&self) -> String {
        let text = self
            .js("const fields = [...document.querySelectorAll('input, textarea')].map(f => f.value);
                 return [document.body.innerText, ...fields].join(' ');")
            .await;
        text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// The text of the page's one heading of the first rank.
    pub async fn heading(&self) -> String {
        let heading = self
            .js("const all = [...document.querySelectorAll('h1')].filter(h => h.checkVisibility());
                 return all.length == 1 ? all[0].innerText.trim() : `${all.length} headings`;")
            .await;
        heading.as_str().unwrap_or_default().to_owned()
    }

    /// What a control named so holds: the text of a field, "true" of a ticked box.
    pub async fn value_of(&self, name: &str) -> String {
        self.find(name, None).await.value
    }

    /// Whether an element lies fully inside the screen, without scrolling.
    pub async fn in_view(&self, selector: &str) -> bool {
        let inside = self
            .js_with(
                "const box = document.querySelector(arguments[0])?.getBoundingClientRect();
                 return !!box && box.width > 0 && box.top >= 0 && box.left >= 0
                     && box.bottom <= innerHeight && box.right <= innerWidth;",
                vec![json!(selector)],
            )
            .await;
        inside == json!(true)
    }

    // --- Doing -----------------------------------------------------------------------------------

    /// Taps what has this name, or whose name begins with it.
    pub async fn tap(&self, name: &str) {
        self.tell(format!("tap “{name}”"));
        self.touch(name, None).await;
        self.0.taps.fetch_add(1, Ordering::Relaxed);
    }

    /// Taps what has this name inside the region, group or dialog of the other name.
    pub async fn tap_in(&self, region: &str, name: &str) {
        self.tell(format!("tap “{name}” in “{region}”"));
        self.touch(name, Some(region)).await;
        self.0.taps.fetch_add(1, Ordering::Relaxed);
    }

    /// Taps the keys of the number pad, which do not count as taps.
    pub async fn key_in(&self, digits: &str) {
        self.tell(format!("key in “{digits}”"));
        let pad = self.js("return document.querySelector('.pad')?.ariaLabel").await;
        for digit in digits.chars() {
            let name = match digit {
                '.' => "point".to_owned(),
                '/' => "stroke of a fraction".to_owned(),
                ' ' => "space".to_owned(),
                digit => digit.to_string(),
            };
            self.touch(&name, pad.as_str()).await;
            tokio::time::sleep(BETWEEN_KEYS).await;
        }
    }

    /// Taps a field, keys in a number and taps done: two taps.
    pub async fn enter(&self, field: &str, digits: &str) {
        self.tap(field).await;
        self.key_in(digits).await;
        self.tap("done").await;
    }

    /// Taps a control twice, with this time between the two; counts one tap.
    pub async fn tap_twice(&self, name: &str, between: Duration) {
        self.tell(format!("tap “{name}” twice within {between:?}"));
        let spot = self.reach(name, None).await;
        self.draw(&[spot]).await;
        tokio::time::sleep(between).await;
        self.draw(&[spot]).await;
        self.0.taps.fetch_add(1, Ordering::Relaxed);
        self.frame().await;
    }

    /// Taps a control with a finger that rests on it this long.
    pub async fn rest_on(&self, name: &str, time: Duration) {
        self.tell(format!("rest {time:?} on “{name}”"));
        let (x, y) = self.reach(name, None).await;
        let down = json!({ "type": "touchStart", "touchPoints": [{ "x": x, "y": y }] });
        self.cdp("Input.dispatchTouchEvent", down).await;
        tokio::time::sleep(time).await;
        let up = json!({ "type": "touchEnd", "touchPoints": [] });
        self.cdp("Input.dispatchTouchEvent", up).await;
    }

    /// Puts a finger on a control, slides it so far to the right, and lifts it.
    pub async fn slide_on(&self, name: &str, pixels: f64) {
        self.tell(format!("slide {pixels} pixels on “{name}”"));
        let (x, y) = self.reach(name, None).await;
        let x = x - pixels / 2.0;
        self.draw(&[(x, y), (x + pixels / 2.0, y), (x + pixels, y)]).await;
        self.frame().await;
    }

    /// Writes into the field of this name with a real keyboard.
    pub async fn write(&self, name: &str, text: &str) {
        self.tell(format!("write “{text}” into “{name}”"));
        let control = self.find(name, None).await;
        self.cdp("DOM.focus", json!({ "backendNodeId": control.node })).await;
        self.on(&control, "function() { this.select?.(); }").await;
        self.cdp("Input.insertText", json!({ "text": text })).await;
    }

    /// Presses a key of a real keyboard.
    pub async fn press(&self, key: Key) {
        self.tell(format!("press {key:?}"));
        self.type_key(key).await;
    }

    /// The role and the name of what has the focus.
    pub async fn focused(&self) -> (String, String) {
        let focused = json!({ "expression": "document.activeElement" });
        let focused = self.cdp("Runtime.evaluate", focused).await;
        let node = json!({
            "objectId": focused["result"]["objectId"], "fetchRelatives": false,
        });
        let tree = self.cdp("Accessibility.getPartialAXTree", node).await;
        let said = |what: &str| plain(&tree["nodes"][0][what]["value"]);
        (said("role"), said("name"))
    }

    /// Moves the focus with the Tab key until it is on what has this name, and within a group of
    /// choices with the arrow keys.
    pub async fn tab_to(&self, name: &str) {
        self.tell(format!("tab to “{name}”"));
        let is_it = |found: &str| found.strip_prefix(name).is_some_and(ends_a_word);
        for _ in 0..MOST_TABS {
            self.type_key(Key::Tab).await;
            let (role, first) = self.focused().await;
            if is_it(&first) {
                return;
            }
            if role != "radio" {
                continue;
            }
            // The arrows go round the group; back at its first choice there is nothing new in it.
            loop {
                self.type_key(Key::Down).await;
                let (_, found) = self.focused().await;
                if is_it(&found) {
                    return;
                }
                if found == first {
                    break;
                }
            }
        }
        panic!("the Tab key does not come to “{name}” within {MOST_TABS} times");
    }

    async fn type_key(&self, key: Key) {
        let chain = self.driver().action_chain().send_keys(key);
        chain.perform().await.unwrap_or_else(|e| panic!("the keyboard fails: {e}"));
    }

    /// Types a text on a real keyboard, into whatever has the focus.
    pub async fn type_text(&self, text: &str) {
        self.tell(format!("type “{text}”"));
        let chain = self.driver().action_chain().send_keys(text);
        chain.perform().await.unwrap_or_else(|e| panic!("the keyboard fails: {e}"));
    }

    /// The taps so far, without the keys of the number pad.
    pub fn taps(&self) -> u32 {
        self.0.taps.load(Ordering::Relaxed)
    }

    /// How often something had to be scrolled into view before a tap.
    pub fn scrolls(&self) -> u32 {
        self.0.scrolls.load(Ordering::Relaxed)
    }

    /// Begins to count taps and scrolls anew.
    pub fn count_from_here(&self) {
        self.0.taps.store(0, Ordering::Relaxed);
        self.0.scrolls.store(0, Ordering::Relaxed);
    }

    // --- The device ------------------------------------------------------------------------------

    /// Takes another screen, before a page is opened.
    pub async fn hold(&self, screen: Screen) {
        self.tell(format!("hold {} x {}", screen.width, screen.height));
        *self.0.screen.lock().unwrap() = screen;
        self.cdp(
            "Emulation.setDeviceMetricsOverride",
            json!({
                "width": screen.width, "height": screen.height,
                "deviceScaleFactor": screen.scale, "mobile": screen.touch,
            }),
        )
        .await;
        let points = if screen.touch { 5 } else { 1 };
        self.cdp(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": screen.touch, "maxTouchPoints": points }),
        )
        .await;
    }

    /// Turns the device, or changes the size of the window, with the page open.
    pub async fn turn(&self, screen: Screen) {
        self.hold(screen).await;
        self.frame().await;
        self.fits_the_screen().await;
    }

    /// Sets a wish of the system, such as `prefers-color-scheme` to `light`.
    pub async fn prefer(&self, features: &[(&str, &str)]) {
        self.tell(format!("prefer {features:?}"));
        let features: Vec<Value> =
            features.iter().map(|(name, value)| json!({ "name": name, "value": value })).collect();
        self.cdp("Emulation.setEmulatedMedia", json!({ "features": features })).await;
    }

    /// Sets the size of the person's own text, in percent.
    pub async fn text_size(&self, percent: u32) {
        self.tell(format!("text at {percent} %"));
        let size = 16 * percent / 100;
        self.cdp("Page.setFontSizes", json!({ "fontSizes": { "standard": size, "fixed": size } }))
            .await;
    }

    /// Slows the processor down by a factor.
    pub async fn slow_down(&self, factor: f64) {
        self.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": factor })).await;
    }

    /// Cuts the tab off the network, as flight mode does; `Site::stop` also cuts off the worker.
    pub async fn flight_mode(&self, on: bool) {
        self.tell(format!("flight mode {on}"));
        self.cdp("Network.enable", json!({})).await;
        self.cdp(
            "Network.emulateNetworkConditions",
            json!({
                "offline": on, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
            }),
        )
        .await;
    }

    // --- Judging ---------------------------------------------------------------------------------

    /// Fails when axe finds anything, with its two stricter rules on.
    pub async fn passes_axe(&self) {
        self.tell("axe");
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(".tools/node_modules/axe-core");
        let axe = std::fs::read_to_string(path.join("axe.min.js"))
            .unwrap_or_else(|_| panic!("axe-core is missing: ./dev setup installs it"));
        if self.js("return typeof axe == 'undefined'").await == json!(true) {
            self.js(&axe).await;
        }
        let found = self
            .js("const stricter = { 'target-size': { enabled: true },
                     'color-contrast-enhanced': { enabled: true } };
                 return axe.run({ rules: stricter }).then(result => result.violations.map(
                     v => `${v.id}: ${v.help}\\n` + v.nodes.map(n =>
                         `    ${n.target} ${n.any.map(a => a.message).join('; ')}`).join('\\n')));")
            .await;
        let found: Vec<&str> =
            found.as_array().expect("a list").iter().filter_map(Value::as_str).collect();
        if !found.is_empty() {
            panic!("axe finds:\n{}", found.join("\n"));
        }
    }

    /// Lets this text in the console pass; anything else of weight fails the test at its end.
    pub fn expect_noise(&self, text: &str) {
        self.0.noise.lock().unwrap().push(text.to_owned());
    }

    /// What the console holds that no test may leave there.
    pub async fn trouble(&self) -> Option<String> {
        let log = match self.driver().browser_log().await {
            Ok(log) => log,
            Err(error) => return Some(format!("no console to read: {error}")),
        };
        let noise = self.0.noise.lock().unwrap();
        let trouble: Vec<String> = log
            .into_iter()
            .filter(|entry| entry.level == "SEVERE" || entry.level == "WARNING")
            .map(|entry| entry.message)
            .filter(|message| !noise.iter().any(|n| message.contains(n.as_str())))
            .collect();
        (!trouble.is_empty()).then(|| format!("the console says:\n{}", trouble.join("\n")))
    }

    /// Keeps the screen as `target/shots/<name>.png` when `SHOTS` is set.
    pub async fn shot(&self, name: &str) {
        if std::env::var_os("SHOTS").is_some() {
            self.keep_shot(name).await;
        }
    }

    /// What was done up to here, and where to see how it looked.
    pub async fn tell_story(&self, name: &str) -> String {
        let mut story = String::from("    what was done:\n");
        for line in self.0.story.lock().unwrap().iter() {
            let _ = writeln!(story, "        {line}");
        }
        let shot = self.keep_shot(&format!("failed-{}", name.replace("::", "-"))).await;
        let _ = write!(story, "    how it looked: {}", shot.display());
        story
    }

    async fn keep_shot(&self, name: &str) -> PathBuf {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/shots");
        let path = folder.join(format!("{name}.png"));
        std::fs::create_dir_all(&folder).expect("a folder for the shots");
        match self.driver().screenshot_as_png().await {
            Ok(png) => std::fs::write(&path, png).expect("a written shot"),
            Err(error) => eprintln!("no shot: {error}"),
        }
        path
    }

    // --- Tools -----------------------------------------------------------------------------------

    /// The result of a script; a promise is waited for.
    pub async fn js(&self, script: &str) -> Value {
        self.js_with(script, Vec::new()).await
    }

    /// The result of a script that reads `arguments`.
    pub async fn js_with(&self, script: &str, arguments: Vec<Value>) -> Value {
        match self.driver().execute(script, arguments).await {
            Ok(result) => result.json().clone(),
            Err(error) => panic!("the script {:.60} fails: {error}", script.trim()),
        }
    }

    /// Waits until a script returns true.
    pub async fn waits_for(&self, what: &str, script: &str) {
        self.tell(format!("waits for {what}"));
        let began = Instant::now();
        while self.js(script).await != json!(true) {
            if began.elapsed() > self.patience() * 2 {
                panic!("{what} does not come");
            }
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Waits until something outside of the page has come about.
    pub async fn waits_until(&self, what: &str, come: impl Fn() -> bool) {
        self.tell(format!("waits until {what}"));
        let began = Instant::now();
        while !come() {
            assert!(began.elapsed() < self.patience() * 2, "no sign that {what}");
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Sends a command of the Chrome DevTools Protocol to the tab.
    pub async fn cdp(&self, method: &str, parameters: Value) -> Value {
        let answer = self.driver().cdp().send_raw(method, parameters).await;
        answer.unwrap_or_else(|error| panic!("{method}: {error}"))
    }

    /// Waits until what was done is on the screen.
    pub async fn frame(&self) {
        self.js("return new Promise(done => requestAnimationFrame(() => setTimeout(done)));").await;
    }

    /// Sets how long to wait for what is looked for.
    pub fn wait_at_most(&self, patience: Duration) {
        *self.0.patience.lock().unwrap() = patience;
    }

    fn patience(&self) -> Duration {
        *self.0.patience.lock().unwrap()
    }

    fn driver(&self) -> &WebDriver {
        &self.0.driver
    }

    fn tell(&self, step: impl Into<String>) {
        self.0.story.lock().unwrap().push(step.into());
    }

    async fn has_heading(&self) {
        // The browser's own page of failure has a heading, too.
        let script = "return location.protocol == 'http:' && !!document.querySelector('h1')";
        self.waits_for("a heading", script).await;
    }

    async fn fits_the_screen(&self) {
        let screen = *self.0.screen.lock().unwrap();
        let found = self
            .js("return [innerWidth, innerHeight, matchMedia('(pointer: coarse)').matches];")
            .await;
        let wanted = json!([screen.width, screen.height, screen.touch]);
        if found != wanted {
            panic!("the screen is {found} and not {wanted}: is the page too wide?");
        }
    }

    /// Waits for the control of a name, whole or as its beginning.
    async fn find(&self, name: &str, region: Option<&str>) -> Control {
        let began = Instant::now();
        loop {
            let controls = self.controls(region).await;
            let names: Vec<String> =
                controls.iter().map(|c| format!("{} “{}”", c.role, c.name)).collect();
            let mut whole = Vec::new();
            let mut begun = Vec::new();
            for control in controls {
                if control.name == name {
                    whole.push(control);
                } else if control.name.strip_prefix(name).is_some_and(ends_a_word) {
                    begun.push(control);
                }
            }
            let mut found = if whole.is_empty() { begun } else { whole };
            match found.len() {
                1 => return found.remove(0),
                n if began.elapsed() > self.patience() => {
                    let place = region.map(|r| format!(" in “{r}”")).unwrap_or_default();
                    panic!("{n} controls named “{name}”{place} among: {names:?}");
                }
                _ => tokio::time::sleep(GLANCE).await,
            }
        }
    }

    /// Every control that is shown and enabled, in the order of reading.
    async fn controls(&self, region: Option<&str>) -> Vec<Control> {
        let tree = self.cdp("Accessibility.getFullAXTree", json!({})).await;
        let nodes = tree["nodes"].as_array().expect("nodes");
        let text = |node: &Value, key: &str| plain(&node[key]["value"]);
        let property = |node: &Value, name: &str| {
            let properties = node["properties"].as_array().into_iter().flatten();
            properties.filter(|p| p["name"] == name).map(|p| p["value"]["value"].clone()).next()
        };
        // A child names its parent, so one pass in the order of the tree finds who lies inside.
        let mut inside: Vec<&str> = Vec::new();
        let mut controls = Vec::new();
        for node in nodes {
            let id = node["nodeId"].as_str().expect("an id");
            let in_region = node["parentId"].as_str().is_some_and(|p| inside.contains(&p));
            if in_region || region.is_some_and(|r| text(node, "name") == r) {
                inside.push(id);
            }
            let role = text(node, "role");
            let wanted = CONTROLS.contains(&role.as_str())
                && node["ignored"] != json!(true)
                && property(node, "disabled") != Some(json!(true))
                && (region.is_none() || in_region);
            if let (true, Some(backend)) = (wanted, node["backendDOMNodeId"].as_i64()) {
                let ticked = property(node, "checked").or_else(|| property(node, "pressed"));
                controls.push(Control {
                    node: backend,
                    role,
                    name: text(node, "name"),
                    value: ticked.map_or_else(|| text(node, "value"), |t| plain(&t)),
                });
            }
        }
        controls
    }

    /// Puts a finger or the mouse on the middle of a control and lifts it again.
    async fn touch(&self, name: &str, region: Option<&str>) {
        let spot = self.reach(name, region).await;
        self.draw(&[spot]).await;
        self.frame().await;
    }

    /// The middle of a control, once a finger can reach it.
    async fn reach(&self, name: &str, region: Option<&str>) -> (f64, f64) {
        let began = Instant::now();
        let mut scrolled = false;
        loop {
            let control = self.find(name, region).await;
            let spot = self.on(&control, INTO_VIEW).await;
            scrolled |= spot["scrolled"] == json!(true);
            match (spot["cover"].as_str(), spot["x"].as_f64(), spot["y"].as_f64()) {
                (None, Some(x), Some(y)) => {
                    if scrolled {
                        self.tell("    after scrolling");
                        self.0.scrolls.fetch_add(1, Ordering::Relaxed);
                    }
                    return (x, y);
                }
                (cover, ..) if began.elapsed() > self.patience() => {
                    panic!("“{name}” is covered by {}", cover.unwrap_or("what took its place"))
                }
                _ => tokio::time::sleep(GLANCE).await,
            }
        }
    }

    /// Draws a finger, or the mouse with its button down, along some points.
    async fn draw(&self, path: &[(f64, f64)]) {
        let is_touch = self.0.screen.lock().unwrap().touch;
        let last = path.last().expect("a point");
        for (n, (x, y)) in path.iter().enumerate() {
            if is_touch {
                let kind = if n == 0 { "touchStart" } else { "touchMove" };
                let event = json!({ "type": kind, "touchPoints": [{ "x": x, "y": y }] });
                self.cdp("Input.dispatchTouchEvent", event).await;
            } else {
                let kind = if n == 0 { "mousePressed" } else { "mouseMoved" };
                self.mouse(kind, (*x, *y)).await;
            }
        }
        if is_touch {
            let event = json!({ "type": "touchEnd", "touchPoints": [] });
            self.cdp("Input.dispatchTouchEvent", event).await;
        } else {
            self.mouse("mouseReleased", *last).await;
        }
    }

    async fn mouse(&self, kind: &str, (x, y): (f64, f64)) {
        let event = json!({
            "type": kind, "x": x, "y": y, "button": "left", "buttons": 1, "clickCount": 1,
        });
        self.cdp("Input.dispatchMouseEvent", event).await;
    }

    /// What a function returns on the element of a control; nothing when the page has replaced it.
    async fn on(&self, control: &Control, function: &str) -> Value {
        let cdp = self.driver().cdp();
        let node = json!({ "backendNodeId": control.node });
        let Ok(node) = cdp.send_raw("DOM.resolveNode", node).await else { return Value::Null };
        let call = json!({
            "objectId": node["object"]["objectId"],
            "functionDeclaration": function,
            "returnByValue": true,
        });
        let answer = cdp.send_raw("Runtime.callFunctionOn", call).await;
        answer.map_or(Value::Null, |answer| answer["result"]["value"].clone())
    }
}

/// A value of the accessibility tree as text.
fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.split_whitespace().collect::<Vec<_>>().join(" "),
        Value::Null => String::new(),
        other => other.to_string(),
    }
}

/// Whether a name that goes on like this has ended a word before.
fn ends_a_word(rest: &str) -> bool {
    !rest.starts_with(char::is_alphanumeric)
}

/// Scrolls an element into view if it is not, and finds its middle and what covers it there. A
/// hidden box or circle is touched by its label.
const INTO_VIEW: &str = "function() {
    const shown = this.labels?.length && this.getBoundingClientRect().width < 24
        ? this.labels[0] : this;
    let box = shown.getBoundingClientRect();
    const scrolled = box.top < 0 || box.left < 0 || box.bottom > innerHeight || box.right > innerWidth;
    if (scrolled) {
        shown.scrollIntoView({ block: 'center', behavior: 'instant' });
        box = shown.getBoundingClientRect();
    }
    const find = () => {
        const x = box.left + box.width / 2, y = box.top + box.height / 2;
        const top = document.elementFromPoint(x, y);
        const hit = top && (shown.contains(top) || [...(this.labels ?? [])].some(l => l.contains(top)));
        const cover = hit ? null : top ? top.outerHTML.slice(0, 120) : 'nothing: it is off the screen';
        return { x, y, scrolled, cover };
    };
    const found = find();
    // A page that is deaf for a moment covers everything, wherever it is scrolled to.
    const isDeaf = document.elementFromPoint(innerWidth / 2, innerHeight / 2) == document.documentElement;
    if (!found.cover || scrolled || isDeaf) return found;
    // What lies under a bar or under the number that stays is scrolled clear of it.
    shown.scrollIntoView({ block: 'center', behavior: 'instant' });
    box = shown.getBoundingClientRect();
    return { ...find(), scrolled: true };
}";
