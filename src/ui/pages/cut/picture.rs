//! The operating window as a picture: speed across, feed up, each limit a curve.
//!
//! Over is a solid line, near a dashed one inside it. Where the machine has steps, what is allowed
//! at each is an upright bar. The set point is a dot, what material and cutter would like a ring.

use leptos::prelude::*;

use crate::{
    engine::{
        answer::{Curve, Side, Window},
        quantity::{FeedRate, Length, SpindleSpeed, System, rounding},
    },
    ui::words,
};

/// As wide as the smallest phone has room for, so that no letter is drawn smaller than it is.
const WIDTH: f64 = 296.0;
const HEIGHT: f64 = 270.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 258.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 220.0;
/// Size of the smallest letters, and how wide one is about.
const LETTER: f64 = 16.0;
const LETTER_WIDTH: f64 = 8.6;

/// Places of the window on the paper.
#[derive(Clone, Copy)]
struct Frame {
    speed: f64,
    feed: f64,
}

impl Frame {
    fn x(self, speed: SpindleSpeed) -> f64 {
        LEFT + (RIGHT - LEFT) * speed.to_rpm() / self.speed
    }
    fn y(self, feed: FeedRate) -> f64 {
        BOTTOM - (BOTTOM - TOP) * feed.to_mm_per_min() / self.feed
    }
    fn point(self, (speed, feed): (SpindleSpeed, FeedRate)) -> (f64, f64) {
        (self.x(speed), self.y(feed))
    }
}

/// A line through points, in path words.
fn path(points: &[(f64, f64)]) -> String {
    let mut words = String::new();
    for (i, (x, y)) in points.iter().enumerate() {
        words.push_str(if i == 0 { "M" } else { "L" });
        words.push_str(&format!("{x:.1} {y:.1}"));
    }
    words
}

/// The part of a line inside the frame, as points; lines enter and leave it straight.
fn clipped(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let inside = |(x, y): (f64, f64)| {
        (LEFT - 0.01..=RIGHT + 0.01).contains(&x) && (TOP - 0.01..=BOTTOM + 0.01).contains(&y)
    };
    let mut line = Vec::new();
    for pair in points.windows(2) {
        let [(x0, y0), (x1, y1)] = [pair[0], pair[1]];
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        let (dx, dy) = (x1 - x0, y1 - y0);
        for (p, q) in [(-dx, x0 - LEFT), (dx, RIGHT - x0), (-dy, y0 - TOP), (dy, BOTTOM - y0)] {
            if p == 0.0 {
                if q < 0.0 {
                    to = -1.0;
                }
            } else if p < 0.0 {
                from = from.max(q / p);
            } else {
                to = to.min(q / p);
            }
        }
        if from <= to {
            for t in [from, to] {
                let point = (x0 + t * dx, y0 + t * dy);
                if inside(point) && line.last() != Some(&point) {
                    line.push(point);
                }
            }
        }
    }
    line
}

/// A box that a label takes.
#[derive(Clone, Copy)]
struct Taken {
    x: f64,
    y: f64,
    width: f64,
}

impl Taken {
    fn meets(self, other: Self) -> bool {
        (self.y - other.y).abs() < LETTER + 1.0
            && self.x < other.x + other.width + 4.0
            && other.x < self.x + self.width + 4.0
    }
}

/// A place for a label along a line, clear of those that are taken.
fn place(line: &[(f64, f64)], text: &str, side: Side, taken: &[Taken]) -> Option<Taken> {
    let width = LETTER_WIDTH * text.chars().count() as f64;
    let (first, last) = (*line.first()?, *line.last()?);
    for share in [0.97, 0.8, 0.62, 0.45, 0.3, 0.15] {
        let x = first.0 + share * (last.0 - first.0);
        let y = first.1 + share * (last.1 - first.1);
        let tries: &[(f64, f64)] = match side {
            Side::Left => &[(-width - 5.0, 0.0), (5.0, 0.0)],
            _ => &[(-width - 2.0, -6.0), (4.0, 14.0), (-width - 2.0, 16.0), (4.0, -6.0)],
        };
        for (dx, dy) in tries {
            let spot = Taken { x: x + dx, y: y + dy, width };
            let fits = spot.x >= LEFT + 2.0
                && spot.x + width <= RIGHT
                && spot.y >= TOP + LETTER - 4.0
                && spot.y <= BOTTOM - 4.0;
            if fits && !taken.iter().any(|t| t.meets(spot)) {
                return Some(spot);
            }
        }
    }
    None
}

/// Round numbers for a scale up to `most`, about three of them.
fn ticks(most: f64) -> Vec<f64> {
    let rough = most / 3.0;
    let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
    let step = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|m| m * power)
        .find(|s| *s >= rough * 0.75)
        .unwrap_or(power);
    (1..=6).map(|i| step * f64::from(i)).filter(|t| *t <= most * 0.99).collect()
}

fn plain(value: f64) -> String {
    let text = rounding::significant(value, 2);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// The picture of an operating window.
#[component]
#[allow(clippy::needless_pass_by_value, reason = "what a component is given is its own")]
pub fn WindowPicture(
    /// The window.
    window: Window,
    /// Travel of one turn of the wheel, for the scale at the right.
    lead: Option<Length>,
    /// Units of the scale at the left.
    system: System,
) -> impl IntoView {
    let frame = Frame { speed: window.speed_max.to_rpm(), feed: window.feed_max.to_mm_per_min() };
    let words = in_words(&window, system);
    view! {
        <svg
            class="window"
            viewBox=format!("0 0 {WIDTH} {HEIGHT}")
            role="img"
            aria-label=words
            data-testid="window"
        >
            {allowed(&window, frame)} {curves(&window, frame)} {axes(&window, frame, lead, system)}
            {points(&window, frame)}
        </svg>
    }
}

fn allowed(window: &Window, frame: Frame) -> AnyView {
    if window.stepped {
        return window
            .allowed
            .iter()
            .map(|(n, low, high)| {
                let (x, top, bottom) = (frame.x(*n), frame.y(*high), frame.y(*low));
                view! {
                    <rect
                        class="window-allowed"
                        x=x - 5.0
                        y=top
                        width="10"
                        height=(bottom - top).max(1.0)
                        rx="3"
                    />
                }
            })
            .collect_view()
            .into_any();
    }
    let upper = window.allowed.iter().map(|(n, _, high)| (frame.x(*n), frame.y(*high)));
    let lower = window.allowed.iter().rev().map(|(n, low, _)| (frame.x(*n), frame.y(*low)));
    let outline: Vec<(f64, f64)> = upper.chain(lower).collect();
    view! { <path class="window-allowed" d=path(&outline) /> }.into_any()
}

fn curves(window: &Window, frame: Frame) -> AnyView {
    let mut taken = vec![];
    // What binds at the set point gets its label first: nearest to the point.
    let mut order: Vec<&Curve> = window.curves.iter().collect();
    order.sort_by(|a, b| distance(a, window, frame).total_cmp(&distance(b, window, frame)));
    // Labels come after all lines, so that none is struck through.
    let mut labels = Vec::new();
    let drawn: Vec<_> = order
        .into_iter()
        .filter_map(|curve| {
            let line = |points: &[(SpindleSpeed, FeedRate)]| {
                clipped(&points.iter().map(|p| frame.point(*p)).collect::<Vec<_>>())
            };
            let (near, over) = (line(&curve.near), line(&curve.over));
            if near.len() < 2 && over.len() < 2 {
                return None;
            }
            let name = words::limit(curve.limit);
            let along = if over.len() > 1 { &over } else { &near };
            let spot = place(along, name, curve.side, &taken);
            taken.extend(spot);
            labels.extend(spot.map(|spot| {
                view! {
                    <text class="window-label" x=spot.x y=spot.y>
                        {name}
                    </text>
                }
            }));
            Some(view! {
                <g data-limit=name>
                    <path class="window-near" d=path(&near) />
                    <path class="window-over" d=path(&over) />
                </g>
            })
        })
        .collect();
    (drawn.collect_view(), labels.collect_view()).into_any()
}

/// How far a curve passes from the set point, on the paper.
fn distance(curve: &Curve, window: &Window, frame: Frame) -> f64 {
    let (x, y) = frame.point(window.chosen);
    curve
        .over
        .windows(2)
        .map(|pair| {
            let ((x0, y0), (x1, y1)) = (frame.point(pair[0]), frame.point(pair[1]));
            let (dx, dy) = (x1 - x0, y1 - y0);
            let length = dx * dx + dy * dy;
            let t = if length > 0.0 {
                (((x - x0) * dx + (y - y0) * dy) / length).clamp(0.0, 1.0)
            } else {
                0.0
            };
            libm::hypot(x - x0 - t * dx, y - y0 - t * dy)
        })
        .fold(f64::INFINITY, f64::min)
}

fn axes(window: &Window, frame: Frame, lead: Option<Length>, system: System) -> AnyView {
    let (unit, most) = match system {
        System::Inch => ("in/min", window.feed_max.to_inch_per_min()),
        System::Metric => ("mm/min", window.feed_max.to_mm_per_min()),
    };
    let left = ticks(most)
        .into_iter()
        .map(|t| {
            let y = BOTTOM - (BOTTOM - TOP) * t / most;
            view! {
                <path class="window-tick" d=format!("M{} {y:.1}h-6", LEFT) />
                <text class="window-figure" text-anchor="end" x=LEFT - 9.0 y=y + 5.0>
                    {plain(t)}
                </text>
            }
        })
        .collect_view();
    let right = lead.map(|lead| {
        let most = window.feed_max.to_mm_per_min() / lead.to_mm();
        let marks = ticks(most)
            .into_iter()
            .map(|t| {
                let y = BOTTOM - (BOTTOM - TOP) * t / most;
                view! {
                    <path class="window-tick" d=format!("M{} {y:.1}h6", RIGHT) />
                    <text class="window-figure" x=RIGHT + 9.0 y=y + 5.0>
                        {plain(t)}
                    </text>
                }
            })
            .collect_view();
        view! {
            {marks}
            <text class="window-figure" text-anchor="end" x=WIDTH y=TOP - 12.0>
                "turns/min"
            </text>
        }
    });
    let set = window.chosen.0;
    let x = frame.x(set);
    let steps = window
        .speeds
        .iter()
        .filter(|_| window.stepped)
        .map(|n| {
            view! { <path class="window-step" d=format!("M{:.1} {BOTTOM}V{TOP}", frame.x(*n)) /> }
        })
        .collect_view();
    let anchor = if x > RIGHT - 30.0 {
        "end"
    } else if x < LEFT + 30.0 {
        "start"
    } else {
        "middle"
    };
    view! {
        {steps}
        <path class="window-set" d=format!("M{x:.1} {BOTTOM}V{TOP}") />
        <path class="window-axis" d=format!("M{LEFT} {TOP}V{BOTTOM}H{RIGHT}V{TOP}") />
        {left}
        {right}
        <text class="window-figure" x="0" y=TOP - 12.0>
            {unit}
        </text>
        <text class="window-figure strong" text-anchor=anchor x=x y=BOTTOM + 20.0>
            {rounding::spindle_speed(set).to_string()}
        </text>
        <text class="window-figure" text-anchor="end" x=RIGHT y=HEIGHT - 8.0>
            {reach(window)}
        </text>
    }
    .into_any()
}

/// The machine's speeds in words, under the picture.
fn reach(window: &Window) -> String {
    let rpm = |n: Option<&SpindleSpeed>| n.map_or(String::new(), |n| format!("{:.0}", n.to_rpm()));
    if window.stepped {
        let list: Vec<String> = window.speeds.iter().map(|n| rpm(Some(n))).collect();
        list.join(" ")
    } else {
        format!("stepless from {} rpm", rpm(window.speeds.first()))
    }
}

fn points(window: &Window, frame: Frame) -> AnyView {
    let (x, y) = frame.point(window.chosen);
    let (wx, wy) = frame.point(window.wanted);
    let far = wx > RIGHT;
    let wanted = if far {
        // Off the paper: an arrow at its edge.
        let y = wy.clamp(TOP + 10.0, BOTTOM - 10.0);
        view! {
            <path
                class="window-wanted"
                d=format!("M{:.1} {:.1}l10 7l-10 7", RIGHT - 14.0, y - 7.0)
            />
        }
        .into_any()
    } else {
        view! { <circle class="window-wanted" cx=wx cy=wy.max(TOP) r="9" /> }.into_any()
    };
    view! {
        {wanted}
        <circle class="window-chosen" cx=x cy=y r="8" />
    }
    .into_any()
}

/// The picture in words.
pub fn in_words(window: &Window, system: System) -> String {
    let (speed, feed) = window.chosen;
    let mut words = format!(
        "Operating window. Set: {} and {}. Wanted: {}.",
        rounding::spindle_speed(speed),
        rounding::feed_rate(feed, system),
        rounding::spindle_speed(window.wanted.0),
    );
    let here = window
        .allowed
        .iter()
        .min_by(|a, b| (a.0 - speed).abs().to_rpm().total_cmp(&(b.0 - speed).abs().to_rpm()))
        .filter(|(n, ..)| (*n - speed).abs() < speed * 0.05);
    match here {
        Some((_, low, high)) => words.push_str(&format!(
            " At this speed the limits allow feeds from {} to {}.",
            rounding::feed_rate(*low, system).digits,
            rounding::feed_rate(*high, system)
        )),
        None => words.push_str(" At this speed the limits allow no feed."),
    }
    for limit in &window.everywhere {
        words.push_str(&format!(" {} is over at every speed and feed.", words::limit(*limit)));
    }
    let names: Vec<&str> = window.curves.iter().map(|c| words::limit(c.limit)).collect();
    words.push_str(&format!(" Curves: {}.", names.join(", ").to_lowercase()));
    words
}
