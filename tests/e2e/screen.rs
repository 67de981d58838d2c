//! Screens to hold the app on.

/// A screen in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screen {
    pub width: u32,
    pub height: u32,
    /// Device pixels in a CSS pixel.
    pub scale: f64,
    /// Whether a finger points on it, and not a mouse.
    pub touch: bool,
}

const fn held(width: u32, height: u32, scale: f64) -> Screen {
    Screen { width, height, scale, touch: true }
}

pub const PHONE: Screen = held(390, 844, 3.0);
pub const PHONE_SIDEWAYS: Screen = held(844, 390, 3.0);
pub const SMALL_PHONE: Screen = held(360, 640, 3.0);
pub const SMALLEST_PHONE: Screen = held(320, 568, 2.0);
pub const TABLET: Screen = held(768, 1024, 2.0);
pub const TABLET_SIDEWAYS: Screen = held(1024, 768, 2.0);
pub const DESK: Screen = Screen { width: 1280, height: 800, scale: 1.0, touch: false };

/// Every size the screens are made for.
pub const ALL: [Screen; 7] =
    [PHONE, PHONE_SIDEWAYS, SMALL_PHONE, SMALLEST_PHONE, TABLET, TABLET_SIDEWAYS, DESK];
