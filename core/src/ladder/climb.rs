use libm::log2;

use super::band::Band;
use super::believed::Believed;
use super::wear::{Taken, Wear};

/// By what rules a ladder is climbed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rules {
    /// Level that is the duty itself.
    pub duty: usize,
    /// The highest level: above the duty, a part that has lived the wanted life is run on to learn how much is left in it.
    pub top: usize,
    /// Length of a step, s.
    pub step: f64,
    /// Running time at the duty that is wanted, s.
    pub wanted: f64,
    /// Margin at the duty as the model has it.
    pub margin: f64,
    /// Power of strength with which life rises there.
    pub exponent: f64,
}

/// The first step is one that at most this share of parts does not survive.
pub const FIRST: f64 = 1e-3;

/// What a step costs beside the part that it may break, in parts: an hour of running, cooling and looking (common practice).
const COST: f64 = 0.05;

/// No more steps than this, however short they are.
const STEPS: usize = 14;

/// Steps that are kept for levels above the duty.
const BEYOND: usize = 4;

/// Levels ahead that a step may go to.
const AHEAD: usize = 3;

/// One step of a ladder.
#[derive(Debug, Clone, PartialEq)]
pub struct LadderStep {
    /// Level and time.
    pub taken: Taken,
    /// Share of parts that came so far and that it breaks.
    pub breaks: f64,
    /// Share of all parts that come through it.
    pub reached: f64,
    /// Whether it is above the duty, only to learn.
    pub beyond: bool,
    /// What it teaches on average, bits.
    pub bits: f64,
    /// The margin at the duty where it is survived.
    pub survived: Band,
    /// The margin where it breaks the part.
    pub broken: Band,
}

/// A ladder from what is believed.
#[derive(Debug, Clone, PartialEq)]
pub struct Climb {
    /// Its steps, in order.
    pub steps: Vec<LadderStep>,
    /// Whether it ends with the wanted life at the duty.
    pub reaches: bool,
}

/// A part under way: what it ran, and for each pair that is believed the share of parts that live through that.
struct Way {
    run: Vec<Taken>,
    left: Vec<f64>,
}

impl Way {
    /// The level that it is at.
    fn last(&self) -> usize {
        self.run.last().map_or(0, |taken| taken.level)
    }
}

impl Climb {
    /// Whether the first step is one that 999 of 1000 parts live through; else it is the lowest level there is.
    pub fn starts_low_enough(&self) -> bool {
        self.steps.first().is_some_and(|first| first.breaks <= FIRST)
    }

    /// How many steps come before those above the duty.
    pub fn to_the_life(&self, rules: &Rules) -> usize {
        self.steps.iter().take_while(|step| step.taken.level <= rules.duty).count()
    }

    /// The ladder of a part: it starts at the highest level that 999 of 1000 parts live through, and takes the step that teaches
    /// most for what it costs, parts broken above all, until the wanted life at the duty is reached; then on above the duty.
    pub fn plan(wear: &Wear, believed: &Believed, rules: &Rules) -> Self {
        let mut climb = Self { steps: Vec::new(), reaches: false };
        let mut way = Way { run: Vec::new(), left: vec![1.0; believed.len()] };
        let at = |level: usize| {
            let taken = Taken { level, seconds: rules.step };
            (taken, wear.survive(&[taken], believed))
        };
        let lives = |left: &[f64]| 1.0 - believed.mean(|index| left[index]) <= FIRST;
        let first = (0..=rules.duty).rev().map(at).find(|(_, left)| lives(left));
        let (taken, left) = first.unwrap_or_else(|| at(0));
        climb.add(&mut way, taken, left, believed, rules);
        while climb.steps.len() < STEPS && !(climb.reaches && way.last() >= rules.top) {
            let steps = if climb.reaches {
                usize::MAX
            } else {
                STEPS.saturating_sub(BEYOND.min(rules.top - rules.duty) + climb.steps.len())
            };
            let Some((taken, left)) = next(wear, believed, rules, &way, steps) else { break };
            climb.add(&mut way, taken, left, believed, rules);
        }
        climb
    }

    fn add(&mut self, way: &mut Way, taken: Taken, left: Vec<f64>, believed: &Believed, rules: &Rules) {
        let (before, after) = (believed.mean(|index| way.left[index]), believed.mean(|index| left[index]));
        let margin = |known: &Believed| known.margin(rules.margin, rules.exponent);
        self.steps.push(LadderStep {
            taken,
            breaks: 1.0 - after / before.max(1e-300),
            reached: after,
            beyond: taken.level > rules.duty,
            bits: bits(believed, &way.left, &left),
            survived: margin(&believed.knowing(|index| left[index])),
            broken: margin(&believed.knowing(|index| way.left[index] - left[index])),
        });
        way.run.push(taken);
        way.left = left;
        self.reaches = at_duty(&way.run, rules) >= rules.wanted * (1.0 - 1e-9);
    }

    /// What is believed after a part that broke in a step, counted from 0, or that came through all of them.
    pub fn after(&self, wear: &Wear, believed: &Believed, broke: Option<usize>) -> Believed {
        let run: Vec<Taken> = self.steps.iter().map(|step| step.taken).collect();
        let left =
            |count: usize| if count == 0 { vec![1.0; believed.len()] } else { wear.survive(&run[..count], believed) };
        match broke {
            None => {
                let left = left(run.len());
                believed.knowing(|index| left[index])
            }
            Some(step) => {
                let (before, after) = (left(step.min(run.len())), left((step + 1).min(run.len())));
                believed.knowing(|index| before[index] - after[index])
            }
        }
    }
}

/// Running time at the duty, s.
fn at_duty(run: &[Taken], rules: &Rules) -> f64 {
    run.iter().filter(|taken| taken.level == rules.duty).map(|taken| taken.seconds).sum()
}

/// The next step: of all levels from the last one on the one that teaches most for what it costs; at the duty also what is left to
/// the wanted life, in one half or whole. The last steps go on to the wanted life.
fn next(wear: &Wear, believed: &Believed, rules: &Rules, way: &Way, steps: usize) -> Option<(Taken, Vec<f64>)> {
    let last = way.last();
    let rest = (rules.wanted - at_duty(&way.run, rules)).max(0.0);
    let reached = rest <= 1e-9 * rules.wanted;
    let highest = if reached { rules.top } else { rules.duty };
    let mut choices: Vec<Taken> = (last + 1..=highest.min(last + AHEAD))
        .map(|level| Taken { level, seconds: rules.step.min(rules.wanted) })
        .collect();
    if last >= rules.duty && !reached {
        for seconds in [rules.step, 0.5 * rest, rest] {
            choices.push(Taken { level: rules.duty, seconds: seconds.min(rest) });
        }
    }
    // Enough steps are kept to run on to the wanted life.
    if steps <= 1 && !reached {
        choices = vec![Taken { level: rules.duty, seconds: rest }];
    }
    let before = believed.mean(|index| way.left[index]);
    let mut best: Option<(f64, Taken, Vec<f64>)> = None;
    for taken in choices.into_iter().filter(|taken| taken.seconds > 0.0) {
        let run: Vec<Taken> = way.run.iter().copied().chain([taken]).collect();
        let left = wear.survive(&run, believed);
        let breaks = 1.0 - believed.mean(|index| left[index]) / before.max(1e-300);
        let worth = bits(believed, &way.left, &left) / (breaks + COST);
        if best.as_ref().is_none_or(|(most, ..)| worth > *most) {
            best = Some((worth, taken, left));
        }
    }
    best.map(|(_, taken, left)| (taken, left))
}

/// What a step teaches on average of strength and life, bits: the entropy of its outcome less what chance alone makes of it.
fn bits(believed: &Believed, before: &[f64], after: &[f64]) -> f64 {
    let so_far = believed.mean(|index| before[index]).max(1e-300);
    let through = |index: usize| if before[index] > 0.0 { (after[index] / before[index]).clamp(0.0, 1.0) } else { 0.0 };
    let chance = believed.mean(|index| before[index] * through(index)) / so_far;
    let by_chance = believed.mean(|index| before[index] * entropy(through(index))) / so_far;
    (entropy(chance) - by_chance).max(0.0)
}

fn entropy(share: f64) -> f64 {
    let part = |share: f64| if share > 0.0 { -share * log2(share) } else { 0.0 };
    part(share) + part(1.0 - share)
}
