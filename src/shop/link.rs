//! Links: a cut form as the query of an address, and back. A favorite, a code to scan and a
//! bookmark are the same link.
//!
//! Keys are short and readable, a measure says its unit system in its key: `op=slot&d_mm=3`.
//! What is the default is left out. A key that is not known is passed over, so that an old copy
//! of the app opens a new link; a value that is not known is reported at its field.

use crate::{
    engine::question::{Field, InputError},
    shop::{
        cuts::CutForm,
        query::{
            NO, Query, YES, answer, choose, choose_open, enter, pairs, word_unless, yes_or_no,
        },
        word::Word,
    },
};

impl CutForm {
    /// The query of the address that stands for this form, without the question mark.
    #[must_use]
    pub fn to_query(&self) -> String {
        let plain = Self::default();
        let mut query = Query::default();
        query.put("op", self.operation.word());
        query.put("mill", &self.mill.machine);
        query.put("stock", &self.mill.stock);
        let cutter = &self.mill.cutter;
        query.put("cutter", &cutter.name);
        query.put("kind", cutter.kind.word());
        query.put("of", cutter.material.word());
        query.put("tip", word_unless(cutter.tip, plain.mill.cutter.tip));
        query.put("center", cutter.center_cutting.map_or("", yes_or_no));
        query.put("coated", if cutter.coated { YES } else { "" });
        query.put("holder", self.mill.holding.holder.map_or("", Word::word));
        query.put("worn", if self.mill.holding.worn { YES } else { "" });
        query.put_typed(&KEYS, |field| self.typed(field));
        query.put("through", if self.through { "" } else { NO });
        query.put("finish", if self.finish { YES } else { "" });
        query.put("climb", if self.climb { YES } else { "" });
        query.put("coolant", self.coolant.map_or("", Word::word));
        query.put("style", word_unless(self.style, plain.style));
        query.put("notes", if self.heeds_notes { "" } else { NO });
        query.text()
    }

    /// The form of a query, and what in it could not be understood, each at its field. A text that
    /// was typed is kept whatever it is; reading the form judges it.
    #[must_use]
    pub fn from_query(query: &str) -> (Self, Vec<InputError>) {
        let mut form = Self::default();
        let mut faults = Vec::new();
        for (key, value) in pairs(query) {
            let cutter = &mut form.mill.cutter;
            let holding = &mut form.mill.holding;
            match key.as_str() {
                "op" => choose(&mut form.operation, &value, Field::Operation, &mut faults),
                "mill" => form.mill.machine = value,
                "stock" => form.mill.stock = value,
                "cutter" => cutter.name = value,
                "kind" => choose(&mut cutter.kind, &value, Field::CutterKind, &mut faults),
                "of" => choose(&mut cutter.material, &value, Field::ToolMaterial, &mut faults),
                "tip" => choose(&mut cutter.tip, &value, Field::Tip, &mut faults),
                "center" => {
                    let mut center = false;
                    if answer(&mut center, &value, Field::CutterKind, &mut faults) {
                        cutter.center_cutting = Some(center);
                    }
                }
                "coated" => {
                    answer(&mut cutter.coated, &value, Field::ToolMaterial, &mut faults);
                }
                "holder" => {
                    choose_open(&mut holding.holder, &value, Field::Holder, &mut faults);
                }
                "worn" => {
                    answer(&mut holding.worn, &value, Field::Runout, &mut faults);
                }
                "through" => {
                    answer(&mut form.through, &value, Field::Operation, &mut faults);
                }
                "finish" => {
                    answer(&mut form.finish, &value, Field::Operation, &mut faults);
                }
                "climb" => {
                    answer(&mut form.climb, &value, Field::Feeding, &mut faults);
                }
                "coolant" => choose_open(&mut form.coolant, &value, Field::Coolant, &mut faults),
                "style" => choose(&mut form.style, &value, Field::Style, &mut faults),
                "notes" => {
                    answer(&mut form.heeds_notes, &value, Field::Style, &mut faults);
                }
                found => {
                    enter(&KEYS, found, value, |field| form.typed_mut(field));
                }
            }
        }
        (form, faults)
    }
}

/// The short name of every typed entry.
const KEYS: [(Field, &str); 24] = [
    (Field::Diameter, "d"),
    (Field::Teeth, "teeth"),
    (Field::FluteLength, "flute"),
    (Field::Shank, "shank"),
    (Field::Helix, "helix"),
    (Field::CornerRadius, "corner"),
    (Field::EnteringAngle, "entering"),
    (Field::PointAngle, "point"),
    (Field::Thickness, "thick"),
    (Field::Pitch, "pitch"),
    (Field::Stickout, "out"),
    (Field::Runout, "tir"),
    (Field::Width, "width"),
    (Field::Depth, "depth"),
    (Field::CutLength, "length"),
    (Field::Pilot, "pilot"),
    (Field::Hole, "hole"),
    (Field::SpindleSpeed, "rpm"),
    (Field::SurfaceSpeed, "v"),
    (Field::Feed, "feed"),
    (Field::Chip, "chip"),
    (Field::Passes, "passes"),
    (Field::CuttingForce, "kc"),
    (Field::UnitPower, "up"),
];
