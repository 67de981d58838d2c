//! A field for a number with its unit.

use leptos::{
    ev::{FocusEvent, KeyboardEvent},
    html,
    prelude::*,
};

use super::{
    error_text::{Complaint, ErrorText},
    number_pad::{Pad, Reads, Target, marked},
    press::Press,
    rule::unique,
};
use crate::{
    engine::{
        convert,
        quantity::{
            entry::{EntryError, Measure},
            value::Value,
        },
        question::Field,
    },
    shop::typed::{Typed, is_signed, measure},
    ui::words,
};

/// A usual value, one tap away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chip {
    /// Its words.
    pub name: String,
    /// What it types.
    pub value: Typed,
}

impl Chip {
    /// A value, called by its own digits.
    #[must_use]
    pub fn new(measure: Measure, value: Typed) -> Self {
        let unit = unit_beside(measure, &value);
        let text = value.text.trim();
        let name = if unit.is_empty() { text.to_owned() } else { format!("{text} {unit}") };
        Self { name, value }
    }

    /// With words of its own: "half the diameter".
    #[must_use]
    pub fn called(mut self, name: impl Into<String>) -> Self {
        self.name = name.into();
        self
    }
}

/// A field that takes a number as it is typed, shows it in the other unit too, and opens the
/// number pad. A keyboard works as well: Enter is done, Escape closes the pad.
///
/// The field never changes what was typed. What cannot be read is said once the pad is closed or
/// done is pressed; `complaint` takes the place of that, for what the engine refuses.
#[component]
pub fn NumberField(
    /// What is asked: it gives the label and tells what is to be typed.
    field: Field,
    /// A label in place of the usual one.
    #[prop(optional, into)]
    label: Signal<String>,
    /// What has been typed.
    #[prop(into)]
    value: Signal<Typed>,
    /// Takes what is typed next.
    #[prop(into)]
    on_change: Callback<Typed>,
    /// Shown in an empty field: "not known", "from the table".
    #[prop(optional, into)]
    placeholder: Signal<String>,
    /// What stands against the value, found elsewhere.
    #[prop(optional, into)]
    complaint: Signal<Option<Complaint>>,
    /// Usual values.
    #[prop(optional, into)]
    chips: Signal<Vec<Chip>>,
    /// What follows the number pad's done.
    #[prop(optional_no_strip)]
    on_done: Option<Callback<()>>,
    /// The measure of a line of the converter, which may carry a sign and limits and is shown in
    /// other units elsewhere.
    #[prop(optional)]
    line: Option<Measure>,
    /// Takes the focus as soon as it is there.
    #[prop(optional)]
    at_once: bool,
) -> impl IntoView {
    let pad = expect_context::<Pad>();
    let measure = line.unwrap_or_else(|| measure(field));
    let label = Signal::derive(move || {
        let own = label.get();
        if own.is_empty() { words::field(field).to_owned() } else { own }
    });
    let input = NodeRef::<html::Input>::new();
    let unit = RwSignal::new(None);
    // Much is read off the text, and only when it changes.
    let value: Signal<Typed> = Signal::from(Memo::new(move |_| {
        let mut typed = value.get();
        if let (true, Some(system)) = (typed.is_empty(), unit.get()) {
            typed.system = system;
        }
        typed
    }));
    // Several numbers with spaces between are judged by whoever asked for them.
    let list = matches!(field, Field::Speeds | Field::Pieces);
    let reads = match line {
        Some(_) => Reads::Line,
        None if list => Reads::List,
        None if is_signed(field) => Reads::Signed,
        None => Reads::One,
    };
    let target = Target { input, label, measure, reads, value, unit, on_change, on_done };
    on_cleanup(move || pad.leave(target));
    // While the pad is open for it, a half-typed text is not a wrong one, and nothing moves.
    let fault = Memo::new(move |_| {
        let may_complain = !pad.follows(target) && !value.read().is_empty();
        may_complain.then(|| target.fault()).flatten()
    });
    let complaint = Memo::new(move |_| {
        if pad.follows(target) {
            return None;
        }
        complaint.get().or_else(|| fault.get().map(Complaint::from))
    });
    let place = move || {
        let fault = fault.get().filter(|fault| !fault.span.is_empty())?;
        let text = marked(value.read().text.clone(), Some(fault));
        Some(view! { <div class="field-marked" aria-hidden="true">{text}</div> })
    };
    let (id, error_id, second_id) = (unique("field"), unique("error"), unique("second"));
    let described = {
        let (error_id, second_id) = (error_id.clone(), second_id.clone());
        move || if complaint.read().is_some() { error_id.clone() } else { second_id.clone() }
    };
    let open = move || {
        pad.open(target);
        reveal(input, reads == Reads::Line);
    };
    if at_once {
        input.on_load(move |input| {
            request_animation_frame(move || {
                // It may be gone again by then. A window in the back hears of no focus.
                if input.focus().is_ok() && value.try_get_untracked().is_some() {
                    open();
                }
            });
        });
    }
    view! {
        <div class="field" class:list=list class:wrong=move || complaint.read().is_some()>
            <label class="field-label" for=id.clone()>
                {move || label.get()}
            </label>
            <div class="field-box">
                <input
                    id=id
                    node_ref=input
                    type="text"
                    inputmode="none"
                    autocomplete="off"
                    spellcheck="false"
                    data-touch="c"
                    placeholder=move || placeholder.get()
                    aria-invalid=move || complaint.read().is_some().to_string()
                    aria-describedby=described
                    prop:value=move || value.get().text
                    on:focus=move |_: FocusEvent| open()
                    on:click=move |_| open()
                    on:blur=move |_: FocusEvent| pad.leave(target)
                    on:input=move |event| {
                        open();
                        pad.typed();
                        let system = value.read_untracked().system;
                        on_change.run(Typed::new(event_target_value(&event), system));
                    }
                    on:keydown=move |event: KeyboardEvent| handle_key(&event, pad, target)
                />
                <span class="field-unit">{move || unit_beside(measure, &value.read())}</span>
            </div>
            {(measure.has_systems() && line.is_none())
                .then(|| {
                    view! {
                        <div class="field-second" id=second_id>
                            {move || second_reading(measure, reads, &value.read())}
                        </div>
                    }
                })}
            {place}
            <ErrorText id=error_id complaint=complaint />
            <Chips chips value on_change />
        </div>
    }
}

fn handle_key(event: &KeyboardEvent, pad: Pad, target: Target) {
    match event.key().as_str() {
        "Enter" => {
            event.prevent_default();
            if pad.is_open_for(target) { pad.done() } else { pad.open(target) }
        }
        "Escape" => pad.dismiss(),
        // What stood there when the pad opened gives way to the first sign typed, as with the
        // keys of the pad; the browser then types that sign.
        key if key.chars().count() == 1
            && !event.ctrl_key()
            && !event.meta_key()
            && pad.is_open_for(target)
            && pad.takes_over() =>
        {
            let system = target.value.read_untracked().system;
            target.unit.set(Some(system));
            target.on_change.run(Typed::new("", system));
            if let Some(input) = target.input.get_untracked() {
                input.set_value("");
            }
        }
        _ => {}
    }
}

/// Pixels that what follows from a line needs above the pad.
const ROOM: f64 = 130.0;

/// Brings the field clear of the pad, if it is hidden by it or by the head; a line goes to the top,
/// so that what follows from it has room above the pad.
fn reveal(input: NodeRef<html::Input>, to_top: bool) {
    request_animation_frame(move || {
        let Some(input) = input.try_get_untracked().flatten() else { return };
        let height = window().inner_height().ok().and_then(|h| h.as_f64()).unwrap_or_default();
        let place = input.get_bounding_client_rect();
        // A pad that stands beside the field covers nothing of it.
        let pad = document().query_selector(".pad").ok().flatten();
        let covered = pad
            .map(|pad| pad.get_bounding_client_rect())
            .filter(|pad| pad.left() < place.right() && pad.right() > place.left())
            .map_or(height, |pad| pad.top());
        if to_top && covered < height && covered > 0.0 && covered - place.bottom() < ROOM {
            input.scroll_into_view_with_bool(true);
        } else if place.bottom() > covered && covered > 0.0 {
            input.scroll_into_view_with_bool(false);
        } else if place.top() < 0.0 {
            input.scroll_into_view_with_bool(true);
        }
    });
}

/// What a typed text stands for.
pub(super) fn read(measure: Measure, reads: Reads, typed: &Typed) -> Result<Value, EntryError> {
    match reads {
        Reads::Signed => convert::signed(measure, &typed.text, typed.system),
        _ => convert::field(measure, &typed.text, typed.system),
    }
}

/// The unit to show beside a typed text; empty where the text names one itself.
pub(super) fn unit_beside(measure: Measure, typed: &Typed) -> &'static str {
    if convert::names_unit(measure, &typed.text) { "" } else { measure.unit(typed.system) }
}

/// The same in the other unit system; empty while it cannot be read.
pub(super) fn other_unit(measure: Measure, reads: Reads, typed: &Typed) -> String {
    let Ok(value) = read(measure, reads, typed) else { return String::new() };
    if measure.has_systems() {
        format!("= {}", value.shown(typed.system.other()))
    } else {
        String::new()
    }
}

/// The same as a decimal, where it was typed as something else, and in the other unit system.
fn second_reading(measure: Measure, reads: Reads, typed: &Typed) -> String {
    let other = other_unit(measure, reads, typed);
    let names_unit = convert::names_unit(measure, &typed.text);
    match read(measure, reads, typed) {
        Ok(value) if names_unit || typed.text.contains('/') => {
            let own = value.shown(typed.system);
            if names_unit {
                format!("= {own} {other}")
            } else {
                format!("= {} {other}", own.digits)
            }
        }
        _ => other,
    }
}

#[component]
fn Chips(
    chips: Signal<Vec<Chip>>,
    value: Signal<Typed>,
    on_change: Callback<Typed>,
) -> impl IntoView {
    // Made anew only when they change: a pressed one keeps the focus.
    let chips = Memo::new(move |_| chips.get());
    move || {
        let chips = chips.get();
        (!chips.is_empty()).then(|| {
            let buttons = chips.into_iter().map(|chip| chip_button(chip, value, on_change));
            view! { <div class="row">{buttons.collect_view()}</div> }
        })
    }
}

fn chip_button(chip: Chip, value: Signal<Typed>, on_change: Callback<Typed>) -> impl IntoView {
    let press = Press::repeatable();
    let Chip { name, value: usual } = chip;
    let chosen = {
        let usual = usual.clone();
        move || (*value.read() == usual).to_string()
    };
    view! {
        <button
            type="button"
            class="chip"
            data-touch="b"
            aria-pressed=chosen
            on:pointerdown=move |event| press.down(&event)
            on:click=move |event| {
                if press.accepts(&event) {
                    on_change.run(usual.clone());
                }
            }
        >
            {name}
        </button>
    }
}
