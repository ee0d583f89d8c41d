use std::sync::Arc;

/// How stiff material is along x, over its stiffness elsewhere: warmth softens a crown from one side.
///
/// Linear between the places given and even beyond them; none given is 1 everywhere.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Softness {
    table: Arc<[(f64, f64)]>,
}

/// A stiffness of nothing would leave cells without a place; rubber has about so much left.
const LEAST: f64 = 1e-4;

impl Softness {
    /// From places along x in rising order, m, and the share of stiffness at each.
    pub fn new(table: impl IntoIterator<Item = (f64, f64)>) -> Self {
        Self { table: table.into_iter().map(|(x, share)| (x, share.max(LEAST))).collect() }
    }

    /// The share at a place, m.
    pub(super) fn at(&self, x: f64) -> f64 {
        let after = self.table.partition_point(|&(place, _)| place <= x);
        match (after.checked_sub(1).map(|k| self.table[k]), self.table.get(after)) {
            (Some((from, low)), Some(&(to, high))) => low + (x - from) / (to - from) * (high - low),
            (Some((_, end)), None) | (None, Some(&(_, end))) => end,
            (None, None) => 1.0,
        }
    }
}
