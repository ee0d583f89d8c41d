use super::data::Report;

/// Version of the report's form: the first number changes when a field goes or changes its meaning.
pub const SCHEMA_VERSION: &str = "1.0";

/// JSON Schema of [`Report`].
pub fn json_schema() -> serde_json::Value {
    schemars::schema_for!(Report).to_value()
}
