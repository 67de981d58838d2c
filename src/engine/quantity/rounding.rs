//! Shop rounding: how many digits of a quantity a person at the machine can use.
//!
//! Nothing here changes a value that is worked with further. Every screen and print-out takes its
//! digits from this module.

use super::{
    Duration, FeedRate, Force, HandRate, Length, Power, SpindleSpeed, Stress, SurfaceSpeed, System,
    Torque,
};

/// Digits of a quantity and the unit that stands beside them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The digits, with a point and at most one leading minus.
    pub digits: String,
    /// The unit as the trade writes it.
    pub unit: &'static str,
}

impl core::fmt::Display for Shown {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        if self.unit.is_empty() || self.unit == "%" && self.digits.is_empty() {
            return write!(f, "{}", self.digits);
        }
        write!(f, "{} {}", self.digits, self.unit)
    }
}

/// A number with a fixed count of decimals; what cannot be worked with shows as a dash.
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let text = format!("{value:.decimals$}");
    // "-0.000" says something is there; there is not.
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

/// A number with a count of significant figures, without an exponent.
#[must_use]
pub fn significant(value: f64, figures: i32) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let magnitude = libm::floor(libm::log10(libm::fabs(value))) as i32;
    let decimals = figures - 1 - magnitude;
    if decimals >= 0 {
        return fixed(value, decimals as usize);
    }
    let step = libm::pow(10.0, f64::from(-decimals));
    fixed(libm::round(value / step) * step, 0)
}

/// A length: 0.0001 in or 0.001 mm.
#[must_use]
pub fn length(value: Length, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: fixed(value.to_inch(), 4), unit: "in" },
        System::Metric => Shown { digits: fixed(value.to_mm(), 3), unit: "mm" },
    }
}

/// A length as an entry that may be no larger: 0.001 in or 0.01 mm, rounded down.
#[must_use]
pub fn length_at_most(value: Length, system: System) -> Shown {
    let down = |value: f64, per: f64| libm::floor(value * per) / per;
    match system {
        System::Inch => Shown { digits: fixed(down(value.to_inch(), 1e3), 3), unit: "in" },
        System::Metric => Shown { digits: fixed(down(value.to_mm(), 1e2), 2), unit: "mm" },
    }
}

/// A chip or a feed per tooth: 0.00001 in or 0.0001 mm, as fine as the tables are.
#[must_use]
pub fn chip(value: Length, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: fixed(value.to_inch(), 5), unit: "in" },
        System::Metric => Shown { digits: fixed(value.to_mm(), 4), unit: "mm" },
    }
}

/// A spindle speed: whole turns per minute.
#[must_use]
pub fn spindle_speed(value: SpindleSpeed) -> Shown {
    Shown { digits: fixed(value.to_rpm(), 0), unit: "rpm" }
}

/// A surface speed: whole feet per minute, or tenths of a metre per minute.
#[must_use]
pub fn surface_speed(value: SurfaceSpeed, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: significant(value.to_ft_per_min(), 3), unit: "ft/min" },
        System::Metric => Shown { digits: significant(value.to_m_per_min(), 3), unit: "m/min" },
    }
}

/// A feed rate: 0.01 in/min or whole mm/min.
#[must_use]
pub fn feed_rate(value: FeedRate, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: fixed(value.to_inch_per_min(), 2), unit: "in/min" },
        System::Metric => Shown { digits: fixed(value.to_mm_per_min(), 0), unit: "mm/min" },
    }
}

/// A hand rate: tenths of a turn per minute.
#[must_use]
pub fn hand_rate(value: HandRate) -> Shown {
    Shown { digits: fixed(value.to_turns_per_min(), 1), unit: "turns/min" }
}

/// A force: two figures, because the cutting force is known to about 40 per cent.
#[must_use]
pub fn force(value: Force, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: significant(value.to_lbf(), 2), unit: "lbf" },
        System::Metric => Shown { digits: significant(value.to_newton(), 2), unit: "N" },
    }
}

/// A power: two figures, for the same reason as [`force`].
#[must_use]
pub fn power(value: Power, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: significant(value.to_horsepower(), 2), unit: "hp" },
        System::Metric => Shown { digits: significant(value.to_watt(), 2), unit: "W" },
    }
}

/// A torque: two figures, for the same reason as [`force`].
#[must_use]
pub fn torque(value: Torque, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: significant(value.to_lbf_inch(), 2), unit: "lbf in" },
        System::Metric => Shown { digits: significant(value.to_newton_metre(), 2), unit: "N m" },
    }
}

/// A stress or specific cutting force: three figures.
#[must_use]
pub fn stress(value: Stress, system: System) -> Shown {
    match system {
        System::Inch => Shown { digits: significant(value.to_psi(), 3), unit: "psi" },
        System::Metric => {
            Shown { digits: significant(value.to_newton_per_mm2(), 3), unit: "N/mm²" }
        }
    }
}

/// A short span to three figures: thousandths of a second under one, hundredths under ten seconds,
/// tenths under a hundred.
#[must_use]
pub fn seconds(value: Duration) -> Shown {
    let s = value.to_second();
    let decimals = if s < 1.0 {
        3
    } else if s < 10.0 {
        2
    } else if s < 100.0 {
        1
    } else {
        0
    };
    Shown { digits: fixed(s, decimals), unit: "s" }
}

/// The time of a cut: seconds up to two minutes, then minutes.
#[must_use]
pub fn duration(value: Duration) -> Shown {
    if value < Duration::minute(2.0) {
        Shown { digits: fixed(value.to_second(), 0), unit: "s" }
    } else {
        Shown { digits: fixed(value.to_minute(), 1), unit: "min" }
    }
}

/// A signed difference in per cent, whole.
#[must_use]
pub fn percent_off(ratio: f64) -> String {
    let p = libm::round((ratio - 1.0) * 100.0);
    if !p.is_finite() {
        return "–".to_owned();
    }
    if p > 0.0 { format!("+{p:.0} %") } else { format!("{} %", fixed(p, 0)).replace('-', "−") }
}
