//! The run sheet: pieces by operations, what is next, and when it will be done.

use core::time::Duration as Wait;
use std::sync::Arc;

use leptos::prelude::*;

use crate::{
    browser::clock,
    engine::plan::{
        progress::{Progress, Step},
        timetable::Doing,
    },
    shop::plan::{Followed, RunSheet},
    ui::{
        components::{AskTwice, Button, GoTo, Page, Rank, Split, press::Press},
        sketch::Sketch,
        state::App,
        words::plan::span,
    },
};

/// So often the time that is left is read off again.
const EVERY: Wait = Wait::from_secs(5);

/// The run, the steps of it, and the clock.
#[derive(Clone, Copy)]
struct State {
    app: App,
    followed: Memo<Option<Arc<Followed>>>,
    now: RwSignal<i64>,
}

impl State {
    fn progress(self) -> Option<Progress> {
        let followed = self.followed.get()?;
        let document = self.app.document.read();
        Some(document.plans.run.as_ref()?.progress(&followed.steps, self.now.get()))
    }

    fn step(self, place: usize) -> Option<Step> {
        self.followed.read().as_ref()?.steps.get(place).copied()
    }

    fn names(self, step: &Step) -> (String, String) {
        let document = self.app.document.read();
        let Some(run) = &document.plans.run else { return Default::default() };
        let operation =
            run.form.operations.get(step.operation).map(|form| form.title(step.operation));
        (operation.unwrap_or_default(), run.mills.get(step.mill).cloned().unwrap_or_default())
    }

    /// A step in words.
    fn told(self, step: &Step) -> String {
        let (operation, mill) = self.names(step);
        match step.doing {
            Doing::SetUp => format!("Set up {operation} on the {mill}"),
            Doing::Check => format!("Check piece {}", step.piece + 1),
            _ => format!("Piece {}: {operation} on the {mill}", step.piece + 1),
        }
    }

    fn tick(self, place: usize, on: bool) {
        let now = clock::seconds();
        self.now.set(now);
        self.app.change(|document| {
            if let Some(run) = &mut document.plans.run {
                run.tick(place, on, now);
            }
        });
    }
}

/// The page.
#[component]
pub fn RunPage() -> impl IntoView {
    let app = App::get();
    // The steps stay as they are while the ticks change.
    let plan = app.part(|document| {
        document.plans.run.as_ref().map(|run| (run.form.clone(), run.mills.clone(), run.began))
    });
    let followed = Memo::new(move |_| {
        let _plan = plan.read();
        let document = app.document.read_untracked();
        document.plans.run.as_ref().and_then(RunSheet::follow).map(Arc::new)
    });
    let state = State { app, followed, now: RwSignal::new(clock::seconds()) };
    if let Ok(timer) = set_interval_with_handle(move || state.now.set(clock::seconds()), EVERY) {
        on_cleanup(move || timer.clear());
    }
    let next = Memo::new(move |_| state.progress().and_then(|progress| progress.next));
    let bar = move || {
        move || {
            next.get().and_then(|place| {
                let step = state.step(place)?;
                let done = format!("Done: {}", state.told(&step));
                Some(view! { <Button on_press=move |()| state.tick(place, true)>{done}</Button> })
            })
        }
    };
    let title = app.part(|document| {
        let name = document.plans.run.as_ref().map_or("", |run| run.form.name.trim());
        if name.is_empty() { "Run sheet".to_owned() } else { format!("Run sheet: {name}") }
    });
    view! {
        <Page title back_to="plan" bar=bar>
            {move || {
                if followed.read().is_some() {
                    sheet(state, next)
                } else {
                    view! {
                        <p>"No run is under way. A plan begins one."</p>
                        <GoTo to="plan" class=Rank::Primary.class() {..} data-touch="c">
                            "To the plan"
                        </GoTo>
                    }
                        .into_any()
                }
            }}
        </Page>
    }
}

fn sheet(state: State, next: Memo<Option<usize>>) -> AnyView {
    let told = move || {
        next.get()
            .and_then(|place| state.step(place))
            .map_or_else(|| "Every piece is done.".to_owned(), |step| state.told(&step))
    };
    let after = move || {
        let following = next.get().and_then(|place| state.step(place + 1));
        following.map(|step| format!("Then: {}.", state.told(&step)))
    };
    let left = move || {
        state.progress().map(|progress| {
            if progress.next.is_none() {
                return format!("It took {}.", span(progress.gone));
            }
            let at = clock::time_after(progress.left.to_second());
            format!("{} left: done at {at}. {} gone.", span(progress.left), span(progress.gone))
        })
    };
    let carry = move || {
        let step = state.step(next.get()?)?;
        let (_, mill) = state.names(&step);
        let walk = step.walk.to_second() > 0.0;
        walk.then(|| format!("Carry the work to the {mill}."))
    };
    let undo = move || {
        let document = state.app.document.read();
        let last = document.plans.run.as_ref()?.last_tick()?;
        let step = state.step(last)?;
        drop(document);
        let says = format!("Undo: {}", state.told(&step));
        Some(view! {
            <Button rank=Rank::Secondary on_press=move |()| state.tick(last, false)>
                {says}
            </Button>
        })
    };
    let go = state.app.way();
    let close = move |()| {
        state.app.remove(
            "The run sheet".to_owned(),
            |document| document.plans.run.take(),
            |document, run| document.plans.run = Some(run),
        );
        go("plan");
    };
    let now = move || {
        view! {
            <section class="stack" aria-live="polite" data-testid="next">
                <p class="run-next">{told}</p>
                <p class="run-carry">{carry}</p>
                <p class="muted">{after}</p>
                <p class="run-left" data-testid="left">{left}</p>
                <p class="muted no-print">"Tick with the spindle stopped."</p>
            </section>
        }
    };
    view! {
        <Split names=("What is next", "Pieces") answer=now>
            {grid(state, next)}
            <div class="no-print">{undo}</div>
            {measured(state)}
            <AskTwice
                ask="Close the run sheet"
                sentence="Its ticks and its measured times will be gone."
                act="Close it"
                on_act=close
            />
        </Split>
    }
    .into_any()
}

/// Pieces by operations, each place a tick.
fn grid(state: State, next: Memo<Option<usize>>) -> AnyView {
    let Some(followed) = state.followed.get_untracked() else { return ().into_any() };
    let operations = followed.batch.operations.len();
    // The way through the operations, as the first piece goes it.
    let route: Vec<usize> = followed
        .steps
        .iter()
        .filter(|step| step.doing == Doing::Cut && step.piece == 0)
        .map(|step| step.operation)
        .collect();
    let mut places = vec![0; operations * followed.batch.pieces as usize];
    for (place, step) in followed.steps.iter().enumerate() {
        if step.doing == Doing::Cut {
            places[step.piece as usize * operations + step.operation] = place;
        }
    }
    let heads = route
        .iter()
        .map(|operation| {
            let name = followed.batch.operations[*operation].name.clone();
            view! { <th scope="col">{name}</th> }
        })
        .collect_view();
    // A set-up or a check leads to the piece after it.
    let next = Memo::new(move |_| {
        let (from, followed) = (next.get()?, state.followed.get()?);
        let mut steps = followed.steps.iter().enumerate().skip(from);
        steps.find(|(_, step)| step.doing == Doing::Cut).map(|(place, _)| place)
    });
    let ticked = Memo::new(move |_| {
        let document = state.app.document.read();
        let run = document.plans.run.as_ref();
        let steps = state.followed.read().as_ref().map_or(0, |followed| followed.steps.len());
        (0..steps).map(|place| run.is_some_and(|run| run.is_ticked(place))).collect::<Vec<_>>()
    });
    let rows = (0..followed.batch.pieces)
        .map(|piece| {
            let cells = route
                .iter()
                .map(|operation| {
                    let place = places[piece as usize * operations + operation];
                    let name = &followed.batch.operations[*operation].name;
                    let label = format!("Piece {}, {name}", piece + 1);
                    view! { <td>{tick(state, place, label, ticked, next)}</td> }
                })
                .collect_view();
            view! {
                <tr>
                    <th scope="row">{piece + 1}</th>
                    {cells}
                </tr>
            }
        })
        .collect_view();
    view! {
        <div class="run-wide" tabindex="0" role="region" aria-label="Pieces and operations">
            <table class="run-grid">
                <thead>
                    <tr>
                        <th scope="col">"Piece"</th>
                        {heads}
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
    .into_any()
}

fn tick(
    state: State,
    place: usize,
    label: String,
    ticked: Memo<Vec<bool>>,
    next: Memo<Option<usize>>,
) -> AnyView {
    let press = Press::commit();
    let on = Memo::new(move |_| ticked.read().get(place).copied().unwrap_or(false));
    let is_next = Memo::new(move |_| next.get() == Some(place));
    let sign = move || on.get().then(|| Sketch::Tick.draw_small());
    let word = move || if is_next.get() { "next" } else { "" };
    view! {
        <button
            type="button"
            class="run-cell"
            class:next=is_next
            data-touch="c"
            aria-pressed=move || on.get().to_string()
            aria-label=label
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    state.tick(place, !on.get_untracked());
                }
            }
        >
            {sign}
            {word}
        </button>
    }
    .into_any()
}

/// What the pieces have really taken.
fn measured(state: State) -> AnyView {
    let lines = move || {
        let (progress, followed) = (state.progress()?, state.followed.get()?);
        let line = |(place, operation): (usize, &crate::engine::plan::Operation)| {
            let guess = span(operation.each());
            match progress.measured[place] {
                Some(measured) => format!(
                    "{}: {} a piece, measured on {} (planned {guess})",
                    operation.name,
                    span(measured),
                    progress.counted[place]
                ),
                None => format!("{}: {guess} a piece, as planned", operation.name),
            }
        };
        let lines = followed.batch.operations.iter().enumerate().map(line);
        Some(lines.map(|line| view! { <li>{line}</li> }).collect_view())
    };
    view! {
        <section class="stack" aria-label="Times" data-testid="measured">
            <h2>"Times"</h2>
            <ul class="points">{lines}</ul>
        </section>
    }
    .into_any()
}
