//! The words of the app: what the engine's answers are called on a screen.

use crate::engine::answer::State;

/// How a limit stands.
#[must_use]
pub fn state(state: State) -> &'static str {
    match state {
        State::Within => "within limits",
        State::Near => "near a limit",
        State::Over => "over a limit",
    }
}
