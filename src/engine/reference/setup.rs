//! Topics of setting up.

use super::{
    Topic,
    keys::{Keys, Refusal},
    units::{Got, got},
};
use crate::engine::{
    layout::{
        Place,
        arc::{self, SteppedArc},
        circle::{BoltCircle, Direction},
        edge::{self, Side},
    },
    quantity::{Angle, Force, Length},
    setup::{
        dials::DialTurns,
        parallels,
        passes::PassPlan,
        strap,
        touch::{self, Touch},
        tram::Tram,
    },
};

const SIDES: [(&str, Side); 4] =
    [("left", Side::Left), ("right", Side::Right), ("front", Side::Front), ("back", Side::Back)];

pub(super) const TOPICS: &[Topic] = &[
    ("pass_plan", |k| {
        let plan = PassPlan::new(k.get("total_depth")?, k.get("max_pass")?, k.get("finish")?)?;
        let pass = k.count_or("pass", 0)?;
        match k.word("quantity", &[("rough_passes", 0), ("rough_depth", 1), ("target", 2)])? {
            0 => got(plan.rough_passes),
            1 => got(plan.rough_depth),
            _ => got(plan.target(pass)?),
        }
    }),
    ("dial_turns", |k| {
        let dial = DialTurns::new(k.get("distance")?, k.get("lead")?)?;
        let per_turn = k.get_or("divisions_per_turn", 0.0)?;
        let quantities = [("turns", 0), ("whole_turns", 1), ("remainder", 2), ("divisions", 3)];
        match k.word("quantity", &quantities)? {
            0 => got(dial.turns),
            1 => got(dial.whole),
            2 => got(dial.remainder),
            _ => got(dial.divisions(per_turn)?),
        }
    }),
    ("bolt_circle", |k| {
        let hole = k.count_or("hole", 1)?;
        let centre = centre(k)?;
        let direction = k.word_or(
            "direction",
            &[("ccw", Direction::CounterClockwise), ("cw", Direction::Clockwise)],
            Direction::CounterClockwise,
        )?;
        let (holes, diameter) = (k.count("holes")?, k.get("diameter")?);
        let start = k.get_or("start", Angle::degree(0.0))?;
        let circle = if k.has("spacing") {
            BoltCircle::part(holes, diameter, centre, start, k.get("spacing")?, direction)?
        } else {
            BoltCircle::new(holes, diameter, centre, start, direction)?
        };
        match k.word("quantity", &[("x", 0), ("y", 1), ("chord", 2)])? {
            0 => got(circle.hole(hole)?.x),
            1 => got(circle.hole(hole)?.y),
            _ => got(circle.chord()),
        }
    }),
    ("stepped_arc", |k| {
        let side =
            k.word("side", &[("outside", arc::Side::Outside), ("inside", arc::Side::Inside)])?;
        let arc = SteppedArc::new(k.get("radius")?, k.get("diameter")?, side, centre(k)?)?;
        match k.word("quantity", &[("x", 0), ("y", 1), ("flat_height", 2)])? {
            0 => got(arc.at(k.get("angle")?)?.x),
            1 => got(arc.at(k.get("angle")?)?.y),
            _ => got(arc.flat_height(k.get("step")?)?),
        }
    }),
    ("cutter_position", |k| {
        let allowance = k.get_or("allowance", Length::ZERO)?;
        let side = k.word("side", &SIDES)?;
        got(edge::axis(k.get("edge")?, k.get("diameter")?, allowance, side)?)
    }),
    ("edge_zero", |k| {
        let face = k.get_or("face_position", Length::ZERO)?;
        got(touch::value_at_face(face, k.get("tip_diameter")?, k.word("face", &SIDES)?)?)
    }),
    ("bore_from_touches", |k| {
        let side = k.word("side", &[("inside", Touch::Inside), ("outside", Touch::Outside)])?;
        let between = touch::between(k.get("travel")?, k.get("tip_diameter")?, side)?;
        match k.word("quantity", &[("size", 0), ("centre", 1)])? {
            0 => got(between.size),
            _ => got(between.centre),
        }
    }),
    ("parallels_range", |k| {
        let range = parallels::range(
            k.get("jaw_height")?,
            k.get("part_height")?,
            k.get("side_cut")?,
            k.get("air")?,
            k.get("grip")?,
        )?;
        match k.word("quantity", &[("lowest", 0), ("highest", 1), ("choice", 2)])? {
            0 => got(range.lowest),
            1 => got(range.highest),
            _ => match range.choice(&k.list::<Length>("sizes")?) {
                Some(height) => got(height),
                None => got("none"),
            },
        }
    }),
    ("strap_force", |k| {
        let bolt = match k.which(&["bolt_force", "bolt_torque"])? {
            0 => k.get::<Force>("bolt_force")?,
            _ => strap::bolt_force(
                k.get("bolt_torque")?,
                k.get("bolt_diameter")?,
                k.get("nut_factor")?,
            )?,
        };
        let work = || {
            Ok::<_, Refusal>(strap::at_work(bolt, k.get("bolt_to_work")?, k.get("bolt_to_heel")?)?)
        };
        match k.word("quantity", &[("bolt", 0), ("work", 1), ("side_hold", 2)])? {
            0 => got(bolt),
            1 => got(work()?),
            _ => got(strap::side_hold(
                work()?,
                k.count("straps")?,
                k.get("friction")?,
                k.get("safety_factor")?,
            )?),
        }
    }),
    ("tram_slope", |k| {
        let tram = Tram::new(k.get("left_reading")?, k.get("right_reading")?, k.get("sweep")?)?;
        let quantities = [
            ("slope", 0),
            ("arcmin", 1),
            ("target", 2),
            ("row_step", 3),
            ("hollow", 4),
            ("move", 5),
        ];
        match k.word("quantity", &quantities)? {
            0 => got(tram.slope().abs()),
            1 => Ok(Got::In(tram.angle().to_degree() * 60.0, "arcmin".to_owned())),
            2 => got(tram.target()),
            3 => got(tram.row_step(k.get("stepover")?)?),
            4 => got(tram.hollow(k.get("diameter")?, k.get("cut_width")?)?),
            _ => got(tram.at_bolt(k.get("pivot")?)?),
        }
    }),
];

fn centre(k: &Keys) -> Result<Place, Refusal> {
    Ok(Place { x: k.get_or("centre_x", Length::ZERO)?, y: k.get_or("centre_y", Length::ZERO)? })
}
