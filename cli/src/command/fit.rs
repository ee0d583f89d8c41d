use std::path::{Path, PathBuf};

use layload_core::coupon::{CouponRow, Fitted, fit_card};
use layload_core::job::JobError;
use layload_core::material::{Card, library};

use crate::args::FitArguments;
use crate::failure::Failure;
use crate::input::text as text_of;
use crate::outcome::Outcome;
use crate::output::{check_free, print_report, write_file};
use crate::plot::chart_svg;
use crate::{figure, text};

/// Makes a card from a table of tests.
pub(crate) fn run(arguments: &FitArguments) -> Result<Outcome, Failure> {
    check_free(&arguments.out, arguments.overwrite)?;
    let rows = rows(&arguments.coupons)?;
    let base = base(&arguments.base)?;
    let Fitted { card, report } = fit_card(&rows, &base, arguments.name.as_deref(), arguments.date.as_deref())?;
    let drawings: Vec<(PathBuf, Vec<u8>)> = match &arguments.svg {
        None => Vec::new(),
        Some(path) => {
            let lines = report.lines.iter().enumerate();
            lines
                .map(|(k, line)| Ok((numbered(path, k), chart_svg(&figure::fit(&report, line))?)))
                .collect::<Result<_, Failure>>()?
        }
    };
    for (path, _) in &drawings {
        check_free(path, arguments.overwrite)?;
    }
    write_file(&arguments.out, card.to_toml().map_err(JobError::from)?.as_bytes(), arguments.overwrite)?;
    for (path, bytes) in &drawings {
        write_file(path, bytes, arguments.overwrite)?;
    }
    print_report(&report, arguments.json, || text::fit(&report, &arguments.out))?;
    Ok(Outcome::Good)
}

/// The first drawing has the name itself, the next ones a number before the ending.
fn numbered(path: &Path, number: usize) -> PathBuf {
    if number == 0 {
        return path.into();
    }
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().map_or_else(String::new, |e| format!(".{}", e.to_string_lossy()));
    path.with_file_name(format!("{stem}-{}{ending}", number + 1))
}

/// A family by name, or a card file.
fn base(name: &str) -> Result<Card, Failure> {
    let path = Path::new(name);
    let card = if path.extension().is_some_and(|ending| ending == "toml") {
        Card::from_toml(&text_of(path)?)
    } else {
        library::card(name)
    };
    Ok(card.map_err(JobError::from)?)
}

/// Rows of the table; lines that begin with `#` are remarks.
fn rows(path: &Path) -> Result<Vec<CouponRow>, Failure> {
    let text = text_of(path)?;
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
    let read: Result<Vec<CouponRow>, csv::Error> = reader.deserialize().collect();
    read.map_err(|error| Failure::Refused {
        message: format!("{} is no table of tests: {error}", path.display()),
        help: "see samples/coupons.csv for the columns; numbers have a point, empty columns are allowed".into(),
    })
}
