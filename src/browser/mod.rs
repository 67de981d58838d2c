//! The browser: the only place that names it.
