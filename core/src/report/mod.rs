//! The answer, as plain data for every output: text, JSON, a host application.
//!
//! Units are in the field names: mm, MPa, N, °C, rpm. The JSON Schema of [`Report`] is derived from these types.

mod build;
mod cautions;
mod data;
mod directions;
mod facets;
mod field;
mod fits;
mod notes;
mod pins;
mod piston;
mod piston_data;
mod piston_notes;
mod schema;
mod sweep;
mod thin;
mod walls;

pub use build::{Parts, build};
pub use cautions::CAUTIONS;
pub use data::{
    BoreReport, ClearanceReport, EyeReport, FitReport, FoundingReport, HeatReport, InfluenceReport, LeftOutReport,
    LifeReport, LoadReport, MeshReport, ModeReport, PartKind, PartReport, PrintReport, Report, SeatReport,
    SensitivityReport, SpeedVerdict, StationReport, TemperatureFrom, ThinSectionReport, VerdictReport,
};
pub use directions::{DirectionReport, DirectionsReport, NamedDirections, Recommended};
pub use facets::FacetValues;
pub use field::{FieldReport, GoverningStress, HotSpotReport, SolveReport};
pub use piston::{PistonParts, build_piston};
pub use piston_data::{
    BossReport, CrownHeatReport, CrownMomentReport, CrownReport, GrooveReport, GrowthReport, LandReport,
    PistonMassReport, PistonReport,
};
pub use schema::{ReportKind, SCHEMA_VERSION, json_schema};
pub use sweep::{SweepPoint, SweepReport};
pub use walls::{AreaStepReport, ThinCause, ThinRegionReport, WallsReport};
