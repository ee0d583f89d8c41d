use serde::{Deserialize, Serialize};

/// How the logarithms of values of a card go together from printer to printer: a print with strong beads has strong layers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Correlation {
    /// Names of the values, as [`Card::visit_values`](super::Card::visit_values) tells them.
    pub of: Vec<String>,
    /// Below the diagonal: the first row is of the second value.
    pub rows: Vec<Vec<f64>>,
}

impl Correlation {
    /// Whether it is a triangle of numbers from -1 to 1 for the names it lists.
    pub(super) fn is_sound(&self) -> bool {
        let sized = self.rows.iter().enumerate().all(|(number, row)| row.len() == number + 1);
        let within = self.rows.iter().flatten().all(|number| (-1.0..=1.0).contains(number));
        sized && within && self.rows.len() + 1 == self.of.len()
    }

    /// Of two values by name; none where one is not listed.
    pub fn between(&self, one: &str, other: &str) -> f64 {
        let number = |name: &str| self.of.iter().position(|known| known == name);
        let (Some(a), Some(b)) = (number(one), number(other)) else { return 0.0 };
        if a == b {
            return 1.0;
        }
        self.rows.get(a.max(b) - 1).and_then(|row| row.get(a.min(b))).copied().unwrap_or(0.0)
    }
}
