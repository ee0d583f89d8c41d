//! The book of evidence: every comparison with something outside the project, each number once.
//!
//! Rows are gathered here, held against their tolerances and written to `tests/EVIDENCE.md`, which is part of the sources;
//! `LAYLOAD_WRITE_EVIDENCE=1 cargo test -p layload-core --features rooms --test core evidence` writes it anew.

mod any;
mod crank;
mod examples;
mod field;
mod heat;
mod life;
mod material;
mod mesh;
mod row;
mod stress;

use std::fmt::Write as _;
use std::thread;

use row::Row;

type Rows = Result<Vec<Row>, Box<dyn std::error::Error>>;

/// A heading and what gathers its rows.
type Chapter = (&'static str, fn() -> Rows);

/// Chapters in the order of the page.
const CHAPTERS: [Chapter; 9] = [
    ("Worked examples of others, carried from end to end", examples::rows),
    ("Mesh and sections", mesh::rows),
    ("Crank and gas", crank::rows),
    ("Stress of sections, columns, plates and rings", stress::rows),
    ("Stress field", field::rows),
    ("Parts of any kind", any::rows),
    ("Material", material::rows),
    ("Heat", heat::rows),
    ("Life", life::rows),
];

const HEAD: &str = "# Evidence\n\n\
    Every comparison with something outside the project, written by the tests (`tests/core/evidence`); a row out of its\n\
    bound fails them. The number before a row is that of the project's list of checks; E stands for a worked example.\n\n\
    | word | means |\n|---|---|\n\
    | published | a number printed in the publication named |\n\
    | standard | a number of the standard named |\n\
    | closed form | a formula of the source named, worked out a second time by the test: it finds a slip in writing; whether the \
      formula fits the part is another question |\n\
    | general library | solved by the library or program named, by another route than the program's; the part, its loads and \
      supports are set up by a script of this project, in `tests/reference` |\n\
    | memory | recalled; not confirmed against its source |\n\
    | common practice | what the trade knows, without a source |\n\n\
    Where a row stands for many values, the worst is shown. `tests/reference` holds scripts that do whole parts another way.\n";

const TABLE: &str = "| | what | source | word | expected | got | off by | bound | why that bound |\n\
    |---|---|---|---|---|---|---|---|---|\n";

#[test]
fn every_row_is_within_its_bound_and_on_the_page() -> Result<(), Box<dyn std::error::Error>> {
    // The field's rows take as long as all others: side by side.
    let gathered: Vec<Result<Vec<Row>, String>> = thread::scope(|scope| {
        let running: Vec<_> =
            CHAPTERS.iter().map(|(_, rows)| scope.spawn(move || rows().map_err(|error| error.to_string()))).collect();
        running
            .into_iter()
            .map(|chapter| chapter.join().unwrap_or_else(|_| Err("a chapter broke off".into())))
            .collect()
    });
    let (mut page, mut faults) = (HEAD.to_string(), Vec::new());
    for ((heading, _), rows) in CHAPTERS.iter().zip(gathered) {
        write!(page, "\n## {heading}\n\n{TABLE}")?;
        for row in rows? {
            faults.extend(row.fault());
            writeln!(page, "{}", row.line())?;
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    for check in (1..=28).map(|number| format!("\n| C{number} |")) {
        assert!(page.contains(&check), "no row for{check}");
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/EVIDENCE.md");
    if std::env::var_os("LAYLOAD_WRITE_EVIDENCE").is_some() {
        std::fs::write(path, &page)?;
    }
    let known = std::fs::read_to_string(path)?;
    let changed = known.lines().zip(page.lines()).find(|(known, now)| known != now);
    assert!(
        known == page,
        "tests/EVIDENCE.md is not what the rows say (LAYLOAD_WRITE_EVIDENCE=1 writes it): {changed:?}"
    );
    Ok(())
}
