//! The plugin beside the native core, in one run: start from the cache, and whole questions.
//!
//! Build the component first (`bash wasm-plugin/build.sh`), then `cargo bench -p layload-host --bench plugin`. A plugin has one thread; its native peer has as many as the
//! machine, and one with `RAYON_NUM_THREADS=1`.

#![allow(clippy::unwrap_used, missing_docs)]

use std::path::PathBuf;

use divan::{Bencher, black_box};
use layload_core::FieldRequest;
use layload_core::job::Job;
use layload_core::{CheckRequest, Question, WallRequest, check_with};
use layload_host::{Cache, Cancel, Limits, PluginHost, Session, Stress};

fn main() {
    divan::main();
}

const RODS: [&str; 3] = ["samples/plain_rod.stl", "samples/i_shank_rod.stl", "samples/split_rod.stl"];

/// Cells of the stress field.
const CELLS: [u32; 2] = [20_000, 60_000];

fn top() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn bytes(name: &str) -> Vec<u8> {
    std::fs::read(top().join(name)).unwrap()
}

fn job() -> String {
    String::from_utf8(bytes("samples/bench_single.toml")).unwrap()
}

fn component() -> PathBuf {
    top().join("target/plugin/layload.wasm")
}

fn cache() -> Option<Cache> {
    Cache::in_folder(&top().join("target/plugin/bench-cache"))
}

fn session() -> Session {
    let plugin = PluginHost::new(cache()).unwrap().load(&component()).unwrap();
    plugin.open(Limits::default(), Cancel::new(), |_, _, _| {}).unwrap()
}

#[divan::bench(sample_count = 20)]
fn start_from_cache(bencher: Bencher) {
    drop(session());
    bencher.bench(session);
}

#[divan::bench(sample_count = 3)]
fn start_without_cache(bencher: Bencher) {
    bencher.bench(|| PluginHost::new(None).unwrap().load(&component()).unwrap());
}

#[divan::bench(args = RODS, sample_count = 15)]
fn quick_look_native(bencher: Bencher, rod: &str) {
    let stl = bytes(rod);
    let job = Job::from_toml(&job()).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    bencher.bench(|| {
        serde_json::to_string_pretty(&layload_core::quick_look(black_box(&stl), &question, &mut ()).unwrap()).unwrap()
    });
}

#[divan::bench(args = RODS, sample_count = 15)]
fn quick_look_in_plugin(bencher: Bencher, rod: &str) {
    let (stl, job) = (bytes(rod), job());
    let mut session = session();
    bencher.bench_local(|| session.check(black_box(&stl), &job.as_str().into(), Stress::Sections).unwrap());
}

#[divan::bench(args = CELLS, sample_count = 3, sample_size = 1)]
fn field_native(bencher: Bencher, cells: u32) {
    let stl = bytes(RODS[0]);
    let job = Job::from_toml(&job()).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: cells as usize }) };
    bencher.bench(|| {
        let checked = check_with(black_box(&stl), &question, &request, &mut ()).unwrap();
        serde_json::to_string_pretty(&checked.report).unwrap()
    });
}

#[divan::bench(args = CELLS, sample_count = 3, sample_size = 1)]
fn field_in_plugin(bencher: Bencher, cells: u32) {
    let (stl, job) = (bytes(RODS[0]), job());
    let mut session = session();
    let stress = Stress::Cells(cells);
    bencher.bench_local(|| session.check(black_box(&stl), &job.as_str().into(), stress).unwrap());
}

#[divan::bench(args = RODS, sample_count = 15)]
fn walls_native(bencher: Bencher, rod: &str) {
    let stl = bytes(rod);
    let job = Job::from_toml(&job()).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    bencher.bench(|| layload_core::walls(black_box(&stl), &question, &WallRequest::default(), &mut ()).unwrap());
}

#[divan::bench(args = RODS, sample_count = 15)]
fn walls_in_plugin(bencher: Bencher, rod: &str) {
    let (stl, job) = (bytes(rod), job());
    let mut session = session();
    bencher.bench_local(|| session.walls(black_box(&stl), &job.as_str().into(), None).unwrap());
}
