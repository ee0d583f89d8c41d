//! The answer, as plain data for every output: text, JSON, a host application.
//!
//! Units are in the field names: mm, MPa, N, °C, rpm. The JSON Schema of [`Report`] is derived from these types.

mod any_data;
mod cautions;
mod change;
mod compare;
mod coupon;
mod crank;
mod data;
mod diagnosis;
mod directions;
mod effects;
mod facets;
mod field;
mod json;
mod learn;
mod part;
mod piston_data;
mod plan;
mod rod_data;
mod schema;
mod size;
mod study;
mod sweep;
mod walls;
pub mod words;

pub use any_data::{
    AnyLoadReport, AnyReport, FaceReport, FeaturesReport, HoldReport, PlaceReport, PlaceShapeWord, WarmReport,
};
pub use cautions::CAUTIONS;
pub use change::{
    ChangeMeasure, ChangedInput, ChangedValue, ChangesTogether, FurtherChange, SensitivityReport, SofteningChange,
};
pub use compare::{ChangeGroup, ChangeReport, CompareReport, InputChangeReport, PathChangeReport, RevisionReport};
pub use coupon::{CouponReport, FitLineReport, FitPointReport, FittedReport};
pub use crank::{CrankMomentReport, CrankReport};
pub use data::{
    ClearanceReport, HeatReport, HottestReport, InfluenceReport, LifeReport, LoadReport, ModeReport, Report,
    SpeedVerdict, StationReport, TemperatureFrom, UncertaintyReport, VerdictReport, WarningReport,
};
pub use diagnosis::{BrokenPlaceReport, BrokenRunReport, CauseReport, DiagnosisReport, LookReport, NextLookReport};
pub use directions::{DirectionMargin, DirectionReport, DirectionsReport, NamedDirections, Recommended};
pub use effects::{Coverage, CoveredReport};
pub use facets::FacetValues;
pub use field::{FieldReport, GoverningStress, HotSpotReport, SolveReport};
pub use json::{is_hidden, json, visible_json};
pub use learn::{FactorsReport, LearnReport, LearnedLifeReport, LearnedRunReport, QuantityReport};
pub use part::{
    BondHeight, BondReport, BoreReport, LeftOutReport, MeshReport, PartReport, PathReport, PrintReport, SeatReport,
};
pub use piston_data::{
    BossReport, BridgeReport, CrownHeatReport, CrownMomentReport, CrownReport, GrooveReport, GrowthReport, HoleReport,
    LandReport, PistonMassReport, PistonReport,
};
pub use plan::{AfterPartReport, BarsReport, InspectReport, MarginBandReport, PlanReport, PlanStepReport};
pub use rod_data::{
    CapReport, EyeReport, FitReport, JournalReport, PreloadReport, RatingReport, RodForcesReport, RodReport,
    ThinSectionReport,
};
pub use schema::{ReportKind, SCHEMA_VERSION, json_schema};
pub use size::{CandidateReport, NumbersBy, SizeReport, Varied};
pub use study::{CorrectionReport, EffectLevelReport, EffectReport, ResponseReport, StudyReport};
pub use sweep::{SweepPoint, SweepReport};
pub use walls::{AreaStepReport, ThinCause, ThinRegionReport, WallsReport};
