//! How far a cutter bends out of its holder, and how near it is to breaking.

use super::error::{CuttingError, not_negative, positive, share};
use crate::engine::{
    cutters::ToolMaterial,
    quantity::{Force, Length, Stress, Torque},
};
use core::f64::consts::PI;
use uom::{
    si::f64 as si,
    typenum::{P3, P4},
};

/// Source of the beam formulas: a stepped round cantilever with its load at the tip.
pub const SOURCE: &str = "F_GEOMETRY";
/// Source of [`CORE`]: L. Kops and D. T. Vo on the equivalent diameter of an end mill.
pub const SOURCE_CORE: &str = "KOPS_VO";
/// Source of moduli and strengths: Kalpakjian and Schmid, properties of tool materials.
pub const SOURCE_STRENGTH: &str = "KALPAKJIAN";
/// Source of [`NOTCH`].
pub const SOURCE_NOTCH: &str = "CP";

/// Diameter of a plain round bar that bends as much as the fluted part, as a share of the
/// cutter's: end mills of two to four flutes.
pub const CORE: f64 = 0.80;

/// Stress at the root of a flute over that in a plain bar, interrupted load included.
pub const NOTCH: f64 = 1.5;

/// Young's modulus: 205 GPa for high-speed steel, 600 GPa for cemented carbide.
#[must_use]
pub fn youngs_modulus(material: ToolMaterial) -> Stress {
    Stress::newton_per_mm2(match material {
        ToolMaterial::Hss | ToolMaterial::Cobalt => 205_000.0,
        ToolMaterial::Carbide => 600_000.0,
    })
}

/// Transverse rupture strength to design by: the low end of 2400 to 4800 N/mm² for high-speed
/// steel, the low side of 1050 to 2600 N/mm² for cemented carbide.
#[must_use]
pub fn rupture_strength(material: ToolMaterial) -> Stress {
    Stress::newton_per_mm2(match material {
        ToolMaterial::Hss | ToolMaterial::Cobalt => 2400.0,
        ToolMaterial::Carbide => 1500.0,
    })
}

/// Where the stress is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Section {
    /// Where the flutes run out into the shank.
    FluteEnd,
    /// Where the shank, or the fluted part of a cutter pushed in that far, leaves the holder.
    Holder,
}

/// A cutter as a beam: the fluted part, then the shank, held at one end and loaded at the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cantilever {
    core: Length,
    flutes: Length,
    shank: Length,
    stickout: Length,
    /// Stiffness at the tip over 3E.
    rigidity: si::Length,
}

impl Cantilever {
    /// From the diameter and the share of it that bends ([`CORE`]), the length of the flutes
    /// (nothing for a boring bar), the shank, and how far all of it stands out of the holder.
    /// Flutes that reach into the holder count only as far as they stand out.
    pub fn new(
        diameter: Length,
        core_factor: f64,
        flute_length: Length,
        shank: Length,
        stickout: Length,
    ) -> Result<Self, CuttingError> {
        positive("diameter", diameter)?;
        share("core factor", core_factor)?;
        not_negative("flute length", flute_length)?;
        positive("shank diameter", shank)?;
        positive("stick-out", stickout)?;
        positive("core diameter", diameter * core_factor)?;
        Ok(Self::of(diameter, core_factor, flute_length, shank, stickout))
    }

    /// [`Self::new`] of inputs known to be good.
    #[must_use]
    pub fn of(
        diameter: Length,
        core_factor: f64,
        flute_length: Length,
        shank: Length,
        stickout: Length,
    ) -> Self {
        let core = diameter * core_factor;
        let flutes = flute_length.min(stickout);
        let fluted = flutes.0.powi(P3::new());
        let whole = stickout.0.powi(P3::new());
        let moment = |d: Length| PI * d.0.powi(P4::new()) / 64.0;
        let rigidity = 1.0 / (fluted / moment(core) + (whole - fluted) / moment(shank));
        Self { core, flutes, shank, stickout, rigidity }
    }

    /// How far a force at the tip bends the tip: F/3E (L_f³/I_f + (L³ - L_f³)/I_s).
    #[must_use]
    pub fn deflection(&self, force: Force, youngs_modulus: Stress) -> Length {
        Length(force.0 / (3.0 * youngs_modulus.0 * self.rigidity))
    }

    /// Bending stress from a force at the tip: 32 F x/(π d³), x from the tip.
    #[must_use]
    pub fn bending_stress(&self, force: Force, section: Section) -> Stress {
        let (lever, bar) = match section {
            Section::FluteEnd => (self.flutes, self.core),
            Section::Holder if self.stickout > self.flutes => (self.stickout, self.shank),
            Section::Holder => (self.stickout, self.core),
        };
        Stress(32.0 * force.0 * lever.0 / (PI * bar.0.powi(P3::new())))
    }

    /// The larger bending stress of the two sections.
    #[must_use]
    pub fn worst_bending_stress(&self, force: Force) -> Stress {
        self.bending_stress(force, Section::FluteEnd)
            .max(self.bending_stress(force, Section::Holder))
    }

    /// Shear stress of a torque in the fluted part: 16 M/(π d³).
    #[must_use]
    pub fn torsion(&self, torque: Torque) -> Stress {
        Stress(16.0 * si::Energy::from(torque.0) / (PI * self.core.0.powi(P3::new())))
    }

    /// Bending and torsion together, as one tension of the same danger: √(σ² + 3τ²).
    #[must_use]
    pub fn equivalent_stress(&self, force: Force, torque: Torque) -> Stress {
        let bending = self.worst_bending_stress(force).0;
        let torsion = self.torsion(torque).0;
        Stress((bending * bending + 3.0 * torsion * torsion).sqrt())
    }
}

/// How far a force at the tip bends the tip; [`Cantilever::deflection`] of checked inputs.
pub fn tip_deflection(
    cutter: &Cantilever,
    force: Force,
    youngs_modulus: Stress,
) -> Result<Length, CuttingError> {
    positive("force", force)?;
    positive("Young's modulus", youngs_modulus)?;
    Ok(cutter.deflection(force, youngs_modulus))
}

/// Bending stress from a force at the tip; [`Cantilever::bending_stress`] of checked inputs.
pub fn bending_stress(
    cutter: &Cantilever,
    force: Force,
    section: Section,
) -> Result<Stress, CuttingError> {
    positive("force", force)?;
    Ok(cutter.bending_stress(force, section))
}

/// How many times the stress could grow before the cutter breaks: strength / ([`NOTCH`] σ).
///
/// Packed chips and a jerked handwheel are in no formula.
pub fn breakage_margin(material: ToolMaterial, equivalent: Stress) -> Result<f64, CuttingError> {
    positive("stress", equivalent)?;
    Ok(breakage_margin_of(material, equivalent))
}

/// [`breakage_margin`] of inputs known to be good.
#[must_use]
pub fn breakage_margin_of(material: ToolMaterial, equivalent: Stress) -> f64 {
    rupture_strength(material) / (equivalent * NOTCH)
}
