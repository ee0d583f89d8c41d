//! Files of a job, and options laid over them.

mod coupons;
mod file;
mod named;
mod overlay;
mod wanted;

use std::path::{Path, PathBuf};

use layload_core::Question;
use layload_core::job::{Job, JobError};
use layload_core::material::{Card, MaterialError};

use crate::args::JobArguments;
use crate::failure::Failure;
use crate::help::words;
use crate::visible::shown;

pub(crate) use coupons::coupon_rows;
pub(crate) use file::{bytes, text};
pub(crate) use named::Neighbours;
pub(crate) use wanted::Wanted;

/// A job with the texts of the files it names.
#[derive(Debug)]
pub(crate) struct ReadJob {
    pub(crate) job: Job,
    /// Text of its card file.
    pub(crate) card: Option<String>,
    /// Text of its pressure table.
    pub(crate) pressure: Option<String>,
    /// Every file that was read for it.
    files: Vec<PathBuf>,
}

impl ReadJob {
    /// Reads the job file and what it names, and lays the options over it.
    pub(crate) fn read(arguments: &JobArguments) -> Result<Self, Failure> {
        Self::read_from(arguments.job.as_deref(), arguments)
    }

    /// The same with another job file.
    pub(crate) fn read_from(file: Option<&Path>, arguments: &JobArguments) -> Result<Self, Failure> {
        let mut job = match file {
            Some(path) => Job::from_toml(&text(path, Wanted::Job)?)?,
            None => Job::default(),
        };
        overlay::overlay(&mut job, arguments);
        let mut read = Self { job, card: None, pressure: None, files: file.map(PathBuf::from).into_iter().collect() };
        if let Some(path) = &arguments.card {
            read.card = Some(text(path, Wanted::Card)?);
            read.files.push(path.clone());
        }
        read.with_neighbours(&Neighbours::of(file.unwrap_or(Path::new("")), arguments.any_folder))
    }

    /// A job file by itself, without options, that another file names: its lines are not told on.
    pub(crate) fn of_neighbour(neighbours: &Neighbours<'_>, name: &str) -> Result<Self, Failure> {
        let (path, text) = neighbours.text(name, Wanted::Job)?;
        let job = Job::from_toml(&text).map_err(|error| match &error {
            JobError::Format { reason } => untold("the job file", &path, reason, &words(&error.help())),
            _ => error.into(),
        })?;
        let read = Self { job, card: None, pressure: None, files: vec![path.clone()] };
        read.with_neighbours(&neighbours.beside(&path))
    }

    /// Reads the files that the job names.
    fn with_neighbours(mut self, neighbours: &Neighbours<'_>) -> Result<Self, Failure> {
        // Both a family and a card are refused by whoever makes sense of the job.
        if self.card.is_none()
            && self.job.material.name.is_none()
            && let Some(name) = &self.job.material.card_file
        {
            let (path, text) = neighbours.text(name, Wanted::Card)?;
            if let Err(error) = Card::from_toml(&text) {
                return Err(match &error {
                    MaterialError::Format { reason } => {
                        untold("the material card", &path, reason, &words(&error.help()))
                    }
                    _ => JobError::from(error).into(),
                });
            }
            self.card = Some(text);
            self.files.push(path);
        }
        if let Some(name) = &self.job.engine.gas.pressure_table {
            let (path, text) = neighbours.text(name, Wanted::Pressure)?;
            self.pressure = Some(text);
            self.files.push(path);
        }
        if let Some(name) = self.job.history.table.clone() {
            let (path, text) = neighbours.text(&name, Wanted::History)?;
            self.job.history.take(&text).map_err(JobError::from)?;
            self.files.push(path);
        }
        Ok(self)
    }

    /// Every file that was read for it.
    pub(crate) fn files(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().map(PathBuf::as_path)
    }

    /// The question for the core.
    pub(crate) fn question(&self) -> Question<'_> {
        Question { job: &self.job, card_text: self.card.as_deref(), pressure_text: self.pressure.as_deref() }
    }
}

/// That a file which another one names cannot be read, by its place alone: whoever wrote the name may not be who may read
/// the file.
fn untold(what: &str, path: &Path, reason: &str, help: &str) -> Failure {
    let place = reason.lines().next().and_then(|line| line.split_once(" at line "));
    let place = place.map_or_else(String::new, |(_, place)| format!(": the fault is at line {place}"));
    Failure::Refused {
        message: format!("{what} {} cannot be read{place}", shown(path)),
        help: format!("{help}; lines of files that another file names are not shown"),
    }
}
