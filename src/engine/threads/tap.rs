//! The tap: its chamfer, its turns, and the percentage of thread a stock asks for.

use super::Thread;
use crate::engine::{
    quantity::Length,
    stock::{Family, Flag, Material},
};

/// Source of the chamfers.
pub const SOURCE: &str = "B94_9_CHAMFER B94_9_MEM";

/// The style of a tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Style {
    /// Long chamfer, to start by hand.
    Taper,
    /// Middle chamfer, for most work.
    Plug,
    /// Short chamfer, for the bottom of a blind hole, after a plug tap.
    Bottoming,
    /// Forming, for through holes.
    FormPlug,
    /// Forming, for blind holes.
    FormBottoming,
}

impl Style {
    /// All styles.
    pub const ALL: [Self; 5] =
        [Self::Taper, Self::Plug, Self::Bottoming, Self::FormPlug, Self::FormBottoming];

    /// True when the tap forms the thread and makes no chips.
    #[must_use]
    pub fn forms(self) -> bool {
        matches!(self, Self::FormPlug | Self::FormBottoming)
    }

    /// The words a person reads.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Taper => "Taper",
            Self::Plug => "Plug",
            Self::Bottoming => "Bottoming",
            Self::FormPlug => "Forming, plug",
            Self::FormBottoming => "Forming, bottoming",
        }
    }

    /// Threads of the chamfer, least and most.
    #[must_use]
    pub fn chamfer(self) -> (f64, f64) {
        match self {
            Self::Taper => (7.0, 10.0),
            Self::Plug | Self::FormPlug => (3.0, 5.0),
            Self::Bottoming => (1.0, 2.0),
            Self::FormBottoming => (1.0, 2.5),
        }
    }

    /// Tags of the sources of the chamfer.
    #[must_use]
    pub fn source(self) -> &'static str {
        match self {
            Self::Taper | Self::Plug => "B94_9_CHAMFER",
            _ => "B94_9_MEM",
        }
    }
}

/// Turns of the tap for a length of travel.
#[must_use]
pub fn turns(thread: Thread, travel: Length) -> f64 {
    travel / thread.pitch()
}

/// Room to leave below a tap in a blind hole, least and most: one to two pitches. A forming tap
/// makes no chips and needs the least. Common practice, `CHIP_ROOM_CP`.
#[must_use]
pub fn chip_room(thread: Thread) -> (Length, Length) {
    (thread.pitch(), thread.pitch() * 2.0)
}

/// The percentage of thread to ask for, on the basis of tap-drill charts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// Percentage to begin with.
    pub percent: f64,
    /// Least and most that are usual.
    pub range: (f64, f64),
    /// Why, a full sentence.
    pub reason: &'static str,
    /// Tags of the sources.
    pub source: &'static str,
}

/// A thread longer than this many diameters is deep for a tap.
const DEEP: f64 = 1.5;
/// Body of a No. 6 screw, in inches: smaller taps break easily.
const SMALL_IN: f64 = 0.138;
/// Hardness, Brinell, from which stock counts as hard.
const HARD_HB: f64 = 250.0;

/// The percentage of thread for a stock, with its reason. `length` is the length of thread wanted,
/// where it is known; sheet is told by a thread shorter than three pitches.
#[must_use]
pub fn advise(thread: Thread, stock: Option<&Material>, length: Option<Length>) -> Advice {
    let gentle = |reason| Advice {
        percent: 60.0,
        range: (50.0, 65.0),
        reason,
        source: "PERCENT_GUIDE PERCENT_CP",
    };
    let full = |reason| Advice {
        percent: 75.0,
        range: (70.0, 75.0),
        reason,
        source: "PERCENT_GUIDE PERCENT_CP",
    };
    if let Some(stock) = stock {
        let tough = stock.is(Flag::WorkHardening)
            || stock.is(Flag::Titanium)
            || stock.family() == Family::Stainless;
        if tough {
            return gentle(
                "Tough stock: a shallower thread is nearly as strong and spares the tap.",
            );
        }
        let hard = stock.hardness.scale == "HB" && stock.hardness.high >= HARD_HB;
        if hard && stock.family() == Family::Steel {
            return gentle(
                "Hard stock: a shallower thread is nearly as strong and spares the tap.",
            );
        }
    }
    if length.is_some_and(|length| length < thread.pitch() * 3.0) {
        return full("Thin stock: few threads hold, so each should be deep.");
    }
    if length.is_some_and(|length| length > thread.major() * DEEP) {
        return gentle("A deep thread: a shallower one is as strong and frees the chips.");
    }
    if thread.major().to_inch() < SMALL_IN {
        return gentle("A tap under No. 6 breaks easily: a shallower thread spares it.");
    }
    let soft = stock
        .is_some_and(|s| s.is_soft() || matches!(s.family(), Family::Aluminium | Family::Plastic));
    if soft {
        return full("Soft stock: a deep thread holds better and cuts easily.");
    }
    Advice {
        percent: 70.0,
        range: (60.0, 75.0),
        reason: "60 to 75 % is usual: above 60 % little strength is gained.",
        source: "PERCENT_GUIDE",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{stock::material, threads::named};

    #[test]
    fn chamfers_are_those_of_the_standard() {
        assert_eq!(Style::Taper.chamfer(), (7.0, 10.0));
        assert_eq!(Style::Plug.chamfer(), (3.0, 5.0));
        assert_eq!(Style::Bottoming.chamfer(), (1.0, 2.0));
    }

    #[test]
    fn turns_are_depth_over_pitch_and_not_a_number_of_the_thread() {
        let m4 = named("M4").expect("listed");
        assert!((turns(m4, Length::mm(12.7)) - 18.14).abs() < 0.01);
        let quarter = named("1/4-20").expect("listed");
        assert!((turns(quarter, Length::inch(0.7)) - 14.0).abs() < 1e-9);
    }

    #[test]
    fn the_advice_follows_stock_size_and_depth() {
        let advice = |thread: &str, id: &str, mm: Option<f64>| {
            let thread = named(thread).expect(thread);
            advise(thread, material(id), mm.map(Length::mm)).percent
        };
        assert_eq!(advice("10-32", "ss_303", Some(7.62)), 60.0);
        assert_eq!(advice("1/4-20", "steel_4140_ph", None), 60.0);
        assert_eq!(advice("M4", "al_6061", Some(5.0)), 75.0);
        assert_eq!(advice("M4", "al_6061", Some(12.7)), 60.0);
        assert_eq!(advice("1/4-20", "steel_low_c", None), 70.0);
        assert_eq!(advice("2-56", "al_6061", None), 60.0);
        assert_eq!(advice("2-56", "al_6061", Some(1.0)), 75.0);
    }
}
