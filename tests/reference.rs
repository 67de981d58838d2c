//! Every check row against the engine.
//!
//! Reads the `*.csv` of `$REFERENCE_DIR` (absolute, or relative to the package; `tests/reference`
//! where it is not set) and ends with `reference: P of T rows, K topics`.

use handwheel::engine::reference::{self, Outcome};
use std::{
    collections::BTreeSet,
    env, fs,
    path::{Path, PathBuf},
    process::ExitCode,
};

fn main() -> ExitCode {
    let folder = env::var_os("REFERENCE_DIR").map_or("tests/reference".into(), PathBuf::from);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut failures = 0;
    let mut fail = |sentence: String| {
        println!("{sentence}");
        failures += 1;
    };
    let (mut passed, mut total, mut topics) = (0, 0, BTreeSet::new());

    let mut files: Vec<_> = match fs::read_dir(&folder) {
        Ok(entries) => entries.flatten().map(|entry| entry.path()).collect(),
        Err(error) => {
            fail(format!("The folder {} cannot be read: {error}.", folder.display()));
            Vec::new()
        }
    };
    files.retain(|path| path.extension().is_some_and(|e| e == "csv"));
    files.sort();

    for path in files {
        let name = path.display();
        let text = match fs::read_to_string(&path) {
            Ok(text) => text,
            Err(error) => {
                fail(format!("{name} cannot be read: {error}."));
                continue;
            }
        };
        let Some(rows) = reference::rows(&text) else {
            let header = text.lines().next().unwrap_or_default();
            fail(format!("{name} is refused: its header is not the eight columns but {header:?}."));
            continue;
        };
        for row in rows {
            total += 1;
            let row = match row {
                Ok(row) => row,
                Err(sentence) => {
                    fail(format!("{name}: {sentence}"));
                    continue;
                }
            };
            match reference::check(&row) {
                Outcome::Holds(_) => {
                    passed += 1;
                    topics.insert(row.topic);
                }
                Outcome::Off(got) => fail(format!(
                    "{} {}: got {got}, expected {} {} within {} ({})",
                    row.id, row.topic, row.expected, row.unit, row.tolerance, row.inputs
                )),
                Outcome::Refused(why) => {
                    fail(format!("{} {}: {why} ({})", row.id, row.topic, row.inputs));
                }
            }
        }
    }

    println!("reference: {passed} of {total} rows, {} topics", topics.len());
    if failures == 0 && total > 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
