use libm::log2;

use super::cause::Cause;
use super::look::Look;
use super::signs::chance;

/// The look that tells the two likeliest causes apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextLook {
    /// What to look for.
    pub look: Look,
    /// What it tells on average of which of the two it is, bits; 1 would settle it where both are as likely.
    pub bits: f64,
    /// How much likelier the first of the two is where it is there, and where it is not: factors on its odds.
    pub odds: [f64; 2],
}

/// Of all looks that were not told the one that tells most of which of the two likeliest causes it is; none where there are no two
/// or none tells anything.
pub fn next_look(causes: &[Cause], told: &[Look]) -> Option<NextLook> {
    let (first, second) = (causes.first()?, causes.get(1)?);
    let sum = first.probability + second.probability;
    if sum <= 0.0 {
        return None;
    }
    let share = first.probability / sum;
    let mut best: Option<NextLook> = None;
    for look in Look::ALL.into_iter().filter(|look| !told.contains(look)) {
        let (a, b) = (chance(look, first.mode), chance(look, second.mode));
        let seen = share * a + (1.0 - share) * b;
        let bits = entropy(seen) - share * entropy(a) - (1.0 - share) * entropy(b);
        if best.is_none_or(|best| bits > best.bits) {
            best = Some(NextLook { look, bits, odds: [a / b, (1.0 - a) / (1.0 - b)] });
        }
    }
    best.filter(|best| best.bits > 1e-4)
}

/// Of a look that is there in a share of cases, bits.
fn entropy(share: f64) -> f64 {
    let part = |share: f64| if share > 0.0 { -share * log2(share) } else { 0.0 };
    part(share) + part(1.0 - share)
}
