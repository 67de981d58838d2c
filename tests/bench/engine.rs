//! How long the engine takes, on this machine. `./dev bench` runs it; no test depends on a time.

#[path = "../mills/mod.rs"]
mod mills;
#[path = "../practised/mod.rs"]
mod practised;

use handwheel::engine::{
    convert::{self, drill, fraction, units},
    cutters::ToolMaterial,
    drills::Index,
    holes::{
        finish::{Bottom, Finish, Hole, Opening},
        recipe::{Setting, recipe},
        tapping::Tapped,
    },
    limits::{answer, window},
    quantity::{
        Angle, Length, System,
        entry::{Measure, read},
    },
    question::{Coolant, Operation, Own, Style},
    stock::material,
    threads::{find, identify, named, tap, tap_hole::Question},
};
use practised::Practised;
use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() {
    row("reading “1 3/8 in”", || {
        black_box(read(Measure::Length, black_box("1 3/8 in"), System::Inch).is_ok());
    });
    for text in ["1.375", "25.4mm-.5in", "2*(3/16)+.030", "#25"] {
        row(&format!("reading “{text}”, all units, fraction and drills"), || {
            black_box(everything(black_box(text)));
        });
    }
    fuzz();

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

    recipes();

    for text in ["10-32", "quarter twenty", "1/4-21"] {
        row(&format!("finding “{text}” among all threads"), || {
            black_box(find(black_box(text)).len());
        });
    }
    let owned = Index::every();
    let wanted = Question::new(named("10-32").expect("a thread"));
    row("the drill for a tapped hole, out of every drill", || {
        black_box(black_box(&wanted).answer(&owned, &[]).is_ok());
    });
    let crests = identify::Measured::Crests(Length::inch(0.188));
    row("recognising a thread", || {
        black_box(identify::identify(crests, Some(Length::inch(1.0 / 32.0))).is_ok());
    });

    let rows = practised::rows().expect("the table of practised cuts");
    for (style, name) in [(Style::Gentle, "gently"), (Style::Brisk, "briskly")] {
        practised(&rows, style, name);
    }
}

/// What the converter shows of a line.
fn everything(text: &str) -> Option<usize> {
    let line = convert::read(Measure::Length, text, System::Inch).ok()?;
    let readings = units::readings(Measure::Length, line.exact).count();
    let inches = line.exact.base.to_f64() / 25.4;
    let near = fraction::nearest(line.exact.base, 64).is_some();
    let drills = drill::around(Length::inch(inches), None);
    Some(readings + usize::from(near) + usize::from(drills.below.is_some()))
}

/// Inputs of the fuzz run.
const INPUTS: u32 = 10_000_000;

/// Reads random lines made of what stands on a pad and some of what does not, and holds that none
/// breaks the reader, that what is read is finite and that an error marks a place in the text.
fn fuzz() {
    const PIECES: [&str; 56] = [
        "0",
        "1",
        "2",
        "3",
        "4",
        "5",
        "6",
        "7",
        "8",
        "9",
        "0",
        "1",
        "3/8",
        "1/64",
        ".5",
        "25.4",
        ".",
        ",",
        "/",
        " ",
        " ",
        "-",
        "+",
        "*",
        "×",
        "x",
        "(",
        ")",
        "#",
        "±",
        "°",
        "'",
        "\"",
        "in",
        "mm",
        "thou",
        "tenths",
        "µm",
        "ft",
        "m",
        "No.",
        "letter ",
        "F",
        "Z",
        "hp",
        "psi",
        "1e9",
        "–",
        "÷",
        "½",
        "NaN",
        "é",
        "\u{0}",
        "99999999",
        "/-",
        "+.000/-.002",
    ];
    let began = Instant::now();
    let (mut state, mut read, mut text) = (0x9E37_79B9_7F4A_7C15_u64, 0_u32, String::new());
    let mut next = move |below: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 33) as usize % below
    };
    for n in 0..INPUTS {
        text.clear();
        for _ in 0..next(9) {
            text.push_str(PIECES[next(PIECES.len())]);
        }
        // Most lines of a shop are lengths.
        let measure =
            if n % 4 == 0 { Measure::ALL[next(Measure::ALL.len())] } else { Measure::Length };
        let system = if next(2) == 0 { System::Inch } else { System::Metric };
        match convert::read(measure, &text, system) {
            Ok(line) => {
                read += 1;
                assert!(line.exact.base.to_f64().is_finite(), "{text:?}");
            }
            Err(error) => assert!(text.get(error.span.clone()).is_some(), "{text:?}: {error}"),
        }
    }
    let seconds = began.elapsed().as_secs_f64();
    println!("fuzz: {INPUTS} lines, {read} could be read, no panic, {seconds:.0} s");
}

/// Recipes for holes: one that is easy, one that wants a pilot, one that the machine cannot do.
fn recipes() {
    let (mill, drills) = (mills::bench_mill(), Index::every());
    let plain = |inch: f64| Finish::Drilled(Opening::Plain(Length::inch(inch)));
    let tapped = Finish::Tapped(Tapped {
        hole: Question::new(named("1/4-20").expect("it is listed")),
        full_thread: None,
        tap: tap::Style::Plug,
        chamfer_threads: None,
        spare: None,
        drill: None,
        under_power: true,
    });
    for (name, stock, finish) in [
        ("a recipe for a 1/4 in hole in aluminium", "al_6061", plain(0.25)),
        ("the same, 3/4 in with pilots", "al_6061", plain(0.75)),
        ("the same, 3/4 in stainless", "ss_304", plain(0.75)),
        ("the same, 1/4-20 tapped under power", "steel_low_c", tapped),
    ] {
        let setting = Setting {
            machine: &mill,
            stock: material(stock).expect("it is in the table"),
            drills: &drills,
            cutters: None,
            taps: None,
            point_angle: Angle::degree(118.0),
            coolant: Coolant::Brush,
            style: Style::Gentle,
            own: Own::default(),
        };
        let hole = Hole { finish, plate: Length::inch(0.5), bottom: Bottom::Through };
        row(name, || {
            black_box(recipe(black_box(&hole), black_box(&setting)).is_ok());
        });
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
