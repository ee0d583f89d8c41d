use nalgebra::Vector3;

use super::assess::{PistonAssessment, assess_piston};
use super::field::{PistonField, PistonFieldFindings, named, raised};
use super::loading::PistonLoading;
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::warm::WarmPiston;
use super::warmed::WarmedPiston;
use crate::Error;
use crate::job::Scenario;
use crate::kind::{Checkable, Loaded, Stage, Warm, Watcher, stage};
use crate::print::PrintSettings;
use crate::verdict::NamedStrength;
use crate::verdict::field::FieldRequest;

impl Checkable for PreparedPiston {
    fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    fn print(&self) -> &PrintSettings {
        &self.print
    }

    fn load(&self) -> Result<Box<dyn Loaded + '_>, Error> {
        Ok(Box::new(LoadedPiston::new(self.clone())?))
    }
}

/// A piston measured and driven.
pub(super) struct LoadedPiston {
    pub(crate) prepared: PreparedPiston,
    pub(crate) model: PistonModel,
    pub(crate) loading: PistonLoading,
    pub(crate) field: Option<FieldOfPiston>,
}

/// A stress field solved for a piston, with what plates, rings and cuts said before.
pub(crate) struct FieldOfPiston {
    pub(crate) findings: PistonFieldFindings,
    pub(crate) sections: PistonAssessment,
    /// At which it was solved.
    pub(crate) warm: WarmPiston,
}

impl LoadedPiston {
    pub(crate) fn new(prepared: PreparedPiston) -> Result<Self, Error> {
        let model = prepared.model()?;
        let loading = prepared.loading(&model)?;
        Ok(Self { prepared, model, loading, field: None })
    }

    /// Temperatures of the duty.
    pub(crate) fn warmth(&self) -> Result<WarmPiston, Error> {
        let PreparedPiston { scenario, given, .. } = &self.prepared;
        Ok(WarmPiston::new(&self.model, &self.loading, scenario, given, &scenario.card, 1.0)?)
    }

    /// An assessment of the duty with the field's own places in it, where there is a field.
    pub(crate) fn told(&self, assessment: PistonAssessment) -> PistonAssessment {
        match &self.field {
            Some(field) => named(assessment, field.sections.clone(), &field.findings),
            None => assessment,
        }
    }

    /// The field over the duty, solved for the part as it stands.
    pub(crate) fn solved(
        &self,
        (request, facets): (FieldRequest, bool),
        watcher: &mut dyn Watcher,
    ) -> Result<FieldOfPiston, Error> {
        stage(watcher, Stage::Field)?;
        let warm = self.warmth()?;
        let case = self.prepared.case(&self.model, &self.loading, &warm, 1.0);
        let sections = assess_piston(&case, &self.prepared.scenario.card)?;
        let mut solving = |name: &str, number: usize, of: usize| watcher.solving(name, number, of);
        let field = PistonField::new(&case, &self.prepared.piston, request, &mut solving)?;
        let findings = field.findings(&case, &sections, facets, &mut solving)?;
        Ok(FieldOfPiston { findings, sections, warm })
    }
}

impl Loaded for LoadedPiston {
    fn plastic(&self) -> f64 {
        self.model.mass.plastic()
    }

    fn solve_field(&mut self, request: FieldRequest, facets: bool, watcher: &mut dyn Watcher) -> Result<(), Error> {
        let field = self.solved((request, facets), watcher)?;
        let case = self.prepared.case(&self.model, &self.loading, &field.warm, 1.0);
        self.prepared.raise = raised(&field.findings, &case, &self.prepared.scenario.card)?;
        self.field = Some(field);
        Ok(())
    }

    fn warm(&self) -> Result<Box<dyn Warm + '_>, Error> {
        Ok(Box::new(WarmedPiston::new(self)?))
    }

    fn printed_along(
        &self,
        build: &Vector3<f64>,
        field: Option<FieldRequest>,
        watcher: &mut dyn Watcher,
    ) -> Result<NamedStrength, Error> {
        let print = PrintSettings { build: *build, ..self.prepared.print }.checked()?;
        let mut loaded = Self::new(self.prepared.posed(print))?;
        if let Some(wanted) = field {
            loaded.solve_field(wanted, false, watcher)?;
        }
        Ok(WarmedPiston::new(&loaded)?.whole()?.strength.named())
    }
}

/// Solves the stress field of a piston over its duty and says where it finds the most harm.
///
/// # Errors
///
/// Where the part cannot be cut or driven, the field cannot be solved, or the watcher stops it.
pub fn stress_field(
    prepared: &PreparedPiston,
    request: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<PistonFieldFindings, Error> {
    stage(watcher, Stage::Cutting)?;
    Ok(LoadedPiston::new(prepared.clone())?.solved((request, false), watcher)?.findings)
}
