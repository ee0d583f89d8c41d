use serde::{Deserialize, Serialize};

use super::source::Source;

/// One number of a material card with where it comes from. The unit is in the name of the field that holds it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// The number.
    pub value: f64,
    /// How well it is founded.
    pub source: Source,
    /// DOI, standard or handbook behind a published value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Standard deviation of its logarithm from one printer to another; the source's usual one where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<f64>,
    /// Share of that variance which rests on memory; by the source where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub memory: Option<f64>,
    /// The published results behind it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub behind: Option<Behind>,
    /// Conditions of the test, or how the number was derived.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// Rows of the evidence base that a value was drawn from.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Behind {
    /// Tests of this family, by their names in `material/evidence`.
    pub rows: Vec<String>,
    /// Number of sources that they come from.
    pub sources: u32,
    /// Rows of data sheets of this family.
    pub sheets: Vec<String>,
    /// Number of rows of all other families.
    pub like: u32,
}

impl Behind {
    /// How many results stand behind the value, in words.
    pub fn told(&self) -> String {
        let own = match (self.rows.len(), self.sources) {
            (0, _) => "no test of this family".into(),
            (1, _) => "1 test of this family".into(),
            (rows, 1) => format!("{rows} tests of this family, 1 source"),
            (rows, sources) => format!("{rows} tests of this family, {sources} sources"),
        };
        let sheets = match self.sheets.len() {
            0 => String::new(),
            1 => ", 1 row of data sheets".into(),
            rows => format!(", {rows} rows of data sheets"),
        };
        format!("{own}{sheets}, {} of other families", self.like)
    }
}

impl Value {
    /// Standard deviation of the logarithm of this number.
    pub fn relative_spread(&self) -> f64 {
        self.spread.unwrap_or_else(|| self.source.usual_spread())
    }

    /// Share of its variance that rests on memory, 0 to 1.
    pub fn memory_share(&self) -> f64 {
        self.memory.unwrap_or(if self.source == Source::Memory { 1.0 } else { 0.0 })
    }

    /// With more spread, all of which rests on memory.
    pub(crate) fn widen(&mut self, more: f64) {
        let (own, more) = (self.relative_spread() * self.relative_spread(), more * more);
        if own + more > 0.0 {
            self.memory = Some((self.memory_share() * own + more) / (own + more));
            self.spread = Some((own + more).sqrt());
        }
    }

    /// What stands behind the number: where it is printed, how many results, or how it was derived.
    pub fn grounds(&self) -> Option<String> {
        let counts = self.behind.as_ref().map(Behind::told);
        match (&self.reference, counts) {
            (Some(reference), Some(counts)) => Some(format!("{reference}; {counts}")),
            (reference, counts) => reference.clone().or(counts).or_else(|| self.note.clone()),
        }
    }
}
