use nalgebra::Vector3;

use crate::job::{PartTemperature, Scenario};
use crate::material::{Lay, LayerPlane, LayerStrength};
use crate::part::Frame;
use crate::report::{PrintReport, TemperatureFrom};

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
