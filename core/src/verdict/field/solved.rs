use core::fmt::Debug;
use std::sync::Arc;

use nalgebra::{Point3, Vector3, Vector6};

use super::corners::SharpCorners;
use super::points::SurfacePoints;
use super::warmth::Warmth;
use crate::Error;
use crate::field::{
    Accuracy, FieldError, FieldModel, Footprint, ForceField, FreeModel, Gauges, InertiaRelief, Load, Solution, Support,
    SurfacePatch, TOGETHER,
};
use crate::numeric::map_in_order;

/// A pressure on part of a surface: what one unit case does there.
pub(crate) trait Pressing: Debug + Send + Sync {
    /// Facets that it may reach.
    fn facets(&self) -> &[usize];

    /// Pressure at a point of the surface with its outward unit normal, Pa; 0 beside its facets.
    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64;

    /// Force on the surface there, Pa: a pressure unless it is said otherwise.
    fn traction(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> Vector3<f64> {
        -normal * self.pressure(point, normal)
    }
}

/// What one unit case does to a part.
#[derive(Debug, Clone)]
pub(crate) enum Acting {
    /// On its surface.
    Surface(Arc<dyn Pressing>),
    /// On all of its mass.
    Mass(ForceField),
    /// By its own warmth.
    Warmth(Warmth),
}

impl Acting {
    pub(crate) fn load(&self, model: &FieldModel, density: f64) -> Result<Load, FieldError> {
        let load = Load::none(model);
        match self {
            Self::Surface(on) => Self::pushed(load, model, &model.surface(on.facets()), on.as_ref()),
            Self::Mass(field) => load.body(model, density, field),
            Self::Warmth(warmth) => Ok(load.warmth(model, |point| warmth.at(point))),
        }
    }

    fn pushed(load: Load, model: &FieldModel, surface: &SurfacePatch, on: &dyn Pressing) -> Result<Load, FieldError> {
        load.traction_on(model, surface, |point, normal| on.traction(point, normal))
    }

    fn traction(&self, (point, normal): &(Point3<f64>, Vector3<f64>)) -> Vector3<f64> {
        match self {
            Self::Surface(on) => on.traction(point, normal),
            Self::Mass(_) | Self::Warmth(_) => Vector3::zeros(),
        }
    }
}

/// A unit case before it is solved.
#[derive(Debug, Clone)]
pub(crate) struct UnitCase {
    /// In words.
    pub(crate) name: String,
    pub(crate) acting: Acting,
}

/// One unit case and how its solution came about.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldCase {
    /// In words.
    pub name: String,
    /// Iterations of the solver.
    pub iterations: usize,
    /// Residual over the load at the end.
    pub residual: f64,
}

/// Components in the order xx, yy, zz, yz, zx, xy.
pub(crate) type Stress = [f32; 6];

/// A part solved for its unit cases: a floating one, each case balanced by its own inertia, or one held by supports.
#[derive(Debug, Clone)]
pub(crate) struct SolvedCases {
    /// Edge of a cell, m.
    pub(crate) edge: f64,
    pub(crate) cases: Vec<FieldCase>,
    pub(crate) points: SurfacePoints,
    pub(crate) corners: SharpCorners,
    /// Stress of every case at every point, Pa, the cases of one point together; none where no material was near.
    stresses: Vec<Stress>,
    model: FieldModel,
    acting: Vec<Acting>,
    /// How each case moves the part, m; empty where that would take too much room.
    displacements: Vec<Vec<f32>>,
    /// Of each case the accelerations of the part, see [`FreeSolution`](crate::field::FreeSolution).
    accelerations: Vec<Vector6<f64>>,
    /// Of the solid material, kg/m³.
    density: f64,
    /// What holds it; nothing where it floats.
    supports: Vec<Support>,
}

/// Room for displacements, numbers of four bytes.
const ROOM: usize = 150_000_000;

/// Displacements in double precision that are kept at a time: 96 megabytes of them.
const KEPT: usize = 12_000_000;

/// Residual to which cases are solved: stresses follow a few times as much, far below what cells leave out.
const RESIDUAL: f64 = 3e-5;

/// A sharp inner corner is felt so many cells from it: as far as a fit of strains reaches over it.
const CORNER_REACH: f64 = 2.0;

/// Told before each solve of its name, its number and how many there are; whether to go on.
pub(crate) type Solving<'a> = dyn FnMut(&str, usize, usize) -> bool + 'a;

impl SolvedCases {
    /// Solves the cases; `density` is that of the solid material, kg/m³. Each solution is shown to `seen` with its number
    /// and the footprints of all cases on the surface.
    pub(crate) fn new(
        model: FieldModel,
        density: f64,
        cases: Vec<UnitCase>,
        solving: &mut Solving<'_>,
        seen: impl FnMut(usize, &Solution, &[Footprint]),
    ) -> Result<Self, Error> {
        Self::held(model, density, (Vec::new(), cases), solving, seen)
    }

    /// The same of a part held by supports that push and pull; with none it floats.
    pub(crate) fn held(
        model: FieldModel,
        density: f64,
        (supports, cases): (Vec<Support>, Vec<UnitCase>),
        solving: &mut Solving<'_>,
        mut seen: impl FnMut(usize, &Solution, &[Footprint]),
    ) -> Result<Self, Error> {
        let edge = libm::cbrt(model.voxels().grid().cell_volume());
        let points = SurfacePoints::new(model.mesh(), model.voxels(), edge);
        let gauges = Gauges::new(&model, &points.points);
        let mut free =
            if supports.is_empty() { FreeModel::new(&model, density)? } else { FreeModel::held(&model, &supports)? };
        let accuracy = Accuracy { residual: RESIDUAL, ..Accuracy::default() };
        let (count, of) = (points.points.len(), cases.len());
        let (footprints, free_strains) = footprints(&model, density, &cases)?;
        let mut stresses = vec![[f32::NAN; 6]; count * of];
        let (mut displacements, mut accelerations) = (Vec::new(), Vec::new());
        let mut solved = Vec::with_capacity(of);
        let together = (KEPT / model.unknowns().max(1)).max(TOGETHER);
        for first in (0..of).step_by(together) {
            let some = first..of.min(first + together);
            let mut told = first;
            let solutions = free.solve_each(&footprints[some], &accuracy, |numbers| {
                numbers.iter().all(|&number| {
                    told += 1;
                    solving(&cases[first + number].name, told - 1, of)
                })
            })?;
            let Some(solutions) = solutions else { return Err(Error::Cancelled) };
            for (part, solutions) in solutions.chunks(TOGETHER).enumerate() {
                let first = first + part * TOGETHER;
                let whole: Vec<Solution> = map_in_order(solutions.len(), |n| free.whole(&solutions[n]));
                let strains = free_strains[first..].iter().map(Option::as_deref);
                let states: Vec<_> = whole.iter().zip(strains).collect();
                let traction = |n: usize, point: usize| cases[first + n].acting.traction(&points.points[point]);
                gauges.stresses_each(&states, traction, |n, point, stress| {
                    stresses[point * of + first + n] = stress.map(|s| s as f32).into();
                });
                for (number, solution) in (first..).zip(whole) {
                    let (iterations, residual) = (solution.iterations(), solution.residual());
                    solved.push(FieldCase { name: cases[number].name.clone(), iterations, residual });
                    seen(number, &solution, &footprints);
                    if solution.displacements().len().saturating_mul(of) <= ROOM {
                        displacements.push(solution.displacements().iter().map(|&u| u as f32).collect::<Vec<f32>>());
                    }
                }
            }
            accelerations.extend(solutions.iter().map(|solution| solution.accelerations));
        }
        drop((gauges, free));
        let held = supports.iter().flat_map(|support| support.facets.iter().copied());
        let corners = SharpCorners::new(model.mesh(), CORNER_REACH * edge).and_rims(model.mesh(), held);
        let acting = cases.into_iter().map(|case| case.acting).collect();
        Ok(Self {
            edge,
            cases: solved,
            points,
            corners,
            stresses,
            model,
            acting,
            displacements,
            accelerations,
            density,
            supports,
        })
    }

    /// How the mass of a floating part is accelerated by each case: three shifts, m/s², and three turns about the middle of its
    /// box, rad/s².
    pub(crate) fn accelerations(&self) -> &[Vector6<f64>] {
        &self.accelerations
    }

    /// What holds it; nothing where it floats.
    pub(crate) fn supports(&self) -> &[Support] {
        &self.supports
    }

    /// The part as cells.
    pub(crate) fn model(&self) -> &FieldModel {
        &self.model
    }

    /// Cells that hold material.
    pub(crate) fn cells(&self) -> usize {
        self.model.voxels().filled()
    }

    /// Cases.
    pub(crate) fn count(&self) -> usize {
        self.cases.len()
    }

    /// Stresses of all cases at a point, Pa.
    pub(crate) fn at(&self, point: usize) -> &[Stress] {
        &self.stresses[point * self.count()..(point + 1) * self.count()]
    }

    /// Whether stresses are known at a point.
    pub(crate) fn known(&self, point: usize) -> bool {
        self.at(point).iter().flatten().all(|value| value.is_finite())
    }

    /// The point of known stresses nearest to a place, on a surface that faces likewise.
    pub(crate) fn nearest(&self, place: &Point3<f64>, normal: &Vector3<f64>) -> Option<usize> {
        let points = &self.points.points;
        let away = |&n: &usize| (points[n].0 - place).norm_squared();
        let alike = (0..points.len()).filter(|&n| points[n].1.dot(normal) > 0.9 && self.known(n));
        alike.min_by(|a, b| away(a).total_cmp(&away(b)))
    }

    /// Displacements when there is so much of each case, m.
    pub(crate) fn displacement(&self, state: &[f32]) -> Option<Vec<f64>> {
        let mut sum = vec![0.0; self.displacements.first()?.len()];
        for (moved, &factor) in self.displacements.iter().zip(state).filter(|(_, factor)| **factor != 0.0) {
            let factor = f64::from(factor);
            sum.iter_mut().zip(moved).for_each(|(total, &u)| *total += factor * f64::from(u));
        }
        Some(sum)
    }

    /// All loads on a window of the model when there is so much of each case.
    pub(crate) fn load(&self, window: &FieldModel, state: &[f32]) -> Result<Load, FieldError> {
        let accelerations: Vector6<f64> =
            self.accelerations.iter().zip(state).map(|(of, &factor)| of * f64::from(factor)).sum();
        // About the middle of the whole, not of the window.
        let mut forces = InertiaRelief::field(&self.model, &accelerations);
        let mut facets = Vec::new();
        let mut load = Load::none(window);
        for (acting, &factor) in self.acting.iter().zip(state).filter(|(_, factor)| **factor != 0.0) {
            let factor = f64::from(factor);
            match acting {
                Acting::Surface(on) => facets.extend_from_slice(on.facets()),
                Acting::Mass(field) => forces = forces.plus(field, factor),
                Acting::Warmth(warmth) => load = load.warmth(window, |point| factor * warmth.at(point)),
            }
        }
        facets.sort_unstable();
        facets.dedup();
        let load = load.body(window, self.density, &forces)?;
        let at = |point: &Point3<f64>, normal: &Vector3<f64>| self.traction(state, &(*point, *normal));
        match load.clone().traction(window, &facets, at) {
            // The window does not reach the surfaces that are pressed.
            Err(FieldError::NoSurface { .. }) => Ok(load),
            loaded => loaded,
        }
    }

    /// Force on the surface at a point when there is so much of each case, Pa.
    pub(crate) fn traction(&self, state: &[f32], at: &(Point3<f64>, Vector3<f64>)) -> Vector3<f64> {
        let acting = self.acting.iter().zip(state).filter(|(_, factor)| **factor != 0.0);
        acting.map(|(acting, &factor)| acting.traction(at) * f64::from(factor)).sum()
    }
}

/// Strains that come without stress, of every filled cell.
type FreeStrains = Option<Vec<Vector6<f64>>>;

/// Where each case acts, and the strains it makes without stress; cases on the same facets follow each other, and share the
/// points of their surface.
fn footprints(
    model: &FieldModel,
    density: f64,
    cases: &[UnitCase],
) -> Result<(Vec<Footprint>, Vec<FreeStrains>), FieldError> {
    let mut surfaces: Vec<(&[usize], SurfacePatch)> = Vec::new();
    let mut of_case = Vec::with_capacity(cases.len());
    for case in cases {
        of_case.push(match &case.acting {
            Acting::Surface(on) => {
                if surfaces.last().is_none_or(|(facets, _)| *facets != on.facets()) {
                    surfaces.push((on.facets(), model.surface(on.facets())));
                }
                Some((on, surfaces.len() - 1))
            }
            _ => None,
        });
    }
    let footprints = map_in_order(cases.len(), |n| {
        let load = match of_case[n] {
            Some((on, surface)) => Acting::pushed(Load::none(model), model, &surfaces[surface].1, on.as_ref())?,
            None => cases[n].acting.load(model, density)?,
        };
        Ok((load.footprint(), load.free_strain()))
    });
    footprints.into_iter().collect::<Result<Vec<_>, _>>().map(|of| of.into_iter().unzip())
}
