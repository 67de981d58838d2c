//! The working of an answer: every figure with its formula, what was put in, and its source.

use leptos::prelude::*;

use crate::{
    engine::{
        answer::{Answer, Step},
        limits::threshold,
        quantity::System,
    },
    ui::words,
};

/// The working, from the question to the answer and then limit by limit.
#[must_use]
pub fn working(answer: &Answer, system: System) -> AnyView {
    let steps = |steps: &[Step]| steps.iter().map(|step| working_step(step, system)).collect_view();
    let limits = answer
        .limits
        .iter()
        .map(|reading| {
            let row = threshold::row(reading.limit);
            view! {
                <h3>{words::limit(reading.limit)}</h3>
                {steps(&reading.working)}
                <p class="muted">
                    "Compared: " {row.compared} " (" {row.formula} "). Thresholds: "
                    {row.thresholds} ". " {words::sources(reading.sources)}
                </p>
            }
        })
        .collect_view();
    view! {
        <h3>"From the question to the answer"</h3>
        {steps(&answer.working)}
        {limits}
    }
    .into_any()
}

fn working_step(step: &Step, system: System) -> impl IntoView + use<> {
    let inputs: Vec<String> = step
        .inputs
        .iter()
        .map(|(symbol, value)| format!("{symbol} = {}", value.shown(system)))
        .collect();
    let source = if step.sources.is_empty() { String::new() } else { words::sources(step.sources) };
    view! {
        <div class="working-step">
            <p>
                <b>{step.what} ": " {step.result.shown(system).to_string()}</b>
                {step.yours.then_some(" (your figure)")}
            </p>
            <p class="formula">{step.formula}</p>
            <p>{inputs.join(", ")}</p>
            <p class="muted">{source}</p>
        </div>
    }
}
