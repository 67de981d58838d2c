//! The number pad: the one keyboard of the app for numbers.
//!
//! A [`NumberField`](super::number_field::NumberField) opens it through the [`Pad`] in the context;
//! there is never more than one. Keys type at the end of the text. The first digit after opening
//! takes the place of what stood there; backspace keeps it and takes its last sign away, and a sign
//! of a sum goes on with it. Digits stand on the first face of the pad; signs, units and the names
//! of drills on others.

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
    engine::{
        convert::{self, units},
        quantity::{
            System,
            entry::{EntryError, Measure},
        },
    },
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
    /// How it is read.
    pub reads: Reads,
    /// What has been typed.
    pub value: Signal<Typed>,
    /// The units of an empty text, where its owner has chosen them on the pad.
    pub unit: RwSignal<Option<System>>,
    /// Takes what is typed next.
    pub on_change: Callback<Typed>,
    /// What follows the key that says done.
    pub on_done: Option<Callback<()>>,
}

/// How a text is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reads {
    /// One quantity, not less than nothing.
    One,
    /// One quantity, with a sign where it is less than nothing.
    Signed,
    /// Several with spaces between: the first key adds to what stands there.
    List,
    /// The converter's line: a sign and limits may stand in it.
    Line,
}

impl Target {
    /// Why what stands in the field cannot be read.
    pub(super) fn fault(self) -> Option<EntryError> {
        let typed = self.typed();
        match self.reads {
            Reads::List => None,
            Reads::One | Reads::Signed => read(self.measure, self.reads, &typed).err(),
            Reads::Line => convert::read(self.measure, &typed.text, typed.system).err(),
        }
    }

    /// The same in the units of the other system.
    fn other(self) -> String {
        let typed = self.typed();
        if self.reads != Reads::Line {
            return other_unit(self.measure, self.reads, &typed);
        }
        let line = convert::read(self.measure, &typed.text, typed.system);
        let unit = self.measure.bare_unit(typed.system.other());
        match (line, unit) {
            (Ok(line), Some(unit)) if self.measure.has_systems() => {
                format!("= {} {}", units::reading(line.exact, unit).digits, unit.name())
            }
            _ => String::new(),
        }
    }

    /// True where sums, units and names have a place.
    fn takes_sums(self) -> bool {
        self.reads != Reads::List && self.measure != Measure::Count
    }

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
        self.fresh.set(target.reads != Reads::List && !target.value.read_untracked().is_empty());
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

    /// A value as it was when the pad was last closed: for what stands above a field and must not
    /// move while a number is typed.
    #[must_use]
    pub fn rested<T: Clone + PartialEq + Send + Sync + 'static>(self, value: Memo<T>) -> Memo<T> {
        Memo::new(move |before: Option<&T>| match before.filter(|_| self.target.read().is_some()) {
            Some(before) => before.clone(),
            None => value.get(),
        })
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
        if typed.is_empty() || target.fault().is_none() {
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
            // A sum goes on with what stands there.
            Key::Operator(sign) => typed.text.push(sign),
            Key::Bracket => {
                let opens = !is_open(&typed.text);
                typed.text.push(if opens { '(' } else { ')' });
            }
            Key::Unit(name) => {
                if name.starts_with(char::is_alphabetic) {
                    typed.text.push(' ');
                }
                typed.text.push_str(name);
            }
            Key::Back => take_last(&mut typed.text, target.measure),
            Key::Clear => typed.text.clear(),
            Key::System => typed.system = typed.system.other(),
        }
        if key != Key::System {
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
    Operator(char),
    Bracket,
    Unit(&'static str),
    Back,
    Clear,
    System,
}

/// True where a bracket is open and something stands in it that could be closed.
fn is_open(text: &str) -> bool {
    let count = |c| text.matches(c).count();
    count('(') > count(')')
        && text.trim_end().ends_with(|c: char| {
            c.is_alphanumeric() || matches!(c, '.' | ',' | ')' | '\'' | '"' | '°')
        })
}

/// Takes the last sign away, or the unit that one key has typed.
fn take_last(text: &mut String, measure: Measure) {
    let units = measure.units().iter().map(|unit| unit.name());
    let unit = units.filter(|name| name.chars().count() > 1).find_map(|name| {
        let rest = text.strip_suffix(name)?.strip_suffix(' ')?;
        Some(rest.len())
    });
    match unit {
        Some(length) => text.truncate(length),
        None => {
            text.pop();
        }
    }
}

/// What the keys of the pad are at the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Face {
    Digits,
    Signs,
    /// Of gloved fingers, for whom the signs fill a face.
    Units,
    /// Drills, counted from 0: the sign of a number, then so many letters.
    Drills(usize),
}

/// Units that have a key.
const UNITS: usize = 6;

/// The drill keys of one face: as many as fit.
fn drill_keys(face: usize, gloves: bool) -> impl Iterator<Item = char> {
    let keys = if gloves { 8 } else { 14 };
    core::iter::once('#').chain('A'..='Z').skip(face * keys).take(keys)
}

impl Face {
    /// The face that the key for more leads to, and what is written on it.
    fn next(self, target: Target, gloves: bool) -> (Self, String) {
        let back = (Self::Digits, "1 2 3".to_owned());
        match self {
            Self::Digits if gloves => (Self::Signs, "/ in mm".to_owned()),
            Self::Digits => (Self::Signs, "+ − …".to_owned()),
            Self::Signs if gloves && target.takes_sums() => (Self::Units, "units".to_owned()),
            Self::Signs | Self::Units => back,
            Self::Drills(face) => {
                let mut letters = drill_keys(face + 1, gloves);
                match (letters.next(), letters.last()) {
                    (Some(first), Some(last)) => {
                        (Self::Drills(face + 1), format!("{first} – {last}"))
                    }
                    _ => back,
                }
            }
        }
    }
}

/// True while the keys are those for gloved fingers.
fn gloved() -> bool {
    document()
        .document_element()
        .and_then(|root| root.get_attribute("data-gloves"))
        .is_some_and(|gloves| gloves == "on")
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
    let face = RwSignal::new(Face::Digits);
    let gloves = gloved();
    let system = Signal::derive(move || target.typed().system);
    // A face of its own for clear alone would be one too many.
    let plain = !target.takes_sums() && !gloves;
    let class = move || {
        let mut class =
            if face.get() == Face::Digits { "pad first" } else { "pad second" }.to_owned();
        match face.get() {
            Face::Drills(_) => class += " drills",
            Face::Units => class += " units",
            Face::Digits | Face::Signs => {}
        }
        if plain {
            class += " plain";
        }
        if !target.measure.has_systems() {
            class += " one-system";
        }
        class
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
            {move || more_keys(pad, target, face, gloves)}
            {word_key(Sketch::Backspace.draw_small(), "kbk", "take the last sign away", move || pad.press(Key::Back))}
            {word_key("clear", "kcl", "", move || pad.press(Key::Clear))}
            {word_key(view! { <TwoUnits system /> }, "kun", "", move || pad.press(Key::System))}
            {word_key(
                move || face.get().next(target, gloves).1,
                "kmr",
                "",
                move || face.update(|face| *face = face.next(target, gloves).0),
            )}
            {word_key("done", "kdn done", "", move || pad.done())}
        </aside>
    }
}

/// The keys that only the face at hand has.
fn more_keys(pad: Pad, target: Target, face: RwSignal<Face>, gloves: bool) -> AnyView {
    // What a sign is followed by are digits.
    let then_digits = move |key: Key| {
        move || {
            pad.press(key);
            face.set(Face::Digits);
        }
    };
    let sign = move |sign: char, label: &'static str| {
        word_key(sign.to_string(), "large", label, then_digits(Key::Operator(sign)))
    };
    let line = target.reads == Reads::Line;
    let units = move || {
        let units = target.measure.units().iter().take(UNITS);
        units
            .map(|unit| {
                let name = unit.name();
                word_key(name, "", name_in_words(name), move || pad.press(Key::Unit(name)))
            })
            .collect_view()
    };
    let beside_units = move || {
        view! {
            {line.then(|| sign('±', "plus or minus"))}
            {(target.measure == Measure::Length)
                .then(|| {
                    word_key("# A–Z", "", "drills", move || face.set(Face::Drills(0)))
                })}
        }
    };
    match face.get() {
        Face::Digits => ().into_any(),
        Face::Signs if !target.takes_sums() => ().into_any(),
        Face::Signs => view! {
            {sign('+', "plus")}
            {sign('−', "minus")}
            {sign('×', "times")}
            {word_key("( )", "", "bracket", then_digits(Key::Bracket))}
            {(!gloves).then(|| view! { {beside_units()} {units()} })}
        }
        .into_any(),
        Face::Units => view! { {units()} {beside_units()} }.into_any(),
        Face::Drills(place) => drill_keys(place, gloves)
            .map(|name| {
                let label = if name == '#' { "number of a drill" } else { "" };
                word_key(name.to_string(), "large", label, then_digits(Key::Sign(name)))
            })
            .collect_view()
            .into_any(),
    }
}

/// What a reader says for a unit that is a mark.
fn name_in_words(name: &'static str) -> &'static str {
    match name {
        "'" => "minutes",
        "\"" => "seconds",
        "°" => "degrees",
        _ => "",
    }
}

#[component]
fn PadHead(pad: Pad, target: Target) -> impl IntoView {
    let measure = target.measure;
    let fault = Memo::new(move |_| pad.refused.get().then(|| target.fault()).flatten());
    let complaint = move || {
        let error = fault.get()?;
        Some(view! { <div class="pad-error" role="alert">{error.to_string()}</div> })
    };
    view! {
        <div class="pad-head">
            <div class="pad-label">
                <span>{move || target.name()}</span>
                <span>{move || target.other()}</span>
            </div>
            <div class="pad-typed">
                <span class:fresh=move || pad.fresh.get() && fault.read().is_none()>
                    {move || marked(target.typed().text, fault.get())}
                </span>
                <span class="unit">" " {move || unit_beside(measure, &target.typed())}</span>
            </div>
            {complaint}
        </div>
    }
}

/// A text with the place of its fault marked.
pub fn marked(text: String, fault: Option<EntryError>) -> AnyView {
    let span = fault.map(|error| error.span).filter(|span| text.get(span.clone()).is_some());
    match span {
        None => text.into_any(),
        Some(span) => {
            let [before, at, after] = [&text[..span.start], &text[span.clone()], &text[span.end..]];
            // A fault where something is missing stands behind the text.
            let at = if at.is_empty() { " " } else { at };
            view! { {before.to_owned()} <mark>{at.to_owned()}</mark> {after.to_owned()} }.into_any()
        }
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
