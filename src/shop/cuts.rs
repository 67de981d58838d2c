//! The cut form: everything a screen asks about a cut, as it was typed and chosen.
//!
//! [`crate::shop::reading`] makes the engine's question of it, [`crate::shop::usual`] fills in what
//! was skipped, [`crate::shop::link`] writes it as an address and reads it back.

use crate::{
    engine::{
        cutters::ToolMaterial,
        question::{Coolant, Field, Holder, Style},
        stock,
    },
    shop::{
        typed::{Typed, typed_at},
        usual,
        word::{self, Word, words},
    },
};
use serde::{Deserialize, Serialize};

/// What is on the mill now: the state that every tool reads.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mill {
    /// Id of the machine among the owner's.
    pub machine: String,
    /// Id of the stock in the table of materials.
    pub stock: String,
    /// The cutter.
    pub cutter: CutterForm,
    /// How it is held.
    pub holding: Holding,
}

/// A cutter as entered. An empty text stands for the usual.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutterForm {
    /// What the owner calls it; may stay empty.
    pub name: String,
    /// Kind.
    #[serde(with = "word::saved")]
    pub kind: CutterKind,
    /// What it is made of.
    #[serde(with = "word::saved")]
    pub material: ToolMaterial,
    /// A hard coating.
    pub coated: bool,
    /// Diameter that cuts: outside, swept or bored.
    pub diameter: Typed,
    /// Teeth or flutes.
    pub teeth: Typed,
    /// Length of the flutes.
    pub flute_length: Typed,
    /// Diameter of the shank.
    pub shank: Typed,
    /// Helix angle.
    pub helix: Typed,
    /// Shape of an end mill's tip.
    #[serde(with = "word::saved")]
    pub tip: TipShape,
    /// Radius of rounded corners.
    pub corner_radius: Typed,
    /// Can an end mill go straight down? Open where the owner has not looked.
    pub center_cutting: Option<bool>,
    /// Entering angle of a face mill.
    pub entering_angle: Typed,
    /// Included angle of the point of a drill, spot drill or countersink.
    pub point_angle: Typed,
    /// Thickness of a saw.
    pub thickness: Typed,
    /// Pitch of a tap.
    pub pitch: Typed,
}

/// How a cutter is held. An empty text stands for the usual.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Holding {
    /// What holds it; the usual one of its kind while open.
    #[serde(with = "word::saved_open")]
    pub holder: Option<Holder>,
    /// How far it stands out.
    pub stickout: Typed,
    /// Total indicator reading.
    pub runout: Typed,
    /// The edge is worn.
    pub worn: bool,
}

/// A cut as entered, with what is on the mill for it. An empty text stands for the usual.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutForm {
    /// What is on the mill.
    pub mill: Mill,
    /// Operation.
    #[serde(with = "word::saved")]
    pub operation: OperationKind,
    /// Radial width; stock on the radius when boring.
    pub width: Typed,
    /// Whole depth.
    pub depth: Typed,
    /// Length along the feed; without it there is no time.
    pub length: Typed,
    /// Diameter of a pilot hole; empty for a hole from solid.
    pub pilot: Typed,
    /// Diameter of the hole that a countersink finds.
    pub hole: Typed,
    /// A drilled hole goes through.
    pub through: bool,
    /// The last pass that makes size and surface.
    pub finish: bool,
    /// Fed with the cutter instead of against it.
    pub climb: bool,
    /// What is put on it; the usual one of the stock while open.
    #[serde(with = "word::saved_open")]
    pub coolant: Option<Coolant>,
    /// How hard to push.
    #[serde(with = "word::saved")]
    pub style: Style,
    /// What was noted after earlier cuts of this kind counts.
    #[serde(default = "yes", skip_serializing_if = "Clone::clone")]
    pub heeds_notes: bool,
    /// Figures of the person's own.
    pub own: OwnForm,
}

/// Figures of the person's own as entered. An empty text leaves the figure to the tables.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnForm {
    /// Spindle speed.
    pub spindle_speed: Typed,
    /// Surface speed.
    pub surface_speed: Typed,
    /// Feed per tooth, or per turn.
    pub feed: Typed,
    /// Chip thickness.
    pub chip: Typed,
    /// Passes or pecks.
    pub passes: Typed,
    /// Specific cutting force.
    pub cutting_force: Typed,
    /// Unit power.
    pub unit_power: Typed,
}

/// The operations.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the engine's operation of that name")]
pub enum OperationKind {
    #[default]
    Slot,
    Side,
    Face,
    Plunge,
    Drill,
    Spot,
    Ream,
    Countersink,
    Saw,
    Bore,
    FindEdge,
    Tap,
}
words!(OperationKind: Slot = "slot", Side = "side", Face = "face", Plunge = "plunge", Drill = "drill",
    Spot = "spot", Ream = "ream", Countersink = "countersink", Saw = "saw", Bore = "bore",
    FindEdge = "find_edge", Tap = "tap");

/// The kinds of cutter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the engine's kind of that name")]
pub enum CutterKind {
    #[default]
    EndMill,
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
}
words!(CutterKind: EndMill = "end_mill", FaceMill = "face_mill", FlyCutter = "fly_cutter",
    SlittingSaw = "slitting_saw", Drill = "drill", SpotDrill = "spot_drill", Reamer = "reamer",
    Countersink = "countersink", BoringHead = "boring_head", EdgeFinder = "edge_finder", Tap = "tap");

/// The shapes of an end mill's tip.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each is the engine's tip of that name")]
pub enum TipShape {
    #[default]
    Square,
    Ball,
    CornerRadius,
}
words!(TipShape: Square = "square", Ball = "ball", CornerRadius = "corner_radius");

impl Default for CutterForm {
    fn default() -> Self {
        Self {
            name: String::new(),
            kind: CutterKind::default(),
            material: ToolMaterial::Hss,
            coated: false,
            diameter: Typed::default(),
            teeth: Typed::default(),
            flute_length: Typed::default(),
            shank: Typed::default(),
            helix: Typed::default(),
            tip: TipShape::default(),
            corner_radius: Typed::default(),
            center_cutting: None,
            entering_angle: Typed::default(),
            point_angle: Typed::default(),
            thickness: Typed::default(),
            pitch: Typed::default(),
        }
    }
}

impl Default for CutForm {
    fn default() -> Self {
        Self {
            mill: Mill::default(),
            operation: OperationKind::default(),
            width: Typed::default(),
            depth: Typed::default(),
            length: Typed::default(),
            pilot: Typed::default(),
            hole: Typed::default(),
            through: true,
            finish: false,
            climb: false,
            coolant: None,
            style: Style::Gentle,
            heeds_notes: true,
            own: OwnForm::default(),
        }
    }
}

fn yes() -> bool {
    true
}

impl OperationKind {
    /// What the trade calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Slot => "Slot",
            Self::Side => "Side cut",
            Self::Face => "Face",
            Self::Plunge => "Plunge",
            Self::Drill => "Drill",
            Self::Spot => "Spot",
            Self::Ream => "Ream",
            Self::Countersink => "Countersink",
            Self::Saw => "Saw",
            Self::Bore => "Bore",
            Self::FindEdge => "Find an edge",
            Self::Tap => "Tap",
        }
    }

    /// The kinds of cutter that can do it, the usual one first.
    #[must_use]
    pub fn cutters(self) -> &'static [CutterKind] {
        match self {
            Self::Slot | Self::Side | Self::Plunge => &[CutterKind::EndMill],
            Self::Face => &[CutterKind::FaceMill, CutterKind::FlyCutter, CutterKind::EndMill],
            Self::Drill => &[CutterKind::Drill],
            Self::Spot => &[CutterKind::SpotDrill],
            Self::Ream => &[CutterKind::Reamer],
            Self::Countersink => &[CutterKind::Countersink],
            Self::Saw => &[CutterKind::SlittingSaw],
            Self::Bore => &[CutterKind::BoringHead],
            Self::FindEdge => &[CutterKind::EdgeFinder],
            Self::Tap => &[CutterKind::Tap],
        }
    }

    /// The measures that it asks, in the order a screen asks them.
    #[must_use]
    pub fn measures(self) -> &'static [Field] {
        match self {
            Self::Slot | Self::Saw => &[Field::Depth, Field::CutLength],
            Self::Side | Self::Face => &[Field::Width, Field::Depth, Field::CutLength],
            Self::Bore => &[Field::Width, Field::Depth],
            Self::Drill => &[Field::Depth, Field::Pilot],
            Self::Countersink => &[Field::Hole, Field::Depth],
            Self::Plunge | Self::Spot | Self::Ream | Self::Tap => &[Field::Depth],
            Self::FindEdge => &[],
        }
    }
}

impl CutterKind {
    /// What the trade calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::EndMill => "End mill",
            Self::FaceMill => "Face mill",
            Self::FlyCutter => "Fly cutter",
            Self::SlittingSaw => "Slitting saw",
            Self::Drill => "Drill",
            Self::SpotDrill => "Spot drill",
            Self::Reamer => "Reamer",
            Self::Countersink => "Countersink",
            Self::BoringHead => "Boring head",
            Self::EdgeFinder => "Edge finder",
            Self::Tap => "Tap",
        }
    }

    /// The operations it can do.
    pub fn operations(self) -> impl Iterator<Item = OperationKind> {
        OperationKind::ALL.iter().copied().filter(move |op| op.cutters().contains(&self))
    }

    /// The measures that describe it, in the order a screen asks them; the diameter comes first.
    #[must_use]
    pub fn measures(self) -> &'static [Field] {
        match self {
            Self::EndMill => &[
                Field::Diameter,
                Field::Teeth,
                Field::FluteLength,
                Field::Shank,
                Field::Helix,
                Field::CornerRadius,
            ],
            Self::FaceMill => &[Field::Diameter, Field::Teeth, Field::EnteringAngle, Field::Shank],
            Self::SlittingSaw => &[Field::Diameter, Field::Thickness, Field::Teeth],
            Self::FlyCutter | Self::BoringHead => &[Field::Diameter, Field::Shank],
            Self::Drill | Self::SpotDrill => &[Field::Diameter, Field::PointAngle],
            Self::Countersink => &[Field::Diameter, Field::PointAngle, Field::Teeth],
            Self::Reamer => &[Field::Diameter, Field::Teeth],
            Self::EdgeFinder => &[Field::Diameter],
            Self::Tap => &[Field::Diameter, Field::Pitch, Field::Teeth],
        }
    }

    /// True when a measure of the cutter or of its holding means something for this kind.
    #[must_use]
    pub fn asks(self, field: Field) -> bool {
        match field {
            Field::Stickout | Field::Runout => self != Self::EdgeFinder,
            _ => self.measures().contains(&field),
        }
    }
}

impl CutterForm {
    /// Its name, or a description of it: "3 mm end mill".
    #[must_use]
    pub fn title(&self) -> String {
        if !self.name.trim().is_empty() {
            return self.name.trim().to_owned();
        }
        let kind = self.kind.name().to_ascii_lowercase();
        if self.diameter.is_empty() {
            return kind;
        }
        format!("{} {kind}", self.diameter.with_unit(Field::Diameter))
    }
}

impl Mill {
    /// What holds the cutter: as chosen, or the usual holder of its kind.
    #[must_use]
    pub fn holder(&self) -> Holder {
        self.holding.holder.unwrap_or_else(|| usual::holder(self.cutter.kind))
    }

    /// The stock, if the table has it.
    #[must_use]
    pub fn material(&self) -> Option<&'static stock::Material> {
        stock::material(&self.stock)
    }
}

impl CutForm {
    /// What is put on the cut: as chosen, or the usual of the stock.
    #[must_use]
    pub fn coolant(&self) -> Coolant {
        self.coolant.unwrap_or_else(|| self.mill.material().map_or(Coolant::Dry, usual::coolant))
    }

    /// A short title, such as "Slot in 6061-T6".
    #[must_use]
    pub fn title(&self) -> String {
        match self.mill.material() {
            Some(material) if self.operation != OperationKind::FindEdge => {
                format!("{} in {}", self.operation.name(), trade_name(material))
            }
            _ => self.operation.name().to_owned(),
        }
    }

    /// Chooses an operation; a cutter that cannot do it gives way to an unnamed one of the usual
    /// kind.
    pub fn choose(&mut self, operation: OperationKind) {
        self.operation = operation;
        let cutters = operation.cutters();
        if !cutters.contains(&self.mill.cutter.kind) {
            self.mill.cutter = CutterForm { kind: cutters[0], ..CutterForm::default() };
            self.mill.holding = Holding::default();
        }
    }
}

/// What a material is called at the bench: by its number where it has one, "6061-T6", "304".
#[must_use]
pub fn trade_name(material: &stock::Material) -> &'static str {
    let name = short_name(material);
    if name.starts_with(|c: char| c.is_ascii_digit()) {
        name.split([' ', '/']).next().unwrap_or(name)
    } else {
        name
    }
}

/// A material's name without its explanation: "Grey cast iron", "Zinc alloy".
#[must_use]
pub fn short_name(material: &stock::Material) -> &'static str {
    material.name.split([',', '(']).next().unwrap_or(material.name).trim()
}

typed_at!(CutterForm:
    Diameter => diameter,
    Teeth => teeth,
    FluteLength => flute_length,
    Shank => shank,
    Helix => helix,
    CornerRadius => corner_radius,
    EnteringAngle => entering_angle,
    PointAngle => point_angle,
    Thickness => thickness,
    Pitch => pitch,
);
typed_at!(Holding:
    Stickout => stickout,
    Runout => runout,
);
typed_at!(CutForm:
    Diameter => mill.cutter.diameter,
    Teeth => mill.cutter.teeth,
    FluteLength => mill.cutter.flute_length,
    Shank => mill.cutter.shank,
    Helix => mill.cutter.helix,
    CornerRadius => mill.cutter.corner_radius,
    EnteringAngle => mill.cutter.entering_angle,
    PointAngle => mill.cutter.point_angle,
    Thickness => mill.cutter.thickness,
    Pitch => mill.cutter.pitch,
    Stickout => mill.holding.stickout,
    Runout => mill.holding.runout,
    Width => width,
    Depth => depth,
    CutLength => length,
    Pilot => pilot,
    Hole => hole,
    SpindleSpeed => own.spindle_speed,
    SurfaceSpeed => own.surface_speed,
    Feed => own.feed,
    Chip => own.chip,
    Passes => own.passes,
    CuttingForce => own.cutting_force,
    UnitPower => own.unit_power,
);
