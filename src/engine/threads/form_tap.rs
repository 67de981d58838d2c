//! The hole for a tap that forms the thread: it pushes metal up instead of cutting it away, so the
//! hole is larger than for a cutting tap and its tolerance smaller.

use super::{Thread, percent};
use crate::engine::{
    drills::{Drill, Index},
    quantity::Length,
    question::{Field, InputError},
    stock::{Family, Flag, Material},
};

/// Source of the rule.
pub const SOURCE: &str = "FORM_TAP FORM_TAP_CP";

/// Percentage of thread that is advised.
pub const ADVISED: f64 = 65.0;
/// Percentages between which a hole will do.
pub const USABLE: (f64, f64) = (60.0, 75.0);

/// Two distances closer than this are one: rounding of the last bits.
const SAME_MM: f64 = 1e-9;

/// The hole for a forming tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FormHole {
    /// The hole that leaves the percentage wanted.
    pub ideal: Length,
    /// The smallest hole that will do; a smaller one jams the tap.
    pub least: Length,
    /// The largest that will do; a larger one leaves too little thread.
    pub most: Length,
    /// The owned drill nearest to the ideal, and the percentage it leaves.
    pub nearest: Option<(Drill, f64)>,
    /// Whether that drill will do. Where it does not, ream the hole.
    pub will_do: bool,
}

/// Hole for a forming tap: D - 0.0068 x percentage x pitch.
///
/// # Errors
/// A percentage that is not above 0 and at most 100; a taper thread or one that has no 60° form.
pub fn hole_for(thread: Thread, percent: f64) -> Result<Length, InputError> {
    percent::parallel(thread)?;
    percent::checked(percent)?;
    if thread.form() != super::Form::Iso {
        return Err(InputError::new(
            Field::Thread,
            format!(
                "The rule for forming taps is for 60° threads, and {} is none.",
                thread.designation()
            ),
            "Use a cutting tap.",
        ));
    }
    Ok(thread.major() - thread.pitch() * (0.0068 * percent))
}

/// The hole for a forming tap, and the owned drill nearest to it.
///
/// # Errors
/// As [`hole_for`], and where the stock does not flow.
pub fn choose(
    thread: Thread,
    percent: f64,
    stock: Option<&Material>,
    owned: &Index,
) -> Result<FormHole, InputError> {
    if let Some(stock) = stock {
        flows(stock)?;
    }
    let ideal = hole_for(thread, percent)?;
    let (least, most) = (hole_for(thread, USABLE.1)?, hole_for(thread, USABLE.0)?);
    let sides = owned.neighbours(ideal);
    let off = |drill: &Drill| (drill.diameter() - ideal).abs().to_mm();
    // Of two as near, the larger: a forming tap jams in a tight hole.
    let drill = [sides.above, sides.below]
        .into_iter()
        .flatten()
        .reduce(|above, below| if off(&below) < off(&above) - SAME_MM { below } else { above });
    let left = |drill: Drill| (thread.major() - drill.diameter()) / (thread.pitch() * 0.0068);
    Ok(FormHole {
        ideal,
        least,
        most,
        nearest: drill.map(|drill| (drill, left(drill))),
        will_do: drill.is_some_and(|d| d.diameter() >= least && d.diameter() <= most),
    })
}

/// Whether a stock flows into the form of a tap instead of breaking.
///
/// # Errors
/// A sentence for brittle metal, most brasses, magnesium, plastics, laminates, wood and graphite.
pub fn flows(stock: &Material) -> Result<(), InputError> {
    let why = if stock.is(Flag::Brittle) || stock.family() == Family::CastIron {
        "is brittle"
    } else if stock.is(Flag::Leaded) && stock.family() == Family::CopperAlloy {
        "makes short chips and does not flow"
    } else if stock.is(Flag::Magnesium) {
        "cracks when it is formed cold"
    } else if matches!(stock.family(), Family::Plastic | Family::Laminate | Family::WoodWaxGraphite)
    {
        "does not hold a formed thread"
    } else {
        return Ok(());
    };
    Err(InputError::new(
        Field::Stock,
        format!("{} {why}: a forming tap is not for it.", stock.name),
        "Use a cutting tap and its drill.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{stock::material, threads::named};

    fn thread(name: &str) -> Thread {
        named(name).expect(name)
    }

    #[test]
    fn a_quarter_twenty_is_formed_in_a_number_one_hole() {
        let hole = choose(thread("1/4-20"), ADVISED, material("al_6061"), &Index::every_inch());
        let hole = hole.expect("it flows");
        assert!((hole.ideal.to_inch() - 0.2279).abs() < 1e-9);
        let (drill, percent) = hole.nearest.expect("a drill");
        assert_eq!(drill.short_name(), "#1");
        assert!((percent - 64.7).abs() < 0.05 && hole.will_do);
        assert!(hole.least < hole.ideal && hole.ideal < hole.most);
    }

    #[test]
    fn a_formed_hole_is_never_as_small_as_a_cut_one() {
        for thread in crate::engine::threads::all().filter(|t| t.form() == super::super::Form::Iso)
        {
            let limits = thread.internal().expect("limits");
            let formed = hole_for(thread, ADVISED).expect("a hole");
            assert!(formed > limits.minor.least, "{}", thread.designation());
        }
    }

    #[test]
    fn brittle_stock_is_refused_with_its_reason() {
        for id in ["ci_grey", "brass_360", "acrylic", "nylon", "g10_fr4", "graphite", "magnesium"] {
            let error = choose(thread("M6"), ADVISED, material(id), &Index::every()).unwrap_err();
            assert_eq!(error.field, Field::Stock, "{id}");
            assert!(error.to_string().ends_with("its drill."), "{error}");
        }
        for id in ["al_6061", "steel_low_c", "ss_304", "copper", "zinc"] {
            assert!(flows(material(id).expect(id)).is_ok(), "{id}");
        }
        assert_eq!(hole_for(thread("1/4 BSW"), 65.0).unwrap_err().field, Field::Thread);
    }
}
