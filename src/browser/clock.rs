//! The clock.

use js_sys::Date;

/// Date and time now, in ISO 8601 and UTC: `2026-11-24T10:00:00.000Z`.
#[must_use]
pub fn now() -> String {
    String::from(Date::new_0().to_iso_string())
}

/// Seconds since 1970, whole.
#[must_use]
pub fn seconds() -> i64 {
    (Date::now() / 1000.0) as i64
}

/// The time of the day so many seconds from now: `14:05`.
#[must_use]
pub fn time_after(seconds: f64) -> String {
    let date = Date::new(&(Date::now() + seconds * 1000.0).into());
    format!("{:02}:{:02}", date.get_hours(), date.get_minutes())
}

/// The hour of the day here, 0 to 23.
#[must_use]
pub fn hour() -> u32 {
    Date::new_0().get_hours()
}

/// Minutes from an ISO date and time until now; `None` for a text that is none.
#[must_use]
pub fn minutes_since(iso: &str) -> Option<f64> {
    days_since(iso).map(|days| days * 24.0 * 60.0)
}

/// An ISO date and time as it is read here: `25 Nov, 14:05`; empty for a text that is none.
#[must_use]
pub fn shown(iso: &str) -> String {
    let date = Date::new(&iso.into());
    if !date.get_time().is_finite() {
        return String::new();
    }
    const MONTHS: [&str; 12] =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let month = MONTHS.get(date.get_month() as usize).copied().unwrap_or_default();
    format!("{} {month}, {:02}:{:02}", date.get_date(), date.get_hours(), date.get_minutes())
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
