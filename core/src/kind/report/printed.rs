use nalgebra::Vector3;

use crate::bond::Bond;
use crate::job::{PartTemperature, Scenario};
use crate::material::{Lay, LayerPlane, LayerStrength};
use crate::part::Frame;
use crate::report::{BondHeight, BondReport, PrintReport, TemperatureFrom};
use crate::units::ZERO_C;

/// How a part with its own frame is printed; `build` is in that frame.
pub(crate) fn printed(build: &Vector3<f64>, frame: &Frame, scenario: &Scenario) -> PrintReport {
    let angle = |axis: Vector3<f64>| libm::acos(build.dot(&axis).abs().min(1.0)).to_degrees();
    let strength = LayerStrength::of(&scenario.material(), Lay::Wall);
    let along = Vector3::x();
    let used = strength.use_of(&(along * along.transpose()), &LayerPlane::new(*build));
    PrintReport {
        build_direction: frame.direction_to_file(build).into(),
        angle_to_axis_deg: angle(along),
        angle_to_bores_deg: angle(Vector3::z()),
        axial_strength_share: 1.0 / (used.utilisation * strength.in_plane()),
        bond: scenario.bond.as_deref().map(bonded),
    }
}

/// The bond by height, at a few of the layers that were followed.
fn bonded(bond: &Bond) -> BondReport {
    /// Heights that are told.
    const TOLD: usize = 40;
    let heights = bond.heights();
    let told = heights.iter().step_by(heights.len().div_ceil(TOLD));
    BondReport {
        least_factor: bond.least(),
        most_factor: bond.most(),
        heights: told
            .map(|at| BondHeight {
                height_mm: at.height * 1e3,
                layer_time_s: at.layer_time,
                below_c: at.below - ZERO_C,
                factor: at.factor,
            })
            .collect(),
    }
}

/// Where the temperature at which strength was taken comes from.
pub fn temperature_from(source: PartTemperature) -> TemperatureFrom {
    match source {
        PartTemperature::Given => TemperatureFrom::Given,
        PartTemperature::Settled => TemperatureFrom::Settled,
        PartTemperature::AfterRun { .. } => TemperatureFrom::AfterRun,
    }
}
