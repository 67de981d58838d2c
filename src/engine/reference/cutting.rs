//! Topics of milling.

use super::{
    Topic,
    keys::{Keys, Refusal},
    units::got,
};
use crate::engine::{
    cutting::{
        bending::{self, Cantilever, Section},
        chip::{self, Engagement},
        feed,
        finish::{self, Roughness},
        force, handwheel, life,
        power::{self, Factors, Kienzle},
        runout, speed,
        time::{self, Position, Travel},
    },
    machine::{Speeds, speeds},
    quantity::{Angle, Length, RemovalRate, Stress},
};

pub(super) const TOPICS: &[Topic] = &[
    ("spindle_speed", |k| got(speed::spindle_speed(k.get("surface_speed")?, k.get("diameter")?)?)),
    ("surface_speed", |k| got(speed::surface_speed(k.get("spindle")?, k.get("diameter")?)?)),
    ("attainable_speed", |k| got(speeds::attainable(&speeds_of(k)?, k.get("wanted")?)?)),
    ("table_feed", |k| got(feed::table_feed(per_turn(k)?, k.get("spindle")?)?)),
    ("feed_per_tooth", |k| got(per_tooth_at_feed(k)?)),
    ("feed_per_rev", |k| match k.which(&["feed_per_tooth", "table_feed"])? {
        0 => got(feed::feed_per_turn(k.get("feed_per_tooth")?, k.count("teeth")?)?),
        _ => got(feed::feed_per_turn_at(k.get("table_feed")?, k.get("spindle")?)?),
    }),
    ("handwheel_rate", |k| got(handwheel::hand_rate(k.get("table_feed")?, k.get("lead")?)?)),
    ("handwheel_seconds_per_turn", |k| {
        got(handwheel::travel_time(k.get("lead")?, k.get("table_feed")?)?)
    }),
    ("handwheel_seconds_per_division", |k| {
        got(handwheel::travel_time(k.get("division")?, k.get("table_feed")?)?)
    }),
    ("rpm_for_hand_rate", |k| {
        got(handwheel::spindle_speed_for(k.get("hand_rate")?, k.get("lead")?, per_turn(k)?)?)
    }),
    ("engagement_angle", |k| got(engagement(k)?.angle())),
    ("chip_max", |k| got(chip::chip_max(edged_engagement(k)?, per_tooth(k)?)?)),
    ("chip_mean", |k| got(chip::chip_mean(edged_engagement(k)?, per_tooth(k)?)?)),
    ("feed_for_chip", |k| got(chip::feed_for_chip(engagement(k)?, k.get("wanted_chip")?)?)),
    ("ball_effective_diameter", |k| {
        let tilt = k.get_or("tilt", Angle::ZERO)?;
        got(chip::ball_effective_diameter(k.get("diameter")?, k.get("axial_depth")?, tilt)?)
    }),
    ("mrr_milling", |k| got(removal_rate(k)?)),
    ("specific_cutting_force", |k| {
        let floor = k.get_or("chip_floor", Length::ZERO)?;
        got(power::specific_cutting_force(kienzle(k)?, k.get("chip")?, floor)?)
    }),
    ("cutting_power", |k| match k.which(&["mrr", "axial_depth", "force", "torque"])? {
        0 => got(power::cutting_power(k.get("mrr")?, energy(k)?, factors(k)?)?),
        1 => got(power::cutting_power(removal_rate(k)?, energy(k)?, factors(k)?)?),
        2 => got(power::power_of_force(k.get("force")?, k.get("surface_speed")?)?),
        _ => got(power::power_of_torque(k.get("torque")?, k.get("spindle")?)?),
    }),
    ("motor_power", |k| got(power::motor_power(k.get("power")?, k.get("efficiency")?)?)),
    ("spindle_torque", |k| got(force::spindle_torque(k.get("power")?, k.get("spindle")?)?)),
    ("tangential_force", |k| match k.which(&["power", "torque", "kc"])? {
        0 => got(force::force_of_power(k.get("power")?, k.get("surface_speed")?)?),
        1 => got(force::force_of_torque(k.get("torque")?, k.get("diameter")?)?),
        _ => got(force::force_of_chip(k.get("kc")?, k.get("axial_depth")?, k.get("chip")?)?),
    }),
    ("unit_power_conversion", |k| got(energy_of_volume(k)?)),
    ("power_limited_feed", |k| {
        got(power::power_limited_feed(
            k.get("power")?,
            k.get_or("efficiency", 1.0)?,
            energy(k)?,
            factors(k)?,
            k.get("axial_depth")?,
            k.get("radial_width")?,
        )?)
    }),
    ("approach_slab", |k| got(time::approach_slab(k.get("diameter")?, k.get("depth")?)?)),
    ("approach_face", |k| {
        let places = [("centred", Position::Centred), ("edge", Position::Edge)];
        let position = k.word_or("position", &places, Position::Centred)?;
        got(time::approach_face(k.get("diameter")?, k.get("width")?, position)?)
    }),
    ("milling_time", |k| {
        let travel = Travel {
            length: k.get("length")?,
            approach: k.get_or("approach", Length::ZERO)?,
            overrun: k.get_or("overrun", Length::ZERO)?,
            clearance: k.get_or("clearance", Length::ZERO)?,
        };
        got(time::milling_time(travel, k.get("table_feed")?, k.count_or("passes", 1)?)?)
    }),
    ("tip_deflection", |k| {
        got(bending::tip_deflection(&cantilever(k)?, k.get("force")?, k.get("youngs_modulus")?)?)
    }),
    ("bending_stress", |k| {
        let sections = [("flute_end", Section::FluteEnd), ("holder", Section::Holder)];
        let section = k.word("section", &sections)?;
        got(bending::bending_stress(&cantilever(k)?, k.get("force")?, section)?)
    }),
    ("worst_tooth_chip", |k| {
        let teeth = k.count("teeth")?;
        got(runout::worst_tooth_chip(k.get("feed_per_tooth")?, teeth, k.get("runout")?)?)
    }),
    ("runout_limit", |k| {
        got(runout::runout_limit(k.get("chip")?, k.count("teeth")?, k.get("fraction")?)?)
    }),
    ("scallop_height", |k| got(finish::scallop_height(k.get("radius")?, k.get("stepover")?)?)),
    ("ideal_roughness", |k| {
        let measure = k.word("parameter", &[("Ra", Roughness::Ra), ("Rt", Roughness::Rt)])?;
        got(finish::ideal_roughness(k.get("nose_radius")?, k.get("feed_per_rev")?, measure)?)
    }),
    ("tool_life_ratio", |k| got(life::life_ratio(k.get("taylor_n")?, k.get("speed_ratio")?)?)),
    ("taylor_exponent", |k| match k.which(&["speed_1", "speed_ratio"])? {
        0 => got(life::exponent_from_tests(
            (k.get("speed_1")?, k.get("life_1")?),
            (k.get("speed_2")?, k.get("life_2")?),
        )?),
        _ => got(life::exponent_from_ratios(k.get("speed_ratio")?, k.get("life_ratio")?)?),
    }),
    ("taylor_life", |k| {
        let n = k.get("taylor_n")?;
        got(life::taylor_life(n, k.get("taylor_c")?, k.get("surface_speed")?)?)
    }),
];

fn speeds_of(k: &Keys) -> Result<Speeds, Refusal> {
    Ok(match k.which(&["speeds", "lowest"])? {
        0 => Speeds::Steps(k.list("speeds")?),
        _ => {
            Speeds::Continuous { lowest: k.get("lowest")?, highest: k.get("highest")?, base: None }
        }
    })
}

/// Feed per turn of the spindle, given as such or by the tooth.
fn per_turn(k: &Keys) -> Result<Length, Refusal> {
    match k.which(&["feed_per_tooth", "feed_per_rev"])? {
        0 => Ok(feed::feed_per_turn(k.get("feed_per_tooth")?, k.count("teeth")?)?),
        _ => k.get("feed_per_rev"),
    }
}

/// Feed per tooth, given as such or by the table feed.
fn per_tooth(k: &Keys) -> Result<Length, Refusal> {
    match k.which(&["feed_per_tooth", "table_feed"])? {
        0 => k.get("feed_per_tooth"),
        _ => per_tooth_at_feed(k),
    }
}

fn per_tooth_at_feed(k: &Keys) -> Result<Length, Refusal> {
    Ok(feed::feed_per_tooth(k.get("table_feed")?, k.get("spindle")?, k.count("teeth")?)?)
}

fn engagement(k: &Keys) -> Result<Engagement, Refusal> {
    Ok(Engagement::side(k.get("diameter")?, k.get("radial_width")?)?)
}

fn edged_engagement(k: &Keys) -> Result<Engagement, Refusal> {
    let square = Angle::degree(90.0);
    Ok(engagement(k)?.entering_at(k.get_or("entering_angle", square)?)?)
}

fn removal_rate(k: &Keys) -> Result<RemovalRate, Refusal> {
    let (depth, width) = (k.get("axial_depth")?, k.get("radial_width")?);
    Ok(power::removal_rate_milling(depth, width, k.get("table_feed")?)?)
}

fn kienzle(k: &Keys) -> Result<Kienzle, Refusal> {
    Ok(Kienzle::new(k.get("kc1_1")?, k.get("mc")?)?)
}

/// Energy per chip volume in whichever form it is given.
fn energy(k: &Keys) -> Result<Stress, Refusal> {
    match k.which(&["unit_power", "specific_energy", "kc", "kc1_1"])? {
        0 | 1 => energy_of_volume(k),
        2 => k.get("kc"),
        _ => Ok(power::specific_cutting_force(kienzle(k)?, k.get("chip")?, Length::ZERO)?),
    }
}

fn energy_of_volume(k: &Keys) -> Result<Stress, Refusal> {
    Ok(match k.which(&["unit_power", "specific_energy"])? {
        0 => Stress::hp_per_inch3_min(k.get("unit_power_hp_in3_min")?),
        _ => Stress::joule_per_mm3(k.get("specific_energy_J_mm3")?),
    })
}

fn factors(k: &Keys) -> Result<Factors, Refusal> {
    Ok(Factors { feed: k.get_or("feed_factor", 1.0)?, wear: k.get_or("wear_factor", 1.0)? })
}

fn cantilever(k: &Keys) -> Result<Cantilever, Refusal> {
    Ok(Cantilever::new(
        k.get("diameter")?,
        k.get("core_factor")?,
        k.get("flute_length")?,
        k.get("shank_diameter")?,
        k.get("stickout")?,
    )?)
}
