//! Favorites: screens kept by name, the job cards, and what was looked at last.

use leptos::prelude::*;

use crate::{
    shop::{
        document::Favorite,
        jobs::{Job, Step},
        recent::{Recent, is_ours, page_of},
    },
    ui::{
        components::{
            button::{Button, Rank},
            choice::{Choice, Choices},
            fold::LateFold,
            go_to::{GoTo, Tile},
            hand_over::hand_over,
            page::Page,
            text_field::TextField,
            toggle::Toggle,
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
        document.favorites_shown().map(|favorite| favorite.id.clone()).collect::<Vec<_>>()
    });
    let jobs = app.part(|document| match document.jobs.len() {
        0 => "a part with its steps".to_owned(),
        1 => "one card".to_owned(),
        many => format!("{many} cards"),
    });
    view! {
        <Page title="Favorites">
            <Show
                when=move || !ids.read().is_empty()
                fallback=|| {
                    view! {
                        <p>"A cut, a thread, a hole or a line that you save is kept here by name, one tap away."</p>
                        <GoTo to="cut" class="button primary" {..} data-touch="c">
                            "Cut"
                        </GoTo>
                    }
                }
            >
                <For each=move || ids.get() key=Clone::clone let:id>
                    <FavoriteRow app id />
                </For>
                <Tile to="jobs" name="Job cards" detail=jobs sketch=Sketch::Check across=true />
            </Show>
            <Lately app />
        </Page>
    }
}

/// What was looked at last.
#[component]
fn Lately(app: App) -> impl IntoView {
    let recents = app.part(|document| document.recents.list().to_vec());
    let row = |recent: Recent| {
        view! {
            <Tile to=recent.to.clone() name=recent.name sketch=sketch_of(&recent.to) across=true />
        }
    };
    move || {
        let recents = recents.get();
        (!recents.is_empty()).then(|| {
            view! {
                <section class="stack" data-testid="lately">
                    <h2>"Lately"</h2>
                    {recents
                        .into_iter()
                        .filter(|recent| is_ours(&recent.to))
                        .map(row)
                        .collect_view()}
                </section>
            }
        })
    }
}

/// The drawing of the page that an address leads to.
pub fn sketch_of(to: &str) -> Sketch {
    match page_of(to) {
        "threads" if to.contains("recipe") => Sketch::Drilling,
        "threads" => Sketch::Thread,
        "convert" => Sketch::Convert,
        "check" => Sketch::Check,
        "layout" => Sketch::Layout,
        "setup" => Sketch::SetUp,
        "plan" => Sketch::Plan,
        _ => Sketch::Cut,
    }
}

#[component]
fn FavoriteRow(app: App, id: String) -> impl IntoView {
    let id = StoredValue::new(id);
    let favorite = app.part(move |document| {
        let id = id.read_value();
        document.favorites.iter().find(|favorite| favorite.id == *id).cloned().unwrap_or_default()
    });
    let shown = Signal::derive(move || shown_name(&favorite.read()));
    let job = app.part(move |document| {
        document.job(&favorite.read().job).map(|job| job.title().to_owned()).unwrap_or_default()
    });
    view! {
        <section class="stack">
            {move || {
                let favorite = favorite.read();
                let sketch =
                    if favorite.starred { Sketch::StarFilled } else { sketch_of(&favorite.to()) };
                view! { <Tile to=favorite.to() name=shown detail=job sketch across=true /> }
            }}
            <LateFold title=Signal::derive(move || format!("Change “{}”", shown.get()))>
                <Change app id favorite />
            </LateFold>
        </section>
    }
}

fn shown_name(favorite: &Favorite) -> String {
    match favorite.name.trim() {
        "" => "Without a name".to_owned(),
        name => name.to_owned(),
    }
}

#[component]
fn Change(app: App, id: StoredValue<String>, favorite: Signal<Favorite>) -> impl IntoView {
    let change = move |change: &dyn Fn(&mut Favorite)| {
        app.change(|document| {
            let id = id.read_value();
            if let Some(favorite) = document.favorites.iter_mut().find(|f| f.id == *id) {
                change(favorite);
                document.count_change();
            }
        });
    };
    let remove = move |()| {
        app.remove(
            shown_name(&favorite.read_untracked()),
            move |document| document.remove_favorite(&id.read_value()),
            |document, (place, favorite)| document.put_back_favorite(place, favorite),
        );
    };
    let jobs = app.part(|document| {
        let job = |job: &Job| Choice::new(job.id.clone(), job.title());
        let none = Choice::new(String::new(), "No job");
        core::iter::once(none).chain(document.jobs.iter().map(job)).collect::<Vec<_>>()
    });
    let has_jobs = Memo::new(move |_| jobs.read().len() > 1);
    let add_step = move |()| {
        let favorite = favorite.get_untracked();
        app.change(|document| {
            document.change_job(&favorite.job, |job| {
                job.steps.push(Step {
                    title: shown_name(&favorite),
                    to: favorite.to(),
                    done: false,
                });
            });
        });
    };
    let is_filed = Memo::new(move |_| !favorite.read().job.is_empty());
    view! {
        <TextField
            label="What you call it"
            value=Signal::derive(move || favorite.read().name.clone())
            on_change=move |name: String| change(&|favorite| name.clone_into(&mut favorite.name))
        />
        <Toggle
            label="Stands first"
            on=Signal::derive(move || favorite.read().starred)
            said=("yes", "no")
            on_change=move |on| change(&|favorite| favorite.starred = on)
        />
        <div class="doors">
            <Button
                rank=Rank::Secondary
                on_press=move |()| app.change(|d| d.move_favorite(&id.read_value(), false))
            >
                "Earlier"
            </Button>
            <Button
                rank=Rank::Secondary
                on_press=move |()| app.change(|d| d.move_favorite(&id.read_value(), true))
            >
                "Later"
            </Button>
        </div>
        <Show when=move || has_jobs.get()>
            <Choices
                name="Filed with"
                of=jobs
                chosen=Signal::derive(move || Some(favorite.read().job.clone()))
                on_choose=move |job: String| change(&|favorite| job.clone_into(&mut favorite.job))
                rows=true
            />
        </Show>
        <Show when=move || is_filed.get()>
            <Button rank=Rank::Secondary on_press=add_step>
                "Add it to the steps of the job"
            </Button>
        </Show>
        {hand_over(app, "favorites", id.get_value())}
        <Button rank=Rank::Danger on_press=remove>
            "Remove it"
        </Button>
    }
}
