use nalgebra::{Matrix3, Point3, SVector, Vector3, Vector6};

use super::error::FieldError;
use super::held::Solution;
use super::model::FieldModel;
use super::moments::Moments;
use super::surface::{self, SurfacePatch, SurfacePoint};
use crate::field::element;
use crate::numeric::{map_in_order, map_pieces};

/// Force per mass that changes evenly with place, as that of any rigid motion does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForceField {
    /// At the origin of the coordinates, N/kg.
    pub at_origin: Vector3<f64>,
    /// Change with place, N/(kg m).
    pub gradient: Matrix3<f64>,
}

impl ForceField {
    /// The same everywhere.
    pub fn even(force: Vector3<f64>) -> Self {
        Self { at_origin: force, gradient: Matrix3::zeros() }
    }

    /// This and `factor` times another.
    #[must_use]
    pub fn plus(self, other: &Self, factor: f64) -> Self {
        Self { at_origin: self.at_origin + other.at_origin * factor, gradient: self.gradient + other.gradient * factor }
    }

    /// Away from an axis turning at `speed` (rad/s).
    pub fn centrifugal(point: &Point3<f64>, axis: &Vector3<f64>, speed: f64) -> Self {
        let axis = axis.try_normalize(0.0).unwrap_or_default();
        let gradient = (Matrix3::identity() - axis * axis.transpose()) * (speed * speed);
        Self { at_origin: -gradient * point.coords, gradient }
    }
}

/// Forces on the nodes of a model, and strains that come without stress.
#[derive(Debug, Clone)]
pub struct Load {
    pub(super) forces: Vec<f64>,
    /// For every filled cell the strain that heat alone would make, if any heat is in the load.
    pub(super) free_strain: Option<Vec<Vector6<f64>>>,
}

/// Force on a surface at a point with its outward unit normal, Pa.
type Traction<'a> = dyn Fn(&Point3<f64>, &Vector3<f64>) -> Vector3<f64> + Sync + Send + 'a;

impl Load {
    /// No load on `model`.
    pub fn none(model: &FieldModel) -> Self {
        Self { forces: vec![0.0; model.lines.len()], free_strain: None }
    }

    /// Adds a force per area on facets, `traction(point, outward normal)` in Pa.
    pub fn traction(
        self,
        model: &FieldModel,
        facets: &[usize],
        traction: impl Fn(&Point3<f64>, &Vector3<f64>) -> Vector3<f64> + Sync + Send,
    ) -> Result<Self, FieldError> {
        self.traction_on(model, &model.surface(facets), traction)
    }

    /// The same on a surface that is known already.
    pub fn traction_on(
        self,
        model: &FieldModel,
        surface: &SurfacePatch,
        traction: impl Fn(&Point3<f64>, &Vector3<f64>) -> Vector3<f64> + Sync + Send,
    ) -> Result<Self, FieldError> {
        self.pulled(model, surface, &traction)
    }

    /// Compiled once, here, whatever is asked for the traction.
    fn pulled(
        mut self,
        model: &FieldModel,
        surface: &SurfacePatch,
        traction: &Traction<'_>,
    ) -> Result<Self, FieldError> {
        let points = &surface.points;
        if points.is_empty() {
            return Err(FieldError::NoSurface { what: "load" });
        }
        let forces = map_in_order(points.len(), |n| {
            let SurfacePoint { point, area, .. } = &points[n];
            traction(point, &(area / area.norm())) * area.norm()
        });
        for (point, force) in points.iter().zip(forces).filter(|(_, force)| *force != Vector3::zeros()) {
            for (corner, weight) in point.weights.iter().enumerate() {
                for component in 0..3 {
                    self.forces[model.place(point.cell, 3 * corner + component)] += weight * force[component];
                }
            }
        }
        Ok(self)
    }

    /// Adds an even pressure on facets, Pa.
    pub fn pressure(self, model: &FieldModel, facets: &[usize], pressure: f64) -> Result<Self, FieldError> {
        self.traction(model, facets, |_, normal| -normal * pressure)
    }

    /// Adds the push of a pin in a bore with the resultant `force` (N): pressure as the cosine of the angle from the
    /// direction of the force, over half the bore.
    ///
    /// A quick stand-in for contact; with clearance the true pressure is narrower and higher.
    pub fn cosine_push(
        self,
        model: &FieldModel,
        facets: &[usize],
        axis_point: &Point3<f64>,
        axis: &Vector3<f64>,
        force: &Vector3<f64>,
    ) -> Result<Self, FieldError> {
        let axis = axis.try_normalize(0.0).unwrap_or_default();
        let across = force - axis * axis.dot(force);
        let Some(along) = across.try_normalize(0.0) else { return Ok(self) };
        let radial = |point: &Point3<f64>| {
            let arm = point - axis_point;
            (arm - axis * axis.dot(&arm)).try_normalize(0.0).unwrap_or_default()
        };
        let share = |point: &Point3<f64>| radial(point).dot(&along).max(0.0);
        // Scaled to the force by what the facets themselves give for a peak of one.
        let got: Vector3<f64> = surface::points(&model.mesh, &model.voxels, facets)
            .iter()
            .map(|p| radial(&p.point) * (share(&p.point) * p.area.norm()))
            .sum();
        let reached = got.dot(&along);
        if reached <= 0.0 {
            return Err(FieldError::NoSurface { what: "pin" });
        }
        let peak = across.norm() / reached;
        self.traction(model, facets, |point, _| radial(point) * (share(point) * peak))
    }

    /// Adds a force on the whole mass, with the density of the solid material (kg/m³).
    pub fn body(mut self, model: &FieldModel, density: f64, field: &ForceField) -> Result<Self, FieldError> {
        let density = FieldError::positive("the density", density)?;
        let grid = *model.voxels.grid();
        let volume = grid.cell_volume() / 8.0;
        model.for_each_cell(|cell, index, moments| {
            let middle = Vector3::from_fn(|axis, _| cell[axis] as f64 + 0.5);
            let at_middle = field.at_origin + field.gradient * grid.in_metres(&middle).coords;
            let slopes = field.gradient * Matrix3::from_diagonal(&(grid.cell / 2.0));
            let mass = density * volume * model.mass_share(index);
            let forces = body_forces(moments, &at_middle, &slopes) * mass;
            model.scatter(cell, &forces, &mut self.forces);
        });
        Ok(self)
    }

    /// Adds what `warmer(point)` kelvin above the stress-free state do.
    #[must_use]
    pub fn warmth(self, model: &FieldModel, warmer: impl Fn(&Point3<f64>) -> f64) -> Self {
        self.warmed(model, &warmer)
    }

    fn warmed(mut self, model: &FieldModel, warmer: &dyn Fn(&Point3<f64>) -> f64) -> Self {
        let grid = *model.voxels.grid();
        let mut strains = self.free_strain.take().unwrap_or_else(|| vec![Vector6::zeros(); model.voxels.filled()]);
        let mut number = 0;
        let expansion = *model.stiffness.expansion();
        model.for_each_cell(|cell, index, moments| {
            let centre = Vector3::new(moments[1], moments[3], moments[9]) / (2.0 * moments[0]);
            let at = Vector3::from_fn(|axis, _| cell[axis] as f64 + 0.5) + centre;
            let strain = expansion * warmer(&grid.in_metres(&at));
            let stress = model.element.stress(&strain) * model.stiffness_share(index);
            model.scatter(cell, &model.element.forces_of_stress(moments, &stress), &mut self.forces);
            strains[number] += strain;
            number += 1;
        });
        self.free_strain = Some(strains);
        self
    }

    /// Adds `factor` times another load.
    #[must_use]
    pub fn plus(mut self, other: &Self, factor: f64) -> Self {
        self.forces.iter_mut().zip(&other.forces).for_each(|(a, b)| *a += factor * b);
        if let Some(strains) = &other.free_strain {
            let own = self.free_strain.get_or_insert_with(|| vec![Vector6::zeros(); strains.len()]);
            own.iter_mut().zip(strains).for_each(|(a, b)| *a += b * factor);
        }
        self
    }

    /// Adds so much of each of several other loads; only forces are taken, not what comes without stress.
    #[must_use]
    pub(super) fn plus_forces(mut self, model: &FieldModel, others: &[Self], factors: &[f64]) -> Self {
        let bounds = model.lines.bounds();
        map_pieces(&mut self.forces, bounds, |piece, part| {
            for (other, &factor) in others.iter().zip(factors) {
                let other = &other.forces[bounds[piece]..bounds[piece + 1]];
                part.iter_mut().zip(other).for_each(|(force, added)| *force += factor * added);
            }
        });
        self
    }

    /// For every filled cell the strain that heat alone would make, if any heat is in the load.
    pub fn free_strain(self) -> Option<Vec<Vector6<f64>>> {
        self.free_strain
    }

    /// Where it acts, for its work on many solutions.
    pub fn footprint(&self) -> Footprint {
        let acting = self.forces.iter().enumerate().filter(|(_, force)| **force != 0.0);
        Footprint { forces: acting.map(|(place, force)| (place, *force)).collect() }
    }

    /// Sum of all forces, N.
    pub fn resultant(&self, model: &FieldModel) -> Vector3<f64> {
        let mut sum = Vector3::zeros();
        for line in 0..model.lines.lines() {
            let (_, length) = model.lines.stretch(line);
            for (t, force) in self.forces[model.lines.range(line)].iter().enumerate() {
                sum[t / length.max(1)] += force;
            }
        }
        sum
    }
}

/// The nodes at which a load acts, with its forces.
#[derive(Debug, Clone, Default)]
pub struct Footprint {
    /// Rising places of a vector.
    pub(super) forces: Vec<(usize, f64)>,
}

impl Footprint {
    /// The load that acts there alone.
    pub fn load(&self, model: &FieldModel) -> Load {
        let mut load = Load::none(model);
        self.forces.iter().for_each(|&(place, force)| load.forces[place] = force);
        load
    }

    /// Work of the forces on the displacements of a solution, N m.
    pub fn work(&self, solution: &Solution) -> f64 {
        self.forces.iter().map(|&(place, force)| force * solution.displacement[place]).sum()
    }
}

/// Corner forces of a force per mass, linear in the cell, for a density of one and half the cell's edges.
fn body_forces(moments: &Moments, at_middle: &Vector3<f64>, slopes: &Matrix3<f64>) -> SVector<f64, 24> {
    const STEP: [usize; 3] = [1, 3, 9];
    let mut forces = SVector::zeros();
    for (corner, terms) in element::shape_polynomials().iter().enumerate() {
        for &(number, factor) in terms {
            let mut force = at_middle * moments[number];
            for (axis, step) in STEP.iter().enumerate() {
                force += slopes.column(axis) * moments[number + step];
            }
            for component in 0..3 {
                forces[3 * corner + component] += factor * force[component];
            }
        }
    }
    forces
}
