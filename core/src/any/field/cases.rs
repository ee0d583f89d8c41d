use std::sync::Arc;

use nalgebra::{DMatrix, Matrix3, Vector2, Vector3, Vector6};

use super::bands::{BANDS, RoundBore, RoundPush};
use super::contact::{Condensed, Motions};
use super::spread::{Bonded, EvenPressure};
use crate::Error;
use crate::any::prepared::PreparedAny;
use crate::field::{FieldModel, Footprint, ForceField, Grid, Solution};
use crate::job::{JobError, LoadKind, PlaceError};
use crate::verdict::FieldRequest;
use crate::verdict::field::{Acting, SolvedCases, Solving, UnitCase};

/// A part of any kind solved for its unit cases: the bands of every pin, then the loads that are no pin's.
#[derive(Debug, Clone)]
pub(crate) struct AnyField {
    pub(crate) solved: SolvedCases,
    /// Of each load the number of its case; none of a force that a pin brings.
    pub(crate) case_of_load: Vec<Option<usize>>,
    /// Bores of the pins.
    pub(crate) bores: Vec<Arc<RoundBore>>,
    /// How they press; cases of bands are the first ones, in its order.
    pub(crate) condensed: Condensed,
}

/// The bands of all pins as cases.
struct Bands {
    bores: Vec<Arc<RoundBore>>,
    of_pin: Vec<core::ops::Range<usize>>,
    areas: Vec<f64>,
    forces: Vec<Vector2<f64>>,
}

impl AnyField {
    pub(crate) fn new(prepared: &PreparedAny, request: FieldRequest, solving: &mut Solving<'_>) -> Result<Self, Error> {
        let PreparedAny { scenario, part, print, .. } = prepared;
        let material = scenario.material();
        let grid = Grid::round(&part.mesh, request.cells)?;
        let stiffness = material.stiffness(&print.build)?;
        let model = FieldModel::with_inside(part.mesh.clone(), grid, stiffness, &print.into())?;
        let mut cases = Vec::new();
        let bands = bands(prepared, &model, &mut cases)?;
        let pressed = cases.len();
        let mut case_of_load = Vec::new();
        for load in &prepared.given.loads {
            let case = acting(prepared, &model, &load.kind)
                .ok_or_else(|| PlaceError::Load { load: load.name.clone(), said: "finds no surface that can take it" })
                .map_err(JobError::from)?;
            case_of_load.push(match case {
                Case::Own(acting) => {
                    cases.push(UnitCase { name: load.name.clone(), acting });
                    Some(cases.len() - 1)
                }
                Case::ByPin => None,
            });
        }
        let others = cases.len() - pressed;
        let mut work = DMatrix::zeros(pressed, pressed);
        let mut loads = DMatrix::zeros(pressed, others);
        let middle = model.middle();
        let see = |number: usize, solution: &Solution, footprints: &[Footprint]| {
            for (row, footprint) in footprints.iter().take(pressed).enumerate() {
                let done = footprint.work(solution);
                match number.checked_sub(pressed) {
                    Some(load) => loads[(row, load)] = done,
                    None => work[(row, number)] = done,
                }
            }
        };
        let (supports, density) = (prepared.supports.clone(), material.density);
        let solved = SolvedCases::held(model, density, (supports, cases), solving, see)?;
        let work = (&work + work.transpose()) / 2.0;
        let motions = motions(prepared, &bands, &solved, &middle.coords, pressed);
        let Bands { bores, of_pin, areas, forces } = bands;
        let condensed = Condensed { of_pin, work, loads, areas, forces, motions };
        Ok(Self { solved, case_of_load, bores, condensed })
    }

    /// Cases of bands.
    pub(crate) fn pressed(&self) -> usize {
        self.condensed.areas.len()
    }
}

/// Adds the bands of every pin.
fn bands(prepared: &PreparedAny, model: &FieldModel, cases: &mut Vec<UnitCase>) -> Result<Bands, JobError> {
    let mut all = Bands { bores: Vec::new(), of_pin: Vec::new(), areas: Vec::new(), forces: Vec::new() };
    for pin in &prepared.pins {
        let place = &prepared.found[pin.place];
        let bore = Arc::new(RoundBore::new(&pin.bore, &place.patch));
        let (mut areas, mut forces) = ([0.0; BANDS], [Vector3::zeros(); BANDS]);
        for (point, area) in model.surface(bore.facets()).points() {
            let size = area.norm();
            let touches = bore.touches(point, &(area / size));
            for (band, share) in bore.shares(point).into_iter().filter(|_| touches) {
                areas[band] += share * size;
                forces[band] -= area * share;
            }
        }
        let first = cases.len();
        let whole: f64 = areas.iter().sum();
        for band in (0..BANDS).filter(|&band| areas[band] > LEAST * whole) {
            let acting = Acting::Surface(Arc::new(RoundPush(bore.clone(), band)));
            let name = format!("{}, pin at {:.0}°", place.name, band as f64 * 360.0 / BANDS as f64);
            cases.push(UnitCase { name, acting });
            all.areas.push(areas[band]);
            all.forces.push(bore.square(&forces[band]));
        }
        if cases.len() == first {
            let reason = "it has no wall".into();
            return Err(PlaceError::Pin { place: place.name.to_string(), reason }.into());
        }
        all.of_pin.push(first..cases.len());
        all.bores.push(bore);
    }
    Ok(all)
}

/// A band with less than this share of the wall has none.
const LEAST: f64 = 1e-4;

/// How a load comes into the field.
enum Case {
    /// As a case of its own, for the load once.
    Own(Acting),
    /// By a pin.
    ByPin,
}

/// What a load does; `None` where no surface takes it.
fn acting(prepared: &PreparedAny, model: &FieldModel, kind: &LoadKind) -> Option<Case> {
    let patch = |at: usize| prepared.found[at].patch.clone();
    let bonded = |at: usize, force: &Vector3<f64>, moment: &Vector3<f64>| {
        Some(Case::Own(Acting::Surface(Arc::new(Bonded::new(model, patch(at), force, moment)?))))
    };
    match *kind {
        LoadKind::Force { at, .. } if prepared.pins.iter().any(|pin| pin.place == at) => Some(Case::ByPin),
        LoadKind::Force { at, force, .. } => bonded(at, &force, &Vector3::zeros()),
        LoadKind::Moment { at, moment } => bonded(at, &Vector3::zeros(), &moment),
        LoadKind::Pressure { at, pressure } => {
            Some(Case::Own(Acting::Surface(Arc::new(EvenPressure { patch: patch(at), pressure }))))
        }
        LoadKind::Acceleration(along) => Some(Case::Own(Acting::Mass(ForceField::even(-along)))),
        LoadKind::Spin { about, speed } => {
            let place = &prepared.found[about];
            Some(Case::Own(Acting::Mass(ForceField::centrifugal(&place.center, &place.axis, speed))))
        }
    }
}

/// A motion that moves no pin by more than this share of the one that moves them most is none that they resist.
const RESISTED: f64 = 1e-6;

/// Motions of a floating part that its holding pins resist: those that move the middle of their bores across them.
fn motions(
    prepared: &PreparedAny,
    bands: &Bands,
    solved: &SolvedCases,
    middle: &Vector3<f64>,
    pressed: usize,
) -> Motions {
    let holds: Vec<usize> = (0..prepared.pins.len()).filter(|&pin| prepared.pins[pin].holds).collect();
    if prepared.held() || holds.is_empty() {
        return Motions::default();
    }
    // Turns are told as shifts at a lever, so that both are of one size.
    let lever = prepared.part.mesh.length() / 2.0;
    let mut jacobian = DMatrix::zeros(2 * holds.len(), 6);
    for (row, &pin) in holds.iter().enumerate() {
        let bore = &bands.bores[pin];
        let arm = bore.center().coords - middle;
        for motion in 0..6 {
            let axis = Vector3::ith(motion % 3, 1.0);
            let moved = bore.square(&if motion < 3 { axis } else { axis.cross(&arm) / lever });
            (0..2).for_each(|k| jacobian[(2 * row + k, motion)] = moved[k]);
        }
    }
    let squares = jacobian.transpose() * &jacobian;
    let parts = squares.symmetric_eigen();
    let most = parts.eigenvalues.amax();
    let resisted: Vec<usize> = (0..6).filter(|&k| parts.eigenvalues[k] > RESISTED * most).collect();
    let basis = DMatrix::from_fn(6, resisted.len(), |r, c| parts.eigenvectors[(r, resisted[c])]);
    let felt = &jacobian * &basis;
    let mut at_pins = DMatrix::zeros(2 * prepared.pins.len(), resisted.len());
    for (row, &pin) in holds.iter().enumerate() {
        for k in 0..2 {
            (0..resisted.len()).for_each(|motion| at_pins[(2 * pin + k, motion)] = felt[(2 * row + k, motion)]);
        }
    }
    let scale = Matrix3::identity() * lever;
    let along = |of: &Vector6<f64>| {
        let turns: Vector3<f64> = scale * Vector3::new(of[3], of[4], of[5]);
        let scaled = Vector6::new(of[0], of[1], of[2], turns.x, turns.y, turns.z);
        basis.transpose() * scaled
    };
    let accelerations: Vec<_> = solved.accelerations().iter().map(along).collect();
    let by = |from: usize, to: usize| DMatrix::from_fn(resisted.len(), to - from, |r, c| accelerations[from + c][r]);
    Motions { count: resisted.len(), at_pins, by_bands: by(0, pressed), by_loads: by(pressed, accelerations.len()) }
}
