use serde::{Deserialize, Serialize};

use super::error::StudyError;
use super::input::{InputName, InputRange, InputValue};
use super::sample::{latin, sobol};
use crate::input::from_toml;
use crate::verdict::FieldRequest;

/// How inputs are sampled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sampling {
    /// Every level of every input with every other.
    Matrix,
    /// Latin hypercube: every input even over its range, combined by chance (`McKay`, Beckman & Conover 1979).
    #[default]
    LatinHypercube,
    /// Sobol's sequence, scrambled (Sobol 1967; Owen 1995), in Saltelli's blocks, for Sobol's indices.
    Sobol,
}

/// A study file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyPlan {
    /// A name for the report.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Job file, from the folder of the study file.
    pub job: String,
    /// STL files likewise; several are varied as an input of their own.
    pub meshes: Vec<String>,
    /// How inputs are sampled.
    #[serde(default)]
    pub sampling: Sampling,
    /// Cases, except of a matrix; of Sobol's sequence at most so many, in whole blocks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cases: Option<usize>,
    /// Seed of what is drawn by chance.
    #[serde(default)]
    pub seed: u32,
    /// Whether sections alone are asked, without any stress field.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub quick: bool,
    /// Cells of the stress field.
    #[serde(default = "usual_cells")]
    pub cells: usize,
    /// Every so many cases one is solved by a stress field of its own, and shows how far off the others are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solved_every: Option<usize>,
    /// What varies.
    pub inputs: Vec<InputRange>,
}

fn usual_cells() -> usize {
    FieldRequest::USUAL_CELLS
}

/// One case in so many is solved unless the plan says otherwise, and at most so many: a field takes seconds.
const SOLVED: (usize, usize) = (10, 24);

/// Fewest and most cases of a study; the sequence of Sobol that is used ends after 65 536 rows.
const CASES: (usize, usize) = (2, 2_000_000);

/// Rows of Sobol's sequence that are used at most.
const ROWS: usize = 65_536;

impl StudyPlan {
    /// Reads and checks a study file.
    ///
    /// # Errors
    ///
    /// Where the text is no TOML, a key is unknown, or an input has no range.
    ///
    /// ```
    /// use layload_core::study::StudyPlan;
    ///
    /// let text = "job = \"a.toml\"\nmeshes = [\"a.stl\"]\nsampling = \"matrix\"\n[[inputs]]\nname = \"rpm\"\nvalues = [1.0, 2.0]";
    /// assert_eq!(StudyPlan::from_toml(text).unwrap().count(), 2);
    /// ```
    pub fn from_toml(text: &str) -> Result<Self, StudyError> {
        let mut plan: Self = from_toml(text).map_err(|reason| StudyError::Format { reason })?;
        if plan.meshes.is_empty() {
            return Err(StudyError::NoMeshes);
        }
        if plan.meshes.len() > 1 && plan.inputs.iter().all(|input| input.name != InputName::Mesh) {
            plan.inputs.push(InputRange {
                name: InputName::Mesh,
                low: None,
                high: None,
                levels: None,
                values: Vec::new(),
                words: plan.meshes.clone(),
            });
        }
        if plan.inputs.is_empty() {
            return Err(StudyError::NoInputs);
        }
        for (k, input) in plan.inputs.iter().enumerate() {
            input.check()?;
            if plan.inputs[..k].iter().any(|other| other.name == input.name) {
                return Err(StudyError::Twice { name: input.name.word() });
            }
            let unknown = |word: &String| !plan.meshes.contains(word);
            if input.name == InputName::Mesh && input.words.iter().any(unknown) {
                return Err(StudyError::Input { name: "mesh", wrong: "names a file that meshes does not" });
            }
        }
        if plan.solved_every == Some(0) {
            return Err(StudyError::SolvedEvery);
        }
        let count = plan.count();
        if !(CASES.0..=CASES.1).contains(&count) || (plan.sampling == Sampling::Sobol && plan.rows() > ROWS) {
            return Err(StudyError::Cases { count, least: CASES.0, most: CASES.1.min(ROWS * plan.block()) });
        }
        Ok(plan)
    }

    /// Cases.
    pub fn count(&self) -> usize {
        match self.sampling {
            Sampling::Matrix => self.inputs.iter().fold(1, |count: usize, input| count.saturating_mul(input.levels())),
            Sampling::LatinHypercube => self.cases.unwrap_or(1000),
            Sampling::Sobol => self.rows() * self.block(),
        }
    }

    /// Cases of one of Saltelli's blocks: two independent rows, and for each input the first with that input of the second.
    pub(super) fn block(&self) -> usize {
        self.inputs.len() + 2
    }

    fn rows(&self) -> usize {
        self.cases.unwrap_or(1000) / self.block()
    }

    /// What is asked of the stress field; nothing where sections alone are.
    pub fn field(&self) -> Option<FieldRequest> {
        (!self.quick).then_some(FieldRequest { cells: self.cells })
    }

    /// Whether a case is solved by a stress field of its own.
    pub fn solves(&self, case: usize) -> bool {
        let usual = || SOLVED.0.max(self.count().div_ceil(SOLVED.1));
        !self.quick && case.is_multiple_of(self.solved_every.unwrap_or_else(usual))
    }

    /// Inputs of a case by its number, from 0; the same whoever asks and in whatever order.
    pub fn case(&self, number: usize) -> Vec<InputValue> {
        let inputs = self.inputs.iter().enumerate();
        match self.sampling {
            Sampling::Matrix => {
                let mut rest = number;
                let mut values: Vec<InputValue> = self
                    .inputs
                    .iter()
                    .rev()
                    .map(|input| {
                        let level = rest % input.levels();
                        rest /= input.levels();
                        input.at_level(level)
                    })
                    .collect();
                values.reverse();
                values
            }
            Sampling::LatinHypercube => {
                let count = self.count();
                inputs.map(|(k, input)| input.at_share(latin(number, count, k, self.seed))).collect()
            }
            Sampling::Sobol => {
                let (row, place) = (number / self.block(), number % self.block());
                let second = |input: usize| place == 1 || place == input + 2;
                inputs
                    .map(|(k, input)| {
                        let dimension = if second(k) { self.inputs.len() + k } else { k };
                        input.at_share(sobol(row, dimension, self.seed))
                    })
                    .collect()
            }
        }
    }
}
