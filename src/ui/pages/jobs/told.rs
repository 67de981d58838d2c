//! A step of a job in one line: what its screen would say, and whose figures that rests on.

use std::collections::BTreeSet;

use crate::{
    engine::{
        answer::Verdict,
        holes::recipe::Work,
        limits,
        quantity::{Duration, System, rounding},
    },
    shop::{
        cuts::CutForm,
        document::Document,
        holes::{
            HoleForm,
            making::{machine_of, make},
        },
        recent::page_of,
    },
    ui::{pages::cut::figures, words},
};

/// What a step comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// The numbers to set, in a line.
    pub line: String,
    /// Tags of the sources.
    pub sources: BTreeSet<&'static str>,
    /// Id of the mill.
    pub mill: String,
    /// Time under feed, where it is known.
    pub time: Option<Duration>,
}

/// What the screen at an address says now, where it says numbers.
#[must_use]
pub fn told(to: &str, document: &Document) -> Option<Told> {
    let system = document.settings.system;
    let (_, query) = to.split_once('?')?;
    match page_of(to) {
        "cut" => cut(query, document, system),
        "threads" if query.split('&').any(|part| part == "recipe") => hole(query, document, system),
        _ => None,
    }
}

fn cut(query: &str, document: &Document, system: System) -> Option<Told> {
    let (form, _) = CutForm::from_query(query);
    let own = document.machine_called(&form.mill.machine)?;
    let machine = own.form.read().ok()?;
    let question = document.ask(&form, &machine).ok()?;
    let answer = limits::answer(&question.mill, &question.cut).ok()?;
    let mut parts = vec![rounding::spindle_speed(answer.speed.set).to_string()];
    if answer.verdict == Verdict::DoNotCut {
        parts = vec![words::verdict(Verdict::DoNotCut).to_owned()];
    } else {
        parts.push(figures::line(&answer, system));
    }
    parts.retain(|part| !part.is_empty());
    let read_off = answer.limits.iter().map(|reading| reading.sources);
    let worked = answer.working.iter().map(|step| step.sources);
    Some(Told {
        line: format!("{}: {}", own.form.name, parts.join(", ")),
        sources: tags(read_off.chain(worked)),
        mill: own.id.clone(),
        time: answer.time,
    })
}

fn hole(query: &str, document: &Document, system: System) -> Option<Told> {
    let (form, _) = HoleForm::from_query(query);
    let recipe = make(&form, document).ok()?.recipe;
    let drill = recipe.steps.iter().find(|step| step.work == Work::Drill)?;
    let mut parts = vec![words::holes::tool(&drill.tool, system)];
    if let Some(answer) = &drill.answer {
        parts.push(rounding::spindle_speed(answer.speed.set).to_string());
    }
    parts.push(format!("tip to {}", rounding::length(drill.tip, system)));
    parts.push(format!("{} steps", recipe.steps.len()));
    Some(Told {
        line: parts.join(", "),
        sources: recipe.sources.into_iter().collect(),
        mill: machine_of(&form, document).map(|own| own.id.clone()).unwrap_or_default(),
        time: Some(recipe.time),
    })
}

fn tags(lists: impl Iterator<Item = &'static str>) -> BTreeSet<&'static str> {
    lists.flat_map(|list| list.split([' ', ',', ';'])).filter(|tag| !tag.is_empty()).collect()
}
