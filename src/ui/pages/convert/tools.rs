//! What else a length can be asked: fractions of every fineness, drills of every kind, blocks and
//! parallels, the readout.

use leptos::prelude::*;

use super::{
    answer::{drill_over, over},
    state::ConvertState,
};
use crate::{
    engine::{
        convert::{
            blocks::{self, SETS},
            drill, fraction, readout, units,
        },
        drills::Family,
        quantity::{Length, ratio::Ratio, rounding::Shown, unit::LENGTH},
        question::Field,
        source::source,
    },
    shop::converter::Quantity,
    ui::{
        components::{Choice, Choices, Complaint, Fold, NumberField, SecondNumber},
        words,
    },
};

/// The tools for a length; the other quantities have none.
#[component]
pub fn Tools(state: ConvertState) -> impl IntoView {
    let is_length = Memo::new(move |_| state.form.read().quantity == Quantity::Length);
    move || {
        is_length.get().then(|| {
            view! {
                <Fold title="Fractions, 1/8 to 1/128">
                    <Fractions state />
                </Fold>
                <Fold title="Drills of every kind">
                    <Families state />
                </Fold>
                <Fold title="More units">
                    <Units state />
                </Fold>
                <Fold title="Blocks and parallels">
                    <Blocks state />
                </Fold>
                <Fold title="What the readout says">
                    <Readout state />
                </Fold>
            }
        })
    }
}

/// A dash in place of results, while the line cannot be read.
fn dash() -> AnyView {
    view! { <p>"–"</p> }.into_any()
}

#[component]
fn Fractions(state: ConvertState) -> impl IntoView {
    move || {
        let Some(inches) = state.inches() else { return dash() };
        let cells = fraction::DENOMINATORS.into_iter().filter_map(|denominator| {
            let near = fraction::nearest(inches, denominator)?;
            let shown = Shown { digits: near.inches.as_mixed(), unit: "in" };
            let label = format!("By {}", ordinal(denominator));
            Some(view! { <SecondNumber label shown note=over(near.over) /> })
        });
        view! { <div class="cells">{cells.collect_view()}</div> }.into_any()
    }
}

fn ordinal(denominator: i64) -> String {
    let ending = if denominator == 32 { "nds" } else { "ths" };
    format!("{denominator}{ending}")
}

#[component]
fn Families(state: ConvertState) -> impl IntoView {
    let system = state.app.system();
    move || {
        let Some(inches) = state.inches() else { return dash() };
        let size = Length::inch(inches.to_f64());
        let rows = Family::ALL.into_iter().map(|family| {
            let around = drill::around(size, Some(family));
            let side = |near: Option<drill::Near>| {
                near.map(|near| {
                    let over = drill_over(near, system.get());
                    view! { <b>{near.drill.short_name()}</b> <span class="muted">{over}</span> }
                })
            };
            let exact = around.exact.map(|drill| {
                view! { <b>{drill.short_name()}</b> <span class="muted">"exactly"</span> }
            });
            view! {
                <div class="family">
                    <span class="cell-label">{words::drills(family)}</span>
                    <div>{side(around.below)}</div>
                    <div>{exact}</div>
                    <div>{side(around.above)}</div>
                </div>
            }
        });
        view! { <div class="cells">{rows.collect_view()}</div> }.into_any()
    }
}

#[component]
fn Units(state: ConvertState) -> impl IntoView {
    move || {
        let Ok(line) = state.line.get() else { return dash() };
        let cells = LENGTH.iter().map(|unit| {
            let reading = units::reading(line.exact, unit);
            let shown = Shown { digits: reading.digits, unit: unit.name() };
            let note = if reading.exact { "exactly" } else { "rounded" };
            view! { <SecondNumber label="" shown note /> }
        });
        view! { <div class="cells">{cells.collect_view()}</div> }.into_any()
    }
}

/// A length in millimetres, as a screen shows it in the units of a set.
fn piece(mm: Ratio, in_inches: bool) -> String {
    let unit = if in_inches { &LENGTH[0] } else { &LENGTH[1] };
    let number = unit.from_base(mm).unwrap_or(mm);
    number.as_decimal(6).unwrap_or_else(|| number.fixed(4))
}

#[component]
fn Blocks(state: ConvertState) -> impl IntoView {
    let app = state.app;
    let kept = app.part(|document| document.converter.clone());
    let of = SETS.iter().map(|set| Choice::new(set.id, set.name));
    let of = Signal::stored(of.collect::<Vec<_>>());
    let pieces = Signal::derive(move || {
        let pieces = kept.read().pieces.clone();
        pieces.begun_in(app.document.read().settings.system)
    });
    let complaint = Signal::derive(move || kept.read().owned().err().map(Complaint::from));
    let result = move || {
        let kept = kept.get();
        let (Some(inches), Ok(owned)) = (state.inches(), kept.owned()) else { return dash() };
        let Some(height) = LENGTH[0].to_base(inches) else { return dash() };
        let set = kept.set();
        let typed = !kept.pieces.is_empty();
        let in_inches = if typed {
            kept.pieces.system == crate::engine::quantity::System::Inch
        } else {
            set.unit != Ratio::ONE
        };
        let unit = if in_inches { "in" } else { "mm" };
        match blocks::stack(height, &owned) {
            Err(why) => view! { <p class="error">{why.to_string()}</p> }.into_any(),
            Ok(stack) => {
                let list: Vec<String> =
                    stack.pieces.iter().map(|mm| piece(*mm, in_inches)).collect();
                let count = list.len();
                let off = match stack.over.is_zero() {
                    true => "exactly".to_owned(),
                    false => {
                        let word = if stack.over.is_negative() { "under" } else { "over" };
                        let inch = if in_inches { &LENGTH[0] } else { &LENGTH[1] };
                        let off = inch.from_base(stack.over.abs()).unwrap_or(stack.over.abs());
                        format!("{} {unit} {word}", off.fixed(if in_inches { 5 } else { 4 }))
                    }
                };
                let source = (!typed).then(|| {
                    view! { <p class="muted">{source(set.source).text}</p> }
                });
                let one = if count == 1 { "piece" } else { "pieces" };
                view! {
                    <div class="cells">
                        <div class="limits-cell">
                            <span class="cell-label">{format!("{count} {one}, {off}")}</span>
                            <b data-result="second">{format!("{} {unit}", list.join(" + "))}</b>
                        </div>
                    </div>
                    {source}
                }
                .into_any()
            }
        }
    };
    view! {
        {result}
        <Choices
            name="Set"
            of
            chosen=Signal::derive(move || {
                let kept = kept.read();
                kept.pieces.is_empty().then(|| kept.set().id)
            })
            on_choose=move |id: &'static str| {
                app.change(|document| {
                    document.converter.blocks = id.to_owned();
                    document.converter.pieces.text.clear();
                });
            }
            rows=true
        />
        <NumberField
            field=Field::Pieces
            value=pieces
            on_change=move |pieces| app.change(|document| document.converter.pieces = pieces)
            complaint
        />
    }
}

#[component]
fn Readout(state: ConvertState) -> impl IntoView {
    let app = state.app;
    let kept = app.part(|document| document.converter.step());
    let of = readout::STEPS.into_iter().map(|(name, _)| Choice::new(name, name));
    let of = Signal::stored(of.collect::<Vec<_>>());
    let result = move || {
        let (name, step) = kept.get();
        let Some(mm) = state.inches().and_then(|inches| LENGTH[0].to_base(inches)) else {
            return dash();
        };
        let Some(shown) = readout::shown(mm, step) else { return dash() };
        let in_inches = name.ends_with("in");
        let (unit, decimals) = if in_inches { (&LENGTH[0], 4) } else { (&LENGTH[1], 3) };
        let number = |mm: Ratio| unit.from_base(mm).unwrap_or(mm);
        let digits = number(shown.says).fixed(decimals);
        let off = number(shown.over);
        let note = if off.is_zero() {
            "exactly".to_owned()
        } else {
            let word = if off.is_negative() { "under" } else { "over" };
            format!("{} {} {word}", off.abs().fixed(decimals + 1), unit.name())
        };
        view! {
            <div class="cells">
                <SecondNumber
                    label="The display says"
                    shown=Shown { digits, unit: unit.name() }
                    note
                />
            </div>
        }
        .into_any()
    };
    view! {
        {result}
        <Choices
            name="It counts in steps of"
            of
            chosen=Signal::derive(move || Some(kept.read().0))
            on_choose=move |name: &'static str| {
                app.change(|document| document.converter.readout = name.to_owned());
            }
        />
    }
}
