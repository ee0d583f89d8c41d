//! The answer, as plain data for every output: text, JSON, a host application.
//!
//! Units are in the field names: mm, MPa, N, °C, rpm. The JSON Schema of [`Report`] is derived from these types.

mod build;
mod cautions;
mod compare;
mod coupon;
mod crank;
mod data;
mod directions;
mod facets;
mod field;
mod fits;
mod learn;
mod mesh_notes;
mod notes;
mod pins;
mod piston;
mod piston_data;
mod piston_notes;
mod position;
mod schema;
mod size;
mod study;
mod sweep;
mod thin;
mod walls;
pub mod words;

pub(crate) use build::warnings;
pub use build::{Parts, build};
pub use cautions::CAUTIONS;
pub use compare::{
    ChangeGroup, ChangeReport, CompareReport, InputChangeReport, PathChangeReport, RevisionReport, compared,
};
pub use coupon::{CouponReport, FitLineReport, FitPointReport, FittedReport};
pub use crank::{CrankMomentReport, CrankReport};
pub use data::{
    BoreReport, CapReport, ChangeMeasure, ClearanceReport, EyeReport, FitReport, FoundingReport, HeatReport,
    InfluenceReport, LeftOutReport, LifeReport, LoadReport, MeshReport, ModeReport, PartKind, PartReport,
    PreloadReport, PrintReport, RatingReport, Report, SeatReport, SensitivityReport, SofteningChange, SpeedVerdict,
    StationReport, TemperatureFrom, ThinSectionReport, VerdictReport, WarningReport,
};
pub use directions::{DirectionMargin, DirectionReport, DirectionsReport, NamedDirections, Recommended};
pub use facets::FacetValues;
pub use field::{FieldReport, GoverningStress, HotSpotReport, SolveReport};
pub use learn::{FactorsReport, LearnReport, LearnedLifeReport, LearnedRunReport};
pub use piston::{PistonParts, build_piston};
pub use piston_data::{
    BossReport, BridgeReport, CrownHeatReport, CrownMomentReport, CrownReport, GrooveReport, GrowthReport, HoleReport,
    LandReport, PistonMassReport, PistonReport,
};
pub use schema::{ReportKind, SCHEMA_VERSION, json_schema};
pub use size::{CandidateReport, SizeReport, Varied};
pub use study::{EffectLevelReport, EffectReport, ResponseReport, StudyReport};
pub use sweep::{SweepPoint, SweepReport};
pub use walls::{AreaStepReport, ThinCause, ThinRegionReport, WallsReport};
