//! The set-ups to scale, each drawn from what was worked out. What would be too small to see is
//! drawn larger, and says so.

use core::fmt::Write;

use crate::{
    engine::{
        layout::edge::Side,
        quantity::{Length, System, rounding},
    },
    shop::setup::{Outcome, OverParallels},
};

/// Pixels of the picture.
pub const WIDTH: f64 = 340.0;
/// As of [`WIDTH`].
pub const HEIGHT: f64 = 250.0;
const MIDDLE: f64 = WIDTH / 2.0;

/// A drawing being made.
struct Pen {
    strokes: String,
    system: System,
}

impl Pen {
    fn rect(&mut self, class: &str, x: f64, y: f64, w: f64, h: f64) {
        let (w, h) = (w.max(1.0), h.max(1.0));
        let _ = write!(
            self.strokes,
            r#"<rect class="{class}" x="{x:.1}" y="{y:.1}" width="{w:.1}" height="{h:.1}"/>"#
        );
    }
    fn circle(&mut self, class: &str, x: f64, y: f64, r: f64) {
        let _ = write!(
            self.strokes,
            r#"<circle class="{class}" cx="{x:.1}" cy="{y:.1}" r="{:.1}"/>"#,
            r.max(1.0)
        );
    }
    fn path(&mut self, class: &str, d: &str) {
        let _ = write!(self.strokes, r#"<path class="{class}" d="{d}"/>"#);
    }
    fn text(&mut self, x: f64, y: f64, anchor: &str, text: &str) {
        let _ = write!(
            self.strokes,
            r#"<text x="{x:.1}" y="{y:.1}" text-anchor="{anchor}">{text}</text>"#
        );
    }
    fn say(&self, length: Length) -> String {
        rounding::length(length, self.system).to_string()
    }
    /// A size between two places along X, with its figure above.
    fn size_x(&mut self, from: f64, to: f64, y: f64, length: Length) {
        let path = format!(
            "M{from:.1} {:.1}v12M{to:.1} {:.1}v12M{from:.1} {y:.1}H{to:.1}",
            y - 6.0,
            y - 6.0
        );
        self.path("size", &path);
        let text = self.say(length);
        // A figure near an edge stays within the picture.
        let half = text.len() as f64 * 4.8;
        let x = f64::midpoint(from, to).clamp(half, WIDTH - half);
        self.text(x, y - 9.0, "middle", &text);
    }
}

/// The drawing of an outcome, and what it shows in words.
pub fn draw(outcome: &Outcome, system: System) -> (String, String) {
    let mut pen = Pen { strokes: String::with_capacity(1200), system };
    let words = match outcome {
        Outcome::Face { value, tip, side, .. } => face(&mut pen, *value, *tip, *side, "Finder"),
        Outcome::Middle { between, tip, inside, .. } => {
            middle(&mut pen, between.size, *tip, *inside)
        }
        Outcome::Parallels { range, choice, jaw, part, side_cut, hole, .. } => {
            vise(&mut pen, *jaw, *part, *side_cut, choice.unwrap_or(range.lowest), *hole)
        }
        Outcome::Strap { to_work, to_heel, heel, .. } => {
            strap(&mut pen, *to_work, *to_heel, heel.map(|(low, _)| low))
        }
        Outcome::Head { tram, sweep, .. } => sweep_of(&mut pen, tram.slope(), *sweep, true),
        Outcome::Vise { tram, sweep, .. } => sweep_of(&mut pen, tram.slope(), *sweep, false),
        Outcome::Wall { finish, diameter, side, .. } => {
            face(&mut pen, *finish, *diameter, *side, "Cutter")
        }
        Outcome::Slot { finish, width, diameter, .. } => {
            slot(&mut pen, *width, *diameter, finish.1 - finish.0)
        }
        Outcome::Exit { part, below, parallel, hole, .. } => {
            exit(&mut pen, *part, *below, *parallel, *hole)
        }
        Outcome::Sine { height, bar, angle } => sine(&mut pen, *height, *bar, *angle),
    };
    (pen.strokes, words)
}

/// A tip or a cutter at a wall, seen from above.
fn face(pen: &mut Pen, value: Length, diameter: Length, side: Side, what: &str) -> String {
    let r = 46.0;
    let (x, y) = (MIDDLE, HEIGHT / 2.0);
    let part = |pen: &mut Pen, x: f64, y: f64, w: f64, h: f64| pen.rect("outline", x, y, w, h);
    match side {
        Side::Left => part(pen, x, 20.0, MIDDLE - 12.0, HEIGHT - 40.0),
        Side::Right => part(pen, 12.0, 20.0, MIDDLE - 12.0, HEIGHT - 40.0),
        Side::Front => part(pen, 40.0, 12.0, WIDTH - 80.0, y - 12.0),
        Side::Back => part(pen, 40.0, y, WIDTH - 80.0, y - 12.0),
    }
    let (cx, cy) = match side {
        Side::Left => (x - r, y),
        Side::Right => (x + r, y),
        Side::Front => (x, y + r),
        Side::Back => (x, y - r),
    };
    pen.circle("spot", cx, cy, r);
    pen.path(
        "axis",
        &format!(
            "M{cx:.1} {:.1}v{:.1}M{:.1} {cy:.1}h{:.1}",
            cy - r - 12.0,
            2.0 * r + 24.0,
            cx - r - 12.0,
            2.0 * r + 24.0
        ),
    );
    let axis = if matches!(side, Side::Left | Side::Right) { "X" } else { "Y" };
    let text = format!("{axis} {}", pen.say(value));
    match side {
        Side::Left => pen.text(cx + 10.0, cy - r - 14.0, "end", &text),
        Side::Right => pen.text(cx - 10.0, cy - r - 14.0, "start", &text),
        Side::Front => pen.text(cx + r + 14.0, cy + 22.0, "start", &text),
        Side::Back => pen.text(cx + r + 14.0, cy - 14.0, "start", &text),
    }
    let (dx, dy) = match side {
        Side::Left | Side::Right => (cx, cy + r + 30.0),
        _ => (cx - r - 60.0, cy),
    };
    let label = pen.say(diameter);
    pen.text(dx, dy, "middle", &label);
    format!("{what} of {label} at a wall, seen from above; its axis stands at {text}.")
}

/// Two opposite touches, seen from above.
fn middle(pen: &mut Pen, size: Length, tip: Length, inside: bool) -> String {
    let whole = if inside { size } else { size + tip * 2.0 };
    let scale = (WIDTH - 50.0) / whole.to_mm().max(1e-6);
    let (half, r) = (size.to_mm() * scale / 2.0, (tip.to_mm() * scale / 2.0).max(3.0));
    let (y, top) = (140.0, 70.0);
    if inside {
        pen.rect("outline", 4.0, top, WIDTH - 8.0, 140.0);
        pen.rect("open", MIDDLE - half, top + 2.0, 2.0 * half, 136.0);
        pen.path(
            "flute",
            &format!("M{:.1} {top}v140M{:.1} {top}v140", MIDDLE - half, MIDDLE + half),
        );
        pen.circle("spot", MIDDLE - half + r, y, r);
        pen.circle("spot", MIDDLE + half - r, y, r);
    } else {
        pen.rect("outline", MIDDLE - half, top, 2.0 * half, 140.0);
        pen.circle("spot", MIDDLE - half - r, y, r);
        pen.circle("spot", MIDDLE + half + r, y, r);
    }
    pen.path("axis", &format!("M{MIDDLE} 50v190"));
    pen.size_x(MIDDLE - half, MIDDLE + half, 44.0, size);
    let where_from = if inside { "inside" } else { "outside" };
    format!("Two touches from {where_from}, {} apart from wall to wall.", pen.say(size))
}

/// The part on its parallels in the jaws, seen from the end.
fn vise(
    pen: &mut Pen,
    jaw: Length,
    part: Length,
    cut: Length,
    parallel: Length,
    hole: Option<OverParallels>,
) -> String {
    let usual = part.max(Length::inch(1.0)) * 1.6;
    let width = hole.map_or(usual, |hole| hole.width);
    let thick = hole.map_or(Length::inch(0.125), |hole| hole.thickness);
    let tall = (parallel + part).max(jaw).to_mm();
    let floor = 222.0;
    let scale = (190.0 / tall).min(190.0 / width.to_mm());
    let px = |length: Length| length.to_mm() * scale;
    let (left, right) = (MIDDLE - px(width) / 2.0, MIDDLE + px(width) / 2.0);
    pen.path("flute", &format!("M4 {floor}H{:.1}", WIDTH - 4.0));
    let jaw_w = (left - 8.0).clamp(12.0, 44.0);
    pen.rect("holder", left - jaw_w, floor - px(jaw), jaw_w, px(jaw));
    pen.rect("holder", right, floor - px(jaw), jaw_w, px(jaw));
    let under = floor - px(parallel);
    pen.rect("outline", left, under, px(thick).max(4.0), px(parallel));
    pen.rect("outline", right - px(thick).max(4.0), under, px(thick).max(4.0), px(parallel));
    pen.rect("part", left, under - px(part), px(width), px(part));
    let bottom = under - px(part) + px(cut);
    if cut > Length::ZERO {
        pen.path("size", &format!("M{:.1} {bottom:.1}H{:.1}", left - 12.0, right + 12.0));
    }
    if let Some(hole) = hole {
        let class = if hole.under.is_clear() { "open" } else { "open beyond" };
        let (from, to) = (left + px(hole.under.from), left + px(hole.under.to));
        pen.rect(class, from, under - px(part), to - from, px(part));
    }
    let x = f64::midpoint(left, right);
    let height = pen.say(parallel);
    pen.text(x, f64::midpoint(floor, under) + 6.0, "middle", &height);
    let part_height = pen.say(part);
    pen.text(x + px(width) * 0.12, under - 10.0, "middle", &part_height);
    format!(
        "A part {} high on parallels of {} in jaws of {}, seen from the end, to scale.",
        pen.say(part),
        pen.say(parallel),
        pen.say(jaw)
    )
}

/// A strap over the work with its bolt and its heel, from the side.
fn strap(pen: &mut Pen, to_work: Length, to_heel: Length, height: Option<Length>) -> String {
    let whole = (to_work + to_heel).to_mm().max(1e-6);
    let scale = (WIDTH - 120.0) / whole;
    let (work, heel) = (70.0, WIDTH - 50.0);
    let bolt = work + to_work.to_mm() * scale;
    let tall = height.map_or(60.0, |height| (height.to_mm() * scale).clamp(16.0, 110.0));
    let (floor, top) = (210.0, 210.0 - tall);
    pen.path("flute", &format!("M4 {floor}H{:.1}", WIDTH - 4.0));
    pen.rect("part", 6.0, top, work - 6.0 + 10.0, tall);
    pen.rect("holder", heel - 18.0, top, 36.0, tall);
    pen.rect("outline", work - 16.0, top - 24.0, heel - work + 32.0, 24.0);
    pen.path("flute", &format!("M{bolt:.1} {floor}V{:.1}", top - 56.0));
    pen.rect("outline", bolt - 14.0, top - 42.0, 28.0, 16.0);
    pen.path(
        "size",
        &format!("M{work:.1} {:.1}v-8m0 8l-4-7m4 7l4-7M{heel:.1} {:.1}v-8", top - 1.0, top - 1.0),
    );
    let y = (top - 66.0).max(30.0);
    pen.size_x(work, bolt, y, to_work);
    pen.size_x(bolt, heel, y, to_heel);
    pen.text(34.0, floor + 24.0, "middle", "work");
    pen.text(heel, floor + 24.0, "middle", "heel");
    format!(
        "A strap from the side: {} from bolt to work, {} from bolt to heel, to scale.",
        pen.say(to_work),
        pen.say(to_heel)
    )
}

/// Both ends of a sweep, the lean made large enough to be seen.
fn sweep_of(pen: &mut Pen, slope: f64, sweep: Length, head: bool) -> String {
    let lean = (slope * 6000.0).clamp(-18.0, 18.0);
    let (y, half) = (170.0, 120.0);
    let rise = libm::tan(lean.to_radians()) * half;
    if head {
        // Higher at the right: the sweep dips there, and the head leans with it.
        pen.path("flute", &format!("M10 {:.1}H{:.1}", y + 52.0, WIDTH - 10.0));
        let x = MIDDLE - libm::sin(lean.to_radians()) * -110.0;
        pen.path("axis", &format!("M{MIDDLE} 20V{:.1}", y + 48.0));
        pen.path("outline", &format!("M{:.1} 26h44l{:.1} 84h-44Z", x - 22.0, (MIDDLE - x) * 0.7));
        pen.path(
            "size",
            &format!("M{:.1} {:.1}L{:.1} {:.1}", MIDDLE - half, y - rise, MIDDLE + half, y + rise),
        );
    } else {
        pen.path(
            "outline",
            &format!(
                "M{:.1} {:.1}L{:.1} {:.1}v-46L{:.1} {:.1}Z",
                MIDDLE - half,
                y - 60.0 - rise,
                MIDDLE + half,
                y - 60.0 + rise,
                MIDDLE - half,
                y - 106.0 - rise
            ),
        );
        pen.path("axis", &format!("M20 {:.1}H{:.1}", y - 60.0, WIDTH - 20.0));
    }
    for (sign, name) in [(-1.0, "left"), (1.0, "right")] {
        let x = MIDDLE + sign * half;
        let tip = if head { y + 50.0 } else { y - 58.0 + sign * rise };
        let dial = if head { y + sign * rise } else { y + 34.0 };
        pen.path("flute", &format!("M{x:.1} {dial:.1}V{tip:.1}"));
        pen.circle("spot", x, dial, 16.0);
        pen.text(x, if head { HEIGHT - 6.0 } else { y + 70.0 }, "middle", name);
    }
    pen.text(MIDDLE, HEIGHT - 6.0, "middle", "lean drawn larger");
    let seen = if head { "The head from the front" } else { "The vise from above" };
    format!("{seen}, an indicator at both ends of {}. The lean is drawn larger.", pen.say(sweep))
}

/// A cutter at both walls of a slot, seen from above.
fn slot(pen: &mut Pen, width: Length, diameter: Length, between: Length) -> String {
    let scale = 150.0 / width.to_mm().max(1e-6);
    let px = |length: Length| length.to_mm() * scale;
    let (y, half, r) = (135.0, px(width) / 2.0, px(diameter) / 2.0);
    pen.rect("outline", MIDDLE - half - 60.0, 56.0, 60.0, 180.0);
    pen.rect("outline", MIDDLE + half, 56.0, 60.0, 180.0);
    let off = px(between) / 2.0;
    for (x, cy) in [(MIDDLE - off, y - 22.0), (MIDDLE + off, y + 22.0)] {
        pen.circle("spot", x, cy, r);
        pen.path("axis", &format!("M{x:.1} {:.1}v{:.1}", cy - r - 8.0, 2.0 * r + 16.0));
    }
    pen.path("axis", &format!("M{MIDDLE} 50v190"));
    pen.size_x(MIDDLE - half, MIDDLE + half, 40.0, width);
    format!(
        "A cutter of {} at both walls of a slot of {}, seen from above, to scale.",
        pen.say(diameter),
        pen.say(width)
    )
}

/// A drill that comes out of a part on parallels.
fn exit(
    pen: &mut Pen,
    part: Length,
    below: Length,
    parallel: Length,
    hole: Option<OverParallels>,
) -> String {
    let tall = (part + parallel).to_mm().max(1e-6);
    let width = hole.map_or(part.max(parallel) * 1.6, |hole| hole.width);
    let scale = (170.0 / tall).min(250.0 / width.to_mm());
    let px = |length: Length| length.to_mm() * scale;
    let floor = 226.0;
    let under = floor - px(parallel);
    let (left, right) = (MIDDLE - px(width) / 2.0, MIDDLE + px(width) / 2.0);
    pen.path("flute", &format!("M4 {floor}H{:.1}", WIDTH - 4.0));
    let thick = px(hole.map_or(Length::inch(0.125), |hole| hole.thickness)).max(4.0);
    pen.rect("outline", left, under, thick, px(parallel));
    pen.rect("outline", right - thick, under, thick, px(parallel));
    pen.rect("part", left, under - px(part), px(width), px(part));
    let (from, to) = hole.map_or((MIDDLE - 9.0, MIDDLE + 9.0), |hole| {
        (left + px(hole.under.from), left + px(hole.under.to))
    });
    let (tip, x) = (under + px(below), f64::midpoint(from, to));
    let point = (to - from) * 0.3;
    let is_bad = below >= parallel || hole.is_some_and(|hole| !hole.under.is_clear());
    let class = if is_bad { "flute beyond" } else { "flute" };
    pen.rect("open", from, under - px(part), to - from, px(part));
    pen.path(
        class,
        &format!("M{from:.1} 14V{:.1}L{x:.1} {tip:.1}L{to:.1} {:.1}V14", tip - point, tip - point),
    );
    let left_under = parallel - below;
    let text = pen.say(left_under);
    pen.text(x + 16.0, floor - 8.0, "start", &text);
    format!(
        "A drill comes {} out below a part {} high on parallels of {}, to scale.",
        pen.say(below),
        pen.say(part),
        pen.say(parallel)
    )
}

/// A bar on its blocks, from the side.
fn sine(pen: &mut Pen, height: Length, bar: Length, degrees: f64) -> String {
    let angle = degrees.to_radians();
    let scale = (250.0 / bar.to_mm()).min(170.0 / height.to_mm().max(1e-6));
    let (long, tall) = (bar.to_mm() * scale, height.to_mm() * scale);
    let (floor, x) = (220.0, 40.0);
    let (end, top) = (x + long * libm::cos(angle), floor - 12.0 - tall);
    pen.path("flute", &format!("M4 {floor}H{:.1}", WIDTH - 4.0));
    pen.rect("holder", end - 16.0, floor - tall, 32.0, tall);
    pen.path("outline", &format!("M{x:.1} {:.1}L{end:.1} {top:.1}", floor - 12.0));
    pen.circle("spot", x, floor - 12.0, 12.0);
    pen.circle("spot", end, top, 12.0);
    let text = pen.say(height);
    let side = if end > WIDTH - 110.0 { end - 24.0 } else { end + 24.0 };
    let anchor = if end > WIDTH - 110.0 { "end" } else { "start" };
    pen.text(side, floor - 10.0, anchor, &text);
    format!("A sine bar of {} on blocks of {text}, to scale.", pen.say(bar))
}
