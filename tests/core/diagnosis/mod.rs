//! Reading a break: descriptions in words of the trade, breaks by simulation, places and bad input.

mod breaks;
mod descriptions;
mod slips;

use layload_core::diagnosis::Look;
use layload_core::job::{Job, NamedPose};
use layload_core::report::DiagnosisReport;
use layload_core::{Error, LoadedPart, Question, SeenAt, SeenBreak, diagnose, load};

use super::mesh::files;

/// A part and its job.
pub(super) struct Case {
    pub(super) part: LoadedPart,
    pub(super) job: Job,
}

impl Case {
    pub(super) fn new(mesh: &str, job: &str) -> Self {
        let text = String::from_utf8(files::bytes(&format!("samples/{job}.toml")).unwrap()).unwrap();
        let job = Job::from_toml(&text).unwrap();
        let part = load(&files::bytes(&format!("samples/{mesh}.stl")).unwrap(), &job, &mut ()).unwrap();
        Self { part, job }
    }

    /// A rod printed standing on its end, so that the pull parts its layers.
    pub(super) fn upright() -> Self {
        let mut case = Self::new("plain_rod", "bench_single");
        case.job.print.build_direction = Some(layload_core::job::BuildDirection::Named(NamedPose::Upright));
        case
    }

    pub(super) fn told(&self, seen: &SeenBreak) -> Result<DiagnosisReport, Error> {
        let question = Question { job: &self.job, card_text: None, pressure_text: None };
        diagnose(&self.part, &question, seen, None, &mut ())
    }
}

/// A break in words: looks with commas between, a place, speed and time; 0 where they are not known.
pub(super) fn seen(looks: &str, at: &str, rpm: f64, seconds: f64) -> SeenBreak {
    let given = |value: f64| (value > 0.0).then_some(value);
    SeenBreak {
        looks: looks.split(',').filter(|word| !word.trim().is_empty()).map(|word| Look::named(word).unwrap()).collect(),
        at: (!at.is_empty()).then(|| SeenAt::Words(at.into())),
        rpm: given(rpm),
        throttle: None,
        seconds: given(seconds),
        ..SeenBreak::default()
    }
}
