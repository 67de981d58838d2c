//! A cutter and how it is held: the parts that the spindle and the drawer share, and the editor
//! of a cutter in the drawer.

use leptos::prelude::*;

use crate::{
    engine::{
        cutters::ToolMaterial,
        question::{Field, Holder, InputError},
    },
    shop::{
        cuts::{CutterForm, CutterKind, Holding, Mill, TipShape},
        document::Document,
        reading::{Taken, look_at},
        typed::Typed,
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
            number_field::NumberField,
            page::Page,
            text_field::TextField,
            toggle::{Toggle, UnitSwitch},
        },
        sketch::Sketch,
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

/// A cutter being described. Every change goes into the document at once.
#[derive(Clone, Copy)]
pub struct Desk {
    app: App,
    place: StoredValue<Place>,
}

impl Desk {
    /// A desk for the cutter at a place.
    #[must_use]
    pub fn new(app: App, place: Place) -> Self {
        Self { app, place: StoredValue::new(place) }
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
        T: Default + PartialEq + Send + Sync + 'static,
    {
        self.app.part(move |document| {
            Self::find(&self.place.read_value(), document).as_ref().map(&part).unwrap_or_default()
        })
    }

    /// Changes it.
    pub fn change(self, change: impl FnOnce(&mut CutterForm, &mut Holding)) {
        self.app.change(|document| match &*self.place.read_value() {
            Place::Spindle => change(&mut document.mill.cutter, &mut document.mill.holding),
            Place::Drawer(id) => {
                document.change_cutter(id, |own| change(&mut own.cutter, &mut own.holding));
            }
        });
    }
}

/// One measure of the cutter or of its holding; what is usual stands in the empty field.
fn number(desk: Desk, field: Field) -> impl IntoView {
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
        let error: Option<InputError> = seen.read().0.clone();
        (!typed.read().is_empty()).then(|| complaint_at(error.as_slice(), field)).flatten()
    });
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
                desk.change(|cutter, holding| {
                    let place = cutter.typed_mut(field).or_else(|| holding.typed_mut(field));
                    if let Some(place) = place {
                        *place = typed;
                    }
                });
            }
            placeholder
            complaint
        />
    }
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
    let kinds: Vec<Choice<CutterKind>> = CutterKind::ALL
        .iter()
        .map(|&kind| Choice::new(kind, kind.name()).sketch(drawing(kind)))
        .collect();
    let materials: Vec<Choice<ToolMaterial>> = ToolMaterial::ALL
        .iter()
        .map(|&material| Choice::new(material, words::tool_material(material)))
        .collect();
    view! {
        <Choices
            name=words::field(Field::CutterKind)
            of=kinds
            chosen=Signal::derive(move || Some(kind.get()))
            on_choose=move |kind| desk.change(|cutter, _| cutter.kind = kind)
        />
        {number(desk, Field::Diameter)}
        <Choices
            name=words::field(Field::ToolMaterial)
            of=materials
            chosen=desk.part(|mill| Some(mill.cutter.material))
            on_choose=move |material| desk.change(|cutter, _| cutter.material = material)
        />
        {move || {
            kind.get()
                .measures()
                .iter()
                .filter(|field| !matches!(field, Field::Diameter | Field::CornerRadius))
                .map(|&field| number(desk, field))
                .collect_view()
        }}
        {move || (kind.get() == CutterKind::EndMill).then(|| view! { <TipFields desk /> })}
        <Toggle
            label="Coated"
            on=desk.part(|mill| mill.cutter.coated)
            on_change=move |coated| desk.change(|cutter, _| cutter.coated = coated)
            said=("yes", "no")
        />
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
        <Fold title="Its tip">
            <Choices
                name=words::field(Field::Tip)
                of=tips
                chosen=Signal::derive(move || Some(tip.get()))
                on_choose=move |tip| desk.change(|cutter, _| cutter.tip = tip)
            />
            {move || {
                (tip.get() == TipShape::CornerRadius).then(|| number(desk, Field::CornerRadius))
            }}
            <Toggle
                label="Cuts to the centre"
                on=goes_down
                on_change=move |yes| desk.change(|cutter, _| cutter.center_cutting = Some(yes))
                said=("yes", "no")
            />
        </Fold>
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
            on_choose=move |holder| desk.change(|_, holding| holding.holder = Some(holder))
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
            on_change=move |worn| desk.change(|_, holding| holding.worn = worn)
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
    let desk = Desk::new(app, Place::Drawer(id.clone()));
    let title = desk.part(|mill| mill.cutter.title());
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
                on_change=move |name| desk.change(|cutter, _| cutter.name = name)
                placeholder="its size and kind"
            />
            <CutterFields desk />
            <Fold title="How it is usually held">
                <HoldingFields desk />
            </Fold>
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

/// The drawing of a kind of cutter.
#[must_use]
pub fn drawing(kind: CutterKind) -> Sketch {
    match kind {
        CutterKind::EndMill => Sketch::EndMill,
        CutterKind::FaceMill => Sketch::FaceMill,
        CutterKind::FlyCutter => Sketch::FlyCutter,
        CutterKind::SlittingSaw => Sketch::SlittingSaw,
        CutterKind::Drill => Sketch::Drill,
        CutterKind::SpotDrill => Sketch::SpotDrill,
        CutterKind::Reamer => Sketch::Reamer,
        CutterKind::Countersink => Sketch::Countersink,
        CutterKind::BoringHead => Sketch::BoringHead,
        CutterKind::EdgeFinder => Sketch::EdgeFinder,
        CutterKind::Tap => Sketch::Tap,
    }
}
