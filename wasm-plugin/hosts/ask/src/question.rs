use layload_core::FieldRequest;
use serde::Deserialize;

use crate::Refusal;

/// A question, read from JSON such as `{"question": "walls", "least_mm": 2.0}`. Every entry but `question`, `from_rpm` and
/// `to_rpm` may be left out, and then is as the command line has it without the option of that name.
///
/// `quick` looks at sections alone, which may find a fault and is no answer otherwise; `cells` is how many cells the stress
/// field has.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(tag = "question", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Question {
    /// Will the part last.
    Check {
        /// By sections alone.
        #[serde(default)]
        quick: bool,
        /// Cells of the stress field.
        cells: Option<usize>,
        /// A number for every facet in the JSON, and painted facets.
        #[serde(default)]
        facets: bool,
        /// Painted facets that are not in the JSON.
        #[serde(default)]
        paint: bool,
    },
    /// Which way up to print it.
    Directions {
        /// By sections alone.
        #[serde(default)]
        quick: bool,
        /// Cells of the stress field.
        cells: Option<usize>,
        /// How many directions.
        count: Option<usize>,
    },
    /// Life against speed.
    Sweep {
        /// By sections alone.
        #[serde(default)]
        quick: bool,
        /// Cells of the stress field.
        cells: Option<usize>,
        /// Lowest top speed, rpm.
        from_rpm: f64,
        /// Highest top speed, rpm.
        to_rpm: f64,
        /// How many speeds.
        count: Option<usize>,
    },
    /// Which walls are too thin.
    Walls {
        /// Flag walls thinner than this too, mm.
        least_mm: Option<f64>,
        /// The thickness of every facet in the JSON.
        #[serde(default)]
        facets: bool,
    },
    /// What changed between two parts; asked of two, by [`compare`](crate::compare).
    Compare {
        /// By sections alone.
        #[serde(default)]
        quick: bool,
        /// Cells of the stress field.
        cells: Option<usize>,
    },
}

impl Question {
    /// Reads a question.
    ///
    /// # Errors
    ///
    /// Where the text is no question.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        serde_json::from_str(text).map_err(|error| Refusal::question(&error.to_string()))
    }
}

/// What is asked of the stress field.
pub(crate) fn field(quick: bool, cells: Option<usize>) -> Result<Option<FieldRequest>, Refusal> {
    match (quick, cells) {
        (true, Some(_)) => Err(Refusal::question("`quick` has no cells")),
        (true, None) => Ok(None),
        (false, cells) => Ok(Some(FieldRequest { cells: cells.unwrap_or(FieldRequest::USUAL_CELLS) })),
    }
}
