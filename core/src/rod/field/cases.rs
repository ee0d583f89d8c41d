use nalgebra::{Matrix3, Vector3};

use crate::Error;
use crate::field::{FieldError, FieldModel, ForceField, Grid};
use crate::part::{Eye, Frame};
use crate::rod::model::RodModel;
use crate::rod::place::End;
use crate::rod::prepared::PreparedRod;
use crate::rod::temperatures::Temperatures;
use crate::verdict::FieldRequest;
use crate::verdict::field::{
    Acting, BoreSeat, PinCases, PinnedBore, SolvedBore, SolvedCases, Solving, UnitCase, Warmth,
};

/// A rod solved for its unit cases, in their order: bands of the small end, its side push, those of the big end, turning,
/// warmth.
#[derive(Debug, Clone)]
pub struct RodField {
    pub(crate) solved: SolvedCases,
    /// Modulus in the layer plane that the cases were solved with, Pa.
    pub(crate) modulus: f64,
    /// Small end, big end.
    pub(crate) bores: [SolvedBore; 2],
    /// Whether each bore is but half a round.
    pub(crate) half: [bool; 2],
    /// Of the rod's own turning; the last case is warmth.
    pub(crate) turning: usize,
}

/// Both ends in the order of everything that is kept for two.
pub(crate) const ENDS: [End; 2] = [End::Small, End::Big];

/// Unit vector away from the shank.
pub(crate) fn outward(end: End) -> Vector3<f64> {
    Vector3::x() * if end == End::Small { -1.0 } else { 1.0 }
}

fn bore(end: End, eye: &Eye, frame: &Frame, mesh: &crate::mesh::Mesh) -> PinnedBore {
    let seat = eye.bore.main();
    // Seats are measured along the bore's own axis from its centre.
    let seat = BoreSeat { radius: seat.radius, sagitta: seat.sagitta, from: seat.from, to: seat.to };
    PinnedBore::new(end.words(), mesh, (eye.center, frame.direction(&eye.bore.axis), outward(end)), seat)
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
        let eyes = [&rod.small_end, &rod.big_end];
        if let Some(end) = ENDS.into_iter().find(|&end| eyes[end as usize].half) {
            return Err(FieldError::Split { what: end.words() }.into());
        }
        let material = scenario.material();
        let grid = Grid::round(&rod.mesh, request.cells)?;
        let stiffness = material.stiffness(&print.build)?;
        let field = FieldModel::with_inside(rod.mesh.clone(), grid, stiffness, &print.into())?;
        let mut cases = Vec::new();
        let bores = ENDS.map(|end| bore(end, eyes[end as usize], &rod.frame, &rod.mesh));
        let mut pins = Vec::with_capacity(2);
        for bore in bores {
            pins.push(PinCases::new(&field, bore, &mut cases)?);
        }
        let turning = cases.len();
        let away =
            ForceField { at_origin: Vector3::zeros(), gradient: Matrix3::from_diagonal(&[1.0, 1.0, 0.0].into()) };
        cases.push(UnitCase { name: "turning".into(), acting: Acting::Mass(away) });
        let warmth = Warmth::along(warmth(model, temperatures, scenario.temperature));
        cases.push(UnitCase { name: "warmth".into(), acting: Acting::Warmth(warmth) });
        let solved = SolvedCases::new(field, material.density, cases, solving, |number, solution, footprints| {
            for pin in &mut pins {
                pin.see(number, solution, footprints);
            }
        })?;
        let mut pins = pins.into_iter().map(PinCases::solved);
        let mut next = || pins.next().ok_or(FieldError::NoSurface { what: "pin" });
        let bores = [next()?, next()?];
        let half = eyes.map(|eye| eye.half);
        Ok(Self { solved, modulus: material.in_plane_modulus(), bores, half, turning })
    }
}

/// Kelvin above the reference at every station.
fn warmth(model: &RodModel, temperatures: &Temperatures, reference: f64) -> Vec<(f64, f64)> {
    let stations = model.stations.iter().zip(&temperatures.stations);
    stations.map(|(station, kelvin)| (station.section.position, kelvin - reference)).collect()
}
