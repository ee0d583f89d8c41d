use nalgebra::Vector2;

use crate::load::{SectionForce, SectionForces};
use crate::section::{AreaProperties, Loop};

/// A corner of a section far from its centroid, with the stress there per unit of each force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fibre {
    /// Where it lies in the plane, m from the centroid.
    pub offset: Vector2<f64>,
    per_axial: f64,
    per_bending: f64,
    per_side_bending: f64,
}

impl Fibre {
    /// A point of a section under unsymmetric bending (Timoshenko, Strength of Materials).
    pub fn new(offset: Vector2<f64>, section: &AreaProperties) -> Self {
        let (iy, iz, iyz) = (section.second_moment_y, section.second_moment_z, section.product_moment);
        let determinant = iy * iz - iyz * iyz;
        let (y, z) = (offset.x, offset.y);
        Self {
            offset,
            per_axial: 1.0 / section.area,
            per_bending: (iyz * z - iy * y) / determinant,
            per_side_bending: (iz * z - iyz * y) / determinant,
        }
    }

    /// The same with all stress times a factor.
    #[must_use]
    pub fn raised(self, factor: f64) -> Self {
        Self {
            per_axial: self.per_axial * factor,
            per_bending: self.per_bending * factor,
            per_side_bending: self.per_side_bending * factor,
            ..self
        }
    }

    /// Stress along the rod, Pa.
    pub fn stress(&self, force: &SectionForce) -> f64 {
        self.per_axial * force.axial + self.per_bending * force.bending + self.per_side_bending * force.side_bending
    }

    /// Stress along the rod at every crank angle, Pa.
    pub fn stresses<'a>(&'a self, forces: &'a SectionForces) -> impl Iterator<Item = f64> + 'a {
        let parts = forces.axial.iter().zip(&forces.bending).zip(&forces.side_bending);
        parts.map(|((axial, bending), side_bending)| {
            self.per_axial * axial + self.per_bending * bending + self.per_side_bending * side_bending
        })
    }
}

/// The corners of a section that lie farthest out in eight directions, each once.
pub fn extreme_fibres(loops: &[Loop], section: &AreaProperties) -> Vec<Fibre> {
    const HALF: f64 = core::f64::consts::FRAC_1_SQRT_2;
    const DIRECTIONS: [[f64; 2]; 8] =
        [[1.0, 0.0], [HALF, HALF], [0.0, 1.0], [-HALF, HALF], [-1.0, 0.0], [-HALF, -HALF], [0.0, -1.0], [HALF, -HALF]];
    let corners = || loops.iter().flatten().map(|point| point - section.centroid);
    let size = corners().map(|corner| corner.norm()).fold(0.0, f64::max);
    let mut fibres: Vec<Fibre> = Vec::new();
    for [y, z] in DIRECTIONS {
        let (toward, beside) = (Vector2::new(y, z), Vector2::new(-z, y));
        let reach = corners().map(|corner| toward.dot(&corner)).fold(f64::NEG_INFINITY, f64::max);
        // Of a side that lies square to the direction its end, however it is divided and whatever rounding says.
        let farthest = corners()
            .filter(|corner| toward.dot(corner) >= reach - ALIKE * size)
            .max_by(|a, b| beside.dot(a).total_cmp(&beside.dot(b)));
        if let Some(offset) = farthest
            && !fibres.iter().any(|known| (known.offset - offset).norm() <= ALIKE * size)
        {
            fibres.push(Fibre::new(offset, section));
        }
    }
    fibres
}

/// Corners nearer to each other than this share of the section are one, as far as 32-bit coordinates can tell.
const ALIKE: f64 = 1e-5;

/// Greatest shear stress over the mean V / A for shear along `y`, from the breadth at the centroid:
/// `A Q / (I b)` with Q and b cut from the section itself (Zhuravskii; Timoshenko, Strength of Materials).
pub fn web_shear_factor(loops: &[Loop], section: &AreaProperties) -> f64 {
    let level = section.centroid.x;
    let (mut first_moment, mut breadth) = (0.0, 0.0);
    for ring in loops {
        for (k, &a) in ring.iter().enumerate() {
            let b = ring[(k + 1) % ring.len()];
            let (ya, yb) = (a.x - level, b.x - level);
            // The part of the region beyond the level, by Green's theorem with the field y²/2 along z.
            if ya > 0.0 || yb > 0.0 {
                let (ca, cb) = clipped_above(ya, yb);
                let share = if yb == ya { 1.0 } else { (cb - ca) / (yb - ya) };
                let rise = (b.y - a.y) * share;
                first_moment += rise * (ca * ca + ca * cb + cb * cb) / 6.0;
            }
            if (ya > 0.0) != (yb > 0.0) {
                let z = a.y + (b.y - a.y) * ya / (ya - yb);
                breadth += if yb > 0.0 { -z } else { z };
            }
        }
    }
    let (first_moment, breadth) = (first_moment.abs(), breadth.abs());
    if breadth <= 0.0 || section.second_moment_z <= 0.0 {
        return 1.5;
    }
    section.area * first_moment / (section.second_moment_z * breadth)
}

/// The part of a run from `a` to `b` that is above zero.
fn clipped_above(a: f64, b: f64) -> (f64, f64) {
    (a.max(0.0), b.max(0.0))
}
