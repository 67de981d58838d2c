//! Workpiece materials: what each one likes, what it does to a cutter and to a person.

use crate::engine::quantity::{Stress, SurfaceSpeed};

pub use crate::engine::source::sources_of;

/// The families of a picker, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Family {
    /// Steel.
    Steel,
    /// Stainless steel.
    Stainless,
    /// Cast iron.
    CastIron,
    /// Aluminium.
    Aluminium,
    /// Brass, bronze and copper.
    CopperAlloy,
    /// Zinc, magnesium, titanium and nickel.
    OtherMetal,
    /// Thermoplastics.
    Plastic,
    /// Laminates of paper, cloth, glass or carbon in resin.
    Laminate,
    /// Wood, wax, tooling board and graphite.
    WoodWaxGraphite,
}

impl Family {
    /// All families, in the order of a picker.
    pub const ALL: [Self; 9] = [
        Self::Steel,
        Self::Stainless,
        Self::CastIron,
        Self::Aluminium,
        Self::CopperAlloy,
        Self::OtherMetal,
        Self::Plastic,
        Self::Laminate,
        Self::WoodWaxGraphite,
    ];

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Steel => "Steel",
            Self::Stainless => "Stainless",
            Self::CastIron => "Cast iron",
            Self::Aluminium => "Aluminium",
            Self::CopperAlloy => "Brass, bronze, copper",
            Self::OtherMetal => "Other metals",
            Self::Plastic => "Plastics",
            Self::Laminate => "Laminates",
            Self::WoodWaxGraphite => "Wood, wax, graphite",
        }
    }

    /// Its materials, in the order of the table.
    pub fn materials(self) -> impl Iterator<Item = &'static Material> {
        MATERIALS.iter().filter(move |m| m.family == self)
    }
}

/// The ISO 513 group of a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IsoGroup {
    /// Steel.
    P,
    /// Stainless steel.
    M,
    /// Cast iron.
    K,
    /// Non-ferrous metals, and by convention plastics, wood and graphite.
    N,
    /// Titanium and nickel alloys.
    S,
}

/// What the edge of the cutter is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// High-speed steel. Cobalt high-speed steel uses the same figures.
    Hss,
    /// Cemented carbide.
    Carbide,
}

/// Milling or drilling: the two families of surface speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Any cut of a milling cutter.
    Milling,
    /// Any cut of a drill.
    Drilling,
}

/// The words by which rules know a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flag {
    /// Hardens under a cutter that rubs.
    WorkHardening,
    /// Chips catch fire.
    Magnesium,
    /// Chips catch fire; springs back.
    Titanium,
    /// Holds lead.
    Leaded,
    /// Glass fibre.
    Glass,
    /// Carbon, fibre or graphite.
    Carbon,
    /// Breaks out at edges.
    Brittle,
    /// Nickel, a sensitiser.
    Nickel,
    /// Phenolic resin.
    Phenolic,
    /// Wood dust.
    Wood,
    /// Gives fume when overheated.
    Ptfe,
    /// Gives hydrogen chloride when overheated.
    Pvc,
    /// Gives formaldehyde when overheated.
    Acetal,
    /// Resin board.
    ResinBoard,
}

/// What may be put on a cut or blown at its chips, by what a material can take against it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fluid {
    /// Water and everything mixed with it; a flood counts as such.
    Water,
    /// Oil and spirit.
    Oil,
    /// Compressed air at the chips.
    Air,
}

/// Something that must not come near a material.
#[derive(Debug, PartialEq, Eq)]
pub struct Refused {
    /// What.
    pub fluid: Fluid,
    /// True where it can hurt a person, false where it spoils the part.
    pub stops: bool,
    /// Why, a sentence without its full stop.
    pub why: &'static str,
    /// Tags of the sources.
    pub source: &'static str,
}

/// Hardness as the table gives it: a range on one scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hardness {
    /// The softer end.
    pub low: f64,
    /// The harder end.
    pub high: f64,
    /// The scale: "HB", "Shore D" and so on.
    pub scale: &'static str,
    /// Tags of the sources.
    pub source: &'static str,
}

/// A range of surface speeds in feet per minute, with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedRange {
    pub(crate) low_ft_min: f64,
    pub(crate) high_ft_min: f64,
    /// Tags of the sources.
    pub source: &'static str,
}

impl SpeedRange {
    /// The gentle end.
    #[must_use]
    pub fn low(&self) -> SurfaceSpeed {
        SurfaceSpeed::ft_per_min(self.low_ft_min)
    }
    /// The brisk end.
    #[must_use]
    pub fn high(&self) -> SurfaceSpeed {
        SurfaceSpeed::ft_per_min(self.high_ft_min)
    }
}

/// One row of the table of materials.
#[derive(Debug, PartialEq)]
pub struct Material {
    /// Stable name in saved data and links.
    pub id: &'static str,
    /// What the trade calls it.
    pub name: &'static str,
    family: Family,
    /// ISO 513 group.
    pub iso_group: IsoGroup,
    /// The group of the feed tables it belongs to.
    pub feed_group: &'static str,
    /// What rules know it by.
    pub flags: &'static [Flag],
    /// What must not come near it.
    pub refused: &'static [Refused],
    /// Hardness range.
    pub hardness: Hardness,
    /// False where high-speed steel dulls within inches.
    pub hss_usable: bool,
    pub(crate) speeds: [[Option<SpeedRange>; 2]; 2],
    pub(crate) unit_power_hp_in3_min: f64,
    /// Tags of the sources of the unit power.
    pub source_power: &'static str,
    pub(crate) kc1_1_n_mm2: f64,
    /// Kienzle exponent: how much harder a thin chip is to cut per area.
    pub mc: f64,
    /// Tags of the sources of the specific cutting force and its exponent.
    pub source_force: &'static str,
    pub(crate) drill_factors: DrillFactors,
    /// What the trade puts on the cut.
    pub coolant: &'static str,
    /// What it does to a cutter and to a person, in short phrases.
    pub hazards: &'static [&'static str],
    /// What else is worth knowing.
    pub note: &'static str,
}

/// Work-material factors of the drill thrust and torque formulas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrillFactors {
    /// For torque.
    pub torque: f64,
    /// For thrust.
    pub thrust: f64,
    /// Tags of the sources.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/materials.rs"));

impl Material {
    /// The family it is found under.
    #[must_use]
    pub fn family(&self) -> Family {
        self.family
    }
    /// The range of surface speeds for an edge and a kind of work, if the edge may be used at all.
    #[must_use]
    pub fn speed(&self, edge: Edge, work: Work) -> Option<&SpeedRange> {
        self.speeds[work as usize][edge as usize].as_ref()
    }
    /// Specific cutting force of a chip one millimetre thick.
    #[must_use]
    pub fn kc1_1(&self) -> Stress {
        Stress::newton_per_mm2(self.kc1_1_n_mm2)
    }
    /// Power per removal rate, sharp cutter.
    #[must_use]
    pub fn unit_power(&self) -> Stress {
        Stress::hp_per_inch3_min(self.unit_power_hp_in3_min)
    }
    /// Factors of the drill formulas.
    #[must_use]
    pub fn drill_factors(&self) -> DrillFactors {
        self.drill_factors
    }
    /// True when rules know it by this word.
    #[must_use]
    pub fn is(&self, flag: Flag) -> bool {
        self.flags.contains(&flag)
    }
    /// The refusal of a fluid, where it must not come near this material.
    #[must_use]
    pub fn refuses(&self, fluid: Fluid) -> Option<&'static Refused> {
        self.refused.iter().find(|refused| refused.fluid == fluid)
    }
    /// Soft stock (plastic, wax, wood, magnesium): forces are small, chips may be thick.
    #[must_use]
    pub fn is_soft(&self) -> bool {
        self.kc1_1_n_mm2 < 600.0
    }
}

/// The material with this id.
#[must_use]
pub fn material(id: &str) -> Option<&'static Material> {
    MATERIALS.iter().find(|m| m.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usable_edge_has_speeds_for_milling_and_drilling() {
        for m in MATERIALS {
            for work in [Work::Milling, Work::Drilling] {
                let carbide = m.speed(Edge::Carbide, work).expect("carbide cuts everything here");
                assert!(carbide.low() <= carbide.high(), "{}", m.id);
                if m.hss_usable {
                    let hss = m.speed(Edge::Hss, work).expect("a usable edge has a speed");
                    assert!(hss.low() <= hss.high() && hss.low() <= carbide.low(), "{}", m.id);
                }
            }
        }
    }

    #[test]
    fn carbon_fibre_has_no_speed_for_high_speed_steel() {
        let cfrp = material("cfrp").expect("it is in the table");
        assert!(!cfrp.hss_usable);
        assert!(cfrp.speed(Edge::Hss, Work::Milling).is_none());
        assert!(cfrp.speed(Edge::Hss, Work::Drilling).is_none());
    }

    #[test]
    fn a_material_is_found_by_its_id_and_no_other() {
        for m in MATERIALS {
            assert!(core::ptr::eq(m, material(m.id).expect("it is in the table")));
        }
        assert!(material("unobtainium").is_none());
    }

    #[test]
    fn every_figure_of_a_material_has_a_source() {
        for m in MATERIALS {
            let speeds = m.speeds.iter().flatten().flatten().map(|s| s.source);
            let others =
                [m.hardness.source, m.source_power, m.source_force, m.drill_factors.source];
            for tags in speeds.chain(others) {
                assert!(!sources_of(tags).is_empty(), "{}", m.id);
            }
        }
    }

    #[test]
    fn soft_stock_is_told_by_its_cutting_force() {
        let soft = |id| material(id).expect("it is in the table").is_soft();
        assert!(soft("zinc") && soft("magnesium") && soft("pom") && soft("hardwood"));
        assert!(!soft("al_cast") && !soft("brass_360"));
    }

    #[test]
    fn only_soft_stock_shares_its_drill_factors() {
        let factors = |id| {
            let f = material(id).expect("it is in the table").drill_factors();
            (f.torque, f.thrust)
        };
        assert_eq!(factors("steel_low_c"), (18_000.0, 18_000.0));
        assert_eq!(factors("ss_304"), (24_000.0, 35_000.0));
        assert_eq!(factors("al_6061"), (7_000.0, 7_000.0));
        assert_eq!(factors("magnesium"), (4_000.0, 4_000.0));
        assert_eq!(factors("nylon"), (1_500.0, 1_500.0));
    }

    #[test]
    fn the_families_hold_every_material_once_in_the_order_of_the_table() {
        let listed: Vec<_> = Family::ALL.into_iter().flat_map(Family::materials).collect();
        let table: Vec<_> = MATERIALS.iter().collect();
        assert!(listed.iter().zip(&table).all(|(a, b)| a.id == b.id));
        assert_eq!(listed.len(), table.len());
        assert!(Family::ALL.into_iter().all(|f| f.materials().next().is_some()));
    }

    #[test]
    fn flags_are_what_rules_ask_for() {
        let is = |id, flag| material(id).expect("it is in the table").is(flag);
        assert!(is("magnesium", Flag::Magnesium) && is("ss_304", Flag::WorkHardening));
        assert!(is("g10_fr4", Flag::Glass) && is("cfrp", Flag::Carbon) && is("pvc", Flag::Pvc));
        assert!(!is("steel_low_c", Flag::Leaded) && is("steel_free", Flag::Leaded));
    }
}
