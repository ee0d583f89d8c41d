use super::build::Parts;
use crate::load::PinForce;
use crate::rod::place::End;

/// Greatest forces of a pin over the duty, N.
#[derive(Default)]
pub(crate) struct PinForces {
    /// Toward the rod's end.
    pub(crate) pull: f64,
    /// Toward the shank.
    pub(crate) push: f64,
    /// In any direction.
    pub(crate) greatest: f64,
}

impl PinForces {
    pub(crate) fn of(parts: &Parts<'_>, end: End) -> Self {
        let mut found = Self::default();
        for (step, &basis) in parts.loading.duty.steps().iter().zip(&parts.loading.basis_of_step) {
            let (basis, speed) = (&parts.loading.bases[basis], step.angular_speed_rad_s());
            for angle in 0..basis.angles() {
                let (PinForce { along, across }, outward) = match end {
                    End::Small => (basis.small_end(angle, speed), -1.0),
                    End::Big => (basis.big_end(angle, speed), 1.0),
                };
                found.pull = found.pull.max(along * outward);
                found.push = found.push.max(-along * outward);
                found.greatest = found.greatest.max(libm::hypot(along, across));
            }
        }
        found
    }
}
