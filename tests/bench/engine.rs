//! How long the engine takes, on this machine. `./dev bench` runs it; no test depends on a time.

#[path = "../mills/mod.rs"]
mod mills;

use handwheel::engine::{
    cutters::ToolMaterial,
    limits::{answer, window},
    quantity::{
        Length, System,
        entry::{Measure, read},
    },
    question::Operation,
};
use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() {
    row("reading “1 3/8 in”", || {
        black_box(read(Measure::Length, black_box("1 3/8 in"), System::Inch).is_ok());
    });

    let mill = mills::bench_mill();
    let cutter = mills::end_mill(Length::mm(10.0), 4, ToolMaterial::Hss);
    let on = mills::on(&mill, "al_6061", cutter);
    let cut = mills::cut(Operation::Slot, Length::mm(3.0));
    let answered = answer(&on, &cut).expect("an answer");
    row("answering a slot", || {
        black_box(answer(black_box(&on), black_box(&cut)).is_ok());
    });
    row("its operating window", || {
        black_box(window(black_box(&on), black_box(&cut), &answered).is_some());
    });
}

fn row(name: &str, work: impl FnMut()) {
    println!("{name:<44} {:>12.1} µs", median_of(work).as_secs_f64() * 1e6);
}

/// The median time of one run, over runs of at least a second in all.
fn median_of(mut work: impl FnMut()) -> Duration {
    let mut times = Vec::new();
    let began = Instant::now();
    while began.elapsed() < Duration::from_secs(1) {
        let began = Instant::now();
        work();
        times.push(began.elapsed());
    }
    times.sort_unstable();
    times[times.len() / 2]
}
