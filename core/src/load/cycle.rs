use super::drive::{Drive, TERMS, Terms};
use super::force::{PinForce, SectionForce};
use crate::numeric::greater;

/// All forces over one cycle at one speed: put together anew when asked for, as a duty of many steps would fill memory.
#[derive(Debug, Clone)]
pub struct CycleForces<'a> {
    planes: &'a [Terms],
    gas: &'a Drive,
    /// At 1 rad/s.
    inertia: &'a Drive,
    /// Square of the crank's angular velocity, rad²/s².
    squared: f64,
}

/// Forces at one plane at every crank angle, N and N m; see [`SectionForce`].
#[derive(Debug, Clone, Default)]
pub struct SectionForces {
    /// Axial force.
    pub axial: Vec<f64>,
    /// Shear force.
    pub shear: Vec<f64>,
    /// Bending moment.
    pub bending: Vec<f64>,
    /// Bending moment out of the plane of the engine.
    pub side_bending: Vec<f64>,
}

impl<'a> CycleForces<'a> {
    pub(super) fn new(planes: &'a [Terms], gas: &'a Drive, inertia: &'a Drive, squared: f64) -> Self {
        Self { planes, gas, inertia, squared }
    }

    /// Crank angles in the cycle.
    pub fn angles(&self) -> usize {
        self.gas.angles()
    }

    /// Force of the piston pin on the rod.
    pub fn small_end(&self, angle: usize) -> PinForce {
        self.gas.small_end(angle).plus(&self.inertia.small_end(angle), self.squared)
    }

    /// Force of the crank pin on the rod.
    pub fn big_end(&self, angle: usize) -> PinForce {
        self.gas.big_end(angle).plus(&self.inertia.big_end(angle), self.squared)
    }

    /// Square of the rod's own angular velocity, rad²/s².
    pub fn spin_squared(&self, angle: usize) -> f64 {
        self.gas.spin_squared(angle) + self.squared * self.inertia.spin_squared(angle)
    }

    /// Forces at a plane at every angle.
    pub fn section(&self, plane: usize) -> SectionForces {
        let Terms { axial, shear, bending, side_bending } = &self.planes[plane];
        let [axial, shear, bending, side_bending] = self.sums([axial, shear, bending, side_bending]);
        SectionForces { axial, shear, bending, side_bending }
    }

    /// Of [`Self::section`] the axial force alone.
    pub fn axial(&self, plane: usize) -> Vec<f64> {
        let [axial] = self.sums([&self.planes[plane].axial]);
        axial
    }

    /// Greatest push along the rod at a plane over the cycle, N; 0 if it is only pulled.
    pub fn greatest_push(&self, plane: usize) -> f64 {
        self.axial(plane).iter().fold(0.0, |most, axial| greater(most, -axial))
    }

    /// A few angles at a time stay at hand while the rows are added up, for all sums at once.
    fn sums<const SUMS: usize>(&self, coefficients: [&[f64; TERMS]; SUMS]) -> [Vec<f64>; SUMS] {
        const TOGETHER: usize = 8;
        let angles = self.angles();
        let rows: Vec<_> = (0..TERMS)
            .map(|term| (coefficients.map(|row| row[term]), &self.gas.rows[term], &self.inertia.rows[term]))
            .filter(|(coefficients, ..)| coefficients.iter().any(|coefficient| *coefficient != 0.0))
            .collect();
        let mut sums = [(); SUMS].map(|()| Vec::with_capacity(angles));
        let whole = angles - angles % TOGETHER;
        for from in (0..whole).step_by(TOGETHER) {
            let mut together = [[0.0; TOGETHER]; SUMS];
            for (coefficients, gas, inertia) in &rows {
                let (Some(gas), Some(inertia)) = (chunk::<TOGETHER>(gas, from), chunk::<TOGETHER>(inertia, from))
                else {
                    continue;
                };
                let values: [f64; TOGETHER] = core::array::from_fn(|k| gas[k] + self.squared * inertia[k]);
                for (together, coefficient) in together.iter_mut().zip(coefficients) {
                    for k in 0..TOGETHER {
                        together[k] += coefficient * values[k];
                    }
                }
            }
            for (sum, together) in sums.iter_mut().zip(&together) {
                sum.extend_from_slice(together);
            }
        }
        for angle in whole..angles {
            for (number, sum) in sums.iter_mut().enumerate() {
                let of = |(coefficients, gas, inertia): &([f64; SUMS], &Vec<f64>, &Vec<f64>)| {
                    coefficients[number] * (gas[angle] + self.squared * inertia[angle])
                };
                sum.push(rows.iter().map(of).sum());
            }
        }
        sums
    }
}

fn chunk<const LONG: usize>(row: &[f64], from: usize) -> Option<&[f64; LONG]> {
    row.get(from..from + LONG)?.try_into().ok()
}

impl SectionForces {
    /// Forces at one angle.
    pub fn at(&self, angle: usize) -> SectionForce {
        SectionForce {
            axial: self.axial[angle],
            shear: self.shear[angle],
            bending: self.bending[angle],
            side_bending: self.side_bending[angle],
        }
    }

    /// Crank angles in the cycle.
    pub fn angles(&self) -> usize {
        self.axial.len()
    }
}
