//! The shell: routes, the number pad, and what has to be told on any page.

use leptos::{prelude::*, task::spawn_local};
use leptos_router::{
    components::{Route, Router, Routes},
    hooks::use_location,
    path,
};

use super::{
    components::{
        button::{Button, Rank},
        number_pad::provide_pad,
    },
    pages::{emergency::Emergency, home::Home, not_found::NotFound},
    pieces::{self, Later, rest},
    state::{App, Removed, after_the_frame},
};
use crate::{
    browser::{clock, files},
    shop::store::Rescued,
    ui::components::notice::Notice,
};

/// The whole app.
///
/// Every route is one segment: with a page that is found by relative addresses a second one would
/// look for it in the wrong folder.
#[component]
pub fn Handwheel() -> impl IntoView {
    let app = App::start();
    provide_pad();
    view! {
        <Router base=app.folder()>
            <div class="told">
                <NotSaved app />
                <RescuedTexts app />
            </div>
            <Routes fallback=NotFound>
                <Route path=path!("/") view=Home />
                <Route path=path!("/index.html") view=Home />
                <Route path=path!("/cut") view=Later(rest::cut) />
                <Route path=path!("/check") view=Later(rest::check) />
                <Route path=path!("/emergency") view=Emergency />
                <Route path=path!("/threads") view=Later(rest::threads) />
                <Route path=path!("/convert") view=Later(rest::convert) />
                <Route path=path!("/layout") view=Later(rest::layout) />
                <Route path=path!("/setup") view=Later(rest::setup) />
                <Route path=path!("/pace") view=Later(rest::pace) />
                <Route path=path!("/plan") view=Later(rest::plan) />
                <Route path=path!("/which") view=Later(rest::which) />
                <Route path=path!("/shop") view=Later(rest::shop) />
                <Route path=path!("/favorites") view=Later(rest::favorites) />
                <Route path=path!("/jobs") view=Later(rest::jobs) />
                <Route path=path!("/take") view=Later(rest::take) />
                <Route path=path!("/about") view=Later(rest::about) />
            </Routes>
            <LastRemoved app />
            <Rest />
        </Router>
    }
}

/// The number pad, and with it all that the first screen does without, once that is on the screen.
/// Where it did not arrive, every way to another page asks again.
#[component]
fn Rest() -> impl IntoView {
    let here = use_location();
    let due = RwSignal::new(false);
    let arrived = StoredValue::new(false);
    after_the_frame(move || due.set(true));
    let tries = Memo::new(move |tries: Option<&u32>| {
        here.pathname.track();
        let is_due = due.get() && !arrived.get_value();
        tries.copied().unwrap_or_default() + u32::from(is_due)
    });
    move || {
        (tries.get() > 0).then(|| {
            pieces::part(async move {
                let pad = rest::number_pad().await;
                arrived.set_value(pad.is_some());
                pad
            })
        })
    }
}

/// The last change is not saved: why, and how to keep it anyway.
#[component]
fn NotSaved(app: App) -> impl IntoView {
    let message = Signal::derive(move || {
        app.not_saved.get().map(|why| format!("Not saved. {why} Keep a backup file."))
    });
    view! {
        <Notice message>
            <Button rank=Rank::Secondary on_press=move |()| offer_backup(app)>
                "Backup file"
            </Button>
        </Notice>
    }
}

/// Offers what is saved as a file.
pub(super) fn offer_backup(app: App) {
    let (now, text) = backup(app);
    let name = format!("handwheel-{}.json", &now[..10]);
    match files::offer(&name, "application/json", &text) {
        Ok(()) => app.change(|document| document.note_backup(now)),
        Err(why) => app.not_saved.set(Some(why)),
    }
}

/// Offers what is saved to another app.
pub(super) fn share_backup(app: App) {
    let (now, text) = backup(app);
    // The text kind of file is the one that every share sheet takes.
    let name = format!("handwheel-{}.txt", &now[..10]);
    spawn_local(async move {
        match files::share(&name, &text).await {
            Ok(true) => app.change(|document| document.note_backup(now)),
            Ok(false) => {}
            Err(why) => app.not_saved.set(Some(why)),
        }
    });
}

/// The time, and the text of a backup that is made at it.
fn backup(app: App) -> (String, String) {
    let now = clock::now();
    let mut document = app.document.get_untracked();
    document.note_backup(now.clone());
    (now, document.to_text())
}

/// What was found on the device and could not be read.
#[component]
fn RescuedTexts(app: App) -> impl IntoView {
    move || {
        app.rescued
            .get()
            .into_iter()
            .filter(|rescued| !rescued.problem.is_empty())
            .map(|rescued| view! { <RescuedText app rescued /> })
            .collect_view()
    }
}

/// One text that could not be read, as a file for its owner.
#[component]
pub(super) fn RescuedText(app: App, rescued: Rescued) -> impl IntoView {
    let message = if rescued.problem.is_empty() {
        "What could not be read on an earlier day is still kept.".to_owned()
    } else {
        format!("{} It is kept as it was found; nothing of it is lost.", rescued.problem)
    };
    let rescued = StoredValue::new(rescued);
    let offer = move || {
        let text = rescued.read_value().raw.clone();
        if let Err(why) = files::offer("handwheel-rescued.txt", "text/plain", &text) {
            app.not_saved.set(Some(why));
        }
    };
    let hide = move || {
        app.rescued.update(|all| {
            for one in all.iter_mut().filter(|one| **one == *rescued.read_value()) {
                one.problem.clear();
            }
        });
    };
    view! {
        <Notice message=Some(message)>
            <Button rank=Rank::Secondary on_press=move |()| offer()>
                "Get it as a file"
            </Button>
            <Button rank=Rank::Quiet on_press=move |()| hide()>
                "Later"
            </Button>
        </Notice>
    }
}

/// What was removed last, until something else is or the person goes on.
#[component]
fn LastRemoved(app: App) -> impl IntoView {
    let message =
        Signal::derive(move || app.removed.get().map(|Removed { sentence, .. }| sentence));
    view! {
        <div class="undo">
            <Notice message>
                <Button
                    rank=Rank::Secondary
                    on_press=move |()| {
                        if let Some(removed) = app.removed.get_untracked() {
                            (removed.bring_back)();
                            app.removed.set(None);
                        }
                    }
                >
                    "Undo"
                </Button>
            </Notice>
        </div>
    }
}
