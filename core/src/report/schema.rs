use super::{DirectionsReport, Report, SweepReport, WallsReport};

/// Version of the report's form: the first number changes when a field goes or changes its meaning.
pub const SCHEMA_VERSION: &str = "1.0";

/// The reports that have a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReportKind {
    /// Of a check: [`Report`].
    Check,
    /// Of build directions: [`DirectionsReport`].
    Directions,
    /// Of life against speed: [`SweepReport`].
    Sweep,
    /// Of walls: [`WallsReport`].
    Walls,
}

/// JSON Schema of a report.
pub fn json_schema(kind: ReportKind) -> serde_json::Value {
    match kind {
        ReportKind::Check => schemars::schema_for!(Report).to_value(),
        ReportKind::Directions => schemars::schema_for!(DirectionsReport).to_value(),
        ReportKind::Sweep => schemars::schema_for!(SweepReport).to_value(),
        ReportKind::Walls => schemars::schema_for!(WallsReport).to_value(),
    }
}
