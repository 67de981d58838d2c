//! What a recipe is asked with, under three headings that say how it stands.

use leptos::prelude::*;

use super::{
    super::{
        card::{TapChoice, Wanted},
        state::thread_of,
    },
    state::RecipeState,
};
use crate::{
    browser::page,
    engine::{
        holes::clearance::{Fit, clearance_hole},
        quantity::{System, rounding::fixed},
        question::Field,
    },
    shop::{
        cuts::short_name,
        document::OwnMachine,
        holes::{FinishKind, FlatHead, making},
        word::Word,
    },
    ui::{
        components::{
            Choice, Choices, Complaint, ErrorText, Fold, LateFold, NumberField, Picker, Tile,
            Toggle, complaint_at, mark::Mark,
        },
        pages::choosing::stocks,
        sketch::Sketch,
        words,
    },
};

/// Two panes stand side by side from here on, in pixels.
const TWO_PANES: f64 = 900.0;

/// What an entry is called on this page.
pub fn label(field: Field) -> &'static str {
    match field {
        Field::Pilot => "Drill of your own",
        Field::Depth => "Depth at the full diameter",
        Field::PointAngle => "Point of the drill",
        Field::SurfaceSpeed => "Surface speed of the drill",
        Field::Feed => "Feed of the drill, a turn",
        other => words::field(other),
    }
}

/// All of it.
#[component]
pub fn Inputs() -> impl IntoView {
    let state = RecipeState::get();
    let form = state.hole.form;
    let what = Signal::derive(move || words::holes::what(&form.read()));
    let ends_title = Signal::derive(move || words::holes::ends(&form.read()));
    // Side by side with the answer there is room for everything.
    let wide = page::size().0 >= TWO_PANES;
    let ends = [Field::Plate, Field::Depth, Field::FullThread];
    let place = [Field::Machine, Field::Stock, Field::PointAngle, Field::SurfaceSpeed, Field::Feed];
    let is_what = |field: &Field| !ends.contains(field) && !place.contains(field);
    let faults: Vec<Field> = state.faults.read_untracked().iter().map(|f| f.field).collect();
    let what_open = wide || faults.iter().any(is_what);
    let ends_open = wide || state.has_fault(&ends);
    let where_open = wide || state.has_fault(&place);
    view! {
        <Fold title=what open=what_open>
            <What />
        </Fold>
        <Fold title=ends_title open=ends_open>
            <Ends />
        </Fold>
        <Where open=where_open />
    }
}

/// The kind of hole, and what it is for.
#[component]
fn What() -> impl IntoView {
    let state = RecipeState::get();
    let hole = state.hole;
    let kinds = FinishKind::ALL
        .iter()
        .map(|&kind| {
            let (name, detail) = words::holes::finish(kind);
            Choice::new(kind, name).detail(detail).sketch(kind.into())
        })
        .collect::<Vec<_>>();
    let kind = Memo::new(move |_| hole.form.read().finish);
    let entries = move || match kind.get() {
        FinishKind::Tapped => view! { <Tapped /> }.into_any(),
        FinishKind::Plain | FinishKind::Reamed => view! { <Entry field=Field::Hole /> }.into_any(),
        FinishKind::Clearance | FinishKind::Counterbored | FinishKind::Countersunk => {
            view! { <ForAScrew /> }.into_any()
        }
    };
    view! {
        <div class="kinds">
            <Choices
                name="Kind of hole"
                of=kinds
                chosen=Signal::derive(move || Some(kind.get()))
                on_choose=move |kind| hole.change(Field::Operation, |form| form.finish = kind)
            />
        </div>
        {entries}
    }
}

/// A number of the form.
#[component]
fn Entry(field: Field, #[prop(optional, into)] placeholder: Signal<String>) -> impl IntoView {
    let state = RecipeState::get();
    let hole = state.hole;
    view! {
        <NumberField
            field
            label=label(field)
            value=hole.typed(field)
            on_change=hole.type_in(field)
            placeholder
            complaint=state.complaint(field)
        />
    }
}

/// What stands against something that is chosen.
#[component]
fn Against(field: Field) -> impl IntoView {
    let state = RecipeState::get();
    let complaint: Signal<Option<Complaint>> =
        Signal::derive(move || complaint_at(&state.faults.read(), field));
    view! { <ErrorText id=format!("against-{field:?}") complaint /> }
}

/// The thread, how much of it, and by which tap.
#[component]
fn Tapped() -> impl IntoView {
    let state = RecipeState::get();
    let hole = state.hole;
    let open = state.has_fault(&[Field::Pilot, Field::TapChamfer, Field::Spare, Field::Percent]);
    let name = Signal::derive(move || {
        let thread = hole.form.read().thread.clone();
        if thread.is_empty() { "Choose the thread".to_owned() } else { thread }
    });
    let to = Signal::derive(move || thread_of(&hole.form.read()));
    let percent = move || hole.percent().map_or_else(String::new, |(p, _)| format!(", {p} %"));
    let tap = Signal::derive(move || {
        format!("Tap: {}{}", hole.form.read().tap.words().to_lowercase(), percent())
    });
    let power = Signal::derive(move || hole.form.read().under_power);
    view! {
        <Tile to name sketch=Sketch::Thread across=true />
        <Against field=Field::Thread />
        <Against field=Field::Percent />
        <Toggle
            label="Tap under power"
            on=power
            said=("yes", "no, by hand")
            on_change=move |on| hole.change(Field::TapChamfer, |form| form.under_power = on)
        />
        <LateFold title=tap open=open>
            <TapChoice />
            <Wanted />
            <Entry field=Field::Pilot placeholder="chosen for you" />
            <Entry field=Field::TapChamfer placeholder="as it is usual" />
            <Entry field=Field::Spare placeholder="one pitch" />
        </LateFold>
    }
}

/// The screw and its fit.
#[component]
fn ForAScrew() -> impl IntoView {
    let hole = RecipeState::get().hole;
    let form = hole.form;
    let begun = {
        let form = form.read_untracked();
        match form.screw.chars().next() {
            Some('M') => System::Metric,
            Some(_) => System::Inch,
            None => hole.system().get_untracked(),
        }
    };
    let system = RwSignal::new(begun);
    let offered = Memo::new(move |_| making::screws(&form.read(), system.get() == System::Metric));
    let screws = move || {
        let screw = |name: &'static str| {
            let on = Signal::derive(move || form.read().screw == name);
            let choose =
                move |()| hole.change(Field::Screw, |form| name.clone_into(&mut form.screw));
            view! { <Mark name on on_press=choose /> }
        };
        offered.get().into_iter().map(screw).collect_view()
    };
    let is_flat = Memo::new(move |_| form.read().finish == FinishKind::Countersunk);
    let heads = FlatHead::ALL
        .iter()
        .map(|&head| Choice::new(head, words::holes::flat_head(head)))
        .collect::<Vec<_>>();
    view! {
        <Show when=move || is_flat.get()>
            <Choices
                name="Flat head"
                of=heads.clone()
                chosen=Signal::derive(move || Some(form.read().head))
                on_choose=move |head| hole.change(Field::Countersink, |form| form.head = head)
            />
        </Show>
        <Choices
            name="Screw"
            of=[System::Inch, System::Metric]
                .map(|system| {
                    Choice::new(
                        system,
                        if system == System::Inch { "Inch screws" } else { "Metric screws" },
                    )
                })
                .to_vec()
            chosen=Signal::derive(move || Some(system.get()))
            on_choose=move |chosen| system.set(chosen)
        />
        <div class="marks" role="group" aria-label="Screws">
            {screws}
        </div>
        <Against field=Field::Screw />
        <Fits />
        <Against field=Field::Fit />
    }
}

/// How much room the screw has: the fits of the standard, and those of the shop chart.
#[component]
fn Fits() -> impl IntoView {
    let hole = RecipeState::get().hole;
    let form = hole.form;
    let of = Memo::new(move |_| {
        let form = form.read();
        let metric = making::is_metric(&form.screw);
        let charts: &[bool] = if metric { &[false] } else { &[false, true] };
        let mut fits = Vec::with_capacity(5);
        for &chart in charts {
            let asked = crate::shop::holes::HoleForm { chart, ..form.clone() };
            let standard = making::clearance_standard(&asked);
            for fit in Fit::ALL {
                if let Ok(row) = clearance_hole(standard, &form.screw, fit) {
                    let name = fit.words(standard);
                    let detail = format!("{}, {}", standard.words(), row.drill);
                    fits.push(Choice::new((chart, fit), name).detail(detail));
                }
            }
        }
        fits
    });
    let any = Memo::new(move |_| !of.read().is_empty());
    view! {
        <Show when=move || any.get()>
            <Choices
                name="Fit"
                of=of
                chosen=Signal::derive(move || {
                    let form = form.read();
                    Some((form.chart, form.fit))
                })
                on_choose=move |(chart, fit)| {
                    hole.change(Field::Fit, |form| (form.chart, form.fit) = (chart, fit));
                }
            />
        </Show>
    }
}

/// Where the hole ends.
#[component]
fn Ends() -> impl IntoView {
    let hole = RecipeState::get().hole;
    let form = hole.form;
    let through = Memo::new(move |_| form.read().through);
    let tapped = Memo::new(move |_| form.read().finish == FinishKind::Tapped);
    view! {
        <Toggle
            label="Goes through"
            on=Signal::derive(move || through.get())
            said=("yes", "no, blind")
            on_change=move |on| hole.change(Field::Depth, |form| form.through = on)
        />
        <Entry field=Field::Plate />
        <Show when=move || tapped.get() && !through.get()>
            <Entry field=Field::FullThread />
        </Show>
        <Show when=move || !through.get()>
            <Entry
                field=Field::Depth
                placeholder=Signal::derive(move || {
                    if tapped.get() { "as deep as the tap needs" } else { "" }.to_owned()
                })
            />
        </Show>
    }
}

/// In what and on which mill, and figures of one's own for the drill.
#[component]
fn Where(open: bool) -> impl IntoView {
    let state = RecipeState::get();
    let hole = state.hole;
    let no_stock = state.has_fault(&[Field::Stock]);
    let own_fault = state.has_fault(&[Field::PointAngle, Field::SurfaceSpeed, Field::Feed]);
    let app = hole.app;
    let stock = Memo::new(move |_| hole.stock());
    let stock_name = move || stock.get().map_or("no stock yet", short_name);
    let machine = Memo::new(move |_| {
        let document = app.document.read();
        making::machine_of(&hole.form.read(), &document).map(|own| own.id.clone())
    });
    let machines = app.part(|document| {
        let choice = |own: &OwnMachine| Choice::new(own.id.clone(), own.form.name.clone());
        document.machines.iter().map(choice).collect::<Vec<_>>()
    });
    let machine_name = move || {
        let id = machine.get()?;
        machines.read().iter().find(|choice| choice.value == id).map(|choice| choice.name.clone())
    };
    let title = Signal::derive(move || match machine_name() {
        Some(machine) => format!("{} on the {machine}", stock_name()),
        None => format!("{}, no mill yet", stock_name()),
    });
    let stock_title = Signal::derive(move || format!("Stock: {}", stock_name()));
    view! {
        <Fold title open>
            <Show when=move || !machines.read().is_empty()>
                <Choices
                    name="On the"
                    of=machines
                    chosen=Signal::derive(move || machine.get())
                    on_choose=move |id: String| hole.change(Field::Machine, |form| form.machine = id)
                />
            </Show>
            <Against field=Field::Machine />
            <LateFold title=stock_title open=no_stock>
                <Picker
                    name=words::field(Field::Stock)
                    of=stocks()
                    chosen=Signal::derive(move || stock.get().map(|stock| stock.id))
                    on_choose=move |id: &'static str| {
                        hole.change(Field::Stock, |form| id.clone_into(&mut form.stock));
                    }
                    example="6061, brass, acetal"
                />
            </LateFold>
            <Against field=Field::Stock />
            <LateFold title="Your own figures for the drill" open=own_fault>
                <Entry
                    field=Field::PointAngle
                    placeholder=Signal::derive(move || {
                        format!("{}°", fixed(hole.form.read().usual_point().to_degree(), 0))
                    })
                />
                <Entry field=Field::SurfaceSpeed placeholder="from the tables" />
                <Entry field=Field::Feed placeholder="from the tables" />
            </LateFold>
        </Fold>
    }
}
