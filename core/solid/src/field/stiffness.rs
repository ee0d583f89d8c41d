use nalgebra::{Matrix3, Matrix6, Vector3, Vector6};

use super::error::FieldError;
use crate::numeric::unit;

/// Stress from strain in the frame of the grid, Pa.
///
/// Components in the order xx, yy, zz, yz, zx, xy; shear strains are the full angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stiffness {
    matrix: Matrix6<f64>,
    expansion: Vector6<f64>,
}

/// Axes of each component.
pub(super) const PAIRS: [(usize, usize); 6] = [(0, 0), (1, 1), (2, 2), (1, 2), (2, 0), (0, 1)];

impl Stiffness {
    /// The same in every direction.
    pub fn isotropic(modulus: f64, poisson_ratio: f64) -> Result<Self, FieldError> {
        let modulus = FieldError::positive("Young's modulus", modulus)?;
        let shear = modulus / (2.0 * (1.0 + poisson_ratio));
        Self::transverse([modulus, modulus], shear, [poisson_ratio; 2], &Vector3::z())
    }

    /// Transversely isotropic about `axis`: Young's moduli square to it and along it, shear modulus along it, and the
    /// contraction ratios square to it and along it under a pull square to it (Lekhnitskii, Theory of Elasticity of an
    /// Anisotropic Body).
    pub fn transverse(
        modulus: [f64; 2],
        shear: f64,
        poisson_ratio: [f64; 2],
        axis: &Vector3<f64>,
    ) -> Result<Self, FieldError> {
        let [level, upright] = modulus;
        for value in [level, upright, shear] {
            FieldError::positive("a modulus", value)?;
        }
        let [beside, along] = poisson_ratio;
        if !(beside > -1.0 && beside < 1.0 && 2.0 * along * along * upright / level < 1.0 - beside) {
            return Err(FieldError::Unstable { reason: "Poisson's ratio is too large for the moduli" });
        }
        let axis = unit(axis).ok_or(FieldError::Unstable { reason: "the build direction is the zero vector" })?;
        let mut compliance = Matrix6::zeros();
        for k in 0..2 {
            compliance[(k, k)] = 1.0 / level;
            compliance[(k, 1 - k)] = -beside / level;
            compliance[(k, 2)] = -along / level;
            compliance[(2, k)] = -along / level;
            compliance[(3 + k, 3 + k)] = 1.0 / shear;
        }
        compliance[(2, 2)] = 1.0 / upright;
        compliance[(5, 5)] = 2.0 * (1.0 + beside) / level;
        let own = compliance.try_inverse().ok_or(FieldError::Unstable { reason: "the moduli differ too much" })?;
        Ok(Self { matrix: turned(&own, &axes(&axis)), expansion: Vector6::zeros() })
    }

    /// With expansion by heat square to `axis` and along it, 1/K.
    pub fn with_expansion(self, level: f64, upright: f64, axis: &Vector3<f64>) -> Result<Self, FieldError> {
        let axis = unit(axis).ok_or(FieldError::Unstable { reason: "the build direction is the zero vector" })?;
        let tensor = Matrix3::identity() * level + axis * axis.transpose() * (upright - level);
        let expansion = Vector6::from_fn(|p, _| {
            let (a, b) = PAIRS[p];
            if a == b { tensor[(a, b)] } else { 2.0 * tensor[(a, b)] }
        });
        Ok(Self { expansion, ..self })
    }

    /// The 6 x 6 matrix, Pa.
    pub fn matrix(&self) -> &Matrix6<f64> {
        &self.matrix
    }

    /// Strain for each kelvin, 1/K.
    pub fn expansion(&self) -> &Vector6<f64> {
        &self.expansion
    }
}

/// Unit vectors whose third is `axis`, as columns.
fn axes(axis: &Vector3<f64>) -> Matrix3<f64> {
    let least = axis.iamin();
    let first = axis.cross(&Vector3::ith(least, 1.0)).normalize();
    Matrix3::from_columns(&[first, axis.cross(&first), *axis])
}

/// A stiffness given in the axes `frame`, in the axes they are given in.
fn turned(own: &Matrix6<f64>, frame: &Matrix3<f64>) -> Matrix6<f64> {
    // Stress and strain turn with matrices that differ in where the factor 2 of shear stands (Ting, Anisotropic
    // Elasticity, 2.5); with the stress matrix M the stiffness becomes M C Mᵀ.
    let turn = Matrix6::from_fn(|p, q| {
        let ((a, b), (c, d)) = (PAIRS[p], PAIRS[q]);
        if c == d {
            frame[(a, c)] * frame[(b, c)]
        } else {
            frame[(a, c)] * frame[(b, d)] + frame[(a, d)] * frame[(b, c)]
        }
    });
    let whole = turn * own * turn.transpose();
    // Equal halves, so that the matrix is symmetric to the last digit.
    (whole + whole.transpose()) / 2.0
}
