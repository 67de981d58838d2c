//! After a cut: how it was, and what such notes come to.

use leptos::prelude::*;

use super::state::{CutState, Outcome};
use crate::{
    browser::clock,
    engine::{
        experience::{Experience, Felt, LEAST},
        quantity::rounding::fixed,
        question::Field,
    },
    shop::word::Word,
    ui::{
        components::{Button, Fold, GoTo, Rank, Toggle},
        words,
    },
};

/// What the notes come to for this cut, and whether they count.
#[component]
pub fn Experienced() -> impl IntoView {
    let state = CutState::get();
    let experience =
        Memo::new(move |_| state.app.document.read().log.experience(&state.settled.read()));
    let is_some = Memo::new(move |_| !experience.read().is_none());
    move || {
        is_some.get().then(|| {
            view! {
                <section class="stack" aria-label="Your own factor" data-testid="experience">
                    <Toggle
                        label=Signal::derive(move || factors(experience.get()))
                        on=Signal::derive(move || state.form.read().heeds_notes)
                        on_change=move |on| {
                            state.change(Field::Style, |form| form.heeds_notes = on);
                        }
                        said=("counts", "does not count")
                    />
                </section>
            }
        })
    }
}

/// "Your own factor 0.80 on the speed, from 6 cuts".
fn factors(own: Experience) -> String {
    let named = [(own.speed, "the speed"), (own.feed, "the feed")];
    let said: Vec<String> = named
        .iter()
        .filter(|(factor, _)| (factor - 1.0).abs() > 0.004)
        .map(|(factor, of)| format!("{} on {of}", fixed(*factor, 2)))
        .collect();
    format!("Your own factor {}, from {} cuts", said.join(" and "), own.cuts)
}

/// Notes how the cut was.
#[component]
pub fn Afterwards() -> impl IntoView {
    let state = CutState::get();
    let app = state.app;
    let is_answered = Memo::new(move |_| matches!(*state.shown.read(), Outcome::Done(_)));
    let note = move |felt: Felt| {
        let form = state.form.get_untracked();
        app.change(|document| {
            let log = &mut document.log;
            let with = if form.heeds_notes { log.experience(&form) } else { Experience::NONE };
            log.note(clock::now(), &form, felt, with);
            document.count_change();
        });
    };
    let counted = move || {
        let document = app.document.read();
        let form = state.settled.read();
        let count = document.log.count(&form);
        match (count, document.log.wanting(&form)) {
            (0, _) => format!(
                "Noted with this mill, stock and cutter. From {LEAST} notes on they count for the next cut of the kind."
            ),
            (1, wanting) => format!("One noted; {wanting} more and they count."),
            (count, 0) => format!("{count} noted."),
            (count, wanting) => format!("{count} noted; {wanting} more and they count."),
        }
    };
    let last = move || {
        let document = app.document.read();
        let of_this = document.log.notes().first()?;
        (of_this.link == state.settled.read().to_query()).then_some(of_this.felt)
    };
    let last = Memo::new(move |_| last());
    move || {
        is_answered.get().then(|| {
            let buttons = Felt::ALL.iter().map(move |&felt| {
                view! {
                    <Button rank=Rank::Secondary on_press=move |()| note(felt)>
                        {words::felt(felt)}
                    </Button>
                }
            });
            view! {
                <Fold title="After the cut: how was it?">
                    <div class="doors">{buttons.collect_view()}</div>
                    <p aria-live="polite" data-testid="noted">
                        {move || {
                            last.get().map(|felt| format!("Noted last: {}. ", words::felt(felt)))
                        }}
                        {counted}
                    </p>
                    <GoTo to="shop?notes" class="button quiet" {..} data-touch="a">
                        "All notes"
                    </GoTo>
                </Fold>
            }
        })
    }
}
