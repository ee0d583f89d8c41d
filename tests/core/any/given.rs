//! Parts of any kind made here, with their jobs.

use layload_core::job::Job;
use layload_core::mesh::{Body, Mended};
use layload_core::part::{GivenPart, PartWord, find_part};
use layload_core::report::Report;
use layload_core::{CheckRequest, Error, FieldRequest, LengthUnit, LoadedPart, Question, check_with, of_kind};

use crate::mesh::shapes::Solid;

/// An engine and a print, with nothing said of places: one temperature, dry, steady running.
const ENGINE: &str = r#"
    [engine]
    strokes = "four"
    bore_mm = 34.0
    stroke_mm = 46.0
    reciprocating_mass_g = 42.0
    [engine.gas]
    peak_pressure_bar = 20.0
    [part]
    kind = "any"
    [material]
    name = "PA12-CF15"
    temperature_c = 23.0
    [duty]
    wanted_life_h = 2.0
    steps = [{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]
"#;

/// That engine with places, holds and loads.
pub(crate) fn job(places: &str) -> Job {
    Job::from_toml(&format!("{ENGINE}{places}")).unwrap()
}

/// A solid as a part of any kind.
pub(crate) fn part(solid: &Solid) -> LoadedPart {
    let mesh = solid.mesh().unwrap();
    let (low, high) = mesh.bounds();
    let body = Body { mesh, outer_shells: 1, voids: 0 };
    let given = GivenPart { kind: Some(PartWord::Any), ..GivenPart::default() };
    let part = of_kind(find_part(vec![body], &given).unwrap());
    LoadedPart { mended: Mended::default(), unit: LengthUnit::Millimetre, size: high - low, part }
}

/// The check of a part by about so many cells.
pub(crate) fn checked(part: &LoadedPart, job: &Job, cells: usize) -> Result<Report, Error> {
    let question = Question { job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells }) };
    Ok(check_with(part, &question, &request, &mut ())?.report)
}

/// Poisson's ratio in the layer plane and density of the plastic of those jobs, kg/m³.
pub(crate) fn plastic(job: &Job) -> (f64, f64) {
    let (scenario, _) = layload_core::job::resolve(job, None, None).unwrap();
    let state = scenario.material();
    (state.poisson_ratio, state.density)
}

/// The greatest principal stress of the report's places that are no corners, MPa, with where it is, mm.
pub(crate) fn greatest(report: &Report) -> (f64, [f64; 3]) {
    let spots = report.field.as_ref().unwrap().hot_spots.iter().filter(|spot| !spot.sharp_corner);
    let most = spots.max_by(|a, b| a.stress_mpa.total_cmp(&b.stress_mpa)).unwrap();
    (most.stress_mpa, most.position_mm)
}
