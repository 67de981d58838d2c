//! The number line: the value between its neighbours among fractions and drills.

use core::fmt::Write as _;

use leptos::prelude::*;

use super::state::ConvertState;
use crate::engine::{
    convert::{drill, fraction},
    quantity::{Length, System},
};

const WIDTH: f64 = 360.0;
/// Room at both ends, for half a label.
const MARGIN: f64 = 52.0;
const LINE: f64 = 84.0;
/// A drill further than this, in inches, is no neighbour: it would push all else together.
const FAR: f64 = 0.05;

/// A mark on the line.
#[derive(Clone, Debug, PartialEq)]
struct Mark {
    /// In inches.
    at: f64,
    name: String,
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
struct Drawing {
    value: f64,
    /// Graduated in millimetres.
    metric: bool,
    /// Fractions, above the line.
    fractions: Vec<Mark>,
    /// Drills, below it.
    drills: Vec<Mark>,
}

impl Drawing {
    fn of(state: ConvertState) -> Option<Self> {
        let inches = state.inches()?;
        let value = inches.to_f64();
        let around = fraction::around(inches, 64)?;
        let mut fractions: Vec<Mark> = around
            .iter()
            .map(|near| Mark { at: near.inches.to_f64(), name: near.inches.as_mixed() })
            .collect();
        fractions.dedup();
        let drills = drill::around(Length::inch(value), None);
        let beside = [drills.below, drills.above].into_iter().flatten().map(|near| near.drill);
        let drills = drills
            .exact
            .into_iter()
            .chain(beside)
            .map(|drill| Mark { at: drill.diameter().to_inch(), name: drill.short_name() })
            .filter(|mark| (mark.at - value).abs() < FAR)
            .collect();
        let metric = state.form.read().line.system == System::Metric;
        Some(Self { value, metric, fractions, drills })
    }

    /// Where a size lies across the picture.
    fn place(&self) -> impl Fn(f64) -> f64 + use<> {
        let all = || self.fractions.iter().chain(&self.drills).map(|mark| mark.at);
        let low = all().fold(self.value, f64::min);
        let high = all().fold(self.value, f64::max);
        let wide = if high > low { high - low } else { 1.0 };
        let middle = (low + high) / 2.0;
        move |at| WIDTH / 2.0 + (at - middle) / wide * (WIDTH - 2.0 * MARGIN)
    }
}

/// Labels of one row, pushed apart where they would meet, all of them inside the picture.
fn spread(places: &[f64]) -> Vec<f64> {
    const APART: f64 = 92.0;
    const HALF: f64 = 40.0;
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by(|a, b| places[*a].total_cmp(&places[*b]));
    let mut spread = places.to_vec();
    let mut least = HALF;
    for &one in &order {
        spread[one] = spread[one].max(least);
        least = spread[one] + APART;
    }
    let mut most = WIDTH - HALF;
    for &one in order.iter().rev() {
        spread[one] = spread[one].min(most);
        most = spread[one] - APART;
    }
    spread
}

/// The picture, with its words for those who do not see it.
#[component]
pub fn NumberLine(state: ConvertState) -> impl IntoView {
    let drawing = Memo::new(move |_| Drawing::of(state));
    let words = move || {
        drawing.get().map_or_else(
            || "An empty number line.".to_owned(),
            |drawing| {
                let names = |marks: &[Mark]| {
                    marks.iter().map(|mark| mark.name.clone()).collect::<Vec<_>>().join(" and ")
                };
                format!(
                    "On a number line, among the fractions {} and the drills {}.",
                    names(&drawing.fractions),
                    names(&drawing.drills)
                )
            },
        )
    };
    view! {
        // A frame of its own: a drawing alone gives way where a pane is low.
        <div>
        <svg
            class="number-line picture"
            viewBox="0 0 360 170"
            role="img"
            aria-label=words
            aria-hidden=move || drawing.read().is_none().to_string()
        >
            {move || drawing.read().as_ref().map(draw)}
        </svg>
        </div>
    }
}

/// The engraved marks of the line: thousandths of an inch, or fiftieths of a millimetre, each fifth
/// one longer.
fn graduation(drawing: &Drawing, place: &impl Fn(f64) -> f64) -> String {
    let step = if drawing.metric { 0.02 / 25.4 } else { 0.001 };
    let wide = place(step) - place(0.0);
    if wide < 4.0 {
        return String::new();
    }
    let mut path = String::new();
    // The first mark right of the left end, counted from nothing, as on a rule.
    let first = libm::ceil(drawing.value / step - (place(drawing.value) - 8.0) / wide);
    let mut count = first;
    while place(count * step) <= WIDTH - 8.0 {
        let long = libm::fmod(count, 5.0) == 0.0;
        let height = if long { 12.0 } else { 7.0 };
        let _ = write!(path, "M{:.1} {LINE}v-{height}", place(count * step));
        count += 1.0;
    }
    path
}

fn draw(drawing: &Drawing) -> impl IntoView + use<> {
    let place = drawing.place();
    let row = |marks: &[Mark], above: bool| {
        let at: Vec<f64> = marks.iter().map(|mark| place(mark.at)).collect();
        let (tick, label) =
            if above { (LINE - 26.0, LINE - 38.0) } else { (LINE + 22.0, LINE + 42.0) };
        at.iter()
            .zip(spread(&at))
            .zip(marks)
            .map(|((&x, label_x), mark)| {
                view! {
                    <path class="size" d=format!("M{x:.1} {LINE}V{tick}") />
                    <text x=format!("{label_x:.1}") y=label text-anchor="middle">
                        {mark.name.clone()}
                    </text>
                }
            })
            .collect_view()
    };
    let x = place(drawing.value);
    let graduation = graduation(drawing, &place);
    view! {
        <path class="axis-line" d=format!("M8 {LINE}H352") />
        <path class="graduation" d=graduation />
        {row(&drawing.fractions, true)}
        {row(&drawing.drills, false)}
        <path class="pointer" d=format!("M{x:.1} {}l-9 18h18z", LINE + 2.0) />
        <text class="row-name" x="8" y="18">"fractions"</text>
        <text class="row-name" x="8" y="162">"drills"</text>
    }
}
