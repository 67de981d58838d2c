//! What the page holds: the line, the address it is kept in, and what it says.

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use crate::{
    engine::{
        convert::{self, Line, units},
        drills::Drill,
        quantity::{entry::EntryError, ratio::Ratio, unit::LENGTH},
        question::Field,
    },
    shop::{
        converter::{ConvertForm, Quantity},
        measured::MeasuredForm,
        typed::Typed,
    },
    ui::{addressed::Addressed, state::App, words},
};

/// The page's state.
#[derive(Clone, Copy)]
pub struct ConvertState {
    /// The app.
    pub app: App,
    /// The form.
    pub form: RwSignal<ConvertForm>,
    /// What its line says, or why it cannot be read.
    pub line: Memo<Result<Line, EntryError>>,
    /// The same the other way round.
    pub swapped: Memo<Option<ConvertForm>>,
    /// What became of copying.
    pub said: RwSignal<Option<String>>,
    addressed: Addressed<ConvertForm>,
}

impl ConvertState {
    /// Reads the address; an empty line counts in the units at hand.
    pub fn provide() -> Self {
        let app = App::get();
        let read = move |query: &str| {
            let mut form = ConvertForm::from_query(query);
            if form.line.is_empty() {
                form.line.system = app.document.read_untracked().settings.system;
            }
            form
        };
        let search = use_location().search.get_untracked();
        let addressed = Addressed::new(read(search.trim_start_matches('?')));
        let form = addressed.form;
        let line = Memo::new(move |_| form.read().read());
        let swapped = Memo::new(move |_| form.read().swapped());
        let said = RwSignal::new(None);
        let state = Self { app, form, line, swapped, said, addressed };
        addressed.keep(app, read, address, || {});
        // A line that was left is one to come back to.
        on_cleanup(move || state.note());
        state
    }

    /// Changes the line.
    pub fn change(self, change: impl FnOnce(&mut ConvertForm)) {
        self.said.set(None);
        self.addressed.change(Field::Line, change);
    }

    /// Keeps the line among the earlier ones.
    pub fn note(self) {
        let Some(form) = self.form.try_get_untracked() else { return };
        self.app.change(|document| document.converter.note(&form));
    }

    /// Takes the line the other way round.
    pub fn swap(self) {
        self.note();
        if let Some(swapped) = self.swapped.get_untracked() {
            self.change(|form| *form = swapped);
        }
    }

    /// Another quantity, and an empty line for it.
    pub fn take_up(self, quantity: Quantity) {
        self.note();
        self.change(|form| {
            form.quantity = quantity;
            form.line.text.clear();
        });
    }

    /// An earlier line again.
    pub fn go_back_to(self, line: &ConvertForm) {
        self.note();
        self.change(|form| form.clone_from(line));
    }

    /// What goes to the clipboard: the line in the other unit, with it.
    pub fn copied(self) -> Option<String> {
        let form = self.form.get_untracked();
        form.read().ok()?;
        other_way(&form).or_else(|| Some(with_unit(&form)))
    }

    /// The address of the next cut with this length at a field, where it is a size.
    pub fn cut_with(self, field: Field) -> Option<String> {
        let size = self.size()?;
        let mut cut = self.app.document.read().next_cut();
        *cut.typed_mut(field)? = size;
        Some(format!("cut?{}", cut.to_query()))
    }

    /// The address where a screw of this diameter over its crests is looked for, where it is a size.
    pub fn screw_over(self) -> Option<String> {
        let form = MeasuredForm { diameter: self.size()?, ..MeasuredForm::default() };
        Some(format!("threads?{}", form.to_query()))
    }

    /// The line, where it is a length above nothing.
    fn size(self) -> Option<Typed> {
        let form = self.form.read();
        if form.quantity != Quantity::Length {
            return None;
        }
        convert::length(&form.line.text, form.line.system)
            .ok()
            .filter(|size| size.is_positive())?;
        Some(Typed::new(form.line.text.trim(), form.line.system))
    }

    /// The drill that a bare whole number may have meant.
    pub fn drill_meant(self) -> Option<String> {
        let form = self.form.read();
        let text = form.line.text.trim();
        let number: u8 = text.parse().ok()?;
        Drill::number(number).map(Drill::short_name)
    }

    /// The length in inches, where the line is one.
    pub fn inches(self) -> Option<Ratio> {
        let is_length = self.form.read().quantity == Quantity::Length;
        let line = self.line.read();
        let line = line.as_ref().ok().filter(|_| is_length)?;
        LENGTH[0].from_base(line.exact.base)
    }
}

/// The address of a line.
pub fn address(form: &ConvertForm) -> String {
    match form.to_query() {
        query if query.is_empty() => "convert".to_owned(),
        query => format!("convert?{query}"),
    }
}

/// A line as it was typed, with its unit.
pub fn with_unit(form: &ConvertForm) -> String {
    let text = form.line.text.trim();
    if form.quantity == Quantity::Hardness {
        return format!("{text} {}", words::scale(form.scale));
    }
    if form.read().is_ok_and(|line| line.exact.named) {
        return text.to_owned();
    }
    format!("{text} {}", form.quantity.measure().unit(form.line.system)).trim_end().to_owned()
}

/// What a line is the other way round, with its unit.
pub fn other_way(form: &ConvertForm) -> Option<String> {
    let swapped = form.swapped()?;
    let line = swapped.read().ok()?;
    let measure = swapped.quantity.measure();
    if line.limits.is_some() || swapped.quantity == Quantity::Angle {
        return Some(with_unit(&swapped));
    }
    let unit = measure.bare_unit(swapped.line.system)?;
    let reading = units::reading(form.read().ok()?.exact, unit);
    Some(format!("{} {}", reading.digits, unit.name()))
}
