use super::model::Region;
use super::place::{RodMargin, RodPlace};
use super::setting::Setting;
use crate::stress::{Column, critical_load};
use crate::verdict::{Mode, ModeMargin};

/// Every so many stations the push is looked at: it changes along the shank only by the shank's own inertia.
const STRIDE: usize = 8;

/// Buckling in the plane of the engine, where the pins let the ends turn, and across it, where they hold them.
pub(crate) fn margin(setting: &Setting<'_>) -> RodMargin {
    ColumnLoad::of(setting).margin(setting)
}

/// The shank as a column: what of it the build direction does not change.
pub(crate) struct ColumnLoad {
    /// Least second moment of area against bending in the plane of the engine and across it, m⁴.
    in_plane: f64,
    across: f64,
    /// Least area, m².
    area: f64,
    /// Greatest push, N.
    push: f64,
    /// Highest temperature, K.
    hottest: Option<f64>,
}

impl ColumnLoad {
    pub(crate) fn of(setting: &Setting<'_>) -> Self {
        let mut column =
            Self { in_plane: f64::INFINITY, across: f64::INFINITY, area: f64::INFINITY, push: 0.0, hottest: None };
        let shank = setting.model.stations.iter().enumerate().filter(|(_, station)| station.region == Region::Shank);
        for (number, (index, station)) in shank.enumerate() {
            let stiffness = &station.makeup.stiffness;
            // A section whose principal axes lean against the plane of the engine counts with its least moment both ways.
            let lean = stiffness.product_moment.abs() / stiffness.second_moment_y.min(stiffness.second_moment_z);
            let least = stiffness.principal().0;
            let leaning = lean > 0.02;
            column.in_plane = column.in_plane.min(if leaning { least } else { stiffness.second_moment_z });
            column.across = column.across.min(if leaning { least } else { stiffness.second_moment_y });
            column.area = column.area.min(stiffness.area);
            let here = setting.temperatures.stations[index];
            column.hottest = Some(column.hottest.map_or(here, |hottest| hottest.max(here)));
            if number % STRIDE == 0 {
                let pushes = setting.stressing.forces.iter().map(|step| step.greatest_push(index));
                column.push = pushes.fold(column.push, f64::max);
            }
        }
        column
    }

    pub(crate) fn margin(&self, setting: &Setting<'_>) -> RodMargin {
        // The whole column at its hottest: severe.
        let material = self.hottest.map_or(setting.material, |kelvin| setting.material_at(kelvin));
        let modulus = material.modulus_along(setting.plane.build().x);
        let load = |moment: f64, end_fixity: f64| {
            critical_load(&Column {
                length: setting.model.length,
                end_fixity,
                bending_stiffness: modulus * moment,
                crush_load: material.compression_strength * self.area,
            })
        };
        let fixity = &setting.scenario.end_fixity;
        let least = load(self.in_plane, fixity.in_plane).min(load(self.across, fixity.across));
        let margin = setting.ten_percent_strength * least / self.push.max(1e-9);
        ModeMargin::at_once(Mode::Buckling, RodPlace::Shank, margin)
    }
}
