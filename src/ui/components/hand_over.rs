//! One thing of the shop as a picture of squares for the camera of another phone.

use leptos::{prelude::*, task::spawn_local};

use super::{
    button::{Button, Rank},
    fold::LateFold,
};
use crate::{
    browser::{clipboard, page},
    shop::hand_over::{Picture, code_of, picture},
    ui::state::App,
};

/// Folds out the code of one thing of a list of the document: `machines`, `cutters`, `favorites`.
pub fn hand_over(app: App, list: &'static str, id: String) -> AnyView {
    let id = StoredValue::new(id);
    view! {
        <LateFold title="Hand over to another phone">
            {move || shown(code_of(&app.document.read(), list, &id.read_value()))}
        </LateFold>
    }
    .into_any()
}

fn shown(code: Option<String>) -> AnyView {
    let code = code.unwrap_or_default();
    let drawn = picture(&format!("{}take#", page::root_address()), &code);
    let said = RwSignal::new(None::<String>);
    let copied = code.clone();
    let copy = move |()| {
        let code = copied.clone();
        spawn_local(async move {
            let done = clipboard::put(&code).await;
            said.set(Some(done.err().unwrap_or_else(|| "Copied.".to_owned())));
        });
    };
    let how = match &drawn {
        Some(_) => {
            "Point the camera of the other phone at it and open the link. It shows what comes in before anything is kept."
        }
        None => "This is too much for a picture. Copy the code, or make a backup file.",
    };
    view! {
        {drawn.map(draw)}
        <p>{how}</p>
        <p class="code">
            {code}
        </p>
        <Button rank=Rank::Secondary on_press=copy>
            "Copy the code"
        </Button>
        <p role="status">{move || said.get()}</p>
    }
    .into_any()
}

/// Dark on light in every theme: a camera wants it so.
fn draw(Picture { side, path }: Picture) -> AnyView {
    view! {
        <svg
            class="squares"
            viewBox=format!("0 0 {side} {side}")
            role="img"
            aria-label="Picture of the code, for a camera"
            shape-rendering="crispEdges"
        >
            <path d=path />
        </svg>
    }
    .into_any()
}
