use super::build::Parts;
use crate::kind::report::{bar, fastest, rows};
use crate::report::{CrankMomentReport, CrankReport};

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
