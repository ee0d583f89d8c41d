use std::sync::{Arc, OnceLock};

use super::prepared::PreparedAny;
use crate::Error;
use crate::job::resolve_pace;
use crate::kind::{LoadedPart, Question, Sizes, Trial, Trials};
use crate::orient::{Posed, Shape};
use crate::part::AnyPart;
use crate::print::PrintSettings;

/// A part of any kind asked many times: it has no sections by which that would be quick.
pub(crate) struct TrialAny {
    part: Arc<AnyPart>,
    file: LoadedPart,
    shape: OnceLock<Shape>,
}

impl TrialAny {
    pub(crate) fn new(part: Arc<AnyPart>, file: &LoadedPart) -> Self {
        Self { shape: OnceLock::new(), file: file.clone(), part }
    }
}

impl Trials for TrialAny {
    fn assessed(&self, _: &Question<'_>, _: &Sizes) -> Result<Trial, Error> {
        Err(Error::FieldOnly)
    }

    fn posed(&self, question: &Question<'_>, _: &Sizes) -> Result<(PrintSettings, Posed), Error> {
        let prepared = PreparedAny::new(self.part.clone(), &self.file, question)?;
        let (pace, _) = resolve_pace(question.job)?;
        let shape = self.shape.get_or_init(|| Shape::new(&self.part.mesh));
        let posed = shape.posed(&prepared.print.build, pace.overhang, prepared.print.layer_height);
        Ok((prepared.print, posed))
    }
}
