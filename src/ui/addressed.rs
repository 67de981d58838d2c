//! A form that lives in the address of its page, so that a bookmark, a favorite and the Back
//! button know it.

use core::time::Duration;
use std::sync::Arc;

use leptos::{leptos_dom::helpers::TimeoutHandle, prelude::*};
use leptos_router::{
    NavigateOptions,
    hooks::{use_location, use_navigate},
};

use crate::{engine::question::Field, ui::state::App};

/// The address follows the form when it has been quiet this long.
const QUIET: Duration = Duration::from_millis(300);

/// What the page does with its form, once it is known.
#[derive(Clone)]
struct Ways {
    write: Arc<dyn Fn(bool) + Send + Sync>,
    settle: Arc<dyn Fn() + Send + Sync>,
}

/// A form and the address it is kept in.
pub struct Addressed<F: Send + Sync + 'static> {
    /// The form.
    pub form: RwSignal<F>,
    last_field: StoredValue<Option<Field>>,
    push: StoredValue<bool>,
    timer: StoredValue<Option<TimeoutHandle>>,
    ways: StoredValue<Option<Ways>>,
}

impl<F: Send + Sync + 'static> Clone for Addressed<F> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<F: Send + Sync + 'static> Copy for Addressed<F> {}

impl<F: Clone + PartialEq + Send + Sync + 'static> Addressed<F> {
    /// A form as the page begins with it; [`Self::keep`] ties it to the address.
    #[must_use]
    pub fn new(start: F) -> Self {
        Self {
            form: RwSignal::new(start),
            last_field: StoredValue::new(None),
            push: StoredValue::new(false),
            timer: StoredValue::new(None),
            ways: StoredValue::new(None),
        }
    }

    /// Ties the form to the address: `read` takes the form from the query, `address` says it as
    /// `cut?d_mm=3`, `settle` runs whenever form and address agree again.
    pub fn keep(
        self,
        app: App,
        read: impl Fn(&str) -> F + 'static,
        address: impl Fn(&F) -> String + Send + Sync + 'static,
        settle: impl Fn() + Send + Sync + 'static,
    ) {
        let location = use_location();
        let (search, pathname) = (location.search, location.pathname);
        let navigate = use_navigate();
        let form = self.form;
        let write = move |push: bool| {
            let to = address(&form.read_untracked());
            let options =
                NavigateOptions { replace: !push, scroll: false, ..NavigateOptions::default() };
            navigate(&format!("/{to}"), options);
        };
        let ways = Ways { write: Arc::new(write), settle: Arc::new(settle) };
        self.ways.set_value(Some(ways));
        // Back and forward, and every link to this page, bring the form that the address says.
        let page = pathname.get_untracked();
        Effect::new(move |before: Option<String>| {
            let search = search.get();
            // The address of the page that is gone to says nothing of this one.
            if pathname.get() != page {
                return search;
            }
            if before.is_some_and(|before| before != search) {
                let said = read(search.trim_start_matches('?'));
                if said != *form.read_untracked() {
                    form.set(said);
                    self.last_field.set_value(None);
                }
                self.rest();
            }
            self.settle();
            search
        });
        on_cleanup(move || {
            if self.rest() {
                self.settle();
            }
        });
        app.before_leaving(Callback::new(move |()| self.flush()));
    }

    /// Changes what stands at a field. A change of the same field replaces the address, one of
    /// another field adds to the history, so that Back undoes field by field.
    pub fn change(self, field: Field, change: impl FnOnce(&mut F)) {
        self.form.update(change);
        if self.last_field.get_value() != Some(field) {
            self.last_field.set_value(Some(field));
            self.push.set_value(true);
        }
        if let Some(timer) = self.timer.get_value() {
            timer.clear();
        }
        let timer = set_timeout_with_handle(move || self.flush(), QUIET).ok();
        self.timer.set_value(timer);
    }

    /// Writes the address, now.
    pub fn flush(self) {
        let push = self.push.get_value();
        if self.rest() {
            self.settle();
            if let Some(ways) = self.ways.get_value() {
                (ways.write)(push);
            }
        }
    }

    fn settle(self) {
        if let Some(Some(ways)) = self.ways.try_get_value() {
            (ways.settle)();
        }
    }

    /// Nothing waits to be written any more; false when nothing did.
    fn rest(self) -> bool {
        let Some(Some(timer)) = self.timer.try_get_value() else { return false };
        timer.clear();
        self.timer.set_value(None);
        self.push.set_value(false);
        true
    }
}
