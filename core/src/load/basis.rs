use super::rod_mass::RodMass;
use crate::engine::{CrankState, SliderCrank};
use crate::section::VolumeMoments;

/// Force on the rod at a pin, in the rod's frame, N.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PinForce {
    /// Along the rod, toward the big end.
    pub along: f64,
    /// Across the rod.
    pub across: f64,
}

/// What the material beyond a plane does to the material before it, about the section's centroid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionForce {
    /// Axial force N, tension positive, N.
    pub axial: f64,
    /// Shear force V across the rod in the plane of the engine, N.
    pub shear: f64,
    /// Bending moment about the pin-parallel axis, N m; the stress it makes is `-moment y / I`.
    pub bending: f64,
    /// Bending moment about the `y` axis, out of the plane of the engine, N m; the stress it makes is `moment z / I`.
    pub side_bending: f64,
}

impl SectionForce {
    fn combined(gas: &Self, inertia: &Self, speed_squared: f64) -> Self {
        Self {
            axial: gas.axial + speed_squared * inertia.axial,
            shear: gas.shear + speed_squared * inertia.shear,
            bending: gas.bending + speed_squared * inertia.bending,
            side_bending: gas.side_bending + speed_squared * inertia.side_bending,
        }
    }
}

/// Pin and section forces of one pressure trace, split into what the gas does and what inertia does at 1 rad/s.
#[derive(Debug, Clone)]
pub struct LoadBasis {
    angles: usize,
    planes: usize,
    gas: Share,
    inertia: Share,
}

#[derive(Debug, Clone)]
struct Share {
    small_end: Vec<PinForce>,
    big_end: Vec<PinForce>,
    /// `[plane][angle]`.
    sections: Vec<SectionForce>,
}

impl LoadBasis {
    /// Forces over one cycle.
    ///
    /// `gas_force[i]` is the force of the gas on the piston toward the crank, N, at crank angle `i * step`; the
    /// reciprocating mass (kg) is what moves with the piston: piston, rings, pin.
    pub fn new(rod: &RodMass, crank: &SliderCrank, reciprocating_mass: f64, gas_force: &[f64], step: f64) -> Self {
        let states: Vec<CrankState> = (0..gas_force.len()).map(|i| crank.at(i as f64 * step, 1.0)).collect();
        let still = Motion { along: 0.0, across: 0.0, spin: 0.0, spin_squared: 0.0 };
        let gas = Share::of(rod, &states, |i, _| (still, -gas_force[i]));
        let inertia = Share::of(rod, &states, |_, state| {
            (Motion::of(state), -reciprocating_mass * state.piston_acceleration_m_s2)
        });
        Self { angles: gas_force.len(), planes: rod.planes().len(), gas, inertia }
    }

    /// Crank angles in the cycle.
    pub fn angles(&self) -> usize {
        self.angles
    }

    /// Planes along the rod.
    pub fn planes(&self) -> usize {
        self.planes
    }

    /// Force of the piston pin on the rod at an angular speed of the crank, rad/s.
    pub fn small_end(&self, angle: usize, angular_speed: f64) -> PinForce {
        combined(self.gas.small_end[angle], self.inertia.small_end[angle], angular_speed)
    }

    /// Force of the crank pin on the rod.
    pub fn big_end(&self, angle: usize, angular_speed: f64) -> PinForce {
        combined(self.gas.big_end[angle], self.inertia.big_end[angle], angular_speed)
    }

    /// Greatest push along the rod at a plane over the cycle, N; 0 if it is only pulled.
    pub fn greatest_push(&self, plane: usize, angular_speed: f64) -> f64 {
        let squared = angular_speed * angular_speed;
        let here = plane * self.angles..(plane + 1) * self.angles;
        let shares = self.gas.sections[here.clone()].iter().zip(&self.inertia.sections[here]);
        shares.map(|(gas, inertia)| -(gas.axial + squared * inertia.axial)).fold(0.0, f64::max)
    }

    /// Force and moments at a plane.
    pub fn section(&self, plane: usize, angle: usize, angular_speed: f64) -> SectionForce {
        let at = plane * self.angles + angle;
        SectionForce::combined(&self.gas.sections[at], &self.inertia.sections[at], angular_speed * angular_speed)
    }
}

fn combined(gas: PinForce, inertia: PinForce, angular_speed: f64) -> PinForce {
    let squared = angular_speed * angular_speed;
    PinForce { along: gas.along + squared * inertia.along, across: gas.across + squared * inertia.across }
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
        let [x, y, z] = mass.first;
        [
            mass.volume * self.along - self.spin * y - self.spin_squared * x,
            mass.volume * self.across + self.spin * x - self.spin_squared * y,
            x * self.across - y * self.along + self.spin * mass.polar,
            z * self.along - self.spin * mass.yz - self.spin_squared * mass.xz,
        ]
    }
}

impl Share {
    /// `drive` gives the motion and the force of the piston on the rod along the cylinder, toward the head.
    fn of(rod: &RodMass, states: &[CrankState], drive: impl Fn(usize, &CrankState) -> (Motion, f64)) -> Self {
        let (angles, planes) = (states.len(), rod.planes().len());
        let mut share = Self {
            small_end: Vec::with_capacity(angles),
            big_end: Vec::with_capacity(angles),
            sections: vec![SectionForce::default(); angles * planes],
        };
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
            share.small_end.push(small);
            share.big_end.push(big);
            // A pair of side forces at the pins holds the rod in its plane; it makes the outer end free of side bending.
            let end_axial = along - small.along;
            let side_slope = -(side_turning - rod.big_end_z() * end_axial) / rod.length();
            for plane in 0..planes {
                let position = rod.planes()[plane];
                let [y_center, z_center] = rod.centers()[plane];
                let [along, across, turning, side_turning] = motion.rates(rod.below(plane));
                // Material beyond a bore centre hangs free of that pin's force.
                let pin = if position >= 0.0 { small } else { PinForce::default() };
                let beyond = if position > rod.length() { big } else { PinForce::default() };
                let axial = along - pin.along - beyond.along;
                let shear = across - pin.across - beyond.across;
                let side_arm = position.clamp(0.0, rod.length());
                share.sections[plane * angles + angle] = SectionForce {
                    axial,
                    shear,
                    bending: turning - position * shear + y_center * axial - rod.length() * beyond.across,
                    side_bending: side_turning - z_center * axial + side_slope * side_arm
                        - rod.big_end_z() * beyond.along,
                };
            }
        }
        share
    }
}
