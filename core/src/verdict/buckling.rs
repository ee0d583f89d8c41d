use super::mode::Mode;
use super::model::Region;
use super::place::RodPlace;
use super::quantile::ten_percent_factor;
use super::setting::Setting;
use super::summary::ModeMargin;
use crate::stress::{Column, critical_load};

/// Every so many stations the push is looked at: it changes along the shank only by the shank's own inertia.
const STRIDE: usize = 8;

/// Buckling in the plane of the engine, where the pins let the ends turn, and across it, where they hold them.
pub(super) fn margin(setting: &Setting<'_>) -> ModeMargin {
    let (mut in_plane, mut across, mut area) = (f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let (mut push, mut hottest) = (0.0_f64, f64::NEG_INFINITY);
    let shank = setting.model.stations.iter().enumerate().filter(|(_, station)| station.region == Region::Shank);
    for (number, (index, station)) in shank.enumerate() {
        let stiffness = &station.makeup.stiffness;
        // A section whose principal axes lean against the plane of the engine counts with its least moment both ways.
        let lean = stiffness.product_moment.abs() / stiffness.second_moment_y.min(stiffness.second_moment_z);
        let least = stiffness.principal().0;
        let leaning = lean > 0.02;
        in_plane = in_plane.min(if leaning { least } else { stiffness.second_moment_z });
        across = across.min(if leaning { least } else { stiffness.second_moment_y });
        area = area.min(stiffness.area);
        hottest = hottest.max(setting.temperatures.stations[index]);
        if number % STRIDE == 0 {
            push = setting.stressing.forces.iter().map(|step| step.greatest_push(index)).fold(push, f64::max);
        }
    }
    // The whole column at its hottest: severe.
    let material = if hottest.is_finite() { setting.material_at(hottest) } else { setting.material };
    let modulus = material.modulus_along(setting.model.print.build.x);
    let load = |moment: f64, end_fixity: f64| {
        critical_load(&Column {
            length: setting.model.length,
            end_fixity,
            bending_stiffness: modulus * moment,
            crush_load: material.compression_strength * area,
        })
    };
    let fixity = &setting.scenario.end_fixity;
    let least = load(in_plane, fixity.in_plane).min(load(across, fixity.across));
    let deviation = setting.material.strength_scatter;
    let margin = ten_percent_factor(deviation) * least / push.max(1e-9);
    ModeMargin::at_once(Mode::Buckling, RodPlace::Shank, margin, deviation)
}
