//! A machine as its owner enters it: the parts that the first start and the editor share, and the
//! editor.

use leptos::prelude::*;

use crate::{
    engine::{
        machine::{Class, Speeds},
        quantity::{SpindleSpeed, System, rounding},
        question::{Field, InputError},
    },
    shop::{
        document::Document,
        machines::{Drive, MachineForm, RangeForm},
        typed::{Typed, measure},
        word::Word,
    },
    ui::{
        components::{
            ask_twice::AskTwice,
            button::{Button, Rank},
            choice::{Choice, Choices},
            error_text::{Complaint, complaint_at},
            fold::Fold,
            hand_over::hand_over,
            number_field::{Chip, NumberField},
            page::Page,
            text_field::TextField,
            toggle::UnitSwitch,
        },
        state::App,
        words,
    },
};

/// Where a machine form stands in the document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// The answers of the first start.
    FirstStart,
    /// The owner's machine with this id.
    Owned(String),
}

impl Place {
    fn find<'a>(&self, document: &'a Document) -> Option<&'a MachineForm> {
        match self {
            Self::FirstStart => Some(&document.welcome.machine),
            Self::Owned(id) => document.machine_called(id).map(|own| &own.form),
        }
    }
    fn find_mut<'a>(&self, document: &'a mut Document) -> Option<&'a mut MachineForm> {
        match self {
            Self::FirstStart => Some(&mut document.welcome.machine),
            Self::Owned(id) => {
                document.machines.iter_mut().find(|own| own.id == *id).map(|own| &mut own.form)
            }
        }
    }
}

/// A machine form being filled in. Every change goes into the document at once.
#[derive(Clone, Copy)]
pub struct Desk {
    app: App,
    place: StoredValue<Place>,
    /// What is missing is said only after the person wanted to go on.
    asked: RwSignal<bool>,
}

impl Desk {
    /// A desk for the form at a place.
    #[must_use]
    pub fn new(app: App, place: Place) -> Self {
        Self { app, place: StoredValue::new(place), asked: RwSignal::new(false) }
    }

    /// Says from now on what is missing, too.
    pub fn ask(self) {
        self.asked.set(true);
    }

    /// A part of the form, followed.
    pub fn part<T>(self, part: impl Fn(&MachineForm) -> T + Send + Sync + 'static) -> Signal<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
    {
        self.app.part(move |document| {
            self.place.read_value().find(document).map(&part).unwrap_or_default()
        })
    }

    /// Changes the form.
    pub fn change(self, change: impl FnOnce(&mut MachineForm)) {
        self.app.change(|document| {
            if let Some(form) = self.place.read_value().find_mut(document) {
                change(form);
            }
        });
    }

    fn typed(self, get: impl Fn(&MachineForm) -> Typed + Send + Sync + 'static) -> Signal<Typed> {
        let (typed, system) = (self.part(get), self.app.system());
        Signal::derive(move || typed.read().begun_in(system.get()))
    }

    /// What stands against a field: what is wrong at once, what is missing once it was asked.
    fn complaint(
        self,
        field: Field,
        typed: Signal<Typed>,
        errors: impl Fn(&MachineForm) -> Vec<InputError> + Send + Sync + 'static,
    ) -> Signal<Option<Complaint>> {
        let errors = self.part(errors);
        Signal::derive(move || {
            (self.asked.get() || !typed.read().is_empty())
                .then(|| complaint_at(&errors.read(), field))
                .flatten()
        })
    }
}

/// What a field shows besides its number.
#[derive(Clone, Copy, Default)]
struct Extra {
    label: &'static str,
    placeholder: &'static str,
    chips: Signal<Vec<Chip>>,
}

/// A number of the form.
fn number(
    desk: Desk,
    field: Field,
    get: impl Fn(&MachineForm) -> Typed + Send + Sync + 'static,
    set: impl Fn(&mut MachineForm, Typed) + Send + Sync + 'static,
    errors: impl Fn(&MachineForm) -> Vec<InputError> + Send + Sync + 'static,
    extra: Extra,
) -> impl IntoView {
    let value = desk.typed(get);
    view! {
        <NumberField
            field
            label=extra.label.to_owned()
            value
            on_change=move |typed| desk.change(|form| set(form, typed))
            placeholder=extra.placeholder.to_owned()
            complaint=desk.complaint(field, value, errors)
            chips=extra.chips
        />
    }
}

fn all_errors(form: &MachineForm) -> Vec<InputError> {
    form.read().err().unwrap_or_default()
}

/// What the owner calls it.
#[component]
pub fn NameField(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    let value = desk.part(|form| form.name.clone());
    let errors = desk.part(all_errors);
    let complaint = Signal::derive(move || {
        desk.asked.get().then(|| complaint_at(&errors.read(), Field::MachineName)).flatten()
    });
    view! {
        <TextField
            label=words::field(Field::MachineName).to_owned()
            value
            on_change=move |name| desk.change(|form| form.name = name)
            placeholder="such as Bench mill"
            complaint
        />
    }
}

/// How heavy it is.
#[component]
pub fn ClassField(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    let of: Vec<Choice<Class>> = Class::ALL
        .iter()
        .map(|&class| {
            let (name, detail) = words::class(class);
            Choice::new(class, name).detail(detail)
        })
        .collect();
    view! {
        <Choices
            name="How heavy it is"
            of
            chosen=desk.part(|form| Some(form.class))
            on_choose=move |class| desk.change(|form| form.class = class)
            rows=true
        />
    }
}

/// The speeds of every range.
#[component]
pub fn RangesField(
    /// The form.
    desk: Desk,
    /// Asks for names and switch labels too.
    #[prop(optional)]
    whole: bool,
) -> impl IntoView {
    let count = desk.part(|form| form.ranges.len());
    let ranges = move || {
        (0..count.get()).map(|index| view! { <RangeField desk index whole /> }).collect_view()
    };
    let add = move |()| desk.change(|form| form.ranges.push(RangeForm::default()));
    view! {
        {ranges}
        <Button rank=Rank::Secondary on_press=add>
            "Add a belt or gear range"
        </Button>
    }
}

#[component]
fn RangeField(desk: Desk, index: usize, whole: bool) -> impl IntoView {
    let several = desk.part(|form| form.ranges.len() > 1);
    let title = desk.part(move |form| form.range_name(index));
    let name = desk.part(move |form| range(form, index).name);
    view! {
        <section class="panel stack">
            {move || {
                several
                    .get()
                    .then(|| {
                        view! {
                            <h2>"Range: " {move || title.get()}</h2>
                            <TextField
                                label="What you call this range"
                                value=name
                                on_change=move |name| change_range(desk, index, |r| r.name = name)
                                usual=&["low", "high"]
                            />
                        }
                    })
            }}
            <DriveField desk index />
            {whole.then(|| view! { <SwitchField desk index /> })}
            {move || several.get().then(|| view! { <RemoveRange desk index /> })}
        </section>
    }
}

fn range(form: &MachineForm, index: usize) -> RangeForm {
    form.ranges.get(index).cloned().unwrap_or_default()
}

fn change_range(desk: Desk, index: usize, change: impl FnOnce(&mut RangeForm)) {
    desk.change(|form| {
        if let Some(range) = form.ranges.get_mut(index) {
            change(range);
        }
    });
}

#[component]
fn DriveField(desk: Desk, index: usize) -> impl IntoView {
    let drive = desk.part(move |form| range(form, index).drive);
    let of = vec![
        Choice::new(Drive::Steps, "Steps").detail("belts or gears"),
        Choice::new(Drive::Variable, "Variable").detail("any speed between two"),
    ];
    view! {
        <Choices
            name="Its speeds"
            of
            chosen=Signal::derive(move || Some(drive.get()))
            on_choose=move |drive| change_range(desk, index, |range| range.drive = drive)
        />
        {move || match drive.get() {
            Drive::Steps => steps(desk, index).into_any(),
            Drive::Variable => lowest_and_highest(desk, index).into_any(),
        }}
    }
}

fn steps(desk: Desk, index: usize) -> impl IntoView {
    // A long list runs out of its field; what was read of it stands below.
    let read = desk.part(move |form| match range(form, index).read().map(|range| range.speeds) {
        Ok(Speeds::Steps(steps)) => {
            let steps: Vec<String> =
                steps.into_iter().map(|step| rounding::spindle_speed(step).digits).collect();
            format!("{} speeds: {}", steps.len(), steps.join(", "))
        }
        _ => String::new(),
    });
    let field = number(
        desk,
        Field::Speeds,
        move |form| Typed::inch(range(form, index).steps),
        move |form, typed| {
            if let Some(range) = form.ranges.get_mut(index) {
                range.steps = typed.text;
            }
        },
        move |form| range(form, index).read().err().unwrap_or_default(),
        Extra {
            label: "Speeds, slowest first, a space between",
            placeholder: "70 115 190 310",
            ..Extra::default()
        },
    );
    view! {
        {field}
        <p class="muted">{move || read.get()}</p>
    }
}

fn lowest_and_highest(desk: Desk, index: usize) -> impl IntoView {
    let one = move |field, get: fn(&mut RangeForm) -> &mut Typed, label, placeholder| {
        number(
            desk,
            field,
            move |form| get(&mut range(form, index)).clone(),
            move |form, typed| {
                if let Some(range) = form.ranges.get_mut(index) {
                    *get(range) = typed;
                }
            },
            move |form| range(form, index).read().err().unwrap_or_default(),
            Extra { label, placeholder, ..Extra::default() },
        )
    };
    view! {
        {one(Field::LowestSpeed, |range| &mut range.lowest, "", "100")}
        {one(Field::HighestSpeed, |range| &mut range.highest, "", "2800")}
        {one(Field::BaseSpeed, |range| &mut range.base, "Full power from, if you know", "not known")}
    }
}

/// Which way the spindle turns when the switch says what.
#[component]
fn SwitchField(desk: Desk, index: usize) -> impl IntoView {
    const LABELS: &[&str] = &["FWD", "REV"];
    view! {
        <p>
            <strong>"Seen from above, which way does the spindle turn?"</strong>
        </p>
        <p class="muted">
            "Jog it with no cutter in and look down at it. Leave it empty until you have looked."
        </p>
        <TextField
            label="Clockwise when the switch says"
            value=desk.part(move |form| range(form, index).clockwise_label)
            on_change=move |text| change_range(desk, index, |range| range.clockwise_label = text)
            placeholder="not looked yet"
            usual=LABELS
        />
        <TextField
            label="Counter-clockwise when it says"
            value=desk.part(move |form| range(form, index).counter_clockwise_label)
            on_change=move |text| {
                change_range(desk, index, |range| range.counter_clockwise_label = text);
            }
            placeholder="not looked yet"
            usual=LABELS
        />
    }
}

#[component]
fn RemoveRange(desk: Desk, index: usize) -> impl IntoView {
    let remove = move |()| {
        let place = desk.place.get_value();
        let back = place.clone();
        desk.app.remove(
            "The range".to_owned(),
            move |document| {
                let form = place.find_mut(document)?;
                (index < form.ranges.len()).then(|| form.ranges.remove(index))
            },
            move |document, range| {
                if let Some(form) = back.find_mut(document) {
                    let index = index.min(form.ranges.len());
                    form.ranges.insert(index, range);
                }
            },
        );
    };
    view! {
        <Button rank=Rank::Danger on_press=remove>
            "Remove this range"
        </Button>
    }
}

/// Travel of the table for one turn of the handwheel.
#[component]
pub fn LeadField(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    let system = desk.app.system();
    let chips = Signal::derive(move || {
        let usual: &[&str] = match system.get() {
            System::Inch => &["0.0625", "0.1", "0.125", "0.2"],
            System::Metric => &["2", "2.5", "4", "5"],
        };
        usual
            .iter()
            .map(|&text| Chip::new(measure(Field::Lead), Typed::new(text, system.get())))
            .collect()
    });
    number(
        desk,
        Field::Lead,
        |form| form.table.lead.clone(),
        |form, typed| form.table.lead = typed,
        |form| form.table.read().err().unwrap_or_default(),
        Extra { label: "One turn of the handwheel moves the table", chips, ..Extra::default() },
    )
}

/// Power at the cutter.
#[component]
pub fn PowerField(
    /// The form.
    desk: Desk,
) -> impl IntoView {
    number(
        desk,
        Field::Power,
        |form| form.power.clone(),
        |form, typed| form.power = typed,
        all_errors,
        Extra { placeholder: "not known", ..Extra::default() },
    )
}

/// What is worth knowing and seldom asked.
#[component]
fn Refinements(desk: Desk) -> impl IntoView {
    view! {
        <Fold title="Dial, backlash, quill wheel">
            {number(
                desk,
                Field::Divisions,
                |form| form.table.divisions.clone(),
                |form, typed| form.table.divisions = typed,
                |form| form.table.read().err().unwrap_or_default(),
                Extra { placeholder: "not known", ..Extra::default() },
            )}
            {number(
                desk,
                Field::Backlash,
                |form| form.table.backlash.clone(),
                |form, typed| form.table.backlash = typed,
                |form| form.table.read().err().unwrap_or_default(),
                Extra { placeholder: "not known", ..Extra::default() },
            )}
            {number(
                desk,
                Field::Lead,
                |form| form.quill_wheel.lead.clone(),
                |form, typed| form.quill_wheel.lead = typed,
                |form| {
                    let wheel = &form.quill_wheel;
                    if wheel.is_empty() { Vec::new() } else { wheel.read().err().unwrap_or_default() }
                },
                Extra {
                    label: "One turn of the quill's fine wheel",
                    placeholder: "none",
                    ..Extra::default()
                },
            )}
        </Fold>
        <Fold title="Room above the table">
            {number(
                desk,
                Field::Room,
                |form| form.room.clone(),
                |form, typed| form.room = typed,
                |form| form.read_room().err().into_iter().collect(),
                Extra { placeholder: "not known", ..Extra::default() },
            )}
        </Fold>
        <Fold title="Your hand, and how stiff it stands">
            {number(
                desk,
                Field::ComfortableRate,
                |form| form.comfortable_rate.clone(),
                |form, typed| form.comfortable_rate = typed,
                all_errors,
                Extra { placeholder: "40", ..Extra::default() },
            )}
            {number(
                desk,
                Field::HighestRate,
                |form| form.highest_rate.clone(),
                |form, typed| form.highest_rate = typed,
                all_errors,
                Extra { placeholder: "60", ..Extra::default() },
            )}
            {number(
                desk,
                Field::Stiffness,
                |form| form.stiffness.clone(),
                |form, typed| form.stiffness = typed,
                all_errors,
                Extra { placeholder: "by its weight", ..Extra::default() },
            )}
            {number(
                desk,
                Field::TableDrag,
                |form| form.table_drag.clone(),
                |form, typed| form.table_drag = typed,
                all_errors,
                Extra { placeholder: "by its weight", ..Extra::default() },
            )}
        </Fold>
    }
}

/// The editor of one of the owner's machines.
#[component]
pub fn MachineEditor(
    /// Its id.
    id: String,
) -> impl IntoView {
    let app = App::get();
    let given = id.clone();
    let desk = Desk::new(app, Place::Owned(id.clone()));
    let title = desk.part(|form| name_of(form).to_owned());
    let missing = desk.part(|form| missing(form).join(", "));
    let system = app.system();
    let on_mill = {
        let id = id.clone();
        app.part(move |document| document.mill.machine == id)
    };
    let go = app.way();
    let use_it = {
        let (id, go) = (id.clone(), go.clone());
        move || {
            app.change(|document| document.mill.machine.clone_from(&id));
            go("");
        }
    };
    let remove = move |()| {
        let id = id.clone();
        app.remove(
            title.get_untracked(),
            move |document| document.remove_machine(&id),
            |document, (place, machine)| document.put_back_machine(place, machine),
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
            bar=move || {
                let use_it = use_it.clone();
                view! {
                    <Show when=move || !on_mill.get()>
                        <Button on_press={
                            let use_it = use_it.clone();
                            move |()| use_it()
                        }>"Work on this mill"</Button>
                    </Show>
                }
            }
        >
            {move || {
                let missing = missing.get();
                (!missing.is_empty()).then(|| view! { <p>"Still needed: " {missing} "."</p> })
            }}
            <NameField desk />
            <ClassField desk />
            <RangesField desk whole=true />
            <LeadField desk />
            <PowerField desk />
            <Refinements desk />
            {hand_over(app, "machines", given)}
            <AskTwice
                ask="Remove this mill"
                sentence=Signal::derive(move || {
                    format!("{} and all you have typed about it will be gone.", title.get())
                })
                act="Remove it"
                on_act=remove
            />
        </Page>
    }
}

/// What a machine is called on a screen, whether or not it has a name yet.
#[must_use]
pub fn name_of(form: &MachineForm) -> &str {
    match form.name.trim() {
        "" => "A mill without a name",
        name => name,
    }
}

/// What a list says of a machine: its speeds, or what is still needed.
#[must_use]
pub fn detail_of(form: &MachineForm) -> String {
    let Ok(machine) = form.read() else {
        return format!("still needed: {}", missing(form).join(", "));
    };
    let (lowest, highest) = ends(machine.ranges.iter().map(|range| &range.speeds));
    format!("{lowest} to {highest} rpm")
}

/// The slowest and the fastest of some speeds, as a screen shows them.
fn ends<'a>(speeds: impl Iterator<Item = &'a Speeds>) -> (String, String) {
    let all: Vec<SpindleSpeed> = speeds
        .flat_map(|speeds| match speeds {
            Speeds::Steps(steps) => steps.clone(),
            Speeds::Continuous { lowest, highest, .. } => vec![*lowest, *highest],
        })
        .collect();
    let end = |choose: fn(SpindleSpeed, SpindleSpeed) -> SpindleSpeed| {
        let end = all.iter().copied().reduce(choose).unwrap_or(SpindleSpeed::ZERO);
        rounding::spindle_speed(end).digits
    };
    (end(SpindleSpeed::min), end(SpindleSpeed::max))
}

/// What has to be typed or set right before the machine can be used, by the labels of its fields.
#[must_use]
pub fn missing(form: &MachineForm) -> Vec<String> {
    let mut labels: Vec<String> =
        all_errors(form).iter().map(|error| words::field(error.field).to_lowercase()).collect();
    labels.dedup();
    labels
}
