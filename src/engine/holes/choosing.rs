//! Choosing the drill of a hole from those in the drawer.

use super::{
    clearance::{ClearanceHole, of_screw},
    finish::Opening,
    kit::{Bit, Kit, Result},
    recipe::Caution,
    tapping::Tapped,
    tool::Has,
};
use crate::engine::{
    cutters::Kind,
    drills::{Drill, Family, Index},
    quantity::Length,
    question::{Field, InputError},
    threads::{
        form_tap,
        tap_hole::{self, Verdict},
    },
};

/// Two sizes that a drill or a reamer does not tell apart.
pub(super) fn same_size(a: Length, b: Length) -> bool {
    (a - b).abs() <= Length::inch(0.0005)
}

/// A drill this near a wanted hole still passes for it, where nothing else is said: what a drill
/// cuts oversize by itself. Common practice.
fn near(wanted: Length) -> Length {
    Length::inch(0.005).min(wanted * 0.02)
}

/// What a reamer is to take off the diameter, and the best of it. Common practice: 0.005 to
/// 0.015 in, less below a quarter of an inch.
fn allowance(reamer: Length) -> [Length; 3] {
    let thou = if reamer < Length::inch(0.125) {
        [2.0, 4.0, 7.0]
    } else if reamer < Length::inch(0.25) {
        [3.0, 7.0, 12.0]
    } else {
        [5.0, 9.0, 15.0]
    };
    thou.map(Length::thou)
}

/// The drill nearest to a diameter, among those that will do; of two of one size the fraction or
/// the metric one, which says its size.
fn nearest(
    drills: impl Iterator<Item = Drill>,
    wanted: Length,
    will_do: impl Fn(Length) -> bool,
) -> Option<Drill> {
    let off = |drill: &Drill| libm::round((drill.diameter() - wanted).abs().to_mm() * 1e6);
    let coded = |drill: &Drill| matches!(drill.family(), Family::Number | Family::Letter);
    let will_do = |drill: &Drill| will_do(drill.diameter());
    drills.filter(will_do).min_by(|a, b| off(a).total_cmp(&off(b)).then(coded(a).cmp(&coded(b))))
}

/// The drill to buy for a diameter, the nearest of those that are made; `None` where none will do.
fn to_buy(wanted: Length, will_do: impl Fn(Length) -> bool) -> Option<Bit> {
    let around = (wanted * 0.9, wanted * 1.1);
    let common = Index::every();
    let drill = nearest(common.between(around.0, around.1), wanted, &will_do).or_else(|| {
        // Above an inch drills go on by 64ths.
        let nearest = libm::round(wanted.to_inch() * 64.0);
        Drill::sixty_fourths(nearest as u16).filter(|d| will_do(d.diameter()))
    })?;
    Some(Bit { drill, has: Has::No })
}

/// The error of a hole that no drill makes.
fn none_made(field: Field) -> Vec<InputError> {
    vec![InputError::new(
        field,
        "No drill that is sold makes this hole.",
        "Drills end at 2 in: bore a larger hole.",
    )]
}

/// The drill of a drilled hole.
pub(super) fn opening(kit: &mut Kit, opening: Opening) -> Result<Bit> {
    let wanted = opening.diameter();
    let passes = |d: Length| match opening {
        Opening::Plain(_) => (d - wanted).abs() <= near(wanted),
        Opening::Clearance(row) => is_of_fit(row, d),
    };
    let owned = nearest(kit.setting.drills.iter(), wanted, passes);
    let bit = match (owned, opening) {
        (Some(drill), _) => Bit { drill, has: Has::Yes },
        (None, Opening::Clearance(row)) => {
            let drill = Drill::named(row.drill).map_err(|_| none_made(Field::Hole))?;
            Bit { drill, has: Has::No }
        }
        (None, Opening::Plain(_)) => to_buy(wanted, |d| (d - wanted).abs() <= wanted * 0.1)
            .ok_or_else(|| none_made(Field::Hole))?,
    };
    if !same_size(bit.diameter(), wanted) {
        kit.cautions.push(Caution::NearestDrill { wanted, off: bit.diameter() - wanted });
    }
    Ok(bit)
}

/// True for a hole that no other fit of the same screw is nearer to, and that is not under the
/// closest.
fn is_of_fit(row: &ClearanceHole, hole: Length) -> bool {
    let off = |other: &ClearanceHole| (other.hole() - hole).abs();
    let closest = of_screw(row.standard, row.screw).map(ClearanceHole::hole).reduce(Length::min);
    let nearest = of_screw(row.standard, row.screw).all(|other| off(row) <= off(other));
    let loosest = of_screw(row.standard, row.screw).map(ClearanceHole::hole).reduce(Length::max);
    // Beyond the loosest it may go on by as much as a drill is near.
    nearest
        && closest.is_some_and(|least| hole >= least - Length::inch(0.0005))
        && loosest.is_some_and(|most| hole <= most + near(most))
}

/// The drill under a reamer.
pub(super) fn under_reamer(kit: &mut Kit, reamer: Length) -> Result<Bit> {
    let [least, best, most] = allowance(reamer);
    let takes = |d: Length| reamer - d;
    let good = |d: Length| takes(d) >= least && takes(d) <= most;
    let wanted = reamer - best;
    let owned = kit.setting.drills;
    if let Some(drill) = nearest(owned.iter(), wanted, good) {
        return Ok(Bit { drill, has: Has::Yes });
    }
    // Twice the most is heavy, but a reamer does it.
    let heavy = |d: Length| takes(d) >= least && takes(d) <= most * 2.0;
    if let Some(drill) = nearest(owned.iter(), wanted, heavy) {
        kit.cautions.push(Caution::ReamAllowance(takes(drill.diameter())));
        return Ok(Bit { drill, has: Has::Yes });
    }
    to_buy(wanted, good).ok_or_else(|| none_made(Field::Hole))
}

/// A thinner pilot wanders and breaks.
fn smallest_pilot() -> Length {
    Length::inch(3.0 / 32.0)
}

/// Drills to go ahead of one, smallest first: for each share of its diameter the next one up.
pub(super) fn pilots(index: &Index, drill: Length, shares: &[f64]) -> Vec<Bit> {
    let mut pilots: Vec<Bit> = Vec::with_capacity(shares.len());
    for share in shares {
        let least = (drill * *share).max(smallest_pilot());
        let most = drill * (share * 1.25).clamp(0.4, 0.8);
        let larger = |d: &Drill| pilots.last().is_none_or(|last| last.diameter() < d.diameter());
        if let Some(drill) = index.between(least, most).next().filter(larger) {
            pilots.push(Bit { drill, has: Has::Yes });
        }
    }
    pilots
}

/// Under half a thread a tap only scratches; the trade stays above.
const LEAST_PERCENT: f64 = 50.0;

/// What makes the hole of a tap, and what it leaves of the thread.
pub(super) struct Tapping {
    pub bit: Bit,
    /// A reamer that follows the drill where no drill makes the hole.
    pub reamer: Option<Length>,
    pub percent: f64,
    pub verdict: Option<Verdict>,
}

/// The drill of a tapped hole, and the reamer that follows it where no drill makes the hole.
pub(super) fn tap_hole(kit: &mut Kit, tapped: &Tapped) -> Result<Tapping> {
    if tapped.forms() {
        return formed(kit, tapped);
    }
    let owned = kit.setting.drills;
    let cutters = kit.setting.cutters.unwrap_or_default().iter();
    let reamers: Vec<_> = cutters.filter(|c| c.kind == Kind::Reamer).map(|c| c.diameter).collect();
    let hole = tapped.hole.answer(owned, &reamers).map_err(|error| vec![error])?;
    let stop_gap = hole.chosen.filter(|c| c.percent >= LEAST_PERCENT);
    // Who wants a percentage more than the class is content with a drill that leaves it.
    let content = tapped.drill.is_some() || !tapped.hole.to_class && stop_gap.is_some();
    let reamed = hole.reaming.filter(|_| !content);
    if let Some(reaming) = reamed {
        kit.cautions.push(Caution::ReamedForTap);
        return Ok(Tapping {
            bit: under_reamer(kit, reaming.reamer)?,
            reamer: Some(reaming.reamer),
            percent: reaming.percent,
            verdict: Some(tap_hole::verdict(tapped.thread(), reaming.reamer)),
        });
    }
    let (candidate, has) = match (tapped.drill, stop_gap, hole.to_buy) {
        (Some(own), ..) => {
            let has = if owned.contains(own) { Has::Yes } else { Has::No };
            (tapped.hole.candidate(own, hole.ideal), has)
        }
        (None, Some(chosen), _) => (chosen, Has::Yes),
        (None, None, Some(bought)) => (bought, Has::No),
        (None, None, None) => return Err(none_made(Field::Thread)),
    };
    if !candidate.verdict.is_to_class() {
        kit.cautions.push(Caution::OutsideClass {
            hole: candidate.hole,
            verdict: candidate.verdict,
            class: tapped.thread().internal(),
            to_buy: hole.to_buy.map(|bought| bought.drill),
        });
    }
    Ok(Tapping {
        bit: Bit { drill: candidate.drill, has },
        reamer: None,
        percent: candidate.percent,
        verdict: Some(candidate.verdict),
    })
}

/// The drill under a forming tap.
fn formed(kit: &mut Kit, tapped: &Tapped) -> Result<Tapping> {
    let (thread, stock) = (tapped.thread(), kit.setting.stock);
    let hole = form_tap::choose(thread, tapped.hole.percent, Some(stock), kit.setting.drills)
        .map_err(|error| vec![error])?;
    let fits = |d: Length| d >= hole.least && d <= hole.most;
    let bit = match (tapped.drill, hole.nearest.filter(|_| hole.will_do)) {
        (Some(drill), _) => {
            Bit { drill, has: if kit.setting.drills.contains(drill) { Has::Yes } else { Has::No } }
        }
        (None, Some((drill, _))) => Bit { drill, has: Has::Yes },
        (None, None) => to_buy(hole.ideal, fits).ok_or_else(|| none_made(Field::Thread))?,
    };
    if !fits(bit.diameter()) {
        let off = bit.diameter() - hole.ideal;
        kit.cautions.push(Caution::NearestDrill { wanted: hole.ideal, off });
    }
    let alone = form_tap::choose(thread, tapped.hole.percent, None, &Index::new([bit.drill]))
        .map_err(|error| vec![error])?;
    let percent = alone.nearest.map_or(0.0, |(_, percent)| percent);
    Ok(Tapping { bit, reamer: None, percent, verdict: None })
}
