//! Files: offering one, reading one that was chosen, and reading one of the app's own.

use crate::browser::{reason, window};
use js_sys::{Array, Promise, futures::JsFuture};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, HtmlInputElement, Response, Url};

/// Offers a text as a file to keep.
///
/// # Errors
/// A sentence, when the browser makes no file.
pub fn offer(name: &str, kind: &str, text: &str) -> Result<(), String> {
    offer_blob(name, kind, text)
        .map_err(|error| format!("The browser made no file ({}).", reason(&error)))
}

fn offer_blob(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob =
        Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(text)), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let document = window().document().ok_or(JsValue::NULL)?;
    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}

/// Reads the file that was chosen in a field; `None` when none was.
///
/// # Errors
/// A sentence, when it cannot be read.
pub async fn chosen(field: HtmlInputElement) -> Result<Option<String>, String> {
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return Ok(None) };
    // The same file can be chosen again only after the field forgot it.
    let text = text_of(file.text()).await;
    field.set_value("");
    text.map(Some).map_err(|error| format!("The file cannot be read ({}).", reason(&error)))
}

/// Reads one of the app's own files, by its path from the app's folder.
///
/// # Errors
/// A sentence, when it is not there.
pub async fn own(path: &str) -> Result<String, String> {
    let cannot = |why: String| format!("The file {path} cannot be read ({why}).");
    let answer = JsFuture::from(window().fetch_with_str(path)).await;
    let answer = answer.map_err(|error| cannot(reason(&error)))?;
    let answer: Response = answer.dyn_into().map_err(|_| cannot("no answer".to_owned()))?;
    // A host that answers every address with the app's page does not have the file either.
    let kind = answer.headers().get("content-type").ok().flatten().unwrap_or_default();
    if !answer.ok() || kind.starts_with("text/html") {
        return Err(cannot(format!("answer {}", answer.status())));
    }
    let text = answer.text().map_err(|error| cannot(reason(&error)))?;
    text_of(text).await.map_err(|error| cannot(reason(&error)))
}

async fn text_of(promise: Promise) -> Result<String, JsValue> {
    JsFuture::from(promise).await.map(|text| text.as_string().unwrap_or_default())
}
