//! What the line means, in figures.

use leptos::prelude::*;

use super::{picture::NumberLine, state::ConvertState};
use crate::{
    engine::{
        convert::{
            drill::{self, Near},
            form, fraction,
            hardness::{self, Metal, Scale},
            tolerance, units,
        },
        quantity::{
            Length, System,
            entry::Exact,
            ratio::Ratio,
            rounding::{Shown, fixed},
            unit::{LENGTH, Unit},
        },
        source::sources_of,
    },
    shop::{converter::Quantity, word::Word},
    ui::{
        components::{BigNumber, Choice, Choices, SecondNumber},
        words,
    },
};

/// Everything the line means.
#[component]
pub fn Answer(state: ConvertState) -> impl IntoView {
    let quantity = Memo::new(move |_| state.form.read().quantity);
    move || match quantity.get() {
        Quantity::Length => view! { <LengthAnswer state /> }.into_any(),
        Quantity::Hardness => view! { <HardnessAnswer state /> }.into_any(),
        _ => view! { <UnitsAnswer state /> }.into_any(),
    }
}

/// A dash while there is nothing to show.
fn nothing() -> Shown {
    Shown { digits: "–".to_owned(), unit: "" }
}

fn shown(exact: Option<Exact>, unit: &'static Unit) -> Shown {
    exact.map_or_else(nothing, |exact| Shown {
        digits: units::reading(exact, unit).digits,
        unit: unit.name(),
    })
}

/// Says whether the digits are the number itself.
fn exactly(exact: Option<Exact>, unit: &'static Unit) -> String {
    exact.map_or_else(String::new, |exact| {
        let word = if units::reading(exact, unit).exact { "exactly" } else { "rounded" };
        word.to_owned()
    })
}

/// The unit of the other system than that of the line.
fn other_unit(state: ConvertState) -> &'static Unit {
    let form = state.form.read();
    let measure = form.quantity.measure();
    let other = match state.line.read().as_ref() {
        Ok(line) => form.other_system(line),
        Err(_) => form.line.system.other(),
    };
    measure.bare_unit(other).unwrap_or(&measure.units()[0])
}

#[component]
fn LengthAnswer(state: ConvertState) -> impl IntoView {
    let exact = Memo::new(move |_| state.line.read().as_ref().ok().map(|line| line.exact));
    let unit = Memo::new(move |_| other_unit(state).name());
    let unit = move || LENGTH.iter().find(|one| one.name() == unit.get()).unwrap_or(&LENGTH[1]);
    let own = move || if unit() == &LENGTH[1] { &LENGTH[0] } else { &LENGTH[1] };
    let near = Memo::new(move |_| state.inches().and_then(|inches| fraction::nearest(inches, 64)));
    let fraction = Signal::derive(move || {
        let digits = near.get().map_or_else(|| "–".to_owned(), |near| near.inches.as_mixed());
        Shown { digits, unit: "in" }
    });
    let fraction_note =
        Signal::derive(move || near.get().map(|n| over(n.over)).unwrap_or_default());
    let feet = move || {
        let exact = exact.get()?;
        let inches = LENGTH[0].from_base(exact.base)?;
        if inches.abs() < Ratio::whole(12) {
            return None;
        }
        let digits = form::print(exact.base, form::Form::FeetInches)?;
        Some(view! { <SecondNumber label="Feet and inches" shown=Shown { digits, unit: "" } /> })
    };
    view! {
        <div class="converted">
            <BigNumber
                label=""
                shown=Signal::derive(move || shown(exact.get(), unit()))
                why=Signal::derive(move || {
                    let word = exactly(exact.get(), unit());
                    state.drill_meant().map_or(word.clone(), |drill| {
                        format!("{word}; for the drill type {drill}")
                    })
                })
            />
        </div>
        <Limits state />
        <div class="cells">
            <SecondNumber
                label="As a decimal"
                shown=Signal::derive(move || shown(exact.get(), own()))
                note=Signal::derive(move || exactly(exact.get(), own()))
            />
            <SecondNumber label="Nearest 64th" shown=fraction note=fraction_note />
            <Drills state />
            {feet}
        </div>
        <NumberLine state />
    }
}

/// How far something lies from the line, in inches.
pub fn over(difference: Ratio) -> String {
    let digits = difference.abs().fixed(4);
    if difference.is_zero() {
        "exactly".to_owned()
    } else if digits == "0.0000" {
        "less than 0.0001 off".to_owned()
    } else if difference.is_negative() {
        format!("{digits} under")
    } else {
        format!("{digits} over")
    }
}

/// The same for a drill, in the units at hand.
pub fn drill_over(near: Near, system: System) -> String {
    let size = near.over.abs();
    let (value, decimals, unit) = match system {
        System::Inch => (size.to_inch(), 4, "in"),
        System::Metric => (size.to_mm(), 3, "mm"),
    };
    // Without the last bits of the float, which would turn a half either way.
    let digits = Ratio::rounded(value, 9).unwrap_or(Ratio::ZERO).fixed(decimals);
    let word = if near.over < Length::ZERO { "under" } else { "over" };
    format!("{digits} {unit} {word}")
}

/// The nearest drills of all, below and above.
#[component]
fn Drills(state: ConvertState) -> impl IntoView {
    let system = state.app.system();
    let around = Memo::new(move |_| {
        let inches = state.inches()?;
        Some(drill::around(Length::inch(inches.to_f64()), None))
    });
    let cell = move |label: &'static str, near: Option<Near>| {
        let digits = near.map_or_else(|| "–".to_owned(), |near| near.drill.short_name());
        let note = near.map(|near| drill_over(near, system.get())).unwrap_or_default();
        view! { <SecondNumber label shown=Shown { digits, unit: "" } note /> }
    };
    move || {
        let around = around.get().unwrap_or_default();
        let exact = around.exact.map(|drill| {
            let shown = Shown { digits: drill.short_name(), unit: "" };
            view! { <SecondNumber label="Drill" shown note="exactly" /> }
        });
        // Beyond the thickest drill the nearest is none.
        let between = exact.is_none() && (around.above.is_some() || state.inches().is_none());
        let below = between.then(|| cell("Drill below", around.below));
        let above = between.then(|| cell("Drill above", around.above));
        view! { {exact} {below} {above} }
    }
}

/// The limits of a size, in both systems, rounded inward.
#[component]
fn Limits(state: ConvertState) -> impl IntoView {
    move || {
        let line = state.line.get().ok()?;
        let limits = line.limits?;
        let cells = [&LENGTH[0], &LENGTH[1]].into_iter().filter_map(|unit| {
            let inward = tolerance::inward(limits, unit, units::decimals(line.exact, unit))?;
            let digits = |limit: Ratio| limit.fixed(inward.decimals);
            let pair = inward.around(unit.from_base(line.exact.base)?)?;
            let digits = format!("{} to {}", digits(inward.low), digits(inward.high));
            let note = format!("{pair}, rounded inward");
            Some(view! {
                <div class="limits-cell">
                    <span class="cell-label">{unit.name()}</span>
                    <b data-result="second">{digits}</b>
                    <span class="cell-note">{note}</span>
                </div>
            })
        });
        Some(view! { <div class="cells">{cells.collect_view()}</div> })
    }
}

/// A number in every unit of its kind.
#[component]
fn UnitsAnswer(state: ConvertState) -> impl IntoView {
    let exact = Memo::new(move |_| state.line.read().as_ref().ok().map(|line| line.exact));
    let quantity = state.form.read_untracked().quantity;
    let measure = quantity.measure();
    let unit = move || other_unit(state);
    let big = Signal::derive(move || {
        // An angle has no other system; it has minutes.
        if quantity == Quantity::Angle {
            let minutes = exact.get().and_then(|exact| form::degrees_minutes(exact.base, 0));
            return minutes.map_or_else(nothing, |digits| Shown { digits, unit: "" });
        }
        shown(exact.get(), unit())
    });
    let cells = measure
        .units()
        .iter()
        .map(|unit| {
            let name = unit.name();
            let (label, unit_beside) = match name {
                "in/ft" => ("Slope per foot", "in/ft"),
                "mm/m" => ("Slope per metre", "mm/m"),
                _ => (name, ""),
            };
            let shown =
                Signal::derive(move || Shown { unit: unit_beside, ..shown(exact.get(), unit) });
            view! { <SecondNumber label shown /> }
        })
        .collect_view();
    view! {
        <div class="converted">
            <BigNumber label="" shown=big />
        </div>
        <div class="cells">{cells}</div>
    }
}

/// A hardness on the other scales.
#[component]
fn HardnessAnswer(state: ConvertState) -> impl IntoView {
    let of = Scale::ALL.iter().map(|&scale| Choice::new(scale, words::scale(scale)));
    let of = Signal::stored(of.collect::<Vec<_>>());
    let chosen = Signal::derive(move || Some(state.form.read().scale));
    let metal = RwSignal::new(Metal::Steel);
    let metals = Signal::stored(vec![
        Choice::new(Metal::Steel, "Carbon, alloy or tool steel"),
        Choice::new(Metal::AusteniticSteel, "Austenitic stainless"),
        Choice::new(Metal::Other, "Anything else"),
    ]);
    let number = Memo::new(move |_| state.line.read().as_ref().ok().map(|l| l.exact.base.to_f64()));
    let readings = move || {
        let from = state.form.read().scale;
        let Some(number) = number.get() else { return ().into_any() };
        let others = <Scale as Word>::ALL.iter().copied().filter(|scale| *scale != from);
        let results: Vec<_> =
            others.map(|to| (to, hardness::convert(number, from, to, metal.get()))).collect();
        let mut tags = String::new();
        for (_, found) in &results {
            if let Ok(found) = found
                && !tags.contains(found.source)
            {
                tags += &format!("{} ", found.source);
            }
        }
        if tags.is_empty() {
            let why = results.into_iter().find_map(|(_, found)| found.err());
            let why = why.map(|why| why.to_string()).unwrap_or_default();
            return view! { <p class="error" role="alert">{why}</p> }.into_any();
        }
        let cells = results.into_iter().map(|(to, found)| {
            let digits = found
                .map_or_else(|_| "–".to_owned(), |found| fixed(found.number, to.decimals()));
            view! { <SecondNumber label=words::scale(to) shown=Shown { digits, unit: to.name() } /> }
        });
        let sources = sources_of(&tags).into_iter().map(|source| {
            view! { <p class="muted">{source.text} " (" {source.sureness.words()} ")"</p> }
        });
        view! {
            <div class="cells">{cells.collect_view()}</div>
            <p>"Approximate: the scales press different things into the metal. For steel alone."</p>
            {sources.collect_view()}
        }
        .into_any()
    };
    view! {
        <Choices
            name="Scale"
            of
            chosen
            on_choose=move |scale| state.change(move |form| form.scale = scale)
        />
        {readings}
        <Choices
            name="Metal"
            of=metals
            chosen=Signal::derive(move || Some(metal.get()))
            on_choose=move |next| metal.set(next)
            rows=true
        />
    }
}
