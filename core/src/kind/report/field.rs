use core::fmt::Display;

use nalgebra::{Vector3, Vector6};

use crate::field::tensor;
use crate::material::LayerPlane;
use crate::part::Frame;
use crate::report::{FieldReport, GoverningStress, HotSpotReport, SolveReport};
use crate::units::{MM, MPA};
use crate::verdict::FieldCase;
use crate::verdict::field::{FieldFindings, FieldSpot};

/// What a field found, in which part.
pub(crate) struct FieldTold<'field, P, A> {
    pub(crate) findings: &'field FieldFindings<P, A>,
    pub(crate) frame: &'field Frame,
    pub(crate) build: Vector3<f64>,
}

impl<P: Display + Copy, A> FieldTold<'_, P, A> {
    /// `why` says why the section model finds more margin at a spot, whose traction across and along the layers it is given,
    /// MPa.
    pub(crate) fn report(
        &self,
        governs: bool,
        raised: &[(&str, f64)],
        nominal: &str,
        why: impl Fn(&FieldSpot<P, A>, (f64, f64)) -> Option<String>,
    ) -> FieldReport {
        let Self { findings, .. } = self;
        FieldReport {
            cells: findings.cells,
            cell_mm: findings.edge * MM,
            solves: findings.cases.iter().map(solve).collect(),
            hot_spots: findings.spots.iter().map(|spot| self.hot_spot(spot, &why)).collect(),
            governing: if governs { GoverningStress::Field } else { GoverningStress::Sections },
            raised: raised.iter().map(|(_, factor)| *factor).collect(),
            regions: raised.iter().map(|(region, _)| (*region).into()).collect(),
            nominal: nominal.into(),
        }
    }

    fn hot_spot(
        &self,
        spot: &FieldSpot<P, A>,
        why: &impl Fn(&FieldSpot<P, A>, (f64, f64)) -> Option<String>,
    ) -> HotSpotReport {
        let (across, along) = on_layers(self.build, &spot.moment.stress);
        HotSpotReport {
            place: spot.place.to_string(),
            position_mm: self.frame.to_file_mm(&spot.position),
            stress_mpa: spot.stress * MPA,
            kt: spot.factor,
            handbook_kt: spot.section_factor,
            life_s: spot.mode.life_b10,
            margin: spot.mode.margin,
            mode: spot.mode.mode,
            sharp_corner: spot.sharp,
            depth_mm: spot.depth.map(|depth| depth * MM),
            finer_cells: spot.finer,
            rpm: spot.moment.rpm,
            crank_deg: spot.moment.crank_angle.to_degrees(),
            across_layers_mpa: across,
            along_layers_mpa: along,
            sections_margin: spot.sections.map(|mode| mode.margin),
            sections_mode: spot.sections.map(|mode| mode.mode),
            why: match (spot.sharp, spot.depth) {
                (false, _) => why(spot, (across, along)),
                (true, Some(depth)) => Some(below_corner(depth, spot.stress)),
                (true, None) => Some(at_corner(self.findings.edge, spot.stress)),
            },
        }
    }
}

fn solve(case: &FieldCase) -> SolveReport {
    SolveReport { name: case.name.clone(), iterations: case.iterations, residual: case.residual, seconds: None }
}

/// Stress across the layers and shear along them, MPa.
fn on_layers(build: Vector3<f64>, stress: &Vector6<f64>) -> (f64, f64) {
    let on = LayerPlane::new(build).tractions(&tensor(stress));
    (on.normal * MPA, on.shear.norm() * MPA)
}

/// What the number below a sharp inner corner is, from how far below, m, and the stress there, Pa.
fn below_corner(depth: f64, stress: f64) -> String {
    format!(
        "{:.1} MPa is the stress {:.2} mm below this sharp inner corner, half the critical distance of printed plastics: at the \
         corner itself it has no bound. A fillet lowers it.",
        stress * MPA,
        depth * MM
    )
}

/// What the number at a sharp inner corner is, from the edge of a cell, m, and the stress, Pa.
fn at_corner(edge: f64, stress: f64) -> String {
    let edge = edge * MM;
    format!(
        "{:.1} MPa is the stress by cells of {edge:.2} mm at this sharp inner corner: it rises without limit as cells shrink. \
         Add a fillet for a true peak.",
        stress * MPA
    )
}

/// The field has less margin from this ratio on.
pub(crate) const LESS: f64 = 1.02;

/// What tractions on the layers have to do with it, MPa, where they take most of the strength.
pub(crate) fn by_layers(share: f64, (across, along): (f64, f64)) -> String {
    if share <= 0.5 {
        return String::new();
    }
    format!(
        " Layers are loaded with {across:.1} MPa across and {along:.1} MPa along them, which stress along one line does not \
         show."
    )
}
