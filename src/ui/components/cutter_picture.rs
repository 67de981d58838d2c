//! The cutter as it stands in its holder, to scale.

use core::f64::consts::PI;
use core::fmt::Write;

use leptos::prelude::*;

use crate::engine::{
    cutters::{Cutter, Kind, Tip},
    quantity::{System, rounding},
    question::Holder,
};

/// Pixels of the picture: its width, the holder's share, and what the cutter may take.
const WIDTH: f64 = 306.0;
const FACE: f64 = 52.0;
const LONGEST: f64 = 160.0;
const TALLEST: f64 = 112.0;

/// A cutter lying in its holder: diameters, flute length and stick-out to one scale, a rule along
/// the stick-out.
#[component]
pub fn CutterPicture(
    /// The cutter.
    #[prop(into)]
    cutter: Signal<Cutter>,
    /// What holds it.
    #[prop(into)]
    holder: Signal<Holder>,
    /// The units of its figures.
    #[prop(into)]
    system: Signal<System>,
) -> impl IntoView {
    let drawing = move || Drawing::new(&cutter.get(), system.get());
    let caption = move || {
        let cutter = cutter.get();
        let thickness = cutter.shank.min(cutter.diameter);
        format!(
            "Out of the holder {}, {} times its thickness.",
            rounding::length(cutter.stickout, system.get()),
            rounding::fixed(cutter.stickout / thickness, 1)
        )
    };
    move || {
        let cutter = cutter.get();
        let sizes = [cutter.diameter, cutter.shank, cutter.stickout, cutter.flute_length];
        sizes.iter().all(|size| size.is_positive()).then(|| {
            let drawing = drawing();
            view! {
                <figure class="cutter-picture">
                    <svg
                        class="picture"
                        viewBox=format!("0 0 {WIDTH} {:.0}", drawing.height())
                        aria-hidden="true"
                        focusable="false"
                        inner_html=drawing.strokes(&cutter, holder.get())
                    ></svg>
                    <figcaption>{caption}</figcaption>
                </figure>
            }
        })
    }
}

/// Places in the picture, in its pixels.
struct Drawing {
    /// Pixels of a millimetre.
    scale: f64,
    /// The axis of the cutter.
    axis: f64,
    /// The end of the cutter.
    tip: f64,
    /// Radius that cuts, and of the shank.
    radius: f64,
    shank: f64,
    /// Where the flutes begin.
    flutes: f64,
    system: System,
}

impl Drawing {
    fn new(cutter: &Cutter, system: System) -> Self {
        let stickout = cutter.stickout.to_mm();
        let thickest = cutter.diameter.max(cutter.shank).to_mm();
        let scale = (LONGEST / stickout).min(TALLEST / thickest);
        let tip = FACE + stickout * scale;
        Self {
            scale,
            axis: TALLEST / 2.0 + 8.0,
            tip,
            radius: cutter.diameter.to_mm() / 2.0 * scale,
            shank: cutter.shank.to_mm() / 2.0 * scale,
            flutes: (tip - cutter.flute_length.to_mm() * scale).max(FACE),
            system,
        }
    }

    fn rule(&self) -> f64 {
        self.axis + TALLEST / 2.0 + 12.0
    }

    fn height(&self) -> f64 {
        self.rule() + 44.0
    }

    /// The whole picture as markup; it holds numbers only.
    fn strokes(&self, cutter: &Cutter, holder: Holder) -> String {
        let mut strokes = self.holder(holder);
        strokes += &match cutter.kind {
            Kind::EndMill { tip, .. } => self.end_mill(cutter, tip),
            Kind::FaceMill { entering_angle } => {
                let rise = self.radius * 0.3;
                let lead = if entering_angle.to_degree() < 89.0 {
                    rise / entering_angle.tan()
                } else {
                    0.0
                };
                self.head(self.radius, self.radius * 0.8, lead, rise)
            }
            Kind::FlyCutter => self.fly_cutter(),
            Kind::SlittingSaw { thickness } => self.saw(thickness.to_mm() * self.scale),
            Kind::Drill { point_angle } | Kind::SpotDrill { point_angle } => {
                self.pointed(cutter, (point_angle / 2.0).tan())
            }
            Kind::Countersink { included_angle } => self.countersink((included_angle / 2.0).tan()),
            Kind::Reamer => self.reamer(cutter),
            Kind::BoringHead => self.boring_bar(),
            Kind::EdgeFinder => self.edge_finder(),
            Kind::Tap { pitch } => self.tap(pitch.to_mm() * self.scale),
        };
        strokes + &self.sizes(cutter)
    }

    fn holder(&self, holder: Holder) -> String {
        let (y, x) = (self.axis, FACE);
        let half = (self.shank * 2.0).clamp(26.0, TALLEST / 2.0 + 6.0);
        let nose = (self.shank + 8.0).min(half);
        match holder {
            Holder::Collet => block("holder", &[(-4.0, half), (x - 26.0, half), (x, nose)], y),
            Holder::DrillChuck => {
                block("holder", &[(-4.0, half), (x - 38.0, half), (x, nose)], y)
                    + &line("flute", (x - 38.0, y - half), (x - 38.0, y + half))
            }
            Holder::SetScrew => {
                block("holder", &[(-4.0, half), (x, half)], y)
                    + &block("holder", &[(x - 34.0, 6.0), (x - 18.0, 6.0)], y - half)
            }
            Holder::Arbor => {
                block("holder", &[(-4.0, half), (x - 10.0, half), (x - 10.0, nose), (x, nose)], y)
            }
        }
    }

    /// The shank from the holder to a place.
    fn shank_to(&self, end: f64) -> String {
        if end - FACE < 1.0 {
            return String::new();
        }
        block("outline", &[(FACE, self.shank), (end, self.shank)], self.axis)
    }

    fn end_mill(&self, cutter: &Cutter, tip: Tip) -> String {
        let (r, y, end) = (self.radius, self.axis, self.tip);
        let rounded = match tip {
            Tip::Square => 0.0,
            Tip::Ball => r,
            Tip::CornerRadius(radius) => (radius.to_mm() * self.scale).min(r),
        };
        let body = format!(
            r#"<path class="outline" d="M{:.1} {:.1}H{:.1}A{rounded:.1} {rounded:.1} 0 0 1 {end:.1} {:.1}V{:.1}A{rounded:.1} {rounded:.1} 0 0 1 {:.1} {:.1}H{:.1}Z"/>"#,
            self.flutes,
            y - r,
            end - rounded,
            y - r + rounded,
            y + r - rounded,
            end - rounded,
            y + r,
            self.flutes
        );
        self.shank_to(self.flutes) + &body + &self.helices(cutter, end - rounded)
    }

    /// The edges as they wind over the side that is seen.
    fn helices(&self, cutter: &Cutter, end: f64) -> String {
        let (start, r) = (self.flutes + 2.0, self.radius - 2.0);
        let teeth = f64::from(cutter.teeth.clamp(1, 12));
        let twist = cutter.helix.tan();
        if r < 4.0 {
            return String::new();
        }
        if twist < 0.02 {
            return (0..cutter.teeth.clamp(1, 12))
                .map(|tooth| self.axis - r * libm::cos(PI * (f64::from(tooth) + 0.5) / teeth))
                .map(|y| line("flute", (start, y), (end, y)))
                .collect();
        }
        // One winding advances by the circumference over the tangent of the helix angle.
        let winding = 2.0 * PI * self.radius / twist;
        let mut strokes = String::new();
        let mut from = start - winding / 2.0;
        while from < end {
            let mut path = String::new();
            for step in 0..=48 {
                let angle = PI * f64::from(step) / 48.0;
                let (x, y) =
                    (from + winding * angle / (2.0 * PI), self.axis + r * libm::cos(angle));
                if (start..=end).contains(&x) {
                    let pen = if path.is_empty() { 'M' } else { 'L' };
                    let _ = write!(path, "{pen}{x:.1} {y:.1}");
                }
            }
            let _ = write!(strokes, r#"<path class="flute" d="{path}"/>"#);
            from += winding / teeth;
        }
        strokes
    }

    /// A drill: flutes, and a cone of which this is the tangent of half its angle.
    fn pointed(&self, cutter: &Cutter, half: f64) -> String {
        let shoulder = (self.tip - self.radius / half).max(self.flutes);
        self.shank_to(self.flutes)
            + &block(
                "outline",
                &[(self.flutes, self.radius), (shoulder, self.radius), (self.tip, 0.0)],
                self.axis,
            )
            + &self.helices(cutter, shoulder)
    }

    fn countersink(&self, half: f64) -> String {
        let shoulder = (self.tip - self.radius / half).max(FACE + 4.0);
        let land = (shoulder - self.radius * 0.3).max(FACE);
        let y = self.axis;
        self.shank_to(land)
            + &block("outline", &[(land, self.radius), (shoulder, self.radius), (self.tip, 0.0)], y)
            + &line("flute", (land, y - self.radius * 0.4), (self.tip, y))
            + &line("flute", (land, y + self.radius * 0.4), (self.tip, y))
    }

    fn reamer(&self, cutter: &Cutter) -> String {
        let lead = (self.radius * 0.4).min(self.tip - self.flutes);
        self.shank_to(self.flutes)
            + &block(
                "outline",
                &[
                    (self.flutes, self.radius),
                    (self.tip - lead, self.radius),
                    (self.tip, self.radius - lead),
                ],
                self.axis,
            )
            + &self.helices(cutter, self.tip - lead)
    }

    fn tap(&self, pitch: f64) -> String {
        let pitch = pitch.max(5.0);
        let deep = (pitch * 0.6).min(self.radius * 0.4);
        let mut profile = vec![(self.flutes, self.radius - deep)];
        let mut x = self.flutes;
        while x + pitch <= self.tip {
            // The first three threads of the lead are ground away towards the tip.
            let ground = ((x + pitch * 4.0 - self.tip) / (pitch * 4.0)).max(0.0) * deep;
            profile.push((x + pitch / 2.0, self.radius - ground));
            profile.push((x + pitch, self.radius - deep - ground * 0.5));
            x += pitch;
        }
        self.shank_to(self.flutes)
            + &block("outline", &profile, self.axis)
            + &line("flute", (self.flutes, self.axis), (self.tip, self.axis))
    }

    /// A head at the end of the shank: radius, length, and how its end is drawn in.
    fn head(&self, radius: f64, long: f64, lead: f64, rise: f64) -> String {
        let start = (self.tip - long).max(FACE);
        let mut strokes = self.shank_to(start);
        strokes += &block(
            "outline",
            &[(start, radius * 0.8), (self.tip - rise, radius), (self.tip, radius - lead)],
            self.axis,
        );
        for side in [-1.0, 1.0] {
            let y = self.axis + side * radius * 0.55;
            strokes += &line("flute", (self.tip - rise, y), (self.tip, y));
        }
        strokes
    }

    fn fly_cutter(&self) -> String {
        let (r, y, end) = (self.radius, self.axis, self.tip);
        let head = (r * 0.7).max(self.shank);
        let start = (end - head * 0.9).max(FACE);
        let bit = format!(
            r#"<path class="outline" d="M{:.1} {:.1}L{end:.1} {:.1}L{:.1} {:.1}L{:.1} {:.1}Z"/>"#,
            start + 6.0,
            y + head * 0.45,
            y + r - 4.0,
            end + 6.0,
            y + r,
            start + 18.0,
            y + head * 0.25
        );
        self.shank_to(start) + &block("outline", &[(start, head), (end - 8.0, head)], y) + &bit
    }

    fn saw(&self, thickness: f64) -> String {
        let blade = thickness.max(3.0);
        let flange = (self.shank * 1.4).min(self.radius * 0.7);
        let (y, end) = (self.axis, self.tip);
        self.shank_to(end - blade - 8.0)
            + &block("outline", &[(end - blade - 8.0, flange), (end, flange)], y)
            + &block("outline", &[(end - blade - 4.0, self.radius), (end - 4.0, self.radius)], y)
    }

    fn boring_bar(&self) -> String {
        let (y, end) = (self.axis, self.tip);
        let bar = self.shank.min(self.radius * 0.8);
        // The bar stands off the axis so that its bit reaches the bore.
        let middle = y + self.radius - bar - 6.0;
        block("outline", &[(FACE, bar), (end, bar)], middle)
            + &format!(
                r#"<path class="outline" d="M{:.1} {:.1}H{end:.1}V{:.1}Z"/>"#,
                end - 14.0,
                middle + bar,
                y + self.radius
            )
            + &line("axis", (FACE, y), (end + 6.0, y))
    }

    fn edge_finder(&self) -> String {
        let neck = FACE + (self.tip - FACE) * 0.55;
        let (y, r) = (self.axis, self.radius);
        // The tip stands off the axis, as it does before it touches.
        block("outline", &[(FACE, self.shank), (neck, self.shank)], y)
            + &block("outline", &[(neck, r * 0.6), (neck + 8.0, r * 0.6)], y + 3.0)
            + &block("outline", &[(neck + 8.0, r), (self.tip, r)], y + 6.0)
    }

    /// The diameter at the tip, and a rule along the stick-out.
    fn sizes(&self, cutter: &Cutter) -> String {
        let (y, r, edge) = (self.axis, self.radius, self.rule());
        let across = self.tip + 18.0;
        let mut sizes = line("size", (across, y - r), (across, y + r));
        for end in [y - r, y + r] {
            sizes += &line("size", (across - 6.0, end), (across + 6.0, end));
        }
        let diameter = rounding::length(cutter.diameter, self.system).digits;
        let stickout = rounding::length(cutter.stickout, self.system);
        let _ = write!(
            sizes,
            r#"<text class="size-text" x="{:.1}" y="{:.1}">{diameter}</text>"#,
            across + 11.0,
            y + 6.0
        );
        sizes += &line("size", (FACE, edge), (self.tip, edge));
        let (tick, long) = self.ticks();
        let mut count = 0_u32;
        while f64::from(count) * tick <= self.tip - FACE + 0.01 {
            let x = FACE + f64::from(count) * tick;
            let reach = if count.is_multiple_of(long) { 14.0 } else { 7.0 };
            sizes += &line("size", (x, edge), (x, edge + reach));
            count += 1;
        }
        let _ = write!(sizes, r#"<text x="{FACE}" y="{:.1}">{stickout}</text>"#, edge + 34.0);
        sizes
    }

    /// Pixels from tick to tick of the rule, and how many to a long one: the finest that an eye
    /// can still part.
    fn ticks(&self) -> (f64, u32) {
        let steps_mm: &[(f64, u32)] = match self.system {
            System::Inch => &[(1.27, 2), (2.54, 5), (12.7, 2), (25.4, 4)],
            System::Metric => &[(0.5, 2), (1.0, 5), (5.0, 2), (10.0, 5)],
        };
        let fits = |&&(mm, _): &&(f64, u32)| mm * self.scale >= 5.0;
        let &(mm, long) = steps_mm.iter().find(fits).unwrap_or(&steps_mm[steps_mm.len() - 1]);
        ((mm * self.scale).max(3.0), long)
    }
}

/// A body turned about an axis: its outline by place and radius.
fn block(class: &str, outline: &[(f64, f64)], axis: f64) -> String {
    let mut path = String::new();
    let above = outline.iter().map(|&(x, r)| (x, axis - r));
    let below = outline.iter().rev().map(|&(x, r)| (x, axis + r));
    for (x, y) in above.chain(below) {
        let pen = if path.is_empty() { 'M' } else { 'L' };
        // A string takes whatever is written to it.
        let _ = write!(path, "{pen}{x:.1} {y:.1}");
    }
    format!(r#"<path class="{class}" d="{path}Z"/>"#)
}

fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> String {
    format!(r#"<path class="{class}" d="M{:.1} {:.1}L{:.1} {:.1}"/>"#, from.0, from.1, to.0, to.1)
}
