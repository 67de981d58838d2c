//! The checklist: when each rule shows, what a set-up shows, and what is never advised.

mod again;
mod hazards;
mod order;
mod probes;
mod rules;
mod scenario;
mod set_ups;
mod unknown;
