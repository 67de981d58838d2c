//! What to measure on a thread, drawn: where the jaws, the gauge or the rule go.

use core::fmt::Write;

use leptos::prelude::*;

/// Width of the picture, and of the screw in it.
const WIDTH: f64 = 306.0;
const SCREW: f64 = 200.0;

/// A measurement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measuring {
    /// A caliper over the crests of a screw.
    OverCrests,
    /// A caliper between the ridges of a hole.
    BetweenRidges,
    /// A leaf of a pitch gauge laid in the thread.
    PitchGauge,
    /// Gaps between crests counted over a length.
    OverLength,
    /// The same diameter at two places of a screw, and a smaller one at the end of another.
    Taper,
}

/// The picture.
#[component]
pub fn MeasuringPicture(
    /// What is measured.
    #[prop(into)]
    of: Signal<Measuring>,
    /// The same in words.
    words: &'static str,
) -> impl IntoView {
    view! {
        <figure class="thread-picture measuring">
            <svg
                class="picture"
                viewBox=move || format!("0 0 {WIDTH} {}", of.get().height())
                aria-hidden="true"
                focusable="false"
                inner_html=move || of.get().strokes()
            ></svg>
            <figcaption>{words}</figcaption>
        </figure>
    }
}

impl Measuring {
    fn height(self) -> u32 {
        match self {
            Self::PitchGauge => 96,
            Self::OverLength => 92,
            _ => 120,
        }
    }

    fn strokes(self) -> String {
        match self {
            Self::OverCrests => {
                screw(0.0, SCREW, 20.0, [30.0, 30.0])
                    + &path("jaw", "M84 8H302V112H84V92H266V28H84Z")
                    + &arrows((236.0, 30.0), (236.0, 90.0))
            }
            Self::BetweenRidges => {
                let mut wall = String::new();
                for (edge, root, crest) in [(2.0, 24.0, 40.0), (118.0, 96.0, 80.0)] {
                    let teeth = zigzag(0.0, SCREW, 20.0, (crest, crest), root - crest);
                    wall += &path("outline", &format!("M0 {edge}V{crest}{teeth}V{edge}Z"));
                }
                wall + &path("jaw", "M84 41H302V79H84V67H266V53H84Z")
                    + &arrows((236.0, 41.0), (236.0, 79.0))
            }
            Self::PitchGauge => {
                let lower = zigzag(0.0, SCREW, 25.0, (44.0, 44.0), 22.0);
                let upper = zigzag(0.0, SCREW, 25.0, (40.0, 40.0), 22.0);
                path("outline", &format!("M0 94V44{lower}V94Z"))
                    + &path("jaw", &format!("M0 40{upper}L302 40V8H0Z"))
                    + &text(214.0, 66.0, "no light")
            }
            Self::OverLength => {
                let teeth = zigzag(0.0, SCREW, 20.0, (22.0, 22.0), 18.0);
                let mut strokes = path("outline", &format!("M0 58V22{teeth}V58Z"));
                strokes += &arrows((20.0, 78.0), (180.0, 78.0));
                for x in [20.0, 180.0] {
                    strokes += &line("size", (x, 8.0), (x, 88.0));
                }
                strokes + &text(214.0, 84.0, "8 gaps")
            }
            Self::Taper => {
                let mut strokes = String::new();
                for (left, ends) in [(0.0, [30.0, 30.0]), (162.0, [36.0, 22.0])] {
                    strokes += &screw(left, 140.0, 14.0, ends);
                }
                strokes
                    + &arrows((28.0, 30.0), (28.0, 90.0))
                    + &arrows((112.0, 30.0), (112.0, 90.0))
                    + &arrows((190.0, 26.8), (190.0, 93.2))
                    + &arrows((274.0, 35.2), (274.0, 84.8))
            }
        }
    }
}

/// A screw lying about the middle of the picture, half as thick at its ends as said.
fn screw(left: f64, length: f64, pitch: f64, half: [f64; 2]) -> String {
    let ends = |side: f64| (60.0 + side * half[0], 60.0 + side * half[1]);
    let (top, foot) = (ends(-1.0), ends(1.0));
    let upper = zigzag(left, length, pitch, top, 14.0);
    let lower = zigzag(left, length, pitch, foot, -14.0);
    let lower = lower.trim_start_matches('L').split('L').rev().collect::<Vec<_>>().join("L");
    path("outline", &format!("M{left} {}{upper}L{lower}L{left} {}Z", top.0, foot.0))
}

/// Points of a thread from one crest to the last, from height to height.
fn zigzag(left: f64, length: f64, pitch: f64, (from, to): (f64, f64), depth: f64) -> String {
    let mut points = String::new();
    let mut x = 0.0;
    while x < length - 0.1 {
        let at = |x: f64| from + (to - from) * x / length;
        let (root, crest) = (x + pitch / 2.0, x + pitch);
        let _ = write!(
            points,
            "L{:.1} {:.1}L{:.1} {:.1}",
            left + root,
            at(root) + depth,
            left + crest,
            at(crest)
        );
        x += pitch;
    }
    points
}

fn path(class: &str, points: &str) -> String {
    format!(r#"<path class="{class}" d="{points}"/>"#)
}

fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> String {
    path(class, &format!("M{} {}L{} {}", from.0, from.1, to.0, to.1))
}

/// A line with an arrow at each end, upright or level.
fn arrows(from: (f64, f64), to: (f64, f64)) -> String {
    let (x, y) = from;
    let heads = if x == to.0 {
        format!("M{} {}l5 9M{x} {y}l-5 9M{} {}l5 -9M{} {}l-5 -9", x, y, to.0, to.1, to.0, to.1)
    } else {
        format!("M{x} {y}l9 5M{x} {y}l9 -5M{} {}l-9 5M{} {}l-9 -5", to.0, to.1, to.0, to.1)
    };
    line("size", from, to) + &path("size", &heads)
}

fn text(x: f64, y: f64, words: &str) -> String {
    format!(r#"<text class="size-text" x="{x}" y="{y}">{words}</text>"#)
}
