use super::rod::Rod;
use super::thickness::ThicknessFactors;

/// Thickness of a rod along its pins over that of its mesh, without steps: the shank slopes to the thickness of each end
/// beside the edge of its bore.
pub(super) struct Slopes {
    factors: ThicknessFactors,
    /// Where each slope begins and ends, m from the small end's centre.
    small_end: [f64; 2],
    big_end: [f64; 2],
}

/// Length of a slope over its rise: a turn of the surface that makes no notch worth the name.
const GENTLE: f64 = 3.0;

/// A slope takes at most this share of the shank.
const LONGEST: f64 = 0.3;

impl Slopes {
    pub(super) fn of(rod: &Rod, factors: &ThicknessFactors) -> Self {
        let (from, to) = (rod.small_end.radius(), rod.center_distance - rod.big_end.radius());
        let longest = LONGEST * (to - from).max(0.0);
        let length = |of_end: f64, depth: f64| (GENTLE * (of_end - factors.shank).abs() * depth / 2.0).min(longest);
        let small = length(factors.small_end, rod.small_end.depth());
        let big = length(factors.big_end, rod.big_end.depth());
        Self { factors: *factors, small_end: [from, from + small], big_end: [to - big, to] }
    }

    /// Places where the thickness has a bend, m.
    pub(super) fn ends(&self) -> Vec<f64> {
        let slopes = [self.small_end, self.big_end].into_iter().filter(|[from, to]| to > from);
        slopes.flatten().collect()
    }

    /// The factor at a distance from the small end's centre, m.
    pub(super) fn at(&self, position: f64) -> f64 {
        let ThicknessFactors { small_end, shank, big_end } = self.factors;
        let sloped = |[from, to]: [f64; 2], low: f64, high: f64| {
            if position <= from {
                low
            } else if position >= to {
                high
            } else {
                low + (position - from) / (to - from) * (high - low)
            }
        };
        let [middle, _] = self.big_end;
        if position < middle { sloped(self.small_end, small_end, shank) } else { sloped(self.big_end, shank, big_end) }
    }
}
