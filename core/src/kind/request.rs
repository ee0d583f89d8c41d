use crate::Error;
use crate::report::{FacetValues, Report};
use crate::verdict::field::FieldRequest;

/// What a check is asked beside the answer itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CheckRequest {
    /// For every facet its stress over what is borne there for the wanted life; of a piston by the stress field alone.
    pub facets: bool,
    /// The stress field. Where it finds less margin than the sections do, it counts. `None` looks at sections alone, which
    /// may find a fault and never say that a part holds.
    pub field: Option<FieldRequest>,
}

impl Default for CheckRequest {
    fn default() -> Self {
        Self { facets: false, field: Some(FieldRequest::default()) }
    }
}

impl CheckRequest {
    /// A look at sections alone.
    pub const QUICK: Self = Self { facets: false, field: None };
}

/// The answer to a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// The report.
    pub report: Report,
    /// One number for every facet, if they were asked for.
    pub facets: Option<FacetValues>,
}

/// Top speeds of the duty, evenly spaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedRange {
    from_rpm: f64,
    to_rpm: f64,
    count: usize,
}

impl SpeedRange {
    /// Speeds unless said otherwise.
    pub const USUAL_COUNT: usize = 25;

    /// Fewest and most speeds.
    pub const COUNTS: (usize, usize) = (2, 1000);

    /// From the lowest and the highest speed, rpm, both included, and how many there are.
    ///
    /// # Errors
    ///
    /// Where the count is out of [`SpeedRange::COUNTS`], or the speeds do not rise from above zero.
    ///
    /// ```
    /// use layload_core::SpeedRange;
    ///
    /// assert!(SpeedRange::new(1000.0, 8000.0, 15).is_ok());
    /// assert!(SpeedRange::new(8000.0, 1000.0, 15).is_err());
    /// ```
    pub fn new(from_rpm: f64, to_rpm: f64, count: usize) -> Result<Self, Error> {
        let (low, high) = Self::COUNTS;
        if !(low..=high).contains(&count) {
            return Err(Error::SpeedCount { count, low, high });
        }
        if !(from_rpm > 0.0 && to_rpm > from_rpm && to_rpm <= 1e5) {
            return Err(Error::SpeedRange { from_rpm, to_rpm });
        }
        Ok(Self { from_rpm, to_rpm, count })
    }

    /// How many speeds there are.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Speed by its number, rpm.
    pub fn at(&self, number: usize) -> f64 {
        self.from_rpm + (self.to_rpm - self.from_rpm) * number as f64 / (self.count - 1) as f64
    }
}
