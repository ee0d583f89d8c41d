use super::compare::CompareReport;
use super::coupon::CouponReport;
use super::data::Report;
use super::diagnosis::DiagnosisReport;
use super::directions::DirectionsReport;
use super::learn::LearnReport;
use super::plan::PlanReport;
use super::size::SizeReport;
use super::study::StudyReport;
use super::sweep::SweepReport;
use super::walls::WallsReport;

/// Version of the report's form: the first number changes when a field goes or changes its meaning.
pub const SCHEMA_VERSION: &str = "3.0";

/// The reports that have a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReportKind {
    /// Of a check: [`Report`].
    Check,
    /// Of two revisions: [`CompareReport`].
    Compare,
    /// Of a break: [`DiagnosisReport`].
    Diagnosis,
    /// Of build directions: [`DirectionsReport`].
    Directions,
    /// Of coupons: [`CouponReport`].
    Fit,
    /// Of a bench log: [`LearnReport`].
    Learn,
    /// Of a ladder of runs: [`PlanReport`].
    Plan,
    /// Of sizes that reach a life: [`SizeReport`].
    Size,
    /// Of many cases: [`StudyReport`].
    Study,
    /// Of life against speed: [`SweepReport`].
    Sweep,
    /// Of walls: [`WallsReport`].
    Walls,
}

/// JSON Schema of a report.
///
/// ```
/// use layload_core::report::{ReportKind, json_schema};
///
/// let schema = json_schema(ReportKind::Check);
/// assert!(schema["properties"]["verdict"].is_object());
/// ```
pub fn json_schema(kind: ReportKind) -> serde_json::Value {
    match kind {
        ReportKind::Check => schemars::schema_for!(Report).to_value(),
        ReportKind::Compare => schemars::schema_for!(CompareReport).to_value(),
        ReportKind::Diagnosis => schemars::schema_for!(DiagnosisReport).to_value(),
        ReportKind::Directions => schemars::schema_for!(DirectionsReport).to_value(),
        ReportKind::Fit => schemars::schema_for!(CouponReport).to_value(),
        ReportKind::Learn => schemars::schema_for!(LearnReport).to_value(),
        ReportKind::Plan => schemars::schema_for!(PlanReport).to_value(),
        ReportKind::Size => schemars::schema_for!(SizeReport).to_value(),
        ReportKind::Study => schemars::schema_for!(StudyReport).to_value(),
        ReportKind::Sweep => schemars::schema_for!(SweepReport).to_value(),
        ReportKind::Walls => schemars::schema_for!(WallsReport).to_value(),
    }
}
