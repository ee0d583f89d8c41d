use super::build::PistonParts;
use crate::kind::report::{bar, fastest, rows};
use crate::report::{CrankMomentReport, CrankReport};

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
