//! The notes after cuts, each of which can be taken away.

use leptos::prelude::*;

use crate::{
    engine::experience::{COUNTED, LEAST},
    shop::{cut_log::Note, cuts::CutForm},
    ui::{
        components::{Button, GoTo, Page, Rank},
        state::App,
        words,
    },
};

/// So many are shown.
const SHOWN: usize = 60;

/// The list, the last one first.
#[component]
pub fn Notes() -> impl IntoView {
    let app = App::get();
    let notes =
        app.part(|document| document.log.notes().iter().take(SHOWN).cloned().collect::<Vec<_>>());
    let take_out = move |place: usize, name: String| {
        app.remove(
            name,
            move |document| {
                document.count_change();
                document.log.remove(place)
            },
            |document, (place, note)| document.log.put_back(place, note),
        );
    };
    let row = move |(place, note): (usize, Note)| {
        let form = CutForm::from_query(&note.link).0;
        let name = format!("{}: {}", form.title(), words::felt(note.felt).to_lowercase());
        let said = name.clone();
        view! {
            <li class="line plain">
                <span class="line-name">
                    {name}
                    <span class="line-detail">
                        {form.mill.cutter.title()} ", " {note.when.get(..10).unwrap_or("").to_owned()}
                    </span>
                </span>
                <GoTo to=format!("cut?{}", note.link) class="button quiet" {..} data-touch="a">
                    "Open the cut"
                </GoTo>
                <Button
                    rank=Rank::Quiet
                    on_press=move |()| take_out(place, format!("The note “{said}”"))
                >
                    "Take the note out"
                </Button>
            </li>
        }
    };
    view! {
        <Page title="Notes after cuts" back_to="shop">
            <p>
                {format!(
                    "From {LEAST} notes with the same mill, stock and cutter on, the mean of the last {COUNTED} moves speed and feed of the next such cut. No note moves a limit.",
                )}
            </p>
            <Show when=move || notes.read().is_empty()>
                <p>"Nothing is noted yet. Under the answer of a cut it takes one tap."</p>
            </Show>
            <ul class="lines">
                {move || notes.get().into_iter().enumerate().map(row).collect_view()}
            </ul>
        </Page>
    }
}
