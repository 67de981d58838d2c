//! The threads of the scenario.

use handwheel::engine::{
    holes::{
        tapping::{TapThread, Tapped},
        tool::TapStyle,
    },
    quantity::Length,
};

fn tapped(name: &str, major: Length, pitch: Length, minor_max: Length) -> Tapped {
    let minor = (major - pitch * 1.082_531_755, minor_max);
    Tapped {
        thread: TapThread { name: name.to_owned(), major, pitch, minor },
        left_hand: false,
        full_thread: None,
        tap: TapStyle::Plug,
        chamfer_threads: None,
        spare: None,
        percent: 75.0,
        drill: None,
        under_power: false,
    }
}

pub fn m3() -> Tapped {
    tapped("M3x0.5", Length::mm(3.0), Length::mm(0.5), Length::mm(2.599))
}

pub fn m4() -> Tapped {
    tapped("M4x0.7", Length::mm(4.0), Length::mm(0.7), Length::mm(3.422))
}

pub fn m6() -> Tapped {
    tapped("M6x1", Length::mm(6.0), Length::mm(1.0), Length::mm(5.153))
}

pub fn ten_thirty_two() -> Tapped {
    tapped("10-32", Length::inch(0.190), Length::inch(1.0 / 32.0), Length::inch(0.164))
}

pub fn quarter_twenty() -> Tapped {
    tapped("1/4-20", Length::inch(0.25), Length::inch(0.05), Length::inch(0.207))
}
