use super::force::PinForce;
use super::rod_mass::RodMass;
use crate::engine::SliderCrank;

/// A rod as two masses at its bore centres, with the true centre of mass but not the true inertia.
///
/// The textbook short cut (Heywood; Taylor), kept as a check on the rigid-body model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoMass {
    /// Mass at the small end, kg.
    pub small_end: f64,
    /// Mass at the big end, kg.
    pub big_end: f64,
}

impl TwoMass {
    /// Shares the mass of a rod so that its centre of mass stays.
    pub fn of(rod: &RodMass) -> Self {
        let big_end = rod.mass() * rod.center_of_mass() / rod.length();
        Self { small_end: rod.mass() - big_end, big_end }
    }
}

/// Force of the piston pin on such a rod along its own direction, at a crank angle (rad) and angular speed (rad/s).
///
/// `gas_force` as in [`super::basis::LoadBasis::new`]. The small-end mass moves with the piston; between the masses the rod
/// only pushes and pulls.
pub fn two_mass_pin_forces(
    rod: &TwoMass,
    crank: &SliderCrank,
    reciprocating_mass: f64,
    gas_force: f64,
    crank_angle: f64,
    angular_speed: f64,
) -> (PinForce, PinForce) {
    let state = crank.at(crank_angle, angular_speed);
    let (x, y) = (state.rod_direction(), state.rod_side_direction());
    let acceleration = state.piston_acceleration_m_s2;
    // Along the cylinder, toward the head: what moves the small-end mass with the piston.
    let link = (gas_force + (reciprocating_mass + rod.small_end) * acceleration) / x[0];
    let small =
        PinForce { along: rod.small_end * acceleration * x[0] - link, across: rod.small_end * acceleration * y[0] };
    let [u, w] = state.crank_pin_acceleration_m_s2;
    let big =
        PinForce { along: rod.big_end * (u * x[0] + w * x[1]) + link, across: rod.big_end * (u * y[0] + w * y[1]) };
    (small, big)
}
