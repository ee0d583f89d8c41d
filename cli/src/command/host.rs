//! The same questions, answered by the plugin in its sandbox.

use std::time::Duration;

use layload_core::report::{DirectionsReport, Report, SweepReport, WallsReport};
use layload_host::{Cache, Cancel, HostError, JobTexts, Limits, PluginHost, Session, Stress};
use serde::de::DeserializeOwned;

use crate::answer::{Checked, print as say};
use crate::args::{FieldCells, HostArguments, HostQuestion};
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{print_json_text, print_text};
use crate::progress::StageBar;
use crate::text;
use crate::visible::visible;

/// Loads the plugin, asks it, and prints what the command without a plugin prints.
pub(crate) fn run(arguments: &HostArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    let rod = arguments.question.rod();
    let read = ReadJob::read(&rod.job)?;
    let text = read.job.to_toml()?;
    let job = JobTexts { job: &text, card: read.card.as_deref(), pressure: read.pressure.as_deref(), history: None };
    let stl = bytes(&rod.mesh)?;
    let mut session = open(arguments)?;
    match &arguments.question {
        HostQuestion::Check(check) => {
            let json = session.check(&stl, &job, stress(&check.field))?;
            let report: Report = read_report(&json)?;
            let outcome = report.verdict.state.into();
            if rod.json { print_json_text(&json) } else { say(&Checked::alone(report, color, check.show), false) }?;
            Ok(outcome)
        }
        HostQuestion::Directions(directions) => {
            let json = session.directions(
                &stl,
                &job,
                u32::try_from(directions.count).unwrap_or(u32::MAX),
                stress(&directions.field),
            )?;
            let report: DirectionsReport = read_report(&json)?;
            print(&json, rod.json, || text::directions(&report))?;
            Ok(report.recommended.direction.state.into())
        }
        HostQuestion::Sweep(sweep) => {
            let speeds = &sweep.speeds;
            let count = u32::try_from(speeds.count).unwrap_or(u32::MAX);
            let json = session.sweep(&stl, &job, speeds.from, speeds.to, count, stress(&sweep.field))?;
            let report: SweepReport = read_report(&json)?;
            print(&json, rod.json, || text::sweep(&report))?;
            Ok(Outcome::Good)
        }
        HostQuestion::Walls(walls) => {
            let json = session.walls(&stl, &job, walls.least_mm)?;
            let report: WallsReport = read_report(&json)?;
            print(&json, rod.json, || text::walls(&report))?;
            Ok(Outcome::Good)
        }
    }
}

/// How the plugin is to find the stress.
fn stress(field: &FieldCells) -> Stress {
    field.request().map_or(Stress::Sections, |field| Stress::Cells(u32::try_from(field.cells).unwrap_or(u32::MAX)))
}

/// Starts the plugin within its limits.
fn open(arguments: &HostArguments) -> Result<Session, HostError> {
    let usual = Limits::default();
    let limits = Limits {
        memory_mib: arguments.memory_mib.unwrap_or(usual.memory_mib),
        deadline: arguments.deadline_ms.map_or(usual.deadline, Duration::from_millis),
    };
    let cache = if arguments.no_cache { None } else { cache() };
    let plugin = PluginHost::new(cache)?.load(&arguments.plugin)?;
    let mut bar = StageBar::new();
    plugin.open(limits, Cancel::new(), move |stage, _, _| bar.show(stage))
}

/// The user's cache; without one the plugin is compiled each time, which is said.
fn cache() -> Option<Cache> {
    match Cache::open_of_user() {
        Ok(cache) => Some(cache),
        Err(error) => {
            eprintln!("note: the compiled plugin is not kept: {}", visible(&error.to_string()));
            None
        }
    }
}

/// A plugin's JSON is no more to be trusted than the plugin.
fn read_report<T: DeserializeOwned>(json: &str) -> Result<T, Failure> {
    serde_json::from_str(json).map_err(|error| Failure::Refused {
        message: format!("the plugin's report is not of this program's form: {error}"),
        help: "use a plugin built from the same version".into(),
    })
}

/// Prints the plugin's own bytes, or the report in words.
fn print(json: &str, as_json: bool, words: impl FnOnce() -> String) -> Result<(), Failure> {
    if as_json { print_json_text(json) } else { print_text(&words()) }
}
