//! Limits: one per cause, the search, and the operating window.
