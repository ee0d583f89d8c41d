//! The checks of `layload-core` as a sandboxed component. What hosts see is written in `wit/layload.wit`.

mod answer;
mod job;
mod materials;
mod part;
mod progress;
mod record;
mod refusal;

/// What `wit-bindgen` makes of the interface.
#[allow(missing_docs, unreachable_pub, unused_qualifications, clippy::pedantic)]
mod interface {
    wit_bindgen::generate!({ path: "wit", world: "plugin", generate_all });

    pub(crate) use exports::layload::parts::checker;
    pub(crate) use layload::parts::host;

    export!(Plugin);

    /// The plugin itself.
    pub(crate) struct Plugin;
}

use interface::checker::{Guest, MaterialFamily, Refusal, Versions};
use interface::{Plugin, checker};
use layload_core::report::SCHEMA_VERSION;

use crate::answer::{Checked, Directed, Measured, Swept};
use crate::job::HeldJob;
use crate::part::HeldPart;

impl Guest for Plugin {
    type Job = HeldJob;
    type Part = HeldPart;
    type Checked = Checked;
    type Directed = Directed;
    type Measured = Measured;
    type Swept = Swept;

    fn about() -> Versions {
        Versions { program_version: env!("CARGO_PKG_VERSION").into(), schema_version: SCHEMA_VERSION.into() }
    }

    fn materials() -> Vec<MaterialFamily> {
        materials::families()
    }

    fn card(name: String) -> Result<String, Refusal> {
        materials::card(&name)
    }

    fn schema(report: String) -> Result<String, Refusal> {
        // Written once and held to the reports by a test: making them here would take a tenth of the plugin.
        let schema = match report.as_str() {
            "check" => include_str!("../schemas/check.json"),
            "directions" => include_str!("../schemas/directions.json"),
            "walls" => include_str!("../schemas/walls.json"),
            "sweep" => include_str!("../schemas/sweep.json"),
            _ => {
                return Err(Refusal::Request(checker::Explanation {
                    code: "report-unknown".into(),
                    key: None,
                    message: format!("there is no report named `{report}`"),
                    help: "the reports are check, directions, walls and sweep".into(),
                }));
            }
        };
        Ok(schema.trim_end().into())
    }

    fn cautions() -> Vec<String> {
        answer::cautions()
    }
}
