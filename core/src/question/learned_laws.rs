//! What the model says of each run of a log: a part is cut once, and its field is solved once for each way of printing it.

use super::trial::corrected;
use crate::Error;
use crate::job::{Job, PrintTable, resolve};
use crate::kind::{Correction, LoadedPart, Question, Sizes, Trials, Watcher};
use crate::life::WeakestLink;
use crate::verdict::FieldRequest;

/// Laws of life for runs: those of one part in one job have one law.
pub(super) struct Laws<'a> {
    field: Option<FieldRequest>,
    parts: Vec<CutPart<'a>>,
    asked: Vec<Asked<'a>>,
    pub(super) found: Vec<(WeakestLink, String)>,
    /// One for each run, by index into `found`.
    pub(super) of_run: Vec<usize>,
}

/// A part cut, and raised to the field of a print.
struct CutPart<'a> {
    part: &'a LoadedPart,
    stations: usize,
    /// What the raised sections belong to; nothing counts where no field is asked for.
    print: Option<PrintTable>,
    trials: Box<dyn Trials>,
}

/// A question that was asked before.
struct Asked<'a> {
    part: &'a LoadedPart,
    job: Job,
    /// Where its texts lie: jobs of one log share them.
    texts: [Option<*const u8>; 2],
}

impl<'a> Laws<'a> {
    pub(super) fn new(field: Option<FieldRequest>) -> Self {
        Self { field, parts: Vec::new(), asked: Vec::new(), found: Vec::new(), of_run: Vec::new() }
    }

    /// Number of the law of a part in a job.
    pub(super) fn of_job(
        &mut self,
        part: &'a LoadedPart,
        question: &Question<'_>,
        watcher: &mut dyn Watcher,
    ) -> Result<usize, Error> {
        let texts = [question.card_text, question.pressure_text].map(|text| text.map(str::as_ptr));
        let same =
            |asked: &Asked<'_>| std::ptr::eq(asked.part, part) && asked.job == *question.job && asked.texts == texts;
        if let Some(known) = self.asked.iter().position(same) {
            return Ok(known);
        }
        let place = self.cut(part, question, watcher)?;
        let trial = self.parts[place].trials.assessed(question, &Sizes::default())?;
        self.found.push((trial.link, trial.place));
        self.asked.push(Asked { part, job: question.job.clone(), texts });
        Ok(self.found.len() - 1)
    }

    /// Takes what a check of a part in a job has solved already.
    pub(super) fn solved(
        &mut self,
        part: &'a LoadedPart,
        question: &Question<'_>,
        stations: usize,
        correction: &Correction,
    ) {
        let mut trials = part.part.clone().trials(part, stations);
        trials.take(correction);
        self.parts.push(CutPart { part, stations, print: Some(question.job.print.clone()), trials });
    }

    /// Number of a part cut as a job asks, and raised to the field where there is one.
    fn cut(
        &mut self,
        part: &'a LoadedPart,
        question: &Question<'_>,
        watcher: &mut dyn Watcher,
    ) -> Result<usize, Error> {
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let print = self.field.map(|_| question.job.print.clone());
        let same =
            |cut: &CutPart<'_>| std::ptr::eq(cut.part, part) && cut.stations == scenario.stations && cut.print == print;
        if let Some(known) = self.parts.iter().position(same) {
            return Ok(known);
        }
        let mut trials = part.part.clone().trials(part, scenario.stations);
        if let Some(field) = self.field {
            corrected(&mut *trials, part, question, field, watcher)?;
        }
        self.parts.push(CutPart { part, stations: scenario.stations, print, trials });
        Ok(self.parts.len() - 1)
    }
}
