//! Reading the form of a hole and asking for its recipe, with every fault at its field.

use crate::{
    engine::{
        cutters::Cutter,
        drills::{Drill, Index},
        holes::{
            clearance::{self, ClearanceHole, clearance_hole},
            counterbore::{self, counterbore},
            countersink::{self, countersink},
            finish::{Bottom, Finish, Hole, Opening},
            recipe::{Recipe, Setting, Work, recipe},
            tapping::Tapped,
            tool::material_for,
        },
        machine::Machine,
        quantity::{Angle, Length, System, rounding},
        question::{Field, InputError, Own},
        stock::{Material, material},
        threads::{
            self,
            tap_hole::{Allowance, Question},
        },
    },
    shop::{
        cuts::{CutForm, CutterForm, CutterKind, Holding, Mill, OperationKind},
        document::{Document, OwnMachine},
        holes::{FinishKind, FlatHead, HoleForm},
        typed::Typed,
        usual,
    },
};

/// A recipe, with what it was made for.
#[derive(Clone, Debug)]
pub struct Made {
    /// The recipe.
    pub recipe: Recipe,
    /// The hole as the engine understands it.
    pub hole: Hole,
    /// Included angle of the drills' points.
    pub point_angle: Angle,
}

/// Makes the recipe of a form with what a person owns.
///
/// # Errors
/// Everything that cannot be worked with, each at its field.
pub fn make(form: &HoleForm, document: &Document) -> Result<Made, Vec<InputError>> {
    let stock = stock_of(form, document);
    let mut faults = Vec::new();
    let machine = match machine_of(form, document).map(|own| own.form.read()) {
        Some(Ok(machine)) => Some(machine),
        Some(Err(errors)) => {
            faults.extend(errors.into_iter().map(|error| {
                let problem = format!("The entries of this mill cannot be used. {}", error.problem);
                InputError::new(Field::Machine, problem, "Choose another, or mend it in the shop.")
            }));
            None
        }
        None => {
            let hint = "Choose one, or enter yours in the shop.";
            faults.push(InputError::new(Field::Machine, "No mill is chosen.", hint));
            None
        }
    };
    if stock.is_none() {
        faults.push(InputError::new(
            Field::Stock,
            "No stock is chosen.",
            "Choose what the hole goes into.",
        ));
    }
    let mut reader = Reader { form, faults };
    let hole = reader.hole(stock);
    let own = reader.own();
    let point_angle = reader.point_angle();
    let mut faults = reader.faults;
    let (Some(hole), Some(own), Some(point_angle)) = (hole, own, point_angle) else {
        return Err(faults);
    };
    let (Some(machine), Some(stock)) = (machine, stock) else {
        return Err(faults);
    };
    let drills = document.owned_drills();
    let cutters = drawer(document, &machine, stock);
    let taps = document.taps.threads();
    let setting = Setting {
        machine: &machine,
        stock,
        drills: &drills,
        cutters: cutters.as_deref(),
        taps: (!document.taps.is_empty()).then_some(taps.as_slice()),
        point_angle,
        coolant: usual::coolant(stock),
        style: document.settings.style,
        own,
    };
    match recipe(&hole, &setting) {
        Ok(recipe) if faults.is_empty() => Ok(Made { recipe, hole, point_angle }),
        Ok(_) => Err(faults),
        Err(errors) => {
            faults.extend(errors.into_iter().map(|mut error| {
                error.field = entry_of(form, error.field);
                error
            }));
            Err(faults)
        }
    }
}

/// Where a fault of the engine is shown: at its field, or at the entry that its figure comes from.
fn entry_of(form: &HoleForm, field: Field) -> Field {
    let (of_kind, size): (&[Field], Field) = match form.finish {
        // The drill of a tapped hole is an entry of its own.
        FinishKind::Tapped if field == Field::Hole => return Field::Pilot,
        FinishKind::Tapped => (
            &[Field::Percent, Field::FullThread, Field::Pilot, Field::TapChamfer, Field::Spare],
            Field::Thread,
        ),
        kind if kind.is_for_a_screw() => (&[Field::Fit], Field::Screw),
        _ => (&[], Field::Hole),
    };
    let of_all = [
        Field::Plate,
        Field::Depth,
        Field::Machine,
        Field::Stock,
        Field::PointAngle,
        Field::SurfaceSpeed,
        Field::Feed,
    ];
    if of_kind.contains(&field) || of_all.contains(&field) { field } else { size }
}

/// The stock of a form: its own, else the one on the mill.
#[must_use]
pub fn stock_of(form: &HoleForm, document: &Document) -> Option<&'static Material> {
    material(if form.stock.is_empty() { &document.mill.stock } else { &form.stock })
}

/// The machine of a form: its own, else the one in use.
#[must_use]
pub fn machine_of<'a>(form: &HoleForm, document: &'a Document) -> Option<&'a OwnMachine> {
    document.machine_called(&form.machine).or_else(|| document.machine())
}

/// The drilling of a recipe as a cut of its own: what is checked before it. `None` where nothing is
/// drilled.
#[must_use]
pub fn drilling(form: &HoleForm, document: &Document, recipe: &Recipe) -> Option<CutForm> {
    let typed = |length: Length| Typed::new(rounding::fixed(length.to_mm(), 4), System::Metric);
    let drill = recipe.steps.iter().find(|step| step.work == Work::Drill)?;
    let pilot = recipe.steps.iter().rfind(|step| step.work == Work::Pilot);
    let stock = stock_of(form, document)?;
    let mut cut = CutForm {
        operation: OperationKind::Drill,
        depth: typed(drill.full),
        pilot: pilot.map(|pilot| typed(pilot.makes)).unwrap_or_default(),
        through: form.through,
        style: document.settings.style,
        ..CutForm::default()
    };
    cut.mill = Mill {
        machine: machine_of(form, document).map(|own| own.id.clone()).unwrap_or_default(),
        stock: stock.id.to_owned(),
        cutter: CutterForm {
            kind: CutterKind::Drill,
            material: material_for(stock),
            diameter: typed(drill.makes),
            point_angle: form.point.clone(),
            ..CutterForm::default()
        },
        holding: Holding::default(),
    };
    cut.own.surface_speed.clone_from(&form.surface_speed);
    cut.own.feed.clone_from(&form.feed);
    Some(cut)
}

/// The cutters of the drawer as the engine knows them; `None` where nobody has said.
fn drawer(document: &Document, machine: &Machine, stock: &Material) -> Option<Vec<Cutter>> {
    let read = |(cutter, holding)| {
        let mill = Mill { machine: String::new(), stock: stock.id.to_owned(), cutter, holding };
        mill.read(machine).ok().map(|mill| mill.cutter)
    };
    let cutters = document.cutters.iter().map(|own| (own.cutter.clone(), own.holding.clone()));
    (!document.cutters.is_empty()).then(|| cutters.filter_map(read).collect())
}

/// True for a metric screw by its name.
#[must_use]
pub fn is_metric(screw: &str) -> bool {
    screw.starts_with('M')
}

fn clearance_of(metric: bool, chart: bool) -> clearance::Standard {
    match (metric, chart) {
        (true, _) => clearance::Standard::Iso273,
        (false, true) => clearance::Standard::Trade,
        (false, false) => clearance::Standard::AsmeB18_2_8,
    }
}

fn counterbore_of(metric: bool) -> counterbore::Standard {
    if metric { counterbore::Standard::Iso4762 } else { counterbore::Standard::AsmeB18_3 }
}

fn countersink_of(metric: bool, head: FlatHead) -> countersink::Standard {
    match (metric, head) {
        (true, FlatHead::Socket) => countersink::Standard::Iso10642,
        (true, FlatHead::Machine) => countersink::Standard::Iso15065,
        (false, FlatHead::Socket) => countersink::Standard::AsmeB18_3,
        (false, FlatHead::Machine) => countersink::Standard::AsmeB18_6_3,
    }
}

/// Whose clearance hole a form asks for.
#[must_use]
pub fn clearance_standard(form: &HoleForm) -> clearance::Standard {
    clearance_of(is_metric(&form.screw), form.chart)
}

/// The screws that every table of a kind of hole holds, smallest first.
#[must_use]
pub fn screws(form: &HoleForm, metric: bool) -> Vec<&'static str> {
    let has_seat = |screw: &&'static str| match form.finish {
        FinishKind::Counterbored => counterbore(counterbore_of(metric), screw).is_ok(),
        FinishKind::Countersunk => countersink(countersink_of(metric, form.head), screw).is_ok(),
        _ => true,
    };
    clearance::screws(clearance_of(metric, form.chart)).filter(has_seat).collect()
}

/// Reads the entries of a form and keeps every fault.
struct Reader<'a> {
    form: &'a HoleForm,
    faults: Vec<InputError>,
}

impl Reader<'_> {
    fn keep<T>(&mut self, result: Result<T, InputError>) -> Option<T> {
        result.map_err(|error| self.faults.push(error)).ok()
    }

    /// `Some(None)` where nothing was typed, `None` after a fault.
    fn open<T>(
        &mut self,
        field: Field,
        read: impl FnOnce(&Typed, Field) -> Result<T, InputError>,
    ) -> Option<Option<T>> {
        let typed = self.form.typed(field).and_then(Typed::given);
        match typed {
            None => Some(None),
            Some(typed) => self.keep(read(typed, field)).map(Some),
        }
    }

    /// A length that has to be there.
    fn length(&mut self, field: Field, missing: &str, hint: &str) -> Option<Length> {
        let length = self.open(field, Typed::length)?;
        if length.is_none() {
            self.faults.push(InputError::new(field, missing, hint));
        }
        length
    }

    fn hole(&mut self, stock: Option<&'static Material>) -> Option<Hole> {
        let finish = match self.form.finish {
            FinishKind::Plain => self.size().map(|d| Finish::Drilled(Opening::Plain(d))),
            FinishKind::Reamed => self.size().map(Finish::Reamed),
            FinishKind::Clearance => {
                self.clearance().map(|row| Finish::Drilled(Opening::Clearance(row)))
            }
            FinishKind::Counterbored => self.counterbored(),
            FinishKind::Countersunk => self.countersunk(),
            FinishKind::Tapped => self.tapped(stock).map(Finish::Tapped),
        };
        let plate = self.length(
            Field::Plate,
            "The plate has no thickness yet.",
            "Type how thick the stock is where the hole goes.",
        );
        let bottom = if self.form.through {
            Some(Bottom::Through)
        } else {
            self.open(Field::Depth, Typed::length).map(Bottom::Blind)
        };
        Some(Hole { finish: finish?, plate: plate?, bottom: bottom? })
    }

    fn size(&mut self) -> Option<Length> {
        self.length(Field::Hole, "The hole has no diameter yet.", "Type it, such as 1/4 or 6 mm.")
    }

    fn screw(&mut self) -> Option<&str> {
        let screw = self.form.screw.trim();
        if screw.is_empty() {
            let hint = "Choose the one that goes through.";
            self.faults.push(InputError::new(Field::Screw, "No screw is chosen.", hint));
        }
        Some(screw).filter(|screw| !screw.is_empty())
    }

    fn clearance(&mut self) -> Option<&'static ClearanceHole> {
        self.screw()?;
        let form = self.form;
        self.keep(clearance_hole(clearance_standard(form), form.screw.trim(), form.fit))
    }

    fn counterbored(&mut self) -> Option<Finish> {
        let hole = Opening::Clearance(self.clearance()?);
        let screw = self.form.screw.trim();
        let seat = self.keep(counterbore(counterbore_of(is_metric(screw)), screw))?;
        Some(Finish::socket_head(hole, seat))
    }

    fn countersunk(&mut self) -> Option<Finish> {
        let hole = Opening::Clearance(self.clearance()?);
        let (screw, head) = (self.form.screw.trim(), self.form.head);
        let seat = self.keep(countersink(countersink_of(is_metric(screw), head), screw))?;
        Some(Finish::flat_head(hole, seat))
    }

    fn tapped(&mut self, stock: Option<&'static Material>) -> Option<Tapped> {
        let form = self.form;
        let thread = if form.thread.trim().is_empty() {
            let hint = "Find it by its name, such as 1/4-20 or M6.";
            self.faults.push(InputError::new(Field::Thread, "No thread is chosen.", hint));
            None
        } else {
            self.keep(threads::named(&form.thread))
        };
        // Of a hole that goes through it is not asked.
        let full_thread =
            if form.through { Some(None) } else { self.open(Field::FullThread, Typed::length) };
        let chamfer_threads = self.open(Field::TapChamfer, Typed::number);
        let spare = self.open(Field::Spare, Typed::length_or_nothing);
        let drill = self.open(Field::Pilot, own_drill);
        let thread = thread?;
        let allowance = if form.oversize { Allowance::Mean } else { Allowance::None };
        let (percent, _) = form.percent(thread, stock);
        let hole = Question {
            percent: f64::from(percent),
            to_class: form.to_class,
            allowance,
            ..Question::new(thread)
        };
        Some(Tapped {
            hole,
            full_thread: full_thread?,
            tap: form.tap,
            chamfer_threads: chamfer_threads?,
            spare: spare?,
            drill: drill?,
            under_power: form.under_power,
        })
    }

    fn own(&mut self) -> Option<Own> {
        let surface_speed = self.open(Field::SurfaceSpeed, Typed::surface_speed);
        let feed = self.open(Field::Feed, Typed::length);
        Some(Own { surface_speed: surface_speed?, feed: feed?, ..Own::default() })
    }

    fn point_angle(&mut self) -> Option<Angle> {
        let typed = self.open(Field::PointAngle, Typed::angle)?;
        Some(typed.unwrap_or_else(|| self.form.usual_point()))
    }
}

/// A drill by its name, or the one that is made in a size.
fn own_drill(typed: &Typed, field: Field) -> Result<Drill, InputError> {
    if let Ok(drill) = Drill::named(&typed.with_unit(field)) {
        return Ok(drill);
    }
    let size = typed.length(field)?;
    // As near as no drill tells two sizes apart.
    let near = Length::inch(0.0005);
    let off = |drill: &Drill| (drill.diameter() - size).abs().to_mm();
    let every = Index::every();
    every.between(size - near, size + near).min_by(|a, b| off(a).total_cmp(&off(b))).ok_or_else(
        || {
            InputError::new(
                field,
                "No drill is made in this size.",
                "Name it, such as #7, 13/64, F or 5 mm.",
            )
        },
    )
}
