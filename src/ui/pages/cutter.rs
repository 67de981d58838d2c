//! A cutter and how it is held: the parts that the spindle and the drawer share, and the editor
//! of a cutter in the drawer.

use std::sync::Arc;

use leptos::prelude::*;

use crate::{
    engine::{
        cutters::ToolMaterial,
        quantity::System,
        question::{Field, Holder, InputError},
    },
    shop::{
        cuts::{CutterForm, CutterKind, Holding, Mill, TipShape},
        document::Document,
        reading::{Taken, look_at},
        typed::{Typed, measure},
        usual,
        word::Word,
    },
    ui::{
        components::{
            ask_twice::AskTwice,
            button::Button,
            choice::{Choice, Choices},
            error_text::complaint_at,
            fold::Fold,
            hand_over::hand_over,
            number_field::{Chip, NumberField},
            page::Page,
            text_field::TextField,
            toggle::{Toggle, UnitSwitch},
        },
        state::App,
        words,
    },
};

/// Where a cutter stands in the document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// In the spindle.
    Spindle,
    /// In the drawer, under this id.
    Drawer(String),
}

/// A change of a cutter and of how it is held.
type Edit<'a> = &'a mut dyn FnMut(&mut CutterForm, &mut Holding);
/// Makes a change at a field, wherever the cutter stands.
type Change = dyn Fn(Field, Edit) + Send + Sync;

/// A cutter being described, wherever it stands. Every change takes effect at once.
#[derive(Clone, Copy)]
pub struct Desk {
    app: App,
    mill: Signal<Mill>,
    kinds: Signal<Vec<CutterKind>>,
    faults: Signal<Vec<InputError>>,
    change: StoredValue<Arc<Change>>,
    sized: Option<Callback<()>>,
}

impl Desk {
    /// A desk for the cutter at a place of the document.
    #[must_use]
    pub fn new(app: App, place: Place) -> Self {
        let place = StoredValue::new(place);
        let mill =
            app.part(move |document| Self::find(&place.read_value(), document).unwrap_or_default());
        Self::on(app, mill, move |_, edit| {
            app.change(|document| match &*place.read_value() {
                Place::Spindle => edit(&mut document.mill.cutter, &mut document.mill.holding),
                Place::Drawer(id) => {
                    document.change_cutter(id, |own| edit(&mut own.cutter, &mut own.holding));
                }
            });
        })
    }

    /// A desk for a cutter that is kept elsewhere.
    #[must_use]
    pub fn on(
        app: App,
        mill: Signal<Mill>,
        change: impl Fn(Field, Edit) + Send + Sync + 'static,
    ) -> Self {
        Self {
            app,
            mill,
            kinds: Signal::stored(CutterKind::ALL.to_vec()),
            faults: Signal::stored(Vec::new()),
            change: StoredValue::new(Arc::new(change)),
            sized: None,
        }
    }

    /// With these kinds to choose from.
    #[must_use]
    pub fn of_kinds(mut self, kinds: Signal<Vec<CutterKind>>) -> Self {
        self.kinds = kinds;
        self
    }

    /// With what follows a diameter once it is typed.
    #[must_use]
    pub fn sized(mut self, sized: Callback<()>) -> Self {
        self.sized = Some(sized);
        self
    }

    /// With what was found against the figures elsewhere.
    #[must_use]
    pub fn faulted(mut self, faults: Signal<Vec<InputError>>) -> Self {
        self.faults = faults;
        self
    }

    /// The cutter with its holding, as it would stand on the mill.
    fn find(place: &Place, document: &Document) -> Option<Mill> {
        match place {
            Place::Spindle => Some(document.mill.clone()),
            Place::Drawer(id) => {
                document.cutters.iter().find(|own| own.id == *id).map(|own| Mill {
                    cutter: own.cutter.clone(),
                    holding: own.holding.clone(),
                    ..document.mill.clone()
                })
            }
        }
    }

    /// A part of it, followed.
    pub fn part<T>(self, part: impl Fn(&Mill) -> T + Send + Sync + 'static) -> Signal<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        let mill = self.mill;
        Memo::new(move |_| part(&mill.read())).into()
    }

    /// Changes what stands at a field.
    pub fn change(self, field: Field, change: impl FnOnce(&mut CutterForm, &mut Holding)) {
        let mut change = Some(change);
        let edit = &mut |cutter: &mut CutterForm, holding: &mut Holding| {
            if let Some(change) = change.take() {
                change(cutter, holding);
            }
        };
        self.change.with_value(|on| on(field, edit));
    }
}

/// One measure of the cutter or of its holding; what is usual stands in the empty field.
fn number(desk: Desk, field: Field) -> AnyView {
    let system = desk.app.system();
    let typed = desk.part(move |mill| typed_at(mill, field).cloned().unwrap_or_default());
    let value = Signal::derive(move || typed.read().begun_in(system.get()));
    let seen = desk.part(move |mill| {
        let (errors, taken) = look_at(mill);
        (
            errors.into_iter().find(|error| error.field == field),
            taken.into_iter().find(|taken| taken.field == field),
        )
    });
    let complaint = Signal::derive(move || {
        // An empty field is wrong only where somebody asks for what stands in it.
        let error = seen.read().0.clone().filter(|_| !typed.read().is_empty());
        complaint_at(error.as_slice(), field).or_else(|| complaint_at(&desk.faults.read(), field))
    });
    let chips =
        Signal::derive(move || usual_values(field, desk.mill.read().cutter.kind, system.get()));
    let placeholder = Signal::derive(move || {
        let taken: Option<Taken> = seen.read().1;
        taken
            .map(|taken| format!("usual: {}", taken.value.shown(system.get()).digits))
            .unwrap_or_default()
    });
    view! {
        <NumberField
            field
            value
            on_change=move |typed| {
                desk.change(field, |cutter, holding| {
                    let place = cutter.typed_mut(field).or_else(|| holding.typed_mut(field));
                    if let Some(place) = place {
                        *place = typed;
                    }
                });
            }
            placeholder
            complaint
            chips
            on_done=desk.sized.filter(|_| field == Field::Diameter)
        />
    }
    .into_any()
}

/// Sizes and flutes that stand on every bench.
fn usual_values(field: Field, kind: CutterKind, system: System) -> Vec<Chip> {
    use CutterKind::{Drill, EndMill, FaceMill, FlyCutter, Reamer, SlittingSaw};
    let texts: &[&str] = match (field, kind, system) {
        (Field::Diameter, FaceMill | FlyCutter, System::Inch) => &["2", "2.5", "3"],
        (Field::Diameter, FaceMill | FlyCutter, System::Metric) => &["50", "63", "80"],
        (Field::Diameter, SlittingSaw, System::Inch) => &["2.75", "3", "4"],
        (Field::Diameter, SlittingSaw, System::Metric) => &["63", "80", "100"],
        (Field::Diameter, Drill | Reamer, System::Inch) => &["1/8", "1/4", "3/8"],
        (Field::Diameter, Drill | Reamer, System::Metric) => &["3", "5", "8"],
        (Field::Diameter, EndMill, System::Inch) => &["1/8", "1/4", "3/8", "1/2"],
        (Field::Diameter, EndMill, System::Metric) => &["3", "6", "10", "12"],
        (Field::Teeth, EndMill, _) => &["2", "3", "4", "6"],
        (Field::Teeth, FaceMill, _) => &["3", "4", "5", "6"],
        (Field::Teeth, SlittingSaw, _) => &["36", "72"],
        _ => &[],
    };
    texts.iter().map(|text| Chip::new(measure(field), Typed::new(*text, system))).collect()
}

fn typed_at(mill: &Mill, field: Field) -> Option<&Typed> {
    mill.cutter.typed(field).or_else(|| mill.holding.typed(field))
}

/// What the cutter is: kind, edge, sizes.
#[component]
pub fn CutterFields(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    let kind = desk.part(|mill| mill.cutter.kind);
    let kinds = Signal::derive(move || {
        let choice = |kind: &CutterKind| Choice::new(*kind, kind.name()).sketch((*kind).into());
        desk.kinds.read().iter().map(choice).collect::<Vec<_>>()
    });
    let materials: Vec<Choice<ToolMaterial>> = ToolMaterial::ALL
        .iter()
        .map(|&material| Choice::new(material, words::tool_material(material)))
        .collect();
    // What is asked first, and what hardly anyone has to say.
    let is_first = |field: Field| {
        matches!(field, Field::Diameter | Field::Teeth | Field::Thickness | Field::Pitch)
    };
    let numbers = move |first: bool| {
        move || {
            kind.get()
                .measures()
                .iter()
                .filter(|field| is_first(**field) == first && **field != Field::CornerRadius)
                .map(|&field| number(desk, field))
                .collect_view()
        }
    };
    view! {
        {move || {
            (kinds.read().len() > 1)
                .then(|| {
                    view! {
                        <Choices
                            name=words::field(Field::CutterKind)
                            of=kinds
                            chosen=Signal::derive(move || Some(kind.get()))
                            on_choose=move |kind| {
                                desk.change(Field::CutterKind, |cutter, _| cutter.kind = kind);
                            }
                        />
                    }
                })
        }}
        <Choices
            name=words::field(Field::ToolMaterial)
            of=materials
            chosen=desk.part(|mill| Some(mill.cutter.material))
            on_choose=move |material| {
                desk.change(Field::ToolMaterial, |cutter, _| cutter.material = material);
            }
        />
        {numbers(true)}
        <Fold title="More about this cutter">
            {numbers(false)}
            {move || (kind.get() == CutterKind::EndMill).then(|| view! { <TipFields desk /> })}
            <Toggle
                label="Coated"
                on=desk.part(|mill| mill.cutter.coated)
                on_change=move |coated| {
                    desk.change(Field::ToolMaterial, |cutter, _| cutter.coated = coated);
                }
                said=("yes", "no")
            />
            <p class="muted">
                "Cobalt reads the tables of high-speed steel, a coated cutter those of the bare one: no source gives a factor."
            </p>
        </Fold>
    }
}

#[component]
fn TipFields(desk: Desk) -> impl IntoView {
    let tip = desk.part(|mill| mill.cutter.tip);
    let tips = vec![
        Choice::new(TipShape::Square, "Square"),
        Choice::new(TipShape::Ball, "Ball"),
        Choice::new(TipShape::CornerRadius, "Rounded corners"),
    ];
    let goes_down = desk.part(|mill| {
        mill.cutter.center_cutting.unwrap_or_else(|| {
            let teeth = mill.cutter.teeth.count(Field::Teeth, 99).ok();
            teeth
                .or_else(|| usual::teeth(CutterKind::EndMill, mill.material()))
                .is_some_and(usual::center_cutting)
        })
    });
    view! {
        <Choices
            name=words::field(Field::Tip)
            of=tips
            chosen=Signal::derive(move || Some(tip.get()))
            on_choose=move |tip| desk.change(Field::Tip, |cutter, _| cutter.tip = tip)
        />
        {move || {
            (tip.get() == TipShape::CornerRadius).then(|| number(desk, Field::CornerRadius))
        }}
        <Toggle
            label="Cuts to the centre"
            on=goes_down
            on_change=move |yes| {
                desk.change(Field::CutterKind, |cutter, _| cutter.center_cutting = Some(yes));
            }
            said=("yes", "no")
        />
    }
}

/// How it is held: holder, stick-out, runout, wear.
#[component]
pub fn HoldingFields(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    let holders: Vec<Choice<Holder>> = Holder::ALL
        .iter()
        .map(|&holder| Choice::new(holder, words::holder(holder)).sketch(holder.into()))
        .collect();
    let is_held = desk.part(|mill| mill.cutter.kind.asks(Field::Stickout));
    view! {
        <Choices
            name=words::field(Field::Holder)
            of=holders
            chosen=desk.part(|mill| Some(mill.holder()))
            on_choose=move |holder| {
                desk.change(Field::Holder, |_, holding| holding.holder = Some(holder));
            }
        />
        {move || {
            is_held
                .get()
                .then(|| {
                    view! {
                        {number(desk, Field::Stickout)}
                        {number(desk, Field::Runout)}
                    }
                })
        }}
        <Toggle
            label="The edge is worn"
            on=desk.part(|mill| mill.holding.worn)
            on_change=move |worn| {
                desk.change(Field::Runout, |_, holding| holding.worn = worn);
            }
            said=("yes", "no")
        />
    }
}

/// The editor of a cutter in the drawer.
#[component]
pub fn CutterEditor(
    /// Its id.
    id: String,
) -> impl IntoView {
    let app = App::get();
    let given = id.clone();
    let desk = Desk::new(app, Place::Drawer(id.clone()));
    let title = desk.part(|mill| mill.cutter.title());
    let noted = StoredValue::new(id.clone());
    let notes = app.part(move |document| {
        let own = document.cutters.iter().find(|own| own.id == *noted.read_value());
        own.map(|own| own.notes.clone()).unwrap_or_default()
    });
    let system = app.system();
    let go = app.way();
    let put_in = {
        let (id, go) = (id.clone(), go.clone());
        move |()| {
            app.change(|document| document.choose_cutter(&id));
            go("");
        }
    };
    let remove = move |()| {
        let id = id.clone();
        app.remove(
            title.get_untracked(),
            move |document| document.remove_cutter(&id),
            |document, (place, cutter)| document.put_back_cutter(place, cutter),
        );
        go("shop");
    };
    view! {
        <Page
            title
            back_to="shop"
            right=move || {
                view! { <UnitSwitch system on_change=move |system| app.set_system(system) /> }
            }
            bar=move || view! { <Button on_press=put_in>"Put it in the spindle"</Button> }
        >
            <TextField
                label="What you call it"
                value=desk.part(|mill| mill.cutter.name.clone())
                on_change=move |name| {
                    desk.change(Field::CutterKind, |cutter, _| cutter.name = name);
                }
                placeholder="its size and kind"
            />
            <CutterFields desk />
            <Fold title="How it is usually held">
                <HoldingFields desk />
            </Fold>
            <TextField
                label="Notes"
                placeholder="where it is, how sharp"
                value=notes
                on_change=move |text: String| {
                    app.change(|document| {
                        document.change_cutter(&noted.read_value(), |own| own.notes = text);
                    });
                }
            />
            {hand_over(app, "cutters", given)}
            <AskTwice
                ask="Remove this cutter"
                sentence=Signal::derive(move || {
                    format!("{} goes out of the drawer.", title.get())
                })
                act="Remove it"
                on_act=remove
            />
        </Page>
    }
}
