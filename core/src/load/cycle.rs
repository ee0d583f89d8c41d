use super::drive::{Drive, TERMS, Terms};
use super::force::{PinForce, SectionForce};
use crate::numeric::{Row, four_sums, greater, one_sum};

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
        let rows = self.rows([axial, shear, bending, side_bending]);
        let [axial, shear, bending, side_bending] = four_sums(&rows, self.squared, self.angles());
        SectionForces { axial, shear, bending, side_bending }
    }

    /// Of [`Self::section`] the axial force alone.
    pub fn axial(&self, plane: usize) -> Vec<f64> {
        one_sum(&self.rows([&self.planes[plane].axial]), self.squared, self.angles())
    }

    /// Greatest push along the rod at a plane over the cycle, N; 0 if it is only pulled.
    pub fn greatest_push(&self, plane: usize) -> f64 {
        self.axial(plane).iter().fold(0.0, |most, axial| greater(most, -axial))
    }

    /// The rows that count in sums with such coefficients.
    fn rows<const SUMS: usize>(&self, coefficients: [&[f64; TERMS]; SUMS]) -> Vec<Row<'_, SUMS>> {
        let of = |term: usize| Row {
            factors: coefficients.map(|row| row[term]),
            first: &self.gas.rows[term],
            second: &self.inertia.rows[term],
        };
        (0..TERMS).map(of).filter(|row| row.factors.iter().any(|factor| *factor != 0.0)).collect()
    }
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
