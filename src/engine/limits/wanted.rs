//! What stock and cutter would like: the surface speeds and the feeds a question starts from.

use super::{
    case::diameter_cut,
    threshold::{self as t, Band},
};
use crate::engine::{
    cutters::{
        Cutter, Kind,
        feed::{FeedRange, Table, feed_range},
    },
    cutting::{drilling, speed},
    machine::Class,
    quantity::{Length, SurfaceSpeed},
    question::{Cut, Field, InputError, OnTheMill, Operation, Style},
    stock::{Edge, Flag, Material},
};

/// The feeds a question starts from, per tooth, or per turn where the table counts so.
#[derive(Debug)]
pub struct Feeds {
    /// As the table has it for this cutter and operation.
    pub table: FeedRange,
    /// Low end of the range aimed at, thin-chip rule not applied.
    pub low: Length,
    /// High end of it.
    pub high: Length,
    /// High end by which the chip is judged.
    pub judged: Length,
    /// A feed that is kept.
    pub kept: Option<Length>,
    /// The thin-chip rule applies.
    pub thins: bool,
    /// Least chips.
    pub least: Band<Length>,
    /// Teeth that count for the rate: one where the table counts per turn.
    pub teeth: f64,
}

/// The surface speeds a question starts from.
#[derive(Debug)]
pub struct Surface {
    /// What stock and cutter would like.
    pub wanted: SurfaceSpeed,
    /// The stock's range for this operation.
    pub range: (SurfaceSpeed, SurfaceSpeed),
    /// Factors that are in it: for what is put on the cut, the operation, a deep hole.
    pub factors: [f64; 3],
    /// As slow as the spindle is turned before the chip gets thinner.
    pub floor: SurfaceSpeed,
    /// Where it is too fast; `None` for what does not cut.
    pub most: Option<Band<SurfaceSpeed>>,
}

impl Feeds {
    pub fn new(mill: &OnTheMill, cut: &Cut) -> Result<Self, Vec<InputError>> {
        let (stock, cutter, own) = (mill.stock, &mill.cutter, &cut.own);
        let mut table = match table_of(cutter.kind) {
            Some(table) => {
                let (edge, group) = (cutter.material.edge(), stock.feed_group);
                feed_range(table, edge, group, feed_diameter(cutter, cut))
                    .ok_or_else(|| vec![no_feed(stock)])?
            }
            None => tap_feed(cutter),
        };
        let share = if cut.operation == Operation::Plunge { t::PLUNGE_FEED } else { 1.0 };
        (table.low, table.high) = (table.low * share, table.high * share);
        let deep = if never_thin(stock) { 1.0 } else { deep_hole(mill, cut).1 };
        let side = matches!(cut.operation, Operation::Side { .. });
        let mut feeds = Self {
            low: table.low * deep,
            high: table.high * deep,
            judged: table.high,
            kept: None,
            thins: side && !cut.finish,
            least: t::least_chip(stock, table.low, mill.worn),
            teeth: if table.per_turn { 1.0 } else { f64::from(cutter.teeth) },
            table,
        };
        feeds.heed(own.experience.bounded().feed, never_thin(stock));
        if let Some(chip) = own.chip {
            (feeds.low, feeds.high) = (chip, chip);
            feeds.thins = side;
        }
        if let Some(feed) = own.feed {
            (feeds.low, feeds.high) = (feed, feed);
            // The chip limit takes the person's figure for the table's; the rubbing one does not,
            // because the edge of the cutter is no sharper for it.
            feeds.judged = feeds.judged.max(feed);
            feeds.kept = Some(feed);
            feeds.thins = false;
        }
        feeds.kept = own.feed_as_set.or(feeds.kept);
        if let Kind::Tap { pitch } = cutter.kind {
            feeds.kept = Some(pitch);
        }
        Ok(feeds)
    }
}

impl Feeds {
    /// Moves the range that is aimed at by a person's own factor: up inside the table's range only,
    /// down to the least chip that cuts, and not at all where a thin chip hardens the stock.
    fn heed(&mut self, factor: f64, never_thin: bool) {
        let factor = if never_thin { factor.max(1.0) } else { factor };
        let least = self.low.min(self.least.within);
        self.high = (self.high * factor).min(self.high).max(least);
        self.low = (self.low * factor).max(least).min(self.high);
    }
}

impl Surface {
    pub fn new(mill: &OnTheMill, cut: &Cut) -> Result<Self, Vec<InputError>> {
        let (stock, op, edge) = (mill.stock, cut.operation, mill.cutter.material.edge());
        if op == Operation::FindEdge {
            return Ok(Self::of_what_does_not_cut());
        }
        let range = stock.speed(edge, op.work()).ok_or_else(|| vec![no_speed(stock)])?;
        let hss = stock.speed(Edge::Hss, op.work()).unwrap_or(range);
        let coolant = t::coolant_factor(stock, edge, cut.coolant);
        let (factor, most_factor) = op.speed_factors();
        let deep = deep_hole(mill, cut).0;
        let low = range.low() * (coolant * factor * deep);
        let high = range.high() * (coolant * factor * deep);
        let most = range.high() * (coolant * most_factor);
        let own = cut.own.surface_speed;
        let heeded = cut.own.experience.bounded().speed;
        let mut want =
            own.unwrap_or_else(|| wanted(mill.machine.class, cut.style, low, high) * heeded);
        if op == Operation::Tap && own.is_none() {
            want = want.min(speed::surface_speed_of(t::tap_speed(), mill.cutter.diameter));
        }
        let band = if edge == Edge::Hss { t::SPEED_HSS } else { t::SPEED_CARBIDE };
        Ok(Self {
            wanted: want,
            range: (low, high),
            factors: [coolant, factor, deep],
            floor: hss.low() * (factor * deep * t::SLOWEST),
            most: Some(band.of(own.map_or(most, |v| most.max(v)))),
        })
    }

    fn of_what_does_not_cut() -> Self {
        let still = SurfaceSpeed::ZERO;
        Self { wanted: still, range: (still, still), factors: [1.0; 3], floor: still, most: None }
    }
}

/// Work-hardening stock and magnesium: the chip may never go under its range.
pub fn never_thin(stock: &Material) -> bool {
    stock.is(Flag::WorkHardening) || stock.is(Flag::Magnesium)
}

/// Shares of speed and feed that are left in a deep hole, 1 in any other cut.
fn deep_hole(mill: &OnTheMill, cut: &Cut) -> (f64, f64) {
    match cut.operation {
        Operation::Drill { .. } => drilling::depth_derating_of(cut.depth, mill.cutter.diameter),
        _ => (1.0, 1.0),
    }
}

/// Where in the range of surface speeds an answer begins: gently at the low end, on a knee mill in
/// the middle, briskly at the high end.
fn wanted(class: Class, style: Style, low: SurfaceSpeed, high: SurfaceSpeed) -> SurfaceSpeed {
    match (style, class) {
        (Style::Brisk, _) => high,
        (Style::Gentle, Class::Knee) => (low + high) * 0.5,
        (Style::Gentle, _) => low,
    }
}

/// The diameter by which the feed is read: a spot is fed like a drill of its own size.
fn feed_diameter(cutter: &Cutter, cut: &Cut) -> Length {
    match cut.operation {
        Operation::Spot => diameter_cut(cutter, cut.operation, cut.depth),
        _ => cutter.diameter,
    }
}

/// The feed table a kind of cutter reads.
fn table_of(kind: Kind) -> Option<Table> {
    Some(match kind {
        Kind::EndMill { .. } => Table::EndMill,
        Kind::FaceMill { .. } => Table::FaceMill,
        Kind::FlyCutter => Table::FlyCutter,
        Kind::SlittingSaw { .. } => Table::SlittingSaw,
        Kind::Drill { .. } | Kind::SpotDrill { .. } => Table::Drill,
        Kind::Reamer => Table::Reamer,
        Kind::Countersink { .. } => Table::Countersink,
        Kind::BoringHead => Table::BoringHead,
        Kind::EdgeFinder | Kind::Tap { .. } => return None,
    })
}

/// A tap has no choice: one turn, one pitch.
fn tap_feed(cutter: &Cutter) -> FeedRange {
    let pitch = if let Kind::Tap { pitch } = cutter.kind { pitch } else { Length::mm(1.0) };
    FeedRange {
        low: pitch,
        high: pitch,
        per_turn: true,
        source: "F_GEOMETRY",
        borrowed_from: None,
        other_edge: false,
        outside: false,
        note: "",
    }
}

fn no_speed(stock: &Material) -> InputError {
    InputError::new(
        Field::ToolMaterial,
        format!("{} dulls high-speed steel at once: there are no figures for it.", stock.name),
        "Choose a carbide cutter.",
    )
}

fn no_feed(stock: &Material) -> InputError {
    InputError::new(
        Field::Stock,
        format!("The feed tables have no row for {}.", stock.name),
        "Choose the nearest stock of the list, or another cutter.",
    )
}
