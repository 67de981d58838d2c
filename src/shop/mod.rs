//! The shop: what a person owns and has chosen, as data.
