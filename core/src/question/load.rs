use std::sync::Arc;

use crate::Error;
use crate::job::{Job, given_part};
use crate::kind::{Kind, LoadedPart, Question, Stage, Watcher, stage};
use crate::mesh::{Mended, Mesh, MeshError, Triangles, bodies};
use crate::part::{AnyPart, Part, PartWord, Rod, find_part, fitting_units};
use crate::rod::PreparedRod;
use crate::units::LengthUnit;

/// Where a question takes its part from.
#[derive(Debug, Clone, Copy)]
pub enum PartSource<'a> {
    /// Bytes of an STL file.
    Stl(&'a [u8]),
    /// Points and triangles of a program, in the unit that the job says.
    Triangles(Triangles<'a>),
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

impl<'a> From<Triangles<'a>> for PartSource<'a> {
    fn from(triangles: Triangles<'a>) -> Self {
        Self::Triangles(triangles)
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
            Self::Triangles(triangles) => load_triangles(triangles, job, watcher),
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
    loaded(|unit| Mesh::from_stl(stl, unit), job, watcher)
}

/// Finds the part in a surface that a program has in memory. The same points as in an STL give the same part.
///
/// # Errors
///
/// As [`load`], and where a triangle names a point that is not there.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Triangles, load_triangles};
///
/// let points = [[0.0, 0.0, 0.0], [20.0, 0.0, 0.0], [0.0, 20.0, 0.0]];
/// let triangles = Triangles { points: &points, corners: &[[0, 1, 3]] };
/// let refused = load_triangles(triangles, &Job::default(), &mut ()).unwrap_err();
/// assert_eq!(refused.code(), "mesh-no-such-point");
/// ```
pub fn load_triangles(triangles: Triangles<'_>, job: &Job, watcher: &mut dyn Watcher) -> Result<LoadedPart, Error> {
    loaded(|unit| Mesh::from_numbered(triangles, unit), job, watcher)
}

fn loaded(
    read: impl FnOnce(LengthUnit) -> Result<(Mesh, Mended), MeshError>,
    job: &Job,
    watcher: &mut dyn Watcher,
) -> Result<LoadedPart, Error> {
    stage(watcher, Stage::Reading)?;
    let unit = job.part.mesh_unit.unwrap_or_default();
    let (mesh, mended) = read(unit)?;
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

/// Reads a part as one of any kind, whatever the job says that it is.
pub(super) fn load_as_any(source: PartSource<'_>, job: &Job, watcher: &mut dyn Watcher) -> Result<Arc<AnyPart>, Error> {
    let mut job = job.clone();
    job.part.kind = Some(PartWord::Any);
    source.part(&job, watcher)?.recognised::<AnyPart>().ok_or(Error::RodsOnly)
}

/// What answers for a recognised part: the one place where the kinds are told apart.
pub fn of_kind(part: Part) -> Arc<dyn Kind> {
    match part {
        Part::Rod(rod) => rod,
        Part::Piston(piston) => piston,
        Part::Any(part) => part,
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
