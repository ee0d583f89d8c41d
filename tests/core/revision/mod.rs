//! What next: revisions side by side, sizes that reach a life, questions that agree.

mod agreeing;
mod compared;
mod sized;

use layload_core::Question;
use layload_core::job::Job;

const JOB: &str = include_str!("../../../samples/bench_single.toml");
const PLAIN: &[u8] = include_bytes!("../../../samples/plain_rod.stl");

fn job() -> Job {
    Job::from_toml(JOB).unwrap()
}

fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}

/// An ASCII or binary STL with `z` times a factor.
fn stretched(stl: &[u8], factor: f32) -> Vec<u8> {
    let mut cursor = std::io::Cursor::new(stl);
    let mesh = stl_io::read_stl(&mut cursor).unwrap();
    let wide = |v: &stl_io::Vertex| stl_io::Vertex::new([v[0], v[1], v[2] * factor]);
    let triangles: Vec<stl_io::Triangle> = mesh
        .faces
        .iter()
        .map(|face| stl_io::Triangle {
            normal: stl_io::Normal::new([0.0, 0.0, 0.0]),
            vertices: face.vertices.map(|corner| wide(&mesh.vertices[corner])),
        })
        .collect();
    let mut bytes = Vec::new();
    stl_io::write_stl(&mut bytes, triangles.iter()).unwrap();
    bytes
}
