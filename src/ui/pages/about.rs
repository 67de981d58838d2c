//! About: version, check against the sources, sources, cautions, licence.

use std::collections::BTreeMap;

use leptos::{prelude::*, task::spawn_local};

use crate::{
    browser::{files, page},
    engine::{
        answer::State,
        reference::{self, Outcome, Row},
        source::SOURCES,
    },
    ui::components::{
        button::Button,
        error_text::{Complaint, ErrorText},
        fold::Fold,
        page::Page,
        state_mark::StateMark,
    },
};

/// The files of check rows that are shipped with the app; the tests hold this list to the folder.
const FILES: [&str; 7] = [
    "check_convert.csv",
    "check_cutting.csv",
    "check_drilling.csv",
    "check_holes.csv",
    "check_plan.csv",
    "check_setup.csv",
    "check_threads.csv",
];

/// The about page.
#[component]
pub fn About() -> impl IntoView {
    view! {
        <Page title="About and check">
            <p>
                "Handwheel " {env!("CARGO_PKG_VERSION")} ", build " {page::build()} ". Everything is worked out on this device. Nothing you type leaves it."
            </p>
            <Check />
            <Sources />
            <Cautions />
            <Fold title="Licence">
                <p>"MIT or Apache-2.0, whichever you like. The typeface is under the SIL Open Font License 1.1."</p>
            </Fold>
        </Page>
    }
}

/// A row of a source and what the engine made of it.
type Checked = (Row, Outcome);

/// The published values, asked of the same functions that the screens use.
#[component]
fn Check() -> impl IntoView {
    let checked = RwSignal::new(Vec::<Checked>::new());
    let problem = RwSignal::new(None::<Complaint>);
    let run = move |()| {
        problem.set(None);
        spawn_local(async move {
            match check_all().await {
                Ok(rows) => checked.set(rows),
                Err(why) => problem.set(Some(Complaint {
                    problem: why,
                    hint: "Open the app once with a network, then try again.".to_owned(),
                })),
            }
        });
    };
    let held = move || checked.read().iter().filter(|(_, outcome)| holds(outcome)).count();
    let total = move || checked.read().len();
    view! {
        <section class="stack">
            <h2>"Check this app against its sources"</h2>
            <p>
                "Values that handbooks and standards print, asked of the same functions that the screens use."
            </p>
            <Button on_press=run>"Check now"</Button>
            <ErrorText id="check-problem" complaint=problem />
            <div role="status">
                {move || {
                    (total() > 0)
                        .then(|| {
                            let state =
                                if held() == total() { State::Within } else { State::Over };
                            view! {
                                <StateMark
                                    state
                                    word=format!("{} of {} values hold", held(), total())
                                />
                            }
                        })
                }}
            </div>
            {move || by_topic(&checked.read())
                .into_iter()
                .map(|(topic, rows)| view! { <Topic topic rows /> })
                .collect_view()}
        </section>
    }
}

async fn check_all() -> Result<Vec<Checked>, String> {
    let mut checked = Vec::new();
    for name in FILES {
        let text = files::own(&format!("reference/{name}")).await?;
        let rows = reference::rows(&text)
            .ok_or_else(|| format!("The file {name} has other columns than it should."))?;
        for row in rows {
            let row = row?;
            let outcome = reference::check(&row);
            checked.push((row, outcome));
        }
    }
    Ok(checked)
}

fn holds(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Holds(_))
}

/// Topics by name; one that does not hold comes first.
fn by_topic(checked: &[Checked]) -> Vec<(String, Vec<Checked>)> {
    let mut topics = BTreeMap::<&str, Vec<Checked>>::new();
    for one in checked {
        topics.entry(&one.0.topic).or_default().push(one.clone());
    }
    let mut topics: Vec<_> =
        topics.into_iter().map(|(topic, rows)| (topic.replace('_', " "), rows)).collect();
    topics.sort_by_key(|(_, rows)| rows.iter().all(|(_, outcome)| holds(outcome)));
    topics
}

#[component]
fn Topic(topic: String, rows: Vec<Checked>) -> impl IntoView {
    let held = rows.iter().filter(|(_, outcome)| holds(outcome)).count();
    let title = format!("{topic}: {held} of {}", rows.len());
    view! {
        <Fold title>
            {rows.into_iter().map(|(row, outcome)| checked_row(row, outcome)).collect_view()}
        </Fold>
    }
}

fn checked_row(row: Row, outcome: Outcome) -> impl IntoView {
    let (state, word, got) = match outcome {
        Outcome::Holds(got) => (State::Within, "holds", format!("{got} {}", row.unit)),
        Outcome::Off(got) => (State::Over, "is off", format!("{got} {}", row.unit)),
        Outcome::Refused(why) => (State::Over, "cannot be asked", why),
    };
    let asked = row.inputs.replace(';', ", ").replace('=', " = ").replace('_', " ");
    let expected = format!("{} {}", row.expected, row.unit);
    view! {
        <div class="checked">
            <StateMark state word=word.to_owned() />
            <p>{asked}</p>
            <p>"Source: " <b>{expected}</b> ". Here: " <b>{got}</b> "."</p>
            <p class="muted">{row.source}</p>
        </div>
    }
}

#[component]
fn Sources() -> impl IntoView {
    let rows = SOURCES
        .iter()
        .map(|source| {
            view! {
                <dt>{source.tag}</dt>
                <dd>{source.text} " (" {source.sureness.words()} ")"</dd>
            }
        })
        .collect_view();
    view! {
        <Fold title="Sources">
            <dl class="sources">{rows}</dl>
        </Fold>
    }
}

#[component]
fn Cautions() -> impl IntoView {
    view! {
        <Fold title="What these numbers are, and are not">
            <p>
                "They are where to begin. Cutting forces are known to about 40 per cent, the stiffness of a mill to a factor of two or three. Listen to the cut and look at the chips; they know more."
            </p>
            <p>
                "The app does not see your work, its clamping, loose clothes or a chuck key left in. A limit that is within says that this one cause is unlikely, and nothing about the others."
            </p>
            <p>
                "Set up with the phone; do not touch it while the spindle turns. Gloves off before the spindle turns."
            </p>
        </Fold>
    }
}
