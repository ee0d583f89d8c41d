use std::path::{Path, PathBuf};

use layload_core::coupon::{Fitted, fit_card};
use layload_core::job::JobError;
use layload_core::material::{Card, library};

use crate::args::FitArguments;
use crate::failure::Failure;
use crate::input::{Wanted, coupon_rows, text as text_of};
use crate::outcome::Outcome;
use crate::output::{Form, Plan, print_report};
use crate::plot::chart_svg;
use crate::{figure, text};

/// Makes a card from a table of tests.
pub(crate) fn run(arguments: &FitArguments) -> Result<Outcome, Failure> {
    let base_file = card_file(&arguments.base);
    let inputs = || Plan::new(arguments.overwrite).reading([arguments.coupons.as_path()].into_iter().chain(base_file));
    // How many drawings there are is known when the tests are read.
    drop(inputs().file(&arguments.out, Form::Toml)?.drawing(arguments.svg.as_deref())?);
    let rows = coupon_rows(&arguments.coupons)?;
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
    let mut plan = inputs().file(&arguments.out, Form::Toml)?;
    for (path, _) in &drawings {
        plan = plan.file(path, Form::Drawing)?;
    }
    let outputs = plan.checked()?;
    let told = print_report(&report, arguments.json, || text::fit(&report, &arguments.out));
    let mut files = vec![(arguments.out.clone(), card.to_toml().map_err(JobError::from)?.into_bytes())];
    files.extend(drawings);
    outputs.write(&files)?;
    told?;
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

/// The file of a card, where that is no name of a family.
fn card_file(name: &str) -> Option<&Path> {
    Some(Path::new(name)).filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
}

/// A family by name, or a card file.
fn base(name: &str) -> Result<Card, Failure> {
    let card = match card_file(name) {
        Some(path) => Card::from_toml(&text_of(path, Wanted::Card)?),
        None => library::card(name),
    };
    Ok(card.map_err(JobError::from)?)
}
