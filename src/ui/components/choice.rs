//! One of several.

use leptos::prelude::*;

use super::{press::Press, rule::unique};
use crate::ui::sketch::Sketch;

/// One thing to choose.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice<T> {
    /// What is chosen.
    pub value: T,
    /// Its name.
    pub name: String,
    /// What it is for; may be empty.
    pub detail: String,
    /// Its drawing.
    pub sketch: Option<Sketch>,
    /// Other names that a search finds it by; they do not show.
    pub also: String,
}

impl<T> Choice<T> {
    /// A choice with a name alone.
    pub fn new(value: T, name: impl Into<String>) -> Self {
        Self { value, name: name.into(), detail: String::new(), sketch: None, also: String::new() }
    }
    /// With a second line.
    #[must_use]
    pub fn detail(mut self, detail: impl Into<String>) -> Self {
        self.detail = detail.into();
        self
    }
    /// With other names that a search finds it by.
    #[must_use]
    pub fn also(mut self, names: impl Into<String>) -> Self {
        self.also = names.into();
        self
    }
    /// Everything a search looks at.
    #[must_use]
    pub fn called(&self) -> String {
        [self.name.as_str(), &self.detail, &self.also].join(" ")
    }
    /// With a drawing.
    #[must_use]
    pub fn sketch(mut self, sketch: Sketch) -> Self {
        self.sketch = Some(sketch);
        self
    }
}

/// Tiles of which one is chosen: a group of radio buttons, moved through with the arrow keys.
///
/// The chosen one carries a tick and its name stands beside the name of the group, so that
/// neither colour nor place alone tells it.
#[component]
pub fn Choices<T>(
    /// What is chosen here.
    #[prop(into)]
    name: String,
    /// The things to choose from.
    #[prop(into)]
    of: Signal<Vec<Choice<T>>>,
    /// The chosen one.
    #[prop(into)]
    chosen: Signal<Option<T>>,
    /// Takes the new one.
    #[prop(into)]
    on_choose: Callback<T>,
    /// One below the other, as wide as the page, for names longer than a word or two.
    #[prop(optional)]
    rows: bool,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let group = unique("choice");
    // Made anew only when they change: a chosen one keeps the focus.
    let of = Memo::new(move |_| of.get());
    // Nothing but a choice lets a tile follow: the form changes with every tap elsewhere.
    let chosen: Signal<Option<T>> = Signal::from(Memo::new(move |_| chosen.get()));
    let chosen_name = move || {
        let of = of.read();
        let chosen = chosen.read();
        of.iter().find(|choice| Some(&choice.value) == chosen.as_ref()).map(|c| c.name.clone())
    };
    let tiles = move || {
        of.get()
            .into_iter()
            .map(|choice| choice_tile(choice, group.clone(), chosen, on_choose))
            .collect_view()
    };
    view! {
        <fieldset class="choices">
            <legend>
                {name}
                {move || chosen_name().map(|chosen| view! { ": "<b>{chosen}</b> })}
            </legend>
            <div class=if rows { "choice-tiles rows" } else { "choice-tiles" }>{tiles}</div>
        </fieldset>
    }
}

fn choice_tile<T>(
    choice: Choice<T>,
    group: String,
    chosen: Signal<Option<T>>,
    on_choose: Callback<T>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let Choice { value, name, detail, sketch, .. } = choice;
    let is_chosen = {
        let value = value.clone();
        move || chosen.read().as_ref() == Some(&value)
    };
    let press = Press::repeatable();
    let detail =
        (!detail.is_empty()).then(|| view! { <span class="choice-detail">{detail}</span> });
    view! {
        <label class="choice">
            <input
                type="radio"
                data-touch="b"
                name=group
                prop:checked=is_chosen
                on:pointerdown=move |event| press.down(&event)
                on:click=move |event| press.guard(&event)
                on:change=move |_| on_choose.run(value.clone())
            />
            <span class="choice-face">
                {sketch.map(Sketch::draw)}
                <span class="choice-words">{name} {detail}</span>
            </span>
            {Sketch::Tick.draw_as("tick")}
        </label>
    }
}
