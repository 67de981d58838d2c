//! How long the engine takes, on this machine. `./dev bench` runs it; no test depends on a time.

#[path = "../mills/mod.rs"]
mod mills;
#[path = "../practised/mod.rs"]
mod practised;

use handwheel::engine::{
    cutters::ToolMaterial,
    limits::{answer, window},
    quantity::{
        Length, System,
        entry::{Measure, read},
    },
    question::{Operation, Style},
};
use practised::Practised;
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

    let rows = practised::rows().expect("the table of practised cuts");
    for (style, name) in [(Style::Gentle, "gently"), (Style::Brisk, "briskly")] {
        practised(&rows, style, name);
    }
}

/// Every practised cut asked as a question: what a good one takes, and what the worst of all does.
fn practised(rows: &[Practised], style: Style, name: &str) {
    let timed = |good_only: bool, work: &dyn Fn(&Practised)| {
        let some = rows.iter().filter(|row| row.is_good() || !good_only);
        let mut times: Vec<_> = some.map(|row| mean_of(|| work(row))).collect();
        times.sort_unstable();
        times
    };
    let answering = |row: &Practised| {
        black_box(answer(black_box(&row.mill()), &row.question(style)).is_ok());
    };
    let good = timed(true, &answering);
    show(&format!("a practised cut asked {name}, median of {}", good.len()), good[good.len() / 2]);
    let all = timed(false, &answering);
    show(&format!("the same, worst of {}", all.len()), all[all.len() - 1]);
    let windows = timed(false, &|row| {
        let (mill, cut) = (row.mill(), row.question(style));
        let answer = answer(&mill, &cut).expect("an answer");
        black_box(window(&mill, &cut, &answer).is_some());
    });
    show("answer and operating window, worst", windows[windows.len() - 1]);
}

fn row(name: &str, work: impl FnMut()) {
    show(name, median_of(work));
}

fn show(name: &str, time: Duration) {
    println!("{name:<52} {:>12.1} µs", time.as_secs_f64() * 1e6);
}

/// The least mean time over a few rounds, for a quick look at many.
fn mean_of(work: impl Fn()) -> Duration {
    let round = || {
        let began = Instant::now();
        (0..20).for_each(|_| work());
        began.elapsed() / 20
    };
    (0..5).map(|_| round()).min().unwrap_or_default()
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
