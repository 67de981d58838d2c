//! The clock.

use js_sys::Date;

/// Date and time now, in ISO 8601 and UTC: `2026-11-24T10:00:00.000Z`.
#[must_use]
pub fn now() -> String {
    String::from(Date::new_0().to_iso_string())
}

/// Days from an ISO date and time until now; `None` for a text that is none.
#[must_use]
pub fn days_since(iso: &str) -> Option<f64> {
    let then = Date::parse(iso);
    then.is_finite().then(|| (Date::now() - then) / MS_PER_DAY)
}

const MS_PER_DAY: f64 = 24.0 * 60.0 * 60.0 * 1000.0;

/// Seconds on a clock that nobody sets.
#[must_use]
pub fn steady() -> f64 {
    super::window().performance().map_or_else(Date::now, |clock| clock.now()) / 1000.0
}
