//! A part scaled together with everything else.

use layload_core::job::Job;
use layload_core::quick_look;
use layload_core::verdict::Mode;

use super::Found;
use super::corpus::{part_of, question, sample_of};
use crate::scaled_job::scaled_job;

/// What one load does is the same of a part half as large again. Life is not: it counts hours and turns.
#[test]
fn one_load_does_the_same_to_a_larger_part() -> Found<()> {
    let at_once =
        [Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane, Mode::Crushing, Mode::BearingPressure, Mode::Buckling];
    for name in ["samples/i_shank_rod.stl", "tests/meshes/unequal_depths.stl"] {
        let solid = sample_of(name)?.solid;
        let [here, larger] = [1.0, 1.5].map(|size| -> Found<_> {
            let job = Job::from_toml(&scaled_job(size, "upright"))?;
            Ok(quick_look(&part_of(&solid.clone().scaled(size))?, &question(&job), &mut ())?)
        });
        let (here, larger) = (here?, larger?);
        let mut compared = 0;
        for mode in here.modes.iter().filter(|mode| at_once.contains(&mode.mode)) {
            let same = larger.modes.iter().find(|other| other.mode == mode.mode).ok_or("a mode is missing")?;
            // Rounding, by the squares and cubes of the factor.
            approx::assert_relative_eq!(mode.margin, same.margin, max_relative = 1e-6);
            compared += 1;
        }
        assert!(compared >= 4, "{name}: only {compared} modes");
    }
    Ok(())
}
