use layload_core::{LoadedPart, Triangles, load, load_triangles};

use crate::progress::{Plan, Progress, Shares};
use crate::{Job, Refusal};

/// A part that was read once, for many questions. Of the job only what it says of the part counts when it is read.
#[derive(Debug, Clone)]
pub struct Part(pub(crate) LoadedPart);

impl Part {
    /// Reads an STL, binary or ASCII, and recognises the part.
    ///
    /// # Errors
    ///
    /// Where the bytes are no closed mesh of one part, or `progress` stops the work.
    pub fn from_stl(stl: &[u8], job: &Job, progress: Progress<'_>) -> Result<Self, Refusal> {
        Ok(Self(load(stl, job.said(), &mut Shares::new(Plan::READING, progress))?))
    }

    /// Recognises the part in a surface that the host has in memory.
    ///
    /// # Errors
    ///
    /// As [`Part::from_stl`].
    pub fn from_triangles(triangles: Triangles<'_>, job: &Job, progress: Progress<'_>) -> Result<Self, Refusal> {
        Ok(Self(load_triangles(triangles, job.said(), &mut Shares::new(Plan::READING, progress))?))
    }

    /// What it is: `connecting-rod` or `piston`; the list may grow.
    pub fn kind(&self) -> &'static str {
        self.0.part.kind().word()
    }
}
