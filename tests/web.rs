//! What only a browser can show: the storage, and the components on a page.
#![cfg(target_arch = "wasm32")]

#[path = "web/components.rs"]
mod components;
#[path = "web/storage.rs"]
mod storage;

wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
