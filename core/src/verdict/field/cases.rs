use nalgebra::{DMatrix, Matrix3, Point3, Vector3, Vector6};

use super::bore::{BANDS, Bore};
use super::contact::Compliance;
use super::corners::SharpCorners;
use super::points::SurfacePoints;
use crate::Error;
use crate::check::PreparedRod;
use crate::field::{
    Accuracy, FieldError, FieldModel, Footprint, ForceField, Gauges, Grid, HeldModel, InertiaRelief, Load, Stiffness,
    TOGETHER,
};
use crate::verdict::{End, RodModel, Temperatures};

/// Cells unless said otherwise: about fifteen across a small end's bore, answered in seconds.
pub const USUAL_CELLS: usize = 60_000;

/// What is asked of the stress field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FieldRequest {
    /// About so many cells in the part.
    pub cells: usize,
}

impl Default for FieldRequest {
    fn default() -> Self {
        Self { cells: USUAL_CELLS }
    }
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

/// A rod solved for its unit cases.
#[derive(Debug, Clone)]
pub struct RodField {
    /// Cells that hold material.
    pub cells: usize,
    /// Volume of the cells' material, m³.
    pub volume: f64,
    /// Edge of a cell, m.
    pub edge: f64,
    /// The cases in their order: bands of the small end, its side push, those of the big end, turning, warmth.
    pub cases: Vec<FieldCase>,
    /// Modulus in the layer plane that the cases were solved with, Pa.
    pub(super) modulus: f64,
    pub(super) bores: [SolvedBore; 2],
    /// Of the rod's own turning; the last case is warmth.
    pub(super) turning: usize,
    pub(super) points: SurfacePoints,
    pub(super) corners: SharpCorners,
    /// Stress of every case at every point, Pa, the cases of one point together; none where no material was near.
    pub(super) stresses: Vec<Stress>,
    /// What was solved, for a closer look at the worst places.
    pub(super) solved: SolvedModel,
}

/// The model of the cases and how each moves it.
#[derive(Debug, Clone)]
pub(super) struct SolvedModel {
    pub(super) model: FieldModel,
    /// Of each case; empty where they would take too much room.
    pub(super) displacements: Vec<Vec<f32>>,
    /// Of each case the accelerations of the rod, see [`InertiaRelief::balanced_by`].
    pub(super) accelerations: Vec<Vector6<f64>>,
    /// Of the solid material, kg/m³.
    pub(super) density: f64,
    /// Kelvin above the reference at stations along the rod, m.
    warmth: Vec<(f64, f64)>,
}

/// Room for displacements, numbers of four bytes.
const ROOM: usize = 150_000_000;

impl SolvedModel {
    /// Displacements when there is so much of each case, m.
    pub(super) fn displacement(&self, state: &[f32]) -> Option<Vec<f64>> {
        let mut sum = vec![0.0; self.displacements.first()?.len()];
        for (moved, &factor) in self.displacements.iter().zip(state).filter(|(_, factor)| **factor != 0.0) {
            let factor = f64::from(factor);
            sum.iter_mut().zip(moved).for_each(|(total, &u)| *total += factor * f64::from(u));
        }
        Some(sum)
    }

    /// Accelerations when there is so much of each case.
    pub(super) fn acceleration(&self, state: &[f32]) -> Vector6<f64> {
        self.accelerations.iter().zip(state).map(|(of, &factor)| of * f64::from(factor)).sum()
    }

    /// Kelvin above the reference at a place.
    pub(super) fn warmer(&self, point: &Point3<f64>) -> f64 {
        between(&self.warmth, point.x)
    }
}

/// Of a rising table the value at a place, linear between.
fn between(table: &[(f64, f64)], at: f64) -> f64 {
    if table.len() < 2 {
        return 0.0;
    }
    let above = table.partition_point(|&(x, _)| x <= at).clamp(1, table.len() - 1);
    let ((from, low), (to, high)) = (table[above - 1], table[above]);
    low + ((at - from) / (to - from)).clamp(0.0, 1.0) * (high - low)
}

/// Components in the order xx, yy, zz, yz, zx, xy.
pub(super) type Stress = [f32; 6];

/// A bore with the cases of its pin.
#[derive(Debug, Clone)]
pub(super) struct SolvedBore {
    pub(super) bore: Bore,
    /// Number of the first case of a band.
    pub(super) first: usize,
    /// Bands with a wall under them.
    pub(super) bands: Vec<usize>,
    pub(super) compliance: Compliance,
    /// Number of the case of the side push.
    pub(super) side: usize,
    /// Its pressure straight across, Pa for a force of 1 N.
    pub(super) side_pressure: f64,
}

impl SolvedBore {
    /// Traction on the wall of the bore when there is so much of each case, Pa; `None` elsewhere.
    pub(super) fn traction(&self, state: &[f32], point: &Point3<f64>, normal: &Vector3<f64>) -> Option<Vector3<f64>> {
        self.bore.touches(point, normal).then(|| {
            let of_bands: f64 = (self.bands.iter().enumerate())
                .map(|(k, &band)| f64::from(state[self.first + k]) * self.bore.share(band, point))
                .sum();
            let sideways = f64::from(state[self.side]) * self.side_pressure * self.bore.radial(point).y;
            -normal * (of_bands + sideways)
        })
    }
}

/// Pressure straight across of a side push of 1 N that is spread as the sine of the angle from the rod's end, Pa.
fn side_pressure(field: &FieldModel, bore: &Bore) -> f64 {
    let whole = field.integral(&bore.facets, |p| bore.radial(p).y * bore.radial(p).y);
    if whole > 0.0 { 1.0 / whole } else { 0.0 }
}

/// Told before each solve of its name, its number and how many there are; whether to go on.
pub(crate) type Solving<'a> = dyn FnMut(&str, usize, usize) -> bool + 'a;

/// Residual to which cases are solved: a tenth of a thousandth, of which stresses follow a few times as much.
const RESIDUAL: f64 = 3e-5;

/// A sharp inner corner is felt so many cells from it: as far as a fit of strains reaches over it.
const CORNER_REACH: f64 = 2.0;

/// A load before it is solved.
struct Case {
    name: String,
    load: Load,
    /// The pressure it puts on the surface at a point, Pa.
    on: Acting,
}

#[derive(Clone, Copy)]
enum Acting {
    Nothing,
    Band(usize, usize),
    Side(usize, f64),
}

impl Acting {
    /// Traction on a point of the surface with its outward normal, Pa for a load of one.
    fn traction(self, bores: &[Bore; 2], (at, normal): &(Point3<f64>, Vector3<f64>)) -> Vector3<f64> {
        match self {
            Self::Band(end, band) if bores[end].touches(at, normal) => -normal * bores[end].share(band, at),
            Self::Side(end, size) if bores[end].touches(at, normal) => -normal * (bores[end].radial(at).y * size),
            _ => Vector3::zeros(),
        }
    }
}

impl RodField {
    pub(crate) fn new(
        prepared: &PreparedRod,
        model: &RodModel,
        temperatures: &Temperatures,
        request: FieldRequest,
        solving: &mut Solving<'_>,
    ) -> Result<Self, Error> {
        let PreparedRod { rod, scenario, print, .. } = prepared;
        let eyes = [(End::Small, &rod.small_end), (End::Big, &rod.big_end)];
        if let Some((end, _)) = eyes.iter().find(|(_, eye)| eye.half) {
            return Err(FieldError::Split { what: end.words() }.into());
        }
        let material = scenario.material();
        let grid = Grid::round(&rod.mesh, request.cells)?;
        let edge = libm::cbrt(grid.cell_volume());
        let stiffness = Stiffness::printed(&material, &print.build)?;
        let field = FieldModel::printed(rod.mesh.clone(), grid, stiffness, print)?;
        let relief = InertiaRelief::new(&field, material.density)?;
        let bores = eyes.map(|(end, eye)| Bore::new(end, eye, &rod.frame, &rod.mesh));
        let points = SurfacePoints::new(&rod.mesh, field.voxels(), edge);
        let gauges = Gauges::new(&field, &points.points);
        let (mut cases, placed) = pin_cases(&field, &bores)?;
        let turning = cases.len();
        let away =
            ForceField { at_origin: Vector3::zeros(), gradient: Matrix3::from_diagonal(&[1.0, 1.0, 0.0].into()) };
        let load = Load::none(&field).body(&field, material.density, &away)?;
        cases.push(Case { name: "turning".into(), load, on: Acting::Nothing });
        let warmth = warmth(model, temperatures, scenario.temperature);
        let load = Load::none(&field).warmth(&field, |point| between(&warmth, point.x));
        cases.push(Case { name: "warmth".into(), load, on: Acting::Nothing });

        let held = HeldModel::new(&field, &[])?;
        let accuracy = Accuracy { residual: RESIDUAL, ..Accuracy::default() };
        let (count, of) = (points.points.len(), cases.len());
        let mut stresses = vec![[f32::NAN; 6]; count * of];
        let (mut displacements, mut accelerations) = (Vec::new(), Vec::new());
        let mut solved = Vec::with_capacity(of);
        let mut work = placed.iter().map(|(_, bands, _)| DMatrix::zeros(bands.len(), bands.len())).collect::<Vec<_>>();
        let footprints: Vec<Footprint> = cases.iter().take(turning).map(|case| case.load.footprint()).collect();
        let outward: Vec<Vector3<f64>> = cases.iter().take(turning).map(|case| case.load.resultant(&field)).collect();
        let mut cases = cases.into_iter().enumerate();
        loop {
            let some: Vec<(usize, Case)> = cases.by_ref().take(TOGETHER).collect();
            if some.is_empty() {
                break;
            }
            if some.iter().any(|(number, case)| !solving(&case.name, *number, of)) {
                return Err(Error::Cancelled);
            }
            let mut loads = Vec::with_capacity(some.len());
            let mut kept = Vec::with_capacity(some.len());
            for (number, Case { name, load, on }) in some {
                let (load, acceleration) = relief.balanced_by(&field, load);
                accelerations.push(acceleration);
                loads.push(load);
                kept.push((number, name, on));
            }
            let solutions = held.solve_each(&loads.iter().collect::<Vec<_>>(), &accuracy)?;
            for (((number, name, on), load), solution) in kept.into_iter().zip(&loads).zip(solutions) {
                if solution.displacements().len().saturating_mul(of) <= ROOM {
                    displacements.push(solution.displacements().iter().map(|&u| u as f32).collect::<Vec<f32>>());
                }
                solved.push(FieldCase { name, iterations: solution.iterations(), residual: solution.residual() });
                if let Acting::Band(end, _) = on {
                    let (first, bands, _) = &placed[end];
                    for row in 0..bands.len() {
                        work[end][(row, number - first)] = footprints[first + row].work(&solution);
                    }
                }
                let traction = |point: usize| on.traction(&bores, &points.points[point]);
                for (point, stress) in gauges.stresses(&solution, load, traction).into_iter().enumerate() {
                    if let Some(stress) = stress {
                        stresses[point * of + number] = stress.map(|s| s as f32).into();
                    }
                }
            }
        }
        let mut works = work.into_iter();
        let mut placed = placed.into_iter();
        let solved_bores = bores.map(|bore| {
            let (first, bands, side) = placed.next().unwrap_or_default();
            let areas = bands.iter().map(|&band| field.integral(&bore.facets, |p| bore.share(band, p))).collect();
            let outward = (0..bands.len()).map(|k| outward[first + k].dot(&bore.outward())).collect();
            let work = works.next().unwrap_or_default();
            let side_pressure = side_pressure(&field, &bore);
            SolvedBore { bore, first, bands, compliance: Compliance { work, areas, outward }, side, side_pressure }
        });
        Ok(Self {
            cells: field.voxels().filled(),
            volume: field.voxels().volume(),
            edge,
            cases: solved,
            modulus: material.in_plane_modulus(),
            bores: solved_bores,
            turning,
            points,
            corners: SharpCorners::new(&rod.mesh, CORNER_REACH * edge),
            stresses,
            solved: SolvedModel { displacements, accelerations, density: material.density, warmth, model: field },
        })
    }

    /// Cases.
    pub(super) fn count(&self) -> usize {
        self.cases.len()
    }

    /// Stresses of all cases at a point, Pa.
    pub(super) fn at(&self, point: usize) -> &[Stress] {
        &self.stresses[point * self.count()..(point + 1) * self.count()]
    }

    /// Whether stresses are known at a point.
    pub(super) fn known(&self, point: usize) -> bool {
        self.at(point).iter().flatten().all(|value| value.is_finite())
    }
}

/// First case of a bore, its bands with a wall under them, and the case of its side push.
type Placed = (usize, Vec<usize>, usize);

/// What pins do to both bores: pressures of 1 Pa on every band, and side pushes of 1 N.
fn pin_cases(field: &FieldModel, bores: &[Bore; 2]) -> Result<(Vec<Case>, Vec<Placed>), Error> {
    let mut cases = Vec::new();
    let mut placed = Vec::new();
    for (number, bore) in bores.iter().enumerate() {
        let first = cases.len();
        let bands: Vec<usize> =
            (0..BANDS.len()).filter(|&band| field.integral(&bore.facets, |p| bore.share(band, p)) > 0.0).collect();
        for &band in &bands {
            let load =
                Load::none(field).traction(field, &bore.facets, |point, normal| -normal * bore.share(band, point))?;
            let name = format!("{}, pin at {:.0}°", bore.end.words(), BANDS[band]);
            cases.push(Case { name, load, on: Acting::Band(number, band) });
        }
        let pressure = side_pressure(field, bore);
        if pressure <= 0.0 {
            return Err(FieldError::NoSurface { what: "pin" }.into());
        }
        let load = Load::none(field)
            .traction(field, &bore.facets, |point, normal| -normal * (bore.radial(point).y * pressure))?;
        placed.push((first, bands, cases.len()));
        let name = format!("{}, side push", bore.end.words());
        cases.push(Case { name, load, on: Acting::Side(number, pressure) });
    }
    Ok((cases, placed))
}

/// The stress at a point in a state of so much of each case, Pa.
pub(super) fn combined(cases: &[Stress], state: &[f32]) -> Vector6<f64> {
    let mut sum = [0.0_f32; 6];
    for (stress, &factor) in cases.iter().zip(state) {
        if factor != 0.0 {
            for (total, component) in sum.iter_mut().zip(stress) {
                *total += factor * component;
            }
        }
    }
    Vector6::from(sum.map(f64::from))
}

/// Kelvin above the reference at every station.
fn warmth(model: &RodModel, temperatures: &Temperatures, reference: f64) -> Vec<(f64, f64)> {
    let stations = model.stations.iter().zip(&temperatures.stations);
    stations.map(|(station, kelvin)| (station.section.position, kelvin - reference)).collect()
}
