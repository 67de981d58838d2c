//! One tap is one deed: a wet finger that bounces, drags or rests does nothing twice.

use leptos::{
    ev::{MouseEvent, PointerEvent},
    prelude::*,
};

/// A second activation of the same control within this time is the first one bouncing.
const BOUNCE_MS: f64 = 400.0;
/// A finger that has slid further than this between down and up has changed its mind.
const TRAVEL_PX: i32 = 24;

/// Decides whether a click of one control is meant.
#[derive(Clone, Copy)]
pub struct Press {
    bounce_ms: f64,
    down: StoredValue<Option<(i32, i32)>>,
    last: StoredValue<f64>,
}

impl Press {
    /// For a control that commits something: bounces are ignored.
    #[must_use]
    pub fn commit() -> Self {
        Self::with_bounce(BOUNCE_MS)
    }

    /// For a control that may be tapped many times in a row: only slides are ignored.
    #[must_use]
    pub fn repeatable() -> Self {
        Self::with_bounce(0.0)
    }

    fn with_bounce(bounce_ms: f64) -> Self {
        Self { bounce_ms, down: StoredValue::new(None), last: StoredValue::new(f64::NEG_INFINITY) }
    }

    /// Remembers where the finger came down.
    pub fn down(self, event: &PointerEvent) {
        if event.is_primary() {
            self.down.set_value(Some((event.client_x(), event.client_y())));
        }
    }

    /// True when the finger has left the place where it came down.
    #[must_use]
    pub fn has_slid(self, event: &MouseEvent) -> bool {
        self.down.get_value().is_some_and(|(x, y)| {
            let (dx, dy) = (event.client_x() - x, event.client_y() - y);
            dx * dx + dy * dy > TRAVEL_PX * TRAVEL_PX
        })
    }

    /// Keeps the browser from doing what a click that is not meant would do.
    pub fn guard(self, event: &MouseEvent) {
        if !self.accepts(event) {
            event.prevent_default();
        }
    }

    /// True when this click is meant. A click of the keyboard or of an assistive device has no
    /// place to slide from.
    #[must_use]
    pub fn accepts(self, event: &MouseEvent) -> bool {
        let slid = self.has_slid(event);
        self.down.set_value(None);
        if slid {
            return false;
        }
        let now = event.time_stamp();
        if now - self.last.get_value() < self.bounce_ms {
            return false;
        }
        self.last.set_value(now);
        true
    }
}
