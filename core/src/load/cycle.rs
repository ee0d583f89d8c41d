use super::drive::{Drive, TERMS, Terms};
use super::force::{PinForce, SectionForce};
use crate::numeric::greater;

/// All forces over one cycle at one speed.
#[derive(Debug, Clone)]
pub struct CycleForces<'a> {
    planes: &'a [Terms],
    drive: Drive,
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
    pub(super) fn new(planes: &'a [Terms], drive: Drive) -> Self {
        Self { planes, drive }
    }

    /// Crank angles in the cycle.
    pub fn angles(&self) -> usize {
        self.drive.angles()
    }

    /// Force of the piston pin on the rod.
    pub fn small_end(&self, angle: usize) -> PinForce {
        self.drive.small_end(angle)
    }

    /// Force of the crank pin on the rod.
    pub fn big_end(&self, angle: usize) -> PinForce {
        self.drive.big_end(angle)
    }

    /// Square of the rod's own angular velocity, rad²/s².
    pub(crate) fn spin_squared(&self, angle: usize) -> f64 {
        self.drive.spin_squared(angle)
    }

    /// Forces at a plane at every angle.
    pub fn section(&self, plane: usize) -> SectionForces {
        let terms = &self.planes[plane];
        SectionForces {
            axial: self.sum(&terms.axial),
            shear: self.sum(&terms.shear),
            bending: self.sum(&terms.bending),
            side_bending: self.sum(&terms.side_bending),
        }
    }

    /// Of [`Self::section`] the axial force alone.
    pub fn axial(&self, plane: usize) -> Vec<f64> {
        self.sum(&self.planes[plane].axial)
    }

    /// Greatest push along the rod at a plane over the cycle, N; 0 if it is only pulled.
    pub fn greatest_push(&self, plane: usize) -> f64 {
        self.sum(&self.planes[plane].axial).iter().fold(0.0, |most, axial| greater(most, -axial))
    }

    /// A few angles at a time stay at hand while the rows are added up.
    fn sum(&self, coefficients: &[f64; TERMS]) -> Vec<f64> {
        const TOGETHER: usize = 8;
        let rows = self.drive.rows.iter().zip(coefficients).filter(|(_, coefficient)| **coefficient != 0.0);
        let rows: Vec<_> = rows.map(|(row, &coefficient)| (row.as_chunks::<TOGETHER>(), coefficient)).collect();
        let angles = self.angles();
        let mut sum = Vec::with_capacity(angles);
        for number in 0..angles / TOGETHER {
            let mut together = [0.0; TOGETHER];
            for &((row, _), coefficient) in &rows {
                let values = &row[number];
                for k in 0..TOGETHER {
                    together[k] += coefficient * values[k];
                }
            }
            sum.extend_from_slice(&together);
        }
        let of = |angle: usize| rows.iter().map(|((_, rest), coefficient)| coefficient * rest[angle]).sum::<f64>();
        sum.extend((0..angles % TOGETHER).map(of));
        sum
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
