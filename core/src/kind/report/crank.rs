use crate::engine::{Duty, PressureTrace};

/// Angles of the cycle in the table, about.
pub(crate) const ROWS: usize = 180;

/// The fastest step; of equally fast ones that with the widest throttle.
pub(crate) fn fastest(duty: &Duty) -> usize {
    let steps = duty.steps().iter().enumerate();
    let order = |step: &crate::engine::DutyStep| (step.rpm, step.throttle);
    steps
        .max_by(|(_, a), (_, b)| order(a).0.total_cmp(&order(b).0).then(order(a).1.total_cmp(&order(b).1)))
        .map_or(0, |(index, _)| index)
}

/// Indices of the angles in the table.
pub(crate) fn rows(angles: usize) -> impl Iterator<Item = usize> {
    (0..angles).step_by((angles / ROWS).max(1))
}

/// Pressure at an angle, bar.
pub(crate) fn bar(trace: &PressureTrace, angle: usize) -> f64 {
    trace.samples_pa()[angle] / 1e5
}
