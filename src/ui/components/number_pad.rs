//! The number pad: the one keyboard of the app for numbers.
//!
//! A [`NumberField`](super::number_field::NumberField) opens it through the [`Pad`] in the context;
//! there is never more than one. Keys type at the end of the text. The first digit after opening
//! takes the place of what stood there; backspace keeps it and takes its last sign away.

use core::time::Duration;

use leptos::{
    ev::{MouseEvent, PointerEvent},
    html,
    prelude::*,
};

use super::{
    number_field::{other_unit, read, unit_beside},
    press::Press,
    toggle::TwoUnits,
};
use crate::{
    engine::quantity::{System, entry::Measure},
    shop::typed::Typed,
    ui::sketch::Sketch,
};

/// Two digits closer together than this are one finger that bounced.
const DIGIT_MS: f64 = 80.0;
/// After the pad has closed, what was under it is deaf for this long.
const SETTLE: Duration = Duration::from_millis(400);

/// The field the pad types into.
#[derive(Clone, Copy)]
pub struct Target {
    /// The input element.
    pub input: NodeRef<html::Input>,
    /// What the field is called.
    pub label: Signal<String>,
    /// What is to be typed.
    pub measure: Measure,
    /// Several with spaces between: the first key adds to what stands there.
    pub list: bool,
    /// What has been typed.
    pub value: Signal<Typed>,
    /// The units of an empty text, where its owner has chosen them on the pad.
    pub unit: RwSignal<Option<System>>,
    /// Takes what is typed next.
    pub on_change: Callback<Typed>,
    /// What follows the key that says done.
    pub on_done: Option<Callback<()>>,
}

impl Target {
    /// What stands in the field. It may be gone while the pad is still being drawn: then nothing.
    fn typed(self) -> Typed {
        self.value.try_get().unwrap_or_else(|| Typed::new("", System::Inch))
    }

    fn name(self) -> String {
        self.label.try_get().unwrap_or_default()
    }
}

impl PartialEq for Target {
    fn eq(&self, other: &Self) -> bool {
        self.label == other.label && self.value == other.value
    }
}

/// The pad's state, one for the app.
#[derive(Clone, Copy)]
pub struct Pad {
    target: RwSignal<Option<Target>>,
    /// The text stands there from before: the first digit replaces it.
    fresh: RwSignal<bool>,
    /// Done was pressed on a text that cannot be read.
    refused: RwSignal<bool>,
}

/// Gives every page below the pad; [`NumberPad`] shows it.
pub fn provide_pad() -> Pad {
    let pad = Pad {
        target: RwSignal::new(None),
        fresh: RwSignal::new(false),
        refused: RwSignal::new(false),
    };
    provide_context(pad);
    pad
}

impl Pad {
    /// Opens it for a field.
    pub fn open(self, target: Target) {
        if self.is_open_for(target) {
            return;
        }
        self.fresh.set(!target.list && !target.value.read_untracked().is_empty());
        self.refused.set(false);
        self.target.set(Some(target));
        mark_document(Some("open"));
    }

    /// True while it types into this field.
    #[must_use]
    pub fn is_open_for(self, target: Target) -> bool {
        *self.target.read_untracked() == Some(target)
    }

    /// [`Self::is_open_for`], followed by whatever shows it.
    #[must_use]
    pub fn follows(self, target: Target) -> bool {
        *self.target.read() == Some(target)
    }

    /// Closes it if it types into this field: the person went elsewhere.
    pub fn leave(self, target: Target) {
        if self.is_open_for(target) {
            self.close("left");
        }
    }

    /// Closes it: nothing beneath takes the tap that did it.
    pub fn dismiss(self) {
        if self.target.read_untracked().is_some() {
            self.close("closing");
        }
    }

    /// Closes it if the text can be read or is empty; else shows why not.
    pub fn done(self) {
        let Some(target) = self.target.get_untracked() else { return };
        let Some(typed) = target.value.try_get_untracked() else { return };
        if target.list || typed.is_empty() || read(target.measure, &typed).is_ok() {
            self.dismiss();
            if let (Some(on_done), false) = (target.on_done, typed.is_empty()) {
                on_done.run(());
            }
        } else {
            self.refused.set(true);
        }
    }

    /// Types into the field from the hardware keyboard: the browser has done it.
    pub fn typed(self) {
        self.fresh.set(false);
        self.refused.set(false);
    }

    /// True once, when what is typed next replaces the text.
    #[must_use]
    pub fn takes_over(self) -> bool {
        self.fresh.get_untracked()
    }

    fn close(self, how: &'static str) {
        if let Some(target) = self.target.get_untracked() {
            // The field may be gone already.
            let _ = target.unit.try_set(None);
        }
        self.target.set(None);
        mark_document(Some(how));
        set_timeout(
            move || {
                if self.target.try_get_untracked().flatten().is_none() {
                    mark_document(None);
                }
            },
            SETTLE,
        );
    }

    fn press(self, key: Key) {
        let Some(target) = self.target.get_untracked() else { return };
        let Some(mut typed) = target.value.try_get_untracked() else { return };
        match key {
            Key::Sign(sign) => {
                if self.fresh.get_untracked() {
                    typed.text.clear();
                }
                typed.text.push(sign);
            }
            Key::Back => {
                typed.text.pop();
            }
            Key::Clear => typed.text.clear(),
            Key::Unit => typed.system = typed.system.other(),
        }
        if key != Key::Unit {
            self.typed();
        }
        target.unit.set(Some(typed.system));
        target.on_change.run(typed);
    }
}

/// Says at the root of the document how the pad stands; `style/page.css` makes room for it.
fn mark_document(state: Option<&str>) {
    let Some(root) = document().document_element() else { return };
    // Neither can fail: the name is a plain word.
    let _ = match state {
        Some(state) => root.set_attribute("data-pad", state),
        None => root.remove_attribute("data-pad"),
    };
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Key {
    Sign(char),
    Back,
    Clear,
    Unit,
}

/// The pad itself. It stands once, at the end of the app, and shows while a field is open.
#[component]
pub fn NumberPad() -> impl IntoView {
    let pad = expect_context::<Pad>();
    let last_digit = StoredValue::new(f64::NEG_INFINITY);
    move || pad.target.get().map(|target| view! { <Keys pad target last_digit /> })
}

#[component]
fn Keys(pad: Pad, target: Target, last_digit: StoredValue<f64>) -> impl IntoView {
    let second_page = RwSignal::new(false);
    let system = Signal::derive(move || target.typed().system);
    let class = move || {
        let page = if second_page.get() { "pad second" } else { "pad first" };
        if target.measure.has_systems() { page.to_owned() } else { format!("{page} one-system") }
    };
    let digits = ('0'..='9').map(|digit| sign_key(pad, digit, last_digit)).collect_view();
    let part = (target.measure != Measure::Count).then(|| {
        view! {
            {sign_key(pad, '.', last_digit)}
            {word_key("/", "ksl large", "stroke of a fraction", move || pad.press(Key::Sign('/')))}
            {word_key("space", "ksp", "", move || pad.press(Key::Sign(' ')))}
        }
    });
    view! {
        <aside
            class=class
            aria-label=move || format!("Number pad for {}", target.name())
            // The field keeps the focus, so that a keyboard goes on working.
            on:mousedown=|event: MouseEvent| event.prevent_default()
        >
            <PadHead pad target />
            {digits}
            {part}
            {word_key(Sketch::Backspace.draw_small(), "kbk", "take the last sign away", move || pad.press(Key::Back))}
            {word_key("clear", "kcl", "", move || pad.press(Key::Clear))}
            {word_key(view! { <TwoUnits system /> }, "kun", "", move || pad.press(Key::Unit))}
            {word_key(
                move || if second_page.get() { "1 2 3" } else { "/ in mm" },
                "kmr",
                "",
                move || second_page.update(|page| *page = !*page),
            )}
            {word_key("done", "kdn done", "", move || pad.done())}
        </aside>
    }
}

#[component]
fn PadHead(pad: Pad, target: Target) -> impl IntoView {
    let measure = target.measure;
    let complaint = move || {
        let error = pad.refused.get().then(|| read(measure, &target.typed()).err()).flatten()?;
        Some(view! { <div class="pad-error" role="alert">{error.to_string()}</div> })
    };
    view! {
        <div class="pad-head">
            <div class="pad-label">
                <span>{move || target.name()}</span>
                <span>{move || other_unit(measure, &target.typed())}</span>
            </div>
            <div class="pad-typed">
                <span class:fresh=move || pad.fresh.get()>{move || target.typed().text}</span>
                <span class="unit">" " {move || unit_beside(measure, &target.typed())}</span>
            </div>
            {complaint}
        </div>
    }
}

/// A digit or the point: it acts when the finger comes down, as keys of a keypad do.
fn sign_key(pad: Pad, sign: char, last: StoredValue<f64>) -> impl IntoView {
    let by_finger = StoredValue::new(false);
    let strike = move |now: f64| {
        if now - last.get_value() >= DIGIT_MS {
            last.set_value(now);
            pad.press(Key::Sign(sign));
        }
    };
    let class = if sign == '.' { "key digit kpt".to_owned() } else { format!("key digit k{sign}") };
    view! {
        <button
            type="button"
            class=class
            data-touch="c"
            tabindex="-1"
            aria-label=(sign == '.').then_some("point")
            on:pointerdown=move |event: PointerEvent| {
                if event.is_primary() {
                    by_finger.set_value(true);
                    strike(event.time_stamp());
                }
            }
            on:click=move |event: MouseEvent| {
                // An assistive device clicks without a finger.
                if !by_finger.get_value() {
                    strike(event.time_stamp());
                }
                by_finger.set_value(false);
            }
        >
            {sign.to_string()}
        </button>
    }
}

/// Any other key: it acts when the finger goes up within it.
fn word_key(
    face: impl IntoView + 'static,
    class: &'static str,
    label: &'static str,
    act: impl Fn() + 'static,
) -> impl IntoView {
    let press = Press::repeatable();
    view! {
        <button
            type="button"
            class=format!("key word {class}")
            data-touch="c"
            tabindex="-1"
            aria-label=(!label.is_empty()).then_some(label)
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    act();
                }
            }
        >
            {face}
        </button>
    }
}
