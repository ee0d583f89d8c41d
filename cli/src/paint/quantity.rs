use super::PaintError;

/// Which end of the scale is the bad one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BadEnd {
    /// Low values are bad, as of wall thickness.
    Low,
    /// High values are bad, as of utilisation.
    High,
}

/// What the painted numbers are and between which values the colours run.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    title: String,
    unit: String,
    low: f64,
    high: f64,
    limit: Option<f64>,
    bad_end: BadEnd,
}

/// Longest title, characters: one line of the legend.
const LONGEST_TITLE: usize = 60;

/// Longest unit, characters.
const LONGEST_UNIT: usize = 12;

/// Greatest end of a scale whose numbers still fit under the legend.
const GREATEST: f64 = 1e6;

/// Shortest scale.
const SHORTEST: f64 = 1e-6;

/// Shortest share of the greater end: closer ends differ only in digits nobody reads.
const SHORTEST_SHARE: f64 = 1e-4;

impl Quantity {
    /// A quantity such as "wall thickness" in "mm"; the unit is empty for a plain ratio. A limit must be on the scale.
    pub fn new(
        title: &str,
        unit: &str,
        [low, high]: [f64; 2],
        limit: Option<f64>,
        bad_end: BadEnd,
    ) -> Result<Self, PaintError> {
        name("title", title, LONGEST_TITLE)?;
        name("unit", unit, LONGEST_UNIT)?;
        if title.trim().is_empty() {
            return Err(PaintError::BadName { what: "title", fault: "empty" });
        }
        let greatest = low.abs().max(high.abs());
        // Put so that an end that is not a number is refused; infinite ones are too great.
        if !(greatest <= GREATEST && high - low >= SHORTEST.max(SHORTEST_SHARE * greatest)) {
            return Err(PaintError::BadRange { low, high });
        }
        if let Some(limit) = limit.filter(|limit| !(low..=high).contains(limit)) {
            return Err(PaintError::LimitOffScale { limit, low, high });
        }
        Ok(Self { title: title.trim().into(), unit: unit.trim().into(), low, high, limit, bad_end })
    }

    /// What is painted.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Unit, empty for a plain ratio.
    pub fn unit(&self) -> &str {
        &self.unit
    }

    /// Low end of the scale.
    pub fn low(&self) -> f64 {
        self.low
    }

    /// High end of the scale.
    pub fn high(&self) -> f64 {
        self.high
    }

    /// Value marked on the scale.
    pub fn limit(&self) -> Option<f64> {
        self.limit
    }

    /// The bad end.
    pub fn bad_end(&self) -> BadEnd {
        self.bad_end
    }

    /// Where a value is on the scale: 0 at the low end and below, 1 at the high end and above.
    pub fn share(&self, value: f64) -> f64 {
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }
}

fn name(what: &'static str, text: &str, longest: usize) -> Result<(), PaintError> {
    // Control characters would end a header line; these and the two others may not stand in XML.
    if text.chars().any(|c| c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{fffe}' | '\u{ffff}')) {
        return Err(PaintError::BadName { what, fault: "not one line of plain characters" });
    }
    if text.chars().count() > longest {
        return Err(PaintError::BadName { what, fault: "too long" });
    }
    Ok(())
}
