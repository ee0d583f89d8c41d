//! The samples and test meshes, each with the job it is checked with.

use layload_core::job::Job;
use layload_core::mesh::{Mended, Mesh, MeshError, bodies};
use layload_core::part::{Frame, GivenPart, PartError, find_part};
use layload_core::{LengthUnit, LoadedPart, Question, of_kind};
use serde_json::Value;

use super::Found;
use crate::mesh::files::{self, number};
use crate::mesh::shapes::Solid;

/// A mesh of the corpus.
pub(super) struct Sample {
    pub(super) name: String,
    /// What `truth.json` says becomes of it.
    pub(super) expected: String,
    /// Its surface as read, corners in metres.
    pub(super) solid: Solid,
    /// Step of the coordinates in its file, m.
    pub(super) step: f64,
}

/// Every mesh that is read, without those that are refused as a mesh.
pub(super) fn samples() -> Found<Vec<Sample>> {
    let truths = files::truths()?;
    let truths = truths.as_object().ok_or("no files")?;
    let read = truths.iter().filter(|(_, truth)| truth["expected"] != "refused");
    read.map(|(name, truth)| sample(name, truth)).collect()
}

/// One of them.
pub(super) fn sample_of(name: &str) -> Found<Sample> {
    sample(name, &files::truths()?[name])
}

fn sample(name: &str, truth: &Value) -> Found<Sample> {
    let unit = [LengthUnit::Inch, LengthUnit::Metre]
        .into_iter()
        .find(|unit| (unit.metres() * 1e3 - number(&truth["file_unit_mm"])).abs() < 1e-9)
        .unwrap_or_default();
    let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, unit)?;
    let solid = Solid { points: mesh.points().to_vec(), facets: mesh.facets().to_vec() };
    let expected = truth["expected"].as_str().unwrap_or_default().into();
    Ok(Sample { name: name.into(), expected, solid, step: mesh.step() })
}

impl Sample {
    /// The job of a part.
    pub(super) fn job(&self) -> Found<Job> {
        let job = match self.name.rsplit('/').next().unwrap_or_default() {
            "split_rod.stl" => "bench_split",
            "bearing_rod.stl" => "bench_bearings",
            "bushed_rod.stl" => "bench_bushed",
            "plate_crown_piston.stl" => "bench_piston_plate",
            name if name.contains("piston") => "bench_piston",
            _ => "bench_single",
        };
        Ok(Job::from_toml(&String::from_utf8(files::bytes(&format!("samples/{job}.toml"))?)?)?)
    }

    pub(super) fn is_part(&self) -> bool {
        ["rod", "rod_after_repair", "piston"].contains(&self.expected.as_str())
    }

    pub(super) fn piston(&self) -> bool {
        self.expected == "piston"
    }
}

/// The part of a solid in metres, its frame, or why there is none.
pub(super) fn part_of(solid: &Solid) -> Result<LoadedPart, PartError> {
    let mesh = solid.mesh().unwrap_or_else(|error| panic!("{error}"));
    recognised(mesh, Mended::default()).unwrap_or_else(|error| panic!("{error}"))
}

/// The same of a mesh that may not be one of solids.
pub(super) fn recognised(mesh: Mesh, mended: Mended) -> Result<Result<LoadedPart, PartError>, MeshError> {
    let (low, high) = mesh.bounds();
    let bodies = bodies(mesh)?;
    let part = find_part(bodies, &GivenPart::default());
    Ok(part.map(|part| LoadedPart { mended, unit: LengthUnit::Metre, size: high - low, part: of_kind(part) }))
}

pub(super) fn frame(part: &LoadedPart) -> Frame {
    *part.part.frame()
}

pub(super) fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}
