use crate::engine::SliderCrank;

/// Masses of a piston along its axis: plastic, and what hangs on it.
#[derive(Debug, Clone, PartialEq)]
pub struct PistonMass {
    planes: Vec<f64>,
    /// Mass above each plane, kg: plastic, rings and plates whose middle lies above it.
    above: Vec<f64>,
    plastic: f64,
    carried: f64,
    pin: f64,
}

impl PistonMass {
    /// From the plastic's mass in each slab between and beyond the planes (kg, one more than planes, from below), what it
    /// carries with its height (rings, plates; kg, m over the pin axis), and the pin (kg).
    pub fn new(planes: Vec<f64>, slabs: &[f64], carried: &[(f64, f64)], pin: f64) -> Self {
        let plastic: f64 = slabs.iter().sum();
        let mut below = 0.0;
        let above = planes
            .iter()
            .zip(slabs)
            .map(|(&plane, slab)| {
                below += slab;
                plastic - below + carried.iter().filter(|(height, _)| *height > plane).map(|(_, kg)| kg).sum::<f64>()
            })
            .collect();
        Self { planes, above, plastic, carried: carried.iter().map(|(_, kg)| kg).sum(), pin }
    }

    /// The same piston with more plastic (kg, negative for less) at a height over the pin axis, m.
    #[must_use]
    pub fn with_plastic(&self, height: f64, more: f64) -> Self {
        let above =
            self.planes.iter().zip(&self.above).map(|(&plane, kg)| if height > plane { kg + more } else { *kg });
        Self { above: above.collect(), plastic: self.plastic + more, ..self.clone() }
    }

    /// The same piston with more on its crown, kg.
    #[must_use]
    pub fn with_on_top(&self, more: f64) -> Self {
        let above = self.above.iter().map(|kg| kg + more).collect();
        Self { above, carried: self.carried + more, ..self.clone() }
    }

    /// The plastic alone, kg.
    pub fn plastic(&self) -> f64 {
        self.plastic
    }

    /// What the bosses move: plastic, rings and plates, kg.
    pub fn on_bosses(&self) -> f64 {
        self.plastic + self.carried
    }

    /// Everything that goes to and fro with the piston, pin included, kg.
    pub fn whole(&self) -> f64 {
        self.on_bosses() + self.pin
    }

    /// Mass above a plane, kg.
    pub fn above(&self, plane: usize) -> f64 {
        self.above[plane]
    }

    /// Heights of the planes, m over the pin axis.
    pub fn planes(&self) -> &[f64] {
        &self.planes
    }
}

/// Forces on a piston at every crank angle, ready for any speed.
///
/// Directions as in [`crate::engine`]: u toward the head, w to the side. The rod is taken without mass of its own, so it
/// pushes along its line; friction is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct PistonBasis {
    mass: PistonMass,
    /// Gas force toward the crank, N.
    gas: Vec<f64>,
    /// Gas pressure less that under the piston, Pa.
    pressure: Vec<f64>,
    /// Acceleration toward the head at 1 rad/s, m.
    acceleration: Vec<f64>,
    /// Tangent of the rod angle.
    lean: Vec<f64>,
}

/// Forces at one crank angle, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PistonForce {
    /// Gas less pressure below, toward the crank.
    pub gas: f64,
    /// Acceleration toward the head, m/s².
    pub acceleration: f64,
    /// Pin on bosses, toward the head: a push where positive, a pull where negative.
    pub pin: f64,
    /// Pin on bosses, to the side.
    pub pin_side: f64,
    /// Cylinder wall on skirt, to the side.
    pub wall: f64,
}

impl PistonBasis {
    /// `pressure` is that of the gas less that under the piston at equal crank steps, Pa; `area` that of the cylinder, m².
    pub fn new(mass: PistonMass, crank: &SliderCrank, pressure: Vec<f64>, area: f64, step: f64) -> Self {
        let states: Vec<_> = (0..pressure.len()).map(|i| crank.at(i as f64 * step, 1.0)).collect();
        Self {
            gas: pressure.iter().map(|p| p * area).collect(),
            acceleration: states.iter().map(|s| s.piston_acceleration_m_s2).collect(),
            lean: states.iter().map(|s| libm::tan(s.rod_angle_rad)).collect(),
            mass,
            pressure,
        }
    }

    /// Crank angles.
    pub fn angles(&self) -> usize {
        self.gas.len()
    }

    /// The masses.
    pub fn mass(&self) -> &PistonMass {
        &self.mass
    }

    /// Gas pressure less that under the piston, Pa.
    pub fn pressure(&self, angle: usize) -> f64 {
        self.pressure[angle]
    }

    /// Acceleration toward the head, m/s².
    pub fn acceleration(&self, angle: usize, speed: f64) -> f64 {
        self.acceleration[angle] * speed * speed
    }

    /// Forces at a crank angle and speed, rad/s.
    pub fn at(&self, angle: usize, speed: f64) -> PistonForce {
        let acceleration = self.acceleration(angle, speed);
        let gas = self.gas[angle];
        // The rod holds pin and piston; the side of its push goes through the pin into the skirt.
        let rod = gas + self.mass.whole() * acceleration;
        let pin_side = -rod * self.lean[angle];
        PistonForce { gas, acceleration, pin: gas + self.mass.on_bosses() * acceleration, pin_side, wall: -pin_side }
    }

    /// Axial force through the plastic at a plane, N, tension positive.
    pub fn section(&self, plane: usize, angle: usize, speed: f64) -> f64 {
        let acceleration = self.acceleration(angle, speed);
        let above = self.mass.above(plane);
        if self.mass.planes[plane] > 0.0 {
            -self.gas[angle] - above * acceleration
        } else {
            (self.mass.on_bosses() - above) * acceleration
        }
    }
}
