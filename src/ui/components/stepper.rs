//! Less and more, one step at a time.

use core::time::Duration;

use leptos::{ev::PointerEvent, prelude::*};

use super::{press::Press, rule::Rule};
use crate::ui::sketch::Sketch;

/// A key held this long begins to repeat.
const HOLD: Duration = Duration::from_millis(500);
/// Then it steps eight times a second.
const REPEAT: Duration = Duration::from_millis(125);

/// A value between a minus and a plus. Held down, a key repeats; nothing needs holding.
#[component]
pub fn Stepper(
    /// What is stepped.
    #[prop(into)]
    label: Signal<String>,
    /// The value as it shows, with its unit.
    #[prop(into)]
    value: Signal<String>,
    /// Takes minus one or plus one.
    #[prop(into)]
    on_step: Callback<i32>,
    /// False where it can go no lower.
    #[prop(default = Signal::stored(true), into)]
    less: Signal<bool>,
    /// False where it can go no higher.
    #[prop(default = Signal::stored(true), into)]
    more: Signal<bool>,
) -> impl IntoView {
    view! {
        <div role="group" aria-label=move || label.get()>
            <div class="stepper-label" aria-hidden="true">
                {move || label.get()}
            </div>
            <div class="stepper">
                <StepKey label said="less" step=-1 on_step can=less />
                <output class="stepper-value">
                    <span data-result="second">{move || value.get()}</span>
                    <Rule />
                </output>
                <StepKey label said="more" step=1 on_step can=more />
            </div>
        </div>
    }
}

#[component]
fn StepKey(
    label: Signal<String>,
    said: &'static str,
    step: i32,
    on_step: Callback<i32>,
    can: Signal<bool>,
) -> impl IntoView {
    let press = Press::repeatable();
    let repeat = Repeat::new();
    let act = move || {
        if can.get_untracked() {
            on_step.run(step);
        }
    };
    let sign = if step < 0 { Sketch::Minus } else { Sketch::Plus };
    view! {
        <button
            type="button"
            class="step"
            data-touch="c"
            aria-label=move || format!("{}: {said}", label.get())
            aria-disabled=move || (!can.get()).to_string()
            on:pointerdown=move |event: PointerEvent| {
                press.down(&event);
                if event.is_primary() {
                    repeat.start(act);
                }
            }
            on:pointermove=move |event: PointerEvent| {
                if press.has_slid(&event) {
                    repeat.stop();
                }
            }
            on:pointerup=move |_| repeat.stop()
            on:pointerleave=move |_| repeat.stop()
            on:pointercancel=move |_| repeat.stop()
            on:contextmenu=|event| event.prevent_default()
            on:click=move |event| {
                let repeated = repeat.take_repeated();
                if press.accepts(&event) && !repeated {
                    act();
                }
            }
        >
            {sign.draw_small()}
        </button>
    }
}

/// What a held key does while it is held.
#[derive(Clone, Copy)]
struct Repeat {
    /// Rises with every start and stop, so that a timer knows it is the last one.
    turn: StoredValue<u32>,
    repeated: StoredValue<bool>,
}

impl Repeat {
    fn new() -> Self {
        let repeat = Self { turn: StoredValue::new(0), repeated: StoredValue::new(false) };
        on_cleanup(move || repeat.stop());
        repeat
    }

    fn start(self, act: impl Fn() + Copy + 'static) {
        self.stop();
        self.repeated.set_value(false);
        self.wait(HOLD, self.turn.get_value(), act);
    }

    fn wait(self, time: Duration, turn: u32, act: impl Fn() + Copy + 'static) {
        set_timeout(
            move || {
                if self.turn.try_get_value() == Some(turn) {
                    self.repeated.set_value(true);
                    act();
                    self.wait(REPEAT, turn, act);
                }
            },
            time,
        );
    }

    fn stop(self) {
        self.turn.try_update_value(|turn| *turn = turn.wrapping_add(1));
    }

    /// True when the key has repeated since it went down: the click that ends it is no step.
    fn take_repeated(self) -> bool {
        let repeated = self.repeated.get_value();
        self.repeated.set_value(false);
        repeated
    }
}
