//! The pattern to scale, as seen from above: X to the right, Y up, the datum as a cross, the way
//! from hole to hole as a line.

use core::fmt::Write;

use leptos::prelude::*;

use super::state::LayoutState;
use crate::{
    engine::{layout::Place, quantity::Length},
    shop::layout::laid::Laid,
};

/// Pixels: the longest side of what is drawn, and what is left around it.
const SIDE: f64 = 300.0;
const MARGIN: f64 = 28.0;
/// The smallest dot that is still seen.
const DOT: f64 = 4.0;
/// More holes than these are numbered only here and there.
const NUMBERED: usize = 24;

/// The picture on the page.
#[component]
pub fn Picture() -> impl IntoView {
    let state = LayoutState::get();
    let done = state.done();
    let drawn = Memo::new(move |_| {
        let at = state.form.read().at;
        state.laid().map(|laid| draw(&laid, &done.read(), at))
    });
    let is_drawn = Memo::new(move |_| drawn.read().is_some());
    let of = move |part: fn(&Drawn) -> String| {
        move || drawn.read().as_ref().map(part).unwrap_or_default()
    };
    move || {
        is_drawn.get().then(|| {
            view! {
                <figure class="layout-picture" data-testid="pattern">
                    <svg
                        class="picture"
                        viewBox=of(|drawn| drawn.view.clone())
                        role="img"
                        aria-label=of(|drawn| drawn.words.clone())
                        focusable="false"
                        inner_html=of(|drawn| drawn.strokes.clone())
                    ></svg>
                    <figcaption>
                        "Seen from above. 0° points along X, angles grow counter-clockwise."
                    </figcaption>
                </figure>
            }
        })
    }
}

/// A picture, ready for the browser.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    view: String,
    words: String,
    strokes: String,
}

/// Draws a pattern: what is done filled, the hole at hand ringed.
pub fn draw(laid: &Laid, done: &[u32], at: Option<u32>) -> Drawn {
    let corners = laid.part.iter().flatten();
    let radius = laid.hole.map_or(0.0, Length::to_mm) / 2.0;
    let mut low = (-radius, -radius);
    let mut high = (radius, radius);
    for place in laid.places.iter().chain(corners) {
        let (x, y) = (place.x.to_mm(), place.y.to_mm());
        low = (low.0.min(x - radius), low.1.min(y - radius));
        high = (high.0.max(x + radius), high.1.max(y + radius));
    }
    let (wide, tall) = (high.0 - low.0, high.1 - low.1);
    let scale = SIDE / wide.max(tall).max(1e-6);
    let at_pixel = |place: &Place| {
        (MARGIN + (place.x.to_mm() - low.0) * scale, MARGIN + (high.1 - place.y.to_mm()) * scale)
    };
    let mut strokes = String::with_capacity(laid.places.len() * 90 + 600);
    if let Some(corners) = &laid.part {
        let points = corners.iter().map(|place| {
            let (x, y) = at_pixel(place);
            format!("{x:.1},{y:.1}")
        });
        let points = points.collect::<Vec<_>>().join(" ");
        let _ = write!(strokes, r#"<polygon class="part" points="{points}"/>"#);
    }
    // The datum, with its two directions.
    let (x, y) = at_pixel(&Place::ORIGIN);
    let _ = write!(
        strokes,
        r#"<path class="datum" d="M{:.1} {y:.1}h34m-6-5 6 5-6 5M{x:.1} {:.1}v-34m-5 6 5-6 5 6"/><circle class="datum" cx="{x:.1}" cy="{y:.1}" r="7"/>"#,
        x - 12.0,
        y + 12.0,
    );
    let mut way = format!("M{x:.1} {y:.1}");
    for &hole in &laid.order {
        if let Some(place) = laid.places.get(hole) {
            let (x, y) = at_pixel(place);
            let _ = write!(way, "L{x:.1} {y:.1}");
        }
    }
    let _ = write!(strokes, r#"<path class="way" d="{way}"/>"#);
    let dot = (radius * scale).max(DOT);
    let each = laid.order.len().div_ceil(NUMBERED).max(1);
    for (n, &hole) in laid.order.iter().enumerate() {
        let Some(place) = laid.places.get(hole) else { continue };
        let (x, y) = at_pixel(place);
        let mut class = if done.contains(&(hole as u32)) { "spot done" } else { "spot" };
        if laid.outside.contains(&hole) || laid.meeting.contains(&hole) {
            class = "spot wrong";
        }
        let _ =
            write!(strokes, r#"<circle class="{class}" cx="{x:.1}" cy="{y:.1}" r="{dot:.1}"/>"#);
        let is_at = at == Some(n as u32 + 1);
        if is_at {
            let _ = write!(
                strokes,
                r#"<circle class="at-hand" cx="{x:.1}" cy="{y:.1}" r="{:.1}"/>"#,
                dot + 7.0
            );
        }
        if is_at || (at.is_none() && n % each == 0) {
            let _ = write!(
                strokes,
                r#"<text x="{:.1}" y="{:.1}">{}</text>"#,
                x + dot + 3.0,
                y - dot - 1.0,
                hole + 1
            );
        }
    }
    let words = format!(
        "{} places drawn to scale, seen from above, with the datum and the way from one to the next.",
        laid.places.len()
    );
    let view =
        format!("0 0 {:.0} {:.0}", wide * scale + 2.0 * MARGIN + 12.0, tall * scale + 2.0 * MARGIN);
    Drawn { view, words, strokes }
}
