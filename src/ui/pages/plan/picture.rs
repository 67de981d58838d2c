//! An order as bars on a line of time: the person, and each mill.

use core::fmt::Write;

use leptos::prelude::*;

use crate::{
    engine::plan::timetable::{Doing, Timetable},
    ui::words::plan::span,
};

/// Units along the line.
const ALONG: f64 = 1000.0;

/// The bars of a row, one path for each look.
#[derive(Default)]
struct Row {
    hollow: String,
    solid: String,
    half: String,
    line: String,
}

/// The picture. What goes on is told by shape: hollow sets up, solid cuts, half loads, a line
/// walks.
#[must_use]
pub fn bars(timetable: &Timetable, mills: &[String]) -> AnyView {
    let total = timetable.figures.total.to_second();
    let mut rows: Vec<Row> = (0..=mills.len()).map(|_| Row::default()).collect();
    if total > 0.0 {
        for part in &timetable.spans {
            let begin = part.begin.to_second() / total * ALONG;
            let wide = part.lasts.to_second() / total * ALONG;
            let own = part.mill + 1;
            let on: &[usize] = match part.doing {
                Doing::Walk | Doing::Check => &[0],
                _ => &[0, own],
            };
            for row in on {
                let Some(row) = rows.get_mut(*row) else { continue };
                let (path, top, high) = match part.doing {
                    Doing::SetUp => (&mut row.hollow, 3, 22),
                    Doing::Cut | Doing::Check => (&mut row.solid, 2, 24),
                    Doing::Handle => (&mut row.half, 14, 12),
                    Doing::Walk => (&mut row.line, 12, 4),
                };
                // Writing to a text cannot fail.
                let _ = write!(path, "M{begin:.1} {top}h{wide:.1}v{high}h-{wide:.1}z");
            }
        }
    }
    let names = core::iter::once("You").chain(mills.iter().map(String::as_str));
    let drawn: Vec<AnyView> = names
        .zip(rows)
        .filter(|(_, row)| !(row.hollow.is_empty() && row.solid.is_empty() && row.half.is_empty()))
        .map(|(name, row)| bar(name.to_owned(), row))
        .collect();
    view! {
        <div class="plan-bars">
            {drawn}
            <div class="plan-scale" aria-hidden="true">
                <span>"0"</span>
                <span>{span(timetable.figures.total)}</span>
            </div>
        </div>
    }
    .into_any()
}

fn bar(name: String, row: Row) -> AnyView {
    view! {
        <div class="plan-row">
            <span class="plan-who">{name}</span>
            <svg
                class="plan-bar"
                viewBox="0 0 1000 28"
                preserveAspectRatio="none"
                aria-hidden="true"
                focusable="false"
            >
                <path class="base" d="M0 27h1000" />
                <path class="hollow" d=row.hollow />
                <path class="solid" d=row.solid />
                <path class="half" d=row.half />
                <path class="solid" d=row.line />
            </svg>
        </div>
    }
    .into_any()
}
