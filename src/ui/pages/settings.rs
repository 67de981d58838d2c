//! Settings, and the shop as a file.

use leptos::{html, prelude::*, task::spawn_local};

use crate::{
    browser::{files, install},
    engine::{quantity::System, question::Style},
    shop::{
        document::{Document, Theme},
        incoming,
        word::Word,
    },
    ui::{
        app::{RescuedText, offer_backup, share_backup},
        components::{
            ask_twice::AskTwice,
            button::{Button, Rank},
            choice::{Choice, Choices},
            error_text::{Complaint, ErrorText},
            go_to::Tile,
            page::Page,
            toggle::Toggle,
        },
        pages::take::offered,
        sketch::Sketch,
        state::App,
        words,
    },
};

/// The settings page.
#[component]
pub fn Settings(
    /// The app.
    app: App,
) -> impl IntoView {
    view! {
        <Page title="Settings and backup" back_to="shop">
            <Looks app />
            <Pushing app />
            <Backup app />
            <Installing app />
            <Emptying app />
        </Page>
    }
}

#[component]
fn Looks(app: App) -> impl IntoView {
    let system = app.system();
    let units =
        vec![Choice::new(System::Inch, "Inches"), Choice::new(System::Metric, "Millimetres")];
    let themes = vec![
        Choice::new(Theme::Dark, "Dark"),
        Choice::new(Theme::Light, "Light"),
        Choice::new(Theme::Contrast, "High contrast"),
        Choice::new(Theme::System, "As the phone"),
    ];
    view! {
        <section class="stack">
            <Choices
                name="Units"
                of=units
                chosen=Signal::derive(move || Some(system.get()))
                on_choose=move |system| app.set_system(system)
            />
            <Choices
                name="Colours"
                of=themes
                chosen=app.part(|document| Some(document.settings.theme))
                on_choose=move |theme| app.change(|document| document.settings.theme = theme)
            />
            <Toggle
                label="Larger targets for gloves"
                on=app.part(|document| document.settings.gloves)
                on_change=move |gloves| app.change(|document| document.settings.gloves = gloves)
            />
            <p>
                "Set up here. Gloves off before the spindle turns. This phone needs no touch while cutting."
            </p>
        </section>
    }
}

#[component]
fn Pushing(app: App) -> impl IntoView {
    let styles: Vec<Choice<Style>> = Style::ALL
        .iter()
        .map(|&style| {
            let (name, detail) = words::style(style);
            Choice::new(style, name).detail(detail)
        })
        .collect();
    view! {
        <Choices
            name="How hard new cuts push"
            of=styles
            chosen=app.part(|document| Some(document.settings.style))
            on_choose=move |style| app.change(|document| document.settings.style = style)
            rows=true
        />
    }
}

#[component]
fn Backup(app: App) -> impl IntoView {
    let kept = move || match app.kept_for_good.get() {
        Some(true) => "This browser keeps what you save until you remove it.",
        Some(false) => {
            "This browser may clear what you save when it needs the room, or after a week without a visit. Put the app on the home screen, and keep a backup file."
        }
        None => "",
    };
    let problem = RwSignal::new(None::<Complaint>);
    let found = RwSignal::new(None::<Document>);
    let done = Callback::new(move |()| found.set(None));
    let field = NodeRef::<html::Input>::new();
    let read = move |_| {
        let Some(field) = field.get_untracked() else { return };
        spawn_local(async move {
            match files::chosen(field, incoming::LARGEST, incoming::too_large).await {
                Ok(None) => {}
                Ok(Some(text)) => match incoming::read(&text) {
                    Ok(document) => {
                        problem.set(None);
                        found.set(Some(document));
                    }
                    Err(why) => problem.set(Some(refused(why))),
                },
                Err(why) => problem.set(Some(refused(why))),
            }
        });
    };
    let rescued = move || {
        app.rescued
            .get()
            .into_iter()
            .map(|rescued| {
                let forget = rescued.clone();
                view! {
                    <RescuedText app rescued />
                    <AskTwice
                        ask="Let it go"
                        sentence="What could not be read will be gone from this device.".to_owned()
                        act="Remove it"
                        on_act=move |()| app.forget_rescued(&forget)
                    />
                }
            })
            .collect_view()
    };
    view! {
        <section class="stack">
            <h2>"Your shop as a file"</h2>
            <p class="muted">{kept}</p>
            <Button rank=Rank::Secondary on_press=move |()| offer_backup(app)>
                "Make a backup file"
            </Button>
            {files::can_share()
                .then(|| {
                    view! {
                        <Button rank=Rank::Secondary on_press=move |()| share_backup(app)>
                            "Share a backup file"
                        </Button>
                    }
                })}
            <label class="file">
                <input
                    type="file"
                    accept="application/json,.json,text/plain"
                    data-touch="b"
                    aria-describedby="file-problem"
                    node_ref=field
                    on:change=read
                />
                <span class="button secondary">"Open a backup file"</span>
            </label>
            <ErrorText id="file-problem" complaint=problem />
            {move || found.get().map(|document| offered(app, &document, true, done))}
            <Tile
                to="take"
                name="Take something in"
                detail="a code of another phone"
                sketch=Sketch::Check
                across=true
            />
            {rescued}
        </section>
    }
}

fn refused(problem: String) -> Complaint {
    Complaint { problem, hint: "Nothing here was changed.".to_owned() }
}

/// How to put the app on the home screen, where that needs doing.
#[component]
pub fn Installing(
    /// The app.
    app: App,
) -> impl IntoView {
    view! {
        <section class="stack">
            <Show when=move || app.can_install.get()>
                <Button
                    rank=Rank::Secondary
                    on_press=move |()| {
                        app.can_install.set(false);
                        install::accept();
                    }
                >
                    "Put it on the home screen"
                </Button>
            </Show>
            {install::is_by_share_menu()
                .then(|| {
                    view! {
                        <p>
                            "On this phone: open the browser's share menu, then “Add to Home Screen”. Do it before you enter your mills: the app on the home screen keeps its own data."
                        </p>
                    }
                })}
        </section>
    }
}

#[component]
fn Emptying(app: App) -> impl IntoView {
    view! {
        <AskTwice
            ask="Remove everything"
            sentence="Mills, cutters, favorites and settings will be gone from this device."
                .to_owned()
            act="Remove everything"
            on_act=move |()| app.replace("Everything", Document::default())
        />
    }
}
