use libm::log10;

use super::input::InputValue;
use super::plan::{Sampling, StudyPlan};
use crate::numeric::sort_few;
use crate::report::{
    CAUTIONS, CorrectionReport, EffectLevelReport, EffectReport, NumbersBy, ResponseReport, SCHEMA_VERSION, StudyReport,
};

/// What a case answered, as far as effects go; `None` where it gave no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Responses {
    /// Margin on stress.
    pub margin: f64,
    /// Running time that nine in ten reach, s.
    pub life_b10_s: f64,
    /// Mass as printed, g.
    pub mass_g: f64,
    /// The margin by a field of its own, of a case that was solved.
    pub solved_margin: Option<f64>,
}

/// Name, unit and value of a response.
type Response = (&'static str, &'static str, fn(&Responses) -> f64);

/// Levels that a range is divided into for main effects.
const LEVELS: usize = 10;

/// Lives below this count as this much, s: a part that breaks at once has no logarithm of life.
const LEAST_LIFE: f64 = 1e-3;

/// Main effects of every input, and Sobol's indices where the plan was made for them. `cases` are in order of their number.
pub fn effects(plan: &StudyPlan, cases: &[Option<Responses>]) -> StudyReport {
    let answered = cases.iter().flatten().count();
    let reaching = cases.iter().flatten().filter(|case| case.margin >= 1.0).count();
    let responses: [Response; 3] = [
        ("margin on stress", "1", |r| r.margin),
        ("log10 of the life that nine in ten reach", "log10 s", |r| log10(r.life_b10_s.max(LEAST_LIFE))),
        ("mass as printed", "g", |r| r.mass_g),
    ];
    let inputs: Vec<Vec<InputValue>> = (0..cases.len()).map(|case| plan.case(case)).collect();
    let of = |(name, unit, of): Response| {
        let values: Vec<Option<f64>> = cases.iter().map(|case| case.as_ref().map(of)).collect();
        let known: Vec<f64> = values.iter().flatten().copied().collect();
        let mut sorted = known.clone();
        sorted.sort_by(f64::total_cmp);
        let at =
            |share: f64| sorted.get(((sorted.len() as f64 * share) as usize).min(sorted.len().max(1) - 1)).copied();
        ResponseReport {
            name: name.into(),
            unit: unit.into(),
            mean: mean(&known).unwrap_or(0.0),
            deviation: variance(&known).max(0.0).sqrt(),
            low: at(0.05).unwrap_or(0.0),
            median: at(0.5).unwrap_or(0.0),
            high: at(0.95).unwrap_or(0.0),
            effects: effects_on(plan, &inputs, &values),
        }
    };
    StudyReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: plan.title.clone(),
        warnings: Vec::new(),
        cases: cases.len(),
        answered,
        reaching,
        by: if plan.quick { NumbersBy::Sections } else { NumbersBy::CorrectedSections },
        correction: correction(cases),
        responses: responses.into_iter().map(of).collect(),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}

/// How far off corrected sections were where a field was solved.
fn correction(cases: &[Option<Responses>]) -> Option<CorrectionReport> {
    let ratio = |case: &Responses| case.solved_margin.filter(|_| case.margin > 0.0).map(|solved| solved / case.margin);
    let mut ratios: Vec<f64> = cases.iter().flatten().filter_map(ratio).collect();
    ratios.sort_by(f64::total_cmp);
    let (low, high) = (*ratios.first()?, *ratios.last()?);
    Some(CorrectionReport { solved: ratios.len(), low, median: ratios[ratios.len() / 2], high })
}

fn effects_on(plan: &StudyPlan, inputs: &[Vec<InputValue>], values: &[Option<f64>]) -> Vec<EffectReport> {
    let indices = (plan.sampling == Sampling::Sobol).then(|| first_and_total(plan.inputs.len(), values)).flatten();
    let known: Vec<f64> = values.iter().flatten().copied().collect();
    let whole = variance(&known);
    let mut list: Vec<EffectReport> = plan
        .inputs
        .iter()
        .enumerate()
        .map(|(k, input)| {
            let levels = levels(input, inputs, values, k);
            let total: usize = levels.iter().map(|level| level.cases).sum();
            let middle = levels.iter().map(|l| l.mean * l.cases as f64).sum::<f64>() / total.max(1) as f64;
            let between: f64 = levels.iter().map(|l| (l.mean - middle) * (l.mean - middle) * l.cases as f64).sum();
            let between = between / total.max(1) as f64;
            EffectReport {
                input: input.name.word().into(),
                share_of_variance: if whole > 0.0 { between / whole } else { 0.0 },
                first_order: indices.as_ref().map(|(first, _)| first[k]),
                total_order: indices.as_ref().map(|(_, total)| total[k]),
                levels,
            }
        })
        .collect();
    let weight = |effect: &EffectReport| effect.total_order.unwrap_or(effect.share_of_variance);
    sort_few(&mut list, |a, b| weight(b).total_cmp(&weight(a)).then(a.input.cmp(&b.input)));
    list
}

/// Mean response at each listed value, level of a matrix or tenth of a range.
fn levels(
    input: &super::input::InputRange,
    inputs: &[Vec<InputValue>],
    values: &[Option<f64>],
    k: usize,
) -> Vec<EffectLevelReport> {
    let mut groups: Vec<(InputValue, Vec<f64>)> = Vec::new();
    let whole = input.name.kind() == super::input::InputKind::Whole;
    for (case, value) in inputs.iter().zip(values) {
        let Some(value) = value else { continue };
        let key = match (&case[k], input.low, input.high) {
            (InputValue::Number(number), Some(low), Some(high)) if input.levels.is_none() && !whole => {
                let share = ((number - low) / (high - low) * LEVELS as f64).floor().clamp(0.0, (LEVELS - 1) as f64);
                InputValue::Number(low + (share + 0.5) / LEVELS as f64 * (high - low))
            }
            (other, ..) => other.clone(),
        };
        match groups.iter_mut().find(|group| group.0 == key) {
            Some(group) => group.1.push(*value),
            None => groups.push((key, vec![*value])),
        }
    }
    sort_few(&mut groups, |a, b| match (&a.0, &b.0) {
        (InputValue::Number(a), InputValue::Number(b)) => a.total_cmp(b),
        (InputValue::Word(a), InputValue::Word(b)) => a.cmp(b),
        (InputValue::Number(_), _) => core::cmp::Ordering::Less,
        _ => core::cmp::Ordering::Greater,
    });
    groups
        .into_iter()
        .map(|(at, list)| EffectLevelReport {
            at: match at {
                InputValue::Number(number) => crate::job::Quantity::Number(number),
                InputValue::Word(word) => crate::job::Quantity::Word(word),
            },
            mean: mean(&list).unwrap_or(0.0),
            cases: list.len(),
        })
        .collect()
}

/// Sobol's indices of first and of total order from Saltelli's blocks: each input's own share of the variance (Saltelli et
/// al. 2010, Comput. Phys. Commun. 181, 259) and its share with all that it does together with others (Jansen 1999).
///
/// Blocks with a case that gave no answer are left out. `None` where nothing varies.
pub fn first_and_total(inputs: usize, values: &[Option<f64>]) -> Option<(Vec<f64>, Vec<f64>)> {
    let blocks: Vec<Vec<f64>> = values
        .chunks_exact(inputs + 2)
        .filter_map(|block| block.iter().copied().collect::<Option<Vec<f64>>>())
        .collect();
    let both: Vec<f64> = blocks.iter().flat_map(|block| [block[0], block[1]]).collect();
    let middle = mean(&both)?;
    let whole = variance(&both);
    if !(whole > 0.0 && whole.is_finite()) {
        return None;
    }
    let count = blocks.len() as f64;
    let first = |k: usize| {
        // About the mean, which takes nothing from the estimate and much from its noise.
        let sum: f64 = blocks.iter().map(|b| (b[1] - middle) * (b[2 + k] - b[0])).sum();
        sum / count / whole
    };
    let total = |k: usize| {
        let sum: f64 = blocks.iter().map(|b| (b[0] - b[2 + k]) * (b[0] - b[2 + k])).sum();
        sum / (2.0 * count) / whole
    };
    Some(((0..inputs).map(first).collect(), (0..inputs).map(total).collect()))
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

fn variance(values: &[f64]) -> f64 {
    let Some(mean) = mean(values) else { return 0.0 };
    values.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>() / values.len() as f64
}
