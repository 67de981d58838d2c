//! A quantity of any kind, as the working of an answer carries it.

use super::{
    Angle, Duration, FeedRate, Force, HandRate, Length, Mass, Power, RemovalRate, SpindleSpeed,
    Stiffness, Stress, SurfaceSpeed, System, Temperature, Torque, Volume,
    rounding::{self, Shown},
};

/// A quantity of any kind.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "each variant is the type it holds")]
pub enum Value {
    Length(Length),
    /// A chip or a feed per tooth, shown finer than a length.
    Chip(Length),
    SpindleSpeed(SpindleSpeed),
    HandRate(HandRate),
    SurfaceSpeed(SurfaceSpeed),
    FeedRate(FeedRate),
    Force(Force),
    Torque(Torque),
    Power(Power),
    Stress(Stress),
    /// Power per removal rate.
    UnitPower(Stress),
    Angle(Angle),
    Duration(Duration),
    RemovalRate(RemovalRate),
    Stiffness(Stiffness),
    Mass(Mass),
    Volume(Volume),
    Temperature(Temperature),
    /// A plain number.
    Ratio(f64),
    /// A share of one, shown in per cent.
    Share(f64),
    Count(u32),
}

impl Value {
    /// The digits and unit a screen shows.
    #[must_use]
    pub fn shown(self, system: System) -> Shown {
        match self {
            Self::Length(v) => rounding::length(v, system),
            Self::Chip(v) => rounding::chip(v, system),
            Self::SpindleSpeed(v) => rounding::spindle_speed(v),
            Self::HandRate(v) => rounding::hand_rate(v),
            Self::SurfaceSpeed(v) => rounding::surface_speed(v, system),
            Self::FeedRate(v) => rounding::feed_rate(v, system),
            Self::Force(v) => rounding::force(v, system),
            Self::Torque(v) => rounding::torque(v, system),
            Self::Power(v) => rounding::power(v, system),
            Self::Stress(v) => rounding::stress(v, system),
            Self::UnitPower(v) => match system {
                System::Inch => Shown {
                    digits: rounding::significant(v.to_hp_per_inch3_min(), 2),
                    unit: "hp/(in³/min)",
                },
                System::Metric => {
                    Shown { digits: rounding::significant(v.to_joule_per_mm3(), 2), unit: "J/mm³" }
                }
            },
            Self::Angle(v) => Shown { digits: rounding::fixed(v.to_degree(), 1), unit: "°" },
            Self::Duration(v) => rounding::duration(v),
            Self::RemovalRate(v) => match system {
                System::Inch => Shown {
                    digits: rounding::significant(v.to_inch3_per_min(), 3),
                    unit: "in³/min",
                },
                System::Metric => {
                    Shown { digits: rounding::significant(v.to_cm3_per_min(), 3), unit: "cm³/min" }
                }
            },
            Self::Stiffness(v) => {
                Shown { digits: rounding::significant(v.to_newton_per_um(), 2), unit: "N/µm" }
            }
            Self::Mass(v) => {
                Shown { digits: rounding::significant(v.to_kilogram(), 3), unit: "kg" }
            }
            Self::Volume(v) => {
                Shown { digits: rounding::significant(v.to_mm3() / 1000.0, 3), unit: "cm³" }
            }
            Self::Temperature(v) => {
                Shown { digits: rounding::fixed(v.to_celsius(), 1), unit: "°C" }
            }
            Self::Ratio(v) => Shown { digits: rounding::significant(v, 3), unit: "" },
            Self::Share(v) => Shown { digits: rounding::fixed(v * 100.0, 0), unit: "%" },
            Self::Count(v) => Shown { digits: v.to_string(), unit: "" },
        }
    }
}
