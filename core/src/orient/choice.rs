use super::score::DirectionScore;

/// The recommended direction, with what speaks for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// Its number among the scores.
    pub index: usize,
    /// Number of the direction with the greatest margin.
    pub strongest: usize,
}

/// A direction this close to the greatest margin counts as strong as any: the estimate is not sharper.
const AS_STRONG: f64 = 0.9;

/// What speaks against a direction; less is better in each.
fn costs(score: &DirectionScore) -> [f64; 4] {
    [-score.margin, score.print_time, score.posed.support_area, score.stair_step]
}

/// Which directions no other beats in everything: margin, print time, supported area, steps in the bores.
pub fn pareto(scores: &[DirectionScore]) -> Vec<bool> {
    let all: Vec<[f64; 4]> = scores.iter().map(costs).collect();
    let beats = |a: &[f64; 4], b: &[f64; 4]| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
    all.iter().map(|own| !all.iter().any(|other| beats(other, own))).collect()
}

/// A direction that prints within this factor of the quickest prints as quickly: the estimate is not sharper.
const AS_QUICK: f64 = 1.05;

/// Of the directions as strong as the strongest those that print quickest, supports included; among these the one with
/// the rounder bores, then the one with the larger footing. A part that would tip over on its footing is not recommended
/// while another stands.
///
/// `None` without scores.
pub fn chosen(scores: &[DirectionScore]) -> Option<Choice> {
    let margin = |k: usize| scores[k].margin;
    let first = |best: Option<usize>, k: usize| match best {
        Some(b) if margin(b) >= margin(k) => Some(b),
        _ => Some(k),
    };
    let strongest = (0..scores.len()).fold(None, first)?;
    let strong = |k: &usize| margin(*k) >= AS_STRONG * margin(strongest);
    let stands = |k: &usize| scores[*k].posed.tip_ratio.is_finite();
    let best = |candidates: Vec<usize>| {
        let least = candidates.iter().map(|&k| scores[k].print_time).fold(f64::INFINITY, f64::min);
        candidates.into_iter().filter(|&k| scores[k].print_time <= AS_QUICK * least).min_by(|&a, &b| {
            let (a_score, b_score) = (&scores[a], &scores[b]);
            let order = a_score.stair_step.total_cmp(&b_score.stair_step);
            order.then(b_score.posed.contact_area.total_cmp(&a_score.posed.contact_area)).then(a.cmp(&b))
        })
    };
    let standing = best((0..scores.len()).filter(strong).filter(stands).collect());
    let index = standing.or_else(|| best((0..scores.len()).filter(strong).collect()))?;
    Some(Choice { index, strongest })
}
