//! Random engines, prints and temperatures: all stresses times a factor above 1, a shank cut to less, or weaker plastic never
//! raises the margin of any mode; a body that carries no load, in a bore or beside the rod, never raises the verdict's.
//!
//! Forces, temperatures and contact are held, so that only what is changed changes.
#![no_main]

use std::fmt::Write;
use std::sync::OnceLock;

use arbitrary::Arbitrary;
use layload_core::engine::{DEFAULT_SAMPLES, PressureTrace, Strokes};
use layload_core::job::Job;
use layload_core::part::ThicknessFactors;
use layload_core::rod::{Assessment, PreparedRod, RodCuts, RodModel, Stressing, Temperatures, assess};
use layload_core::stress::EyeFamily;
use layload_core::{Question, prepare, quick_look};
use libfuzzer_sys::fuzz_target;
use nalgebra::Vector3;

const ROD: &[u8] = include_bytes!("../../meshes/solid_header.stl");

const JOB: &str = r#"
    [engine]
    strokes = "four"
    bore_mm = 34.0
    stroke_mm = 46.0
    reciprocating_mass_g = 42.0
    compression_ratio = 6.5
    [engine.gas]
    peak_pressure_bar = 20.0
    [material]
    name = "PA12-CF15"
    temperature_c = 70.0
    [duty]
    wanted_life_h = 2.0
    steps = [{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]
    [model]
    stations = 40
"#;

/// Lives are found to 1e-9 in their logarithms and margins to 1e-6; a wider tolerance would hide a rule that turns round.
const SLACK: f64 = 1.0 + 1e-5;

/// What is random; each number is a share of its range.
#[derive(Debug, Clone, Copy, Arbitrary)]
struct Input {
    speed: u8,
    mass: u8,
    peak: u8,
    warm: u8,
    clearance: [u8; 2],
    wanted: u8,
    infill: u8,
    walls: u8,
    build: [i8; 3],
    change: Change,
}

#[derive(Debug, Clone, Copy, Arbitrary)]
enum Change {
    Stresses { factor: u8 },
    Shank { left: u8 },
    Plastic { factor: u8 },
    Body { place: [i8; 3], radius: u8, long: u8 },
    Pin { big: bool, gap: u8, long: u8 },
}

fn share(number: u8, (low, high): (f64, f64)) -> f64 {
    low + (high - low) * f64::from(number) / 255.0
}

fn job() -> &'static Job {
    static FOUND: OnceLock<Job> = OnceLock::new();
    FOUND.get_or_init(|| Job::from_toml(JOB).expect("a job"))
}

fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}

fn rod() -> &'static (PreparedRod, RodCuts) {
    static FOUND: OnceLock<(PreparedRod, RodCuts)> = OnceLock::new();
    FOUND.get_or_init(|| {
        let rod = prepare(&ROD.to_vec(), &question(job()), &mut ()).expect("a rod");
        let cuts = RodCuts::new(&rod.rod, rod.scenario.stations);
        (rod, cuts)
    })
}

/// Net pressure of a made-up fire, times a factor, over open air.
fn fire(peak_bar: f64, factor: f64) -> PressureTrace {
    let mut rows = String::new();
    for degrees in (0..720).step_by(4) {
        let away = (f64::from(degrees) - 10.0 + 360.0).rem_euclid(720.0) - 360.0;
        let _ = writeln!(rows, "{degrees},{:.12}", 1.0 + factor * (peak_bar - 1.0) * (-(away / 28.0).powi(2)).exp());
    }
    PressureTrace::from_csv(&rows, Strokes::Four, DEFAULT_SAMPLES).expect("a trace")
}

impl Input {
    /// The rod with all forces times a factor: gas, piston and the mass of the rod itself.
    fn loaded(&self, factor: f64) -> Option<(PreparedRod, RodModel)> {
        let (rod, cuts) = rod();
        let mut rod = rod.clone();
        let scenario = &mut rod.scenario;
        scenario.duty = scenario.duty.at_speed_factor(share(self.speed, (0.2, 2.0))).ok()?;
        scenario.engine.reciprocating_mass = share(self.mass, (0.01, 0.15)) * factor;
        scenario.engine.measured = Some(fire(share(self.peak, (3.0, 45.0)), factor));
        scenario.engine.peak_pressure = None;
        scenario.wanted_life = share(self.wanted, (60.0, 360_000.0));
        // Contact is the same where force over clearance is.
        scenario.fits.small_end = share(self.clearance[0], (0.0, 2e-4)) * factor;
        scenario.fits.big_end = share(self.clearance[1], (0.0, 2e-4)) * factor;
        rod.print.walls = u32::from(self.walls % 12);
        rod.print.infill = share(self.infill, (0.2, 1.0));
        let build = Vector3::from(self.build.map(f64::from));
        rod.print.build = if build.norm() > 0.0 { build.normalize() } else { Vector3::z() };
        let model = model(&rod, cuts, factor);
        Some((rod, model))
    }

    fn assessed(&self, rod: &PreparedRod, model: &RodModel) -> Option<Assessment> {
        let temperatures = Temperatures::uniform(model, 273.15 + share(self.warm, (20.0, 110.0)));
        let loading = rod.loading(model).ok()?;
        let stressing = Stressing::new(model, &loading, &rod.scenario, &temperatures);
        Some(assess(&stressing, &rod.scenario, &temperatures))
    }
}

fn model(rod: &PreparedRod, cuts: &RodCuts, factor: f64) -> RodModel {
    let density = rod.scenario.material().density * factor;
    RodModel::new(&rod.rod, cuts, rod.print, density, EyeFamily::embedded().angles())
}

fn not_better(before: &Assessment, after: &Assessment) {
    let (a, b) = (&before.strength, &after.strength);
    assert!(b.margin() <= a.margin() * SLACK, "margin {} then {}", a.margin(), b.margin());
    for mode in &a.modes {
        let then = b.modes.iter().find(|then| then.mode == mode.mode);
        assert!(then.is_none_or(|then| then.margin <= mode.margin * SLACK), "{mode:?} then {then:?}");
    }
}

/// A square bar along z, in mm, as facets of a binary STL.
fn bar(center: [f64; 2], half: f64, from: f64, to: f64) -> Vec<[[f32; 3]; 3]> {
    let corner = |k: usize| {
        let side = |bit: usize| if k & bit == 0 { -half } else { half };
        [(center[0] + side(1)) as f32, (center[1] + side(2)) as f32, if k & 4 == 0 { from } else { to } as f32]
    };
    const FACES: [[usize; 4]; 6] = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
    FACES.iter().flat_map(|&[a, b, c, d]| [[a, b, c], [a, c, d]]).map(|facet| facet.map(corner)).collect()
}

fn with(facets: &[[[f32; 3]; 3]]) -> Vec<u8> {
    let mut bytes = ROD.to_vec();
    let count = u32::from_le_bytes([bytes[80], bytes[81], bytes[82], bytes[83]]) + facets.len() as u32;
    bytes[80..84].copy_from_slice(&count.to_le_bytes());
    for facet in facets {
        bytes.extend([0; 12]);
        facet.iter().flatten().for_each(|c| bytes.extend(c.to_le_bytes()));
        bytes.extend([0; 2]);
    }
    bytes
}

/// The verdict's margin of the rod with a body more; a file that is refused is no stronger rod.
fn no_stronger_with(body: &[[[f32; 3]; 3]]) {
    static ALONE: OnceLock<f64> = OnceLock::new();
    let alone =
        ALONE.get_or_init(|| quick_look(&ROD.to_vec(), &question(job()), &mut ()).expect("a verdict").verdict.margin);
    if let Ok(report) = quick_look(&with(body), &question(job()), &mut ()) {
        assert!(report.verdict.margin <= alone * SLACK, "{} for {alone}", report.verdict.margin);
    }
}

fuzz_target!(|input: Input| {
    match input.change {
        Change::Body { place, radius, long } => {
            // Clear of the rod, whose bounds end at some 40 mm.
            let center = [f64::from(place[0]), 120.0 + f64::from(place[1]) / 2.0];
            let from = f64::from(place[2]);
            return no_stronger_with(&bar(center, share(radius, (0.5, 12.0)), from, from + share(long, (0.5, 80.0))));
        }
        Change::Pin { big, gap, long } => {
            // Centres and diameters as truth.json has them; the corners of the bar stay off the bore.
            let (center, radius) = if big { ([91.933, 19.294], 12.0) } else { ([5.0, -4.0], 6.5) };
            let half = radius / std::f64::consts::SQRT_2 - share(gap, (0.1, 3.0));
            let half_long = 0.5 * share(long, (1.0, 40.0));
            return no_stronger_with(&bar(center, half, 7.0 - half_long, 7.0 + half_long));
        }
        Change::Stresses { .. } | Change::Shank { .. } | Change::Plastic { .. } => {}
    }
    let Some((loaded, whole)) = input.loaded(1.0) else { return };
    let Some(before) = input.assessed(&loaded, &whole) else { return };
    let after = match input.change {
        Change::Stresses { factor } => {
            input.loaded(share(factor, (1.001, 4.0))).and_then(|(heavier, model)| input.assessed(&heavier, &model))
        }
        Change::Shank { left } => {
            let left = ThicknessFactors { shank: share(left, (0.4, 0.999)), ..ThicknessFactors::default() };
            let thinner = rod().1.with_thickness(&loaded.rod, left);
            // The forces of the whole rod are held.
            let less = RodModel { mass: whole.mass.clone(), ..model(&loaded, &thinner, 1.0) };
            input.assessed(&loaded, &less)
        }
        Change::Plastic { factor } => {
            let mut weak = loaded.clone();
            let strength = &mut weak.scenario.card.strength;
            for value in [
                &mut strength.bead_mpa,
                &mut strength.across_mpa,
                &mut strength.layer_mpa,
                &mut strength.layer_shear_mpa,
                &mut strength.compression_mpa,
                &mut strength.bearing_pressure_mpa,
            ] {
                value.value /= share(factor, (1.001, 4.0));
            }
            input.assessed(&weak, &whole)
        }
        Change::Body { .. } | Change::Pin { .. } => None,
    };
    if let Some(after) = after {
        not_better(&before, &after);
    }
});
