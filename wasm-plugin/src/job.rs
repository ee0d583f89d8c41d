//! The job a host fills in.

use std::cell::{Ref, RefCell};

use layload_core::Question;
use layload_core::job::{Job, JobError};

use crate::interface::checker::{
    CrownLayer, Duty, Engine, GuestJob, Job as JobHandle, Material, NamedFile, PartNotes, Print, Refusal, Surroundings,
};
use crate::record;

/// A job with the texts of the files it names.
#[derive(Debug, Default)]
pub(crate) struct Texts {
    pub(crate) job: Job,
    card: Option<String>,
    pressure: Option<String>,
}

impl Texts {
    /// The question for the core.
    pub(crate) fn question(&self) -> Question<'_> {
        Question { job: &self.job, card_text: self.card.as_deref(), pressure_text: self.pressure.as_deref() }
    }
}

/// A job that lives as long as its handle.
#[derive(Debug, Default)]
pub(crate) struct HeldJob(RefCell<Texts>);

impl HeldJob {
    /// The job as it is now.
    pub(crate) fn texts(&self) -> Ref<'_, Texts> {
        self.0.borrow()
    }

    fn change(&self, change: impl FnOnce(&mut Job)) {
        change(&mut self.0.borrow_mut().job);
    }
}

impl GuestJob for HeldJob {
    fn new() -> Self {
        Self::default()
    }

    fn from_text(text: String) -> Result<JobHandle, Refusal> {
        let texts = Texts { job: Job::from_toml(&text)?, card: None, pressure: None };
        Ok(JobHandle::new(Self(RefCell::new(texts))))
    }

    fn to_text(&self) -> Result<String, Refusal> {
        Ok(self.texts().job.to_toml()?)
    }

    fn key(&self, name: String) -> Result<Option<String>, Refusal> {
        Ok(self.texts().job.key(&name)?)
    }

    fn set_key(&self, name: String, value: Option<String>) -> Result<(), Refusal> {
        Ok(self.0.borrow_mut().job.set_key(&name, value.as_deref())?)
    }

    fn title(&self) -> Option<String> {
        self.texts().job.title.clone()
    }

    fn set_title(&self, title: Option<String>) {
        self.change(|job| job.title = title);
    }

    fn engine(&self) -> Engine {
        record::engine(&self.texts().job.engine)
    }

    fn set_engine(&self, engine: Engine) {
        self.change(|job| record::set_engine(&mut job.engine, &engine));
    }

    fn part_notes(&self) -> PartNotes {
        record::part_notes(&self.texts().job.part)
    }

    fn set_part_notes(&self, notes: PartNotes) {
        self.change(|job| record::set_part_notes(&mut job.part, &notes));
    }

    fn print(&self) -> Print {
        record::print(&self.texts().job.print)
    }

    fn set_print(&self, print: Print) {
        self.change(|job| record::set_print(&mut job.print, &print));
    }

    fn material(&self) -> Material {
        record::material(&self.texts().job.material)
    }

    fn set_material(&self, material: Material) {
        let mut texts = self.0.borrow_mut();
        if material.name.is_some() {
            texts.card = None;
        }
        record::set_material(&mut texts.job.material, material);
    }

    fn surroundings(&self) -> Surroundings {
        record::surroundings(&self.texts().job.surroundings)
    }

    fn set_surroundings(&self, surroundings: Surroundings) {
        self.change(|job| record::set_surroundings(&mut job.surroundings, &surroundings));
    }

    fn duty(&self) -> Duty {
        record::duty(&self.texts().job.duty)
    }

    fn set_duty(&self, duty: Duty) {
        self.change(|job| record::set_duty(&mut job.duty, &duty));
    }

    fn crown_layers(&self) -> Vec<CrownLayer> {
        self.texts().job.piston.layers.iter().map(record::crown_layer).collect()
    }

    fn set_crown_layers(&self, layers: Vec<CrownLayer>) {
        self.change(|job| job.piston.layers = layers.into_iter().map(record::layer_table).collect());
    }

    fn missing_files(&self) -> Vec<NamedFile> {
        let texts = self.texts();
        let card = texts.job.material.card_file.clone().filter(|_| texts.card.is_none());
        let pressure = texts.job.engine.gas.pressure_table.clone().filter(|_| texts.pressure.is_none());
        let named = |name: Option<String>, purpose: &str| name.map(|name| NamedFile { name, purpose: purpose.into() });
        let history = texts.job.history.table.clone();
        let files = [(card, "material-card"), (pressure, "pressure-table"), (history, "history")];
        files.into_iter().filter_map(|(name, purpose)| named(name, purpose)).collect()
    }

    fn attach_card(&self, text: String) {
        let mut texts = self.0.borrow_mut();
        texts.job.material.name = None;
        texts.job.material.card_file.get_or_insert_with(|| "card.toml".into());
        texts.card = Some(text);
    }

    fn attach_pressure_table(&self, text: String) {
        let mut texts = self.0.borrow_mut();
        texts.job.engine.gas.peak_pressure_bar = None;
        texts.job.engine.gas.pressure_table.get_or_insert_with(|| "pressure.csv".into());
        texts.pressure = Some(text);
    }

    fn attach_history(&self, text: String) -> Result<(), Refusal> {
        Ok(self.0.borrow_mut().job.history.take(&text).map_err(JobError::from)?)
    }
}
