use layload_ask::Refusal;
use pyo3::prelude::*;

/// A refusal as the exception of the package.
pub(crate) fn raised(py: Python<'_>, refusal: Refusal) -> PyErr {
    let Refusal { code, key, message, help } = refusal;
    let made =
        py.import("layload._refused").and_then(|module| module.getattr("Refused")?.call1((message, code, key, help)));
    made.map_or_else(|error| error, PyErr::from_value)
}
