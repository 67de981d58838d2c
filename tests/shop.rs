//! What a person owns and has chosen: reading, links, the saved document.

#[path = "shop/cuts.rs"]
mod cuts;
#[path = "shop/document.rs"]
mod document;
#[path = "shop/machines.rs"]
mod machines;
