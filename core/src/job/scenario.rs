use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::cap::Cap;
use super::file::{FatigueRule, NamedPose};
use super::ring::Ring;
use super::runs::Runs;
use crate::bond::Bond;
use crate::engine::{Duty, GasCycle, Peaks, PressureTrace};
use crate::job::plausible::Warning;
use crate::material::{Card, MaterialState, MoistureState};
use crate::mesh::Mesh;
use crate::print::{PrintSettings, PrintWarmth};

/// A job in SI units, with every usual value filled in.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// The engine.
    pub engine: EngineScenario,
    /// Radial clearances in the eyes, m.
    pub fits: EndFits,
    /// Rings pressed into the small and the big end.
    pub rings: [Option<Ring>; 2],
    /// What the pins of the small and the big end run in.
    pub runs: [Runs; 2],
    /// Caps clamped over the small and the big end.
    pub caps: [Option<Cap>; 2],
    /// How the part lies when printed.
    pub pose: PrintPose,
    /// Print settings; their build direction is set from the pose once the part's frame is known.
    pub print: PrintSettings,
    /// How warm the part is while it is printed, where the card says how its layers weld.
    pub warmth: Option<PrintWarmth>,
    /// How well this print bonds its layers; nothing until the part is known.
    pub bond: Option<Arc<Bond>>,
    /// The material card; once the part is known, with the strength between its layers as this print makes the weakest.
    pub card: Card,
    /// The card as it was given.
    pub given_card: Card,
    /// Temperature at which the material is taken before the heat of the part itself counts, K.
    pub temperature: f64,
    /// Where the temperature of the part comes from.
    pub part_temperature: PartTemperature,
    /// Water in the plastic.
    pub moisture: MoistureState,
    /// What surrounds the rod.
    pub surroundings: Surroundings,
    /// Running.
    pub duty: Duty,
    /// Wanted life at the duty, s.
    pub wanted_life: f64,
    /// Mean-stress rule.
    pub mean_stress: FatigueRule,
    /// Cuts along the rod.
    pub stations: usize,
    /// How the ends of the rod are held as a column.
    pub end_fixity: EndFixity,
    /// Inputs that are possible but far from what is usual.
    pub warnings: Vec<Warning>,
}

/// Where the temperature of the part comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PartTemperature {
    /// The whole part has [`Scenario::temperature`].
    Given,
    /// Loads and surroundings decide, place by place, in the long run.
    Settled,
    /// The same, at the end of one run from cold.
    AfterRun {
        /// Length of the run, s.
        seconds: f64,
        /// Temperature before it, K.
        start: f64,
    },
}

/// Temperatures round the rod, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Air in the crankcase.
    pub air: f64,
    /// Piston pin.
    pub piston_pin: f64,
    /// Crank pin or bearing.
    pub crank_pin: f64,
}

/// Effective over actual length of a column: 1 for ends free to turn, 0.5 for ends held in theory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndFixity {
    /// In the plane of the engine.
    pub in_plane: f64,
    /// Across it, along the pins.
    pub across: f64,
}

impl Scenario {
    /// Works out how well a print of this part bonds its layers, and what that leaves of the card.
    pub fn bond(&mut self, mesh: &Mesh, print: &PrintSettings) {
        let bond = self.warmth.and_then(|warmth| Bond::of(mesh, print, &warmth, &self.given_card));
        self.card = bond.as_ref().map_or_else(|| self.given_card.clone(), |bond| bond.on(&self.given_card));
        self.bond = bond.map(Arc::new);
    }

    /// Strength between layers at a point of the part over that of its weakest ones, which the card holds.
    pub fn bond_at(&self, point: &Point3<f64>) -> f64 {
        self.bond.as_ref().map_or(1.0, |bond| bond.at(point))
    }

    /// The duty with each step parted by how high its cycles peak.
    pub(crate) fn duty_by_peaks(&self) -> Duty {
        let shares: Vec<f64> = self.engine.peaks.classes().iter().map(|class| class.share).collect();
        self.duty.parted(&shares)
    }

    /// The material at the temperature and moisture of the job.
    pub fn material(&self) -> MaterialState {
        self.card.at(self.temperature, self.moisture)
    }
}

/// The engine in SI units, still without its rod.
#[derive(Debug, Clone, PartialEq)]
pub struct EngineScenario {
    /// Cylinder bore, m.
    pub bore: f64,
    /// Crank throw, m.
    pub throw: f64,
    /// Mass that moves with the piston, kg.
    pub reciprocating_mass: f64,
    /// Compression ratio.
    pub compression_ratio: f64,
    /// Pin offset, m.
    pub pin_offset: f64,
    /// Least gap between piston and head when cold, m, if given.
    pub piston_to_head: Option<f64>,
    /// Pressure under the piston, Pa.
    pub crankcase_pressure: f64,
    /// Cycle model.
    pub cycle: GasCycle,
    /// Peak pressure at open throttle, Pa, if stated.
    pub peak_pressure: Option<f64>,
    /// Measured pressure, if given; then it holds at every throttle.
    pub measured: Option<PressureTrace>,
    /// How peaks differ from cycle to cycle.
    pub peaks: Peaks,
}

/// Radial clearances, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndFits {
    /// Piston pin in the small end.
    pub small_end: f64,
    /// Crank pin or bearing in the big end.
    pub big_end: f64,
}

/// How the part lies on the bed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PrintPose {
    /// Named by the axes of the part.
    Named(NamedPose),
    /// Build direction in mesh coordinates, not yet a unit vector.
    Mesh(Vector3<f64>),
}

impl NamedPose {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Flat, Self::OnEdge, Self::Upright];

    /// What a rod is printed in where the job says nothing (common practice, no source): layers in the plane of its pull.
    pub const USUAL_OF_RODS: Self = Self::Flat;

    /// The same of a piston (common practice, no source): its axis upright makes it round.
    pub const USUAL_OF_PISTONS: Self = Self::Upright;

    /// Build direction in the frame of a part: `x` along a rod or toward the crown of a piston, `z` along the pins.
    pub fn in_part_frame(self) -> Vector3<f64> {
        match self {
            Self::Flat => Vector3::z(),
            Self::OnEdge => Vector3::y(),
            Self::Upright => Vector3::x(),
        }
    }

    /// The word used in job files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::OnEdge => "on-edge",
            Self::Upright => "upright",
        }
    }
}
