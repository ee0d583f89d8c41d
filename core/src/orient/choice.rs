use super::score::DirectionScore;

/// The recommended direction, with what speaks for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// Its number among the scores.
    pub index: usize,
    /// Number of the direction with the greatest margin among those it was chosen from.
    pub strongest: usize,
    /// Number of the quickest of those as strong as the strongest.
    pub quickest: usize,
}

/// A direction this close to the greatest margin counts as strong as any: the estimate is not sharper.
pub const AS_STRONG: f64 = 0.9;

/// A direction that prints within this factor of the quickest prints as quickly: the estimate is not sharper.
const AS_QUICK: f64 = 1.05;

/// Two margins, times or areas that differ by less than this share are alike.
pub const ALIKE: f64 = 1e-3;

/// What speaks against a direction, in steps below which nothing is told apart; less is better in each.
fn costs(score: &DirectionScore) -> [i64; 4] {
    // In steps of equal ratio; off the round numbers, so that rounding does not decide.
    let steps = |value: f64| (libm::log(value.max(1e-12)) / ALIKE + 0.463).floor() as i64;
    // Support and bore steps are often nothing at all: a square millimetre, a micrometre.
    let level = |value: f64, step: f64| (value / step + 0.463).floor() as i64;
    [
        -steps(score.margin),
        steps(score.print_time),
        level(score.posed.support_area, 1e-6),
        level(score.stair_step, 1e-6),
    ]
}

/// Which of the directions in question no other of them beats in everything: margin, print time, supported area, steps in
/// the bores.
pub fn pareto(scores: &[DirectionScore], in_question: &[bool]) -> Vec<bool> {
    let all: Vec<[i64; 4]> = scores.iter().map(costs).collect();
    let beats = |a: &[i64; 4], b: &[i64; 4]| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
    (0..all.len())
        .map(|own| in_question[own] && !(0..all.len()).any(|k| in_question[k] && beats(&all[k], &all[own])))
        .collect()
}

/// Of the best compromises as strong as the strongest those that print quickest, supports included; among these the one
/// with the rounder bores, then the one with the larger footing, then the first.
///
/// `None` without one.
pub fn chosen(scores: &[DirectionScore], compromises: &[bool]) -> Option<Choice> {
    let all = || (0..scores.len()).filter(|&k| compromises[k]);
    let strongest = all().reduce(|best, k| if scores[k].margin > scores[best].margin { k } else { best })?;
    let strong = || all().filter(|&k| scores[k].margin >= AS_STRONG * scores[strongest].margin);
    let time = |k: usize| scores[k].print_time;
    let quickest = strong().reduce(|best, k| if time(k) < time(best) { k } else { best })?;
    let quick = || strong().filter(|&k| time(k) <= AS_QUICK * time(quickest));
    let index = quick().reduce(|best, k| if better_lying(&scores[k], &scores[best]) { k } else { best })?;
    Some(Choice { index, strongest, quickest })
}

/// Rounder bores, or as round with a larger footing.
fn better_lying(score: &DirectionScore, best: &DirectionScore) -> bool {
    let [own, other] = [score, best].map(|score| costs(score)[3]);
    own < other || own == other && score.posed.contact_area > best.posed.contact_area * (1.0 + ALIKE)
}
