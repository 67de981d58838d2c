//! Reading a cut form: from what was typed to the engine's question, with every fault at its field
//! and every figure that was taken because nothing was typed.

use crate::{
    engine::{
        cutters::{Cutter, Kind, Tip},
        experience::Experience,
        machine::Machine,
        quantity::{Angle, Length, value::Value},
        question::{Cut, Feeding, Field, InputError, OnTheMill, Operation, Own},
    },
    shop::{
        cuts::{CutForm, CutterForm, CutterKind, Holding, Mill, OperationKind, TipShape},
        typed::Typed,
        usual,
    },
};

/// A form as the engine understands it.
#[derive(Clone, Debug)]
pub struct Question<'a> {
    /// What is on the mill.
    pub mill: OnTheMill<'a>,
    /// The cut that is wanted.
    pub cut: Cut,
    /// What was taken where nothing was typed.
    pub taken: Vec<Taken>,
}

/// The usual figure, taken at a field where nothing was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// The field.
    pub field: Field,
    /// The figure.
    pub value: Value,
}

impl CutForm {
    /// True when a measure means something for this operation and this kind of cutter.
    #[must_use]
    pub fn asks(&self, field: Field) -> bool {
        self.mill.cutter.kind.asks(field) || self.operation.measures().contains(&field)
    }

    /// The question that is asked on a machine.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read<'a>(&self, machine: &'a Machine) -> Result<Question<'a>, Vec<InputError>> {
        let mut reader = Reader::default();
        let mill = reader.mill(&self.mill, machine);
        let cut = reader.cut(self, mill.as_ref().map(|mill| mill.cutter.diameter));
        match (mill, cut) {
            (Some(mill), Some(cut)) if reader.errors.is_empty() => {
                let mut taken = reader.taken;
                taken.retain(|taken| self.asks(taken.field));
                Ok(Question { mill, cut, taken })
            }
            _ => Err(reader.errors),
        }
    }
}

impl Mill {
    /// What is on the mill, before any cut is asked.
    ///
    /// # Errors
    /// Everything that cannot be worked with, each at its field.
    pub fn read<'a>(&self, machine: &'a Machine) -> Result<OnTheMill<'a>, Vec<InputError>> {
        let mut reader = Reader::default();
        match reader.mill(self, machine) {
            Some(mill) if reader.errors.is_empty() => Ok(mill),
            _ => Err(reader.errors),
        }
    }
}

/// What a cutter and its holding come to, before anything is cut: the faults, each at its field,
/// and the figures taken where nothing was typed.
#[must_use]
pub fn look_at(mill: &Mill) -> (Vec<InputError>, Vec<Taken>) {
    let mut reader = Reader::default();
    reader.cutter(mill);
    reader.runout(&mill.holding);
    let mut taken = reader.taken;
    taken.retain(|taken| mill.cutter.kind.asks(taken.field));
    (reader.errors, taken)
}

/// Collects faults and figures taken, so that one look shows them all.
#[derive(Default)]
struct Reader {
    errors: Vec<InputError>,
    taken: Vec<Taken>,
}

impl Reader {
    fn keep<T>(&mut self, result: Result<T, InputError>) -> Option<T> {
        result.map_err(|error| self.errors.push(error)).ok()
    }

    fn fault(&mut self, field: Field, problem: impl Into<String>, hint: impl Into<String>) {
        self.errors.push(InputError::new(field, problem, hint));
    }

    /// What was typed, or the usual where nothing was. `None` after a fault.
    fn or_usual<T: Copy>(
        &mut self,
        field: Field,
        typed: &Typed,
        read: impl FnOnce(&Typed, Field) -> Result<T, InputError>,
        usual: T,
        value: impl FnOnce(T) -> Value,
    ) -> Option<T> {
        if typed.is_empty() {
            self.taken.push(Taken { field, value: value(usual) });
            return Some(usual);
        }
        self.keep(read(typed, field))
    }

    fn length_or(&mut self, field: Field, typed: &Typed, usual: Length) -> Option<Length> {
        self.or_usual(field, typed, Typed::length, usual, Value::Length)
    }

    /// What was typed, nothing where nothing was. `None` after a fault.
    fn open<T>(
        &mut self,
        field: Field,
        typed: &Typed,
        read: impl FnOnce(&Typed, Field) -> Result<T, InputError>,
    ) -> Option<Option<T>> {
        match typed.given() {
            None => Some(None),
            Some(typed) => self.keep(read(typed, field)).map(Some),
        }
    }

    fn mill<'a>(&mut self, form: &Mill, machine: &'a Machine) -> Option<OnTheMill<'a>> {
        let stock = form.material();
        if stock.is_none() {
            let problem = if form.stock.is_empty() {
                "No stock is chosen.".to_owned()
            } else {
                format!("The stock “{}” is not in the table.", form.stock)
            };
            self.fault(Field::Stock, problem, "Choose what you cut.");
        }
        let cutter = self.cutter(form);
        let runout = self.runout(&form.holding);
        Some(OnTheMill {
            machine,
            stock: stock?,
            cutter: cutter?,
            runout: runout?,
            holder: form.holder(),
            worn: form.holding.worn,
        })
    }

    fn runout(&mut self, form: &Holding) -> Option<Option<Length>> {
        self.open(Field::Runout, &form.runout, Typed::length_or_nothing)
    }

    fn cutter(&mut self, mill: &Mill) -> Option<Cutter> {
        let form = &mill.cutter;
        let kind = form.kind;
        if form.diameter.is_empty() {
            self.fault(
                Field::Diameter,
                "The cutter has no diameter yet.",
                match kind {
                    CutterKind::FlyCutter => "Type the circle that the bit sweeps.",
                    CutterKind::BoringHead => "Type the bore that it makes.",
                    _ => "Type it, or choose a cutter from the drawer.",
                },
            );
        }
        let diameter =
            form.diameter.given().and_then(|typed| self.keep(typed.length(Field::Diameter)));
        let teeth = self.teeth(mill);
        let flutes_typed = self.open(Field::FluteLength, &form.flute_length, Typed::length);
        let helix = self.or_usual(
            Field::Helix,
            &form.helix,
            Typed::angle,
            usual::helix(kind),
            Value::Angle,
        );
        // The usual sizes go by the diameter; a size that was typed is looked at in any case.
        let scale = diameter.unwrap_or(Length::inch(1.0));
        let shank = self.length_or(Field::Shank, &form.shank, usual::shank(kind, scale));
        let stickout = self.length_or(
            Field::Stickout,
            &mill.holding.stickout,
            usual::stickout(kind, scale, shank.unwrap_or(scale), flutes_typed.flatten()),
        );
        let flute_length = match flutes_typed {
            Some(Some(typed)) => Some(typed),
            Some(None) => {
                let usual = usual::flute_length(kind, scale, stickout.unwrap_or(scale * 4.0));
                self.taken.push(Taken { field: Field::FluteLength, value: Value::Length(usual) });
                Some(usual)
            }
            None => None,
        };
        let made = self.kind(form, teeth);
        Some(Cutter {
            kind: made?,
            diameter: diameter?,
            teeth: teeth?,
            material: form.material,
            coated: form.coated,
            flute_length: flute_length?,
            shank: shank?,
            stickout: stickout?,
            helix: helix?,
        })
    }

    fn teeth(&mut self, mill: &Mill) -> Option<u32> {
        let form = &mill.cutter;
        match (usual::teeth(form.kind, mill.material()), form.teeth.is_empty()) {
            // One bit, one tooth: nothing to ask.
            (Some(1), _) => Some(1),
            (Some(usual), _) => self.or_usual(
                Field::Teeth,
                &form.teeth,
                |typed, field| typed.count(field, MOST_TEETH),
                usual,
                Value::Count,
            ),
            (None, true) => {
                self.fault(
                    Field::Teeth,
                    format!("The teeth of the {} are not known.", form.kind.name().to_lowercase()),
                    "Count them.",
                );
                None
            }
            (None, false) => self.keep(form.teeth.count(Field::Teeth, MOST_TEETH)),
        }
    }

    fn kind(&mut self, form: &CutterForm, teeth: Option<u32>) -> Option<Kind> {
        Some(match form.kind {
            CutterKind::EndMill => Kind::EndMill {
                tip: match form.tip {
                    TipShape::Square => Tip::Square,
                    TipShape::Ball => Tip::Ball,
                    TipShape::CornerRadius => Tip::CornerRadius(
                        self.keep(form.corner_radius.length(Field::CornerRadius))?,
                    ),
                },
                center_cutting: form
                    .center_cutting
                    .unwrap_or_else(|| teeth.is_some_and(usual::center_cutting)),
            },
            CutterKind::FaceMill => Kind::FaceMill {
                entering_angle: self.or_usual(
                    Field::EnteringAngle,
                    &form.entering_angle,
                    Typed::angle,
                    usual::entering_angle(),
                    Value::Angle,
                )?,
            },
            CutterKind::FlyCutter => Kind::FlyCutter,
            CutterKind::SlittingSaw => {
                Kind::SlittingSaw { thickness: self.keep(form.thickness.length(Field::Thickness))? }
            }
            CutterKind::Drill => Kind::Drill { point_angle: self.point_angle(form)? },
            CutterKind::SpotDrill => Kind::SpotDrill { point_angle: self.point_angle(form)? },
            CutterKind::Reamer => Kind::Reamer,
            CutterKind::Countersink => {
                Kind::Countersink { included_angle: self.point_angle(form)? }
            }
            CutterKind::BoringHead => Kind::BoringHead,
            CutterKind::EdgeFinder => Kind::EdgeFinder,
            CutterKind::Tap => Kind::Tap { pitch: self.keep(form.pitch.length(Field::Pitch))? },
        })
    }

    fn point_angle(&mut self, form: &CutterForm) -> Option<Angle> {
        self.or_usual(
            Field::PointAngle,
            &form.point_angle,
            Typed::angle,
            usual::point_angle(form.kind, form.diameter.system),
            Value::Angle,
        )
    }

    fn cut(&mut self, form: &CutForm, diameter: Option<Length>) -> Option<Cut> {
        let kind = form.mill.cutter.kind;
        if !form.operation.cutters().contains(&kind) {
            let wanted = form.operation.cutters()[0].name().to_lowercase();
            self.fault(
                Field::CutterKind,
                format!(
                    "“{}” is not a cut for this {}.",
                    form.operation.name(),
                    kind.name().to_lowercase()
                ),
                format!("Put the {wanted} in, or choose another operation."),
            );
        }
        let scale = diameter.unwrap_or(Length::inch(1.0));
        let operation = self.operation(form, scale);
        let depth = if form.operation == OperationKind::FindEdge {
            Some(Length::ZERO)
        } else {
            self.length_or(Field::Depth, &form.depth, usual::depth(form.operation, scale))
        };
        let length = if form.operation.measures().contains(&Field::CutLength) {
            self.open(Field::CutLength, &form.length, Typed::length)
        } else {
            Some(None)
        };
        let own = self.own(form);
        Some(Cut {
            operation: operation?,
            depth: depth?,
            length: length?,
            finish: form.finish,
            coolant: form.coolant(),
            style: form.style,
            own: own?,
        })
    }

    fn operation(&mut self, form: &CutForm, scale: Length) -> Option<Operation> {
        let usual_width = usual::width(form.operation, scale);
        Some(match form.operation {
            OperationKind::Slot => Operation::Slot,
            OperationKind::Side => Operation::Side {
                width: self.length_or(Field::Width, &form.width, usual_width)?,
                feeding: if form.climb { Feeding::Climb } else { Feeding::Conventional },
            },
            OperationKind::Face => {
                Operation::Face { width: self.length_or(Field::Width, &form.width, usual_width)? }
            }
            OperationKind::Plunge => Operation::Plunge,
            OperationKind::Drill => Operation::Drill {
                pilot: self.open(Field::Pilot, &form.pilot, Typed::length)?,
                through: form.through,
            },
            OperationKind::Spot => Operation::Spot,
            OperationKind::Ream => Operation::Ream,
            OperationKind::Countersink => {
                if form.hole.is_empty() {
                    self.fault(
                        Field::Hole,
                        "The hole to be countersunk has no diameter yet.",
                        "Type it.",
                    );
                    return None;
                }
                Operation::Countersink { hole: self.keep(form.hole.length(Field::Hole))? }
            }
            OperationKind::Saw => Operation::Saw,
            OperationKind::Bore => {
                Operation::Bore { width: self.length_or(Field::Width, &form.width, usual_width)? }
            }
            OperationKind::FindEdge => Operation::FindEdge,
            OperationKind::Tap => Operation::Tap,
        })
    }

    fn own(&mut self, form: &CutForm) -> Option<Own> {
        let own = &form.own;
        let spindle_speed =
            self.open(Field::SpindleSpeed, &own.spindle_speed, Typed::spindle_speed);
        let surface_speed =
            self.open(Field::SurfaceSpeed, &own.surface_speed, Typed::surface_speed);
        let feed = self.open(Field::Feed, &own.feed, Typed::length);
        let chip = self.open(Field::Chip, &own.chip, Typed::length);
        let passes =
            self.open(Field::Passes, &own.passes, |typed, field| typed.count(field, MOST_PASSES));
        let cutting_force = self.open(Field::CuttingForce, &own.cutting_force, Typed::stress);
        let unit_power = self.open(Field::UnitPower, &own.unit_power, Typed::unit_power);
        Some(Own {
            spindle_speed: spindle_speed?,
            surface_speed: surface_speed?,
            feed: feed?,
            chip: chip?,
            feed_as_set: None,
            passes: passes?,
            cutting_force: cutting_force?,
            unit_power: unit_power?,
            experience: Experience::NONE,
        })
    }
}

/// Fine saws have some two hundred.
const MOST_TEETH: u32 = 400;
/// More passes than anyone turns by hand.
const MOST_PASSES: u32 = 1000;
