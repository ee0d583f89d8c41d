use std::path::Path;

use layload_core::coupon::fit_card;
use layload_core::job::JobError;
use layload_core::material::Card;

use crate::answer::{FittedCard, files, planned, print};
use crate::args::FitArguments;
use crate::failure::Failure;
use crate::input::{Wanted, coupon_rows, text as text_of};
use crate::outcome::Outcome;
use crate::output::{Form, Plan};

/// Makes a card from a table of tests.
pub(crate) fn run(arguments: &FitArguments) -> Result<Outcome, Failure> {
    let base_file = card_file(&arguments.base);
    let inputs = || Plan::new(arguments.overwrite).reading([arguments.coupons.as_path()].into_iter().chain(base_file));
    // How many drawings there are is known when the tests are read.
    drop(planned::<FittedCard>(arguments, inputs())?);
    let rows = coupon_rows(&arguments.coupons)?;
    let base = base(&arguments.base)?;
    let fitted = fit_card(&rows, &base, arguments.name.as_deref(), arguments.date.as_deref())?;
    let answer = FittedCard { fitted, out: arguments.out.clone() };
    let files = files(&answer, arguments)?;
    let mut plan = inputs();
    for (path, _) in &files {
        plan = plan.file(path, Form::Own)?;
    }
    let outputs = plan.checked()?;
    let told = print(&answer, arguments.json);
    outputs.write(&files)?;
    told?;
    Ok(Outcome::Good)
}

/// The file of a card, where that is no name of a family.
fn card_file(name: &str) -> Option<&Path> {
    Some(Path::new(name)).filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
}

/// A family by name, or a card file.
fn base(name: &str) -> Result<Card, Failure> {
    let card = match card_file(name) {
        Some(path) => Card::from_toml(&text_of(path, Wanted::Card)?),
        None => Card::named(name),
    };
    Ok(card.map_err(JobError::from)?)
}
