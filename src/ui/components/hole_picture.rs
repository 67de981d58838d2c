//! A hole in its plate in section, to scale, with every depth that is set or found.

use core::fmt::Write;

use leptos::prelude::*;

use crate::engine::quantity::{Length, System, rounding};

/// Pixels: the picture, the part of it that is drawn, its middle, and what the hole may take.
const WIDTH: f64 = 306.0;
const DRAWN: f64 = 112.0;
const AXIS: f64 = 54.0;
const WIDEST: f64 = 84.0;
const DEEPEST: f64 = 236.0;
/// Where the surface lies, and the words begin.
const SURFACE: f64 = 18.0;
const WORDS: f64 = 130.0;
/// Two lines of letters this close meet.
const LINE: f64 = 24.0;
/// Teeth finer than this are a grey edge: every second one is drawn, or every third.
const FINEST: f64 = 5.0;

/// A hole and the plate it is in; depths are from the surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Thickness of the plate.
    pub plate: Length,
    /// Goes through.
    pub through: bool,
    /// Diameter of the drill.
    pub drill: Length,
    /// Depth of the drill at its full diameter.
    pub full: Length,
    /// Depth of its tip.
    pub tip: Length,
    /// Length of its point.
    pub point: Length,
    /// What is reamed: the diameter and how deep.
    pub reamed: Option<(Length, Length)>,
    /// The thread in it.
    pub thread: Option<Threading>,
    /// Where the head of a screw sits.
    pub seat: Option<Seat>,
}

/// A thread in a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Threading {
    /// Major diameter.
    pub major: Length,
    /// Pitch.
    pub pitch: Length,
    /// Length of full thread.
    pub full: Length,
    /// How deep the tap goes, with its chamfer.
    pub tap: Length,
}

/// Where the head of a screw sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// A counterbore: diameter and depth.
    Counterbore(Length, Length),
    /// A countersink: diameter at the surface, and depth where it meets the hole.
    Countersink(Length, Length),
}

/// The picture. The plate is solid, the hole is open, depths stand at its side.
#[component]
pub fn HolePicture(
    /// What is drawn; nothing while there is no hole.
    #[prop(into)]
    section: Signal<Option<Section>>,
    /// The units of its figures.
    #[prop(into)]
    system: Signal<System>,
) -> impl IntoView {
    move || {
        let section = section.get().filter(Section::can_be_drawn)?;
        let marks = section.marks(system.get());
        let drawing = Drawing::new(&section, &marks);
        Some(view! {
            <figure class="hole-picture" data-testid="section">
                <svg
                    class="picture"
                    viewBox=format!("0 0 {WIDTH} {:.0}", drawing.height)
                    role="img"
                    aria-label=in_words(&marks)
                    focusable="false"
                    inner_html=drawing.strokes(&section, &marks)
                ></svg>
                <figcaption>{section.caption(system.get())}</figcaption>
            </figure>
        })
    }
}

/// A depth at the side of the picture.
#[derive(Clone, Debug, PartialEq)]
struct Mark {
    depth: Length,
    words: String,
    over: bool,
}

fn in_words(marks: &[Mark]) -> String {
    let list: Vec<&str> = marks.iter().map(|mark| mark.words.as_str()).collect();
    format!("The hole in section. From the surface down: {}.", list.join(", "))
}

impl Section {
    fn can_be_drawn(&self) -> bool {
        [self.plate, self.drill, self.full, self.tip, self.point].iter().all(|l| l.is_positive())
    }

    /// What the picture shows, and every width in it.
    fn caption(&self, system: System) -> String {
        let size = |length: Length| rounding::length(length, system).to_string();
        let mut widths = format!("Drill {}", size(self.drill));
        let mut add = |what: &str, width: Length| {
            let _ = write!(widths, ", {what} {}", size(width));
        };
        if let Some((diameter, _)) = self.reamed {
            add("reamed", diameter);
        }
        if let Some(thread) = self.thread {
            add("thread", thread.major);
        }
        match self.seat {
            Some(Seat::Counterbore(diameter, _)) => add("counterbore", diameter),
            Some(Seat::Countersink(diameter, _)) => add("countersink", diameter),
            None => {}
        }
        format!("In section, to scale. Depths from the surface. Wide: {}.", widths.to_lowercase())
    }

    fn deepest(&self) -> Length {
        self.plate.max(self.tip)
    }

    fn widest(&self) -> Length {
        let seat = match self.seat {
            Some(Seat::Counterbore(diameter, _) | Seat::Countersink(diameter, _)) => diameter,
            None => Length::ZERO,
        };
        let major = self.thread.map_or(Length::ZERO, |thread| thread.major);
        let reamed = self.reamed.map_or(Length::ZERO, |(diameter, _)| diameter);
        self.drill.max(seat).max(major).max(reamed)
    }

    /// Every depth with its words, from the surface down.
    fn marks(&self, system: System) -> Vec<Mark> {
        let size = |length: Length| rounding::length(length, system).digits;
        let mut marks = Vec::with_capacity(7);
        let mut mark = |depth: Length, what: &str| {
            marks.push(Mark { depth, words: format!("{} {what}", size(depth)), over: false });
        };
        match self.seat {
            Some(Seat::Counterbore(_, depth)) => mark(depth, "counterbore"),
            Some(Seat::Countersink(_, depth)) => mark(depth, "countersink"),
            None => {}
        }
        if let Some(thread) = self.thread {
            mark(thread.full, "full thread");
            if !self.through {
                mark(thread.tap, "tap, chamfer");
            }
        }
        if let Some((_, depth)) = self.reamed
            && !self.through
        {
            mark(depth, "reamed");
        }
        if !self.through {
            mark(self.full, "full diameter");
        }
        mark(self.tip, "drill tip");
        mark(self.plate, "plate");
        marks.sort_by(|a, b| a.depth.to_mm().total_cmp(&b.depth.to_mm()));
        if !self.through {
            let floor = self.plate - self.tip;
            let over = !floor.is_positive();
            let what = if over { "too deep" } else { "floor left" };
            let words = format!("{} {what}", size(floor.abs()));
            marks.push(Mark { depth: self.deepest(), words, over });
        }
        marks
    }
}

/// Places in the picture, in its pixels.
struct Drawing {
    /// Pixels of a millimetre.
    scale: f64,
    /// Where the words of each mark stand.
    lines: Vec<f64>,
    height: f64,
}

impl Drawing {
    fn new(section: &Section, marks: &[Mark]) -> Self {
        let scale = (DEEPEST / section.deepest().to_mm()).min(WIDEST / section.widest().to_mm());
        let mut lines: Vec<f64> = Vec::with_capacity(marks.len());
        for mark in marks {
            let own = SURFACE + mark.depth.to_mm() * scale;
            let least = lines.last().map_or(SURFACE, |last| last + LINE);
            lines.push(own.max(least));
        }
        let lowest = lines.last().copied().unwrap_or(SURFACE);
        let foot = SURFACE + section.deepest().to_mm() * scale;
        Self { scale, lines, height: lowest.max(foot) + 14.0 }
    }

    fn y(&self, depth: Length) -> f64 {
        SURFACE + depth.to_mm() * self.scale
    }

    fn r(&self, diameter: Length) -> f64 {
        diameter.to_mm() / 2.0 * self.scale
    }

    /// The whole picture as markup; it holds numbers and words of this file only.
    fn strokes(&self, section: &Section, marks: &[Mark]) -> String {
        let foot = self.y(section.plate);
        let side = self.side(section);
        let mut strokes = format!(
            r#"<rect class="solid" x="0" y="{SURFACE}" width="{DRAWN}" height="{:.1}"/>"#,
            foot - SURFACE
        );
        strokes += &outline("open", &side);
        if section.through {
            strokes += &wall(&side);
            strokes += &outline("size", &self.point(section));
        } else {
            strokes += &outline("flute", &side);
        }
        let mouth = side.first().map_or(0.0, |(r, _)| *r);
        strokes += &face(SURFACE, mouth);
        strokes += &face(foot, self.gap(section));
        let _ = write!(
            strokes,
            r#"<line class="axis" x1="{AXIS}" y1="4" x2="{AXIS}" y2="{:.1}"/>"#,
            self.y(section.deepest()) + 10.0
        );
        for (mark, line) in marks.iter().zip(&self.lines) {
            let y = self.y(mark.depth);
            let from = AXIS + if mark.depth == section.tip { 0.0 } else { self.r(section.drill) };
            let (class, text) = if mark.over { ("size beyond", "beyond") } else { ("size", "") };
            let _ = write!(
                strokes,
                r#"<path class="{class}" d="M{from:.1} {y:.1}H{:.1}L{:.1} {line:.1}"/><text class="{text}" x="{WORDS}" y="{:.1}">{}</text>"#,
                DRAWN + 2.0,
                WORDS - 5.0,
                line + 6.0,
                mark.words
            );
        }
        strokes
    }

    /// The wall of the hole at the right of its axis, from the surface down to where it ends.
    fn side(&self, section: &Section) -> Vec<(f64, f64)> {
        let r = self.r(section.drill);
        let end = if section.through { self.y(section.plate) } else { self.shoulder(section) };
        let mut side: Vec<(f64, f64)> = Vec::with_capacity(64);
        match section.seat {
            Some(Seat::Counterbore(diameter, depth)) => {
                let wide = self.r(diameter);
                side.extend([(wide, SURFACE), (wide, self.y(depth)), (r, self.y(depth))]);
            }
            Some(Seat::Countersink(diameter, depth)) => {
                side.extend([(self.r(diameter), SURFACE), (r, self.y(depth))]);
            }
            None => {}
        }
        if let Some((diameter, depth)) = section.reamed {
            let to = self.y(depth).min(end);
            side.extend([(self.r(diameter), SURFACE), (self.r(diameter), to), (r, to)]);
        }
        if let Some(thread) = section.thread {
            self.teeth(
                thread,
                self.r(section.reamed.map_or(section.drill, |(d, _)| d)),
                end,
                &mut side,
            );
        }
        if side.is_empty() {
            side.push((r, SURFACE));
        }
        side.push((r, end));
        if !section.through {
            side.push((0.0, self.y(section.tip)));
        }
        side
    }

    /// Where the full diameter of the drill ends.
    fn shoulder(&self, section: &Section) -> f64 {
        self.y(section.tip - section.point)
    }

    /// Full teeth down to the length of thread, then those that the chamfer of the tap leaves.
    fn teeth(&self, thread: Threading, minor: f64, end: f64, side: &mut Vec<(f64, f64)>) {
        let true_pitch = thread.pitch.to_mm() * self.scale;
        let pitch = true_pitch * libm::ceil(FINEST / true_pitch).max(1.0);
        let deep = self.r(thread.major) - minor;
        let (full, tap) = (self.y(thread.full), self.y(thread.tap));
        let mut y = SURFACE;
        side.clear();
        while y < tap.min(end) {
            let middle = y + pitch / 2.0;
            let share = if middle <= full { 1.0 } else { (tap - middle) / (tap - full) };
            side.push((minor, y.min(end)));
            side.push((minor + deep * share.clamp(0.0, 1.0), middle.min(end)));
            y += pitch;
        }
        side.push((minor, y.min(end)));
    }

    /// The drill as it stands out of a hole that goes through.
    fn point(&self, section: &Section) -> Vec<(f64, f64)> {
        let (r, shoulder) = (self.r(section.drill), self.shoulder(section));
        let from = self.y(section.plate).min(shoulder);
        vec![(r, from), (r, shoulder), (0.0, self.y(section.tip))]
    }

    /// Half of what is open in the far face of the plate.
    fn gap(&self, section: &Section) -> f64 {
        let r = match section.reamed {
            Some((diameter, depth)) if depth >= section.plate => self.r(diameter),
            _ => self.r(section.drill),
        };
        if section.through {
            return r;
        }
        let out = (section.tip - section.plate).max(Length::ZERO);
        r * (out / section.point).min(1.0)
    }
}

/// A face of the plate on both sides of what is open in it.
fn face(y: f64, half: f64) -> String {
    let (left, right) = (AXIS - half, AXIS + half);
    format!(r#"<path class="flute" d="M0 {y:.1}H{left:.1}M{right:.1} {y:.1}H{DRAWN}"/>"#)
}

/// Both walls of a hole that goes through.
fn wall(side: &[(f64, f64)]) -> String {
    let path = |sign: f64| {
        let points = side.iter().map(|(r, y)| format!("{:.1} {y:.1}", AXIS + sign * r));
        points.collect::<Vec<_>>().join("L")
    };
    format!(r#"<path class="flute" d="M{}M{}"/>"#, path(1.0), path(-1.0))
}

/// The right side of a shape, from the top down, and its mirror up again.
fn outline(class: &str, side: &[(f64, f64)]) -> String {
    let right = side.iter().map(|(r, y)| (AXIS + r, *y));
    let left = side.iter().rev().map(|(r, y)| (AXIS - r, *y));
    let mut path = String::new();
    for (x, y) in right.chain(left) {
        let pen = if path.is_empty() { 'M' } else { 'L' };
        let _ = write!(path, "{pen}{x:.1} {y:.1}");
    }
    format!(r#"<path class="{class}" d="{path}"/>"#)
}
