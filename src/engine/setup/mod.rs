//! Setting up: passes and dials.
