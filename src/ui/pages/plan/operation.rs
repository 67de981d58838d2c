//! One operation of the part.

use leptos::prelude::*;

use crate::{
    engine::{
        limits,
        plan::Fault,
        quantity::{Duration, rounding::fixed},
        question::{Field, InputError},
    },
    shop::{document::Document, plan::OperationForm, typed::Typed},
    ui::{
        components::{
            Button, Choice, Choices, Complaint, ErrorText, GoTo, NumberField, Page, Rank,
            TextField, complaint_at, mark::Mark,
        },
        state::App,
    },
};

/// An operation in the saved shop.
#[derive(Clone, Copy)]
struct Desk {
    app: App,
    id: u32,
}

impl Desk {
    fn find(self, document: &Document) -> Option<(usize, &OperationForm)> {
        let operations = document.plans.form.operations.iter().enumerate();
        operations.into_iter().find(|(_, operation)| operation.id == self.id)
    }

    fn part<T: PartialEq + Default + Send + Sync + 'static>(
        self,
        part: fn(usize, &OperationForm) -> T,
    ) -> Signal<T> {
        self.app.part(move |document| {
            self.find(document).map(|(place, form)| part(place, form)).unwrap_or_default()
        })
    }

    fn change(self, change: impl FnOnce(&mut OperationForm)) {
        self.app.change(|document| {
            let operations = &mut document.plans.form.operations;
            if let Some(form) = operations.iter_mut().find(|form| form.id == self.id) {
                change(form);
            }
        });
    }

    /// What stands against this operation.
    fn faults(self) -> Signal<Vec<InputError>> {
        self.app.part(move |document| {
            let place = self.find(document).map(|(place, _)| place);
            let faults = document.plans.form.read(document).err().unwrap_or_default();
            let own = |fault: Fault| (fault.operation == place).then_some(fault.error);
            faults.into_iter().filter_map(own).collect()
        })
    }
}

/// The page.
#[component]
pub fn OperationPage(id: u32) -> impl IntoView {
    let app = App::get();
    let desk = Desk { app, id };
    let is_there = app.part(move |document| desk.find(document).is_some());
    let title = Signal::derive(move || {
        let document = app.document.read();
        desk.find(&document)
            .map_or_else(|| "No such operation".to_owned(), |(place, form)| form.title(place))
    });
    view! {
        <Page
            title
            back_to="plan"
            bar=|| {
                view! {
                    <GoTo to="plan" class=Rank::Primary.class() {..} data-touch="c">
                        "To the plan"
                    </GoTo>
                }
            }
        >
            {move || {
                if is_there.get() {
                    fields(desk)
                } else {
                    view! { <p>"It is no longer part of the plan. The plan has those that are."</p> }
                        .into_any()
                }
            }}
        </Page>
    }
}

fn fields(desk: Desk) -> AnyView {
    let faults = desk.faults();
    let number = |field: Field, placeholder: &'static str| {
        view! {
            <NumberField
                field
                value=Signal::derive(move || {
                    let document = desk.app.document.read();
                    let found = desk.find(&document).and_then(|(_, form)| form.typed(field));
                    found.cloned().unwrap_or_default()
                })
                on_change=move |typed: Typed| {
                    desk.change(|form| {
                        if let Some(place) = form.typed_mut(field) {
                            *place = typed;
                        }
                    });
                }
                placeholder=placeholder.to_owned()
                complaint=Signal::derive(move || complaint_at(&faults.read(), field))
            />
        }
        .into_any()
    };
    let name = desk.part(|_, form| form.name.clone());
    view! {
        <TextField
            label="What you call it"
            value=name
            on_change=move |name: String| desk.change(|form| form.name = name)
            placeholder=desk.part(|place, _| format!("Operation {}", place + 1))
        />
        {mills(desk, faults)}
        {from_the_last_cut(desk)}
        {number(Field::SetUpTime, "0")}
        {number(Field::CycleTime, "0")}
        {number(Field::LoadTime, "0")}
        {number(Field::ToolChangeTime, "0")}
        {number(Field::ScrapRisk, "not known")}
        <p class="muted">"0 for an operation that cannot spoil a piece, such as sawing to length: it may be done on all pieces before the first is checked."</p>
        {before(desk, faults)}
        <Button rank=Rank::Danger on_press=remove(desk)>
            "Remove this operation"
        </Button>
    }
    .into_any()
}

/// On which mill.
fn mills(desk: Desk, faults: Signal<Vec<InputError>>) -> AnyView {
    let of = desk.app.part(|document| {
        let own = document.machines.iter();
        let mut of: Vec<Choice<String>> =
            own.map(|own| Choice::new(own.id.clone(), own.form.name.clone())).collect();
        of.push(Choice::new(String::new(), "Either"));
        of
    });
    view! {
        <Choices
            name="Made on"
            of
            chosen=desk.app.part(move |document| {
                desk.find(document).map(|(_, form)| form.mill.clone())
            })
            on_choose=move |mill: String| desk.change(|form| form.mill = mill)
        />
        <ErrorText
            id="operation-mill"
            complaint=Signal::derive(move || complaint_at(&faults.read(), Field::Machine))
        />
    }
    .into_any()
}

/// The time of the cut that was answered last, one tap away.
fn from_the_last_cut(desk: Desk) -> AnyView {
    let found = Memo::new(move |_| {
        let document = desk.app.document.read();
        let form = document.last_cut.clone()?;
        let machine = document.machine_called(&form.mill.machine)?.form.read().ok()?;
        let question = form.read(&machine).ok()?;
        let time = limits::answer(&question.mill, &question.cut).ok()?.time?;
        Some((form.title(), form.mill.machine.clone(), form.to_query(), time))
    });
    let take = move |title: String, mill: String, time: Duration| {
        desk.change(|form| {
            if form.name.trim().is_empty() {
                form.name = title;
            }
            form.mill = mill;
            form.cut = Typed::inch(fixed(time.to_second(), 0));
        });
    };
    (move || {
        found.get().map(|(title, mill, query, time)| {
            let seconds = fixed(time.to_second(), 0);
            let says = format!("Take the last cut: {title}, {seconds} s");
            view! {
                <Button
                    rank=Rank::Secondary
                    on_press=move |()| take(title.clone(), mill.clone(), time)
                >
                    {says}
                </Button>
                <GoTo to=format!("which?{query}") class=Rank::Quiet.class() {..} data-touch="a">
                    "Which mill for that cut?"
                </GoTo>
            }
        })
    })
    .into_any()
}

/// What comes before it on every piece.
fn before(desk: Desk, faults: Signal<Vec<InputError>>) -> AnyView {
    let others = desk.app.part(move |document| {
        let operations = document.plans.form.operations.iter().enumerate();
        operations
            .filter(|(_, form)| form.id != desk.id)
            .map(|(place, form)| (form.id, form.title(place)))
            .collect::<Vec<_>>()
    });
    let mark = move |(other, title): (u32, String)| {
        let on = desk.app.part(move |document| {
            desk.find(document).is_some_and(|(_, form)| form.after.contains(&other))
        });
        let press = move |()| {
            desk.change(|form| {
                if form.after.contains(&other) {
                    form.after.retain(|one| *one != other);
                } else {
                    form.after.push(other);
                }
            });
        };
        view! { <Mark name=title on on_press=press /> }
    };
    (move || {
        let others = others.get();
        (!others.is_empty()).then(|| {
            view! {
                <fieldset class="choices">
                    <legend>"Comes after"</legend>
                    <div class="row">{others.into_iter().map(mark).collect_view()}</div>
                </fieldset>
                <ErrorText
                    id="operation-after"
                    complaint=Signal::derive(move || {
                        complaint_at(&faults.read(), Field::After).map(|found: Complaint| found)
                    })
                />
            }
        })
    })
    .into_any()
}

fn remove(desk: Desk) -> impl Fn(()) + 'static {
    let go = desk.app.way();
    move |()| {
        let document = desk.app.document.read_untracked();
        let name = desk.find(&document).map_or_else(String::new, |(place, form)| form.title(place));
        drop(document);
        desk.app.remove(
            name,
            move |document| document.plans.form.remove(desk.id).map(|(_, before)| before),
            |document, before| document.plans.form.operations = before,
        );
        go("plan");
    }
}
