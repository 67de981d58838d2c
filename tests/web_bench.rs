//! How long the engine takes in the browser. `./dev bench` runs it; no test depends on a time.
#![cfg(target_arch = "wasm32")]

mod mills;

use handwheel::{
    engine::{
        answer::Answer,
        convert::{self, drill, fraction, units},
        cutters::ToolMaterial,
        limits::{answer, window},
        plan::{
            Batch, Mill, Operation as PlanOperation,
            compare::{Comparison, Preference},
        },
        quantity::{Duration, Length, System, entry::Measure},
        question::{Cut, Feeding, OnTheMill, Operation, Style},
        threads::find,
    },
    shop::{
        holes::{HoleForm, making::make},
        layout::LayoutForm,
        sample::sample,
    },
};
use std::hint::black_box;
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn now() -> f64 {
    let window = web_sys::window().expect("a browser has a window");
    window.performance().expect("and a clock").now()
}

/// The mean time of one run in microseconds, over runs of at least half a second in all: the clock
/// of a browser is too coarse for one.
fn mean_of(mut work: impl FnMut()) -> f64 {
    let began = now();
    let mut runs = 0;
    while now() - began < 500.0 {
        for _ in 0..20 {
            work();
        }
        runs += 20;
    }
    (now() - began) * 1000.0 / f64::from(runs)
}

fn row(name: &str, work: impl FnMut()) {
    console_log!("{name:<52} {:>9.1} µs", mean_of(work));
}

fn ask(on: &OnTheMill, cut: &Cut) -> Answer {
    answer(black_box(on), black_box(cut)).expect("an answer")
}

#[wasm_bindgen_test]
fn the_engine_in_the_browser() {
    let mill = mills::bench_mill();
    let slot_on =
        mills::on(&mill, "al_6061", mills::end_mill(Length::mm(3.0), 2, ToolMaterial::Hss));
    let slot = mills::cut(Operation::Slot, Length::inch(0.06));
    row("a slot, answered", || {
        black_box(ask(&slot_on, &slot));
    });
    let answered = ask(&slot_on, &slot);
    row("its operating window", || {
        black_box(window(&slot_on, &slot, &answered));
    });
    // Six teeth, a full helix, forty passes, every speed: as much as the search ever looks at.
    let heavy_on =
        mills::on(&mill, "ss_304", mills::end_mill(Length::inch(0.5), 6, ToolMaterial::Hss));
    let width = Length::inch(0.1);
    let mut heavy =
        mills::cut(Operation::Side { width, feeding: Feeding::Climb }, Length::inch(1.0));
    heavy.style = Style::Brisk;
    row("a deep climb cut in stainless, briskly, answered", || {
        black_box(ask(&heavy_on, &heavy));
    });
}

#[wasm_bindgen_test]
fn a_hole_in_the_browser() {
    for text in ["10-32", "quarter twenty", "1/4-21"] {
        row(&format!("finding “{text}” among all threads"), || {
            black_box(find(black_box(text)).len());
        });
    }
    let mut shop = sample();
    shop.mill.machine = "knee_mill".to_owned();
    for (name, query) in [
        ("a recipe: M4 through, the form read", "thread=M4x0.7&plate_in=0.5"),
        (
            "a recipe: 1/4-20 blind, breaking through",
            "thread=1/4-20&through=no&full_in=0.5&plate_in=0.75",
        ),
        (
            "a recipe: 3/8 reamed through an inch of steel",
            "kind=reamed&hole_in=3/8&plate_in=1&stock=steel_low_c",
        ),
    ] {
        let (form, _) = HoleForm::from_query(query);
        assert!(make(&form, &shop).is_ok(), "{name}");
        row(name, || {
            black_box(make(black_box(&form), black_box(&shop)).is_ok());
        });
    }
}

#[wasm_bindgen_test]
fn a_layout_in_the_browser() {
    for (name, query) in [
        ("a bolt circle of six", "n=6&d_mm=60&x_in=2.5&y_in=2.5&short=yes"),
        (
            "a grid of 200, the short way",
            "shape=grid&n=20&rows=10&step_x_mm=10&step_y_mm=10&short=yes",
        ),
        ("a circle of 200, turned and the short way", "n=200&d_in=8&turned=7&short=yes&hole_mm=2"),
    ] {
        let (form, _) = LayoutForm::from_query(query);
        assert!(form.read().is_ok(), "{name}");
        row(name, || {
            black_box(black_box(&form).read().is_ok());
        });
    }
}

#[wasm_bindgen_test]
fn a_line_in_the_browser() {
    for text in ["1.375", "1 3/8+.030", "25.4mm-.5in", "2*(3/16)+.030", "#25"] {
        row(&format!("reading “{text}”"), || {
            black_box(convert::read(Measure::Length, black_box(text), System::Inch).is_ok());
        });
        row("    and the units, fraction and drills of it", || {
            let line = convert::read(Measure::Length, black_box(text), System::Inch);
            let exact = line.expect("a line").exact;
            let mm = Length::mm(exact.base.to_f64());
            black_box(units::readings(Measure::Length, exact).count());
            black_box(fraction::nearest(exact.base, 64));
            black_box(drill::around(mm, None));
        });
    }
}

/// Eight operations on two mills that can do every one, fifty pieces.
fn batch(in_turn: bool) -> Batch {
    let operation = |place: usize| PlanOperation {
        name: format!("operation {place}"),
        mills: vec![0, 1],
        set_up: Duration::minute(5.0 + place as f64),
        cut: Duration::second(60.0 + 10.0 * place as f64),
        load: Duration::second(20.0),
        tool_change: Duration::ZERO,
        after: if in_turn { place.checked_sub(1).into_iter().collect() } else { Vec::new() },
        risk: None,
    };
    Batch {
        pieces: 50,
        operations: (0..8).map(operation).collect(),
        mills: vec![Mill { stands: 1 }; 2],
        walk: Duration::second(15.0),
        check: Duration::minute(5.0),
        check_first: true,
        blanks_at: None,
    }
}

#[wasm_bindgen_test]
fn a_batch_in_the_browser() {
    for (name, in_turn) in [("one after the other", true), ("in any order", false)] {
        let batch = batch(in_turn);
        for preference in [Preference::LeastTotal, Preference::SoonestFirst] {
            row(&format!("8 operations {name}, 50 pieces, {preference:?}"), || {
                let comparison = Comparison::of(black_box(&batch), preference);
                black_box(comparison.is_ok_and(|comparison| comparison.exact));
            });
        }
    }
}
