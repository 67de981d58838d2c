//! The threads of the scenario.

use handwheel::engine::{
    holes::tapping::Tapped,
    threads::{named, tap::Style, tap_hole::Question},
};

pub fn tapped(name: &str) -> Tapped {
    Tapped {
        hole: Question::new(named(name).expect(name)),
        full_thread: None,
        tap: Style::Plug,
        chamfer_threads: None,
        spare: None,
        drill: None,
        under_power: false,
    }
}

pub fn m4() -> Tapped {
    tapped("M4")
}

pub fn quarter_twenty() -> Tapped {
    tapped("1/4-20")
}
