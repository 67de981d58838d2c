//! The profile of a tapped hole, to scale, with the hole that is drilled for it.

use core::fmt::Write;

use leptos::prelude::*;

/// Pixels: the picture, the part of it that is drawn, and a pitch.
const WIDTH: f64 = 306.0;
const DRAWN: f64 = 168.0;
const PITCH: f64 = 96.0;
/// Where the major diameter lies, and the wall ends above it.
const MAJOR: f64 = 48.0;
const WALL: f64 = 10.0;
/// Open hole under the deepest of what is drawn.
const OPEN: f64 = 34.0;
/// Two lines of letters this close meet.
const LINE: f64 = 21.0;

/// A thread and the hole drilled for it, all in one unit of length.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Major diameter of the hole.
    pub major: f64,
    /// Pitch.
    pub pitch: f64,
    /// Half the angle between the flanks, degrees.
    pub half_angle_degree: f64,
    /// Flat at the major diameter, as a share of the pitch.
    pub root_flat: f64,
    /// Diameter of the hole that is drilled.
    pub hole: f64,
    /// Least and greatest minor diameter of the class, where there is one.
    pub class: Option<(f64, f64)>,
    /// What the class is called.
    pub class_name: &'static str,
}

/// The picture. The wall is solid, the drilled hole is filled, the band of the class stands at
/// its side.
#[component]
pub fn ThreadPicture(
    /// What is drawn; nothing while there is no hole.
    #[prop(into)]
    profile: Signal<Option<Profile>>,
    /// The same in words.
    #[prop(into)]
    words: Signal<String>,
) -> impl IntoView {
    move || {
        let profile = profile.get().filter(Profile::can_be_drawn)?;
        Some(view! {
            <figure class="thread-picture">
                <svg
                    class="picture"
                    viewBox=format!("0 0 {WIDTH} {:.0}", profile.height())
                    aria-hidden="true"
                    focusable="false"
                    inner_html=profile.strokes()
                ></svg>
                <figcaption>{move || words.get()}</figcaption>
            </figure>
        })
    }
}

impl Profile {
    fn can_be_drawn(&self) -> bool {
        self.pitch > 0.0 && self.hole > 0.0 && self.hole < self.major
    }

    /// Place of a diameter, downwards.
    fn y(&self, diameter: f64) -> f64 {
        MAJOR + (self.major - diameter) / 2.0 / self.pitch * PITCH
    }

    fn height(&self) -> f64 {
        let deepest = self.class.map_or(self.hole, |(least, _)| least.min(self.hole));
        self.y(deepest) + OPEN
    }

    /// The whole picture as markup; it holds numbers and the name of the class only.
    fn strokes(&self) -> String {
        let (hole, height) = (self.y(self.hole), self.height());
        let slope = libm::tan(self.half_angle_degree.to_radians());
        let flat = self.root_flat * PITCH / 2.0;
        let flank = (hole - MAJOR) * slope;
        let mut edge = format!("M-4 {WALL}V{hole:.1}");
        let mut middle = PITCH * 0.42;
        while middle - flat - flank < DRAWN {
            for (x, y) in [
                (middle - flat - flank, hole),
                (middle - flat, MAJOR),
                (middle + flat, MAJOR),
                (middle + flat + flank, hole),
            ] {
                let _ = write!(edge, "L{x:.1} {y:.1}");
            }
            middle += PITCH;
        }
        let _ = write!(edge, "H{:.1}V{WALL}Z", DRAWN + PITCH);
        let mut strokes = format!(
            r#"<svg x="0" y="0" width="{DRAWN}" height="{height:.1}"><rect class="hole" x="0" y="{hole:.1}" width="{DRAWN}" height="{:.1}"/><path class="outline" d="{edge}"/></svg>"#,
            height - hole
        );
        strokes += &line("size", (0.0, MAJOR), (DRAWN + 20.0, MAJOR));
        strokes += &line("size", (0.0, hole), (DRAWN + 20.0, hole));
        let mut label = hole;
        if let Some((least, greatest)) = self.class {
            let (top, foot) = (self.y(greatest), self.y(least));
            let _ = write!(
                strokes,
                r#"<rect class="band" x="{:.1}" y="{top:.1}" width="12" height="{:.1}"/>"#,
                DRAWN + 4.0,
                (foot - top).max(2.0)
            );
            let middle = f64::midpoint(top, foot);
            // The words of the hole give way to the side they are on.
            if (label - middle).abs() < LINE {
                label = if hole > middle { middle + LINE } else { middle - LINE };
            }
            strokes += &text(middle, self.class_name);
        }
        if label - MAJOR < LINE {
            label = MAJOR + LINE;
        }
        strokes + &text(MAJOR, "major") + &text(label, "your hole")
    }
}

fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> String {
    format!(
        r#"<line class="{class}" x1="{:.1}" y1="{:.1}" x2="{:.1}" y2="{:.1}"/>"#,
        from.0, from.1, to.0, to.1
    )
}

fn text(y: f64, words: &str) -> String {
    format!(r#"<text x="{:.1}" y="{:.1}">{words}</text>"#, DRAWN + 26.0, y + 6.0)
}
