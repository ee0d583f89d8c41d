//! A cap clamped over the split big end: its preload against sums by hand, against time and speed.

use approx::assert_relative_eq;
use layload_core::job::Job;
use layload_core::rod::{Clamped, End, PreparedRod, Stressing, Temperatures, assess, joint_pull};
use layload_core::stress::EyeFamily;
use layload_core::verdict::Mode;
use layload_core::{Question, prepare};

use super::Found;
use crate::mesh::files;

const JOB: &str = include_str!("../../../samples/bench_split.toml");

fn split(change: impl FnOnce(&mut Job)) -> Found<PreparedRod> {
    let mut job = Job::from_toml(JOB)?;
    job.model.stations = Some(60);
    change(&mut job);
    let question = Question { job: &job, card_text: None, pressure_text: None };
    Ok(prepare(&files::bytes("samples/split_rod.stl")?, &question, &mut ())?)
}

/// M5 with its coarse pitch of 0.8 mm: 14.2 mm² (ISO 898-1, table of coarse threads).
const M5: f64 = 14.18e-6;

#[test]
fn preload_by_hand() -> Found<()> {
    let prepared = split(|_| {})?;
    let scenario = &prepared.scenario;
    let model = prepared.model(EyeFamily::embedded().angles());
    // T = 0.2 d F: 1 N m on 5 mm.
    let each = 1.0 / (0.2 * 5e-3);
    let squeezed = core::f64::consts::FRAC_PI_4 * (10e-3 * 10e-3 - 5.3e-3 * 5.3e-3);
    let give = |modulus: f64| 19e-3 / (205e9 * M5) + 14e-3 / (squeezed * modulus);
    for celsius in [23.0, 65.0, 110.0] {
        let temperatures = Temperatures::uniform(&model, celsius + 273.15);
        let cap = Clamped::of(&model, scenario, &scenario.card, &temperatures, End::Big).ok_or("no cap")?;
        assert_relative_eq!(cap.assembled(), 2.0 * each, max_relative = 1e-12);
        assert_relative_eq!(cap.squeeze(), each / squeezed, max_relative = 1e-12);
        let (cold, hot) =
            (scenario.card.at(296.15, scenario.moisture), scenario.card.at(celsius + 273.15, scenario.moisture));
        let (cosine, warming) = (model.print.build.x, celsius - 23.0);
        let growth = (14e-3 * hot.expansion_along(cosine) - 19e-3 * 11.5e-6) * warming;
        let expected = (each * give(cold.modulus_along(cosine)) + growth) / give(hot.modulus_along(cosine));
        // The area of the thread is known to four digits; its stretch is a few per cent of the plastic's.
        assert_relative_eq!(cap.after(0.0)?, 2.0 * expected, max_relative = 1e-4);
    }
    Ok(())
}

#[test]
fn fades_and_opens() -> Found<()> {
    let prepared = split(|_| {})?;
    let scenario = &prepared.scenario;
    let model = prepared.model(EyeFamily::embedded().angles());
    let loading = prepared.loading(&model)?;
    let mut colder: Option<f64> = None;
    for celsius in [23.0, 65.0, 90.0] {
        let temperatures = Temperatures::uniform(&model, celsius + 273.15);
        let stressing = Stressing::new(&model, &loading, scenario, &temperatures);
        let cap = Clamped::of(&model, scenario, &scenario.card, &temperatures, End::Big).ok_or("no cap")?;
        let mut left = cap.after(0.0)?;
        for hours in [0.01, 0.1, 1.0, 10.0, 100.0] {
            let after = cap.after(3600.0 * hours)?;
            assert!(after > 0.0 && after < left, "{celsius} °C, {hours} h: {after} of {left}");
            left = after;
        }
        let share = cap.after(3.6e4)? / cap.after(0.0)?;
        assert!(colder.is_none_or(|colder| share < colder), "{celsius} °C: {share}");
        colder = Some(share);
        // The hour told is the hour at which what is left is the pull.
        let pull = 0.5 * (cap.after(60.0)? + cap.after(3.6e5)?);
        let opens = cap.opens(pull, 3.6e6)?.ok_or("never opens")?;
        assert_relative_eq!(cap.after(opens)?, pull, max_relative = 1e-3);
        assert_eq!(cap.opens(2.0 * cap.after(0.0)?, 3.6e6)?, Some(0.0));
        assert_eq!(cap.opens(1e-3 * left, 3.6e5)?, None);
        // The mode says what is left after the wanted life over the greatest pull of the rod on the joint.
        let found = assess(&stressing, scenario, &temperatures);
        let mode = found.strength.modes.iter().find(|mode| mode.mode == Mode::OpenJoint).ok_or("no mode")?;
        let expected = cap.after(scenario.wanted_life)? / joint_pull(&stressing, End::Big);
        assert_relative_eq!(mode.margin, expected.min(99.0), max_relative = 1e-12);
    }
    Ok(())
}

/// The joint carries what cap and pin need to be turned with the crank: the pin's pull at the top of the exchange stroke.
#[test]
fn pull_is_the_pins_less_what_the_cap_takes() -> Found<()> {
    let prepared = split(|_| {})?;
    let model = prepared.model(EyeFamily::embedded().angles());
    let loading = prepared.loading(&model)?;
    let temperatures = Temperatures::uniform(&model, 300.0);
    let stressing = Stressing::new(&model, &loading, &prepared.scenario, &temperatures);
    let mut greatest = 0.0_f64;
    for (step, &basis) in loading.duty.steps().iter().zip(&loading.basis_of_step) {
        let basis = &loading.bases[basis];
        for angle in 0..basis.angles() {
            greatest = greatest.max(basis.big_end(angle, step.angular_speed_rad_s()).along);
        }
    }
    let pull = joint_pull(&stressing, End::Big);
    // A cap of some grams turns with the crank: its share of the pin's pull is a few per cent.
    assert!(pull < greatest && pull > 0.8 * greatest, "{pull} of {greatest}");
    Ok(())
}
