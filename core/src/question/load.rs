use std::sync::Arc;

use crate::Error;
use crate::job::{Job, given_part};
use crate::kind::{Kind, LoadedPart, Question, Stage, Watcher, stage};
use crate::mesh::{Mesh, bodies};
use crate::part::{Part, Rod, find_part};
use crate::rod::PreparedRod;
use crate::units::fitting_units;

/// Where a question takes its part from.
#[derive(Debug, Clone, Copy)]
pub enum PartSource<'a> {
    /// Bytes of an STL file.
    Stl(&'a [u8]),
    /// A part that was read before; what the job says of recognition no longer counts.
    Loaded(&'a LoadedPart),
}

impl<'a> From<&'a [u8]> for PartSource<'a> {
    fn from(stl: &'a [u8]) -> Self {
        Self::Stl(stl)
    }
}

impl<'a> From<&'a Vec<u8>> for PartSource<'a> {
    fn from(stl: &'a Vec<u8>) -> Self {
        Self::Stl(stl)
    }
}

impl<'a> From<&'a LoadedPart> for PartSource<'a> {
    fn from(part: &'a LoadedPart) -> Self {
        Self::Loaded(part)
    }
}

impl PartSource<'_> {
    /// Reads the part unless that was done before.
    pub(crate) fn part(self, job: &Job, watcher: &mut dyn Watcher) -> Result<LoadedPart, Error> {
        match self {
            Self::Stl(stl) => load(stl, job, watcher),
            Self::Loaded(part) => Ok(part.clone()),
        }
    }
}

/// Reads the mesh and finds the part in it; of the job only what it says of the part counts.
///
/// # Errors
///
/// Where the bytes are no STL, the surface is not closed, no part or several are found in it, or its length fits another unit.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{PartKind, Question, load};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let loaded = load(&stl, &job, &mut ())?;
/// assert_eq!(loaded.part.kind(), PartKind::ConnectingRod);
/// // Read once, it answers many questions.
/// assert!(layload_core::check(&loaded, &question, &mut ())?.verdict.margin > 0.0);
/// # Ok(())
/// # }
/// ```
pub fn load(stl: &[u8], job: &Job, watcher: &mut dyn Watcher) -> Result<LoadedPart, Error> {
    stage(watcher, Stage::Reading)?;
    let unit = job.part.mesh_unit.unwrap_or_default();
    let (mesh, mended) = Mesh::from_stl(stl, unit)?;
    let (low, high) = mesh.bounds();
    let size = high - low;
    if job.part.mesh_unit.is_none() {
        let length_mm = mesh.length() * 1e3;
        let fitting = fitting_units(length_mm);
        if !fitting.contains(&unit) {
            return Err(Error::LikelyUnit { length_mm, fitting });
        }
    }
    let bodies = bodies(mesh)?;
    stage(watcher, Stage::Recognising)?;
    let part = of_kind(find_part(bodies, &given_part(job)?)?);
    Ok(LoadedPart { mended, unit, size, part })
}

/// What answers for a recognised part: the one place where the kinds are told apart.
pub fn of_kind(part: Part) -> Arc<dyn Kind> {
    match part {
        Part::Rod(rod) => rod,
        Part::Piston(piston) => piston,
    }
}

/// Reads the mesh and recognises the rod; another part is refused.
pub fn prepare<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<PreparedRod, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let rod = loaded.recognised::<Rod>().ok_or(Error::RodsOnly)?;
    PreparedRod::new(rod, &loaded, question)
}
