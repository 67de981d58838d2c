//! Home: what is on the mill, the last cut again, and the doors to everything else.

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use super::{
    choosing::Part,
    machine::{detail_of, name_of},
    welcome::Welcome,
};
use crate::{
    browser::{clock, page, updates},
    engine::{
        answer::Verdict,
        limits,
        quantity::rounding::{self, Shown},
        question::Field,
    },
    shop::{
        cuts::{CutForm, Mill, short_name},
        document::Document,
    },
    ui::{
        app::offer_backup,
        components::{
            button::{Button, Rank},
            go_to::{GoTo, Tile},
            notice::Notice,
            page::{Page, Split},
            state_mark::StateMark,
            toggle::UnitSwitch,
        },
        pieces::{self, rest},
        sketch::Sketch,
        state::App,
        words,
    },
};

/// After this many changes a backup file is due,
const CHANGES_UNSAVED: u32 = 10;
/// and after this many days with any change.
const DAYS: f64 = 30.0;

/// The page at the root: the first start, a choice, or the board.
#[component]
pub fn Home() -> impl IntoView {
    let app = App::get();
    let is_new = app.part(Document::is_new);
    let query = use_query_map();
    let part = Memo::new(move |_| {
        let query = query.read();
        let part = query.get_str("change").and_then(Part::from_query);
        part.map(|part| (part, query.get_str("then") == Some("cut")))
    });
    move || match (is_new.get(), part.get()) {
        (true, _) => view! { <Welcome /> }.into_any(),
        (false, Some((part, for_cut))) => pieces::page(rest::choosing(part, for_cut)),
        (false, None) => view! { <Board app /> }.into_any(),
    }
}

#[component]
fn Board(app: App) -> impl IntoView {
    let system = app.system();
    view! {
        <Page
            help=false
            title="On the mill"
            back=false
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
            bar=|| {
                view! {
                    <GoTo to="cut" class="button primary" {..} data-touch="c">
                        "Cut"
                    </GoTo>
                }
            }
        >
            <Split
                help=false
                names=("On the mill", "Where to go")
                answer=move || {
                    view! {
                        <News app />
                        <OnTheMill app />
                    }
                }
            >
                <LastCut app />
                <nav class="doors board-doors" aria-label="Pages">
                    <Tile to="check" name="Check" sketch=Sketch::Check />
                    <Tile to="threads" name="Threads" sketch=Sketch::Thread />
                    <Tile to="threads?recipe" name="Hole" sketch=Sketch::Drilling />
                    <Tile to="layout" name="Hole layout" sketch=Sketch::Layout />
                    <Tile to="setup" name="Set-up" sketch=Sketch::SetUp />
                    <Tile to="plan" name="Batch" sketch=Sketch::Plan />
                    <Tile to="convert" name="Convert" sketch=Sketch::Convert />
                    <Tile to="favorites" name="Favorites" sketch=Sketch::Star />
                    <Tile to="shop" name="Shop" sketch=Sketch::Drawers />
                    <Tile to="about" name="About" sketch=Sketch::About />
                </nav>
                <Tile
                    to="emergency"
                    name="Emergency"
                    detail="Stop, isolate, call"
                    sketch=Sketch::StopButton
                    across=true
                />
                <Insecure />
            </Split>
        </Page>
    }
}

/// The four things on the mill as they are now; a tap changes one.
#[component]
fn OnTheMill(app: App) -> impl IntoView {
    let machine = app.part(|document| {
        document.machine().map_or("Choose a mill".to_owned(), |own| name_of(&own.form).to_owned())
    });
    let stock = app.part(|document| document.mill.material().map(short_name));
    let kind = app.part(|document| document.mill.cutter.kind);
    let cutter = app.part(|document| cutter_title(&document.mill));
    let holding = app.part(|document| holding_title(&document.mill));
    view! {
        <div class="doors on-the-mill">
            <Tile
                to="?change=mill"
                name=machine
                sketch=Sketch::Mill
                later=Some(rest::mill_detail())
            />
            <Tile
                to="?change=stock"
                name=Signal::derive(move || stock.get().unwrap_or("Choose the stock").to_owned())
                sketch=Sketch::Stock
            />
            {move || {
                view! {
                    <Tile to="?change=cutter" name=cutter sketch=Sketch::from(kind.get()) />
                }
            }}
            <Tile to="?change=holding" name=holding sketch=Sketch::Collet />
        </div>
    }
}

/// What is to know of the machine on the mill. Its place on the board is kept until it is there.
#[component]
pub(in crate::ui) fn MillDetail() -> impl IntoView {
    let detail = App::get().part(|document| document.machine().map(|own| detail_of(&own.form)));
    move || detail.get()
}

fn cutter_title(mill: &Mill) -> String {
    if mill.cutter.diameter.is_empty() && mill.cutter.name.trim().is_empty() {
        return "Choose a cutter".to_owned();
    }
    mill.cutter.title()
}

fn holding_title(mill: &Mill) -> String {
    let holder = words::holder(mill.holder());
    let out = &mill.holding.stickout;
    if out.is_empty() {
        return holder.to_owned();
    }
    format!("{holder}, {} out", out.with_unit(Field::Stickout))
}

/// The last cut with the numbers that matter most; a tap opens it again.
#[component]
fn LastCut(app: App) -> impl IntoView {
    let form = app.part(|document| {
        let form = document.last_cut.clone()?;
        document.machine_called(&form.mill.machine).map(|_| form)
    });
    move || {
        form.get().map(|form| {
            let to = format!("cut?{}", form.to_query());
            view! {
                <GoTo to class="door last-cut" {..} data-touch="b">
                    <span class="door-detail">"Last cut: " {form.title()}</span>
                    <span class="last-cut-numbers">{pieces::part(rest::last_numbers(form))}</span>
                </GoTo>
            }
        })
    }
}

/// What was to be set for a cut. Its place on the board is kept until they are worked out.
#[component]
pub(in crate::ui) fn LastNumbers(form: CutForm) -> impl IntoView {
    let app = App::get();
    let answer = app.part(move |document| {
        let machine = document.machine_called(&form.mill.machine)?.form.read().ok()?;
        let mut question = form.read(&machine).ok()?;
        if form.heeds_notes {
            question.cut.own.experience = document.log.experience(&form);
        }
        limits::answer(&question.mill, &question.cut).ok()
    });
    move || {
        answer.get().map(|answer| {
            let speed = rounding::spindle_speed(answer.speed.set);
            let pace = answer.feed.map(|feed| match feed.turn_time {
                Some(time) => (rounding::seconds(time), " a turn"),
                None => (rounding::seconds(feed.eighth_time), " each 1/8 in"),
            });
            let do_not_cut = answer.verdict == Verdict::DoNotCut;
            view! {
                {do_not_cut
                    .then(|| {
                        view! {
                            <StateMark
                                state=words::verdict_state(Verdict::DoNotCut)
                                word=words::verdict(Verdict::DoNotCut).to_owned()
                            />
                        }
                    })}
                <Number shown=speed after="" />
                {pace.map(|(shown, after)| view! { <Number shown after /> })}
            }
        })
    }
}

#[component]
fn Number(shown: Shown, after: &'static str) -> impl IntoView {
    view! {
        <span>
            <span data-result="second">{shown.digits}</span>
            <span class="unit">" " {shown.unit} {after}</span>
        </span>
    }
}

/// What a person should know, on the one page where nothing is going on.
#[component]
fn News(app: App) -> impl IntoView {
    let sample = app.part(|document| {
        document.sample.then(|| "This is the sample shop, to look around in.".to_owned())
    });
    let update = Signal::derive(move || {
        app.update_waits.get().then(|| "A new version is ready.".to_owned())
    });
    let offline = Signal::derive(move || {
        app.ready_offline.get().then(|| "Ready to work without wifi.".to_owned())
    });
    let backup = app.part(|document| {
        let changes = document.backup.changes;
        let days = document.backup.since.as_deref().and_then(clock::days_since);
        // A file of a day to come was made before the clock was set back: how old it is, is unknown.
        let is_old = days.is_some_and(|days| !(0.0..=DAYS).contains(&days));
        let is_due = changes >= CHANGES_UNSAVED || changes > 0 && is_old;
        (is_due && !document.sample).then(|| match changes {
            1 => "1 change since the last backup file.".to_owned(),
            _ => format!("{changes} changes since the last backup file."),
        })
    });
    view! {
        <div class="news">
        <Notice message=update>
            <Button rank=Rank::Secondary on_press=|()| updates::use_update()>
                "Use it now"
            </Button>
            <Button rank=Rank::Quiet on_press=move |()| app.update_waits.set(false)>
                "Later"
            </Button>
        </Notice>
        <Notice message=offline>
            <Button rank=Rank::Quiet on_press=move |()| app.ready_offline.set(false)>
                "Good"
            </Button>
        </Notice>
        <Notice message=sample>
            <Button rank=Rank::Secondary on_press=move |()| app.leave_sample()>
                "Begin with my own mill"
            </Button>
        </Notice>
        <Notice message=backup>
            <Button rank=Rank::Secondary on_press=move |()| offer_backup(app)>
                "Backup file"
            </Button>
        </Notice>
        </div>
    }
}

/// What this address cannot do.
#[component]
pub fn Insecure() -> impl IntoView {
    (!page::is_secure()).then(|| {
        view! {
            <p class="muted">
                "This address is not https. Every screen works; working without a network, installing and staying awake need https or localhost."
            </p>
        }
    })
}
