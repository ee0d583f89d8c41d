//! Speed of a whole check and of its stages.
//!
//! Large meshes are made first: `python samples/make_meshes.py --bench target/bench-meshes`. Where they are missing only
//! the committed samples are timed.

#![allow(clippy::unwrap_used, missing_docs)]

use std::path::PathBuf;

use divan::{Bencher, black_box};
use layload_core::LengthUnit;
use layload_core::job::Job;
use layload_core::mesh::{Mesh, bodies};
use layload_core::orient::equal_area;
use layload_core::part::{GivenRod, find_rod};
use layload_core::rod::{HotSpots, Stressing, Temperatures};
use layload_core::section::{planes, sections};
use layload_core::stress::EyeFamily;
use layload_core::wall::{Shells, Surface, area_samples, thickness_all};
use layload_core::{Question, directions, prepare, quick_look};

fn main() {
    divan::main();
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn meshes() -> Vec<PathBuf> {
    ["samples/i_shank_rod.stl", "target/bench-meshes/rod_200k.stl", "target/bench-meshes/rod_1m.stl"]
        .iter()
        .map(|name| root().join(name))
        .filter(|path| path.exists())
        .collect()
}

/// Shows a mesh by its file name in the table of results.
#[derive(Clone)]
struct Named(PathBuf);

impl std::fmt::Display for Named {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{}", self.0.file_stem().unwrap_or_default().to_string_lossy())
    }
}

fn named() -> Vec<Named> {
    meshes().into_iter().map(Named).collect()
}

fn job() -> Job {
    Job::from_toml(&std::fs::read_to_string(root().join("samples/bench_single.toml")).unwrap()).unwrap()
}

#[divan::bench(args = named(), sample_count = 10)]
fn whole_check(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let job = job();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    bencher.bench(|| quick_look(black_box(&bytes), &question, &mut ()).unwrap());
}

/// The same with 10 000 prints drawn by chance and heat followed through one run of a minute from cold.
#[divan::bench(args = named(), sample_count = 10)]
fn whole_check_with_draws_and_transient_heat(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let mut job = job();
    job.duty.run_s = Some(60.0);
    let question = Question { job: &job, card_text: None, pressure_text: None };
    bencher.bench(|| {
        let report = quick_look(black_box(&bytes), &question, &mut ()).unwrap();
        assert_eq!(report.life.draws, 10_000);
        report
    });
}

#[divan::bench(args = named(), sample_count = 10)]
fn read_mesh(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    bencher.bench(|| Mesh::from_stl(black_box(&bytes), LengthUnit::Millimetre).unwrap());
}

#[divan::bench(args = named(), sample_count = 10)]
fn recognise(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let (solid, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).unwrap();
    let parts = bodies(solid).unwrap();
    bencher.with_inputs(|| parts.clone()).bench_values(|parts| find_rod(parts, &GivenRod::default()).unwrap());
}

/// 200 cuts with area, centroid and second moments: the peer is `tests/reference/sections/time_cuts.py`.
#[divan::bench(args = named(), sample_count = 10)]
fn two_hundred_cuts(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let (solid, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).unwrap();
    let rod = find_rod(bodies(solid).unwrap(), &GivenRod::default()).unwrap();
    let (low, high) = rod.mesh.bounds();
    let positions = planes(&rod.mesh, low.x, high.x, 200, false);
    bencher.bench(|| sections(black_box(&rod.mesh), &positions, false));
}

/// 1 000 directions with everything: recognition, cuts, supports, full checks of the named ones.
#[divan::bench(args = named(), sample_count = 5)]
fn thousand_directions(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let job = job();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    bencher.bench(|| directions(black_box(&bytes), &question, 1000, None, &mut ()).unwrap());
}

/// What of that the stresses take: 1 000 directions at the hot spots of a prepared rod, on all threads.
#[divan::bench(args = named(), sample_count = 20)]
fn thousand_strengths(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let job = job();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&bytes, &question, &mut ()).unwrap();
    let scenario = &prepared.scenario;
    let model = prepared.model(EyeFamily::embedded().angles());
    let loading = prepared.loading(&model).unwrap();
    let temperatures = Temperatures::uniform(&model, scenario.temperature);
    let stressing = Stressing::new(&model, &loading, scenario, &temperatures);
    let spots = HotSpots::new(&stressing, scenario, &temperatures);
    let builds = equal_area(1000);
    bencher.bench(|| spots.along_all(black_box(&builds)));
}

#[divan::bench(args = named(), sample_count = 5)]
fn thickness_of_20k_samples(bencher: Bencher, mesh: &Named) {
    let bytes = std::fs::read(&mesh.0).unwrap();
    let (solid, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).unwrap();
    bencher.bench(|| {
        let surface = Surface::new(black_box(&solid), Shells::Apart);
        thickness_all(&surface, &area_samples(&surface, 20_000))
    });
}
