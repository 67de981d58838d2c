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

/// True where a text can go to another app as a file.
#[must_use]
pub fn can_share() -> bool {
    let navigator = window().navigator();
    let has = |name: &str| js_sys::Reflect::has(&navigator, &name.into()).unwrap_or(false);
    super::page::is_secure() && has("share") && has("canShare")
}

/// Hands a text as a file to the share sheet; false where the person thought better of it. To be
/// called in a tap.
///
/// # Errors
/// A sentence, when the browser shares no file.
pub async fn share(name: &str, text: &str) -> Result<bool, String> {
    let asked = share_file(name, text)
        .map_err(|error| format!("The browser shares no file ({}).", reason(&error)))?;
    match JsFuture::from(asked).await {
        Ok(_) => Ok(true),
        Err(error) => {
            let name = js_sys::Reflect::get(&error, &"name".into()).ok();
            let is_change_of_mind = name.is_some_and(|name| name == "AbortError");
            if is_change_of_mind {
                return Ok(false);
            }
            Err(format!("The browser shared no file ({}).", reason(&error)))
        }
    }
}

fn share_file(name: &str, text: &str) -> Result<Promise, JsValue> {
    let options = js_sys::Object::new();
    js_sys::Reflect::set(&options, &"type".into(), &"text/plain".into())?;
    let file = web_sys::File::new_with_str_sequence_and_options(
        &Array::of1(&JsValue::from_str(text)),
        name,
        options.unchecked_ref(),
    )?;
    let what = js_sys::Object::new();
    js_sys::Reflect::set(&what, &"files".into(), &Array::of1(&file))?;
    let navigator = window().navigator();
    let share: js_sys::Function = js_sys::Reflect::get(&navigator, &"share".into())?.dyn_into()?;
    share.call1(&navigator, &what)?.dyn_into()
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
/// A sentence, when it cannot be read. One that is larger than `most` bytes is not read at all;
/// `too_large` says so.
pub async fn chosen(
    field: HtmlInputElement,
    most: usize,
    too_large: fn(usize) -> String,
) -> Result<Option<String>, String> {
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return Ok(None) };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a size in bytes")]
    let size = file.size() as usize;
    if size > most {
        field.set_value("");
        return Err(too_large(size));
    }
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
