use layload_core::Record;
use layload_core::report::{FacetValues, Report};

use super::Written;
use crate::args::ShowArguments;
#[cfg(feature = "host")]
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::html::Inputs;

/// The answer of a check.
pub(crate) struct Checked {
    /// What is printed.
    pub(crate) report: Report,
    /// All that the page, the drawings and the tables show, where one of them is wanted, and what it was asked of.
    pub(crate) record: Option<(Record, Inputs)>,
    /// What the part is painted by.
    pub(crate) facets: Option<FacetValues>,
    /// Whether its first word is printed in colour.
    pub(crate) color: bool,
    /// How much of it is printed in words.
    pub(crate) show: ShowArguments,
}

impl Checked {
    /// A report by itself, to be printed.
    #[cfg(feature = "host")]
    pub(crate) fn alone(report: Report, color: ColorChoice, show: ShowArguments) -> Self {
        Self { report, record: None, facets: None, color: color.enabled(), show }
    }

    /// What a record is written as; nothing where there is none.
    pub(super) fn recorded(
        &self,
        files: impl FnOnce(&Record, &Inputs) -> Result<Vec<Written>, Failure>,
    ) -> Result<Vec<Written>, Failure> {
        self.record.as_ref().map_or(Ok(Vec::new()), |(record, inputs)| files(record, inputs))
    }

    /// What the part is painted as; nothing where no facet has a number.
    pub(super) fn painted(
        &self,
        files: impl FnOnce(&FacetValues) -> Result<Vec<Written>, Failure>,
    ) -> Result<Vec<Written>, Failure> {
        self.facets.as_ref().map_or(Ok(Vec::new()), files)
    }
}
