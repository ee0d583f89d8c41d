use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::assumption::{Assumption, Origin};
use super::error::JobError;
use super::file::Job;
use super::resolve::Taken;
use crate::job::plausible::{piston as limits, run};
use crate::units::ZERO_C;

/// What belongs to a piston: only read when the part is one.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PistonTable {
    /// Length of the connecting rod between centres, mm.
    pub rod_length_mm: Option<f64>,
    /// Mass of the piston pin with its circlips, g.
    pub pin_mass_g: Option<f64>,
    /// Mass of one ring, g.
    pub ring_mass_g: Option<f64>,
    /// What lies on the crown, from the gas down: a metal plate, a coating.
    pub layers: Vec<LayerTable>,
    /// What cools the underside of the crown.
    pub underside: Option<Underside>,
    /// Film coefficient under the crown, W/(m² K), instead of the usual one.
    pub underside_film_w_m2_k: Option<f64>,
    /// Film coefficient between ring belt and cylinder wall, W/(m² K).
    pub wall_film_w_m2_k: Option<f64>,
    /// What the cylinder is made of.
    pub cylinder: Option<CylinderMetal>,
    /// Cylinder wall when running, °C.
    pub cylinder_wall_c: Option<f64>,
    /// Diametral clearance that must be left when running, mm.
    pub running_clearance_mm: Option<f64>,
    /// Share of the crown's thickness that may soften before the crown counts as lost.
    pub soft_share: Option<f64>,
    /// Thickness of the crown by hand, mm.
    pub crown_thickness_mm: Option<f64>,
    /// Diameter of the free crown plate by hand, mm.
    pub plate_diameter_mm: Option<f64>,
    /// Radial clearance of the pin in its bosses when warm and running, mm.
    pub pin_clearance_mm: Option<f64>,
}

/// A layer on the crown.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayerTable {
    /// Its name in the report.
    pub name: String,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Conductivity, W/(m K).
    pub conductivity_w_m_k: f64,
    /// Density, kg/m³.
    pub density_kg_m3: f64,
    /// Specific heat, J/(kg K).
    pub specific_heat_j_kg_k: f64,
    /// Conductance of the joint below it, W/(m² K); absent for one without a gap.
    #[serde(default)]
    pub joint_w_m2_k: Option<f64>,
}

/// What cools the underside of a crown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Underside {
    /// Air of the crankcase.
    #[default]
    Air,
    /// Oil thrown up by the crank.
    OilMist,
}

/// What a cylinder is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CylinderMetal {
    /// Steel or iron.
    #[default]
    Steel,
    /// Aluminium.
    Aluminium,
}

impl CylinderMetal {
    /// Expansion by heat, 1/K (handbook values; memory).
    pub fn expansion(self) -> f64 {
        match self {
            Self::Steel => 11.5e-6,
            Self::Aluminium => 23e-6,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
        }
    }
}

/// The piston's part of a job in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct PistonScenario {
    /// Length of the rod, m.
    pub rod_length: f64,
    /// Pin, kg.
    pub pin_mass: f64,
    /// One ring, kg.
    pub ring_mass: f64,
    /// On the crown, from the gas down.
    pub layers: Vec<CrownLayer>,
    /// Film under the crown, W/(m² K).
    pub underside_film: f64,
    /// Film between ring belt and cylinder wall, W/(m² K).
    pub wall_film: f64,
    /// Cylinder.
    pub cylinder: CylinderMetal,
    /// Cylinder wall, K.
    pub cylinder_wall: f64,
    /// The part before a run, K.
    pub start: f64,
    /// Diametral clearance to be left, m.
    pub running_clearance: f64,
    /// Share of the crown that may soften.
    pub soft_share: f64,
    /// Crown thickness by hand, m.
    pub crown_thickness: Option<f64>,
    /// Radius of the free crown plate by hand, m.
    pub plate_radius: Option<f64>,
    /// Radial clearance of the pin in its bosses, m.
    pub pin_clearance: f64,
}

/// A layer on the crown, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownLayer {
    /// Thickness, m.
    pub thickness: f64,
    /// Conductivity, W/(m K).
    pub conductivity: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Specific heat, J/(kg K).
    pub specific_heat: f64,
    /// Conductance of the joint below, W/(m² K); none for one without a gap.
    pub joint: Option<f64>,
}

/// Most layers on a crown.
const LAYER_LIMIT: usize = 8;

/// The piston's part of a job, with the list of every number it rests on.
///
/// # Errors
///
/// Where a number that a piston needs is missing or cannot be.
pub fn resolve_piston(job: &Job) -> Result<(PistonScenario, Vec<Assumption>), JobError> {
    let table = &job.piston;
    let mut taken = Taken::default();
    // Common practice, no source: rods of small engines are 1.7 to 2 strokes long.
    let stroke = || JobError::Missing { what: "stroke", key: "engine.stroke_mm".into() };
    let usual_rod = 1.8 * job.engine.stroke_mm.ok_or_else(stroke)?;
    let rod_length = taken.number(&limits::ROD_LENGTH, table.rod_length_mm, usual_rod) * 1e-3;
    // Steel tube of two thirds the share of the bore that pins have; two thin rings (memory).
    let bore = job.engine.bore_mm.unwrap_or(0.0);
    let usual_pin = (2.2e-4 * bore * bore * bore).clamp(0.01, 1e5);
    let pin_mass = taken.number(&limits::PIN_MASS, table.pin_mass_g, usual_pin) * 1e-3;
    let usual_ring = (1.2e-3 * bore * bore).clamp(0.001, 1e5);
    let ring_mass = taken.number(&limits::RING_MASS, table.ring_mass_g, usual_ring) * 1e-3;
    let layers = layers(&table.layers, &mut taken)?;
    let underside = table.underside.unwrap_or_default();
    // Air in a small crankcase and splashed oil, memory.
    let (word, film) = match underside {
        Underside::Air => ("air", 80.0),
        Underside::OilMist => ("oil mist", 300.0),
    };
    let origin = |given: bool| if given { Origin::Given } else { Origin::Memory };
    taken.list.push(Assumption::word("under the crown", word, origin(table.underside.is_some())));
    let underside_film = taken.number(&limits::UNDERSIDE_FILM, table.underside_film_w_m2_k, film);
    let wall_film = taken.number(&limits::WALL_FILM, table.wall_film_w_m2_k, 150.0);
    let cylinder = table.cylinder.unwrap_or_default();
    taken.list.push(Assumption::word("cylinder", cylinder.word(), origin(table.cylinder.is_some())));
    let cylinder_wall = taken.number(&limits::CYLINDER_WALL, table.cylinder_wall_c, 130.0) + ZERO_C;
    let start = taken.named("piston before a run", &run::START, job.surroundings.start_c, 23.0);
    let running_clearance = taken.number(&limits::RUNNING_CLEARANCE, table.running_clearance_mm, 0.02) * 1e-3;
    let soft_share = taken.number(&limits::SOFT_SHARE, table.soft_share, 0.2);
    let pin_clearance = taken.number(&limits::BOSS_CLEARANCE, table.pin_clearance_mm, 0.02) * 1e-3;
    let crown_thickness = taken.given(&limits::CROWN, table.crown_thickness_mm).map(|mm| mm * 1e-3);
    let plate_radius = taken.given(&limits::PLATE, table.plate_diameter_mm).map(|mm| mm * 0.5e-3);
    Ok((
        PistonScenario {
            rod_length,
            pin_mass,
            ring_mass,
            layers,
            underside_film,
            wall_film,
            cylinder,
            cylinder_wall,
            start: start + ZERO_C,
            running_clearance,
            soft_share,
            crown_thickness,
            plate_radius,
            pin_clearance,
        },
        taken.list,
    ))
}

fn layers(tables: &[LayerTable], taken: &mut Taken) -> Result<Vec<CrownLayer>, JobError> {
    if tables.len() > LAYER_LIMIT {
        return Err(JobError::OutOfRange {
            what: "number of layers on the crown",
            value: tables.len() as f64,
            unit: "1",
            low: 0.0,
            high: LAYER_LIMIT as f64,
            key: "piston.layers".into(),
            usual: None,
        });
    }
    let mut layers = Vec::new();
    for table in tables {
        taken.list.push(Assumption::word("on the crown", &table.name, Origin::Given));
        let mut number = |limit, value| taken.number(limit, Some(value), value);
        layers.push(CrownLayer {
            thickness: number(&limits::THICKNESS, table.thickness_mm) * 1e-3,
            conductivity: number(&limits::CONDUCTIVITY, table.conductivity_w_m_k),
            density: number(&limits::DENSITY, table.density_kg_m3),
            specific_heat: number(&limits::SPECIFIC_HEAT, table.specific_heat_j_kg_k),
            joint: table.joint_w_m2_k.map(|joint| number(&limits::JOINT, joint)),
        });
    }
    Ok(layers)
}
