//! What would hurt with a material is advised nowhere: not in its own words, not in an answer, not
//! in a recipe, not in a checklist.

use crate::set_ups::{list, listed, with};
use handwheel::engine::{
    answer::Caution,
    question::{Coolant, Field},
    safety::context::{PutOn, Stock},
    stock::{Fluid, MATERIALS, Material, material},
};

/// Words by which an advice names a fluid.
fn words_of(fluid: Fluid) -> &'static [&'static str] {
    match fluid {
        Fluid::Water => &["water", "flood", "soluble", "wet", "mist"],
        Fluid::Oil => &["oil", "oils", "solvent", "petroleum", "kerosene", "spirit"],
        Fluid::Air => &["air", "blow", "blast"],
    }
}

/// The fluid that a text advises, clause by clause: a clause that says no, never, or
/// what it does to the part, advises none.
fn advised(text: &str, fluid: Fluid) -> Option<String> {
    let low = text.to_lowercase();
    low.split([';', ',', ':', '.'])
        .find(|clause| {
            let words: Vec<&str> =
                clause.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
            let names = words.iter().any(|word| words_of(fluid).contains(word));
            let denies = ["no", "not", "never", "without", "below", "swells", "crazes"]
                .iter()
                .any(|n| words.contains(n));
            names && !denies
        })
        .map(str::to_owned)
}

fn refusals() -> impl Iterator<Item = (&'static Material, Fluid)> {
    MATERIALS.iter().flat_map(|m| m.refused.iter().map(move |refused| (m, refused.fluid)))
}

#[test]
fn the_scan_bites() {
    assert!(advised("flood or cutting oil", Fluid::Water).is_some());
    assert!(advised("dry; air", Fluid::Air).is_some());
    assert!(advised("dry or light oil", Fluid::Oil).is_some());
    assert!(advised("DRY or mineral oil only; NO water-based coolant", Fluid::Water).is_none());
}

#[test]
fn a_material_refuses_what_hurts_with_it() {
    let refuses = |id: &str, fluid| material(id).expect("listed").refuses(fluid).is_some();
    assert!(refuses("magnesium", Fluid::Water) && refuses("magnesium", Fluid::Air));
    assert!(!refuses("magnesium", Fluid::Oil), "mineral oil is what it may have");
    for id in ["g10_fr4", "cfrp", "graphite", "hardwood", "phenolic_paper", "tooling_board"] {
        assert!(refuses(id, Fluid::Air), "{id} is not blown at");
    }
    assert!(refuses("acrylic", Fluid::Oil) && refuses("polycarb", Fluid::Oil));
    assert!(refuses("ci_grey", Fluid::Air) && refuses("ti_cp", Fluid::Air));
    assert!(!refuses("al_6061", Fluid::Water));
}

#[test]
fn the_words_of_a_material_never_advise_what_it_refuses() {
    for (material, fluid) in refusals() {
        for text in [material.coolant, material.note].iter().chain(material.hazards) {
            let found = advised(text, fluid);
            assert!(found.is_none(), "{}: {text:?} advises {found:?}", material.id);
        }
    }
}

#[test]
fn an_answer_never_advises_what_the_stock_refuses() {
    for material in MATERIALS {
        for coolant in [Coolant::Flood, Coolant::Brush, Coolant::Dry] {
            let refused = coolant.refusals(material).next();
            let answer = slot::answer(material, coolant);
            match (refused, answer) {
                (Some(refused), Err(errors)) if refused.stops => {
                    let at = errors.iter().find(|error| error.field == Field::Coolant);
                    let error = at.unwrap_or_else(|| panic!("{}: {errors:?}", material.id));
                    assert!(advised(&error.hint, refused.fluid).is_none(), "{}", error.hint);
                }
                (Some(refused), Ok(answer)) => {
                    assert!(!refused.stops, "{}: {:?}", material.id, refused.why);
                    let said = answer.cautions.contains(&Caution::Refused(refused));
                    assert!(said, "{} with {coolant:?}", material.id);
                }
                (None, Ok(answer)) => {
                    for caution in &answer.cautions {
                        assert!(!matches!(caution, Caution::Refused(_)), "{}", material.id);
                        let (Caution::Lubricant(text) | Caution::Hazard(text)) = caution else {
                            continue;
                        };
                        for refused in material.refused {
                            assert!(advised(text, refused.fluid).is_none(), "{text}");
                        }
                    }
                }
                (_, Err(errors)) => {
                    let blamed = errors.iter().any(|error| error.field == Field::Coolant);
                    assert!(!blamed, "{} with {coolant:?}: {errors:?}", material.id);
                }
            }
        }
    }
}

#[test]
fn a_recipe_never_advises_what_the_stock_refuses() {
    let mut steps = 0;
    for (material, fluid) in refusals() {
        for coolant in [Coolant::Flood, Coolant::Brush, Coolant::Dry] {
            match slot::recipe(material, coolant) {
                Ok(recipe) => {
                    let refused = coolant.refusals(material).next();
                    assert!(refused.is_none_or(|r| !r.stops), "{} with {coolant:?}", material.id);
                    for step in &recipe.steps {
                        steps += 1;
                        let found = advised(step.lubricant, fluid);
                        assert!(found.is_none(), "{}: {found:?}", material.id);
                    }
                }
                Err(errors) => assert!(!errors.is_empty()),
            }
        }
    }
    assert!(steps > 50, "only {steps} steps were looked at");
}

#[test]
fn a_checklist_never_advises_what_the_stock_refuses() {
    for (material, fluid) in refusals() {
        for put_on in [PutOn::Dry, PutOn::Oil, PutOn::WaterMix, PutOn::Mist, PutOn::Spirit] {
            for air in [Some(true), Some(false), None] {
                let context = with(|c| {
                    c.part.stock = listed(material.id);
                    c.cut.fluid = Some(put_on);
                    c.cut.air = air;
                });
                for item in list(&context).items() {
                    // What is said of a fluid that a person has chosen is how not to be hurt by it.
                    if ["P72", "C03"].contains(&item.rule.id) && fluid != Fluid::Air {
                        continue;
                    }
                    let found = advised(&item.text, fluid);
                    assert!(found.is_none(), "{}, {}: {found:?}", material.id, item.rule.id);
                }
            }
        }
    }
}

#[test]
fn water_on_magnesium_overrules_how_to_use_a_mist() {
    let mist = with(|c| {
        c.part.stock = listed("magnesium");
        c.cut.fluid = Some(PutOn::Mist);
    });
    let list = list(&mist);
    let item = list.shown().find(|item| item.rule.id == "P72").expect("it is shown");
    assert_eq!(item.overruled_by, Some("P51"));
}

#[test]
fn what_burns_is_swept_dry_and_what_dusts_is_not() {
    let clean = |stock| {
        let context = with(|c| c.part.stock = stock);
        let list = list(&context);
        let item = list.items().find(|item| item.rule.id == "C04").expect("it shows");
        item.text.clone()
    };
    for id in ["magnesium", "ti_cp"] {
        let text = clean(listed(id));
        assert!(
            text.contains("dry") && !text.contains("vacuum") && !text.contains("damp"),
            "{text}"
        );
    }
    for stock in [listed("g10_fr4"), Some(Stock::BerylliumCopper), Some(Stock::Silica)] {
        assert!(clean(stock).contains("vacuum"));
    }
}

mod slot {
    //! A slot and a hole in any stock.

    use handwheel::engine::{
        answer::Answer,
        cutters::ToolMaterial,
        drills::Index,
        holes::{
            finish::{Bottom, Finish, Hole, Opening},
            recipe::{Recipe, Setting, recipe as make},
        },
        limits,
        quantity::{Angle, Length},
        question::{Coolant, InputError, Own, Style},
        stock::Material,
    };
    use handwheel::shop::{
        cuts::{CutForm, OperationKind},
        sample::sample,
        typed::Typed,
    };

    pub fn answer(stock: &'static Material, coolant: Coolant) -> Result<Answer, Vec<InputError>> {
        let shop = sample();
        let mut mill = shop.mill.clone();
        mill.stock = stock.id.to_owned();
        mill.cutter.material = ToolMaterial::Carbide;
        let form = CutForm {
            mill,
            operation: OperationKind::Slot,
            depth: Typed::inch("0.02"),
            coolant: Some(coolant),
            ..CutForm::default()
        };
        let machine = shop.machine().expect("a mill").form.read()?;
        let question = form.read(&machine)?;
        limits::answer(&question.mill, &question.cut)
    }

    pub fn recipe(stock: &'static Material, coolant: Coolant) -> Result<Recipe, Vec<InputError>> {
        let shop = sample();
        let machine = shop.machine().expect("a mill").form.read()?;
        let drills = Index::every();
        let setting = Setting {
            machine: &machine,
            stock,
            drills: &drills,
            cutters: None,
            taps: None,
            point_angle: Angle::degree(118.0),
            coolant,
            style: Style::Gentle,
            own: Own::default(),
        };
        let finish = Finish::Drilled(Opening::Plain(Length::inch(0.25)));
        let hole = Hole { finish, plate: Length::inch(0.5), bottom: Bottom::Through };
        make(&hole, &setting)
    }
}
