//! `/emergency`: what to do first, without a network, and whom to call.

use leptos::prelude::*;

use crate::ui::{
    components::{Page, TextField},
    sketch::Sketch,
    state::App,
};

/// What to do, in order, in general words; nothing of it is treatment.
const STEPS: [(&str, &str); 5] = [
    ("Stop", "Press the stop control."),
    (
        "Isolate",
        "Power off at the wall. Do not pull a caught hand or sleeve: with the power off, turn the spindle back by hand.",
    ),
    ("Call", "Call for help, and say where you are. Send somebody to the door."),
    ("Press", "Press on a wound that bleeds, with a clean cloth, and keep pressing."),
    (
        "Rinse",
        "Something in the eye: do not rub. Rinse with clean water for 15 minutes. A chip in the eye needs a doctor.",
    ),
];

/// The page.
#[component]
pub fn Emergency() -> impl IntoView {
    let app = App::get();
    let call = app.part(|document| document.checks.call.clone());
    let number = app.part(|document| document.checks.number());
    let steps = STEPS
        .into_iter()
        .map(|(name, words)| {
            view! {
                <li>
                    <b class="emergency-word">{name}</b>
                    <span>{words}</span>
                </li>
            }
        })
        .collect_view();
    let button = move || {
        let number = number.get();
        (!number.is_empty()).then(|| {
            view! {
                <a class="button primary" href=format!("tel:{number}") data-touch="c">
                    {Sketch::StopButton.draw_small()}
                    "Call " {call.get()}
                </a>
            }
        })
    };
    view! {
        <Page title="Emergency" help=false>
            {button}
            <ol class="emergency">{steps}</ol>
            <section class="stack" aria-label="Fire of metal chips">
                <h2>"Burning magnesium or titanium"</h2>
                <p>
                    "Dry sand or a class D extinguisher. No water, no foam, no CO2. More than a handful: get out, close the door, call."
                </p>
            </section>
            <TextField
                label="Number to call here"
                value=call
                on_change=move |text: String| app.change(|document| document.checks.call = text)
                placeholder="the number of your country"
            />
            <p class="muted">
                "Stop, isolate, call, press, rinse: leave all further treatment to those who have learned it. This card takes no place of first-aid training, and no medical person has checked it."
            </p>
        </Page>
    }
}
