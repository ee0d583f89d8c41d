use super::ways::Way;
use crate::Error;
use crate::job::resolve;
use crate::kind::{Measures, Question, Sizes, Trial, Trials};
use crate::question::trial::print_time;
use crate::report::{CandidateReport, NumbersBy, Varied};
use crate::verdict::{Basis, State};

/// A candidate with what it is made of.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) way: usize,
    pub(super) sizes: Sizes,
    /// Margins of sections were taken times this when its sizes were looked for.
    pub(super) times: f64,
    pub(super) report: CandidateReport,
}

/// A candidate as it is told.
pub(super) fn candidate(
    way: &Way,
    (question, trials): (&Question<'_>, &dyn Trials),
    (varied, sizes, measures): (Option<Varied>, &Sizes, Measures),
    trial: &Trial,
    by: NumbersBy,
) -> Result<CandidateReport, Error> {
    let ask = way.ask(question);
    let (scenario, _) = resolve(ask.job, ask.card_text, ask.pressure_text)?;
    let Measures { thickness, crown } = measures.at(sizes);
    let basis = if by == NumbersBy::Field { Basis::CHECKED } else { Basis::SECTIONS };
    Ok(CandidateReport {
        varied,
        material: scenario.card.name,
        direction: way.direction.clone(),
        walls: way.walls,
        by,
        state: State::of(trial.margin, basis),
        reaches: trial.margin >= 1.0,
        pareto: false,
        thickness_factors: thickness.map(|_| sizes.thickness()),
        thickness_mm: thickness.map(|of| of.map(|metres| metres * 1e3)),
        crown_factor: crown.map(|_| sizes.crown),
        crown_mm: crown.map(|metres| metres * 1e3),
        mass_g: trial.mass * 1e3,
        print_time_s: print_time(trials, &ask, sizes, trial.mass)?,
        margin: trial.margin,
        life_b10_s: trial.life_b10,
        governing_mode: trial.mode,
        governing_place: trial.place.clone(),
    })
}

/// Leaves one of candidates that are the same part made the same way.
pub(super) fn drop_equal(found: Vec<Found>) -> Vec<CandidateReport> {
    let same = |a: &CandidateReport, b: &CandidateReport| {
        (&a.material, &a.direction, a.walls) == (&b.material, &b.direction, b.walls)
            && a.thickness_factors == b.thickness_factors
            && a.crown_factor == b.crown_factor
    };
    let mut kept: Vec<CandidateReport> = Vec::with_capacity(found.len());
    for Found { report, .. } in found {
        match kept.iter_mut().find(|known| same(known, &report)) {
            // What the field says of a part is worth more than what sections do.
            Some(known) if known.by != NumbersBy::Field && report.by == NumbersBy::Field => {
                *known = CandidateReport { varied: known.varied, ..report };
            }
            Some(_) => {}
            None => kept.push(report),
        }
    }
    kept
}

/// Marks what no other that reaches it beats in mass, life and print time together.
pub(super) fn mark_pareto(candidates: &mut [CandidateReport]) {
    let costs: Vec<Option<[f64; 3]>> =
        candidates.iter().map(|c| c.reaches.then_some([c.mass_g, -c.life_b10_s, c.print_time_s])).collect();
    let beats = |a: &[f64; 3], b: &[f64; 3]| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
    for (candidate, own) in candidates.iter_mut().zip(&costs) {
        candidate.pareto = own.is_some_and(|own| !costs.iter().flatten().any(|other| beats(other, &own)));
    }
}
