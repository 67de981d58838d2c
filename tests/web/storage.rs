//! The saved document in a browser's storage.

use core::cell::Cell;
use handwheel::{
    browser::{clock, storage},
    shop::{
        document::Document,
        machines::MachineForm,
        sample::sample,
        store::{self, Found, Rescued, Shelf},
    },
};
use js_sys::{Function, Promise, futures::JsFuture};
use wasm_bindgen_test::wasm_bindgen_test;

const NOW: &str = "2026-11-24T10:00:00.000Z";

fn with_machine(name: &str) -> Document {
    let mut document = Document::default();
    document.add_machine(MachineForm { name: name.into(), ..MachineForm::default() });
    document
}

fn load(shelf: &impl Shelf) -> Found {
    store::load(shelf, NOW)
}

/// The browser's storage, without anything of ours.
fn browser_storage() -> web_sys::Storage {
    let storage = storage::shelf().expect("this browser has a storage");
    for key in storage.keys() {
        if key.starts_with("handwheel/") {
            storage.remove(&key);
        }
    }
    storage
}

#[wasm_bindgen_test]
fn an_empty_storage_holds_no_document() {
    assert_eq!(load(&browser_storage()), Found::default());
}

#[wasm_bindgen_test]
fn what_was_saved_last_is_loaded() {
    let storage = browser_storage();
    for document in [sample(), with_machine("one"), with_machine("two"), sample()] {
        store::save(&storage, &document).expect("room");
        assert_eq!(load(&storage), Found { document: Some(document), rescued: Vec::new() });
    }
}

#[wasm_bindgen_test]
fn every_key_carries_our_name_and_others_are_left_alone() {
    let storage = browser_storage();
    storage.put("another-app", "its data").expect("room");
    let before: Vec<String> = storage.keys();
    store::save(&storage, &sample()).expect("room");
    storage.put("handwheel/current", "nonsense").expect("room");
    load(&storage);
    for key in storage.keys() {
        assert!(before.contains(&key) || key.starts_with("handwheel/"), "{key}");
    }
    assert_eq!(storage.text("another-app").as_deref(), Some("its data"));
    storage.remove("another-app");
}

#[wasm_bindgen_test]
fn a_full_browser_says_so_in_a_sentence() {
    let storage = browser_storage();
    store::save(&storage, &with_machine("one")).expect("room");
    let mut size = 4 * 1024 * 1024;
    let mut filler = 0;
    while size > 100 {
        if storage.put(&format!("handwheel/filler/{filler}"), &"x".repeat(size)).is_err() {
            size /= 2;
        }
        filler += 1;
    }
    let problem = store::save(&storage, &sample()).expect_err("no room is left");
    assert!(problem.starts_with("The browser keeps nothing more for this app ("), "{problem}");
    assert_eq!(load(&storage).document, Some(with_machine("one")));
    browser_storage();
}

#[wasm_bindgen_test]
fn what_cannot_be_read_moves_aside_untouched() {
    for garbage in ["", "{", "{}", "null", "ÿ\u{0}\u{1f980}", r#"{"version":99}"#] {
        let storage = browser_storage();
        for slot in ["handwheel/document/a", "handwheel/document/b"] {
            storage.put(slot, garbage).expect("room");
        }
        let found = load(&storage);
        assert_eq!(found.document, None);
        let keys = [format!("handwheel/rescued/{NOW}"), format!("handwheel/rescued/{NOW}-2")];
        assert_eq!(found.rescued.len(), 2);
        for (Rescued { key, raw, problem }, expected) in found.rescued.iter().zip(&keys) {
            assert_eq!((key.as_ref(), raw.as_str()), (Some(expected), garbage));
            assert!(problem.ends_with('.'), "{problem}");
            assert_eq!(storage.text(expected).as_deref(), Some(garbage));
        }
        assert_eq!(load(&storage).rescued.len(), 2, "it is moved once");
    }
}

#[wasm_bindgen_test]
async fn a_save_in_another_window_is_noticed_and_loaded() {
    let storage = browser_storage();
    store::save(&storage, &with_machine("here")).expect("room");
    thread_local!(static NOTICED: Cell<u32> = const { Cell::new(0) });
    storage::at_save_elsewhere(|| NOTICED.set(NOTICED.get() + 1));
    store::save(&storage, &with_machine("here too")).expect("room");
    wait().await;
    assert_eq!(NOTICED.get(), 0, "one's own saves are not told");

    // A frame of the same origin is another window to the storage.
    let elsewhere = Function::new_with_args(
        "slot, text",
        "const frame = document.body.appendChild(document.createElement('iframe'));
         frame.contentWindow.localStorage.setItem(slot, text);
         frame.contentWindow.localStorage.setItem('handwheel/current', slot);
         frame.contentWindow.localStorage.setItem('another-app', text);
         setTimeout(() => frame.remove(), 50);",
    );
    let in_use = storage.text("handwheel/current").expect("a pointer");
    let spare = if in_use.ends_with('a') { "handwheel/document/b" } else { "handwheel/document/a" };
    elsewhere
        .call2(&wasm_bindgen::JsValue::NULL, &spare.into(), &with_machine("there").to_text().into())
        .expect("a frame");
    wait().await;
    assert_eq!(NOTICED.get(), 1, "the pointer alone tells of a save");
    assert_eq!(load(&storage).document, Some(with_machine("there")));
    storage.remove("another-app");
}

#[wasm_bindgen_test]
fn a_thing_is_told_once_on_a_device() {
    let storage = browser_storage();
    assert!(store::is_new_to_tell(&storage, "offline"));
    assert!(!store::is_new_to_tell(&storage, "offline"));
    assert!(store::is_new_to_tell(&storage, "install"));
}

#[wasm_bindgen_test]
fn the_clock_says_iso_and_counts_days() {
    let now = clock::now();
    assert!(now.len() == 24 && now.ends_with('Z') && now.as_bytes()[10] == b'T', "{now}");
    assert!(clock::days_since(&now).is_some_and(|days| (0.0..0.01).contains(&days)));
    assert!(clock::days_since("2000-01-01T00:00:00Z").is_some_and(|days| days > 9000.0));
    assert_eq!(clock::days_since("yesterday"), None);
}

/// Long enough for the browser to hand out its events.
async fn wait() {
    let promise = Promise::new(&mut |resolve, _| {
        let timer = web_sys::window()
            .expect("a window")
            .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 200);
        timer.expect("a timer");
    });
    JsFuture::from(promise).await.expect("a timer never fails");
}
