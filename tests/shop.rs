//! What a person owns and has chosen: reading, links, the saved document.

#[path = "shop/cuts.rs"]
mod cuts;
#[path = "shop/machines.rs"]
mod machines;
