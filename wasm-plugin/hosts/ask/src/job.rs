use layload_core::Question;
use layload_core::job::{Job as Said, JobError};

use crate::Refusal;

/// What the engine does and how the part is printed, with the texts of the files that it names.
#[derive(Debug, Clone, Default)]
pub struct Job {
    said: Said,
    card: Option<String>,
    pressure: Option<String>,
}

/// What a file that a job names is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A material card, `material.card_file`.
    Card,
    /// Measured pressure, `engine.gas.pressure_table`.
    PressureTable,
}

impl Purpose {
    /// The purpose in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Card => "material-card",
            Self::PressureTable => "pressure-table",
        }
    }
}

/// A file that a job names and that the host has to read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedFile {
    /// Its name, beside the job file.
    pub name: String,
    /// What it is for.
    pub purpose: Purpose,
}

impl Job {
    /// Reads a job file (TOML).
    ///
    /// # Errors
    ///
    /// Where the text is no TOML or has a key that jobs do not have.
    pub fn from_text(text: &str) -> Result<Self, Refusal> {
        Ok(Self { said: Said::from_toml(text)?, ..Self::default() })
    }

    /// Reads a job from JSON with the keys of a job file: `{"engine": {"stroke_mm": 46.0}}`.
    ///
    /// # Errors
    ///
    /// Where the text is no such JSON or has a key that jobs do not have.
    pub fn from_json(text: &str) -> Result<Self, Refusal> {
        let tables: toml::Table = serde_json::from_str(text).map_err(|error| Refusal::job_json(&error.to_string()))?;
        let text = toml::to_string(&tables).map_err(|error| Refusal::job_json(&error.to_string()))?;
        Self::from_text(&text)
    }

    /// Writes a job file that reads back as this job.
    ///
    /// # Errors
    ///
    /// Where a number is not finite.
    pub fn to_text(&self) -> Result<String, Refusal> {
        Ok(self.said.to_toml()?)
    }

    /// What is said under a key such as `print.walls`, in the words of a job file.
    ///
    /// # Errors
    ///
    /// Where the job cannot be written.
    pub fn key(&self, name: &str) -> Result<Option<String>, Refusal> {
        Ok(self.said.key(name)?)
    }

    /// Sets what is said under a key, in the words of a job file (`2`, `"ball"`), or takes it out.
    ///
    /// # Errors
    ///
    /// Where jobs have no such key, or it takes another kind of value.
    pub fn set_key(&mut self, name: &str, value: Option<&str>) -> Result<(), Refusal> {
        Ok(self.said.set_key(name, value)?)
    }

    /// Files that the job names and that were not attached yet.
    pub fn missing_files(&self) -> Vec<NamedFile> {
        let missing = |name: &Option<String>, text: &Option<String>, purpose: Purpose| {
            name.clone().filter(|_| text.is_none()).map(|name| NamedFile { name, purpose })
        };
        let card = missing(&self.said.material.card_file, &self.card, Purpose::Card);
        let pressure = missing(&self.said.engine.gas.pressure_table, &self.pressure, Purpose::PressureTable);
        card.into_iter().chain(pressure).collect()
    }

    /// Gives the text of a file; of a file that the job does not name too, in place of a material's name or a stated peak
    /// pressure.
    pub fn attach(&mut self, purpose: Purpose, text: String) {
        let Said { material, engine, .. } = &mut self.said;
        match purpose {
            Purpose::Card => {
                material.name = None;
                material.card_file.get_or_insert_with(|| "card.toml".into());
                self.card = Some(text);
            }
            Purpose::PressureTable => {
                engine.gas.peak_pressure_bar = None;
                engine.gas.pressure_table.get_or_insert_with(|| "pressure.csv".into());
                self.pressure = Some(text);
            }
        }
    }

    pub(crate) fn said(&self) -> &Said {
        &self.said
    }

    pub(crate) fn question(&self) -> Question<'_> {
        Question { job: &self.said, card_text: self.card.as_deref(), pressure_text: self.pressure.as_deref() }
    }
}

impl From<JobError> for Refusal {
    fn from(error: JobError) -> Self {
        layload_core::Error::from(error).into()
    }
}
