//! Line drawings of the things of the trade, all in one line weight on a square of 44.
//!
//! A drawing takes the colour of the text beside it; strokes of class `cut` take the accent.

use leptos::prelude::*;

use crate::{
    engine::question::{Feeding, Holder},
    shop::{
        cuts::{CutterKind, OperationKind, TipShape},
        holes::FinishKind,
        layout::Shape,
        setup::Helper,
    },
};

/// A drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is named after what it shows")]
pub enum Sketch {
    // Signs
    Back,
    Tick,
    Minus,
    Plus,
    Backspace,
    Unfold,
    Star,
    StarFilled,
    // Doors
    Cut,
    Thread,
    Convert,
    Layout,
    SetUp,
    Plan,
    Check,
    Pace,
    Drawers,
    Settings,
    About,
    // Machine and stock
    Mill,
    Handwheel,
    Stock,
    // Cutters
    EndMill,
    BallEndMill,
    RoundedEndMill,
    FaceMill,
    FlyCutter,
    SlittingSaw,
    Drill,
    SpotDrill,
    Reamer,
    Countersink,
    BoringHead,
    EdgeFinder,
    Tap,
    // Holders
    Collet,
    SetScrewHolder,
    DrillChuck,
    Arbor,
    // Operations
    Slotting,
    SideMilling,
    Facing,
    Plunging,
    Drilling,
    Spotting,
    Reaming,
    Countersinking,
    Sawing,
    Boring,
    FindingEdge,
    Tapping,
    // Holes
    ClearanceHole,
    Counterboring,
    // Ways to feed
    Conventional,
    Climb,
    // Ways to turn, seen from above
    Clockwise,
    CounterClockwise,
    // Help
    StopButton,
    // Patterns of holes
    PartCircle,
    Row,
    Grid,
    Rectangle,
    Points,
    RadiusAngle,
    SteppedArc,
    // Set-ups
    TwoTouches,
    Strap,
    Head,
    Vise,
    Wall,
    WiderSlot,
    DrillExit,
    SineBar,
}

impl Sketch {
    /// The drawing at its usual size.
    #[must_use]
    pub fn draw(self) -> AnyView {
        self.draw_as("sketch")
    }

    /// The drawing as large as a sign within a button.
    #[must_use]
    pub fn draw_small(self) -> AnyView {
        self.draw_as("sketch small")
    }

    /// The drawing with a class of its own.
    #[must_use]
    pub fn draw_as(self, class: &'static str) -> AnyView {
        view! {
            <svg
                class=class
                viewBox="0 0 44 44"
                aria-hidden="true"
                focusable="false"
                inner_html=self.strokes()
            ></svg>
        }
        .into_any()
    }

    fn strokes(self) -> &'static str {
        match self {
            Self::Back => r#"<path d="M28 7 13 22l15 15"/>"#,
            Self::Tick => {
                r#"<path d="M11 23l8 8 14-16" fill="none" stroke="currentColor" stroke-width="5" stroke-linecap="round" stroke-linejoin="round"/>"#
            }
            Self::Clockwise => {
                r#"<path d="M12.4 29.2A12 12 0 1 1 31.6 29.2M31.6 29.2l7.6-2.5M31.6 29.2l.3-8"/><circle class="cut" cx="22" cy="22" r="3.5"/>"#
            }
            Self::CounterClockwise => {
                r#"<path d="M31.6 29.2A12 12 0 1 0 12.4 29.2M12.4 29.2l-7.6-2.5M12.4 29.2l-.3-8"/><circle class="cut" cx="22" cy="22" r="3.5"/>"#
            }
            Self::PartCircle => {
                r#"<path class="thin" stroke-dasharray="4 5" d="M6 34A20 20 0 0 1 38 34"/><circle cx="7" cy="30" r="3.5"/><circle cx="15" cy="17.5" r="3.5"/><circle cx="29" cy="17.5" r="3.5"/><circle cx="37" cy="30" r="3.5"/><path d="M22 30v8M18 34h8"/>"#
            }
            Self::Row => {
                r#"<circle cx="7" cy="30" r="3.5"/><circle cx="17" cy="25" r="3.5"/><circle cx="27" cy="20" r="3.5"/><circle cx="37" cy="15" r="3.5"/>"#
            }
            Self::Grid => {
                r#"<circle cx="9" cy="10" r="3.5"/><circle cx="22" cy="10" r="3.5"/><circle cx="35" cy="10" r="3.5"/><circle cx="9" cy="22" r="3.5"/><circle cx="22" cy="22" r="3.5"/><circle cx="35" cy="22" r="3.5"/><circle cx="9" cy="34" r="3.5"/><circle cx="22" cy="34" r="3.5"/><circle cx="35" cy="34" r="3.5"/>"#
            }
            Self::Rectangle => {
                r#"<path class="thin" stroke-dasharray="4 5" d="M8 12h28v20H8Z"/><circle cx="8" cy="12" r="3.5"/><circle cx="22" cy="12" r="3.5"/><circle cx="36" cy="12" r="3.5"/><circle cx="8" cy="32" r="3.5"/><circle cx="22" cy="32" r="3.5"/><circle cx="36" cy="32" r="3.5"/>"#
            }
            Self::Points => {
                r#"<path d="M5 40V6M5 40h34"/><circle cx="15" cy="30" r="3.5"/><circle cx="22" cy="14" r="3.5"/><circle cx="35" cy="23" r="3.5"/>"#
            }
            Self::RadiusAngle => {
                r#"<path d="M6 37h34M6 37 31 12M22 37a16 16 0 0 0-4.7-11.3"/><circle cx="34" cy="9" r="3.5"/>"#
            }
            Self::SteppedArc => {
                r#"<path d="M10 40V26a16 16 0 0 1 16-16h14"/><path class="cut" d="M4 34V24l5-11 11-8 10-2"/>"#
            }
            Self::TwoTouches => {
                r#"<path d="M13 12h18v20H13Z"/><circle class="cut" cx="7" cy="22" r="5"/><circle class="cut" cx="37" cy="22" r="5"/><path class="thin" stroke-dasharray="4 4" d="M22 4v36"/>"#
            }
            Self::Strap => {
                r#"<path d="M3 38h38M4 38V24h12v14M32 38V24h7v14M8 18h32v6H8ZM20 38V8M16 14h8"/>"#
            }
            Self::Head => {
                r#"<path d="M3 40h38M17 5l12 3-4 17-12-3ZM8 26l26 7"/><circle cx="8" cy="30" r="4"/><circle cx="35" cy="34" r="4"/>"#
            }
            Self::Vise => {
                r#"<path d="M4 14 40 8v9L4 23Z"/><circle cx="22" cy="33" r="6"/><path d="M22 27v-7M22 33l3-3"/>"#
            }
            Self::Wall => {
                r#"<path d="M26 4v36M26 4h14M26 40h14"/><circle class="cut" cx="15" cy="22" r="11"/><path class="thin" d="M15 18v8M11 22h8"/>"#
            }
            Self::WiderSlot => {
                r#"<path d="M8 4v36M36 4v36"/><circle class="cut" cx="18" cy="15" r="9"/><circle class="cut" cx="26" cy="29" r="9"/>"#
            }
            Self::DrillExit => {
                r#"<path d="M3 41h38M6 12h32v12H6ZM9 24v17M35 24v17"/><path class="cut" d="M18 4v24l4 5 4-5V4"/>"#
            }
            Self::SineBar => {
                r#"<path d="M3 40h38M9 36 34 18M30 40V26h9v14"/><circle cx="9" cy="36" r="4"/><circle cx="34" cy="20" r="4"/>"#
            }
            Self::StopButton => {
                r#"<path d="M5 38h34M12 38v-8h20v8M8 30a14 14 0 0 1 28 0Z"/><path class="cut" d="M22 6v6"/>"#
            }
            Self::Minus => r#"<path d="M9 22h26"/>"#,
            Self::Plus => r#"<path d="M22 9v26M9 22h26"/>"#,
            Self::Backspace => r#"<path d="M15 9h25v26H15L4 22ZM21 16l12 12M33 16 21 28"/>"#,
            Self::Unfold => r#"<path d="M9 16l13 13 13-13"/>"#,
            Self::Star => {
                r#"<path d="M22 5l5.2 10.9 11.8 1.6-8.6 8.3 2.1 11.9L22 32l-10.5 5.7 2.1-11.9L5 17.5l11.8-1.6Z"/>"#
            }
            Self::StarFilled => {
                r#"<path d="M22 5l5.2 10.9 11.8 1.6-8.6 8.3 2.1 11.9L22 32l-10.5 5.7 2.1-11.9L5 17.5l11.8-1.6Z" fill="currentColor"/>"#
            }
            Self::Cut => {
                r#"<path d="M17 3h10v10H17ZM15 13h14v19H15ZM15 23l14-9M15 32l14-9M3 24h12M15 32v7h26V24H29"/>"#
            }
            Self::Thread => {
                r#"<path d="M13 5l-3 4 3 4-3 4 3 4-3 4 3 4-3 4 3 4h18l3-4-3-4 3-4-3-4 3-4-3-4 3-4-3-4ZM13 13l18-4M13 21l18-4M13 29l18-4M13 37l18-4"/>"#
            }
            Self::Convert => {
                r#"<path d="M3 13h38v18H3ZM10 13v6M16 13v6M22 13v10M28 13v6M34 13v6"/>"#
            }
            Self::Layout => {
                r#"<circle cx="22" cy="22" r="14" class="thin" stroke-dasharray="4 5"/><circle cx="22" cy="7" r="3.5"/><circle cx="36.3" cy="17.4" r="3.5"/><circle cx="30.8" cy="34.1" r="3.5"/><circle cx="13.2" cy="34.1" r="3.5"/><circle cx="7.7" cy="17.4" r="3.5"/><path d="M22 18v8M18 22h8"/>"#
            }
            Self::SetUp => {
                r#"<path d="M3 38h38M4 38V16h8v22M40 38V16h-8v22M12 10h20v16H12ZM15 26v12M19 26v12M25 26v12M29 26v12"/>"#
            }
            Self::Plan => r#"<path d="M4 7h19v7H4ZM14 19h25v7H14ZM8 31h16v7H8Z"/>"#,
            Self::Check => r#"<path d="M4 12l5 5 8-10M23 12h18M4 31l5 5 8-10M23 31h18"/>"#,
            Self::Pace => {
                r#"<path d="M4 34a18 18 0 0 1 36 0M22 34 31 19M4 34h3M40 34h-3M9.3 21.3l2.1 2.1M22 16v3"/><circle cx="22" cy="34" r="2" class="solid"/>"#
            }
            Self::Drawers => {
                r#"<path d="M5 5h34v34H5ZM5 16.5h34M5 27.5h34M18 11h8M18 22h8M18 33h8"/>"#
            }
            Self::Settings => {
                r#"<path d="M4 12h17M31 12h9M4 32h6M20 32h20"/><circle cx="26" cy="12" r="5"/><circle cx="15" cy="32" r="5"/>"#
            }
            Self::About => r#"<path d="M9 4h19l8 8v28H9ZM28 4v8h8M16 22h13M16 31h13"/>"#,
            Self::Mill => {
                r#"<path d="M29 39V4h8v35M29 7H12v14h17M17 21v5h7v-5M20.5 26v4M4 32h25M4 32v4h25M3 40h38"/>"#
            }
            Self::Handwheel => {
                r#"<circle cx="22" cy="23" r="17"/><circle cx="22" cy="23" r="4"/><path d="M22 19V6M18.5 25 7.3 31.5M25.5 25l11.2 6.5"/><circle cx="32" cy="10" r="4.5" fill="currentColor"/>"#
            }
            Self::Stock => r#"<path d="M4 15 22 6l18 9v15l-18 9-18-9ZM4 15l18 9 18-9M22 24v15"/>"#,
            Self::EndMill => {
                r#"<path d="M16 3h12v12H16ZM15 15h14v26H15ZM15 25l14-9M15 34l14-9M20 41l9-7"/>"#
            }
            Self::BallEndMill => {
                r#"<path d="M16 3h12v12H16ZM15 15h14v18.5a7 7 0 0 1-14 0ZM15 25l14-9M15 34l14-9"/>"#
            }
            Self::RoundedEndMill => {
                r#"<path d="M16 3h12v12H16ZM15 15h14v22a4 4 0 0 1-4 4h-6a4 4 0 0 1-4-4ZM15 25l14-9M15 34l14-9M20 41l9-7"/>"#
            }
            Self::FaceMill => {
                r#"<path d="M17 3h10v9H17ZM10 12h24l4 16H6ZM6 28v8h7l2-8M38 28v8h-7l-2-8M18 28v8h8v-8"/>"#
            }
            Self::FlyCutter => r#"<path d="M17 3h10v9H17ZM9 12h26v13H9ZM13 25 6 40h7l8-15"/>"#,
            Self::SlittingSaw => {
                r#"<path d="M19 3h6v27h-6ZM4 30h36l-3 3 3 3H4l3-3ZM18 36v5h8v-5"/>"#
            }
            Self::Drill => {
                r#"<path d="M17 3h10v10H17ZM16 13h12v21l-6 7-6-7ZM16 23l12-8M16 33l12-8"/>"#
            }
            Self::SpotDrill => r#"<path d="M14 3h16v14H14ZM14 17v10l8 12 8-12V17M22 39V24"/>"#,
            Self::Reamer => {
                r#"<path d="M18 3h8v10h-8ZM15 13h14v24l-3 4h-8l-3-4ZM20 13v28M24 13v28"/>"#
            }
            Self::Countersink => {
                r#"<path d="M17 3h10v13H17ZM7 16h30v6L22 40 7 22ZM22 40V22M22 40 14 22M22 40l8-18"/>"#
            }
            Self::BoringHead => {
                r#"<path d="M17 3h10v7H17ZM7 10h30v13H7ZM18 10v13M30 23v18h-7l-4-3 4-3V23"/>"#
            }
            Self::EdgeFinder => r#"<path d="M15 3h14v18H15ZM19 21v5M25 21v5M18 26h14v15H18Z"/>"#,
            Self::Tap => {
                r#"<path d="M18 3h8v6h-8ZM17 9h10v7H17ZM17 16l-3 3 3 3-3 3 3 3-2 3 3 3-2 3 2 4h8l2-4-2-3 3-3-2-3 3-3-3-3 3-3-3-3"/>"#
            }
            Self::Collet => {
                r#"<path d="M11 4h22l-4 26H15ZM22 14v16M17 14v16M27 14v16M18 30v11h8V30"/>"#
            }
            Self::SetScrewHolder => {
                r#"<path d="M9 4h22v27H9ZM31 13h5M31 20h5M36 10v13h5V10ZM15 31v10h10V31"/>"#
            }
            Self::DrillChuck => {
                r#"<path d="M17 3h10v6H17ZM9 9h26v13H9ZM11 22l5 11h12l5-11M15 9v13M22 9v13M29 9v13M19 33v8h6v-8"/>"#
            }
            Self::Arbor => {
                r#"<path d="M18 3h8v21h-8ZM15 24h14v5H15ZM4 29h36v5H4ZM15 34h14v5H15Z"/>"#
            }
            Self::Slotting => {
                r#"<path d="M13 19H3v21h38V19H31"/><path class="cut" d="M13 4h18v28H13ZM13 15l18-9M13 24l18-9M16 32l15-8"/>"#
            }
            Self::SideMilling => {
                r#"<path d="M20 18H3v22h38v-6"/><path class="cut" d="M20 4h16v30H20ZM20 14l16-8M20 24l16-8M20 34l16-8"/>"#
            }
            Self::Facing => {
                r#"<path d="M10 19H3v21h38V25h-7"/><path class="cut" d="M18 3h8v8h-8ZM10 11h24v14H10Z"/>"#
            }
            Self::Plunging => {
                r#"<path d="M11 20H3v20h38V20H27M35 3v11M30.5 10l4.5 5 4.5-5"/><path class="cut" d="M11 4h16v28H11ZM11 15l16-9M11 25l16-9"/>"#
            }
            Self::Drilling => {
                r#"<path d="M15 19H3v21h38V19H29"/><path class="cut" d="M15 4h14v23l-7 7-7-7ZM15 14l14-8M15 25l14-8"/>"#
            }
            Self::Spotting => {
                r#"<path d="M15 22H3v18h38V22H29"/><path class="cut" d="M13 4h18v15l-9 11-9-11Z"/>"#
            }
            Self::Reaming => {
                r#"<path d="M15 18H3v22h12ZM29 18h12v22H29Z"/><path class="cut" d="M15 4h14v32H15ZM20 4v32M24 4v32"/>"#
            }
            Self::Countersinking => {
                r#"<path d="M13 22H3v18h15V28M31 22h10v18H26V28"/><path class="cut" d="M18 3h8v9h-8ZM9 12h26v6L25 30h-6L9 18Z"/>"#
            }
            Self::Sawing => {
                r#"<path d="M23 19V9H3v31h20V25"/><path class="cut" d="M12 19h30v6H12ZM29 4v15M35 4v15M29 25v12M35 25v12"/>"#
            }
            Self::Boring => {
                r#"<path d="M3 18h7v22H3ZM41 18h-7v22h7Z"/><path class="cut" d="M17 3h14v7H17ZM27 10v24H15l-5-3 5-3h4V10"/>"#
            }
            Self::FindingEdge => {
                r#"<path d="M3 22h18v18H3Z"/><path class="cut" d="M20 3h14v14H20ZM25 17v5M29 17v5M21 22h14v16H21Z"/>"#
            }
            Self::Tapping => {
                r#"<path d="M14 18H3v22h38V18H30"/><path class="cut" d="M17 3h10v9H17ZM16 12l-3 3 3 3-3 3 3 3-3 3 3 3-2 4h14l-2-4 3-3-3-3 3-3-3-3 3-3-3-3Z"/>"#
            }
            Self::ClearanceHole => {
                r#"<path d="M12 20H3v20h9ZM32 20h9v20h-9Z"/><path class="cut" d="M12 4h20v9H12ZM18 13h8v28h-8ZM18 31l8-4M18 37l8-4"/>"#
            }
            Self::Counterboring => {
                r#"<path d="M10 17H3v24h14V28h-7M34 17h7v24H27V28h7"/><path class="cut" d="M19 3h6v8M19 11V3M10 11h24v17H10ZM19 28h6v11h-6Z"/>"#
            }
            Self::Conventional => {
                r#"<path d="M3 27h38v14H3ZM12 34h19M26 29.5l5.5 4.5-5.5 4.5"/><path class="cut" d="M27 8.2A9.5 9.5 0 1 1 17.5 8.2M11.5 7.7 17.5 8.2 15 13.6"/>"#
            }
            Self::Climb => {
                r#"<path d="M3 27h38v14H3ZM32 34H13M18 29.5 12.5 34l5.5 4.5"/><path class="cut" d="M27 8.2A9.5 9.5 0 1 1 17.5 8.2M11.5 7.7 17.5 8.2 15 13.6"/>"#
            }
        }
    }
}

impl From<CutterKind> for Sketch {
    fn from(kind: CutterKind) -> Self {
        match kind {
            CutterKind::EndMill => Self::EndMill,
            CutterKind::FaceMill => Self::FaceMill,
            CutterKind::FlyCutter => Self::FlyCutter,
            CutterKind::SlittingSaw => Self::SlittingSaw,
            CutterKind::Drill => Self::Drill,
            CutterKind::SpotDrill => Self::SpotDrill,
            CutterKind::Reamer => Self::Reamer,
            CutterKind::Countersink => Self::Countersink,
            CutterKind::BoringHead => Self::BoringHead,
            CutterKind::EdgeFinder => Self::EdgeFinder,
            CutterKind::Tap => Self::Tap,
        }
    }
}

impl From<TipShape> for Sketch {
    fn from(tip: TipShape) -> Self {
        match tip {
            TipShape::Square => Self::EndMill,
            TipShape::Ball => Self::BallEndMill,
            TipShape::CornerRadius => Self::RoundedEndMill,
        }
    }
}

impl From<OperationKind> for Sketch {
    fn from(operation: OperationKind) -> Self {
        match operation {
            OperationKind::Slot => Self::Slotting,
            OperationKind::Side => Self::SideMilling,
            OperationKind::Face => Self::Facing,
            OperationKind::Plunge => Self::Plunging,
            OperationKind::Drill => Self::Drilling,
            OperationKind::Spot => Self::Spotting,
            OperationKind::Ream => Self::Reaming,
            OperationKind::Countersink => Self::Countersinking,
            OperationKind::Saw => Self::Sawing,
            OperationKind::Bore => Self::Boring,
            OperationKind::FindEdge => Self::FindingEdge,
            OperationKind::Tap => Self::Tapping,
        }
    }
}

impl From<FinishKind> for Sketch {
    fn from(finish: FinishKind) -> Self {
        match finish {
            FinishKind::Plain => Self::Drilling,
            FinishKind::Clearance => Self::ClearanceHole,
            FinishKind::Reamed => Self::Reaming,
            FinishKind::Tapped => Self::Tapping,
            FinishKind::Counterbored => Self::Counterboring,
            FinishKind::Countersunk => Self::Countersinking,
        }
    }
}

impl From<Shape> for Sketch {
    fn from(shape: Shape) -> Self {
        match shape {
            Shape::Circle => Self::Layout,
            Shape::Arc => Self::PartCircle,
            Shape::Row => Self::Row,
            Shape::Grid => Self::Grid,
            Shape::Rectangle => Self::Rectangle,
            Shape::List => Self::Points,
            Shape::Polar => Self::RadiusAngle,
            Shape::Steps => Self::SteppedArc,
        }
    }
}

impl From<Helper> for Sketch {
    fn from(helper: Helper) -> Self {
        match helper {
            Helper::Face => Self::FindingEdge,
            Helper::Middle => Self::TwoTouches,
            Helper::Parallels => Self::SetUp,
            Helper::Strap => Self::Strap,
            Helper::Head => Self::Head,
            Helper::Vise => Self::Vise,
            Helper::Wall => Self::Wall,
            Helper::Slot => Self::WiderSlot,
            Helper::Exit => Self::DrillExit,
            Helper::Sine => Self::SineBar,
        }
    }
}

impl From<Holder> for Sketch {
    fn from(holder: Holder) -> Self {
        match holder {
            Holder::Collet => Self::Collet,
            Holder::SetScrew => Self::SetScrewHolder,
            Holder::DrillChuck => Self::DrillChuck,
            Holder::Arbor => Self::Arbor,
        }
    }
}

impl From<Feeding> for Sketch {
    fn from(feeding: Feeding) -> Self {
        match feeding {
            Feeding::Conventional => Self::Conventional,
            Feeding::Climb => Self::Climb,
        }
    }
}
