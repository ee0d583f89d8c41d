use core::fmt::Display;

use nalgebra::Vector3;

use super::{VerdictOf, mode, printed, uncertainty, warnings};
use crate::engine::{Cylinder, DutyStep};
use crate::job::{Assumption, Scenario};
use crate::kind::Answers;
use crate::mesh::Mended;
use crate::numeric::sort_few;
use crate::part::Frame;
use crate::report::{
    CAUTIONS, CoveredReport, HeatReport, LifeReport, LoadReport, MeshReport, PartReport, Report, SCHEMA_VERSION,
    StationReport,
};
use crate::units::{LengthUnit, MM};
use crate::verdict::PartStrength;

/// What the report of every kind of part is made from; a kind adds its own to what [`Common::report`] gives.
pub struct Common<'a, P> {
    /// What was worked out beside the part.
    pub answers: Answers,
    /// The job.
    pub scenario: &'a Scenario,
    /// What was mended in the mesh, its unit and its extent, m.
    pub file: (Mended, LengthUnit, Vector3<f64>),
    /// Volume of the part, m³, and its mass as printed, kg.
    pub solid: (f64, f64),
    /// What to know of the mesh, in sentences.
    pub mesh_notes: Vec<String>,
    /// The part as recognised.
    pub part: PartReport,
    /// Where its frame lies in the file.
    pub frame: &'a Frame,
    /// Unit vector in which layers stack, in that frame.
    pub build: Vector3<f64>,
    /// Its strength.
    pub strength: &'a PartStrength<P>,
    /// Running time that nine in ten reach, s.
    pub life: f64,
    /// Lives of the part.
    pub lives: LifeReport,
    /// Where a place is, mm, coordinates of the file.
    pub center: &'a dyn Fn(&P) -> Option<[f64; 3]>,
    /// Heat.
    pub heat: HeatReport,
    /// The cylinder, and the highest absolute pressure in it, Pa.
    pub cylinder: (&'a Cylinder, f64),
    /// Cuts along it.
    pub stations: Vec<StationReport>,
    /// What the answer rests on.
    pub assumptions: Vec<Assumption>,
    /// Where the model is weak, in sentences.
    pub notes: Vec<String>,
    /// Whether the stress field was solved.
    pub field: bool,
    /// What carries load and was not checked, in sentences.
    pub unchecked: Vec<String>,
    /// What may change the answer, and how far it is in it.
    pub effects: Vec<CoveredReport>,
}

impl<P: Display + Clone> Common<'_, P> {
    /// The report as far as all kinds share it.
    pub fn report(self) -> Report {
        let Answers { title, limit, uncertainty: known, changes } = self.answers;
        let mut modes = self.strength.modes.clone();
        sort_few(&mut modes, |a, b| a.margin.total_cmp(&b.margin));
        let (mended, unit, size) = self.file;
        let (strength, life, scenario, unchecked) = (self.strength, self.life, self.scenario, self.unchecked);
        let field = self.field;
        Report {
            schema_version: SCHEMA_VERSION.into(),
            program_version: env!("CARGO_PKG_VERSION").into(),
            title,
            verdict: VerdictOf {
                strength,
                life,
                scenario,
                uncertainty: &known,
                limit,
                field,
                unchecked,
                effects: &self.effects,
            }
            .verdict(),
            life: self.lives,
            warnings: warnings(self.scenario),
            modes: modes.iter().map(|margin| mode(margin, (self.center)(&margin.place))).collect(),
            uncertainty: uncertainty(&known),
            heat: self.heat,
            clearance: None,
            sensitivities: changes.list,
            together: changes.together,
            mesh: MeshReport {
                facet_count: mended.facets_in_file,
                volume_mm3: self.solid.0 * 1e9,
                mass_g: self.solid.1 * 1e3,
                closed: true,
                unit,
                size_mm: [size.x * MM, size.y * MM, size.z * MM],
                notes: self.mesh_notes,
            },
            part: self.part,
            rod: None,
            piston: None,
            any: None,
            print: printed(&self.build, self.frame, self.scenario),
            loads: loads(self.cylinder, self.scenario),
            crank: None,
            stations: self.stations,
            field: None,
            facet_utilisation: None,
            effects: self.effects,
            assumptions: self.assumptions,
            notes: self.notes,
            cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
        }
    }
}

fn loads((cylinder, peak_pressure): (&Cylinder, f64), scenario: &Scenario) -> LoadReport {
    let top = scenario.duty.steps().iter().map(DutyStep::angular_speed_rad_s).fold(0.0, f64::max);
    let crank = cylinder.crank();
    LoadReport {
        peak_pressure_bar: peak_pressure / 1e5,
        displacement_cm3: cylinder.displacement_m3() * 1e6,
        piston_acceleration_max_m_s2: crank.at(crank.top_angle_rad(), top).piston_acceleration_m_s2.abs(),
        mean_piston_speed_m_s: cylinder.mean_piston_speed_m_s(top),
    }
}
