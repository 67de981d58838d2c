//! Topics of threads and drills.

use super::{
    Topic,
    holes::pitch,
    keys::{Keys, Refusal},
    units::{Got, got},
};
use crate::engine::{
    drills::{Drill, Family, Index},
    quantity::{Length, System, entry},
    threads::{
        Series, Thread, form_tap, identify, named,
        percent::{self, Basis},
        tap::Style,
        tap_hole::{Allowance, Question, Verdict, verdict},
        wires::Groove,
    },
};

pub(super) const TOPICS: &[Topic] = &[
    ("un_limits", |k| {
        let thread = unified(k)?;
        let none = || no_limits(thread);
        let internal = thread.internal().ok_or_else(none)?;
        let external = thread.external().ok_or_else(none)?;
        let pitch = internal.pitch.ok_or_else(none)?;
        let quantities = [
            ("minor_2b_min", internal.minor.least),
            ("minor_2b_max", internal.minor.most),
            ("pitch_2b_min", pitch.least),
            ("pitch_2b_max", pitch.most),
            ("major_2a_min", external.major.least),
            ("major_2a_max", external.major.most),
            ("pitch_2a_min", external.pitch.least),
            ("pitch_2a_max", external.pitch.most),
        ];
        got(k.word("quantity", &quantities)?)
    }),
    ("un_basic", |k| {
        let thread = unified(k)?;
        let quantities = [
            ("major", thread.major()),
            ("pitch_diameter", thread.basic_pitch_diameter()),
            ("minor", thread.basic_minor()),
        ];
        got(k.word("quantity", &quantities)?)
    }),
    ("metric_limits", |k| {
        let thread = thread(k)?;
        let none = || no_limits(thread);
        let metric = thread.series().is_metric().then_some(thread).ok_or_else(none)?;
        let internal = metric.internal().ok_or_else(none)?;
        let external = metric.external().ok_or_else(none)?;
        let pitch = internal.pitch.ok_or_else(none)?;
        let quantities = [
            ("minor_min", internal.minor.least),
            ("minor_max", internal.minor.most),
            ("pitch_min", pitch.least),
            ("pitch_max", pitch.most),
            ("major_6g_min", external.major.least),
            ("major_6g_max", external.major.most),
        ];
        got(k.word("quantity", &quantities)?)
    }),
    ("whitworth", |k| {
        let (size, tpi): (Length, f64) = (inches(k)?, k.get("tpi")?);
        let thread = Thread::whitworth(Series::Bsw, size, tpi).ok_or_else(|| {
            Refusal(format!("There is no Whitworth thread of {tpi} to the inch."))
        })?;
        let quantities = [
            ("pitch_diameter", thread.basic_pitch_diameter()),
            ("minor", thread.basic_minor()),
            ("depth", thread.pitch() * thread.form().pitch_depth()),
        ];
        got(k.word("quantity", &quantities)?)
    }),
    ("ba", |k| {
        let number = k.count("number")?;
        let thread = u8::try_from(number).ok().and_then(Thread::ba);
        let thread = thread.ok_or_else(|| Refusal(format!("There is no {number} BA.")))?;
        let quantities = [
            ("major", thread.major()),
            ("pitch", thread.pitch()),
            ("pitch_diameter", thread.basic_pitch_diameter()),
            ("minor", thread.basic_minor()),
        ];
        got(k.word("quantity", &quantities)?)
    }),
    ("bsp", |k| {
        let thread = pipe(k, Series::G)?;
        let sizes = thread.bsp_sizes().ok_or_else(|| no_limits(thread))?;
        let quantities = [
            ("tpi", None),
            ("major", Some(sizes.major)),
            ("pitch_diameter", Some(sizes.pitch_diameter)),
            ("minor_min", Some(sizes.minor)),
            ("minor_max", Some(sizes.minor_most)),
        ];
        Ok(length_or_tpi(k.word("quantity", &quantities)?, thread))
    }),
    ("npt", |k| {
        let thread = pipe(k, Series::Npt)?;
        let sizes = thread.npt_sizes().ok_or_else(|| no_limits(thread))?;
        let quantities = [
            ("tpi", None),
            ("E0", Some(sizes.e0)),
            ("E1", Some(sizes.e1)),
            ("L1", Some(sizes.l1)),
            ("L2", Some(sizes.l2)),
            ("K0", Some(sizes.k0)),
        ];
        Ok(length_or_tpi(k.word("quantity", &quantities)?, thread))
    }),
    ("thread_percent", |k| {
        let percent = percent::percent_of(thread(k)?, hole(k)?, basis(k)?)?;
        Ok(Got::In(percent, "%".to_owned()))
    }),
    ("tap_hole", |k| got(percent::hole_for(thread(k)?, k.get("percent")?, basis(k)?)?)),
    ("tap_drill_choice", |k| {
        let owned = match k.word("drill_set", &[("inch", 0), ("metric", 1), ("all", 2)])? {
            0 => Index::every_inch(),
            1 => Index::every_metric(),
            _ => Index::every(),
        };
        let question = Question {
            thread: thread(k)?,
            percent: k.get("percent")?,
            basis: Basis::Chart,
            to_class: false,
            allowance: Allowance::None,
        };
        let chosen = question.answer(&owned, &[])?.chosen;
        let drill = chosen.ok_or_else(|| Refusal("No drill of the set fits.".to_owned()))?.drill;
        Ok(Got::Drill(drill_name(drill), drill.diameter()))
    }),
    ("hole_in_class", |k| {
        let thread = if k.has("series") { unified(k)? } else { thread(k)? };
        let inside = match verdict(thread, hole(k)?) {
            Verdict::Inside => true,
            Verdict::OverMost | Verdict::Binds => false,
            Verdict::NoLimit => return Err(no_limits(thread)),
        };
        got(if inside { "yes" } else { "no" })
    }),
    ("metric_tap_drill", |k| {
        let thread = thread(k)?;
        let drill = thread.standard().and_then(|row| row.tap_drill());
        let (drill, _) = drill.ok_or_else(|| Refusal("No standard drill is listed.".to_owned()))?;
        got(drill.diameter())
    }),
    ("form_tap_hole", |k| got(form_tap::hole_for(thread(k)?, k.get("percent")?)?)),
    ("tap_chamfer", |k| {
        let styles =
            [("taper", Style::Taper), ("plug", Style::Plug), ("bottoming", Style::Bottoming)];
        let (least, most) = k.word("style", &styles)?.chamfer();
        let threads = k.word("quantity", &[("min", least), ("max", most)])?;
        Ok(Got::In(threads, "threads".to_owned()))
    }),
    ("thread_identify", |k| {
        let candidate = read(k.text("candidate")?)?;
        let fits = identify::fits(candidate, k.get("major")?, pitch(k)?);
        got(if fits { "yes" } else { "no" })
    }),
    ("drill_size", |k| got(drill(k, "drill")?.diameter())),
    ("drill_compare", |k| got(drill(k, "first")?.diameter() - drill(k, "second")?.diameter())),
    ("wire_best", |k| got(groove(k)?.best_wire())),
    ("wire_over", |k| {
        let groove = groove(k)?;
        let pitch_diameter = match k.which(&["pitch_diameter", "major_diameter"])? {
            0 => k.get("pitch_diameter")?,
            _ => groove.basic_pitch_diameter(k.get("major_diameter")?),
        };
        let wire = k.get("wire")?;
        let over = groove.over_wires(pitch_diameter, wire)?;
        let slanted = k.word_or("helix", &[("yes", true), ("no", false)], false)?;
        got(if slanted { over + groove.slant(pitch_diameter, wire) } else { over })
    }),
    ("wire_pitch_diameter", |k| {
        got(groove(k)?.pitch_diameter(k.get("over_wires")?, k.get("wire")?)?)
    }),
];

fn groove(k: &Keys) -> Result<Groove, Refusal> {
    Ok(Groove::new(pitch(k)?, k.get("thread_angle")?)?)
}

/// A thread as the rows write it: without letters it is Unified, "1/8 BSP" is the parallel one.
fn read(text: &str) -> Result<Thread, Refusal> {
    let unified = !text.contains(|c: char| c.is_ascii_alphabetic());
    Ok(if unified { named(&format!("{text} unified"))? } else { named(text)? })
}

fn thread(k: &Keys) -> Result<Thread, Refusal> {
    read(k.text("thread")?)
}

/// A Unified thread with the series of its own key; 8-UN is the series UN.
fn unified(k: &Keys) -> Result<Thread, Refusal> {
    let text = k.text("thread")?;
    let thread = if k.has("series") {
        let series = k.text("series")?;
        let letters = series.trim_start_matches(|c: char| c.is_ascii_digit() || c == '-');
        let series = Series::ALL.into_iter().find(|s| s.is_unified() && s.letters() == letters);
        let series = series.ok_or_else(|| Refusal(format!("There is no series {letters}.")))?;
        read(text)?.in_series(series)
    } else {
        read(text)?
    };
    let is_unified = thread.series().is_unified();
    is_unified.then_some(thread).ok_or_else(|| no_limits(thread))
}

fn no_limits(thread: Thread) -> Refusal {
    Refusal(format!("{} has no limits of this kind.", thread.designation()))
}

/// A size in inches, a fraction without a unit.
fn inches(k: &Keys) -> Result<Length, Refusal> {
    Ok(entry::length(k.text("size")?, System::Inch)?)
}

fn pipe(k: &Keys, series: Series) -> Result<Thread, Refusal> {
    let thread = Thread::pipe(series, inches(k)?);
    thread.ok_or_else(|| Refusal(format!("There is no {} of this size.", series.letters())))
}

fn length_or_tpi(length: Option<Length>, thread: Thread) -> Got {
    length.map_or_else(|| Got::In(thread.tpi(), "tpi".to_owned()), Got::from)
}

fn basis(k: &Keys) -> Result<Basis, Refusal> {
    let bases = [("1.299", Basis::Chart), ("1.0825", Basis::Basic), ("form", Basis::Form)];
    k.word("percent_basis", &bases)
}

fn hole(k: &Keys) -> Result<Length, Refusal> {
    match k.which(&["drill", "hole"])? {
        0 => Ok(drill(k, "drill")?.diameter()),
        _ => k.get("hole"),
    }
}

/// A drill by its name; a whole inch may stand without its unit.
fn drill(k: &Keys, key: &str) -> Result<Drill, Refusal> {
    let name = k.text(key)?;
    match name.parse::<u16>() {
        Ok(whole) => Ok(Drill::named(&format!("{whole} in"))?),
        Err(_) => Ok(Drill::named(name)?),
    }
}

/// The name the rows give a drill: millimetres with at least one decimal, a whole inch bare.
fn drill_name(drill: Drill) -> String {
    let name = drill.short_name();
    match (drill.family(), name.strip_suffix(" mm"), name.strip_suffix(" in")) {
        (Family::Metric, Some(mm), _) if !mm.contains('.') => format!("{mm}.0 mm"),
        (Family::Fraction, _, Some(whole)) => whole.to_owned(),
        _ => name,
    }
}
