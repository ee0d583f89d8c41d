use super::force::{PinForce, SectionForce};
use super::rod_mass::RodMass;
use crate::engine::CrankState;
use crate::section::VolumeMoments;

/// Terms that the force at any plane is a sum of.
pub(crate) const TERMS: usize = 9;

// The first four are the rod's motion: acceleration of the small-end centre along and across the rod, angular
// acceleration, angular velocity squared. Then come the forces of the piston pin and of the crank pin.
const SPIN_SQUARED: usize = 3;
const SMALL_ALONG: usize = 4;
const SMALL_ACROSS: usize = 5;
const BIG_ALONG: usize = 6;
const BIG_ACROSS: usize = 7;
/// Side moment per length from the pair of side forces that holds the rod in its plane.
const SIDE_SLOPE: usize = 8;

/// What drives the rod at every crank angle: its motion and its pin forces, one row for each term.
#[derive(Debug, Clone)]
pub(crate) struct Drive {
    pub(crate) rows: [Vec<f64>; TERMS],
}

impl Drive {
    /// The gas on a rod without mass; `gas_force` is toward the crank, N.
    pub(super) fn of_gas(rod: &RodMass, states: &[CrankState], gas_force: &[f64]) -> Self {
        let still = Motion { along: 0.0, across: 0.0, spin: 0.0, spin_squared: 0.0 };
        Self::of(rod, states, |angle, _| (still, -gas_force[angle]))
    }

    /// The rod's own mass and what moves with the piston, at a crank speed of 1 rad/s.
    pub(super) fn of_inertia(rod: &RodMass, states: &[CrankState], reciprocating_mass: f64) -> Self {
        Self::of(rod, states, |_, state| (Motion::of(state), -reciprocating_mass * state.piston_acceleration_m_s2))
    }

    /// `drive` gives the motion and the force of the piston on the rod along the cylinder, toward the head.
    fn of(rod: &RodMass, states: &[CrankState], drive: impl Fn(usize, &CrankState) -> (Motion, f64)) -> Self {
        let mut rows: [Vec<f64>; TERMS] = core::array::from_fn(|_| Vec::with_capacity(states.len()));
        for (angle, state) in states.iter().enumerate() {
            let (motion, toward_head) = drive(angle, state);
            let [along, across, turning, side_turning] = motion.rates(rod.whole());
            let (x, y) = (state.rod_direction(), state.rod_side_direction());
            // Moments about the crank pin give the part of the piston-pin force across the rod; what the piston cannot
            // give along the cylinder comes from the cylinder wall.
            let small_across = across - turning / rod.length();
            let sideways = (small_across - toward_head * y[0]) / y[1];
            let small = PinForce { along: toward_head * x[0] + sideways * x[1], across: small_across };
            let big = PinForce { along: along - small.along, across: across - small.across };
            // The pair of side forces at the pins makes the outer end free of side bending.
            let side_slope = -(side_turning - rod.big_end_z() * big.along) / rod.length();
            let state = [
                motion.along,
                motion.across,
                motion.spin,
                motion.spin_squared,
                small.along,
                small.across,
                big.along,
                big.across,
                side_slope,
            ];
            for (row, value) in rows.iter_mut().zip(state) {
                row.push(value);
            }
        }
        Self { rows }
    }

    pub(super) fn angles(&self) -> usize {
        self.rows[0].len()
    }

    pub(super) fn spin_squared(&self, angle: usize) -> f64 {
        self.rows[SPIN_SQUARED][angle]
    }

    pub(super) fn small_end(&self, angle: usize) -> PinForce {
        PinForce { along: self.rows[SMALL_ALONG][angle], across: self.rows[SMALL_ACROSS][angle] }
    }

    pub(super) fn big_end(&self, angle: usize) -> PinForce {
        PinForce { along: self.rows[BIG_ALONG][angle], across: self.rows[BIG_ACROSS][angle] }
    }
}

/// Plane motion of the rod seen from its frame: acceleration of the small-end centre, and rotation.
#[derive(Clone, Copy)]
struct Motion {
    along: f64,
    across: f64,
    spin: f64,
    spin_squared: f64,
}

impl Motion {
    fn of(state: &CrankState) -> Self {
        let (x, y) = (state.rod_direction(), state.rod_side_direction());
        let piston = state.piston_acceleration_m_s2;
        Self {
            along: piston * x[0],
            across: piston * y[0],
            // The body turns against the sense in which the rod angle is counted.
            spin: -state.rod_angular_acceleration_rad_s2,
            spin_squared: state.rod_angular_velocity_rad_s * state.rod_angular_velocity_rad_s,
        }
    }

    /// Rate of momentum of a mass: along, across, and its moments about the origin round `z` and round `y`.
    fn rates(&self, mass: &VolumeMoments) -> [f64; 4] {
        let state = [self.along, self.across, self.spin, self.spin_squared];
        momentum_rows(mass).map(|row| row.iter().zip(state).map(|(coefficient, value)| coefficient * value).sum())
    }
}

/// Rows that make the rate of momentum of a mass (along, across, moment round `z`, moment round `y`) from the rod's
/// acceleration along and across, spin, and spin squared.
fn momentum_rows(mass: &VolumeMoments) -> [[f64; 4]; 4] {
    let [x, y, z] = mass.first;
    [[mass.volume, 0.0, -y, -x], [0.0, mass.volume, x, -y], [-y, x, mass.polar, 0.0], [z, 0.0, -mass.yz, -mass.xz]]
}

/// How the forces at one plane follow from the terms of a [`Drive`]: axial force, shear, bending, side bending.
#[derive(Debug, Clone)]
pub(crate) struct Terms {
    pub(crate) axial: [f64; TERMS],
    pub(crate) shear: [f64; TERMS],
    pub(crate) bending: [f64; TERMS],
    pub(crate) side_bending: [f64; TERMS],
}

impl Terms {
    /// Newton and Euler for the material before the plane.
    pub(super) fn of(rod: &RodMass, plane: usize) -> Self {
        let position = rod.planes()[plane];
        let [y_center, z_center] = rod.centers()[plane];
        let [mut axial, mut shear, turning, side_turning] = momentum_rows(rod.below(plane)).map(|row| {
            let mut wide = [0.0; TERMS];
            wide[..4].copy_from_slice(&row);
            wide
        });
        // Material beyond a bore centre hangs free of that pin's force.
        if position >= 0.0 {
            axial[SMALL_ALONG] -= 1.0;
            shear[SMALL_ACROSS] -= 1.0;
        }
        let past_big_end = position > rod.length();
        if past_big_end {
            axial[BIG_ALONG] -= 1.0;
            shear[BIG_ACROSS] -= 1.0;
        }
        let mut bending: [f64; TERMS] =
            core::array::from_fn(|k| turning[k] - position * shear[k] + y_center * axial[k]);
        let mut side_bending: [f64; TERMS] = core::array::from_fn(|k| side_turning[k] - z_center * axial[k]);
        side_bending[SIDE_SLOPE] += position.clamp(0.0, rod.length());
        if past_big_end {
            bending[BIG_ACROSS] -= rod.length();
            side_bending[BIG_ALONG] -= rod.big_end_z();
        }
        Self { axial, shear, bending, side_bending }
    }

    /// The forces for the terms of one angle.
    pub(super) fn force(&self, state: &[f64; TERMS]) -> SectionForce {
        let sum = |row: &[f64; TERMS]| row.iter().zip(state).map(|(coefficient, value)| coefficient * value).sum();
        SectionForce {
            axial: sum(&self.axial),
            shear: sum(&self.shear),
            bending: sum(&self.bending),
            side_bending: sum(&self.side_bending),
        }
    }
}
