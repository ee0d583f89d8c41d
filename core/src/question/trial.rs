use crate::job::{resolve, resolve_pace};
use crate::kind::{Question, Sizes, Trials};
use crate::{Error, orient};

/// Time to print a part of a mass, kg, for a job at some sizes, s.
pub(crate) fn print_time(part: &dyn Trials, question: &Question<'_>, sizes: &Sizes, mass: f64) -> Result<f64, Error> {
    let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
    let (pace, _) = resolve_pace(question.job)?;
    let plastic = mass / scenario.card.density_kg_m3.value;
    let (print, posed) = part.posed(question, sizes)?;
    Ok(orient::print_time(plastic, &posed, &print, &pace))
}
