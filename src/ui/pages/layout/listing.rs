//! Every hole in both units, along the way. Two hundred of them are written at once, as one text.

use core::fmt::Write;

use leptos::prelude::*;

use super::state::LayoutState;
use crate::{
    engine::{
        layout::Place,
        quantity::{Length, System, rounding},
    },
    shop::layout::laid::Laid,
};

/// The list.
#[component]
pub fn Listing() -> impl IntoView {
    let state = LayoutState::get();
    let done = state.done();
    let is_laid = Memo::new(move |_| state.laid().is_some());
    let rows = move || {
        let laid = state.laid();
        laid.map(|laid| rows(&laid, &done.read(), state.step.get())).unwrap_or_default()
    };
    move || {
        is_laid.get().then(|| {
            view! {
                <section class="stack reasons">
                    <h2>"Where to go, in order"</h2>
                    <table class="places" data-testid="places">
                        <thead>
                            <tr>
                                <th scope="col">"Nr"</th>
                                <th scope="col">"X in"</th>
                                <th scope="col">"Y in"</th>
                                <th scope="col">"X mm"</th>
                                <th scope="col">"Y mm"</th>
                            </tr>
                        </thead>
                        <tbody inner_html=rows></tbody>
                    </table>
                    <p class="muted">{move || said(state)}</p>
                </section>
            }
        })
    }
}

fn said(state: LayoutState) -> String {
    let what = if state.step.get().is_some() {
        "At the nearest steps of your readout"
    } else {
        "Not rounded"
    };
    let Some(laid) = state.laid() else { return String::new() };
    let show = |length| rounding::length(length, state.system.get()).to_string();
    let (x, y) = laid.table;
    format!(
        "{what}. X to the right, Y away from you. The table travels {} in X and {} in Y.",
        show(x),
        show(y)
    )
}

/// The rows as the browser reads them.
pub fn rows(laid: &Laid, done: &[u32], step: Option<Length>) -> String {
    let mut rows = String::with_capacity(laid.order.len() * 110);
    for &hole in &laid.order {
        let Some(place) = laid.places.get(hole) else { continue };
        let place = at_steps(*place, step);
        let tick = if done.contains(&(hole as u32)) { " ✓" } else { "" };
        let _ = write!(rows, r#"<tr><th scope="row">{}{tick}</th>"#, hole + 1);
        for system in [System::Inch, System::Metric] {
            for length in [place.x, place.y] {
                let _ = write!(rows, "<td>{}</td>", rounding::length(length, system).digits);
            }
        }
        rows.push_str("</tr>");
    }
    rows
}

/// The list as a text.
pub fn as_text(state: LayoutState, laid: &Laid) -> String {
    let step = state.step.get_untracked();
    let mut text = String::from("Nr\tX in\tY in\tX mm\tY mm\n");
    for &hole in &laid.order {
        let Some(place) = laid.places.get(hole) else { continue };
        let place = at_steps(*place, step);
        let digits = |length, system| rounding::length(length, system).digits;
        let _ = writeln!(
            text,
            "{}\t{}\t{}\t{}\t{}",
            hole + 1,
            digits(place.x, System::Inch),
            digits(place.y, System::Inch),
            digits(place.x, System::Metric),
            digits(place.y, System::Metric),
        );
    }
    text
}

fn at_steps(place: Place, step: Option<Length>) -> Place {
    step.and_then(|step| place.at_steps(step).ok()).unwrap_or(place)
}
