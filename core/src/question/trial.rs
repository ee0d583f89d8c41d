use crate::job::{resolve, resolve_pace};
use crate::kind::{LoadedPart, Question, Sizes, Trial, Trials, Watcher};
use crate::verdict::FieldRequest;
use crate::{Error, orient};

/// Time to print a part of a mass, kg, for a job at some sizes, s.
pub(crate) fn print_time(part: &dyn Trials, question: &Question<'_>, sizes: &Sizes, mass: f64) -> Result<f64, Error> {
    let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
    let (pace, _) = resolve_pace(question.job)?;
    let plastic = mass / scenario.card.density_kg_m3.value;
    let (print, posed) = part.posed(question, sizes)?;
    Ok(orient::print_time(plastic, &posed, &print, &pace))
}

/// Solves the stress field of a part as it is, for a job, and raises the sections of its trials to that; what a check says of it
/// there.
pub(crate) fn corrected(
    trials: &mut dyn Trials,
    file: &LoadedPart,
    question: &Question<'_>,
    request: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<Trial, Error> {
    if file.part.by_field_alone() {
        return Err(Error::FieldOnly);
    }
    let prepared = file.part.clone().prepare(file, question)?;
    let mut driven = prepared.load()?;
    driven.solve_field(request, false, watcher)?;
    let correction = driven.warm()?.correction()?;
    trials.take(&correction);
    Ok(correction.at_duty)
}
