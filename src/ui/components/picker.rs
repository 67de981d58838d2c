//! One of many.

use leptos::prelude::*;

use super::{
    choice::{Choice, Choices},
    ranking::ranked,
    search_field::SearchField,
};

/// A long list with a search field over it. Search looks at names, details and other names.
#[component]
pub fn Picker<T>(
    /// What is chosen here.
    #[prop(into)]
    name: String,
    /// The things to choose from, in their usual order.
    #[prop(into)]
    of: Signal<Vec<Choice<T>>>,
    /// The chosen one.
    #[prop(into)]
    chosen: Signal<Option<T>>,
    /// Takes the new one.
    #[prop(into)]
    on_choose: Callback<T>,
    /// What may be typed, e.g. "6061, brass, delrin".
    example: &'static str,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let query = RwSignal::new(String::new());
    let found = Memo::new(move |_| {
        let of = of.read();
        let called: Vec<String> = of.iter().map(Choice::called).collect();
        let places = ranked(&query.read(), called.iter().map(String::as_str));
        places.into_iter().map(|place| of[place].clone()).collect::<Vec<_>>()
    });
    let count = move || match (found.read().len(), query.read().trim().is_empty()) {
        (_, true) => String::new(),
        (0, false) => "Nothing is called that. Try fewer letters.".to_owned(),
        (1, false) => "One found.".to_owned(),
        (many, false) => format!("{many} found."),
    };
    view! {
        <div class="stack">
            <SearchField
                label=format!("Search, such as {example}")
                text=query
                found=Signal::derive(count)
            />
            <Choices name of=found chosen on_choose rows=true />
        </div>
    }
}
