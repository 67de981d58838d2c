//! The list to find a thread in: what is typed, what was looked at last, and the common ones.

use leptos::prelude::*;

use super::state::{Lead, doors, recipe, say_found};
use crate::{
    engine::{
        quantity::{Length, System},
        threads::{self, Series, Thread},
    },
    ui::{
        components::{
            Choice, Choices, GoTo, HOME, Page, Tile, UnitSwitch, search_field::SearchField,
        },
        sketch::Sketch,
        state::App,
    },
};

/// So many finds are shown.
const FOUND: usize = 8;

/// A family of threads, as a shop sorts its taps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Group {
    Inch,
    Metric,
    Pipe,
    British,
}

impl Group {
    const ALL: [Self; 4] = [Self::Inch, Self::Metric, Self::Pipe, Self::British];

    fn name(self) -> &'static str {
        match self {
            Self::Inch => "Inch",
            Self::Metric => "Metric",
            Self::Pipe => "Pipe",
            Self::British => "British",
        }
    }

    /// The lists of the group, each with its heading.
    fn lists(self) -> &'static [(&'static str, &'static [Series])] {
        match self {
            Self::Inch => &[
                ("Coarse", &[Series::Unc]),
                ("Fine", &[Series::Unf]),
                ("Extra fine", &[Series::Unef]),
            ],
            Self::Metric => &[("Coarse", &[Series::Metric]), ("Fine", &[Series::MetricFine])],
            Self::Pipe => &[("Taper", &[Series::Npt, Series::R]), ("Parallel", &[Series::G])],
            Self::British => &[
                ("British Association", &[Series::Ba]),
                ("Whitworth", &[Series::Bsw]),
                ("Fine", &[Series::Bsf]),
                ("Model engineer and brass", &[Series::Me, Series::Bsb]),
            ],
        }
    }

    /// What a small shop taps; the rest is found by its name.
    fn is_common(thread: &Thread) -> bool {
        let most = match thread.series() {
            Series::Unc | Series::Unf | Series::Bsw | Series::Bsf => Length::inch(1.0),
            Series::Unef => Length::inch(0.5),
            Series::Metric => Length::mm(24.0),
            Series::MetricFine => Length::mm(16.0),
            Series::Npt | Series::G | Series::R => Length::inch(1.4),
            _ => Length::inch(0.5),
        };
        let least = match thread.series() {
            Series::Metric => Length::mm(1.6),
            Series::MetricFine => Length::mm(4.0),
            _ => Length::ZERO,
        };
        thread.major() <= most && thread.major() >= least
    }
}

/// The page.
#[component]
pub fn Finder(
    /// Where a thread that is found leads.
    lead: Lead,
) -> impl IntoView {
    let app = App::get();
    let system = app.system();
    let text = RwSignal::new(String::new());
    let found = Memo::new(move |_| threads::find(&text.read()));
    let is_asked = Memo::new(move |_| !text.read().trim().is_empty());
    view! {
        <Page
            title=if lead == Lead::Card { "Threads" } else { "Which thread?" }
            back_to=match &lead {
                Lead::Card => HOME.to_owned(),
                Lead::Recipe(form) => recipe(form),
            }
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
        >
            <SearchField
                label="Find: 10-32, M6, 1/8 npt, quarter twenty"
                text
                found=Signal::derive(move || {
                    if is_asked.get() { say_found(&found.read()) } else { String::new() }
                })
            />
            {
                let lead = StoredValue::new(lead);
                view! {
                    <Show
                        when=move || is_asked.get()
                        fallback=move || view! { <Lists app lead=lead.get_value() /> }
                    >
                        <div class="stack">
                            {move || doors(&found.read(), FOUND, &lead.read_value())}
                        </div>
                    </Show>
                }
            }
        </Page>
    }
}

#[component]
fn Lists(app: App, lead: Lead) -> impl IntoView {
    let group = RwSignal::new(match app.system().get_untracked() {
        System::Inch => Group::Inch,
        System::Metric => Group::Metric,
    });
    let is_whole = lead == Lead::Card;
    let kept = lead.clone();
    let groups = Group::ALL.map(|group| Choice::new(group, group.name())).to_vec();
    let lists = move || {
        let list = |(name, series): &(&'static str, &'static [Series])| {
            let threads =
                threads::all().filter(|t| series.contains(&t.series()) && Group::is_common(t));
            let doors: Vec<_> = threads.map(|thread| door(thread, &lead)).collect();
            view! {
                <section class="stack">
                    <h2>{*name}</h2>
                    <nav class="marks" aria-label=*name>{doors}</nav>
                </section>
            }
        };
        group.get().lists().iter().map(list).collect_view()
    };
    view! {
        <Kept app lead=kept />
        <Choices
            name="Kind"
            of=groups
            chosen=Signal::derive(move || Some(group.get()))
            on_choose=move |chosen| group.set(chosen)
        />
        {lists}
        {is_whole.then(|| view! { <More /> })}
    }
}

/// What else there is about threads and holes.
#[component]
fn More() -> impl IntoView {
    view! {
        <nav class="doors" aria-label="More">
            <Tile to="threads?recipe" name="Recipe for a hole" sketch=Sketch::Drilling />
            <Tile
                to="threads?measure"
                name="Which thread is this?"
                detail="by what it measures"
                sketch=Sketch::Thread
            />
            <Tile to="threads?gauge" name="Pitch gauge" detail="on the screen" sketch=Sketch::Convert />
            <Tile to="shop?drills" name="Your drills" sketch=Sketch::Drawers />
        </nav>
    }
}

/// Those with a star, then those looked at last.
#[component]
fn Kept(app: App, lead: Lead) -> impl IntoView {
    let kept = app.part(|document| {
        let shelf = &document.threads;
        let recent = shelf.recent.iter().filter(|name| !shelf.is_starred(name));
        let starred = shelf.starred.iter().map(|name| (true, name));
        let all = starred.chain(recent.map(|name| (false, name)));
        all.filter_map(|(star, name)| Some((star, threads::named(name).ok()?))).collect::<Vec<_>>()
    });
    move || {
        let kept = kept.get();
        (!kept.is_empty()).then(|| {
            let doors = kept.into_iter().map(|(starred, thread)| {
                view! {
                    <GoTo to=lead.to(&thread.designation()) class="chip door-chip" {..} data-touch="b">
                        {starred.then(|| Sketch::StarFilled.draw_small())}
                        {thread.designation()}
                    </GoTo>
                }
            });
            view! {
                <section class="stack">
                    <h2>"Starred and recent"</h2>
                    <nav class="marks" aria-label="Starred and recent">{doors.collect_view()}</nav>
                </section>
            }
        })
    }
}

fn door(thread: Thread, lead: &Lead) -> impl IntoView + use<> {
    view! {
        <GoTo to=lead.to(&thread.designation()) class="chip door-chip" {..} data-touch="b">
            {thread.short_name()}
        </GoTo>
    }
}
