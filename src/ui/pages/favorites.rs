//! Favorites: cuts kept by name.

use leptos::prelude::*;

use crate::{
    shop::{cuts::CutForm, document::Favorite},
    ui::{
        components::{
            button::{Button, Rank},
            fold::Fold,
            go_to::{GoTo, Tile},
            page::Page,
            text_field::TextField,
        },
        sketch::Sketch,
        state::App,
    },
};

/// The favorites page.
#[component]
pub fn Favorites() -> impl IntoView {
    let app = App::get();
    let ids = app.part(|document| {
        document.favorites.iter().map(|favorite| favorite.id.clone()).collect::<Vec<_>>()
    });
    view! {
        <Page title="Favorites">
            <Show
                when=move || !ids.read().is_empty()
                fallback=|| {
                    view! {
                        <p>"A cut that you star is kept here by name, one tap away."</p>
                        <GoTo to="cut" class="button primary" {..} data-touch="c">
                            "Cut"
                        </GoTo>
                    }
                }
            >
                <For each=move || ids.get() key=Clone::clone let:id>
                    <FavoriteRow app id />
                </For>
            </Show>
        </Page>
    }
}

#[component]
fn FavoriteRow(app: App, id: String) -> impl IntoView {
    let id = StoredValue::new(id);
    let favorite = app.part(move |document| {
        let id = id.read_value();
        document.favorites.iter().find(|favorite| favorite.id == *id).cloned()
    });
    let name = Signal::derive(move || favorite.get().map(|f| f.name).unwrap_or_default());
    let shown = Signal::derive(move || {
        let name = name.get();
        if name.trim().is_empty() { title_of(favorite.get()) } else { name }
    });
    let rename = move |name: String| {
        app.change(|document| {
            let id = id.read_value();
            if let Some(favorite) = document.favorites.iter_mut().find(|f| f.id == *id) {
                favorite.name = name;
            }
        });
    };
    let remove = move |()| {
        app.remove(
            shown.get_untracked(),
            move |document| document.remove_favorite(&id.read_value()),
            |document, (place, favorite)| document.put_back_favorite(place, favorite),
        );
    };
    view! {
        <section class="stack">
            <Tile
                to=Signal::derive(move || {
                    format!("cut?{}", favorite.get().map(|f| f.link).unwrap_or_default())
                })
                name=shown
                detail=Signal::derive(move || title_of(favorite.get()))
                sketch=Sketch::StarFilled
                across=true
            />
            <Fold title=Signal::derive(move || format!("Change “{}”", shown.get()))>
                <TextField label="What you call it" value=name on_change=rename />
                <Button rank=Rank::Danger on_press=remove>
                    "Remove it"
                </Button>
            </Fold>
        </section>
    }
}

fn title_of(favorite: Option<Favorite>) -> String {
    favorite.map(|favorite| CutForm::from_query(&favorite.link).0.title()).unwrap_or_default()
}
