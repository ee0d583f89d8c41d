//! Forces over one cycle of the engine, as a table.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::engine::{Duty, PressureTrace};
use crate::piston::report::PistonParts;
use crate::rod::report::Parts;

/// Forces over one engine cycle in the fastest step of the duty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrankReport {
    /// Speed of that step, rpm.
    pub rpm: f64,
    /// Its throttle, 0 to 1.
    pub throttle: f64,
    /// Where `axial_force_n` is: the most used cut, mm as in `stations`.
    pub axial_position_mm: f64,
    /// Where `bending_moment_n_mm` is: the cut of the greatest whip, mm; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bending_position_mm: Option<f64>,
    /// One entry for every few degrees of a whole cycle; 0 is top dead centre at firing.
    pub moments: Vec<CrankMomentReport>,
}

/// Forces at one crank angle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrankMomentReport {
    /// Crank angle, degrees.
    pub crank_deg: f64,
    /// Absolute cylinder pressure, bar.
    pub pressure_bar: f64,
    /// Acceleration of the piston toward the head, m/s².
    pub piston_acceleration_m_s2: f64,
    /// Axial force in the most used cut, tension positive, N.
    pub axial_force_n: f64,
    /// Bending moment in the plane of the engine where it is greatest, N mm; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bending_moment_n_mm: Option<f64>,
    /// Piston pin on the part, along it, N: on a rod toward the big end, on a piston toward the head.
    pub piston_pin_n: f64,
    /// Crank pin on the rod, away from the small end, N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crank_pin_n: Option<f64>,
    /// Cylinder wall on the skirt, N; of a piston.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side_thrust_n: Option<f64>,
}

/// Angles of the cycle in the table, about.
const ROWS: usize = 180;

/// The fastest step; of equally fast ones that with the widest throttle.
fn fastest(duty: &Duty) -> usize {
    let steps = duty.steps().iter().enumerate();
    let order = |step: &crate::engine::DutyStep| (step.rpm, step.throttle);
    steps
        .max_by(|(_, a), (_, b)| order(a).0.total_cmp(&order(b).0).then(order(a).1.total_cmp(&order(b).1)))
        .map_or(0, |(index, _)| index)
}

/// Indices of the angles in the table.
fn rows(angles: usize) -> impl Iterator<Item = usize> {
    (0..angles).step_by((angles / ROWS).max(1))
}

/// Of a rod; `trace` is the pressure at the throttle of the fastest step.
pub(crate) fn of_rod(parts: &Parts<'_>) -> Option<CrankReport> {
    let (loading, prepared) = (parts.loading, parts.prepared);
    let index = fastest(&loading.duty);
    let step = loading.duty.steps().get(index)?;
    let speed = step.angular_speed_rad_s();
    let forces = loading.bases[loading.basis_of_step[index]].at(speed);
    let trace = prepared.scenario.engine.pressure(&prepared.cylinder, step.throttle).ok()?;
    let known = || parts.model.load_path().filter_map(|(i, _)| Some((i, parts.assessment.stations[i]?)));
    let (used, _) = known().max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation))?;
    let (bent, _) = known().max_by(|a, b| a.1.bending_max.total_cmp(&b.1.bending_max))?;
    let position = |station: usize| parts.model.stations[station].section.position * 1e3;
    let (axial, bending) = (forces.section(used).axial, forces.section(bent).bending);
    let moments = rows(forces.angles()).map(|angle| CrankMomentReport {
        crank_deg: trace.angle_rad(angle).to_degrees(),
        pressure_bar: bar(&trace, angle),
        piston_acceleration_m_s2: prepared.crank.at(trace.angle_rad(angle), speed).piston_acceleration_m_s2,
        axial_force_n: axial[angle],
        bending_moment_n_mm: Some(bending[angle] * 1e3),
        piston_pin_n: forces.small_end(angle).along,
        crank_pin_n: Some(forces.big_end(angle).along),
        side_thrust_n: None,
    });
    Some(CrankReport {
        rpm: step.rpm,
        throttle: step.throttle,
        axial_position_mm: position(used),
        bending_position_mm: Some(position(bent)),
        moments: moments.collect(),
    })
}

/// Of a piston; `axial_position_mm` is the cut with the greatest use in the report's stations.
pub(crate) fn of_piston(parts: &PistonParts<'_>, used: Option<f64>) -> Option<CrankReport> {
    let case = parts.case;
    let index = fastest(&case.loading.duty);
    let step = case.loading.duty.steps().get(index)?;
    let throttle = &case.loading.throttles[case.loading.throttle_of_step[index]];
    let (basis, trace) = (&throttle.basis, &throttle.trace);
    let speed = case.loading.speed(index, case.factor);
    let axial_position_mm = used?;
    let (cut, _) = case.loaded_stations().find(|(_, s)| s.section.position * 1e3 == axial_position_mm)?;
    let moments = rows(basis.angles()).map(|angle| {
        let force = basis.at(angle, speed);
        CrankMomentReport {
            crank_deg: trace.angle_rad(angle).to_degrees(),
            pressure_bar: bar(trace, angle),
            piston_acceleration_m_s2: force.acceleration,
            axial_force_n: basis.section(cut, angle, speed),
            bending_moment_n_mm: None,
            piston_pin_n: force.pin,
            crank_pin_n: None,
            side_thrust_n: Some(force.wall),
        }
    });
    Some(CrankReport {
        rpm: step.rpm,
        throttle: step.throttle,
        axial_position_mm,
        bending_position_mm: None,
        moments: moments.collect(),
    })
}

fn bar(trace: &PressureTrace, angle: usize) -> f64 {
    trace.samples_pa()[angle] / 1e5
}
