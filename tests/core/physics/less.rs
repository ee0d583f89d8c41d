//! More stress or less material never makes a rod stronger: every mode, not only the verdict.
//!
//! Forces, temperatures and contact are held, so that only what is changed changes.

use std::fmt::Write;

use layload_core::engine::{DEFAULT_SAMPLES, PressureTrace, Strokes};
use layload_core::job::Job;
use layload_core::part::ThicknessFactors;
use layload_core::rod::{Assessment, PreparedRod, RodCuts, RodModel, Temperatures};
use layload_core::stress::EyeFamily;
use layload_core::verdict::Mode;
use layload_core::{Question, State, quick_look};
use nalgebra::Vector3;
use proptest::prelude::*;

use super::{Found, at, job, prepared};
use crate::mesh::shapes::{Region, Solid, motion};
use crate::mesh::{files, stl};

/// Lives are found to 1e-9 in their logarithms and margins to 1e-6; a wider tolerance would hide a rule that turns round.
const SLACK: f64 = 1.0 + 1e-5;

/// The five sample rods and one of the test meshes.
const RODS: [&str; 6] = [
    "plain_rod.stl",
    "i_shank_rod.stl",
    "thin_web_rod.stl",
    "split_rod.stl",
    "bearing_rod.stl",
    "../tests/meshes/solid_header.stl",
];

fn rods() -> &'static [(PreparedRod, RodCuts)] {
    static LIST: std::sync::OnceLock<Vec<(PreparedRod, RodCuts)>> = std::sync::OnceLock::new();
    LIST.get_or_init(|| {
        let of = |name: &&str| {
            let rod = prepared(name, &job([50.0, 80.0, 65.0])).unwrap();
            let cuts = RodCuts::new(&rod.rod, rod.scenario.stations);
            (rod, cuts)
        };
        RODS.iter().map(of).collect()
    })
}

/// Net pressure of a made-up fire, times a factor, over open air; measured traces are taken as they are.
fn fire(peak_bar: f64, factor: f64) -> PressureTrace {
    let mut rows = String::new();
    for degrees in (0..720).step_by(2) {
        let away = (f64::from(degrees) - 10.0 + 360.0).rem_euclid(720.0) - 360.0;
        let net = (peak_bar - 1.0) * libm::exp(-(away / 28.0) * (away / 28.0));
        let _ = writeln!(rows, "{degrees},{:.12}", 1.0 + factor * net);
    }
    PressureTrace::from_csv(&rows, Strokes::Four, DEFAULT_SAMPLES).unwrap()
}

#[derive(Debug, Clone)]
struct Case {
    rod: usize,
    rpm: f64,
    mass_g: f64,
    peak_bar: f64,
    warm_c: f64,
    clearance_mm: f64,
    upright: bool,
}

fn cases() -> impl Strategy<Value = Case> {
    let numbers = (1500.0..8000.0_f64, 15.0..120.0_f64, 8.0..35.0_f64, 30.0..95.0_f64, 0.0..0.1_f64);
    (0..RODS.len(), numbers, any::<bool>()).prop_map(|(rod, (rpm, mass_g, peak_bar, warm_c, clearance_mm), upright)| {
        Case { rod, rpm, mass_g, peak_bar, warm_c, clearance_mm, upright }
    })
}

impl Case {
    /// The rod with all forces times a factor: gas, piston and the mass of the rod itself.
    fn loaded(&self, factor: f64) -> (PreparedRod, RodModel) {
        let (rod, cuts) = &rods()[self.rod];
        let mut rod = rod.clone();
        rod.scenario.duty = rod.scenario.duty.at_speed_factor(self.rpm / 5000.0).unwrap();
        rod.scenario.engine.reciprocating_mass = self.mass_g * 1e-3 * factor;
        rod.scenario.engine.measured = Some(fire(self.peak_bar, factor));
        rod.scenario.engine.peak_pressure = None;
        rod.scenario.fits.small_end = self.clearance_mm * 1e-3;
        rod.scenario.fits.big_end = self.clearance_mm * 1e-3;
        if self.upright {
            rod.print.build = Vector3::x();
        }
        let model = modelled(&rod, cuts, factor);
        (rod, model)
    }

    /// At one temperature everywhere, which is held.
    fn assessed(&self, rod: &PreparedRod, model: &RodModel) -> Assessment {
        let temperatures = Temperatures::uniform(model, self.warm_c + 273.15);
        at(rod, model, &rod.scenario, &temperatures).unwrap().0
    }
}

/// A rod of so many times its density.
fn modelled(rod: &PreparedRod, cuts: &RodCuts, factor: f64) -> RodModel {
    let density = rod.scenario.material().density * factor;
    RodModel::new(&rod.rod, cuts, rod.print, density, EyeFamily::embedded().angles())
}

/// What got better although it must not.
fn better(before: &Assessment, after: &Assessment, but: &[Mode]) -> Option<String> {
    let (a, b) = (&before.strength, &after.strength);
    if b.margin() > a.margin() * SLACK || b.life_at(0.1) > a.life_at(0.1) * SLACK {
        return Some(format!("together: margin {} then {}", a.margin(), b.margin()));
    }
    // One load at one place is told as what it does most, parts layers or crushes: less material may change the name.
    let at_once = [Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane, Mode::Crushing];
    a.modes.iter().filter(|mode| !but.contains(&mode.mode)).find_map(|mode| {
        let then = b.modes.iter().find(|then| then.mode == mode.mode)?;
        let renamed = at_once.contains(&mode.mode)
            && b.modes.iter().any(|then| {
                at_once.contains(&then.mode) && then.place == mode.place && then.margin <= mode.margin * SLACK
            });
        (then.margin > mode.margin * SLACK && !renamed).then(|| format!("{mode:?} then {then:?}"))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn all_stresses_times_a_factor_raise_no_margin(case in cases(), factor in 1.001..3.0_f64) {
        let (rod, model) = case.loaded(1.0);
        let (loaded, heavier) = case.loaded(factor);
        let (before, after) = (case.assessed(&rod, &model), case.assessed(&loaded, &heavier));
        prop_assert_eq!(better(&before, &after, &[]), None);
        // Where one load breaks it and stress follows force, the margin falls by the very factor.
        let buckling = |found: &Assessment| found.strength.modes.iter().find(|m| m.mode == Mode::Buckling).map(|m| m.margin);
        let fall = buckling(&before).unwrap() / buckling(&after).unwrap();
        prop_assert!((fall / factor - 1.0).abs() < 1e-9, "{fall} for {factor}");
    }

    #[test]
    fn a_shank_cut_to_less_raises_no_margin(case in cases(), left in 0.5..0.999_f64) {
        let (rod, model) = case.loaded(1.0);
        let thinner = rods()[case.rod].1.with_thickness(&rod.rod, ThicknessFactors { shank: left, ..ThicknessFactors::default() });
        let less = modelled(&rod, &thinner, 1.0);
        // The forces of the whole rod are held.
        let less = RodModel { mass: model.mass.clone(), ..less };
        prop_assert_eq!(better(&case.assessed(&rod, &model), &case.assessed(&rod, &less), &[]), None);
    }

    #[test]
    fn weaker_plastic_raises_no_margin(case in cases(), factor in 1.001..3.0_f64) {
        let (rod, model) = case.loaded(1.0);
        let mut weak = rod.clone();
        let strength = &mut weak.scenario.card.strength;
        for value in [
            &mut strength.bead_mpa,
            &mut strength.across_mpa,
            &mut strength.layer_mpa,
            &mut strength.layer_shear_mpa,
            &mut strength.compression_mpa,
            &mut strength.bearing_pressure_mpa,
        ] {
            value.value /= factor;
        }
        prop_assert_eq!(better(&case.assessed(&rod, &model), &case.assessed(&weak, &model), &[]), None);
    }
}

/// A round bar along x.
fn bar(radius: f64, from: f64, to: f64) -> Solid {
    Solid::prism(&Region::ellipse(radius, radius, 48), from, to)
}

/// Verdict of a mesh in the bench engine; `None` where it is refused.
fn margins(bytes: &[u8]) -> Found<Option<(bool, f64)>> {
    let job = Job::from_toml(&job([50.0, 80.0, 65.0]))?;
    let answer = quick_look(&bytes.to_vec(), &Question { job: &job, card_text: None, pressure_text: None }, &mut ());
    Ok(answer.ok().map(|report| (report.verdict.state != State::Fails, report.verdict.margin)))
}

proptest! {
    // A case reads and checks a whole rod.
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    #[test]
    fn a_body_that_carries_no_load_raises_no_margin(
        place in prop::array::uniform3(-60.0..60.0_f64),
        angles in prop::array::uniform3(-3.0..3.0_f64),
        radius in 1.0..9.0_f64,
        long in 2.0..50.0_f64,
    ) {
        let rod = Solid::of_stl(&files::test_mesh("solid_header").unwrap()).unwrap();
        let alone = margins(&stl::binary(&rod)).unwrap().unwrap();
        // Beside the rod, clear of it.
        let beside = Vector3::new(place[0], place[1] + 200.0, place[2]);
        let body = bar(radius, 0.0, long).moved(&motion(angles, beside.into()));
        if let Some((_, margin)) = margins(&stl::binary(&rod.with(&body))).unwrap() {
            prop_assert!(margin <= alone.1 * SLACK, "{margin} for {}", alone.1);
        }
    }

    #[test]
    fn a_bore_filled_up_to_a_gap_raises_no_margin(big in any::<bool>(), gap in 0.03..1.0_f64, long in 6.0..40.0_f64) {
        let rod = Solid::of_stl(&files::test_mesh("solid_header").unwrap()).unwrap();
        let alone = margins(&stl::binary(&rod)).unwrap().unwrap();
        // Centres and diameters as tests/meshes/truth.json has them, mm.
        let (center, radius) = if big { ([91.9333, 19.2937], 12.0) } else { ([5.0, -4.0], 6.5) };
        let upright = motion([0.0, core::f64::consts::FRAC_PI_2, 0.0], [center[0], center[1], 7.0]);
        let pin = bar(radius - gap, -0.5 * long, 0.5 * long).moved(&upright);
        if let Some((_, margin)) = margins(&stl::binary(&rod.with(&pin))).unwrap() {
            prop_assert!(margin <= alone.1 * SLACK, "{margin} for {}", alone.1);
        }
    }
}
